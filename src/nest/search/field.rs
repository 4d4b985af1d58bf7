//! The pieces on their sheets during a search: where each lies, what it overlaps, and what that costs.

use super::random::Random;
use crate::geometry::{Point, Rect, Vec2};
use crate::nest::shape::shapes::{Shapes, Spot};

/// Whether a piece may change sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::nest) enum Keep {
    /// It may lie anywhere.
    Anywhere,
    /// It stays on its sheet: a test piece.
    OnItsSheet,
}

/// A piece on a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Piece {
    pub(in crate::nest) item: usize,
    pub(in crate::nest) sheet: usize,
    pub(in crate::nest) spot: Spot,
    pub(in crate::nest) keep: Keep,
}

/// What lies at the end of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::nest) enum End {
    /// An edge.
    Closed,
    /// The sheet's own start: it is closed to a ring, for layouts that repeat.
    Repeats,
}

/// A sheet during a search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Space {
    /// Usable width.
    pub(in crate::nest) width: f64,
    /// Usable length, or the length round the ring.
    pub(in crate::nest) length: f64,
    pub(in crate::nest) end: End,
}

impl Space {
    pub(in crate::nest) fn area(&self) -> f64 {
        self.width * self.length
    }
}

/// Pieces on sheets.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Field<'a> {
    pub(in crate::nest) shapes: &'a Shapes,
    pub(in crate::nest) spaces: Vec<Space>,
    pub(in crate::nest) pieces: Vec<Piece>,
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
    fn new(spaces: &[Space], reach: f64) -> Self {
        let widest = spaces.iter().map(|space| space.width).fold(1.0, f64::max);
        let longest = spaces.iter().map(|space| space.length).fold(1.0, f64::max);
        let per_mm = CELLS_ACROSS / (2.0 * reach);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sizes of a sheet in cells")]
        let count = |length: f64| (length * per_mm).ceil().clamp(1.0, 4096.0) as usize;
        let (columns, rows) = (count(widest), count(longest));
        Self { per_mm, columns, rows, reach, held: vec![Vec::new(); columns * rows * spaces.len()] }
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
    pub(in crate::nest) fn new(shapes: &'a Shapes, spaces: Vec<Space>, pieces: Vec<Piece>) -> Self {
        let reach = pieces.iter().map(|piece| shapes.shape(piece.item).radius).fold(1e-3, f64::max);
        let buckets = Buckets::new(&spaces, reach);
        let mut field = Self { shapes, spaces, pieces, buckets };
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
    pub(in crate::nest) fn inner(&self, item: usize, turn: usize, sheet: usize) -> Option<Rect> {
        let bounds = self.shapes.bounds(item, turn);
        let space = self.spaces[sheet];
        let rect = match space.end {
            End::Closed => Rect::new(-bounds.x0, -bounds.y0, space.width - bounds.x1, space.length - bounds.y1),
            End::Repeats => Rect::new(-bounds.x0, 0.0, space.width - bounds.x1, space.length),
        };
        (rect.x1 >= rect.x0 && rect.y1 >= rect.y0).then_some(rect)
    }

    /// The place nearest to `at` where an item fits on a sheet; round a ring every height does.
    pub(in crate::nest) fn clamped(&self, item: usize, turn: usize, sheet: usize, at: Point) -> Option<Point> {
        let inner = self.inner(item, turn, sheet)?;
        let y = match self.spaces[sheet].end {
            End::Closed => at.y.clamp(inner.y0, inner.y1),
            End::Repeats => at.y.rem_euclid(self.spaces[sheet].length),
        };
        Some(Point::new(at.x.clamp(inner.x0, inner.x1), y))
    }

    /// A random place on a sheet for an item at a turn.
    pub(in crate::nest) fn anywhere(
        &self,
        item: usize,
        turn: usize,
        sheet: usize,
        random: &mut Random,
    ) -> Option<Spot> {
        let inner = self.inner(item, turn, sheet)?;
        let at = Point::new(random.between(inner.x0, inner.x1), random.between(inner.y0, inner.y1));
        Some(Spot { turn, at })
    }

    /// Moves a piece.
    pub(in crate::nest) fn put(&mut self, index: usize, sheet: usize, spot: Spot) {
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
        self.pieces[index] = Piece { sheet, spot, ..piece };
    }

    /// Calls `tell` with every piece that a piece overlaps at a spot, and how deep, until it returns false.
    #[inline]
    fn each_overlap(&self, index: usize, sheet: usize, spot: Spot, mut tell: impl FnMut(usize, f64) -> bool) {
        if !self.each_overlap_at(index, sheet, spot, 0.0, &mut tell) {
            return;
        }
        let space = self.spaces[sheet];
        if space.end == End::Repeats {
            // Round the ring a piece also meets those near the other end, and itself.
            let item = self.pieces[index].item;
            let reach = self.shapes.shape(item).radius + self.buckets.reach;
            let mut lap = space.length;
            while spot.at.y - lap > -reach || spot.at.y + lap < space.length + reach {
                let on = self.each_overlap_at(index, sheet, spot, lap, &mut tell)
                    && self.each_overlap_at(index, sheet, spot, -lap, &mut tell);
                let image = Spot { at: Point::new(spot.at.x, spot.at.y + lap), ..spot };
                let own = self.shapes.depth(item, spot, item, image);
                if !on || (own > 0.0 && !tell(index, own)) {
                    return;
                }
                lap += space.length;
            }
        }
    }

    /// The overlaps of a piece moved on by `lap`; tells whether to go on.
    #[inline]
    fn each_overlap_at(
        &self,
        index: usize,
        sheet: usize,
        spot: Spot,
        lap: f64,
        tell: &mut impl FnMut(usize, f64) -> bool,
    ) -> bool {
        let item = self.pieces[index].item;
        let radius = self.shapes.shape(item).radius;
        let reach = radius + self.buckets.reach;
        let image = Spot { at: Point::new(spot.at.x, spot.at.y + lap), ..spot };
        let (left, top) = self.buckets.place(image.at.x - reach, image.at.y - reach);
        let (right, bottom) = self.buckets.place(image.at.x + reach, image.at.y + reach);
        // Plain loops: most of a search is spent here, and an unoptimised build pays for every adapter.
        for row in top..bottom + 1 {
            let start = (sheet * self.buckets.rows + row) * self.buckets.columns;
            for cell in &self.buckets.held[start + left..start + right + 1] {
                for held in cell {
                    let (dx, dy) = (held.at.x - image.at.x, held.at.y - image.at.y);
                    let reach = radius + held.radius;
                    if dx * dx + dy * dy >= reach * reach || held.index as usize == index {
                        continue;
                    }
                    let there = Spot { turn: held.turn as usize, at: held.at };
                    let depth = self.shapes.depth(item, image, held.item as usize, there);
                    if depth > 0.0 && !tell(held.index as usize, depth) {
                        return false;
                    }
                }
            }
        }
        true
    }

    /// Whether a piece would overlap nothing at a spot.
    pub(in crate::nest) fn is_free(&self, index: usize, sheet: usize, spot: Spot) -> bool {
        let mut free = true;
        self.each_overlap(index, sheet, spot, |_, _| {
            free = false;
            false
        });
        free
    }

    /// Every piece a piece would overlap at a spot, and how deep.
    pub(in crate::nest) fn overlaps(&self, index: usize, sheet: usize, spot: Spot, mut tell: impl FnMut(usize, f64)) {
        self.each_overlap(index, sheet, spot, |other, depth| {
            tell(other, depth);
            true
        });
    }

    /// Weighted depth of all overlaps a piece would have at a spot; anything above `enough` may come out as infinite.
    #[inline]
    pub(in crate::nest) fn price(&self, index: usize, sheet: usize, spot: Spot, weights: &[f32], enough: f64) -> f64 {
        let mut sum = 0.0;
        self.each_overlap(index, sheet, spot, |other, depth| {
            sum += depth * f64::from(weights[other]);
            sum <= enough
        });
        if sum <= enough { sum } else { f64::INFINITY }
    }

    /// The move that parts a piece at a spot from the piece it weighs most on; `None` when it overlaps no other.
    pub(in crate::nest) fn push(&self, index: usize, sheet: usize, spot: Spot, weights: &[f32]) -> Option<Vec2> {
        let mut most: Option<(f64, usize)> = None;
        self.overlaps(index, sheet, spot, |other, depth| {
            let price = depth * f64::from(weights[other]);
            if other != index && most.is_none_or(|(most, _)| price > most) {
                most = Some((price, other));
            }
        });
        let there = self.pieces[most?.1];
        Some(self.shapes.escape(self.pieces[index].item, spot, there.item, there.spot))
    }

    /// Sum of all depths, each pair once.
    pub(in crate::nest) fn total(&self) -> f64 {
        let mut sum = 0.0;
        for (index, piece) in self.pieces.iter().enumerate() {
            self.overlaps(index, piece.sheet, piece.spot, |other, depth| {
                if other >= index {
                    sum += depth;
                }
            });
        }
        sum
    }
}
