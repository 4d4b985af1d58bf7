//! The boundary of a no-fit region as bare edges, which is all that measuring depths needs.
//!
//! Joining the convolution into areas costs ten times as much as making it. But a boundary edge can only come from an edge
//! carried to an outward corner (E. Behar and J.-M. Lien, "Fast and robust 2D Minkowski sum using reduced convolution",
//! 2011), so only those are split where they cross, and a stretch lies on the boundary when no curve of the whole
//! convolution winds round the points just outside it.

use super::convolve::{Carried, carried};
use crate::geometry::{Outline, Point, Rect, Vec2};

/// Ends nearer to another edge than this, in millimetres, count as on it.
const ON: f64 = 1e-7;

/// How far outside a stretch the winding is asked for, in millimetres; shorter stretches than this are dropped.
const OUTSIDE: f64 = 1e-6;

/// Cells along the longer side of the grid in which crossings are looked for.
const CELLS: usize = 48;

/// The edges of the region in which `moving` overlaps `fixed`, the region to the left of travel.
pub(in crate::nest) fn boundary(fixed: &Outline, moving: &Outline) -> Vec<(Point, Point)> {
    let all = carried(fixed, moving);
    let outward: Vec<(Point, Point)> =
        all.iter().filter(|edge| edge.outward).map(|edge| (edge.from, edge.to)).collect();
    let Some(bounds) = around(&outward) else { return Vec::new() };
    let winding = Bands::new(&all, bounds);
    let mut kept = Vec::new();
    for (edge, mut cuts) in outward.iter().zip(crossings(&outward, bounds)) {
        let (from, along) = (edge.0, edge.1 - edge.0);
        let length = along.hypot();
        let out = Vec2::new(along.y, -along.x) * (OUTSIDE / length);
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        let mut start = None;
        for pair in cuts.windows(2) {
            let stretch = (pair[1] - pair[0]) * length;
            let middle = from + along * f64::midpoint(pair[0], pair[1]);
            if stretch > OUTSIDE && winding.at(middle + out) == 0 {
                start = start.or(Some(pair[0]));
            } else if stretch > OUTSIDE {
                kept.extend(start.take().map(|start| (from + along * start, from + along * pair[0])));
            }
        }
        kept.extend(start.map(|start| (from + along * start, edge.1)));
    }
    kept
}

fn around(edges: &[(Point, Point)]) -> Option<Rect> {
    edges.iter().map(|(from, to)| Rect::from_points(*from, *to)).reduce(|a, b| a.union(b))
}

/// For every edge, as shares of its length, where others cross or end on it.
fn crossings(edges: &[(Point, Point)], bounds: Rect) -> Vec<Vec<f64>> {
    let mut cuts: Vec<Vec<f64>> = vec![Vec::new(); edges.len()];
    let grid = Grid::new(edges, bounds);
    for cell in &grid.cells {
        for (at, a) in cell.iter().enumerate() {
            for b in &cell[at + 1..] {
                cross(edges, (*a, *b), &mut cuts);
            }
        }
    }
    cuts
}

fn cross(edges: &[(Point, Point)], (a, b): (usize, usize), cuts: &mut [Vec<f64>]) {
    let ((p, p_end), (q, q_end)) = (edges[a], edges[b]);
    if p.x.max(p_end.x) + ON < q.x.min(q_end.x)
        || q.x.max(q_end.x) + ON < p.x.min(p_end.x)
        || p.y.max(p_end.y) + ON < q.y.min(q_end.y)
        || q.y.max(q_end.y) + ON < p.y.min(p_end.y)
    {
        return;
    }
    let (d, e, between) = (p_end - p, q_end - q, q - p);
    let (long, wide) = (d.hypot(), e.hypot());
    let det = d.cross(e);
    if det.abs() > 1e-12 * long * wide {
        let (t, u) = (between.cross(e) / det, between.cross(d) / det);
        let (slack_t, slack_u) = (ON / long, ON / wide);
        if t > -slack_t && t < 1.0 + slack_t && u > -slack_u && u < 1.0 + slack_u {
            cuts[a].extend(Some(t).filter(|t| *t > 0.0 && *t < 1.0));
            cuts[b].extend(Some(u).filter(|u| *u > 0.0 && *u < 1.0));
        }
    } else if between.cross(d).abs() < ON * long {
        let inner = |share: &f64| *share > 0.0 && *share < 1.0;
        cuts[a].extend([q, q_end].map(|end| (end - p).dot(d) / d.hypot2()).iter().filter(|s| inner(s)));
        cuts[b].extend([p, p_end].map(|end| (end - q).dot(e) / e.hypot2()).iter().filter(|s| inner(s)));
    }
}

