//! Whether a layout can be cut and parted: one file for like sheets, kinds together, a way for the scissors to every piece.

use hemwright::geometry::{Affine, Outline, Point, Rect, Ring};
use hemwright::nest::{Item, LaidSheet, Task, Turning};

use super::shapes;
use super::tasks::{item, lay, rectangle, regular, sheet, sheets, task};

/// A five-petalled flower with deep bays between its petals.
fn flower(size: f64) -> Ring {
    shapes::around(Point::ZERO, 100, |angle| size * (0.62 + 0.38 * (5.0 * angle).cos())).outer().clone()
}

#[test]
fn equal_sheets_are_one_file_cut_several_times() {
    // Hexagons fill a sheet so well that no other layout of full sheets is worth a file of its own.
    for (turning, ring) in [(Turning::None, regular(6, 30.0)), (Turning::Free, flower(40.0))] {
        let mut task = task(vec![item("piece", ring, 60)], vec![sheet(300.0, 300.0, None)], 5.0, 4.0);
        task.turning = turning;
        let layout = lay(&task);
        let copies: Vec<u32> = layout.sheets.iter().map(|sheet| sheet.copies).collect();
        assert!(layout.sheets.len() <= 2 && sheets(&layout) >= 3, "{turning:?}: {copies:?}");
    }
}

/// Two motifs with the same square, and the two hands of a leaf that is its own mirror image: neither is laid mixed.
#[test]
fn like_shapes_of_two_kinds_lie_together() {
    let leaf = [(0.0, -30.0), (12.0, 0.0), (0.0, 30.0), (-12.0, 0.0)].map(Point::from);
    let (drawn, mirrored) = (Ring::new(leaf).unwrap(), Ring::new(leaf).unwrap().transformed(Affine::FLIP_X));
    for (one, other) in [(rectangle(40.0, 40.0), rectangle(40.0, 40.0)), (drawn, mirrored)] {
        let mut first = item("first", one, 31);
        first.on_first_sheet = 1;
        let mut second = item("second", other, 20);
        second.on_first_sheet = 1;
        let mut task = task(vec![first, second], vec![sheet(300.0, 300.0, None)], 5.0, 4.0);
        task.turning = Turning::Half;
        let layout = lay(&task);
        let kinds: Vec<usize> = layout
            .sheets
            .iter()
            .flat_map(|sheet| (0..sheet.copies).flat_map(|_| sheet.laid.iter().map(|laid| laid.item)))
            .collect();
        let changes = kinds.windows(2).filter(|pair| pair[0] != pair[1]).count();
        // First to second, and the test piece of the second on the first sheet there and back.
        assert!(changes <= 3, "{kinds:?}");
    }
}

fn placed(task: &Task, sheet: &LaidSheet) -> Vec<Outline> {
    let patch = |item: &Item| Outline::new(item.patch.clone(), vec![]);
    sheet.laid.iter().map(|laid| patch(&task.items[laid.item]).transformed(laid.transform())).collect()
}

/// A grid over a sheet, a millimetre from point to point.
struct Grid {
    columns: usize,
    rows: usize,
}

impl Grid {
    fn at(&self, cell: usize) -> Point {
        Point::new((cell % self.columns) as f64, (cell / self.columns) as f64)
    }

    /// Every cell that steps across and down reach from one, staying on cells that are `free`.
    fn flooded(&self, from: usize, free: impl Fn(usize) -> bool) -> Vec<usize> {
        let mut seen = vec![false; self.columns * self.rows];
        let (mut open, mut reached) = (vec![from], Vec::new());
        seen[from] = true;
        while let Some(cell) = open.pop() {
            reached.push(cell);
            let (x, y) = (cell % self.columns, cell / self.columns);
            let steps = [
                (x > 0).then(|| cell - 1),
                (x + 1 < self.columns).then(|| cell + 1),
                (y > 0).then(|| cell - self.columns),
                (y + 1 < self.rows).then(|| cell + self.columns),
            ];
            for next in steps.into_iter().flatten() {
                if free(next) && !std::mem::replace(&mut seen[next], true) {
                    open.push(next);
                }
            }
        }
        reached
    }
}

/// How many pieces of a sheet hang together once scissors have gone wherever they can, half the gap from every piece, starting
/// at the sheet's corner: 1 where each piece comes off alone.
fn most_together(task: &Task, sheet: &LaidSheet) -> usize {
    let (pieces, stock) = (placed(task, sheet), &task.stock[sheet.stock]);
    let (width, height) = (stock.width.get(), stock.height.unwrap_or(sheet.used).get());
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sheet in millimetres")]
    let grid = Grid { columns: width as usize + 1, rows: height as usize + 1 };
    // Half a cell's diagonal nearer than the middle of the gap, so that the way along it is seen on the grid.
    let clear = task.gap.get() / 2.0 - 0.7072;
    let mut owner: Vec<Option<usize>> = vec![None; grid.columns * grid.rows];
    for (number, piece) in pieces.iter().enumerate() {
        let near = piece.bounds().inflate(clear, clear);
        for (cell, owner) in owner.iter_mut().enumerate() {
            let point = grid.at(cell);
            let taken = near.contains(point)
                && (piece.contains(point) || shapes::distance_to_edge(std::slice::from_ref(piece), point) < clear);
            if taken {
                *owner = Some(number);
            }
        }
    }
    let mut cut = vec![false; owner.len()];
    grid.flooded(0, |cell| owner[cell].is_none()).into_iter().for_each(|cell| cut[cell] = true);
    let together = |start: usize| {
        let mut pieces: Vec<usize> =
            grid.flooded(start, |cell| !cut[cell]).iter().filter_map(|cell| owner[*cell]).collect();
        pieces.sort_unstable();
        pieces.dedup();
        pieces.len()
    };
    let first_of = |piece: usize| owner.iter().position(|owner| *owner == Some(piece));
    (0..pieces.len()).filter_map(first_of).map(together).max().unwrap_or(0)
}

