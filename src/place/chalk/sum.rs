//! The sum behind the smallest gap of a row, so that it can be followed with a pocket calculator.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::hem::{Hem, MotifLine};
use crate::place::along::row::SAME;
use crate::place::ground::{corner_takes, lifted};
use crate::place::{BandSetting, BandWish, Placement};
use crate::quantity::Mm;

/// How the smallest gap along a row's line comes about.
#[derive(Clone, Debug, PartialEq)]
pub struct GapSum {
    /// The two neighbours with the smallest gap, by id.
    pub between: (String, String),
    /// From middle to middle along the line.
    pub step: Mm,
    /// How much of the line each takes up.
    pub covers: (Mm, Mm),
    /// What is left: the step less half of each.
    pub gap: Mm,
    /// Whether all neighbours of the row stand so, so that the gap is the repeat less one motif's width.
    pub even: bool,
}

/// Steps and widths that differ by less than this, in millimetres, are printed alike.
const ALIKE: f64 = 0.05;

/// The sum for a row of a band; `None` for a motif on its own, or a row of another hem.
#[must_use]
pub fn gap_sum(hem: &Hem, motifs: &BTreeMap<String, Motif>, wish: &BandWish, band: &BandSetting) -> Option<GapSum> {
    let line = hem.line_at(band.height).ok()?;
    let covers: Vec<Mm> = band
        .placements
        .iter()
        .map(|placed| covers(hem, (motifs, wish), (band, &line), placed))
        .collect::<Option<_>>()?;
    let count = band.placements.len();
    let pairs = if hem.is_closed() { count } else { count.checked_sub(1)? };
    if count < 2 {
        return None;
    }
    // What is left between two corners that no motif fits between is no gap of the row.
    let in_corner = |k: usize| band.placements[k % count].in_corner();
    let some_along = (0..count).any(|k| !in_corner(k));
    let sums: Vec<GapSum> = (0..pairs)
        .filter(|k| !(some_along && in_corner(*k) && in_corner(k + 1)))
        .map(|k| {
            let next = (k + 1) % count;
            let (a, b) = (&band.placements[k], &band.placements[next]);
            let step = b.s_line - a.s_line + if next == 0 { band.line } else { Mm::ZERO };
            let gap = step - (covers[k] + covers[next]) / 2.0;
            GapSum { between: (a.id.clone(), b.id.clone()), step, covers: (covers[k], covers[next]), gap, even: false }
        })
        .collect();
    let first = sums.first()?.clone();
    let alike = |a: Mm, b: Mm| (a - b).abs().get() < ALIKE;
    let even = sums.iter().all(|sum| {
        alike(sum.step, first.step) && alike(sum.covers.0, first.covers.0) && alike(sum.covers.1, first.covers.0)
    });
    let least = sums.into_iter().min_by(|a, b| a.gap.total_cmp(&b.gap))?;
    Some(GapSum { even, ..least })
}

/// How much of a row's line a motif takes up.
fn covers(
    hem: &Hem,
    (motifs, wish): (&BTreeMap<String, Motif>, &BandWish),
    (band, line): (&BandSetting, &MotifLine),
    placed: &Placement,
) -> Option<Mm> {
    let motif = motifs.get(&placed.motif)?;
    if placed.in_corner() {
        let here = line.corners().into_iter().find(|corner| (corner.s_line - placed.s_line).abs().get() < SAME);
        if let Some(here) = here {
            return Some(Mm::new(corner_takes(wish, motif, (line, here), placed.scale) * 2.0));
        }
    }
    // On the upper line of a wave a motif covers more of the lower one.
    let times =
        if (placed.height - band.height).get() > SAME { lifted(line, &hem.line_at(placed.height).ok()?) } else { 1.0 };
    Some(motif.width * placed.scale * times)
}
