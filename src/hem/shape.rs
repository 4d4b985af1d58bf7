//! From measurements to a hem.

use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI, TAU};
use std::sync::Arc;

use kurbo::BezPath;

use super::curve::Curve;
use super::drawn::{self, Developed, Drawn, PanelOnHem};
use super::edge::Edge;
use super::godet;
use super::hung;
use super::marks::{self, Quarters};
use super::oval;
use super::polygon;
use super::reach;
use super::{Ends, Flare, Hem, HemError, HemMark, HemWish, Measurements, PanelPart};
use crate::finding::{Finding, Severity};
use crate::geometry::Affine;
use crate::quantity::{Mm, mm};

/// Most full circles of sweep that are shaped: past it a width or a unit is wrong. A ruffle of ten circles stays inside.
const MOST_CIRCLES: f64 = 20.0;

/// Most panels taken: far beyond any garment, and small enough that nothing grows large.
const MOST_PANELS: u32 = 1000;

/// Cells of the table on each half of a smooth hem, before any is halved further.
const CELLS: u32 = 32;

/// Places nearer than this to each other are one: less than a chalk line.
const SAME_MARK: Mm = mm(0.05);

/// What the measurements alone give, before ends and marks.
pub(super) struct Shaped {
    pub(super) edge: Edge,
    pub(super) quarters: Quarters,
    /// Height of the waist above the hem where it is nearest, if known.
    pub(super) waist: Option<f64>,
    pub(super) panels: Option<Panels>,
    pub(super) drawn_panels: Vec<PanelOnHem>,
    /// Seams that follow from the shape, and how far motifs keep from them.
    pub(super) seams: Vec<HemMark>,
    pub(super) findings: Vec<Finding>,
    /// Height above the hem of the lowest point of a godet let in.
    pub(super) godet_top: Option<f64>,
    /// s of the middles of godets: the seams they were let into are no longer there.
    pub(super) godet_middles: Vec<f64>,
    /// Once round, where the ring does not close smoothly.
    pub(super) once_round: Option<Affine>,
}

/// Equal panels round the hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Panels {
    pub(super) count: u32,
    pub(super) on_middle: PanelPart,
    pub(super) keep_clear: Option<Mm>,
}

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

/// The motion that lets a ring close without a corner: the start of its development goes on where its end stops.
pub(super) fn smooth_join(edge: &Edge) -> Affine {
    let (first, last) = edge.end_frames();
    last.placement() * first.placement().inverse()
}

