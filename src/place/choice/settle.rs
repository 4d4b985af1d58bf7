//! Counts that must be settled together: those of one band in several sizes of the garment, and those of bands tied to each
//! other.
//!
//! Every count of the band that leads, from the most that all of them take downward, is tried in every size and with every
//! band tied to it. The first that clashes with nothing anywhere is taken; where there is none, the one with fewest clashes.

use std::collections::BTreeMap;

use super::choose::FEWEST;
use super::chosen::Choice;
use super::sizes::SizeFault;
use crate::art::Motif;
use crate::hem::Hem;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::{BandWish, Evenness, PlaceError, Spacing, Tie, Together};
use crate::quantity::Mm;

/// Most counts tried where each trial evens out clear gaps.
const DEAR_TRIALS: usize = 8;

/// A count that suits all is looked for up to twice the one asked for and so many more: the parts of a tie go up to 12, and a
/// sequence is hardly longer.
const MOST_ROUND: u32 = 144;

/// A band in one size, and how its count follows that of the band that leads.
struct Member<'a> {
    ground: Ground<'a>,
    size: usize,
    band: usize,
    own: u32,
    of: u32,
    gap: Mm,
    /// What it would have without the others.
    alone: u32,
}

impl Member<'_> {
    /// Its count for a count of the band that leads.
    fn count(&self, lead: u32) -> Option<u32> {
        let all = lead.checked_mul(self.own)?;
        all.is_multiple_of(self.of).then(|| all / self.of)
    }

    /// The largest count of the band that leads whose own count is not above `own`.
    const fn lead(&self, own: u32) -> u32 {
        own.saturating_mul(self.of) / self.own
    }
}

/// The bands with the counts that must be settled together settled: in every size that is given the same count, and of bands
/// tied to each other both. Bands whose count stands already are left as they are.
///
/// # Errors
/// [`SizeFault`] of the first size in which a band cannot be had, or when no count suits all.
pub fn settle(
    hems: &[(String, &Hem)],
    motifs: &BTreeMap<String, Motif>,
    bands: &[BandWish],
) -> Result<Vec<BandWish>, SizeFault> {
    let first = || hems.first().map_or_else(String::new, |(name, _)| name.clone());
    let fault = |fault| SizeFault { size: first(), fault };
    for wish in bands {
        check_tie(bands, wish).map_err(fault)?;
    }
    let mut settled = bands.to_vec();
    for (lead, wish) in bands.iter().enumerate().filter(|(_, wish)| wish.rhythm.tie.is_none()) {
        let follows = |other: &BandWish| {
            let open = matches!(other.spacing, Spacing::AtLeast(_));
            open && other.rhythm.tie.as_ref().is_some_and(|tie| tie.to == wish.name)
        };
        let tied: Vec<usize> = (0..bands.len()).filter(|k| follows(&bands[*k])).collect();
        let several_sizes = hems.len() > 1 && matches!(wish.spacing, Spacing::AtLeast(_));
        if tied.is_empty() && !several_sizes {
            continue;
        }
        let together = match (hems.len() > 1, tied.is_empty()) {
            (true, true) => Together::Sizes,
            (true, false) => Together::SizesAndBands,
            (false, _) => Together::Bands,
        };
        let group: Vec<usize> = std::iter::once(lead).chain(tied).collect();
        let mut measure = Measure::new(motifs.values().collect());
        let members = members(hems, motifs, bands, (&group, &mut measure))?;
        let count = count_for_all(&members, wish, &mut measure)
            .map_err(|(member, fault)| SizeFault { size: hems[member].0.clone(), fault })?;
        let (held_by_row, even) = (held_by_row(&members, count), even_below(&members, count, &mut measure));
        for member in members.iter().filter(|member| member.size == 0) {
            let own = &mut settled[member.band];
            if let (Spacing::AtLeast(gap), Some(count)) = (own.spacing, member.count(count)) {
                let even = even.and_then(|even| member.count(even));
                own.spacing = Spacing::Settled { count, gap, alone: member.alone, with: together, held_by_row, even };
            }
        }
    }
    Ok(settled)
}

