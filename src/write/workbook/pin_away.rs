//! What must be out of the way when the press closes: zones of the band, heat risks, and a map of every place of the plate.

use super::compose::{Composer, Section};
use super::table::{Cell, Column, Table};
use crate::plan::Plan;
use crate::press::ZoneState;
use crate::write::figures::{both, heat, runs};
use crate::write::gravity::risk_words;
use crate::write::style;
use crate::write::views::titled;
use crate::write::views::{hem_map, plate};

/// What the pictures of closures show of a hem that was measured again.
const AS_DRAFTED: &str = "The pictures of single closures are drawn on the hem as drafted. As it hung, motifs and seams beside the plate \
                          lie a little farther apart or nearer together; distances to measure are those of the chalk list and the map.";

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        &titled(plan, "Pin away before pressing"),
        "What lies under the plate and may not be heated. Pin or fold it away wherever the map shows a plate over it, and \
         feel with the hand before each closure that nothing has slipped back.",
    );
    risks(&mut composer, plan);
    zones(&mut composer, plan);
    for page in hem_map::pages(plan, hem_map::Shows::Plates, composer.whole_room() / 1.1) {
        composer.figure(page);
    }
    if plan.hem.as_hung().is_some() && !plan.press.map.kinds.is_empty() {
        composer.note(AS_DRAFTED);
    }
    for kind in &plan.press.map.kinds {
        composer.figure(plate::draw(kind));
    }
    composer.finish()
}

fn risks(composer: &mut Composer, plan: &Plan) {
    composer.heading("Heat risks");
    composer.note(
        "Nothing about heat is promised here: the film maker's sheet and the care label come first, and a test piece on \
         the same cloth comes before the garment.",
    );
    if plan.risks.is_empty() {
        composer
            .paragraph("No layer under the plate has a known limit below the press temperature. Test all the same.");
        return;
    }
    let columns = vec![
        Column::left("Layer", 40.0),
        Column::left("Limit, plate", 32.0),
        Column::left("Closures", 22.0),
        Column::left("What may happen, and what to do", 96.0),
    ];
    let mut table = Table::new("Heat risks with limits, closures and what to do", columns);
    for risk in &plan.risks {
        let words = format!("{}: {} {}", risk_words(risk).0, risk.say, risk.advice);
        table.row(vec![
            Cell::Inked(risk.layer.clone(), style::outcome_ink(risk.outcome)),
            format!("{}, plate {}", heat(risk.limit), heat(risk.press)).into(),
            runs(&risk.closures).into(),
            words.into(),
        ]);
    }
    composer.table(&table);
}

fn zones(composer: &mut Composer, plan: &Plan) {
    composer.heading("In the band");
    if plan.job.zones.is_empty() {
        composer.paragraph("The job names no braid, facing, lace or other layer in the band.");
        return;
    }
    let columns = vec![
        Column::left("", 7.0),
        Column::left("What", 40.0),
        Column::left("Above the hem", 50.0),
        Column::left("Along the hem", 56.0),
        Column::left("When the press closes", 37.0),
    ];
    let mut table = Table::new("Layers in the band, where they lie and where they are when the press closes", columns);
    for zone in &plan.job.zones {
        let along =
            zone.along.map_or_else(|| "all round".to_owned(), |(from, to)| format!("{} to {}", both(from), both(to)));
        table.row(vec![
            Cell::Tick,
            Cell::Strong(zone.name.clone()),
            format!("{} to {}", both(zone.heights.0), both(zone.heights.1)).into(),
            along.into(),
            Cell::Strong(state(zone.state).to_owned()),
        ]);
    }
    composer.table(&table);
}

/// The words for a zone's state.
pub(crate) const fn state(state: ZoneState) -> &'static str {
    match state {
        ZoneState::InPlace => "in place",
        ZoneState::FoldedAway => "folded away",
        ZoneState::SewnOnLater => "sewn on later",
    }
}
