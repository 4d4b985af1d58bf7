//! Which motif comes where in a row, and how large.

use std::ops::Range;

use crate::place::Order;

/// What lies at the middle of the line, where s is zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum Start {
    /// A motif's middle.
    Motif,
    /// A gap's middle.
    Gap,
}

/// The motifs of a row in their order.
#[derive(Clone, Debug)]
pub(in crate::place) struct Sequence {
    /// Widths in the order the motifs are named, at the size they are drawn.
    pub(in crate::place) widths: Vec<f64>,
    /// Of each of them whether it has a hand: not where it is its own mirror image.
    pub(in crate::place) handed: Vec<bool>,
    pub(in crate::place) order: Order,
    /// Factors from the middle outward, the last for all the rest; empty for 1.
    pub(in crate::place) sizes: Vec<f64>,
    /// Factor on everything.
    pub(in crate::place) fit: f64,
    /// What a millimetre on the upper line of a wave covers of the line the row is measured on; 1 without a wave.
    pub(in crate::place) lifted: f64,
}

/// A motif of the row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::place) struct Member {
    /// Which of the motifs named.
    pub(in crate::place) item: usize,
    /// Factor on its size.
    pub(in crate::place) scale: f64,
    /// Width at that size.
    pub(in crate::place) width: f64,
}

/// A row whose halves need not be the same.
#[derive(Clone, Debug)]
pub(in crate::place) struct Lot {
    pub(in crate::place) count: u32,
    /// How many stand before the middle.
    pub(in crate::place) before: u32,
    /// What lies on the middle.
    pub(in crate::place) start: Start,
    /// Those of a ring that count their steps from the middle the shorter way round; the others on their own side.
    pub(in crate::place) either_way: Range<u32>,
}

impl Sequence {
    /// Whether any of them has a hand.
    pub(in crate::place) fn has_hands(&self) -> bool {
        self.handed.iter().any(|handed| *handed)
    }

    /// The `count` members of a row: of a ring from the middle round toward growing s, of an open row from its least s.
    pub(in crate::place) fn members(
        &self,
        count: u32,
        closed: bool,
        start: Start,
    ) -> impl Iterator<Item = Member> + '_ {
        (0..count).map(move |k| {
            let rank = if closed { rank_on_ring(k, count, start) } else { rank_on_band(k, count) };
            let item = match self.order {
                Order::Repeating => k,
                Order::MirroredAboutMiddle => rank,
            } as usize
                % self.widths.len();
            self.member(item, rank, turns_up(k, count, closed, start))
        })
    }

    /// Some members of a row that need not be the same on both sides, in order of s, and whether each is the second of two that
    /// take turns.
    ///
    /// A repeating sequence goes on both ways from the middle of a ring, so that it breaks off at its ends and nowhere else. Sizes
    /// and a mirrored order go by the steps from the middle.
    pub(in crate::place) fn about<'s>(
        &'s self,
        some: Range<u32>,
        (lot, closed): (&'s Lot, bool),
    ) -> impl Iterator<Item = (Member, bool)> + 's {
        let length = u32::try_from(self.widths.len()).unwrap_or(u32::MAX);
        let Lot { before, count, start, .. } = *lot;
        some.map(move |k| {
            let steps = |k: u32| match start {
                _ if k >= before => k - before,
                Start::Motif => before - k,
                Start::Gap => before - 1 - k,
            };
            let (rank, second) = if lot.either_way.contains(&k) {
                let round = (k + count - before) % count;
                (rank_on_ring(round, count, start), turns_up(round, count, true, start))
            } else {
                (steps(k), k.abs_diff(before) % 2 == 1)
            };
            let item = match self.order {
                Order::Repeating if !closed => k % length,
                Order::Repeating if k >= before => (k - before) % length,
                Order::Repeating => (length - (before - k) % length) % length,
                Order::MirroredAboutMiddle => rank % length,
            };
            (self.member(item as usize, rank, second), second)
        })
    }

    fn member(&self, item: usize, rank: u32, second: bool) -> Member {
        let rank = (rank as usize).min(self.sizes.len().saturating_sub(1));
        let scale = self.fit * self.sizes.get(rank).copied().unwrap_or(1.0);
        let lifted = if second { self.lifted } else { 1.0 };
        Member { item, scale, width: self.widths[item] * scale * lifted }
    }

    /// Counts on a ring go by whole rounds of a repeating sequence; otherwise by one.
    pub(in crate::place) fn step(&self, closed: bool) -> u32 {
        match self.order {
            Order::Repeating if closed => u32::try_from(self.widths.len()).unwrap_or(u32::MAX),
            Order::Repeating | Order::MirroredAboutMiddle => 1,
        }
    }

    /// Narrowest width there is.
    pub(in crate::place) fn narrowest(&self) -> f64 {
        let size = self.sizes.iter().copied().fold(f64::INFINITY, f64::min);
        let size = if size.is_finite() { size } else { 1.0 };
        self.fit * size * self.lifted.min(1.0) * self.widths.iter().copied().fold(f64::INFINITY, f64::min)
    }

    /// Widest width there is.
    pub(in crate::place) fn widest(&self) -> f64 {
        let size = self.sizes.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let size = if size.is_finite() { size } else { 1.0 };
        self.fit * size * self.lifted.max(1.0) * self.widths.iter().copied().fold(0.0, f64::max)
    }
}

