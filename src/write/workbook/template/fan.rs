//! Pages that follow the hem: each shows one stretch of it turned level and meets its neighbours on lines square to the
//! hem, so that the joined pages fan out as the hem curves and none is wasted on what the band leaves empty.

use super::stretch::Stretch;
use super::tiles::{Joint, OVERLAP, Tiling, letter, window};
use crate::geometry::{Affine, Point, Rect};
use crate::quantity::{Mm, mm};
use crate::write::workbook::leaf::Way;

/// Room below the lowest line for its name, and above the highest edge for names of seams, mm.
const BELOW: f64 = 6.0;
const ABOVE: f64 = 4.0;
/// Room before a page's first edge.
const BEFORE: f64 = 1.5;
/// Places at which a part's extent is taken.
const SAMPLES: u32 = 24;

/// The fewest pages, upright or lying; `None` where the band is higher than any page, or more than `most` are needed.
pub(crate) fn tiling(stretch: &Stretch<'_>, most: usize) -> Option<Tiling> {
    let counts =
        [Way::Lying, Way::Upright].map(|way| (1..=most).find(|count| fits(stretch, way, *count)).map(|n| (n, way)));
    let (count, way) = counts.into_iter().flatten().min_by_key(|(count, _)| *count)?;
    let edges = edges(stretch, count);
    let places = parts(stretch, count).map(|part| place(stretch, way, part)).collect();
    let joint = |k: usize| {
        let s = edges[k + 1];
        let (low, high) = stretch.heights;
        let (from, to) = (stretch.at(s, low - mm(BELOW)), stretch.at(s, high + mm(ABOVE)));
        let out = stretch.line.frame_unrolled(s).along;
        Joint { letter: letter(k), under: k, over: k + 1, from, to, out }
    };
    Some(Tiling { way, places, joints: (0..count - 1).map(joint).collect() })
}

fn fits(stretch: &Stretch<'_>, way: Way, count: usize) -> bool {
    let room = window(way);
    parts(stretch, count).all(|part| {
        let extent = extent(stretch, part, level(stretch, part));
        extent.width() <= room.width() && extent.height() <= room.height()
    })
}

/// Where each page begins and ends along the motif line.
fn edges(stretch: &Stretch<'_>, count: usize) -> Vec<Mm> {
    let (from, to) = stretch.span;
    (0..=count).map(|k| from + (to - from) * (k as f64 / count as f64)).collect()
}

fn parts(stretch: &Stretch<'_>, count: usize) -> impl Iterator<Item = (Mm, Mm)> + use<> {
    let edges = edges(stretch, count);
    (0..count).map(move |k| (edges[k], edges[k + 1]))
}

/// Turns the development so that the hem runs level in the middle of a part.
fn level(stretch: &Stretch<'_>, (from, to): (Mm, Mm)) -> Affine {
    Affine::rotate(-stretch.line.frame_unrolled((from + to) / 2.0).turn().get())
}

/// Box round a part with its strip, after a turn.
fn extent(stretch: &Stretch<'_>, (from, to): (Mm, Mm), turn: Affine) -> Rect {
    let (low, high) = (stretch.heights.0 - mm(BELOW), stretch.heights.1 + mm(ABOVE));
    let (before, after) = (from - mm(BEFORE), to + mm(OVERLAP + BEFORE));
    let mut points: Vec<Point> = Vec::new();
    for k in 0..=SAMPLES {
        let s = before + (after - before) * (f64::from(k) / f64::from(SAMPLES));
        points.extend([turn * stretch.at(s, low), turn * stretch.at(s, high)]);
    }
    points.iter().map(|p| Rect::from_points(*p, *p)).reduce(|a, b| a.union(b)).unwrap_or_default()
}

/// Carries the development onto the page of a part, in the middle of its window.
fn place(stretch: &Stretch<'_>, way: Way, part: (Mm, Mm)) -> Affine {
    let turn = level(stretch, part);
    let extent = extent(stretch, part, turn);
    Affine::translate(window(way).center() - extent.center()) * turn
}