#[test]
fn scissors_part_every_piece_without_cutting_into_another() {
    let items = vec![item("flower", flower(40.0), 8), item("leaf", rectangle(16.0, 45.0), 8)];
    for turning in [Turning::None, Turning::Free] {
        let mut task = task(items.clone(), vec![sheet(250.0, 300.0, None)], 6.0, 4.0);
        task.turning = turning;
        let layout = lay(&task);
        assert!(layout.sheets.iter().all(|sheet| most_together(&task, sheet) == 1), "{turning:?}");
        // The check can fail: scissors that keep half of a gap three times as wide part hardly anything.
        task.gap = hemwright::quantity::mm(12.0);
        assert!(layout.sheets.iter().any(|sheet| most_together(&task, sheet) > 1), "{turning:?}");
    }
}

/// Rectangles of one kind lie in whole rows: a straight cut across the sheet between each two, and straight cuts in each row.
#[test]
fn rows_of_one_kind_are_parted_by_straight_cuts() {
    let mut task = task(vec![item("box", rectangle(60.0, 40.0), 40)], vec![sheet(300.0, 500.0, None)], 5.0, 4.0);
    task.turning = Turning::Half;
    let layout = lay(&task);
    for sheet in &layout.sheets {
        let boxes: Vec<_> = placed(&task, sheet).iter().map(Outline::bounds).collect();
        assert!(straight(&boxes, true) || straight(&boxes, false), "{boxes:?}");
    }
}

/// Whether straight cuts, first down or across and then the other way, part all boxes.
fn straight(boxes: &[Rect], across: bool) -> bool {
    if boxes.len() < 2 {
        return true;
    }
    let span = |b: &Rect| if across { (b.y0, b.y1) } else { (b.x0, b.x1) };
    let mut sorted = boxes.to_vec();
    sorted.sort_by(|a, b| span(a).0.total_cmp(&span(b).0));
    let mut rows: Vec<Vec<Rect>> = Vec::new();
    let mut end = f64::NEG_INFINITY;
    for box_ in sorted {
        if span(&box_).0 > end {
            rows.push(Vec::new());
        }
        end = end.max(span(&box_).1);
        rows.last_mut().unwrap().push(box_);
    }
    rows.len() > 1 && rows.iter().all(|row| straight(row, !across))
        || (rows.len() == 1 && {
            let other = |b: &Rect| if across { (b.x0, b.x1) } else { (b.y0, b.y1) };
            let mut row = rows[0].clone();
            row.sort_by(|a, b| other(a).0.total_cmp(&other(b).0));
            row.windows(2).all(|pair| other(&pair[0]).1 <= other(&pair[1]).0)
        })
}

/// A lens 60 long and 20 high, drawn on the slant, more than a sheet of them: what is left for the last sheet lies in rows of lenses along the
/// sheet, four to a row of 290 (4 x 60 + 3 x 4 = 252), never on the slant.
#[test]
fn few_pieces_on_the_last_sheet_lie_in_their_smallest_boxes() {
    // Two arcs of the circle through (-30, 0), (0, 10), (30, 0): its radius is (30^2 + 10^2) / 20 = 50.
    let half = (30.0f64 / 50.0).asin();
    let arc = |k: u32| {
        let angle = half * (f64::from(k) / 8.0 - 1.0);
        (50.0 * angle.sin(), 50.0 * angle.cos() - 40.0)
    };
    let upper = (0..16).map(arc);
    let lower = (0..16).map(arc).map(|(x, y)| (-x, -y));
    let slant = Affine::rotate(0.4);
    let lens = Ring::new(upper.chain(lower).map(|(x, y)| slant * Point::new(x, y))).unwrap();
    for count in [37, 75] {
        let task = task(vec![item("lens", lens.clone(), count)], vec![sheet(300.0, 200.0, None)], 5.0, 4.0);
        let layout = lay(&task);
        let last = layout.sheets.last().unwrap();
        let rows = last.laid.len().div_ceil(4);
        let used = 10.0 + 20.0 * rows as f64 + 4.0 * (rows - 1) as f64;
        assert!(last.used.get() <= used + 0.1, "{count}: {} on {} mm, not {used}", last.laid.len(), last.used);
    }
}
