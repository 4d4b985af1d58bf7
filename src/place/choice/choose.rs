//! Choosing the count, what lies on the middle, and how evenly motifs are spread.
//!
//! Every count from the most that fit down to a sixth fewer is tried with each middle that the wish allows. The fewest
//! motifs across seams win, then the fewest too near them; among equals the most motifs; among those a motif on the middle before a gap. Where
//! no even row is clear of them, each stretch from seam to seam is set out on its own. A place to keep out of counts more
//! than any number of motifs: where an even row would reach into it, the stretches beside it are set out on their own. Stretches
//! that keep clear of every seam but lose more than that sixth are passed over, and what they would have is told. So many as were
//! asked for are set out by the same rule, in stretches where those hold them all. Motifs that take turns round a ring want an even
//! count, so that no two of a kind meet.

use super::apart::in_place_of;
use super::chosen::{Bounds, Choice, Chosen};
use crate::hem::Ends;
use crate::place::along::sequence::Start;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::{Evenness, PlaceError, Spacing};
use crate::quantity::Mm;

/// Counts are tried down to this part of the most that fit. A maker gives up one motif in six for clear seams without
/// being asked, not more; common practice, no source.
pub(in crate::place) const FEWEST: f64 = 5.0 / 6.0;

/// Most counts above the even-gap count that an equal clear gap may still take: pointed motifs stand closer at their widest
/// than anywhere else, so that their clear gap is the wider one.
const MORE_BY_CLEAR_GAP: u32 = 50;

/// Up to so many counts are evened out one after the other.
const FEW_TO_TRY: u32 = 128;

/// So many counts above the first that is known to keep the gap are tried too: what lies on the middle can let one more in.
const ABOVE_SERVING: u32 = 4;

