//! What is done to a motif's layers between the drawing and the knife.

use crate::data::usual;
use crate::quantity::{Mm, mm};

/// What is done to a motif's layers before they are cut. Nothing is changed unasked except what a film cannot bear.
#[derive(Clone, Debug, PartialEq)]
pub struct Preparing {
    /// What becomes of a layer under another.
    pub layering: Layering,
    /// How far a layer that is cut away reaches under the one above.
    pub underlap: Mm,
    /// Whether marks are cut that show where layers meet.
    pub match_marks: MatchMarks,
    /// Whether a box is cut round each patch.
    pub weeding: Weeding,
    /// Allowance outside the finished line of turned-edge pieces.
    pub turn_under: Mm,
    /// Needle points are rounded to this radius; `None` leaves them.
    pub round_points: Option<Mm>,
    /// Necks are thickened to this width; `None` leaves them.
    pub thicken_necks: Option<Mm>,
    /// What becomes of small islands.
    pub islands: Islands,
}

/// What becomes of a layer under another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layering {
    /// Kept whole, unless a film of the stack bears nothing on top or not so many layers.
    Auto,
    /// Kept whole.
    Stack,
    /// Cut away under every layer above, but for the underlap.
    KnockOut,
}

/// Marks outside the motif, at the same place on every layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MatchMarks {
    /// None.
    None,
    /// One on each side; weeded away like waste.
    Outside,
}

/// Helps for lifting the waste.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weeding {
    /// None.
    None,
    /// A box round each patch, with relief cuts from its corners.
    Box,
}

/// What becomes of outlines that are small both ways.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Islands {
    /// Kept as drawn.
    Keep,
    /// Left out when smaller than this both ways.
    Drop(Mm),
    /// Enlarged about their middle until this large one way.
    Enlarge(Mm),
}

impl Default for Preparing {
    fn default() -> Self {
        Self {
            layering: Layering::Auto,
            underlap: mm(usual("underlap")),
            match_marks: MatchMarks::None,
            weeding: Weeding::None,
            turn_under: mm(usual("turn-under")),
            round_points: None,
            thicken_necks: None,
            islands: Islands::Keep,
        }
    }
}
