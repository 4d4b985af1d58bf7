//! The job file as a whole: its sections to a [`Job`].

mod sections;
mod unreadable;

use std::collections::BTreeSet;
use std::ops::Range;

use schemars::JsonSchema;
use serde::Deserialize;

use super::band::BandKeys;
use super::check::Check;
use super::fault::{Fault, FaultKind, JobError};
use super::film::FilmKeys;
use super::garment::GarmentKeys;
use super::given::{Named, Section};
use super::hem::HemKeys;
use super::keep_out::{self, KeepOutKeys};
use super::lines::Lines;
use super::motif::{CutChoice, MotifKeys};
use super::papers::{LayingKeys, PapersKeys};
use super::press::PressKeys;
use super::rates::RateKeys;
use super::size::{self, SizeKeys};
use super::trim::TrimKeys;
use super::zone::ZoneKeys;
use super::{Job, band, film, garment, hem, motif, papers, press, rates, trim, zone};
use crate::data::nearest_names;
use crate::trims::TrimWish;
use sections::sections;

/// Longest job file that is read: a thousand times what a full one takes.
pub const LONGEST_FILE: usize = 2_000_000;
/// Bands, motifs, films and zones that a job may have of each, and seams: ten times more than any garment.
const MOST_OF_EACH: usize = 200;
/// Drawings of a job: those of all its motifs, of its pattern pieces and of those of its sizes.
const MOST_DRAWINGS: usize = 2 * MOST_OF_EACH + 1;

/// The job file as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default, expecting = "a job file")]
#[schemars(title = "hemwright job file")]
struct File {
    garment: Option<Section<GarmentKeys>>,
    hem: Option<Section<HemKeys>>,
    band: Vec<Section<BandKeys>>,
    motif: Named<Section<MotifKeys>>,
    size: Named<Section<SizeKeys>>,
    keep_out: Vec<Section<KeepOutKeys>>,
    film: Named<Section<FilmKeys>>,
    every_film: Option<Section<FilmKeys>>,
    trim: Vec<Section<TrimKeys>>,
    zone: Vec<Section<ZoneKeys>>,
    press: Option<Section<PressKeys>>,
    rates: Option<Section<RateKeys>>,
    papers: Option<Section<PapersKeys>>,
    laying: Option<Section<LayingKeys>>,
}

/// Reads and checks a job file.
///
/// # Errors
/// [`JobError`] with every fault found, each with its place.
pub fn read(text: &str) -> Result<Job, JobError> {
    if text.len() > LONGEST_FILE {
        return Err(JobError::new(vec![Fault { at: None, kind: FaultKind::TooLong { bytes: text.len() } }]));
    }
    if text.trim_start_matches(|c: char| c == '\u{feff}' || c.is_whitespace()).starts_with('<') {
        return Err(JobError::new(vec![Fault { at: None, kind: FaultKind::ADrawing }]));
    }
    let (file, faults) = sections(text);
    let mut check = Check { faults, ..Check::default() };
    let job = file.and_then(|file| convert(&mut check, text, &file));
    match job {
        Some(job) if check.faults.is_empty() => Ok(job),
        _ => Err(JobError::new(without_followers(text, &check.faults))),
    }
}

/// The job as far as a file with faults says it: bands, motifs and trims with faults are left out, and so is what is wrong with the
/// rest. `None` where there is no hem to try anything on.
#[must_use]
pub fn in_part(text: &str) -> Option<Job> {
    let file = (text.len() <= LONGEST_FILE).then(|| sections(text).0).flatten()?;
    convert(&mut Check::default(), text, &file)
}

