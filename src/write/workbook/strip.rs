//! A long tick strip: the hem as a tape at full size, with a tick for every motif and seam, cut into pieces to join.

use super::setter::{MEASURE, Setter};
use super::template::letters;
use crate::geometry::{Point, Rect};
use crate::plan::Plan;
use crate::quantity::{Mm, mm};
use crate::write::drawing::{Drawing, Pen, Words};
use crate::write::style;

/// Length of hem on one piece; the rest of the text block is the tab under the next piece.
const PIECE: f64 = 172.0;
/// Height of one piece.
const HEIGHT: f64 = 17.0;
/// More pieces than this nobody joins: 35 m.
const MOST: usize = 200;

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    let (start, end) = plan.hem.span();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a small positive number")]
    let count = ((end - start).get() / PIECE).ceil().clamp(1.0, 1.0e6) as usize;
    if count > MOST {
        return;
    }
    setter.chapter("Tick strip");
    setter.paragraph(
        "Cut the strips out, lay each on the tab of the one before so that letters meet, and tape. Pin the strip along the \
         finished hem and mark at every tall tick. Small ticks are centimetres.",
    );
    for number in 0..count {
        let from = start + mm(PIECE) * number as f64;
        setter.figure_scaled(piece(plan, from, (from + mm(PIECE)).min(end), number, number + 1 == count), 1.0);
        setter.space(2.0);
    }
}

fn piece(plan: &Plan, from: Mm, to: Mm, number: usize, last: bool) -> Drawing {
    let says = format!("Tick strip, piece {}: hem from {from} to {to}.", number + 1);
    let mut drawing = Drawing::new(MEASURE, HEIGHT, says);
    let length = (to - from).get();
    let x = |s: Mm| (s - from).get() + 1.0;
    let edge = 3.5;
    let tab = if last { 0.0 } else { 10.0 };
    drawing.rect(Rect::new(1.0, edge, 1.0 + length, HEIGHT - 0.4), None, Some(Pen::new(style::TEXT, style::THIN)));
    if tab > 0.0 {
        let rect = Rect::new(1.0 + length, edge, 1.0 + length + tab, HEIGHT - 0.4);
        drawing.rect(rect, Some(style::TINT), Some(Pen::new(style::RULE, style::THIN)));
        let words = Words::new(letters(number + 1), Point::new(1.0 + length + tab / 2.0, HEIGHT / 2.0 + 3.5)).bold();
        drawing.words(words.ink(style::ACCENT).centred());
    }
    if number > 0 {
        let words = Words::new(letters(number), Point::new(4.6, HEIGHT - 4.0)).bold();
        drawing.words(words.ink(style::ACCENT).centred());
    }
    centimetres(&mut drawing, from, to, &x, edge);
    for mark in plan.hem.marks() {
        if mark.s_hem >= from && mark.s_hem <= to {
            let at = x(mark.s_hem);
            drawing.line((at, edge), (at, HEIGHT - 0.4), Pen::new(style::SOFT, style::THIN).dashed(style::HELP_DASH));
            let words = Words::new(mark.name.clone(), Point::new(at, 1.6)).size(style::SMALL).bold().centred();
            drawing.words(kept_inside(words.ink(style::SOFT)));
        }
    }
    for placement in plan.setting.bands.iter().flat_map(|band| &band.placements) {
        if placement.s_hem >= from && (placement.s_hem < to || last && placement.s_hem <= to + mm(0.001)) {
            let at = x(placement.s_hem.min(to));
            drawing.line((at, edge), (at, HEIGHT - 5.2), Pen::new(style::ACCENT, style::FIRM));
            let words =
                Words::new(placement.id.clone(), Point::new(at, HEIGHT - 2.8)).size(style::BODY).bold().centred();
            drawing.words(kept_inside(words.ink(style::ACCENT)));
        }
    }
    drawing
}

/// A tick for every centimetre from the middle, a taller one and its figure for every ten.
fn centimetres(drawing: &mut Drawing, from: Mm, to: Mm, x: &dyn Fn(Mm) -> f64, edge: f64) {
    #[expect(clippy::cast_possible_truncation, reason = "strips are made for hems under 35 m")]
    let (first, last) = ((from.get() / 10.0).ceil() as i32, (to.get() / 10.0).floor() as i32);
    for k in first..=last {
        let at = x(mm(f64::from(k) * 10.0));
        let tall = k % 10 == 0;
        let tick = if tall {
            3.2
        } else if k % 5 == 0 {
            2.4
        } else {
            1.6
        };
        drawing.line((at, edge), (at, edge + tick), Pen::new(style::TEXT, style::HAIRLINE));
        if tall {
            let words =
                Words::new((k * 10).abs().to_string(), Point::new(at + 0.8, edge + 5.0)).size(style::SMALL * 0.85);
            drawing.words(kept_inside(words.ink(style::SOFT)));
        }
    }
}

fn kept_inside(mut words: Words) -> Words {
    let bounds = words.bounds();
    words.at.x += (0.5 - bounds.x0).max(0.0) - (bounds.x1 - (MEASURE - 0.5)).max(0.0);
    words
}
