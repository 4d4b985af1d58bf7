//! The outline the search keeps apart: the patch grown by half the gap, with fewer points, and never smaller.

use super::convolve;
use crate::geometry::{Outline, Point, Ring, overlay};

/// Kept on top of every gap, in millimetres: covers positions written to 0.001 mm and the arithmetic of the overlay.
const SAFETY: f64 = 0.004;

/// Corners of the polygon round the gap's circle; at 32 it reaches out by half a hundredth of the gap more.
const CIRCLE_CORNERS: u32 = 32;

/// An area grown by half the gap plus safety. Without a gap pieces may touch, and nothing is added.
pub(in crate::nest) fn grown(area: &Outline, gap: f64, tolerance: f64) -> Outline {
    let grown = if gap > 0.0 { convolve::no_fit(area, &circle((gap + SAFETY) / 2.0)) } else { vec![area.clone()] };
    let grown = largest(grown).unwrap_or_else(|| area.clone());
    let holes = grown.holes().iter().filter_map(|hole| simplified(hole, tolerance)).collect();
    let outer = simplified(grown.outer(), tolerance).unwrap_or_else(|| grown.outer().clone());
    // Corners moved outward may have crossed a narrow bay.
    let clean = overlay::filled(
        Outline::new(outer.clone(), Vec::new()).rings().cloned().collect::<Vec<_>>().as_slice(),
        overlay::FillRule::NonZero,
    );
    match largest(clean) {
        Some(clean) => Outline::new(clean.outer().clone(), holes),
        None => Outline::new(outer, holes),
    }
}

fn largest(areas: Vec<Outline>) -> Option<Outline> {
    areas.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()))
}

/// A regular polygon that holds a circle of this radius.
fn circle(radius: f64) -> Outline {
    let corners = f64::from(CIRCLE_CORNERS);
    let reach = radius / (std::f64::consts::PI / corners).cos();
    let points = (0..CIRCLE_CORNERS).map(|k| {
        let angle = (f64::from(k) + 0.5) * std::f64::consts::TAU / corners;
        Point::new(reach * angle.cos(), reach * angle.sin())
    });
    Outline::new(Ring::new(points).expect("a regular polygon has distinct corners"), Vec::new())
}

/// One way of losing a point, at the cost of a little more material.
struct Step {
    area: f64,
    at: usize,
    /// The corner that replaces `at` and the next one; `None` when `at` is just left out.
    corner: Option<Point>,
}

/// A ring with fewer points that only adds material (to the left of travel), nowhere more than `tolerance` at a step.
///
/// Corners into the material are left out, and edges between two outward corners are replaced by the point where their
/// neighbours meet, the smallest added area first (after M. Visvalingam and J. Whyatt, 1993, made one-sided).
fn simplified(ring: &Ring, tolerance: f64) -> Option<Ring> {
    let mut points = ring.points().to_vec();
    while points.len() > 4 {
        let steps = (0..points.len()).filter_map(|at| step(&points, at, tolerance));
        let Some(least) = steps.min_by(|a, b| a.area.total_cmp(&b.area).then(a.at.cmp(&b.at))) else { break };
        let next = (least.at + 1) % points.len();
        if let Some(corner) = least.corner {
            points[next] = corner;
        }
        points.remove(least.at);
    }
    Ring::new(points).ok().filter(|made| made.signed_area() * ring.signed_area() > 0.0)
}

fn step(points: &[Point], at: usize, tolerance: f64) -> Option<Step> {
    let n = points.len();
    let point = |k: usize| points[(at + n + k - 1) % n];
    let (before, here, next, after) = (point(0), point(1), point(2), point(3));
    let turn = (here - before).cross(next - here);
    if turn <= 0.0 {
        let chord = next - before;
        let off = (here - before).cross(chord).abs() / chord.hypot().max(1e-12);
        return (off <= tolerance).then_some(Step { area: -turn / 2.0, at, corner: None });
    }
    let (into, edge, out) = (here - before, next - here, after - next);
    if edge.cross(out) <= 0.0 || into.cross(out) <= 0.0 {
        return None;
    }
    // Where the edge before and the edge after meet when drawn on.
    let corner = here + into * (edge.cross(out) / into.cross(out));
    let area = (corner - here).cross(next - corner).abs() / 2.0;
    let off = 2.0 * area / edge.hypot().max(1e-12);
    (off <= tolerance).then_some(Step { area, at, corner: Some(corner) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::clearance::Measurable;

    /// A circle of radius 20 grown by half of 2 mm and simplified lies between 21 and 21.1 from the middle.
    #[test]
    fn a_grown_circle_keeps_half_the_gap_and_loses_most_points() {
        let points = (0..200).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / 200.0;
            Point::new(20.0 * angle.cos(), 20.0 * angle.sin())
        });
        let area = Outline::new(Ring::new(points).unwrap(), vec![]);
        let grown = grown(&area, 2.0, 0.05);
        assert!(grown.outer().points().len() < 80);
        assert!(grown.outer().points().iter().all(|p| p.to_vec2().hypot() < 21.15));
        let apart = grown.outer().edges().map(|(a, b)| (a - Point::ZERO).cross(b - a).abs() / a.distance(b));
        assert!(apart.fold(f64::INFINITY, f64::min) >= 21.0 - 0.003);
    }

    #[test]
    fn two_grown_stars_that_touch_keep_the_gap() {
        let star = |phase: f64| {
            let ring = (0..14).map(|k| {
                let angle = phase + std::f64::consts::PI * f64::from(k) / 7.0;
                let radius = if k % 2 == 0 { 20.0 } else { 8.0 };
                Point::new(radius * angle.cos(), radius * angle.sin())
            });
            Outline::new(Ring::new(ring).unwrap(), vec![])
        };
        let (a, b) = (star(0.1), star(0.4));
        let region = convolve::no_fit(&grown(&a, 3.0, 0.05), &grown(&b, 3.0, 0.05));
        for corner in region[0].outer().points() {
            let moved = b.transformed(crate::geometry::Affine::translate(corner.to_vec2()));
            let apart =
                Measurable::new(std::slice::from_ref(&a)).unwrap().clearance_to(&Measurable::new(&[moved]).unwrap());
            assert!(apart.distance >= 3.0, "{}", apart.distance);
        }
    }
}
