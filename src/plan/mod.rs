//! The whole job in one call: the seven stages in order, each a function from the last one's values to its own.
//!
//! The only module that knows every stage. It adds what lies between two stages (which pieces are laid on which film, the
//! check of every layout and footprint after the fact) and decides nothing else.

mod about;
mod at_press;
mod costs;
mod drawings;
mod error;
mod faults;
mod lines;
mod pair;
mod ready;
mod recut;
mod sheets;
mod sizes;

use std::collections::BTreeMap;

pub use at_press::AtPress;
pub use costs::{Cost, costs};
use drawings::Look;
pub use error::Error;
pub use faults::faults;
pub use recut::{OffCut, OffCutLeft, Spoiled, offcuts_left, recut};
pub use sheets::{FilmSheets, ON_NO_SHEET};
pub use sizes::BandSizes;

use crate::art::Motif;
use crate::budget::{self, Budget};
use crate::film::{self, FabricNeed, Film, LayerMade, Pieces};
use crate::finding::{Assumption, Finding};
use crate::hem::{self, Hem};
use crate::job::Job;
use crate::nest::Progress;
use crate::place::{self, BandWish, Setting};
use crate::press::{HeatRisk, PressPlan};
use crate::trims::{self, TrimNeed};
use ready::{Ready, ready};

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
    /// Each band in every size, where the job has several.
    pub sizes: Vec<BandSizes>,
    /// Which one of a pair setting, hem and press plan are those of.
    pub shows: Shows,
    /// What is cut.
    pub pieces: Pieces,
    /// How the layers of each motif lie on each other.
    pub layers: Vec<LayerMade>,
    /// What cloth pieces need beside the cloth.
    pub fabric: Vec<FabricNeed>,
    /// The job's films, and one for each colour the job did not name.
    pub films: Vec<Film>,
    /// For each film that holds pieces, in the order of `films`.
    pub sheets: Vec<FilmSheets>,
    /// The press plan of the garment shown.
    pub press: PressPlan,
    /// Closings and time at the press, for all garments.
    pub at_press: AtPress,
    /// Heat risks, gravest first.
    pub risks: Vec<HeatRisk>,
    /// What the trims need, in the order of the job.
    pub trims: Vec<TrimNeed>,
    /// Time and weight.
    pub budget: Budget,
    /// Findings of all stages, gravest first.
    pub findings: Vec<Finding>,
    /// Everything taken for granted.
    pub assumptions: Vec<Assumption>,
}

/// Which garment of the job a plan shows; pieces, sheets and what to buy are always for all of them.
#[derive(Clone, Debug, Default)]
pub enum Shows {
    /// The only one.
    #[default]
    One,
    /// The left-hand one of a pair; the plan of the other goes with it.
    LeftOfPair(Box<Plan>),
    /// The right-hand one of a pair, mirrored.
    RightOfPair,
}

impl Plan {
    /// The plan of the right-hand one of a pair.
    #[must_use]
    pub fn right_hand(&self) -> Option<&Self> {
        match &self.shows {
            Shows::LeftOfPair(right) => Some(right),
            Shows::One | Shows::RightOfPair => None,
        }
    }
}

