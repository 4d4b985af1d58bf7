//! Pages that follow the hem: each shows one stretch of it turned level and meets its neighbours on lines square to the
//! hem, so that the joined pages fan out as the hem curves and none is wasted on what the band leaves empty. A band higher
//! than a page is cut into rows as well; the pages of one stretch are joined before the stretches.

use super::stretch::Stretch;
use super::tiles::{Joint, OVERLAP, Tiling, letter, window};
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::quantity::{Mm, mm};
use crate::write::workbook::compose::count;
use crate::write::workbook::leaf::Way;

/// Room below the lowest line for its name, and above the highest edge for names of seams, mm.
const BELOW: f64 = 6.0;
const ABOVE: f64 = 4.0;
/// Room before a page's first edge.
const BEFORE: f64 = 1.5;
/// Places at which a part's extent is taken.
const SAMPLES: u32 = 24;

/// How a stretch is cut.
#[derive(Clone, Copy, Debug)]
struct Cut {
    way: Way,
    /// Stretches side by side.
    columns: usize,
    /// Pages one under the other in each.
    rows: usize,
}

/// The fewest pages, upright or lying; `None` where more than `most` are needed.
pub(crate) fn tiling(stretch: &Stretch<'_>, most: usize) -> Option<Tiling> {
    let cuts = [Way::Lying, Way::Upright].map(|way| (1..=most).find_map(|columns| cut(stretch, way, columns)));
    let cut = cuts.into_iter().flatten().min_by_key(|cut| cut.columns * cut.rows)?;
    (cut.columns * cut.rows <= most).then(|| Tiling {
        way: cut.way,
        places: places(stretch, cut),
        joints: joints(stretch, cut),
    })
}

/// Cut into so many columns, if none is too wide.
fn cut(stretch: &Stretch<'_>, way: Way, columns: usize) -> Option<Cut> {
    let room = window(way);
    let extents: Vec<Rect> = parts(stretch, columns).map(|part| extent(stretch, part, level(stretch, part))).collect();
    if extents.iter().any(|extent| extent.width() > room.width()) {
        return None;
    }
    let height = extents.iter().map(Rect::height).fold(0.0, f64::max);
    let rows = count(((height - OVERLAP) / (room.height() - OVERLAP) - 1e-9).ceil().max(1.0));
    Some(Cut { way, columns, rows })
}

/// Where each column begins and ends along the motif line.
fn edges(stretch: &Stretch<'_>, columns: usize) -> Vec<Mm> {
    let (from, to) = stretch.span;
    (0..=columns).map(|k| from + (to - from) * (k as f64 / columns as f64)).collect()
}

fn parts(stretch: &Stretch<'_>, columns: usize) -> impl Iterator<Item = (Mm, Mm)> + use<> {
    let edges = edges(stretch, columns);
    (0..columns).map(move |k| (edges[k], edges[k + 1]))
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

/// Column by column, from the top down in each: carries the development onto the page.
fn places(stretch: &Stretch<'_>, cut: Cut) -> Vec<Affine> {
    let page = window(cut.way);
    let mut places = Vec::new();
    for part in parts(stretch, cut.columns) {
        let turn = level(stretch, part);
        let middle = extent(stretch, part, turn).center();
        for row in 0..cut.rows {
            let down = (row as f64 - (cut.rows as f64 - 1.0) / 2.0) * (page.height() - OVERLAP);
            places.push(Affine::translate(page.center() - middle - Vec2::new(0.0, down)) * turn);
        }
    }
    places
}

/// Within each column first, then between columns.
fn joints(stretch: &Stretch<'_>, cut: Cut) -> Vec<Joint> {
    let mut joints = Vec::new();
    let (page, places) = (window(cut.way), places(stretch, cut));
    for column in 0..cut.columns {
        for row in 1..cut.rows {
            let over = column * cut.rows + row;
            let back = places[over].inverse();
            let (from, to) = (back * page.origin(), back * Point::new(page.x1, page.y0));
            let out = back * (page.origin() + Vec2::new(0.0, 1.0)) - from;
            let (under, over) = (over - 1..over, over..over + 1);
            joints.push(Joint { letter: letter(joints.len()), under, over, from, to, out, marks: vec![0.25, 0.75] });
        }
    }
    let (low, high) = (stretch.heights.0 - mm(BELOW), stretch.heights.1 + mm(ABOVE));
    let marks: Vec<f64> =
        (0..cut.rows).flat_map(|k| [0.25, 0.75].map(|at| (k as f64 + at) / cut.rows as f64)).collect();
    for (k, s) in edges(stretch, cut.columns).into_iter().enumerate().take(cut.columns).skip(1) {
        let (under, over) = ((k - 1) * cut.rows..k * cut.rows, k * cut.rows..(k + 1) * cut.rows);
        let out = stretch.line.frame_unrolled(s).along;
        let (from, to, marks) = (stretch.at(s, low), stretch.at(s, high), marks.clone());
        joints.push(Joint { letter: letter(joints.len()), under, over, from, to, out, marks });
    }
    joints
}
