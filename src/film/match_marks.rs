//! Match marks: small diamonds outside the motif, at the same place on every layer of it.
//!
//! They are cut with each layer and weeded away like waste; the cut in the carrier stays, and laid one on the other it
//! shows that the layers meet. The right one stands higher, so that a layer turned over or upside down does not match.

use crate::geometry::{Outline, Point, Rect, Ring};

/// From point to point of a mark, in millimetres.
const SIZE: f64 = 5.0;
/// From the motif's box to a mark, in millimetres: room to lift the mark's waste without touching a piece.
const CLEAR: f64 = 3.0;

/// The marks of a motif with this bounding box, as seen.
#[must_use]
pub(super) fn marks(motif: Rect) -> Vec<Outline> {
    let off = CLEAR + SIZE / 2.0;
    // A tenth of the height apart, so that they are never level.
    let lift = motif.height() / 10.0;
    let middle = motif.center().y;
    [Point::new(motif.x0 - off, middle + lift), Point::new(motif.x1 + off, middle - lift)]
        .into_iter()
        .filter_map(diamond)
        .collect()
}

fn diamond(at: Point) -> Option<Outline> {
    let half = SIZE / 2.0;
    let ring = Ring::new([
        Point::new(at.x, at.y - half),
        Point::new(at.x + half, at.y),
        Point::new(at.x, at.y + half),
        Point::new(at.x - half, at.y),
    ]);
    ring.ok().map(|ring| Outline::new(ring, vec![]))
}
