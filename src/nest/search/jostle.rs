//! Many like pieces shaken together: they move at random and never overlap, while the end of the last sheet presses on them.
//!
//! A lattice cut to a sheet leaves what is no whole column unused, and pulling overlaps apart finds the way out of a lattice
//! only by luck. Shaken pieces slide past each other as grains do: they fall into patches of the densest lattice, each lying
//! on an edge of its own, with the misfit in a thin seam between them. This is the Monte Carlo method of N. Metropolis et
//! al., "Equation of State Calculations by Fast Computing Machines" (1953), at constant pressure as W. W. Wood does it
//! ("Monte Carlo Calculations for Hard Disks in the Isothermal-Isobaric Ensemble", 1968), the pressure rising slowly.

use super::field::{End, Field, Keep, Piece, Space};
use super::random::Random;
use super::shorten::{Shortened, used};
use super::watch::Watch;
use crate::geometry::{Point, Vec2};
use crate::nest::shape::shapes::{Shapes, Spot};

/// How long and how hard pieces are shaken.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Shaking {
    /// Moves tried for each piece.
    pub(in crate::nest) sweeps: u32,
    /// Pressure at the start and at the end: the number of pieces over this is the part of the length that stays open.
    pub(in crate::nest) pressure: (f64, f64),
}

/// How much longer than at first the last sheet may become while the pressure is low.
const LOOSEST: f64 = 1.3;

/// One move in so many is a jump to any place on this sheet or an earlier one.
const JUMPS: usize = 50;

/// Share of the small moves that should be possible; steps are made longer or shorter to keep it.
const POSSIBLE: f64 = 0.3;

/// Shaken moves that cost about as much as one move of the search that parts pieces.
const MOVES_A_SEARCHED: u64 = 60;

/// Shakes a parted field; what it returns is parted too, and no longer than what the field used.
pub(in crate::nest) fn jostled(
    field: Field<'_>,
    shaking: Shaking,
    random: &mut Random,
    watch: &Watch<'_>,
) -> Shortened {
    let count = field.pieces.len();
    let mut best = Shortened { pieces: field.pieces.clone(), length: used(&field) };
    let longest = LOOSEST * field.spaces[field.spaces.len() - 1].length;
    let size = field.pieces.iter().map(|piece| field.shapes.shape(piece.item).size).fold(f64::INFINITY, f64::min);
    let mut jostle = Jostle { field, random, step: 0.05 * size, longest, size, tried: 0, made: 0 };
    for sweep in 0..shaking.sweeps {
        let gone = f64::from(sweep) / f64::from(shaking.sweeps);
        let pressure = shaking.pressure.0 * (shaking.pressure.1 / shaking.pressure.0).powf(gone);
        (0..count).for_each(|_| jostle.move_one());
        jostle.press(pressure * count as f64 / best.length.max(1e-3));
        if sweep % 20 == 0 {
            jostle.pace();
            if !watch.spent(20 * count as u64 / MOVES_A_SEARCHED) {
                break;
            }
        }
        let length = used(&jostle.field);
        if length < best.length - 1e-6 {
            best = Shortened { pieces: jostle.field.pieces.clone(), length };
        }
    }
    best
}

struct Jostle<'a, 'r> {
    field: Field<'a>,
    random: &'r mut Random,
    /// Longest small move, in millimetres.
    step: f64,
    /// The last sheet grows no longer.
    longest: f64,
    size: f64,
    tried: u32,
    made: u32,
}

impl Jostle<'_, '_> {
    fn move_one(&mut self) {
        let index = self.random.below(self.field.pieces.len());
        let piece = self.field.pieces[index];
        if self.random.below(JUMPS) == 0 {
            self.jump(index, piece);
            return;
        }
        self.tried += 1;
        let turns = self.field.shapes.turns.len();
        let turn = match self.random.below(if turns > 1 { 4 } else { 1 }) {
            1 if turns > 4 => (piece.spot.turn + 1) % turns,
            2 if turns > 4 => (piece.spot.turn + turns - 1) % turns,
            3 if turns <= 4 => self.random.below(turns),
            _ => piece.spot.turn,
        };
        let by = Vec2::new(self.random.between(-self.step, self.step), self.random.between(-self.step, self.step));
        let spot = Spot { turn, at: piece.spot.at + by };
        let inner = self.field.inner(piece.item, turn, piece.sheet);
        if inner.is_some_and(|inner| within(inner, spot.at)) && self.field.is_free(index, piece.sheet, spot) {
            self.field.put(index, piece.sheet, spot);
            self.made += 1;
        }
    }

    fn jump(&mut self, index: usize, piece: Piece) {
        let sheet = match piece.keep {
            Keep::Anywhere => self.random.below(piece.sheet + 1),
            Keep::OnItsSheet => piece.sheet,
        };
        let turn = self.random.below(self.field.shapes.turns.len());
        let Some(spot) = self.field.anywhere(piece.item, turn, sheet, self.random) else { return };
        if self.field.is_free(index, sheet, spot) {
            self.field.put(index, sheet, spot);
        }
    }

