//! All faults of a job that the first three stages and the trims find, where each of them stops at its first: what does not hang on
//! a fault is tried nevertheless, so that there is one list to mend and not one after another.

use std::collections::BTreeMap;

use super::drawings::{self, Look};
use super::sizes;
use super::{Error, SetOut, set_out_at};
use crate::art::{Lines, Motif};
use crate::hem::{self, Hem};
use crate::job::Job;
use crate::place::{self, BandWish};
use crate::trims::{self, Edge};

/// Every fault that setting the job out and working out its trims finds; none where it can be done.
#[must_use]
pub fn faults(job: &Job, drawings: &BTreeMap<String, String>) -> Vec<Error> {
    match set_out_at(job, drawings, Look::Read) {
        Err(fault) => fault.each(),
        Ok(SetOut { hem, .. }) => of_trims(job, &hem),
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
            found.push(fault);
            None
        }
    };
    if let Some(hem) = &hem {
        found.extend(of_trims(job, hem));
        let bands = readable(&job.bands, &motifs);
        found.extend(place::faults(hem, &motifs, &bands).into_iter().map(Error::Place));
        found.extend(sizes::faults(job, drawings));
    }
    let first: Vec<Error> = first.each();
    let further: Vec<Error> = first.into_iter().filter(|fault| !found.contains(fault)).collect();
    found.extend(further);
    Error::several(found)
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
    let faults = trims::needs(Edge::of(hem, &job.hem.ends), &job.trims).err().unwrap_or_default();
    faults.into_iter().map(|fault| Error::Trims(vec![fault])).collect()
}
