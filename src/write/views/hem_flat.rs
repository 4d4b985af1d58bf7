//! The whole band laid out flat, seen from its right side: true shape, every motif in its place and colours.

use super::{BORDER, Labels, WIDTH, heading, motif_paint, scale_bar, titled};
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::hem::{Middle, MotifLine};
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::quantity::{Mm, mm};
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::{both, counted, repeat_both};
use crate::write::style;

/// Room kept above and below the band for labels, mm on paper.
const LABEL_ROOM: f64 = 13.0;
/// Room kept on either side, where labels run outward.
const SIDE_ROOM: f64 = 22.0;
/// Points along a drawn line; a ring drawn 170 mm across then bends by less than 0.01 mm between points.
const SAMPLES: u32 = 360;
/// Room along a row for one chalk number, mm on paper.
const NUMBER_ROOM: f64 = 6.0;
/// Least free radius in the middle of a ring, mm on paper, in which the key figures are set.
const MIDDLE_ROOM: f64 = 40.0;

/// The picture; `None` where the band would lie over itself, and where the band is so long and straight that [`super::hem_map`] shows it better.
pub(crate) fn draw(plan: &Plan) -> Option<Drawing> {
    if lies_over_itself(plan) {
        return None;
    }
    let top = band_top(plan);
    let hem = sampled(&plan.hem.line_at(Mm::ZERO).ok()?);
    let upper = sampled(&plan.hem.line_at(top).ok()?);
    let extent = extent(plan, &hem, &upper)?;
    if extent.width() > 5.0 * extent.height() {
        return None;
    }
    let room = WIDTH - 2.0 * SIDE_ROOM;
    let scale = (room / extent.width()).min(210.0 / extent.height());
    let mut drawing = Drawing::new(WIDTH, 10.0, says(plan));
    let head = heading(
        &mut drawing,
        &titled(plan, "The band laid flat, right side up"),
        match plan.hem.middle() {
            Middle::CentreFront => "True shape. With CF at the bottom, the wearer's left is to the right.",
            Middle::CentreBack => "True shape. With CB at the bottom, the wearer's right is to the right.",
        },
    );
    let corner = Point::new((WIDTH - extent.width() * scale) / 2.0, head + LABEL_ROOM);
    let place =
        Affine::translate(corner.to_vec2()) * Affine::scale(scale) * Affine::translate((-extent.x0, -extent.y0));
    let on_paper = |points: &[Point]| points.iter().map(|p| place * *p).collect::<Vec<_>>();
    let (hem, upper) = (on_paper(&hem), on_paper(&upper));
    let mut labels = Labels::default();
    cloth(&mut drawing, plan, &hem, &upper);
    motif_lines(&mut drawing, plan, place);
    garment_lines(&mut drawing, plan, place, top, &mut labels);
    for placement in plan.setting.bands.iter().flat_map(|band| &band.placements) {
        if let Some(motif) = motif_paint::motif_of(&plan.motifs, placement) {
            motif_paint::paint(&mut drawing, motif, place * motif_paint::to_development(placement));
        }
    }
    numbers(&mut drawing, plan, place, top, &mut labels);
    tightest(&mut drawing, plan, place, &mut labels);
    let below = corner.y + extent.height() * scale + LABEL_ROOM;
    drawing.height = key_figures(&mut drawing, plan, &upper, below, scale);
    Some(drawing)
}

/// A full circle and a thousandth: less is the rounding of a circle.
const FULL_CIRCLE: f64 = std::f64::consts::TAU * 1.001;

/// Whether a hem that turns through more than a full circle would lie over itself in this picture.
pub(crate) fn lies_over_itself(plan: &Plan) -> bool {
    plan.hem.sweep().get() > FULL_CIRCLE
}

fn says(plan: &Plan) -> String {
    let bands: Vec<String> = plan
        .setting
        .bands
        .iter()
        .map(|band| format!("{} with {}", band.name, counted(band.placements.len(), "motif", "motifs")))
        .collect();
    format!("The hem band laid flat, {} long: {}.", plan.hem.length(), bands.join("; "))
}