    /// Tries a last sheet a little longer or shorter, all its pieces drawn apart or together.
    fn press(&mut self, pressure: f64) {
        let last = self.field.spaces.len() - 1;
        let from = self.field.spaces[last].length;
        let to = from + self.random.between(-0.5 * self.step, 0.5 * self.step);
        let luck = self.random.unit();
        if to > self.longest {
            return;
        }
        let mut moved: Vec<(usize, Spot)> = Vec::new();
        let mut chance = -pressure * (to - from);
        for (index, piece) in self.field.pieces.iter().enumerate().filter(|(_, piece)| piece.sheet == last) {
            let bounds = self.field.shapes.bounds(piece.item, piece.spot.turn);
            let share = (to - bounds.height()) / (from - bounds.height()).max(1e-9);
            if share <= 0.0 {
                return;
            }
            chance += share.ln();
            let y = (piece.spot.at.y + bounds.y0) * share - bounds.y0;
            moved.push((index, Spot { at: Point::new(piece.spot.at.x, y), ..piece.spot }));
        }
        if luck >= chance.exp() {
            return;
        }
        let before: Vec<(usize, Spot)> =
            moved.iter().map(|(index, _)| (*index, self.field.pieces[*index].spot)).collect();
        self.put_all(&moved, last);
        self.field.spaces[last].length = to;
        if moved.iter().any(|(index, spot)| !self.field.is_free(*index, last, *spot)) {
            self.put_all(&before, last);
            self.field.spaces[last].length = from;
        }
    }

    fn put_all(&mut self, spots: &[(usize, Spot)], sheet: usize) {
        for (index, spot) in spots {
            self.field.put(*index, sheet, *spot);
        }
    }

    fn pace(&mut self) {
        let possible = f64::from(self.made) / f64::from(self.tried.max(1));
        let step = self.step * if possible < POSSIBLE { 0.93 } else { 1.07 };
        self.step = step.clamp(1e-4 * self.size, 0.2 * self.size);
        (self.tried, self.made) = (0, 0);
    }
}

fn within(inner: crate::geometry::Rect, at: Point) -> bool {
    at.x >= inner.x0 && at.x <= inner.x1 && at.y >= inner.y0 && at.y <= inner.y1
}

/// A field of one roll or sheet on which these pieces lie.
pub(in crate::nest) fn field<'a>(shapes: &'a Shapes, width: f64, pieces: Vec<Piece>) -> Field<'a> {
    let far = pieces.iter().map(|piece| shapes.bounds(piece.item, piece.spot.turn).y1 + piece.spot.at.y);
    let length = far.fold(0.0, f64::max);
    Field::new(shapes, vec![Space { width, length, end: End::Closed }], pieces)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nest::Silent;
    use crate::nest::pattern::columns::in_columns;
    use crate::nest::pattern::columns::tests::{heart, shapes};

    fn shaken(field: Field<'_>, sweeps: u32, seed: u64) -> Shortened {
        let watch = Watch::new(&Silent, 1);
        jostled(field, Shaking { sweeps, pressure: (12.0, 1000.0) }, &mut Random::new(seed, 0), &watch)
    }

    #[test]
    fn shaken_pieces_never_overlap_stay_inside_and_use_no_more() {
        for (seed, turns) in
            [(1, vec![0.0]), (2, vec![0.0, 180.0]), (3, (0..12).map(|k| 30.0 * f64::from(k)).collect())]
        {
            let shapes = shapes(vec![heart(10.0, 0.5)], turns);
            let start = field(&shapes, 75.0, in_columns(&shapes, 0, 75.0, 4, 14).unwrap());
            let before = used(&start);
            assert!(start.total() <= 0.0);
            let found = shaken(start, 400, seed);
            let after = field(&shapes, 75.0, found.pieces);
            assert!(after.total() <= 0.0);
            assert!(used(&after) <= before && (used(&after) - found.length).abs() < 1e-9);
            for piece in &after.pieces {
                assert!(within(after.inner(0, piece.spot.turn, 0).unwrap(), piece.spot.at));
            }
        }
    }

    /// Two columns over a width of 52 mm need 5 pitches of 20, a circle and half a pitch: 130 mm. The third that finds no
    /// column of its own finds room between them.
    #[test]
    fn loose_circles_are_shaken_together() {
        let shapes = shapes(vec![heart(10.0, 0.0)], vec![0.0]);
        let pieces = in_columns(&shapes, 0, 52.0, 2, 12).unwrap();
        let start = field(&shapes, 52.0, pieces);
        let before = used(&start);
        let found = shaken(start, 3000, 5);
        assert!((before - 130.0).abs() < 0.5, "{before}");
        assert!(found.length < 0.9 * before, "{} of {before}", found.length);
        assert!(found.length * 52.0 > 12.0 * std::f64::consts::PI * 100.0 / 0.9069, "denser than any packing");
    }

    #[test]
    fn the_same_seed_shakes_the_same_way() {
        let shapes = shapes(vec![heart(10.0, 0.4)], vec![0.0, 180.0]);
        let run = |seed| {
            let pieces = in_columns(&shapes, 0, 70.0, 4, 12).unwrap();
            shaken(field(&shapes, 70.0, pieces), 100, seed).pieces
        };
        assert_eq!(run(7), run(7));
        assert_ne!(run(7), run(8));
    }
}
