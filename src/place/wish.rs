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
    /// How the band departs from one even row of motifs of one size.
    pub rhythm: Rhythm,
    /// Places that no motif may reach into: pockets, a monogram.
    pub keep_out: Vec<KeepOut>,
    /// From which height to which something sewn on the right side, such as lace or pleats, covers the cloth all round: motifs under
    /// it are not seen.
    pub covered: Vec<(Mm, Mm)>,
}

impl BandWish {
    /// How many rows it has.
    #[must_use]
    pub const fn row_count(&self) -> usize {
        self.rhythm.rows.count as usize
    }
}

/// A place that motifs keep out of.
#[derive(Clone, Debug, PartialEq)]
pub struct KeepOut {
    /// What it is called on the papers.
    pub name: String,
    /// From where to where along the hem, from CF.
    pub along: (Mm, Mm),
    /// From which height above the hem to which; `None` for all the way up.
    pub heights: (Mm, Option<Mm>),
    /// How far motifs keep from it along their line.
    pub clear: Mm,
    /// The line of the job file that asks for it, where one does; only for messages.
    pub line: Option<usize>,
}

/// How a band departs from one even row of motifs of one size; the default does not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rhythm {
    /// How several motifs take turns.
    pub order: Order,
    /// Factors on the motifs' sizes from the middle outward, the last one for all the rest; empty for 1.
    pub sizes: Vec<f64>,
    /// What is kept equal between neighbours.
    pub evenness: Evenness,
    /// Further rows above this one.
    pub rows: Rows,
    /// Motifs by turns on two lines: every second one sits so much higher.
    pub wave: Option<Mm>,
    /// What stands in the corners of an edge that has some.
    pub corner: Option<CornerWish>,
    /// Every motif of an even row round a ring so far along, toward growing s.
    pub shift: Mm,
    /// The band whose count settles this one's.
    pub tie: Option<Tie>,
}

/// A band whose count follows another's: twice as many buds as flowers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tie {
    /// Name of the other band, which is tied to none itself.
    pub to: String,
    /// So many motifs of this band ...
    pub own: u32,
    /// ... for so many of the other; the two have no common factor.
    pub of: u32,
}

impl Tie {
    /// This band's count for a count of the other; `None` where that is no whole number.
    #[must_use]
    pub fn count(&self, other: u32) -> Option<u32> {
        let all = other.checked_mul(self.own)?;
        all.is_multiple_of(self.of).then(|| all / self.of)
    }
}

/// A motif in every corner, upper end along the bisector.
#[derive(Clone, Debug, PartialEq)]
pub struct CornerWish {
    /// Motif key.
    pub motif: String,
    /// How much of the motif line it takes up along each side, from the corner; `None` for what its box covers there.
    pub occupies: Option<Mm>,
}

/// How several motifs take turns.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// A B C A B C along the line, from the middle of a ring, from the right-hand end of an open band.
    #[default]
    Repeating,
    /// The same both ways from the middle: C B A B C.
    MirroredAboutMiddle,
}

/// What is kept equal between neighbours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Evenness {
    /// The gap along the motif line: steps are equal, quarters fold onto each other, chalk marks are easy to check.
    #[default]
    Gap,
    /// The clear gap between true outlines, for hems that curve more in one place than in another. A least gap is then a
    /// least clear gap.
    ClearGap,
    /// The gap within each stretch from seam to seam, so that no motif comes near a seam; gaps at seams differ.
    BetweenSeams,
}

/// Further rows above the first, with the same count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rows {
    /// How many rows in all, at least one.
    pub count: u32,
    /// From each row's motif line to the next.
    pub rise: Mm,
    /// Where each row stands against the one below.
    pub offset: RowOffset,
}

impl Default for Rows {
    fn default() -> Self {
        Self { count: 1, rise: Mm::ZERO, offset: RowOffset::None }
    }
}

/// Where a row stands against the one below.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RowOffset {
    /// Motif above motif.
    #[default]
    None,
    /// Motif above gap.
    HalfRepeat,
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
    /// Exactly so many, evenly spread also where that comes too near what must stay clear: one of several counts that are compared by
    /// [`crate::place::compared()`].
    Even(u32),
    /// Exactly so many with at least this gap, the motifs made smaller where that is needed.
    Fit {
        /// How many.
        count: u32,
        /// Least gap along the motif line.
        gap: Mm,
    },
    /// Exactly so many, settled together with further sizes of the garment or with other bands by [`crate::place::settle()`].
    Settled {
        /// How many.
        count: u32,
        /// Least gap along the motif line.
        gap: Mm,
        /// How many it would have on its own.
        alone: u32,
        /// What it was settled together with.
        with: Together,
        /// The number of the further row of the leading band that has room for no more, where that alone holds all of them down.
        held_by_row: Option<usize>,
        /// So many fewer, where each stretch is set out on its own in one of the bands with so many, and none is with those.
        even: Option<u32>,
    },
}

/// What a count was settled together with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Together {
    /// Further sizes of the garment.
    Sizes,
    /// Bands tied to each other.
    Bands,
    /// Both.
    SizesAndBands,
}

impl Spacing {
    /// The least gap asked for, if one was.
    #[must_use]
    pub const fn gap(self) -> Option<Mm> {
        match self {
            Self::AtLeast(gap) | Self::Fit { gap, .. } | Self::Settled { gap, .. } => Some(gap),
            Self::Count(_) | Self::Even(_) => None,
        }
    }

    /// The count asked for or settled, if one was.
    #[must_use]
    pub const fn count(self) -> Option<u32> {
        match self {
            Self::AtLeast(_) => None,
            Self::Count(count) | Self::Even(count) | Self::Fit { count, .. } | Self::Settled { count, .. } => {
                Some(count)
            }
        }
    }
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
    /// Square to the hem, and bent to follow the line: for long scrolls and vines.
    Bent,
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
