//! The hem, the motifs, and where each one goes.

use serde::Serialize;

use super::marking;
use super::pressing::{self, WrittenClosure};
use super::rounding::{places, point};
use crate::art::Motif;
use crate::hem::HemMark;
use crate::place::{BandSetting, Clash, ClearGap, Lands, Placement};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::chalk;

#[derive(Serialize)]
pub(super) struct WrittenHem {
    length_mm: f64,
    hung_mm: Option<f64>,
    sweep_rad: f64,
    closed: bool,
    marks: Vec<WrittenMark>,
}

#[derive(Serialize)]
struct WrittenMark {
    name: String,
    s_hem_mm: f64,
    keep_clear_mm: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct WrittenMotif<'a> {
    name: &'a str,
    width_mm: f64,
    height_mm: f64,
    scales: Vec<f64>,
    colours: Vec<String>,
}

#[derive(Serialize)]
pub(super) struct WrittenBand<'a> {
    name: &'a str,
    height_mm: f64,
    line_mm: f64,
    count: u32,
    count_along: u32,
    count_in_corners: u32,
    repeat_mm: f64,
    gap_along_mm: f64,
    clear_gap_mm: Option<WrittenGap<'a>>,
    on_cf: &'static str,
    on_cb: &'static str,
    placements: Vec<WrittenPlacement<'a>>,
    clashes: Vec<WrittenClash<'a>>,
    reasons: &'a [String],
    remedies: Vec<&'a str>,
    chalk: Vec<marking::WrittenChalk>,
    checks: Option<marking::WrittenChecks>,
}

/// The right-hand one of a pair.
#[derive(Serialize)]
pub(super) struct WrittenRight<'a> {
    marks: Vec<WrittenMark>,
    bands: Vec<WrittenBand<'a>>,
    closures: Vec<WrittenClosure<'a>>,
}

#[derive(Serialize)]
struct WrittenGap<'a> {
    least: f64,
    between: [&'a str; 2],
    at: [[f64; 2]; 2],
}

#[derive(Serialize)]
struct WrittenPlacement<'a> {
    id: &'a str,
    motif: &'a str,
    hand: &'static str,
    scale: f64,
    s_line_mm: f64,
    s_hem_mm: f64,
    height_mm: f64,
    x_mm: f64,
    y_mm: f64,
    angle_deg: f64,
}

#[derive(Serialize)]
struct WrittenClash<'a> {
    placement: &'a str,
    with: &'a str,
    clear_mm: f64,
    wanted_mm: f64,
}

pub(super) fn hem(plan: &Plan) -> WrittenHem {
    let mark = |mark: &HemMark| WrittenMark {
        name: mark.name.clone(),
        s_hem_mm: mark.s_hem.rounded(),
        keep_clear_mm: mark.keep_clear.map(Mm::rounded),
    };
    WrittenHem {
        length_mm: plan.hem.length().rounded(),
        hung_mm: plan.hem.as_hung().map(|hung| hung.length().rounded()),
        sweep_rad: places(plan.hem.sweep().get(), 6),
        closed: plan.hem.is_closed(),
        marks: chalk::marks(plan).iter().map(mark).collect(),
    }
}

pub(super) fn motif<'m>(plan: &Plan, motif: &'m Motif) -> WrittenMotif<'m> {
    let mut scales: Vec<f64> =
        plan.pieces.kinds.iter().filter(|kind| kind.motif == motif.name).map(|kind| kind.scale).collect();
    scales.sort_by(|a, b| b.total_cmp(a));
    scales.dedup();
    WrittenMotif {
        name: &motif.name,
        width_mm: motif.width.rounded(),
        height_mm: motif.height.rounded(),
        scales: scales.into_iter().map(|scale| places(scale, 6)).collect(),
        colours: motif.layers.iter().map(|layer| layer.colour.to_string()).collect(),
    }
}

pub(super) fn right(right: &Plan) -> WrittenRight<'_> {
    WrittenRight {
        marks: hem(right).marks,
        bands: right.setting.bands.iter().map(|band| self::band(right, band)).collect(),
        closures: right.press.closures.iter().map(pressing::closure).collect(),
    }
}

pub(super) fn band<'a>(plan: &Plan, band: &'a BandSetting) -> WrittenBand<'a> {
    WrittenBand {
        name: &band.name,
        height_mm: band.height.rounded(),
        line_mm: band.line.rounded(),
        count: band.count,
        count_along: band.count - band.in_corners,
        count_in_corners: band.in_corners,
        repeat_mm: band.repeat.rounded(),
        gap_along_mm: band.gap_along.rounded(),
        clear_gap_mm: band.clear_gap.as_ref().map(gap),
        on_cf: lands(band.on_cf),
        on_cb: lands(band.on_cb),
        placements: band.placements.iter().map(placement).collect(),
        clashes: band.clashes.iter().map(clash).collect(),
        reasons: &band.reasons,
        remedies: band.remedies.iter().map(|remedy| remedy.say.as_str()).collect(),
        chalk: marking::list(plan, band),
        checks: marking::checks(plan, band),
    }
}

fn gap(gap: &ClearGap) -> WrittenGap<'_> {
    WrittenGap {
        least: gap.least.rounded(),
        between: [&gap.between.0, &gap.between.1],
        at: [point(gap.at.0), point(gap.at.1)],
    }
}

fn placement(placement: &Placement) -> WrittenPlacement<'_> {
    WrittenPlacement {
        id: &placement.id,
        motif: &placement.motif,
        hand: chalk::hand(placement.hand),
        scale: places(placement.scale, 6),
        s_line_mm: placement.s_line.rounded(),
        s_hem_mm: placement.s_hem.rounded(),
        height_mm: placement.height.rounded(),
        x_mm: places(placement.at.x, 3),
        y_mm: places(placement.at.y, 3),
        angle_deg: places(placement.turn.degrees(), 4),
    }
}

fn clash(clash: &Clash) -> WrittenClash<'_> {
    WrittenClash {
        placement: &clash.placement,
        with: &clash.with,
        clear_mm: clash.clear.rounded(),
        wanted_mm: clash.wanted.rounded(),
    }
}

/// `motif`, `gap`, `between`.
pub(super) const fn lands(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "motif",
        Lands::Gap => "gap",
        Lands::Between => "between",
    }
}
