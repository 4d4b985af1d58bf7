//! What neighbouring counts cost: their sheets by a quick search, their closings of the press as planned.
//!
//! A layout of many pieces holds fewer of the same pieces too. So where the fewest and the most of a run of counts cost the
//! same, all between them do, and are not searched for.

use super::pair::RightHand;
use super::sheets::FilmSheets;
use super::{AtPress, Error, SetOut, sheets};
use crate::film::{self, Film, PieceKind, Pieces};
use crate::job::{self, Job};
use crate::nest::{Effort, LaidSheet, Progress};
use crate::place::{self, BandWish, Garments};
use crate::press;
use crate::quantity::{Mm, Seconds, hundredths};

/// What one way to set the bands out costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// Sheets of all films.
    pub sheets: u32,
    /// Length off rolls, of all films.
    pub roll: Mm,
    /// Price of all films, in the currency of the job, where every size used has one.
    pub price: Option<f64>,
    /// How often the press closes, for all garments.
    pub closures: u32,
    /// Time at the press, for all garments.
    pub press: Seconds,
}

/// The cost of each of several ways to set the bands out, in their order; `None` for one that cannot be planned, and for all
/// from where `progress` ends the search.
#[must_use]
pub fn costs(job: &Job, set: &SetOut, ways: &[Vec<BandWish>], progress: &dyn Progress) -> Vec<Option<Cost>> {
    let job = Job { effort: Effort::Quick, ..job.clone() };
    let ways: Vec<Option<Way>> = ways.iter().map(|bands| Way::ready(&job, set, bands).ok()).collect();
    let mut search = Search { job: &job, ways: &ways, found: vec![None; ways.len()], stopped: false, progress };
    if let Some(last) = ways.len().checked_sub(1) {
        search.look(0);
        search.look(last);
        search.between(0, last);
    }
    let told = |(way, film): (&Option<Way>, Option<FilmCost>)| {
        let (way, film) = (way.as_ref()?, film?);
        Some(Cost { sheets: film.sheets, roll: film.roll, price: film.price, closures: way.closures, press: way.press })
    };
    ways.iter().zip(search.found).map(told).collect()
}

/// One way to set the bands out, up to the pieces.
struct Way {
    pieces: Pieces,
    films: Vec<Film>,
    closures: u32,
    press: Seconds,
}

impl Way {
    fn ready(job: &Job, set: &SetOut, bands: &[BandWish]) -> Result<Self, Error> {
        let setting = place::set_out(&set.hem, &set.motifs, bands)?;
        let to_cut = match job.garments {
            Garments::One => setting.clone(),
            Garments::MirroredPair => place::with_mirror_image(&setting, &set.motifs),
        };
        let job::CompleteCuts { cuts, films, .. } = job::complete_cuts(job, &set.motifs, &to_cut);
        let pieces = film::prepare(&set.motifs, &to_cut, &cuts, &films)?.pieces;
        let inputs = press::Inputs {
            motifs: &set.motifs,
            hem: &set.hem,
            setting: &setting,
            pieces: &pieces,
            films: &films,
            zones: &job.zones,
            setup: &job.press,
        };
        let (own, _) = press::plan(inputs)?;
        let at_press = match job.garments {
            Garments::One => AtPress::of(&[&own]),
            Garments::MirroredPair => AtPress::of(&[&own, &RightHand::pressed(inputs)?.press]),
        };
        let closures = u32::try_from(at_press.closures()).unwrap_or(u32::MAX);
        Ok(Self { pieces, films, closures, press: at_press.total() })
    }

    /// Whether its pieces are among those of the other.
    fn lies_in(&self, other: &Self) -> bool {
        let same =
            |a: &PieceKind, b: &PieceKind| a.name == b.name && a.film == b.film && a.cut == b.cut && a.patch == b.patch;
        let held = |kind: &PieceKind| {
            let enough = |more: &PieceKind| kind.quantity() <= more.quantity() && kind.tests <= more.tests;
            kind.quantity() == 0 || other.pieces.kinds.iter().any(|more| same(kind, more) && enough(more))
        };
        self.films == other.films && self.pieces.kinds.iter().all(held)
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct FilmCost {
    sheets: u32,
    roll: Mm,
    price: Option<f64>,
}

struct Search<'a> {
    job: &'a Job,
    ways: &'a [Option<Way>],
    found: Vec<Option<FilmCost>>,
    stopped: bool,
    progress: &'a dyn Progress,
}

impl Search<'_> {
    /// Finds what lies between two that are known.
    fn between(&mut self, low: usize, high: usize) {
        if high - low < 2 {
            return;
        }
        let ends = (self.found[low], self.found[high]);
        if ends.0.is_some()
            && ends.0 == ends.1
            && (low + 1..high).all(|way| self.nested(low, way) && self.nested(way, high))
        {
            self.found[low + 1..high].fill(ends.0);
            return;
        }
        let middle = low.midpoint(high);
        self.look(middle);
        self.between(low, middle);
        self.between(middle, high);
    }

