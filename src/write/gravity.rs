//! How grave a risk or a finding is: in words, and as a class of the style sheet.

use crate::finding::Severity;
use crate::press::{HeatRisk, Outcome};

/// Words and class of an outcome.
const fn outcome_words(outcome: Outcome) -> (&'static str, &'static str) {
    match outcome {
        Outcome::Stop => ("do not press", "stop"),
        Outcome::MoveFirst => ("move it first", "stop"),
        Outcome::ClothAndTest => ("press cloth and test", "care"),
        Outcome::Go => ("within its limit", "fine"),
    }
}

/// Words and class of a risk: a layer whose limit lies below the plate is safe only because it is not there when the press
/// closes.
pub(crate) fn risk_words(risk: &HeatRisk) -> (&'static str, &'static str) {
    let (words, class) = outcome_words(risk.outcome);
    let away = risk.outcome == Outcome::Go && risk.limit < risk.press;
    (if away { "safe only out of the way: keep to the order of work" } else { words }, class)
}

/// Class of a severity.
pub(crate) const fn severity_class(severity: Severity) -> &'static str {
    match severity {
        Severity::StopsTheJob => "stop",
        Severity::LookAtThis => "care",
        Severity::FixedForYou => "fine",
    }
}
