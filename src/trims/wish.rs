//! What is asked of a trim.

use super::strips::StripCloth;
use crate::press::{Lies, Zone, ZoneState};
use crate::quantity::Mm;

/// A trim as the maker wishes it.
#[derive(Clone, Debug, PartialEq)]
pub struct TrimWish {
    /// What she calls it: `stiff braid`.
    pub name: String,
    /// What it is, with its measurements.
    pub kind: Kind,
    /// Height of its lower edge above the hem.
    pub height: Mm,
    /// Which side of the garment it shows on.
    pub side: Side,
    /// Price of a metre of what is bought: the trim itself, or the cloth it is cut from.
    pub price: Option<f64>,
    /// Weight: grams a metre for what is bought ready made, grams a square metre for cloth.
    pub weight: Option<f64>,
    /// Key in `data/materials.toml`, where heat is to be checked against it.
    pub material: Option<String>,
    /// Whether it is there when the press closes.
    pub state: Option<ZoneState>,
}

/// Which side of the garment a trim lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Seen; motifs cannot lie on the same heights.
    Right,
    /// Behind the cloth: motifs may lie over it, the press meets it all the same.
    Wrong,
}

/// The kinds of trim.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Kind {
    /// Stiff braid behind the hem.
    Braid(Braid),
    /// A facing behind the hem.
    Facing(Facing),
    /// Lace, flat or gathered.
    Lace(Lace),
    /// Pleats laid from strips.
    Pleats(Pleats),
    /// A gathered strip.
    Ruffle(Ruffle),
    /// Bias binding over the edge.
    Binding(Binding),
    /// A covered cord in the seam.
    Piping(Piping),
}

/// Stiff braid, bought by the metre.
#[derive(Clone, Debug, PartialEq)]
pub struct Braid {
    /// Its width, which is its depth on the hem.
    pub depth: Mm,
    /// Extra length as a share: 0.02 for 2 %.
    pub ease: f64,
    /// Where its ends lap, or are turned back on an open hem.
    pub overlap: Mm,
    /// Whether its upper edge can be drawn up.
    pub draw_thread: DrawThread,
}

/// Whether a braid has a thread along one edge that gathers it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawThread {
    /// It has one.
    Yes,
    /// It has none.
    No,
    /// Not said.
    Unknown,
}

/// A facing.
#[derive(Clone, Debug, PartialEq)]
pub struct Facing {
    /// Finished depth.
    pub depth: Mm,
    /// Allowance on its lower and on its upper edge.
    pub allowance: Mm,
    /// Straight, bias or shaped.
    pub cut: FacingCut,
    /// The cloth it is cut from.
    pub cloth: StripCloth,
}

/// How a facing is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FacingCut {
    /// Straight strips across the cloth.
    Straight,
    /// Strips on the bias.
    Bias,
    /// Pieces with the curve of the hem.
    Shaped,
}

/// Lace, bought by the metre.
#[derive(Clone, Debug, PartialEq)]
pub struct Lace {
    /// Its width.
    pub depth: Mm,
    /// Length of lace for a length of line: 1 for flat lace.
    pub fullness: f64,
    /// Where its ends lap or are turned back.
    pub overlap: Mm,
}

/// Pleats laid from joined strips.
#[derive(Clone, Debug, PartialEq)]
pub struct Pleats {
    /// Knife or box.
    pub style: PleatStyle,
    /// Finished depth, from heading to lower edge.
    pub depth: Mm,
    /// Cut depth of a strip: finished depth and both edges' allowances.
    pub cut_depth: Mm,
    /// Width of a pleat that is seen.
    pub visible: Mm,
    /// How far each fold reaches under, as a share of the visible width. Knife pleats just meet at 1, box pleats at 0.5.
    pub underfold: f64,
    /// How many rows.
    pub rows: u32,
    /// Height of each row above the one below it.
    pub row_step: Mm,
    /// The cloth the strips are cut from.
    pub cloth: StripCloth,
}

/// How pleats are folded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PleatStyle {
    /// All to one side.
    Knife,
    /// By pairs away from each other.
    Box,
}

/// A gathered strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruffle {
    /// Finished depth.
    pub depth: Mm,
    /// Cut depth of a strip.
    pub cut_depth: Mm,
    /// Length of strip for a length of line.
    pub fullness: f64,
    /// The cloth the strips are cut from.
    pub cloth: StripCloth,
}

/// Bias binding over the edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Binding {
    /// Width seen on each side.
    pub finished: Mm,
    /// Cut width as a multiple of the finished one: 4 for the usual double fold.
    pub folds: f64,
    /// Where its ends are joined or turned in.
    pub overlap: Mm,
    /// The cloth it is cut from; `None` when bought ready made.
    pub cloth: Option<StripCloth>,
}

/// A covered cord.
#[derive(Clone, Debug, PartialEq)]
pub struct Piping {
    /// Thickness of the cord.
    pub cord: Mm,
    /// Seam allowance of its cover.
    pub allowance: Mm,
    /// Where its ends lap.
    pub overlap: Mm,
    /// The cloth of the cover.
    pub cloth: StripCloth,
}

impl Kind {
    /// What it is called on papers.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Braid(_) => "braid",
            Self::Facing(_) => "facing",
            Self::Lace(_) => "lace",
            Self::Pleats(Pleats { style: PleatStyle::Knife, .. }) => "knife pleats",
            Self::Pleats(Pleats { style: PleatStyle::Box, .. }) => "box pleats",
            Self::Ruffle(_) => "ruffle",
            Self::Binding(_) => "bias binding",
            Self::Piping(_) => "piping",
        }
    }

    /// How much of the height of the garment it takes, all rows together.
    #[must_use]
    pub fn depth(&self) -> Mm {
        match self {
            Self::Braid(braid) => braid.depth,
            Self::Facing(facing) => facing.depth,
            Self::Lace(lace) => lace.depth,
            Self::Pleats(pleats) => pleats.depth + pleats.row_step * f64::from(pleats.rows.saturating_sub(1)),
            Self::Ruffle(ruffle) => ruffle.depth,
            Self::Binding(binding) => binding.finished,
            Self::Piping(piping) => piping.cord,
        }
    }
}

impl TrimWish {
    /// From which to which height above the hem it lies.
    #[must_use]
    pub fn heights(&self) -> (Mm, Mm) {
        (self.height, self.height + self.kind.depth())
    }

    /// The trim as the press meets it, where the maker named its material: all round, over its whole depth. A trim
    /// without a state counts as in place, which is the hotter case.
    #[must_use]
    pub fn zone(&self) -> Option<Zone> {
        let material = self.material.clone()?;
        Some(Zone {
            name: self.name.clone(),
            material,
            along: None,
            heights: self.heights(),
            state: self.state.unwrap_or(ZoneState::InPlace),
            lies: if self.side == Side::Right { Lies::Over } else { Lies::Beneath },
        })
    }
}
