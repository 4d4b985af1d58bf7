//! The SVG parser's tree as painted paths in page millimetres: the only file that names the parser, and the only place
//! where pixels become millimetres.
//!
//! In: the drawing's text with an id on every element. Out: every visible fill and stroke in paint order, with its one
//! colour, its clips and the element it came from, and notes on what cannot be cut. No picture is ever loaded and no
//! font is known, so nothing outside the text is touched.

use std::collections::{BTreeMap, BTreeSet};

use usvg::{ImageHrefResolver, Node, Options, Paint, PaintOrder, Tree, tiny_skia_path::PathSegment};

use super::Colour;
use super::error::ArtError;
use super::labels::{Label, Labelled};
use super::note::Note;
use crate::geometry::overlay::FillRule;
use crate::geometry::{Affine, Point};
use kurbo::{BezPath, Cap, Join, Shape as _};

/// Millimetres in a CSS pixel: 25.4 mm to the inch, 96 pixels to the inch (CSS Values and Units 4, section 6.2).
pub(super) const MM_PER_PIXEL: f64 = 25.4 / 96.0;

/// One fill or one stroke of a path.
#[derive(Clone, Debug)]
pub(super) struct Painted {
    pub(super) label: Label,
    /// In the path's own units; a stroke's width is in the same.
    pub(super) path: BezPath,
    /// From the path's own units to page millimetres.
    pub(super) to_page: Affine,
    pub(super) colour: Colour,
    pub(super) brush: Brush,
    /// Clips that apply, outermost first; each must contain what is kept.
    pub(super) clips: Vec<usize>,
}

/// How a path is painted.
#[derive(Clone, Debug)]
pub(super) enum Brush {
    Fill(FillRule),
    Stroke(kurbo::Stroke),
}

/// A clip: the fills whose areas together let the drawing through.
#[derive(Clone, Debug)]
pub(super) struct Clip {
    pub(super) label: Label,
    pub(super) fills: Vec<Painted>,
}

/// Everything painted, in paint order.
#[derive(Debug, Default)]
pub(super) struct Drawn {
    pub(super) painted: Vec<Painted>,
    pub(super) clips: Vec<Clip>,
    pub(super) notes: Vec<Note>,
    /// Width of the page in millimetres.
    pub(super) page_width: f64,
    /// Ids of everything the parser handed on, drawn or not.
    pub(super) seen: BTreeSet<String>,
    /// Where texts, pictures, groups and shapes lie.
    pub(super) places: BTreeMap<Label, Point>,
}

/// Parses the text and walks the tree.
pub(super) fn read(labelled: &Labelled, file: &str) -> Result<Drawn, ArtError> {
    let tree = parse(labelled, file)?;
    let page_width = f64::from(tree.size().width()) * MM_PER_PIXEL;
    let mut walk = Walk { labelled, drawn: Drawn { page_width, ..Drawn::default() } };
    let root = Surroundings {
        label: Label { element: "drawing".to_owned(), line: None },
        transform: Affine::scale(MM_PER_PIXEL),
        clips: Vec::new(),
    };
    walk.group(tree.root(), &root);
    Ok(walk.drawn)
}

/// The lines of the elements with these ids, painted or not, in page millimetres; a group's are those of all inside it.
pub(super) fn lines(
    labelled: &Labelled,
    file: &str,
    ids: &BTreeSet<String>,
) -> Result<BTreeMap<String, BezPath>, ArtError> {
    let tree = parse(labelled, file)?;
    let mut lines = BTreeMap::new();
    collect(tree.root(), Affine::scale(MM_PER_PIXEL), ids, &mut Vec::new(), &mut lines);
    Ok(lines)
}

/// Adds the lines of a group to those of every wanted element that holds it.
fn collect<'t>(
    group: &'t usvg::Group,
    around: Affine,
    ids: &BTreeSet<String>,
    holders: &mut Vec<&'t str>,
    lines: &mut BTreeMap<String, BezPath>,
) {
    for node in group.children() {
        let held = holders.len();
        if ids.contains(node.id()) && !holders.contains(&node.id()) {
            holders.push(node.id());
        }
        match node {
            Node::Group(child) => collect(child, around * affine(child.transform()), ids, holders, lines),
            Node::Path(path) if !holders.is_empty() => {
                let line = around * bez_path(path.data());
                for id in holders.iter() {
                    lines.entry((*id).to_owned()).or_default().extend(line.iter());
                }
            }
            Node::Path(_) | Node::Image(_) | Node::Text(_) => {}
        }
        holders.truncate(held);
    }
}

