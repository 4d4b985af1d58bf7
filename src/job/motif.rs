//! `[motif.NAME]`: a drawing, its finished size, and which film takes which of its colours.

use std::collections::BTreeMap;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Deserializer, de};

use super::check::{Check, Table, is_name};
use super::fault::FaultKind;
use super::given::{FileName, Given, Named, Section};
use super::limits::{self, LimitKeys};
use super::prepare::{self, PrepareKeys};
use crate::art::{Colour, MotifWish};
use crate::film::{self, Method, Preparing};
use crate::quantity::Mm;

/// `[motif.NAME]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [motif.NAME]")]
pub(crate) struct MotifKeys {
    /// The drawing's file, relative to the job file.
    pub(super) art: Option<Given<FileName>>,
    /// Finished width.
    width: Option<Given<Mm>>,
    /// Film or cloth of every colour that is not named below.
    film: Option<Given<String>>,
    /// How it is cut and fixed: "film", "fused traced", "fused backed", "turned on right", "turned on wrong".
    method: Option<Given<String>>,
    /// Film of a colour of the drawing: "#c62828" = "red", or a table with film and method.
    #[serde(default)]
    colours: Named<ColourKeys>,
    /// Whole spare motifs of each hand and size.
    spares: Option<Given<u32>>,
    /// Whole test motifs.
    tests: Option<Given<u32>>,
    /// What is done to its layers before they are cut.
    prepare: Option<Section<PrepareKeys>>,
    /// What its drawing may have before something is said.
    limits: Option<Section<LimitKeys>>,
}

/// What is said of one colour: the film's name alone, or a table.
#[derive(Clone, Debug)]
pub(crate) struct ColourKeys {
    film: Option<Given<String>>,
    method: Option<Given<String>>,
}

/// The table form.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a film's name or a table with film and method")]
struct ColourTable {
    film: Option<Given<String>>,
    method: Option<Given<String>>,
}

impl<'de> Deserialize<'de> for ColourKeys {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let section = toml::Spanned::<TextOrTable>::deserialize(deserializer)?;
        let at = section.span();
        Ok(match section.into_inner() {
            TextOrTable::Text(film) => Self { film: Some(Given { at, value: Ok(film) }), method: None },
            TextOrTable::Table(table) => Self { film: table.film, method: table.method },
        })
    }
}

enum TextOrTable {
    Text(String),
    Table(ColourTable),
}

impl<'de> Deserialize<'de> for TextOrTable {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;
        impl<'de> de::Visitor<'de> for Visitor {
            type Value = TextOrTable;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a film's name or a table with film and method")
            }
            fn visit_str<E: de::Error>(self, film: &str) -> Result<TextOrTable, E> {
                Ok(TextOrTable::Text(film.trim().to_owned()))
            }
            fn visit_map<A: de::MapAccess<'de>>(self, map: A) -> Result<TextOrTable, A::Error> {
                ColourTable::deserialize(de::value::MapAccessDeserializer::new(map)).map(TextOrTable::Table)
            }
        }
        deserializer.deserialize_any(Visitor)
    }
}

impl JsonSchema for ColourKeys {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "ColourKeys".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let table = generator.subschema_for::<ColourTable>();
        schemars::json_schema!({ "anyOf": [{ "type": "string" }, table] })
    }
}

/// Which film takes which colour of a motif, as far as the job says.
#[derive(Clone, Debug, PartialEq)]
pub struct CutChoice {
    /// Motif key.
    pub motif: String,
    /// Film of every colour that `colours` does not name; `None` gives each of them a film of its own.
    pub film: Option<String>,
    /// How every such colour is cut and fixed.
    pub method: Method,
    /// Colours the job names, with their film and method.
    pub colours: BTreeMap<Colour, (Option<String>, Method)>,
    /// Whole spare motifs of each hand and size; `None` leaves it to the number that is needed.
    pub spares: Option<u32>,
    /// Whole test motifs.
    pub tests: u32,
    /// What is done to its layers before they are cut.
    pub preparing: Preparing,
    /// Limits of the drawing that the job changes: keys of the table of limits, values in its units.
    pub limits: Vec<(&'static str, f64)>,
}

impl CutChoice {
    /// Films that it names.
    pub(crate) fn films(&self) -> impl Iterator<Item = &str> {
        self.film.iter().chain(self.colours.values().filter_map(|(film, _)| film.as_ref())).map(String::as_str)
    }
}

impl CutChoice {
    /// How it cuts what it cuts from this film.
    pub(super) fn methods_of<'a>(&'a self, film: &'a str) -> impl Iterator<Item = Method> {
        let usual = (self.film.as_deref(), self.method);
        let named = self.colours.values().map(move |(own, method)| (own.as_deref().or(usual.0), *method));
        std::iter::once(usual).chain(named).filter(move |(name, _)| *name == Some(film)).map(|(_, method)| method)
    }
}

const METHODS: [(&str, Method); 5] = [
    ("film", Method::Film),
    ("fused traced", Method::FusedTraced),
    ("fused backed", Method::FusedBacked),
    ("turned on right", Method::TurnedTemplateOnRight),
    ("turned on wrong", Method::TurnedTemplateOnWrong),
];

