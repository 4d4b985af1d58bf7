//! The drawings of a job: read, or inspected against the limits of how each colour is worked.

use std::collections::{BTreeMap, BTreeSet};

use super::Error;
use crate::art::{self, Limits, LimitsByColour, Lines, Motif, Working};
use crate::data::tables;
use crate::film::Method;
use crate::finding::{Finding, Severity};
use crate::hem::HemWish;
use crate::job::{CutChoice, Job};
use crate::quantity::Mm;

/// How closely a drawing is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Look {
    /// What reading alone shows: a few milliseconds.
    Read,
    /// Everything that would spoil the cut.
    Inspect,
}

/// Motifs by key, and what was found.
pub(super) type Drawn = (BTreeMap<String, Motif>, Vec<Finding>);

/// Reads every drawing of the job.
pub(super) fn motifs(job: &Job, drawings: &BTreeMap<String, String>, look: Look) -> Result<Drawn, Error> {
    let (motifs, findings, faults) = motifs_and_faults(job, drawings, look);
    if faults.is_empty() { Ok((motifs, findings)) } else { Err(Error::several(faults)) }
}

/// The drawings that can be read, what was found in them, and what is wrong with the others.
pub(super) fn motifs_and_faults(
    job: &Job,
    drawings: &BTreeMap<String, String>,
    look: Look,
) -> (BTreeMap<String, Motif>, Vec<Finding>, Vec<Error>) {
    let mut motifs = BTreeMap::new();
    let mut findings = Vec::new();
    let mut faults = Vec::new();
    for wish in &job.motifs {
        let Some(text) = drawings.get(&wish.file) else {
            faults.push(Error::NoDrawing { file: wish.file.clone() });
            continue;
        };
        let failed = |fault| Error::Art { file: wish.file.clone(), fault };
        let read = match look {
            Look::Read => art::read(text, wish).map(|read| (read.motif, read.findings)),
            Look::Inspect => art::inspect(text, wish, &limits(job, &wish.name)).map(|inspection| {
                (inspection.motif, inspection.found.into_iter().map(|found| found.finding).collect())
            }),
        };
        match read.map_err(failed) {
            Ok((motif, found)) => {
                findings.extend(found);
                motifs.insert(wish.name.clone(), motif);
            }
            Err(fault) => faults.push(fault),
        }
    }
    let stops = stopping(&findings);
    if !stops.is_empty() {
        faults.push(Error::Stopped { findings: stops });
    }
    (motifs, findings, faults)
}

fn stopping(findings: &[Finding]) -> Vec<Finding> {
    findings.iter().filter(|finding| finding.severity == Severity::StopsTheJob).cloned().collect()
}

/// The lines of the pattern pieces that a hem is drawn in; none where it is measured.
pub(super) fn hem_lines(hem: &HemWish, drawings: &BTreeMap<String, String>) -> Result<Lines, Error> {
    let Some(drawn) = hem.drawn() else { return Ok(Lines::default()) };
    let file = &drawn.file;
    let text = drawings.get(file).ok_or_else(|| Error::NoDrawing { file: file.clone() })?;
    let ids = drawn.ids().map(str::to_owned).collect();
    let lines = art::lines(text, file, &ids).map_err(|fault| Error::Art { file: file.clone(), fault })?;
    let stops = stopping(&lines.findings);
    if !stops.is_empty() {
        return Err(Error::Stopped { findings: stops });
    }
    let mut missing: Vec<&str> = drawn.ids().filter(|id| !lines.by_id.contains_key(*id)).collect();
    // A panel that is cut twice names its lines twice.
    let mut named = BTreeSet::new();
    missing.retain(|id| named.insert(*id));
    let no_line = |id: &&str| Error::NoLine { file: file.clone(), id: (*id).to_owned(), known: lines.known.clone() };
    let faults: Vec<Error> = missing.iter().map(no_line).collect();
    if faults.is_empty() { Ok(lines) } else { Err(Error::several(faults)) }
}

/// The limits of each colour by how the job works it and the class of its film; film on its carrier where the job does not
/// say. What the job changes itself comes before both.
fn limits(job: &Job, motif: &str) -> LimitsByColour {
    let Some(choice) = job.cuts.iter().find(|choice| choice.motif == motif) else { return Working::Film.into() };
    let named = choice.colours.iter().map(|(colour, (film, method))| {
        let film = film.as_ref().or(choice.film.as_ref());
        (*colour, limits_of(job, choice, film, *method))
    });
    LimitsByColour { usual: limits_of(job, choice, choice.film.as_ref(), choice.method), by_colour: named.collect() }
}

fn limits_of(job: &Job, choice: &CutChoice, film: Option<&String>, method: Method) -> Limits {
    let named = film.and_then(|key| job.films.iter().find(|film| &film.key == key)).map(|film| film.class.as_str());
    let class = named.or(job.usual_film.class.as_deref()).and_then(|class| tables().film(class));
    let table = Limits::usual(working(method));
    let by_class = class.filter(|_| method == Method::Film).map(|class| Mm::new(class.cutting.stroke_mm));
    let table = by_class.map_or(table.clone(), |neck| table.with_neck(neck));
    let changed = choice.limits.iter();
    changed.fold(table, |limits, (key, value)| limits.clone().with(key, *value).unwrap_or(limits))
}

const fn working(method: Method) -> Working {
    match method {
        Method::Film => Working::Film,
        Method::FusedTraced | Method::FusedBacked => Working::RawEdge,
        Method::TurnedTemplateOnRight | Method::TurnedTemplateOnWrong => Working::TurnedEdge,
    }
}
