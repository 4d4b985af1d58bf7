//! How far the line over each smooth piece of an edge reaches, where pieces meet in corners.
//!
//! Over an outward corner (one that turns toward the upper side) the two lines cross before they end: each is trimmed to
//! where they meet. Over an inward corner they stop short of each other: each goes on straight until they meet. For straight
//! pieces that turn by d the trim is height x tan(d / 2); for curved ones the crossing is found by Newton's method on the two
//! distances, whose derivatives are the directions of the lines.

use super::Frame;
use super::curve::turn_between;
use super::edge::{Edge, Piece};
use crate::geometry::{Affine, Vec2};

/// Pieces that meet straighter than this, in radians, meet smoothly: a thousandth of a degree.
const SMOOTH: f64 = 2e-5;

/// Sharper than this, in radians, a corner is one to the eye: twenty degrees. Gentler ones are kinks at seams.
const CORNER: f64 = 0.35;

/// The crossing of two curved lines is found to this, in millimetres.
const CROSSING_ERROR: f64 = 1e-9;

/// Most steps of Newton's method for it.
const STEPS: u32 = 40;

/// The line over one piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    /// Distance along the whole line at which it starts.
    pub(super) start: f64,
    /// Length between its corners.
    pub(super) length: f64,
    /// Cut off its start, or added where negative.
    pub(super) trim: f64,
}

/// How an edge turns where two of its pieces meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Joint {
    /// Angle, positive toward the upper side.
    pub(super) turn: f64,
}

impl Joint {
    /// Whether the pieces do not meet smoothly.
    pub(super) fn is_kink(self) -> bool {
        self.turn.abs() > SMOOTH
    }

    /// Whether it is a corner to the eye.
    pub(super) fn is_corner(self) -> bool {
        self.turn.abs() > CORNER
    }
}

/// The joints before each piece; that before the first is where a ring closes.
pub(super) fn joints(edge: &Edge, once_round: Option<Affine>) -> Vec<Joint> {
    let pieces = edge.pieces();
    (0..pieces.len())
        .map(|k| {
            let Some((before, motion)) = before(pieces, k, once_round) else { return Joint { turn: 0.0 } };
            let last = before.frame(before.ends().1, 0.0).along;
            let first = pieces[k].frame(pieces[k].ends().0, 0.0).carried(motion).along;
            Joint { turn: turn_between(last, first) }
        })
        .collect()
}

/// The piece before the `k`th, and the motion that brings the `k`th to its end; `None` at the end of an open edge.
fn before(pieces: &[Piece], k: usize, once_round: Option<Affine>) -> Option<(&Piece, Affine)> {
    match k.checked_sub(1) {
        Some(before) => Some((&pieces[before], Affine::IDENTITY)),
        None => once_round.map(|motion| (&pieces[pieces.len() - 1], motion)),
    }
}

/// The reaches at a height, s zero at CF; `None` where the line over a piece has vanished between its corners.
pub(super) fn reaches(edge: &Edge, joints: &[Joint], once_round: Option<Affine>, height: f64) -> Option<Vec<Reach>> {
    let pieces = edge.pieces();
    let count = pieces.len();
    let mut trims = vec![(0.0, 0.0); count];
    for (k, joint) in joints.iter().enumerate().filter(|(_, joint)| joint.is_kink()) {
        let (before, motion) = before(pieces, k, once_round)?;
        let (end, start) = crossing(before, &pieces[k], motion, *joint, height)?;
        trims[(k + count - 1) % count].1 = end;
        trims[k].0 = start;
    }
    let mut start = 0.0;
    let mut reaches = Vec::with_capacity(count);
    for (piece, (trim, end)) in pieces.iter().zip(trims) {
        let length = piece.line_length(height) - trim - end;
        if length <= 0.0 {
            return None;
        }
        reaches.push(Reach { start, length, trim });
        start += length;
    }
    let (index, spot) = edge.spot_on_hem(0.0);
    let zero = reaches[index].over(pieces[index].along_line(spot, height));
    for reach in &mut reaches {
        reach.start -= zero;
    }
    Some(reaches)
}

impl Reach {
    /// Distance along the whole line of a distance along the piece's own line; the corner where that is trimmed off.
    pub(super) fn over(&self, along_piece: f64) -> f64 {
        self.start + (along_piece - self.trim).clamp(0.0, self.length)
    }

    /// Place and direction at a distance along the whole line; straight on where the line was lengthened to its corner.
    pub(super) fn frame(&self, piece: &Piece, height: f64, distance: f64) -> Frame {
        let along = distance - self.start + self.trim;
        let on_piece = along.clamp(0.0, piece.line_length(height));
        let frame = piece.frame(piece.find(height, on_piece), height);
        Frame { at: frame.at + frame.along * (along - on_piece), along: frame.along }
    }

    /// Distance along the hem to the foot of a place on the line; the corner for all that was lengthened to it.
    pub(super) fn foot(&self, piece: &Piece, height: f64, distance: f64) -> f64 {
        let along = distance - self.start + self.trim;
        piece.find(height, along.clamp(0.0, piece.line_length(height))).s
    }
}

/// What is cut off the end of one line and the start of the next so that they meet; `None` where they do not.
fn crossing(before: &Piece, after: &Piece, motion: Affine, joint: Joint, height: f64) -> Option<(f64, f64)> {
    let trim = height * (joint.turn / 2.0).tan();
    if joint.turn < 0.0 || (before.is_straight() && after.is_straight()) {
        return Some((trim, trim));
    }
    let (mut end, mut start) = (trim, trim);
    let whole = before.line_length(height);
    for _ in 0..STEPS {
        if !(0.0..=whole).contains(&end) || !(0.0..=after.line_length(height)).contains(&start) {
            return None;
        }
        let a = before.frame(before.find(height, whole - end), height);
        let b = after.frame(after.find(height, start), height).carried(motion);
        let miss: Vec2 = b.at - a.at;
        if miss.hypot() < CROSSING_ERROR {
            return Some((end, start));
        }
        // Moving by (-end, start) moves the two points along their lines: solve miss = -d_end a - d_start b.
        let det = a.along.cross(b.along);
        end += -miss.cross(b.along) / det;
        start += -a.along.cross(miss) / det;
    }
    None
}