/// The bands with exactly so many motifs in one of them; bands tied to it follow where they can.
#[must_use]
pub fn with_count(bands: &[BandWish], band: usize, count: u32) -> Vec<BandWish> {
    let mut all = bands.to_vec();
    let Some(lead) = bands.get(band).map(|wish| wish.name.as_str()) else { return all };
    for (index, wish) in all.iter_mut().enumerate() {
        let tied = wish.rhythm.tie.as_ref().filter(|tie| tie.to == lead).and_then(|tie| tie.count(count));
        let own = if index == band { Some(count) } else { tied };
        let Some(own) = own else { continue };
        wish.spacing = match wish.spacing {
            Spacing::Fit { gap, .. } => Spacing::Fit { count: own, gap },
            Spacing::AtLeast(_) | Spacing::Count(_) | Spacing::Even(_) | Spacing::Settled { .. } => Spacing::Count(own),
        };
    }
    all
}

/// The bands as they are compared on a counts card, with exactly so many motifs in one of them: as [`with_count`], but that one
/// evenly spread, whatever seams that comes too near; only where an even row would reach into a place to keep out of each stretch on
/// its own. Motifs that are made to fit are made to fit so many.
#[must_use]
pub fn compared(bands: &[BandWish], band: usize, count: u32) -> Vec<BandWish> {
    let mut all = with_count(bands, band, count);
    if let Some(own) = all.get_mut(band)
        && let Spacing::Count(count) = own.spacing
    {
        own.spacing = Spacing::Even(count);
    }
    all
}

/// A tie must lead to another band that is tied to none.
fn check_tie(bands: &[BandWish], wish: &BandWish) -> Result<(), PlaceError> {
    let Some(tie) = wish.rhythm.tie.as_ref().filter(|_| matches!(wish.spacing, Spacing::AtLeast(_))) else {
        return Ok(());
    };
    let leads = bands.iter().any(|other| other.name == tie.to && other.rhythm.tie.is_none());
    if leads && tie.own > 0 && tie.of > 0 {
        return Ok(());
    }
    Err(PlaceError::TiedToNone { band: wish.name.clone(), to: tie.to.clone() })
}

