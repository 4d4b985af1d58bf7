//! From measurements to a hem.

use std::collections::BTreeMap;
use std::sync::Arc;

use kurbo::BezPath;

use super::cloth;
use super::drawn::{self, Developed, Drawn};
use super::flare;
use super::godet;
use super::hung;
use super::marks::{self, Panels, Quarters};
use super::oval;
use super::reach;
use super::shaped::{Shaped, plain, positive, smooth_join};
use super::{Ends, Hem, HemError, HemMark, HemWish, Measurements};
use crate::finding::{Finding, Severity};
use crate::quantity::{Mm, mm};

/// Places nearer than this to each other are one: less than a chalk line.
const SAME_MARK: Mm = mm(0.05);

/// Shapes a hem that is measured.
///
/// # Errors
/// [`HemError`] for measurements that contradict each other, with by how much.
pub fn shape(wish: &HemWish) -> Result<Hem, HemError> {
    shape_drawn(wish, &BTreeMap::new())
}

/// Shapes a hem that may be drawn, from the lines of its drawing in millimetres by the ids of their elements.
///
/// # Errors
/// As [`shape`]; also where lines are missing or do not make a hem.
pub fn shape_drawn(wish: &HemWish, lines: &BTreeMap<String, BezPath>) -> Result<Hem, HemError> {
    let closed = !matches!(wish.ends, Ends::Open { .. });
    let shaped = shaped(&wish.measurements, &wish.ends, lines)?;
    let (least, greatest) = shaped.edge.span();
    let once_round = closed.then(|| shaped.once_round.unwrap_or_else(|| smooth_join(&shaped.edge)));
    let joints = reach::joints(&shaped.edge, once_round);
    let mut marks = marks::marks(wish, shaped.quarters, shaped.panels.as_ref(), greatest - least)?;
    let let_into =
        |mark: &HemMark| shaped.godet_middles.iter().any(|s| (mark.s_hem.get() - s).abs() < godet::SAME_PLACE);
    marks.retain(|mark| mark.keep_clear.is_none() || !let_into(mark));
    marks.extend(shaped.seams);
    // A corner at a seam has the seam's name already.
    let named = |corner: &HemMark| marks.iter().any(|mark| (mark.s_hem - corner.s_hem).abs() < SAME_MARK);
    let corners: Vec<HemMark> = marks::corners(&shaped.edge, &joints).into_iter().filter(|c| !named(c)).collect();
    marks.extend(corners);
    marks.sort_by(|a, b| a.s_hem.total_cmp(&b.s_hem));
    let hung = hung::parts(&wish.hung, &wish.ends, shaped.quarters, greatest - least)?;
    let mut findings = shaped.findings;
    findings.extend(underlap_finding(&wish.ends, greatest - least));
    Ok(Hem {
        hung,
        edge: Arc::new(shaped.edge),
        joints: joints.into(),
        once_round,
        ends: wish.ends.clone(),
        quarters: shaped.quarters,
        marks,
        panels: shaped.panels,
        drawn_panels: shaped.drawn_panels,
        waist: shaped.waist,
        godet_top: shaped.godet_top,
        findings,
    })
}

fn shaped(measurements: &Measurements, ends: &Ends, lines: &BTreeMap<String, BezPath>) -> Result<Shaped, HemError> {
    match *measurements {
        Measurements::Circle { fraction, waist, length } => flare::circle(fraction, waist, length),
        Measurements::Oval { waist, front, side, back, tape } => oval::oval(waist, [front, side, back], tape),
        Measurements::Train { waist, front, side, back } => oval::train(waist, [front, side, back]),
        Measurements::Cloth { width, depth } => cloth::cloth(width, depth),
        Measurements::Ellipse { front_back, side_side } => cloth::ellipse(front_back, side_side),
        Measurements::Gores { panels, top, hem, side, on_middle, keep_clear } => {
            flare::gores(Panels { count: panels, on_middle, keep_clear }, top, hem, side)
        }
        Measurements::Rectangle { width, depth } => cloth::rectangle(width, depth),
        Measurements::Polygon { sides, side } => cloth::regular(sides, side),
        Measurements::Measured { hem, flare } => flare::by_tape(hem, flare),
        Measurements::Straight { length } => flare::band(positive("length", length)?, 0.0, None),
        Measurements::Drawn(ref drawn) => of_pieces(drawn, !matches!(ends, Ends::Open { .. }), lines),
        Measurements::Godets { ref hem, ref godets } => godet::let_in(shaped(hem, ends, lines)?, godets, ends),
    }
}

/// A hem developed from drawn pieces.
fn of_pieces(drawn: &Drawn, closed: bool, lines: &BTreeMap<String, BezPath>) -> Result<Shaped, HemError> {
    let Developed { chain, zero, seams, keep_clear, sides, panels, shortest_seam, findings } =
        drawn::develop(drawn, closed, lines)?;
    let (edge, once_round) = chain.laid_out(zero);
    let seams = seams.into_iter().map(|(name, s)| HemMark { name, s_hem: Mm::new(s), keep_clear });
    let quarter = chain.length() / 4.0;
    let quarters = sides.map_or(Quarters { left: quarter, right: -quarter }, |(left, right)| Quarters { left, right });
    Ok(Shaped {
        quarters,
        drawn_panels: panels,
        seams: seams.collect(),
        findings,
        once_round: closed.then_some(once_round),
        ..plain(edge, quarter, shortest_seam)
    })
}

/// An underlap is no part of the hem that is set out: who tapes the whole edge must know.
fn underlap_finding(ends: &Ends, hem: f64) -> Option<Finding> {
    let Ends::Opening { underlap, .. } = ends else { return None };
    (*underlap > Mm::ZERO).then(|| Finding {
        severity: Severity::LookAtThis,
        kind: "bare-underlap",
        place: None,
        measure: Some(*underlap),
        say: format!(
            "The hem of {} that is set out ends at the closing edge; the underlap of {underlap} beyond it stays bare.",
            Mm::new(hem)
        ),
        advice: "Leave the underlap out when you tape the hem, and add it when you cut the cloth.".to_owned(),
    })
}
