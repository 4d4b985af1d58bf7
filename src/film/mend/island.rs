//! Islands: whole outlines that are small both ways.

use super::{Change, Changed, Mended};
use crate::geometry::clearance::Measurable;
use crate::geometry::{Affine, Outline};
use crate::quantity::Mm;

/// The larger side of an outline's box.
fn larger_side(outline: &Outline) -> f64 {
    let bounds = outline.bounds();
    bounds.width().max(bounds.height())
}

/// Leaves out every outline smaller than `size` both ways.
pub(super) fn dropped(layer: Mended, size: f64) -> Mended {
    let mut changes = layer.changes;
    let (small, kept): (Vec<_>, Vec<_>) = layer.outlines.into_iter().partition(|one| larger_side(one) < size);
    changes.extend(small.iter().map(|one| Change {
        what: Changed::IslandDropped,
        at: one.bounds().center(),
        before: Mm::new(larger_side(one)),
        after: Mm::ZERO,
    }));
    Mended { outlines: kept, changes }
}

/// Enlarges every outline smaller than `size` both ways about its middle, unless it would then touch another.
pub(super) fn enlarged(layer: Mended, size: f64) -> Mended {
    let Mended { mut outlines, mut changes } = layer;
    for index in 0..outlines.len() {
        let before = larger_side(&outlines[index]);
        if before >= size {
            continue;
        }
        let middle = outlines[index].bounds().center().to_vec2();
        let grow = Affine::translate(middle) * Affine::scale(size / before) * Affine::translate(-middle);
        let larger = outlines[index].transformed(grow);
        if touches_another(&outlines, index, &larger) {
            continue;
        }
        outlines[index] = larger;
        changes.push(Change {
            what: Changed::IslandEnlarged,
            at: middle.to_point(),
            before: Mm::new(before),
            after: Mm::new(size),
        });
    }
    Mended { outlines, changes }
}

fn touches_another(outlines: &[Outline], index: usize, larger: &Outline) -> bool {
    let Some(larger) = Measurable::new(std::slice::from_ref(larger)) else { return true };
    outlines.iter().enumerate().filter(|(other, _)| *other != index).any(|(_, other)| {
        Measurable::new(std::slice::from_ref(other)).is_some_and(|other| larger.clearance_to(&other).distance <= 0.0)
    })
}
