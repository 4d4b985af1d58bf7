//! How far one colour lies over another, and where ground would show if it is pressed a hair off.
//!
//! Ground can show only where the lower colour ends under the upper one and no third colour hides the place. Along each stretch of such an edge the distance
//! to the upper colour's own edge is the overlap. A whole ring of lower edge (a ring of petals under a round centre) is as
//! good as its least overlap; a stretch that runs in under the upper colour (a stem under a flower) reaches as deep as its
//! farthest point.

use super::super::edge_grid::EdgeGrid;
use super::super::note::Note;
use super::super::{Colour, Layer};
use super::{Subject, rings};
use crate::geometry::{Point, Rect, Ring, bounds};

/// Longest way along an edge between two points measured, in millimetres.
const STEP: f64 = 0.25;

/// Colours nearer than this along a stretch of [`MEETS_ALONG`] meet edge to edge.
const MEETS: f64 = 0.2;

/// A shorter common stretch is a touch, not a seam between colours.
const MEETS_ALONG: f64 = 1.0;

/// Overlaps are measured up to this, in millimetres: more is never wrong.
const DEEP: f64 = 12.0;

/// Most pairs of layers measured; a motif of more than 30 layers is measured in part.
const MOST_PAIRS: usize = 500;

/// Most other layers that are asked whether they hide a place.
const MOST_ABOVE: usize = 30;

/// One colour over another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overlap {
    /// Index of the upper layer.
    pub upper: usize,
    /// Index of the lower layer.
    pub lower: usize,
    /// How far it lies over at the place where that is least, in millimetres; zero where they only meet, never told as
    /// more than 12.
    pub least: f64,
    /// That place.
    pub at: Point,
}

pub(super) fn check(subject: &Subject<'_>) -> (Vec<Overlap>, Vec<Note>) {
    let layers = subject.layers;
    let grids: Vec<Option<EdgeGrid>> = layers.iter().map(|layer| EdgeGrid::new(&rings(&layer.outlines))).collect();
    let mut overlaps = Vec::new();
    let mut notes = Vec::new();
    let mut pairs = 0;
    for (upper, grid) in grids.iter().enumerate() {
        for lower in 0..upper {
            pairs += 1;
            if pairs > MOST_PAIRS {
                return (overlaps, notes);
            }
            let (Some(grid), false) = (grid, layers[upper].colour == layers[lower].colour) else { continue };
            let others =
                (lower + 1..layers.len()).filter(|k| *k != upper).take(MOST_ABOVE).map(|k| &layers[k]).collect();
            let pair = Pair { lower: &layers[lower], upper: &layers[upper], upper_edges: grid, others };
            let Some((least, at)) = pair.least_overlap() else { continue };
            overlaps.push(Overlap { upper, lower, least, at });
            notes.extend(note(subject, [upper, lower], least, at));
        }
    }
    (overlaps, notes)
}

fn note(subject: &Subject<'_>, [upper, lower]: [usize; 2], least: f64, at: Point) -> Option<Note> {
    let (over, under): (Colour, Colour) = (subject.layers[upper].colour, subject.layers[lower].colour);
    let limit = subject.limits.of(over).overlap;
    if least >= limit.get() {
        return None;
    }
    let label = subject.label(over, at);
    let note = if least > 0.0 {
        Note::look(
            "small-overlap",
            label.clone(),
            format!("{} lies over {under} by only {least:.1} mm.", label.element),
            format!(
                "Ground will show if it is pressed off by a hair. Let the lower colour reach at least {limit} under it."
            ),
        )
    } else {
        Note::look(
            "edge-to-edge",
            label.clone(),
            format!("{} and {under} only meet edge to edge.", label.element),
            format!("Ground will show between them. Let the lower colour reach at least {limit} under the upper one."),
        )
    };
    Some(note.at(at).measuring(least))
}

/// Two layers, and the others above the lower one, under which its edge may be hidden.
struct Pair<'a> {
    lower: &'a Layer,
    upper: &'a Layer,
    upper_edges: &'a EdgeGrid,
    others: Vec<&'a Layer>,
}

