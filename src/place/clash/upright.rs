//! How near motifs that stand upright on the cloth, or in its corners, come to its edge.
//!
//! A motif square to the hem turns with the edge and reaches half its height below its line everywhere. One that stands upright
//! turns against it: beside the middle of a round cloth its side or a corner faces the edge. What was asked for below the lower
//! edge is kept by the true outline wherever along the line a motif may come to stand, and the line is raised as far as that
//! needs; silk that a motif reaches over cannot be pressed.

use crate::art::Motif;
use crate::geometry::{Affine, Point, Vec2, overlay};
use crate::hem::{Hem, HemError, MotifLine};
use crate::place::along::bounds::Nook;
use crate::quantity::Mm;

/// Places along a line at which motifs are tried, evenly spread: between two of them a motif of 100 mm on a round cloth reaches no
/// more than 0.03 mm further.
const PLACES: u32 = 120;

/// Most rounds in which the line is raised; each leaves a small part of what was short.
const ROUNDS: u32 = 20;

/// What is short by less than this, in millimetres, is kept.
const KEPT: f64 = 1e-4;

/// Points of an outline that are measured exactly: those that seem nearest to the edge.
const NEAREST: usize = 4;

/// So far on either side of a corner the edge runs along one side of the cloth, in millimetres.
const BESIDE: Mm = Mm::new(1e-3);

/// Most steps to the foot of a point, and when they end, in millimetres.
const STEPS: u32 = 30;
const STEP_ERROR: f64 = 1e-7;

/// A motif as it stands, seen from its middle: the points of its outline that may be nearest to the edge.
#[derive(Clone, Debug)]
pub(in crate::place) struct Stood {
    hull: Vec<Point>,
}

impl Stood {
    /// A motif so much larger than drawn, in both hands where both occur.
    pub(in crate::place) fn new(motif: &Motif, size: f64, both_hands: bool) -> Self {
        let outlines: Vec<_> = motif.layers.iter().flat_map(|layer| layer.outlines.iter().cloned()).collect();
        let hull = overlay::hull(&outlines).map(|ring| ring.points().to_vec()).unwrap_or_default();
        let sized = |point: &Point| Point::new(point.x * size, point.y * size);
        let mut hull: Vec<Point> = hull.iter().map(sized).collect();
        if both_hands {
            hull.extend(hull.clone().iter().map(|point| Point::new(-point.x, point.y)));
        }
        Self { hull }
    }

    /// Least distance from the outline to the edge where the motif's middle lies so high above a place of a line; negative where it
    /// reaches over the edge.
    pub(in crate::place) fn least(&self, edge: &MotifLine, line: &MotifLine, (s, raise): (Mm, Mm), size: f64) -> f64 {
        let frame = line.frame_unrolled(s);
        let (along, up, foot) = (frame.along, frame.up(), line.to_hem(s));
        let bend = curvature(edge, foot);
        let middle = frame.at + up * raise.get();
        let mut seeming: Vec<(f64, Vec2)> = self
            .hull
            .iter()
            .map(|point| point.to_vec2() * size)
            .map(|off| (off.dot(up) - bend * off.dot(along).powi(2) / 2.0, off))
            .collect();
        seeming.sort_by(|a, b| a.0.total_cmp(&b.0));
        let nearest = seeming.iter().take(NEAREST);
        nearest.map(|(_, off)| above(edge, foot + Mm::new(off.dot(along)), middle + *off)).fold(f64::INFINITY, f64::min)
    }
}

/// The same for a motif in a corner, turned so, upper end along the bisector or upright: of both its sides.
pub(in crate::place) fn least_in_corner(
    motif: &Stood,
    edge: &MotifLine,
    line: &MotifLine,
    (s, size, turned): (Mm, f64, bool),
) -> f64 {
    let (middle, foot) = (line.frame_at(s), line.to_hem(s));
    let turn = Affine::rotate(if turned { middle.turn().get() } else { 0.0 });
    let corner = edge.frame_at(foot).at;
    let sides = [-BESIDE, BESIDE].map(|off| edge.frame_unrolled(foot + off).up());
    let points = motif.hull.iter().map(|point| middle.at + (turn * *point).to_vec2() * size - corner);
    points.flat_map(|off| sides.map(|up| off.dot(up))).fold(f64::INFINITY, f64::min)
}

