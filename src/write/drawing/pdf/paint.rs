//! Marks painted on a page of the PDF, and the fonts that its words are set in.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};
use kurbo::{BezPath, PathEl, Shape as _};

use crate::geometry::{Affine, Point};
use crate::write::drawing::{Anchor, Mark, Pen, Shape, Words};
use crate::write::lettering::{self, Weight};
use crate::write::style::Ink;

/// The two fonts, loaded once.
pub(super) struct Fonts {
    regular: Font,
    bold: Font,
}

impl Fonts {
    pub(super) fn new() -> Self {
        let font = |bytes: &'static [u8]| Font::new(bytes.into(), 0).expect("the bundled font is a whole font");
        Self { regular: font(lettering::REGULAR), bold: font(lettering::BOLD) }
    }

    const fn get(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }
}

/// Paints a mark with all that it holds.
pub(super) fn paint(surface: &mut Surface<'_>, mark: &Mark, fonts: &Fonts) {
    match mark {
        Mark::Shape(one) => shape(surface, one),
        Mark::Words(one) => words(surface, one, fonts),
        Mark::Group(group) => {
            surface.push_transform(&transform(group.place));
            let clip = group.clip.and_then(|rect| path(&rect.to_path(0.01)));
            if let Some(clip) = &clip {
                surface.push_clip_path(clip, &FillRule::NonZero);
            }
            group.marks.iter().for_each(|mark| paint(surface, mark, fonts));
            if clip.is_some() {
                surface.pop();
            }
            surface.pop();
        }
    }
}

fn shape(surface: &mut Surface<'_>, shape: &Shape) {
    let Some(path) = path(&shape.path) else { return };
    surface.set_fill(shape.fill.map(|ink| fill(ink, FillRule::EvenOdd)));
    surface.set_stroke(shape.pen.map(stroke));
    if shape.fill.is_some() || shape.pen.is_some() {
        surface.draw_path(&path);
    }
}

/// Words on one line.
pub(super) fn words(surface: &mut Surface<'_>, words: &Words, fonts: &Fonts) {
    let text = known(&words.text);
    if text.trim().is_empty() {
        return;
    }
    surface.set_fill(Some(fill(words.ink, FillRule::NonZero)));
    surface.set_stroke(None);
    let back = match words.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => words.width() / 2.0,
        Anchor::End => words.width(),
    };
    let place = Affine::translate(words.at.to_vec2())
        * Affine::rotate(words.turn.to_radians())
        * Affine::translate((-back, 0.0));
    surface.push_transform(&transform(place));
    let font = fonts.get(words.weight).clone();
    surface.draw_text(PdfPoint::from_xy(0.0, 0.0), font, to_f32(words.size), &text, false, TextDirection::LeftToRight);
    surface.pop();
}

/// Signs that neither font has become an empty box, which both have.
pub(super) fn known(text: &str) -> String {
    text.chars().map(|c| if lettering::has(c) { c } else { lettering::UNKNOWN }).collect()
}

fn fill(ink: Ink, rule: FillRule) -> Fill {
    Fill { paint: rgb::Color::new(ink.red, ink.green, ink.blue).into(), opacity: NormalizedF32::ONE, rule }
}

fn stroke(pen: Pen) -> Stroke {
    Stroke {
        paint: rgb::Color::new(pen.ink.red, pen.ink.green, pen.ink.blue).into(),
        width: to_f32(pen.width),
        line_cap: if pen.dash.is_some() { LineCap::Butt } else { LineCap::Round },
        line_join: LineJoin::Round,
        dash: pen.dash.map(|dash| StrokeDash { array: dash.map(to_f32).to_vec(), offset: 0.0 }),
        ..Stroke::default()
    }
}

fn transform(affine: Affine) -> Transform {
    let [a, b, c, d, e, f] = affine.as_coeffs().map(to_f32);
    Transform::from_row(a, b, c, d, e, f)
}

fn path(path: &BezPath) -> Option<Path> {
    let mut builder = PathBuilder::new();
    // Rounded for writing, to the micrometre: half the bytes.
    let fine = |mm: f64| to_f32((mm * 1000.0).round() / 1000.0);
    let p = |point: Point| (fine(point.x), fine(point.y));
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => builder.move_to(p(to).0, p(to).1),
            PathEl::LineTo(to) => builder.line_to(p(to).0, p(to).1),
            PathEl::QuadTo(a, to) => builder.quad_to(p(a).0, p(a).1, p(to).0, p(to).1),
            PathEl::CurveTo(a, b, to) => builder.cubic_to(p(a).0, p(a).1, p(b).0, p(b).1, p(to).0, p(to).1),
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}

/// The library works in `f32`: on a sheet of 1 m that is 0.0001 mm.
#[expect(clippy::cast_possible_truncation, reason = "coordinates on paper are far inside the range of f32")]
pub(super) const fn to_f32(value: f64) -> f32 {
    value as f32
}
