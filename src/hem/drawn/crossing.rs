//! Where a drawn line crosses itself or runs back on itself: no hem edge and no seam does, and no length along it would be true.

use kurbo::{BezPath, PathEl, PathSeg};

use crate::geometry::{Point, Vec2};

/// Curves are followed to this, in millimetres, on lines of up to [`LONG`]; on longer ones more coarsely by as much.
const FOLLOWED: f64 = 0.05;
const LONG: f64 = 5_000.0;

/// A loop shorter than this, in millimetres, is where two parts of a line were joined by hand.
const LOOP: f64 = 1.0;

/// Two straight parts run back on each other where they are off a straight line by less than this, as a sine.
const BACK: f64 = 1e-3;

/// A straight part of the line as followed.
#[derive(Clone, Copy)]
struct Part {
    from: Point,
    to: Point,
    /// Length of the line up to its start.
    before: f64,
}

impl Part {
    fn along(&self) -> Vec2 {
        self.to - self.from
    }

    fn x(&self) -> (f64, f64) {
        (self.from.x.min(self.to.x), self.from.x.max(self.to.x))
    }

    fn y(&self) -> (f64, f64) {
        (self.from.y.min(self.to.y), self.from.y.max(self.to.y))
    }

    /// Where it truly crosses another; touching is not crossing.
    fn crosses(&self, other: &Self) -> Option<Point> {
        let (own, others) = (self.along(), other.along());
        let sides = [own.cross(other.from - self.from), own.cross(other.to - self.from)];
        let back = [others.cross(self.from - other.from), others.cross(self.to - other.from)];
        let apart = |[a, b]: [f64; 2]| a * b < 0.0;
        (apart(sides) && apart(back)).then(|| self.from + own * (back[0] / (back[0] - back[1])))
    }
}

/// The first place, from left to right, where the pieces of a line cross or run back on themselves.
pub(super) fn crosses_itself(pieces: &[PathSeg], length: f64) -> Option<Point> {
    let parts = followed(pieces, FOLLOWED * (length / LONG).max(1.0));
    let (first, last) = (parts.first()?, parts.last()?);
    let closes = first.from.distance(last.to) < LOOP;
    let after = parts.iter().skip(1).chain(closes.then_some(first));
    let back = parts.iter().zip(after).find(|(part, next)| {
        let (a, b) = (part.along(), next.along());
        a.dot(b) < 0.0 && a.cross(b).abs() < BACK * a.hypot() * b.hypot()
    });
    if let Some((part, _)) = back {
        return Some(part.to);
    }
    let whole = last.before + last.along().hypot();
    let mut by_x: Vec<&Part> = parts.iter().collect();
    by_x.sort_by(|a, b| a.x().0.total_cmp(&b.x().0));
    let mut beside: Vec<&Part> = Vec::new();
    for part in by_x {
        let (from, (low, high)) = (part.x().0, part.y());
        beside.retain(|other| other.x().1 >= from);
        for other in &beside {
            let between = (part.before - other.before).abs();
            let round = if closes { between.min(whole - between) } else { between };
            let meets = other.y().0 <= high && other.y().1 >= low && round > LOOP;
            if let Some(at) = meets.then(|| part.crosses(other)).flatten() {
                return Some(at);
            }
        }
        beside.push(part);
    }
    None
}

/// The line in straight parts, none of them of no length.
fn followed(pieces: &[PathSeg], tolerance: f64) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    let (mut at, mut before) = (None::<Point>, 0.0);
    kurbo::flatten(BezPath::from_path_segments(pieces.iter().copied()), tolerance, |element| {
        let (PathEl::MoveTo(to) | PathEl::LineTo(to)) = element else { return };
        // What two pieces lack of meeting is less than a hair.
        if let (Some(from), PathEl::LineTo(_)) = (at, element)
            && from != to
        {
            parts.push(Part { from, to, before });
            before += from.distance(to);
        }
        at = Some(to);
    });
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(d: &str) -> Option<Point> {
        let path = BezPath::from_svg(d).unwrap();
        crosses_itself(&path.segments().collect::<Vec<_>>(), 1000.0)
    }

    /// Diagonals of a square of 400 from (500, 500) meet in (700, 700).
    #[test]
    fn a_bow_tie_crosses_in_its_middle() {
        let at = found("M500 500L900 900L900 500L500 900Z").unwrap();
        assert!(at.distance(Point::new(700.0, 700.0)) < 1e-9, "{at:?}");
        assert!(found("M0 0C900 -800 900 800 0 0C900 -800 900 800 800 0").is_some());
        assert!(found("M100 1000C900 200 100 200 900 1000").is_some());
    }

    #[test]
    fn a_line_that_runs_back_on_itself_is_found() {
        assert_eq!(found("M0 0H900H100"), Some(Point::new(900.0, 0.0)));
        assert!(found("M500 500L900 900Z").is_some());
    }

    #[test]
    fn edges_that_can_be_sewn_cross_nowhere() {
        for d in [
            "M0 0H900",
            "M0 0H900V900H0Z",
            "M0 500A500 500 0 1 1 1000 500A500 500 0 1 1 0 500Z",
            "M0 0Q50 40 100 0Q150 40 200 0Q250 40 300 0",
            "M0 0L100 -80L200 0L300 -80L400 0",
            "M0 0C0 400 900 400 900 0",
        ] {
            assert_eq!(found(d), None, "{d}");
        }
    }
}
