//! What else could be done: the cheapest changes that leave every seam clear, or let in motifs that were given up.
//!
//! Each kind of change is tried from the smallest step upward and the first that serves is kept; the list is ranked by what
//! the change costs the eye and the maker.

use std::collections::BTreeMap;

use super::chosen::{Choice, Chosen};
use super::equal_clear;
use crate::art::Motif;
use crate::hem::Hem;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::say::Kept;
use crate::place::{Anchor, BandWish, Evenness, Lands, Spacing, say};
use crate::quantity::Mm;

/// A change to the wish and what it brings.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What to change.
    pub change: Change,
    /// What it brings.
    pub outcome: Outcome,
    /// Change and outcome in one plain sentence.
    pub say: String,
}

/// A change to the wish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// Another thing on the middle.
    Middle(Anchor),
    /// Another count.
    Count(u32),
    /// Another count of the band that this one is tied to.
    Lead(u32),
    /// Every motif smaller: the widest by so much, all by this factor.
    Narrow {
        /// Taken off the widest motif's width.
        by: Mm,
        /// Factor on every motif.
        factor: f64,
    },
    /// The motif line moved up, or down where negative.
    Raise(Mm),
    /// Every motif of an even row so far along, toward growing s.
    Shift(Mm),
    /// A smaller least gap.
    Gap(Mm),
    /// Each stretch from seam to seam on its own.
    BetweenSeams,
    /// Equal distances between true outlines in place of equal gaps along the line.
    ClearGap(ClearGaps),
}

/// What equal clear gaps bring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearGaps {
    /// The least and the greatest distance between true outlines with equal gaps along the line.
    pub now: (Mm, Mm),
    /// The one of all neighbours then.
    pub then: Mm,
}

/// What a change brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// How many motifs.
    pub count: u32,
    /// Smallest gap along the motif line.
    pub gap_along: Mm,
    /// Greatest gap along the motif line.
    pub widest_gap: Mm,
    /// What lies on the middle (CF).
    pub on_middle: Lands,
    /// What lies opposite, on a ring (CB).
    pub opposite: Option<Lands>,
}

/// The step in which sizes, heights and gaps are tried: what a maker can measure.
const STEP: Mm = Mm::new(1.0);

/// Most steps; a motif of more than a metre is not made smaller by a sixth.
const MOST_STEPS: u32 = 200;

/// Steps that are tried where each trial evens out clear gaps.
const DEAR_STEPS: [u32; 8] = [1, 2, 3, 5, 8, 12, 18, 25];

/// So many counts above the one that would do are tried there.
const MORE_BY_CLEAR_GAP: u32 = 2;

/// Most smaller counts that are tried, each of which may have to be evened out.
const MOST_FEWER: usize = 24;

/// Most a motif is made smaller: a sixth; beyond it, it is another motif. Common practice, no source.
const MOST_NARROWER: f64 = 1.0 / 6.0;

/// Most a line is moved, and most a gap is made smaller. Common practice, no source.
const MOST_MOVED: Mm = Mm::new(25.0);

/// What changes cost, only to rank them: a per cent of size is 1, and the rest is weighed against that by eye.
mod cost {
    pub(in crate::place) const MIDDLE: f64 = 2.0;
    pub(in crate::place) const MOTIF_LOST: f64 = 3.0;
    pub(in crate::place) const PER_CENT_SMALLER: f64 = 1.0;
    pub(in crate::place) const MILLIMETRE_MOVED: f64 = 0.3;
    /// The middle of the row is then on CF no more.
    pub(in crate::place) const MILLIMETRE_SHIFTED: f64 = 0.6;
    pub(in crate::place) const MILLIMETRE_OF_GAP: f64 = 0.5;
    pub(in crate::place) const MILLIMETRE_UNEVEN: f64 = 0.25;
}

