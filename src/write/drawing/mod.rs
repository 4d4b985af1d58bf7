//! A picture as a list of marks in millimetres on paper; the same list becomes SVG, PNG or a page of the workbook.
//!
//! Knows no plan: shapes, words and groups only. y runs down from the upper left corner.

pub(crate) mod pdf;
pub(crate) mod png;
pub(crate) mod svg_text;

use kurbo::{BezPath, Shape as _};

use super::lettering::{self, Weight};
use super::style::{self, Ink};
use crate::geometry::{Affine, Outline, Point, Rect, Ring, Vec2};

/// A picture on its own paper.
#[derive(Clone, Debug)]
pub(crate) struct Drawing {
    /// Width of the paper in mm.
    pub(crate) width: f64,
    /// Height of the paper in mm.
    pub(crate) height: f64,
    /// What the picture shows, for those who cannot see it.
    pub(crate) says: String,
    /// In painting order.
    pub(crate) marks: Vec<Mark>,
}

/// One thing painted.
#[derive(Clone, Debug)]
pub(crate) enum Mark {
    Shape(Shape),
    Words(Words),
    Group(Group),
}

impl Mark {
    /// Moves it on its paper.
    pub(crate) fn shift(&mut self, by: Vec2) {
        match self {
            Self::Shape(shape) => shape.path.apply_affine(Affine::translate(by)),
            Self::Words(words) => words.at += by,
            Self::Group(group) => group.place = Affine::translate(by) * group.place,
        }
    }
}

/// An area, a line, or both; overlapping rings follow the even-odd rule.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    pub(crate) path: BezPath,
    pub(crate) fill: Option<Ink>,
    pub(crate) pen: Option<Pen>,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pen {
    pub(crate) ink: Ink,
    pub(crate) width: f64,
    /// Length on and off.
    pub(crate) dash: Option<[f64; 2]>,
}

impl Pen {
    pub(crate) const fn new(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: None }
    }

    pub(crate) const fn dashed(self, dash: [f64; 2]) -> Self {
        Self { dash: Some(dash), ..self }
    }
}

/// One line of words.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    /// On the baseline: start, middle or end by `anchor`.
    pub(crate) at: Point,
    pub(crate) text: String,
    pub(crate) size: f64,
    pub(crate) weight: Weight,
    pub(crate) ink: Ink,
    pub(crate) anchor: Anchor,
    /// Turn about `at`, degrees clockwise.
    pub(crate) turn: f64,
}

/// Which part of the words lies at their point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

impl Words {
    /// Regular body words from a starting point, to be changed with the methods below.
    pub(crate) fn new(text: impl Into<String>, at: impl Into<Point>) -> Self {
        Self {
            at: at.into(),
            text: text.into(),
            size: style::BODY,
            weight: Weight::Regular,
            ink: style::TEXT,
            anchor: Anchor::Start,
            turn: 0.0,
        }
    }

    pub(crate) const fn size(mut self, size: f64) -> Self {
        self.size = size;
        self
    }

    pub(crate) const fn bold(mut self) -> Self {
        self.weight = Weight::Bold;
        self
    }

    pub(crate) const fn ink(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    pub(crate) const fn anchor(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// Moves the baseline down so that capitals are centred on the point.
    pub(crate) fn centred(mut self) -> Self {
        self.at.y += self.size * lettering::CAP_HEIGHT / 2.0;
        self.anchor(Anchor::Middle)
    }

    /// The same, cut short where they would take more than `room`.
    pub(crate) fn within(mut self, room: f64) -> Self {
        self.text = lettering::fitted(&self.text, self.size, self.weight, room);
        self
    }

    pub(crate) fn width(&self) -> f64 {
        lettering::width(&self.text, self.size, self.weight)
    }

    /// Room the words take, turned words not considered.
    pub(crate) fn bounds(&self) -> Rect {
        let width = self.width();
        let x0 = self.at.x
            - match self.anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => width / 2.0,
                Anchor::End => width,
            };
        Rect::new(x0, self.at.y - self.size * 0.78, x0 + width, self.at.y + self.size * 0.22)
    }
}

/// Marks moved together, and cut off outside a rectangle where one is given (in the group's own frame).
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) place: Affine,
    pub(crate) clip: Option<Rect>,
    pub(crate) marks: Vec<Mark>,
}

