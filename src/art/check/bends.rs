//! Inside curves tighter than the edge that is turned under there.
//!
//! At each inward point of an outline the radius is length by turn, over as much of the outline as makes a millimetre: the
//! points of a flattened circle then give its radius to 0.3 %, and the raggedness of a tracing is averaged out.

use super::super::Layer;
use super::super::note::Note;
use super::{Subject, rings};
use crate::geometry::{Point, Ring};

/// Length of outline over which a radius is taken, in millimetres.
const SPAN: f64 = 1.0;

/// A turn larger than this at one point is a corner: forty degrees. Flattening turns no curve of radius above 0.35 mm so
/// sharply.
const CORNER: f64 = 40.0 * std::f64::consts::PI / 180.0;

/// Radii within this share of the least one are one bend, found at its middle.
const PLATEAU: f64 = 1.05;

struct Bend {
    at: Point,
    radius: f64,
}

pub(super) fn check(subject: &Subject<'_>, layer: &Layer) -> Vec<Note> {
    let limit = subject.limits.of(layer.colour).inside_radius.get();
    if limit <= 0.0 {
        return Vec::new();
    }
    let note = |bend: Bend| {
        let label = subject.label(layer.colour, bend.at);
        let what = if bend.radius > 0.0 {
            format!("An inside curve of radius {:.1} mm", bend.radius)
        } else {
            "An inside corner".to_owned()
        };
        Note::look(
            "tight-inside-curve",
            label.clone(),
            format!("{what} in {} is tighter than the {limit:.0} mm turned under.", label.element),
            "It cannot be clipped and turned cleanly. Leave the edge raw there, widen the curve, or split the piece.",
        )
        .at(bend.at)
        .measuring(bend.radius)
    };
    rings(&layer.outlines).iter().flat_map(|ring| bends(ring, limit)).map(note).collect()
}

/// Bends tighter than a radius, each at the middle of its tightest stretch.
fn bends(ring: &Ring, limit: f64) -> Vec<Bend> {
    let corners = Corners::new(ring);
    let radii: Vec<f64> = (0..corners.turns.len()).map(|index| corners.radius(index)).collect();
    let count = radii.len();
    let Some(start) = radii.iter().position(|radius| *radius >= limit) else { return Vec::new() };
    let mut runs: Vec<Vec<usize>> = vec![Vec::new()];
    for step in 0..count {
        let index = (start + step) % count;
        match runs.last_mut() {
            Some(run) if radii[index] < limit => run.push(index),
            _ => runs.push(Vec::new()),
        }
    }
    let bend = |run: &Vec<usize>| {
        let least = run.iter().map(|index| radii[*index]).min_by(f64::total_cmp)?;
        let tightest: Vec<usize> = run.iter().copied().filter(|index| radii[*index] <= least * PLATEAU).collect();
        let middle = corners.middle(*tightest.first()?, *tightest.last()?);
        Some(Bend { at: middle, radius: least })
    };
    runs.iter().filter_map(bend).collect()
}

/// The points of a ring with the turn at each, positive where the outline bends inward.
struct Corners<'a> {
    ring: &'a Ring,
    turns: Vec<f64>,
    /// Half of both edges that meet at the point.
    lengths: Vec<f64>,
}

impl<'a> Corners<'a> {
    fn new(ring: &'a Ring) -> Self {
        let points = ring.points();
        let count = points.len();
        let (mut turns, mut lengths) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for (index, &at) in points.iter().enumerate() {
            let incoming = at - points[(index + count - 1) % count];
            let outgoing = points[(index + 1) % count] - at;
            turns.push(-incoming.cross(outgoing).atan2(incoming.dot(outgoing)));
            lengths.push(f64::midpoint(incoming.hypot(), outgoing.hypot()));
        }
        Self { ring, turns, lengths }
    }

    /// Radius of the bend at a point: zero at an inward corner, infinite where it is straight or bends outward.
    fn radius(&self, index: usize) -> f64 {
        if self.turns[index] >= CORNER {
            return 0.0;
        }
        let count = self.turns.len();
        let (mut length, mut turn) = (self.lengths[index], self.turns[index]);
        let mut reach = 0;
        while length < SPAN && 2 * (reach + 1) < count {
            reach += 1;
            for neighbour in [(index + count - reach) % count, (index + reach) % count] {
                length += self.lengths[neighbour];
                turn += self.turns[neighbour];
            }
        }
        if turn > 0.0 { length / turn } else { f64::INFINITY }
    }

    /// The point half way along the outline between two of its points.
    fn middle(&self, first: usize, last: usize) -> Point {
        let points = self.ring.points();
        let count = points.len();
        let steps = (last + count - first) % count;
        let way: Vec<Point> = (0..=steps).map(|step| points[(first + step) % count]).collect();
        let half = way.windows(2).map(|pair| pair[0].distance(pair[1])).sum::<f64>() / 2.0;
        let mut done = 0.0;
        for pair in way.windows(2) {
            let length = pair[0].distance(pair[1]);
            if done + length >= half && length > 0.0 {
                return pair[0].lerp(pair[1], (half - done) / length);
            }
            done += length;
        }
        points[first]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A square with a quarter circle of radius r bitten out of one corner, the bite flattened into equal edges.
    fn bitten(radius: f64, edges: u32) -> Ring {
        let bite = (0..=edges).map(|k| {
            let angle = std::f64::consts::FRAC_PI_2 * f64::from(k) / f64::from(edges);
            Point::new(20.0 - radius * angle.sin(), 20.0 - radius * angle.cos())
        });
        let corner = [Point::new(0.0, 20.0), Point::new(0.0, 0.0), Point::new(20.0, 0.0)];
        Ring::new(corner.into_iter().chain(bite)).unwrap().positive()
    }

    #[test]
    fn the_radius_of_an_inside_curve_is_found_at_its_middle() {
        for (radius, edges) in [(2.0, 6), (2.0, 24), (4.0, 9)] {
            let found = bends(&bitten(radius, edges), 5.0);
            assert_eq!(found.len(), 1);
            assert!((found[0].radius - radius).abs() < 0.03 * radius, "{}", found[0].radius);
            let middle = 20.0 - radius / 2.0_f64.sqrt();
            assert!(found[0].at.distance(Point::new(middle, middle)) < 0.3, "{:?}", found[0].at);
        }
        assert!(bends(&bitten(8.0, 12), 5.0).is_empty());
    }

    #[test]
    fn an_inward_corner_has_no_radius_and_an_outward_one_is_none() {
        let l = [(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (8.0, 8.0), (8.0, 20.0), (0.0, 20.0)];
        let ring = Ring::new(l.map(|(x, y)| Point::new(x, y))).unwrap().positive();
        let found = bends(&ring, 5.0);
        assert_eq!(found.len(), 1);
        assert!(found[0].radius.abs() < 1e-12 && found[0].at == Point::new(8.0, 8.0));
    }
}
