//! Laying pieces by their bounding boxes: whole rows of one kind either way round, and mixed boxes in free rectangles.
//!
//! This is the floor below which no layout falls, and the fallback for pieces no search can help (rectangles that fill the
//! sheet exactly). Free rectangles follow J. Jylänki, "A thousand ways to pack the bin" (2010): every maximal empty
//! rectangle is kept, and the next box goes where a rule says it fits best.

use super::corners;
use crate::geometry::Rect;
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{Boxed, EXACT, Kind, Room};

/// Extra distance between boxes where there is room for it, in millimetres, so that positions rounded to 0.001 mm when
/// written still keep the gap.
pub(in crate::nest) const SAFETY: f64 = 0.004;

/// Where the next box goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::nest) enum Fit {
    /// Where the shorter left-over is least.
    ShortSide,
    /// Where its far edge comes nearest to the sheet's start.
    Nearest,
    /// In the smallest free rectangle.
    SmallestArea,
}

/// Which box goes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::nest) enum Order {
    Area,
    LongSide,
    ShortSide,
    /// As the items come.
    AsGiven,
}

/// One way of laying boxes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::nest) enum Rule {
    /// Whole rows of one kind, in its n-th box.
    Rows(usize),
    /// Boxes in free rectangles.
    Free(Fit, Order),
    /// Few rectangles, every dead end undone.
    Corners,
}

/// All quick ways.
pub(in crate::nest) const RULES: [Rule; 13] = [
    Rule::Rows(0),
    Rule::Rows(1),
    Rule::Rows(2),
    Rule::Rows(3),
    Rule::Free(Fit::Nearest, Order::LongSide),
    Rule::Free(Fit::Nearest, Order::ShortSide),
    Rule::Free(Fit::Nearest, Order::Area),
    Rule::Free(Fit::Nearest, Order::AsGiven),
    Rule::Free(Fit::ShortSide, Order::LongSide),
    Rule::Free(Fit::ShortSide, Order::Area),
    Rule::Free(Fit::ShortSide, Order::ShortSide),
    Rule::Free(Fit::SmallestArea, Order::Area),
    Rule::Free(Fit::SmallestArea, Order::LongSide),
];

/// Lays as many as fit: `first` must come before everything else, `wanted` counts all, those included.
pub(in crate::nest) fn fill(
    rule: Rule,
    room: &Room,
    gap: f64,
    kinds: &[Kind],
    wanted: &[u32],
    first: &[u32],
) -> Vec<Pose> {
    match rule {
        Rule::Rows(choice) => rows(choice, room, gap, kinds, wanted, first),
        Rule::Free(fit, order) => {
            let loose = free(fit, order, room, gap + SAFETY, kinds, wanted, first);
            let exact = free(fit, order, room, gap, kinds, wanted, first);
            if exact.len() > loose.len() { exact } else { loose }
        }
        Rule::Corners => corners::fill(room, gap, kinds, wanted, first),
    }
}

/// A box laid with its corner at `(x, y)` of the room.
pub(in crate::nest) fn pose(item: usize, boxed: &Boxed, x: f64, y: f64, room: &Room) -> Pose {
    let (x, y) = (room.margin + x - boxed.bounds.x0, room.margin + y - boxed.bounds.y0);
    Pose { item, turn_deg: boxed.turn_deg, x, y }
}

/// How many boxes of one size fit along a length, and the pitch that uses up to [`SAFETY`] of what is left over.
pub(in crate::nest) fn along(length: f64, size: f64, gap: f64) -> (usize, f64) {
    let fit = ((length + gap + EXACT) / (size + gap)).floor();
    if fit < 1.0 {
        return (0, size + gap);
    }
    let left = (length - fit * size - (fit - 1.0) * gap).max(0.0);
    let spare = if fit > 1.0 { (left / (fit - 1.0)).min(SAFETY) } else { 0.0 };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of rows: whole and positive")]
    let count = fit.min(f64::from(u32::MAX)) as usize;
    (count, size + gap + spare)
}

/// Rows across the sheet, the highest kinds first; before all others the test pieces, side by side.
fn rows(choice: usize, room: &Room, gap: f64, kinds: &[Kind], wanted: &[u32], first: &[u32]) -> Vec<Pose> {
    let boxes: Vec<Option<Boxed>> = kinds
        .iter()
        .map(|kind| {
            let fitting = kind.boxes_in(room);
            fitting.get(choice.min(fitting.len().saturating_sub(1))).copied()
        })
        .collect();
    let height = |item: usize| boxes[item].map_or(0.0, |boxed| boxed.bounds.height());
    let mut order: Vec<usize> = (0..kinds.len()).filter(|item| wanted[*item] > 0 && boxes[*item].is_some()).collect();
    order.sort_by(|a, b| height(*b).total_cmp(&height(*a)).then(a.cmp(b)));
    let tests = order.iter().map(|item| (*item, first[*item].min(wanted[*item])));
    let others = order.iter().map(|item| (*item, wanted[*item].saturating_sub(first[*item])));
    let mut poses = Vec::new();
    // The row being filled: where it begins, how high it is, and how far it is filled.
    let (mut y, mut row_height, mut x) = (0.0, 0.0, f64::INFINITY);
    for (item, count) in tests.chain(others) {
        let Some(boxed) = boxes[item] else { continue };
        let (w, h) = (boxed.bounds.width(), boxed.bounds.height());
        let (_, pitch) = along(room.width, w, gap);
        let (_, row_pitch) = along(room.length.min(1e6), h, gap);
        let row_gap = row_pitch - h;
        let column_gap = pitch - w;
        for _ in 0..count {
            if x + w > room.width + EXACT || h > row_height + EXACT {
                let next = if row_height > 0.0 { y + row_height + row_gap } else { 0.0 };
                if next + h > room.length + EXACT {
                    break;
                }
                (y, row_height, x) = (next, h, 0.0);
            }
            poses.push(pose(item, &boxed, x, y, room));
            x += w + column_gap;
        }
    }
    poses
}

