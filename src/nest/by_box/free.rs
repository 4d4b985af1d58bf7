//! Mixed boxes in free rectangles, after J. Jylänki, "A thousand ways to pack the bin" (2010): every maximal empty rectangle is
//! kept, and the next box goes where a rule says it fits best.

use super::empty::{Empty, Fit, Place};
use super::load::{Load, pose};
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::Boxed;

/// Which box goes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::nest) enum Order {
    Area,
    LongSide,
    ShortSide,
    /// As the items come.
    AsGiven,
}

/// One box after another into the free rectangle a rule likes best.
pub(super) fn fill(fit: Fit, order: Order, load: &Load<'_>) -> Vec<Pose> {
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
