//! The job: what the maker wrote, checked and turned into the wishes of each stage.
//!
//! Two sets of types: as written (one struct `...Keys` for each table of the file, in the file of its section) and as
//! checked ([`Job`]), joined in one conversion that collects every fault before it stops. Knows file names but opens none.
//!
//! A section's file holds its keys, what they mean and what is taken where they are absent; to add a key, add the field,
//! read it in the section's `check`, and say in docs/formats.md what it does. Every value is read through
//! [`given::Given`], which keeps its place for messages.

mod band;
mod check;
mod cuts;
mod draft;
mod fault;
mod file;
mod film;
mod garment;
mod given;
mod hem;
mod keep_out;
mod limits;
mod lines;
mod locate;
mod motif;
mod papers;
mod prepare;
mod press;
mod rates;
mod size;
mod trim;
mod zone;

pub use cuts::{CompleteCuts, complete_cuts};
pub use draft::{Draft, HemDraft};
pub use fault::{Fault, FaultKind, JobError, Look};
pub use file::{LONGEST_FILE, drawings, in_part, read, schema, tables_at_fault};
pub use film::FilmWish;
pub use lines::Lines;
pub use locate::{Step, count_of, span_of, span_of_text};
pub use motif::CutChoice;
pub use size::SizesWish;

use crate::art::MotifWish;
use crate::budget::Rates;
use crate::film::Film;
use crate::finding::Assumption;
use crate::hem::HemWish;
use crate::nest::Effort;
use crate::place::{BandWish, Garments};
use crate::press::{Setup, Zone};
use crate::trims::TrimWish;

/// A checked job.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What it is: `summer skirt`.
    pub name: String,
    /// How many are made.
    pub garments: Garments,
    /// The hem.
    pub hem: HemWish,
    /// The same garment in further sizes.
    pub sizes: SizesWish,
    /// Bands from the hem up.
    pub bands: Vec<BandWish>,
    /// The drawings.
    pub motifs: Vec<MotifWish>,
    /// Which film takes which colour, as far as the job says; [`complete_cuts`] fills the rest once drawings are read.
    pub cuts: Vec<CutChoice>,
    /// Films and cloths the job names.
    pub films: Vec<Film>,
    /// What holds for every film that leaves something open.
    pub usual_film: FilmWish,
    /// Braid, facing, lace, pleats and what else is sewn on.
    pub trims: Vec<TrimWish>,
    /// What else lies in the band, trims with a material among it.
    pub zones: Vec<Zone>,
    /// The press.
    pub press: Setup,
    /// How fast the maker works, where she says so.
    pub rates: Rates,
    /// How hard to nest.
    pub effort: Effort,
    /// Seed of every search.
    pub seed: u64,
    /// Paper of the printed pages.
    pub paper: Paper,
    /// At which line its tables begin, for messages only.
    pub lines: Lines,
    /// Values taken for what the job leaves open.
    pub assumptions: Vec<Assumption>,
}

impl Job {
    /// The same without the lines of its file, for a job that flags stand for: there are none that she could look at.
    #[must_use]
    pub fn without_lines(mut self) -> Self {
        self.lines = Lines::default();
        self.bands.iter_mut().flat_map(|band| &mut band.keep_out).for_each(|place| place.line = None);
        self
    }
}

/// Paper of the printed pages.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 x 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 x 11 in.
    Letter,
}