/// The remedies for a choice, cheapest first; none where nothing is amiss.
pub(in crate::place) fn remedies(
    ground: &Ground<'_>,
    motifs: &BTreeMap<String, Motif>,
    chosen: &Chosen,
    measure: &mut Measure<'_>,
) -> Vec<Remedy> {
    // What is compared is no plan, and needs no remedy.
    if matches!(ground.wish.spacing, Spacing::Even(_)) {
        return Vec::new();
    }
    let (hem, wish, kept) = (ground.hem, ground.wish, Kept::of(ground));
    let equal = equal_clear::offered(measure, ground, &chosen.choice).map(|(choice, gaps)| {
        let (change, outcome) = (Change::ClearGap(gaps), outcome(ground, &choice));
        let lost = f64::from(chosen.choice.count.saturating_sub(choice.count));
        let uneven = (outcome.widest_gap - outcome.gap_along).get();
        let cost = cost::MIDDLE + cost::MOTIF_LOST * lost + cost::MILLIMETRE_UNEVEN * uneven;
        (cost, Remedy { change, outcome, say: say::remedy(change, outcome, wish, (hem, &kept)) })
    });
    let choice = &chosen.choice;
    let clashes = choice.clashes() > 0;
    // So many as were asked for keep clear of everything only with gaps that differ from stretch to stretch.
    let uneven =
        asks_for_it(wish) && chosen.passed_over.iter().any(|even| even.faults().0 == 0) && choice.row().apart.is_some();
    let amiss = clashes || choice.short() > 0 || uneven || chosen.most > choice.count;
    if !amiss {
        return equal.into_iter().map(|(_, remedy)| remedy).collect();
    }
    let more = !clashes && choice.short() == 0 && !uneven;
    let goal = choice.count + u32::from(more);
    let (beside, apart) = (choice.short() > 0, choice.manner == Evenness::BetweenSeams);
    let mut trial = Trial { own: (ground, choice), hem, motifs, wish, goal, beside, apart, kept, measure };
    let found = [
        trial.middle(),
        trial.count(chosen),
        trial.fewer(),
        trial.settled_even(),
        trial.narrow(),
        trial.raise(),
        trial.shift(),
        trial.gap(),
        trial.between(chosen.too_few),
        equal,
    ];
    let mut found: Vec<(f64, Remedy)> = found.into_iter().flatten().collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, remedy)| remedy).collect()
}

/// What is tried against.
struct Trial<'a, 'm> {
    /// The ground and the choice as they are.
    own: (&'a Ground<'a>, &'a Choice),
    hem: &'a Hem,
    motifs: &'a BTreeMap<String, Motif>,
    wish: &'a BandWish,
    /// Fewest motifs a remedy must leave.
    goal: u32,
    /// Whether stretches beside a place to keep out of are none the worse, since a further row lacks motifs there.
    beside: bool,
    /// Whether each stretch is set out on its own already.
    apart: bool,
    /// What must be kept clear, for the words.
    kept: Kept,
    measure: &'a mut Measure<'m>,
}

type Costed = (f64, Remedy);

impl Trial<'_, '_> {
    /// The choice of a changed wish, if it clashes with nothing and keeps enough motifs.
    fn clear(&mut self, wish: &BandWish, size: f64, fewest: u32) -> Option<(Choice, Outcome)> {
        let ground = Ground::new(self.hem, self.motifs, wish, size).ok()?;
        self.clear_on(&ground, wish, fewest)
    }

    fn clear_on(&mut self, ground: &Ground<'_>, wish: &BandWish, fewest: u32) -> Option<(Choice, Outcome)> {
        let choice = match wish.spacing {
            // Evening out costs a hundred times what an even row does: the few counts that would do are tried, no others.
            Spacing::AtLeast(gap) | Spacing::Settled { gap, .. } if wish.rhythm.evenness == Evenness::ClearGap => {
                let counts = (fewest..=fewest + MORE_BY_CLEAR_GAP).filter(|count| !ground.breaks_turns(*count));
                counts.filter(|count| ground.check_count(*count).is_ok()).find_map(|count| {
                    let choice = ground.of_count_clear(self.measure, count, gap)?;
                    (choice.clashes() == 0).then_some(choice)
                })?
            }
            // Of even rows only clear ones serve: none that clashes need be weighed against another.
            Spacing::AtLeast(gap) if wish.rhythm.evenness == Evenness::Gap && !ground.has_corners() => {
                ground.clear_row(gap, fewest)?
            }
            _ => ground.choose(self.measure).ok()?.choice,
        };
        let even = choice.manner == wish.rhythm.evenness || self.beside;
        let whole = choice.short() == 0 && (asks_for_it(wish) || !ground.breaks_turns(choice.count));
        let serves = choice.clashes() == 0 && choice.count >= fewest && even && whole;
        serves.then(|| (choice.clone(), outcome(ground, &choice)))
    }

    /// One step, two steps, up to a limit; where each trial is dear, steps that grow.
    fn steps(&self, limit: Mm) -> impl Iterator<Item = Mm> + use<> {
        let all: Vec<u32> = match self.wish.rhythm.evenness {
            Evenness::ClearGap => DEAR_STEPS.to_vec(),
            Evenness::Gap | Evenness::BetweenSeams => (1..=MOST_STEPS).collect(),
        };
        all.into_iter().map(|k| STEP * f64::from(k)).take_while(move |step| *step <= limit)
    }

