//! What each count of a card costs: sheets, price, closings of the press.
//!
//! A card shows seven counts of a band, and laying out the sheets of one takes longer than all that is set out. So only the counts at
//! both ends are laid out with a full quick search, and those between are where the ends differ: what holds the larger count holds every
//! smaller one, so that between two counts that take the same sheets at the same price all do. And no search goes on where all lies
//! on one sheet already.

use std::collections::BTreeMap;

use hemwright::job::Job;
use hemwright::nest::{Effort, Progress, Stock};
use hemwright::place::BandWish;
use hemwright::plan::{self, Plan};
use hemwright::quantity::Seconds;
use hemwright::write::shopping;

use super::progress::{self, Steps};
use super::trouble::Trouble;

/// What a count costs.
#[derive(Clone, Debug)]
pub(crate) struct Cost {
    pub(crate) sheets: u32,
    pub(crate) price: Option<f64>,
    pub(crate) presses: u32,
    pub(crate) time: Seconds,
    /// How many of each piece are cut.
    pieces: Vec<(String, u32)>,
}

/// What costs are worked out from.
pub(crate) struct Costing<'a> {
    pub(crate) job: &'a Job,
    pub(crate) art: &'a BTreeMap<String, String>,
    pub(crate) steps: &'a Steps,
}

/// How long the sheets of a count are searched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Search {
    /// As long as a quick search goes on.
    Quick,
    /// The same, but no further where all of a film lies on one sheet: for films of one size, which can then cost no less.
    UntilOneSheet,
    /// Not at all: what it costs is known.
    None,
}

impl Progress for Search {
    fn step(&self, _done: u64, _total: u64, best: &str) -> bool {
        let on = match self {
            Self::Quick => true,
            Self::UntilOneSheet => !best.starts_with("1 sheet,"),
            Self::None => false,
        };
        on && !progress::cut_short()
    }

    fn threads(&self) -> usize {
        std::thread::available_parallelism().map_or(1, usize::from)
    }
}

/// The cost of each row of a card, whose counts grow; `None` where a count cannot be planned.
///
/// # Errors
/// [`Trouble::Stopped`] when she asked to stop.
pub(crate) fn costs(
    costing: &Costing<'_>,
    bands: &dyn Fn(usize) -> Vec<BandWish>,
    rows: usize,
) -> Result<Vec<Option<Cost>>, Trouble> {
    let mut found = vec![None; rows];
    let Some(last) = rows.checked_sub(1) else { return Ok(found) };
    let search = costing.search();
    found[0] = costing.cost(bands(0), search)?;
    if last > 0 {
        found[last] = costing.cost(bands(last), search)?;
    }
    let mut open = vec![(0, last)];
    while let Some((low, high)) = open.pop() {
        if high < low + 2 {
            continue;
        }
        if let (Some(fewest), Some(most)) = (found[low].clone(), found[high].clone())
            && fewest.costs_as(&most)
        {
            for (row, between) in found.iter_mut().enumerate().take(high).skip(low + 1) {
                let known = costing.cost(bands(row), Search::None)?.filter(|cost| cost.lies_between(&fewest, &most));
                *between = match known {
                    Some(cost) => Some(Cost { sheets: fewest.sheets, price: fewest.price, ..cost }),
                    None => costing.cost(bands(row), search)?,
                };
                costing.steps.one_more();
            }
            continue;
        }
        let middle = usize::midpoint(low, high);
        found[middle] = costing.cost(bands(middle), search)?;
        costing.steps.one_more();
        open.extend([(low, middle), (middle, high)]);
    }
    Ok(found)
}

impl Cost {
    fn costs_as(&self, other: &Self) -> bool {
        let price = match (self.price, other.price) {
            (Some(own), Some(others)) => (own - others).abs() < 1e-9,
            (own, others) => own.is_none() && others.is_none(),
        };
        self.sheets == other.sheets && price
    }

    /// Whether of every piece at least as many are cut as with the one count, and no more than with the other.
    fn lies_between(&self, fewest: &Self, most: &Self) -> bool {
        let alike = self.pieces.len() == fewest.pieces.len() && self.pieces.len() == most.pieces.len();
        let mut all = self.pieces.iter().zip(&fewest.pieces).zip(&most.pieces);
        alike && all.all(|((own, few), many)| own.0 == few.0 && own.0 == many.0 && few.1 <= own.1 && own.1 <= many.1)
    }
}

impl Costing<'_> {
    fn search(&self) -> Search {
        let one_size = |stock: &[Stock]| matches!(stock, [only] if only.height.is_some());
        let usual = self.job.usual_film.stock.as_deref().is_none_or(one_size);
        let all = usual && self.job.films.iter().all(|film| one_size(&film.stock));
        if all { Search::UntilOneSheet } else { Search::Quick }
    }

    /// What it costs with such bands; `None` when that cannot be planned.
    fn cost(&self, bands: Vec<BandWish>, search: Search) -> Result<Option<Cost>, Trouble> {
        let mut job = Job { bands, ..self.job.clone() };
        job.effort = Effort::Quick;
        let plan = plan::make(&job, self.art, &search).ok();
        if progress::cut_short() {
            return Err(Trouble::Stopped);
        }
        Ok(plan.and_then(|plan| of_plan(&plan)))
    }
}

fn of_plan(plan: &Plan) -> Option<Cost> {
    if plan.sheets.iter().any(|film| !film.layout.unplaced.is_empty()) {
        return None;
    }
    let sheets = plan.sheets.iter().flat_map(|film| &film.layout.sheets).map(|sheet| sheet.copies).sum();
    let garments = plan.job.garments.count();
    Some(Cost {
        sheets,
        price: shopping::total(&shopping::rows(plan)),
        presses: u32::try_from(plan.press.closures.len()).ok()? * garments,
        time: plan.press.total * f64::from(garments),
        pieces: plan.pieces.kinds.iter().map(|kind| (kind.name.clone(), kind.quantity())).collect(),
    })
}