/// The motifs as checked; those with faults are left out.
pub(crate) fn check(
    check: &mut Check,
    motifs: &Named<Section<MotifKeys>>,
    films: &[String],
) -> Vec<(MotifWish, CutChoice)> {
    if motifs.entries().is_empty() {
        check.whole(FaultKind::Missing {
            key: "[motif.NAME]",
            table: "the job".to_owned(),
            example: "[motif.poppy] and under it  art = \"poppy.svg\"",
        });
    }
    let mut checked = Vec::new();
    for (name, section) in motifs.entries() {
        if !is_name(name.get_ref()) {
            check.fault(&name.span(), FaultKind::NotAName { found: name.get_ref().clone() });
        }
        checked.extend(check_motif(check, name.get_ref(), section, films));
    }
    checked
}

fn check_motif(
    check: &mut Check,
    name: &str,
    section: &Section<MotifKeys>,
    films: &[String],
) -> Option<(MotifWish, CutChoice)> {
    let keys = &section.keys;
    let heading = format!("[motif.{name}]");
    if keys.art.is_none() {
        check.missing(Table { name: &heading, at: &section.at }, "art", "art = \"poppy.svg\"");
    }
    let file = check.take(keys.art.as_ref()).map(|FileName(file)| file);
    let width = check.above_zero("width", keys.width.as_ref());
    if keys.width.is_none() {
        let taken = "the size the drawing states";
        check.assume("finished width of the motif", taken, format!("motif.{name}.width"));
    }
    let film = film_name(check, keys.film.as_ref(), films);
    let method = match &keys.method {
        Some(given) => check.one_of(Some(given), &METHODS),
        None => Some(Method::Film),
    };
    let colours = check_colours(check, keys, films, method.unwrap_or(Method::Film));
    let spares = check.take(keys.spares.as_ref());
    let tests = check.take(keys.tests.as_ref());
    if keys.tests.is_none() {
        check.assume("test motifs", "one, cut on the first sheet", format!("motif.{name}.tests"));
    }
    if let Err(fault) = film::spares_can_be_cut(name, spares.unwrap_or(0), tests.unwrap_or(1)) {
        let at = keys.spares.as_ref().or(keys.tests.as_ref()).map_or(&section.at, |given| &given.at);
        check.worked_out(at, &fault, fault.hint());
    }
    let preparing = prepare::check(check, name, keys.prepare.as_ref());
    let limits = limits::check(check, keys.limits.as_ref());
    let wish = MotifWish { name: name.to_owned(), file: file?, width };
    let tests = tests.unwrap_or(1);
    let cut = CutChoice { motif: name.to_owned(), film, method: method?, colours, spares, tests, preparing, limits };
    Some((wish, cut))
}

fn check_colours(
    check: &mut Check,
    keys: &MotifKeys,
    films: &[String],
    usual: Method,
) -> BTreeMap<Colour, (Option<String>, Method)> {
    let mut colours = BTreeMap::new();
    for (written, choice) in keys.colours.entries() {
        let Some(colour) = colour(written.get_ref()) else {
            check.fault(&written.span(), FaultKind::NotAColour { found: written.get_ref().clone() });
            continue;
        };
        let film = film_name(check, choice.film.as_ref(), films);
        let method = check.one_of(choice.method.as_ref(), &METHODS).unwrap_or(usual);
        if colours.insert(colour, (film, method)).is_some() {
            check.fault(&written.span(), FaultKind::Twice { what: format!("the colour {colour}") });
        }
    }
    colours
}

fn film_name(check: &mut Check, given: Option<&Given<String>>, films: &[String]) -> Option<String> {
    let name = check.take(given)?;
    if films.contains(&name) {
        return Some(name);
    }
    check.fault(&given?.at, FaultKind::NoSuch { what: "film", name, known: films.to_vec() });
    None
}

/// `#c62828` or `#C62828`, or the short `#c22`.
fn colour(text: &str) -> Option<Colour> {
    let digits = text.trim().strip_prefix('#')?;
    let digit = |at: usize| digits.get(at..=at).and_then(|d| u8::from_str_radix(d, 16).ok());
    match (digits.len(), digits.is_ascii()) {
        (3, true) => Some(Colour { red: digit(0)? * 17, green: digit(1)? * 17, blue: digit(2)? * 17 }),
        (6, true) => {
            let pair = |at: usize| Some(digit(at)? * 16 + digit(at + 1)?);
            Some(Colour { red: pair(0)?, green: pair(2)?, blue: pair(4)? })
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_read_long_and_short() {
        let red = Colour { red: 0xc6, green: 0x28, blue: 0x2a };
        assert_eq!(colour("#c6282a"), Some(red));
        assert_eq!(colour("#C6282A"), Some(red));
        assert_eq!(colour("#fa0"), Some(Colour { red: 255, green: 170, blue: 0 }));
        for wrong in ["red", "c6282a", "#c6282", "#c6282g", "#+1+2+3", "#ää", ""] {
            assert_eq!(colour(wrong), None, "{wrong}");
        }
    }
}
