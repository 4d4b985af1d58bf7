//! After hanging: a setting redistributed over a hem that was measured again part by part.
//!
//! Bias drops and edges stretch, so a hem that hung for a day is no longer what the draft says. Counts, sizes and pieces stay;
//! within each part the steps are lengthened or shortened alike. The line above a part changes by as much as the hem, since
//! its turn does not.

use crate::finding::{Finding, Severity};
use crate::hem::Hem;
use crate::place::clash::clear::Between;
use crate::place::{BandSetting, BandWish, ClearGap, Evenness, say};
use crate::quantity::Mm;

/// A part that changed by less than this, in millimetres, is not worth a word: what a tape can be read to.
const UNCHANGED: f64 = 1.0;

/// A row as the draft has it.
pub(in crate::place) struct Drafted<'a> {
    /// Length of its line.
    pub(in crate::place) line: Mm,
    /// Places of its motifs along the line, in order.
    pub(in crate::place) places: &'a [Mm],
    /// Clear gaps of all neighbours.
    pub(in crate::place) clear: &'a [Between],
}

/// Gives a row that was carried onto the hem as it hung its clear gap there; tells which parts changed and where the gap is now less
/// than asked for.
pub(in crate::place) fn redistribute(
    hem: &Hem,
    drafted: &Drafted<'_>,
    band: &mut BandSetting,
    wish: &BandWish,
) -> Vec<Finding> {
    let (parts, Some(on_hem)) = (hem.hung(), hem.as_hung()) else { return Vec::new() };
    let grown: Vec<f64> = on_hem.grown().map(Mm::get).collect();
    band.clear_gap = clear_gap(drafted, band);
    let changed = parts.iter().enumerate().filter(|(k, _)| grown[*k].abs() >= UNCHANGED);
    let said = changed.map(|(k, part)| format!("from {} to {} {}", part.names.0, part.names.1, change_words(grown[k])));
    findings(band, &said.collect::<Vec<_>>(), wish)
}

/// The least clear gap of a row where it hung; `None` for a motif on its own.
pub(in crate::place) fn clear_gap(drafted: &Drafted<'_>, band: &BandSetting) -> Option<ClearGap> {
    let now: Vec<Mm> = band.placements.iter().map(|placed| placed.s_line).collect();
    let (before, after) = (steps(drafted.places, drafted.line), steps(&now, band.line));
    // Clear gaps follow their steps one to one but for what the curve bends.
    let as_hung = |one: &Between| Mm::new(one.clear.distance) + after[one.pair.0] - before[one.pair.0];
    let least = drafted.clear.iter().map(|one| (as_hung(one), one)).min_by(|a, b| a.0.total_cmp(&b.0));
    let (least, one) = least?;
    let id = |place: usize| band.placements[place].id.clone();
    let between = (id(one.pair.0), id(one.pair.1));
    Some(ClearGap { least: least.max(Mm::ZERO), between, at: (one.clear.from, one.clear.to) })
}

/// From each place to the next along a line, from the last round to the first.
fn steps(places: &[Mm], line: Mm) -> Vec<Mm> {
    let next = places.iter().cycle().skip(1);
    let mut steps: Vec<Mm> = places.iter().zip(next).map(|(here, next)| *next - *here).collect();
    if let Some(last) = steps.last_mut() {
        *last += line;
    }
    steps
}

/// `is 12.0 mm longer than drafted`
fn change_words(grown: f64) -> String {
    let by = Mm::new(grown.abs());
    if grown > 0.0 { format!("is {by} longer than drafted") } else { format!("is {by} shorter than drafted") }
}

fn findings(band: &BandSetting, changed: &[String], wish: &BandWish) -> Vec<Finding> {
    let wanted = wish.spacing.gap().unwrap_or(Mm::ZERO);
    // Pointed motifs with equal clear gaps may stand closer along the line than their outlines do.
    let clear = band.clear_gap.as_ref().filter(|_| wish.rhythm.evenness == Evenness::ClearGap);
    let (gap, sense) = clear.map_or((band.gap_along, ""), |gap| (gap.least, " between true outlines"));
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
    if gap < wanted - Mm::new(crate::place::along::row::SAME) {
        found.push(Finding {
            severity: Severity::LookAtThis,
            kind: "gap-after-hanging",
            place: None,
            measure: Some(gap),
            say: format!(
                "{}: after hanging the smallest gap{sense} is {gap}, less than the {} asked for.",
                band.name,
                say::short(wanted)
            ),
            advice: "Leave one motif out if that is too close, or let the part that shrank be stretched back."
                .to_owned(),
        });
    }
    found
}
