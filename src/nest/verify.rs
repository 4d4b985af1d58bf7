//! Independent check of a layout: every piece inside the margins, no two nearer than the gap, none missing.
//!
//! Works on the true outlines in `f64` by plain edge distances and points in polygons, and shares no code with the search.
//! Edges are passed over only when their boxes lie farther apart than the gap.

use std::fmt;

use crate::geometry::{Outline, Point, Rect, Ring, Vec2};
use crate::nest::{Item, Laid, LaidSheet, Layout, Task, Turning, placed};
use crate::quantity::Mm;

/// How far a gap or margin may fall short, in millimetres.
///
/// Two micrometres: twice what is lost when positions are written to 0.001 mm, and far below what any knife keeps.
pub const TOLERANCE: f64 = 0.002;

/// What is wrong with a layout.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// A piece reaches into the margin or over the edge.
    OverEdge {
        /// Index of the sheet.
        sheet: usize,
        /// Index of the piece on it.
        piece: usize,
        /// By how much.
        by: Mm,
    },
    /// Two pieces are nearer than the gap, or overlap (distance 0).
    TooClose {
        /// Index of the sheet.
        sheet: usize,
        /// Indices of the pieces on it.
        pieces: (usize, usize),
        /// How far apart they are.
        distance: Mm,
    },
    /// A piece is turned in a way the film does not allow.
    Turned {
        /// Index of the sheet.
        sheet: usize,
        /// Index of the piece on it.
        piece: usize,
        /// Its turn.
        degrees: f64,
    },
    /// More or fewer of an item than asked for.
    Miscounted {
        /// Index of the item.
        item: usize,
        /// Laid and listed as unplaced.
        found: u64,
        /// Asked for.
        asked: u64,
    },
    /// A test piece comes after other pieces, which she would cut before she knows whether the setting holds.
    TestLate {
        /// Index of the item.
        item: usize,
        /// Index of the sheet that holds others while the test is still to come.
        sheet: usize,
    },
    /// More sheets of a stock than there are.
    MoreThanInStock {
        /// Index of the stock.
        stock: usize,
        /// Sheets used.
        used: u64,
    },
    /// An item or stock of the layout that the task does not have.
    Unknown {
        /// Index of the sheet.
        sheet: usize,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OverEdge { sheet, piece, by } => {
                write!(f, "piece {} of sheet {} is {by:.3} over the margin", piece + 1, sheet + 1)
            }
            Self::TooClose { sheet, pieces: (a, b), distance } => {
                write!(f, "pieces {} and {} of sheet {} are {distance:.3} apart", a + 1, b + 1, sheet + 1)
            }
            Self::Turned { sheet, piece, degrees } => {
                write!(f, "piece {} of sheet {} is turned by {degrees:.3} degrees", piece + 1, sheet + 1)
            }
            Self::Miscounted { item, found, asked } => {
                write!(f, "{found} pieces of item {} are accounted for, not {asked}", item + 1)
            }
            Self::TestLate { item, sheet } => {
                write!(f, "sheet {} holds other pieces before the test piece of item {}", sheet + 1, item + 1)
            }
            Self::MoreThanInStock { stock, used } => write!(f, "{used} sheets of stock {} are used", stock + 1),
            Self::Unknown { sheet } => write!(f, "sheet {} names an item or stock that is not there", sheet + 1),
        }
    }
}

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
    for (a, b) in near_pairs(&pieces, gap) {
        let distance = distance(&pieces[a], &pieces[b], gap);
        if distance < gap - TOLERANCE || overlap(&pieces[a], &pieces[b], gap) {
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

/// Pairs whose boxes come nearer than the gap, found by a sweep from left to right.
fn near_pairs(pieces: &[Outline], gap: f64) -> Vec<(usize, usize)> {
    let boxes: Vec<Rect> = pieces.iter().map(Outline::bounds).collect();
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by(|a, b| boxes[*a].x0.total_cmp(&boxes[*b].x0).then(a.cmp(b)));
    let mut pairs = Vec::new();
    for (at, a) in order.iter().enumerate() {
        for b in &order[at + 1..] {
            if boxes[*b].x0 > boxes[*a].x1 + gap {
                break;
            }
            if boxes[*b].y0 <= boxes[*a].y1 + gap && boxes[*a].y0 <= boxes[*b].y1 + gap {
                pairs.push((*a.min(b), *a.max(b)));
            }
        }
    }
    pairs.sort_unstable();
    pairs
}

/// Least distance between the edges of two areas, as far as it matters: anything beyond `reach` may come out as `reach`.
fn distance(a: &Outline, b: &Outline, reach: f64) -> f64 {
    let near = |outline: &Outline, box_: Rect| -> Vec<(Point, Point)> {
        let box_ = box_.inflate(reach, reach);
        let touches = |(p, q): &(Point, Point)| {
            let edge = Rect::from_points(*p, *q);
            edge.x0 <= box_.x1 && box_.x0 <= edge.x1 && edge.y0 <= box_.y1 && box_.y0 <= edge.y1
        };
        outline.rings().flat_map(Ring::edges).filter(touches).collect()
    };
    let (edges_a, edges_b) = (near(a, b.bounds()), near(b, a.bounds()));
    let mut least = reach;
    for a in &edges_a {
        for b in &edges_b {
            if box_gap(*a, *b) < least {
                least = least.min(edge_distance(*a, *b));
            }
        }
    }
    least
}

fn box_gap(a: (Point, Point), b: (Point, Point)) -> f64 {
    let (a, b) = (Rect::from_points(a.0, a.1), Rect::from_points(b.0, b.1));
    let dx = (a.x0 - b.x1).max(b.x0 - a.x1);
    let dy = (a.y0 - b.y1).max(b.y0 - a.y1);
    dx.max(dy)
}

fn edge_distance(a: (Point, Point), b: (Point, Point)) -> f64 {
    let side = |edge: (Point, Point), point: Point| (edge.1 - edge.0).cross(point - edge.0);
    let parted = |edge: (Point, Point), other: (Point, Point)| side(edge, other.0) * side(edge, other.1) > 0.0;
    let parallel = (a.1 - a.0).cross(b.1 - b.0).abs() < f64::MIN_POSITIVE;
    if !parallel && !parted(a, b) && !parted(b, a) {
        return 0.0;
    }
    [to_edge(a.0, b), to_edge(a.1, b), to_edge(b.0, a), to_edge(b.1, a)].into_iter().fold(f64::INFINITY, f64::min)
}

fn to_edge(point: Point, (from, to): (Point, Point)) -> f64 {
    let along: Vec2 = to - from;
    let t = ((point - from).dot(along) / along.hypot2()).clamp(0.0, 1.0);
    point.distance(from + along * t)
}

/// Whether two areas share ground deeper than the tolerance.
///
/// With a gap kept between their edges, they overlap only when one lies inside the other, and any one point tells. Without
/// a gap they may touch, so the edges are walked: a stretch of one edge between two crossings, moved inward by twice the
/// tolerance, must not lie deeper than the tolerance inside the other area.
fn overlap(a: &Outline, b: &Outline, gap: f64) -> bool {
    if gap > TOLERANCE {
        return b.contains(a.outer().points()[0]) || a.contains(b.outer().points()[0]);
    }
    runs_inside(a, b) || runs_inside(b, a)
}

fn runs_inside(a: &Outline, b: &Outline) -> bool {
    let others: Vec<(Point, Point)> = b.rings().flat_map(Ring::edges).collect();
    let deep = |point: Point| b.contains(point) && others.iter().all(|edge| to_edge(point, *edge) > TOLERANCE);
    a.rings().flat_map(Ring::edges).any(|(from, to)| {
        let along = to - from;
        // Inward is to the left of travel when the area is positive, y down or not.
        let inward = Vec2::new(-along.y, along.x) / along.hypot() * (2.0 * TOLERANCE);
        let mut cuts: Vec<f64> = others.iter().filter_map(|other| crossing(from, along, *other)).collect();
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2).any(|pair| deep(from + along * f64::midpoint(pair[0], pair[1]) + inward))
    })
}

fn crossing(from: Point, along: Vec2, other: (Point, Point)) -> Option<f64> {
    let across = other.1 - other.0;
    let det = along.cross(across);
    if det.abs() < f64::MIN_POSITIVE {
        return None;
    }
    let t = (other.0 - from).cross(across) / det;
    (0.0..=1.0).contains(&t).then_some(t)
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
