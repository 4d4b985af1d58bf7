//! At the press: heat risks, order of work, what to move out of the way, schedule, checklist, test card.

use super::setter::{Column, MEASURE, Setter};
use crate::geometry::{Affine, Point, Rect};
use crate::plan::Plan;
use crate::press::ZoneState;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::page::{press_lead, rows};
use crate::write::style;
use crate::write::views::{hem_map, motif_paint};

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Heat risks");
    setter.paragraph(
        "Nothing about heat is promised here. The film maker's sheet and the care label come first; press a test piece on \
         a scrap of the same cloth before anything else.",
    );
    if plan.risks.is_empty() {
        setter.paragraph("No layer under the plate has a known limit below the press temperature. Test all the same.");
    }
    for risk in &plan.risks {
        let row = rows::risk(risk);
        let ink = style::outcome_ink(risk.outcome);
        setter.keep(30.0);
        setter.styled(&Words::new(format!("{}: {}", row.outcome, row.material), (0.0, 0.0)).bold().ink(ink));
        setter.paragraph(&row.say);
        setter.paragraph(&format!("Do: {}", row.advice));
        setter.small(&row.figures);
        setter.space(2.0);
    }
    setter.chapter("Order of work");
    setter.list("□", &plan.press.order_of_work);
    away(setter, plan);
    setter.chapter("At the press");
    setter.paragraph(&press_lead(plan));
    if !plan.press.checklist.is_empty() {
        setter.section("Checklist");
        setter.list("□", &plan.press.checklist);
    }
    setter.section("Schedule");
    schedule(setter, plan);
    test_card(setter, plan);
}

/// Which zones are moved, and a map of every place of the plate.
fn away(setter: &mut Setter, plan: &Plan) {
    setter.chapter("What must be out of the way");
    let in_place: Vec<String> = plan
        .job
        .zones
        .iter()
        .map(|zone| format!("{}: {} when the press closes, as the job says", zone.name, state(zone.state)))
        .collect();
    if in_place.is_empty() {
        setter.paragraph("The job names no braid, facing, lace or other layer in the band.");
    } else {
        setter.list("□", &in_place);
    }
    setter.paragraph(
        "The map shows where the plate comes down, with the numbers of the closures. Pin or fold away whatever a risk \
         names wherever a plate covers it, and check by hand before each closure that nothing has slipped back.",
    );
    setter.figure(hem_map::draw(plan, hem_map::Shows::Plates));
}

fn schedule(setter: &mut Setter, plan: &Plan) {
    let columns = [
        Column::right("No.", 12.0),
        Column::left("Layer", 26.0),
        Column::left("Motifs", 66.0),
        Column::left("Middle of plate along the hem", 42.0),
        Column::right("Plate", 15.0),
        Column::right("In all", 15.0),
        Column::right("Done", 10.0),
    ];
    let cells: Vec<Vec<String>> = plan
        .press
        .closures
        .iter()
        .map(|closure| {
            let row = rows::closure(plan, closure);
            vec![row.number.to_string(), row.layer, row.motifs, row.place, row.heat, row.time, "□".to_owned()]
        })
        .collect();
    setter.table(&columns, &cells);
}

/// A card for six tests, and the first motif at full size to lay the test piece on.
fn test_card(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Test card");
    setter.paragraph(
        "Same cloth, same layers, same cover sheet. Press, let it cool, peel, look at both sides; then stretch it, and \
         wash a scrap if the garment will be washed. Write down what you did; the first row that holds is your setting.",
    );
    let columns = [
        Column::left("Test", 12.0),
        Column::left("Plate, °C", 24.0),
        Column::left("Seconds", 24.0),
        Column::left("Pressure", 28.0),
        Column::left("Layers under the plate", 44.0),
        Column::left("What was seen", 54.0),
    ];
    let temperature = plan.press.closures.first().map(|closure| format!("{:.0}", closure.temperature.get()));
    let first = vec!["1".to_owned(), temperature.unwrap_or_default(), String::new(), String::new(), String::new()];
    let mut rows = vec![[first, vec![String::new()]].concat()];
    rows.extend((2..=8).map(|k| [vec![k.to_string()], vec![String::new(); 5]].concat()));
    setter.tall_table(&columns, &rows);
    for motif in plan.motifs.values() {
        let (width, height) = (motif.width.get() + 8.0, motif.height.get() + 14.0);
        if width > MEASURE || height > super::setter::DEPTH - 10.0 {
            continue;
        }
        let says = format!("{} at full size, as seen on the garment.", motif.name);
        let mut drawing = Drawing::new(width, height, says);
        drawing.rect(
            Rect::new(0.2, 0.2, width - 0.2, height - 0.2),
            None,
            Some(Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH)),
        );
        let middle = Point::new(width / 2.0, 4.0 + motif.height.get() / 2.0);
        motif_paint::paint(&mut drawing, motif, Affine::translate(middle.to_vec2()));
        let words = Words::new(format!("{}, full size", motif.name), (width / 2.0, height - 3.0)).size(style::SMALL);
        drawing.words(words.ink(style::SOFT).anchor(Anchor::Middle));
        setter.figure_scaled(drawing, 1.0);
    }
}

/// The words for a zone's state.
pub(crate) const fn state(state: ZoneState) -> &'static str {
    match state {
        ZoneState::InPlace => "in place",
        ZoneState::FoldedAway => "folded away",
        ZoneState::SewnOnLater => "sewn on later",
    }
}
