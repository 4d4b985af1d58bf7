//! The line parallel to the hem on which motifs sit.

use std::sync::Arc;

use super::edge::Edge;
use super::reach::{Joint, Reach};
use super::{Frame, Mm};
use crate::geometry::{Affine, Vec2};

/// The line parallel to the hem on which motifs sit.
///
/// Every point of it is the same distance from the hem, measured square to it; distances along it are true to a nanometre.
/// Over a corner it has a corner too, on the bisector.
#[derive(Clone, Debug)]
pub struct MotifLine {
    pub(super) edge: Arc<Edge>,
    pub(super) height: f64,
    pub(super) reaches: Vec<Reach>,
    pub(super) joints: Arc<[Joint]>,
    /// Once round, for a ring: carries the development's right-hand end (least s) onto its left-hand end.
    pub(super) once_round: Option<Affine>,
}

/// A corner of a motif line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Distance from CF along the line.
    pub s_line: Mm,
    /// Angle through which the line turns there, in radians; positive toward the upper side.
    pub turn: f64,
}

/// A place this near a corner, in millimetres, lies on it and faces along the bisector.
const ON_CORNER: f64 = 1e-6;

impl MotifLine {
    /// Height above the hem.
    #[must_use]
    pub fn height(&self) -> Mm {
        Mm::new(self.height)
    }

    /// Length from end to end, or all round.
    #[must_use]
    pub fn length(&self) -> Mm {
        let (least, greatest) = self.line_span();
        Mm::new(greatest - least)
    }

    /// Least and greatest s on this line.
    #[must_use]
    pub fn span(&self) -> (Mm, Mm) {
        let (least, greatest) = self.line_span();
        (Mm::new(least), Mm::new(greatest))
    }

    /// Whether motifs run round without an end.
    #[must_use]
    pub const fn is_closed(&self) -> bool {
        self.once_round.is_some()
    }

    /// Its corners in order of s; gentle kinks at seams are none.
    #[must_use]
    pub fn corners(&self) -> Vec<Corner> {
        let corner = |(joint, reach): (&Joint, &Reach)| Corner { s_line: Mm::new(reach.start), turn: joint.turn };
        let joints = self.joints.iter().zip(&self.reaches);
        joints.filter(|(joint, _)| joint.is_corner()).map(corner).collect()
    }

    /// Place and direction at a distance from CF along this line, in the flat development; a closed line wraps round. At a
    /// corner the direction is that of the bisector.
    #[must_use]
    pub fn frame_at(&self, s_line: Mm) -> Frame {
        let (s, _) = self.within(s_line.get());
        self.frame(s)
    }

    /// The same, but a closed line goes on past the end of the development as if another copy of it were sewn on there.
    ///
    /// Neighbours on both sides of the development's join stand to each other here as they do on the garment, also where a
    /// ring is developed as an open arc.
    #[must_use]
    pub fn frame_unrolled(&self, s_line: Mm) -> Frame {
        let (s, rounds) = self.within(s_line.get());
        match self.once_round {
            Some(once) if rounds != 0 => self.frame(s).carried(power(once, rounds)),
            _ => self.frame(s),
        }
    }

    /// A place in the flat development carried once round a closed line, toward growing s: where a neighbour across the
    /// development's join stands. On an open line the place itself.
    #[must_use]
    pub fn once_round(&self, place: Affine) -> Affine {
        self.once_round.map_or(place, |once| once * place)
    }

    /// Foot of the square line: distance from CF along the hem for a distance along this line; of a corner, which has a foot on
    /// either side of it, the hem's own corner. On a closed line, once round more here is once round more there.
    #[must_use]
    pub fn to_hem(&self, s_line: Mm) -> Mm {
        let (s, rounds) = self.within(s_line.get());
        let (least, greatest) = self.edge.span();
        let index = self.reach_at(s);
        let (reach, piece) = (self.reaches[index], &self.edge.pieces()[index]);
        let (start, end) = self.joints_near(index, s);
        let foot = match (start, end) {
            (Some(joint), _) if joint.is_kink() => piece.ends().0.s,
            (_, Some(joint)) if joint.is_kink() => piece.ends().1.s,
            _ => reach.foot(piece, self.height, s),
        };
        Mm::new(foot + f64::from(rounds) * (greatest - least))
    }

