//! The SVG parser's tree as painted paths in page millimetres: the only folder that names the parser, and the only
//! place where pixels become millimetres.
//!
//! In: the drawing's text with an id on every element. Out: every visible fill and stroke in paint order, with its one
//! colour, its clips and the element it came from, and notes on what cannot be cut. No picture is ever loaded and no
//! font is known, so nothing outside the text is touched.

mod convert;
mod drawn;
mod lines;
mod paint;
mod parse;
mod walk;

use super::error::ArtError;
use super::labels::{Label, Labelled};
use crate::geometry::Affine;
use walk::{Surroundings, Walk};

pub(in crate::art) use drawn::{Brush, Clip, Drawn, MM_PER_PIXEL, Painted};
pub(in crate::art) use lines::lines;

/// Parses the text and walks the tree.
pub(in crate::art) fn read(labelled: &Labelled, file: &str) -> Result<Drawn, ArtError> {
    let tree = parse::parse(labelled, file)?;
    let page_width = f64::from(tree.size().width()) * MM_PER_PIXEL;
    let mut walk = Walk { labelled, drawn: Drawn { page_width, ..Drawn::default() } };
    let root = Surroundings {
        label: Label { element: "drawing".to_owned(), line: None },
        transform: Affine::scale(MM_PER_PIXEL),
        clips: Vec::new(),
    };
    walk.group(tree.root(), &root);
    Ok(walk.drawn)
}
