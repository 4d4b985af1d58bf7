//! A no-fit region as rows of a lattice see it: where lines run within it, and whether a row of offsets meets it.

use crate::geometry::{Outline, Point, Ring, Vec2};

/// Edges of a region while steps are sampled; only the best sample is refined on the region as it is.
const SAMPLED_EDGES: usize = 72;

/// Kept clear between neighbours, in millimetres, over and above what the no-fit region says: its arithmetic is rounded.
pub(super) const CLEAR: f64 = 1e-6;

/// A no-fit region as bare edges.
pub(super) struct Region {
    edges: Vec<(Point, Point)>,
    /// How far from its middle it comes.
    pub(super) reach: f64,
}

impl Region {
    pub(super) fn new(areas: &[Outline]) -> Self {
        let edges: Vec<(Point, Point)> = areas.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect();
        let reach = edges.iter().map(|(from, _)| from.to_vec2().hypot()).fold(0.0, f64::max);
        Self { edges, reach }
    }

    /// About the same region with few edges: one corner out of so many of each ring.
    pub(super) fn coarse(areas: &[Outline]) -> Self {
        let corners: usize = areas.iter().flat_map(Outline::rings).map(|ring| ring.points().len()).sum();
        let every = corners.div_ceil(SAMPLED_EDGES).max(1);
        let thinned = |ring: &Ring| -> Vec<(Point, Point)> {
            let kept: Vec<Point> = ring.points().iter().copied().step_by(every).collect();
            (0..kept.len()).map(|at| (kept[at], kept[(at + 1) % kept.len()])).collect()
        };
        let edges: Vec<(Point, Point)> = areas.iter().flat_map(Outline::rings).flat_map(thinned).collect();
        let reach = edges.iter().map(|(from, _)| from.to_vec2().hypot()).fold(0.0, f64::max);
        Self { edges, reach }
    }

    /// Distances at which a line from the origin's foot `start` along `way` (a unit vector) lies within the region.
    fn blocked(&self, start: Vec2, way: Vec2, into: &mut Vec<(f64, f64)>) {
        let mut cuts: Vec<f64> = Vec::new();
        for (from, to) in &self.edges {
            let (a, b) = (way.cross(from.to_vec2() - start), way.cross(to.to_vec2() - start));
            if (a > 0.0) != (b > 0.0) {
                let at = *from + (*to - *from) * (a / (a - b));
                cuts.push(way.dot(at.to_vec2() - start));
            }
        }
        cuts.sort_by(f64::total_cmp);
        into.extend(cuts.chunks_exact(2).map(|pair| (pair[0] - CLEAR, pair[1] + CLEAR)));
    }

    /// Whether the offset `at`, or any that differs from it by whole steps `u`, lies within.
    pub(super) fn meets_row(&self, at: Vec2, u: Vec2, but_itself: bool) -> bool {
        let along = u / u.hypot2();
        let nearest = -(at.dot(along)).round();
        let reach = (self.reach / u.hypot()).ceil() + 1.0;
        let mut k = -reach;
        while k <= reach {
            let offset = at + u * (nearest + k);
            if !(but_itself && offset.hypot() < 1e-9) && self.contains(offset) {
                return true;
            }
            k += 1.0;
        }
        false
    }

    fn contains(&self, at: Vec2) -> bool {
        if at.hypot() >= self.reach {
            return false;
        }
        let crossings = self.edges.iter().filter(|(from, to)| {
            let (a, b) = (from.y - at.y, to.y - at.y);
            (a > 0.0) != (b > 0.0) && from.x + (to.x - from.x) * (a / (a - b)) > at.x
        });
        crossings.count() % 2 == 1
    }

    /// How far along a direction the region reaches from the origin.
    pub(super) fn touching(&self, way: Vec2) -> f64 {
        let mut blocked = Vec::new();
        self.blocked(Vec2::ZERO, way, &mut blocked);
        blocked.iter().map(|(_, end)| *end).fold(0.0, f64::max)
    }

    /// Heights above a row with pitch `u` at which a piece shifted by `s` is free of all the row, lowest first.
    pub(super) fn free_heights(&self, u: Vec2, s: f64, upward: Vec2) -> Vec<f64> {
        let along = u / u.hypot();
        let mut blocked = Vec::new();
        let reach = (self.reach / u.hypot()).ceil() + 1.0;
        let mut k = -reach;
        while k <= reach {
            let foot = s + k * u.hypot();
            if foot.abs() < self.reach {
                self.blocked(along * foot, upward, &mut blocked);
            }
            k += 1.0;
        }
        blocked.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut free = Vec::new();
        let mut end = CLEAR;
        for (from, to) in blocked {
            if from > end && end > CLEAR {
                free.push(end);
            }
            end = end.max(to);
        }
        free.push(end);
        free
    }
}
