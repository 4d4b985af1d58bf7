//! Stage 4, film pieces: what is cut from which film or cloth, which way round, in which hand, and how many.
//!
//! Outlines as seen and outlines as cut are different types; only [`for_cutting`] turns the first into the second, so no
//! outline can be reversed twice or forgotten.

mod error;
mod method;
mod name;
mod patch;
mod prepare;
mod reverse;
mod variant;

pub use error::{FilmError, LayerName};
pub use method::{Method, Travels};
pub use patch::patch;
pub use prepare::prepare;
pub use reverse::{AsCut, AsSeen, CutFrom, for_cutting};

use crate::art::Colour;
use crate::finding::Finding;
use crate::geometry::Ring;
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
    /// Outlines to cut, and nothing else.
    pub cut: AsCut,
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
}

/// Which film takes which colour of a motif, and how many spares.
#[derive(Clone, Debug, PartialEq)]
pub struct CutWish {
    /// Motif key.
    pub motif: String,
    /// One for each layer of the motif, in press order.
    pub layers: Vec<LayerWish>,
    /// Whole spare motifs of each hand that occurs.
    pub spares: u32,
    /// Whole test motifs, cut on the first sheet.
    pub tests: u32,
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
    /// What she should know about it.
    pub findings: Vec<Finding>,
}
