//! Points too sharp to stay down, to be cut cleanly, or to be turned.

use super::super::Colour;
use super::super::note::{Measure, Note};
use super::{Subject, rings};
use crate::geometry::{Outline, Point, Ring};
use crate::quantity::Radians;

/// Length of the arms between which a point's angle is taken, in millimetres.
///
/// Shorter arms would see the rounding of a pen nib as blunt; longer ones would take the tip of a curved petal for its
/// whole taper.
const ARM: f64 = 1.0;

/// With arms twice as long a true point keeps at least this share of its angle; the square end of a strip loses half.
const STAYS_SHARP: f64 = 0.6;

struct Needle {
    at: Point,
    along: f64,
    angle: f64,
}

pub(super) fn check(subject: &Subject<'_>, colour: Colour, pieces: &[Outline]) -> Option<Note> {
    let limits = subject.limits.of(colour);
    let mut found: Vec<Needle> = Vec::new();
    for ring in rings(pieces) {
        found.extend(needles(&ring, limits.needle.get()));
    }
    found.sort_by(|a, b| a.angle.total_cmp(&b.angle));
    let sharpest = found.first()?;
    let degrees = sharpest.angle.to_degrees();
    let label = subject.label(colour, sharpest.at);
    let say = match found.len() {
        1 => format!("{} has a needle point of {degrees:.0}°.", label.element),
        many => format!("{many} needle points in {colour}, the sharpest {degrees:.0}° on {}.", label.element),
    };
    let advice = format!(
        "Points under {:.0}° lift, fray, or cannot be turned. Round them to a radius of {}.",
        limits.needle.degrees(),
        limits.needle_radius
    );
    Some(
        Note::look("needle-point", label, say, advice)
            .at(sharpest.at)
            .also_at(found.iter().skip(1).map(|needle| needle.at))
            .measured(Measure::Angle(Radians::new(sharpest.angle))),
    )
}

fn needles(ring: &Ring, limit: f64) -> Vec<Needle> {
    let walk = Walk::new(ring);
    let arm = ARM.min(walk.length / 8.0);
    let mut candidates: Vec<Needle> = Vec::new();
    for (index, &at) in ring.points().iter().enumerate() {
        let along = walk.starts[index];
        let angle = walk.angle(at, along, arm);
        if angle < limit && walk.angle(at, along, 2.0 * arm) > STAYS_SHARP * angle {
            candidates.push(Needle { at, along, angle });
        }
    }
    // Of points close together only the sharpest is the tip.
    candidates.sort_by(|a, b| a.angle.total_cmp(&b.angle).then(a.along.total_cmp(&b.along)));
    let mut tips: Vec<Needle> = Vec::new();
    for candidate in candidates {
        let apart = |tip: &Needle| {
            let way = (tip.along - candidate.along).abs();
            way.min(walk.length - way)
        };
        if tips.iter().all(|tip| apart(tip) > 2.0 * arm) {
            tips.push(candidate);
        }
    }
    tips
}

/// Lengths along a ring.
struct Walk<'a> {
    ring: &'a Ring,
    starts: Vec<f64>,
    length: f64,
}

impl<'a> Walk<'a> {
    fn new(ring: &'a Ring) -> Self {
        let mut starts = Vec::with_capacity(ring.points().len());
        let mut length = 0.0;
        for (from, to) in ring.edges() {
            starts.push(length);
            length += from.distance(to);
        }
        Self { ring, starts, length }
    }

    /// Angle of the area between arms of a length; a whole turn where the outline bends inward.
    fn angle(&self, at: Point, along: f64, arm: f64) -> f64 {
        let (before, after) = (self.point(along - arm) - at, self.point(along + arm) - at);
        if (-before).cross(after) <= 0.0 {
            return std::f64::consts::TAU;
        }
        before.cross(after).abs().atan2(before.dot(after))
    }

    fn point(&self, along: f64) -> Point {
        let along = along.rem_euclid(self.length);
        let index = self.starts.partition_point(|start| *start <= along).saturating_sub(1);
        let points = self.ring.points();
        let (from, to) = (points[index], points[(index + 1) % points.len()]);
        let length = from.distance(to);
        if length > 0.0 { from.lerp(to, ((along - self.starts[index]) / length).min(1.0)) } else { from }
    }
}
