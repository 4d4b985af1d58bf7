//! The tables hold what they promise, and bad tables are refused.

use super::*;

const MATERIAL: &str = "[[material]]\nkey = \"x\"\nname = \"x\"\nkind = \"cloth\"\nlimit = { celsius = 110 }\n\
    basis = { why = \"w\", source = [1], confidence = \"published\" }\nsteam = \"never\"\nwrong = \"w\"\n";

fn every_source() -> Vec<(String, Vec<u16>)> {
    let tables = tables();
    let mut found = Vec::new();
    for m in tables.materials() {
        found.push((m.key.clone(), m.basis.source.clone()));
        found.extend(m.facts.iter().map(|f| (m.key.clone(), f.source.clone())));
    }
    for f in tables.films() {
        let rows = [&f.window.source, &f.usual.source, &f.pressure.source, &f.peel.source];
        let more = [&f.layers.source, &f.repress.source, &f.turning.source, &f.cutting.source];
        found.extend(rows.into_iter().chain(more).map(|s| (f.key.clone(), s.clone())));
        found.extend(f.trade.iter().map(|t| (f.key.clone(), t.source.clone())));
    }
    found.extend(tables.plates().iter().map(|p| (p.key.clone(), p.source.clone())));
    found.extend(tables.labels().iter().map(|l| (l.words.clone(), l.source.clone())));
    found.extend(tables.rules().iter().map(|r| (r.key.clone(), r.source.clone())));
    found
}

/// Numbers of the bibliography, in order of appearance.
fn bibliography() -> Vec<u16> {
    include_str!("../../docs/sources.md")
        .lines()
        .filter_map(|line| line.split_once(". ").and_then(|(number, _)| number.parse().ok()))
        .collect()
}

#[test]
fn the_bibliography_is_numbered_without_a_gap() {
    let numbers = bibliography();
    assert!(numbers.len() > 100);
    assert!(numbers.iter().zip(1..).all(|(found, wanted)| *found == wanted));
}

#[test]
fn every_value_names_sources_that_stand_in_the_bibliography() {
    let numbers = bibliography();
    let rows = every_source();
    assert!(rows.len() > 200);
    for (row, sources) in rows {
        assert!(!sources.is_empty(), "{row} names no source");
        for source in sources {
            assert!(numbers.contains(&source), "{row} cites [{source}], which is not in docs/sources.md");
        }
    }
}

#[test]
fn a_row_without_source_is_refused() {
    let bare = MATERIAL.replace("source = [1]", "source = []");
    let fault = material::read(&bare).unwrap_err();
    assert_eq!(fault.to_string(), "\"limit\" of \"x\" names no source");
    let missing = MATERIAL.replace("source = [1], ", "");
    assert!(matches!(material::read(&missing), Err(TableFault::NotATable { .. })));
}

#[test]
fn a_range_upside_down_is_refused() {
    let facts = "facts = [{ what = \"melts\", c = [225, 215], source = [1], confidence = \"published\" }]\n";
    let fault = material::read(&format!("{MATERIAL}{facts}")).unwrap_err();
    assert_eq!(fault.to_string(), "\"melts\" of \"x\" runs from 225 to 215");
    let films = include_str!("film_classes.toml").replacen("c = [140, 160]", "c = [160, 140]", 1);
    assert!(matches!(film_class::read(&films), Err(TableFault::UpsideDown { .. })));
}

#[test]
fn an_unknown_key_or_word_is_refused() {
    for bad in [format!("{MATERIAL}colour = \"red\"\n"), MATERIAL.replace("\"never\"", "\"perhaps\"")] {
        assert!(matches!(material::read(&bad), Err(TableFault::NotATable { table: "material", .. })));
    }
    let rules = include_str!("risk_rules.toml").replacen("least = ", "at_least = ", 1);
    assert!(matches!(rule::read(&rules), Err(TableFault::NotATable { table: "rule", .. })));
}

#[test]
fn one_name_never_stands_for_two_rows() {
    let rows = [("silk", vec!["satin".to_owned()]), ("viscose", vec!["satin".to_owned()])];
    let fault = lookup::names_are_single("material", rows.iter().map(|(k, a)| (*k, a.as_slice()))).unwrap_err();
    assert_eq!(fault, TableFault::BadName { table: "material", name: "satin".into() });
}

