//! Plane shapes in `f64` millimetres, y down as in SVG: closed rings, areas with holes, and what is done with them.
//!
//! Knows nothing of garments, films or files. Every coordinate in a [`Ring`] is finite and within [`FARTHEST`].

pub mod clearance;
pub mod flatten;
mod outline;
pub mod overlay;
mod ring;

pub use kurbo::{Affine, Point, Rect, Vec2};
pub use outline::Outline;
pub use ring::{Ring, RingError};

/// Farthest coordinate taken, in millimetres (10 km): keeps areas and products exact enough and far from overflow.
pub const FARTHEST: f64 = 1.0e7;

/// Bounding box of several outlines; `None` when there are none.
#[must_use]
pub fn bounds(outlines: &[Outline]) -> Option<Rect> {
    outlines.iter().map(Outline::bounds).reduce(|a, b| a.union(b))
}
