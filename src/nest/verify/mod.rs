//! Independent check of a layout: every piece inside the margins, no two nearer than the gap, none missing.
//!
//! Works on the true outlines in `f64` by plain edge distances and points in polygons, and shares no code with the search.
//! Where an edge is passed over, its box lies farther off than the gap.

mod apart;
mod fault;

pub use fault::Fault;

use crate::geometry::{Outline, Rect};
use crate::nest::{Item, Laid, LaidSheet, Layout, Task, Turning, placed};
use crate::quantity::Mm;

/// How far a gap or margin may fall short, in millimetres.
///
/// Two micrometres: twice what is lost when positions are written to 0.001 mm, and far below what any knife keeps.
pub const TOLERANCE: f64 = 0.002;

/// Everything that is wrong with a layout; empty when it is sound.
#[must_use]
pub fn verify(task: &Task, layout: &Layout) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, sheet) in layout.sheets.iter().enumerate() {
        if sheet.stock >= task.stock.len() || sheet.laid.iter().any(|laid| laid.item >= task.items.len()) {
            faults.push(Fault::Unknown { sheet: index });
        } else {
            check_sheet(task, index, sheet, &mut faults);
        }
    }
    if faults.is_empty() {
        check_counts(task, layout, &mut faults);
        check_tests(task, layout, &mut faults);
    }
    faults
}

/// An item as an area: its patch with the holes where others may lie.
fn area_of(item: &Item) -> Outline {
    Outline::new(item.patch.clone(), item.holes.clone())
}

fn check_sheet(task: &Task, index: usize, sheet: &LaidSheet, faults: &mut Vec<Fault>) {
    let pieces: Vec<Outline> = sheet.laid.iter().map(|laid| placed(&area_of(&task.items[laid.item]), laid)).collect();
    for (piece, (outline, laid)) in pieces.iter().zip(&sheet.laid).enumerate() {
        let by = over_edge(outline.bounds(), task, sheet);
        if by > TOLERANCE {
            faults.push(Fault::OverEdge { sheet: index, piece, by: Mm::new(by) });
        }
        if !allowed(laid, task.turning) {
            faults.push(Fault::Turned { sheet: index, piece, degrees: laid.turn_deg });
        }
    }
    let gap = task.gap.get();
    for (a, b) in apart::near_pairs(&pieces, gap) {
        let distance = apart::distance(&pieces[a], &pieces[b], gap);
        if distance < gap - TOLERANCE || apart::overlap(&pieces[a], &pieces[b], gap) {
            let distance = Mm::new(distance.min(gap));
            faults.push(Fault::TooClose { sheet: index, pieces: (a, b), distance });
        }
    }
}

fn over_edge(bounds: Rect, task: &Task, sheet: &LaidSheet) -> f64 {
    let stock = &task.stock[sheet.stock];
    let margin = task.margin.get();
    let end = stock.height.map_or(f64::INFINITY, Mm::get).min(sheet.used.get());
    let sides =
        [margin - bounds.x0, margin - bounds.y0, bounds.x1 - (stock.width.get() - margin), bounds.y1 - (end - margin)];
    sides.into_iter().fold(f64::NEG_INFINITY, f64::max)
}

fn allowed(laid: &Laid, turning: Turning) -> bool {
    let step = match turning {
        Turning::Free => return laid.turn_deg.is_finite(),
        Turning::None => 360.0,
        Turning::Half => 180.0,
        Turning::Steps(step) => f64::from(step),
    };
    let rest = laid.turn_deg.rem_euclid(step);
    rest.min(step - rest) < 1e-9
}

fn check_counts(task: &Task, layout: &Layout, faults: &mut Vec<Fault>) {
    let mut found = vec![0u64; task.items.len()];
    let mut used = vec![0u64; task.stock.len()];
    for sheet in &layout.sheets {
        used[sheet.stock] += u64::from(sheet.copies);
        for laid in &sheet.laid {
            found[laid.item] += u64::from(sheet.copies);
        }
    }
    for unplaced in &layout.unplaced {
        if let Some(count) = found.get_mut(unplaced.item) {
            *count += u64::from(unplaced.quantity);
        }
    }
    for (item, (found, asked)) in found.into_iter().zip(task.items.iter().map(|i| u64::from(i.quantity))).enumerate() {
        if found != asked {
            faults.push(Fault::Miscounted { item, found, asked });
        }
    }
    for (stock, used) in used.into_iter().enumerate() {
        if task.stock[stock].available.is_some_and(|available| used > u64::from(available)) {
            faults.push(Fault::MoreThanInStock { stock, used });
        }
    }
}

/// Test pieces lie on the first sheet; where one sheet cannot take them all, on as many first sheets as hold nothing else.
fn check_tests(task: &Task, layout: &Layout, faults: &mut Vec<Fault>) {
    let left_out = |item: usize| -> u32 {
        layout.unplaced.iter().filter(|left| left.item == item).map(|left| left.quantity).sum()
    };
    let tests = task.items.iter().enumerate();
    for (item, tests) in tests.map(|(item, wish)| (item, wish.on_first_sheet.min(wish.quantity - left_out(item)))) {
        let mut due = tests as usize;
        for (index, sheet) in layout.sheets.iter().enumerate() {
            due = due.saturating_sub(sheet.laid.iter().filter(|laid| laid.item == item).count());
            if due == 0 {
                break;
            }
            if !only_tests(task, &layout.sheets[..=index]) {
                faults.push(Fault::TestLate { item, sheet: index });
                break;
            }
        }
    }
}

/// Whether no item lies on some sheets more often than it is tested.
fn only_tests(task: &Task, sheets: &[LaidSheet]) -> bool {
    let on_all = |item: usize| -> u64 {
        let on = |sheet: &LaidSheet| {
            u64::from(sheet.copies) * sheet.laid.iter().filter(|laid| laid.item == item).count() as u64
        };
        sheets.iter().map(on).sum()
    };
    task.items.iter().enumerate().all(|(item, wish)| on_all(item) <= u64::from(wish.on_first_sheet))
}
