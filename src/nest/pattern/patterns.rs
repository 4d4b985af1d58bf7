//! Patterns that repeat, cut to a rectangle: lattices at every rotation and phase, and rings along the sheet.
//!
//! A task is laid kind after kind, each by the pattern that brings most of it onto what is left of the sheet, so that like
//! pieces lie together and full sheets come out alike.

use super::lattice::Lattice;
use super::ring::Ring;
use crate::geometry::{Point, Vec2};
use crate::nest::Task;
use crate::nest::buying::draft::{Draft, DraftSheet, Pose, room};
use crate::nest::by_box::boxes::RULES;
use crate::nest::by_box::fills::Fills;
use crate::nest::by_box::load::SAFETY;
use crate::nest::by_box::simple;
use crate::nest::search::field::{Keep, Piece};
use crate::nest::shape::kind::Kind;
use crate::nest::shape::shapes::{Shapes, Spot};

/// Phases tried along each step of a lattice.
const PHASES: u32 = 8;

/// Points of a lattice in one rectangle at most.
const MOST_POINTS: f64 = 40_000.0;

/// The patterns found for one kind of piece.
#[derive(Clone, Debug, Default)]
pub(in crate::nest) struct Patterns {
    /// At the item's first turn.
    pub(in crate::nest) lattices: Vec<Lattice>,
    /// Lattices whose rows end flush at the edges of a sheet, at the item's first turn.
    pub(in crate::nest) rows: Vec<Lattice>,
    pub(in crate::nest) rings: Vec<Ring>,
}

/// Pieces cut out of a pattern, nearest to the start first.
struct Cut {
    pieces: Vec<Piece>,
    /// Far edge of the last piece.
    end: f64,
}

impl Patterns {
    /// So many pieces of an item, or as many as fit a rectangle, on the least length found.
    fn fill(&self, shapes: &Shapes, item: usize, width: f64, length: f64, wanted: usize) -> Option<Cut> {
        let mut best: Option<Cut> = None;
        let mut offer = |pieces: Vec<Piece>| {
            let Some(cut) = nearest(shapes, pieces, wanted) else { return };
            let better = best.as_ref().is_none_or(|best| {
                cut.pieces.len() > best.pieces.len()
                    || (cut.pieces.len() == best.pieces.len() && cut.end < best.end - 1e-6)
            });
            if better {
                best = Some(cut);
            }
        };
        for ring in self.rings.iter().filter(|ring| (ring.width - width).abs() < 1e-9) {
            let needed = wanted as f64 / ring.pieces.len() as f64 * ring.length + 2.0 * ring.length;
            offer(ring.unrolled(shapes, length.min(needed)));
        }
        let highest = 2.0 * shapes.shape(item).radius;
        // Where a sheet is wider than all of them side by side with room between, the rest of its width is of no use.
        let width = width.min(2.0 * highest * (wanted as f64 + 1.0));
        let needed = |lattice: &Lattice| 1.4 * wanted as f64 * lattice.area_each() / width + 2.0 * highest;
        for lattice in &self.lattices {
            for base in 0..shapes.turns.len() {
                let turned = lattice.turned(shapes.turns[base]);
                for phase in 0..PHASES * PHASES {
                    let share = |n: u32| f64::from(n) / f64::from(PHASES);
                    let phase = turned.u * share(phase % PHASES) + turned.v * share(phase / PHASES);
                    offer(cut(shapes, item, &turned, base, phase, width, length.min(needed(lattice))));
                }
            }
        }
        let bounds = shapes.bounds(item, 0);
        let corner = Vec2::new(FLUSH - bounds.x0, FLUSH - bounds.y0);
        for rows in &self.rows {
            for phase in [corner, corner + rows.u / 2.0] {
                offer(cut(shapes, item, rows, 0, phase, width, length.min(needed(rows))));
            }
        }
        best
    }
}

/// How far inside the edge, in millimetres, a flush row begins, so that rounding leaves it inside.
const FLUSH: f64 = 4e-10;

/// The pieces of a lattice that lie wholly in a rectangle, moved to its corner.
fn cut(
    shapes: &Shapes,
    item: usize,
    lattice: &Lattice,
    base: usize,
    phase: Vec2,
    width: f64,
    length: f64,
) -> Vec<Piece> {
    let half = shapes.half_turn().map(|half| (base + half) % shapes.turns.len());
    let partner = lattice.partner.zip(half).map(|(offset, turn)| (turn, offset));
    let det = lattice.u.cross(lattice.v);
    if width * length / det.abs() > MOST_POINTS {
        return Vec::new();
    }
    let mut pieces = Vec::new();
    for (turn, offset) in std::iter::once((base, Vec2::ZERO)).chain(partner) {
        let bounds = shapes.bounds(item, turn);
        let (x0, y0) = (-bounds.x0, -bounds.y0);
        let (x1, y1) = (width - bounds.x1 + 1e-9, length - bounds.y1 + 1e-9);
        let start = phase + offset;
        // Whole steps that can reach the rectangle, from its corners.
        let steps = [(x0, y0), (x1, y0), (x0, y1), (x1, y1)].map(|(x, y)| {
            let to = Vec2::new(x, y) - start;
            (to.cross(lattice.v) / det, lattice.u.cross(to) / det)
        });
        let range = |get: fn(&(f64, f64)) -> f64| {
            let all = steps.iter().map(get);
            (all.clone().fold(f64::INFINITY, f64::min).floor(), all.fold(f64::NEG_INFINITY, f64::max).ceil())
        };
        let ((from_u, to_u), (from_v, to_v)) = (range(|s| s.0), range(|s| s.1));
        let mut b = from_v;
        while b <= to_v {
            // Of a slanting row only a few steps reach a sheet that is much wider than long.
            let row = start + lattice.v * b;
            let across = steps_within(lattice.u.x, x0 - row.x, x1 - row.x);
            let down = steps_within(lattice.u.y, y0 - row.y, y1 - row.y);
            let mut a = from_u.max(across.0).max(down.0);
            let to_u = to_u.min(across.1).min(down.1);
            while a <= to_u {
                let at = start + lattice.u * a + lattice.v * b;
                if at.x >= x0 && at.x <= x1 && at.y >= y0 && at.y <= y1 {
                    pieces.push(Piece { item, sheet: 0, spot: Spot { turn, at: at.to_point() }, keep: Keep::Anywhere });
                }
                a += 1.0;
            }
            b += 1.0;
        }
    }
    pieces
}

