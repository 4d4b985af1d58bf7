//! The whole job in one call: the stages in order, each a function from the last one's values to its own.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::film::Pieces;
use crate::finding::{Assumption, Finding};
use crate::hem::Hem;
use crate::job::Job;
use crate::nest::Layout;
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
    /// For each film of the job that holds pieces, in job order: its index in `job.films`, the task's items as indices
    /// into `pieces.kinds`, and the layout.
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

/// The sheets of one film.
#[derive(Clone, Debug)]
pub struct FilmSheets {
    /// Index into the job's films.
    pub film: usize,
    /// For each item of the layout, its index in the piece kinds.
    pub items: Vec<usize>,
    /// Where everything lies.
    pub layout: Layout,
}
