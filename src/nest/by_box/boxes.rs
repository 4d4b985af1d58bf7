//! Laying pieces by their bounding boxes: whole rows of one kind either way round, and mixed boxes in free rectangles.
//!
//! This is the floor below which no layout falls, and the fallback for pieces no search can help (rectangles that fill the
//! sheet exactly). Free rectangles follow J. Jylänki, "A thousand ways to pack the bin" (2010): every maximal empty
//! rectangle is kept, and the next box goes where a rule says it fits best.

use super::empty::{Empty, Fit, Place};
use super::{blocks, corners};
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{Boxed, EXACT, Kind, Room};

/// What is to be laid on one sheet.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Load<'a> {
    pub(in crate::nest) room: &'a Room,
    /// Least distance between boxes.
    pub(in crate::nest) gap: f64,
    pub(in crate::nest) kinds: &'a [Kind],
    /// How many of each kind, as far as they fit.
    pub(in crate::nest) wanted: &'a [u32],
    /// How many of those must come before everything else.
    pub(in crate::nest) first: &'a [u32],
}

/// Extra distance between boxes where there is room for it, in millimetres, so that positions rounded to 0.001 mm when
/// written still keep the gap.
pub(in crate::nest) const SAFETY: f64 = 0.004;

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
    /// Boxes of one size in blocks, some upright and some on their side.
    Blocks,
    /// Few rectangles, every dead end undone.
    Corners,
}

/// All quick ways.
pub(in crate::nest) const RULES: [Rule; 14] = [
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
    Rule::Blocks,
];

/// Lays as many as fit.
pub(in crate::nest) fn fill(rule: Rule, load: &Load<'_>) -> Vec<Pose> {
    match rule {
        Rule::Rows(choice) => rows(choice, load),
        Rule::Free(fit, order) => {
            let loose = free(fit, order, &Load { gap: load.gap + SAFETY, ..*load });
            let exact = free(fit, order, load);
            if exact.len() > loose.len() { exact } else { loose }
        }
        Rule::Blocks => blocks::fill(load),
        Rule::Corners => corners::fill(load),
    }
}

/// A box that is longer than another by less than this, in millimetres, is not worth looking for.
pub(in crate::nest) const WORTHWHILE: f64 = 0.05;

/// Lays with a hair more than the gap and with no more than it: positions are rounded when written, so boxes that lie a hair
/// farther apart are preferred, unless that takes a box away or more than `worth` of length. `lay` tells the length used.
pub(in crate::nest) fn hair_apart(
    load: &Load<'_>,
    worth: f64,
    lay: impl Fn(&Load<'_>) -> Option<(f64, Vec<Pose>)>,
) -> Vec<Pose> {
    let (loose, exact) = (lay(&Load { gap: load.gap + SAFETY, ..*load }), lay(load));
    let found = match (loose, exact) {
        (Some(loose), Some(exact)) => {
            let area = |poses: &[Pose]| poses.iter().map(|pose| load.kinds[pose.item].square_mm).sum::<f64>();
            let (more, less) = (area(&exact.1) - area(&loose.1), loose.0 - exact.0);
            let better = more > WORTHWHILE || (more > -WORTHWHILE && less > worth);
            Some(if better { exact } else { loose })
        }
        (loose, exact) => loose.or(exact),
    };
    found.map(|(_, poses)| poses).unwrap_or_default()
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
fn rows(choice: usize, load: &Load<'_>) -> Vec<Pose> {
    let Load { room, gap, kinds, wanted, first } = *load;
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
pub(in crate::nest) fn free(fit: Fit, order: Order, load: &Load<'_>) -> Vec<Pose> {
    let Load { room, gap, kinds, wanted, first } = *load;
    let boxes: Vec<Vec<Boxed>> = kinds.iter().map(|kind| kind.boxes_in(room)).collect();
    let mut empty = Empty::whole(room, gap, (0.0, 0.0));
    let mut poses = Vec::new();
    let tests = turns(&boxes, order, &first.iter().zip(wanted).map(|(f, w)| *f.min(w)).collect::<Vec<_>>());
    let others: Vec<u32> = wanted.iter().zip(first).map(|(w, f)| w - f.min(w)).collect();
    for item in tests.into_iter().chain(turns(&boxes, order, &others)) {
        let Some(place) = empty.best_place(fit, &boxes[item]) else { continue };
        let Place { boxed, x, y } = place;
        poses.push(pose(item, &boxed, x, y, room));
        empty.take(&place);
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
