//! The test card: what to try on a scrap before anything else, and where to write what happened.

use super::compose::{Before, Composer, Section};
use super::table::{Cell, Column, Table};
use crate::geometry::{Affine, Rect};
use crate::plan::Plan;
use crate::press::test_card::BOXES;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::heat;
use crate::write::style;
use crate::write::swatches;
use crate::write::views::motif_paint;

/// Tests that the card has room for.
const TESTS: usize = 5;
/// Room to write a line by hand, mm.
const WRITING: f64 = 9.5;

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        "Test card",
        "Press a test piece on a scrap of the same cloth, with the same layers under it, before anything else. The first row \
         that holds is your setting.",
    );
    let steps = [
        "Cut the test motif of the first sheet and measure it: its size is printed below.",
        "Press, let it cool, peel; look at both sides of the cloth for shine, colour and the mark of the plate.",
        "Stretch the cloth, lift at an edge with a fingernail, and wash a scrap if the garment will be washed.",
        "Raise time before temperature, and change one thing at a time.",
    ];
    composer.list(Before::Number, &steps);
    ladder(&mut composer, plan);
    let heads = [("Test", 11.0), ("Plate", 29.0), ("Time", 12.0)];
    let columns = heads.into_iter().chain(BOXES.map(|head| (head, 27.0)));
    let columns = columns.map(|(head, width)| Column::left(head, width)).collect();
    let mut table = Table::new("Card for tests: plate, time, and what was seen", columns).least_height(WRITING);
    let ladder = &plan.press.test_card.swatches;
    for k in 1..=TESTS.max(ladder.len()) {
        let step = ladder.get(k - 1);
        let plate = step.map_or(Cell::Blank, |step| Cell::Words(heat(step.temperature)));
        let seconds = step.map_or(Cell::Blank, |step| Cell::Words(format!("{:.0} s", step.dwell.get())));
        let seen = BOXES.iter().map(|_| Cell::Blank);
        table.row([Cell::Strong(k.to_string()), plate, seconds].into_iter().chain(seen).collect());
    }
    composer.table(&table);
    motifs(&mut composer, plan);
    composer.finish()
}

/// What the ladder of settings is for, and what a test has shown already.
fn ladder(composer: &mut Composer, plan: &Plan) {
    let card = &plan.press.test_card;
    if let Some(tested) = &card.tested {
        composer.paragraph(tested);
    }
    if !card.stack.is_empty() {
        composer.paragraph(&format!("Under the plate, from the top: {}.", card.stack.join("; ")));
    }
    let cut_out = swatches::says(plan);
    if !cut_out.is_empty() {
        composer.paragraph(
            "Swatches, one of each film for each test: numbered on the pictures of the first sheets; cut them out with \
             scissors when the pieces are off the sheet.",
        );
        composer.list(Before::Dot, &cut_out);
    }
    composer.list(Before::Number, &card.how);
    composer.note(&plan.press.window.say);
    if !plan.press.window.trade.is_empty() {
        let points = plan.press.window.trade.iter().map(|(at, time)| format!("{} for {time}", heat(*at)));
        let points: Vec<String> = points.collect();
        composer.note(&format!("{}. {}", points.join("; "), plan.press.window.trade_note));
    }
    composer.list(Before::Dot, &plan.press.window.remedies);
}

/// Each motif at full size, to lay the test piece on.
fn motifs(composer: &mut Composer, plan: &Plan) {
    for motif in plan.motifs.values() {
        let (width, height) = (motif.width.get() + 10.0, motif.height.get() + 16.0);
        if width > composer.width() || height > composer.whole_room() {
            composer.note(&format!("{} is too large to be shown here at full size.", motif.name));
            continue;
        }
        let size = format!("{}, full size: {} × {}", motif.name, motif.width, motif.height);
        let mut paper = Drawing::new(width, height, format!("{size}, as seen on the garment."));
        let frame = Rect::new(0.2, 0.2, width - 0.2, height - 6.0);
        paper.rect(frame, None, Some(Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH)));
        motif_paint::paint(&mut paper, motif, Affine::translate(frame.center().to_vec2()));
        let words = Words::new(size, (width / 2.0, height - 1.6)).size(style::SMALL).ink(style::SOFT);
        paper.words(words.anchor(Anchor::Middle));
        composer.true_figure(paper);
    }
}