impl Drawing {
    /// Empty paper.
    pub(crate) fn new(width: f64, height: f64, says: impl Into<String>) -> Self {
        Self { width, height, says: says.into(), marks: Vec::new() }
    }

    pub(crate) fn words(&mut self, words: Words) {
        self.marks.push(Mark::Words(words));
    }

    /// Words over several lines; returns the baseline of the next line.
    pub(crate) fn paragraph(&mut self, words: &Words, room: f64) -> f64 {
        let mut y = words.at.y;
        for line in lettering::lines(&words.text, words.size, words.weight, room) {
            self.words(Words { text: line, at: Point::new(words.at.x, y), ..words.clone() });
            y += words.size * style::LEADING;
        }
        y
    }

    pub(crate) fn line(&mut self, from: impl Into<Point>, to: impl Into<Point>, pen: Pen) {
        let mut path = BezPath::new();
        path.move_to(from.into());
        path.line_to(to.into());
        self.stroke(path, pen);
    }

    /// An open line through points.
    pub(crate) fn polyline(&mut self, points: impl IntoIterator<Item = Point>, pen: Pen) {
        let mut path = BezPath::new();
        for (k, point) in points.into_iter().enumerate() {
            if k == 0 { path.move_to(point) } else { path.line_to(point) }
        }
        self.stroke(path, pen);
    }

    pub(crate) fn stroke(&mut self, path: BezPath, pen: Pen) {
        self.shape(path, None, Some(pen));
    }

    pub(crate) fn shape(&mut self, path: BezPath, fill: Option<Ink>, pen: Option<Pen>) {
        if !path.elements().is_empty() {
            self.marks.push(Mark::Shape(Shape { path, fill, pen }));
        }
    }

    pub(crate) fn rect(&mut self, rect: Rect, fill: Option<Ink>, pen: Option<Pen>) {
        self.shape(rect.to_path(0.01), fill, pen);
    }

    pub(crate) fn dot(&mut self, at: Point, radius: f64, fill: Ink) {
        self.shape(kurbo::Circle::new(at, radius).to_path(0.01), Some(fill), None);
    }

    /// An area with its holes, moved to the paper.
    pub(crate) fn outline(&mut self, outline: &Outline, place: Affine, fill: Option<Ink>, pen: Option<Pen>) {
        self.shape(outline_path(outline, place), fill, pen);
    }
}

/// Edges shorter than this on paper, in mm, are drawn together: finer than any screen or printer shows.
const THINNEST: f64 = 0.05;

/// A ring as a closed path, thinned to what can be seen.
pub(crate) fn ring_path(ring: &Ring, place: Affine) -> BezPath {
    let mut path = BezPath::new();
    append_ring(&mut path, ring, place);
    path
}

/// All rings of an area as one path.
pub(crate) fn outline_path(outline: &Outline, place: Affine) -> BezPath {
    let mut path = BezPath::new();
    for ring in outline.rings() {
        append_ring(&mut path, ring, place);
    }
    path
}

fn append_ring(path: &mut BezPath, ring: &Ring, place: Affine) {
    let mut last: Option<Point> = None;
    for point in ring.points().iter().map(|p| place * *p) {
        match last {
            None => path.move_to(point),
            Some(last) if last.distance(point) < THINNEST => continue,
            Some(_) => path.line_to(point),
        }
        last = Some(point);
    }
    path.close_path();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_moves_no_edge_by_more_than_can_be_seen() {
        let circle = Ring::new((0..4000).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / 4000.0;
            Point::new(10.0 * angle.cos(), 10.0 * angle.sin())
        }))
        .unwrap();
        let path = ring_path(&circle, Affine::IDENTITY);
        assert!(path.elements().len() < 1400);
        assert!((path.area().abs() - circle.area()).abs() < 0.05);
    }
}