fn shaped(measurements: &Measurements, ends: &Ends, lines: &BTreeMap<String, BezPath>) -> Result<Shaped, HemError> {
    match *measurements {
        Measurements::Circle { fraction, waist, length } => circle(fraction, waist, length),
        Measurements::Oval { waist, front, side, back, tape } => oval::oval(waist, [front, side, back], tape),
        Measurements::Train { waist, front, side, back } => oval::train(waist, [front, side, back]),
        Measurements::Cloth { width, depth } => cloth(width, depth),
        Measurements::Ellipse { front_back, side_side } => ellipse(front_back, side_side),
        Measurements::Gores { panels, top, hem, side, on_middle, keep_clear } => {
            gores(Panels { count: panels, on_middle, keep_clear }, top, hem, side)
        }
        Measurements::Rectangle { width, depth } => {
            let (width, depth) = (positive("width", width)?.get(), positive("depth", depth)?.get());
            Ok(cornered(polygon::rectangle(width, depth)))
        }
        Measurements::Polygon { sides, side } => regular(sides, side),
        Measurements::Measured { hem, flare } => by_tape(hem, flare),
        Measurements::Straight { length } => band(positive("length", length)?, 0.0, None),
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

fn circle(fraction: f64, waist: Mm, length: Mm) -> Result<Shaped, HemError> {
    if !(fraction > 0.0 && fraction <= MOST_CIRCLES) {
        return Err(HemError::Fraction { fraction, most: MOST_CIRCLES });
    }
    let (waist, length) = (not_negative("waist", waist)?, positive("length", length)?);
    let sweep = TAU * fraction;
    band(waist + sweep * length, sweep, Some(length))
}

fn gores(panels: Panels, top: Mm, hem: Mm, side: Mm) -> Result<Shaped, HemError> {
    if !(1..=MOST_PANELS).contains(&panels.count) {
        return Err(HemError::Panels { panels: panels.count, most: MOST_PANELS });
    }
    let top = not_negative("panel's width at the top", top)?;
    let hem = positive("panel's width at the hem", hem)?;
    let side = positive("panel's side", side)?;
    let count = f64::from(panels.count);
    let shaped = band(count * hem, count * (hem - top) / side, Some(side))?;
    Ok(Shaped { panels: Some(panels), ..shaped })
}

fn regular(sides: u32, side: Mm) -> Result<Shaped, HemError> {
    if !(3..=MOST_PANELS).contains(&sides) {
        return Err(HemError::Sides { sides, most: MOST_PANELS });
    }
    Ok(cornered(polygon::regular(sides, positive("side", side)?.get())))
}

/// A flat cloth: its edge closes where it started, whether in a corner or not.
fn cornered(edge: Edge) -> Shaped {
    let (least, greatest) = edge.span();
    Shaped { once_round: Some(Affine::IDENTITY), ..plain(edge, (greatest - least) / 4.0, None) }
}

fn by_tape(hem: Mm, flare: Flare) -> Result<Shaped, HemError> {
    let hem = positive("hem", hem)?;
    match flare {
        Flare::Sweep(sweep) => band(hem, sweep, None),
        Flare::UpperLine { length, height } => {
            let length = positive("upper line", length)?;
            let height = positive("height of the upper line", height)?;
            band(hem, (hem - length) / height, None)
        }
        Flare::Unknown => band(hem, TAU, None),
    }
}

/// A hem of constant curvature, laid out flat round its own apex.
fn band(hem: Mm, sweep: f64, waist: Option<Mm>) -> Result<Shaped, HemError> {
    let hem = hem.get();
    if sweep.is_nan() || sweep.abs() > TAU * MOST_CIRCLES {
        return Err(HemError::TooMuchSweep { circles: sweep / TAU, most: MOST_CIRCLES });
    }
    let edge = Edge::new(Curve::Arc { curvature: sweep / hem }, -hem / 2.0, hem / 2.0, 1);
    Ok(plain(edge, hem / 4.0, waist.map(Mm::get)))
}

pub(super) fn plain(edge: Edge, quarter: f64, waist: Option<f64>) -> Shaped {
    let quarters = Quarters { left: quarter, right: -quarter };
    let (drawn_panels, seams, findings) = (Vec::new(), Vec::new(), Vec::new());
    Shaped {
        edge,
        quarters,
        waist,
        panels: None,
        drawn_panels,
        seams,
        findings,
        godet_top: None,
        godet_middles: Vec::new(),
        once_round: None,
    }
}

fn ellipse(front_back: Mm, side_side: Mm) -> Result<Shaped, HemError> {
    let front_back = positive("half the extent from front to back", front_back)?.get();
    let side_side = positive("half the extent from side to side", side_side)?.get();
    Ok(smooth(Curve::Ellipse { front_back, side_side }, None))
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

/// A cloth without a waist, round where both extents are the same.
fn cloth(width: Mm, depth: Mm) -> Result<Shaped, HemError> {
    let (width, depth) = (positive("width", width)? / 2.0, positive("depth", depth)? / 2.0);
    if width == depth { circle(1.0, Mm::ZERO, width) } else { ellipse(depth, width) }
}

pub(super) fn smooth(curve: Curve, waist: Option<f64>) -> Shaped {
    let edge = Edge::new(curve, -PI, PI, CELLS);
    let quarter = edge.s_at(FRAC_PI_2);
    plain(edge, quarter, waist)
}

pub(super) fn positive(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value > Mm::ZERO { Ok(value) } else { Err(HemError::NotPositive { what, value }) }
}

pub(super) fn not_negative(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value >= Mm::ZERO { Ok(value) } else { Err(HemError::Negative { what, value }) }
}
