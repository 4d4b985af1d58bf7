//! The shopping list: films by sheet or length, pieces to count by, and what one spare more or less changes.

use super::compose::{Before, Composer, READ, Section};
use super::table::{Cell, Column, Table};
use crate::plan::{ON_NO_SHEET, Plan};
use crate::write::figures::{all_for_both, counted, inches};
use crate::write::{shopping, style};

pub(crate) fn section(plan: &Plan) -> Section {
    let batch = "Buy everything of one colour at once and from one batch: colours differ from batch to batch.";
    let mut composer = Composer::new("Shopping list", format!("{batch} {}", all_for_both(plan)).trim_end());
    for finding in plan.findings.iter().filter(|finding| finding.kind == ON_NO_SHEET) {
        composer.notice(style::STOP, &finding.say, &finding.advice);
    }
    films(&mut composer, plan);
    let alternatives: Vec<String> = shopping::alternatives(plan).iter().map(shopping::Alternative::words).collect();
    if !alternatives.is_empty() {
        composer.heading("What another choice would change");
        composer.list(Before::Dot, &alternatives);
    }
    other_goods(&mut composer, plan);
    also(&mut composer, plan);
    pieces(&mut composer, plan);
    composer.finish()
}

fn films(composer: &mut Composer, plan: &Plan) {
    let rows = shopping::rows(plan);
    let columns = vec![
        Column::left("", 7.0),
        Column::left("Film or cloth", 50.0),
        Column::left("Size", 60.0),
        Column::left("How many", 34.0),
        Column::right("Each", 18.0),
        Column::right("In all", 21.0),
    ];
    let mut table = Table::new("Films and cloths to buy, with sizes, numbers and prices", columns).size(READ);
    for row in &rows {
        let size = match row.stock.height {
            Some(height) => format!("{} ({} × {})", row.stock.name, inches(row.stock.width), inches(height)),
            None => format!("{} ({} wide)", row.stock.name, inches(row.stock.width)),
        };
        table.row(vec![
            Cell::Tick,
            Cell::Strong(shopping::film_words(row.film)),
            size.into(),
            Cell::Strong(shopping::count_words(row)),
            row.stock.price.map_or_else(String::new, |price| format!("{price:.2}")).into(),
            row.price_words().into(),
        ]);
    }
    if let Some(total) = shopping::total(&rows).filter(|_| rows.len() > 1) {
        let empty = || Cell::Words(String::new());
        table.row(vec![
            empty(),
            Cell::Strong("together".to_owned()),
            empty(),
            empty(),
            empty(),
            Cell::Strong(format!("{total:.2}")),
        ]);
    }
    composer.table(&table);
}

/// Braid, lace, cloth and cord for the trims, web and thread for cloth pieces; nothing where the job has neither.
fn other_goods(composer: &mut Composer, plan: &Plan) {
    let rows = shopping::other_goods(plan);
    if rows.is_empty() {
        return;
    }
    composer.heading(match (plan.trims.is_empty(), plan.fabric.is_empty()) {
        (false, true) => "For the trims",
        (true, _) => "For the cloth pieces",
        (false, false) => "For trims and cloth pieces",
    });
    let columns = vec![
        Column::left("", 7.0),
        Column::left("What", 92.0),
        Column::left("How much", 61.0),
        Column::right("In all", 30.0),
    ];
    let mut table = Table::new("What trims and cloth pieces need beside film and cloth", columns).size(READ);
    for row in rows {
        let price = row.price.map_or_else(|| "not given".to_owned(), |price| format!("{price:.2}"));
        table.row(vec![Cell::Tick, Cell::Strong(row.what), Cell::Strong(row.amount), price.into()]);
    }
    composer.table(&table);
}

fn also(composer: &mut Composer, plan: &Plan) {
    composer.heading("Have at hand");
    let pressed = [
        "a scrap of the same cloth for the test card, large enough for two motifs",
        "a cover sheet or press cloth as the film maker's sheet asks for",
    ];
    let sewn = [
        "a scrap of the same cloth to try one piece on",
        "small sharp scissors, needles, pins, thread for tacking and for sewing",
        "chalk that brushes out, a tape measure, weights, glue or tape for the template",
    ];
    let cut = [
        "scissors for the carrier, a hook or pin for lifting the waste, tape that leaves no trace",
        "chalk that brushes out, a tape measure, weights, glue or tape for the template",
    ];
    let things: Vec<&str> = match plan.at_press.closures() {
        0 => sewn.to_vec(),
        _ => pressed.into_iter().chain(cut).collect(),
    };
    composer.list(Before::Box, &things);
}

fn pieces(composer: &mut Composer, plan: &Plan) {
    composer.heading("Pieces, to count by");
    let columns = vec![
        Column::left("Piece", 62.0),
        Column::left("From", 34.0),
        Column::right("Needed", 22.0),
        Column::right("Spare", 20.0),
        Column::right("Test", 18.0),
        Column::right("Cut in all", 34.0),
    ];
    let mut table = Table::new("Pieces of each kind with how many are needed, spare and for tests", columns);
    for kind in &plan.pieces.kinds {
        table.row(vec![
            Cell::Swatch(style::Ink::from(kind.colour), kind.name.clone()),
            kind.film.as_str().into(),
            kind.needed.to_string().into(),
            kind.spares.to_string().into(),
            kind.tests.to_string().into(),
            Cell::Strong(kind.quantity().to_string()),
        ]);
    }
    composer.table(&table);
    let all: u64 = plan.pieces.kinds.iter().map(|kind| u64::from(kind.quantity())).sum();
    let all = usize::try_from(all).unwrap_or(usize::MAX);
    composer.note(&format!(
        "{} in all, in {}.",
        counted(all, "piece", "pieces"),
        counted(plan.pieces.kinds.len(), "kind", "kinds")
    ));
}
