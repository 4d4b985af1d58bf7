//! A picture as SVG text.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl};
use svg::Node;
use svg::node::element::{ClipPath, Definitions, Group as SvgGroup, Path, Rectangle, SVG, Text};

use super::{Anchor, Drawing, Group, Mark, Shape, Words};
use crate::geometry::Affine;
use crate::write::lettering::{FAMILY, Weight};
use crate::write::style;

/// A whole file with its size in millimetres.
pub(crate) fn file(drawing: &Drawing) -> String {
    let root = root(drawing, "clip")
        .set("width", format!("{}mm", number(drawing.width)))
        .set("height", format!("{}mm", number(drawing.height)));
    format!("{root}\n")
}

/// An element to stand in a page: as wide as its place, with its description; `name` keeps ids apart within the page.
pub(crate) fn inline(drawing: &Drawing, name: &str) -> String {
    root(drawing, name).set("role", "img").set("aria-label", drawing.says.clone()).to_string()
}

fn root(drawing: &Drawing, name: &str) -> SVG {
    let mut clips = Clips { name, made: Vec::new() };
    let (width, height) = (number(drawing.width), number(drawing.height));
    let mut body = SvgGroup::new();
    let paper = Rectangle::new().set("width", width.clone()).set("height", height.clone());
    body.append(paper.set("fill", style::PAPER.to_string()));
    for mark in &drawing.marks {
        body.append(node(mark, &mut clips));
    }
    let mut root = SVG::new().set("viewBox", format!("0 0 {width} {height}"));
    if !clips.made.is_empty() {
        root.append(clips.made.into_iter().fold(Definitions::new(), Definitions::add));
    }
    root.add(body.set("font-family", FAMILY))
}

/// Clipping rectangles, which SVG keeps apart from what they clip.
struct Clips<'a> {
    name: &'a str,
    made: Vec<ClipPath>,
}

fn node(mark: &Mark, clips: &mut Clips<'_>) -> Box<dyn Node> {
    match mark {
        Mark::Shape(shape) => path(shape).into(),
        Mark::Words(words) => text(words).into(),
        Mark::Group(group) => group_element(group, clips).into(),
    }
}

fn group_element(group: &Group, clips: &mut Clips<'_>) -> SvgGroup {
    let mut element = SvgGroup::new();
    if let Some(rect) = group.clip {
        let id = format!("{}-{}", clips.name, clips.made.len() + 1);
        let window = Rectangle::new()
            .set("x", number(rect.x0))
            .set("y", number(rect.y0))
            .set("width", number(rect.width()))
            .set("height", number(rect.height()));
        element = element.set("clip-path", format!("url(#{id})"));
        clips.made.push(ClipPath::new().set("id", id).add(window));
    }
    if group.place != Affine::IDENTITY {
        let parts: Vec<String> = group.place.as_coeffs().iter().map(|v| fine(*v)).collect();
        element = element.set("transform", format!("matrix({})", parts.join(" ")));
    }
    for mark in &group.marks {
        element.append(node(mark, clips));
    }
    element
}

fn path(shape: &Shape) -> Path {
    let mut path = Path::new().set("d", data(&shape.path));
    match shape.fill {
        Some(ink) => path = path.set("fill", ink.to_string()).set("fill-rule", "evenodd"),
        None => path = path.set("fill", "none"),
    }
    if let Some(pen) = shape.pen {
        path = path.set("stroke", pen.ink.to_string()).set("stroke-width", number(pen.width));
        path = path.set("stroke-linejoin", "round");
        match pen.dash {
            Some([on, off]) => path = path.set("stroke-dasharray", format!("{} {}", number(on), number(off))),
            None => path = path.set("stroke-linecap", "round"),
        }
    }
    path
}

fn text(words: &Words) -> Text {
    let mut text = Text::new(words.text.clone())
        .set("x", number(words.at.x))
        .set("y", number(words.at.y))
        .set("font-size", number(words.size))
        .set("fill", words.ink.to_string());
    if words.weight == Weight::Bold {
        text = text.set("font-weight", "bold");
    }
    match words.anchor {
        Anchor::Start => {}
        Anchor::Middle => text = text.set("text-anchor", "middle"),
        Anchor::End => text = text.set("text-anchor", "end"),
    }
    if words.turn.abs() > 0.0 {
        let about = format!("{} {}", number(words.at.x), number(words.at.y));
        text = text.set("transform", format!("rotate({} {about})", number(words.turn)));
    }
    text
}

/// Path data with absolute coordinates.
fn data(path: &BezPath) -> String {
    let mut d = String::new();
    let mut put = |letter: char, points: &[crate::geometry::Point]| {
        d.push(letter);
        for (k, p) in points.iter().enumerate() {
            let space = if k == 0 { "" } else { " " };
            write!(d, "{space}{} {}", number(p.x), number(p.y)).expect("writing to a string cannot fail");
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => put('M', &[p]),
            PathEl::LineTo(p) => put('L', &[p]),
            PathEl::QuadTo(a, p) => put('Q', &[a, p]),
            PathEl::CurveTo(a, b, p) => put('C', &[a, b, p]),
            PathEl::ClosePath => put('Z', &[]),
        }
    }
    d
}

/// Hundredths of a millimetre: ten times finer than a screen shows.
fn number(value: f64) -> String {
    ((value * 100.0).round() / 100.0 + 0.0).to_string()
}

/// Factors of a transform need more places than coordinates.
fn fine(value: f64) -> String {
    ((value * 1.0e6).round() / 1.0e6 + 0.0).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;

    #[test]
    fn words_with_angle_brackets_stay_words() {
        let mut drawing = Drawing::new(40.0, 20.0, "a \"test\" & more");
        drawing.words(Words::new("<b> & \"c\"", (2.0, 5.0)));
        let text = inline(&drawing, "test");
        let document = roxmltree::Document::parse(&text).unwrap();
        let words: Vec<&str> = document.descendants().filter_map(|n| n.text().map(str::trim)).collect();
        assert!(words.contains(&"<b> & \"c\""), "{text}");
        assert_eq!(document.root_element().attribute("aria-label"), Some("a \"test\" & more"));
    }

    #[test]
    fn a_file_says_its_size_in_millimetres_and_clips_its_groups() {
        let mut inner = Drawing::new(10.0, 10.0, "");
        inner.rect(Rect::new(-5.0, -5.0, 50.0, 50.0), Some(style::CLOTH), None);
        let mut drawing = Drawing::new(40.5, 20.0, "");
        let place = Affine::translate((3.0, 4.0)) * Affine::scale(0.5);
        let clip = Some(Rect::new(0.0, 0.0, inner.width, inner.height));
        drawing.marks.push(Mark::Group(Group { place, clip, marks: inner.marks }));
        let text = file(&drawing);
        assert!(text.contains("width=\"40.5mm\"") && text.contains("viewBox=\"0 0 40.5 20\""), "{text}");
        assert!(text.contains("clip-path=\"url(#clip-1)\"") && text.contains("matrix(0.5 0 0 0.5 3 4)"), "{text}");
    }
}
