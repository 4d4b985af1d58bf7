//! Motifs along a line where they stand: the gaps between them, and what lies on a place.

use super::sequence::Member;
use crate::place::{Hand, Lands};

/// Two lengths that differ by less than this, in millimetres, are the same: a micrometre, the step figures are written in.
/// It keeps a line of exactly 150 mm taking a motif of 110 mm and a gap of 40 mm whatever the rounding.
pub(in crate::place) const SAME: f64 = 1e-3;

/// How near a motif's middle or a gap's middle must come to a place to lie *on* it, in millimetres: a twentieth, well
/// under the width of a chalk line and far above rounding.
pub(in crate::place) const ON_PLACE: f64 = 0.05;

/// A motif in a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::place) struct Seat {
    /// Its middle's distance along the line.
    pub(in crate::place) s: f64,
    /// Which of the motifs named.
    pub(in crate::place) item: usize,
    /// Factor on its size.
    pub(in crate::place) scale: f64,
    /// Half its width.
    pub(in crate::place) half: f64,
    pub(in crate::place) hand: Hand,
    /// Whether it comes second of two that take turns, counted from the middle.
    pub(in crate::place) second: bool,
    /// Whether it stands in a corner.
    pub(in crate::place) corner: bool,
}

impl Seat {
    pub(in crate::place) fn new(s: f64, member: Member) -> Self {
        let Member { item, scale, width } = member;
        Self { s, item, scale, half: width / 2.0, hand: Hand::AsDrawn, second: false, corner: false }
    }
}

/// Motifs along a line, in order of s.
#[derive(Clone, Debug)]
pub(in crate::place) struct Row {
    pub(in crate::place) seats: Vec<Seat>,
    /// Length all round of a closed line.
    pub(in crate::place) round: Option<f64>,
    /// For a single motif on an open line, the bare length beside it; unused otherwise.
    pub(super) bare: f64,
    /// Of a row whose stretches are set out on their own, how they stand to those of the first row.
    pub(in crate::place) apart: Option<Apart>,
    /// Of a further row, how many fewer it has than it should to have as many as the first.
    pub(in crate::place) short: u32,
}

/// How the stretches of a row stand to those of the first row; how many of each.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::place) struct Apart {
    /// Each motif above one of the first row, as many as there.
    pub(in crate::place) above_motifs: u32,
    /// Each motif above a gap of the first row, one fewer than there.
    pub(in crate::place) above_gaps: u32,
    /// The one motif above the only one of the first row, where there is no gap to stand above.
    pub(in crate::place) above_only: u32,
    /// Left bare, since the rows are too near each other for one motif above another.
    pub(in crate::place) bare: u32,
    /// Where the first row has no stretch between the same bounds.
    pub(in crate::place) own: u32,
    /// Where the first row has motifs in a stretch that this one has not.
    pub(in crate::place) missing: u32,
}

/// A motif beside a place.
#[derive(Clone, Copy, Debug)]
struct Beside {
    /// From the place to the motif's middle.
    middle: f64,
    /// Half the motif's width.
    half: f64,
}

impl Beside {
    fn edge(self) -> f64 {
        self.middle - self.half
    }
}

impl Row {
    /// The same row, with so many fewer than it should have.
    pub(in crate::place) const fn lacking(mut self, short: u32) -> Self {
        self.short = short;
        self
    }

    /// The same motifs on a line that has grown by so much, each where its place has come to lie.
    pub(in crate::place) fn carried(&self, at: impl Fn(f64) -> f64, grown: f64) -> Self {
        let seats = self.seats.iter().map(|seat| Seat { s: at(seat.s), ..*seat }).collect();
        Self { seats, round: self.round.map(|round| round + grown), bare: self.bare + grown, ..self.clone() }
    }

    /// Motifs between two ends, wherever on the line.
    pub(in crate::place) const fn run(seats: Vec<Seat>) -> Self {
        Self { seats, round: None, bare: 0.0, apart: None, short: 0 }
    }

