//! Materials: cloths, trims, interfacings, webs, threads, and what each stands.

use serde::Deserialize;

use super::basis::{Basis, Confidence, has_source, is_range};
use super::{LabelClass, LabelEdition, TableFault, Tables};
use crate::quantity::Celsius;

/// What sort of thing a material is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MaterialKind {
    /// Cloth or leather a garment is made of.
    Cloth,
    /// Sewn on: braid, lace, ribbon, elastic.
    Trim,
    /// Stiffening behind the cloth.
    Interfacing,
    /// Fusible web and tape.
    Web,
    /// Sewing and embroidery thread.
    Thread,
    /// Sequins, stones, beads.
    Decoration,
    /// Zips, hooks, buttons.
    Hardware,
    /// Seams, pockets.
    Structure,
}

/// How hot a material may be pressed.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Limit {
    /// The care-label class usual for it; degrees depend on the label's edition.
    Label(LabelClass),
    /// A ceiling in degrees Celsius for short pressing.
    Celsius(f64),
    /// A fusible: melts again from so many degrees Celsius.
    MeltsFrom(f64),
    /// Not pressed at all.
    Never,
}

/// Whether steam may be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Steam {
    /// No steam and no damp cloth.
    Never,
    /// A little, after a test.
    Sparing,
    /// Does no harm; never while film is being pressed.
    Allowed,
}

impl Steam {
    /// The words used on papers.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Never => "no steam",
            Self::Sparing => "steam only after a test",
            Self::Allowed => "steam allowed, but not with film",
        }
    }
}

/// What makes a material delicate under heat; each has a rule in `risk_rules.toml`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trait {
    /// What it is made of is not known.
    Unknown,
    /// Silk: dry heat, press cloth, test.
    Silk,
    /// Silk with slubs.
    SilkSlub,
    /// Takes water spots.
    WaterMarks,
    /// Wool: no safe contact figure known.
    Wool,
    /// Nylon in it.
    Nylon,
    /// Acetate or triacetate.
    Acetate,
    /// Elastane or rubber in it.
    Elastane,
    /// Polyester whose dye may creep.
    DyeMigrates,
    /// Polyester whose dye will creep.
    DyeMigratesSurely,
    /// Fusible that melts again at film temperatures.
    Remelts,
    /// Fusible molten long before film temperatures.
    RemeltsLow,
    /// Stones set by heat.
    SetStones,
    /// Plastic sequins.
    Sequins,
    /// Plated yarn.
    Plated,
    /// Coated or water-repellent.
    Coated,
    /// Keeps the shape it is pressed into.
    TakesASet,
    /// Leather.
    Leather,
    /// Has a pile.
    Pile,
    /// Gives off harmful fumes.
    Fumes,
    /// Thicker than its surroundings: holds the plate off.
    Ridge,
    /// Flattened, and prints through.
    Relief,
    /// Film that was pressed on before.
    PressedFilm,
}

/// One thing known about a material, with its temperatures.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// What happens.
    pub what: String,
    /// From which to which temperature, degrees Celsius.
    pub c: [f64; 2],
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// One material.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// Key.
    pub key: String,
    /// As papers call it.
    pub name: String,
    /// Other names a maker may write.
    #[serde(default)]
    pub also: Vec<String>,
    /// What sort of thing it is.
    pub kind: MaterialKind,
    /// How hot it may be pressed.
    pub limit: Limit,
    /// Why the limit is what it is.
    pub basis: Basis,
    /// Whether steam may be used.
    pub steam: Steam,
    /// What makes it delicate.
    #[serde(default)]
    pub traits: Vec<Trait>,
    /// What goes wrong when it gets too hot.
    pub wrong: String,
    /// What else is known.
    #[serde(default)]
    pub facts: Vec<Fact>,
}

impl Material {
    /// The limit in degrees by the edition of the care label; `None` for what is not pressed at all.
    #[must_use]
    pub fn ceiling(&self, tables: &Tables, edition: LabelEdition) -> Option<Celsius> {
        match self.limit {
            Limit::Label(class) => Some(tables.label(class).limit(edition)),
            Limit::Celsius(degrees) | Limit::MeltsFrom(degrees) => Some(Celsius::new(degrees)),
            Limit::Never => None,
        }
    }

    /// Whether it has a trait.
    #[must_use]
    pub fn is(&self, wanted: Trait) -> bool {
        self.traits.contains(&wanted)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    material: Vec<Material>,
}

pub(super) fn read(text: &str) -> Result<Vec<Material>, TableFault> {
    let rows: Rows =
        toml::from_str(text).map_err(|e| TableFault::NotATable { table: "material", why: e.to_string() })?;
    rows.material.iter().try_for_each(check)?;
    Ok(rows.material)
}

fn check(row: &Material) -> Result<(), TableFault> {
    has_source(&row.key, "limit", &row.basis.source)?;
    if let Limit::Celsius(degrees) | Limit::MeltsFrom(degrees) = row.limit {
        is_range(&row.key, "limit", [degrees, degrees])?;
    }
    for fact in &row.facts {
        has_source(&row.key, &fact.what, &fact.source)?;
        is_range(&row.key, &fact.what, fact.c)?;
    }
    Ok(())
}
