//! Film and web classes: pressing window, peel, layers, turning and cutting defaults.

use serde::Deserialize;

use super::basis::{Confidence, has_source, is_range};
use super::{TableFault, Trait};
use crate::quantity::{Celsius, Mm, Seconds};

/// How a class is fixed to the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fixes {
    /// Its own adhesive, in a press.
    Film,
    /// Fusible web under a cloth piece.
    Web,
    /// Sewn on; not pressed.
    Stitching,
}

/// Temperatures and times a planner may use.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Window {
    /// Lowest and highest degrees Celsius.
    pub c: [f64; 2],
    /// Shortest and longest seconds.
    pub s: [f64; 2],
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// The setting taken when the job gives none.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Usual {
    /// Degrees Celsius.
    pub c: f64,
    /// Seconds.
    pub s: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// Settings one maker publishes as equal for one film: an example, never stretched beyond its ends.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trade {
    /// Degrees Celsius and seconds, hottest first.
    pub points: Vec<[f64; 2]>,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// How hard the press is closed.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pressure {
    /// `light`, `medium`, `firm`, `none`: a class only, sheets disagree on bars.
    pub is: String,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// When the carrier is peeled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PeelWhen {
    /// At once.
    Hot,
    /// After ten to fifteen seconds off the press.
    Warm,
    /// At room temperature.
    Cold,
    /// Sheets of this class differ: read the one you hold.
    ByTheSheet,
}

impl PeelWhen {
    /// The words used on papers.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Hot => "peel hot, at once, with a cloth or tweezers",
            Self::Warm => "peel warm, after about 15 seconds off the press",
            Self::Cold => "peel cold, at room temperature",
            Self::ByTheSheet => "peel as the film's sheet says",
        }
    }
}

/// Peeling.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Peel {
    /// When.
    pub when: PeelWhen,
    /// Seconds waited at the press before peeling; cold peel is done on the next round and waits for nothing.
    pub wait_s: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// Film on film.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layers {
    /// Most layers in one place, this one counted.
    pub most: u32,
    /// Takes no film on top.
    pub top_only: bool,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// Whether it may be pressed again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RepressIs {
    /// As often as needed.
    Free,
    /// Once, under cover.
    Once,
    /// Never: its surface is crushed.
    Never,
}

/// Pressing again.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Repress {
    /// Whether.
    pub is: RepressIs,
    /// Seconds of the second press after peeling that the class asks for; zero for none.
    pub finish_s: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// How pieces may be turned on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TurnRule {
    /// Any way.
    Free,
    /// Upright or upside down.
    Half,
    /// Not at all: its direction shows.
    OneWay,
}

/// Turning.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turn {
    /// How.
    pub is: TurnRule,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// Cutting defaults.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cutting {
    /// Clear border of the sheet, millimetres.
    pub margin_mm: f64,
    /// Least distance between pieces, millimetres.
    pub gap_mm: f64,
    /// Narrowest part that can be cut and weeded, millimetres.
    pub stroke_mm: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// One class of film or web.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FilmClass {
    /// Key.
    pub key: String,
    /// As papers call it.
    pub name: String,
    /// Other names a maker may write.
    #[serde(default)]
    pub also: Vec<String>,
    /// How it is fixed.
    pub fixes: Fixes,
    /// Delicate cloths it is made for.
    #[serde(default)]
    pub made_for: Vec<Trait>,
    /// Temperatures and times.
    pub window: Window,
    /// Setting taken when the job gives none.
    pub usual: Usual,
    /// Equal settings one maker publishes.
    #[serde(default)]
    pub trade: Option<Trade>,
    /// How hard.
    pub pressure: Pressure,
    /// Peeling.
    pub peel: Peel,
    /// Film on film.
    pub layers: Layers,
    /// Pressing again.
    pub repress: Repress,
    /// Turning on the sheet.
    pub turning: Turn,
    /// Cutting defaults.
    pub cutting: Cutting,
}

impl FilmClass {
    /// Lowest and highest temperature of the window.
    #[must_use]
    pub const fn temperatures(&self) -> (Celsius, Celsius) {
        (Celsius::new(self.window.c[0]), Celsius::new(self.window.c[1]))
    }

    /// Shortest and longest time of the window.
    #[must_use]
    pub const fn times(&self) -> (Seconds, Seconds) {
        (Seconds::new(self.window.s[0]), Seconds::new(self.window.s[1]))
    }

    /// Usual temperature and time.
    #[must_use]
    pub const fn usual(&self) -> (Celsius, Seconds) {
        (Celsius::new(self.usual.c), Seconds::new(self.usual.s))
    }

    /// Clear border of the sheet and least distance between pieces.
    #[must_use]
    pub const fn margin_and_gap(&self) -> (Mm, Mm) {
        (Mm::new(self.cutting.margin_mm), Mm::new(self.cutting.gap_mm))
    }

    /// Whether a press is used at all.
    #[must_use]
    pub const fn is_pressed(&self) -> bool {
        !matches!(self.fixes, Fixes::Stitching)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    film: Vec<FilmClass>,
}

pub(super) fn read(text: &str) -> Result<Vec<FilmClass>, TableFault> {
    let rows: Rows = toml::from_str(text).map_err(|e| TableFault::NotATable { table: "film", why: e.to_string() })?;
    rows.film.iter().try_for_each(check)?;
    Ok(rows.film)
}

fn check(row: &FilmClass) -> Result<(), TableFault> {
    let sources = [
        ("window", &row.window.source),
        ("usual", &row.usual.source),
        ("pressure", &row.pressure.source),
        ("peel", &row.peel.source),
        ("layers", &row.layers.source),
        ("repress", &row.repress.source),
        ("turning", &row.turning.source),
        ("cutting", &row.cutting.source),
    ];
    for (value, source) in sources {
        has_source(&row.key, value, source)?;
    }
    is_range(&row.key, "window c", row.window.c)?;
    is_range(&row.key, "window s", row.window.s)?;
    is_range(&row.key, "peel", [0.0, row.peel.wait_s])?;
    is_range(&row.key, "finish", [0.0, row.repress.finish_s])?;
    is_range(&row.key, "cutting", [0.0, row.cutting.margin_mm.min(row.cutting.gap_mm).min(row.cutting.stroke_mm)])?;
    let within = |value: f64, range: [f64; 2]| (range[0]..=range[1]).contains(&value);
    if !within(row.usual.c, row.window.c) || !within(row.usual.s, row.window.s) {
        return Err(TableFault::OutsideWindow { row: row.key.clone() });
    }
    row.trade.as_ref().map_or(Ok(()), |trade| check_trade(&row.key, trade))
}

/// Cooler settings take longer, or the points are no trade.
fn check_trade(row: &str, trade: &Trade) -> Result<(), TableFault> {
    has_source(row, "trade", &trade.source)?;
    for pair in trade.points.windows(2) {
        is_range(row, "trade c", [pair[1][0], pair[0][0]])?;
        is_range(row, "trade s", [pair[0][1], pair[1][1]])?;
    }
    Ok(())
}
