//! Checks for the chalk: what must lie on the folds of the hem, and what dividers are set to.
//!
//! Distances are measured from the middle, never stepped off one after another: an error of a hair at each step adds up all
//! round. Folding the hem in halves, quarters and eighths shows at once whether the chalk is right; dividers serve to check
//! single steps.

use crate::hem::Hem;
use crate::place::{BandSetting, PlaceError};
use crate::quantity::Mm;

/// What to check the chalk by.
#[derive(Clone, Debug, PartialEq)]
pub struct Marking {
    /// The folds, from the first half on; none for a hem that was measured again after hanging.
    pub folds: Vec<Fold>,
    /// What dividers are set to; `None` where steps differ or there is but one motif.
    pub dividers: Option<Dividers>,
}

/// A fold of the hem and what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fold {
    /// Part of the hem from its start: `1/2`, `1/4`, `3/8`. A ring starts at its middle (CF) toward the wearer's left, an
    /// open band at the end where s is least.
    pub part: (u32, u32),
    /// Distance along the hem from the middle.
    pub s_hem: Mm,
    /// Distance along the motif line from the middle.
    pub s_line: Mm,
    /// What lies there.
    pub there: There,
}

/// What lies on a fold.
#[derive(Clone, Debug, PartialEq)]
pub enum There {
    /// The middle of a motif, by id.
    Motif(String),
    /// The middle of the gap between two motifs, by their ids.
    Gap(String, String),
    /// A motif's middle lies beside it: so far on, toward growing s; negative the other way.
    Beside(String, Mm),
}

/// The opening of a pair of dividers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dividers {
    /// Straight distance between the middles of neighbours.
    pub chord: Mm,
    /// Distance along the line.
    pub repeat: Mm,
    /// How far dividers set to the repeat instead of the chord would be out after the last step.
    pub drift: Mm,
}

/// Folds are given to eighths: a finer fold of cloth is no longer true.
const EIGHTHS: [(u32, u32); 7] = [(1, 2), (1, 4), (3, 4), (1, 8), (3, 8), (5, 8), (7, 8)];

/// Chords that differ by less than this, in millimetres, are one opening of the dividers.
const SAME_OPENING: f64 = 0.05;

/// The checks for one row.
///
/// # Errors
/// [`PlaceError::Line`] when the hem has no line at the row's height (a setting made for another hem).
pub fn marking(hem: &Hem, band: &BandSetting) -> Result<Marking, PlaceError> {
    let line = hem.line_at(band.height).map_err(|error| PlaceError::Line { band: band.name.clone(), error })?;
    let start = if hem.is_closed() { Mm::ZERO } else { hem.span().0 };
    let half = hem.length() / 2.0;
    let fold = |(over, under): (u32, u32)| {
        let s = start + hem.length() * (f64::from(over) / f64::from(under));
        let s_hem =
            if hem.is_closed() && s > half + Mm::new(crate::place::along::row::SAME) { s - hem.length() } else { s };
        let s_line = line.from_hem(s_hem);
        Some(Fold { part: (over, under), s_hem, s_line, there: there(band, s_line, hem.is_closed())? })
    };
    // Folds of a hem that hung halve what it has become, not what was drafted.
    let folds = if hem.hung().is_empty() { EIGHTHS.into_iter().filter_map(fold).collect() } else { Vec::new() };
    let chord = |pair: &[crate::place::Placement]| pair[0].at.distance(pair[1].at);
    let chords: Vec<f64> = band.placements.windows(2).map(chord).collect();
    Ok(Marking { folds, dividers: dividers(band, &chords) })
}

fn dividers(band: &BandSetting, chords: &[f64]) -> Option<Dividers> {
    let (least, greatest) = chords.iter().fold((f64::MAX, 0.0_f64), |(l, g), c| (l.min(*c), g.max(*c)));
    let steps: Vec<f64> = band.placements.windows(2).map(|pair| (pair[1].s_line - pair[0].s_line).get()).collect();
    let even = steps.iter().all(|step| (step - steps[0]).abs() < SAME_OPENING);
    (!chords.is_empty() && even && greatest - least < SAME_OPENING).then(|| {
        let (chord, repeat) = (Mm::new(chords[0]), Mm::new(steps[0]));
        Dividers { chord, repeat, drift: (repeat - chord) * f64::from(band.count) }
    })
}

/// What lies at a distance along the line.
fn there(band: &BandSetting, s_line: Mm, closed: bool) -> Option<There> {
    let apart = |s: Mm| {
        let apart = (s - s_line).get();
        if closed { apart - band.line.get() * (apart / band.line.get()).round() } else { apart }
    };
    let mut by_distance: Vec<(f64, &str)> =
        band.placements.iter().map(|placed| (apart(placed.s_line), placed.id.as_str())).collect();
    by_distance.sort_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    let (nearest, id) = *by_distance.first()?;
    if nearest.abs() < crate::place::along::row::ON_PLACE {
        return Some(There::Motif(id.to_owned()));
    }
    // Two as far away on both sides; with motifs of one width that is the middle of the gap.
    let other =
        by_distance.get(1).filter(|(other, _)| (other + nearest).abs() < 2.0 * crate::place::along::row::ON_PLACE);
    Some(match other {
        Some((second, other)) if nearest < *second => There::Gap(id.to_owned(), (*other).to_owned()),
        Some((_, other)) => There::Gap((*other).to_owned(), id.to_owned()),
        None => There::Beside(id.to_owned(), Mm::new(nearest)),
    })
}
