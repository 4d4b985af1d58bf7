//! Pages in rows and columns, for a band that is higher than a page.

use super::draw::bounds;
use super::tiles::{Joint, OVERLAP, Tiling, letter, overlaps, window};
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::write::drawing::Mark;
use crate::write::workbook::compose::count;
use crate::write::workbook::leaf::Way;

/// White border round the drawing, mm.
const BORDER: f64 = 4.0;

/// One page's part.
struct Cell {
    column: usize,
    row: usize,
    /// In the turned drawing.
    window: Rect,
}

/// The fewest pages, upright or lying; `upright` turns the development as it is to lie.
pub(crate) fn tiling(marks: &[Mark], upright: Affine) -> Tiling {
    let boxes: Vec<Rect> = marks.iter().filter_map(|mark| bounds(mark, upright)).collect();
    let (a, b) = (cut(&boxes, upright, Way::Upright), cut(&boxes, upright, Way::Lying));
    if b.len() < a.len() { b } else { a }
}

fn cut(boxes: &[Rect], upright: Affine, way: Way) -> Tiling {
    let page = window(way);
    let all = boxes.iter().copied().reduce(|a, b| a.union(b)).unwrap_or_default().inflate(BORDER, BORDER);
    let (columns, x) = spread((all.x0, all.x1), page.width());
    let (rows, y) = spread((all.y0, all.y1), page.height());
    let mut cells = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let corner =
                Point::new(x + column as f64 * (page.width() - OVERLAP), y + row as f64 * (page.height() - OVERLAP));
            let window = Rect::from_origin_size(corner, (page.width(), page.height()));
            // What lies in the strips alone is on the neighbour as well.
            let own = window.inflate(-OVERLAP / 2.0, -OVERLAP / 2.0);
            if boxes.iter().any(|b| overlaps(*b, own)) {
                cells.push(Cell { column, row, window });
            }
        }
    }
    let place = |cell: &Cell| Affine::translate(page.origin() - cell.window.origin()) * upright;
    let places = cells.iter().map(place).collect();
    Tiling { way, places, joints: joints(&cells, upright.inverse()) }
}

/// How many windows cover a span, and where the first begins.
fn spread((from, to): (f64, f64), window: f64) -> (usize, f64) {
    let step = window - OVERLAP;
    let needed = count((((to - from) - OVERLAP) / step - 1e-9).ceil().clamp(1.0, 400.0));
    (needed, (from + to - (needed as f64 * step + OVERLAP)) / 2.0)
}

fn joints(cells: &[Cell], back: Affine) -> Vec<Joint> {
    let mut joints = Vec::new();
    for (under, cell) in cells.iter().enumerate() {
        for (over, other) in cells.iter().enumerate() {
            let beside = other.row == cell.row && other.column == cell.column + 1;
            let below = other.column == cell.column && other.row == cell.row + 1;
            let shared = cell.window.intersect(other.window);
            let (to, out) = if beside {
                (Point::new(shared.x0, shared.y1), Vec2::new(1.0, 0.0))
            } else if below {
                (Point::new(shared.x1, shared.y0), Vec2::new(0.0, 1.0))
            } else {
                continue;
            };
            let from = shared.origin();
            let out = (back * (from + out)) - (back * from);
            joints.push(Joint { letter: letter(joints.len()), under, over, from: back * from, to: back * to, out });
        }
    }
    joints
}
