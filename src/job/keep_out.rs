//! `[[keep_out]]`: places that no motif may reach into, such as a pocket.

use std::ops::Range;

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::place::KeepOut;
use crate::quantity::{Mm, mm};

/// Motifs keep this far from such a place unless told otherwise: as from the edge of an opening; common practice, no source.
const CLEAR: Mm = mm(10.0);

/// `[[keep_out]]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[keep_out]]")]
pub(crate) struct KeepOutKeys {
    /// What it is called on the papers.
    name: Option<Given<String>>,
    /// Where it begins along the hem, from CF, negative toward the wearer's right.
    along_from: Option<Given<Mm>>,
    /// Where it ends along the hem.
    along_to: Option<Given<Mm>>,
    /// Lower edge above the hem; without it the hem itself.
    from: Option<Given<Mm>>,
    /// Upper edge above the hem; without it all the way up.
    to: Option<Given<Mm>>,
    /// How far motifs keep from it along their line.
    clear: Option<Given<Mm>>,
}

/// The places as checked; those with faults are left out.
pub(super) fn check(check: &mut Check, text: &str, places: &[Section<KeepOutKeys>]) -> Vec<KeepOut> {
    let line = |place: &Section<KeepOutKeys>| text.get(..place.at.start).map(|before| before.matches('\n').count() + 1);
    let checked = |(number, place): (u32, &Section<KeepOutKeys>)| {
        let kept = check_place(check, number, place)?;
        Some(KeepOut { line: line(place), ..kept })
    };
    (1..).zip(places).filter_map(checked).collect()
}

fn check_place(check: &mut Check, number: u32, section: &Section<KeepOutKeys>) -> Option<KeepOut> {
    let (keys, table) = (&section.keys, Table { name: "[[keep_out]]", at: &section.at });
    let name = match &keys.name {
        Some(given) => check.take(Some(given)),
        None => Some(format!("place {number} to keep out of")),
    };
    if keys.along_from.is_none() {
        check.missing(table, "along_from", "along_from = \"500 mm\"");
    }
    if keys.along_to.is_none() {
        check.missing(table, "along_to", "along_to = \"650 mm\"");
    }
    let along = (check.take(keys.along_from.as_ref()), check.take(keys.along_to.as_ref()));
    let from = match &keys.from {
        Some(given) => check.not_below_zero("from", Some(given)),
        None => Some(Mm::ZERO),
    };
    let to = check.above_zero("to", keys.to.as_ref());
    let clear = match &keys.clear {
        Some(given) => check.not_below_zero("clear", Some(given)),
        None => {
            check.assume("clear of each place to keep out of", CLEAR.to_string(), format!("keep_out {number}: clear"));
            Some(CLEAR)
        }
    };
    let place = |given: &Option<Given<Mm>>| given.as_ref().map_or_else(|| section.at.clone(), |given| given.at.clone());
    let along = ordered(check, &place(&keys.along_from), ("along_from", along.0), ("along_to", along.1));
    let heights = match &keys.to {
        Some(_) => {
            ordered(check, &place(keys.from.as_ref().map_or(&keys.to, |_| &keys.from)), ("from", from), ("to", to))
                .map(|(from, to)| (from, Some(to)))
        }
        None => from.map(|from| (from, None)),
    };
    Some(KeepOut { name: name?, along: along?, heights: heights?, clear: clear?, line: None })
}

fn ordered(
    check: &mut Check,
    at: &Range<usize>,
    (less, low): (&'static str, Option<Mm>),
    (greater, high): (&'static str, Option<Mm>),
) -> Option<(Mm, Mm)> {
    let (low, high) = (low?, high?);
    if low >= high {
        let found = (low.to_string(), high.to_string());
        check.fault(at, FaultKind::WrongWayRound { less, greater, found });
    }
    (low < high).then_some((low, high))
}