/// Edges by the square cells they run through.
struct Grid {
    cells: Vec<Vec<usize>>,
}

impl Grid {
    fn new(edges: &[(Point, Point)], bounds: Rect) -> Self {
        let size = (bounds.width().max(bounds.height()) / CELLS as f64).max(1e-6);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a few cells")]
        let place = |length: f64| (length / size).clamp(0.0, CELLS as f64) as usize;
        let columns = place(bounds.width()) + 1;
        let rows = place(bounds.height()) + 1;
        let mut cells = vec![Vec::new(); columns * rows];
        for (index, (from, to)) in edges.iter().enumerate() {
            let (low, high) = if from.y <= to.y { (*from, *to) } else { (*to, *from) };
            let slope = if high.y - low.y > ON { (high.x - low.x) / (high.y - low.y) } else { 0.0 };
            for row in place(low.y - ON - bounds.y0)..=place(high.y + ON - bounds.y0).min(rows - 1) {
                // The part of the edge within this row of cells; a level edge runs through one row, or along two.
                let top = (bounds.y0 + row as f64 * size - ON).max(low.y);
                let bottom = (bounds.y0 + (row + 1) as f64 * size + ON).min(high.y);
                let (mut left, mut right) = (low.x.min(high.x), low.x.max(high.x));
                if high.y - low.y > ON {
                    let (a, b) = (low.x + slope * (top - low.y), low.x + slope * (bottom - low.y));
                    (left, right) = (left.max(a.min(b)), right.min(a.max(b)));
                }
                for column in place(left - ON - bounds.x0)..=place(right + ON - bounds.x0).min(columns - 1) {
                    cells[row * columns + column].push(index);
                }
            }
        }
        Self { cells }
    }
}

/// All curves of a convolution by level bands, so that a winding number asks only the edges level with a point.
struct Bands {
    top: f64,
    per_mm: f64,
    bands: Vec<Vec<(Point, Point)>>,
}