    /// The other way round: distance along this line for a distance along the hem. Where a corner leaves no line above a
    /// stretch of hem, the corner.
    #[must_use]
    pub fn from_hem(&self, s_hem: Mm) -> Mm {
        let (least, greatest) = self.edge.span();
        let (s, rounds) = within(s_hem.get(), least, greatest, self.is_closed());
        let (index, spot) = self.edge.spot_on_hem(s);
        let on_line = self.reaches[index].over(self.edge.pieces()[index].along_line(spot, self.height));
        Mm::new(on_line + f64::from(rounds) * self.length().get())
    }

    fn line_span(&self) -> (f64, f64) {
        let last = self.reaches[self.reaches.len() - 1];
        (self.reaches[0].start, last.start + last.length)
    }

    fn reach_at(&self, s: f64) -> usize {
        self.reaches.partition_point(|reach| reach.start <= s).max(1) - 1
    }

    fn frame(&self, s: f64) -> Frame {
        let index = self.reach_at(s);
        let frame = self.reaches[index].frame(&self.edge.pieces()[index], self.height, s);
        let (start, end) = self.joints_near(index, s);
        let turn = start.map(|joint| (joint, -0.5)).or_else(|| end.map(|joint| (joint, 0.5)));
        match turn.filter(|(joint, _)| joint.is_kink()) {
            Some((joint, share)) => Frame { along: turned(frame.along, joint.turn * share), ..frame },
            None => frame,
        }
    }

    /// The joint at the start of a reach and the one at its end, where a place lies on it.
    fn joints_near(&self, index: usize, s: f64) -> (Option<Joint>, Option<Joint>) {
        let reach = self.reaches[index];
        let next = (index + 1) % self.reaches.len();
        (
            (s - reach.start < ON_CORNER).then(|| self.joints[index]),
            (reach.start + reach.length - s < ON_CORNER).then(|| self.joints[next]),
        )
    }

    /// A distance brought into the span of a closed line, and how many times round that took off.
    fn within(&self, s: f64) -> (f64, i32) {
        let (least, greatest) = self.line_span();
        within(s, least, greatest, self.is_closed())
    }
}

/// A place this near an end of the development, in millimetres, is that end and not the other: CB, half the line away from
/// CF, stays on the side it was reached from whatever the rounding.
const AT_END: f64 = 1e-6;

/// A direction turned toward the upper side.
pub(super) fn turned(along: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(along.x * cos + along.y * sin, along.y * cos - along.x * sin)
}

/// A distance brought into a span where the line is closed, and how many times round that took off.
fn within(s: f64, least: f64, greatest: f64, closed: bool) -> (f64, i32) {
    if !closed || (least - AT_END..=greatest + AT_END).contains(&s) {
        return (s, 0);
    }
    let length = greatest - least;
    // A place is at most a few times round away; what lies beyond a billion rounds is no place on a garment.
    let rounds = ((s - least) / length).floor().clamp(-1e9, 1e9);
    #[expect(clippy::cast_possible_truncation, reason = "clamped to a billion just above")]
    let whole = rounds as i32;
    (s - rounds * length, whole)
}

/// A rigid motion done `times` over (backward for negative).
fn power(motion: Affine, times: i32) -> Affine {
    let step = if times < 0 { motion.inverse() } else { motion };
    (0..times.unsigned_abs().min(MOST_ROUNDS)).fold(Affine::IDENTITY, |all, _| all * step)
}

/// Most rounds that [`MotifLine::frame_unrolled`] follows; neighbours are never more than one apart.
const MOST_ROUNDS: u32 = 1000;
