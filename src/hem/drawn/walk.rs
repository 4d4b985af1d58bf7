//! Panels walked seam to seam.

use kurbo::BezPath;

use super::panel::Panel;
use super::{Allowances, Developed, DrawnError, DrawnPanels, PanelKind, PanelOnHem};
use crate::finding::{Finding, Severity};
use crate::hem::PanelPart;
use crate::hem::chain::Chain;
use crate::quantity::Mm;

/// Seams that differ by more than this, in millimetres, do not match: what sewing eases in without a pucker; common practice,
/// no source.
const SEAM_EASE: f64 = 2.0;

/// A kink beyond this, in degrees, is told: over a motif of 100 mm it lifts an end by almost 2 mm.
const KINK_DEGREES: f64 = 1.0;

/// Side seams may lie so differently from CF, in millimetres, before it is told: a seam's ease on each side.
const SIDES_APART: f64 = 4.0;

/// Most pieces of all panels together: a hem of 20 m with a point every millimetre; keeps a plan within seconds.
const MOST_PIECES: usize = 20_000;

/// Most seams named in one sentence.
const MOST_NAMED: usize = 6;

/// A seam between two panels, as walked.
struct Walked {
    name: String,
    /// Distance from the first panel's start.
    at: f64,
    /// Angle through which the hem turns there.
    kink: f64,
    /// Lengths of the two seam lines, where both are drawn and must match.
    lengths: Option<(f64, f64)>,
}

pub(super) fn develop<'p>(
    wish: &DrawnPanels,
    allowances: Allowances,
    closed: bool,
    line: &impl Fn(&str) -> Result<&'p BezPath, DrawnError>,
) -> Result<Developed, DrawnError> {
    let panels: Vec<Panel> =
        wish.panels.iter().map(|panel| Panel::new(panel, allowances, line)).collect::<Result<_, _>>()?;
    let mut chain = Chain::default();
    let mut starts = Vec::with_capacity(panels.len());
    for (index, panel) in panels.iter().enumerate() {
        starts.push(chain.length());
        let before = index.checked_sub(1).map(|before| &panels[before]);
        let turn = before.or(panels.last().filter(|_| closed)).map_or(0.0, |before| kink(before, panel));
        chain.append(&panel.chain(), turn);
        if chain.links().len() > MOST_PIECES {
            return Err(DrawnError::TooManyPieces { most: MOST_PIECES });
        }
    }
    let length = chain.length();
    let Some(first) = panels.first() else { return Err(DrawnError::NoPanels) };
    let zero = match (closed, wish.on_middle) {
        (false, _) => length / 2.0,
        (true, PanelPart::Middle) => first.chain().length() / 2.0,
        (true, PanelPart::Seam) => 0.0,
    };
    let mut walked = walked(&panels, &starts, length, closed);
    let sides_after = sides(wish, &panels);
    let s = |at: f64| within(at - zero, length, closed);
    let sides = sides_after.filter(|_| closed).map(|(left, right)| {
        let after = |count: usize| s(starts.get(count).copied().unwrap_or(length));
        (after(left), after(right))
    });
    let side = |k: usize| match sides_after.filter(|_| closed) {
        Some((left, _)) if left == k + 1 => Some("left side seam".to_owned()),
        Some((_, right)) if right == k + 1 => Some("right side seam".to_owned()),
        _ => None,
    };
    for (k, seam) in walked.iter_mut().enumerate() {
        seam.name = side(k).unwrap_or_else(|| std::mem::take(&mut seam.name));
    }
    let seams = walked.iter().map(|seam| (seam.name.clone(), s(seam.at))).collect();
    let whole = panels.iter().filter(|panel| panel.kind == PanelKind::Whole);
    let shortest_seam = whole.flat_map(|panel| panel.seams).filter_map(|seam| seam.length).min_by(f64::total_cmp);
    let findings = [kinks(&walked, &panels), unequal(&walked), sides.and_then(uneven)].into_iter().flatten().collect();
    let chain = if closed { chain.opened_at(zero + length / 2.0) } else { chain };
    Ok(Developed {
        chain,
        zero: length / 2.0,
        seams,
        keep_clear: wish.keep_clear,
        sides,
        panels: placed(&panels, &starts, zero, length, closed),
        shortest_seam,
        findings,
    })
}

/// How the hem turns from one panel to the next: what the angles of the two seams lack of a straight line.
fn kink(a: &Panel, b: &Panel) -> f64 {
    a.seams[1].angle - b.seams[0].angle
}

