//! How many each stretch takes: as many as leave at least the gap asked for, stretch by stretch until none changes, and neighbours on
//! either side of a bound parted where their outlines come nearer than asked.

use super::course::MOST;
use super::even::EQUAL;
use super::row::{SAME, Seat};
use super::stretches::{Field, Gauge, SWEEPS};

/// Most counts of an even first row that are tried in search of one that every row has.
const MOST_LEVELS: usize = 32;

impl Field<'_> {
    /// Gives every row as many as leave at least the gap asked for; an even first row no more than the others, where that gives up few.
    pub(super) fn fill_all(&mut self, counts: &mut [u32], own: &[usize], gauge: Gauge<'_>) {
        self.fill(counts, own, gauge);
        self.first = self.first_count(counts);
        self.share_further(counts, self.ask.gap, gauge);
        let most = self.first;
        let fewest = f64::from(most) * self.ask.fewest;
        let levels = (1..most).rev().take_while(|level| f64::from(*level) >= fewest);
        for level in levels.take(MOST_LEVELS) {
            if !own.is_empty() || !(1..self.plots.len()).any(|row| self.missing(row, counts) > 0) {
                return;
            }
            self.first = level;
            self.share_further(counts, self.ask.gap, gauge);
        }
        if (1..self.plots.len()).any(|row| self.missing(row, counts) > 0) {
            self.first = most;
            self.share_further(counts, self.ask.gap, gauge);
        }
    }

    /// Gives some groups as many motifs as leave at least the gap asked for.
    pub(super) fn fill(&self, counts: &mut [u32], groups: &[usize], gauge: Gauge<'_>) {
        // From the middle outward, since what stands there settles what comes further out.
        let mut order: Vec<usize> = groups.to_vec();
        let off = |group: usize| {
            let (row, index) = self.groups[group][0];
            let stretch = &self.stretches[row][index];
            if stretch.holds(0.0) { 0.0 } else { stretch.start.abs().min((stretch.start + stretch.length).abs()) }
        };
        order.sort_by(|a, b| off(*a).total_cmp(&off(*b)));
        for _ in 0..SWEEPS {
            let before = counts.to_vec();
            for &group in &order {
                counts[group] = self.most(group, counts, gauge);
            }
            if *counts == *before || self.plots.iter().all(|plot| plot.one_width().is_some()) {
                return;
            }
        }
        // Counts that never settle: the tightest stretch gives up motifs until all have their gap.
        loop {
            let gaps = order.iter().map(|group| (self.gap(*group, counts, gauge), *group));
            let Some((least, group)) = gaps.min_by(|a, b| a.0.total_cmp(&b.0)) else { return };
            if least >= self.enough() || counts[group] == 0 {
                return;
            }
            let (row, index) = self.groups[group][0];
            counts[group] = counts[group].saturating_sub(self.stretches[row][index].step(self.anchor(row)));
        }
    }

    /// Parts neighbours on either side of a bound whose outlines come nearer than asked, by half of what they lack on each side;
    /// whether there were any.
    pub(super) fn parted(&mut self, counts: &[u32], gauge: Gauge<'_>) -> bool {
        let mut found = Vec::new();
        for row in 0..self.plots.len() {
            let (stretches, course) = (&self.stretches[row], self.plots[row].course);
            let (own, lot) = self.lot(row, counts);
            let runs: Vec<Vec<Seat>> =
                (0..stretches.len()).map(|index| self.seats((row, index), (&own, &lot), counts)).collect();
            for index in 0..runs.len() {
                let round = if index + 1 == runs.len() { course.length() } else { 0.0 };
                if round > 0.0 && !course.closed {
                    continue;
                }
                let next = (index + 1) % runs.len();
                let (Some(before), Some(after)) = (runs[index].last(), runs[next].first()) else { continue };
                let clear = gauge(row, &mut [*before, Seat { s: after.s + round, ..*after }]);
                if clear < self.enough() {
                    let by = (self.ask.gap - clear) / 2.0;
                    let bare =
                        [stretches[index].end() - before.s - before.half, after.s - after.half - stretches[next].start];
                    found.extend([((row, index), 1, bare[0] + by), ((row, next), 0, bare[1] + by)]);
                }
            }
        }
        for ((row, index), end, bare) in &found {
            self.stretches[*row][*index].keep_bare(*end, *bare);
        }
        !found.is_empty()
    }

    /// The gap from which on it is as wide as asked.
    pub(super) fn enough(&self) -> f64 {
        self.ask.gap - if self.ask.clear { EQUAL } else { SAME }
    }

    /// The most in a group that leave at least the gap asked for in it, with what suits the middle of the line.
    fn most(&self, group: usize, counts: &[u32], gauge: Gauge<'_>) -> u32 {
        let (row, index) = self.groups[group][0];
        let stretch = &self.stretches[row][index];
        let mut counts = counts.to_vec();
        let mut fits = |count: u32| {
            counts[group] = count;
            count == 0 || self.gap(group, &counts, gauge) >= self.enough()
        };
        // Pointed motifs may stand closer along the line than their outlines do.
        let gap = if self.ask.clear { 0.0 } else { self.ask.gap };
        let narrowest = self.plots[row].course.sequence.narrowest();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
        let highest = (stretch.length / (narrowest + gap) + 2.0).clamp(0.0, f64::from(MOST)) as u32;
        // Two more never leave more room, while one more may bring a narrower motif onto the middle.
        let of_parity = |parity: u32, fits: &mut dyn FnMut(u32) -> bool| {
            let (mut low, mut high) = (0, (highest + 2 - parity) / 2);
            while low < high {
                let middle = high - (high - low) / 2;
                if fits(2 * middle - parity) { low = middle } else { high = middle - 1 }
            }
            (2 * low).saturating_sub(parity)
        };
        let parities = [0, 1].into_iter().filter(|parity| stretch.suits(*parity, self.anchor(row)));
        parities.map(|parity| of_parity(parity, &mut fits)).max().unwrap_or(0)
    }
}
