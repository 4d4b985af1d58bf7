//! Stage 4, film pieces: what is cut from which film or cloth, which way round, in which hand, and how many.
//!
//! Outlines as seen and outlines as cut are different types; only [`for_cutting`] turns the first into the second, so no
//! outline can be reversed twice or forgotten.

mod cut_order;
mod error;
mod fabric;
mod guide;
mod holes;
mod layering;
mod make;
mod match_marks;
mod mend;
mod method;
mod misplacing;
mod name;
mod one_material;
mod patch;
mod prepare;
mod preparing;
mod reverse;
mod say;
mod turn_under;
mod variant;
mod weeding;

pub use cut_order::in_cut_order;
pub use error::{CannotTurn, FilmError, LayerName, TurnFault, spares_can_be_cut};
pub use fabric::{FabricNeed, fabric_needs};
pub use guide::{Guide, GuideLine};
pub use layering::{Bears, Layered, OnTop, Under, Why, layered};
pub use make::LayerMade;
pub use mend::{Change, Changed, Mended, mended};
pub use method::{Method, Travels};
pub use misplacing::{Underlap, least_underlap};
pub use one_material::two_materials;
pub use patch::patch;
pub use prepare::prepare;
pub use preparing::{Islands, Layering, MatchMarks, Preparing, Weeding};
pub use reverse::{AsCut, AsSeen, CutFrom, for_cutting};
pub use turn_under::{Tight, clips, tight_places, with_allowance};
pub use variant::counted;
pub use weeding::WeedingBox;

use crate::art::Colour;
use crate::finding::Finding;
use crate::geometry::{Outline, Point, Ring};
use crate::place::Hand;
use crate::quantity::Mm;

/// One kind of piece: what one scissored patch of carrier (or one fabric piece) holds.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceKind {
    /// File-safe name, each only once: motif, film, and what sets it apart (`poppy-red`, `leaf-green-mirrored`).
    pub name: String,
    /// Motif key.
    pub motif: String,
    /// Index of the layer in the motif, in press order.
    pub layer: usize,
    /// Drawing colour.
    pub colour: Colour,
    /// Key of the film or cloth it is cut from.
    pub film: String,
    /// Hand on the garment.
    pub hand: Hand,
    /// Factor on the motif's finished size; `cut` and `patch` have it applied.
    pub scale: f64,
    /// How it is cut and fixed.
    pub method: Method,
    /// Outlines of the piece as they are cut: the finished ones, or those of the turn-under round them.
    pub cut: AsCut,
    /// The finished outlines where they differ from `cut`: the line a turned edge is folded on, drawn and not cut.
    pub finish: Option<AsCut>,
    /// Match marks, cut with the piece and weeded away.
    pub marks: AsCut,
    /// A box and relief cuts for lifting the waste, where asked for; its ring is the patch.
    pub weeding: Option<WeedingBox>,
    /// Clips on inside curves of turned edges, from the cut line to just outside the finished one; snipped by hand.
    pub clips: Vec<(Point, Point)>,
    /// Arrow along the straight grain, upright in the motif; cloth pieces only.
    pub grain: Option<(Point, Point)>,
    /// The carrier patch as cut: the region scissors part from its neighbours. Contains every outline of `cut`.
    pub patch: Ring,
    /// Needed on the garment.
    pub needed: u32,
    /// Spares beyond that.
    pub spares: u32,
    /// Test pieces, cut on the first sheet.
    pub tests: u32,
}

impl PieceKind {
    /// The outlines as they are on the garment, in the frame of `cut`.
    #[must_use]
    pub fn finished(&self) -> &[Outline] {
        self.finish.as_ref().unwrap_or(&self.cut).outlines()
    }

    /// Every closed cut of the knife in its order: the piece from the inside outward, then what helps with the waste.
    #[must_use]
    pub fn knife_rings(&self) -> Vec<Ring> {
        let mut rings = in_cut_order(self.cut.outlines());
        rings.extend(self.waste_rings());
        rings
    }

    /// Closed cuts that only part waste: match marks, relief cuts (there and back along one line), the weeding box.
    #[must_use]
    pub fn waste_rings(&self) -> Vec<Ring> {
        let mut rings = in_cut_order(self.marks.outlines());
        if let Some(weeding) = &self.weeding {
            let there_and_back =
                |(from, to): &(Point, Point)| Ring::new([*from, from.midpoint(*to), *to, from.midpoint(*to)]).ok();
            rings.extend(weeding.relief.iter().filter_map(there_and_back));
            rings.push(weeding.ring.clone());
        }
        rings
    }

    /// Length of all closed cuts of one piece.
    #[must_use]
    pub fn cut_length(&self) -> Mm {
        Mm::new(self.knife_rings().iter().map(Ring::perimeter).sum())
    }

    /// How many are cut in all.
    #[must_use]
    pub const fn quantity(&self) -> u32 {
        self.needed + self.spares + self.tests
    }
}

/// All pieces of the job, and how many layers each film holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Pieces {
    /// In order of film (as in the job), motif, size, hand, layer.
    pub kinds: Vec<PieceKind>,
}

/// Clearance between a motif's outline and the scissor line round it when several outlines are joined to one patch.
pub const PATCH_CLEARANCE: Mm = Mm::new(1.0);

/// A film or cloth of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct Film {
    /// Key in the job: `red`.
    pub key: String,
    /// Class in `data/film_classes.toml`: `smooth`, `glitter`.
    pub class: String,
    /// The maker's own colour name.
    pub colour_name: String,
    /// Sizes to buy or in the drawer.
    pub stock: Vec<crate::nest::Stock>,
    /// Clear border on every edge.
    pub margin: Mm,
    /// Least distance between patches.
    pub gap: Mm,
    /// How pieces may be turned.
    pub turning: crate::nest::Turning,
    /// Whether small patches may lie in the waste inside large ones.
    pub use_holes: bool,
}

/// How many whole motifs are cut beyond those needed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spares {
    /// So many of each hand and size that occurs.
    Each(u32),
    /// One for every so many of each hand and size, and one at least.
    OneFor(u32),
}

impl Spares {
    /// Spares of a hand and size of which so many are needed.
    #[must_use]
    pub fn of(self, needed: u32) -> u32 {
        match self {
            Self::Each(spares) => spares,
            Self::OneFor(motifs) => needed.div_ceil(motifs.max(1)).max(1),
        }
    }
}

/// Which film takes which colour of a motif, and how many spares.
#[derive(Clone, Debug, PartialEq)]
pub struct CutWish {
    /// Motif key.
    pub motif: String,
    /// One for each layer of the motif, in press order.
    pub layers: Vec<LayerWish>,
    /// Whole spare motifs.
    pub spares: Spares,
    /// Whole test motifs, cut on the first sheet.
    pub tests: u32,
    /// What is done to the layers before they are cut.
    pub preparing: Preparing,
}

/// How one layer is cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayerWish {
    /// Drawing colour this applies to.
    pub colour: Colour,
    /// Film key.
    pub film: String,
    /// How it is cut and fixed.
    pub method: Method,
}

/// Pieces and what was found while making them.
#[derive(Clone, Debug, PartialEq)]
pub struct Prepared {
    /// What is cut.
    pub pieces: Pieces,
    /// How the layers of each motif lie on each other.
    pub layers: Vec<LayerMade>,
    /// What she should know about it.
    pub findings: Vec<Finding>,
}