/// One box after another into the free rectangle a rule likes best.
pub(in crate::nest) fn free(
    fit: Fit,
    order: Order,
    room: &Room,
    gap: f64,
    kinds: &[Kind],
    wanted: &[u32],
    first: &[u32],
) -> Vec<Pose> {
    let boxes: Vec<Vec<Boxed>> = kinds.iter().map(|kind| kind.boxes_in(room)).collect();
    // Each box brings its gap along on its far sides, so the room is larger by one gap.
    let mut empty = vec![Rect::new(0.0, 0.0, room.width + gap, room.length.min(1e9) + gap)];
    let mut poses = Vec::new();
    let tests = turns(&boxes, order, &first.iter().zip(wanted).map(|(f, w)| *f.min(w)).collect::<Vec<_>>());
    let others: Vec<u32> = wanted.iter().zip(first).map(|(w, f)| w - f.min(w)).collect();
    for item in tests.into_iter().chain(turns(&boxes, order, &others)) {
        let Some((boxed, x, y)) = best_place(fit, &boxes[item], &empty, gap) else { continue };
        poses.push(pose(item, &boxed, x, y, room));
        let taken = Rect::new(x, y, x + boxed.bounds.width() + gap, y + boxed.bounds.height() + gap);
        cut(&mut empty, taken);
    }
    poses
}

/// Items in the order of laying, each as often as it is wanted.
fn turns(boxes: &[Vec<Boxed>], order: Order, wanted: &[u32]) -> Vec<usize> {
    let size = |item: usize| {
        boxes[item].first().map_or(0.0, |boxed| {
            let (w, h) = (boxed.bounds.width(), boxed.bounds.height());
            match order {
                Order::Area => w * h,
                Order::LongSide => w.max(h),
                Order::ShortSide => w.min(h),
                Order::AsGiven => 0.0,
            }
        })
    };
    let mut items: Vec<usize> = (0..boxes.len()).collect();
    items.sort_by(|a, b| size(*b).total_cmp(&size(*a)).then(a.cmp(b)));
    items.into_iter().flat_map(|item| std::iter::repeat_n(item, wanted[item] as usize)).collect()
}

fn best_place(fit: Fit, boxes: &[Boxed], empty: &[Rect], gap: f64) -> Option<(Boxed, f64, f64)> {
    let mut best: Option<([f64; 2], Boxed, f64, f64)> = None;
    for boxed in boxes {
        let (w, h) = (boxed.bounds.width() + gap, boxed.bounds.height() + gap);
        for rect in empty {
            let (dx, dy) = (rect.width() - w, rect.height() - h);
            if dx < -EXACT || dy < -EXACT {
                continue;
            }
            let rank = match fit {
                Fit::ShortSide => [dx.min(dy), dx.max(dy)],
                Fit::Nearest => [rect.y0 + h, rect.x0],
                Fit::SmallestArea => [rect.area(), dx.min(dy)],
            };
            if best.as_ref().is_none_or(|(least, ..)| rank < *least) {
                best = Some((rank, *boxed, rect.x0, rect.y0));
            }
        }
    }
    best.map(|(_, boxed, x, y)| (boxed, x, y))
}

/// Cuts a taken rectangle out of every empty one and drops those inside others.
fn cut(empty: &mut Vec<Rect>, taken: Rect) {
    let mut made: Vec<Rect> = Vec::new();
    empty.retain(|rect| {
        let apart = taken.x0 >= rect.x1 - EXACT
            || taken.x1 <= rect.x0 + EXACT
            || taken.y0 >= rect.y1 - EXACT
            || taken.y1 <= rect.y0 + EXACT;
        if !apart {
            made.extend(
                [
                    Rect::new(rect.x0, rect.y0, taken.x0, rect.y1),
                    Rect::new(taken.x1, rect.y0, rect.x1, rect.y1),
                    Rect::new(rect.x0, rect.y0, rect.x1, taken.y0),
                    Rect::new(rect.x0, taken.y1, rect.x1, rect.y1),
                ]
                .into_iter()
                .filter(|part| part.x1 - part.x0 > EXACT && part.y1 - part.y0 > EXACT),
            );
        }
        apart
    });
    let within = |a: &Rect, b: &Rect| {
        a.x0 >= b.x0 - EXACT && a.y0 >= b.y0 - EXACT && a.x1 <= b.x1 + EXACT && a.y1 <= b.y1 + EXACT
    };
    for (index, part) in made.iter().enumerate() {
        let covered = empty.iter().any(|rect| within(part, rect))
            || made
                .iter()
                .enumerate()
                .any(|(other, rect)| other != index && within(part, rect) && (!within(rect, part) || other < index));
        if !covered {
            empty.push(*part);
        }
    }
}
