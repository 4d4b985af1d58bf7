//! Braid, facing, lace, pleats and the rest: lengths, strips and cloth with their sums, and the time and weight of it all.

use super::compose::{Before, Composer, Section};
use super::table::{Cell, Column, Table};
use crate::place::Garments;
use crate::plan::Plan;
use crate::trims::TrimNeed;
use crate::write::{style, time_and_weight, trim_facts};

/// Empty where the job names no trims and no work is counted.
pub(crate) fn section(plan: &Plan) -> Section {
    if plan.trims.is_empty() && plan.budget.tasks.is_empty() {
        return Section { title: String::new(), leaves: Vec::new() };
    }
    let mut composer = Composer::new(
        "Trims, time and weight",
        match plan.job.garments {
            Garments::One => {
                "What else the hem needs, each with its sum. Sew trims on after pressing unless the order of work says otherwise."
            }
            Garments::MirroredPair => {
                "What else the hems need, each with its sum: lengths and edges of each of the pair; strips, what to buy, time and \
                 weight for both. Sew trims on after pressing unless the order of work says otherwise."
            }
        },
    );
    for need in &plan.trims {
        trim(&mut composer, need);
    }
    time(&mut composer, plan);
    composer.finish()
}

fn trim(composer: &mut Composer, need: &TrimNeed) {
    composer.heading(&format!("{}: {}", need.name, need.kind));
    let mut table = Table::new(
        format!("Lengths of {}", need.name),
        vec![Column::left("What", 62.0), Column::left("How much", 128.0)],
    );
    for (what, value) in trim_facts::rows(need) {
        table.row(vec![Cell::Strong(what.to_owned()), value.into()]);
    }
    composer.table(&table);
    composer.list(Before::Dot, &need.working);
    for warning in &need.warnings {
        composer.notice(style::CARE, "Look at this", warning);
    }
}

fn time(composer: &mut Composer, plan: &Plan) {
    if plan.budget.tasks.is_empty() {
        return;
    }
    composer.heading("Time");
    let columns = vec![Column::left("Work", 52.0), Column::left("How", 98.0), Column::right("Minutes", 40.0)];
    let mut table = Table::new("Work with its time", columns);
    for task in &plan.budget.tasks {
        table.row(vec![
            Cell::Strong(task.what.clone()),
            task.working.as_str().into(),
            format!("{:.0}", task.minutes.usual).into(),
        ]);
    }
    composer.table(&table);
    composer.note(&time_and_weight::in_all(plan));
}
