//! Cover with the numbers that matter, and contents.

use super::setter::{MEASURE, Setter, TOP, size};
use crate::geometry::{Point, Rect};
use crate::plan::Plan;
use crate::write::drawing::pdf::{Page, Part};
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::lettering::{self, Weight};
use crate::write::page::{five, lead};
use crate::write::{style, views};

/// How many pages come before the first chapter.
pub(crate) const FRONT: usize = 2;

/// Cover and contents; `chapters` hold the page within the body each begins on.
pub(crate) fn pages(plan: &Plan, chapters: &[(String, usize)]) -> Vec<Page> {
    vec![cover(plan), contents(plan, chapters)]
}

fn cover(plan: &Plan) -> Page {
    let paper = size(plan.job.paper);
    let left = Setter::new(plan.job.paper).left();
    let mut page = Page { paper, parts: Vec::new(), furniture: Vec::new(), bookmark: Some("Cover".to_owned()) };
    let mut rules = Drawing::new(0.0, 0.0, "");
    let over = Words::new("Workbook", (left, TOP + 8.0)).size(style::HEAD).bold().ink(style::ACCENT);
    page.parts.push(Part::Text(vec![over]));
    let mut y = TOP + 19.0;
    let size = 10.0;
    let mut lines = Vec::new();
    for text in lettering::lines(&plan.job.name, size, Weight::Bold, MEASURE).into_iter().take(3) {
        lines.push(Words::new(text, (left, y)).size(size).bold());
        y += size * 1.25;
    }
    page.parts.push(Part::Heading { level: 1, lines });
    let words = Words::new(lead(plan), (left, y - 2.0)).size(style::HEAD).ink(style::SOFT);
    page.parts.push(Part::Text(vec![words]));
    y += 4.0;
    rules.line((left, y), (left + MEASURE, y), Pen::new(style::ACCENT, style::BOLD));
    y = numbers(&mut page, &mut rules, plan, left, y + 6.0) + 6.0;
    if let Some(picture) = views::hem_worn::draw(plan).or_else(|| views::hem_flat::draw(plan)) {
        let scale = (MEASURE / picture.width).min((super::setter::BOTTOM - y) / picture.height).min(1.0);
        let x = left + (MEASURE - picture.width * scale) / 2.0;
        let mut figure = Drawing::new(0.0, 0.0, "");
        let says = picture.says.clone();
        figure.inset(picture, Point::new(x, y), scale);
        page.parts.push(Part::Figure { says, marks: figure.marks });
    }
    page.furniture.extend(rules.marks);
    page
}

/// The five numbers in a row of boxes; returns the y below them.
fn numbers(page: &mut Page, rules: &mut Drawing, plan: &Plan, left: f64, y: f64) -> f64 {
    let gap = 3.0;
    let numbers = five(plan);
    let width = (MEASURE - gap * (numbers.len() as f64 - 1.0)) / numbers.len() as f64;
    let height = 24.0;
    for (k, number) in numbers.iter().enumerate() {
        let x = left + k as f64 * (width + gap);
        rules.rect(Rect::new(x, y, x + width, y + height), Some(style::TINT), None);
        let room = width - 4.0;
        let mut lines: Vec<Words> = Vec::new();
        let mut at = y + 4.4;
        for text in lettering::lines(number.name, style::SMALL, Weight::Regular, room).into_iter().take(2) {
            lines.push(Words::new(text, (x + 2.0, at)).size(style::SMALL).ink(style::SOFT));
            at += style::SMALL * 1.25;
        }
        let mut size = 5.0;
        while size > style::BODY && lettering::width(&number.value, size, Weight::Bold) > room {
            size -= 0.2;
        }
        lines.push(Words::new(number.value.clone(), (x + 2.0, y + 15.6)).size(size).bold().ink(style::ACCENT));
        let also = lettering::fitted(&number.also, style::SMALL, Weight::Regular, room);
        lines.push(Words::new(also, (x + 2.0, y + 21.0)).size(style::SMALL).ink(style::SOFT));
        page.parts.push(Part::Text(lines));
    }
    y + height
}

fn contents(plan: &Plan, chapters: &[(String, usize)]) -> Page {
    let paper = size(plan.job.paper);
    let left = Setter::new(plan.job.paper).left();
    let mut page = Page { paper, parts: Vec::new(), furniture: Vec::new(), bookmark: Some("Contents".to_owned()) };
    let title = Words::new("Contents", (left, TOP + style::TITLE * 0.8)).size(style::TITLE).bold();
    page.parts.push(Part::Heading { level: 1, lines: vec![title] });
    let mut rules = Drawing::new(0.0, 0.0, "");
    let mut y = TOP + 18.0;
    for (name, number) in chapters {
        let to = number + FRONT;
        page.parts.push(Part::Link { line: Words::new(name.clone(), (left, y)), page: to });
        let number = Words::new((to + 1).to_string(), (left + MEASURE, y)).anchor(Anchor::End);
        page.parts.push(Part::Text(vec![number]));
        rules.line((left, y + 2.2), (left + MEASURE, y + 2.2), Pen::new(style::RULE, style::HAIRLINE));
        y += 8.0;
    }
    y += 6.0;
    let notes = [
        "Print at 100 %, on A4 or Letter, and measure the check line at the foot of a page before you trust a length.",
        "Print only the chapters you need: the last one, the template at full size, has the most pages.",
        "Left and right are the wearer's. CF is centre front, CB centre back.",
        "Press a test piece first. The film maker's sheet and the care label come before anything printed here.",
    ];
    for note in notes {
        let lines = lettering::lines(note, style::BODY, Weight::Regular, MEASURE);
        let mut set = Vec::new();
        for text in lines {
            set.push(Words::new(text, (left, y)));
            y += style::BODY * style::LEADING;
        }
        page.parts.push(Part::Text(set));
        y += 1.6;
    }
    page.furniture.extend(rules.marks);
    page
}
