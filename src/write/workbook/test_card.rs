//! The test card: what to try on a scrap before anything else, and where to write what happened.

use super::compose::{Before, Composer, Section};
use super::table::{Cell, Column, Table};
use kurbo::Size;

use crate::art::Motif;
use crate::geometry::{Affine, Rect};
use crate::plan::Plan;
use crate::press::test_card::BOXES;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::heat;
use crate::write::lettering::{self, Weight};
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
        "Press a test piece on a scrap of the same cloth, with the same layers under it, before anything else. The lowest \
         number that holds without a mark is your setting.",
    );
    let tests: u32 = plan.pieces.kinds.iter().map(|kind| kind.tests).sum();
    let steps = [
        if tests > 0 {
            "Cut the test motif of the first sheet and measure it: its size is printed below."
        } else {
            "The job cuts no test motif: test with an off-cut of each film, and measure the first motif that is cut; its size is \
             printed below."
        },
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
        let plate = step.map_or(Cell::Blank, |step| {
            let at = heat(step.temperature);
            if step.plan_for.is_empty() { Cell::Words(at) } else { Cell::Strong(at) }
        });
        let seconds = step.map_or(Cell::Blank, |step| Cell::Words(format!("{:.0} s", step.dwell.get())));
        let seen = BOXES.iter().map(|_| Cell::Blank);
        table.row([Cell::Strong(k.to_string()), plate, seconds].into_iter().chain(seen).collect());
    }
    composer.table(&table);
    let planned = ladder.iter().filter(|swatch| !swatch.plan_for.is_empty());
    for swatch in planned {
        composer.note(&format!(
            "Test {} is the setting of this plan for {}: {} for {}.",
            swatch.number,
            swatch.plan_for.join(", "),
            heat(swatch.temperature),
            swatch.dwell
        ));
    }
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

/// Free room between motifs at full size, mm.
const BETWEEN: f64 = 6.0;

/// The motifs at full size, to lay the test pieces on: side by side as far as they fit.
fn motifs(composer: &mut Composer, plan: &Plan) {
    let mut row: Vec<&Motif> = Vec::new();
    let width = |row: &[&Motif]| row.iter().map(|motif| framed(motif).width).sum::<f64>() + BETWEEN * row.len() as f64;
    for motif in plan.motifs.values() {
        let size = framed(motif);
        if size.width > composer.width() || size.height > composer.whole_room() {
            composer.note(&format!("{} is too large to be shown here at full size.", motif.name));
            continue;
        }
        if width(&row) + size.width > composer.width() {
            set_row(composer, &std::mem::take(&mut row));
        }
        row.push(motif);
    }
    set_row(composer, &row);
}

/// Room of a motif with its frame and its caption.
fn framed(motif: &Motif) -> Size {
    Size::new((motif.width.get() + 10.0).max(caption_width(motif)), motif.height.get() + 16.0)
}

fn caption(motif: &Motif) -> String {
    format!("{}, full size: {} × {}", motif.name, motif.width, motif.height)
}

fn caption_width(motif: &Motif) -> f64 {
    lettering::width(&caption(motif), style::SMALL, Weight::Regular)
}

fn set_row(composer: &mut Composer, row: &[&Motif]) {
    let sizes: Vec<Size> = row.iter().map(|motif| framed(motif)).collect();
    let Some(height) = sizes.iter().map(|size| size.height).reduce(f64::max) else { return };
    let width = sizes.iter().map(|size| size.width).sum::<f64>() + BETWEEN * (row.len() as f64 - 1.0);
    let says: Vec<String> = row.iter().map(|motif| caption(motif)).collect();
    let mut paper = Drawing::new(width, height, format!("{}, as seen on the garment.", says.join("; ")));
    let mut x = 0.0;
    for (motif, size) in row.iter().zip(sizes) {
        let frame = Rect::new(x + 0.2, 0.2, x + size.width - 0.2, size.height - 6.0);
        paper.rect(frame, None, Some(Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH)));
        motif_paint::paint(&mut paper, motif, Affine::translate(frame.center().to_vec2()));
        let at = (x + size.width / 2.0, size.height - 1.6);
        let words = Words::new(caption(motif), at).size(style::SMALL).ink(style::SOFT);
        paper.words(words.anchor(Anchor::Middle));
        x += size.width + BETWEEN;
    }
    composer.true_figure(paper);
}
