//! The press schedule: order of work, then every closure as a box to tick, layer by layer.

use super::compose::{Before, Composer, READ, Section};
use super::tick_box::tick_box;
use crate::geometry::Point;
use crate::place::Garments;
use crate::plan::Plan;
use crate::press::{Closure, PressKind, PressedFilm, films_in_words};
use crate::quantity::Seconds;
use crate::write::drawing::pdf::Part;
use crate::write::drawing::{Drawing, Mark, Pen, Words};
use crate::write::figures::{counted, heat};
use crate::write::lettering::{self, Weight};
use crate::write::views::titled;
use crate::write::{shopping, style};

/// Height of one box to tick.
const CELL: f64 = 7.4;
/// Rows of boxes that go over to the next page together: a single one there is easily missed.
const TOGETHER: usize = 3;

pub(crate) fn section(plan: &Plan) -> Section {
    let intro = if plan.press.closures.is_empty() {
        "Nothing is pressed in this job: the pieces are sewn down, in this order of work.".to_owned()
    } else {
        format!(
            "{}, {} in all with handling{}, at {}. Tick each closure as it is done; the map that follows shows where the \
             plate comes down.",
            counted(plan.press.closures.len(), "closure", "closures"),
            plan.press.total,
            match plan.job.garments {
                Garments::One => String::new(),
                Garments::MirroredPair => format!(
                    ", for this one of the pair ({} and {} for both)",
                    counted(plan.at_press.closures(), "closure", "closures"),
                    plan.at_press.total()
                ),
            },
            plan.press.places_in_words()
        )
    };
    let mut composer = Composer::new(&titled(plan, "Press schedule"), &intro);
    if !plan.press.order_of_work.is_empty() {
        composer.heading("Order of work");
        composer.list(Before::Box, &plan.press.order_of_work);
    }
    for run in runs(&plan.press.closures) {
        self::run(&mut composer, plan, run);
    }
    composer.finish()
}

/// Neighbours in working order that are pressed alike, with one film for each motif.
fn runs(closures: &[Closure]) -> Vec<&[Closure]> {
    let same = |x: f64, y: f64| (x - y).abs() < 0.05;
    let alike = |a: &Closure, b: &Closure| {
        a.layer == b.layer
            && a.kind == b.kind
            && same(a.temperature.get(), b.temperature.get())
            && (same(a.seconds.get(), b.seconds.get()) || (a.part.is_some() && b.part.is_some()))
    };
    let agree = |run: &[Closure], next: &Closure| {
        let other = |film: &PressedFilm| next.films.iter().any(|own| own.motif == film.motif && own != film);
        !run.iter().flat_map(|closure| &closure.films).any(other)
    };
    let mut found = Vec::new();
    let mut from = 0;
    for to in 1..=closures.len() {
        let goes_on =
            to < closures.len() && alike(&closures[to - 1], &closures[to]) && agree(&closures[from..to], &closures[to]);
        if !goes_on {
            found.push(&closures[from..to]);
            from = to;
        }
    }
    found
}

fn run(composer: &mut Composer, plan: &Plan, run: &[Closure]) {
    let Some(first) = run.first() else { return };
    let columns = columns(composer.width(), run);
    let together = run.len().div_ceil(columns).min(TOGETHER);
    composer.keep(style::HEAD * 3.0 + READ * 2.0 + CELL * together as f64);
    let films = films(plan, run);
    let of = if films.is_empty() { String::new() } else { format!("Film: {films}. ") };
    composer.heading(&format!("Round {}: {}", first.layer, kind_words(first.kind)));
    let each = run.iter().all(|closure| (closure.seconds.get() - first.seconds.get()).abs() < 0.05);
    let time = if each {
        format!("{} each from closure to closure", first.seconds)
    } else {
        format!("{} in all", run.iter().map(|closure| closure.seconds).sum::<Seconds>())
    };
    let closures = counted(run.len(), "closure", "closures");
    composer.note(&format!("{of}{closures} at {}, {time}.", heat(first.temperature)));
    boxes(composer, run, columns);
}

const fn kind_words(kind: PressKind) -> &'static str {
    match kind {
        PressKind::Tack => "tack, a short press before the next layer",
        PressKind::Full => "full press",
        PressKind::Second => "second press, under cover",
    }
}

/// Every film of a run, with the motifs it belongs to: `gold (old gold, glitter) on key; green (smooth) on leaf`.
fn films(plan: &Plan, run: &[Closure]) -> String {
    let call = |key: &str| {
        let words = plan.films.iter().find(|film| film.key == key).map(shopping::film_words).unwrap_or_default();
        let more = words.strip_prefix(key).and_then(|more| more.strip_prefix(", "));
        more.map_or_else(|| key.to_owned(), |more| format!("{key} ({more})"))
    };
    films_in_words(run.iter().flat_map(|closure| &closure.films), call)
}

/// The motifs of a closure.
fn text(closure: &Closure) -> String {
    closure.placements.join(", ")
}

/// As many columns as the longest words leave room for.
fn columns(width: f64, run: &[Closure]) -> usize {
    let widest = run.iter().map(|closure| lettering::width(&text(closure), READ, Weight::Regular)).fold(0.0, f64::max);
    super::compose::count(width / (widest + 19.0)).clamp(1, 8)
}

fn boxes(composer: &mut Composer, run: &[Closure], columns: usize) {
    let width = composer.width();
    let cell = width / columns as f64;
    let rows = run.len().div_ceil(columns);
    for (n, row) in run.chunks(columns).enumerate() {
        let left = rows - n;
        composer.keep(CELL * if left <= TOGETHER { left as f64 } else { 1.0 });
        let y = composer.y();
        for (k, closure) in row.iter().enumerate() {
            let x = k as f64 * cell;
            let base = y + CELL * 0.66;
            let number = Words::new(closure.number.to_string(), (x + READ * 1.4, base)).size(READ).bold();
            let after = (x + READ * 1.4 + 9.5, base);
            let motifs = lettering::fitted(&text(closure), READ, Weight::Regular, cell - READ * 1.4 - 11.0);
            let lines = vec![number, Words::new(motifs, after).size(READ)];
            composer.push(Part::Item { label: vec![tick_box(Point::new(x, base), READ)], lines });
        }
        let mut rule = Drawing::new(0.0, 0.0, "");
        rule.line((0.0, y + CELL), (width, y + CELL), Pen::new(style::RULE, style::HAIRLINE));
        composer.furnish(rule.marks.into_iter().collect::<Vec<Mark>>());
        composer.space(CELL);
    }
    composer.space(3.0);
}
