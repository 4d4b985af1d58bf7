//! Painted paths to shapes: flattened, closed, filled by their rule and clipped, with a note on everything repaired.

use kurbo::{BezPath, PathEl, Shape as _};

use super::edge_grid;
use super::error::{ArtError, Excess};
use super::labels::Label;
use super::limits::LimitsByColour;
use super::note::{Measure, Note, grouped};
use super::simplify;
use super::stroke::{self, Dashes};
use super::svg::{Brush, Clip, Drawn, Painted};
use super::{Colour, hostile};
use crate::geometry::flatten::{Stretch, TOLERANCE, stretches};
use crate::geometry::overlay::{self, FillRule};
use crate::geometry::{Outline, Point, Ring, bounds};

/// Most points on all flattened outlines of one drawing.
pub(super) const MOST_POINTS: u64 = 200_000;

/// Ends nearer than this were meant to meet: rounding of written coordinates, not an opening.
const MEETS: f64 = 1e-3;

/// One painted path as an area, with the outlines it was drawn by.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The element.
    pub label: Label,
    /// Its one colour.
    pub colour: Colour,
    /// Fill or line.
    pub drawn_as: DrawnAs,
    /// The outlines as drawn, closed: they may cross themselves or each other.
    pub rings: Vec<DrawnRing>,
    /// The areas they enclose.
    pub areas: Vec<Outline>,
}

/// How the shape stands in the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DrawnAs {
    /// A filled path.
    Fill,
    /// A line with this finished width.
    Line {
        /// Width in finished millimetres.
        width: f64,
    },
}

/// An outline as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnRing {
    /// Flattened.
    pub ring: Ring,
    /// Points that were drawn by hand or tracing, before curves were flattened.
    pub drawn_points: usize,
}

/// Turns paint into shapes at `scale` times the page size, dropping what covers nothing.
pub(super) fn shapes(
    drawn: &Drawn,
    scale: f64,
    file: &str,
    limits: &LimitsByColour,
) -> Result<(Vec<Shape>, Vec<Note>), ArtError> {
    let mut maker = Maker { file, scale, limits, points: 0, crossings: edge_grid::MOST_PAIRS, notes: Vec::new() };
    let clips = drawn.clips.iter().map(|clip| maker.clip(clip)).collect::<Result<Vec<_>, _>>()?;
    let mut shapes = Vec::new();
    for painted in &drawn.painted {
        shapes.extend(maker.shape(painted, &clips)?);
    }
    Ok((shapes, maker.notes))
}

struct ClipArea {
    label: Label,
    areas: Vec<Outline>,
}

struct Maker<'a> {
    file: &'a str,
    scale: f64,
    limits: &'a LimitsByColour,
    points: u64,
    crossings: usize,
    notes: Vec<Note>,
}

