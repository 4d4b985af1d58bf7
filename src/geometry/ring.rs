//! A closed polygon ring.

use super::{Affine, FARTHEST, Point, Rect};

/// A closed ring of straight edges; the last point joins the first and is not repeated.
///
/// # Guarantees
/// At least three points; every coordinate finite and within [`FARTHEST`]; no point equal to the one before it.
/// Not guaranteed: simple (it may cross itself until `art` has repaired it), or of either direction.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring(Vec<Point>);

/// Why points make no ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum RingError {
    /// Fewer than three distinct points.
    TooFewPoints,
    /// A coordinate is NaN, infinite or beyond [`FARTHEST`].
    OutOfRange,
}

impl std::fmt::Display for RingError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::TooFewPoints => "fewer than three distinct points make no closed outline",
            Self::OutOfRange => "a point lies farther out than 10 km",
        })
    }
}

impl std::error::Error for RingError {}

impl Ring {
    /// A ring through `points`; repeated neighbours, and a last point that repeats the first, are dropped.
    ///
    /// # Errors
    /// [`RingError`] when fewer than three distinct points are left or a coordinate is out of range.
    pub fn new(points: impl IntoIterator<Item = Point>) -> Result<Self, RingError> {
        let mut kept: Vec<Point> = Vec::new();
        for point in points {
            if !(point.x.abs() <= FARTHEST && point.y.abs() <= FARTHEST) {
                return Err(RingError::OutOfRange);
            }
            if kept.last() != Some(&point) {
                kept.push(point);
            }
        }
        while kept.len() > 1 && kept.first() == kept.last() {
            kept.pop();
        }
        if kept.len() < 3 { Err(RingError::TooFewPoints) } else { Ok(Self(kept)) }
    }

    /// An axis-parallel rectangle, clockwise on screen.
    ///
    /// # Errors
    /// [`RingError`] when the rectangle is empty or out of range.
    pub fn rectangle(rect: Rect) -> Result<Self, RingError> {
        Self::new([
            Point::new(rect.x0, rect.y0),
            Point::new(rect.x1, rect.y0),
            Point::new(rect.x1, rect.y1),
            Point::new(rect.x0, rect.y1),
        ])
    }

    /// The points in order.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.0
    }

    /// Edges as pairs of points, the closing one last.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.0.iter().skip(1).chain(self.0.first());
        self.0.iter().copied().zip(next.copied())
    }

    /// Area with sign by the shoelace formula: positive when the ring runs clockwise on screen (y down).
    #[must_use]
    pub fn signed_area(&self) -> f64 {
        // About the first point, so that far-off coordinates cost no digits.
        let origin = self.0[0];
        self.edges().map(|(a, b)| (a - origin).cross(b - origin)).sum::<f64>() / 2.0
    }

    /// Area without sign, in square millimetres.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.signed_area().abs()
    }

    /// Length all round, in millimetres.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.edges().map(|(a, b)| a.distance(b)).sum()
    }

    /// Bounding box.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let first = Rect::from_points(self.0[0], self.0[0]);
        self.0.iter().fold(first, |rect, point| rect.union_pt(*point))
    }

    /// The same ring walked the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self(self.0.iter().rev().copied().collect())
    }

    /// The ring running so that its signed area is positive.
    #[must_use]
    pub fn positive(self) -> Self {
        if self.signed_area() < 0.0 { self.reversed() } else { self }
    }

    /// Every point moved by `transform`. A flip also turns the direction round, as it must.
    ///
    /// # Panics
    /// In debug builds, when the transform carries a point out of range; transforms here are placements on sheets and
    /// garments, which cannot.
    #[must_use]
    pub fn transformed(&self, transform: Affine) -> Self {
        let points: Vec<Point> = self.0.iter().map(|point| transform * *point).collect();
        debug_assert!(points.iter().all(|p| p.x.is_finite() && p.y.is_finite()), "placement left the plane");
        Self(points)
    }

    /// Whether a point lies inside (even-odd rule); points on the edge may fall either way.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.edges().fold(false, |inside, (a, b)| {
            let crosses =
                (a.y > point.y) != (b.y > point.y) && point.x < (b.x - a.x) * (point.y - a.y) / (b.y - a.y) + a.x;
            inside != crosses
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Ring {
        Ring::rectangle(Rect::new(10.0, 10.0, 20.0, 20.0)).unwrap()
    }

    #[test]
    fn a_square_has_its_area_perimeter_and_inside() {
        assert!((square().signed_area() - 100.0).abs() < 1e-12);
        assert!((square().reversed().signed_area() + 100.0).abs() < 1e-12);
        assert!((square().perimeter() - 40.0).abs() < 1e-12);
        assert!(square().contains(Point::new(15.0, 15.0)));
        assert!(!square().contains(Point::new(25.0, 15.0)));
    }

    #[test]
    fn mirroring_flips_the_sign_of_the_area() {
        let mirrored = square().transformed(Affine::scale_non_uniform(-1.0, 1.0));
        assert!((mirrored.signed_area() + 100.0).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_ring_is_refused() {
        let p = Point::new;
        assert_eq!(Ring::new([p(0.0, 0.0), p(1.0, 0.0), p(0.0, 0.0)]), Err(RingError::TooFewPoints));
        assert_eq!(Ring::new([p(0.0, 0.0), p(f64::NAN, 0.0), p(1.0, 1.0)]), Err(RingError::OutOfRange));
        assert_eq!(Ring::new([p(0.0, 0.0), p(1e9, 0.0), p(1.0, 1.0)]), Err(RingError::OutOfRange));
    }
}
