//! An area with holes.

use super::{Affine, Point, Rect, Ring};

/// One connected area: an outer ring and the holes in it.
///
/// # Guarantees
/// The outer ring has positive signed area, holes negative. Expected of the maker, not checked here: rings are simple,
/// holes lie inside the outer ring and apart from each other. `overlay` and `art` give only such outlines.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    outer: Ring,
    holes: Vec<Ring>,
}

impl Outline {
    /// An area from its outer ring and holes; directions are set right here.
    #[must_use]
    pub fn new(outer: Ring, holes: Vec<Ring>) -> Self {
        let holes = holes.into_iter().map(|hole| hole.positive().reversed()).collect();
        Self { outer: outer.positive(), holes }
    }

    /// The outer ring.
    #[must_use]
    pub const fn outer(&self) -> &Ring {
        &self.outer
    }

    /// The holes.
    #[must_use]
    pub fn holes(&self) -> &[Ring] {
        &self.holes
    }

    /// Outer ring and holes.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        std::iter::once(&self.outer).chain(&self.holes)
    }

    /// Area less holes, in square millimetres.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.rings().map(Ring::signed_area).sum()
    }

    /// Bounding box.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        self.outer.bounds()
    }

    /// The area moved, turned, scaled or mirrored.
    #[must_use]
    pub fn transformed(&self, transform: Affine) -> Self {
        Self::new(
            self.outer.transformed(transform),
            self.holes.iter().map(|hole| hole.transformed(transform)).collect(),
        )
    }

    /// Whether a point lies in the area and in no hole.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.outer.contains(point) && !self.holes.iter().any(|hole| hole.contains(point))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hole_counts_against_the_area_whichever_way_it_was_drawn() {
        let outer = Ring::rectangle(Rect::new(0.0, 0.0, 10.0, 10.0)).unwrap();
        let hole = Ring::rectangle(Rect::new(4.0, 4.0, 6.0, 6.0)).unwrap();
        for hole in [hole.clone(), hole.reversed()] {
            let ring = Outline::new(outer.reversed(), vec![hole]);
            assert!((ring.area() - 96.0).abs() < 1e-12);
            assert!(!ring.contains(Point::new(5.0, 5.0)));
            assert!((ring.transformed(Affine::FLIP_X).area() - 96.0).abs() < 1e-12);
        }
    }
}
