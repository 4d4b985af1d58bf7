//! All faults of a job, where each stage stops at its first: what does not hang on a fault is tried nevertheless, so that there is
//! one list to mend and not one after another.

use std::collections::{BTreeMap, BTreeSet};

use super::drawings::{self, Look};
use super::ready::ready;
use super::sizes;
use super::{Error, SetOut, set_out_at};
use crate::art::{Lines, Motif};
use crate::film;
use crate::hem::{self, Hem};
use crate::job::{self, Job};
use crate::place::{self, BandWish, Setting};
use crate::trims::{self, Edge};

/// Every fault that is found before anything is laid on sheets; none where there is none.
#[must_use]
pub fn faults(job: &Job, drawings: &BTreeMap<String, String>) -> Vec<Error> {
    match set_out_at(job, drawings, Look::Read) {
        Err(fault) => fault.each(),
        Ok(set) => ready(job, &set).err().unwrap_or_default(),
    }
}

/// The fault with which setting out stopped, with all others that do not hang on it.
pub(super) fn with_others(first: Error, job: &Job, drawings: &BTreeMap<String, String>, look: Look) -> Error {
    let (motifs, _, mut found) = drawings::motifs_and_faults(job, drawings, look);
    found.extend(of_films(job, &motifs).err().map(Error::each).unwrap_or_default());
    let hem = match drawings::hem_lines(&job.hem, drawings) {
        Ok(Lines { by_id, .. }) => {
            let (hem, faults) = hem::faults(&job.hem, &by_id);
            found.extend(faults.into_iter().map(Error::Hem));
            hem
        }
        Err(fault) => {
            found.extend(fault.each());
            None
        }
    };
    if let Some(hem) = &hem {
        found.extend(of_trims(job, hem));
        let bands = readable(&job.bands, &motifs);
        let (sound, faults) = place::faults(hem, &motifs, &bands);
        found.extend(faults.into_iter().map(Error::Place));
        found.extend(sizes::faults(job, drawings));
        let later = of_later_stages(job, hem, motifs, sound);
        let new: Vec<Error> = later.into_iter().filter(|fault| !found.contains(fault)).collect();
        found.extend(new);
    }
    let first: Vec<Error> = first.each();
    let further: Vec<Error> = first.into_iter().filter(|fault| !found.contains(fault)).collect();
    found.extend(further);
    Error::several(found)
}

/// What is wrong with pieces, sheets and press of the bands that can be set out.
fn of_later_stages(job: &Job, hem: &Hem, motifs: BTreeMap<String, Motif>, bands: Vec<BandWish>) -> Vec<Error> {
    let Ok(setting) = place::set_out(hem, &motifs, &bands) else { return Vec::new() };
    let set = SetOut { motifs, hem: hem.clone(), other_sizes: Vec::new(), bands, setting, findings: Vec::new() };
    ready(job, &set).err().unwrap_or_default()
}

/// Names that are film for one motif of a band and cloth for another.
pub(super) fn of_films(job: &Job, motifs: &BTreeMap<String, Motif>) -> Result<(), Error> {
    let corner = |wish: &BandWish| wish.rhythm.corner.as_ref().map(|corner| corner.motif.clone());
    let placed: BTreeSet<String> =
        job.bands.iter().flat_map(|wish| wish.motifs.iter().cloned().chain(corner(wish))).collect();
    let motifs: BTreeMap<String, Motif> = motifs
        .iter()
        .filter(|(name, _)| placed.contains(*name))
        .map(|(name, motif)| (name.clone(), motif.clone()))
        .collect();
    let nowhere = Setting { bands: Vec::new(), findings: Vec::new() };
    let faults = film::two_materials(&job::complete_cuts(job, &motifs, &nowhere).cuts);
    if faults.is_empty() { Ok(()) } else { Err(Error::several(faults.into_iter().map(Error::Film).collect())) }
}

/// The bands whose drawings could all be read.
fn readable(bands: &[BandWish], motifs: &BTreeMap<String, Motif>) -> Vec<BandWish> {
    let there = |wish: &&BandWish| {
        let corner = wish.rhythm.corner.iter().map(|corner| &corner.motif);
        wish.motifs.iter().chain(corner).all(|name| motifs.contains_key(name))
    };
    bands.iter().filter(there).cloned().collect()
}

fn of_trims(job: &Job, hem: &Hem) -> Vec<Error> {
    let faults = trims::needs(Edge::of(hem, &job.hem.ends), job.garments, &job.trims).err().unwrap_or_default();
    faults.into_iter().map(|fault| Error::Trims(vec![fault])).collect()
}
