//! A stretch of the band drawn at true size, in pieces small enough to be put on the pages they touch and no others.

use kurbo::Shape as _;

use super::stretch::Stretch;
use crate::geometry::{Affine, Point, Rect};
use crate::place::Placement;
use crate::quantity::{Mm, mm};
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Mark, Pen, Words, outline_path};
use crate::write::figures::both;
use crate::write::lettering::{self, Weight};
use crate::write::style::{self, Ink};

/// Distance between the points by which a curved line is drawn, mm: 0.005 mm off on a radius of 100 mm.
const STEP: f64 = 2.0;
/// How much of a colour is left in the tint inside a motif, so that paper and printer are spared.
const TINT: f64 = 0.16;

/// The marks, in the flat development's millimetres.
pub(crate) fn draw(stretch: &Stretch<'_>) -> Vec<Mark> {
    let mut paper = Drawing::new(0.0, 0.0, "");
    lines(&mut paper, stretch);
    garment_lines(&mut paper, stretch);
    for placement in stretch.placements {
        motif(&mut paper, stretch, placement);
    }
    captions(&mut paper, stretch);
    paper.marks
}

/// Hem and motif line, piece by piece between the middles of the gaps, and those middles.
fn lines(paper: &mut Drawing, stretch: &Stretch<'_>) {
    let (low, high) = stretch.heights;
    let mut edges = vec![stretch.span.0];
    for pair in stretch.placements.windows(2) {
        edges.push((pair[0].s_line + pair[1].s_line) / 2.0);
    }
    edges.push(stretch.span.1);
    let help = Pen::new(style::SOFT, style::THIN).dashed(style::HELP_DASH);
    for pair in edges.windows(2) {
        paper.polyline(along(stretch, (pair[0], pair[1]), stretch.line.height()), help);
        if low == Mm::ZERO {
            paper.polyline(along(stretch, (pair[0], pair[1]), Mm::ZERO), Pen::new(style::TEXT, style::FIRM));
        }
    }
    let gap = Pen::new(style::RULE, style::THIN).dashed(style::SEAM_DASH);
    for edge in edges {
        paper.line(stretch.at(edge, low), stretch.at(edge, high), gap);
    }
}

fn along(stretch: &Stretch<'_>, (from, to): (Mm, Mm), height: Mm) -> Vec<Point> {
    let steps = ((to - from).get() / STEP).ceil().clamp(1.0, 20_000.0);
    let mut points = Vec::new();
    let mut k = 0.0;
    while k <= steps {
        points.push(stretch.at(from + (to - from) * (k / steps), height));
        k += 1.0;
    }
    points
}

/// CF, CB, seams and opening where they cross the stretch.
fn garment_lines(paper: &mut Drawing, stretch: &Stretch<'_>) {
    let (low, high) = stretch.heights;
    let round = stretch.line.length();
    for mark in chalk::marks_by_place(stretch.plan) {
        let own = stretch.line.from_hem(mark.s_hem);
        let shifts = if stretch.plan.hem.is_closed() { vec![Mm::ZERO, round, -round] } else { vec![Mm::ZERO] };
        for s in shifts.into_iter().map(|shift| own + shift) {
            if s < stretch.span.0 - mm(1e-6) || s > stretch.span.1 + mm(1e-6) {
                continue;
            }
            let pen = if mark.centre {
                Pen::new(style::ACCENT, style::FIRM)
            } else {
                Pen::new(style::ACCENT, style::THIN).dashed(style::SEAM_DASH)
            };
            let (foot, head) = (stretch.at(s, low), stretch.at(s, high));
            paper.line(foot, head, pen);
            let turn = upright(foot, head);
            let at = head + (head - foot) / foot.distance(head).max(1e-9) * 1.4;
            let words =
                Words { turn, ..Words::new(mark.names.clone(), at).size(style::BODY).bold().ink(style::ACCENT) };
            paper.words(words.anchor(Anchor::Middle));
        }
    }
}

