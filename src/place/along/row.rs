//! Motifs in a row along a line: how many fit, and where their middles come.
//!
//! Pure arithmetic of lengths. The gap between neighbours, edge to edge along the line, is the same all along; where all
//! motifs are equally wide, so is the repeat. Closed: gap = (line - widths) / count. Open: (run - widths) / (count - 1).

use super::sequence::{Member, Sequence, turns_up};
use crate::hem::Middle;
use crate::place::{Hand, Hands, Lands};

/// Two lengths that differ by less than this, in millimetres, are the same: a micrometre, the step figures are written in.
/// It keeps a line of exactly 150 mm taking a motif of 110 mm and a gap of 40 mm whatever the rounding.
pub(in crate::place) const SAME: f64 = 1e-3;

/// How near a motif's middle or a gap's middle must come to a place to lie *on* it, in millimetres: a twentieth, well
/// under the width of a chalk line and far above rounding.
pub(in crate::place) const ON_PLACE: f64 = 0.05;

/// Most motifs set out in one row; ten times the largest trial, and bounds memory against slips of unit.
pub(in crate::place) const MOST: u32 = 100_000;

/// What there is to set out along a line.
#[derive(Clone, Debug)]
pub(in crate::place) struct Course {
    /// Least and greatest s on the line.
    pub(in crate::place) span: (f64, f64),
    /// Whether the line closes on itself.
    pub(in crate::place) closed: bool,
    /// Bare length at each end of an open line.
    pub(in crate::place) ends: f64,
    /// The same beside a motif on the upper line of a wave: as much as is bare there covers of this line.
    pub(in crate::place) ends_raised: f64,
    /// Which motif comes where.
    pub(in crate::place) sequence: Sequence,
    /// Which hands they have.
    pub(in crate::place) hands: Hands,
    /// What the middle of the line is called.
    pub(in crate::place) middle: Middle,
    /// How far an even row round a ring is shifted.
    pub(in crate::place) shift: f64,
}

/// What lies at the middle of the line, where s is zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum Start {
    /// A motif's middle.
    Motif,
    /// A gap's middle.
    Gap,
}

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
    bare: f64,
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

impl Course {
    /// Length of the line.
    pub(in crate::place) fn length(&self) -> f64 {
        self.span.1 - self.span.0
    }

    /// Length that so many motifs and their gaps share.
    pub(in crate::place) fn room(&self, count: u32) -> f64 {
        let ends = |count: u32| self.end(0, count) + self.end(count - 1, count);
        self.length() - if self.closed { 0.0 } else { ends(count.max(1)) }
    }

    /// What is bare at an end of an open line beside the motif there, the `k`th of so many.
    fn end(&self, k: u32, count: u32) -> f64 {
        if turns_up(k, count, self.closed, Start::Motif) { self.ends_raised } else { self.ends }
    }

    /// Width of `count` motifs side by side: counted from the middle outward a row that has a gap there may hold more of the
    /// wide ones than one that has a motif there.
    pub(in crate::place) fn width_of(&self, count: u32, start: Start) -> f64 {
        self.sequence.members(count, self.closed, start).map(|member| member.width).sum()
    }

