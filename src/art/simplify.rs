//! Outlines with fewer points that stay within a distance of the drawn ones.
//!
//! D. Douglas and T. Peucker, "Algorithms for the reduction of the number of points required to represent a digitized line
//! or its caricature", The Canadian Cartographer 10, 1973, on runs of bounded length.

use crate::geometry::{Point, Ring, Vec2};

/// Longest run of points simplified at once: bounds the work, which may grow with the square of the run.
const RUN: usize = 500;

/// The simplified ring and the farthest any drawn point lies from it; `None` when fewer than three points would be left.
pub(super) fn simplified(ring: &Ring, tolerance: f64) -> Option<(Ring, f64)> {
    let points = ring.points();
    // Two points far apart are kept, so that a closed ring falls into two runs with different ends.
    let start = 0;
    let far = (0..points.len())
        .max_by(|a, b| points[start].distance(points[*a]).total_cmp(&points[start].distance(points[*b])))?;
    let mut kept = vec![start];
    let mut farthest: f64 = 0.0;
    let round: Vec<usize> = (0..points.len()).chain([start]).collect();
    for half in [&round[..=far], &round[far..]] {
        for run in half.chunks(RUN).enumerate().map(|(k, run)| {
            let from = k * RUN;
            &half[from..(from + run.len() + 1).min(half.len())]
        }) {
            farthest = farthest.max(reduce(points, run, tolerance, &mut kept));
        }
    }
    kept.pop();
    Ring::new(kept.into_iter().map(|index| points[index])).ok().map(|ring| (ring, farthest))
}

/// Keeps the points of one run that are needed, its first excepted; gives the farthest left out.
fn reduce(points: &[Point], run: &[usize], tolerance: f64, kept: &mut Vec<usize>) -> f64 {
    let mut farthest: f64 = 0.0;
    let mut needed = Vec::new();
    let mut open = vec![(0, run.len() - 1)];
    while let Some((from, to)) = open.pop() {
        let line = (points[run[from]], points[run[to]]);
        let most = (from + 1..to).map(|at| (off(points[run[at]], line), at)).max_by(|a, b| a.0.total_cmp(&b.0));
        match most {
            Some((distance, at)) if distance > tolerance => open.extend([(from, at), (at, to)]),
            Some((distance, _)) => {
                farthest = farthest.max(distance);
                needed.push(to);
            }
            None => needed.push(to),
        }
    }
    needed.sort_unstable();
    kept.extend(needed.into_iter().map(|at| run[at]));
    farthest
}

/// Distance of a point from the straight edge.
fn off(point: Point, (from, to): (Point, Point)) -> f64 {
    let along: Vec2 = to - from;
    let length2 = along.hypot2();
    if length2 <= 0.0 {
        return point.distance(from);
    }
    let share = ((point - from).dot(along) / length2).clamp(0.0, 1.0);
    point.distance(from + along * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(points: u32, radius: f64) -> Ring {
        Ring::new((0..points).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / f64::from(points);
            Point::new(radius * angle.cos(), radius * angle.sin())
        }))
        .unwrap()
    }

    /// A chord of sagitta 0.1 on a radius of 30 spans 2 acos(1 - 0.1/30) = 9.36 degrees: at least 39 edges are needed, and
    /// halving makes at most twice as many.
    #[test]
    fn a_traced_circle_keeps_as_many_points_as_its_curve_needs() {
        for count in [600, 1_240, 5_000] {
            let (ring, farthest) = simplified(&circle(count, 30.0), 0.1).unwrap();
            assert!((39..=80).contains(&ring.points().len()), "{}", ring.points().len());
            assert!(farthest <= 0.1);
            assert!(
                ring.points().iter().all(|p| (p.to_vec2().hypot() - 30.0).abs() < 1e-9),
                "points are kept, not moved"
            );
        }
    }

    #[test]
    fn a_square_with_points_along_its_sides_becomes_four_corners() {
        let side = |k: u32| f64::from(k) / 10.0;
        let points = (0..100).map(|k| (side(k), 0.0)).chain((0..100).map(|k| (10.0, side(k))));
        let points =
            points.chain((0..100).map(|k| (10.0 - side(k), 10.0))).chain((0..100).map(|k| (0.0, 10.0 - side(k))));
        let ring = Ring::new(points.map(|(x, y)| Point::new(x, y))).unwrap();
        let (simple, farthest) = simplified(&ring, 0.1).unwrap();
        assert_eq!(simple.points().len(), 4, "{:?}", simple.points());
        assert!(farthest < 1e-9);
    }
}
