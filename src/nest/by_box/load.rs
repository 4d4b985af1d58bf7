//! What is to be laid by boxes on one sheet, and how exactly.

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
