//! The numbered picture: the motif with a number at each finding, and a magnified view of each place below.

use crate::art::{Found, Inspection, Measure, Motif, Shape};
use crate::finding::Severity;
use crate::geometry::{Affine, Point, Rect, Vec2, bounds};
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::lettering::Weight;
use crate::write::style::{self, Ink};
use crate::write::views::{BORDER, WIDTH, heading, motif_paint, scale_bar};
use crate::write::{figures, lettering};

/// Room for the motif with its numbers.
const MOTIF_ROOM: f64 = 110.0;
/// Magnified views across.
const ACROSS: usize = 3;
/// Side of a magnified view.
const VIEW: f64 = 50.0;
/// Lines of words under a view.
const CAPTION_LINES: usize = 6;
/// Most magnified views; the rest is listed in words only.
const MOST_VIEWS: usize = 48;
/// Radius of a number's disc.
const BADGE: f64 = 2.6;
/// Most magnified: a neck of half a millimetre still shows what it joins.
const LARGEST_SCALE: f64 = 10.0;

/// The picture.
pub(super) fn draw(inspection: &Inspection) -> Drawing {
    let motif = &inspection.motif;
    let says = format!(
        "{} with {} numbered, each shown magnified below.",
        motif.name,
        figures::counted(inspection.found.len(), "finding", "findings")
    );
    let mut drawing = Drawing::new(WIDTH, 10.0, says);
    let title = format!("{}: is it fit to cut?", inspection.file);
    let size = format!("{} wide, {} high.", figures::both(motif.width), figures::both(motif.height));
    let top = heading(&mut drawing, &title, &format!("{size} {}", summary(inspection)));
    let mut y = whole(&mut drawing, inspection, top);
    let (seen, unseen): (Vec<&Found>, Vec<&Found>) = inspection.found.iter().partition(|found| place(found).is_some());
    let (views, listed) = seen.split_at(seen.len().min(MOST_VIEWS));
    for row in views.chunks(ACROSS) {
        y = view_row(&mut drawing, inspection, row, y);
    }
    for found in listed.iter().chain(&unseen) {
        y = listed_row(&mut drawing, found, y);
    }
    drawing.height = y + BORDER;
    drawing
}

fn place(found: &Found) -> Option<Point> {
    found.finding.place.as_ref().and_then(|place| place.at)
}

fn summary(inspection: &Inspection) -> String {
    let count = |severity| inspection.found.iter().filter(|found| found.finding.severity == severity).count();
    let parts: Vec<String> = [Severity::StopsTheJob, Severity::LookAtThis, Severity::FixedForYou]
        .into_iter()
        .filter(|severity| count(*severity) > 0)
        .map(|severity| format!("{}: {}", severity.words(), count(severity)))
        .collect();
    if parts.is_empty() { "Nothing to mend.".to_owned() } else { format!("{}.", parts.join(", ")) }
}

const fn ink(severity: Severity) -> Ink {
    match severity {
        Severity::StopsTheJob => style::STOP,
        Severity::LookAtThis => style::CARE,
        Severity::FixedForYou => style::FINE,
    }
}

/// The motif with its numbers; gives the y below.
fn whole(drawing: &mut Drawing, inspection: &Inspection, top: f64) -> f64 {
    let motif = &inspection.motif;
    let (width, height) = (motif.width.get().max(0.1), motif.height.get().max(0.1));
    let scale = (MOTIF_ROOM / width).min(MOTIF_ROOM / height).min(LARGEST_SCALE);
    let clear = 4.0 * BADGE;
    let middle = Point::new(WIDTH / 2.0, top + clear + height * scale / 2.0);
    let to_paper = Affine::translate(middle.to_vec2()) * Affine::scale(scale);
    motif_paint::paint(drawing, motif, to_paper);
    let mut badges =
        Badges { taken: Vec::new(), within: Rect::new(2.0, top, WIDTH - 2.0, top + height * scale + 2.0 * clear) };
    for found in &inspection.found {
        let ink = ink(found.finding.severity);
        for (k, at) in place(found).into_iter().chain(found.also_at.iter().copied().take(20)).enumerate() {
            let at = to_paper * at;
            drawing.dot(at, 0.7, style::PAPER);
            drawing.dot(at, 0.5, ink);
            if k == 0 {
                badges.set(drawing, at, middle, found.number, ink);
            }
        }
    }
    let bottom = top + height * scale + 2.0 * clear;
    scale_bar(drawing, Point::new(BORDER, bottom), scale);
    bottom + 6.0
}

