//! Godets let into a hem that is measured or drawn: wedges with a round edge, sewn into seams or slashes.
//!
//! A godet is a sector whose radius is its height and whose arc is its width, so that its edge is square to both its seams and
//! the hem runs on without a kink. It turns the hem by width / height and widens a line at height h by width x (1 - h / height).

use std::f64::consts::TAU;

use super::chain::{Chain, Link};
use super::curve::Curve;
use super::marks::{self, Quarters, place_of};
use super::reach;
use super::shaped::{Shaped, positive, smooth_join};
use super::{Ends, Godet, GodetPlace, HemError, HemMark, PanelOnHem};
use crate::finding::{Finding, Severity};
use crate::quantity::Mm;

/// Godets nearer than this to each other on the hem, in millimetres, are let in at the same place.
pub(super) const SAME_PLACE: f64 = 1.0;

/// CB may be this far from halfway round, in millimetres, before it is told: less than a chalk line.
const OFF_BACK: f64 = 0.5;

/// Most godets: more than any skirt has seams.
const MOST: usize = 1000;

/// A godet at its place, counted from where the walk starts: CF of a ring, the right-hand end of a band.
#[derive(Clone, Copy, Debug)]
struct LetIn {
    /// Which of the godets of the wish it is.
    number: usize,
    at: f64,
    width: f64,
    height: f64,
    keep_clear: Mm,
}

/// Lets godets into a hem.
pub(super) fn let_in(base: Shaped, wish: &[Godet], ends: &Ends) -> Result<Shaped, HemError> {
    let closed = !matches!(ends, Ends::Open { .. });
    let (least, greatest) = base.edge.span();
    let length = greatest - least;
    // Seams between equal panels are kept as seams of their own: with godets the panels are no longer equal parts of the hem.
    let mut seams = base.seams.clone();
    seams.extend(base.panels.iter().flat_map(|panels| marks::panel_seams(panels, ends, length)));
    let walk = Walk { length, closed, godets: godets(&base, wish, ends, &seams)? };
    let once_round = closed.then(|| base.once_round.unwrap_or_else(|| smooth_join(&base.edge)));
    let mut chain = Chain::of(&base.edge, &reach::joints(&base.edge, once_round));
    if closed {
        chain = chain.opened_at(length / 2.0);
    }
    for godet in walk.godets.iter().rev() {
        let arc = Curve::Arc { curvature: 1.0 / godet.height };
        chain.let_in(godet.at, Link::new(arc, 0.0, godet.width, 0.0));
    }
    let widened = chain.length();
    let chain = if closed { chain.opened_at(walk.widened(0.0) + widened / 2.0) } else { chain };
    let (edge, once) = chain.laid_out(widened / 2.0);
    let s = |old: f64| walk.moved(old, widened);
    let panels = base.drawn_panels.iter().map(|panel| {
        let from = s(panel.from.get());
        PanelOnHem { name: panel.name.clone(), from: Mm::new(from), to: Mm::new(from + walk.across(panel)) }
    });
    let mut findings = base.findings;
    findings.extend(walk.off_back(widened));
    let top = walk.godets.iter().map(|godet| godet.height).min_by(f64::total_cmp);
    Ok(Shaped {
        edge,
        quarters: Quarters { left: s(base.quarters.left), right: s(base.quarters.right) },
        waist: base.waist,
        panels: None,
        drawn_panels: panels.collect(),
        seams: walk.seams(&seams, widened),
        findings,
        godet_middles: walk.middles(widened),
        godet_top: top.into_iter().chain(base.godet_top).min_by(f64::total_cmp),
        once_round: closed.then_some(once),
    })
}

/// The godets in order, none at the place of another.
fn godets(base: &Shaped, wish: &[Godet], ends: &Ends, seams: &[HemMark]) -> Result<Vec<LetIn>, HemError> {
    let (least, greatest) = base.edge.span();
    let length = greatest - least;
    let closed = !matches!(ends, Ends::Open { .. });
    let along = |s: f64| if closed { s.rem_euclid(length) } else { s - least };
    let mut found = Vec::new();
    for (number, godet) in wish.iter().enumerate() {
        let width = positive("width of a godet", godet.width)?.get();
        let height = positive("height of a godet", godet.height)?.get();
        if width > TAU * height {
            return Err(HemError::GodetWide { godet: number, width: godet.width, height: godet.height });
        }
        let places: Vec<f64> = match godet.at {
            GodetPlace::PanelSeams => seams.iter().map(|seam| seam.s_hem.get()).collect(),
            GodetPlace::Mark(mark) => {
                let farthest = Mm::new(length / 2.0);
                let off =
                    || HemError::MarkOffHem { name: "godet".to_owned(), seam: None, godet: Some(number), farthest };
                vec![place_of(mark, ends, base.quarters, length).ok_or_else(off)?]
            }
        };
        if places.is_empty() {
            return Err(HemError::NoPanelSeams { godet: number });
        }
        let keep_clear = godet.keep_clear;
        found.extend(places.into_iter().map(|s| LetIn { number, at: along(s), width, height, keep_clear }));
    }
    if found.len() > MOST {
        return Err(HemError::Godets { found: found.len(), most: MOST });
    }
    found.sort_by(|a, b| a.at.total_cmp(&b.at));
    match found.windows(2).find(|pair| pair[1].at - pair[0].at < SAME_PLACE) {
        Some(pair) => Err(HemError::GodetsMeet {
            godet: pair[0].number.max(pair[1].number),
            s: Mm::new(if closed { pair[0].at } else { pair[0].at + least }),
        }),
        None => Ok(found),
    }
}

