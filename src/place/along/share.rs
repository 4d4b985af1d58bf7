//! How the stretches of a row share a count out among themselves: so that the least gap stays as wide as it can.
//!
//! The first row shares out the count that is asked for. A further row has as many as the first; what its stretches that the first
//! row has too leave of them is shared out among those that only it has.

use super::row::SAME;
use super::sequence::Start;
use super::stretches::{Field, Gauge};
use crate::place::Anchor;

impl Field<'_> {
    /// What must lie on the middle of a row.
    pub(super) fn anchor(&self, row: usize) -> Anchor {
        match (self.plots[row].shifted, self.ask.anchor) {
            (true, Anchor::Motif) => Anchor::Gap,
            (true, Anchor::Gap) => Anchor::Motif,
            (_, anchor) => anchor,
        }
    }

    /// What lies on the middle of a row that is even all along.
    pub(super) fn start(&self, row: usize) -> Start {
        if (self.ask.anchor == Anchor::Gap) == self.plots[row].shifted { Start::Motif } else { Start::Gap }
    }

    /// How many the first row has with at least the gap asked for: what its stretches hold, or, where it is even all along, the most
    /// that every row would have so.
    pub(super) fn first_count(&self, counts: &[u32]) -> u32 {
        let own = &counts[..self.stretches[0].len()];
        let even = (0..self.plots.len()).map(|row| self.plots[row].course.most(self.ask.gap, self.start(row))).min();
        if own.is_empty() { even.unwrap_or(0) } else { own.iter().sum() }
    }

    /// How many a further row has where nothing that the first one has not is in its way: as many as that, above gaps one fewer in
    /// each stretch.
    pub(super) fn wanted(&self, row: usize, counts: &[u32]) -> u32 {
        let (shifted, own) = (self.plots[row].shifted, self.stretches[0].len());
        if own == 0 || self.stretches[row].is_empty() {
            let one_fewer = shifted && !self.plots[row].course.closed && self.first > 1;
            return self.first - u32::from(one_fewer);
        }
        counts[..own].iter().map(|count| if shifted { self.between_gaps(*count) } else { *count }).sum()
    }

    /// How many a further row lacks of that: in stretches that it leads in, or that an earlier row leads in whose fellows it stands
    /// above or between.
    pub(super) fn missing(&self, row: usize, counts: &[u32]) -> u32 {
        let leads = || self.group_of[row].iter().map(|group| self.groups[*group][0].0);
        if self.stretches[row].is_empty() {
            return 0;
        }
        if leads().all(|lead| lead == 0) {
            let own: u32 = (0..self.stretches[row].len()).map(|index| self.count(row, index, counts)).sum();
            return self.wanted(row, counts).saturating_sub(own);
        }
        let others = leads().filter(|lead| *lead != row).map(|lead| self.lack[lead]).max().unwrap_or(0);
        self.lack[row] + others
    }

    /// Takes a stretch of a further row that cannot have as many as the first has there out of its group, so that it gets what fits.
    pub(super) fn part_tight_rows(&mut self, counts: &mut Vec<u32>, gauge: Gauge<'_>) {
        let places =
            (1..self.plots.len()).flat_map(|row| (0..self.stretches[row].len()).map(move |index| (row, index)));
        for (row, index) in places.collect::<Vec<_>>() {
            let group = self.group_of[row][index];
            let own = self.count(row, index, counts);
            if self.groups[group][0].0 > 0 || self.gap_in((row, index), own, counts, gauge) >= self.enough() {
                continue;
            }
            self.groups[group].retain(|place| *place != (row, index));
            self.group_of[row][index] = self.groups.len();
            self.groups.push(vec![(row, index)]);
            counts.push(0);
        }
    }

    /// Gives the stretches that only further rows have what those rows need to have as many as the first, with at least the gap asked
    /// for; where that does not fit, as many as leave `else_gap`.
    pub(super) fn share_further(&mut self, counts: &mut [u32], else_gap: f64, gauge: Gauge<'_>) {
        counts[self.stretches[0].len()..].fill(0);
        self.lack.fill(0);
        for row in 1..self.plots.len() {
            let leads = |index: &usize| self.groups[self.group_of[row][*index]][0].0 == row;
            let (own, others): (Vec<usize>, Vec<usize>) = (0..self.stretches[row].len()).partition(leads);
            if own.is_empty() {
                continue;
            }
            let taken: u32 = others.iter().map(|index| self.count(row, *index, counts)).sum();
            let groups: Vec<usize> = own.iter().map(|index| self.group_of[row][*index]).collect();
            let share = self.wanted(row, counts).saturating_sub(taken);
            let mut shared = counts.to_vec();
            // As many as were asked for count more than what lies on the middle above.
            let found = [self.anchor(row), Anchor::Best].into_iter().any(|anchor| {
                self.share_out((row, &own), &mut shared, share, anchor).is_some()
                    && groups.iter().all(|group| self.gap(*group, &shared, gauge) >= self.enough())
            });
            if found {
                counts.copy_from_slice(&shared);
                continue;
            }
            let asked = self.ask.gap;
            for gap in [else_gap, asked] {
                self.ask.gap = gap;
                self.fill(counts, &groups, gauge);
                self.ask.gap = asked;
                if groups.iter().any(|group| counts[*group] > 0) {
                    break;
                }
            }
            self.lack[row] = share.saturating_sub(groups.iter().map(|group| counts[*group]).sum());
        }
    }

    /// One motif after another to that of some stretches of a row whose gap stays widest; the stretch over the middle gets what
    /// suits it first. `None` where so many leave on the middle what does not suit it.
    pub(super) fn share_out(
        &self,
        (row, some): (usize, &[usize]),
        counts: &mut [u32],
        count: u32,
        anchor: Anchor,
    ) -> Option<()> {
        if some.is_empty() {
            return Some(());
        }
        let (stretches, group_of, course) = (&self.stretches[row], &self.group_of[row], self.plots[row].course);
        let width = course.width_of(count, Start::Motif) / f64::from(count.max(1));
        for &index in some {
            counts[group_of[index]] = u32::from(stretches[index].on_middle && anchor == Anchor::Motif);
        }
        let mut left = count.checked_sub(some.iter().map(|index| counts[group_of[*index]]).sum())?;
        while left > 0 {
            let gap = |index: usize, more: u32| {
                let count = counts[group_of[index]] + more;
                stretches[index].gap(width * f64::from(count), count)
            };
            let steps = some.iter().map(|index| (*index, stretches[*index].step(anchor)));
            let (index, added) = steps
                .filter(|(_, added)| *added <= left)
                .max_by(|(a, more_a), (b, more_b)| gap(*a, *more_a).total_cmp(&gap(*b, *more_b)).then(b.cmp(a)))?;
            counts[group_of[index]] += added;
            left -= added;
        }
        self.evened_out((row, some), counts, anchor);
        Some(())
    }

    /// Moves motifs of different widths from the tightest of some stretches of a row to the widest as long as that widens the least
    /// gap.
    fn evened_out(&self, (row, some): (usize, &[usize]), counts: &mut [u32], anchor: Anchor) {
        let (stretches, group_of) = (&self.stretches[row], &self.group_of[row]);
        if self.plots[row].one_width().is_some() {
            return;
        }
        let gaps = |counts: &[u32]| -> Vec<f64> {
            let (own, lot) = self.lot(row, counts);
            let gap = |index: &usize| stretches[*index].gap_of(&self.seats((row, *index), (&own, &lot), counts));
            some.iter().map(gap).collect()
        };
        let order = |gaps: &[f64]| -> Vec<usize> {
            let mut order: Vec<usize> = (0..gaps.len()).collect();
            order.sort_by(|a, b| gaps[*a].total_cmp(&gaps[*b]));
            order
        };
        let mut now = gaps(counts);
        for _ in 0..4 * some.len() {
            let order = order(&now);
            let (Some(&from), Some(&to)) = (order.first(), order.last()) else { return };
            let step = stretches[some[from]].step(anchor).max(stretches[some[to]].step(anchor));
            if from == to || counts[group_of[some[from]]] < step {
                return;
            }
            let mut moved = counts.to_vec();
            moved[group_of[some[from]]] -= step;
            moved[group_of[some[to]]] += step;
            let then = gaps(&moved);
            if then.iter().copied().fold(f64::INFINITY, f64::min) < now[from] + SAME {
                return;
            }
            counts.copy_from_slice(&moved);
            now = then;
        }
    }
}
