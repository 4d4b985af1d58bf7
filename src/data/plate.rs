//! Press plates by generic size, and care-label limits in words by edition.

use serde::Deserialize;

use super::TableFault;
use super::basis::{Confidence, has_source, is_range, sources_text};
use crate::quantity::{Celsius, Mm};

/// What is pressed with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tool {
    /// A heat press, table or hand, with a flat plate and a timer.
    #[default]
    Press,
    /// A domestic iron: a small uneven plate, less pressure, several placements for one motif.
    Iron,
}

/// One size of plate.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plate {
    /// Key.
    pub key: String,
    /// As papers call it.
    pub name: String,
    /// What it is.
    pub tool: Tool,
    /// Extent along the hem, millimetres.
    pub along_mm: f64,
    /// Extent up the garment, millimetres.
    pub up_mm: f64,
    /// Border not trusted to be hot enough, millimetres.
    pub rim_mm: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

impl Plate {
    /// `[90, 106] published`
    #[must_use]
    pub fn sources(&self) -> String {
        sources_text(&self.source, self.confidence)
    }

    /// Extent along the hem and up the garment.
    #[must_use]
    pub const fn size(&self) -> (Mm, Mm) {
        (Mm::new(self.along_mm), Mm::new(self.up_mm))
    }

    /// Border not trusted to be hot enough.
    #[must_use]
    pub const fn rim(&self) -> Mm {
        Mm::new(self.rim_mm)
    }
}

/// Ironing class of a care label.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LabelClass {
    /// Low heat.
    OneDot,
    /// Medium heat.
    TwoDots,
    /// High heat.
    ThreeDots,
}

/// Edition of the care-label standard; a label does not show which it follows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LabelEdition {
    /// 2012: 110, 150, 200 C. Taken unless the maker knows better.
    #[default]
    Of2012,
    /// 2023: each class 10 C higher.
    Of2023,
}

/// What a care-label class says.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CareLabel {
    /// Which.
    pub class: LabelClass,
    /// In words; the official drawings are protected marks.
    pub words: String,
    /// Highest sole-plate temperature by the 2012 edition, degrees Celsius.
    pub c_2012: f64,
    /// Highest sole-plate temperature by the 2023 edition, degrees Celsius.
    pub c_2023: f64,
    /// What else the class says.
    pub note: String,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

impl CareLabel {
    /// Highest temperature by edition.
    #[must_use]
    pub const fn limit(&self, edition: LabelEdition) -> Celsius {
        match edition {
            LabelEdition::Of2012 => Celsius::new(self.c_2012),
            LabelEdition::Of2023 => Celsius::new(self.c_2023),
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    plate: Vec<Plate>,
    label: Vec<CareLabel>,
}

pub(super) fn read(text: &str) -> Result<(Vec<Plate>, Vec<CareLabel>), TableFault> {
    let rows: Rows = toml::from_str(text).map_err(|e| TableFault::NotATable { table: "plate", why: e.to_string() })?;
    for plate in &rows.plate {
        has_source(&plate.key, "size", &plate.source)?;
        is_range(&plate.key, "along_mm", [2.0 * plate.rim_mm, plate.along_mm])?;
        is_range(&plate.key, "up_mm", [2.0 * plate.rim_mm, plate.up_mm])?;
    }
    for label in &rows.label {
        has_source(&label.words, "label", &label.source)?;
        is_range(&label.words, "label", [label.c_2012, label.c_2023])?;
    }
    Ok((rows.plate, rows.label))
}
