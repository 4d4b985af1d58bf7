//! `hemwright counts`: neighbouring counts of a band side by side, one of them recommended.

use std::fmt::Write as _;

use hemwright::nest::Effort;
use hemwright::place::{self, CountRow, Garments, TightRow};
use hemwright::plan::{self, Cost};
use hemwright::quantity::Mm;

use super::args::JobArgs;
use super::input::{self, Input};
use super::progress::{self, Steps};
use super::say;
use super::summary::lands_words;
use super::table::Columns;
use super::trouble::Trouble;

pub(crate) fn run(args: &JobArgs) -> Result<(), Trouble> {
    let input = input::read(args)?;
    progress::listen();
    say::out(&card(&input)?)
}

/// The card of every band.
fn card(input: &Input) -> Result<String, Trouble> {
    let job = &input.job;
    let located = |fault: plan::Error| input::trouble(input.source.as_ref(), fault);
    let set = plan::set_out(job, &input.art).map_err(located)?;
    let mut text = String::new();
    for (band, wish) in set.bands.iter().enumerate() {
        let card = place::counts(&set.hem, &set.motifs, &set.bands, band).map_err(|fault| located(fault.into()))?;
        let mut columns = Columns::new();
        columns.row([
            "", "count", "repeat", "gap", "tightest", "on CF", "on CB", "sheets", "cost", "presses", "press", "look at",
        ]);
        // What a row tells of sheets and presses is that of the layout it shows.
        let way = |(index, row): (usize, &CountRow)| {
            if index == card.recommended { set.bands.clone() } else { place::compared(&set.bands, band, row.count) }
        };
        let ways: Vec<_> = card.rows.iter().enumerate().map(way).collect();
        let costs = plan::costs(job, &set, &ways, &Steps::new());
        if progress::cut_short() {
            return Err(Trouble::Stopped);
        }
        for (index, (row, cost)) in card.rows.iter().zip(&costs).enumerate() {
            let mark = if index == card.recommended { ">" } else { "" };
            columns.row(cells(mark, row, cost.as_ref()).each_ref().map(String::as_str));
        }
        let costed = costs.iter().any(Option::is_some);
        writeln!(text, "{}\n{columns}", wish.name).expect("writing to a String cannot fail");
        if costed && job.effort != Effort::Quick {
            text.push_str("  sheets and cost are those of a quick search, so that counts compare; the plan searches longer and may need less\n");
        }
        if job.garments == Garments::MirroredPair {
            text.push_str("  sheets, cost, presses and press are for both of the pair; the counts are those of each\n");
        }
        let crossed =
            |(index, row): (usize, &CountRow)| index != card.recommended && row.even && !row.clashes.is_empty();
        if card.rows.iter().enumerate().any(crossed) {
            text.push_str(EVENLY);
        }
        for reason in &card.reasons {
            writeln!(text, "  {reason}").expect("writing to a String cannot fail");
        }
        if !card.remedies.is_empty() {
            text.push_str("\n  What else could be done, the least change first:\n");
        }
        for remedy in &card.remedies {
            writeln!(text, "  - {}", remedy.say).expect("writing to a String cannot fail");
        }
        text.push('\n');
    }
    Ok(text)
}

/// Which layout the rows beside the marked one speak of.
const EVENLY: &str = "  each row tells of one layout: the counts beside the marked one are spread evenly, with the sheets and presses of that;\n  \
                      asked for by count, one too near a seam is planned stretch by stretch where that clears it\n";

fn cells(mark: &str, row: &CountRow, cost: Option<&Cost>) -> [String; 12] {
    let unknown = || "-".to_owned();
    [
        mark.to_owned(),
        row.count.to_string(),
        row.repeat.to_string(),
        row.gap_along.to_string(),
        row.clear_gap.as_ref().map_or_else(|| "-".to_owned(), |gap| gap.least.to_string()),
        lands_words(row.on_cf).to_owned(),
        lands_words(row.on_cb).to_owned(),
        cost.map_or_else(unknown, film_words),
        cost.and_then(|cost| cost.price).map_or_else(unknown, |price| format!("{price:.2}")),
        cost.map_or_else(unknown, |cost| cost.closures.to_string()),
        cost.map_or_else(unknown, |cost| cost.press.to_string()),
        look_at(row),
    ]
}

/// `3`, `1.24 m` off rolls, or `2 + 1.24 m`.
fn film_words(cost: &Cost) -> String {
    let roll = format!("{:.2} m", cost.roll.get() / 1000.0);
    match (cost.sheets, cost.roll > Mm::ZERO) {
        (sheets, false) => sheets.to_string(),
        (0, true) => roll,
        (sheets, true) => format!("{sheets} + {roll}"),
    }
}

/// What to look at with this count: neighbours that are too near each other, then what comes nearest to a seam or another place to
/// keep clear.
fn look_at(row: &CountRow) -> String {
    // Figures beside it are those of the first row; another's gap is told with it.
    let there = |tight: &TightRow| match tight.number {
        Some(1) => " in row 1".to_owned(),
        Some(number) => format!(" in row {number}, {}", tight.gap),
        None => String::new(),
    };
    let neighbours = match (&row.clear_under, &row.too_small) {
        (Some(tight), _) if tight.gap <= Mm::ZERO => {
            Some(format!("motifs touch{}", tight.number.map(|number| format!(" in row {number}")).unwrap_or_default()))
        }
        (_, Some(tight)) => Some(format!("gap too small{}", there(tight))),
        (Some(tight), None) => Some(format!("tightest{} under {}", there(tight), tight.wanted)),
        (None, None) => None,
    };
    let size = ((row.size - 1.0).abs() > 5e-4).then(|| format!("motifs at {:.1} %", row.size * 100.0));
    let nearest = row.clashes.iter().min_by(|a, b| a.clear.total_cmp(&b.clear)).map(|clash| {
        let how = if clash.clear < Mm::ZERO {
            format!("{} {} over {}", clash.placement, clash.clear.abs(), clash.with)
        } else {
            format!("{} {} from {}", clash.placement, clash.clear, clash.with)
        };
        match row.clashes.len() - 1 {
            0 => how,
            more => format!("{how}, and {more} more"),
        }
    });
    size.into_iter().chain(neighbours).chain(nearest).collect::<Vec<_>>().join("; ")
}
