//! Choosing the count, what lies on the middle, and how evenly motifs are spread.
//!
//! Every count from the most that fit down to a sixth fewer is tried with each middle that the wish allows. The fewest
//! clashes with seams and openings win; among equals the most motifs; among those a motif on the middle before a gap. Where
//! no even row is clear of them, each stretch from seam to seam is set out on its own.

use super::clear::Measure;
use super::even::even_out;
use super::ground::{Ground, Tier};
use super::row::{Row, SAME, Start};
use super::seams::{Near, too_near};
use super::stretches::between_seams;
use super::{Anchor, Evenness, Lands, PlaceError, Spacing};
use crate::quantity::Mm;

/// One way to set a band out.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    /// Motifs in the first row.
    pub(super) count: u32,
    pub(super) manner: Evenness,
    /// From the hem up.
    pub(super) rows: Vec<Laid>,
}

/// A row and what is too near in it.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    pub(super) row: Row,
    pub(super) near: Vec<Near>,
}

/// What was chosen and what was passed over for it.
#[derive(Clone, Debug)]
pub(super) struct Chosen {
    pub(super) choice: Choice,
    /// Most that fit by the gap alone; the count itself where a count was asked for.
    pub(super) most: u32,
    /// Larger counts, with their best arrangement, largest first.
    pub(super) passed_over: Vec<Choice>,
}

/// Counts are tried down to this part of the most that fit. A maker gives up one motif in six for clear seams without
/// being asked, not more; common practice, no source.
const FEWEST: f64 = 5.0 / 6.0;

/// Most counts above the even-gap count that an equal clear gap may still take: pointed motifs stand closer at their widest
/// than anywhere else, so that their clear gap is the wider one.
const MORE_BY_CLEAR_GAP: u32 = 50;

impl Choice {
    /// The first row.
    pub(super) fn row(&self) -> &Row {
        &self.rows[0].row
    }

    /// How many motifs are too near something.
    pub(super) fn clashes(&self) -> usize {
        self.rows.iter().map(|laid| laid.near.len()).sum()
    }

    /// The row and the motif that is worst.
    pub(super) fn worst(&self) -> Option<(usize, Near)> {
        let all = self.rows.iter().enumerate().flat_map(|(row, laid)| laid.near.iter().map(move |near| (row, *near)));
        all.min_by(|a, b| a.1.clear.total_cmp(&b.1.clear))
    }
}

