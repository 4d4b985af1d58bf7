//! A finding before it is bound to the drawing's file and the finished motif's frame.

use std::collections::BTreeMap;

use super::labels::Label;
use crate::finding::{Finding, Place, Severity};
use crate::geometry::{Affine, Point};
use crate::quantity::{Mm, Radians};

/// A finding in the making; its point is in the frame of the stage that made it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Note {
    pub(super) severity: Severity,
    pub(super) kind: &'static str,
    pub(super) label: Label,
    pub(super) at: Option<Point>,
    pub(super) measure: Option<Measure>,
    pub(super) also_at: Vec<Point>,
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
        Self {
            severity,
            kind,
            label,
            at: None,
            measure: None,
            also_at: Vec::new(),
            say: say.into(),
            advice: advice.into(),
        }
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
        self.measure = Mm::checked(millimetres).map(Measure::Length);
        self
    }

    pub(super) const fn measured(mut self, measure: Measure) -> Self {
        self.measure = Some(measure);
        self
    }

    /// Further places where the same was found.
    pub(super) fn also_at(mut self, places: impl IntoIterator<Item = Point>) -> Self {
        self.also_at = places.into_iter().collect();
        self
    }

    /// The same note with its points carried into the motif's frame.
    pub(super) fn carried(mut self, to_motif: Affine) -> Self {
        self.at = self.at.map(|at| to_motif * at);
        for at in &mut self.also_at {
            *at = to_motif * *at;
        }
        self
    }

    /// The finding; its point must be in the motif's frame by now.
    pub(super) fn into_finding(self, drawing: &str) -> Finding {
        Finding {
            severity: self.severity,
            kind: self.kind,
            place: Some(Place {
                drawing: drawing.to_owned(),
                element: self.label.element,
                line: self.label.line,
                at: self.at,
            }),
            measure: match self.measure {
                Some(Measure::Length(length)) => Some(length),
                _ => None,
            },
            say: self.say,
            advice: self.advice,
        }
    }
}

/// How big a finding is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// A length.
    Length(Mm),
    /// An angle.
    Angle(Radians),
    /// A number of points.
    Points(usize),
    /// A difference of colour (CIE 1976).
    ColourDifference(f64),
}

impl std::fmt::Display for Measure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Length(length) => length.fmt(f),
            Self::Angle(angle) => write!(f, "{:.0}°", angle.degrees()),
            Self::Points(count) => write!(f, "{} points", grouped(*count)),
            Self::ColourDifference(difference) => write!(f, "difference {difference:.1}"),
        }
    }
}

/// Most findings of one kind that are listed one by one.
const LISTED: usize = 40;

/// Gravest first, then in the order of the drawing; notes of one kind beyond [`LISTED`] are counted instead of listed, so
/// that a crowd cannot bury the rest.
pub(super) fn in_order(mut notes: Vec<Note>) -> Vec<Note> {
    let line = |note: &Note| note.label.line.unwrap_or(u32::MAX);
    notes.sort_by(|a, b| b.severity.cmp(&a.severity).then(line(a).cmp(&line(b))));
    let mut seen: BTreeMap<&'static str, usize> = BTreeMap::new();
    notes.retain(|note| {
        let count = seen.entry(note.kind).or_default();
        *count += 1;
        *count <= LISTED
    });
    for (kind, count) in seen {
        let Some(last) = notes.iter_mut().rfind(|note| note.kind == kind && count > LISTED) else { continue };
        last.say.push_str(&format!(" There are {} more of this kind.", grouped(count - LISTED)));
    }
    notes
}

/// A count with a comma between thousands.
pub(super) fn grouped(count: usize) -> String {
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