/// How high above the hem the line of upright motifs must run, `height` at least, so that they keep `wanted` below them.
pub(in crate::place) fn height(
    hem: &Hem,
    motifs: &[Stood],
    (height, wanted): (Mm, Mm),
    nooks: impl Fn(&MotifLine) -> Vec<Nook>,
    widest: Mm,
) -> Result<Mm, HemError> {
    let edge = hem.line_at(Mm::ZERO)?;
    let mut now = height;
    for _ in 0..ROUNDS {
        let line = hem.line_at(now)?;
        let (from, to) = line.span();
        let taken = nooks(&line);
        // Beside a corner no motif comes to stand.
        let free = |s: &Mm| {
            let off = |nook: &Nook| (nook.s - s.get()).abs() < nook.occupied + widest.get() / 2.0;
            !taken.iter().any(off)
        };
        let places = (0..PLACES).map(|k| from + (to - from) * (f64::from(k) / f64::from(PLACES))).filter(free);
        let least = |s: Mm| motifs.iter().map(move |motif| (s, motif));
        let least = places.flat_map(least).map(|(s, motif)| motif.least(&edge, &line, (s, Mm::ZERO), 1.0));
        let short = wanted.get() - least.fold(f64::INFINITY, f64::min);
        if !short.is_finite() || short <= KEPT {
            break;
        }
        now += Mm::new(short);
    }
    Ok(now)
}

/// How much the edge turns in a millimetre, toward the upper side.
fn curvature(edge: &MotifLine, foot: Mm) -> f64 {
    let turn = |off: f64| edge.frame_unrolled(foot + Mm::new(off)).along;
    let (before, after) = (turn(-0.5), turn(0.5));
    // Clockwise on screen is positive there, and away from the upper side here.
    -before.cross(after).atan2(before.dot(after))
}

/// Distance of a point from the edge, on its upper side; its foot is sought from `near` on.
fn above(edge: &MotifLine, near: Mm, point: Point) -> f64 {
    let mut s = if edge.is_closed() { near } else { near.max(edge.span().0).min(edge.span().1) };
    for _ in 0..STEPS {
        let frame = edge.frame_unrolled(s);
        let off = point - frame.at;
        let step = off.dot(frame.along) / (1.0 - curvature(edge, s) * off.dot(frame.up())).max(0.1);
        let next = s + Mm::new(step);
        s = if edge.is_closed() { next } else { next.max(edge.span().0).min(edge.span().1) };
        if step.abs() < STEP_ERROR {
            break;
        }
    }
    let frame = edge.frame_unrolled(s);
    (point - frame.at).dot(frame.up())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hem::{Ends, HemWish, Measurements, shape};
    use crate::quantity::mm;

    /// A point so far from the middle of a round cloth of radius 500 is 500 less that from its edge, wherever it is.
    #[test]
    fn a_point_is_measured_square_to_the_edge() {
        let measurements = Measurements::Cloth { width: mm(1000.0), depth: mm(1000.0) };
        let hem = shape(&HemWish { measurements, ends: Ends::Closed, seams: vec![], hung: vec![] }).unwrap();
        let edge = hem.line_at(Mm::ZERO).unwrap();
        assert!((curvature(&edge, mm(300.0)) - 1.0 / 500.0).abs() < 1e-6);
        for k in 0..12 {
            let (radius, foot) = (380.0 + 20.0 * f64::from(k % 8), mm(260.0 * f64::from(k - 6)));
            let frame = edge.frame_unrolled(foot);
            let point = frame.at + frame.up() * (500.0 - radius);
            for off in [-80.0, 0.0, 60.0] {
                assert!((above(&edge, foot + mm(off), point) - (500.0 - radius)).abs() < 1e-6, "{k}, {off}");
            }
        }
    }
}