/// One motif with the line square to the hem through its middle, its middle and its number.
fn motif(paper: &mut Drawing, stretch: &Stretch<'_>, placement: &Placement) {
    let Some(motif) = stretch.plan.motifs.get(&placement.motif) else { return };
    let place = placement.transform();
    for layer in &motif.layers {
        let ink = Ink::from(layer.colour);
        for outline in &layer.outlines {
            let path = outline_path(outline, place);
            paper.shape(path, Some(pale(ink)), Some(Pen::new(style::TEXT, style::THIN)));
        }
    }
    let (low, high) = stretch.heights;
    let (foot, head) = (stretch.at(placement.s_line, low), stretch.at(placement.s_line, high));
    paper.line(foot, head, Pen::new(style::SOFT, style::HAIRLINE).dashed(style::HELP_DASH));
    let middle = placement.at;
    let up = (head - foot) / foot.distance(head).max(1e-9);
    let side = kurbo::Vec2::new(-up.y, up.x);
    let cross = Pen::new(style::TEXT, style::FIRM);
    for arm in [up * 3.0, side * 3.0] {
        paper.line(middle - arm, middle + arm, cross);
    }
    if low == Mm::ZERO {
        // The notch by which the paper is laid on the chalk mark.
        paper.line(foot, foot + up * 8.0, cross);
    }
    let turn = upright(foot, head);
    let at = foot + up * 2.2 + side * 1.8;
    let number = Words { turn, ..Words::new(placement.id.clone(), at).size(style::HEAD).bold() };
    paper.words(number);
}

/// Turn of words that stand upright on a line from its foot to its head, degrees.
fn upright(foot: Point, head: Point) -> f64 {
    let up = head - foot;
    up.x.atan2(-up.y).to_degrees()
}

/// Names of the lines, in the gap before the first motif.
fn captions(paper: &mut Drawing, stretch: &Stretch<'_>) {
    let start = stretch.span.0 + mm(2.0);
    if stretch.heights.0 == Mm::ZERO {
        caption(paper, stretch, "finished hem (right side up)", start, (Mm::ZERO, 4.0));
    }
    let line = stretch.line.height();
    let text = format!("motif line, {} up", both(line));
    caption(paper, stretch, &text, beside_motifs(stretch, start, &text), (line, -1.3));
}

/// Where words on the motif line begin: before the first motif where they fit there, else behind it.
fn beside_motifs(stretch: &Stretch<'_>, start: Mm, text: &str) -> Mm {
    let Some(first) = stretch.placements.first() else { return start };
    let half = (stretch.band.repeat - stretch.band.gap_along) / 2.0 + mm(2.0);
    let width = mm(lettering::width(text, style::SMALL, Weight::Regular));
    if start + width <= first.s_line - half { start } else { first.s_line + half }
}

/// Words that follow a line from a place on, so far below it on paper; as level as the line is in their middle.
fn caption(paper: &mut Drawing, stretch: &Stretch<'_>, text: &str, start: Mm, (height, below): (Mm, f64)) {
    let half = mm(lettering::width(text, style::SMALL, Weight::Regular) / 2.0);
    let s = start + half;
    let frame = stretch.line.frame_unrolled(s);
    let at = stretch.at(s, height) - frame.up() * below;
    let words = Words::new(text, at).size(style::SMALL).ink(style::SOFT).anchor(Anchor::Middle);
    paper.words(Words { turn: frame.turn().degrees(), ..words });
}

pub(super) fn pale(ink: Ink) -> Ink {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a mean of two bytes is a byte")]
    let part = |value: u8| (f64::from(value) * TINT + 255.0 * (1.0 - TINT)).round() as u8;
    Ink { red: part(ink.red), green: part(ink.green), blue: part(ink.blue) }
}

/// Room that a mark takes after a move, its pen included.
pub(crate) fn bounds(mark: &Mark, place: Affine) -> Option<Rect> {
    match mark {
        Mark::Shape(shape) => {
            let half = shape.pen.map_or(0.0, |pen| pen.width / 2.0);
            let path = place * shape.path.clone();
            (!path.elements().is_empty()).then(|| path.bounding_box().inflate(half, half))
        }
        Mark::Words(words) => {
            let turn = place * Affine::rotate_about(words.turn.to_radians(), words.at);
            Some(turn.transform_rect_bbox(words.bounds()))
        }
        Mark::Group(group) => {
            group.marks.iter().filter_map(|mark| bounds(mark, place * group.place)).reduce(|a, b| a.union(b))
        }
    }
}
