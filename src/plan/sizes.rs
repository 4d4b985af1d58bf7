//! The bands of a job in its further sizes.

use std::collections::BTreeMap;

use super::{Error, SetOut, drawings};
use crate::finding::{Finding, Severity};
use crate::hem::{self, Hem};
use crate::job::Job;
use crate::place::{self, SizesCard};

/// One band in every size.
#[derive(Clone, Debug, PartialEq)]
pub struct BandSizes {
    /// Name of the band.
    pub band: String,
    /// The sizes side by side, the job's own first.
    pub card: SizesCard,
}

/// Each band in every size; none where the job has one. Where a size departs from the first is a finding too.
pub(super) fn sizes(
    job: &Job,
    drawings: &BTreeMap<String, String>,
    set: &SetOut,
    findings: &mut Vec<Finding>,
) -> Result<Vec<BandSizes>, Error> {
    if job.sizes.others.is_empty() {
        return Ok(Vec::new());
    }
    let mut hems: Vec<(String, Hem)> = vec![(job.sizes.own.clone(), set.hem.clone())];
    for (name, wish) in &job.sizes.others {
        let lines = drawings::hem_lines(wish, drawings).map_err(|fault| of_size(name, fault))?;
        let hem = hem::shape_drawn(wish, &lines.by_id).map_err(|fault| of_size(name, fault.into()))?;
        hems.push((name.clone(), hem));
    }
    let card = |wish: &crate::place::BandWish| {
        let card = place::sizes(&hems, &set.motifs, wish, job.sizes.policy)
            .map_err(|fault| of_size(&fault.size, fault.fault.into()))?;
        Ok(BandSizes { band: wish.name.clone(), card })
    };
    let all = job.bands.iter().map(card).collect::<Result<Vec<_>, Error>>()?;
    findings.extend(all.iter().flat_map(departures));
    Ok(all)
}

fn of_size(size: &str, fault: Error) -> Error {
    Error::Size { size: size.to_owned(), fault: Box::new(fault) }
}

fn departures(sizes: &BandSizes) -> impl Iterator<Item = Finding> + '_ {
    sizes.card.rows.iter().filter(|row| !row.warnings.is_empty()).map(|row| Finding {
        severity: Severity::LookAtThis,
        kind: "size-differs",
        place: None,
        measure: None,
        say: format!("{} in size {}: {}.", sizes.band, row.name, row.warnings.join("; ")),
        advice: "Let all sizes have the same count, or ask for another one.".to_owned(),
    })
}
