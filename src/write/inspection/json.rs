//! An inspection for other programs; names and conventions are in docs/formats.md.
//!
//! Lengths and places in millimetres to three places, places in the motif's frame: origin at its middle, y down.

use serde::Serialize;

use crate::art::{Found, Inspection, Measure};
use crate::finding::Severity;
use crate::geometry::Point;
use crate::quantity::Mm;

/// Name and number of the written form.
const SCHEMA: &str = "hemwright-inspection/1";

/// The file's text.
pub(super) fn file(inspection: &Inspection) -> String {
    let motif = &inspection.motif;
    let colour = |layer: usize| motif.layers.get(layer).map_or(String::new(), |layer| layer.colour.to_string());
    let written = Written {
        schema: SCHEMA,
        drawing: &inspection.file,
        width_mm: motif.width.rounded(),
        height_mm: motif.height.rounded(),
        colours: motif.layers.iter().map(|layer| layer.colour.to_string()).collect(),
        ready: inspection.worst() < Some(Severity::StopsTheJob),
        findings: inspection.found.iter().map(finding).collect(),
        overlaps: inspection
            .overlaps
            .iter()
            .map(|overlap| WrittenOverlap {
                upper: colour(overlap.upper),
                lower: colour(overlap.lower),
                least_mm: Mm::new(overlap.least).rounded(),
                at_mm: point(overlap.at),
            })
            .collect(),
    };
    let mut text = serde_json::to_string_pretty(&written).expect("plain fields with string keys always serialise");
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Written<'a> {
    schema: &'static str,
    drawing: &'a str,
    width_mm: f64,
    height_mm: f64,
    colours: Vec<String>,
    ready: bool,
    findings: Vec<WrittenFinding<'a>>,
    overlaps: Vec<WrittenOverlap>,
}

#[derive(Serialize)]
struct WrittenFinding<'a> {
    number: usize,
    severity: &'static str,
    kind: &'static str,
    element: Option<&'a str>,
    line: Option<u32>,
    at_mm: Option<[f64; 2]>,
    also_at_mm: Vec<[f64; 2]>,
    measure: Option<WrittenMeasure>,
    say: &'a str,
    r#do: &'a str,
}

#[derive(Serialize)]
struct WrittenMeasure {
    value: f64,
    unit: &'static str,
}

#[derive(Serialize)]
struct WrittenOverlap {
    upper: String,
    lower: String,
    least_mm: f64,
    at_mm: [f64; 2],
}

fn finding(found: &Found) -> WrittenFinding<'_> {
    let place = found.finding.place.as_ref();
    WrittenFinding {
        number: found.number,
        severity: found.finding.severity.words(),
        kind: found.finding.kind,
        element: place.map(|place| place.element.as_str()),
        line: place.and_then(|place| place.line),
        at_mm: place.and_then(|place| place.at).map(point),
        also_at_mm: found.also_at.iter().copied().map(point).collect(),
        measure: found.measure.map(measure),
        say: &found.finding.say,
        r#do: &found.finding.advice,
    }
}

fn measure(measure: Measure) -> WrittenMeasure {
    let (value, unit) = match measure {
        Measure::Length(length) => (length.rounded(), "mm"),
        Measure::Angle(angle) => (thousandths(angle.degrees()), "deg"),
        Measure::Points(points) => (points as f64, "points"),
        Measure::ColourDifference(difference) => (thousandths(difference), "delta-e"),
    };
    WrittenMeasure { value, unit }
}

fn point(at: Point) -> [f64; 2] {
    [thousandths(at.x), thousandths(at.y)]
}

fn thousandths(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}
