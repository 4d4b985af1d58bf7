//! The best setting of exactly so many, where a count is asked for or settled.

use super::chosen::{Bounds, Choice, Chosen};
use super::equal_clear::extent;
use crate::place::along::row::SAME;
use crate::place::along::sequence::Start;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::say::NEARER;
use crate::place::{Evenness, Stance};
use crate::quantity::Mm;

impl Ground<'_> {
    /// So many as were asked for, with the even row for which each stretch was set out on its own.
    pub(super) fn instead_of_even(&self, measure: &mut Measure<'_>, choice: Choice) -> Chosen {
        let count = choice.count;
        let apart = choice.manner == Evenness::BetweenSeams && self.manner() != Evenness::BetweenSeams;
        let even = apart.then(|| self.even_of_count(measure, count)).filter(|even| even.clashes() > 0);
        Chosen { passed_over: even.into_iter().collect(), ..Chosen::only(choice, count) }
    }

    /// The best row of exactly so many: evenly spread where that keeps clear of everything, otherwise each stretch on its own where
    /// the stretches hold them all. What reaches into a pocket is given up for stretches that hold fewer in a further row, too.
    pub(in crate::place) fn of_count(&self, measure: &mut Measure<'_>, count: u32) -> Choice {
        let even = self.even_of_count(measure, count);
        let apart = self.beside(measure, &even, (0.0, Some(count)));
        let serves = |apart: &Choice, measure: &mut Measure<'_>| {
            let (own, others) = (apart.faults(), even.faults());
            own.0 < others.0 || (own < others && apart.short() == 0 && !self.touches(measure, apart))
        };
        apart.filter(|apart| serves(apart, measure)).unwrap_or(even)
    }

    /// The best row of exactly so many in the manner asked for, whatever it clashes with.
    pub(super) fn even_of_count(&self, measure: &mut Measure<'_>, count: u32) -> Choice {
        let found = match self.manner() {
            Evenness::BetweenSeams => self.stretches(measure, 0.0, Some(count), Bounds::All),
            Evenness::ClearGap => {
                let evened = self.starts(count).filter_map(|start| self.evened(measure, count, start));
                evened.map(|(choice, _)| choice).min_by_key(Choice::faults)
            }
            Evenness::Gap => None,
        };
        let even = || self.starts(count).map(|start| self.arranged(count, start)).min_by_key(Choice::faults);
        found.or_else(even).unwrap_or_else(|| self.arranged(count, Start::Motif))
    }

    /// How so many would lie in a card of neighbouring counts: evenly spread, so that what each puts where can be compared, unless
    /// that reaches into a place to keep out of.
    pub(in crate::place) fn for_card(&self, measure: &mut Measure<'_>, count: u32) -> Choice {
        let even = self.even_of_count(measure, count);
        if even.faults().0 == 0 { even } else { self.of_count(measure, count) }
    }

    /// Whether outlines of neighbours touch in any row.
    fn touches(&self, measure: &mut Measure<'_>, choice: &Choice) -> bool {
        let mut rows = self.tiers.iter().zip(&choice.rows);
        rows.any(|(tier, laid)| {
            let several = laid.row.seats.len() > 1;
            several && self.clears(measure, tier, &laid.row).is_some_and(|gaps| gaps.iter().any(|gap| *gap <= 0.0))
        })
    }

    /// The best row of exactly so many with at least a gap, each stretch on its own where no even row is clear; `None` where
    /// they do not leave so much.
    pub(in crate::place) fn settled(&self, measure: &mut Measure<'_>, count: u32, gap: Mm) -> Option<Choice> {
        let even = match self.manner() {
            Evenness::BetweenSeams => self.stretches(measure, 0.0, Some(count), Bounds::All),
            Evenness::ClearGap => self.of_count_clear(measure, count, gap),
            Evenness::Gap => None,
        };
        let even = even.or_else(|| self.wide_rows(gap, count).min_by_key(Choice::faults));
        let even = even.filter(|choice| choice.manner == Evenness::ClearGap || choice.gap() >= gap.get() - SAME);
        let even = even.filter(|choice| self.clear_where_upright(measure, choice, gap));
        match even {
            Some(even) if even.clashes() == 0 => Some(even),
            Some(even) => {
                let apart = self.beside(measure, &even, (gap.get(), Some(count)));
                let serves = |apart: &Choice| {
                    let (own, others) = (apart.faults(), even.faults());
                    own.0 < others.0 || (own < others && apart.short() == 0)
                };
                Some(apart.filter(serves).unwrap_or(even))
            }
            None => {
                let apart = [Bounds::All, Bounds::Areas];
                let apart = apart.map(|bounds| self.stretches(measure, gap.get(), Some(count), bounds));
                let clear = |choice: &Choice| self.clear_where_upright(measure, choice, gap);
                apart.into_iter().flatten().filter(clear).min_by_key(Choice::faults)
            }
        }
    }

    /// Whether motifs that stand upright on a cloth with corners keep their gap by their true outlines: along its slanting and
    /// upright sides they reach further than they are wide. All others keep it along their line.
    fn clear_where_upright(&self, measure: &mut Measure<'_>, choice: &Choice, gap: Mm) -> bool {
        if !self.has_corners() || self.wish.stance != Stance::Upright {
            return true;
        }
        extent(measure, self, choice).is_none_or(|(least, _)| least >= gap.get() - NEARER)
    }

    /// The best row of exactly so many with equal clear gaps of at least `gap`.
    pub(in crate::place) fn of_count_clear(&self, measure: &mut Measure<'_>, count: u32, gap: Mm) -> Option<Choice> {
        let evened = self.starts(count).filter_map(|start| self.evened(measure, count, start));
        let wide = evened.filter(|(_, clear)| *clear >= gap.get() - crate::place::along::even::EQUAL);
        wide.map(|(choice, _)| choice).min_by_key(Choice::faults)
    }
}
