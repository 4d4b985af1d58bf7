//! Stage 3, set out: which motif goes where on the hem, with which gaps, and what clashes.
//!
//! Takes motifs and a hem; knows nothing of films, sheets or presses.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::geometry::Point;
use crate::hem::Hem;
use crate::quantity::{Mm, Radians};

/// Whether a placed motif is the motif as drawn or its mirror image.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// As drawn.
    AsDrawn,
    /// The mirror image of the drawing.
    Mirrored,
}

/// What lies on a named line of the garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lands {
    /// A motif is centred there.
    Motif,
    /// The middle of a gap is there.
    Gap,
    /// Neither: it falls beside the middle of either.
    Between,
}

/// One motif on the hem.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// Chalk number: `CF`, `CB`, or counted from CF: `L1` is the first to the wearer's left, `R1` to her right. A second
    /// and later band or row gets its name before it: `upper-L1`.
    pub id: String,
    /// Which motif: key in the job.
    pub motif: String,
    /// As drawn or mirrored.
    pub hand: Hand,
    /// Factor on the motif's finished size; 1 unless the rhythm asks for several sizes.
    pub scale: f64,
    /// Distance from CF along the motif line, positive toward the wearer's left.
    pub s_line: Mm,
    /// Distance from CF along the finished hem to the foot of the square line through the motif's middle.
    pub s_hem: Mm,
    /// Height of the motif's middle above the hem.
    pub height: Mm,
    /// Middle of the motif in the flat development (docs/geometry.md), y down.
    pub at: Point,
    /// Turn of the motif in the flat development, clockwise on screen, 0 when its upper end points to negative y.
    pub turn: Radians,
}

/// The shortest distance between the cut outlines of neighbours, and which neighbours.
#[derive(Clone, Debug, PartialEq)]
pub struct ClearGap {
    /// The distance.
    pub least: Mm,
    /// The two placements' ids.
    pub between: (String, String),
    /// The two nearest points, in the flat development.
    pub at: (Point, Point),
}

/// A motif too near something it must keep clear of.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The placement's id.
    pub placement: String,
    /// What it is too near: `side seam left`, `opening`.
    pub with: String,
    /// Distance from the motif's edge to it along the motif line; negative when the motif lies across it.
    pub clear: Mm,
    /// What was asked for.
    pub wanted: Mm,
}

/// One band set out.
#[derive(Clone, Debug, PartialEq)]
pub struct BandSetting {
    /// Name in the job, or `band 1`.
    pub name: String,
    /// Height of the motif line above the hem.
    pub height: Mm,
    /// Length of the motif line.
    pub line: Mm,
    /// How many motifs.
    pub count: u32,
    /// Middle to middle along the motif line.
    pub repeat: Mm,
    /// Repeat less motif width.
    pub gap_along: Mm,
    /// Shortest distance between true outlines; `None` for a single motif on an open band.
    pub clear_gap: Option<ClearGap>,
    /// What lies on centre front.
    pub on_cf: Lands,
    /// What lies on centre back.
    pub on_cb: Lands,
    /// In order along the line, from the wearer's right to her left.
    pub placements: Vec<Placement>,
    /// What is too near what.
    pub clashes: Vec<Clash>,
    /// Why this count and this arrangement, in plain sentences.
    pub reasons: Vec<String>,
}

/// The whole hem set out.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// One for each band and row of the job.
    pub bands: Vec<BandSetting>,
}

/// What is asked of one band.
#[derive(Clone, Debug, PartialEq)]
pub struct BandWish {
    /// Name in the job, or `band 1`.
    pub name: String,
    /// Height above the hem of the part of the motif that `level` names.
    pub height: Mm,
    /// Which part of the motif the height is measured to.
    pub level: Level,
    /// Motif keys in the order they repeat along the line.
    pub motifs: Vec<String>,
    /// How many or how close.
    pub spacing: Spacing,
    /// What lies on centre front.
    pub on_cf: Anchor,
    /// Which way up.
    pub stance: Stance,
    /// Which hands.
    pub hands: Hands,
}

/// Which part of a motif a band's height is measured to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// The motif's middle: the motif line runs at this height.
    Middle,
    /// The lower edge of the band's tallest motif: the motif line runs half that motif's height further up.
    LowerEdge,
}

/// How many motifs, or how close.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spacing {
    /// As many as leave at least this gap along the motif line.
    AtLeast(Mm),
    /// Exactly so many.
    Count(u32),
}

/// What is put on centre front (or at the middle of an open band).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// A motif's middle.
    Motif,
    /// The middle of a gap.
    Gap,
    /// Whichever clashes least; the reason is given.
    Best,
}

/// Which way up a motif stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stance {
    /// Upright axis square to the hem, upper end away from it.
    SquareToHem,
    /// Upright axis parallel to the line through CF, as on a hem seen from the front.
    Upright,
}

/// Which hands the motifs of a band have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hands {
    /// All as drawn.
    AsDrawn,
    /// As drawn on the wearer's left, mirrored on her right, so that the halves match.
    MirroredRight,
    /// As drawn and mirrored by turns.
    Alternating,
}

/// Why a band cannot be set out.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PlaceError {}

/// Sets every band out.
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
pub fn set_out(hem: &Hem, motifs: &BTreeMap<String, Motif>, bands: &[BandWish]) -> Result<Setting, PlaceError> {
    unimplemented!("{hem:?} {motifs:?} {bands:?}")
}
