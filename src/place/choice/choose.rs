//! Choosing the count, what lies on the middle, and how evenly motifs are spread.
//!
//! Every count from the most that fit down to a sixth fewer is tried with each middle that the wish allows. The fewest
//! motifs across seams win, then the fewest too near them; among equals the most motifs; among those a motif on the middle before a gap. Where
//! no even row is clear of them, each stretch from seam to seam is set out on its own. A place to keep out of counts more
//! than any number of motifs: where an even row would reach into it, the stretches beside it are set out on their own. Stretches
//! that keep clear of every seam but lose more than that sixth are passed over, and what they would have is told. So many as were
//! asked for are set out by the same rule, in stretches where those hold them all. Motifs that take turns round a ring want an even
//! count, so that no two of a kind meet.

use crate::hem::Ends;
use crate::place::along::even::even_out;
use crate::place::along::row::{Row, SAME, Seat, Start};
use crate::place::along::stretches::{Ask, Plot, between};
use crate::place::clash::clear::Measure;
use crate::place::clash::seams::{Keep, Near, too_near};
use crate::place::ground::{Ground, Tier};
use crate::place::{Anchor, Evenness, Hands, Lands, PlaceError, Spacing, Stance};
use crate::quantity::Mm;

/// One way to set a band out.
#[derive(Clone, Debug)]
pub(in crate::place) struct Choice {
    /// Motifs in the first row.
    pub(in crate::place) count: u32,
    pub(in crate::place) manner: Evenness,
    /// What bounds the stretches that are set out on their own, where any are.
    pub(in crate::place) bounds: Option<Bounds>,
    /// From the hem up.
    pub(in crate::place) rows: Vec<Laid>,
}

/// A row and what is too near in it.
#[derive(Clone, Debug)]
pub(in crate::place) struct Laid {
    pub(in crate::place) row: Row,
    pub(in crate::place) near: Vec<Near>,
}

/// What was chosen and what was passed over for it.
#[derive(Clone, Debug)]
pub(in crate::place) struct Chosen {
    pub(in crate::place) choice: Choice,
    /// Most that fit by the gap alone; the count itself where a count was asked for.
    pub(in crate::place) most: u32,
    /// Larger counts, with their best arrangement, largest first.
    pub(in crate::place) passed_over: Vec<Choice>,
    /// So few would keep clear of everything with each stretch on its own, too few to be taken for that.
    pub(in crate::place) too_few: Option<u32>,
}

impl Chosen {
    /// A choice for which nothing was passed over.
    pub(in crate::place) const fn only(choice: Choice, most: u32) -> Self {
        Self { choice, most, passed_over: Vec::new(), too_few: None }
    }
}

/// What bounds the stretches that are set out on their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum Bounds {
    /// Everything that must stay clear, and corners.
    All,
    /// Places to keep out of alone, and corners.
    Areas,
}

/// Counts are tried down to this part of the most that fit. A maker gives up one motif in six for clear seams without
/// being asked, not more; common practice, no source.
pub(in crate::place) const FEWEST: f64 = 5.0 / 6.0;

/// Most counts above the even-gap count that an equal clear gap may still take: pointed motifs stand closer at their widest
/// than anywhere else, so that their clear gap is the wider one.
const MORE_BY_CLEAR_GAP: u32 = 50;

impl Choice {
    /// The first row.
    pub(in crate::place) fn row(&self) -> &Row {
        &self.rows[0].row
    }

    /// How many motifs are too near something.
    pub(in crate::place) fn clashes(&self) -> usize {
        self.rows.iter().map(|laid| laid.near.len()).sum()
    }

    /// How many motifs reach into places to keep out of or the opening, how many lie across a seam, and how many are too near
    /// anything: the fewer the better, in this order.
    pub(in crate::place) fn faults(&self) -> (usize, usize, usize) {
        let near = || self.rows.iter().flat_map(|laid| &laid.near);
        let areas = near().filter(|near| near.firm).count();
        let across = near().filter(|near| !near.firm && near.clear < 0.0).count();
        (areas, across, self.clashes())
    }

    /// How many motifs further rows lack to have as many as the first.
    pub(in crate::place) fn short(&self) -> u32 {
        self.rows.iter().map(|laid| laid.row.short).sum()
    }

    /// Smallest gap along any row's line.
    pub(in crate::place) fn gap(&self) -> f64 {
        self.rows.iter().map(|laid| laid.row.gap()).fold(f64::INFINITY, f64::min)
    }

