//! A drawing with everything that was found in it, numbered where it is and told below.

use super::{BORDER, WIDTH, heading, motif_paint, scale_bar};
use crate::art::{Found, Inspection};
use crate::finding::Severity;
use crate::geometry::{Affine, Point, Vec2};
use crate::write::drawing::{Drawing, Pen, Words};
use crate::write::style;

/// Greatest height of the drawing on the picture.
const HIGHEST: f64 = 150.0;
/// Radius of the disc that carries a number.
const DISC: f64 = 2.4;
/// From the place to the middle of its disc.
const LEADER: f64 = 6.0;
/// Further places of one finding that get a ring; more would hide the drawing.
const MOST_RINGS: usize = 40;

/// The picture.
pub(crate) fn draw(inspection: &Inspection, file: &str) -> Drawing {
    let motif = &inspection.motif;
    let says =
        format!("{file}, {} wide and {} high, with {} findings.", motif.width, motif.height, inspection.found.len());
    let mut drawing = Drawing::new(WIDTH, 10.0, says);
    let sub = format!("{} wide, {} high, as seen", motif.width, motif.height);
    let head = heading(&mut drawing, file, &sub) + LEADER + DISC;
    let (width, height) = (motif.width.get().max(1.0), motif.height.get().max(1.0));
    let room = WIDTH - 2.0 * (BORDER + LEADER + DISC);
    let scale = (room / width).min(HIGHEST / height);
    let middle = Vec2::new(WIDTH / 2.0, head + height * scale / 2.0);
    let place = Affine::translate(middle) * Affine::scale(scale);
    motif_paint::paint(&mut drawing, motif, place);
    let mut discs = Vec::new();
    for found in &inspection.found {
        mark(&mut drawing, found, place, middle.to_point(), &mut discs);
    }
    let below = head + height * scale + LEADER + 2.0 * DISC;
    scale_bar(&mut drawing, Point::new(BORDER, below), scale);
    let bottom = list(&mut drawing, inspection, below + style::TITLE);
    drawing.height = bottom + BORDER;
    drawing
}

const fn ink(severity: Severity) -> style::Ink {
    match severity {
        Severity::StopsTheJob => style::STOP,
        Severity::LookAtThis => style::CARE,
        Severity::FixedForYou => style::FINE,
    }
}

/// A ring at every place of a finding, and a leader from the first to a disc with its number, outward from the middle.
fn mark(drawing: &mut Drawing, found: &Found, place: Affine, middle: Point, discs: &mut Vec<Point>) {
    let ink = ink(found.finding.severity);
    let pen = Pen::new(ink, style::THIN);
    let first = found.finding.place.as_ref().and_then(|at| at.at);
    for at in first.iter().chain(&found.also_at).take(MOST_RINGS) {
        let circle = kurbo::Circle::new(place * *at, 1.0);
        drawing.stroke(kurbo::Shape::to_path(&circle, 0.01), pen);
    }
    let Some(at) = first.map(|at| place * at) else { return };
    let disc = free_place(at, outward(middle, at), discs);
    drawing.line(at, disc, pen);
    drawing.dot(disc, DISC, ink);
    let number = Words::new(found.number.to_string(), disc).size(style::SMALL).ink(style::PAPER).bold().centred();
    drawing.words(number);
    discs.push(disc);
}

/// The angle outward from the middle; straight up for a place in the middle itself.
fn outward(middle: Point, at: Point) -> f64 {
    if middle.distance(at) < 1e-9 { -std::f64::consts::FRAC_PI_2 } else { (at - middle).atan2() }
}

/// A place for a disc that hides no other, tried in a fan of directions round the outward one, then farther out.
fn free_place(at: Point, outward: f64, discs: &[Point]) -> Point {
    let tries = (0..6).flat_map(|ring| {
        (0..12).map(move |step| {
            let side = if step % 2 == 0 { 1.0 } else { -1.0 };
            (LEADER + f64::from(ring) * 3.0, side * f64::from(step / 2) * 0.5)
        })
    });
    let place = |(reach, turn): (f64, f64)| at + Vec2::from_angle(outward + turn) * reach;
    let inside = |p: &Point| p.x > DISC + 1.0 && p.x < WIDTH - DISC - 1.0 && p.y > DISC + 1.0;
    let free = |p: &Point| inside(p) && discs.iter().all(|disc| disc.distance(*p) > 2.0 * DISC + 0.4);
    tries.map(place).find(free).unwrap_or_else(|| place((LEADER, 0.0)))
}

/// The findings in words; returns the y below them.
fn list(drawing: &mut Drawing, inspection: &Inspection, mut y: f64) -> f64 {
    let indent = BORDER + 3.0 * DISC;
    for found in &inspection.found {
        let ink = ink(found.finding.severity);
        let middle = Point::new(BORDER + DISC, y - style::BODY * 0.36);
        drawing.dot(middle, DISC, ink);
        let number = Words::new(found.number.to_string(), middle).size(style::SMALL).ink(style::PAPER).bold().centred();
        drawing.words(number);
        let text = format!("{}: {} {}", found.finding.severity.words(), found.finding.say, found.finding.advice);
        y = drawing.paragraph(&Words::new(text, (indent, y)), WIDTH - BORDER - indent) + style::BODY * 0.5;
    }
    if inspection.found.is_empty() {
        y = drawing.paragraph(&Words::new("Nothing found: fit to cut.", (BORDER, y)), WIDTH - 2.0 * BORDER);
    }
    y
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::art::{MotifWish, Working, inspect};
    use crate::write::drawing::Mark;

    const NEEDLES: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">
        <path fill="#c62828" d="M30 0L33 30L60 33L30 36L27 60L24 36L0 33L27 30Z"/></svg>"##;

    #[test]
    fn every_finding_has_its_number_on_the_drawing_and_in_the_list() {
        let wish = MotifWish { name: "star".into(), file: "star.svg".into(), width: None };
        let inspection = inspect(NEEDLES, &wish, &Working::Film.into()).unwrap();
        assert!(!inspection.found.is_empty(), "needle points are found");
        let drawing = draw(&inspection, "star.svg");
        for found in &inspection.found {
            let number = found.number.to_string();
            let told = drawing.marks.iter().filter(|m| matches!(m, Mark::Words(words) if words.text == number)).count();
            let wanted = if found.finding.place.as_ref().is_some_and(|place| place.at.is_some()) { 2 } else { 1 };
            assert!(told >= wanted, "number {number} stands {told} times");
        }
    }
}
