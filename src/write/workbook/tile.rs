//! One stretch of the band at full size, hem level, with match lines.

use super::setter::MEASURE;
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::hem::{Frame, MotifLine};
use crate::plan::Plan;
use crate::quantity::{Mm, mm};
use crate::write::drawing::{Drawing, Group, Mark, Pen, Words, outline_path};
use crate::write::lettering::{self, Weight};
use crate::write::style;
use crate::write::views::motif_paint;

/// How far the drawing goes on beyond a match line, to lie under the neighbour.
pub(crate) const OVERLAP: f64 = 9.0;
/// Room under the hem for its labels.
const BELOW: f64 = 10.0;
/// Step between drawn points of a line, mm: on a radius of 60 mm the line is then 0.01 mm off.
const STEP: f64 = 2.0;

/// Which part of the band a page shows.
#[derive(Clone, Debug)]
pub(crate) struct Stretch {
    /// Along the hem.
    pub(crate) from: Mm,
    /// Along the hem.
    pub(crate) to: Mm,
    /// Above the hem.
    pub(crate) low: Mm,
    /// Above the hem.
    pub(crate) high: Mm,
    /// What joins at `from`; nothing at an end of the band.
    pub(crate) left: Option<Join>,
    /// What joins at `to`.
    pub(crate) right: Option<Join>,
}

/// A match line's letter and the page beyond it.
#[derive(Clone, Debug)]
pub(crate) struct Join {
    pub(crate) label: String,
    pub(crate) page: Option<usize>,
}

/// The picture, as wide as the text block and no higher than `depth`.
pub(crate) fn draw(plan: &Plan, stretch: &Stretch, depth: f64) -> Drawing {
    let says = format!(
        "The band at full size from {} to {} along the hem, with the outlines of its motifs.",
        stretch.from, stretch.to
    );
    let mut drawing = Drawing::new(MEASURE, depth, says);
    let Ok(hem) = plan.hem.line_at(Mm::ZERO) else { return drawing };
    let frame = hem.frame_at((stretch.from + stretch.to) / 2.0);
    let place = level(frame, Point::new(MEASURE / 2.0, depth - BELOW + stretch.low.get()));
    let mut inner = Drawing::new(MEASURE, depth, "");
    lines(&mut inner, plan, stretch, place);
    garment_lines(&mut inner, plan, stretch, place);
    motifs(&mut inner, plan, stretch, place);
    let clip = Some(Rect::new(0.0, 0.0, MEASURE, depth));
    drawing.marks.push(Mark::Group(Group { place: Affine::IDENTITY, clip, marks: inner.marks }));
    for (s, join, inward) in [(stretch.from, &stretch.left, 1.0), (stretch.to, &stretch.right, -1.0)] {
        match_line(&mut drawing, plan, stretch, (s, join.as_ref(), inward), place);
    }
    drawing
}

/// From the flat development to the page: the frame's hem runs level through a point of the page.
fn level(frame: Frame, at: Point) -> Affine {
    Affine::translate(at.to_vec2()) * Affine::rotate(-frame.turn().get()) * Affine::translate(-frame.at.to_vec2())
}

/// Points of a parallel line over the stretch and a little beyond both ends.
fn along(plan: &Plan, line: &MotifLine, stretch: &Stretch, place: Affine) -> Vec<Point> {
    let beyond = mm(OVERLAP);
    let (least, greatest) = line.span();
    let inside = |s: Mm| if plan.hem.is_closed() { s } else { s.max(least).min(greatest) };
    let from = inside(line.from_hem(stretch.from) - beyond);
    let to = inside(line.from_hem(stretch.to) + beyond);
    // from_hem wraps on a ring; the end is then behind the start.
    let to = if to < from { to + line.length() } else { to };
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a small positive number")]
    let steps = ((to - from).get() / STEP).ceil().clamp(1.0, 2000.0) as u32;
    (0..=steps).map(|k| place * line.frame_at(from + (to - from) * (f64::from(k) / f64::from(steps))).at).collect()
}

fn lines(drawing: &mut Drawing, plan: &Plan, stretch: &Stretch, place: Affine) {
    if let Ok(hem) = plan.hem.line_at(Mm::ZERO) {
        drawing.polyline(along(plan, &hem, stretch, place), Pen::new(style::TEXT, style::FIRM));
        let middle = place * hem.frame_at((stretch.from + stretch.to) / 2.0).at;
        drawing.words(Words::new("hem", (middle.x, middle.y + 4.2)).size(style::SMALL).ink(style::SOFT));
    }
    for band in &plan.setting.bands {
        if let Ok(line) = plan.hem.line_at(band.height) {
            let pen = Pen::new(style::SOFT, style::THIN).dashed(style::HELP_DASH);
            drawing.polyline(along(plan, &line, stretch, place), pen);
        }
    }
    // Where the band is cut into rows of pages, the pages also meet on lines parallel to the hem.
    for height in [stretch.low, stretch.high] {
        let outer = height == Mm::ZERO || height >= crate::write::views::hem_flat::band_top(plan);
        if let (false, Ok(line)) = (outer, plan.hem.line_at(height)) {
            let pen = Pen::new(style::ACCENT, style::THIN).dashed(style::SEAM_DASH);
            drawing.polyline(along(plan, &line, stretch, place), pen);
        }
    }
}