impl Bands {
    fn new(edges: &[Carried], bounds: Rect) -> Self {
        let count = (edges.len() / 4).clamp(1, 512);
        let per_mm = count as f64 / bounds.height().max(1e-6);
        let mut made = Self { top: bounds.y0, per_mm, bands: vec![Vec::new(); count] };
        for edge in edges {
            let (low, high) = (made.band(edge.from.y.min(edge.to.y)), made.band(edge.from.y.max(edge.to.y)));
            // Side by side in memory, since fetching them is what a look costs most.
            made.bands[low..=high].iter_mut().for_each(|band| band.push((edge.from, edge.to)));
        }
        made
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative, and clamped")]
    fn band(&self, y: f64) -> usize {
        (((y - self.top) * self.per_mm).max(0.0) as usize).min(self.bands.len() - 1)
    }

    /// How often the curves wind round a point.
    fn at(&self, point: Point) -> i32 {
        let mut winding = 0;
        for (from, to) in &self.bands[self.band(point.y)] {
            let (down, past) = (from.y <= point.y, to.y <= point.y);
            let side = (*to - *from).cross(point - *from);
            winding += i32::from(down & !past & (side > 0.0)) - i32::from(!down & past & (side < 0.0));
        }
        winding
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Affine, Ring};
    use crate::nest::search::random::Random;
    use crate::nest::shape::convolve::no_fit;
    use crate::nest::shape::nofit::NoFit;

    /// A ring that bulges in and out at random.
    fn blob(corners: u32, random: &mut Random) -> Outline {
        let points = (0..corners).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / f64::from(corners);
            let radius = random.between(8.0, 30.0);
            Point::new(radius * angle.cos(), radius * angle.sin())
        });
        Outline::new(Ring::new(points.collect::<Vec<_>>()).unwrap(), vec![])
    }

    /// Corners on a grid, so that edges lie along each other and corners meet.
    fn blocky(random: &mut Random) -> Outline {
        let heights: Vec<f64> = (0..6).map(|_| 5.0 * (1.0 + random.below(5) as f64)).collect();
        let tops = heights.iter().zip(0..).flat_map(|(height, k)| {
            let x = 5.0 * f64::from(k);
            [Point::new(x, *height), Point::new(x + 5.0, *height)]
        });
        let mut points: Vec<Point> = vec![Point::new(30.0, 0.0), Point::ZERO];
        points.extend(tops);
        points.dedup_by(|a, b| a.distance(*b) < 1e-9);
        Outline::new(Ring::new(points).unwrap(), vec![])
    }

    /// Inside and outside as the overlay engine finds them, and the same depth.
    fn assert_same(a: &Outline, b: &Outline, random: &mut Random) {
        let areas = no_fit(a, b);
        let edges: Vec<(Point, Point)> = areas.iter().flat_map(Outline::rings).flat_map(Ring::edges).collect();
        let made = boundary(a, b);
        let (known, made) = (NoFit::new(&edges), NoFit::new(&made));
        for _ in 0..500 {
            let at = Point::new(random.between(-65.0, 65.0), random.between(-65.0, 65.0));
            let (known, made) = (known.depth(at), made.depth(at));
            // Deep inside both are read off at a cell's middle, and of two edges as near either may be taken.
            let off = if known < 1.0 { 2e-3 } else { 1.5 };
            assert!((known - made).abs() < off, "depth {made} at {at}, known is {known}");
        }
    }

    #[test]
    fn wavy_pieces_have_the_boundary_the_overlay_finds() {
        let mut random = Random::new(7, 0);
        for corners in [5, 9, 20, 40] {
            for _ in 0..6 {
                let (a, b) = (blob(corners, &mut random), blob(corners + 2, &mut random));
                assert_same(&a, &b, &mut random);
            }
        }
    }

    #[test]
    fn pieces_with_parallel_edges_have_the_boundary_the_overlay_finds() {
        let mut random = Random::new(8, 0);
        for quarter in 0..24 {
            let (a, b) = (blocky(&mut random), blocky(&mut random));
            let b = b.transformed(crate::nest::shape::kind::turn(f64::from(quarter % 4) * 90.0));
            assert_same(&a, &b, &mut random);
            let own = a.transformed(Affine::rotate(std::f64::consts::PI));
            assert_same(&a, &own, &mut random);
        }
    }

    /// A low region whose edge lies just where a row of cells ends.
    #[test]
    fn an_edge_at_the_end_of_the_last_cell_is_in_it() {
        let flat = |width: f64, height: f64| {
            Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, width, height)).unwrap(), vec![])
        };
        for cells in 1..CELLS {
            let height = 1.0 - 1e-9 + (cells - 1) as f64;
            let made = boundary(&flat(24.0, height / 2.0), &flat(24.0, height / 2.0));
            assert!(made.len() >= 4, "{} edges", made.len());
        }
    }

    #[test]
    fn a_hole_large_enough_is_part_of_the_boundary() {
        let hole = Ring::rectangle(Rect::new(5.0, 5.0, 25.0, 25.0)).unwrap();
        let frame = Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, 30.0, 30.0)).unwrap(), vec![hole]);
        let mut random = Random::new(9, 0);
        let small = Outline::new(Ring::rectangle(Rect::new(-2.0, -2.0, 2.0, 2.0)).unwrap(), vec![]);
        assert_same(&frame, &small, &mut random);
        assert!(NoFit::new(&boundary(&frame, &small)).depth(Point::new(15.0, 15.0)) <= 0.0);
    }
}
