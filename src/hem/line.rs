//! The line parallel to the hem on which motifs sit.

use std::sync::Arc;

use super::edge::Edge;
use super::{Frame, Mm};
use crate::geometry::Affine;

/// The line parallel to the hem on which motifs sit.
///
/// Every point of it is the same distance from the hem, measured square to it; distances along it are true to a nanometre.
#[derive(Clone, Debug)]
pub struct MotifLine {
    pub(super) edge: Arc<Edge>,
    pub(super) height: f64,
    /// Once round, for a ring: carries the development's right-hand end (least s) onto its left-hand end.
    pub(super) once_round: Option<Affine>,
}

impl MotifLine {
    /// Height above the hem.
    #[must_use]
    pub fn height(&self) -> Mm {
        Mm::new(self.height)
    }

    /// Length from end to end, or all round.
    #[must_use]
    pub fn length(&self) -> Mm {
        let (least, greatest) = self.edge.line_span(self.height);
        Mm::new(greatest - least)
    }

    /// Least and greatest s on this line.
    #[must_use]
    pub fn span(&self) -> (Mm, Mm) {
        let (least, greatest) = self.edge.line_span(self.height);
        (Mm::new(least), Mm::new(greatest))
    }

    /// Whether motifs run round without an end.
    #[must_use]
    pub const fn is_closed(&self) -> bool {
        self.once_round.is_some()
    }

    /// Place and direction at a distance from CF along this line, in the flat development; a closed line wraps round.
    #[must_use]
    pub fn frame_at(&self, s_line: Mm) -> Frame {
        let (s, _) = self.within(s_line.get());
        self.edge.frame(self.edge.find(self.height, s), self.height)
    }

    /// The same, but a closed line goes on past the end of the development as if another copy of it were sewn on there.
    ///
    /// Neighbours on both sides of the development's join stand to each other here as they do on the garment, also where a
    /// ring is developed as an open arc.
    #[must_use]
    pub fn frame_unrolled(&self, s_line: Mm) -> Frame {
        let (s, rounds) = self.within(s_line.get());
        let frame = self.edge.frame(self.edge.find(self.height, s), self.height);
        match self.once_round {
            Some(once) if rounds != 0 => frame.carried(power(once, rounds)),
            _ => frame,
        }
    }

    /// A place in the flat development carried once round a closed line, toward growing s: where a neighbour across the
    /// development's join stands. On an open line the place itself.
    #[must_use]
    pub fn once_round(&self, place: Affine) -> Affine {
        self.once_round.map_or(place, |once| once * place)
    }

    /// Foot of the square line: distance from CF along the hem for a distance along this line. On a closed line, once
    /// round more here is once round more there.
    #[must_use]
    pub fn to_hem(&self, s_line: Mm) -> Mm {
        let (s, rounds) = self.within(s_line.get());
        let (least, greatest) = self.edge.span();
        Mm::new(self.edge.find(self.height, s).s + f64::from(rounds) * (greatest - least))
    }

    /// The other way round: distance along this line for a distance along the hem.
    #[must_use]
    pub fn from_hem(&self, s_hem: Mm) -> Mm {
        let (least, greatest) = self.edge.span();
        let (s, rounds) = within(s_hem.get(), least, greatest, self.is_closed());
        let spot = self.edge.find(0.0, s);
        Mm::new(spot.s - self.height * spot.turn + f64::from(rounds) * self.length().get())
    }

    /// A distance brought into the span of a closed line, and how many times round that took off.
    fn within(&self, s: f64) -> (f64, i32) {
        let (least, greatest) = self.edge.line_span(self.height);
        within(s, least, greatest, self.is_closed())
    }
}

/// A distance brought into a span where the line is closed, and how many times round that took off.
fn within(s: f64, least: f64, greatest: f64, closed: bool) -> (f64, i32) {
    if !closed || (least..=greatest).contains(&s) {
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