    /// Largest count with at least `gap` between neighbours; on a closed line, whole rounds of a repeating sequence only.
    /// More than [`MOST`] comes out as [`MOST`] and one.
    pub(in crate::place) fn most(&self, gap: f64, start: Start) -> u32 {
        let fits = |count: u32| {
            let gaps = if self.closed { count } else { count.saturating_sub(1) };
            self.width_of(count, start) + gap * f64::from(gaps) <= self.room(count) + SAME
        };
        let step = self.sequence.step(self.closed);
        // No more than if all were as narrow as the narrowest; between, halving finds the last that fits.
        let room = self.room(1).max(self.room(2)).max(self.room(3));
        let narrow = (room + SAME + if self.closed { 0.0 } else { gap }) / (self.sequence.narrowest() + gap);
        if narrow > f64::from(MOST) && fits(MOST) {
            return MOST + 1;
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to MOST")]
        let highest = narrow.clamp(0.0, f64::from(MOST)) as u32 / step;
        let (mut low, mut high) = (0, highest);
        while low < high {
            let middle = high - (high - low) / 2;
            if fits(middle * step) { low = middle } else { high = middle - 1 }
        }
        low * step
    }

    /// The row of `count` motifs (at least one). On an open line the row fills the run whatever `start` says.
    pub(in crate::place) fn row(&self, count: u32, start: Start) -> Row {
        let spare = self.room(count) - self.width_of(count, start);
        let between = if self.closed { count } else { count - 1 };
        let gap = if between == 0 { 0.0 } else { spare / f64::from(between) };
        let mut seats = self.seats(count, start, gap);
        let first = match (self.closed, start) {
            (true, Start::Motif) => self.shift - seats[0].half,
            (true, Start::Gap) => self.shift + gap / 2.0,
            (false, _) if count == 1 => self.span.0.midpoint(self.span.1) - seats[0].half,
            (false, _) => self.span.0 + self.end(0, count),
        };
        for seat in &mut seats {
            seat.s += first;
        }
        self.in_order(seats, spare)
    }

    /// `count` motifs with a gap between them, the first one's edge at zero.
    fn seats(&self, count: u32, start: Start, gap: f64) -> Vec<Seat> {
        let mut before = 0.0;
        let seat = |(k, member): (u32, Member)| {
            // Gaps are multiplied, not added up, so that ten thousand motifs drift no more than ten.
            let s = before + gap * f64::from(k) + member.width / 2.0;
            before += member.width;
            Seat { second: turns_up(k, count, self.closed, start), ..Seat::new(s, member) }
        };
        (0..count).zip(self.sequence.members(count, self.closed, start)).map(seat).collect()
    }

    /// Seats brought into the span of the line and put in order.
    fn in_order(&self, seats: Vec<Seat>, bare: f64) -> Row {
        let mut seats = self.within_span(seats);
        self.give_hands(&mut seats);
        Row { seats, round: self.closed.then(|| self.length()), bare, apart: None, short: 0 }
    }

    /// The row of seats of stretches that are set out on their own, which know whose turn it is.
    pub(in crate::place) fn apart(&self, seats: Vec<Seat>, apart: Apart) -> Row {
        let count = u32::try_from(seats.len()).unwrap_or(u32::MAX);
        let bare = self.room(count) - 2.0 * seats.iter().map(|seat| seat.half).sum::<f64>();
        let mut seats = self.within_span(seats);
        self.give_hands(&mut seats);
        Row { seats, round: self.closed.then(|| self.length()), bare, apart: Some(apart), short: 0 }
    }

    /// Seats brought into the span of the line and put in order.
    fn within_span(&self, mut seats: Vec<Seat>) -> Vec<Seat> {
        if self.closed {
            let round = self.length();
            for seat in &mut seats {
                // Half a turn away is CB, reached from the wearer's left: the greatest s, not the least.
                while seat.s > self.span.1 + SAME {
                    seat.s -= round;
                }
                while seat.s < self.span.0 + SAME {
                    seat.s += round;
                }
            }
        }
        seats.sort_by(|a, b| a.s.total_cmp(&b.s));
        seats
    }

    /// Hands, by whose turn it is or by the side.
    fn give_hands(&self, seats: &mut [Seat]) {
        for seat in seats {
            let mirrored = match (self.hands, self.middle) {
                (Hands::AsDrawn, _) => false,
                (Hands::Alternating, _) => seat.second,
                (Hands::MirroredRight, Middle::CentreFront) => seat.s < -ON_PLACE,
                (Hands::MirroredRight, Middle::CentreBack) => seat.s > ON_PLACE,
            };
            seat.hand = if mirrored { Hand::Mirrored } else { Hand::AsDrawn };
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::Order;

    fn ring(line: f64, widths: &[f64]) -> Course {
        let sequence =
            Sequence { widths: widths.to_vec(), order: Order::Repeating, sizes: vec![], fit: 1.0, lifted: 1.0 };
        let (hands, middle) = (Hands::AsDrawn, Middle::CentreFront);
        let span = (-line / 2.0, line / 2.0);
        Course { span, closed: true, ends: 0.0, ends_raised: 0.0, sequence, hands, middle, shift: 0.0 }
    }

    fn open(line: f64, ends: f64, widths: &[f64]) -> Course {
        Course { closed: false, ends, ends_raised: ends, ..ring(line, widths) }
    }

    fn centres(row: &Row) -> Vec<f64> {
        row.seats.iter().map(|seat| (seat.s * 1000.0).round() / 1000.0).collect()
    }

    /// Worked by hand.
    #[test]
    fn equality_of_line_and_motif_with_gap_loses_none() {
        assert_eq!(ring(150.0, &[110.0]).most(40.0, Start::Motif), 1);
        assert_eq!(ring(4500.0, &[110.0]).most(40.0, Start::Motif), 30);
        assert_eq!(ring(4500.0 * (0.1 + 0.2) / 0.3, &[110.0]).most(40.0, Start::Motif), 30);
        assert_eq!(ring(149.99, &[110.0]).most(40.0, Start::Motif), 0);
        assert_eq!(open(300.0, 20.0, &[110.0]).most(40.0, Start::Motif), 2);
        assert_eq!(open(299.9, 20.0, &[110.0]).most(40.0, Start::Motif), 1);
    }

    #[test]
    fn a_ring_of_four_has_a_motif_or_a_gap_on_its_middle() {
        let course = ring(400.0, &[60.0]);
        assert_eq!(centres(&course.row(4, Start::Motif)), [-100.0, 0.0, 100.0, 200.0]);
        assert_eq!(centres(&course.row(4, Start::Gap)), [-150.0, -50.0, 50.0, 150.0]);
        assert!((course.row(4, Start::Gap).gap() - 40.0).abs() < 1e-12);
    }

    /// CF motif: N even puts a motif on CB, N odd a gap; CF gap: the other way round. Worked by hand.
    #[test]
    fn the_parity_table_holds() {
        let course = ring(4000.0, &[50.0]);
        for count in 1..40 {
            for (start, front, even) in
                [(Start::Motif, Lands::Motif, Lands::Motif), (Start::Gap, Lands::Gap, Lands::Gap)]
            {
                let row = course.row(count, start);
                let odd = if even == Lands::Motif { Lands::Gap } else { Lands::Motif };
                assert_eq!(row.lands(0.0), front, "{count}");
                assert_eq!(row.lands(2000.0), if count % 2 == 0 { even } else { odd }, "{count}");
            }
            let quarter = course.row(count, Start::Motif).lands(1000.0);
            let wanted = match count % 4 {
                0 => Lands::Motif,
                2 => Lands::Gap,
                _ => Lands::Between,
            };
            assert_eq!(quarter, wanted, "{count} motifs, side seam");
        }
    }

    #[test]
    fn a_mixed_sequence_keeps_one_gap() {
        let course = ring(1000.0, &[100.0, 40.0]);
        assert_eq!(course.most(30.0, Start::Motif), 10);
        assert!(course.row(10, Start::Motif).gaps().all(|gap| (gap - 30.0).abs() < 1e-9));
        // An open band may end within the sequence: 100 + 30 + 40 + 30 + 100 = 300.
        assert_eq!(open(300.0, 0.0, &[100.0, 40.0]).most(30.0, Start::Motif), 3);
    }

    /// Of five motifs the second and the fourth are raised, of six the first, the third and the fifth, counted from the middle.
    /// On a line of 1000 an end of 20 beside a raised one takes 25: five of 100 share 960, six share 955 and begin at 25.
    #[test]
    fn a_raised_motif_at_an_end_keeps_it_clear_on_its_own_line() {
        let wave = |lifted: f64| {
            let mut course = open(1000.0, 20.0, &[100.0]);
            course.ends_raised = 20.0 * lifted;
            course
        };
        let (five, six) = (wave(1.25).row(5, Start::Motif), wave(1.25).row(6, Start::Motif));
        assert_eq!((wave(1.25).room(5), wave(1.25).room(6)), (960.0, 955.0));
        assert!(!five.seats[0].second && !five.seats[4].second && six.seats[0].second && !six.seats[5].second);
        assert!((five.seats[0].s - (-500.0 + 20.0 + 50.0)).abs() < 1e-9);
        assert!((six.seats[0].s - (-500.0 + 25.0 + 50.0)).abs() < 1e-9);
        assert!((six.seats[5].s - (500.0 - 20.0 - 50.0)).abs() < 1e-9);
        // Six with 71 between them need 955, with 71.1 half a millimetre more.
        assert_eq!((wave(1.25).most(71.0, Start::Motif), wave(1.25).most(71.1, Start::Motif)), (6, 5));
        assert_eq!(wave(1.0).most(71.9, Start::Motif), 6);
    }

    #[test]
    fn ten_thousand_motifs_close_to_a_nanometre() {
        let row = ring(1_000_000.0, &[50.0]).row(9_999, Start::Motif);
        for pair in row.seats.windows(2) {
            assert!((pair[1].s - pair[0].s - 1_000_000.0 / 9_999.0).abs() < 1e-6);
        }
        assert!((row.seats[0].s + row.seats[9_998].s).abs() < 1e-6);
    }
}