    /// Gaps along the line between neighbours, in order; the closing one of a ring last.
    pub(in crate::place) fn gaps(&self) -> impl Iterator<Item = f64> + '_ {
        let closing = self.round.and_then(|round| Some((self.seats.last()?, *self.seats.first()?, round)));
        let closing = closing.map(|(last, first, round)| first.s + round - last.s - first.half - last.half);
        self.seats.windows(2).map(|pair| pair[1].s - pair[0].s - pair[0].half - pair[1].half).chain(closing)
    }

    /// Index among [`Row::gaps`] of the gap that a place lies in, or of the one after the motif it lies on.
    pub(in crate::place) fn gap_at(&self, place: f64) -> usize {
        let after = self.seats.partition_point(|seat| seat.s <= place);
        after.checked_sub(1).unwrap_or_else(|| self.seats.len().saturating_sub(1))
    }

    /// Smallest gap along the line; what is left between two corners that no motif fits between is none. For a single motif on
    /// an open line, the bare length beside it.
    pub(in crate::place) fn gap(&self) -> f64 {
        let least = |with_corners: bool| {
            let counts = |k: usize| with_corners || !self.between_corners(k);
            self.gaps().enumerate().filter(|(k, _)| counts(*k)).map(|(_, gap)| gap).min_by(f64::total_cmp)
        };
        least(false).or_else(|| least(true)).unwrap_or(self.bare)
    }

    /// Whether the gap of this index among [`Row::gaps`] lies between two motifs that stand in corners.
    pub(in crate::place) fn between_corners(&self, k: usize) -> bool {
        self.seats[k].corner && self.seats[(k + 1) % self.seats.len()].corner
    }

    /// What lies on a place.
    pub(in crate::place) fn lands(&self, place: f64) -> Lands {
        let (before, after) = self.beside(place);
        let on = |beside: Option<Beside>| beside.is_some_and(|beside| beside.middle < ON_PLACE);
        match (before, after) {
            _ if on(before) || on(after) => Lands::Motif,
            // The middle of a gap is as far from the edges on both sides.
            (Some(a), Some(b)) if (a.edge() - b.edge()).abs() < 2.0 * ON_PLACE => Lands::Gap,
            _ => Lands::Between,
        }
    }

    /// The motifs before and after a place; on a ring the last comes before the first, and the first after the last.
    fn beside(&self, place: f64) -> (Option<Beside>, Option<Beside>) {
        let at = self.seats.partition_point(|seat| seat.s <= place);
        let (before, after) = self.seats.split_at(at);
        let (last, first, round) = match self.round {
            Some(round) => (after.last(), before.first().or(after.first()), round),
            None => (None, None, 0.0),
        };
        let less = |seat: &Seat, round: f64| Beside { middle: place - seat.s + round, half: seat.half };
        let more = |seat: &Seat, round: f64| Beside { middle: seat.s - place + round, half: seat.half };
        (
            before.last().map(|seat| less(seat, 0.0)).or_else(|| last.map(|seat| less(seat, round))),
            after.first().map(|seat| more(seat, 0.0)).or_else(|| first.map(|seat| more(seat, round))),
        )
    }

    /// How far a seat lies from a place, the short way round a closed line; positive toward growing s.
    pub(in crate::place) fn offset(&self, place: f64, s: f64) -> f64 {
        match self.round {
            Some(round) => (s - place) - round * ((s - place) / round).round(),
            None => s - place,
        }
    }

    /// Middle to middle where most neighbours stand so: the middle one of all steps by size. For rows whose stretches are set
    /// out on their own, where the average would count the bare places in.
    pub(in crate::place) fn usual_step(&self) -> f64 {
        let closing = self.round.and_then(|round| Some(self.seats.first()?.s + round - self.seats.last()?.s));
        let mut steps: Vec<f64> = self.seats.windows(2).map(|pair| pair[1].s - pair[0].s).chain(closing).collect();
        steps.sort_by(f64::total_cmp);
        steps.get(steps.len().saturating_sub(1) / 2).copied().unwrap_or_else(|| self.repeat())
    }

    /// Middle to middle, on average over the row.
    pub(in crate::place) fn repeat(&self) -> f64 {
        let count = self.seats.len() as f64;
        match (self.round, self.seats.as_slice()) {
            (Some(round), _) => round / count,
            (None, [first, .., last]) => (last.s - first.s) / (count - 1.0),
            (None, [only]) => 2.0 * only.half + self.bare,
            (None, []) => 0.0,
        }
    }
}