/// The seams in the order in which they are met from the first panel's start.
fn walked(panels: &[Panel], starts: &[f64], length: f64, closed: bool) -> Vec<Walked> {
    let count = panels.len();
    let seams = if closed { count } else { count.saturating_sub(1) };
    let name = |k: usize| format!("{} to {} seam", panels[k].name, panels[(k + 1) % count].name);
    let names: Vec<String> = (0..seams).map(name).collect();
    (0..seams)
        .map(|k| {
            let (a, b) = (&panels[k], &panels[(k + 1) % count]);
            let same = |other: &&String| **other == names[k];
            let alike = names.iter().filter(same).count();
            let number = names[..=k].iter().filter(same).count();
            let name = if alike > 1 { format!("{} {number}", names[k]) } else { names[k].clone() };
            // A godet is shorter than the seam it is let into; only two godets side by side must match.
            let lengths = (a.kind == b.kind).then_some(a.seams[1].length.zip(b.seams[0].length)).flatten();
            Walked { name, at: starts.get(k + 1).copied().unwrap_or(length), kink: kink(a, b), lengths }
        })
        .collect()
}

/// After how many panels the side seams come: as asked, or the two seams of a garment of two panels.
fn sides(wish: &DrawnPanels, panels: &[Panel]) -> Option<(usize, usize)> {
    let two = panels.len() == 2 && wish.on_middle == PanelPart::Middle;
    wish.side_seams.or(two.then_some((1, 2)))
}

fn placed(panels: &[Panel], starts: &[f64], zero: f64, length: f64, closed: bool) -> Vec<PanelOnHem> {
    let ends = starts.iter().copied().skip(1).chain([length]);
    let place = |(panel, (start, end)): (&Panel, (&f64, f64))| {
        let middle = f64::midpoint(*start, end);
        let shift = within(middle - zero, length, closed) - middle;
        PanelOnHem { name: panel.name.clone(), from: Mm::new(start + shift), to: Mm::new(end + shift) }
    };
    panels.iter().zip(starts.iter().zip(ends)).map(place).collect()
}

/// A distance from CF brought into the span of a ring; its far end rather than its near one.
fn within(s: f64, length: f64, closed: bool) -> f64 {
    let half = length / 2.0;
    // Half a micrometre: a seam on CB lies at the end of the span whatever the rounding.
    if closed && s > half + 5e-4 { s - length } else { s }
}

fn kinks(walked: &[Walked], panels: &[Panel]) -> Option<Finding> {
    let at_seams = walked.iter().map(|seam| (format!("the {}", seam.name), seam.kink));
    let at_folds = panels.iter().filter_map(|panel| Some((format!("the fold of {}", panel.name), panel.at_fold?)));
    let told: Vec<(String, f64)> =
        at_seams.chain(at_folds).filter(|(_, kink)| kink.to_degrees().abs() > KINK_DEGREES).collect();
    let each = told.iter().map(|(name, kink)| {
        let way = if *kink > 0.0 { "a point downward" } else { "a notch upward" };
        format!("at {name} it makes {way} of {:.1} degrees", kink.to_degrees().abs())
    });
    let say = format!("The hem is not smooth where panels are joined: {}.", listed(each.collect())?);
    let advice =
        "True up the hem line across the seams if it should run smoothly; as drawn, lines over it bend there too.";
    Some(look("kink-at-seam", None, say, advice))
}

fn unequal(walked: &[Walked]) -> Option<Finding> {
    let apart = |seam: &Walked| seam.lengths.map(|(a, b)| (a - b).abs()).filter(|by| *by > SEAM_EASE);
    let worst = walked.iter().filter_map(apart).max_by(f64::total_cmp)?;
    let each = walked.iter().filter(|seam| apart(seam).is_some()).filter_map(|seam| {
        let (a, b) = seam.lengths?;
        Some(format!("the {} is {} on one and {} on the other", seam.name, Mm::new(a), Mm::new(b)))
    });
    let say = format!("Seams differ in length: {}; {} at most.", listed(each.collect())?, Mm::new(worst));
    let advice =
        "Check that both lines of a seam are drawn from the hem to the same place above, or ease the longer one in.";
    Some(look("seam-lengths", Some(Mm::new(worst)), say, advice))
}

/// Side seams that do not lie alike on both sides were probably counted wrong.
fn uneven((left, right): (f64, f64)) -> Option<Finding> {
    let by = Mm::new((left + right).abs());
    (by.get() > SIDES_APART).then(|| {
        let say = format!(
            "The left side seam lies {} from CF along the hem and the right one {}: {by} apart.",
            Mm::new(left.abs()),
            Mm::new(right.abs())
        );
        let advice = "Check after which panels the side seams come, counted from centre front toward her left.";
        look("sides-uneven", Some(by), say, advice)
    })
}

/// The first few and how many more; `None` for none.
fn listed(mut each: Vec<String>) -> Option<String> {
    let more = each.len().saturating_sub(MOST_NAMED);
    each.truncate(MOST_NAMED);
    if more > 0 {
        each.push(format!("and {more} more"));
    }
    (!each.is_empty()).then(|| each.join("; "))
}

fn look(kind: &'static str, measure: Option<Mm>, say: String, advice: &str) -> Finding {
    Finding { severity: Severity::LookAtThis, kind, place: None, measure, say, advice: advice.to_owned() }
}