/// A little above the highest motif, or as high as the garment allows.
pub(crate) fn band_top(plan: &Plan) -> Mm {
    let highest = plan
        .setting
        .bands
        .iter()
        .flat_map(|band| &band.placements)
        .map(|placement| placement.height.get() + motif_paint::half_height(&plan.motifs, placement))
        .fold(20.0, f64::max);
    let wished = highest * 1.12;
    // A band near the waist may leave no room for the border: then the picture ends at the motifs, or below.
    let tries = [wished, highest, highest * 0.75, highest * 0.5, 0.0];
    mm(tries.into_iter().find(|height| plan.hem.line_at(mm(*height)).is_ok()).unwrap_or(0.0))
}

fn sampled(line: &MotifLine) -> Vec<Point> {
    let (start, end) = line.span();
    let at = |k: u32| start + (end - start) * (f64::from(k) / f64::from(SAMPLES));
    // The far end of a closed line is its near end again; stopping a hair before keeps a wrapped value from jumping back.
    (0..=SAMPLES).map(|k| line.frame_at(if k == SAMPLES { end - mm(1e-6) } else { at(k) }).at).collect()
}

fn extent(plan: &Plan, hem: &[Point], upper: &[Point]) -> Option<Rect> {
    let motifs = plan.setting.bands.iter().flat_map(|band| &band.placements).filter_map(|placement| {
        let motif = motif_paint::motif_of(&plan.motifs, placement)?;
        let half = (motif.width.get() / 2.0, motif.height.get() / 2.0);
        let own = Rect::new(-half.0, -half.1, half.0, half.1);
        Some(motif_paint::to_development(placement).transform_rect_bbox(own))
    });
    let points = hem.iter().chain(upper).map(|p| Rect::from_points(*p, *p));
    points.chain(motifs).reduce(|a, b| a.union(b))
}

fn cloth(drawing: &mut Drawing, plan: &Plan, hem: &[Point], upper: &[Point]) {
    let mut path = kurbo::BezPath::new();
    let closed = plan.hem.is_closed() && hem.first().zip(hem.last()).is_some_and(|(a, b)| a.distance(*b) < 0.1);
    let mut ring = |points: &mut dyn Iterator<Item = &Point>, goes_on: bool| {
        for (k, point) in points.enumerate() {
            if k == 0 && !goes_on { path.move_to(*point) } else { path.line_to(*point) }
        }
        if closed {
            path.close_path();
        }
    };
    ring(&mut hem.iter(), false);
    ring(&mut upper.iter().rev(), !closed);
    if !closed {
        path.close_path();
    }
    drawing.shape(path, Some(style::CLOTH), None);
    drawing.polyline(upper.iter().copied(), Pen::new(style::RULE, style::THIN).dashed(style::HELP_DASH));
    drawing.polyline(hem.iter().copied(), Pen::new(style::TEXT, style::FIRM));
    if !closed {
        for (a, b) in [hem.first().zip(upper.first()), hem.last().zip(upper.last())].into_iter().flatten() {
            drawing.line(*a, *b, Pen::new(style::TEXT, style::THIN));
        }
    }
}

fn motif_lines(drawing: &mut Drawing, plan: &Plan, place: Affine) {
    for band in &plan.setting.bands {
        if let Ok(line) = plan.hem.line_at(band.height) {
            let points = sampled(&line).into_iter().map(|p| place * p);
            drawing.polyline(points, Pen::new(style::SOFT, style::HAIRLINE).dashed(style::HELP_DASH));
        }
    }
}

fn garment_lines(drawing: &mut Drawing, plan: &Plan, place: Affine, top: Mm, labels: &mut Labels) {
    let (Ok(hem), Ok(upper)) = (plan.hem.line_at(Mm::ZERO), plan.hem.line_at(top)) else { return };
    for mark in plan.hem.marks() {
        let foot = hem.frame_at(mark.s_hem);
        let from = place * foot.at;
        let to = place * upper.frame_at(upper.from_hem(mark.s_hem)).at;
        let centre = matches!(mark.name.as_str(), "CF" | "CB");
        let (ink, width) = if centre { (style::ACCENT, style::BOLD) } else { (style::SOFT, style::THIN) };
        let pen = Pen::new(ink, width);
        drawing.line(from, to, if centre { pen } else { pen.dashed(style::SEAM_DASH) });
        let out = -foot.up();
        let mut words = Words::new(mark.name.clone(), from + out * 3.4).size(style::SMALL).ink(ink);
        if centre {
            words = words.bold();
        }
        words = beside(words, out.x);
        labels.set_block(drawing, &words, label_width(out), (out.x * 0.8, out.y * 0.8));
    }
}