impl Ground<'_> {
    /// The best setting of the wish.
    pub(in crate::place) fn choose(&self, measure: &mut Measure<'_>) -> Result<Chosen, PlaceError> {
        let manner = self.manner();
        match self.wish.spacing {
            Spacing::AtLeast(gap) if manner == Evenness::ClearGap => self.most_by_clear_gap(measure, gap),
            Spacing::AtLeast(gap) if self.has_corners() => {
                let choice = self.stretches(measure, gap.get(), None, Bounds::All);
                let choice = choice.ok_or_else(|| self.does_not_fit(gap))?;
                let most = choice.count;
                Ok(Chosen::only(choice, most))
            }
            Spacing::AtLeast(gap) => {
                let most = self.most(gap)?;
                if manner == Evenness::BetweenSeams
                    && let Some(choice) = self.stretches(measure, gap.get(), None, Bounds::All)
                {
                    return Ok(Chosen::only(choice, most));
                }
                Ok(self.fewest_clashes(measure, gap, most))
            }
            Spacing::Count(count) => {
                self.check_count(count)?;
                let choice = self.of_count(measure, count);
                Ok(self.instead_of_even(measure, choice))
            }
            Spacing::Even(count) => {
                self.check_count(count)?;
                Ok(Chosen::only(self.for_card(measure, count), count))
            }
            Spacing::Fit { count, gap } | Spacing::Settled { count, gap, .. } => {
                self.check_count(count)?;
                let settled = self.settled(measure, count, gap);
                let choice = settled.unwrap_or_else(|| self.of_count(measure, count));
                Ok(self.instead_of_even(measure, choice))
            }
        }
    }

    /// What is kept even: round corners nothing but the stretches between them can be.
    pub(in crate::place) fn manner(&self) -> Evenness {
        if self.has_corners() { Evenness::BetweenSeams } else { self.wish.rhythm.evenness }
    }

    /// Whether two of a kind would meet where so many that take turns in hand or height close round a ring; at an opening they may.
    pub(in crate::place) fn breaks_turns(&self, count: u32) -> bool {
        self.takes_turns() && matches!(self.hem.ends(), Ends::Closed) && count > 1 && count % 2 == 1
    }

    /// The best even row of at most `most` motifs, or, where none is clear, each stretch on its own.
    fn fewest_clashes(&self, measure: &mut Measure<'_>, gap: Mm, most: u32) -> Chosen {
        let fewest = f64::from(most) * FEWEST;
        let mut tried: Vec<Choice> = Vec::new();
        let mut best: Option<usize> = None;
        for count in self.worth_trying(most) {
            tried.extend(self.wide_rows(gap, count).min_by_key(Choice::faults));
            let Some(latest) = tried.len().checked_sub(1) else { continue };
            let rank = |index: usize| (tried[index].faults(), self.breaks_turns(tried[index].count));
            if best.is_none_or(|best| rank(latest) < rank(best)) {
                best = Some(latest);
            }
            if rank(latest) == ((0, 0, 0), false) {
                break;
            }
        }
        let Some(best) = best else {
            // What lies on the middle cannot be had by an even row between two ends.
            let even = self.arranged(most, Start::Motif);
            let apart = self.beside(measure, &even, (gap.get(), None));
            let apart = apart.filter(|apart| apart.faults().0 < even.faults().0);
            return Chosen::only(apart.unwrap_or(even), most);
        };
        let choice = tried.swap_remove(best);
        let serves = |apart: &Choice| in_place_of(apart, &choice, fewest);
        let apart = self.beside(measure, &choice, (gap.get(), None));
        let too_few = apart.as_ref().filter(|apart| apart.clashes() == 0 && !serves(apart)).map(|apart| apart.count);
        if let Some(apart) = apart.filter(serves) {
            tried.push(choice);
            tried.retain(|choice| choice.count >= apart.count && choice.clashes() > 0);
            tried.sort_by_key(|choice| std::cmp::Reverse(choice.count));
            // Motifs that a pocket leaves no room for are not given up: there is nothing to remedy.
            let most = if tried.iter().any(|choice| choice.faults().0 > 0) { apart.count } else { most };
            return Chosen { choice: apart, most, passed_over: tried, too_few };
        }
        tried.truncate(best);
        Chosen { choice, most, passed_over: tried, too_few }
    }

    /// The even row of the most motifs, at least `fewest`, that clashes with nothing.
    pub(in crate::place) fn clear_row(&self, gap: Mm, fewest: u32) -> Option<Choice> {
        let mut counts = self.worth_trying(self.most(gap).ok()?).take_while(|count| *count >= fewest);
        counts.find_map(|count| {
            self.wide_rows(gap, count).find(|choice| choice.clashes() == 0 && !self.breaks_turns(choice.count))
        })
    }

    /// Counts from the most that fit down to those that give up too many, in whole rounds of the sequence.
    fn worth_trying(&self, most: u32) -> impl Iterator<Item = u32> + use<> {
        let step = self.course().sequence.step(self.course().closed);
        let fewest = f64::from(most) * FEWEST;
        let counts = (0..most).map(move |k| most - k).filter(move |count| (most - count).is_multiple_of(step));
        counts.take_while(move |count| f64::from(*count) >= fewest)
    }

    /// From which count downward the most are sought: from the highest where those are few; of many from a little above where counts
    /// begin to keep the gap, which is found in ever longer strides, since each count that is evened out in vain costs as much as it is
    /// high.
    fn begun_by_clear_gap(&self, measure: &mut Measure<'_>, highest: u32, step: u32, gap: Mm) -> u32 {
        if highest <= FEW_TO_TRY.saturating_mul(step) {
            return highest;
        }
        let mut serves = |count: u32| self.of_count_clear(measure, count, gap).is_some();
        let (mut serving, mut failed, mut stride) = (highest, highest, step);
        while !serves(serving) {
            let next = if serving > stride { serving - stride } else { serving / 2 / step * step };
            if next == 0 {
                return serving;
            }
            (failed, serving, stride) = (serving, next, stride.saturating_mul(2));
        }
        while failed > serving + step {
            let middle = serving + (failed - serving) / step / 2 * step;
            if serves(middle) { serving = middle } else { failed = middle }
        }
        highest.min(serving + ABOVE_SERVING * step)
    }

    /// The same for motifs that stand behind each other, of which many more than their widths would let in keep the gap: upward in ever
    /// longer strides from the count that keeps it along the line.
    fn begun_from_below(&self, measure: &mut Measure<'_>, (most, highest): (u32, u32), step: u32, gap: Mm) -> u32 {
        let mut serves = |count: u32| self.of_count_clear(measure, count, gap).is_some();
        let above = ABOVE_SERVING * step;
        if !serves(most) {
            return highest.min(most + above);
        }
        let (mut serving, mut failed, mut stride) = (most, highest + step, step);
        while serving + stride < failed {
            if serves(serving + stride) {
                (serving, stride) = (serving + stride, stride.saturating_mul(2));
            } else {
                failed = serving + stride;
            }
            stride = stride.min((failed - serving) / step / 2 * step);
            if stride == 0 {
                break;
            }
        }
        serving
    }

    /// The most whose equal clear gap is at least `gap`.
    fn most_by_clear_gap(&self, measure: &mut Measure<'_>, gap: Mm) -> Result<Chosen, PlaceError> {
        let most = self.most(gap)?;
        let step = self.course().sequence.step(self.course().closed);
        let highest = most.saturating_add(MORE_BY_CLEAR_GAP);
        let highest = (0..=highest)
            .rev()
            .find(|count| (count.abs_diff(most)).is_multiple_of(step) && self.check_count(*count).is_ok());
        let mut tried: Vec<Choice> = Vec::new();
        let mut best: Option<usize> = None;
        let highest = highest.unwrap_or(most);
        let mut count = if self.slimmest() < 1.0 {
            self.begun_from_below(measure, (most, highest), step, gap)
        } else {
            self.begun_by_clear_gap(measure, highest, step, gap)
        };
        while count > 0 {
            if let Some(choice) = self.of_count_clear(measure, count, gap) {
                let rank = |choice: &Choice| (choice.faults(), self.breaks_turns(choice.count));
                let clear = rank(&choice) == ((0, 0, 0), false);
                if best.is_none_or(|best| rank(&choice) < rank(&tried[best])) {
                    best = Some(tried.len());
                }
                tried.push(choice);
                if clear {
                    break;
                }
            }
            if tried.first().is_some_and(|first| f64::from(count) < f64::from(first.count) * FEWEST) {
                break;
            }
            count = count.saturating_sub(step);
        }
        let Some(best) = best else {
            return Ok(Chosen::only(self.arranged(most, Start::Motif), most));
        };
        let (most, choice) = (tried[0].count, tried.swap_remove(best));
        let fewest = f64::from(most) * FEWEST;
        let apart = self.beside(measure, &choice, (gap.get(), None));
        let serves = |apart: &Choice| in_place_of(apart, &choice, fewest);
        let too_few = apart.as_ref().filter(|apart| apart.clashes() == 0 && !serves(apart)).map(|apart| apart.count);
        if let Some(apart) = apart.filter(serves) {
            let most = if choice.faults().0 > 0 { apart.count } else { most.max(apart.count) };
            return Ok(Chosen { passed_over: vec![choice], ..Chosen::only(apart, most) });
        }
        tried.truncate(best);
        Ok(Chosen { choice, most, passed_over: tried, too_few })
    }
}
