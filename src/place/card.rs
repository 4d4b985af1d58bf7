//! The counts card: neighbouring counts side by side, one of them recommended.

use std::collections::BTreeMap;

use super::band::Ground;
use super::say;
use super::{BandWish, Clash, ClearGap, Lands, PlaceError, Spacing};
use crate::art::Motif;
use crate::hem::{Hem, Mark};
use crate::quantity::Mm;

/// How many counts on each side of the recommended one.
const NEIGHBOURS: u32 = 3;

/// One count and what it brings; sheets, cost and minutes are added by whoever knows films and presses.
#[derive(Clone, Debug, PartialEq)]
pub struct CountRow {
    /// How many motifs.
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
    /// Whether the gap along the line is as wide as asked; true where no gap was asked for.
    pub wide_enough: bool,
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
}

/// The neighbouring counts of one band.
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
pub fn counts(hem: &Hem, motifs: &BTreeMap<String, Motif>, wish: &BandWish) -> Result<CountsCard, PlaceError> {
    let ground = Ground::new(hem, motifs, wish)?;
    let chosen = ground.choose()?;
    let middle = chosen.choice.count;
    let fits = |count: &u32| ground.course.width_of(*count) <= ground.course.room();
    let neighbours = middle.saturating_sub(NEIGHBOURS).max(1)..=middle.saturating_add(NEIGHBOURS);
    let rows: Vec<CountRow> =
        neighbours.filter(|count| *count == middle || fits(count)).map(|count| ground.row_of(count)).collect();
    let recommended = rows.iter().position(|row| row.count == middle).unwrap_or(0);
    let reasons = say::reasons(&chosen, &ground.keeps, wish, hem, ground.line.length());
    Ok(CountsCard { rows, recommended, reasons })
}

impl Ground<'_> {
    fn row_of(&self, count: u32) -> CountRow {
        let choice = self.of_count(count);
        let placements = self.placements(&choice, "");
        let gap_along = Mm::new(choice.row.gap);
        CountRow {
            count,
            repeat: Mm::new(choice.row.repeat()),
            gap_along,
            clear_gap: self.clear_gap(&choice, &placements),
            on_cf: self.lands(&choice, Mark::CentreFront),
            on_cb: self.lands(&choice, Mark::CentreBack),
            clashes: self.clashes(&choice, &placements),
            wide_enough: match self.wish.spacing {
                Spacing::AtLeast(wanted) => gap_along.get() >= wanted.get() - super::row::SAME,
                Spacing::Count(_) => true,
            },
        }
    }
}