    /// The row and the motif that is worst.
    pub(in crate::place) fn worst(&self) -> Option<(usize, Near)> {
        let all = self.rows.iter().enumerate().flat_map(|(row, laid)| laid.near.iter().map(move |near| (row, *near)));
        all.min_by(|a, b| a.1.clear.total_cmp(&b.1.clear))
    }
}

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

    /// So many as were asked for, with the even row for which each stretch was set out on its own.
    fn instead_of_even(&self, measure: &mut Measure<'_>, choice: Choice) -> Chosen {
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
    fn even_of_count(&self, measure: &mut Measure<'_>, count: u32) -> Choice {
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

    /// Whether two of a kind would meet where so many that take turns in hand or height close round a ring; at an opening they may.
    pub(in crate::place) fn breaks_turns(&self, count: u32) -> bool {
        let turns = self.wish.hands == Hands::Alternating || self.wish.rhythm.wave.is_some();
        turns && matches!(self.hem.ends(), Ends::Closed) && count > 1 && count % 2 == 1
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
                apart.into_iter().flatten().min_by_key(Choice::faults)
            }
        }
    }

    /// Each stretch on its own in place of a choice that clashes: between everything that must stay clear, or, where that
    /// takes too much, between the places to keep out of alone.
    fn beside(
        &self,
        measure: &mut Measure<'_>,
        instead_of: &Choice,
        (gap, count): (f64, Option<u32>),
    ) -> Option<Choice> {
        if instead_of.clashes() == 0 {
            return None;
        }
        let apart = [Bounds::All, Bounds::Areas].map(|bounds| self.stretches(measure, gap, count, bounds));
        apart.into_iter().flatten().min_by_key(|choice| {
            let (areas, across, near) = choice.faults();
            (areas, choice.short(), across, near, std::cmp::Reverse(choice.count))
        })
    }

    /// The best row of exactly so many with equal clear gaps of at least `gap`.
    pub(in crate::place) fn of_count_clear(&self, measure: &mut Measure<'_>, count: u32, gap: Mm) -> Option<Choice> {
        let evened = self.starts(count).filter_map(|start| self.evened(measure, count, start));
        let wide = evened.filter(|(_, clear)| *clear >= gap.get() - crate::place::along::even::EQUAL);
        wide.map(|(choice, _)| choice).min_by_key(Choice::faults)
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

    /// The even rows of so many whose gap is as wide as asked in every row.
    fn wide_rows(&self, gap: Mm, count: u32) -> impl Iterator<Item = Choice> + '_ {
        let wide = move |choice: &Choice| choice.rows.iter().all(|laid| laid.row.gap() >= gap.get() - SAME);
        self.starts(count).map(move |start| self.arranged(count, start)).filter(wide)
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
        let mut count = highest.unwrap_or(most);
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
        if let Some(apart) = apart.filter(|apart| in_place_of(apart, &choice, fewest)) {
            let most = if choice.faults().0 > 0 { apart.count } else { most.max(apart.count) };
            return Ok(Chosen { passed_over: vec![choice], ..Chosen::only(apart, most) });
        }
        tried.truncate(best);
        Ok(Chosen { choice, most, passed_over: tried, too_few: None })
    }

    /// What may lie on the middle with so many: on a ring what the wish allows; an open row has one place only, which must
    /// put there what was asked for.
    fn starts(&self, count: u32) -> impl Iterator<Item = Start> + '_ {
        let closed = self.course().closed;
        let starts = if closed { self.allowed() } else { &self.allowed()[..1] };
        starts
            .iter()
            .copied()
            .filter(move |start| closed || suits(self.wish.on_cf, self.course().row(count, *start).lands(0.0)))
    }

    /// The even rows of exactly `count` motifs in the first one.
    pub(in crate::place) fn arranged(&self, count: u32, start: Start) -> Choice {
        let rows = self.tiers.iter().map(|tier| laid(tier, tier.even_row(count, start))).collect();
        Choice { count, manner: Evenness::Gap, bounds: None, rows }
    }

    /// The same with equal clear gaps, and the smallest of them.
    fn evened(&self, measure: &mut Measure<'_>, count: u32, start: Start) -> Option<(Choice, f64)> {
        let mut least = f64::INFINITY;
        let mut rows = Vec::new();
        for tier in &self.tiers {
            let mut row = tier.even_row(count, start);
            let clear = even_out(&mut row, |row| self.clears(measure, tier, row))?;
            least = least.min(clear);
            rows.push(laid(tier, row));
        }
        Some((Choice { count, manner: Evenness::ClearGap, bounds: None, rows }, least))
    }

    /// Evens the clear gaps of motifs that stand in one stretch, the first and the last staying where they are; gives the common
    /// clear gap, less than nothing where there is none.
    fn evened_run(&self, measure: &mut Measure<'_>, tier: &Tier, seats: &mut [Seat]) -> f64 {
        let mut row = Row::run(seats.to_vec());
        let Some(clear) = even_out(&mut row, |row| self.run_clears(measure, tier, row)) else { return -1.0 };
        seats.copy_from_slice(&row.seats);
        clear
    }

    /// The least distance between true outlines of neighbours that stand in one stretch.
    fn least_clear(&self, measure: &mut Measure<'_>, tier: &Tier, seats: &[Seat]) -> Option<f64> {
        self.run_clears(measure, tier, &Row::run(seats.to_vec()))?.into_iter().min_by(f64::total_cmp)
    }

    /// Each stretch between what must stay clear on its own, with at least a gap or with exactly a count in the first row;
    /// `None` where that cannot be had.
    pub(in crate::place) fn stretches(
        &self,
        measure: &mut Measure<'_>,
        gap: f64,
        count: Option<u32>,
        bounds: Bounds,
    ) -> Option<Choice> {
        let bounding = |keep: &&Keep| bounds == Bounds::All || keep.is_firm();
        let plots: Vec<Plot<'_>> = self
            .tiers
            .iter()
            .map(|tier| Plot {
                course: &tier.course,
                keeps: tier.keeps.iter().filter(bounding).collect(),
                nooks: &tier.nooks,
                shifted: tier.shifted,
            })
            .collect();
        let clear = self.manner() == Evenness::ClearGap;
        let stacked = self.stacked(Mm::new(gap));
        // Along some sides of a cloth motifs that stand upright reach further than they are wide.
        let upright = self.has_corners() && self.wish.stance == Stance::Upright;
        let ask = Ask { anchor: self.wish.on_cf, gap, count, stacked, clear: clear || upright, fewest: FEWEST };
        let mut gauge = |tier: usize, seats: &mut [Seat]| {
            if clear {
                return self.evened_run(measure, &self.tiers[tier], seats);
            }
            let along = least_gap(seats);
            if upright {
                self.least_clear(measure, &self.tiers[tier], seats).map_or(along, |c| c.min(along))
            } else {
                along
            }
        };
        let mut rows = between(&plots, ask, &mut gauge)?;
        let found = u32::try_from(rows[0].seats.len()).ok()?;
        let narrow = |row: &Row| !clear && row.seats.len() > 1 && row.gap() < gap - SAME;
        if rows.iter().any(narrow) || count.is_some_and(|count| count != found) {
            return None;
        }
        // A row without stretches is even in the sense that is asked for.
        for (tier, row) in self.tiers.iter().zip(&mut rows).filter(|(_, row)| clear && row.apart.is_none()) {
            let mut evened = row.clone();
            if even_out(&mut evened, |row| self.clears(measure, tier, row)).is_some() {
                *row = evened;
            }
        }
        if let Some(item) = self.corner_item() {
            for (tier, row) in self.tiers.iter().zip(&mut rows) {
                let free =
                    tier.nooks.iter().map(|nook| tier.corner_seat(*nook, item)).filter(|seat| tier.is_free(row, *seat));
                row.seats.extend(free.collect::<Vec<_>>());
                row.seats.sort_by(|a, b| a.s.total_cmp(&b.s));
            }
        }
        let rows = self.tiers.iter().zip(rows).map(|(tier, row)| laid(tier, row)).collect();
        Some(Choice { count: found, manner: Evenness::BetweenSeams, bounds: Some(bounds), rows })
    }
}

