//! One page to keep with the garment: what was done, with what, and room for what the maker alone knows.

use super::compose::{Composer, READ, Section};
use super::table::{Cell, Column, Table};
use crate::plan::Plan;
use crate::write::figures::{both, closures, heat, listed, repeat_both};
use crate::write::{chalk, shopping};

/// Height of a line to write on, mm.
const WRITING: f64 = 9.5;

pub(crate) fn section(plan: &Plan) -> Section {
    let spares: u32 = plan.pieces.kinds.iter().map(|kind| kind.spares).sum();
    let keep = if spares > 0 { "one test piece and the spares" } else { "one test piece" };
    let intro = format!(
        "Keep {keep} with this page. Follow the film maker's care advice; where there is none, wash cool, inside out, and iron \
         only from the wrong side under a cloth."
    );
    let mut composer = Composer::new("Record to keep with the garment", &intro);
    let mut table = columns("What was planned");
    for (what, value) in planned(plan) {
        table.row(vec![Cell::Strong(what.to_owned()), value.into()]);
    }
    composer.table(&table);
    let lines = [
        "Made by, for whom",
        "Begun, finished",
        "Film batch numbers",
        "Plate and seconds, as pressed",
        "Pressure, cover sheet",
        "What the test showed",
        "Spare pieces kept where",
        "Washed or cleaned, how",
        "Repairs",
    ];
    let mut table = columns("To be written by hand").least_height(WRITING);
    for what in lines {
        table.row(vec![Cell::Strong(what.to_owned()), Cell::Blank]);
    }
    composer.table(&table);
    composer.finish()
}

fn columns(second: &'static str) -> Table {
    Table::new(second, vec![Column::left("", 52.0), Column::left(second, 138.0)]).size(READ)
}

fn planned(plan: &Plan) -> Vec<(&'static str, String)> {
    let motifs: Vec<String> =
        plan.motifs.values().map(|motif| format!("{} ({} × {})", motif.name, motif.width, motif.height)).collect();
    // A film bought in two sizes is still one film.
    let mut films: Vec<String> = shopping::rows(plan).iter().map(|row| shopping::film_words(row.film)).collect();
    films.dedup();
    let mut rows = vec![
        ("Garment", plan.job.name.clone()),
        ("Cloth", plan.job.press.cloth.replace('-', " ")),
        ("Hem", both(chalk::hem_length(plan))),
        ("Motifs", listed(&motifs)),
    ];
    for band in &plan.setting.bands {
        let what = format!("{} at {}, repeat {}", band.count_in_words(), both(band.height), repeat_both(band));
        rows.push(("Band", format!("{}: {what}", band.name)));
    }
    rows.push(("Films or cloths", films.join("; ")));
    if let Some(closure) = plan.press.closures.first() {
        rows.push(("Plate, planned", heat(closure.temperature)));
    }
    rows.push(("Closures, planned", format!("{}; {} in all", closures(plan), plan.at_press.total())));
    rows
}
