//! Turned edges: the allowance outside the finished line, where it must be clipped, and where it cannot be turned at all.
//!
//! An allowance of width a is folded to the back. On an outside curve it has too much cloth, which is eased; on an inside
//! curve too little, so it is clipped; where the inside curve has a radius below a, the clipped tabs no longer reach and
//! the cloth frays at the line. The radius is measured as length over turning, within a window one allowance long. A single
//! corner of up to 120 degrees is turned with one clip into it, as makers do.

use crate::geometry::{Outline, Point, Ring, Vec2, overlay};

/// A place that cannot be turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tight {
    /// The middle of it.
    pub at: Point,
    /// Radius of the inside curve, in millimetres.
    pub radius: f64,
}

/// Steepest inside corner that one clip can serve, in radians of turning: an opening of 60 degrees.
const STEEPEST_CORNER: f64 = 2.1;

/// A window that turns inward by less than this, in radians, is no inside curve worth a word: half a radius of a tight one
/// is already 0.9.
const WORTH_A_WORD: f64 = 0.85;

/// Part of an edge that counts to the corner at its end, in millimetres at most: half a chord of a curve as drawings are
/// flattened, and not the whole of a long straight edge.
const CHORD: f64 = 0.8;

/// Chords are a little shorter than their arc; a radius equal to the allowance must not be refused for that.
const CHORDS_RUN_SHORT: f64 = 0.98;

/// Share of the turning that a single corner must have to count as one.
const CORNER_SHARE: f64 = 0.7;

/// Inside curves flatter than this need no clips: radius as a multiple of the allowance.
const NO_CLIPS_FROM: f64 = 15.0;

/// A clip ends so far outside the finished line, in millimetres; nearer it frays into the piece.
const CLIP_STOPS: f64 = 1.0;

/// The line to cut: the finished outline grown by the allowance, and its holes shrunk by it.
#[must_use]
pub fn with_allowance(finished: &Outline, allowance: f64) -> Option<Outline> {
    let grown = overlay::grown(std::slice::from_ref(finished), allowance);
    let holes_kept = |one: &Outline| one.holes().len() == finished.holes().len();
    grown.into_iter().next().filter(holes_kept)
}

/// Every place where the finished line turns inward too tightly for the allowance.
#[must_use]
pub fn tight_places(finished: &Outline, allowance: f64) -> Vec<Tight> {
    finished.rings().flat_map(|ring| tight_in(ring, allowance)).collect()
}

/// Clips on inside curves and in inside corners, from the cut line to just outside the finished line.
#[must_use]
pub fn clips(finished: &Outline, allowance: f64, spacing: f64) -> Vec<(Point, Point)> {
    finished.rings().flat_map(|ring| clips_in(ring, allowance, spacing)).collect()
}

/// A corner of a ring: how far it turns inward (negative for outward), and how far along the ring it is.
struct Corner {
    at: Point,
    inward: f64,
    along: f64,
    /// Length of line that turns in it.
    share: f64,
    /// Away from the area.
    outward: Vec2,
}

fn corners(ring: &Ring) -> (Vec<Corner>, f64) {
    let points = ring.points();
    let count = points.len();
    let mut along = 0.0;
    let corners = (0..count).map(|i| {
        let (before, at, after) = (points[(i + count - 1) % count], points[i], points[(i + 1) % count]);
        let (come, go) = ((at - before).normalize(), (after - at).normalize());
        // Areas lie to the right of every edge on screen, so a turn to the left is inward.
        let inward = -come.cross(go).atan2(come.dot(go));
        let outward = -(come.turn_90() + go.turn_90()).normalize();
        let share = (before.distance(at) / 2.0).min(CHORD) + (at.distance(after) / 2.0).min(CHORD);
        let corner = Corner { at, inward, along, share, outward };
        along += at.distance(after);
        corner
    });
    let corners: Vec<Corner> = corners.collect();
    (corners, along)
}

/// Walks round with a window of one allowance and notes where the radius in it is less.
fn tight_in(ring: &Ring, allowance: f64) -> Vec<Tight> {
    let (corners, length) = corners(ring);
    let count = corners.len();
    let mut found: Vec<Tight> = Vec::new();
    let mut worst: Option<(f64, Tight)> = None;
    let (mut last, mut turning, mut arc) = (0_usize, 0.0, 0.0);
    for first in 0..count {
        // `last` runs ahead of `first`, at most once round.
        let distance = |index: usize| {
            let laps = if index >= count { length } else { 0.0 };
            corners[index % count].along + laps - corners[first].along
        };
        while last < first + count && distance(last) <= allowance {
            turning += corners[last % count].inward;
            arc += corners[last % count].share;
            last += 1;
        }
        let window = (first..last).map(|index| &corners[index % count]);
        if turning > WORTH_A_WORD && arc / turning < allowance * CHORDS_RUN_SHORT && !is_plain_corner(window, turning) {
            let at = corners[usize::midpoint(first, last - 1) % count].at;
            if worst.is_none_or(|(most, _)| turning > most) {
                worst = Some((turning, Tight { at, radius: arc / turning }));
            }
        } else {
            found.extend(worst.take().map(|(_, tight)| tight));
        }
        turning -= corners[first].inward;
        arc -= corners[first].share;
    }
    found.extend(worst.map(|(_, tight)| tight));
    found
}

/// Whether nearly all turning is in one corner that a clip can serve.
fn is_plain_corner<'a>(window: impl Iterator<Item = &'a Corner>, turning: f64) -> bool {
    let sharpest = window.map(|corner| corner.inward).fold(0.0, f64::max);
    sharpest >= CORNER_SHARE * turning && turning <= STEEPEST_CORNER
}

fn clips_in(ring: &Ring, allowance: f64, spacing: f64) -> Vec<(Point, Point)> {
    let (corners, _) = corners(ring);
    let count = corners.len();
    let clip = |corner: &Corner| (corner.at + corner.outward * allowance, corner.at + corner.outward * CLIP_STOPS);
    let mut found = Vec::new();
    let mut since = f64::INFINITY;
    for index in 0..count {
        let corner = &corners[index];
        let before = &corners[(index + count - 1) % count];
        let reach = corner.at.distance(before.at);
        since += reach;
        // Turning for a length: its inverse is the radius. A corner's length is half of both edges that meet in it.
        let after = corners[(index + 1) % count].at.distance(corner.at);
        let radius = (reach + after) / 2.0 / corner.inward.max(1e-9);
        let sharp = corner.inward > 0.5;
        if corner.inward > 0.01 && (sharp || (radius < NO_CLIPS_FROM * allowance && since >= spacing)) {
            found.push(clip(corner));
            since = 0.0;
        }
    }
    found
}