impl Maker<'_> {
    fn shape(&mut self, painted: &Painted, clips: &[ClipArea]) -> Result<Option<Shape>, ArtError> {
        let area = stroke::area(painted, self.scale);
        let (rule, drawn_as) = match &painted.brush {
            Brush::Fill(rule) => (*rule, DrawnAs::Fill),
            Brush::Stroke(style) => {
                let width = style.width * stroke::growth(painted.to_page) * self.scale;
                self.note_line(painted, width, area.dashes);
                (FillRule::NonZero, DrawnAs::Line { width })
            }
        };
        let rings = self.rings(painted, &area.path)?;
        let filled = self.filled(&rings, rule)?;
        if filled.is_empty() {
            let note = Note::look(
                "no-area",
                painted.label.clone(),
                "It encloses no area.",
                "It was left out: nothing of it can be cut. Delete it, or give its line a width.",
            );
            self.notes.push(note.at(self.middle(painted)));
            return Ok(None);
        }
        let areas = self.clipped(painted, filled, clips);
        let shape = Shape { label: painted.label.clone(), colour: painted.colour, drawn_as, rings, areas };
        Ok((!shape.areas.is_empty()).then_some(shape))
    }

    fn rings(&mut self, painted: &Painted, path: &BezPath) -> Result<Vec<DrawnRing>, ArtError> {
        let out_of_range = || ArtError::OutOfRange {
            file: self.file.to_owned(),
            element: painted.label.element.clone(),
            line: painted.label.line,
        };
        let expected = edges_when_flat(path);
        if !expected.is_finite() {
            return Err(out_of_range());
        }
        if self.points as f64 + expected > MOST_POINTS as f64 {
            return Err(hostile::excess(self.file, Excess::Points, MOST_POINTS));
        }
        let mut rings = Vec::new();
        for (stretch, drawn_points) in stretches(path, TOLERANCE).into_iter().zip(points_drawn(path)) {
            self.points += stretch.points.len() as u64;
            match Ring::new(stretch.points.iter().copied()) {
                Ok(ring) => {
                    if matches!(painted.brush, Brush::Fill(_)) {
                        self.note_opening(painted, &stretch, &ring);
                    }
                    rings.push(self.eased(painted, DrawnRing { ring, drawn_points }));
                }
                Err(crate::geometry::RingError::TooFewPoints) => {}
                Err(_) => return Err(out_of_range()),
            }
        }
        Ok(rings)
    }

    fn filled(&mut self, rings: &[DrawnRing], rule: FillRule) -> Result<Vec<Outline>, ArtError> {
        let rings: Vec<Ring> = rings.iter().map(|drawn| drawn.ring.clone()).collect();
        self.crossings = edge_grid::spend_on_crossings(&rings, self.crossings)
            .ok_or_else(|| hostile::excess(self.file, Excess::Crossings, edge_grid::MOST_PAIRS as u64))?;
        Ok(overlay::filled(&rings, rule))
    }

    fn clip(&mut self, clip: &Clip) -> Result<ClipArea, ArtError> {
        let mut areas = Vec::new();
        for fill in &clip.fills {
            let Brush::Fill(rule) = fill.brush else { continue };
            let rings = self.rings(fill, &stroke::area(fill, self.scale).path)?;
            areas.extend(self.filled(&rings, rule)?);
        }
        // What was noted about the clip's own outlines does not matter: they are never cut.
        self.notes.clear();
        Ok(ClipArea { label: clip.label.clone(), areas: overlay::union(&areas) })
    }

    fn clipped(&mut self, painted: &Painted, whole: Vec<Outline>, clips: &[ClipArea]) -> Vec<Outline> {
        let mut kept = whole;
        for clip in painted.clips.iter().filter_map(|index| clips.get(*index)) {
            let before = overlay::area(&kept);
            let inside = overlay::intersection(&kept, &clip.areas);
            let lost = before - overlay::area(&inside);
            // A clip that cuts nothing, as the page's own frame does, keeps the outline untouched.
            if lost <= CLIPPED_NOTHING * before.max(1.0) {
                continue;
            }
            let at = bounds(&inside).map(|rect| rect.center());
            let note = Note::fixed(
                "clipped",
                if clip.label.line.is_some() { clip.label.clone() } else { painted.label.clone() },
                format!("{} is cut off by a clip: {lost:.1} mm² of it do not show.", painted.label.element),
                "Only the part that shows was kept.",
            );
            self.notes.push(match at {
                Some(at) => note.at(at),
                None => note,
            });
            kept = inside;
        }
        kept
    }

    /// The ring with fewer points, where it has far more than its shape needs.
    fn eased(&mut self, painted: &Painted, drawn: DrawnRing) -> DrawnRing {
        let limits = self.limits.of(painted.colour);
        if (drawn.drawn_points as f64) < limits.points {
            return drawn;
        }
        let Some((ring, moved)) = simplify::simplified(&drawn.ring, limits.simplified.get()) else { return drawn };
        if (drawn.drawn_points as f64) < limits.points_for_shape * ring.points().len() as f64 {
            return drawn;
        }
        let (size, left) = (ring.bounds(), ring.points().len());
        let note = Note::fixed(
            "too-many-points",
            painted.label.clone(),
            format!(
                "{} points in an outline of {}, {:.0} mm large.",
                grouped(drawn.drawn_points),
                painted.label.element,
                size.width().max(size.height())
            ),
            format!("It was simplified within {moved:.2} mm: {} points.", grouped(left)),
        );
        self.notes.push(note.at(ring.points()[0]).measured(Measure::Points(drawn.drawn_points)));
        DrawnRing { ring, drawn_points: drawn.drawn_points }
    }

    fn note_opening(&mut self, painted: &Painted, stretch: &Stretch, ring: &Ring) {
        let (Some(first), Some(last)) = (stretch.points.first(), stretch.points.last()) else { return };
        let gap = first.distance(*last);
        if stretch.closed || gap <= MEETS {
            return;
        }
        let at = first.midpoint(*last);
        let side = side_words(ring, at);
        let say = format!("The outline of {} has a {gap:.1} mm opening {side}.", painted.label.element);
        let note = if gap <= self.limits.of(painted.colour).opening.get() {
            Note::fixed("open-outline", painted.label.clone(), say, "It was closed with a straight join: check it.")
        } else {
            Note::stops(
                "open-outline",
                painted.label.clone(),
                say,
                "Close it in your drawing tool: a straight join over so wide an opening may not be what you meant.",
            )
        };
        self.notes.push(note.at(at).measuring(gap));
    }

    fn note_line(&mut self, painted: &Painted, width: f64, dashes: Dashes) {
        let closed = painted.path.elements().iter().any(|element| matches!(element, PathEl::ClosePath));
        let say = format!("{} is a {width:.1} mm line, not a shape.", painted.label.element);
        let advice = if closed {
            format!(
                "It was turned into a shape {width:.1} mm wide. If the area inside it is meant, give it a fill and no line."
            )
        } else {
            format!("It was turned into a shape {width:.1} mm wide.")
        };
        let at = self.middle(painted);
        self.notes.push(Note::fixed("line-as-shape", painted.label.clone(), say, advice).at(at).measuring(width));
        if dashes == Dashes::TooMany {
            let note = Note::look(
                "too-many-dashes",
                painted.label.clone(),
                format!("{} is a dashed line with thousands of dashes.", painted.label.element),
                "It was taken as solid.",
            );
            self.notes.push(note.at(at));
        }
    }

    /// The middle of a path's box.
    fn middle(&self, painted: &Painted) -> Point {
        (painted.to_page.then_scale(self.scale) * painted.path.clone()).bounding_box().center()
    }
}

