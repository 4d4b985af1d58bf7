//! The order in which a knife cuts: what lies inside before what lies outside, so that nothing shifts before it is cut.

use crate::geometry::{Outline, Point, Rect, Ring};

/// All rings of some outlines, every ring before those that surround it; among equals the next is the one nearest to where
/// the knife is, beginning at the top left.
#[must_use]
pub fn in_cut_order(outlines: &[Outline]) -> Vec<Ring> {
    let rings: Vec<&Ring> = outlines.iter().flat_map(Outline::rings).collect();
    let measured: Vec<Measured<'_>> = rings.iter().map(|ring| Measured::of(ring)).collect();
    let depth: Vec<usize> =
        measured.iter().map(|ring| measured.iter().filter(|other| other.surrounds(ring)).count()).collect();
    let mut left: Vec<usize> = (0..rings.len()).collect();
    let mut knife: Option<Point> = None;
    let mut order = Vec::with_capacity(rings.len());
    while let Some(deepest) = left.iter().map(|index| depth[*index]).max() {
        let next = left
            .iter()
            .enumerate()
            .filter(|(_, index)| depth[**index] == deepest)
            .min_by(|(_, a), (_, b)| way(knife, rings[**a]).total_cmp(&way(knife, rings[**b])))
            .map(|(place, _)| place)
            .expect("some ring has the greatest depth");
        let ring = rings[left.remove(next)];
        knife = Some(ring.points()[0]);
        order.push(ring.clone());
    }
    order
}

/// Way of the knife to where a ring begins; from nowhere, how far down and to the right that is.
fn way(knife: Option<Point>, ring: &Ring) -> f64 {
    let start = ring.points()[0];
    knife.map_or(start.x + start.y, |knife| knife.distance(start))
}

/// A ring with what is asked of it again and again.
struct Measured<'a> {
    ring: &'a Ring,
    bounds: Rect,
    area: f64,
}

impl<'a> Measured<'a> {
    fn of(ring: &'a Ring) -> Self {
        Self { ring, bounds: ring.bounds(), area: ring.area() }
    }

    /// Whether another ring lies inside this one; rings of one layer do not cross.
    fn surrounds(&self, inner: &Self) -> bool {
        let (large, small) = (self.bounds, inner.bounds);
        let inside = large.x0 <= small.x0 && large.y0 <= small.y0 && large.x1 >= small.x1 && large.y1 >= small.y1;
        inside && self.area > inner.area && self.ring.contains(inner.ring.points()[0])
    }
}