fn parse(labelled: &Labelled, file: &str) -> Result<Tree, ArtError> {
    let document = super::hostile::parse(&labelled.svg, file)?;
    let options = Options {
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..Options::default()
    };
    Tree::from_xmltree(&document, &options).map_err(|error| match error {
        usvg::Error::InvalidSize => ArtError::BadSize { file: file.to_owned() },
        usvg::Error::ElementsLimitReached => {
            super::hostile::excess(file, super::Excess::Elements, super::hostile::MOST_ELEMENTS.into())
        }
        // Copies that lead back to themselves by a detour are followed until the parser's own limit on depth.
        usvg::Error::ParsingFailed(roxmltree::Error::NodesLimitReached) => {
            super::hostile::excess(file, super::Excess::Depth, super::hostile::DEEPEST.into())
        }
        other => ArtError::Refused { file: file.to_owned(), what: other.to_string() },
    })
}

/// What a node inherits from the groups round it.
#[derive(Clone)]
struct Surroundings {
    label: Label,
    transform: Affine,
    clips: Vec<usize>,
}

struct Walk<'a> {
    labelled: &'a Labelled,
    drawn: Drawn,
}

impl Walk<'_> {
    /// Walks a group; true when anything in it was handed on, drawn or not.
    fn group(&mut self, group: &usvg::Group, around: &Surroundings) -> bool {
        let mut inner = around.clone();
        inner.transform = around.transform * affine(group.transform());
        self.name(group.id(), &mut inner.label);
        // The effects of an unnamed group belong to the one element inside it.
        let label = if group.id().is_empty() {
            self.first_label(group).unwrap_or(inner.label.clone())
        } else {
            inner.label.clone()
        };
        let told = self.drawn.notes.len();
        let area = group.abs_bounding_box();
        let at = Point::new(f64::from(area.x() + area.width() / 2.0), f64::from(area.y() + area.height() / 2.0));
        let at = Affine::scale(MM_PER_PIXEL) * at;
        self.place(&label, at);
        if group.opacity().get() <= 0.0 {
            self.drawn.notes.push(invisible(label, "It is fully transparent.").at(at));
            return true;
        }
        if group.opacity().get() < 1.0 {
            self.drawn.notes.push(see_through(label.clone(), group.opacity().get()));
        }
        if group.mask().is_some() {
            self.drawn.notes.push(Note::stops(
                "mask",
                label.clone(),
                "A mask hides or fades part of this.",
                "It cannot be followed exactly. Cut the shape to its visible part in your drawing tool.",
            ));
        }
        if !group.filters().is_empty() {
            self.drawn.notes.push(Note::look(
                "filter",
                label.clone(),
                "A shadow, blur or other effect is set on this.",
                "The plain shape was used without it.",
            ));
        }
        if group.blend_mode() != usvg::BlendMode::Normal {
            self.drawn.notes.push(Note::look(
                "blending",
                label.clone(),
                "Its colour mixes with what lies below.",
                "Film does not mix: its own colour was used.",
            ));
        }
        for note in &mut self.drawn.notes[told..] {
            note.at = Some(at);
        }
        if let Some(clip) = group.clip_path() {
            self.clip(clip, &label, &mut inner);
        }
        let mut any = false;
        for node in group.children() {
            let handed_on = match node {
                Node::Group(child) => self.group(child, &inner),
                Node::Path(path) => {
                    self.path(path, &inner);
                    true
                }
                // Both are noted from the tree of elements, where their line is known.
                Node::Image(_) | Node::Text(_) => true,
            };
            if handed_on {
                self.drawn.seen.insert(node.id().to_owned());
            }
            any |= handed_on;
        }
        any
    }

    /// Keeps where an element lies, for what was noted about it before: the first of its copies.
    fn place(&mut self, label: &Label, at: Point) {
        if label.line.is_some() {
            self.drawn.places.entry(label.clone()).or_insert(at);
        }
    }

    fn name(&self, id: &str, label: &mut Label) {
        if let Some(found) = self.labelled.by_id.get(id) {
            *label = found.clone();
        }
    }

    fn first_label(&self, group: &usvg::Group) -> Option<Label> {
        group.children().iter().find_map(|node| match node {
            Node::Group(child) => self.labelled.by_id.get(child.id()).cloned().or_else(|| self.first_label(child)),
            Node::Path(path) => self.labelled.by_id.get(path.id()).cloned(),
            Node::Image(_) | Node::Text(_) => None,
        })
    }

    fn clip(&mut self, clip: &usvg::ClipPath, label: &Label, inner: &mut Surroundings) {
        let mut next = Some(clip);
        while let Some(clip) = next {
            let around = Surroundings {
                label: label.clone(),
                transform: inner.transform * affine(clip.transform()),
                clips: Vec::new(),
            };
            let mut walk = Walk { labelled: self.labelled, drawn: Drawn::default() };
            // Clips inside clips keep their own list, numbered on from this one.
            walk.drawn.clips = std::mem::take(&mut self.drawn.clips);
            walk.group(clip.root(), &around);
            self.drawn.clips = walk.drawn.clips;
            inner.clips.push(self.drawn.clips.len());
            self.drawn.clips.push(Clip { label: label.clone(), fills: walk.drawn.painted });
            next = clip.clip_path();
        }
    }

    fn path(&mut self, path: &usvg::Path, around: &Surroundings) {
        let mut label = around.label.clone();
        self.name(path.id(), &mut label);
        let geometry = bez_path(path.data());
        let middle = middle(&geometry, around.transform);
        if let Some(place) = self.labelled.places.get(path.id()) {
            let corner = around.transform * geometry.bounding_box().origin();
            let at = if place_is_text(&geometry) { corner } else { middle };
            self.drawn.places.insert(place.clone(), at);
            return;
        }
        self.place(&label, middle);
        if !path.is_visible() {
            let why = if path.fill().is_none() && path.stroke().is_none() {
                "It has neither fill nor line."
            } else {
                "It is hidden."
            };
            self.drawn.notes.push(invisible(label, why).at(middle));
            return;
        }
        let told = self.drawn.notes.len();
        let painted = |paint, brush, notes: &mut Vec<Note>| -> Option<Painted> {
            Some(Painted {
                label: label.clone(),
                path: geometry.clone(),
                to_page: around.transform,
                colour: one_colour(paint, &label, notes)?,
                brush,
                clips: around.clips.clone(),
            })
        };
        let notes = &mut self.drawn.notes;
        let fill = path
            .fill()
            .filter(|fill| shows(fill.opacity().get(), &label, notes))
            .and_then(|fill| painted(fill.paint(), Brush::Fill(fill_rule(fill.rule())), notes));
        let stroke = path
            .stroke()
            .filter(|stroke| shows(stroke.opacity().get(), &label, notes))
            .and_then(|stroke| painted(stroke.paint(), Brush::Stroke(kurbo_stroke(stroke)), notes));
        for note in &mut self.drawn.notes[told..] {
            note.at = Some(middle);
        }
        match path.paint_order() {
            PaintOrder::FillAndStroke => self.drawn.painted.extend(fill.into_iter().chain(stroke)),
            PaintOrder::StrokeAndFill => self.drawn.painted.extend(stroke.into_iter().chain(fill)),
        }
    }
}