/// Share of a shape's area below which a clip is taken to cut nothing; the overlay's own noise is far smaller.
const CLIPPED_NOTHING: f64 = 1e-4;

/// Where on a ring a point lies, in words.
fn side_words(ring: &Ring, at: Point) -> &'static str {
    let bounds = ring.bounds();
    let across = (at.x - bounds.center().x) / bounds.width().max(1e-9);
    let down = (at.y - bounds.center().y) / bounds.height().max(1e-9);
    match (across.abs() > down.abs(), across > 0.0, down > 0.0) {
        (true, true, _) => "on its right",
        (true, false, _) => "on its left",
        (false, _, true) => "at its lower end",
        (false, _, false) => "at its upper end",
    }
}

/// An upper bound on the edges a path becomes when flattened, from the second differences of its curves
/// (L. Wang's formula for the parametric error of a chord); infinite when a coordinate is.
fn edges_when_flat(path: &BezPath) -> f64 {
    let edges = |segment: kurbo::PathSeg| match segment {
        kurbo::PathSeg::Line(line) => 1.0 + 0.0 * (line.p0.to_vec2() + line.p1.to_vec2()).hypot(),
        other => {
            let curve = other.to_cubic();
            let bend = |a: Point, b: Point, c: Point| ((a.to_vec2() - 2.0 * b.to_vec2()) + c.to_vec2()).hypot();
            let most = bend(curve.p0, curve.p1, curve.p2).max(bend(curve.p1, curve.p2, curve.p3));
            let ends = (curve.p0.to_vec2() + curve.p3.to_vec2()).hypot();
            1.0 + (0.75 * most / TOLERANCE).sqrt() + 0.0 * ends
        }
    };
    path.segments().map(edges).sum()
}

/// Points drawn in each stretch that flattening gives, in the same order.
fn points_drawn(path: &BezPath) -> Vec<usize> {
    let mut counts = Vec::new();
    let mut points = 0_usize;
    for element in path.elements() {
        match element {
            PathEl::MoveTo(_) | PathEl::ClosePath => {
                counts.extend((points > 1).then_some(points));
                points = 1;
            }
            _ => points += 1,
        }
    }
    counts.extend((points > 1).then_some(points));
    counts
}
