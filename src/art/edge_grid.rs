//! A square grid over the edges of rings: finds the few edges near a place, and bounds the work on tangled drawings.
//!
//! Each edge is listed in every cell it passes through, so a query looks at few edges and long edges cost only the cells
//! along them. The lists stand one behind the other in one vector.

use crate::geometry::{Point, Rect, Ring, Vec2};

/// Most pairs of edges in common cells in one drawing. A tracing of 2 000 points has some ten thousand.
pub(super) const MOST_PAIRS: usize = 20_000_000;

/// Most cells on a side; finer grids cost more to make than they save.
const MOST_CELLS_A_SIDE: f64 = 1024.0;

/// Most places on all cell lists together; beyond it the drawing is a tangle.
const MOST_ENTRIES: usize = 4_000_000;

/// An edge and the ring it belongs to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) from: Point,
    pub(super) to: Point,
    /// Index of its ring among those the grid was made from.
    pub(super) ring: usize,
    /// Index of the edge in its ring.
    pub(super) index: usize,
}

impl Edge {
    /// The point of the edge nearest to another.
    pub(super) fn nearest_point(self, at: Point) -> Point {
        let along = self.to - self.from;
        let length2 = along.hypot2();
        if length2 <= 0.0 {
            return self.from;
        }
        self.from + along * ((at - self.from).dot(along) / length2).clamp(0.0, 1.0)
    }
}

/// Edges by cell.
#[derive(Debug)]
pub(super) struct EdgeGrid {
    edges: Vec<Edge>,
    origin: Point,
    cell: f64,
    columns: usize,
    rows: usize,
    starts: Vec<usize>,
    entries: Vec<usize>,
}

impl EdgeGrid {
    /// A grid over the edges of rings, about as many cells as edges; `None` when the drawing is a tangle, or has no edges.
    pub(super) fn new<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> Option<Self> {
        let mut edges = Vec::new();
        for (ring, points) in rings.into_iter().enumerate() {
            edges.extend(points.edges().enumerate().map(|(index, (from, to))| Edge { from, to, ring, index }));
        }
        let bounds = edges.iter().map(|edge| Rect::from_points(edge.from, edge.to)).reduce(|a, b| a.union(b))?;
        let length: f64 = edges.iter().map(|edge| edge.from.distance(edge.to)).sum();
        let side = bounds.width().max(bounds.height());
        // About as many cells as edges, none much shorter than an edge.
        let even = (bounds.area() / edges.len() as f64).sqrt();
        let cell = (length / edges.len() as f64).max(even).max(side / MOST_CELLS_A_SIDE).max(1e-9);
        let cells = |extent: f64| whole(extent / cell) + 1;
        let mut grid = Self {
            edges,
            origin: bounds.origin(),
            cell,
            columns: cells(bounds.width()),
            rows: cells(bounds.height()),
            starts: Vec::new(),
            entries: Vec::new(),
        };
        grid.fill()?;
        Some(grid)
    }

    fn fill(&mut self) -> Option<()> {
        let mut listed: Vec<(usize, usize)> = Vec::with_capacity(self.edges.len() * 3);
        for (number, edge) in self.edges.iter().enumerate() {
            self.cells_along(edge, &mut |cell| listed.push((cell, number)));
            if listed.len() > MOST_ENTRIES {
                return None;
            }
        }
        listed.sort_unstable();
        self.starts = vec![0; self.columns * self.rows + 1];
        for (cell, _) in &listed {
            self.starts[cell + 1] += 1;
        }
        for cell in 1..self.starts.len() {
            self.starts[cell] += self.starts[cell - 1];
        }
        self.entries = listed.into_iter().map(|(_, edge)| edge).collect();
        Some(())
    }

    /// Every cell an edge passes through, row by row.
    fn cells_along(&self, edge: &Edge, visit: &mut impl FnMut(usize)) {
        let (low, high) = if edge.from.y <= edge.to.y { (edge.from, edge.to) } else { (edge.to, edge.from) };
        let (first, last) = (self.row(low.y), self.row(high.y));
        let x_at = |y: f64| {
            if high.y - low.y <= 0.0 { low.x } else { low.x + (high.x - low.x) * ((y - low.y) / (high.y - low.y)) }
        };
        for row in first..=last {
            let top = self.origin.y + row as f64 * self.cell;
            let (mut a, mut b) = (x_at(top.max(low.y)), x_at((top + self.cell).min(high.y)));
            if first == last {
                (a, b) = (low.x, high.x);
            }
            // A hair wider, so that rounding cannot lose an edge that runs along a cell's border.
            let hair = 1e-9 * self.cell;
            for column in self.column(a.min(b) - hair)..=self.column(a.max(b) + hair) {
                visit(row * self.columns + column);
            }
        }
    }

