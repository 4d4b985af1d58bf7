//! The garment in its sizes side by side.

use serde::Serialize;

use super::setting::lands;
use crate::place::{SizePolicy, SizeRow};
use crate::plan::{BandSizes, Plan};
use crate::quantity::Mm;

#[derive(Serialize)]
pub(super) struct WrittenSizes<'a> {
    /// The size that the rest of the file is for.
    own: &'a str,
    policy: &'static str,
    bands: Vec<WrittenBandSizes<'a>>,
}

#[derive(Serialize)]
struct WrittenBandSizes<'a> {
    band: &'a str,
    sizes: Vec<WrittenSize<'a>>,
}

#[derive(Serialize)]
struct WrittenSize<'a> {
    name: &'a str,
    line_mm: f64,
    count: u32,
    count_along: u32,
    count_in_corners: u32,
    repeat_mm: f64,
    gap_along_mm: f64,
    least_clear_gap_mm: Option<f64>,
    on_cf: &'static str,
    on_cb: &'static str,
    warnings: &'a [String],
}

/// `None` where the job has one size.
pub(super) fn sizes(plan: &Plan) -> Option<WrittenSizes<'_>> {
    let policy = match plan.job.sizes.policy {
        SizePolicy::SameCount => "same count",
        SizePolicy::SameGap => "same gap",
    };
    let bands = || plan.sizes.iter().map(band).collect();
    (!plan.sizes.is_empty()).then(|| WrittenSizes { own: &plan.job.sizes.own, policy, bands: bands() })
}

fn band(sizes: &BandSizes) -> WrittenBandSizes<'_> {
    WrittenBandSizes { band: &sizes.band, sizes: sizes.card.rows.iter().map(size).collect() }
}

fn size(row: &SizeRow) -> WrittenSize<'_> {
    WrittenSize {
        name: &row.name,
        line_mm: row.band.line.rounded(),
        count: row.band.count,
        count_along: row.band.count - row.band.in_corners,
        count_in_corners: row.band.in_corners,
        repeat_mm: row.band.repeat.rounded(),
        gap_along_mm: row.band.gap_along.rounded(),
        least_clear_gap_mm: row.band.clear_gap.as_ref().map(|gap| gap.least).map(Mm::rounded),
        on_cf: lands(row.band.on_cf),
        on_cb: lands(row.band.on_cb),
        warnings: &row.warnings,
    }
}
