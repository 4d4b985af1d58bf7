//! The whole job in one call: the seven stages in order, each a function from the last one's values to its own.
//!
//! The only module that knows every stage. It adds what lies between two stages (which pieces are laid on which film, the
//! check of every layout and footprint after the fact) and decides nothing else.

mod sheets;

use std::collections::BTreeMap;

pub use sheets::FilmSheets;

use crate::art::Motif;
use crate::film::{Film, Pieces};
use crate::finding::{Assumption, Finding};
use crate::hem::Hem;
use crate::job::Job;
use crate::place::Setting;
use crate::press::{HeatRisk, PressPlan};

/// Everything that is known about a job when it is planned; the papers are written from this and nothing else.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The job as checked.
    pub job: Job,
    /// Motifs by key.
    pub motifs: BTreeMap<String, Motif>,
    /// The hem.
    pub hem: Hem,
    /// Where everything goes.
    pub setting: Setting,
    /// What is cut.
    pub pieces: Pieces,
    /// The job's films, and one for each colour the job did not name.
    pub films: Vec<Film>,
    /// For each film that holds pieces, in the order of `films`.
    pub sheets: Vec<FilmSheets>,
    /// The press plan.
    pub press: PressPlan,
    /// Heat risks, gravest first.
    pub risks: Vec<HeatRisk>,
    /// Findings of all stages, gravest first.
    pub findings: Vec<Finding>,
    /// Everything taken for granted.
    pub assumptions: Vec<Assumption>,
}