/// Whole steps of some length that end between two places, and one more on both sides; all of them where a step leads nowhere.
fn steps_within(step: f64, from: f64, to: f64) -> (f64, f64) {
    if step.abs() < 1e-6 {
        return (f64::NEG_INFINITY, f64::INFINITY);
    }
    let (a, b) = (from / step, to / step);
    (a.min(b).floor() - 1.0, a.max(b).ceil() + 1.0)
}

/// The pieces nearest to the start, moved there.
fn nearest(shapes: &Shapes, mut pieces: Vec<Piece>, wanted: usize) -> Option<Cut> {
    let bounds = |piece: &Piece| shapes.bounds(piece.item, piece.spot.turn);
    let top = |piece: &Piece| bounds(piece).y0 + piece.spot.at.y;
    let end = |piece: &Piece| bounds(piece).y1 + piece.spot.at.y;
    pieces.sort_by(|a, b| end(a).total_cmp(&end(b)).then(a.spot.at.x.total_cmp(&b.spot.at.x)));
    pieces.truncate(wanted);
    let start = pieces.iter().map(top).fold(f64::INFINITY, f64::min);
    pieces.iter_mut().for_each(|piece| piece.spot.at.y -= start);
    let end = pieces.iter().map(end).fold(0.0, f64::max);
    (!pieces.is_empty()).then_some(Cut { pieces, end })
}

/// A sheet being filled.
struct Open {
    sheet: DraftSheet,
    /// Where the next pattern begins.
    from: f64,
}

/// The task laid kind after kind, the largest first, mainly on one stock; `None` when that stock does not do.
pub(in crate::nest) fn laid(
    shapes: &Shapes,
    patterns: &[Patterns],
    main: usize,
    kinds: &[Kind],
    task: &Task,
) -> Option<Draft> {
    let mut left: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
    let mut stock_left: Vec<u32> = task.stock.iter().map(|stock| stock.available.unwrap_or(u32::MAX)).collect();
    let mut order: Vec<usize> = (0..kinds.len()).collect();
    order.sort_by(|a, b| kinds[*b].square_mm.total_cmp(&kinds[*a].square_mm).then(a.cmp(b)));
    let mut sheets: Vec<DraftSheet> = Vec::new();
    for stock in simple::opening(main, task) {
        while left.iter().any(|count| *count > 0) && stock_left[stock] > 0 {
            let mut open = Open { sheet: DraftSheet { stock, poses: Vec::new() }, from: 0.0 };
            if sheets.is_empty() {
                lay_tests(&mut open, &mut left, kinds, task);
            }
            for item in &order {
                open.fill(shapes, patterns, *item, &mut left, task);
            }
            if open.sheet.poses.is_empty() {
                break;
            }
            stock_left[stock] -= 1;
            sheets.push(open.sheet);
        }
        if stock == main {
            break;
        }
    }
    left.iter().all(|count| *count == 0).then_some(Draft { sheets, method: "lattice" })
}

/// Lays the test pieces by boxes at the start of the first sheet; a roll holds everything anyway.
fn lay_tests(open: &mut Open, left: &mut [u32], kinds: &[Kind], task: &Task) {
    let tests: Vec<u32> = task.items.iter().map(|item| item.on_first_sheet).collect();
    if tests.iter().all(|count| *count == 0) || task.stock[open.sheet.stock].height.is_none() {
        return;
    }
    let boxed = simple::by_boxes(&RULES, open.sheet.stock, &tests, &Fills::new(kinds), task);
    let Some(sheet) = boxed.sheets.into_iter().find(|sheet| sheet.stock == open.sheet.stock) else { return };
    open.from = sheet.used(kinds, task) - 2.0 * task.margin.get() + task.gap.get() + SAFETY;
    sheet.poses.iter().for_each(|pose| left[pose.item] = left[pose.item].saturating_sub(1));
    open.sheet.poses = sheet.poses;
}

impl Open {
    /// Lays as many of an item as fit on what is left of the sheet.
    fn fill(&mut self, shapes: &Shapes, patterns: &[Patterns], item: usize, left: &mut [u32], task: &Task) {
        let room = room(self.sheet.stock, task);
        if left[item] == 0 || self.from >= room.length {
            return;
        }
        let length = (room.length - self.from).min(1e6);
        let Some(cut) = patterns[item].fill(shapes, item, room.width, length, left[item] as usize) else { return };
        let gap = task.gap.get() + SAFETY;
        left[item] -= u32::try_from(cut.pieces.len()).unwrap_or(u32::MAX).min(left[item]);
        for piece in &cut.pieces {
            let at = Point::new(piece.spot.at.x + room.margin, piece.spot.at.y + self.from + room.margin);
            let turn_deg = shapes.degrees(item, piece.spot.turn);
            self.sheet.poses.push(Pose { item, turn_deg, x: at.x, y: at.y });
        }
        self.from += cut.end + gap;
    }
}
