//! Strips from cloth: how many, how joined, how much cloth.

use std::f64::consts::SQRT_2;

use super::error::TrimError;
use crate::quantity::Mm;

/// The cloth that strips are cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripCloth {
    /// Width between selvedges.
    pub usable: Mm,
    /// Allowance of each strip at a join.
    pub join: Mm,
}

/// How a strip lies on the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Across, from selvedge to selvedge.
    Across,
    /// At 45 degrees.
    Bias,
    /// Pieces cut to the curve of the hem.
    Shaped,
}

/// Strips (or shaped pieces) with their joins and the cloth they take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strips {
    /// How many.
    pub count: u32,
    /// How they lie on the cloth.
    pub grain: Grain,
    /// Length that each adds when joined.
    pub each_adds: Mm,
    /// Cut width of a strip; depth of a shaped piece.
    pub cut_width: Mm,
    /// Joins: as many as strips round a closed hem, one fewer on an open one.
    pub joins: u32,
    /// Length of cloth.
    pub cloth: Mm,
    /// Part of that which is taken once, however many strips lie on it.
    pub once: Mm,
}

impl Strips {
    /// The strips of so many garments, each joined by itself.
    #[must_use]
    pub(super) fn times(self, garments: u32) -> Self {
        Self {
            count: self.count.saturating_mul(garments),
            joins: self.joins.saturating_mul(garments),
            cloth: self.once + (self.cloth - self.once) * f64::from(garments),
            ..self
        }
    }
}

/// More strips than this are a slip of unit.
pub(super) const MOST_STRIPS: u32 = 10_000;

/// How many times `part` must be taken to make up `whole`; a whole number survives floating-point noise of a billionth.
pub(super) fn times(whole: Mm, part: Mm) -> Option<u32> {
    let count = (whole / part - 1e-9).ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and MOST_STRIPS")]
    (count <= f64::from(MOST_STRIPS)).then_some(count as u32)
}

/// Strips across the cloth that make up `total` when joined, in `rings` separate runs of equal length.
///
/// A strip loses one allowance at each end, to a join or to a finished end, so it adds usable width less two joins.
pub(super) fn across(trim: &str, total: Mm, cut_width: Mm, cloth: StripCloth, run: Run) -> Result<Strips, TrimError> {
    let adds = cloth.usable - 2.0 * cloth.join;
    strips(trim, total, adds, cloth, run).map(|(count, joins)| Strips {
        count,
        grain: Grain::Across,
        each_adds: adds,
        cut_width,
        joins,
        cloth: cut_width * f64::from(count),
        once: Mm::ZERO,
    })
}

/// Strips on the bias. One runs from selvedge to selvedge at 45 degrees, so it is usable width x root 2 long, and its joins,
/// which follow the straight grain, take root 2 times the allowance at each end. Side by side the strips take cut width
/// x root 2 each along the selvedge, and one usable width more for the corner that cannot be used.
pub(super) fn bias(trim: &str, total: Mm, cut_width: Mm, cloth: StripCloth, run: Run) -> Result<Strips, TrimError> {
    let adds = (cloth.usable - 2.0 * cloth.join) * SQRT_2;
    strips(trim, total, adds, cloth, run).map(|(count, joins)| Strips {
        count,
        grain: Grain::Bias,
        each_adds: adds,
        cut_width,
        joins,
        cloth: cut_width * (SQRT_2 * f64::from(count)) + cloth.usable,
        once: cloth.usable,
    })
}

/// Whether the joined strip meets itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Run {
    /// Sewn into a ring.
    Ring,
    /// Two ends.
    Open,
}

impl Run {
    pub(super) const fn of(edge: super::Edge) -> Self {
        if edge.closed { Self::Ring } else { Self::Open }
    }

    pub(super) const fn joins(self, strips: u32) -> u32 {
        match self {
            Self::Ring => strips,
            Self::Open => strips.saturating_sub(1),
        }
    }
}

fn strips(trim: &str, total: Mm, adds: Mm, cloth: StripCloth, run: Run) -> Result<(u32, u32), TrimError> {
    if adds <= Mm::ZERO {
        return Err(TrimError::ClothTooNarrow { trim: trim.into(), usable: cloth.usable, needed: 2.0 * cloth.join });
    }
    let count =
        times(total, adds).ok_or(TrimError::TooMany { trim: trim.into(), what: "strips", most: MOST_STRIPS })?;
    Ok((count, run.joins(count)))
}
