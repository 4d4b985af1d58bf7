//! The garment in several sizes side by side: counts, gaps, and where a size departs from the first.

use super::compose::{Before, Composer, Section};
use super::table::{Cell, Column, Table};
use crate::place::{Lands, SizePolicy};
use crate::plan::{BandSizes, Plan};
use crate::write::figures::{both, repeat_both};

/// Empty where the job has one size.
pub(crate) fn section(plan: &Plan) -> Section {
    if plan.sizes.is_empty() {
        return Section { title: String::new(), leaves: Vec::new() };
    }
    let (common, others) = match plan.job.sizes.policy {
        SizePolicy::SameCount => (
            "All sizes have the same count, the largest that suits every size; gaps differ. This book is planned with it.",
            "plan the others from their own measurements, each band with this count",
        ),
        SizePolicy::SameGap => {
            ("All sizes keep the gap asked for; counts differ.", "plan the others from their own measurements")
        }
    };
    let first = format!(
        "{common} Chalk list, sheets and press plan of this book are for the size \"{}\"; {others}.",
        plan.job.sizes.own
    );
    let mut composer = Composer::new("Sizes", &first);
    for band in &plan.sizes {
        whole_band(&mut composer, band);
    }
    composer.finish()
}

fn whole_band(composer: &mut Composer, band: &BandSizes) {
    composer.heading(&band.band);
    let columns = vec![
        Column::left("Size", 24.0),
        Column::left("Motif line", 42.0),
        Column::right("Count", 14.0),
        Column::left("Repeat", 38.0),
        Column::left("Gap", 34.0),
        Column::left("On CF, on CB", 38.0),
    ];
    let mut table = Table::new("Sizes side by side", columns);
    for row in &band.card.rows {
        table.row(vec![
            Cell::Strong(row.name.clone()),
            both(row.band.line).into(),
            row.band.count_in_words().into(),
            repeat_both(&row.band).into(),
            both(row.band.gap_along).into(),
            format!("{}, {}", lands(row.band.on_cf), lands(row.band.on_cb)).into(),
        ]);
    }
    composer.table(&table);
    let told = |row: &crate::place::SizeRow| {
        row.warnings.iter().map(|warning| format!("{}: {warning}.", row.name)).collect::<Vec<_>>()
    };
    let warnings: Vec<String> = band.card.rows.iter().flat_map(told).collect();
    composer.list(Before::Dot, &warnings);
}

const fn lands(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "motif",
        Lands::Gap => "gap",
        Lands::Between => "neither",
    }
}
