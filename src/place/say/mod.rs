//! Setting out in plain sentences: why it is as it is, what to look at, what else could be done.

mod as_cut;
mod findings;
mod kept;
mod middle;
mod reasons;
mod remedies;
mod rows;
mod together;

use crate::hem::{Hem, Middle};
use crate::place::Lands;
use crate::quantity::Mm;

pub(super) use as_cut::{made_smaller, own_mirror_images};
pub(super) use findings::{NEARER, findings};
pub(super) use kept::Kept;
pub(super) use reasons::reasons;
pub(super) use remedies::remedy;
pub(super) use rows::row_reasons;

/// Gaps that differ by less than this, in millimetres, are spoken of as one.
const ALIKE: f64 = 0.05;

/// A length without a decimal that says nothing: `95 mm`, `62.5 mm`.
pub(super) fn short(length: Mm) -> String {
    let tenths = (length.get() * 10.0).round() / 10.0;
    if (tenths - tenths.round()).abs() < 0.01 { format!("{length:.0}") } else { length.to_string() }
}

/// `44.9 mm`, or `38.0 mm to 44.9 mm`
fn range_words(least: Mm, greatest: Mm) -> String {
    if (greatest - least).get() < ALIKE { least.to_string() } else { format!("{least} to {greatest}") }
}

const fn middle_name(hem: &Hem) -> &'static str {
    match hem.middle() {
        Middle::CentreFront => "CF",
        Middle::CentreBack => "CB",
    }
}

const fn lands_words(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "a motif",
        Lands::Gap => "a gap",
        Lands::Between => "neither a motif's nor a gap's middle",
    }
}
