//! The pictures of a plan, each a function from the plan to a drawing.

pub(crate) mod hem_flat;
pub(crate) mod hem_map;
pub(crate) mod hem_worn;
pub(crate) mod motif_paint;
pub(crate) mod plate;
pub(crate) mod seen_and_cut;
pub(crate) mod sheet;

use super::drawing::{Anchor, Drawing, Pen, Words};
use super::{lettering, style};
use crate::geometry::{Point, Rect, Vec2};
use crate::plan::{Plan, Shows};

/// Width of every picture in mm: fits A4 and Letter with a binding edge.
pub(crate) const WIDTH: f64 = 186.0;
/// Clear border inside a picture.
pub(crate) const BORDER: f64 = 6.0;

/// Title and subtitle at the top of a picture; returns the y below them.
pub(crate) fn heading(drawing: &mut Drawing, title: &str, sub: &str) -> f64 {
    let room = drawing.width - 2.0 * BORDER;
    let title = Words::new(title, (BORDER, BORDER + style::HEAD)).size(style::HEAD).bold();
    let y = drawing.paragraph(&title, room);
    let sub = Words::new(sub, (BORDER, y)).size(style::BODY).ink(style::SOFT);
    drawing.paragraph(&sub, room)
}

/// The title of papers and pictures that each one of a pair has of its own.
pub(crate) fn titled(plan: &Plan, title: &str) -> String {
    match plan.shows {
        Shows::One => title.to_owned(),
        Shows::LeftOfPair(_) => format!("{title}: left-hand one"),
        Shows::RightOfPair => format!("{title}: right-hand one"),
    }
}

/// A bar of a round length with its ends marked, its left end at a point; `scale` is paper mm for one mm of the thing.
pub(crate) fn scale_bar(drawing: &mut Drawing, at: Point, scale: f64) -> f64 {
    let round = [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0];
    let length = round.into_iter().rfind(|length| length * scale <= 42.0).unwrap_or(round[0]);
    let end = Point::new(at.x + length * scale, at.y);
    let pen = Pen::new(style::TEXT, style::THIN);
    drawing.line(at, end, pen);
    for x in [at.x, end.x] {
        drawing.line((x, at.y - 1.0), (x, at.y + 1.0), pen);
    }
    let words = Words::new(format!("{length:.0} mm"), (end.x + 1.6, at.y + style::SMALL * 0.36)).size(style::SMALL);
    let right = words.bounds().x1;
    drawing.words(words);
    right
}

/// Boxes already taken by labels; a new label is moved away step by step until it meets none.
#[derive(Clone, Debug, Default)]
pub(crate) struct Labels {
    taken: Vec<Rect>,
}

impl Labels {
    /// Sets words, moving them by `step` until they are free; gives up, and sets nothing, after a dozen steps.
    pub(crate) fn set(&mut self, drawing: &mut Drawing, mut words: Words, step: (f64, f64)) -> Option<Rect> {
        for _ in 0..12 {
            let bounds = words.bounds().inflate(0.5, 0.2);
            let inside = bounds.x0 >= 1.0 && bounds.x1 <= drawing.width - 1.0 && bounds.y0 >= 1.0;
            if inside && !self.taken.iter().any(|taken| overlaps(*taken, bounds)) {
                self.taken.push(bounds);
                drawing.words(words);
                return Some(bounds);
            }
            words.at.x += step.0;
            words.at.y += step.1;
        }
        None
    }

    /// The same with the words broken into lines of `room`, the block as a whole kept clear of what `step` leads away from.
    pub(crate) fn set_block(&mut self, drawing: &mut Drawing, words: &Words, room: f64, step: (f64, f64)) {
        let lines = lettering::lines(&words.text, words.size, words.weight, room);
        let leading = words.size * 1.2;
        let height = leading * (lines.len() as f64 - 1.0);
        let away = Vec2::new(step.0, step.1);
        let from = words.at + Vec2::new(0.0, away.normalize().y * height / 2.0);
        let block: Vec<Words> = (0..)
            .zip(lines)
            .map(|(k, text)| {
                let y = from.y - height / 2.0 + f64::from(k) * leading;
                Words { text, at: Point::new(from.x, y), ..words.clone() }
            })
            .collect();
        let Some(whole) = block.iter().map(Words::bounds).reduce(|a, b| a.union(b)) else { return };
        let at = |offset: f64| whole.inflate(0.8, 0.3) + away * offset;
        let free = |offset: f64| {
            let bounds = at(offset);
            let inside = bounds.x0 >= 0.5 && bounds.x1 <= drawing.width - 0.5;
            inside && !self.taken.iter().any(|taken| overlaps(*taken, bounds))
        };
        let Some(offset) = (0..14).map(f64::from).find(|offset| free(*offset)) else { return };
        self.taken.push(at(offset));
        for mut line in block {
            line.at += away * offset;
            drawing.words(line);
        }
    }
}

fn overlaps(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// A small filled sign before words in a legend; returns the x after the words.
pub(crate) fn legend_item(drawing: &mut Drawing, at: Point, fill: style::Ink, words: &str) -> f64 {
    let box_side = style::SMALL;
    let square = Rect::new(at.x, at.y - box_side * 0.86, at.x + box_side, at.y + box_side * 0.14);
    drawing.rect(square, Some(fill), Some(Pen::new(style::TEXT, style::HAIRLINE)));
    let words = Words::new(words, (at.x + box_side + 1.2, at.y)).size(style::SMALL).anchor(Anchor::Start);
    let right = words.bounds().x1;
    drawing.words(words);
    right + 4.0
}
