//! The job: what the maker wrote, checked and turned into the wishes of each stage.
//!
//! Two sets of types: as written (`written`, one field for each key of the file) and as checked ([`Job`]), joined in one
//! conversion that collects every fault before it stops. Knows file names but opens none.

use crate::art::MotifWish;
use crate::film::{CutWish, Film};
use crate::finding::Assumption;
use crate::hem::HemWish;
use crate::nest::Effort;
use crate::place::BandWish;
use crate::press::{Setup, Zone};

/// A checked job.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What it is: `summer skirt`.
    pub name: String,
    /// The hem.
    pub hem: HemWish,
    /// Bands from the hem up.
    pub bands: Vec<BandWish>,
    /// The drawings.
    pub motifs: Vec<MotifWish>,
    /// Which film takes which colour; a motif or colour not named here gets a film of its own, and an assumption says so.
    pub cuts: Vec<CutWish>,
    /// Films and cloths.
    pub films: Vec<Film>,
    /// What else lies in the band.
    pub zones: Vec<Zone>,
    /// The press.
    pub press: Setup,
    /// How hard to nest.
    pub effort: Effort,
    /// Seed of every search.
    pub seed: u64,
    /// Paper of the printed pages.
    pub paper: Paper,
    /// Values taken for what the job leaves open.
    pub assumptions: Vec<Assumption>,
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
