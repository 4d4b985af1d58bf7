//! Stage 3, set out: which motif goes where on the hem, with which gaps, and what clashes.
//!
//! Takes motifs and a hem; knows nothing of films, sheets or presses.

mod along;
mod band;
mod chalk;
mod choice;
mod clash;
mod error;
mod faults;
mod ground;
mod pair;
mod say;
mod wish;

use crate::finding::Finding;
use crate::geometry::{Affine, Point};
use crate::quantity::{Mm, Radians};

pub use along::bend::bend;
pub use band::set_out;
pub use chalk::marking::{Dividers, Fold, Marking, There, marking};
pub use chalk::sum::{GapSum, gap_sum};
pub use choice::card::{CountRow, CountsCard, TightRow, counts};
pub use choice::remedy::{Change, ClearGaps, Outcome, Remedy};
pub use choice::settle::{compared, settle, with_count};
pub use choice::sizes::{SizeFault, SizePolicy, SizeRow, SizesCard, sizes};
pub use error::PlaceError;
pub use faults::faults;
pub use pair::{Garments, mirror_image, own_mirror_images, with_mirror_image};
pub use wish::{
    Anchor, BandWish, CornerWish, Evenness, Hands, KeepOut, Level, Order, Rhythm, RowOffset, Rows, Spacing, Stance,
    Tie, Together,
};

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
    /// Chalk number: `CF`, `CB`, or counted from CF: `L1` is the first to the wearer's left, `R1` to her right; `C1` is the
    /// first corner to the wearer's left, the others follow round. A second and later band or row gets its name before it: `upper-L1`.
    pub id: String,
    /// Which motif: key in the job.
    pub motif: String,
    /// As drawn or mirrored; as drawn everywhere where the motif is its own mirror image.
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

impl Placement {
    /// Whether it stands in a corner of the edge, as its chalk number says.
    #[must_use]
    pub fn in_corner(&self) -> bool {
        let own = self.id.rsplit('-').next().unwrap_or(&self.id);
        own.strip_prefix('C').is_some_and(|number| number.starts_with(|first: char| first.is_ascii_digit()))
    }

    /// Carries the motif as drawn, in its own millimetres, to its place in the flat development.
    #[must_use]
    pub fn transform(&self) -> Affine {
        let across = match self.hand {
            Hand::AsDrawn => self.scale,
            Hand::Mirrored => -self.scale,
        };
        Affine::translate(self.at.to_vec2())
            * Affine::rotate(self.turn.get())
            * Affine::scale_non_uniform(across, self.scale)
    }
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
    /// How many motifs, those in corners among them.
    pub count: u32,
    /// How many of them stand in corners.
    pub in_corners: u32,
    /// Middle to middle along the motif line; the mean where motifs of different widths take turns, the usual step where
    /// stretches are set out on their own.
    pub repeat: Mm,
    /// From edge to edge of neighbours along the motif line. For a single motif on an open band, the bare length beside it.
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
    /// What else could be done, cheapest first; empty where nothing is amiss.
    pub remedies: Vec<Remedy>,
}

/// Steps that differ by less are printed alike.
const LIKE_STEPS: Mm = Mm::new(0.1);

impl BandSetting {
    /// The least and the greatest step between neighbours along the line, motifs in corners aside; `None` for a motif on its own.
    #[must_use]
    pub fn steps(&self) -> Option<(Mm, Mm)> {
        let neighbours = self.placements.windows(2).filter(|pair| !pair.iter().any(Placement::in_corner));
        let steps: Vec<Mm> = neighbours.map(|pair| pair[1].s_line - pair[0].s_line).collect();
        let least = steps.iter().copied().min_by(Mm::total_cmp)?;
        let greatest = steps.iter().copied().max_by(Mm::total_cmp)?;
        Some((least, greatest))
    }

    /// The same where they are unlike, so that a single figure for them would belong to none of the gaps.
    #[must_use]
    pub fn unlike_steps(&self) -> Option<(Mm, Mm)> {
        self.steps().filter(|(least, greatest)| *greatest - *least >= LIKE_STEPS)
    }

    /// How many motifs, in words where some stand in corners: `44 (40 along the edges, 4 in the corners)`.
    #[must_use]
    pub fn count_in_words(&self) -> String {
        let corners = match self.in_corners {
            0 => return self.count.to_string(),
            1 => "1 in a corner".to_owned(),
            corners => format!("{corners} in the corners"),
        };
        format!("{} ({} along the edges, {corners})", self.count, self.count - self.in_corners)
    }
}

/// The whole hem set out.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// One for each band and row of the job.
    pub bands: Vec<BandSetting>,
    /// What the maker should look at, band by band.
    pub findings: Vec<Finding>,
}
