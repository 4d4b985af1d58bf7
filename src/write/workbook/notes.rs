//! Findings, assumptions and cautions.

use super::setter::Setter;
use crate::finding::Severity;
use crate::plan::Plan;
use crate::write::drawing::Words;
use crate::write::page::rows;
use crate::write::style;

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Findings and assumptions");
    setter.section("What was found");
    if plan.findings.is_empty() {
        setter.paragraph("Nothing to report about the drawings or the job.");
    }
    for finding in &plan.findings {
        let row = rows::finding(finding);
        let ink = match finding.severity {
            Severity::StopsTheJob => style::STOP,
            Severity::LookAtThis => style::CARE,
            Severity::FixedForYou => style::FINE,
        };
        setter.keep(20.0);
        setter.styled(&Words::new(row.severity, (0.0, 0.0)).bold().ink(ink));
        setter.paragraph(&format!("{} {}", row.say, row.advice));
        if !row.place.is_empty() {
            setter.small(&row.place);
        }
    }
    setter.section("What was taken for granted");
    let assumptions: Vec<String> = plan
        .assumptions
        .iter()
        .map(|assumption| {
            let key = if assumption.key.is_empty() { String::new() } else { format!(" (change: {})", assumption.key) };
            format!("{}: {}{key}", assumption.about, assumption.taken)
        })
        .collect();
    if assumptions.is_empty() {
        setter.paragraph("Nothing: the job says it all.");
    }
    setter.list("•", &assumptions);
    setter.section("Cautions");
    setter.list("•", &CAUTIONS);
}

/// What anybody at a hot plate must know; the same on the page.
pub(crate) const CAUTIONS: [&str; 6] = [
    "A hot plate burns skin at once and cloth a moment later. Keep hands, children and pets away, never leave it on and \
     unwatched, let it cool before it is moved.",
    "Press a test piece first, on a scrap of the same cloth with the same layers under it, let it cool, and look at both \
     sides.",
    "The film maker's sheet, the machine's manual and the care label come before anything printed here; so do local rules \
     for working with hot tools.",
    "Some films and cloths give off fumes when overheated: air the room, and stop at any smell of burning.",
    "Print pages at 100 %, without fitting to the page, and measure the check line before you trust a template.",
    "Cut one test motif and measure it before you cut a whole sheet.",
];