    fn column(&self, x: f64) -> usize {
        whole((x - self.origin.x) / self.cell).min(self.columns - 1)
    }

    fn row(&self, y: f64) -> usize {
        whole((y - self.origin.y) / self.cell).min(self.rows - 1)
    }

    /// The edges, in the order of the rings.
    pub(super) fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// Edges listed in the cells that a box touches; an edge may come more than once.
    pub(super) fn near(&self, area: Rect) -> impl Iterator<Item = usize> + '_ {
        let columns = self.column(area.x0)..=self.column(area.x1);
        (self.row(area.y0)..=self.row(area.y1)).flat_map(move |row| {
            columns.clone().flat_map(move |column| self.cell_edges(row * self.columns + column).iter().copied())
        })
    }

    /// The nearest edge no farther than `within`: its distance, its number, and its nearest point.
    pub(super) fn nearest(&self, at: Point, within: f64) -> Option<(f64, usize, Point)> {
        // Squares of growing size: what is found inside the reach of one cannot be beaten outside it.
        let mut reach = self.cell.min(within);
        loop {
            let half = Vec2::new(reach, reach);
            let found = self
                .near(Rect::from_points(at - half, at + half))
                .map(|number| {
                    let on = self.edges[number].nearest_point(at);
                    (at.distance(on), number, on)
                })
                .filter(|(distance, ..)| *distance <= reach)
                .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            if found.is_some() || reach >= within {
                return found;
            }
            reach = (reach * 2.0).min(within);
        }
    }

    fn cell_edges(&self, cell: usize) -> &[usize] {
        &self.entries[self.starts[cell]..self.starts[cell + 1]]
    }

    /// Lists of the cells, each with the edges that pass through it.
    pub(super) fn cells(&self) -> impl Iterator<Item = &[usize]> + '_ {
        (0..self.columns * self.rows).map(|cell| self.cell_edges(cell))
    }

    /// Pairs of edges in common cells: what comparing them all would cost.
    pub(super) fn pairs(&self) -> usize {
        self.cells().map(|edges| edges.len() * edges.len().saturating_sub(1) / 2).sum()
    }
}

/// What is left of a budget of pairs after comparing these rings' edges; `None` when it does not suffice.
///
/// Asked before any overlay, whose work and memory grow with the crossings.
pub(super) fn spend_on_crossings(rings: &[Ring], budget: usize) -> Option<usize> {
    if rings.is_empty() {
        return Some(budget);
    }
    budget.checked_sub(EdgeGrid::new(rings)?.pairs())
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the range of a grid before")]
fn whole(value: f64) -> usize {
    value.clamp(0.0, 1e6) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_edge_is_found_near_each_of_its_points() {
        let ring = Ring::new((0..90).map(|k| {
            let angle = f64::from(k) * 0.7;
            Point::new((3.0 + f64::from(k)) * angle.cos(), (2.0 + f64::from(k)) * angle.sin())
        }))
        .unwrap();
        let grid = EdgeGrid::new([&ring]).unwrap();
        for (number, edge) in grid.edges().iter().enumerate() {
            for step in 0..=20 {
                let at = edge.from.lerp(edge.to, f64::from(step) / 20.0);
                assert!(grid.near(Rect::from_points(at, at)).any(|found| found == number), "{number} at {at:?}");
            }
        }
    }

    #[test]
    fn a_tangle_spends_the_budget_and_a_circle_does_not() {
        let circle = |points: u32, turns: f64| {
            Ring::new((0..points).map(|k| {
                let angle = std::f64::consts::TAU * turns * f64::from(k) / f64::from(points);
                Point::new(100.0 * angle.cos(), 100.0 * angle.sin())
            }))
            .unwrap()
        };
        assert!(MOST_PAIRS - spend_on_crossings(&[circle(2_000, 1.0)], MOST_PAIRS).unwrap() < 50_000);
        // Every second edge runs across the whole disc.
        assert_eq!(spend_on_crossings(&[circle(20_001, 10_000.0)], MOST_PAIRS), None);
    }
}
