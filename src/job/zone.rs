//! `[[zone]]`: what else lies in the band, of which material, and whether it is there when the press closes.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::press::{Lies, Zone, ZoneState};
use crate::quantity::Mm;

/// `[[zone]]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [[zone]]")]
pub(crate) struct ZoneKeys {
    /// What it is called on the papers.
    name: Option<Given<String>>,
    /// Key in the table of materials.
    material: Option<Given<String>>,
    /// Lower edge above the hem.
    from: Option<Given<Mm>>,
    /// Upper edge above the hem.
    to: Option<Given<Mm>>,
    /// Where it begins along the hem, from CF, negative toward the wearer's right; without it all round.
    along_from: Option<Given<Mm>>,
    /// Where it ends along the hem.
    along_to: Option<Given<Mm>>,
    /// "in place", "folded away" or "sewn on later".
    state: Option<Given<String>>,
}

impl ZoneKeys {
    /// What it is called, where that can be read.
    pub(super) fn called(&self) -> Option<String> {
        self.name.as_ref().or(self.material.as_ref())?.value.clone().ok()
    }
}

/// The zones as checked; those with faults are left out.
pub(crate) fn check(check: &mut Check, zones: &[Section<ZoneKeys>]) -> Vec<Zone> {
    (1..).zip(zones).filter_map(|(number, zone)| check_zone(check, number, zone)).collect()
}

fn check_zone(check: &mut Check, number: u32, section: &Section<ZoneKeys>) -> Option<Zone> {
    let (keys, table) = (&section.keys, Table { name: "[[zone]]", at: &section.at });
    if keys.material.is_none() {
        check.missing(table, "material", "material = \"unknown\"");
    }
    let material = check.material(keys.material.as_ref());
    let name = match &keys.name {
        Some(given) => check.take(Some(given)),
        None => material.clone(),
    };
    let heights = heights(check, section, number);
    let along = along(check, keys);
    let state = match &keys.state {
        Some(given) => check.one_of(
            Some(given),
            &[
                ("in place", ZoneState::InPlace),
                ("folded away", ZoneState::FoldedAway),
                ("sewn on later", ZoneState::SewnOnLater),
            ],
        ),
        None => {
            check.assume("state of the zone", "in place, under the plate", format!("zone {number}: state"));
            Some(ZoneState::InPlace)
        }
    };
    Some(Zone {
        name: name?,
        material: material?,
        along: along?,
        heights: heights?,
        state: state?,
        lies: Lies::Beneath,
    })
}

fn heights(check: &mut Check, section: &Section<ZoneKeys>, number: u32) -> Option<(Mm, Mm)> {
    let (keys, table) = (&section.keys, Table { name: "[[zone]]", at: &section.at });
    let from = match &keys.from {
        Some(given) => check.not_below_zero("from", Some(given)),
        None => {
            check.assume("lower edge of the zone", "the hem itself", format!("zone {number}: from"));
            Some(Mm::ZERO)
        }
    };
    let to = check.need_above_zero(table, "to", "to = \"150 mm\"", keys.to.as_ref());
    let at = keys.from.as_ref().or(keys.to.as_ref()).map_or(&section.at, |given| &given.at);
    in_order(check, at, ("from", from?), ("to", to?))
}

/// `None` for a fault, `Some(None)` for a zone that runs all round.
#[expect(clippy::option_option, reason = "a fault and a zone that runs all round are different things")]
fn along(check: &mut Check, keys: &ZoneKeys) -> Option<Option<(Mm, Mm)>> {
    match (&keys.along_from, &keys.along_to) {
        (None, None) => Some(None),
        (Some(from), Some(to)) => {
            let at = from.at.clone();
            let (from, to) = (check.take(Some(from)), check.take(Some(to)));
            in_order(check, &at, ("along_from", from?), ("along_to", to?)).map(Some)
        }
        (from, to) => {
            let (key, with) = if from.is_some() { ("along_from", "along_to") } else { ("along_to", "along_from") };
            let given = from.as_ref().or(to.as_ref())?;
            check.take(Some(given));
            check.fault(&given.at, FaultKind::OnlyWith { key, with });
            None
        }
    }
}

fn in_order(
    check: &mut Check,
    at: &std::ops::Range<usize>,
    (less, low): (&'static str, Mm),
    (greater, high): (&'static str, Mm),
) -> Option<(Mm, Mm)> {
    if low < high {
        return Some((low, high));
    }
    check.fault(at, FaultKind::WrongWayRound { less, greater, found: (low.to_string(), high.to_string()) });
    None
}
