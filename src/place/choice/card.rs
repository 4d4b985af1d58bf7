//! The counts card: neighbouring counts side by side, one of them recommended.

use std::collections::BTreeMap;

use super::chosen::Choice;
use super::remedy::{self, Remedy};
use super::settle::compared;
use crate::art::Motif;
use crate::hem::Hem;
use crate::place::along::even::EQUAL;
use crate::place::along::row::SAME;
use crate::place::clash::clear::Measure;
use crate::place::ground::{self, Ground};
use crate::place::{BandSetting, BandWish, Clash, ClearGap, Evenness, Lands, PlaceError, Spacing, say};
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
    /// Factor on the motifs as drawn; 1 unless they are made to fit.
    pub size: f64,
    /// Whether all that stretches is set out evenly, whatever seams that comes too near.
    pub even: bool,
    /// The tightest row whose gap, in the sense that is kept even, is less than was asked for.
    pub too_small: Option<TightRow>,
    /// The tightest row in which true outlines come nearer to each other than was asked for, where the gap that is kept even is as
    /// wide in all rows, or in which they touch.
    pub clear_under: Option<TightRow>,
}

/// A row of a band that is too tight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TightRow {
    /// Its number from the hem up; `None` where the band has only one.
    pub number: Option<usize>,
    /// Its least gap.
    pub gap: Mm,
    /// What was asked for; nothing where no gap was.
    pub wanted: Mm,
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

/// The neighbouring counts of one of several bands. Each is shown as [`compared`] sets it out, the recommended one as the band itself is;
/// figures are those of its first row, where it has several.
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
///
/// # Panics
/// When there is no band of this index.
pub fn counts(
    hem: &Hem,
    motifs: &BTreeMap<String, Motif>,
    bands: &[BandWish],
    band: usize,
) -> Result<CountsCard, PlaceError> {
    let mut measure = Measure::new(motifs.values().collect());
    let grounds = bands.iter().map(|wish| Ground::new(hem, motifs, wish, 1.0));
    let mut grounds = grounds.collect::<Result<Vec<_>, _>>()?;
    ground::tell(&mut grounds);
    let (wish, ground) = (&bands[band], &grounds[band]);
    let chosen = ground.choose(&mut measure)?;
    let middle = chosen.choice.count;
    let neighbours = middle.saturating_sub(NEIGHBOURS).max(1)..=middle.saturating_add(NEIGHBOURS);
    let rows: Vec<CountRow> = neighbours
        .filter_map(|count| {
            if count == middle {
                return Some(row(&mut measure, ground, &chosen.choice, wish));
            }
            let other = compared(std::slice::from_ref(wish), 0, count);
            let ground = Ground::new(hem, motifs, &other[0], 1.0).ok()?;
            let choice = ground.choose(&mut measure).ok()?.choice;
            Some(row(&mut measure, &ground, &choice, wish))
        })
        .collect();
    let recommended = rows.iter().position(|row| row.count == middle).unwrap_or(0);
    let hung = ground.as_hung(&chosen.choice);
    let mut reasons = say::reasons(&chosen, ground, hung.as_ref());
    // What further rows have beside places to keep out of is no matter of course.
    let of_row = |index: usize| {
        let laid = &chosen.choice.rows[index];
        (laid.row.apart.is_some() || !laid.near.is_empty()).then(|| {
            let said = say::row_reasons(index, &chosen, ground, hung.as_ref());
            said.into_iter().map(move |said| format!("row {}: {said}", index + 1))
        })
    };
    reasons.extend((1..ground.tiers.len()).filter_map(of_row).flatten());
    let remedies = remedy::remedies(ground, motifs, &chosen, &mut measure);
    Ok(CountsCard { rows, recommended, reasons, remedies })
}

/// A choice on its ground as a row of the card, judged by what was asked for.
fn row(measure: &mut Measure<'_>, ground: &Ground<'_>, choice: &Choice, wish: &BandWish) -> CountRow {
    let mut bands = ground.rows_of(measure, choice);
    let too_small = too_small(&bands, wish);
    let clear = |band: &BandSetting| band.clear_gap.as_ref().map(|gap| gap.least);
    let wanted = wish.spacing.gap().unwrap_or(Mm::ZERO);
    let under = tightest(&bands, clear).map(|(number, gap)| TightRow { number, gap, wanted });
    let under = under.filter(|row| row.gap <= Mm::ZERO || row.gap.get() < wanted.get() - say::NEARER);
    let first = bands.swap_remove(0);
    CountRow {
        count: choice.count,
        repeat: first.repeat,
        gap_along: first.gap_along,
        clear_gap: first.clear_gap,
        on_cf: first.on_cf,
        on_cb: first.on_cb,
        clashes: first.clashes,
        size: ground.course().sequence.fit,
        even: choice.manner != Evenness::BetweenSeams,
        clear_under: under.filter(|row| row.gap <= Mm::ZERO || too_small.is_none()),
        too_small,
    }
}

/// The tightest of the rows that have a gap, with its number where there are several.
fn tightest(bands: &[BandSetting], gap: impl Fn(&BandSetting) -> Option<Mm>) -> Option<(Option<usize>, Mm)> {
    let gaps = (1..).zip(bands).filter_map(|(number, band)| Some((number, gap(band)?)));
    let (number, gap) = gaps.min_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(((bands.len() > 1).then_some(number), gap))
}

/// The tightest row whose gap, in the sense that is kept even, is less than was asked for.
fn too_small(bands: &[BandSetting], wish: &BandWish) -> Option<TightRow> {
    let (Spacing::AtLeast(wanted) | Spacing::Settled { gap: wanted, .. }) = wish.spacing else { return None };
    let ((number, gap), same) = if wish.rhythm.evenness == Evenness::ClearGap {
        (tightest(bands, |band| band.clear_gap.as_ref().map(|gap| gap.least))?, EQUAL)
    } else {
        (tightest(bands, |band| Some(band.gap_along))?, SAME)
    };
    (gap.get() < wanted.get() - same).then_some(TightRow { number, gap, wanted })
}
