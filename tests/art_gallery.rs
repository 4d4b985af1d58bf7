//! A drawing for every fault and a clean twin for each: the fault is found with its kind, its place within half a
//! millimetre and its measure within 5 %; the twin is passed.
//!
//! Each drawing of tests/gallery says in its comment what is expected, worked by hand: `expect KIND SEVERITY at X Y measure
//! N UNIT` in page millimetres (a dash where a coordinate may be anything), and `middle X Y`, the middle of the finished
//! motif on the page.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, missing_docs, reason = "tests read the gallery from disk")]

use hemwright::art::{self, Found, Inspection, Measure, MotifWish, Working};
use hemwright::finding::Severity;

struct Expected {
    kind: String,
    severity: Severity,
    at: [Option<f64>; 2],
    measure: Option<(f64, String)>,
}

struct Drawing {
    name: String,
    svg: String,
    working: Working,
    expected: Vec<Expected>,
    middle: Option<[f64; 2]>,
}

fn gallery() -> Vec<Drawing> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/gallery");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
        .into_iter()
        .map(|path| {
            let svg = std::fs::read_to_string(&path).unwrap();
            let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
            let comment = svg.split("<!--").nth(1).unwrap().split("-->").next().unwrap().to_owned();
            let mut drawing = Drawing { name, svg, working: Working::Film, expected: vec![], middle: None };
            for line in comment.lines() {
                let words: Vec<&str> = line.split_whitespace().collect();
                match words.first() {
                    Some(&"working") => drawing.working = working(words[1]),
                    Some(&"expect") => drawing.expected.push(expected(&words)),
                    Some(&"middle") => drawing.middle = Some([words[1].parse().unwrap(), words[2].parse().unwrap()]),
                    _ => {}
                }
            }
            drawing
        })
        .collect()
}

fn working(word: &str) -> Working {
    match word {
        "film" => Working::Film,
        "raw-edge" => Working::RawEdge,
        "turned-edge" => Working::TurnedEdge,
        other => panic!("unknown way of working {other}"),
    }
}

fn expected(words: &[&str]) -> Expected {
    let severity = match words[2] {
        "stops" => Severity::StopsTheJob,
        "look" => Severity::LookAtThis,
        "fixed" => Severity::FixedForYou,
        other => panic!("unknown severity {other}"),
    };
    let after = |word: &str| words.iter().position(|other| *other == word).map(|place| &words[place + 1..]);
    let at = after("at").map_or([None, None], |place| [0, 1].map(|k| place.get(k).and_then(|n| n.parse().ok())));
    let measure = after("measure").map(|rest| (rest[0].parse().unwrap(), rest[1].to_owned()));
    Expected { kind: words[1].to_owned(), severity, at, measure }
}

fn inspect(drawing: &Drawing) -> Inspection {
    let wish = MotifWish { name: drawing.name.clone(), file: format!("{}.svg", drawing.name), width: None };
    art::inspect(&drawing.svg, &wish, &drawing.working.into()).unwrap()
}

fn check(drawing: &Drawing, inspection: &Inspection, expected: &Expected) {
    let name = &drawing.name;
    let of_kind: Vec<&Found> = inspection.found.iter().filter(|found| found.finding.kind == expected.kind).collect();
    assert_eq!(of_kind.len(), 1, "{name}: {} expected once: {:#?}", expected.kind, inspection.found);
    let found = of_kind[0];
    assert_eq!(found.finding.severity, expected.severity, "{name}");
    let at = found.finding.place.as_ref().unwrap().at;
    for (axis, wanted) in expected.at.iter().enumerate() {
        let Some(wanted) = wanted else { continue };
        let at = at.unwrap_or_else(|| panic!("{name}: no place"));
        let on_page =
            [at.x, at.y][axis] + drawing.middle.map_or_else(|| middle(inspection, drawing, axis), |m| m[axis]);
        assert!((on_page - wanted).abs() <= 0.5, "{name}: {on_page} against {wanted} on axis {axis}: {found:?}");
    }
    if let Some((wanted, unit)) = &expected.measure {
        let (measured, own_unit) = match found.measure.unwrap_or_else(|| panic!("{name}: no measure")) {
            Measure::Length(length) => (length.get(), "mm"),
            Measure::Angle(angle) => (angle.degrees(), "deg"),
            Measure::Points(points) => (points as f64, "points"),
            Measure::ColourDifference(difference) => (difference, "delta-e"),
        };
        assert_eq!(own_unit, unit, "{name}");
        assert!((measured - wanted).abs() <= 0.05 * wanted + 1e-9, "{name}: {measured} against {wanted}");
    }
}

/// Where the motif's middle lies on the page, when the drawing does not say: taken from a plain reading of its points.
fn middle(inspection: &Inspection, drawing: &Drawing, axis: usize) -> f64 {
    let data = drawing.svg.split(" d=\"M").nth(1).unwrap();
    let mut numbers =
        data.split(|c: char| c.is_whitespace() || c.is_alphabetic() || c == '"').filter_map(|n| n.parse().ok());
    let start: [f64; 2] = [numbers.next().unwrap(), numbers.next().unwrap()];
    let first = inspection.shapes[0].rings[0].ring.points()[0];
    start[axis] - [first.x, first.y][axis]
}

#[test]
fn every_fault_is_found_where_it_is_and_as_large_as_it_is() {
    let drawings: Vec<Drawing> = gallery().into_iter().filter(|drawing| !drawing.expected.is_empty()).collect();
    assert!(drawings.len() >= 30, "the gallery was not found");
    for drawing in &drawings {
        let inspection = inspect(drawing);
        for expected in &drawing.expected {
            check(drawing, &inspection, expected);
        }
    }
}

#[test]
fn nothing_else_is_found_in_a_faulty_drawing_that_must_be_looked_at() {
    for drawing in gallery() {
        let inspection = inspect(&drawing);
        for found in inspection.found.iter().filter(|found| found.finding.severity > Severity::FixedForYou) {
            let meant = drawing.expected.iter().any(|expected| expected.kind == found.finding.kind);
            assert!(meant, "{}: {found:#?}", drawing.name);
        }
    }
}

#[test]
fn clean_twins_have_no_finding_of_the_fault_and_none_to_look_at() {
    let drawings = gallery();
    let mut twins = 0;
    for faulty in drawings.iter().filter(|drawing| !drawing.expected.is_empty()) {
        let name = format!("{}-clean", faulty.name);
        let clean = drawings.iter().find(|drawing| drawing.name == name).unwrap_or_else(|| panic!("{name} is missing"));
        let inspection = inspect(clean);
        twins += 1;
        for expected in &faulty.expected {
            assert!(
                inspection.found.iter().all(|found| found.finding.kind != expected.kind),
                "{name}: {:#?}",
                inspection.found
            );
        }
        assert!(
            inspection.worst().is_none_or(|worst| worst == Severity::FixedForYou),
            "{name}: {:#?}",
            inspection.found
        );
    }
    assert!(twins >= 30);
}

#[test]
fn every_kind_in_the_gallery_is_explained_in_the_formats() {
    let formats = include_str!("../docs/formats.md");
    for drawing in gallery() {
        for expected in drawing.expected {
            assert!(formats.contains(&format!("`{}`", expected.kind)), "{} is not in docs/formats.md", expected.kind);
        }
    }
}