impl Ground<'_> {
    /// The best setting of the wish.
    pub(super) fn choose(&self, measure: &mut Measure<'_>) -> Result<Chosen, PlaceError> {
        let manner = self.manner();
        match self.wish.spacing {
            Spacing::AtLeast(gap) if manner == Evenness::ClearGap => self.most_by_clear_gap(measure, gap),
            Spacing::AtLeast(gap) if self.has_corners() => {
                let choice = self.between_seams(gap.get(), None).ok_or_else(|| self.does_not_fit(gap))?;
                Ok(Chosen { most: choice.count, choice, passed_over: Vec::new() })
            }
            Spacing::AtLeast(gap) => {
                let most = self.most(gap)?;
                if manner == Evenness::BetweenSeams
                    && let Some(choice) = self.between_seams(gap.get(), None)
                {
                    return Ok(Chosen { choice, most, passed_over: Vec::new() });
                }
                Ok(self.fewest_clashes(gap, most))
            }
            Spacing::Count(count) | Spacing::Fit { count, .. } => {
                self.check_count(count)?;
                Ok(Chosen { choice: self.of_count(measure, count), most: count, passed_over: Vec::new() })
            }
        }
    }

    /// What is kept even: round corners nothing but the stretches between them can be.
    fn manner(&self) -> Evenness {
        if self.has_corners() { Evenness::BetweenSeams } else { self.wish.rhythm.evenness }
    }

    /// The best row of exactly so many.
    pub(super) fn of_count(&self, measure: &mut Measure<'_>, count: u32) -> Choice {
        let found = match self.manner() {
            Evenness::BetweenSeams => self.between_seams(0.0, Some(count)),
            Evenness::ClearGap => {
                let evened = self.starts(count).filter_map(|start| self.evened(measure, count, start));
                evened.map(|(choice, _)| choice).min_by_key(Choice::clashes)
            }
            Evenness::Gap => None,
        };
        let even = || self.starts(count).map(|start| self.arranged(count, start)).min_by_key(Choice::clashes);
        found.or_else(even).unwrap_or_else(|| self.arranged(count, Start::Motif))
    }

    /// The best row of exactly so many with equal clear gaps of at least `gap`.
    pub(super) fn of_count_clear(&self, measure: &mut Measure<'_>, count: u32, gap: Mm) -> Option<Choice> {
        let evened = self.starts(count).filter_map(|start| self.evened(measure, count, start));
        let wide = evened.filter(|(_, clear)| *clear >= gap.get() - super::even::EQUAL);
        wide.map(|(choice, _)| choice).min_by_key(Choice::clashes)
    }

    /// The best even row of at most `most` motifs, or, where none is clear, each stretch on its own.
    fn fewest_clashes(&self, gap: Mm, most: u32) -> Chosen {
        let fewest = f64::from(most) * FEWEST;
        let mut tried: Vec<Choice> = Vec::new();
        let mut best: Option<usize> = None;
        for count in self.worth_trying(most) {
            tried.extend(self.wide_rows(gap, count).min_by_key(Choice::clashes));
            let Some(latest) = tried.len().checked_sub(1) else { continue };
            if best.is_none_or(|best| tried[latest].clashes() < tried[best].clashes()) {
                best = Some(latest);
            }
            if tried[latest].clashes() == 0 {
                break;
            }
        }
        let Some(best) = best else {
            return Chosen { choice: self.arranged(most, Start::Motif), most, passed_over: Vec::new() };
        };
        let choice = tried.swap_remove(best);
        if choice.clashes() > 0
            && let Some(apart) = self.between_seams(gap.get(), None)
            && apart.clashes() == 0
            && f64::from(apart.count) >= fewest
        {
            tried.push(choice);
            tried.retain(|choice| choice.count >= apart.count);
            tried.sort_by_key(|choice| std::cmp::Reverse(choice.count));
            return Chosen { choice: apart, most, passed_over: tried };
        }
        tried.truncate(best);
        Chosen { choice, most, passed_over: tried }
    }

    /// The even row of the most motifs, at least `fewest`, that clashes with nothing.
    pub(super) fn clear_row(&self, gap: Mm, fewest: u32) -> Option<Choice> {
        let mut counts = self.worth_trying(self.most(gap).ok()?).take_while(|count| *count >= fewest);
        counts.find_map(|count| self.wide_rows(gap, count).find(|choice| choice.clashes() == 0))
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
                let clear = choice.clashes() == 0;
                if best.is_none_or(|best| choice.clashes() < tried[best].clashes()) {
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
            return Ok(Chosen { choice: self.arranged(most, Start::Motif), most, passed_over: Vec::new() });
        };
        let (most, choice) = (tried[0].count, tried.swap_remove(best));
        tried.truncate(best);
        Ok(Chosen { choice, most, passed_over: tried })
    }

    /// What may lie on the middle with so many: on a ring what the wish allows; an open row has one place only, which must
    /// put there what was asked for.
    fn starts(&self, count: u32) -> impl Iterator<Item = Start> + '_ {
        let starts: &[Start] = match self.wish.on_cf {
            Anchor::Motif => &[Start::Motif],
            Anchor::Gap => &[Start::Gap],
            Anchor::Best => &[Start::Motif, Start::Gap],
        };
        let closed = self.course().closed;
        let starts = if closed { starts } else { &starts[..1] };
        starts
            .iter()
            .copied()
            .filter(move |start| closed || suits(self.wish.on_cf, self.course().row(count, *start).lands(0.0)))
    }

    /// The even rows of exactly `count` motifs in the first one.
    pub(super) fn arranged(&self, count: u32, start: Start) -> Choice {
        let rows = self.tiers.iter().map(|tier| laid(tier, tier.even_row(count, start))).collect();
        Choice { count, manner: Evenness::Gap, rows }
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
        Some((Choice { count, manner: Evenness::ClearGap, rows }, least))
    }

    /// Each stretch from seam to seam on its own.
    pub(super) fn between_seams(&self, gap: f64, count: Option<u32>) -> Option<Choice> {
        // Further rows follow the first one's count, which only an even row can share with them.
        let [tier] = self.tiers.as_slice() else { return None };
        let (keeps, nooks) = (&tier.keeps, &tier.nooks);
        let mut row = between_seams(&tier.course, keeps, nooks, self.wish.on_cf, (gap, count))?;
        let count = u32::try_from(row.seats.len()).ok()?;
        if let Some(item) = self.corner_item() {
            row.seats.extend(nooks.iter().map(|nook| tier.corner_seat(*nook, item)));
            row.seats.sort_by(|a, b| a.s.total_cmp(&b.s));
        }
        Some(Choice { count, manner: Evenness::BetweenSeams, rows: vec![laid(tier, row)] })
    }
}

impl Tier {
    /// The even row that goes with `count` motifs in the first row.
    fn even_row(&self, count: u32, start: Start) -> Row {
        if !self.shifted {
            return self.course.row(count, start);
        }
        if self.course.closed {
            let flipped = if start == Start::Motif { Start::Gap } else { Start::Motif };
            return self.course.row(count, flipped);
        }
        // One motif above each gap of an open row: half a repeat further in at both ends.
        let below = self.course.row(count, start);
        if count < 2 {
            return below;
        }
        let mut course = self.course.clone();
        course.ends += below.repeat() / 2.0;
        course.row(count - 1, start)
    }
}

fn laid(tier: &Tier, row: Row) -> Laid {
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