/// Every band of a group in every size.
fn members<'a>(
    hems: &[(String, &'a Hem)],
    motifs: &BTreeMap<String, Motif>,
    bands: &'a [BandWish],
    (group, measure): (&[usize], &mut Measure<'_>),
) -> Result<Vec<Member<'a>>, SizeFault> {
    let mut members = Vec::new();
    for (size, (name, hem)) in hems.iter().enumerate() {
        for &band in group {
            let wish = &bands[band];
            let fault = |fault| SizeFault { size: name.clone(), fault };
            let ground = Ground::new(hem, motifs, wish, 1.0).map_err(fault)?;
            let alone = ground.choose(measure).map_err(fault)?.choice.count;
            let (own, of) = wish.rhythm.tie.as_ref().map_or((1, 1), |tie| (tie.own, tie.of));
            let gap = wish.spacing.gap().unwrap_or(Mm::ZERO);
            members.push(Member { ground, size, band, own, of, gap, alone });
        }
    }
    Ok(members)
}

/// The count of the band that leads that suits every member best; the index of the size that fails and why where none does.
fn count_for_all(
    members: &[Member<'_>],
    lead: &BandWish,
    measure: &mut Measure<'_>,
) -> Result<u32, (usize, PlaceError)> {
    let mut best: Option<((usize, usize, usize), u32)> = None;
    for count in candidates(members, lead) {
        let Some(faults) = faults(members, count, measure) else { continue };
        if best.is_none_or(|(fewest, _)| faults < fewest) {
            best = Some((faults, count));
        }
        if faults == (0, 0, 0) {
            break;
        }
    }
    best.map(|(_, count)| count).ok_or_else(|| none_suits(members, lead, measure))
}

impl Member<'_> {
    /// Motifs in a round of its sequence, where its row closes on itself and must hold whole rounds; 1 otherwise.
    fn round(&self) -> u32 {
        self.ground.course().sequence.step(self.ground.course().closed)
    }

    /// How it is set out with a count of the band that leads; `None` where it cannot have that.
    fn choice(&self, count: u32, measure: &mut Measure<'_>) -> Option<Choice> {
        let (own, spacing) = (self.count(count)?, self.ground.wish.spacing);
        self.ground.check_count(own).ok()?;
        let asked = matches!(spacing, Spacing::Count(_) | Spacing::Even(_) | Spacing::Fit { .. });
        match self.ground.settled(measure, own, self.gap) {
            Some(choice) if !matches!(spacing, Spacing::Count(_) | Spacing::Even(_)) => Some(choice),
            _ if asked => Some(self.ground.of_count(measure, own)),
            settled => settled,
        }
    }

    /// Whether so many, or what it would have alone, leave its sequence whole.
    fn keeps_sequence(&self, own: u32) -> bool {
        own.is_multiple_of(self.round()) || self.alone == own
    }
}

/// The further row of the band that leads that has no room for the next count that would suit all, where the first row and every other
/// band have.
fn held_by_row(members: &[Member<'_>], count: u32) -> Option<usize> {
    let lead = members.iter().find(|member| member.size == 0 && member.ground.wish.rhythm.tie.is_none())?;
    if lead.ground.manner() != Evenness::Gap || !matches!(lead.ground.wish.spacing, Spacing::AtLeast(_)) {
        return None;
    }
    let next = (count + 1..=count.saturating_add(MOST_ROUND)).find(|next| whole(members, *next))?;
    let others_have = members
        .iter()
        .filter(|member| (member.size, member.band) != (lead.size, lead.band))
        .all(|member| member.count(next).is_some_and(|own| own <= member.alone));
    let takes = lead.ground.takes(lead.gap);
    let (row, least) = takes.iter().enumerate().min_by_key(|(row, takes)| (**takes, *row))?;
    (others_have && row > 0 && *least < next && takes[0] >= next).then_some(row + 1)
}

/// The most below a count that suit all with even rows, where with so many each stretch is set out on its own in one of the bands.
fn even_below(members: &[Member<'_>], count: u32, measure: &mut Measure<'_>) -> Option<u32> {
    let apart = |member: &Member<'_>, count: u32, measure: &mut Measure<'_>| {
        let choice = member.choice(count, measure)?;
        Some((
            choice.manner == Evenness::BetweenSeams && member.ground.manner() != Evenness::BetweenSeams,
            choice.faults(),
        ))
    };
    let uneven = members.iter().any(|member| apart(member, count, measure).is_some_and(|(apart, _)| apart));
    if !uneven {
        return None;
    }
    let fewest = f64::from(count) * FEWEST;
    let fewer = (1..count).rev().take_while(|count| f64::from(*count) >= fewest).filter(|count| whole(members, *count));
    let trials =
        if members.iter().all(|member| member.ground.manner() == Evenness::Gap) { usize::MAX } else { DEAR_TRIALS };
    fewer.take(trials).find(|count| {
        members.iter().all(|member| apart(member, *count, measure).is_some_and(|found| found == (false, (0, 0, 0))))
    })
}

/// Whether a count of the band that leads gives every member a whole number of motifs, in whole rounds of its sequence.
fn whole(members: &[Member<'_>], count: u32) -> bool {
    let whole = |member: &Member<'_>| member.count(count).is_some_and(|own| own > 0 && member.keeps_sequence(own));
    members.iter().all(whole)
}

/// Counts of the band that leads that may suit all, the most first.
fn candidates(members: &[Member<'_>], lead: &BandWish) -> Vec<u32> {
    let whole = |count: &u32| whole(members, *count);
    if let Some(count) = lead.spacing.count() {
        return vec![count].into_iter().filter(whole).collect();
    }
    let even = |member: &Member<'_>| member.ground.manner() == Evenness::Gap;
    let most = |member: &Member<'_>| {
        let most = if even(member) { member.ground.most(member.gap).unwrap_or(member.alone) } else { member.alone };
        member.lead(most.max(member.alone))
    };
    let Some(highest) = members.iter().map(most).min() else { return Vec::new() };
    let alone = members.iter().map(|member| member.lead(member.alone)).min().unwrap_or(highest);
    let fewest = f64::from(highest.min(alone)) * FEWEST;
    let counts = (1..=highest).rev().take_while(|count| f64::from(*count) >= fewest).filter(whole);
    // Without a whole number near by the next one below must do.
    let further = (1..=highest).rev().filter(whole).take(1);
    let trials = if members.iter().all(even) { usize::MAX } else { DEAR_TRIALS };
    let mut all: Vec<u32> = counts.take(trials).collect();
    if all.is_empty() {
        all.extend(further);
    }
    all
}

/// What clashes in all members with a count; `None` where one of them cannot have it.
fn faults(members: &[Member<'_>], count: u32, measure: &mut Measure<'_>) -> Option<(usize, usize, usize)> {
    let mut all = (0, 0, 0);
    for member in members {
        let choice = member.choice(count, measure)?;
        let (areas, across, clashes) = choice.faults();
        let short = usize::try_from(choice.short()).unwrap_or(usize::MAX);
        all = (all.0 + areas, all.1 + across, all.2 + clashes + short);
    }
    Some(all)
}

/// Why no count suits: a part of a motif, a sequence that would break, or what the tied band that has least room would need;
/// and the nearest counts that suit all.
fn none_suits(members: &[Member<'_>], lead: &BandWish, measure: &mut Measure<'_>) -> (usize, PlaceError) {
    let least = members.iter().map(|member| member.lead(member.alone)).min().unwrap_or(0);
    let count = lead.spacing.count().unwrap_or_else(|| least.max(1));
    let near = nearest(members, count, measure);
    let tied = || members.iter().filter(|member| member.ground.wish.rhythm.tie.is_some());
    let part = tied().find(|member| member.count(count).is_none());
    let broken = || tied().find(|member| member.count(count).is_some_and(|own| !member.keeps_sequence(own)));
    let tight = || tied().min_by_key(|member| member.lead(member.alone));
    let Some(member) = part.or_else(broken).or_else(tight).or_else(|| members.first()) else {
        return (0, PlaceError::NoMotifs { band: lead.name.clone() });
    };
    let tie = member.ground.wish.rhythm.tie.clone().unwrap_or_else(|| Tie { to: lead.name.clone(), own: 1, of: 1 });
    let error = PlaceError::TieDoesNotFit {
        band: member.ground.wish.name.clone(),
        to: tie.to.clone(),
        lead: count,
        count: tie.count(count),
        round: member.round(),
        most: member.alone,
        of: tie.of,
        near,
    };
    (member.size, error)
}

/// The nearest counts of the band that leads, one below and one above, that suit all.
fn nearest(members: &[Member<'_>], count: u32, measure: &mut Measure<'_>) -> Vec<u32> {
    let mut suits = |count: &u32| faults(members, *count, measure).is_some();
    let below = (1..count).rev().filter(|count| whole(members, *count)).take(DEAR_TRIALS).find(&mut suits);
    let above = count.saturating_add(1)..=count.saturating_mul(2).saturating_add(MOST_ROUND);
    let above = above.filter(|count| whole(members, *count)).take(DEAR_TRIALS).find(&mut suits);
    below.into_iter().chain(above).collect()
}
