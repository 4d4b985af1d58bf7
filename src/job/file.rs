//! The job file as a whole: TOML text to its sections, and those to a [`Job`].
//!
//! A key that is not known or has the wrong shape is noted, taken out, and the rest read again, so that one look at the
//! messages shows everything there is to mend. The number of such rounds is bounded by [`MOST_FAULTS`].

use std::ops::Range;

use schemars::JsonSchema;
use serde::Deserialize;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::band::BandKeys;
use super::check::Check;
use super::fault::{Fault, FaultKind, JobError};
use super::film::FilmKeys;
use super::garment::GarmentKeys;
use super::given::{Named, Section};
use super::hem::HemKeys;
use super::keep_out::{self, KeepOutKeys};
use super::lines::Lines;
use super::motif::MotifKeys;
use super::papers::{LayingKeys, PapersKeys};
use super::press::PressKeys;
use super::rates::RateKeys;
use super::size::{self, SizeKeys};
use super::trim::TrimKeys;
use super::zone::ZoneKeys;
use super::{Job, band, film, garment, hem, motif, papers, press, rates, trim, zone};
use crate::trims::TrimWish;

/// Longest job file that is read: a thousand times what a full one takes.
pub const LONGEST_FILE: usize = 2_000_000;
/// Faults of shape that are told at once; after so many the file is something else.
const MOST_FAULTS: usize = 20;
/// Faults told of a text that is no TOML; what is wrong further down often comes from what is wrong above.
const MOST_UNREADABLE: usize = 6;
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
    let mut named = std::collections::BTreeSet::new();
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
    let follows = |fault: &Fault| {
        let (FaultKind::Missing { .. }, Some(table)) = (&fault.kind, &fault.at) else { return false };
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

/// The sections, and the faults of shape met on the way; no sections when the text is no TOML.
fn sections(text: &str) -> (Option<File>, Vec<Fault>) {
    let (mut table, errors) = DeTable::parse_recoverable(text);
    if !errors.is_empty() {
        return (None, unreadable(&errors));
    }
    let mut faults = Vec::new();
    while faults.len() < MOST_FAULTS {
        match File::deserialize(toml::Deserializer::from(table.clone())) {
            Ok(file) => return (Some(file), faults),
            Err(error) => {
                let at = error.span();
                let written = at.clone().and_then(|at| text.get(at)).unwrap_or_default();
                faults.push(Fault { at: at.clone(), kind: fault_of_shape(error.message(), written) });
                if !at.is_some_and(|at| take_out(table.get_mut(), &at)) {
                    return (None, faults);
                }
            }
        }
    }
    (None, faults)
}

/// What makes the text no TOML: the same at the same place once, and no more than
/// [`MOST_UNREADABLE`]; one bracket too many can be a fault of every line below it.
fn unreadable(errors: &[toml::de::Error]) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    for error in errors {
        let say = error.message().lines().collect::<Vec<_>>().join("; ");
        let fault = Fault { at: error.span(), kind: FaultKind::NotReadable { say } };
        if faults.iter().all(|told| told != &fault) {
            faults.push(fault);
        }
    }
    let count = faults.len().saturating_sub(MOST_UNREADABLE);
    faults.truncate(MOST_UNREADABLE);
    faults.extend((count > 0).then_some(Fault { at: None, kind: FaultKind::Others { count } }));
    faults
}

/// Takes out the entry whose key or value has this place.
fn take_out(table: &mut DeTable<'_>, at: &Range<usize>) -> bool {
    let found = table.iter().find(|(key, value)| key.span() == *at || value.span() == *at).map(|(key, _)| key.clone());
    if let Some(key) = found {
        return table.remove(&key).is_some();
    }
    table.iter_mut().any(|(_, value)| take_out_below(value, at))
}

fn take_out_below(value: &mut Spanned<DeValue<'_>>, at: &Range<usize>) -> bool {
    match value.get_mut() {
        DeValue::Table(table) => take_out(table, at),
        DeValue::Array(list) => {
            if list.iter().any(|value| value.span() == *at) {
                let all = std::mem::replace(list, DeArray::new());
                *list = all.into_iter().filter(|value| value.span() != *at).collect();
                return true;
            }
            list.iter_mut().any(|value| take_out_below(value, at))
        }
        _ => false,
    }
}

/// What the reader's own message means to a maker.
fn fault_of_shape(message: &str, written: &str) -> FaultKind {
    let quoted: Vec<String> = message.split('`').skip(1).step_by(2).map(str::to_owned).collect();
    if let (true, [key, known @ ..]) = (message.starts_with("unknown field"), &quoted[..]) {
        return FaultKind::UnknownKey { key: key.clone(), known: known.to_vec() };
    }
    let Some((found, wanted)) = message.strip_prefix("invalid type: ").and_then(|rest| rest.split_once(", expected "))
    else {
        return FaultKind::WrongShape { say: message.to_owned() };
    };
    let plain = |text: &str, words: &[(&str, &str)]| {
        let word = words.iter().find(|(word, _)| text.starts_with(word));
        word.map_or_else(|| text.to_owned(), |(word, plain)| text.replacen(word, plain, 1))
    };
    // A date without quotes comes as a table of its own making.
    let found = if found.starts_with("map") && written.starts_with(|first: char| first.is_ascii_digit()) {
        "a date"
    } else {
        found
    };
    let found = plain(
        found,
        &[
            ("sequence", "a list"),
            ("map", "a table"),
            ("string", "the text"),
            ("integer", "the number"),
            ("floating point", "the number"),
            ("boolean", "the word"),
        ],
    );
    let wanted = plain(wanted, &[("a sequence", "a list"), ("a map", "a table"), ("a string", "a text in quotes")]);
    let say = format!("{found} stands where there should be {wanted}");
    FaultKind::WrongShape { say }
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
    let film_keys: Vec<String> = films.iter().map(|film| film.key.clone()).collect();
    let (motifs, cuts) = motif::check(check, &file.motif, &film_keys).into_iter().unzip();
    let motif_keys: Vec<String> = file.motif.entries().iter().map(|(name, _)| name.get_ref().clone()).collect();
    // Bands may lie in the windows that trims leave; what is taken for trims is told after what is taken for bands.
    let mut of_trims = Check::default();
    let trims = trim::check(&mut of_trims, &file.trim);
    let keep_out = keep_out::check(check, text, &file.keep_out);
    let without_corners = file.hem.as_ref().is_some_and(|hem| hem.keys.without_corners());
    let around = band::Around { trims: &trims, keep_out: &keep_out, without_corners };
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

/// The lines at which films, motifs and sizes begin.
fn lines(text: &str, file: &File) -> Lines {
    let films = file.film.entries().iter().map(|(name, _)| ("film", name));
    let motifs = file.motif.entries().iter().map(|(name, _)| ("motif", name));
    let sizes = file.size.entries().iter().map(|(name, _)| ("size", name));
    let mut lines = Lines::default();
    for (table, name) in films.chain(motifs).chain(sizes) {
        lines.note(table, name.get_ref().trim(), text, name.span().start);
    }
    lines
}

#[cfg(test)]
mod tests;