/// Numbers already set, so that no two lie over each other.
struct Badges {
    taken: Vec<Point>,
    within: Rect,
}

impl Badges {
    /// Sets a number near its place, away from the motif's middle where there is room.
    fn set(&mut self, drawing: &mut Drawing, at: Point, middle: Point, number: usize, ink: Ink) {
        let outward = at - middle;
        let first = if outward.hypot() > 0.1 { outward.y.atan2(outward.x) } else { -1.0 };
        let turns = [0.0, 0.5, -0.5, 1.0, -1.0, 1.6, -1.6, 2.3, -2.3, 3.1];
        let choices = [7.0, 12.0, 18.0, 25.0].into_iter().flat_map(|reach| turns.map(|turn| (reach, first + turn)));
        let free = |spot: &Point| {
            self.within.inflate(-BADGE, -BADGE).contains(*spot)
                && self.taken.iter().all(|other| other.distance(*spot) > 2.2 * BADGE)
        };
        let spot = choices
            .map(|(reach, angle)| at + Vec2::new(angle.cos(), angle.sin()) * reach)
            .find(free)
            .unwrap_or(at + Vec2::new(7.0, -7.0));
        self.taken.push(spot);
        drawing.line(at, spot, Pen::new(style::PAPER, 3.0 * style::THIN));
        drawing.line(at, spot, Pen::new(ink, style::THIN));
        badge(drawing, spot, number, ink);
    }
}

fn badge(drawing: &mut Drawing, at: Point, number: usize, ink: Ink) {
    drawing.dot(at, BADGE + 0.3, style::PAPER);
    drawing.dot(at, BADGE, ink);
    let size = if number < 100 { style::BODY } else { style::SMALL };
    drawing.words(Words::new(number.to_string(), at).size(size).bold().ink(style::PAPER).centred());
}

/// Magnified views side by side; gives the y below.
fn view_row(drawing: &mut Drawing, inspection: &Inspection, row: &[&Found], top: f64) -> f64 {
    let cell = (WIDTH - 2.0 * BORDER) / ACROSS as f64;
    let mut bottom = top;
    for (k, found) in row.iter().enumerate() {
        let Some(at) = place(found) else { continue };
        let left = BORDER + k as f64 * cell;
        view(drawing, inspection, found, at, Point::new(left, top));
        bottom = f64::max(bottom, caption(drawing, found, Point::new(left, top + VIEW + 1.0), cell - 4.0));
    }
    bottom + 3.0
}

fn view(drawing: &mut Drawing, inspection: &Inspection, found: &Found, at: Point, corner: Point) {
    let motif = &inspection.motif;
    let scale = magnification(motif, found.measure);
    let frame = Rect::from_origin_size(corner, (VIEW, VIEW));
    let centre = frame.center();
    let to_paper = Affine::translate(centre.to_vec2()) * Affine::scale(scale) * Affine::translate(-at.to_vec2());
    let mut inner = Drawing::new(VIEW, VIEW, "");
    inner.rect(frame, Some(style::CLOTH), None);
    motif_paint::paint(&mut inner, motif, to_paper);
    // The shape in question, since another colour may lie over it.
    for shape in own_shapes(inspection, found) {
        for area in &shape.areas {
            inner.outline(area, to_paper, None, Some(Pen::new(ink(found.finding.severity), style::FIRM)));
        }
    }
    mark(&mut inner, found.measure, centre, scale, ink(found.finding.severity));
    drawing.marks.push(Mark::Group(Group { place: Affine::IDENTITY, clip: Some(frame), marks: inner.marks }));
    drawing.rect(frame, None, Some(Pen::new(style::RULE, style::THIN)));
    badge(drawing, corner + Vec2::new(BADGE + 1.2, BADGE + 1.2), found.number, ink(found.finding.severity));
    let times = format!("{scale:.1} ×");
    let words = Words::new(times, (frame.x1 - 1.5, frame.y1 - 1.5)).size(style::SMALL).anchor(Anchor::End);
    let ground = words.bounds().inflate(0.6, 0.4);
    drawing.rect(ground, Some(style::PAPER), None);
    drawing.words(words.ink(style::SOFT));
}

