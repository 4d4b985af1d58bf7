//! How deep two pieces overlap, read off their no-fit region.
//!
//! The shortest move that parts two pieces is the distance from their offset to the boundary of the no-fit region. The
//! region is covered by square cells, and each cell keeps the edges that can be nearest to any point in it, so that an exact
//! distance costs a handful of operations however many edges the region has.

use crate::geometry::{Point, Rect, Vec2};

/// Depths below this, in millimetres, count as touching; far below the safety kept on top of every gap, and above the
/// noise of `f32`, in which the boundary is kept because half the memory is half the time.
pub(in crate::nest) const TOUCHING: f32 = 2e-5;

/// Cells along the longer side. At 64 a cell of two 40 mm motifs is 1.3 mm wide and keeps two or three edges.
const CELLS: usize = 40;

#[derive(Clone, Copy, Debug)]
struct Edge {
    from: (f32, f32),
    along: (f32, f32),
    /// One over the squared length.
    inverse: f32,
}

/// What is known of a cell. Eight bytes, since waiting for memory is what a look costs most.
#[derive(Clone, Copy, Debug)]
enum Cell {
    /// No overlap anywhere in it.
    Clear,
    /// Overlap everywhere in it: depth at its middle, and how it grows along x and y, in 127ths.
    Overlap { depth: f32, slope: (i8, i8) },
    /// The boundary may run through it: the edges that can be nearest, as a stretch of the list.
    Mixed { start: u32, count: u16 },
}

/// Offsets at which one piece overlaps another, ready to be asked.
#[derive(Clone, Debug)]
pub(in crate::nest) struct NoFit {
    origin: (f32, f32),
    cell: f32,
    per_mm: f32,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
    near: Vec<u16>,
    edges: Vec<Edge>,
}

impl NoFit {
    /// From the region's edges, which have it to the left of travel.
    pub(in crate::nest) fn new(region: &[(Point, Point)]) -> Self {
        let mut edges: Vec<Edge> = region.iter().filter_map(|(a, b)| Edge::new(*a, *b)).collect();
        edges.truncate(usize::from(u16::MAX));
        let bounds =
            region.iter().map(|(a, b)| Rect::from_points(*a, *b)).reduce(|a, b| a.union(b)).unwrap_or_default();
        let cell = (bounds.width().max(bounds.height()) / CELLS as f64).max(1e-6);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at most CELLS and one")]
        let count = |length: f64| (length / cell).floor() as usize + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let cells = vec![Cell::Clear; columns * rows];
        let (origin, cell) = (narrow(bounds.origin()), narrow(Point::new(cell, 1.0 / cell)));
        let mut made = Self { origin, cell: cell.0, per_mm: cell.1, columns, rows, cells, near: Vec::new(), edges };
        let all: Vec<u16> = (0..=u16::MAX).take(made.edges.len()).collect();
        made.divide(0, 0, columns.max(rows).next_power_of_two(), &all);
        made
    }

