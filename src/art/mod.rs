//! Stage 1, read art: SVG text to a [`Motif`], and what is wrong with the drawing.
//!
//! Knows nothing of hems, films or files: text in, outlines in millimetres out. Only `svg` names the SVG parser, and
//! pixels become millimetres there and nowhere else.
//!
//! In order: limits against hostile files (`hostile`), names and lines (`labels`), what the parser would drop in silence
//! (`silent`) or cannot read (`misread`), painted paths (`svg`), lines to areas (`stroke`), closed and filled shapes (`shapes`), layers in press
//! order (`layers`), the finished size (`read`). [`inspect`] does the same and then looks for everything that would spoil
//! the cut (`check`), by the limits of `data/art_limits.toml`. [`lines()`] reads edges of pattern pieces by their ids.

mod check;
mod doubled;
mod edge_grid;
mod entities;
mod error;
mod hostile;
mod inspection;
mod labels;
mod layers;
mod limits;
mod lines;
mod loops;
mod misread;
mod note;
mod own_mirror_image;
mod read;
mod shapes;
mod silent;
mod simplify;
mod size;
mod stroke;
mod svg;
mod thickness;

pub use check::Overlap;
pub use error::{ArtError, Excess};
pub use inspection::{Found, Inspection, inspect};
pub use labels::Label;
pub use limits::{LimitRow, Limits, LimitsByColour, Working, limit_rows};
pub use lines::{Lines, lines};
pub use note::Measure;
pub use own_mirror_image::SAME_MIRRORED;
pub use shapes::{DrawnAs, DrawnRing, Shape};

use crate::finding::Finding;
use crate::geometry::Outline;
use crate::quantity::Mm;

/// A colour of the drawing, as the drawing gives it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Colour {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

/// `#c62828`
impl std::fmt::Display for Colour {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// All areas of one colour, as seen on the garment's right side.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// The colour in the drawing.
    pub colour: Colour,
    /// Separate areas, none touching another, in motif millimetres.
    pub outlines: Vec<Outline>,
}

/// A motif at its finished size, as seen on the garment's right side.
///
/// Motif coordinates: millimetres, origin at the middle of the bounding box of all layers, x to the right, y down, so that
/// the motif's upper end (away from the hem) is at negative y.
#[derive(Clone, Debug, PartialEq)]
pub struct Motif {
    /// Key in the job, also used in file names: lower-case letters, digits and dashes.
    pub name: String,
    /// Layers in press order: the first lies lowest.
    pub layers: Vec<Layer>,
    /// Finished width.
    pub width: Mm,
    /// Finished height.
    pub height: Mm,
}

/// What is asked of one drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct MotifWish {
    /// Key in the job.
    pub name: String,
    /// File name of the drawing, as the job gives it, for messages.
    pub file: String,
    /// Finished width; `None` takes the drawing's own size if it states one.
    pub width: Option<Mm>,
}

/// A motif and what was found in its drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// The motif at finished size.
    pub motif: Motif,
    /// Everything found, gravest first.
    pub findings: Vec<Finding>,
    /// The shapes the layers were joined from, in paint order, in the motif's frame.
    pub shapes: Vec<Shape>,
}

/// Reads a drawing to a motif at its finished size.
///
/// The work is done on a thread of its own with a deep stack, since the SVG parser recurses.
///
/// # Errors
/// [`ArtError`] when it is no SVG, is empty, or is beyond the limits kept against hostile files.
pub fn read(svg: &str, wish: &MotifWish) -> Result<Read, ArtError> {
    hostile::on_deep_stack(&wish.file, || {
        let reading = read::read(svg, wish, &Working::Film.into())?;
        let notes = note::in_order(reading.notes).into_iter();
        let findings = notes.map(|note| note.into_finding(&wish.file)).collect();
        Ok(Read { motif: reading.motif, findings, shapes: reading.shapes })
    })
}