fn own_shapes<'a>(inspection: &'a Inspection, found: &Found) -> impl Iterator<Item = &'a Shape> {
    let place = found.finding.place.clone();
    inspection.shapes.iter().filter(move |shape| {
        place.as_ref().is_some_and(|place| place.element == shape.label.element && place.line == shape.label.line)
    })
}

/// Paper millimetres for one of the motif: the measured length a sixth of the view, but never less than the whole motif
/// and never more than [`LARGEST_SCALE`].
fn magnification(motif: &Motif, measure: Option<Measure>) -> f64 {
    let all: Vec<_> = motif.layers.iter().flat_map(|layer| layer.outlines.clone()).collect();
    let side = bounds(&all).map_or(VIEW, |rect| rect.width().max(rect.height())).max(1.0);
    let least = (VIEW / side).min(LARGEST_SCALE);
    let wanted = match measure {
        Some(Measure::Length(length)) => VIEW / 6.0 / length.get().max(0.1),
        Some(Measure::Angle(_)) => 5.0,
        _ => VIEW / 24.0,
    };
    wanted.clamp(least, LARGEST_SCALE)
}

/// A ring of the measured width, or one that only points.
fn mark(drawing: &mut Drawing, measure: Option<Measure>, centre: Point, scale: f64, ink: Ink) {
    use kurbo::Shape as _;
    let measured = match measure {
        Some(Measure::Length(length)) if length.get() * scale >= 2.0 => Some(length.get() * scale / 2.0),
        _ => None,
    };
    let radius = measured.unwrap_or(4.0).min(VIEW / 2.0 - 4.0);
    let ring = kurbo::Circle::new(centre, radius).to_path(0.01);
    drawing.stroke(ring.clone(), Pen::new(style::PAPER, 2.5 * style::FIRM));
    drawing.stroke(ring, Pen::new(ink, style::FIRM));
    for way in [Vec2::new(1.0, 0.0), Vec2::new(-1.0, 0.0), Vec2::new(0.0, 1.0), Vec2::new(0.0, -1.0)] {
        let (from, to) = (centre + way * (radius + 1.0), centre + way * (radius + 4.0));
        drawing.line(from, to, Pen::new(style::PAPER, 2.5 * style::FIRM));
        drawing.line(from, to, Pen::new(ink, style::FIRM));
    }
}

/// Severity, what was found, and what to do; gives the y below.
fn caption(drawing: &mut Drawing, found: &Found, at: Point, room: f64) -> f64 {
    let finding = &found.finding;
    let mut y = at.y + style::SMALL;
    let head = match found.measure {
        Some(measure) => format!("{}: {measure}", finding.severity.words()),
        None => finding.severity.words().to_owned(),
    };
    drawing.words(Words::new(head, (at.x, y)).size(style::SMALL).bold().ink(ink(finding.severity)));
    y += style::SMALL * style::LEADING;
    for (words, ink) in [(&finding.say, style::TEXT), (&finding.advice, style::SOFT)] {
        let mut lines = lettering::lines(words, style::SMALL, Weight::Regular, room);
        if lines.len() > CAPTION_LINES {
            lines.truncate(CAPTION_LINES);
            if let Some(last) = lines.last_mut() {
                *last = lettering::fitted(&format!("{last} …"), style::SMALL, Weight::Regular, room);
            }
        }
        for line in lines {
            drawing.words(Words::new(line, (at.x, y)).size(style::SMALL).ink(ink));
            y += style::SMALL * style::LEADING;
        }
    }
    y
}

/// A finding without a place in the picture, in words; gives the y below.
fn listed_row(drawing: &mut Drawing, found: &Found, top: f64) -> f64 {
    let finding = &found.finding;
    badge(drawing, Point::new(BORDER + BADGE, top + BADGE), found.number, ink(finding.severity));
    let left = BORDER + 2.0 * BADGE + 2.0;
    let where_ = finding.place.as_ref().map(super::text::place_words).unwrap_or_default();
    let words = format!("{}: {} ({where_}) {}", finding.severity.words(), finding.say, finding.advice);
    let first = Words::new(words, (left, top + style::SMALL)).size(style::SMALL);
    let y = drawing.paragraph(&first, WIDTH - BORDER - left);
    y.max(top + 2.0 * BADGE) + 2.0
}
