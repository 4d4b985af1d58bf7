//! The box to tick before what is done once.

use crate::geometry::{Point, Rect};
use crate::write::drawing::{Drawing, Mark, Pen};
use crate::write::style;

/// A box to tick with its lower left corner at a point, as high as capitals of that size.
pub(crate) fn tick_box(at: Point, size: f64) -> Mark {
    let side = size * 0.8;
    let mut paper = Drawing::new(0.0, 0.0, "");
    let square = Rect::new(at.x, at.y - side + size * 0.03, at.x + side, at.y + size * 0.03);
    paper.rect(square, Some(style::PAPER), Some(Pen::new(style::TEXT, style::THIN)));
    paper.marks.remove(0)
}