fn middle(path: &BezPath, to_page: Affine) -> Point {
    (to_page * path.clone()).bounding_box().center()
}

/// Text is marked by a dot, pictures by their frame.
fn place_is_text(stand_in: &BezPath) -> bool {
    stand_in.bounding_box().width() <= 0.02
}

fn invisible(label: Label, why: &str) -> Note {
    let say = format!("An invisible shape lies here. {why}");
    Note::look("hidden-shape", label, say, "It was left out. Tell me if it was meant to be cut: give it a plain fill.")
}

fn see_through(label: Label, opacity: f32) -> Note {
    let say = format!("It is see-through ({:.0} %).", opacity * 100.0);
    Note::look("see-through", label, say, "Film is opaque: its full colour was used.")
}

fn shows(opacity: f32, label: &Label, notes: &mut Vec<Note>) -> bool {
    if opacity <= 0.0 {
        notes.push(invisible(label.clone(), "Its colour is fully transparent."));
    } else if opacity < 1.0 {
        notes.push(see_through(label.clone(), opacity));
    }
    opacity > 0.0
}

/// The one colour film can have; gradients and patterns are noted.
fn one_colour(paint: &Paint, label: &Label, notes: &mut Vec<Note>) -> Option<Colour> {
    let (stops, kind) = match paint {
        Paint::Color(colour) => return Some(rgb(*colour)),
        Paint::LinearGradient(gradient) => (gradient.stops(), "gradient"),
        Paint::RadialGradient(gradient) => (gradient.stops(), "gradient"),
        Paint::Pattern(pattern) => return Some(pattern_colour(pattern, label, notes)),
    };
    let first = rgb(stops.first()?.color());
    let last = rgb(stops.last()?.color());
    notes.push(Note::look(
        kind,
        label.clone(),
        format!("Its colour fades from {first} to {last}."),
        format!("Film is one colour: {first} was used. Give it a plain colour, or split it into two shapes."),
    ));
    Some(first)
}

