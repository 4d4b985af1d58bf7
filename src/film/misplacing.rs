//! How far a layer may be pressed off its place before ground shows between it and the layer below.
//!
//! Method: from points along the edge of the upper layer that lie on the lower one, walk inward under the upper layer to
//! where the lower one ends. That way is what the lower layer reaches under there; the least of all is what the upper one
//! may be off. Where the walk leaves the upper layer first, no ground can show.
//!
//! Limits: points within [`NEAR_CROSSING`] of a place where the two edges cross are passed over, since the wedge between
//! crossing edges always narrows to nothing and what shows there is as small.

use crate::geometry::{Outline, Point, Ring, Vec2};

/// Distance between points along the upper edge, in millimetres.
const STEP: f64 = 0.5;

/// How far outside the upper edge the walk begins, in millimetres, so that layers drawn edge to edge count as meeting.
const OUTSIDE: f64 = 0.02;

/// Neighbourhood of crossing edges that is passed over, in millimetres.
const NEAR_CROSSING: f64 = 1.5;

/// Farther than this nothing is ever pressed off, in millimetres.
const FAR: f64 = 15.0;

/// Points along the edges at most; longer edges are walked in longer steps.
const MOST_POINTS: f64 = 4000.0;

/// The least underlap and where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Underlap {
    /// How far the upper layer may be off, in millimetres.
    pub least: f64,
    /// The place on the upper layer's edge.
    pub at: Point,
}

/// The least that `lower` reaches under `upper` along their common edge; `None` where no ground can show within
/// 15 mm, or the two do not meet.
#[must_use]
pub fn least_underlap(lower: &[Outline], upper: &[Outline]) -> Option<Underlap> {
    let lower_edges = Edges::of(lower);
    let upper_edges = Edges::of(upper);
    let length: f64 = upper.iter().flat_map(Outline::rings).map(Ring::perimeter).sum();
    let step = STEP.max(length / MOST_POINTS);
    let mut least: Option<Underlap> = None;
    for ring in upper.iter().flat_map(Outline::rings) {
        for (at, inward) in along(ring, step) {
            let start = at - inward * OUTSIDE;
            if !lower.iter().any(|outline| outline.contains(start)) {
                continue;
            }
            let Some(end) = lower_edges.first_hit(start, inward, FAR) else { continue };
            let leaves_upper = upper_edges.first_hit(at + inward * OUTSIDE, inward, FAR).unwrap_or(FAR);
            let reach = (end - OUTSIDE).max(0.0);
            let shows = end - OUTSIDE < leaves_upper;
            let better = least.is_none_or(|least| reach < least.least);
            if shows && better && !near_crossing(at, &lower_edges, &upper_edges, reach) {
                least = Some(Underlap { least: reach, at });
            }
        }
    }
    least
}

/// Points along a ring with the direction into the area it bounds.
fn along(ring: &Ring, step: f64) -> impl Iterator<Item = (Point, Vec2)> + '_ {
    ring.edges().flat_map(move |(a, b)| {
        let length = a.distance(b);
        let count = (length / step).ceil().max(1.0);
        // Outer rings run clockwise on screen and holes the other way, so the area lies to the right of every edge.
        let inward = ((b - a) / length).turn_90();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded by MOST_POINTS a ring")]
        let count = count as u32;
        (0..count).map(move |k| (a.lerp(b, (f64::from(k) + 0.5) / f64::from(count)), inward))
    })
}

/// Whether a short way from lower to upper edge only comes from the two crossing nearby.
fn near_crossing(at: Point, lower: &Edges, upper: &Edges, reach: f64) -> bool {
    if reach > NEAR_CROSSING {
        return false;
    }
    lower.near(at, NEAR_CROSSING).any(|low| upper.near(at, NEAR_CROSSING).any(|up| crosses(low, up)))
}

fn crosses((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |from: Point, to: Point, p: Point| (to - from).cross(p - from);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// All edges of some outlines.
struct Edges(Vec<(Point, Point)>);

impl Edges {
    fn of(outlines: &[Outline]) -> Self {
        Self(outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect())
    }

    /// Distance along a ray to the first edge it meets, up to a limit.
    fn first_hit(&self, from: Point, direction: Vec2, limit: f64) -> Option<f64> {
        let hit = |(a, b): &(Point, Point)| {
            let (edge, to_edge) = (*b - *a, *a - from);
            let det = direction.cross(edge);
            if det.abs() < 1e-12 {
                return None;
            }
            let (far, along) = (to_edge.cross(edge) / det, to_edge.cross(direction) / det);
            (far > 0.0 && far <= limit && (0.0..=1.0).contains(&along)).then_some(far)
        };
        self.0.iter().filter_map(hit).min_by(f64::total_cmp)
    }

    /// Edges that come near a point, by their boxes.
    fn near(&self, at: Point, within: f64) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.0.iter().copied().filter(move |(a, b)| {
            a.x.min(b.x) - within <= at.x
                && at.x <= a.x.max(b.x) + within
                && a.y.min(b.y) - within <= at.y
                && at.y <= a.y.max(b.y) + within
        })
    }
}
