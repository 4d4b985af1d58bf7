//! The counts card: neighbouring counts side by side, one of them recommended.

use std::collections::BTreeMap;

use super::chosen::Choice;
use super::remedy::{self, Remedy};
use crate::art::Motif;
use crate::hem::Hem;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::{BandWish, Clash, ClearGap, Evenness, Lands, PlaceError, Spacing, say};
use crate::quantity::Mm;

/// How many counts on each side of the recommended one.
const NEIGHBOURS: u32 = 3;

/// One count and what it brings; sheets, cost and minutes are added by whoever knows films and presses.
#[derive(Clone, Debug, PartialEq)]
pub struct CountRow {
    /// How many motifs, as `count` of a job asks for them: those in corners not among them.
    pub count: u32,
    /// Middle to middle along the motif line.
    pub repeat: Mm,
    /// Repeat less motif width.
    pub gap_along: Mm,
    /// Shortest distance between true outlines.
    pub clear_gap: Option<ClearGap>,
    /// What lies on centre front.
    pub on_cf: Lands,
    /// What lies on centre back.
    pub on_cb: Lands,
    /// What is too near what.
    pub clashes: Vec<Clash>,
    /// Whether the gap is as wide as asked, in the sense that is kept even; true where no gap was asked for.
    pub wide_enough: bool,
    /// The gap that was asked for, where true outlines come nearer to each other than that though the gap that is kept even is as
    /// wide.
    pub clear_under: Option<Mm>,
}

/// Neighbouring counts side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct CountsCard {
    /// From the fewest to the most.
    pub rows: Vec<CountRow>,
    /// Index of the recommended row.
    pub recommended: usize,
    /// Why it is recommended, in plain sentences.
    pub reasons: Vec<String>,
    /// What else could be done, cheapest first; empty where nothing is amiss.
    pub remedies: Vec<Remedy>,
}

/// The neighbouring counts of one band (of its first row, where it has several).
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
pub fn counts(hem: &Hem, motifs: &BTreeMap<String, Motif>, wish: &BandWish) -> Result<CountsCard, PlaceError> {
    let mut measure = Measure::new(motifs.values().collect());
    let ground = Ground::new(hem, motifs, wish, 1.0)?;
    let chosen = ground.choose(&mut measure)?;
    let middle = chosen.choice.count;
    let neighbours = middle.saturating_sub(NEIGHBOURS).max(1)..=middle.saturating_add(NEIGHBOURS);
    let rows: Vec<CountRow> = neighbours
        .filter(|count| *count == middle || ground.check_count(*count).is_ok())
        .map(|count| {
            let choice = if count == middle { chosen.choice.clone() } else { ground.for_card(&mut measure, count) };
            let band = ground.first_row(&mut measure, &choice);
            // What is marked as too small is the gap that is shown.
            let now = ground.as_hung(&choice).map_or(choice, |hung| hung.choice);
            row(&now, band, wish)
        })
        .collect();
    let recommended = rows.iter().position(|row| row.count == middle).unwrap_or(0);
    let hung = ground.as_hung(&chosen.choice);
    let mut reasons = say::reasons(&chosen, &ground, hung.as_ref());
    // What further rows have beside places to keep out of is no matter of course.
    let of_row = |index: usize| {
        let laid = &chosen.choice.rows[index];
        (laid.row.apart.is_some() || !laid.near.is_empty()).then(|| {
            let said = say::row_reasons(index, &chosen, &ground, hung.as_ref());
            said.into_iter().map(move |said| format!("row {}: {said}", index + 1))
        })
    };
    reasons.extend((1..ground.tiers.len()).filter_map(of_row).flatten());
    let remedies = remedy::remedies(&ground, motifs, &chosen, &mut measure);
    Ok(CountsCard { rows, recommended, reasons, remedies })
}

fn row(choice: &Choice, band: crate::place::BandSetting, wish: &BandWish) -> CountRow {
    let clear = band.clear_gap.as_ref().map(|gap| gap.least);
    let wide_enough = wide_enough(choice, clear, wish);
    let under = |wanted: &Mm| clear.is_some_and(|clear| clear.get() < wanted.get() - say::NEARER);
    CountRow {
        count: choice.count,
        repeat: band.repeat,
        gap_along: band.gap_along,
        clear_gap: band.clear_gap,
        on_cf: band.on_cf,
        on_cb: band.on_cb,
        clashes: band.clashes,
        wide_enough,
        clear_under: wish.spacing.gap().filter(under).filter(|_| wide_enough),
    }
}

/// Whether the gap that is kept even is as wide as asked.
fn wide_enough(choice: &Choice, clear: Option<Mm>, wish: &BandWish) -> bool {
    match wish.spacing {
        Spacing::AtLeast(wanted) | Spacing::Settled { gap: wanted, .. }
            if wish.rhythm.evenness == Evenness::ClearGap =>
        {
            clear.is_none_or(|clear| clear.get() >= wanted.get() - crate::place::along::even::EQUAL)
        }
        Spacing::AtLeast(wanted) | Spacing::Settled { gap: wanted, .. } => {
            choice.gap() >= wanted.get() - crate::place::along::row::SAME
        }
        Spacing::Count(_) | Spacing::Fit { .. } => true,
    }
}
