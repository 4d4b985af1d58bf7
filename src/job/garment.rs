//! `[garment]`: what is made, and of which cloth.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::given::{Given, Section};
use crate::data::UNKNOWN;
use crate::place::{Garments, SizePolicy};

/// `[garment]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [garment]")]
pub(crate) struct GarmentKeys {
    /// What it is called on the papers.
    name: Option<Given<String>>,
    /// Key of the cloth in the table of materials.
    cloth: Option<Given<String>>,
    /// Edition of the care label's iron symbols: "2012" or "2023".
    label: Option<Given<String>>,
    /// How many are made: "one", or "pair" for two that mirror each other.
    make: Option<Given<String>>,
    /// What the size of `[hem]` is called, beside the sizes of `[size.NAME]`.
    size: Option<Given<String>>,
    /// What the sizes have in common: "same count" or "same gap".
    sizes: Option<Given<String>>,
}

/// `[garment]` as checked.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Garment {
    pub(crate) name: String,
    pub(crate) cloth: String,
    pub(crate) label_2023: bool,
    pub(crate) make: Garments,
    pub(crate) size: Option<String>,
    pub(crate) sizes: Option<SizePolicy>,
}

pub(crate) fn check(check: &mut Check, section: Option<&Section<GarmentKeys>>) -> Garment {
    let keys = section.map(|section| &section.keys);
    let name = check.take(keys.and_then(|keys| keys.name.as_ref()));
    let cloth = check.material(keys.and_then(|keys| keys.cloth.as_ref()));
    let label = check.one_of(keys.and_then(|keys| keys.label.as_ref()), &[("2012", false), ("2023", true)]);
    if keys.is_none_or(|keys| keys.cloth.is_none()) {
        check.assume("cloth of the garment", "unknown: at most 110 C, and a test piece first", "garment.cloth");
    }
    if keys.is_none_or(|keys| keys.label.is_none()) {
        check.assume("edition of the care label", "2012, 10 C lower than that of 2023", "garment.label");
    }
    Garment {
        name: name.unwrap_or_else(|| "hem".to_owned()),
        cloth: cloth.unwrap_or_else(|| UNKNOWN.to_owned()),
        label_2023: label.unwrap_or(false),
        make: check
            .one_of(
                keys.and_then(|keys| keys.make.as_ref()),
                &[("one", Garments::One), ("pair", Garments::MirroredPair)],
            )
            .unwrap_or_default(),
        size: check.take(keys.and_then(|keys| keys.size.as_ref())),
        sizes: check.one_of(
            keys.and_then(|keys| keys.sizes.as_ref()),
            &[("same count", SizePolicy::SameCount), ("same gap", SizePolicy::SameGap)],
        ),
    }
}