/// Labels beside the band are narrow; those above and below it have the whole width.
fn label_width(out: Vec2) -> f64 {
    if out.x.abs() > 0.35 { SIDE_ROOM - 6.0 } else { 70.0 }
}

/// Words that run away from the band on whichever side they stand.
fn beside(words: Words, direction: f64) -> Words {
    let centred = words.centred();
    match direction {
        d if d > 0.35 => centred.anchor(Anchor::Start),
        d if d < -0.35 => centred.anchor(Anchor::End),
        _ => centred,
    }
}

/// Chalk numbers: of the upper band along the upper edge, of the lowest, where there are several, outside the hem, of
/// those between in the gaps.
fn numbers(drawing: &mut Drawing, plan: &Plan, place: Affine, top: Mm, labels: &mut Labels) {
    let bands = &plan.setting.bands;
    if let (Some(band), Ok(upper)) = (bands.last(), plan.hem.line_at(top)) {
        numbers_along(drawing, plan, (band, &upper, 1.0), place, labels);
    }
    if let ([band, between @ .., _], Ok(hem)) = (bands.as_slice(), plan.hem.line_at(Mm::ZERO)) {
        numbers_along(drawing, plan, (band, &hem, -1.0), place, labels);
        for band in between {
            numbers_between(drawing, plan, band, place, labels);
        }
    }
}

/// Numbers of a band beside a line, on its upper side (1) or its lower (-1); where they would crowd, only every second,
/// fifth, tenth.
fn numbers_along(
    drawing: &mut Drawing,
    plan: &Plan,
    (band, line, side): (&BandSetting, &MotifLine, f64),
    place: Affine,
    labels: &mut Labels,
) {
    let scale = place.determinant().sqrt();
    let repeat = line.length().get() / f64::from(band.count.max(1)) * scale;
    let every = [1, 2, 5, 10, 20, 50].into_iter().find(|k| repeat * f64::from(*k) > 9.0).unwrap_or(100);
    for placement in &band.placements {
        let short = short_number(&placement.id, band);
        let number: u32 = short.trim_start_matches(|c: char| !c.is_ascii_digit()).parse().unwrap_or(0);
        let named_outside = plan.hem.marks().iter().any(|mark| mark.name == short);
        if !number.is_multiple_of(every) || named_outside {
            continue;
        }
        let frame = line.frame_at(line.from_hem(chalk::drafted(plan, placement.s_hem)));
        let away = frame.up() * side;
        let at = place * frame.at + away * 3.2;
        let words = beside(Words::new(short, at).size(style::SMALL), away.x * 0.5);
        labels.set(drawing, words, (away.x, away.y));
    }
}

/// Numbers of a row between others, each in the gap beside its motif, on the side of growing s; none where the gap is too
/// small to read them in.
fn numbers_between(drawing: &mut Drawing, plan: &Plan, band: &BandSetting, place: Affine, labels: &mut Labels) {
    let Ok(line) = plan.hem.line_at(band.height) else { return };
    let scale = place.determinant().sqrt();
    if band.gap_along.get() * scale < NUMBER_ROOM {
        return;
    }
    for placement in &band.placements {
        let half = (band.repeat - band.gap_along) / 2.0 + mm(NUMBER_ROOM / 2.0 / scale);
        let s_line = line.from_hem(chalk::drafted(plan, placement.s_hem)) + half;
        let at_mark = |name: Mm| (line.from_hem(name) - s_line).abs().get() * scale < NUMBER_ROOM / 2.0;
        if plan.hem.marks().iter().any(|mark| at_mark(mark.s_hem)) {
            continue;
        }
        let at = place * line.frame_at(s_line).at;
        let words = Words::new(short_number(&placement.id, band), at).size(style::SMALL).centred();
        labels.set(drawing, words.anchor(Anchor::Middle), (0.0, 0.0));
    }
}

/// A chalk number without its band's name, where the picture says which band is meant.
pub(crate) fn short_number<'a>(id: &'a str, band: &BandSetting) -> &'a str {
    id.strip_prefix(band.name.as_str()).and_then(|rest| rest.strip_prefix('-')).unwrap_or(id)
}