    fn nested(&self, less: usize, more: usize) -> bool {
        matches!((&self.ways[less], &self.ways[more]), (Some(less), Some(more)) if less.lies_in(more))
    }

    /// Lays the pieces of one way.
    fn look(&mut self, way: usize) {
        if self.stopped || self.found[way].is_some() {
            return;
        }
        let (done, total) = (self.found.iter().flatten().count() as u64, self.ways.len() as u64);
        let within = Within { done, total, progress: self.progress };
        if !within.step(0, 0, "") {
            self.stopped = true;
            return;
        }
        let Some(ready) = &self.ways[way] else { return };
        let Ok(laid) = sheets::lay(&ready.films, &ready.pieces, self.job, &within) else { return };
        if laid.iter().any(|film| !film.layout.unplaced.is_empty()) {
            return;
        }
        let all = || laid.iter().flat_map(|film| film.layout.sheets.iter().map(move |sheet| (film, sheet)));
        let is_roll = |film: &FilmSheets, sheet: &LaidSheet| film.task.stock[sheet.stock].height.is_none();
        let sheets = all().filter(|(film, sheet)| !is_roll(film, sheet)).map(|(_, sheet)| sheet.copies).sum();
        let roll = all().filter(|(film, sheet)| is_roll(film, sheet));
        let roll = roll.map(|(_, sheet)| sheet.used * f64::from(sheet.copies)).sum();
        // Rounded film by film, as on the shopping list.
        let price = laid.iter().map(|film| film.layout.cost.map(hundredths)).sum();
        self.found[way] = Some(FilmCost { sheets, roll, price });
    }
}

/// Tells of whole searches only.
struct Within<'a> {
    done: u64,
    total: u64,
    progress: &'a dyn Progress,
}

