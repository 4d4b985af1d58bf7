//! Pieces laid about their own middles.
//!
//! A piece comes with the origin of its motif, which may lie far off the piece. The search asks which pieces are near each
//! other by circles about their origins and keeps outlines in single precision, so both work best about the middle.

use crate::geometry::{Affine, Vec2};
use crate::nest::shape::kind::turn;
use crate::nest::{Item, Layout, Task};
use crate::quantity::Mm;

/// The task with every patch about the middle of its box, and where that middle was.
pub(super) fn centred(task: &Task) -> (Task, Vec<Vec2>) {
    let middles: Vec<Vec2> = task.items.iter().map(|item| item.patch.bounds().center().to_vec2()).collect();
    let moved = |(item, middle): (&Item, &Vec2)| {
        let back = Affine::translate(-*middle);
        let holes = item.holes.iter().map(|hole| hole.transformed(back)).collect();
        Item { patch: item.patch.transformed(back), holes, ..item.clone() }
    };
    let items = task.items.iter().zip(&middles).map(moved).collect();
    (Task { items, ..task.clone() }, middles)
}

/// The layout with every piece about its own origin again.
pub(super) fn about_origins(mut layout: Layout, middles: &[Vec2]) -> Layout {
    for laid in layout.sheets.iter_mut().flat_map(|sheet| &mut sheet.laid) {
        let middle = turn(laid.turn_deg) * middles[laid.item].to_point();
        laid.x -= Mm::new(middle.x);
        laid.y -= Mm::new(middle.y);
    }
    layout
}
