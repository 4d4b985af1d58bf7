//! What is asked of a band: which motifs, how close, what lies on centre front.

use crate::quantity::Mm;

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
