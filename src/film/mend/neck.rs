//! Necks: places narrower than asked that join two wider parts.
//!
//! Shrinking by half the width asked for and growing again leaves the wider parts; what is missing and touches two of
//! them, or one of them twice, is a neck. Its width is found by halving: the most it can be shrunk and still join. The neck
//! is grown by half of what it lacks, and the outline keeps everything else.

use super::{Change, Changed, Mended};
use crate::geometry::{Outline, Point, overlay};
use crate::quantity::Mm;

/// Steps of halving: a thousandth of the width asked for.
const HALVINGS: u32 = 10;

/// How far parts are grown to see whether they touch, in millimetres: above the rounding of the arithmetic.
const TOUCH: f64 = 0.02;

/// Smaller missing parts are rounding noise of corners, in square millimetres.
const NOISE: f64 = 0.01;

/// Necks mended in one outline at most; a lace of hundreds wants another drawing.
const MOST_NECKS: usize = 60;

pub(super) fn thickened(layer: Mended, width: f64) -> Mended {
    let Mended { outlines, mut changes } = layer;
    let others = outlines.clone();
    let mut done = Vec::with_capacity(outlines.len());
    for (index, outline) in outlines.into_iter().enumerate() {
        let mut left = outline.clone();
        for neck in necks(&outline, width) {
            let before = neck_width(&outline, &neck, width);
            let wider = overlay::grown(std::slice::from_ref(&neck), (width - before) / 2.0);
            let mut parts = vec![left.clone()];
            parts.extend(wider);
            let joined = overlay::union(&parts);
            let [one] = joined.as_slice() else { continue };
            let apart = others.iter().enumerate().filter(|(other, _)| *other != index).all(|(_, other)| {
                overlay::intersection(std::slice::from_ref(one), std::slice::from_ref(other)).is_empty()
            });
            if apart {
                changes.push(Change {
                    what: Changed::NeckThickened,
                    at: middle(&neck),
                    before: Mm::new(before),
                    after: Mm::new(width),
                });
                left = one.clone();
            }
        }
        done.push(left);
    }
    Mended { outlines: done, changes }
}

/// Parts narrower than `width` that join wider ones.
fn necks(outline: &Outline, width: f64) -> Vec<Outline> {
    let whole = std::slice::from_ref(outline);
    let half = width / 2.0;
    let opened = overlay::grown(&overlay::grown(whole, -half), half);
    let missing = overlay::difference(whole, &opened);
    let candidates = missing.into_iter().filter(|part| part.area() > NOISE);
    candidates.filter(|part| joins(part, &opened)).take(MOST_NECKS).collect()
}

/// Whether a part touches the wider parts in at least two places.
fn joins(part: &Outline, opened: &[Outline]) -> bool {
    let near = overlay::grown(std::slice::from_ref(part), TOUCH);
    overlay::intersection(&near, opened).iter().filter(|touch| touch.area() > TOUCH * TOUCH / 4.0).count() > 1
}

/// Least width across a neck: twice the most it can be shrunk before it parts.
fn neck_width(outline: &Outline, neck: &Outline, width: f64) -> f64 {
    let room = neck.bounds().inflate(width * 2.0, width * 2.0);
    let Ok(room) = crate::geometry::Ring::rectangle(room) else { return width };
    let near = overlay::intersection(std::slice::from_ref(outline), &[Outline::new(room, vec![])]);
    let whole = near.len();
    let (mut holds, mut parts) = (0.0, width / 2.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(holds, parts);
        if overlay::grown(&near, -middle).len() > whole {
            parts = middle;
        } else {
            holds = middle;
        }
    }
    2.0 * holds
}

fn middle(part: &Outline) -> Point {
    part.bounds().center()
}
