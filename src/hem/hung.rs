//! A hem measured again after hanging, part by part.

use super::marks::Quarters;
use super::{Ends, HemError};
use crate::quantity::Mm;

/// A part of the hem between two places that can be found again, and its length as measured after hanging.
#[derive(Clone, Debug, PartialEq)]
pub struct HungPart {
    /// Names of its ends: `CF`, `left side`.
    pub names: (String, String),
    /// Distance along the drafted hem at its start; on a ring the first starts at CF and s goes on growing round to CF again.
    pub from: Mm,
    /// The same at its end.
    pub to: Mm,
    /// Length as measured.
    pub measured: Mm,
}

/// Most parts taken: one for each motif of a large hem.
const MOST_PARTS: usize = 360;

/// How far a part may have changed before it must be a slip of the tape; common practice, no source.
const MOST_CHANGE: f64 = 0.15;

/// The parts of a hem of a given length. Four on a ring are its quarters, from CF to the wearer's left side, CB, her right side
/// and CF; any other number are equal parts. On an open band parts are counted from the end where s is least.
pub(super) fn parts(measured: &[Mm], ends: &Ends, quarters: Quarters, length: f64) -> Result<Vec<HungPart>, HemError> {
    if measured.is_empty() {
        return Ok(Vec::new());
    }
    if measured.len() > MOST_PARTS {
        return Err(HemError::HungParts { parts: measured.len(), most: MOST_PARTS });
    }
    let closed = !matches!(ends, Ends::Open { .. });
    let start = if closed { 0.0 } else { -length / 2.0 };
    let count = measured.len();
    let even = |k: usize| start + length * k as f64 / count as f64;
    let (places, names): (Vec<f64>, Vec<String>) = if closed && count == 4 {
        let names = ["CF", "the left side", "CB", "the right side", "CF"];
        (vec![0.0, quarters.left, length / 2.0, length + quarters.right, length], names.map(str::to_owned).to_vec())
    } else {
        let name = |k: usize| match (closed, k) {
            (true, k) if k == 0 || k == count => "CF".to_owned(),
            (false, 0) => "the right end".to_owned(),
            (false, k) if k == count => "the left end".to_owned(),
            (_, k) => format!("part {k}'s end"),
        };
        ((0..=count).map(even).collect(), (0..=count).map(name).collect())
    };
    measured.iter().enumerate().map(|(k, measured)| part(&places, &names, k, *measured)).collect()
}

fn part(places: &[f64], names: &[String], k: usize, measured: Mm) -> Result<HungPart, HemError> {
    let (from, to) = (Mm::new(places[k]), Mm::new(places[k + 1]));
    let drafted = to - from;
    if (measured / drafted - 1.0).abs() > MOST_CHANGE {
        return Err(HemError::HungFar { part: k + 1, measured, drafted });
    }
    Ok(HungPart { names: (names[k].clone(), names[k + 1].clone()), from, to, measured })
}
