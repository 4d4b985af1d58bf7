//! What measurements alone give of a hem, and the checks and parts that every shape of hem shares.

use std::f64::consts::{FRAC_PI_2, PI};

use super::curve::Curve;
use super::drawn::PanelOnHem;
use super::edge::Edge;
use super::marks::{Panels, Quarters};
use super::{HemError, HemMark};
use crate::finding::Finding;
use crate::geometry::Affine;
use crate::quantity::Mm;

/// Most equal panels or sides taken: far beyond any garment, and small enough that nothing grows large.
pub(super) const MOST_PANELS: u32 = 1000;

/// Cells of the table on each half of a smooth hem, before any is halved further.
const CELLS: u32 = 32;

/// What the measurements alone give, before ends and marks.
pub(super) struct Shaped {
    pub(super) edge: Edge,
    pub(super) quarters: Quarters,
    /// Height of the waist above the hem where it is nearest, if known.
    pub(super) waist: Option<f64>,
    pub(super) panels: Option<Panels>,
    pub(super) drawn_panels: Vec<PanelOnHem>,
    /// Seams that follow from the shape, and how far motifs keep from them.
    pub(super) seams: Vec<HemMark>,
    pub(super) findings: Vec<Finding>,
    /// Height above the hem of the lowest point of a godet let in.
    pub(super) godet_top: Option<f64>,
    /// s of the middles of godets: the seams they were let into are no longer there.
    pub(super) godet_middles: Vec<f64>,
    /// Once round, where the ring does not close smoothly.
    pub(super) once_round: Option<Affine>,
}

/// With nothing but an edge: no panels, seams or godets, and the sides a quarter of it away.
pub(super) fn plain(edge: Edge, quarter: f64, waist: Option<f64>) -> Shaped {
    let quarters = Quarters { left: quarter, right: -quarter };
    let (drawn_panels, seams, findings) = (Vec::new(), Vec::new(), Vec::new());
    Shaped {
        edge,
        quarters,
        waist,
        panels: None,
        drawn_panels,
        seams,
        findings,
        godet_top: None,
        godet_middles: Vec::new(),
        once_round: None,
    }
}

/// A smooth ring given by its angle, from the middle of the back round to it.
pub(super) fn smooth(curve: Curve, waist: Option<f64>) -> Shaped {
    let edge = Edge::new(curve, -PI, PI, CELLS);
    let quarter = edge.s_at(FRAC_PI_2);
    plain(edge, quarter, waist)
}

/// The motion that lets a ring close without a corner: the start of its development goes on where its end stops.
pub(super) fn smooth_join(edge: &Edge) -> Affine {
    let (first, last) = edge.end_frames();
    last.placement() * first.placement().inverse()
}

pub(super) fn positive(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value > Mm::ZERO { Ok(value) } else { Err(HemError::NotPositive { what, value }) }
}

pub(super) fn not_negative(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value >= Mm::ZERO { Ok(value) } else { Err(HemError::Negative { what, value }) }
}
