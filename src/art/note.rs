//! A finding before it is bound to the drawing's file and the finished motif's frame.

use std::collections::BTreeMap;

use super::labels::Label;
use crate::finding::{Finding, Place, Severity};
use crate::geometry::{Affine, Point};
use crate::quantity::Mm;

/// A finding in the making; its point is in the frame of the stage that made it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Note {
    pub(super) severity: Severity,
    pub(super) kind: &'static str,
    pub(super) label: Label,
    pub(super) at: Option<Point>,
    pub(super) measure: Option<Mm>,
    pub(super) say: String,
    pub(super) advice: String,
}

impl Note {
    pub(super) fn new(
        severity: Severity,
        kind: &'static str,
        label: Label,
        say: impl Into<String>,
        advice: impl Into<String>,
    ) -> Self {
        Self { severity, kind, label, at: None, measure: None, say: say.into(), advice: advice.into() }
    }

    pub(super) fn stops(kind: &'static str, label: Label, say: impl Into<String>, advice: impl Into<String>) -> Self {
        Self::new(Severity::StopsTheJob, kind, label, say, advice)
    }

    pub(super) fn look(kind: &'static str, label: Label, say: impl Into<String>, advice: impl Into<String>) -> Self {
        Self::new(Severity::LookAtThis, kind, label, say, advice)
    }

    pub(super) fn fixed(kind: &'static str, label: Label, say: impl Into<String>, advice: impl Into<String>) -> Self {
        Self::new(Severity::FixedForYou, kind, label, say, advice)
    }

    pub(super) fn at(mut self, at: Point) -> Self {
        self.at = Some(at);
        self
    }

    pub(super) fn measuring(mut self, millimetres: f64) -> Self {
        self.measure = Mm::checked(millimetres);
        self
    }

    /// The finding, with its point carried into the motif's frame.
    pub(super) fn into_finding(self, drawing: &str, to_motif: Affine) -> Finding {
        Finding {
            severity: self.severity,
            kind: self.kind,
            place: Some(Place {
                drawing: drawing.to_owned(),
                element: self.label.element,
                line: self.label.line,
                at: self.at.map(|at| to_motif * at),
            }),
            measure: self.measure,
            say: self.say,
            advice: self.advice,
        }
    }
}

/// Most findings of one kind that are listed one by one.
const LISTED: usize = 40;

/// Findings of one kind beyond [`LISTED`] are counted instead of listed, so that a crowd cannot bury the rest.
pub(super) fn fold(findings: Vec<Finding>) -> Vec<Finding> {
    let mut seen: BTreeMap<&'static str, usize> = BTreeMap::new();
    let mut kept: Vec<Finding> = Vec::new();
    for finding in findings {
        let count = seen.entry(finding.kind).or_default();
        *count += 1;
        if *count <= LISTED {
            kept.push(finding);
        }
    }
    for (kind, count) in seen {
        let Some(last) = kept.iter_mut().rfind(|finding| finding.kind == kind && count > LISTED) else { continue };
        last.say.push_str(&format!(" There are {} more of this kind.", grouped(count - LISTED)));
    }
    kept
}

/// A count with a comma between thousands.
fn grouped(count: usize) -> String {
    let digits = count.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// Gravest first, then in the order of the drawing.
pub(super) fn sort(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let line = |finding: &Finding| finding.place.as_ref().and_then(|place| place.line).unwrap_or(u32::MAX);
        b.severity.cmp(&a.severity).then(line(a).cmp(&line(b)))
    });
}