fn garment_lines(drawing: &mut Drawing, plan: &Plan, stretch: &Stretch, place: Affine) {
    let round = if plan.hem.is_closed() { plan.hem.length() } else { Mm::ZERO };
    let reach = mm(OVERLAP);
    for mark in plan.hem.marks() {
        let shown = [Mm::ZERO, round, -round]
            .into_iter()
            .any(|shift| mark.s_hem + shift > stretch.from - reach && mark.s_hem + shift < stretch.to + reach);
        let (Some(foot), Some(head)) = (across(plan, mark.s_hem, Mm::ZERO), across(plan, mark.s_hem, stretch.high))
        else {
            continue;
        };
        if !shown {
            continue;
        }
        let (foot, head) = (place * foot, place * head);
        let centre = matches!(mark.name.as_str(), "CF" | "CB");
        let ink = if centre { style::ACCENT } else { style::SOFT };
        drawing.line(foot, head, Pen::new(ink, if centre { style::FIRM } else { style::THIN }));
        let name = lettering::fitted(&mark.name, style::SMALL, Weight::Bold, 40.0);
        let words = Words::new(name, foot + Vec2::new(0.0, 7.4)).size(style::SMALL).bold().ink(ink).centred();
        drawing.words(words);
    }
}

/// The place at a height, square above a place on the hem.
fn across(plan: &Plan, s_hem: Mm, height: Mm) -> Option<Point> {
    let line = plan.hem.line_at(height).ok()?;
    Some(line.frame_at(line.from_hem(s_hem)).at)
}

fn motifs(drawing: &mut Drawing, plan: &Plan, stretch: &Stretch, place: Affine) {
    let round = plan.hem.length();
    for placement in plan.setting.bands.iter().flat_map(|band| &band.placements) {
        let Some(motif) = motif_paint::motif_of(&plan.motifs, placement) else { continue };
        let reach = motif.width.max(motif.height) * placement.scale + mm(OVERLAP);
        let shifts = if plan.hem.is_closed() { vec![Mm::ZERO, round, -round] } else { vec![Mm::ZERO] };
        let here = |shift: Mm| {
            let s = placement.s_hem + shift;
            s + reach > stretch.from && s - reach < stretch.to
        };
        if !shifts.into_iter().any(here) {
            continue;
        }
        let to_page = place * motif_paint::to_development(placement);
        for outline in motif.layers.iter().flat_map(|layer| &layer.outlines) {
            drawing.stroke(outline_path(outline, to_page), Pen::new(style::TEXT, style::THIN));
        }
        let middle = to_page * Point::ZERO;
        for arm in [Vec2::new(4.0, 0.0), Vec2::new(0.0, 4.0)] {
            let arm = Affine::rotate(placement.turn.get()) * arm.to_point();
            let arm = (place * arm - place * Point::ZERO).normalize() * 4.0;
            drawing.line(middle - arm, middle + arm, Pen::new(style::ACCENT, style::THIN));
        }
        let words = Words::new(placement.id.clone(), middle + Vec2::new(1.4, -1.4)).size(style::BODY).bold();
        let ground = words.bounds().inflate(0.5, 0.2);
        drawing.rect(ground, Some(style::PAPER), None);
        drawing.words(words.ink(style::ACCENT));
    }
}

/// A line square to the hem with its letter at both ends and the page beyond.
fn match_line(
    drawing: &mut Drawing,
    plan: &Plan,
    stretch: &Stretch,
    (s, join, inward): (Mm, Option<&Join>, f64),
    place: Affine,
) {
    let (Some(foot), Some(head)) = (across(plan, s, stretch.low), across(plan, s, stretch.high)) else { return };
    let Some(join) = join else { return };
    let (foot, head) = (place * foot, place * head);
    let up = (head - foot).normalize();
    let (below, above) = (foot - up * 3.0, head + up * 5.0);
    drawing.line(below, above, Pen::new(style::ACCENT, style::THIN).dashed(style::SEAM_DASH));
    for at in [foot, head] {
        let mut sign = kurbo::BezPath::new();
        sign.move_to(at + up * 2.2);
        sign.line_to(at - up * 2.2);
        sign.line_to(at + Vec2::new(2.8 * inward, 0.0));
        sign.close_path();
        drawing.shape(sign, Some(style::ACCENT), None);
        let words = Words::new(join.label.clone(), at + Vec2::new(6.0 * inward, 0.0) + up * 0.2).bold();
        drawing.words(words.ink(style::ACCENT).centred());
    }
    if let Some(page) = join.page {
        let words = Words::new(format!("page {page}"), above + Vec2::new(8.0 * inward, 1.0)).size(style::SMALL);
        drawing.words(words.ink(style::ACCENT).centred());
    }
}
