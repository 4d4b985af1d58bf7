//! Choosing the count and what lies on the middle.
//!
//! Every count from the most that fit down to a sixth fewer is tried with each middle that the wish allows. The fewest
//! clashes with seams and openings win; among equals the most motifs; among those a motif on the middle before a gap.

use super::row::{Course, Row, Start};
use super::seams::{Keep, Near, too_near};
use super::{Anchor, Lands};

/// One way to set a row out.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    pub(super) count: u32,
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

/// The best row of at most `most` motifs.
pub(super) fn best_of_counts(course: &Course, keeps: &[Keep], anchor: Anchor, most: u32) -> Chosen {
    let step = if course.closed { u32::try_from(course.widths.len()).unwrap_or(1) } else { 1 };
    let fewest = f64::from(most) * FEWEST;
    let mut tried: Vec<Choice> = Vec::new();
    let mut best: Option<usize> = None;
    let counts = (0..most).map(|k| most - k).filter(|count| (most - count).is_multiple_of(step));
    for count in counts.take_while(|count| f64::from(*count) >= fewest) {
        tried.extend(best_of_starts(course, keeps, anchor, count));
        let Some(latest) = tried.len().checked_sub(1) else { continue };
        if best.is_none_or(|best| tried[latest].near.len() < tried[best].near.len()) {
            best = Some(latest);
        }
        if tried[latest].near.is_empty() {
            break;
        }
    }
    let Some(best) = best else {
        return Chosen { choice: arranged(course, keeps, most, Start::Motif), most, passed_over: Vec::new() };
    };
    let choice = tried.swap_remove(best);
    tried.truncate(best);
    Chosen { choice, most, passed_over: tried }
}

/// The best row of exactly `count` motifs with the middle asked for; `None` where an open band of so many cannot have it.
pub(super) fn best_of_starts(course: &Course, keeps: &[Keep], anchor: Anchor, count: u32) -> Option<Choice> {
    let starts: &[Start] = match anchor {
        Anchor::Motif => &[Start::Motif],
        Anchor::Gap => &[Start::Gap],
        Anchor::Best => &[Start::Motif, Start::Gap],
    };
    // An open row has one place only; what it puts on the middle must be what was asked for.
    let starts = if course.closed { starts } else { &starts[..1] };
    starts
        .iter()
        .map(|start| arranged(course, keeps, count, *start))
        .filter(|choice| course.closed || suits(anchor, choice.row.lands(0.0)))
        .min_by_key(|choice| choice.near.len())
}

/// The row of exactly `count` motifs from a given start.
pub(super) fn arranged(course: &Course, keeps: &[Keep], count: u32, start: Start) -> Choice {
    let row = course.row(count, start);
    let near = too_near(&row, keeps);
    Choice { count, row, near }
}

fn suits(anchor: Anchor, lands: Lands) -> bool {
    match anchor {
        Anchor::Motif => lands == Lands::Motif,
        Anchor::Gap => lands == Lands::Gap,
        Anchor::Best => true,
    }
}
