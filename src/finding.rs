//! What the maker must be told: findings about her drawing or job, and the assumptions that filled what she left out.

use crate::geometry::Point;
use crate::quantity::Mm;

/// How much a finding matters. Order: the gravest last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Repaired without a change the eye could see; listed so that nothing happens behind her back.
    FixedForYou,
    /// She should look before cutting.
    LookAtThis,
    /// Nothing is written until it is mended.
    StopsTheJob,
}

impl Severity {
    /// The words used on every paper and screen.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::FixedForYou => "fixed for you",
            Self::LookAtThis => "look at this",
            Self::StopsTheJob => "stops the job",
        }
    }
}

/// Where in a drawing something was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// The drawing's file name.
    pub drawing: String,
    /// The element: its id if it has one, otherwise its kind and number ("path 3").
    pub element: String,
    /// Line of the drawing's file, from 1, where known.
    pub line: Option<u32>,
    /// Point in the finished motif's millimetres (origin at the middle of the motif, y down), where known.
    pub at: Option<Point>,
}

/// One thing found by a stage, in plain words.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// Stable short name of the kind of finding, as in plan.json: `open-outline`, `thin-neck`, `square-corners`.
    pub kind: &'static str,
    /// Where, if it belongs to a drawing.
    pub place: Option<Place>,
    /// How big, if it has a size.
    pub measure: Option<Mm>,
    /// What was found and by how much, one or two plain sentences.
    pub say: String,
    /// What was done about it, or what she can do.
    pub advice: String,
}

/// Something the job left open and the value that was taken for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Assumption {
    /// What was left open: `spare motifs`.
    pub about: String,
    /// The value taken and why: `one for every twenty, common practice`.
    pub taken: String,
    /// The key of the job file that changes it: `motif.poppy.spares`.
    pub key: String,
}
