//! All faults of a job, where each stage stops at its first: what does not hang on a fault is tried nevertheless, so that there is
//! one list to mend and not one after another.

use std::collections::BTreeMap;

use super::drawings::{self, Look};
use super::ready::ready;
use super::sizes;
use super::{Error, SetOut, set_out_at};
use crate::art::{Lines, Motif};
use crate::hem::{self, Hem};
use crate::job::Job;
use crate::place::{self, BandWish};
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
