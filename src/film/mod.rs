//! Stage 4, film pieces: what is cut from which film or cloth, which way round, in which hand, and how many.
//!
//! Outlines as seen and outlines as cut are different types; only [`for_cutting`] turns the first into the second, so no
//! outline can be reversed twice or forgotten.

use std::collections::BTreeMap;

use crate::art::{Colour, Motif};
use crate::finding::Finding;
use crate::geometry::{Affine, Outline, Ring};
use crate::place::{Hand, Setting};
use crate::quantity::Mm;

/// Outlines as seen on the garment's right side, in motif millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct AsSeen(Vec<Outline>);

impl AsSeen {
    /// Outlines in the motif's own frame.
    #[must_use]
    pub const fn new(outlines: Vec<Outline>) -> Self {
        Self(outlines)
    }

    /// The outlines.
    #[must_use]
    pub fn outlines(&self) -> &[Outline] {
        &self.0
    }

    /// The other hand: mirrored about the motif's upright axis, still as seen.
    #[must_use]
    pub fn in_hand(&self, hand: Hand) -> Self {
        match hand {
            Hand::AsDrawn => self.clone(),
            Hand::Mirrored => Self(self.0.iter().map(|outline| outline.transformed(Affine::FLIP_X)).collect()),
        }
    }
}

/// Outlines as the knife cuts them, in piece millimetres (origin at the motif's middle, x mirrored where reversed).
///
/// There is no public constructor: only [`for_cutting`] makes one.
#[derive(Clone, Debug, PartialEq)]
pub struct AsCut(Vec<Outline>);

impl AsCut {
    /// The outlines.
    #[must_use]
    pub fn outlines(&self) -> &[Outline] {
        &self.0
    }
}

/// Which side faces the knife or pencil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFrom {
    /// The side that ends on the garment: adhesive, wrong side, paper of the web. What is cut is reversed.
    Back,
    /// The side that is seen. What is cut is not reversed.
    RightSide,
}

/// Turns outlines as seen into outlines as cut: the one place where anything is reversed.
#[must_use]
pub fn for_cutting(seen: &AsSeen, from: CutFrom) -> AsCut {
    match from {
        CutFrom::RightSide => AsCut(seen.0.clone()),
        CutFrom::Back => AsCut(seen.0.iter().map(|outline| outline.transformed(Affine::FLIP_X)).collect()),
    }
}

/// How a layer is cut and fixed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Heat-transfer film, cut from the adhesive side on its carrier.
    Film,
    /// Fabric with fusible web, traced reversed on the paper of the web; raw edge.
    FusedTraced,
    /// Fabric already backed with fusible web, cut right side up; raw edge.
    FusedBacked,
    /// Turned-edge fabric, template laid on the right side; turn-under outside the finished line.
    TurnedTemplateOnRight,
    /// Turned-edge fabric over a stiff template on the wrong side.
    TurnedTemplateOnWrong,
}

impl Method {
    /// Table of docs/sources.md "mirror or not": decided by the side that is drawn or cut.
    #[must_use]
    pub const fn cut_from(self) -> CutFrom {
        match self {
            Self::Film | Self::FusedTraced | Self::TurnedTemplateOnWrong => CutFrom::Back,
            Self::FusedBacked | Self::TurnedTemplateOnRight => CutFrom::RightSide,
        }
    }
}

/// One kind of piece: what one scissored patch of carrier (or one fabric piece) holds.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceKind {
    /// File-safe name: motif, colour, and hand where both hands occur (`poppy-red`, `leaf-green-mirrored`).
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
    /// Factor on the motif's finished size.
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
    /// In order of film, motif, layer, hand, scale.
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

/// Why pieces cannot be made.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum FilmError {}

/// Makes the pieces of the whole setting.
///
/// # Errors
/// [`FilmError`] when a layer's colour has no film, or a film is unknown.
pub fn prepare(
    motifs: &BTreeMap<String, Motif>,
    setting: &Setting,
    cuts: &[CutWish],
    films: &[Film],
) -> Result<Prepared, FilmError> {
    unimplemented!("{motifs:?} {setting:?} {cuts:?} {films:?}")
}