#[test]
fn the_usual_setting_lies_in_its_window() {
    let films = include_str!("film_classes.toml").replacen("usual = { c = 150", "usual = { c = 190", 1);
    assert_eq!(film_class::read(&films).unwrap_err(), TableFault::OutsideWindow { row: "smooth".into() });
}

#[test]
fn every_trait_and_condition_has_exactly_one_rule() {
    let rules = tables().rules();
    for rule in rules {
        assert_eq!(rules.iter().filter(|other| other.when == rule.when).count(), 1, "{}", rule.key);
    }
    for material in tables().materials() {
        for wanted in &material.traits {
            assert!(rules.iter().any(|rule| rule.when == When::Trait(*wanted)), "{wanted:?} has no rule");
        }
    }
}

#[test]
fn a_maker_may_spell_as_she_likes() {
    let tables = tables();
    assert_eq!(tables.material("Horsehair Braid").unwrap().key, "braid");
    assert_eq!(tables.material("silk_dupioni").unwrap().key, "silk-dupion");
    let stack: Vec<&str> =
        tables.stack("cotton + interfacing copolyester + gossamer").iter().map(|m| &*m.key).collect();
    assert_eq!(stack, ["cotton", "interfacing-copolyester", "unknown"]);
    assert_eq!(nearest_names("coton", tables.materials().iter().map(|m| &*m.key))[0], "cotton");
}

/// Limits of ISO 3758:2012, and of the 2023 edition when asked for (sources 56, 57).
#[test]
fn care_labels_are_read_by_the_older_edition_unless_said() {
    let tables = tables();
    let degrees = |key: &str, edition| tables.material(key).unwrap().ceiling(tables, edition).unwrap().get();
    for (key, older, newer) in [("nylon", 110.0, 120.0), ("silk", 150.0, 160.0), ("cotton", 200.0, 210.0)] {
        assert!((degrees(key, LabelEdition::default()) - older).abs() < 1e-9);
        assert!((degrees(key, LabelEdition::Of2023) - newer).abs() < 1e-9);
    }
}

/// Source 90: workshop pages giving table presses of 300 x 380 mm.
#[test]
fn the_usual_plate_is_a_row_of_the_table() {
    let plate = tables().usual_plate();
    assert_eq!((plate.along_mm, plate.up_mm, plate.rim_mm), (380.0, 300.0, 10.0));
    assert_eq!(plate.sources(), "[90, 106] published");
}

#[test]
fn what_is_unknown_is_trusted_with_110_degrees() {
    let limit = tables().unknown().ceiling(tables(), LabelEdition::Of2023).unwrap();
    assert!((limit.get() - 110.0).abs() < 1e-9);
}

/// Conflicts settled towards the safer figure: modacrylic 110 rather than 149, copolyester from 105, EVA from 30 (sources 36, 43, 45).
#[test]
fn where_sources_disagree_the_lower_figure_counts() {
    for (key, limit) in [("modacrylic", 110.0), ("interfacing-copolyester", 105.0), ("interfacing-eva", 30.0)] {
        let ceiling = tables().material(key).unwrap().ceiling(tables(), LabelEdition::Of2012).unwrap();
        assert!((ceiling.get() - limit).abs() < 1e-9, "{key}");
    }
}

#[test]
fn every_rule_stands_in_the_document_of_rules_and_no_other_does() {
    let document = include_str!("../../docs/heat-rules.md");
    let listed: Vec<&str> = document
        .lines()
        .filter_map(|line| line.strip_prefix("| `").and_then(|rest| rest.split_once('`')))
        .map(|(key, rest)| {
            assert!(rest.contains("enforced") || rest.contains("advised"), "{key} does not say how far it goes");
            key
        })
        .collect();
    for rule in tables().rules() {
        assert!(listed.contains(&rule.key.as_str()), "{} is not in docs/heat-rules.md", rule.key);
    }
    assert_eq!(listed.len(), tables().rules().len());
}
