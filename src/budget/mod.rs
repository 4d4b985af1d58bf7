//! What the job costs in time and what it adds in weight.
//!
//! In: the pieces, sheets, press plan and trims of a plan, and rates ([`Rates`]). Out: a [`Budget`] of tasks in minutes and
//! parts in grams, each with its sum. Rates are figures of `data/work.toml`, most of them from memory; the maker's own
//! come first. Every task has a least and a most beside the usual, since makers differ by more than any sum here.
//!
//! Limits: setting out, hanging, levelling and thinking are not counted; a weight that is not known is listed as such and
//! left out of the sum.

mod rates;
mod time;
mod weight;

pub use rates::Rates;

use crate::film::{Film, Pieces};
use crate::quantity::Seconds;
use crate::trims::TrimNeed;

/// What the budget is made from.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// What is cut.
    pub pieces: &'a Pieces,
    /// Films by the key that pieces name.
    pub films: &'a [Film],
    /// Sheets that are cut, copies counted.
    pub sheets: u32,
    /// Motifs on the hem.
    pub placements: u32,
    /// The press plan's total.
    pub press: Seconds,
    /// The trims.
    pub trims: &'a [TrimNeed],
    /// How fast she works.
    pub rates: &'a Rates,
}

/// Time and weight of the whole job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Budget {
    /// In working order.
    pub tasks: Vec<Task>,
    /// All tasks.
    pub total: Minutes,
    /// What is added to the hem.
    pub parts: Vec<Part>,
    /// Grams of all parts whose weight is known.
    pub grams: f64,
}

/// A stretch of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// What is done.
    pub what: String,
    /// How long.
    pub minutes: Minutes,
    /// The sum.
    pub working: String,
}

/// A time with its usual bounds, in minutes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Minutes {
    /// Quick.
    pub least: f64,
    /// Usual.
    pub usual: f64,
    /// Slow.
    pub most: f64,
}

impl std::ops::Add for Minutes {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { least: self.least + other.least, usual: self.usual + other.usual, most: self.most + other.most }
    }
}

impl std::ops::Mul<f64> for Minutes {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self { least: self.least * times, usual: self.usual * times, most: self.most * times }
    }
}

/// `2 h 5 min (1 h 10 min to 4 h)`
impl std::fmt::Display for Minutes {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let text = |minutes: f64| {
            let whole = minutes.round();
            let hours = (whole / 60.0).floor();
            match (hours > 0.0, whole - hours * 60.0 > 0.0) {
                (true, true) => format!("{hours:.0} h {:.0} min", whole - hours * 60.0),
                (true, false) => format!("{hours:.0} h"),
                (false, _) => format!("{whole:.0} min"),
            }
        };
        if (self.most - self.least).abs() < 0.5 {
            return f.write_str(&text(self.usual));
        }
        write!(f, "{} ({} to {})", text(self.usual), text(self.least), text(self.most))
    }
}

/// Something that is added to the garment.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub what: String,
    /// Its weight; `None` when it is not known.
    pub grams: Option<f64>,
    /// The sum, or what is missing.
    pub working: String,
}

/// Adds up time and weight.
#[must_use]
pub fn budget(work: Work<'_>) -> Budget {
    let tasks = time::tasks(&work);
    let parts = weight::parts(&work);
    Budget {
        total: tasks.iter().fold(Minutes::default(), |sum, task| sum + task.minutes),
        grams: parts.iter().filter_map(|part| part.grams).sum(),
        tasks,
        parts,
    }
}
