//! After hanging: a setting redistributed over a hem that was measured again part by part.
//!
//! Bias drops and edges stretch, so a hem that hung for a day is no longer what the draft says. Counts, sizes and pieces stay;
//! within each part the steps are lengthened or shortened alike. The line above a part changes by as much as the hem, since
//! its turn does not.

use super::row::Row;
use super::{BandSetting, Spacing, say};
use crate::finding::{Finding, Severity};
use crate::hem::{Hem, MotifLine};
use crate::quantity::Mm;

/// A part that changed by less than this, in millimetres, is not worth a word: what a tape can be read to.
const UNCHANGED: f64 = 1.0;

/// Redistributes a row; tells which parts changed and where the gap is now less than asked for.
pub(super) fn redistribute(
    hem: &Hem,
    (line, row): (&MotifLine, &Row),
    band: &mut BandSetting,
    spacing: Spacing,
) -> Vec<Finding> {
    let parts = hem.hung();
    if parts.is_empty() {
        return Vec::new();
    }
    let on_line = |s: Mm| line.from_hem(s).get();
    let old: Vec<(f64, f64)> = parts.iter().map(|part| (on_line(part.from), on_line(part.to))).collect();
    let grown: Vec<f64> = parts.iter().map(|part| (part.measured - (part.to - part.from)).get()).collect();
    let line_map = Stretched::new(&old, &grown);
    let hem_map =
        Stretched::new(&parts.iter().map(|part| (part.from.get(), part.to.get())).collect::<Vec<_>>(), &grown);
    let narrowest = (0..parts.len()).map(|k| line_map.factor(k)).fold(f64::MAX, f64::min);
    let round = hem.is_closed().then(|| (hem.length().get(), line.length().get()));
    for placed in &mut band.placements {
        placed.s_hem = Mm::new(hem_map.moved(placed.s_hem.get(), round.map(|round| round.0)));
        placed.s_line = Mm::new(line_map.moved(placed.s_line.get(), round.map(|round| round.1)));
    }
    let (repeat, grown_all) = (band.repeat.get(), grown.iter().sum::<f64>());
    band.repeat = Mm::new(repeat * (band.line.get() + grown_all) / band.line.get());
    band.line += Mm::new(grown_all);
    // The tightest step loses at most this; clear gaps follow their steps one to one but for what the curve bends.
    let loss = Mm::new(repeat * (narrowest - 1.0));
    if let Some(least) = least_gap(band, row) {
        band.gap_along = least;
    }
    if let Some(gap) = &mut band.clear_gap {
        gap.least = (gap.least + loss).max(Mm::ZERO);
    }
    let changed = parts.iter().enumerate().filter(|(k, _)| grown[*k].abs() >= UNCHANGED);
    let said = changed.map(|(k, part)| format!("from {} to {} {}", part.names.0, part.names.1, change_words(grown[k])));
    findings(band, &said.collect::<Vec<_>>(), spacing)
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

/// A line of which each part was lengthened by so much.
struct Stretched {
    /// Start, length, and length it has grown by, of each part.
    parts: Vec<(f64, f64, f64)>,
}

impl Stretched {
    fn new(parts: &[(f64, f64)], grown: &[f64]) -> Self {
        let parts = parts.iter().zip(grown).map(|((from, to), grown)| (*from, to - from, *grown));
        Self { parts: parts.collect() }
    }

    fn factor(&self, part: usize) -> f64 {
        let (_, length, grown) = self.parts[part];
        (length + grown) / length
    }

    /// Where a place has moved; on a ring, places before the first part are those that end the last.
    fn moved(&self, s: f64, round: Option<f64>) -> f64 {
        let first = self.parts[0].0;
        let before = s < first - super::row::SAME && round.is_some();
        let s = if before { s + round.unwrap_or_default() } else { s };
        let mut place = first;
        for (from, length, grown) in &self.parts {
            let share = ((s - from) / length).clamp(0.0, 1.0);
            place += share * (length + grown);
        }
        let all: f64 = self.parts.iter().map(|(_, length, grown)| length + grown).sum();
        if before { place - all } else { place }
    }
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
    if band.gap_along < wanted - Mm::new(super::row::SAME) {
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
