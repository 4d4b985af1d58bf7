//! What there is to set out along a line: how many motifs fit, and where their middles come.
//!
//! Pure arithmetic of lengths. The gap between neighbours, edge to edge along the line, is the same all along; where all
//! motifs are equally wide, so is the repeat. Closed: gap = (line - widths) / count. Open: (run - widths) / (count - 1).

use super::row::{Apart, ON_PLACE, Row, SAME, Seat};
use super::sequence::{Member, Sequence, Start, turns_up};
use crate::hem::Middle;
use crate::place::{Hand, Hands};

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

    /// Hands, by whose turn it is or by the side; what has none is as drawn everywhere.
    fn give_hands(&self, seats: &mut [Seat]) {
        for seat in seats {
            let mirrored = match (self.hands, self.middle) {
                (Hands::AsDrawn, _) => false,
                (Hands::Alternating, _) => seat.second,
                (Hands::MirroredRight, Middle::CentreFront) => seat.s < -ON_PLACE,
                (Hands::MirroredRight, Middle::CentreBack) => seat.s > ON_PLACE,
            };
            let handed = self.sequence.handed[seat.item];
            seat.hand = if mirrored && handed { Hand::Mirrored } else { Hand::AsDrawn };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::{Lands, Order};

    fn ring(line: f64, widths: &[f64]) -> Course {
        let sequence = Sequence {
            widths: widths.to_vec(),
            handed: vec![true; widths.len()],
            order: Order::Repeating,
            sizes: vec![],
            fit: 1.0,
            lifted: 1.0,
        };
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