    fn costed(&self, change: Change, cost: f64, outcome: Outcome) -> Costed {
        let say = say::remedy(change, outcome, self.wish, (self.hem, &self.kept));
        (cost, Remedy { change, outcome, say })
    }

    fn middle(&mut self) -> Option<Costed> {
        let other = match self.wish.on_cf {
            Anchor::Motif => Anchor::Gap,
            Anchor::Gap => Anchor::Motif,
            Anchor::Best => return None,
        };
        let wish = BandWish { on_cf: other, ..self.wish.clone() };
        let (_, outcome) = self.clear(&wish, 1.0, self.goal)?;
        Some(self.costed(Change::Middle(other), cost::MIDDLE, outcome))
    }

    /// Neighbouring counts, where a count was asked for.
    fn count(&mut self, chosen: &Chosen) -> Option<Costed> {
        let Spacing::Count(asked) = self.wish.spacing else { return None };
        (1..=chosen.most / 6 + 2).flat_map(|by| [asked.saturating_sub(by), asked + by]).filter(|n| *n > 0).find_map(
            |count| {
                let wish = BandWish { spacing: Spacing::Count(count), ..self.wish.clone() };
                let (_, outcome) = self.clear(&wish, 1.0, count)?;
                let lost = f64::from(count.abs_diff(asked));
                Some(self.costed(Change::Count(count), cost::MOTIF_LOST * lost, outcome))
            },
        )
    }

    /// Fewer than the most that leave the gap asked for, where those come too near something.
    fn fewer(&mut self) -> Option<Costed> {
        let ((ground, choice), Spacing::AtLeast(gap)) = (self.own, self.wish.spacing) else { return None };
        let step = ground.course().sequence.step(ground.course().closed);
        let manner = ground.manner();
        if choice.clashes() == 0 || manner == Evenness::BetweenSeams {
            return None;
        }
        let fewer = (1..choice.count).rev().take_while(|count| 2 * count >= choice.count);
        let fewer = fewer.filter(|count| (choice.count - count).is_multiple_of(step) && !ground.breaks_turns(*count));
        let found = fewer.take(MOST_FEWER).find_map(|count| {
            let clear = |choice: &Choice| choice.clashes() == 0;
            match manner {
                Evenness::ClearGap => ground.of_count_clear(self.measure, count, gap).filter(clear),
                Evenness::Gap | Evenness::BetweenSeams => ground.wide_rows(gap, count).find(clear),
            }
        })?;
        let lost = f64::from(choice.count - found.count);
        Some(self.costed(Change::Count(found.count), cost::MOTIF_LOST * lost, outcome(ground, &found)))
    }

    /// Fewer in all bands that were settled together, where so many leave this one unlike gaps.
    fn settled_even(&mut self) -> Option<Costed> {
        let ((ground, choice), Spacing::Settled { count, gap, even: Some(even), .. }) = (self.own, self.wish.spacing)
        else {
            return None;
        };
        choice.row().apart?;
        let found = ground.settled(self.measure, even, gap)?;
        let change = match &self.wish.rhythm.tie {
            Some(tie) => Change::Lead(even.checked_mul(tie.of)? / tie.own),
            None => Change::Count(even),
        };
        Some(self.costed(change, cost::MOTIF_LOST * f64::from(count - even), outcome(ground, &found)))
    }

    fn narrow(&mut self) -> Option<Costed> {
        let named = self.wish.motifs.iter().filter_map(|name| self.motifs.get(name));
        let widest = named.map(|motif| motif.width).fold(Mm::ZERO, Mm::max);
        self.steps(widest * MOST_NARROWER).find_map(|by| {
            let factor = (widest - by) / widest;
            let (_, outcome) = self.clear(self.wish, factor, self.goal)?;
            let cost = cost::PER_CENT_SMALLER * (1.0 - factor) * 100.0;
            Some(self.costed(Change::Narrow { by, factor }, cost, outcome))
        })
    }