/// Where places of the hem come to lie once the godets are in.
struct Walk {
    /// Of the hem without them.
    length: f64,
    closed: bool,
    godets: Vec<LetIn>,
}

impl Walk {
    /// Distance from the start of the walk; a place where a godet is let in becomes its middle.
    fn widened(&self, at: f64) -> f64 {
        let before = self.godets.iter().map(|godet| match godet.at - at {
            off if off.abs() < SAME_PLACE => godet.width / 2.0,
            off if off < 0.0 => godet.width,
            _ => 0.0,
        });
        at + before.sum::<f64>()
    }

    /// s on the widened hem for s on the hem as it was.
    fn moved(&self, s: f64, widened: f64) -> f64 {
        if !self.closed {
            return self.widened(s + self.length / 2.0) - widened / 2.0;
        }
        self.round(self.widened(s.rem_euclid(self.length)) - self.widened(0.0), widened)
    }

    fn round(&self, s: f64, widened: f64) -> f64 {
        if self.closed && s > widened / 2.0 + 1e-6 { s - widened } else { s }
    }

    /// Width of a panel with what is let in between its seams; half of a godet at a seam counts to each side.
    fn across(&self, panel: &PanelOnHem) -> f64 {
        let start =
            if self.closed { panel.from.get().rem_euclid(self.length) } else { panel.from.get() + self.length / 2.0 };
        let end = start + (panel.to - panel.from).get();
        let rounds = |at: f64| {
            if self.closed && at >= self.length {
                self.widened(at - self.length) + self.godets.iter().map(|godet| godet.width).sum::<f64>() + self.length
            } else {
                self.widened(at)
            }
        };
        rounds(end) - rounds(start)
    }

    /// The seams that were there, but for those that a godet was let into, and both seams of every godet.
    fn seams(&self, seams: &[HemMark], widened: f64) -> Vec<HemMark> {
        let along = |s: f64| if self.closed { s.rem_euclid(self.length) } else { s + self.length / 2.0 };
        let let_into =
            |seam: &&HemMark| self.godets.iter().any(|godet| (godet.at - along(seam.s_hem.get())).abs() < SAME_PLACE);
        let kept = seams
            .iter()
            .filter(|seam| !let_into(seam))
            .map(|seam| HemMark { s_hem: Mm::new(self.moved(seam.s_hem.get(), widened)), ..seam.clone() });
        let middles = self.middles(widened);
        let own = self.godets.iter().zip(middles).enumerate().flat_map(|(k, (godet, middle))| {
            [("right", -0.5), ("left", 0.5)].map(|(side, share)| HemMark {
                name: format!("godet {} {side} seam", k + 1),
                s_hem: Mm::new(self.round(middle + share * godet.width, widened)),
                keep_clear: Some(godet.keep_clear),
            })
        });
        kept.chain(own).collect()
    }

    /// s of the middle of each godet.
    fn middles(&self, widened: f64) -> Vec<f64> {
        let zero = if self.closed { self.widened(0.0) } else { widened / 2.0 };
        self.godets.iter().map(|godet| self.round(self.widened(godet.at) - zero, widened)).collect()
    }

    /// CB is counted halfway round; where the godets do not lie alike on both sides, the skirt's own CB lies elsewhere.
    fn off_back(&self, widened: f64) -> Option<Finding> {
        if !self.closed {
            return None;
        }
        let back = self.widened(self.length / 2.0) - self.widened(0.0);
        let by = Mm::new((back - widened / 2.0).abs());
        (by.get() > OFF_BACK).then(|| Finding {
            severity: Severity::LookAtThis,
            kind: "godets-uneven",
            place: None,
            measure: Some(by),
            say: format!(
                "The godets do not lie alike on both sides: halfway round from CF is {by} beside the skirt's own CB."
            ),
            advice: "Every distance is counted from CF; CB on the papers is halfway round.".to_owned(),
        })
    }
}
