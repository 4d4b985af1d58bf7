//! From measurements to a hem.

use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI, TAU};
use std::sync::Arc;

use kurbo::BezPath;

use super::curve::Curve;
use super::drawn::{self, Developed, Drawn, PanelOnHem};
use super::edge::Edge;
use super::hung;
use super::marks::{self, Quarters};
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

/// How far the tape may differ from the draft before one of the measurements must be wrong; common practice, no source:
/// bias drop and a stretched edge stay within a few hundredths.
const TAPE_LIMIT: f64 = 0.1;

/// Cells of the table on each half of a smooth hem, before any is halved further.
const CELLS: u32 = 32;

/// Places nearer than this to each other are one: less than a chalk line.
const SAME_MARK: Mm = mm(0.05);

/// What the measurements alone give, before ends and marks.
struct Shaped {
    edge: Edge,
    quarters: Quarters,
    /// Height of the waist above the hem where it is nearest, if known.
    waist: Option<f64>,
    panels: Option<Panels>,
    drawn_panels: Vec<PanelOnHem>,
    seams: Vec<HemMark>,
    findings: Vec<Finding>,
    /// Once round, where the ring does not close smoothly.
    once_round: Option<Affine>,
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
    let shaped = shaped(&wish.measurements, closed, lines)?;
    let (least, greatest) = shaped.edge.span();
    let once_round = closed.then(|| shaped.once_round.unwrap_or_else(|| smooth_join(&shaped.edge)));
    let joints = reach::joints(&shaped.edge, once_round);
    let mut marks = marks::marks(wish, shaped.quarters, shaped.panels.as_ref(), greatest - least)?;
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
        findings,
    })
}

/// The motion that lets a ring close without a corner: the start of its development goes on where its end stops.
fn smooth_join(edge: &Edge) -> Affine {
    let (first, last) = edge.end_frames();
    last.placement() * first.placement().inverse()
}

fn shaped(measurements: &Measurements, closed: bool, lines: &BTreeMap<String, BezPath>) -> Result<Shaped, HemError> {
    match *measurements {
        Measurements::Circle { fraction, waist, length } => circle(fraction, waist, length),
        Measurements::Oval { waist, front, side, back, tape } => oval(waist, [front, side, back], tape),
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
        Measurements::Drawn(ref drawn) => of_pieces(drawn, closed, lines),
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

fn plain(edge: Edge, quarter: f64, waist: Option<f64>) -> Shaped {
    let quarters = Quarters { left: quarter, right: -quarter };
    let (drawn_panels, seams, findings) = (Vec::new(), Vec::new(), Vec::new());
    Shaped { edge, quarters, waist, panels: None, drawn_panels, seams, findings, once_round: None }
}

fn ellipse(front_back: Mm, side_side: Mm) -> Result<Shaped, HemError> {
    let front_back = positive("half the extent from front to back", front_back)?.get();
    let side_side = positive("half the extent from side to side", side_side)?.get();
    Ok(smooth(Curve::Ellipse { front_back, side_side }, None))
}

fn oval(waist: Mm, lengths: [Mm; 3], tape: Option<Mm>) -> Result<Shaped, HemError> {
    let waist = not_negative("waist", waist)?.get() / TAU;
    let front = positive("length at centre front", lengths[0])?.get();
    let side = positive("length at the side", lengths[1])?.get();
    let back = positive("length at centre back", lengths[2])?.get();
    let (mean, once, twice) =
        ((front + back + 2.0 * side) / 4.0, (front - back) / 2.0, (front + back - 2.0 * side) / 4.0);
    let nearest = least_of_draft(mean, once, twice);
    if nearest <= 0.0 {
        return Err(HemError::InsideWaist { by: Mm::new(-nearest) });
    }
    let draft = smooth(Curve::Oval { middle: waist + mean, once, twice }, Some(nearest));
    let Some(tape) = tape else { return Ok(draft) };
    taped(waist + mean, once, twice, &draft, positive("hem by tape", tape)?.get())
}

/// The draft drawn larger or smaller all over, so that its hem is what the tape says.
fn taped(middle: f64, once: f64, twice: f64, draft: &Shaped, tape: f64) -> Result<Shaped, HemError> {
    let (least, greatest) = draft.edge.span();
    let length = greatest - least;
    let factor = tape / length;
    if (factor - 1.0).abs() > TAPE_LIMIT {
        return Err(HemError::TapeAgainstDraft { tape: Mm::new(tape), draft: Mm::new(length) });
    }
    let curve = Curve::Oval { middle: middle * factor, once: once * factor, twice: twice * factor };
    let shaped = smooth(curve, draft.waist.map(|waist| waist * factor));
    Ok(Shaped { findings: vec![tape_finding(tape, length)], ..shaped })
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

fn tape_finding(tape: f64, draft: f64) -> Finding {
    let by = Mm::new(tape - draft);
    let (longer, why) = if tape > draft {
        ("longer", "Bias drop or a stretched edge lengthens a hem")
    } else {
        ("shorter", "A hem eased in, or a waist that is not round, shortens it")
    };
    Finding {
        severity: Severity::LookAtThis,
        kind: "tape-and-draft",
        place: None,
        measure: Some(by.abs()),
        say: format!(
            "The smooth hem through your lengths at front, side and back is {} long; your tape says {}, {} {longer} \
             ({:.1} %).",
            Mm::new(draft),
            Mm::new(tape),
            by.abs(),
            (by.get() / draft).abs() * 100.0
        ),
        advice: format!("The tape is used. {why}; let the skirt hang, level it and measure again before marking."),
    }
}

/// Least value of mean + once cos t + twice cos 2t.
fn least_of_draft(mean: f64, once: f64, twice: f64) -> f64 {
    let value = |cos: f64| mean + once * cos + twice * (2.0 * cos * cos - 1.0);
    // Besides front and back, the derivative vanishes where cos t = -once / (4 twice).
    let inner = -once / (4.0 * twice);
    let inner = if inner.abs() <= 1.0 { value(inner) } else { f64::INFINITY };
    value(1.0).min(value(-1.0)).min(inner)
}

fn smooth(curve: Curve, waist: Option<f64>) -> Shaped {
    let edge = Edge::new(curve, -PI, PI, CELLS);
    let quarter = edge.s_at(FRAC_PI_2);
    plain(edge, quarter, waist)
}

fn positive(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value > Mm::ZERO { Ok(value) } else { Err(HemError::NotPositive { what, value }) }
}

fn not_negative(what: &'static str, value: Mm) -> Result<Mm, HemError> {
    if value >= Mm::ZERO { Ok(value) } else { Err(HemError::Negative { what, value }) }
}
