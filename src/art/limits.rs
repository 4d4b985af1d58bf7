//! What a drawing may have before it spoils the cut, by how its pieces are worked; figures of `data/art_limits.toml`.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::Colour;
use crate::data::Confidence;
use crate::quantity::{Mm, Radians};

/// How pieces of a drawing are worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Working {
    /// Heat-transfer film cut on its carrier.
    Film,
    /// Fabric fused with web, edges left raw.
    RawEdge,
    /// Fabric with its edges turned under.
    TurnedEdge,
}

impl Working {
    /// The words used on papers.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Film => "film",
            Self::RawEdge => "raw edges",
            Self::TurnedEdge => "turned edges",
        }
    }
}

/// A row of the table.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitRow {
    /// Stable short name.
    pub key: String,
    /// Ways of working it holds for.
    pub working: Vec<Working>,
    /// What it is, for the printed table.
    pub what: String,
    /// Unit: `mm`, `degrees`, `count`, `times`, `delta-e`.
    pub unit: String,
    /// The value.
    pub usual: f64,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure it is.
    pub confidence: Confidence,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    limit: Vec<LimitRow>,
}

/// Every row, in the order of the file.
#[must_use]
pub fn limit_rows() -> &'static [LimitRow] {
    static ROWS: OnceLock<Vec<LimitRow>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let table: Table =
            toml::from_str(include_str!("../data/art_limits.toml")).expect("a test reads the built-in table");
        table.limit
    })
}

/// Limits for one way of working. Every field may be changed; a limit of zero switches its finding off.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Narrowest part of a piece.
    pub neck: Mm,
    /// Narrowest strip of waste between shapes.
    pub sliver: Mm,
    /// Least size of a piece, each way.
    pub island: Mm,
    /// Sharpest point.
    pub needle: Radians,
    /// Radius to which sharper points are best rounded.
    pub needle_radius: Mm,
    /// Tightest inside curve; zero where edges are not turned.
    pub inside_radius: Mm,
    /// Least overlap of two colours.
    pub overlap: Mm,
    /// Colours nearer than this (CIE 1976 difference) were probably meant to be one.
    pub colour: f64,
    /// Widest opening closed without asking.
    pub opening: Mm,
    /// Outlines nearer than this all round are one drawn twice.
    pub doubled: Mm,
    /// Farthest an outline may move when it is simplified.
    pub simplified: Mm,
    /// Points above which an outline may have too many.
    pub points: f64,
    /// Times the simplified outline's points that are too many.
    pub points_for_shape: f64,
    /// Halves that differ by less are the same.
    pub uneven_from: Mm,
    /// Halves that differ by more were meant to differ.
    pub uneven_to: Mm,
    /// A narrower motif was probably drawn in another unit.
    pub smallest_width: Mm,
    /// A wider motif was probably drawn in another unit.
    pub largest_width: Mm,
}

impl Limits {
    /// No limit at all: every finding that needs one is switched off.
    const NONE: Self = Self {
        neck: Mm::ZERO,
        sliver: Mm::ZERO,
        island: Mm::ZERO,
        needle: Radians::ZERO,
        needle_radius: Mm::ZERO,
        inside_radius: Mm::ZERO,
        overlap: Mm::ZERO,
        colour: 0.0,
        opening: Mm::ZERO,
        doubled: Mm::ZERO,
        simplified: Mm::ZERO,
        points: 0.0,
        points_for_shape: 0.0,
        uneven_from: Mm::ZERO,
        uneven_to: Mm::ZERO,
        smallest_width: Mm::ZERO,
        largest_width: Mm::ZERO,
    };

    /// The table's limits for a way of working.
    #[must_use]
    pub fn usual(working: Working) -> Self {
        let rows = limit_rows().iter().filter(|row| row.working.contains(&working));
        rows.fold(Self::NONE, |limits, row| {
            limits.with(&row.key, row.usual).expect("a test reads every key of the built-in table")
        })
    }

    /// The same with another narrowest part: a film class states its own.
    #[must_use]
    pub fn with_neck(self, neck: Mm) -> Self {
        Self { neck, ..self }
    }
}

impl Limits {
    /// The same with one limit changed, by the key and in the unit of the table; `None` for an unknown key.
    #[must_use]
    pub fn with(mut self, key: &str, value: f64) -> Option<Self> {
        let length = Mm::checked(value)?;
        match key {
            "neck" => self.neck = length,
            "sliver" => self.sliver = length,
            "island" => self.island = length,
            "needle" => self.needle = Radians::new(value.to_radians()),
            "needle-radius" => self.needle_radius = length,
            "inside-radius" => self.inside_radius = length,
            "overlap" => self.overlap = length,
            "colour" => self.colour = value,
            "opening" => self.opening = length,
            "doubled" => self.doubled = length,
            "simplified" => self.simplified = length,
            "points" => self.points = value,
            "points-for-shape" => self.points_for_shape = value,
            "uneven-from" => self.uneven_from = length,
            "uneven-to" => self.uneven_to = length,
            "smallest-width" => self.smallest_width = length,
            "largest-width" => self.largest_width = length,
            _ => return None,
        }
        Some(self)
    }
}

/// Limits for a drawing whose colours may be worked in different ways.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitsByColour {
    /// For every colour not named.
    pub usual: Limits,
    /// For these colours.
    pub by_colour: BTreeMap<Colour, Limits>,
}

impl LimitsByColour {
    /// The limits for a colour.
    #[must_use]
    pub fn of(&self, colour: Colour) -> &Limits {
        self.by_colour.get(&colour).unwrap_or(&self.usual)
    }
}

impl From<Limits> for LimitsByColour {
    fn from(usual: Limits) -> Self {
        Self { usual, by_colour: BTreeMap::new() }
    }
}

impl From<Working> for LimitsByColour {
    fn from(working: Working) -> Self {
        Limits::usual(working).into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_stands_once_for_each_way_of_working_and_names_its_source() {
        let sources = include_str!("../../docs/sources.md");
        for row in limit_rows() {
            assert!(row.usual > 0.0 && row.usual.is_finite(), "{}", row.key);
            assert!(!row.source.is_empty(), "{} names no source", row.key);
            for source in &row.source {
                assert!(sources.contains(&format!("\n{source}. ")), "{} cites [{source}]", row.key);
            }
            for working in &row.working {
                let same = |other: &&LimitRow| other.key == row.key && other.working.contains(working);
                assert_eq!(limit_rows().iter().filter(same).count(), 1, "{} {working:?}", row.key);
            }
        }
    }

    #[test]
    fn only_the_inside_curve_is_limited_to_one_way_of_working() {
        let workings = [Working::Film, Working::RawEdge, Working::TurnedEdge];
        for row in limit_rows() {
            for working in workings {
                let known = limit_rows().iter().any(|other| other.key == row.key && other.working.contains(&working));
                assert!(known || row.key == "inside-radius", "{} has no value for {working:?}", row.key);
            }
        }
        assert!(Limits::usual(Working::Film).inside_radius.get().abs() < 1e-12);
        assert!(Limits::usual(Working::Film).with("nick", 1.0).is_none());
        // 1.0 mm for film, 3 mm for fabric; common practice, no source.
        assert!((Limits::usual(Working::Film).neck.get() - 1.0).abs() < 1e-12);
        assert!((Limits::usual(Working::RawEdge).neck.get() - 3.0).abs() < 1e-12);
    }
}