/// The top tables in which faults stand, and those that a misspelt one may be meant for.
#[must_use]
pub fn tables_at_fault(text: &str, faults: &JobError) -> BTreeSet<String> {
    let first_name = |line: &str| {
        let name = line.trim_start_matches(['[', ' ']).split(['.', ']', '=', ' ']).next().unwrap_or_default();
        name.trim_matches('"').to_owned()
    };
    let table = |fault: &Fault| match (&fault.at, &fault.kind) {
        (None, FaultKind::Missing { key, .. }) => first_name(key),
        (None, _) => String::new(),
        (Some(at), _) => {
            let start = text.get(..at.start).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1);
            let end = start + text.get(start..).and_then(|rest| rest.find('\n')).unwrap_or(0);
            let lines = text.get(..end.max(at.start)).unwrap_or_default().lines().rev();
            let heading = lines.clone().find(|line| line.trim_start().starts_with('['));
            heading.or_else(|| lines.clone().next()).map(first_name).unwrap_or_default()
        }
    };
    let meant = |name: &String| {
        let known = schema()["properties"].as_object().map(|tables| tables.keys().cloned().collect::<Vec<_>>());
        let known = known.unwrap_or_default();
        nearest_names(name, known.iter().map(String::as_str)).first().map(|near| (*near).to_owned())
    };
    let named: BTreeSet<String> = faults.faults().iter().map(table).collect();
    let also: Vec<String> = named.iter().filter_map(meant).collect();
    named.into_iter().chain(also).collect()
}

/// The drawings that a job file names, each once, with the place where it is first named: also of a file with faults, as far as it
/// is TOML, so that a drawing that is not there can be told together with them.
#[must_use]
pub fn drawings(text: &str) -> Vec<(String, Range<usize>)> {
    let read = (text.len() <= LONGEST_FILE).then(|| sections(text).0).flatten();
    let Some(file) = read else { return Vec::new() };
    let art = file.motif.entries().iter().filter_map(|(_, motif)| motif.keys.art.as_ref());
    let pieces = file.hem.iter().filter_map(|hem| hem.keys.file());
    let of_sizes = file.size.entries().iter().filter_map(|(_, size)| size.keys.file.as_ref());
    let given = art.chain(pieces).chain(of_sizes);
    let mut all: Vec<(String, Range<usize>)> =
        given.filter_map(|given| Some((given.value.as_ref().ok()?.0.clone(), given.at.clone()))).collect();
    all.sort_by_key(|(_, at)| at.start);
    let mut named = BTreeSet::new();
    all.retain(|(name, _)| named.insert(name.clone()));
    all.truncate(MOST_DRAWINGS);
    all
}

/// Leaves out that a table lacks a key when one of its keys was taken out: that one was probably meant.
fn without_followers(text: &str, faults: &[Fault]) -> Vec<Fault> {
    let taken_out: Vec<usize> = faults
        .iter()
        .filter(|fault| matches!(fault.kind, FaultKind::UnknownKey { .. } | FaultKind::WrongShape { .. }))
        .filter_map(|fault| fault.at.as_ref().map(|at| at.start))
        .collect();
    // A table that is missing may be one whose name is misspelt.
    let meant: Vec<String> = faults
        .iter()
        .filter_map(|fault| match &fault.kind {
            FaultKind::UnknownKey { key, known } => {
                nearest_names(key, known.iter().map(String::as_str)).first().map(|near| (*near).to_owned())
            }
            _ => None,
        })
        .collect();
    let follows = |fault: &Fault| {
        let FaultKind::Missing { key, .. } = &fault.kind else { return false };
        let Some(table) = &fault.at else {
            let name = key.trim_matches(['[', ']']).split('.').next().unwrap_or_default();
            return meant.iter().any(|meant| meant == name);
        };
        let of_table = |place: usize| text.get(table.start + 1..place).is_some_and(|between| !between.contains("\n["));
        taken_out.iter().any(|place| *place > table.start && of_table(*place))
    };
    faults.iter().filter(|fault| !follows(fault)).cloned().collect()
}

/// The schema of the job file (JSON Schema 2020-12).
#[must_use]
pub fn schema() -> serde_json::Value {
    schemars::schema_for!(File).to_value()
}