impl Progress for Within<'_> {
    fn step(&self, _: u64, _: u64, best: &str) -> bool {
        self.progress.step(self.done, self.total, best)
    }

    fn threads(&self) -> usize {
        self.progress.threads()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
mod tests {
    use std::collections::BTreeMap;
    use std::sync::atomic::{AtomicU64, Ordering};

    use super::*;
    use crate::plan::{make, set_out};

    const LEAF: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><path id="leaf" fill="#2e7d32" d="M 0 20 Q 24 -18 60 20 Q 24 58 0 20 Z"/></svg>"##;

    fn job(stock: &str, band: &str) -> (Job, BTreeMap<String, String>) {
        let text = format!(
            "[hem.straight]\nlength = \"2 m\"\n[[band]]\n{band}\n[motif.leaf]\nart = \"leaf.svg\"\nfilm = \"green\"\n\
             [film.green]\nclass = \"smooth\"\nsheets = [{stock}]\n[laying]\neffort = \"quick\"\n"
        );
        (crate::job::read(&text).unwrap(), BTreeMap::from([("leaf.svg".to_owned(), LEAF.to_owned())]))
    }

    /// Counts the searches from their first steps.
    #[derive(Default)]
    struct Heard(AtomicU64);

    impl Progress for Heard {
        fn step(&self, done: u64, _: u64, _: &str) -> bool {
            self.0.fetch_max(done, Ordering::Relaxed);
            true
        }
    }

    fn of(job: &Job, art: &BTreeMap<String, String>, counts: &[u32], progress: &dyn Progress) -> Vec<Option<Cost>> {
        let set = set_out(job, art).unwrap();
        let ways: Vec<_> = counts.iter().map(|count| place::with_count(&set.bands, 0, *count)).collect();
        costs(job, &set, &ways, progress)
    }

    /// The whole plan, made for each count alone, is the oracle.
    #[test]
    fn each_count_costs_what_its_own_plan_does() {
        for (stock, band) in [
            (r#"{ size = "200 x 150 mm", price = 2.5 }"#, "count = 10"),
            (r#"{ roll = "300 mm", price = 10 }"#, "count = 10\nhands = \"alternating\""),
        ] {
            let (job, art) = job(stock, band);
            let counts = [8, 9, 10, 11, 14];
            for (count, cost) in counts.iter().zip(of(&job, &art, &counts, &crate::nest::Silent)) {
                let cost = cost.unwrap();
                let mut alone = job.clone();
                alone.bands = place::with_count(&job.bands, 0, *count);
                let plan = make(&alone, &art, &crate::nest::Silent).unwrap();
                let laid = || plan.sheets.iter().flat_map(|film| &film.layout.sheets);
                let sheets: u32 = laid().map(|sheet| sheet.copies).sum();
                let used: f64 = laid().map(|sheet| sheet.used.get()).sum();
                let is_roll = stock.contains("roll");
                assert_eq!(cost.sheets, if is_roll { 0 } else { sheets }, "{count} on {stock}");
                assert!((cost.roll.get() - if is_roll { used } else { 0.0 }).abs() < 1e-9, "{count} on {stock}");
                let price = plan.sheets[0].layout.cost.unwrap();
                assert!((cost.price.unwrap() - price).abs() <= 0.005 + 1e-9, "{count} on {stock}");
                assert!((cost.price.unwrap() * 100.0).fract().min(1.0 - (cost.price.unwrap() * 100.0).fract()) < 1e-6);
                assert_eq!(cost.closures as usize, plan.press.closures.len());
                assert!((cost.press.get() - plan.press.total.get()).abs() < 1e-9);
            }
        }
    }

    /// Six gores of 649.3 along the line: 27 motifs spread evenly lie across seams, and take other places of the plate than stretch by
    /// stretch. What a card shows of them is the even row, and its closings are those of that row.
    #[test]
    fn what_is_compared_costs_what_its_own_layout_does() {
        let text = "[hem.gores]\npanels = 6\ntop = \"130 mm\"\nhem = \"700 mm\"\nside = \"900 mm\"\n[[band]]\nheight = \"80 mm\"\n\
                    gap = \"30 mm\"\ncf = \"motif\"\n[motif.leaf]\nart = \"leaf.svg\"\nwidth = \"90 mm\"\n";
        let art = BTreeMap::from([("leaf.svg".to_owned(), LEAF.to_owned())]);
        let job = crate::job::read(text).unwrap();
        let set = set_out(&job, &art).unwrap();
        let card = place::counts(&set.hem, &set.motifs, &set.bands, 0).unwrap();
        let shown = card.rows.iter().find(|row| row.count == 27).unwrap();
        let planned = |bands: Vec<BandWish>| {
            let cost = costs(&job, &set, std::slice::from_ref(&bands), &crate::nest::Silent)[0].unwrap();
            let setting = place::set_out(&set.hem, &set.motifs, &bands).unwrap();
            (cost.closures, setting.bands[0].gap_along, setting.bands[0].steps().unwrap())
        };
        let compared = planned(place::compared(&set.bands, 0, 27));
        let asked_for = planned(place::with_count(&set.bands, 0, 27));
        assert_eq!(compared.1, shown.gap_along);
        assert!((compared.2.1 - compared.2.0).get() < 1e-6 && (asked_for.2.1 - asked_for.2.0).get() > 1.0);
        assert_ne!(compared.0, asked_for.0, "or this check could not fail");
    }

    #[test]
    fn what_lies_between_two_of_the_same_cost_is_not_searched_for() {
        let (job, art) = job(r#"{ size = "600 x 1000 mm", price = 9 }"#, "count = 10");
        let heard = Heard::default();
        let found = of(&job, &art, &[7, 8, 9, 10, 11, 12, 13], &heard);
        assert!(found.iter().all(|cost| cost.is_some_and(|cost| cost.sheets == 1 && cost.price == Some(9.0))));
        assert_eq!(heard.0.load(Ordering::Relaxed), 1, "only the second search began with one known");
    }

    #[test]
    fn a_search_that_is_ended_leaves_the_rest_unknown() {
        struct Ended;
        impl Progress for Ended {
            fn step(&self, _: u64, _: u64, _: &str) -> bool {
                false
            }
        }
        let (job, art) = job(r#"{ size = "300 x 200 mm" }"#, "count = 10");
        assert_eq!(of(&job, &art, &[9, 10, 11], &Ended), [None, None, None]);
    }
}