    /// Halves a square of cells until single cells are left, keeping the edges that can be nearest to a point in it.
    fn divide(&mut self, column: usize, row: usize, side: usize, edges: &[u16]) {
        if column >= self.columns || row >= self.rows {
            return;
        }
        let half = side as f32 * self.cell / 2.0;
        let middle = |start: f32, cells: usize| start + cells as f32 * self.cell + half;
        let centre = (middle(self.origin.0, column), middle(self.origin.1, row));
        // A hair more than half the diagonal, for cells found with rounded arithmetic.
        let reach = half * 1.42;
        let mut far: Vec<(f32, u16)> =
            edges.iter().map(|edge| (self.edges[usize::from(*edge)].distance2(centre).sqrt(), *edge)).collect();
        let least = far.iter().map(|(far, _)| *far).fold(f32::INFINITY, f32::min);
        let inside = self.signed(centre, edges) > 0.0;
        if least > reach && !inside {
            return;
        }
        if side == 1 && least > reach {
            let nearest = far.iter().find(|(far, _)| *far <= least).map_or(0, |(_, edge)| usize::from(*edge));
            let away = self.edges[nearest].away(centre);
            #[allow(clippy::cast_possible_truncation, reason = "a part of one in 127ths")]
            let slope = ((127.0 * away.0 / least) as i8, (127.0 * away.1 / least) as i8);
            self.cells[row * self.columns + column] = Cell::Overlap { depth: least, slope };
            return;
        }
        far.retain(|(far, _)| *far <= least + 2.0 * reach);
        let kept: Vec<u16> = far.into_iter().map(|(_, edge)| edge).collect();
        if side > 1 {
            let side = side / 2;
            for (right, down) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
                self.divide(column + right * side, row + down * side, side, &kept);
            }
            return;
        }
        let start = u32::try_from(self.near.len()).unwrap_or(u32::MAX);
        let count = u16::try_from(kept.len()).unwrap_or(u16::MAX);
        self.cells[row * self.columns + column] = Cell::Mixed { start, count };
        self.near.extend(kept);
    }

    /// Distance to the nearest of some edges, positive inside the region.
    #[inline]
    fn signed(&self, at: (f32, f32), edges: &[u16]) -> f32 {
        let (mut least, mut side) = (f32::MAX, -1.0f32);
        for edge in edges {
            let edge = &self.edges[usize::from(*edge)];
            let far = edge.distance2(at);
            // At a corner both edges are equally near; the one seen more squarely tells the side.
            let tie = 1e-5 * least;
            if far < least - tie {
                (least, side) = (far, edge.across(at));
            } else if far <= least + tie {
                let across = edge.across(at);
                least = least.min(far);
                side = if across.abs() > side.abs() { across } else { side };
            }
        }
        if side > 0.0 { least.sqrt() } else { -least.sqrt() }
    }

    /// The shortest move of the second piece that parts the two, when it lies at this offset; none when they do not overlap.
    ///
    /// Exact near the boundary, where it ends a hair beyond it; deeper inside only about right.
    pub(in crate::nest) fn escape(&self, at: Point) -> Vec2 {
        let depth = self.depth(at);
        if depth <= 0.0 {
            return Vec2::ZERO;
        }
        let at = narrow(at);
        let (x, y) = ((at.0 - self.origin.0) * self.per_mm, (at.1 - self.origin.1) * self.per_mm);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "inside, since there is a depth")]
        let (column, row) = (x as usize, y as usize);
        match self.cells[row * self.columns + column] {
            Cell::Clear => Vec2::ZERO,
            Cell::Overlap { slope, .. } => Vec2::new(f64::from(slope.0), f64::from(slope.1)) * (-depth / 127.0),
            Cell::Mixed { start, count } => {
                let near = &self.near[start as usize..start as usize + usize::from(count)];
                let away = near.iter().map(|edge| self.edges[usize::from(*edge)].away(at));
                let squared = |away: &(f32, f32)| away.0 * away.0 + away.1 * away.1;
                let nearest = away.min_by(|a, b| squared(a).total_cmp(&squared(b))).unwrap_or_default();
                let beyond = f64::from(TOUCHING) / 4.0 / depth;
                Vec2::new(f64::from(nearest.0), f64::from(nearest.1)) * (-1.0 - beyond)
            }
        }
    }

    /// How deep the pieces overlap when the second lies at this offset from the first; 0 when they do not.
    ///
    /// Exact near the boundary; deeper inside good to about a cell.
    #[inline]
    pub(in crate::nest) fn depth(&self, at: Point) -> f64 {
        let at = narrow(at);
        let (x, y) = ((at.0 - self.origin.0) * self.per_mm, (at.1 - self.origin.1) * self.per_mm);
        if !(x >= 0.0 && y >= 0.0) {
            return 0.0;
        }
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; casts saturate")]
        let (column, row) = (x as usize, y as usize);
        if column >= self.columns || row >= self.rows {
            return 0.0;
        }
        match self.cells[row * self.columns + column] {
            Cell::Clear => 0.0,
            Cell::Overlap { depth, slope } => {
                let (dx, dy) = (x - column as f32 - 0.5, y - row as f32 - 0.5);
                let grown = (dx * f32::from(slope.0) + dy * f32::from(slope.1)) * (self.cell / 127.0);
                f64::from(depth + grown)
            }
            Cell::Mixed { start, count } => {
                let near = &self.near[start as usize..start as usize + usize::from(count)];
                let depth = self.signed(at, near);
                if depth > TOUCHING { f64::from(depth) } else { 0.0 }
            }
        }
    }
}

/// A point in the arithmetic of the boundary.
#[allow(clippy::cast_possible_truncation, reason = "a micrometre in a hundred metres is lost, on purpose")]
#[inline]
const fn narrow(at: Point) -> (f32, f32) {
    (at.x as f32, at.y as f32)
}

