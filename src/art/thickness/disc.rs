//! The largest disc on one side of an outline that touches it at a point, in closed form against each edge near by.

use crate::art::edge_grid::EdgeGrid;
use crate::geometry::{Point, Rect, Ring, Vec2};

/// A disc that touches the outline at `at` and, on its far side, at `across`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Disc {
    pub(super) at: Point,
    pub(super) across: Point,
    pub(super) middle: Point,
    /// Its diameter.
    pub(super) thickness: f64,
    /// Cosine of the angle between the outline's normals at both contacts; -1 where they face each other.
    pub(super) facing: f64,
    /// Ring and length along it at both contacts.
    pub(super) here: (usize, f64),
    pub(super) there: (usize, f64),
}

/// Angle between the normals of a fan at an inward corner, in radians (ten degrees: half of it costs 0.4 % of a length).
const FAN: f64 = std::f64::consts::PI / 18.0;

/// A point of the outline from which a disc is grown.
#[derive(Clone, Copy)]
pub(super) struct Contact {
    pub(super) ring: usize,
    pub(super) edge: usize,
    pub(super) at: Point,
    pub(super) along: f64,
    pub(super) normal: Vec2,
}

pub(super) struct Probe<'a> {
    pub(super) grid: &'a EdgeGrid,
    /// Length along its ring at which each edge starts.
    pub(super) starts: &'a [Vec<f64>],
    pub(super) radius: f64,
}

impl Probe<'_> {
    /// The largest disc inside that touches the outline here; `None` when it is as thick as the limit.
    pub(super) fn disc(&self, from: Contact) -> Option<Disc> {
        let middle = from.at + from.normal * self.radius;
        let reach = Vec2::new(self.radius, self.radius);
        let mut radius = self.radius;
        let mut found: Option<(usize, Point)> = None;
        for number in self.grid.near(Rect::from_points(middle - reach, middle + reach)) {
            let edge = self.grid.edges()[number];
            // The edges that meet at the point itself hold it from behind.
            let touches =
                edge.ring == from.ring && (edge.index == from.edge || edge.from == from.at || edge.to == from.at);
            if touches {
                continue;
            }
            if let Some((tangent, contact)) = tangent_disc(from.at, from.normal, edge.from, edge.to)
                && tangent < radius
            {
                (radius, found) = (tangent, Some((number, contact)));
            }
        }
        let (number, across) = found?;
        let edge = self.grid.edges()[number];
        let middle = from.at + from.normal * radius;
        let facing = if radius > 0.0 { from.normal.dot(middle - across) / radius } else { 1.0 };
        let there = (edge.ring, self.starts[edge.ring][edge.index] + edge.from.distance(across));
        Some(Disc {
            at: from.at,
            across,
            middle,
            thickness: 2.0 * radius,
            facing,
            here: (from.ring, from.along),
            there,
        })
    }
}

/// Radius of the disc that touches `at` with inward `normal` and is held by the edge, and where the edge holds it.
///
/// Against the edge's line: with s the distance of `at` from it and m the line's normal toward `at`, the disc's middle is
/// s + r (normal . m) away, which is r when it touches. Where that foot lies beyond the edge, an end q holds it:
/// r = |q - at|^2 / (2 normal . (q - at)).
fn tangent_disc(at: Point, normal: Vec2, from: Point, to: Point) -> Option<(f64, Point)> {
    let along = to - from;
    let length = along.hypot();
    let by_end = |end: Point| {
        let way = end - at;
        let depth = normal.dot(way);
        (depth > 1e-12).then(|| (way.hypot2() / (2.0 * depth), end))
    };
    let ends = [by_end(from), by_end(to)].into_iter().flatten().min_by(|a, b| a.0.total_cmp(&b.0));
    if length <= 0.0 {
        return ends;
    }
    let mut square = Vec2::new(-along.y, along.x) / length;
    let mut distance = square.dot(at - from);
    if distance < 0.0 {
        (square, distance) = (-square, -distance);
    }
    let opening = 1.0 - normal.dot(square);
    if distance <= 0.0 || opening <= 1e-12 {
        return ends;
    }
    let radius = distance / opening;
    let middle = at + normal * radius;
    let share = (middle - from).dot(along) / (length * length);
    if (0.0..=1.0).contains(&share) { Some((radius, from + along * share)) } else { ends }
}

/// Length along its ring at which each edge starts, ring by ring.
pub(super) fn starts(rings: &[Ring]) -> Vec<Vec<f64>> {
    let lengths = |ring: &Ring| {
        ring.edges()
            .scan(0.0, |along, (from, to)| {
                let start = *along;
                *along += from.distance(to);
                Some(start)
            })
            .collect()
    };
    rings.iter().map(lengths).collect()
}

/// Points along a ring with their inward normals: the middles of equal parts of each edge no longer than `step`, and a fan
/// at each corner that juts into the area.
pub(super) fn walk(ring: &Ring, step: f64, visit: &mut impl FnMut(usize, Point, f64, Vec2)) {
    let edges: Vec<(Point, Point)> = ring.edges().collect();
    let mut along = 0.0;
    for (index, &(from, to)) in edges.iter().enumerate() {
        let before = edges[(index + edges.len() - 1) % edges.len()];
        let (incoming, outgoing) = (inward(before.0, before.1), inward(from, to));
        let turn = incoming.cross(outgoing).atan2(incoming.dot(outgoing));
        if turn < 0.0 {
            let parts = (-turn / FAN).ceil().max(1.0);
            for part in 0..=parts_of(parts) {
                let angle = turn * part as f64 / parts;
                let normal = Vec2::new(
                    incoming.x * angle.cos() - incoming.y * angle.sin(),
                    incoming.x * angle.sin() + incoming.y * angle.cos(),
                );
                visit(index, from, along, normal);
            }
        }
        let length = from.distance(to);
        let parts = parts_of((length / step).ceil().max(1.0));
        for part in 0..parts {
            let share = (part as f64 + 0.5) / parts as f64;
            visit(index, from.lerp(to, share), along + length * share, outgoing);
        }
        along += length;
    }
}

/// The normal into the area of an edge of a positive ring (y down).
fn inward(from: Point, to: Point) -> Vec2 {
    let along = to - from;
    Vec2::new(-along.y, along.x) / along.hypot().max(f64::MIN_POSITIVE)
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a count of steps before")]
fn parts_of(count: f64) -> usize {
    count.clamp(0.0, 1e6) as usize
}