fn convert(check: &mut Check, text: &str, file: &File) -> Option<Job> {
    let counts = [
        ("bands", file.band.len()),
        ("motifs", file.motif.entries().len()),
        ("films", file.film.entries().len()),
        ("trims", file.trim.len()),
        ("zones", file.zone.len()),
        ("places to keep out of", file.keep_out.len()),
        ("sizes", file.size.entries().len()),
    ];
    for (what, found) in counts {
        if found > MOST_OF_EACH {
            check.whole(FaultKind::TooMany { what, found, most: MOST_OF_EACH });
        }
    }
    if counts.iter().any(|(_, found)| *found > MOST_OF_EACH) {
        return None;
    }
    let garment = garment::check(check, file.garment.as_ref());
    let hem = hem::check(check, file.hem.as_ref());
    let (films, usual_film) = film::check(check, &file.film, file.every_film.as_ref());
    let film_keys: Vec<String> = films.iter().map(|(film, _)| film.key.clone()).collect();
    let (motifs, cuts): (_, Vec<CutChoice>) = motif::check(check, &file.motif, &film_keys).into_iter().unzip();
    let films = film::as_used(films, &usual_film, &cuts);
    let motif_keys: Vec<String> = file.motif.entries().iter().map(|(name, _)| name.get_ref().clone()).collect();
    // Bands may lie in the windows that trims leave; what is taken for trims is told after what is taken for bands.
    let mut of_trims = Check::default();
    let trims = trim::check(&mut of_trims, &file.trim);
    let keep_out = keep_out::check(check, text, &file.keep_out);
    let without_corners = file.hem.as_ref().is_some_and(|hem| hem.keys.without_corners());
    let around = band::Around {
        trims: &trims,
        trims_left_out: trims.len() < file.trim.len(),
        keep_out: &keep_out,
        without_corners,
    };
    let bands = band::check(check, &file.band, &motif_keys, around);
    check.faults.append(&mut of_trims.faults);
    check.assumptions.append(&mut of_trims.assumptions);
    let mut zones = zone::check(check, &file.zone);
    zones.extend(trims.iter().filter_map(TrimWish::zone));
    let press = press::check(check, file.press.as_ref(), &garment);
    let rates = rates::check(check, file.rates.as_ref());
    let paper = papers::check_papers(check, file.papers.as_ref());
    let (effort, seed) = papers::check_laying(check, file.laying.as_ref());
    let of_sizes = (garment.size, garment.sizes);
    let sizes = size::check(check, &file.size, hem.as_ref(), of_sizes);
    let assumptions = std::mem::take(&mut check.assumptions);
    Some(Job {
        name: garment.name,
        garments: garment.make,
        hem: hem?,
        sizes,
        bands,
        motifs,
        cuts,
        films,
        usual_film,
        trims,
        zones,
        press,
        rates,
        effort,
        seed,
        paper,
        lines: lines(text, file),
        assumptions,
    })
}

/// The lines at which tables with a name begin.
fn lines(text: &str, file: &File) -> Lines {
    let films = file.film.entries().iter().map(|(name, _)| ("film", name));
    let motifs = file.motif.entries().iter().map(|(name, _)| ("motif", name));
    let sizes = file.size.entries().iter().map(|(name, _)| ("size", name));
    let mut lines = Lines::default();
    for (table, name) in films.chain(motifs).chain(sizes) {
        lines.note(table, name.get_ref().trim(), text, name.span().start);
    }
    let bands = band::names(&file.band).into_iter().zip(&file.band).map(|(name, band)| ("band", name, band.at.start));
    let trims = file.trim.iter().map(|trim| ("trim", trim.keys.called(), trim.at.start));
    let zones = file.zone.iter().map(|zone| ("zone", zone.keys.called(), zone.at.start));
    for (table, name, at) in bands.chain(trims).chain(zones) {
        name.into_iter().for_each(|name| lines.note(table, &name, text, at));
    }
    lines
}

#[cfg(test)]
mod tests;