/// Plans a job from its drawings' texts, by the file names the job gives.
///
/// # Errors
/// [`Error`] names the stage and the maker's problem, with a hint; nothing is planned by halves.
pub fn make(job: &Job, drawings: &BTreeMap<String, String>, progress: &dyn Progress) -> Result<Plan, Error> {
    let set = set_out_at(job, drawings, Look::Inspect)?;
    // What cannot be is told before the long search.
    let Ready { to_cut, films, unused, assumed, prepared, trims, press, right, at_press, risks, sizes, of_sizes } =
        ready(job, &set).map_err(Error::several)?;
    let sheets = sheets::lay(&films, &prepared.pieces, job, progress)?;
    let too_large = sheets::too_large(&sheets, &films);
    if !too_large.is_empty() && sheets.iter().all(|film| film.layout.sheets.is_empty()) {
        return Err(Error::TooLarge { pieces: too_large });
    }
    // Pieces that are in no file come before everything else of their weight.
    let mut findings: Vec<Finding> = too_large.iter().map(sheets::on_no_sheet).collect();
    findings.extend(set.findings.iter().cloned());
    findings.extend(prepared.findings);
    findings.extend(sheets::ended_early(&sheets, &films));
    findings.extend(unused.iter().map(|film| sheets::unused(film, &job.lines)));
    findings.extend(sheets::in_no_band(job));
    let hidden = trims::hidden_motifs(&job.trims, &set.setting, &set.motifs);
    findings.extend(hidden.iter().map(|finding| lines::of_finding(finding, job)));
    let budget = budget::budget(budget::Work {
        pieces: &prepared.pieces,
        films: &films,
        sheets: sheets::of_film(&sheets, &films),
        placements: to_cut.bands.iter().map(|band| band.count).sum(),
        press: at_press.total(),
        trims: &trims,
        rates: &job.rates,
    });
    if right.is_some() {
        findings.push(pair::told(&set.setting, &set.motifs));
    }
    findings.extend(of_sizes);
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let assumptions = job.assumptions.iter().cloned().chain(assumed).collect();
    let plan = Plan {
        shows: Shows::One,
        job: job.clone(),
        motifs: set.motifs,
        hem: set.hem,
        setting: set.setting,
        sizes,
        fabric: film::fabric_needs(&prepared.pieces, &films),
        pieces: prepared.pieces,
        layers: prepared.layers,
        films,
        sheets,
        press,
        at_press,
        risks,
        trims,
        budget,
        findings,
        assumptions,
    };
    Ok(match right {
        None => plan,
        Some(right) => right.beside(plan),
    })
}

/// The first three stages: cheap enough to run again at every change of a number.
#[derive(Clone, Debug)]
pub struct SetOut {
    /// Motifs by key.
    pub motifs: BTreeMap<String, Motif>,
    /// The hem.
    pub hem: Hem,
    /// The hems of further sizes by their names.
    pub other_sizes: Vec<(String, Hem)>,
    /// The bands as they were set out: those of the job, with the counts that are settled together settled.
    pub bands: Vec<BandWish>,
    /// Where everything goes.
    pub setting: Setting,
    /// What was found so far.
    pub findings: Vec<Finding>,
}

/// Reads the drawings, shapes the hem and sets the motifs out.
///
/// # Errors
/// As [`make`]; also when a drawing has a finding that stops the job.
pub fn set_out(job: &Job, drawings: &BTreeMap<String, String>) -> Result<SetOut, Error> {
    set_out_at(job, drawings, Look::Read)
}

fn set_out_at(job: &Job, drawings: &BTreeMap<String, String>, look: Look) -> Result<SetOut, Error> {
    stages(job, drawings, look).map_err(|fault| faults::with_others(fault, job, drawings, look))
}

fn stages(job: &Job, drawings: &BTreeMap<String, String>, look: Look) -> Result<SetOut, Error> {
    let (mut motifs, mut findings) = drawings::motifs(job, drawings, look)?;
    faults::of_films(job, &motifs)?;
    let drawn = drawings::hem_lines(&job.hem, drawings)?;
    let hem = hem::shape_drawn(&job.hem, &drawn.by_id)?;
    findings.extend(drawn.findings);
    let mut of_bands = place::bend(&hem, &mut motifs, &job.bands)?;
    let other_sizes = sizes::hems(job, drawings)?;
    let bands = sizes::settled(job, (&hem, &other_sizes), &motifs)?;
    let setting = place::set_out(&hem, &motifs, &bands)?;
    of_bands.extend(setting.findings.iter().cloned());
    findings.extend(hem.findings().iter().cloned());
    findings.extend(of_bands.iter().map(|finding| lines::of_finding(finding, job)));
    Ok(SetOut { motifs, hem, other_sizes, bands, setting, findings })
}
