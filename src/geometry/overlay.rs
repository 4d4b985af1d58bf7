//! Joining, cutting and growing areas; the only file that names the overlay engine (`geo`).

use geo::{BooleanOps, Buffer, ConvexHull, Coord, LineString, MultiPolygon, OpType, Polygon, Simplify};

use super::{Outline, Point, Ring};

/// Which points count as inside when rings overlap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FillRule {
    /// Inside where the winding number is not zero.
    NonZero,
    /// Inside where an odd number of rings is crossed.
    EvenOdd,
}

/// Parts smaller than this, in square millimetres, are dropped as residue of the overlay arithmetic.
///
/// The engine's area identities hold to about 1e-5 mm²; a hundredth of a square millimetre is a tenth of a millimetre
/// each way, which no knife cuts.
pub const RESIDUE: f64 = 1e-4;

/// The areas that `rings` enclose under a fill rule, as clean outlines with holes.
#[must_use]
pub fn filled(rings: &[Ring], rule: FillRule) -> Vec<Outline> {
    let polygons: MultiPolygon = rings.iter().map(|ring| Polygon::new(line_string(ring), Vec::new())).collect();
    let rule = match rule {
        FillRule::NonZero => geo::bool_ops::FillRule::NonZero,
        FillRule::EvenOdd => geo::bool_ops::FillRule::EvenOdd,
    };
    outlines(&polygons.boolean_op_with_fill_rule(&MultiPolygon::new(vec![]), OpType::Union, rule))
}

/// Everything covered by any of the outlines.
#[must_use]
pub fn union(areas: &[Outline]) -> Vec<Outline> {
    outlines(&geo::unary_union(multi(areas).iter()))
}

/// What both cover.
#[must_use]
pub fn intersection(a: &[Outline], b: &[Outline]) -> Vec<Outline> {
    outlines(&multi(a).intersection(&multi(b)))
}

/// What `a` covers and `b` does not.
#[must_use]
pub fn difference(a: &[Outline], b: &[Outline]) -> Vec<Outline> {
    outlines(&multi(a).difference(&multi(b)))
}

/// Areas grown by `distance` millimetres with round corners; a negative distance shrinks them.
#[must_use]
pub fn grown(areas: &[Outline], distance: f64) -> Vec<Outline> {
    // The engine panics on NaN (rings are finite by construction; the distance is checked here).
    if !distance.is_finite() || areas.is_empty() {
        return areas.to_vec();
    }
    outlines(&multi(areas).buffer(distance))
}

/// Areas with fewer points, none of those left out farther than `tolerance` millimetres from the new edges (the method of
/// Douglas and Peucker, 1973); the new edges may cut in or out by that much.
#[must_use]
pub fn simplified(areas: &[Outline], tolerance: f64) -> Vec<Outline> {
    outlines(&multi(areas).simplify(tolerance))
}

/// The convex hull: the ring a taut thread round all of them would make; `None` when there are none.
#[must_use]
pub fn hull(areas: &[Outline]) -> Option<Ring> {
    ring(multi(areas).convex_hull().exterior())
}

/// Sum of areas less holes, in square millimetres.
#[must_use]
pub fn area(areas: &[Outline]) -> f64 {
    areas.iter().map(Outline::area).sum()
}

fn line_string(ring: &Ring) -> LineString {
    ring.points().iter().chain(ring.points().first()).map(|p| Coord { x: p.x, y: p.y }).collect()
}

/// The same area in the engine's types.
#[must_use]
pub fn polygon(outline: &Outline) -> Polygon {
    Polygon::new(line_string(outline.outer()), outline.holes().iter().map(line_string).collect())
}

fn multi(areas: &[Outline]) -> MultiPolygon {
    MultiPolygon::new(areas.iter().map(polygon).collect())
}

fn ring(line: &LineString) -> Option<Ring> {
    Ring::new(line.coords().map(|c| Point::new(c.x, c.y))).ok().filter(|ring| ring.area() > RESIDUE)
}

fn outlines(polygons: &MultiPolygon) -> Vec<Outline> {
    let mut found: Vec<Outline> = polygons
        .iter()
        .filter_map(|polygon| {
            let holes = polygon.interiors().iter().filter_map(ring).collect();
            ring(polygon.exterior()).map(|outer| Outline::new(outer, holes))
        })
        .collect();
    // The engine promises no order; left to right, then top to bottom, is the same on every machine.
    found.sort_by(|a, b| {
        let (a, b) = (a.bounds(), b.bounds());
        a.x0.total_cmp(&b.x0).then(a.y0.total_cmp(&b.y0)).then(a.x1.total_cmp(&b.x1)).then(a.y1.total_cmp(&b.y1))
    });
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Rect;

    fn square(x0: f64, y0: f64, x1: f64, y1: f64) -> Ring {
        Ring::rectangle(Rect::new(x0, y0, x1, y1)).unwrap()
    }

    #[test]
    fn nested_squares_follow_the_fill_rule() {
        let rings = [square(0.0, 0.0, 10.0, 10.0), square(4.0, 4.0, 6.0, 6.0)];
        assert!((area(&filled(&rings, FillRule::EvenOdd)) - 96.0).abs() < 1e-6);
        assert!((area(&filled(&rings, FillRule::NonZero)) - 100.0).abs() < 1e-6);
    }

    #[test]
    fn union_and_intersection_keep_the_area_identity() {
        let a = [Outline::new(square(0.0, 0.0, 10.0, 10.0), vec![])];
        let b = [Outline::new(square(5.0, 5.0, 15.0, 15.0), vec![])];
        let both = [a[0].clone(), b[0].clone()];
        assert!((area(&union(&both)) - 175.0).abs() < 1e-6);
        assert!((area(&intersection(&a, &b)) - 25.0).abs() < 1e-6);
        assert!((area(&difference(&a, &b)) - 75.0).abs() < 1e-6);
    }

    #[test]
    fn the_hull_of_two_squares_spans_both() {
        let a = Outline::new(square(0.0, 0.0, 10.0, 10.0), vec![]);
        let b = Outline::new(square(20.0, 0.0, 30.0, 10.0), vec![]);
        assert!((hull(&[a, b]).unwrap().area() - 300.0).abs() < 1e-9);
        assert_eq!(hull(&[]), None);
    }

    /// A square of side 10 grown by 1: 100 + 4 x 10 + pi (Steiner's formula).
    #[test]
    fn growing_a_square_follows_steiner() {
        let grown = grown(&[Outline::new(square(0.0, 0.0, 10.0, 10.0), vec![])], 1.0);
        assert!((area(&grown) - 143.1416).abs() < 0.05);
    }
}
