//! The bands of a job in its further sizes.

use std::collections::BTreeMap;

use super::{Error, SetOut, drawings};
use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::hem::{self, Hem, HemError, HemWish};
use crate::job::Job;
use crate::place::{self, BandWish, SizePolicy, SizesCard};

/// One band in every size.
#[derive(Clone, Debug, PartialEq)]
pub struct BandSizes {
    /// Name of the band.
    pub band: String,
    /// The sizes side by side, the job's own first.
    pub card: SizesCard,
}

/// The hems of a job's further sizes by their names.
pub(super) fn hems(job: &Job, drawings: &BTreeMap<String, String>) -> Result<Vec<(String, Hem)>, Error> {
    let hem = |(name, wish): &(String, HemWish)| {
        let lines = drawings::hem_lines(wish, drawings).map_err(|fault| of_size(name, fault))?;
        let hem = hem::shape_drawn(wish, &lines.by_id).map_err(|fault| of_size(name, fault.into()))?;
        Ok((name.clone(), hem))
    };
    job.sizes.others.iter().map(hem).collect()
}

/// What is wrong with the further sizes; nothing that is wrong with the job's own size in the same way.
pub(super) fn faults(job: &Job, drawings: &BTreeMap<String, String>) -> Vec<Error> {
    let of = |wish: &HemWish| match drawings::hem_lines(wish, drawings) {
        Ok(lines) => hem::faults(wish, &lines.by_id).1.into_iter().map(Error::Hem).collect(),
        Err(fault) => fault.each(),
    };
    // A seam that lies off the job's own hem needs no telling in every size.
    let of_own_seams = |fault: &Error| matches!(fault, Error::Hem(HemError::MarkOffHem { seam: Some(_), .. }));
    let own_seams = of(&job.hem).iter().any(of_own_seams);
    let size = |(name, wish): &(String, HemWish)| {
        let faults = of(wish).into_iter().filter(|fault| !(own_seams && of_own_seams(fault)));
        faults.map(|fault| of_size(name, fault)).collect::<Vec<_>>()
    };
    job.sizes.others.iter().flat_map(size).collect()
}

/// The bands of the job's own size, with the counts that all sizes share, where they do, and those of bands tied to each
/// other.
pub(super) fn settled(
    job: &Job,
    (own, others): (&Hem, &[(String, Hem)]),
    motifs: &BTreeMap<String, Motif>,
) -> Result<Vec<BandWish>, Error> {
    let mut hems = vec![(job.sizes.own.clone(), own)];
    if job.sizes.policy == SizePolicy::SameCount {
        hems.extend(others.iter().map(|(name, hem)| (name.clone(), hem)));
    }
    place::settle(&hems, motifs, &job.bands).map_err(|fault| {
        let own = fault.size == job.sizes.own;
        if own { fault.fault.into() } else { of_size(&fault.size, fault.fault.into()) }
    })
}

/// Each band in every size; none where the job has one. Where a size departs from the first is a finding too.
pub(super) fn sizes(job: &Job, set: &SetOut, findings: &mut Vec<Finding>) -> Result<Vec<BandSizes>, Error> {
    if set.other_sizes.is_empty() {
        return Ok(Vec::new());
    }
    // With the gap in common each size has its own counts.
    let own_wishes = |(name, hem): &(String, Hem)| {
        let one = [(name.clone(), hem)];
        let settled = place::settle(&one, &set.motifs, &job.bands);
        settled.map_err(|fault| of_size(&fault.size, fault.fault.into()))
    };
    let wishes: Vec<Vec<BandWish>> = match job.sizes.policy {
        SizePolicy::SameCount => set.other_sizes.iter().map(|_| set.bands.clone()).collect(),
        SizePolicy::SameGap => all_or_faults(set.other_sizes.iter().map(own_wishes))?,
    };
    let card = |(index, wish): (usize, &BandWish)| {
        let others =
            set.other_sizes.iter().zip(&wishes).map(|((name, hem), bands)| (name.as_str(), hem, &bands[index]));
        let all: Vec<_> = std::iter::once((job.sizes.own.as_str(), &set.hem, wish)).chain(others).collect();
        let (mut left, mut faults) = (all, Vec::new());
        loop {
            match place::sizes(&left, &set.motifs) {
                Ok(card) if faults.is_empty() => return Ok(BandSizes { band: wish.name.clone(), card }),
                Ok(_) => return Err(Error::several(faults)),
                Err(fault) => {
                    // The rest is tried without the size at fault.
                    let tried = left.len();
                    left.retain(|(name, ..)| *name != fault.size);
                    faults.push(of_size(&fault.size, fault.fault.into()));
                    if left.len() == tried || left.is_empty() {
                        return Err(Error::several(faults));
                    }
                }
            }
        }
    };
    let all = all_or_faults(set.bands.iter().enumerate().map(card))?;
    findings.extend(all.iter().flat_map(|sizes| departures(sizes, job)));
    Ok(all)
}

/// Every value, or everything that is wrong.
fn all_or_faults<T>(found: impl Iterator<Item = Result<T, Error>>) -> Result<Vec<T>, Error> {
    let (mut values, mut faults) = (Vec::new(), Vec::new());
    for found in found {
        match found {
            Ok(value) => values.push(value),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(values) } else { Err(Error::several(faults)) }
}

fn of_size(size: &str, fault: Error) -> Error {
    Error::Size { size: size.to_owned(), fault: Box::new(fault) }
}

fn departures<'a>(sizes: &'a BandSizes, job: &'a Job) -> impl Iterator<Item = Finding> + 'a {
    let advice = match job.sizes.policy {
        SizePolicy::SameCount => "Ask for another count, or let each size have its own by `sizes = \"same gap\"`.",
        SizePolicy::SameGap => "Let all sizes have the same count, or ask for another gap.",
    };
    sizes.card.rows.iter().filter(|row| !row.warnings.is_empty()).map(move |row| Finding {
        severity: Severity::LookAtThis,
        kind: "size-differs",
        place: None,
        measure: None,
        say: format!(
            "{} in size {}: {}.",
            job.lines.named("band", &sizes.band),
            job.lines.named("size", &row.name),
            row.warnings.join("; ")
        ),
        advice: advice.to_owned(),
    })
}
