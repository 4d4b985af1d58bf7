//! What a drawing comes to: painted paths, clips and notes.

use std::collections::{BTreeMap, BTreeSet};

use crate::art::Colour;
use crate::art::labels::Label;
use crate::art::note::Note;
use crate::geometry::overlay::FillRule;
use crate::geometry::{Affine, Point};
use kurbo::BezPath;

/// Millimetres in a CSS pixel: 25.4 mm to the inch, 96 pixels to the inch (CSS Values and Units 4, section 6.2).
pub(in crate::art) const MM_PER_PIXEL: f64 = 25.4 / 96.0;

/// One fill or one stroke of a path.
#[derive(Clone, Debug)]
pub(in crate::art) struct Painted {
    pub(in crate::art) label: Label,
    /// In the path's own units; a stroke's width is in the same.
    pub(in crate::art) path: BezPath,
    /// From the path's own units to page millimetres.
    pub(in crate::art) to_page: Affine,
    pub(in crate::art) colour: Colour,
    pub(in crate::art) brush: Brush,
    /// Clips that apply, outermost first; each must contain what is kept.
    pub(in crate::art) clips: Vec<usize>,
}

/// How a path is painted.
#[derive(Clone, Debug)]
pub(in crate::art) enum Brush {
    Fill(FillRule),
    Stroke(kurbo::Stroke),
}

/// A clip: the fills whose areas together let the drawing through.
#[derive(Clone, Debug)]
pub(in crate::art) struct Clip {
    pub(in crate::art) label: Label,
    pub(in crate::art) fills: Vec<Painted>,
}

/// Everything painted, in paint order.
#[derive(Debug, Default)]
pub(in crate::art) struct Drawn {
    pub(in crate::art) painted: Vec<Painted>,
    pub(in crate::art) clips: Vec<Clip>,
    pub(in crate::art) notes: Vec<Note>,
    /// Width of the page in millimetres.
    pub(in crate::art) page_width: f64,
    /// Ids of everything the parser handed on, drawn or not.
    pub(in crate::art) seen: BTreeSet<String>,
    /// Where texts, pictures, groups and shapes lie.
    pub(in crate::art) places: BTreeMap<Label, Point>,
}
