//! After hanging: a setting redistributed over a hem that was measured again part by part.
//!
//! Bias drops and edges stretch, so a hem that hung for a day is no longer what the draft says. Counts, sizes and pieces stay;
//! within each part the steps are lengthened or shortened alike. The line above a part changes by as much as the hem, since
//! its turn does not.

use crate::finding::{Finding, Severity};
use crate::hem::{Hem, MotifLine};
use crate::place::along::row::Row;
use crate::place::clash::clear::Between;
use crate::place::{BandSetting, ClearGap, Placement, Spacing, say};
use crate::quantity::Mm;

/// A part that changed by less than this, in millimetres, is not worth a word: what a tape can be read to.
const UNCHANGED: f64 = 1.0;

/// A row as the draft has it.
pub(in crate::place) struct Drafted<'a> {
    pub(in crate::place) line: &'a MotifLine,
    pub(in crate::place) row: &'a Row,
    /// Clear gaps of all neighbours.
    pub(in crate::place) clear: &'a [Between],
}

/// Redistributes a row; tells which parts changed and where the gap is now less than asked for.
pub(in crate::place) fn redistribute(
    hem: &Hem,
    drafted: &Drafted<'_>,
    band: &mut BandSetting,
    spacing: Spacing,
) -> Vec<Finding> {
    let parts = hem.hung();
    if parts.is_empty() {
        return Vec::new();
    }
    let (Some(on_hem), Some(on_line)) = (hem.as_hung(), hem.line_as_hung(drafted.line)) else { return Vec::new() };
    let (before, drafted_line) = (steps(band), band.line);
    for placed in &mut band.placements {
        placed.s_hem = on_hem.at(placed.s_hem);
        placed.s_line = on_line.at(placed.s_line);
    }
    let grown: Vec<f64> = on_hem.grown().map(Mm::get).collect();
    let (repeat, grown_all) = (band.repeat.get(), grown.iter().sum::<f64>());
    band.repeat = Mm::new(repeat * (band.line.get() + grown_all) / band.line.get());
    band.line += Mm::new(grown_all);
    if let Some(least) = least_gap(band, drafted.row) {
        band.gap_along = least;
    }
    let after = steps(band);
    let as_hung = |one: &Between| Mm::new(one.clear.distance) + after[one.pair.0] - before[one.pair.0];
    // Clear gaps follow their steps one to one but for what the curve bends.
    let least = drafted.clear.iter().map(|one| (as_hung(one), one)).min_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((least, one)) = least {
        let id = |place: usize| band.placements[place].id.clone();
        let between = (id(one.pair.0), id(one.pair.1));
        band.clear_gap = Some(ClearGap { least: least.max(Mm::ZERO), between, at: (one.clear.from, one.clear.to) });
    }
    band.reasons.insert(
        0,
        format!(
            "counted on the hem as drafted, {} along the motif line, and spread anew within each part of the hem as \
             measured again",
            drafted_line
        ),
    );
    let changed = parts.iter().enumerate().filter(|(k, _)| grown[*k].abs() >= UNCHANGED);
    let said = changed.map(|(k, part)| format!("from {} to {} {}", part.names.0, part.names.1, change_words(grown[k])));
    findings(band, &said.collect::<Vec<_>>(), spacing)
}

/// From each motif to the next along the line, from the last round to the first.
fn steps(band: &BandSetting) -> Vec<Mm> {
    let next = band.placements.iter().cycle().skip(1);
    let step = |(here, next): (&Placement, &Placement)| next.s_line - here.s_line;
    let mut steps: Vec<Mm> = band.placements.iter().zip(next).map(step).collect();
    if let Some(last) = steps.last_mut() {
        *last += band.line;
    }
    steps
}

/// The smallest gap between neighbours where they stand now; `None` for a motif on its own.
fn least_gap(band: &BandSetting, row: &Row) -> Option<Mm> {
    let count = row.seats.len().min(band.placements.len());
    let pairs = if row.round.is_some() { count } else { count.saturating_sub(1) };
    let gap = |k: usize| {
        let next = (k + 1) % count;
        let round = if next == 0 { band.line } else { Mm::ZERO };
        let step = band.placements[next].s_line - band.placements[k].s_line + round;
        step - Mm::new(row.seats[k].half + row.seats[next].half)
    };
    (0..pairs).filter(|_| count > 1).map(gap).min_by(Mm::total_cmp)
}

/// `is 12.0 mm longer than drafted`
fn change_words(grown: f64) -> String {
    let by = Mm::new(grown.abs());
    if grown > 0.0 { format!("is {by} longer than drafted") } else { format!("is {by} shorter than drafted") }
}

fn findings(band: &BandSetting, changed: &[String], spacing: Spacing) -> Vec<Finding> {
    let wanted = spacing.gap().unwrap_or(Mm::ZERO);
    let mut found = Vec::new();
    if !changed.is_empty() {
        found.push(Finding {
            severity: Severity::LookAtThis,
            kind: "after-hanging",
            place: None,
            measure: None,
            say: format!(
                "{}: the hem as measured again {}. The motifs are spread anew within each part; the smallest gap along the \
                 line is now {}.",
                band.name,
                changed.join(", "),
                band.gap_along
            ),
            advice: "Pieces already cut stay valid. Mark from the new chalk list only.".to_owned(),
        });
    }
    if band.gap_along < wanted - Mm::new(crate::place::along::row::SAME) {
        found.push(Finding {
            severity: Severity::LookAtThis,
            kind: "gap-after-hanging",
            place: None,
            measure: Some(band.gap_along),
            say: format!(
                "{}: after hanging the smallest gap is {}, less than the {} asked for.",
                band.name,
                band.gap_along,
                say::short(wanted)
            ),
            advice: "Leave one motif out if that is too close, or let the part that shrank be stretched back."
                .to_owned(),
        });
    }
    found
}
