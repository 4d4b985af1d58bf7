//! An inspection in words, as the terminal shows it.

use std::fmt::Write as _;

use crate::art::{Found, Inspection};
use crate::finding::{Place, Severity};
use crate::geometry::Point;
use crate::quantity::Mm;
use crate::write::figures::{counted, listed};
use crate::write::lettering;

/// Columns of the text: fits a terminal of usual width.
const COLUMNS: usize = 96;

/// The whole inspection as plain text, gravest findings first.
#[must_use]
pub fn text(inspection: &Inspection) -> String {
    let motif = &inspection.motif;
    let mut colours: Vec<String> = motif.layers.iter().map(|layer| layer.colour.to_string()).collect();
    colours.dedup();
    let mut text = format!(
        "{}: {} wide, {} high, {} ({})\n",
        inspection.file,
        motif.width,
        motif.height,
        counted(colours.len(), "colour", "colours"),
        listed(&colours)
    );
    for severity in [Severity::StopsTheJob, Severity::LookAtThis, Severity::FixedForYou] {
        let found: Vec<&Found> = inspection.found.iter().filter(|f| f.finding.severity == severity).collect();
        if !found.is_empty() {
            writeln!(text, "\n{}", severity.words()).expect("writing to a String cannot fail");
        }
        for found in found {
            text.push_str(&entry(found));
        }
    }
    text.push('\n');
    for overlap in &inspection.overlaps {
        let colour = |layer: usize| motif.layers.get(layer).map_or(String::new(), |layer| layer.colour.to_string());
        let by = Mm::new(overlap.least);
        writeln!(text, "{} lies over {} by {by} where it is least.", colour(overlap.upper), colour(overlap.lower))
            .expect("writing to a String cannot fail");
    }
    text.push_str(verdict(inspection));
    text.push('\n');
    text
}

const fn verdict_of(worst: Option<Severity>) -> &'static str {
    match worst {
        None => "Nothing to mend: ready to cut.",
        Some(Severity::FixedForYou) => "Ready to cut; look over what was fixed.",
        Some(Severity::LookAtThis) => "Look at the numbered places before cutting.",
        Some(Severity::StopsTheJob) => "Not fit to cut until what stops the job is mended.",
    }
}

fn verdict(inspection: &Inspection) -> &'static str {
    verdict_of(inspection.worst())
}

fn entry(found: &Found) -> String {
    let finding = &found.finding;
    let place = finding.place.as_ref().map(|place| format!(" ({})", place_words(place))).unwrap_or_default();
    let what = format!("{}. {}{place}", found.number, finding.say);
    let mut text = String::new();
    for (line, start) in
        wrapped(&what, COLUMNS - 6).into_iter().zip(std::iter::once("  ").chain(std::iter::repeat("     ")))
    {
        text.push_str(start);
        text.push_str(&line);
        text.push('\n');
    }
    for line in wrapped(&finding.advice, COLUMNS - 6) {
        text.push_str("     ");
        text.push_str(&line);
        text.push('\n');
    }
    text
}

/// `leaf-1, line 12; 31 mm below and 4 mm right of the middle`
pub(super) fn place_words(place: &Place) -> String {
    let mut words = place.element.clone();
    if let Some(line) = place.line {
        words.push_str(&format!(", line {line}"));
    }
    if let Some(at) = place.at {
        words.push_str(&format!("; {}", from_middle(at)));
    }
    words
}

fn from_middle(at: Point) -> String {
    let (across, down) = (at.x.round(), at.y.round());
    let side = |value: f64, less: &str, more: &str| {
        let way = if value < 0.0 { less } else { more };
        (value.abs() >= 1.0).then(|| format!("{:.0} mm {way}", value.abs()))
    };
    let parts: Vec<String> =
        [side(down, "above", "below"), side(across, "left of", "right of")].into_iter().flatten().collect();
    if parts.is_empty() { "at the middle".to_owned() } else { format!("{} the middle", parts.join(" and ")) }
}

/// Words broken into lines of at most so many characters; longer words are kept whole.
fn wrapped(words: &str, columns: usize) -> Vec<String> {
    let mut lines: Vec<String> = vec![String::new()];
    for word in words.split_whitespace() {
        let shown: String = word.chars().map(|c| if lettering::has(c) || !c.is_control() { c } else { '?' }).collect();
        match lines.last_mut() {
            Some(line) if line.is_empty() => line.push_str(&shown),
            Some(line) if line.chars().count() + 1 + shown.chars().count() <= columns => {
                line.push(' ');
                line.push_str(&shown);
            }
            _ => lines.push(shown),
        }
    }
    lines
}
