//! The pieces on their sheets during a search: where each lies, what it overlaps, and what that costs.

use super::shapes::{Shapes, Spot};
use crate::geometry::{Point, Rect};

/// A piece on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Piece {
    pub(super) item: usize,
    pub(super) sheet: usize,
    pub(super) spot: Spot,
}

/// Pieces on sheets of one width and given lengths.
#[derive(Clone, Debug)]
pub(super) struct Field<'a> {
    pub(super) shapes: &'a Shapes,
    pub(super) width: f64,
    /// Usable length of each sheet.
    pub(super) lengths: Vec<f64>,
    pub(super) pieces: Vec<Piece>,
    buckets: Buckets,
}

/// A piece as its bucket holds it: everything a neighbour asks, side by side in memory.
#[derive(Clone, Copy, Debug)]
struct Held {
    at: Point,
    radius: f64,
    item: u16,
    turn: u16,
    index: u32,
}

/// Pieces by square cells of the sheets, so that only near ones are asked.
#[derive(Clone, Debug)]
struct Buckets {
    per_mm: f64,
    columns: usize,
    rows: usize,
    /// Greatest radius of any piece.
    reach: f64,
    held: Vec<Vec<Held>>,
}

/// Cells across the widest piece; smaller cells hold fewer pieces to pass over but there are more to visit.
const CELLS_ACROSS: f64 = 2.5;

impl Buckets {
    fn new(width: f64, lengths: &[f64], reach: f64) -> Self {
        let longest = lengths.iter().copied().fold(1.0, f64::max);
        let per_mm = CELLS_ACROSS / (2.0 * reach);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sizes of a sheet in cells")]
        let count = |length: f64| (length * per_mm).ceil().clamp(1.0, 4096.0) as usize;
        let (columns, rows) = (count(width), count(longest));
        Self { per_mm, columns, rows, reach, held: vec![Vec::new(); columns * rows * lengths.len()] }
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate, then clamped")]
    fn place(&self, x: f64, y: f64) -> (usize, usize) {
        let column = (x * self.per_mm).max(0.0) as usize;
        let row = (y * self.per_mm).max(0.0) as usize;
        (column.min(self.columns - 1), row.min(self.rows - 1))
    }

    fn index(&self, sheet: usize, at: Point) -> usize {
        let (column, row) = self.place(at.x, at.y);
        (sheet * self.rows + row) * self.columns + column
    }
}

impl<'a> Field<'a> {
    pub(super) fn new(shapes: &'a Shapes, width: f64, lengths: Vec<f64>, pieces: Vec<Piece>) -> Self {
        let reach = pieces.iter().map(|piece| shapes.shape(piece.item).radius).fold(1e-3, f64::max);
        let buckets = Buckets::new(width, &lengths, reach);
        let mut field = Self { shapes, width, lengths, pieces, buckets };
        for index in 0..field.pieces.len() {
            let piece = field.pieces[index];
            let bucket = field.buckets.index(piece.sheet, piece.spot.at);
            let held = field.held(index, piece.spot);
            field.buckets.held[bucket].push(held);
        }
        field
    }

    fn held(&self, index: usize, spot: Spot) -> Held {
        let item = self.pieces[index].item;
        let narrow = |value: usize| u16::try_from(value).unwrap_or(u16::MAX);
        let radius = self.shapes.shape(item).radius;
        let index = u32::try_from(index).unwrap_or(u32::MAX);
        Held { at: spot.at, radius, item: narrow(item), turn: narrow(spot.turn), index }
    }

    /// Where an item's origin may lie on a sheet at a turn; `None` when it does not fit.
    pub(super) fn inner(&self, item: usize, turn: usize, sheet: usize) -> Option<Rect> {
        let bounds = self.shapes.bounds(item, turn);
        let rect = Rect::new(-bounds.x0, -bounds.y0, self.width - bounds.x1, self.lengths[sheet] - bounds.y1);
        (rect.x1 >= rect.x0 && rect.y1 >= rect.y0).then_some(rect)
    }

    /// Moves a piece.
    pub(super) fn put(&mut self, index: usize, sheet: usize, spot: Spot) {
        let piece = self.pieces[index];
        let (from, to) = (self.buckets.index(piece.sheet, piece.spot.at), self.buckets.index(sheet, spot.at));
        let held = self.held(index, spot);
        let place = self.buckets.held[from].iter().position(|other| other.index == held.index);
        let place = place.expect("a piece is held by the bucket of its place");
        if from == to {
            self.buckets.held[from][place] = held;
        } else {
            self.buckets.held[from].swap_remove(place);
            self.buckets.held[to].push(held);
        }
        self.pieces[index] = Piece { item: piece.item, sheet, spot };
    }

    /// Calls `tell` with every piece that a piece overlaps at a spot, and how deep, until it returns false.
    #[inline]
    fn each_overlap(&self, index: usize, sheet: usize, spot: Spot, mut tell: impl FnMut(usize, f64) -> bool) {
        let item = self.pieces[index].item;
        let radius = self.shapes.shape(item).radius;
        let reach = radius + self.buckets.reach;
        let (left, top) = self.buckets.place(spot.at.x - reach, spot.at.y - reach);
        let (right, bottom) = self.buckets.place(spot.at.x + reach, spot.at.y + reach);
        for row in top..=bottom {
            let start = (sheet * self.buckets.rows + row) * self.buckets.columns;
            for held in self.buckets.held[start + left..=start + right].iter().flatten() {
                let reach = radius + held.radius;
                if (held.at - spot.at).hypot2() >= reach * reach || held.index as usize == index {
                    continue;
                }
                let there = Spot { turn: usize::from(held.turn), at: held.at };
                let depth = self.shapes.depth(item, spot, usize::from(held.item), there);
                if depth > 0.0 && !tell(held.index as usize, depth) {
                    return;
                }
            }
        }
    }

    /// Every piece a piece would overlap at a spot, and how deep.
    pub(super) fn overlaps(&self, index: usize, sheet: usize, spot: Spot, mut tell: impl FnMut(usize, f64)) {
        self.each_overlap(index, sheet, spot, |other, depth| {
            tell(other, depth);
            true
        });
    }

    /// Weighted depth of all overlaps a piece would have at a spot; anything above `enough` may come out as infinite.
    #[inline]
    pub(super) fn price(&self, index: usize, sheet: usize, spot: Spot, weights: &[f32], enough: f64) -> f64 {
        let mut sum = 0.0;
        self.each_overlap(index, sheet, spot, |other, depth| {
            sum += depth * f64::from(weights[other]);
            sum <= enough
        });
        if sum <= enough { sum } else { f64::INFINITY }
    }

    /// Sum of all depths, each pair once.
    pub(super) fn total(&self) -> f64 {
        let mut sum = 0.0;
        for (index, piece) in self.pieces.iter().enumerate() {
            self.overlaps(index, piece.sheet, piece.spot, |other, depth| {
                if other > index {
                    sum += depth;
                }
            });
        }
        sum
    }
}
