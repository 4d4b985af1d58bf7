//! Facts of the craft in tables, each value with its source and how sure it is: materials, film classes, plates, care
//! labels, and what each heat rule says.
//!
//! In: the `.toml` files beside this one, built into the program. Out: typed rows, looked up by key or by another name the
//! maker may use. Numbers of sources are those of docs/sources.md. A table with a row that names no source, a range upside
//! down, a key no one knows, or the same name twice is refused ([`TableFault`]), and the tests keep it so.

mod basis;
mod fault;
mod figure;
mod film_class;
mod lookup;
mod material;
mod plate;
mod rule;

use std::sync::LazyLock;

pub use basis::{Basis, Confidence, sources_text};
pub use fault::TableFault;
pub use figure::{Figure, figure, figures, usual};
pub use film_class::{FilmClass, Fixes, Layers, Peel, PeelWhen, Pressure, Repress, RepressIs, Trade, TurnRule, Window};
pub use lookup::{folded_name, nearest_names};
pub use material::{Fact, Limit, Material, MaterialKind, Steam, Trait};
pub use plate::{CareLabel, LabelClass, LabelEdition, Plate, Tool};
pub use rule::{Condition, Rule, RuleOutcome, When};

/// All tables.
#[derive(Clone, Debug)]
pub struct Tables {
    materials: Vec<Material>,
    films: Vec<FilmClass>,
    plates: Vec<Plate>,
    labels: Vec<CareLabel>,
    rules: Vec<Rule>,
}

/// The key of the row that stands for everything not stated.
pub const UNKNOWN: &str = "unknown";
/// The key of the film class that stands for a film not stated.
pub const UNKNOWN_FILM: &str = "unknown-film";
/// The key of the plate taken where the job names none: the commoner size of table press.
pub const USUAL_PLATE: &str = "press-300x380";

/// The tables built into the program, read and checked once.
#[must_use]
pub fn tables() -> &'static Tables {
    static TABLES: LazyLock<Tables> = LazyLock::new(|| {
        Tables::read(
            include_str!("materials.toml"),
            include_str!("film_classes.toml"),
            include_str!("plates_and_labels.toml"),
            include_str!("risk_rules.toml"),
        )
        .expect("the built-in tables are checked by the tests of this module")
    });
    &TABLES
}

impl Tables {
    /// Reads and checks tables from their text.
    ///
    /// # Errors
    /// The first [`TableFault`] found: text that is no table, an unknown key, a missing source, a range upside down, a name
    /// given twice.
    pub fn read(materials: &str, films: &str, plates: &str, rules: &str) -> Result<Self, TableFault> {
        let (plates, labels) = plate::read(plates)?;
        let tables = Self {
            materials: material::read(materials)?,
            films: film_class::read(films)?,
            plates,
            labels,
            rules: rule::read(rules)?,
        };
        lookup::names_are_single("material", tables.materials.iter().map(|m| (m.key.as_str(), m.also.as_slice())))?;
        lookup::names_are_single("film", tables.films.iter().map(|f| (f.key.as_str(), f.also.as_slice())))?;
        lookup::names_are_single("plate", tables.plates.iter().map(|p| (p.key.as_str(), &[][..])))?;
        lookup::names_are_single("rule", tables.rules.iter().map(|r| (r.key.as_str(), &[][..])))?;
        Ok(tables)
    }

    /// Every material, in the order of the table.
    #[must_use]
    pub fn materials(&self) -> &[Material] {
        &self.materials
    }

    /// Every film and web class, in the order of the table.
    #[must_use]
    pub fn films(&self) -> &[FilmClass] {
        &self.films
    }

    /// Every plate, in the order of the table.
    #[must_use]
    pub fn plates(&self) -> &[Plate] {
        &self.plates
    }

    /// What care labels say, gentlest first.
    #[must_use]
    pub fn labels(&self) -> &[CareLabel] {
        &self.labels
    }

    /// What each heat rule says.
    #[must_use]
    pub fn rules(&self) -> &[Rule] {
        &self.rules
    }

    /// A material by its key or another name for it; capitals, spaces and underscores do not matter.
    #[must_use]
    pub fn material(&self, name: &str) -> Option<&Material> {
        let name = folded_name(name);
        self.materials.iter().find(|m| m.key == name || m.also.contains(&name))
    }

    /// The materials of a stack or blend, written with `+`: `cotton + elastane`. A name not found gives the unknown row.
    #[must_use]
    pub fn stack(&self, names: &str) -> Vec<&Material> {
        names.split('+').map(|name| self.material(name).unwrap_or_else(|| self.unknown())).collect()
    }

    /// The row for what is not stated.
    #[must_use]
    pub fn unknown(&self) -> &Material {
        self.material(UNKNOWN).expect("the tests of this module find the unknown row")
    }

    /// A film or web class by its key or another name for it.
    #[must_use]
    pub fn film(&self, name: &str) -> Option<&FilmClass> {
        let name = folded_name(name);
        self.films.iter().find(|f| f.key == name || f.also.contains(&name))
    }

    /// A film class, or the one for a class not stated.
    #[must_use]
    pub fn film_or_unknown(&self, name: &str) -> &FilmClass {
        self.film(name)
            .or_else(|| self.film(UNKNOWN_FILM))
            .expect("the tests of this module find the class of unknown film")
    }

    /// A plate by its key.
    #[must_use]
    pub fn plate(&self, name: &str) -> Option<&Plate> {
        let name = folded_name(name);
        self.plates.iter().find(|p| p.key == name)
    }

    /// The plate taken where the job names none.
    #[must_use]
    pub fn usual_plate(&self) -> &Plate {
        self.plate(USUAL_PLATE).expect("the tests of this module find the usual plate")
    }

    /// What a care-label class says.
    #[must_use]
    pub fn label(&self, class: LabelClass) -> &CareLabel {
        self.labels.iter().find(|l| l.class == class).expect("the tests of this module find every label class")
    }

    /// The rule for a condition.
    #[must_use]
    pub fn rule_for(&self, when: When) -> &Rule {
        self.rules.iter().find(|r| r.when == when).expect("the tests of this module find a rule for every condition")
    }
}

#[cfg(test)]
mod tests;