/// Whether a member is the second of two that take turns, counted both ways from the middle.
pub(in crate::place) fn turns_up(k: u32, count: u32, closed: bool, start: Start) -> bool {
    let steps = match (closed, start) {
        (false, _) => k.abs_diff(count / 2),
        (true, Start::Motif) if 2 * k <= count => k,
        (true, Start::Gap) if 2 * k < count => k,
        (true, _) => count - k,
    };
    steps % 2 == 1
}

/// Steps from the middle of a ring.
fn rank_on_ring(k: u32, count: u32, start: Start) -> u32 {
    match start {
        Start::Motif => k.min(count - k),
        Start::Gap => k.min(count - 1 - k),
    }
}

/// Steps from the middle of an open row: an odd row has a motif there, an even one a gap.
fn rank_on_band(k: u32, count: u32) -> u32 {
    let half = count / 2;
    if count % 2 == 1 || k >= half { k.abs_diff(half) } else { half - 1 - k }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three motifs of unlike widths.
    fn three(order: Order) -> Sequence {
        Sequence { widths: vec![10.0, 20.0, 30.0], handed: vec![true; 3], order, sizes: vec![], fit: 1.0, lifted: 1.0 }
    }

    fn items(order: Order, count: u32, closed: bool, start: Start) -> Vec<usize> {
        three(order).members(count, closed, start).map(|member| member.item).collect()
    }

    #[test]
    fn a_repeating_sequence_walks_on() {
        assert_eq!(items(Order::Repeating, 7, true, Start::Motif), [0, 1, 2, 0, 1, 2, 0]);
    }

    #[test]
    fn a_mirrored_sequence_is_the_same_both_ways() {
        // On a ring, listed from CF round to the wearer's left: the other side comes last, backward.
        assert_eq!(items(Order::MirroredAboutMiddle, 6, true, Start::Motif), [0, 1, 2, 0, 2, 1]);
        assert_eq!(items(Order::MirroredAboutMiddle, 6, true, Start::Gap), [0, 1, 2, 2, 1, 0]);
        assert_eq!(items(Order::MirroredAboutMiddle, 5, false, Start::Motif), [2, 1, 0, 1, 2]);
        assert_eq!(items(Order::MirroredAboutMiddle, 4, false, Start::Motif), [1, 0, 0, 1]);
    }

    /// Six, two of them before the middle: A B C walks on from the middle both ways, ... B C | A B C; and mirrored it goes outward
    /// on either side.
    #[test]
    fn a_row_that_is_not_the_same_on_both_sides_goes_by_its_own_middle() {
        let about = |order, closed, start, either_way: Range<u32>| -> Vec<usize> {
            let lot = Lot { count: 6, before: 2, start, either_way };
            three(order).about(0..6, (&lot, closed)).map(|(member, _)| member.item).collect()
        };
        assert_eq!(about(Order::Repeating, true, Start::Motif, 0..0), [1, 2, 0, 1, 2, 0]);
        assert_eq!(about(Order::Repeating, false, Start::Motif, 0..0), [0, 1, 2, 0, 1, 2]);
        assert_eq!(about(Order::MirroredAboutMiddle, true, Start::Motif, 0..0), [2, 1, 0, 1, 2, 0]);
        assert_eq!(about(Order::MirroredAboutMiddle, true, Start::Gap, 0..0), [1, 0, 0, 1, 2, 0]);
        // The last two are three steps one way and three and two the other.
        assert_eq!(about(Order::MirroredAboutMiddle, true, Start::Motif, 4..6), [2, 1, 0, 1, 2, 0]);
        assert_eq!(about(Order::MirroredAboutMiddle, true, Start::Gap, 4..6), [1, 0, 0, 1, 2, 2]);
    }

    #[test]
    fn sizes_go_from_the_middle_outward() {
        let sequence = Sequence {
            widths: vec![100.0],
            handed: vec![true],
            order: Order::Repeating,
            sizes: vec![1.2, 1.1, 1.0],
            fit: 1.0,
            lifted: 1.0,
        };
        let widths = |count, closed| -> Vec<f64> {
            sequence.members(count, closed, Start::Motif).map(|member| member.width.round()).collect()
        };
        assert_eq!(widths(7, false), [100.0, 100.0, 110.0, 120.0, 110.0, 100.0, 100.0]);
        assert_eq!(widths(6, true), [120.0, 110.0, 100.0, 100.0, 100.0, 110.0]);
        assert!((sequence.narrowest() - 100.0).abs() < 1e-12);
    }
}