/// Where the clear gap is least, marked and measured.
fn tightest(drawing: &mut Drawing, plan: &Plan, place: Affine, labels: &mut Labels) {
    let gaps = plan.setting.bands.iter().filter_map(|band| band.clear_gap.as_ref());
    let Some(gap) = gaps.min_by(|a, b| a.least.total_cmp(&b.least)) else { return };
    let (a, b) = (place * gap.at.0, place * gap.at.1);
    drawing.line(a, b, Pen::new(style::STOP, style::FIRM));
    for end in [a, b] {
        drawing.dot(end, 0.55, style::STOP);
    }
    let Ok(hem) = plan.hem.line_at(Mm::ZERO) else { return };
    let between = |id: &str| {
        let all = plan.setting.bands.iter().flat_map(|band| &band.placements);
        let found = all.into_iter().find(|placement| placement.id == id);
        found.map(|placement| chalk::drafted(plan, placement.s_hem))
    };
    let (Some(first), Some(second)) = (between(&gap.between.0), between(&gap.between.1)) else { return };
    // The two may lie on either side of where a ring closes; then the short way between them passes there.
    let apart = (first - second).abs();
    let middle = (first + second) / 2.0;
    let middle =
        if plan.hem.is_closed() && apart > plan.hem.length() / 2.0 { middle + plan.hem.length() / 2.0 } else { middle };
    let foot = hem.frame_at(middle);
    let out = -foot.up();
    let from = place * foot.at;
    let words = Words::new(format!("least clear gap {}", gap.least).replace(" mm", "\u{a0}mm"), from + out * 3.4)
        .size(style::SMALL);
    let words = beside(words.ink(style::STOP).bold(), out.x);
    drawing.line(a.midpoint(b), from + out * 2.2, Pen::new(style::STOP, style::HAIRLINE));
    labels.set_block(drawing, &words, label_width(out), (out.x * 0.8, out.y * 0.8));
}

/// The figures that matter, in the middle of a wide ring or below the band; returns the picture's height.
fn key_figures(drawing: &mut Drawing, plan: &Plan, upper: &[Point], below: f64, scale: f64) -> f64 {
    let mut lines: Vec<(String, bool)> = Vec::new();
    let several = plan.setting.bands.len() > 1;
    for (k, band) in plan.setting.bands.iter().enumerate() {
        let note = match k {
            0 if several => " (numbers outside)",
            k if several && k + 1 == plan.setting.bands.len() => " (numbers inside)",
            _ if several => &format!(" (numbers on the wearer's {} of each)", chalk::side(plan, mm(1.0))),
            _ => "",
        };
        let motifs = if band.count == 1 { "motif" } else { "motifs" };
        lines.push((format!("{}: {} {motifs}{note}", band.name, band.count_in_words()), true));
        lines.push((format!("repeat {}", repeat_both(band)), false));
        lines.push((format!("gap along the line {}", both(band.gap_along)), false));
        if let Some(gap) = &band.clear_gap {
            lines.push((format!("least clear gap {}", both(gap.least)), false));
        }
    }
    let height = lines.len() as f64 * style::BODY * style::LEADING;
    let box_ = upper.iter().map(|p| Rect::from_points(*p, *p)).reduce(|a, b| a.union(b)).unwrap_or_default();
    let middle = box_.center();
    let free = upper.iter().map(|p| p.distance(middle)).fold(f64::MAX, f64::min) - 6.0;
    let in_middle = free > MIDDLE_ROOM && height / 2.0 + 6.0 < free * 0.8;
    let (x, mut y) = if in_middle { (middle.x, middle.y - height / 2.0) } else { (WIDTH / 2.0, below + style::BODY) };
    for (text, bold) in lines {
        let mut words = Words::new(text, (x, y)).anchor(Anchor::Middle);
        if bold {
            words = words.bold();
        }
        drawing.words(words);
        y += style::BODY * style::LEADING;
    }
    let end = if in_middle { below } else { y + 2.0 };
    scale_bar(drawing, Point::new(BORDER, end), scale);
    let note = Words::new("dashed: motif line", (WIDTH - BORDER, end + style::SMALL * 0.36)).size(style::SMALL);
    drawing.words(note.ink(style::SOFT).anchor(Anchor::End));
    end + BORDER
}