fn pattern_colour(pattern: &usvg::Pattern, label: &Label, notes: &mut Vec<Note>) -> Colour {
    fn first_fill(group: &usvg::Group) -> Option<Colour> {
        group.children().iter().find_map(|node| match node {
            Node::Group(child) => first_fill(child),
            Node::Path(path) => match path.fill()?.paint() {
                Paint::Color(colour) => Some(rgb(*colour)),
                _ => None,
            },
            _ => None,
        })
    }
    let colour = first_fill(pattern.root()).unwrap_or(Colour { red: 0, green: 0, blue: 0 });
    notes.push(Note::look(
        "pattern",
        label.clone(),
        "It is filled with a repeated pattern.",
        format!("Film is one colour: {colour} was used. Give it a plain colour."),
    ));
    colour
}

const fn rgb(colour: usvg::Color) -> Colour {
    Colour { red: colour.red, green: colour.green, blue: colour.blue }
}

const fn fill_rule(rule: usvg::FillRule) -> FillRule {
    match rule {
        usvg::FillRule::NonZero => FillRule::NonZero,
        usvg::FillRule::EvenOdd => FillRule::EvenOdd,
    }
}

fn kurbo_stroke(stroke: &usvg::Stroke) -> kurbo::Stroke {
    let cap = match stroke.linecap() {
        usvg::LineCap::Butt => Cap::Butt,
        usvg::LineCap::Round => Cap::Round,
        usvg::LineCap::Square => Cap::Square,
    };
    let join = match stroke.linejoin() {
        usvg::LineJoin::Miter | usvg::LineJoin::MiterClip => Join::Miter,
        usvg::LineJoin::Round => Join::Round,
        usvg::LineJoin::Bevel => Join::Bevel,
    };
    let dashes = stroke.dasharray().unwrap_or_default().iter().map(|dash| f64::from(*dash));
    kurbo::Stroke::new(f64::from(stroke.width().get()))
        .with_caps(cap)
        .with_join(join)
        .with_miter_limit(f64::from(stroke.miterlimit().get()))
        .with_dashes(f64::from(stroke.dashoffset()), dashes)
}

fn affine(transform: usvg::Transform) -> Affine {
    let usvg::Transform { sx, kx, ky, sy, tx, ty } = transform;
    Affine::new([sx, ky, kx, sy, tx, ty].map(f64::from))
}

fn bez_path(data: &usvg::tiny_skia_path::Path) -> BezPath {
    let point = |p: usvg::tiny_skia_path::Point| Point::new(f64::from(p.x), f64::from(p.y));
    let mut path = BezPath::new();
    for segment in data.segments() {
        match segment {
            PathSegment::MoveTo(p) => path.move_to(point(p)),
            PathSegment::LineTo(p) => path.line_to(point(p)),
            PathSegment::QuadTo(c, p) => path.quad_to(point(c), point(p)),
            PathSegment::CubicTo(c, d, p) => path.curve_to(point(c), point(d), point(p)),
            PathSegment::Close => path.close_path(),
        }
    }
    path
}
