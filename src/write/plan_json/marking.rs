//! How a band is marked on the cloth: every distance both ways, the folds that check them, dividers.

use serde::Serialize;

use crate::place::{self, BandSetting, There};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::chalk;
use crate::write::figures::bare_inches;

/// A line of the chalk list.
#[derive(Serialize)]
pub(super) struct WrittenChalk {
    mark: String,
    motif: Option<String>,
    hand: Option<&'static str>,
    hem: WrittenWalk,
    line: WrittenWalk,
    height_mm: f64,
    height_in: String,
}

/// The two ways from the middle; on a band with ends only one of them reaches.
#[derive(Serialize)]
pub(super) struct WrittenWalk {
    left_mm: Option<f64>,
    left_in: Option<String>,
    right_mm: Option<f64>,
    right_in: Option<String>,
}

/// What the chalk is checked by.
#[derive(Serialize)]
pub(super) struct WrittenChecks {
    folds: Vec<WrittenFold>,
    dividers: Option<WrittenDividers>,
}

#[derive(Serialize)]
struct WrittenFold {
    part: [u32; 2],
    s_hem_mm: f64,
    s_hem_in: String,
    s_line_mm: f64,
    s_line_in: String,
    there: &'static str,
    placements: Vec<String>,
    off_mm: Option<f64>,
}

#[derive(Serialize)]
struct WrittenDividers {
    chord_mm: f64,
    chord_in: String,
    repeat_mm: f64,
    repeat_in: String,
    drift_mm: f64,
    drift_in: String,
}

/// The chalk list of a band in order along the hem.
pub(super) fn list(plan: &Plan, band: &BandSetting) -> Vec<WrittenChalk> {
    let middle = plan.hem.middle();
    let walk = |walk: chalk::Walk| {
        let [left, right] = walk.left_right(middle);
        WrittenWalk {
            left_mm: left.map(Mm::rounded),
            left_in: left.map(bare_inches),
            right_mm: right.map(Mm::rounded),
            right_in: right.map(bare_inches),
        }
    };
    let line = |row: chalk::Row| WrittenChalk {
        hem: walk(row.hem),
        line: walk(row.line),
        mark: row.mark,
        motif: row.motif,
        hand: row.hand.map(chalk::hand),
        height_mm: row.height.rounded(),
        height_in: bare_inches(row.height),
    };
    chalk::rows(plan, band).into_iter().map(line).collect()
}

/// The folds and dividers of a band.
pub(super) fn checks(plan: &Plan, band: &BandSetting) -> Option<WrittenChecks> {
    let marking = place::marking(&plan.hem, band).ok()?;
    let dividers = marking.dividers.map(|dividers| WrittenDividers {
        chord_mm: dividers.chord.rounded(),
        chord_in: bare_inches(dividers.chord),
        repeat_mm: dividers.repeat.rounded(),
        repeat_in: bare_inches(dividers.repeat),
        drift_mm: dividers.drift.rounded(),
        drift_in: bare_inches(dividers.drift),
    });
    Some(WrittenChecks { folds: marking.folds.into_iter().map(fold).collect(), dividers })
}

fn fold(fold: place::Fold) -> WrittenFold {
    let (there, placements, off_mm) = match fold.there {
        There::Motif(id) => ("motif", vec![id], None),
        There::Gap(a, b) => ("gap", vec![a, b], None),
        There::Beside(id, by) => ("beside", vec![id], Some(by.rounded())),
    };
    WrittenFold {
        part: [fold.part.0, fold.part.1],
        s_hem_mm: fold.s_hem.rounded(),
        s_hem_in: bare_inches(fold.s_hem),
        s_line_mm: fold.s_line.rounded(),
        s_line_in: bare_inches(fold.s_line),
        there,
        placements,
        off_mm,
    }
}
