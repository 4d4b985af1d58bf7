//! Hems that hang longer on one side than on the other: ovals through three lengths, and trains.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::HemError;
use super::chain::{Chain, Link};
use super::curve::Curve;
use super::shaped::{Shaped, not_negative, plain, positive, smooth};
use crate::finding::{Finding, Severity};
use crate::quantity::Mm;

/// How far the tape may differ from the draft before one of the measurements must be wrong; common practice, no source:
/// bias drop and a stretched edge stay within a few hundredths.
const TAPE_LIMIT: f64 = 0.1;

/// A smooth periodic draft through three lengths over a round waist; drawn larger or smaller where the tape says so.
pub(super) fn oval(waist: Mm, lengths: [Mm; 3], tape: Option<Mm>) -> Result<Shaped, HemError> {
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
    let curve = Curve::Oval { middle: waist + mean, once, twice };
    if let Some(at) = inward(curve) {
        let [front, side, back] = lengths;
        return Err(HemError::BendsInward { front, side, back, near: place(at) });
    }
    let mut draft = smooth(curve, Some(nearest));
    draft.findings.extend(beyond(mean, once, twice));
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
    let told = draft.findings.iter().cloned().chain([tape_finding(tape, length)]);
    Ok(Shaped { findings: told.collect(), ..shaped })
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

/// How far the draft may run beyond the three lengths between the places where they were measured before it is told.
const BEYOND: f64 = 5.0;

/// Places at which a draft is looked at, on each half: every degree.
const LOOKS: u32 = 180;

/// Where a draft bends inward, if it does anywhere.
fn inward(curve: Curve) -> Option<f64> {
    let places = (0..=LOOKS).map(|k| PI * f64::from(k) / f64::from(LOOKS));
    let (at, least) = places.map(|t| (t, curve.curvature(t))).min_by(|a, b| a.1.total_cmp(&b.1))?;
    (least < 0.0).then_some(at)
}

/// The measured place that is nearest to an angle from centre front.
fn place(at: f64) -> &'static str {
    match at {
        at if at < PI / 4.0 => "centre front",
        at if at < 3.0 * PI / 4.0 => "the sides",
        _ => "centre back",
    }
}

/// Between the measured places the draft may be shorter or longer than at any of them.
fn beyond(mean: f64, once: f64, twice: f64) -> Option<Finding> {
    let value = |t: f64| mean + once * t.cos() + twice * (2.0 * t).cos();
    let given = [value(0.0), value(FRAC_PI_2), value(PI)];
    let (least, greatest) = given.iter().fold((f64::MAX, 0.0_f64), |(a, b), v| (a.min(*v), b.max(*v)));
    let turn = -once / (4.0 * twice);
    let at = (turn.abs() < 1.0).then(|| turn.acos())?;
    let found = value(at);
    let by = (least - found).max(found - greatest);
    (by > BEYOND).then(|| {
        let (than, all) = if found < least { ("shorter", "shortest") } else { ("longer", "longest") };
        let between = if at < FRAC_PI_2 { "front and side" } else { "side and back" };
        Finding {
            severity: Severity::LookAtThis,
            kind: "draft-beyond-lengths",
            place: None,
            measure: Some(Mm::new(by)),
            say: format!(
                "Between {between} the smooth hem through your three lengths is {} long, {} {than} than the {all} of them.",
                Mm::new(found),
                Mm::new(by)
            ),
            advice: "Measure the length there too. Where it is level in front and swept behind, write [hem.train]; any other \
                     shape can be drawn, [hem.drawn]."
                .to_owned(),
        }
    })
}

/// Least value of mean + once cos t + twice cos 2t.
fn least_of_draft(mean: f64, once: f64, twice: f64) -> f64 {
    let value = |cos: f64| mean + once * cos + twice * (2.0 * cos * cos - 1.0);
    // Besides front and back, the derivative vanishes where cos t = -once / (4 twice).
    let inner = -once / (4.0 * twice);
    let inner = if inner.abs() <= 1.0 { value(inner) } else { f64::INFINITY };
    value(1.0).min(value(-1.0)).min(inner)
}

/// A hem level or rising evenly from front to side and swept from there to the back: the length grows or shrinks without
/// turning between the measured places, by cubic pieces in the angle (F. N. Fritsch and R. E. Carlson, "Monotone piecewise
/// cubic interpolation", SIAM Journal on Numerical Analysis 17, 1980; the slope at the side is the harmonic mean of those on
/// both its sides, from memory).
pub(super) fn train(waist: Mm, lengths: [Mm; 3]) -> Result<Shaped, HemError> {
    let waist = not_negative("waist", waist)?.get() / TAU;
    let front = positive("length at centre front", lengths[0])?.get();
    let side = positive("length at the side", lengths[1])?.get();
    let back = positive("length at centre back", lengths[2])?.get();
    let (before, after) = ((side - front) / FRAC_PI_2, (back - side) / FRAC_PI_2);
    let slope = if before * after > 0.0 { 2.0 * before * after / (before + after) } else { 0.0 };
    let stations = [
        (-PI, waist + back, 0.0),
        (-FRAC_PI_2, waist + side, -slope),
        (0.0, waist + front, 0.0),
        (FRAC_PI_2, waist + side, slope),
        (PI, waist + back, 0.0),
    ];
    let links = stations.windows(2).map(|pair| Link::new(swept(pair[0], pair[1]), 0.0, FRAC_PI_2, 0.0)).collect();
    let chain = Chain::new(links);
    let length = chain.length();
    let (edge, _) = chain.laid_out(length / 2.0);
    let quarter = chain.links()[2].length();
    Ok(plain(edge, quarter, Some(front.min(side).min(back))))
}

/// The cubic in the angle between two stations of angle, radius and slope.
fn swept((a, r, slope): (f64, f64, f64), (b, end, end_slope): (f64, f64, f64)) -> Curve {
    let h = b - a;
    let rise = (end - r) / h;
    let square = (3.0 * rise - 2.0 * slope - end_slope) / h;
    let cube = (slope + end_slope - 2.0 * rise) / (h * h);
    Curve::Swept { radius: [r, slope, square, cube] }
}
