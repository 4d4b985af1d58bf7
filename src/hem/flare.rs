//! Hems of constant curvature, laid out flat round their own apex: circles and parts of them, gores, hems by tape.

use std::f64::consts::TAU;

use super::curve::Curve;
use super::edge::Edge;
use super::marks::Panels;
use super::shaped::{MOST_PANELS, Shaped, not_negative, plain, positive};
use super::{Flare, HemError};
use crate::quantity::Mm;

/// Most full circles of sweep that are shaped: past it a width or a unit is wrong. A ruffle of ten circles stays inside.
const MOST_CIRCLES: f64 = 20.0;

pub(super) fn circle(fraction: f64, waist: Mm, length: Mm) -> Result<Shaped, HemError> {
    if !(fraction > 0.0 && fraction <= MOST_CIRCLES) {
        return Err(HemError::Fraction { fraction, most: MOST_CIRCLES });
    }
    let (waist, length) = (not_negative("waist", waist)?, positive("length", length)?);
    let sweep = TAU * fraction;
    band(waist + sweep * length, sweep, Some(length))
}

pub(super) fn gores(panels: Panels, top: Mm, hem: Mm, side: Mm) -> Result<Shaped, HemError> {
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

pub(super) fn by_tape(hem: Mm, flare: Flare) -> Result<Shaped, HemError> {
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
pub(super) fn band(hem: Mm, sweep: f64, waist: Option<Mm>) -> Result<Shaped, HemError> {
    let hem = hem.get();
    if sweep.is_nan() || sweep.abs() > TAU * MOST_CIRCLES {
        return Err(HemError::TooMuchSweep { circles: sweep / TAU, most: MOST_CIRCLES });
    }
    let edge = Edge::new(Curve::Arc { curvature: sweep / hem }, -hem / 2.0, hem / 2.0, 1);
    Ok(plain(edge, hem / 4.0, waist.map(Mm::get)))
}
