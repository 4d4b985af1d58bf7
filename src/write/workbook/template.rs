//! Templates at full size: one repeat to walk along the hem, a tick strip, and the whole band tiled over pages.
//!
//! The band is curved and pages are not, so every page shows one stretch of hem turned level; neighbouring pages meet on
//! match lines square to the hem. Paper turns where it is joined, and the joined pages give the band's true shape.

use super::cover::FRONT;
use super::setter::{DEPTH, MEASURE, Setter};
use super::strip;
use super::tile::{self, Join, Stretch};
use crate::geometry::{Point, Rect};
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::both;
use crate::write::style;
use crate::write::views::hem_flat;

/// Longest stretch of hem on one page: the text block less the strips that go under the neighbours.
const STRETCH: f64 = MEASURE - 2.0 * tile::OVERLAP - 2.0;
/// Greatest height of the band on one page.
const HEIGHT: f64 = DEPTH - 24.0;
/// More pages than this nobody joins; 200 pages are 33 m of hem.
const MOST_PAGES: usize = 200;

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    masters(setter, plan);
    strip::set(setter, plan);
    tiles(setter, plan);
}

/// One repeat of each band, where it fits a page.
fn masters(setter: &mut Setter, plan: &Plan) {
    let wanted: Vec<(&BandSetting, Stretch)> =
        plan.setting.bands.iter().filter_map(|band| Some((band, one_repeat(plan, band)?))).collect();
    if wanted.is_empty() {
        return;
    }
    setter.chapter("One repeat at full size");
    setter.paragraph(
        "For a hem whose repeats are all alike: lay the page under or over the hem, lower edge on the hem, mark the motif, \
         then walk it along so that the left line falls where the right line was. Check every few repeats against the \
         chalk list: small errors add up.",
    );
    for (k, (band, stretch)) in wanted.iter().enumerate() {
        if k > 0 {
            setter.new_page();
        }
        setter.small(&format!("{}: one repeat, {} along the hem", band.name, both(stretch.to - stretch.from)));
        let room = setter.room();
        let drawing = tile::draw(plan, stretch, room.min(stretch.high.get() + 30.0));
        setter.figure_scaled(drawing, 1.0);
    }
}

/// The repeat round the motif nearest the middle.
fn one_repeat(plan: &Plan, band: &BandSetting) -> Option<Stretch> {
    let line = plan.hem.line_at(band.height).ok()?;
    let nearest = band.placements.iter().min_by(|a, b| a.s_line.abs().total_cmp(&b.s_line.abs()))?;
    let half = band.repeat / 2.0;
    let (from, to) = (line.to_hem(nearest.s_line - half), line.to_hem(nearest.s_line + half));
    let high = hem_flat::band_top(plan);
    let fits = from < to && (to - from).get() <= STRETCH && high.get() <= HEIGHT;
    let repeat = |text: &str| Some(Join { label: text.to_owned(), page: None });
    fits.then(|| Stretch { from, to, low: Mm::ZERO, high, left: repeat("repeat"), right: repeat("repeat") })
}

/// The whole band, page by page.
fn tiles(setter: &mut Setter, plan: &Plan) {
    let (start, end) = plan.hem.span();
    let top = hem_flat::band_top(plan);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a small positive number")]
    let parts = |length: f64, most: f64| (length / most).ceil().clamp(1.0, 1.0e6) as usize;
    let (columns, rows) = (parts((end - start).get(), STRETCH), parts(top.get(), HEIGHT));
    setter.chapter("The whole band at full size");
    if columns * rows > MOST_PAGES {
        setter.paragraph(&format!(
            "The band would take {} pages. Use the one-repeat page, the tick strip and the chalk list instead.",
            columns * rows
        ));
        return;
    }
    setter.paragraph(
        "Print at 100 % and measure the check line on each page. Trim the right edge of each page along its match line, lay \
         it on the strip beyond the next page's match line so that letters meet, and tape. Where the hem curves, the pages \
         fan out: that is right.",
    );
    let first = setter.count() + FRONT + 1;
    setter.figure(assembly(plan, columns, rows, first));
    let each = (end - start) / columns as f64;
    let step = top / rows as f64;
    for row in 0..rows {
        for column in 0..columns {
            let closed = plan.hem.is_closed();
            let page = |column: usize| first + row * columns + column;
            let join = |boundary: usize, neighbour: Option<usize>| {
                neighbour.map(|column| Join { label: letters(boundary), page: Some(page(column)) })
            };
            let before = if column > 0 { Some(column - 1) } else { closed.then_some(columns - 1) };
            let after = if column + 1 < columns { Some(column + 1) } else { closed.then_some(0) };
            let stretch = Stretch {
                from: start + each * column as f64,
                to: start + each * (column + 1) as f64,
                low: step * row as f64,
                high: step * (row + 1) as f64,
                left: join(column, before.filter(|other| *other != column)),
                right: join((column + 1) % columns, after.filter(|other| *other != column)),
            };
            setter.new_page();
            setter.figure_scaled(tile::draw(plan, &stretch, DEPTH), 1.0);
        }
    }
}

/// Where each page goes: a chain of boxes with the letters between them.
fn assembly(plan: &Plan, columns: usize, rows: usize, first: usize) -> Drawing {
    const ACROSS: usize = 8;
    let (width, height, gap) = (19.0, 11.0, 4.2);
    let lines = columns.div_ceil(ACROSS);
    let total = columns * rows;
    let says = format!("How the {total} pages of the template join: page {first} to page {}.", first + total - 1);
    let mut drawing = Drawing::new(MEASURE, (lines * rows) as f64 * (height + 5.0) + 8.0, says);
    for row in 0..rows {
        for column in 0..columns {
            let x = (column % ACROSS) as f64 * (width + gap) + gap;
            let y = (column / ACROSS + row * lines) as f64 * (height + 5.0) + 2.0;
            let rect = Rect::new(x, y, x + width, y + height);
            drawing.rect(rect, Some(style::CLOTH), Some(Pen::new(style::TEXT, style::THIN)));
            let page = Words::new(format!("page {}", first + row * columns + column), rect.center());
            drawing.words(page.size(style::SMALL).centred());
            let join = Words::new(letters(column), Point::new(x - gap / 2.0, rect.center().y));
            if column > 0 || plan.hem.is_closed() {
                drawing.words(join.size(style::SMALL).bold().ink(style::ACCENT).centred());
            }
        }
    }
    let note = if plan.hem.is_closed() { "the last page joins the first" } else { "from end to end" };
    let words = Words::new(note, (MEASURE, drawing.height - 1.5)).size(style::SMALL).ink(style::SOFT);
    drawing.words(words.anchor(Anchor::End));
    drawing
}

/// A, B, ... Z, AA, AB: letters without I and O, which read as figures.
pub(crate) fn letters(number: usize) -> String {
    const SIGNS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    let one = |k: usize| char::from(SIGNS[k % SIGNS.len()]);
    if number < SIGNS.len() {
        return one(number).to_string();
    }
    format!("{}{}", one(number / SIGNS.len() - 1), one(number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_the_alphabet_and_never_repeat() {
        let all: Vec<String> = (0..200).map(letters).collect();
        let mut unique = all.clone();
        unique.sort();
        unique.dedup();
        assert_eq!(unique.len(), all.len());
        assert_eq!((all[0].as_str(), all[24].as_str()), ("A", "AA"));
    }
}
