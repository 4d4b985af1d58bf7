//! A box round a patch and relief cuts from its corners, so that the waste lifts in pieces.

use crate::geometry::clearance::Measurable;
use crate::geometry::{Outline, Point, Rect, Ring, Vec2};

/// Helps for lifting the waste of one patch, as cut.
#[derive(Clone, Debug, PartialEq)]
pub struct WeedingBox {
    /// The box; it becomes the patch.
    pub ring: Ring,
    /// Relief cuts, from a corner of the box toward the pieces.
    pub relief: Vec<(Point, Point)>,
}

/// Shorter relief cuts help nothing, in millimetres.
const SHORTEST: f64 = 4.0;
/// A relief cut is searched in steps of this, in millimetres.
const STEP: f64 = 0.5;

/// The box of some outlines, nowhere nearer to them than `clear`, nor the relief cuts; `None` without outlines.
#[must_use]
pub(super) fn weeding_box(outlines: &[Outline], clear: f64) -> Option<WeedingBox> {
    let measured = Measurable::new(outlines)?;
    let around = measured.bounds().inflate(clear, clear);
    let ring = Ring::rectangle(around).ok()?;
    let relief = corners(around).into_iter().filter_map(|corner| relief(corner, around.center(), &measured, clear));
    Some(WeedingBox { ring, relief: relief.collect() })
}

fn corners(around: Rect) -> [Point; 4] {
    let Rect { x0, y0, x1, y1 } = around;
    [Point::new(x0, y0), Point::new(x1, y0), Point::new(x1, y1), Point::new(x0, y1)]
}

/// The longest cut from a corner toward the middle that stays clear of every piece.
fn relief(corner: Point, middle: Point, pieces: &Measurable, clear: f64) -> Option<(Point, Point)> {
    let way = corner.distance(middle);
    let along: Vec2 = (middle - corner) / way;
    let mut length = 0.0;
    while length + STEP <= way {
        let next = corner + along * (length + STEP);
        if distance(next, pieces) < clear {
            break;
        }
        length += STEP;
    }
    (length >= SHORTEST).then(|| (corner, corner + along * length))
}

fn distance(point: Point, pieces: &Measurable) -> f64 {
    // A triangle a thousandth of a millimetre wide stands for the point.
    let (dx, dy) = (Vec2::new(1e-3, 0.0), Vec2::new(0.0, 1e-3));
    let speck = Ring::new([point, point + dx, point + dy]).map(|ring| Outline::new(ring, vec![]));
    let speck = speck.ok().and_then(|speck| Measurable::new(&[speck]));
    speck.map_or(0.0, |speck| speck.clearance_to(pieces).distance)
}
