//! Whole rows of one kind.

use super::load::{Load, along, pose};
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{Boxed, EXACT};

/// Rows across the sheet, the highest kinds first; before all others the test pieces, side by side.
pub(super) fn fill(choice: usize, load: &Load<'_>) -> Vec<Pose> {
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
