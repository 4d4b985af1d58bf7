//! `[size.NAME]`: the same garment in further sizes, each by the measurements of the hem that differ.

use std::ops::Range;

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::fault::FaultKind;
use super::given::{FileName, Given, LONGEST_NAME, Named, Section};
use crate::hem::{Flare, HemWish, Measurements};
use crate::place::SizePolicy;
use crate::quantity::Mm;

/// `[size.NAME]` as written: keys of the job's own shape of hem.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [size.NAME]")]
pub(crate) struct SizeKeys {
    waist: Option<Given<Mm>>,
    length: Option<Given<Mm>>,
    front: Option<Given<Mm>>,
    side: Option<Given<Mm>>,
    back: Option<Given<Mm>>,
    tape: Option<Given<Mm>>,
    front_back: Option<Given<Mm>>,
    side_side: Option<Given<Mm>>,
    top: Option<Given<Mm>>,
    hem: Option<Given<Mm>>,
    upper: Option<Given<Mm>>,
    width: Option<Given<Mm>>,
    depth: Option<Given<Mm>>,
    /// The drawing of the pieces in that size, its lines under the same ids.
    pub(super) file: Option<Given<FileName>>,
}

/// The sizes as checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SizesWish {
    /// What the size of `[hem]` is called.
    pub own: String,
    /// What the sizes have in common.
    pub policy: SizePolicy,
    /// Further sizes by name; none where there is but one.
    pub others: Vec<(String, HemWish)>,
}

impl SizeKeys {
    /// Every key with its value.
    fn all(&self) -> [(&'static str, Option<&Given<Mm>>); 13] {
        [
            ("waist", self.waist.as_ref()),
            ("length", self.length.as_ref()),
            ("front", self.front.as_ref()),
            ("side", self.side.as_ref()),
            ("back", self.back.as_ref()),
            ("tape", self.tape.as_ref()),
            ("front_back", self.front_back.as_ref()),
            ("side_side", self.side_side.as_ref()),
            ("top", self.top.as_ref()),
            ("hem", self.hem.as_ref()),
            ("upper", self.upper.as_ref()),
            ("width", self.width.as_ref()),
            ("depth", self.depth.as_ref()),
        ]
    }
}

/// The further sizes of a hem; those with faults are left out.
pub(super) fn check(
    check: &mut Check,
    sizes: &Named<Section<SizeKeys>>,
    hem: Option<&HemWish>,
    (own, policy): (Option<String>, Option<SizePolicy>),
) -> SizesWish {
    let own = own.unwrap_or_else(|| "as measured".to_owned());
    let mut others: Vec<(String, HemWish)> = Vec::new();
    for (name, section) in sizes.entries() {
        let (name, at) = (name.get_ref().trim().to_owned(), name.span());
        let letters = name.chars().count();
        if letters > LONGEST_NAME {
            check.fault(&at, FaultKind::TextTooLong { letters, most: LONGEST_NAME });
        } else if name.is_empty() || name == own {
            check.fault(&at, FaultKind::Twice { what: format!("the size \"{name}\"") });
        }
        let measurements = measured(check, &section.keys, &at, hem.map(|hem| hem.measurements.clone()));
        if let (Some(measurements), Some(hem)) = (measurements, hem) {
            // A hem that was measured again after hanging is the one of its own size.
            others.push((name, HemWish { measurements, hung: Vec::new(), ..hem.clone() }));
        }
    }
    if policy.is_none() && !others.is_empty() {
        check.assume("what the sizes have in common", "the count; gaps differ", "garment.sizes");
    }
    SizesWish { own, policy: policy.unwrap_or_default(), others }
}

/// The measurements with those of a size put in; without a hem only what is wrong with the size by itself is told.
fn measured(
    check: &mut Check,
    keys: &SizeKeys,
    at: &Range<usize>,
    mut all: Option<Measurements>,
) -> Option<Measurements> {
    let faults = check.faults.len();
    let given: Vec<_> = keys.all().into_iter().filter_map(|(key, given)| Some((key, given?))).collect();
    if given.is_empty() && keys.file.is_none() {
        let (table, example) = ("the size".to_owned(), "waist = \"760 mm\"");
        check.fault(at, FaultKind::Missing { key: "measurement", table, example });
    }
    for (key, given) in given {
        let Some(value) = check.above_zero(key, Some(given)) else { continue };
        let Some(all) = &mut all else { continue };
        match place(all, key) {
            Some(here) => *here = value,
            None => {
                let known = keys.all().map(|(key, _)| key).into_iter().filter(|key| place(all, key).is_some());
                check.fault(&given.at, FaultKind::NotOfThisHem { key, known: known.collect() });
            }
        }
    }
    if let Some(given) = &keys.file
        && let Some(FileName(file)) = check.take(Some(given))
        && let Some(all) = &mut all
    {
        match drawing(all) {
            Some(here) => *here = file,
            None => check.fault(&given.at, FaultKind::OnlyWith { key: "file", with: "[hem.drawn]" }),
        }
    }
    all.filter(|_| check.faults.len() == faults)
}

/// The drawing of a hem that is drawn.
fn drawing(all: &mut Measurements) -> Option<&mut String> {
    match all {
        Measurements::Drawn(drawn) => Some(&mut drawn.file),
        Measurements::Godets { hem, .. } => drawing(hem),
        _ => None,
    }
}

/// Where a measurement of this name stands in a shape of hem; `None` where the shape has none.
fn place<'m>(all: &'m mut Measurements, key: &str) -> Option<&'m mut Mm> {
    match (all, key) {
        (Measurements::Godets { hem, .. }, key) => place(hem, key),
        (
            Measurements::Circle { waist, .. } | Measurements::Oval { waist, .. } | Measurements::Train { waist, .. },
            "waist",
        ) => Some(waist),
        (Measurements::Circle { length, .. } | Measurements::Straight { length }, "length") => Some(length),
        (Measurements::Oval { front, .. } | Measurements::Train { front, .. }, "front") => Some(front),
        (
            Measurements::Oval { side, .. }
            | Measurements::Train { side, .. }
            | Measurements::Gores { side, .. }
            | Measurements::Polygon { side, .. },
            "side",
        ) => Some(side),
        (Measurements::Oval { back, .. } | Measurements::Train { back, .. }, "back") => Some(back),
        (Measurements::Oval { tape, .. }, "tape") => tape.as_mut(),
        (Measurements::Ellipse { front_back, .. }, "front_back") => Some(front_back),
        (Measurements::Ellipse { side_side, .. }, "side_side") => Some(side_side),
        (Measurements::Gores { top, .. }, "top") => Some(top),
        (Measurements::Gores { hem, .. } | Measurements::Measured { hem, .. }, "hem") => Some(hem),
        (Measurements::Measured { flare: Flare::UpperLine { length, .. }, .. }, "upper") => Some(length),
        (Measurements::Rectangle { width, .. } | Measurements::Cloth { width, .. }, "width") => Some(width),
        (Measurements::Rectangle { depth, .. } | Measurements::Cloth { depth, .. }, "depth") => Some(depth),
        _ => None,
    }
}
