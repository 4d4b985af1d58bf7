//! How far a layer may be pressed off its place before ground shows between it and the layer below.
//!
//! Method: from points along the edge of the upper layer that lie on the lower one, walk inward under the upper layer to
//! where the lower one ends. That way is what the lower layer reaches under there; the least of all is what the upper one
//! may be off. Where the walk leaves the upper layer first, no ground can show.
//!
//! Limits: points within [`NEAR_CROSSING`] of a place where the two edges cross are passed over, since the wedge between
//! crossing edges always narrows to nothing and what shows there is as small.

use crate::geometry::{Outline, Point, Rect, Ring, Vec2};

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
            // Only a shorter way than the least so far is of interest.
            let limit = least.map_or(FAR, |least| least.least + OUTSIDE);
            let Some(end) = lower_edges.first_hit(start, inward, limit) else { continue };
            let reach = (end - OUTSIDE).max(0.0);
            let better = least.is_none_or(|least| reach < least.least);
            let leaves_upper = || upper_edges.first_hit(at + inward * OUTSIDE, inward, end);
            let shows = better && leaves_upper().is_none_or(|leaves| end - OUTSIDE < leaves);
            let meets = || lower.iter().any(|outline| outline.contains(start));
            if shows && meets() && !near_crossing(at, &lower_edges, &upper_edges, reach) {
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

/// All edges of some outlines, listed by the squares of a grid that their boxes touch.
struct Edges {
    edges: Vec<(Point, Point)>,
    corner: Point,
    side: f64,
    columns: usize,
    rows: usize,
    squares: Vec<Vec<usize>>,
}

/// Squares along the longer side of the grid at most.
const MOST_SQUARES: f64 = 128.0;

impl Edges {
    fn of(outlines: &[Outline]) -> Self {
        let edges: Vec<(Point, Point)> = outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect();
        let bounds = crate::geometry::bounds(outlines).unwrap_or(Rect::ZERO);
        let side = (bounds.width().max(bounds.height()) / MOST_SQUARES).max(1.0);
        let mut grid = Self { edges: vec![], corner: bounds.origin(), side, columns: 1, rows: 1, squares: vec![] };
        grid.columns = grid.square(bounds.x1, grid.corner.x, usize::MAX) + 1;
        grid.rows = grid.square(bounds.y1, grid.corner.y, usize::MAX) + 1;
        grid.squares = vec![vec![]; grid.columns * grid.rows];
        for (index, (a, b)) in edges.iter().enumerate() {
            for square in grid.squares_in(Rect::from_points(*a, *b)) {
                grid.squares[square].push(index);
            }
        }
        grid.edges = edges;
        grid
    }

    /// The column or row of a coordinate, no farther than the last.
    fn square(&self, at: f64, from: f64, count: usize) -> usize {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded by MOST_SQUARES a side")]
        let square = ((at - from) / self.side).clamp(0.0, MOST_SQUARES) as usize;
        square.min(count.saturating_sub(1))
    }

    /// Numbers of the squares that a box touches.
    fn squares_in(&self, area: Rect) -> Vec<usize> {
        let (columns, rows) = (self.columns, self.rows);
        let across = self.square(area.x0, self.corner.x, columns)..=self.square(area.x1, self.corner.x, columns);
        let down = self.square(area.y0, self.corner.y, rows)..=self.square(area.y1, self.corner.y, rows);
        down.flat_map(|row| across.clone().map(move |column| row * columns + column)).collect()
    }

    /// Edges in the squares that a box touches; one may come more than once.
    fn in_area(&self, area: Rect) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.squares_in(area).into_iter().flat_map(|square| &self.squares[square]).map(|index| self.edges[*index])
    }

    /// Distance along a ray to the first edge it meets, up to a limit.
    fn first_hit(&self, from: Point, direction: Vec2, limit: f64) -> Option<f64> {
        let hit = |(a, b): (Point, Point)| {
            let (edge, to_edge) = (b - a, a - from);
            let det = direction.cross(edge);
            if det.abs() < 1e-12 {
                return None;
            }
            let (far, along) = (to_edge.cross(edge) / det, to_edge.cross(direction) / det);
            (far > 0.0 && far <= limit && (0.0..=1.0).contains(&along)).then_some(far)
        };
        self.in_area(Rect::from_points(from, from + direction * limit)).filter_map(hit).min_by(f64::total_cmp)
    }

    /// Edges that come near a point, by their boxes.
    fn near(&self, at: Point, within: f64) -> impl Iterator<Item = (Point, Point)> + '_ {
        let area = Rect::from_center_size(at, (2.0 * within, 2.0 * within));
        self.in_area(area).filter(move |(a, b)| {
            a.x.min(b.x) - within <= at.x
                && at.x <= a.x.max(b.x) + within
                && a.y.min(b.y) - within <= at.y
                && at.y <= a.y.max(b.y) + within
        })
    }
}