/// Whether stretches set out on their own are taken in place of an even row that clashes: where they keep clear of everything with at
/// least `fewest` motifs in every row, or of more places to keep out of.
fn in_place_of(apart: &Choice, even: &Choice, fewest: f64) -> bool {
    let clear = apart.clashes() == 0 && apart.short() == 0 && f64::from(apart.count) >= fewest;
    clear || apart.faults().0 < even.faults().0
}

/// The least gap along the line between seats in order.
fn least_gap(seats: &[Seat]) -> f64 {
    let gap = |pair: &[Seat]| pair[1].s - pair[0].s - pair[0].half - pair[1].half;
    seats.windows(2).map(gap).fold(f64::INFINITY, f64::min)
}

impl Tier {
    /// The even row that goes with `count` motifs in the first row.
    fn even_row(&self, count: u32, start: Start) -> Row {
        if !self.shifted {
            return self.course.row(count, start);
        }
        if self.course.closed {
            return self.course.row(count, self.own(start));
        }
        // One motif above each gap of an open row: half a repeat further in at both ends.
        let below = self.course.row(count, start);
        if count < 2 {
            return below;
        }
        let mut course = self.course.clone();
        let further = below.repeat() / 2.0;
        (course.ends, course.ends_raised) = (course.ends + further, course.ends_raised + further);
        course.row(count - 1, start)
    }
}

pub(in crate::place) fn laid(tier: &Tier, row: Row) -> Laid {
    let near = too_near(&row, &tier.keeps);
    Laid { row, near }
}

fn suits(anchor: Anchor, lands: Lands) -> bool {
    match anchor {
        Anchor::Motif => lands == Lands::Motif,
        Anchor::Gap => lands == Lands::Gap,
        Anchor::Best => true,
    }
}
