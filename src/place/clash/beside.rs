//! How near motifs come to seams, openings and ends higher up or lower down than on their line.
//!
//! Counts are chosen by distances along the motif line. Where the hem curves, a seam runs toward the motif above the line, and a
//! motif that stands upright on a cloth leans to it, so what is left between seam and outline may be less than that.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::geometry::Point;
use crate::hem::{Hem, HemMark, MotifLine};
use crate::place::{BandSetting, Clash, Placement};
use crate::quantity::Mm;

/// Less than this, in millimetres, is not worth a word: half the width of a chalk line (common practice, no source).
const UNSEEN: f64 = 0.5;

/// Tells the motif that comes nearest to what it should keep clear of, where that is nearer than asked and not told already.
pub(in crate::place) fn finding(hem: &Hem, motifs: &BTreeMap<String, Motif>, band: &BandSetting) -> Option<Finding> {
    let edge = hem.line_at(Mm::ZERO).ok()?;
    let mut nearest: Option<(f64, &Placement, &HemMark, Mm)> = None;
    for mark in hem.marks() {
        let Some(wanted) = mark.keep_clear else { continue };
        for placed in &band.placements {
            let Some(motif) = motifs.get(&placed.motif) else { continue };
            let Some(clear) = clear(hem, &edge, mark, (motif, placed)) else { continue };
            let same = |clash: &&Clash| clash.placement == placed.id && clash.with == mark.name;
            if band.clashes.iter().find(same).is_some_and(|told| told.clear.get() < clear + UNSEEN) {
                continue;
            }
            let short = wanted.get() - clear;
            if short > UNSEEN && nearest.is_none_or(|(worst, ..)| short > worst) {
                nearest = Some((short, placed, mark, Mm::new(clear)));
            }
        }
    }
    let (short, placed, mark, clear) = nearest?;
    let wanted = clear + Mm::new(short);
    let say = if clear < Mm::ZERO {
        format!(
            "{}: above or below its line {} reaches {} across the {}; {wanted} clear was asked for.",
            band.name,
            placed.id,
            Mm::ZERO - clear,
            named(mark)
        )
    } else {
        format!(
            "{}: above or below its line {} comes within {clear} of the {}; {wanted} was asked for.",
            band.name,
            placed.id,
            named(mark)
        )
    };
    Some(Finding {
        severity: Severity::LookAtThis,
        kind: "near-off-the-line",
        place: None,
        measure: Some(clear),
        say,
        advice: "Ask for more clear space there, take another count, or make the motif smaller.".to_owned(),
    })
}

fn named(mark: &HemMark) -> &str {
    mark.name.strip_prefix("the ").unwrap_or(&mark.name)
}

/// Least distance from an outline to the line square to the hem through a mark; negative across it; `None` for a motif on the
/// far side of the garment.
fn clear(hem: &Hem, edge: &MotifLine, mark: &HemMark, (motif, placed): (&Motif, &Placement)) -> Option<f64> {
    let round = if hem.is_closed() { hem.length().get() } else { 0.0 };
    let on_hem = hem.as_hung();
    let drafted = on_hem.as_ref().map_or(placed.s_hem, |hung| hung.drafted(placed.s_hem));
    let apart = (drafted - mark.s_hem).get();
    let laps = if round > 0.0 { (apart / round).round() } else { 0.0 };
    let reach = motif.width.max(motif.height).get() * placed.scale + mark.keep_clear?.get();
    let near = (apart - laps * round).abs();
    // Near the middle of a tight curve places far apart on the hem lie close together.
    let line = (placed.height.get() * hem.lost_for_height() / hem.length().get()).min(0.95);
    if near * (1.0 - line) > 2.0 * reach {
        return None;
    }
    // The motif stands in the development where its own s says; the seam is taken to the same turn of it.
    let seam = edge.frame_unrolled(mark.s_hem + Mm::new(laps * round));
    let to_seam = seam.placement().inverse() * placed.transform();
    let points = motif.layers.iter().flat_map(|layer| &layer.outlines).flat_map(|outline| outline.outer().points());
    let across: Vec<Point> = points.map(|point| to_seam * *point).filter(|at| at.y <= 0.0).collect();
    let least = across.iter().map(|at| at.x).fold(f64::INFINITY, f64::min);
    let most = across.iter().map(|at| at.x).fold(f64::NEG_INFINITY, f64::max);
    if across.is_empty() {
        return None;
    }
    let clear = if least > 0.0 {
        least
    } else if most < 0.0 {
        -most
    } else {
        -most.min(-least)
    };
    // What lies between seam and motif has grown as much as the hem there.
    let grown = on_hem.map_or(0.0, |hung| {
        let round = if round > 0.0 { hung.length().get() } else { 0.0 };
        ((placed.s_hem - hung.at(mark.s_hem)).get() - laps * round).abs() - near
    });
    Some(clear + grown)
}
