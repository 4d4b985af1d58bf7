//! Curves to straight edges within a stated tolerance.

use kurbo::{BezPath, PathEl};
use lyon::geom::{CubicBezierSegment, QuadraticBezierSegment, point};

use super::Point;

/// Largest sideways error, in millimetres, when a curve of a drawing becomes straight edges.
///
/// A fiftieth of a millimetre is far below what a knife follows. On a radius of 5 mm the edges become 0.9 mm long.
pub const TOLERANCE: f64 = 0.02;

/// One stretch of a path between two moves: its points, and whether it was drawn closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// The points in order; when closed the first is not repeated.
    pub points: Vec<Point>,
    /// Whether the path says "close", or ends exactly where it began.
    pub closed: bool,
}

/// Straight stretches no farther than `tolerance` from the path; the work is done by `lyon::geom` in `f64`.
#[must_use]
pub fn stretches(path: &BezPath, tolerance: f64) -> Vec<Stretch> {
    let mut done = Vec::new();
    let mut points: Vec<Point> = Vec::new();
    let mut start = Point::ZERO;
    let finish = |points: &mut Vec<Point>, closed: bool, done: &mut Vec<Stretch>| {
        let mut points = std::mem::take(points);
        let meets = points.len() > 2 && points.first() == points.last();
        if meets {
            points.pop();
        }
        if points.len() > 1 {
            done.push(Stretch { points, closed: closed || meets });
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                finish(&mut points, false, &mut done);
                points.push(to);
                start = to;
            }
            PathEl::ClosePath => {
                finish(&mut points, true, &mut done);
                points.push(start);
            }
            PathEl::LineTo(to) => points.push(to),
            PathEl::QuadTo(ctrl, to) => {
                let from = *points.last().unwrap_or(&start);
                let curve = QuadraticBezierSegment {
                    from: point(from.x, from.y),
                    ctrl: point(ctrl.x, ctrl.y),
                    to: point(to.x, to.y),
                };
                curve.for_each_flattened(tolerance, &mut |line| points.push(Point::new(line.to.x, line.to.y)));
            }
            PathEl::CurveTo(ctrl1, ctrl2, to) => {
                let from = *points.last().unwrap_or(&start);
                let curve = CubicBezierSegment {
                    from: point(from.x, from.y),
                    ctrl1: point(ctrl1.x, ctrl1.y),
                    ctrl2: point(ctrl2.x, ctrl2.y),
                    to: point(to.x, to.y),
                };
                curve.for_each_flattened(tolerance, &mut |line| points.push(Point::new(line.to.x, line.to.y)));
            }
        }
    }
    finish(&mut points, false, &mut done);
    done
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape;

    #[test]
    fn a_flattened_circle_stays_within_the_tolerance() {
        let circle = kurbo::Circle::new((3.0, 4.0), 40.0).to_path(1e-6);
        let flat = stretches(&circle, TOLERANCE);
        assert_eq!(flat.len(), 1);
        assert!(flat[0].closed);
        for (a, b) in flat[0].points.iter().zip(flat[0].points.iter().cycle().skip(1)) {
            let off = a.midpoint(*b).distance(Point::new(3.0, 4.0)) - 40.0;
            assert!(off.abs() <= TOLERANCE * 1.01, "edge {off} mm off");
        }
    }

    #[test]
    fn open_and_closed_stretches_are_told_apart() {
        let path = BezPath::from_svg("M0 0 L10 0 L10 10 M20 0 L30 0 L30 10 Z").unwrap();
        let closed: Vec<bool> = stretches(&path, TOLERANCE).iter().map(|s| s.closed).collect();
        assert_eq!(closed, [false, true]);
    }
}
