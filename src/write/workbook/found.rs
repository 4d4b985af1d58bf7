//! What was found in the drawings and the job, what was taken for granted, and why the band is set out as it is.

use super::compose::{Before, Composer, Section};
use super::table::{Cell, Column, Table};
use crate::finding::{Finding, Severity};
use crate::plan::Plan;
use crate::write::figures::both;
use crate::write::style;

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        "Found and assumed",
        "Read this before you buy or cut: what was found in the drawings, what was taken for granted, and why the motifs \
         stand where they do.",
    );
    findings(&mut composer, plan);
    clashes(&mut composer, plan);
    assumptions(&mut composer, plan);
    for band in plan.setting.bands.iter().filter(|band| !band.reasons.is_empty()) {
        composer.heading(&format!("{}: why it is set out so", band.name));
        composer.list(Before::Dot, &band.reasons);
        if !band.remedies.is_empty() {
            composer.paragraph("What else could be done, the least change first:");
            let remedies: Vec<&str> = band.remedies.iter().map(|remedy| remedy.say.as_str()).collect();
            composer.list(Before::Dot, &remedies);
        }
    }
    composer.finish()
}

fn findings(composer: &mut Composer, plan: &Plan) {
    composer.heading("Found");
    if plan.findings.is_empty() {
        composer.paragraph("Nothing that needs your eye.");
        return;
    }
    let columns = vec![
        Column::left("Weight", 22.0),
        Column::left("Where", 34.0),
        Column::left("What was found", 70.0),
        Column::left("What was done, or what to do", 64.0),
    ];
    let mut table = Table::new("Findings with their weight, place and remedy", columns);
    for finding in &plan.findings {
        let ink = match finding.severity {
            Severity::StopsTheJob => style::STOP,
            Severity::LookAtThis => style::CARE,
            Severity::FixedForYou => style::FINE,
        };
        table.row(vec![
            Cell::Inked(finding.severity.words().to_owned(), ink),
            place(finding).into(),
            finding.say.as_str().into(),
            finding.advice.as_str().into(),
        ]);
    }
    composer.table(&table);
}

fn place(finding: &Finding) -> String {
    let Some(place) = &finding.place else { return "the job".to_owned() };
    match place.line {
        Some(line) => format!("{}, {}, line {line}", place.drawing, place.element),
        None => format!("{}, {}", place.drawing, place.element),
    }
}

fn clashes(composer: &mut Composer, plan: &Plan) {
    if plan.setting.bands.iter().all(|band| band.clashes.is_empty()) {
        return;
    }
    composer.heading("Too near");
    let columns = vec![
        Column::left("Motif", 30.0),
        Column::left("Near what", 60.0),
        Column::right("Free between them", 50.0),
        Column::right("Asked for", 50.0),
    ];
    let mut table = Table::new("Motifs that stand too near a seam, an opening or an edge", columns);
    for clash in plan.setting.bands.iter().flat_map(|band| &band.clashes) {
        let free =
            if clash.clear.get() < 0.0 { format!("{} across it", both(clash.clear.abs())) } else { both(clash.clear) };
        table.row(vec![
            Cell::Strong(clash.placement.clone()),
            clash.with.as_str().into(),
            free.into(),
            both(clash.wanted).into(),
        ]);
    }
    composer.table(&table);
}

fn assumptions(composer: &mut Composer, plan: &Plan) {
    composer.heading("Taken for granted");
    if plan.assumptions.is_empty() {
        composer.paragraph("Nothing: the job says everything.");
        return;
    }
    composer.note(
        "The last column is the line of the job file that changes it; numbers in brackets stand in docs/sources.md.",
    );
    let columns = vec![Column::left("What", 46.0), Column::left("Taken as", 94.0), Column::left("Key", 50.0)];
    let mut table = Table::new("Assumptions with the key of the job file that changes each", columns);
    for assumption in &plan.assumptions {
        table.row(vec![
            Cell::Strong(assumption.about.clone()),
            assumption.taken.as_str().into(),
            assumption.key.as_str().into(),
        ]);
    }
    composer.table(&table);
}