    fn raise(&mut self) -> Option<Costed> {
        self.steps(MOST_MOVED).flat_map(|by| [by, -by]).find_map(|by| {
            let height = self.wish.height + by;
            let wish = BandWish { height, ..self.wish.clone() };
            let ground = Ground::new(self.hem, self.motifs, &wish, 1.0).ok().filter(|_| height >= Mm::ZERO)?;
            let (choice, outcome) = self.clear_on(&ground, &wish, self.goal)?;
            let (ground_now, choice_now) = self.own;
            ground_now.may_move(ground_now.strip(choice_now), ground.strip(&choice)).then_some(())?;
            Some(self.costed(Change::Raise(by), cost::MILLIMETRE_MOVED * by.abs().get(), outcome))
        })
    }

    /// The whole row along the line, where it is even and closes on itself.
    fn shift(&mut self) -> Option<Costed> {
        if !self.hem.is_closed() || self.wish.rhythm.evenness == Evenness::BetweenSeams {
            return None;
        }
        // The ground stays the same but for the shift; what fits unshifted fits shifted.
        let mut ground = Ground::new(self.hem, self.motifs, self.wish, 1.0).ok()?;
        let least = match self.wish.spacing {
            Spacing::AtLeast(gap) | Spacing::Settled { gap, .. } if self.wish.rhythm.evenness == Evenness::ClearGap => {
                gap
            }
            Spacing::AtLeast(gap) if ground.most(gap).ok()? < self.goal => return None,
            _ => Mm::ZERO,
        };
        self.steps(MOST_MOVED).flat_map(|by| [by, -by]).find_map(|by| {
            for tier in &mut ground.tiers {
                tier.course.shift = (self.wish.rhythm.shift + by).get();
            }
            let choice = match self.wish.rhythm.evenness {
                Evenness::ClearGap => ground.of_count_clear(self.measure, self.goal, least)?,
                Evenness::Gap | Evenness::BetweenSeams => ground.of_count(self.measure, self.goal),
            };
            // Stretches that are set out on their own are not shifted.
            let shifted = choice.clashes() == 0 && choice.manner != Evenness::BetweenSeams;
            let outcome = shifted.then(|| outcome(&ground, &choice))?;
            Some(self.costed(Change::Shift(by), cost::MILLIMETRE_SHIFTED * by.abs().get(), outcome))
        })
    }

    fn gap(&mut self) -> Option<Costed> {
        let Spacing::AtLeast(gap) = self.wish.spacing else { return None };
        self.steps(MOST_MOVED.min(gap)).find_map(|by| {
            let wish = BandWish { spacing: Spacing::AtLeast(gap - by), ..self.wish.clone() };
            let (_, outcome) = self.clear(&wish, 1.0, self.goal)?;
            Some(self.costed(Change::Gap(gap - by), cost::MILLIMETRE_OF_GAP * by.get(), outcome))
        })
    }

    /// Each stretch on its own, also with fewer than are taken for that unasked.
    fn between(&mut self, fewer: Option<u32>) -> Option<Costed> {
        // What stretches keep of the draft they lose where it hung otherwise: seams move with their quarters, and gaps shrink.
        if self.apart || self.wish.rhythm.evenness == Evenness::BetweenSeams || self.hem.as_hung().is_some() {
            return None;
        }
        let mut wish = self.wish.clone();
        wish.rhythm.evenness = Evenness::BetweenSeams;
        let fewest = fewer.map_or(self.goal, |fewer| fewer.min(self.goal));
        let (_, outcome) = self.clear(&wish, 1.0, fewest)?;
        let uneven = (outcome.widest_gap - outcome.gap_along).get();
        let lost = f64::from(self.goal.saturating_sub(outcome.count));
        let cost = cost::MIDDLE + cost::MILLIMETRE_UNEVEN * uneven + cost::MOTIF_LOST * lost;
        Some(self.costed(Change::BetweenSeams, cost, outcome))
    }
}

/// Whether a wish itself asks for so many.
const fn asks_for_it(wish: &BandWish) -> bool {
    matches!(wish.spacing, Spacing::Count(_) | Spacing::Even(_) | Spacing::Fit { .. } | Spacing::Settled { .. })
}

/// What a choice brings, on the hem as it hung where it did.
fn outcome(ground: &Ground<'_>, choice: &Choice) -> Outcome {
    let hung = ground.as_hung(choice);
    let row = hung.as_ref().map_or(choice, |hung| &hung.choice).row();
    let widest = row.gaps().fold(row.gap(), f64::max);
    Outcome {
        count: choice.count,
        gap_along: Mm::new(row.gap()),
        widest_gap: Mm::new(widest),
        on_middle: choice.row().lands(0.0),
        opposite: choice.row().round.map(|round| choice.row().lands(round / 2.0)),
    }
}
