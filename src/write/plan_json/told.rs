//! What was found, and what was taken for granted.

use serde::Serialize;

use super::rounding::point;
use crate::finding::{Assumption, Finding};
use crate::quantity::Mm;

#[derive(Serialize)]
pub(super) struct WrittenFinding<'a> {
    severity: &'static str,
    kind: &'a str,
    drawing: Option<&'a str>,
    element: Option<&'a str>,
    line: Option<u32>,
    at_mm: Option<[f64; 2]>,
    measure_mm: Option<f64>,
    say: &'a str,
    r#do: &'a str,
}

#[derive(Serialize)]
pub(super) struct WrittenAssumption<'a> {
    about: &'a str,
    taken: &'a str,
    key: &'a str,
}

pub(super) fn finding(finding: &Finding) -> WrittenFinding<'_> {
    let place = finding.place.as_ref();
    WrittenFinding {
        severity: finding.severity.words(),
        kind: finding.kind,
        drawing: place.map(|p| p.drawing.as_str()),
        element: place.map(|p| p.element.as_str()),
        line: place.and_then(|p| p.line),
        at_mm: place.and_then(|p| p.at).map(point),
        measure_mm: finding.measure.map(Mm::rounded),
        say: &finding.say,
        r#do: &finding.advice,
    }
}

pub(super) fn assumption(assumption: &Assumption) -> WrittenAssumption<'_> {
    WrittenAssumption { about: &assumption.about, taken: &assumption.taken, key: &assumption.key }
}
