//! Flat cloths without a waist: round, oval, straight-sided. And the ellipse, which a garment may have too.

use super::curve::Curve;
use super::edge::Edge;
use super::shaped::{MOST_PANELS, Shaped, plain, positive, smooth};
use super::{HemError, flare, polygon};
use crate::geometry::Affine;
use crate::quantity::Mm;

/// A cloth without a waist, round where both extents are the same.
pub(super) fn cloth(width: Mm, depth: Mm) -> Result<Shaped, HemError> {
    let (width, depth) = (positive("width", width)? / 2.0, positive("depth", depth)? / 2.0);
    if width == depth { flare::circle(1.0, Mm::ZERO, width) } else { ellipse(depth, width) }
}

pub(super) fn ellipse(front_back: Mm, side_side: Mm) -> Result<Shaped, HemError> {
    let front_back = positive("half the extent from front to back", front_back)?.get();
    let side_side = positive("half the extent from side to side", side_side)?.get();
    Ok(smooth(Curve::Ellipse { front_back, side_side }, None))
}

pub(super) fn rectangle(width: Mm, depth: Mm) -> Result<Shaped, HemError> {
    let (width, depth) = (positive("width", width)?.get(), positive("depth", depth)?.get());
    Ok(cornered(polygon::rectangle(width, depth)))
}

pub(super) fn regular(sides: u32, side: Mm) -> Result<Shaped, HemError> {
    if !(3..=MOST_PANELS).contains(&sides) {
        return Err(HemError::Sides { sides, most: MOST_PANELS });
    }
    Ok(cornered(polygon::regular(sides, positive("side", side)?.get())))
}

/// A flat cloth: its edge closes where it started, whether in a corner or not.
fn cornered(edge: Edge) -> Shaped {
    let (least, greatest) = edge.span();
    Shaped { once_round: Some(Affine::IDENTITY), ..plain(edge, (greatest - least) / 4.0, None) }
}