impl Edge {
    fn new(from: Point, to: Point) -> Option<Self> {
        let (from, to) = (narrow(from), narrow(to));
        let along = (to.0 - from.0, to.1 - from.1);
        let length2 = along.0 * along.0 + along.1 * along.1;
        (length2 > 0.0).then(|| Self { from, along, inverse: 1.0 / length2 })
    }

    /// From the nearest point of the edge to `at`.
    #[inline]
    fn away(&self, at: (f32, f32)) -> (f32, f32) {
        let off = (at.0 - self.from.0, at.1 - self.from.1);
        let t = ((off.0 * self.along.0 + off.1 * self.along.1) * self.inverse).clamp(0.0, 1.0);
        (off.0 - self.along.0 * t, off.1 - self.along.1 * t)
    }

    #[inline]
    fn distance2(&self, at: (f32, f32)) -> f32 {
        let away = self.away(at);
        away.0 * away.0 + away.1 * away.1
    }

    /// How far `at` lies to the inner side of the edge's line.
    #[inline]
    fn across(&self, at: (f32, f32)) -> f32 {
        let off = (at.0 - self.from.0, at.1 - self.from.1);
        (self.along.0 * off.1 - self.along.1 * off.0) * self.inverse.sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, Ring};
    use crate::nest::search::random::Random;

    /// A square frame: depth is the distance to the nearer of its outer and inner edge.
    #[test]
    fn depth_is_the_distance_to_the_nearest_edge_inside_and_nothing_outside() {
        let hole = Ring::rectangle(Rect::new(40.0, 40.0, 60.0, 60.0)).unwrap();
        let frame = Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, 100.0, 100.0)).unwrap(), vec![hole]);
        let region = NoFit::new(&frame.rings().flat_map(Ring::edges).collect::<Vec<_>>());
        let mut random = Random::new(1, 0);
        for _ in 0..2000 {
            let at = Point::new(random.between(-10.0, 110.0), random.between(-10.0, 110.0));
            let outer = at.x.min(at.y).min(100.0 - at.x).min(100.0 - at.y);
            let (dx, dy) = ((at.x - 50.0).abs() - 10.0, (at.y - 50.0).abs() - 10.0);
            let inner = if dx > 0.0 && dy > 0.0 { dx.hypot(dy) } else { dx.max(dy) };
            let expected = outer.min(inner).max(0.0);
            let off = if expected < 1.0 { 1e-4 } else { 100.0 / CELLS as f64 };
            assert!((region.depth(at) - expected).abs() < off, "at {at}: {} not {expected}", region.depth(at));
        }
    }

    /// Near the edges of the frame, the shortest move to either of them; anywhere, a move that leaves less depth.
    #[test]
    fn escaping_takes_the_shortest_way_out() {
        let hole = Ring::rectangle(Rect::new(40.0, 40.0, 60.0, 60.0)).unwrap();
        let frame = Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, 100.0, 100.0)).unwrap(), vec![hole]);
        let region = NoFit::new(&frame.rings().flat_map(Ring::edges).collect::<Vec<_>>());
        for (at, out) in [
            (Point::new(0.5, 30.0), Vec2::new(-0.5, 0.0)),
            (Point::new(30.0, 99.25), Vec2::new(0.0, 0.75)),
            (Point::new(50.0, 39.5), Vec2::new(0.0, 0.5)),
            (Point::new(50.0, 50.0), Vec2::ZERO),
            (Point::new(-3.0, 50.0), Vec2::ZERO),
        ] {
            assert!((region.escape(at) - out).hypot() < 1e-4, "at {at}: {} not {out}", region.escape(at));
            assert!(region.depth(at + region.escape(at)) <= 0.0);
        }
        let mut random = Random::new(2, 0);
        for _ in 0..2000 {
            let at = Point::new(random.between(0.0, 100.0), random.between(0.0, 100.0));
            let (depth, moved) = (region.depth(at), region.depth(at + region.escape(at)));
            assert!(depth <= 0.0 || moved < depth, "at {at}: {moved} after {depth}");
        }
    }

    #[test]
    fn a_point_beyond_a_needle_tip_is_outside() {
        let ring = Ring::new([Point::new(0.0, -1.0), Point::new(30.0, 0.0), Point::new(0.0, 1.0)]).unwrap();
        let region = NoFit::new(&ring.positive().edges().collect::<Vec<_>>());
        for k in -40..=40 {
            let angle = f64::from(k) * 0.035;
            let at = Point::new(30.0 + 0.3 * angle.cos(), 0.3 * angle.sin());
            assert!(region.depth(at) <= 0.0);
        }
    }
}