impl Pair<'_> {
    /// The least overlap and its place; `None` when the layers keep apart, or nothing of the lower one ends below the upper
    /// one alone.
    fn least_overlap(&self) -> Option<(f64, Point)> {
        let reach = bounds(&self.upper.outlines)?.inflate(MEETS, MEETS);
        let mut least: Option<(f64, Point)> = None;
        let mut met = (0.0, None);
        for outline in self.lower.outlines.iter().filter(|outline| outline.bounds().overlaps(reach)) {
            for ring in outline.rings() {
                let points = self.measured(ring, reach);
                for stretch in stretches(&points) {
                    let found = stretch.overlap();
                    if least.is_none_or(|(known, _)| found.0 < known) {
                        least = Some(found);
                    }
                }
                met = add_meeting(met, &points);
            }
        }
        match (least, met) {
            // Shapes that only meet overlap by rounding alone, if at all.
            (None, (along, Some(at))) if along >= MEETS_ALONG => Some((0.0, at)),
            (least, _) => least,
        }
    }

    fn measured(&self, ring: &Ring, reach: Rect) -> Vec<Measured> {
        let mut found = Vec::new();
        for (from, to) in ring.edges() {
            let length = from.distance(to);
            let mut done = 0.0;
            while done < length {
                found.push(self.measure(from.lerp(to, done / length), reach));
                done += STEP;
            }
        }
        found
    }

    fn measure(&self, at: Point, reach: Rect) -> Measured {
        let aside = Measured { at, under: None, beside: None };
        if !reach.contains(at) {
            return aside;
        }
        let distance = |within| self.upper_edges.nearest(at, within).map(|(distance, ..)| distance);
        let measured = if covers(self.upper, at) {
            Measured { under: Some(distance(DEEP).unwrap_or(DEEP)), ..aside }
        } else {
            Measured { beside: distance(MEETS), ..aside }
        };
        let shows = measured.under.is_some() || measured.beside.is_some();
        if shows && self.others.iter().any(|layer| covers(layer, at)) { aside } else { measured }
    }
}

fn covers(layer: &Layer, at: Point) -> bool {
    layer.outlines.iter().any(|outline| outline.bounds().contains(at) && outline.contains(at))
}

/// A point of the lower edge: where it is, and its distance to the upper edge if it lies under the upper colour.
#[derive(Clone, Copy)]
struct Measured {
    at: Point,
    under: Option<f64>,
    beside: Option<f64>,
}

/// A run of points of the lower edge that lie under the upper colour.
struct Covered {
    points: Vec<Measured>,
    whole_ring: bool,
}

impl Covered {
    fn overlap(&self) -> (f64, Point) {
        let depth = |point: &Measured| point.under.unwrap_or(0.0);
        let compare = |a: &&Measured, b: &&Measured| depth(a).total_cmp(&depth(b));
        let chosen =
            if self.whole_ring { self.points.iter().min_by(compare) } else { self.points.iter().max_by(compare) };
        chosen.map_or((0.0, Point::ZERO), |point| (depth(point), point.at))
    }
}

/// Runs of covered points round a ring, each run whole even where the ring starts inside it. Runs no deeper than rounding
/// are left to the edge-to-edge rule.
fn stretches(points: &[Measured]) -> Vec<Covered> {
    let Some(start) = points.iter().position(|point| point.under.is_none()) else {
        return vec![Covered { points: points.to_vec(), whole_ring: true }];
    };
    let round = points[start..].iter().chain(&points[..start]).copied();
    let mut runs: Vec<Vec<Measured>> = vec![Vec::new()];
    for point in round {
        match (point.under, runs.last_mut()) {
            (Some(_), Some(run)) => run.push(point),
            _ => runs.push(Vec::new()),
        }
    }
    let deep = |run: &Vec<Measured>| run.iter().any(|point| point.under.is_some_and(|depth| depth > ROUNDING));
    runs.into_iter().filter(deep).map(|points| Covered { points, whole_ring: false }).collect()
}

/// Overlaps up to this come from flattening both edges.
const ROUNDING: f64 = 0.05;

fn add_meeting(sum: (f64, Option<Point>), points: &[Measured]) -> (f64, Option<Point>) {
    let near = |point: &Measured| point.beside.is_some() || point.under.is_some_and(|depth| depth <= ROUNDING);
    let meeting: Vec<&Measured> = points.iter().filter(|point| near(point)).collect();
    let middle = meeting.get(meeting.len() / 2).map(|point| point.at);
    (sum.0 + meeting.len() as f64 * STEP, sum.1.or(middle))
}
