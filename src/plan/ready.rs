//! What follows from a setting before anything is laid on sheets: pieces, press plan, trims and further sizes, and all that is wrong
//! with them at once, before the long search.

use std::iter;

use super::pair::RightHand;
use super::{AtPress, BandSizes, Error, SetOut, lines, sheets, sizes};
use crate::film::{self, CannotTurn, CutWish, Film, FilmError, Method, Prepared};
use crate::finding::{Assumption, Finding};
use crate::job::{self, Job};
use crate::place::{self, Garments, Setting};
use crate::press::{self, HeatRisk, PressPlan};
use crate::trims::{self, Edge, TrimNeed};

/// A job ready to be laid.
pub(super) struct Ready {
    /// Where everything goes, on all garments.
    pub(super) to_cut: Setting,
    /// The job's films, and one for each colour the job did not name.
    pub(super) films: Vec<Film>,
    /// Films of the job that nothing is cut from.
    pub(super) unused: Vec<String>,
    /// Every film, class and number of spares that was taken.
    pub(super) assumed: Vec<Assumption>,
    /// What is cut.
    pub(super) prepared: Prepared,
    /// What the trims need.
    pub(super) trims: Vec<TrimNeed>,
    /// Closings of the press.
    pub(super) press: PressPlan,
    /// The right-hand one of a pair.
    pub(super) right: Option<RightHand>,
    /// Closings and time for all garments.
    pub(super) at_press: AtPress,
    /// Heat risks.
    pub(super) risks: Vec<HeatRisk>,
    /// Each band in every size, where the job has several.
    pub(super) sizes: Vec<BandSizes>,
    /// Where a size departs from the first.
    pub(super) of_sizes: Vec<Finding>,
}

/// Makes a job ready to be laid.
///
/// # Errors
/// Every fault of pieces, sheets, press, trims and sizes, as far as it does not hang on another.
pub(super) fn ready(job: &Job, set: &SetOut) -> Result<Ready, Vec<Error>> {
    let to_cut = match job.garments {
        Garments::One => set.setting.clone(),
        Garments::MirroredPair => place::with_mirror_image(&set.setting, &set.motifs),
    };
    let job::CompleteCuts { cuts, films, unused, assumptions: assumed } = job::complete_cuts(job, &set.motifs, &to_cut);
    let mut faults: Vec<Error> = Vec::new();
    let prepare = |cuts: &[CutWish]| film::prepare(&set.motifs, &to_cut, cuts, &films);
    let prepared = match prepare(&cuts) {
        Ok(prepared) => Some(prepared),
        Err(fault) => {
            // With those edges left raw the rest can be tried.
            let places = if let FilmError::CannotTurn { places } = &fault { places.as_slice() } else { &[] };
            let rest = prepare(&with_raw_edges(&cuts, places)).ok();
            faults.push(fault.into());
            rest
        }
    };
    let trims = trims::needs(Edge::of(&set.hem, &job.hem.ends), job.garments, &job.trims);
    let trims = trims.map_err(|each| faults.extend(each.into_iter().map(|fault| Error::Trims(vec![fault])))).ok();
    let mut of_sizes = Vec::new();
    let sizes = sizes::sizes(job, set, &mut of_sizes).map_err(|fault| faults.extend(fault.each())).ok();
    let pressed = prepared.as_ref().and_then(|prepared| {
        faults.extend(sheets::faults(&films, &prepared.pieces, job));
        let inputs = press::Inputs {
            motifs: &set.motifs,
            hem: &set.hem,
            setting: &set.setting,
            pieces: &prepared.pieces,
            films: &films,
            zones: &job.zones,
            setup: &job.press,
        };
        let (plan, mut risks) = press::plan(inputs).map_err(|fault| faults.push(fault.into())).ok()?;
        let right = match job.garments {
            Garments::One => None,
            Garments::MirroredPair => Some(RightHand::pressed(inputs).map_err(|fault| faults.push(fault)).ok()?),
        };
        risks.sort_by_key(|risk| std::cmp::Reverse(risk.outcome));
        Some((plan, right, risks.into_iter().map(|risk| lines::of_risk(risk, job)).collect()))
    });
    if let (Some(prepared), true) = (&prepared, !faults.is_empty()) {
        faults.extend(sheets::too_large_of(&films, &prepared.pieces, job));
    }
    match (prepared, trims, pressed, sizes) {
        (Some(prepared), Some(trims), Some((press, right, risks)), Some(sizes)) if faults.is_empty() => {
            let garments: Vec<&PressPlan> =
                iter::once(&press).chain(right.as_ref().map(|right| &right.press)).collect();
            let at_press = AtPress::of(&garments);
            Ok(Ready {
                to_cut,
                films,
                unused,
                assumed,
                prepared,
                trims,
                press,
                right,
                at_press,
                risks,
                sizes,
                of_sizes,
            })
        }
        _ => Err(faults),
    }
}

/// The wishes with raw edges for the layers that cannot be turned.
fn with_raw_edges(cuts: &[CutWish], places: &[CannotTurn]) -> Vec<CutWish> {
    let mut cuts = cuts.to_vec();
    for place in places {
        let own = cuts.iter_mut().filter(|cut| cut.motif == place.layer.motif).flat_map(|cut| &mut cut.layers);
        for layer in own.filter(|layer| layer.colour == place.layer.colour) {
            layer.method = Method::FusedBacked;
        }
    }
    cuts
}
