//! Pulling overlapping pieces apart: guided local search.
//!
//! Every piece always has a place; overlaps are allowed and priced by their depth times a weight. A sweep moves the
//! overlapping pieces one after another to the cheapest of many places; after each sweep the weights of pairs that still
//! overlap grow, so that no trap holds for long. The scheme is that of S. Umetani et al., "Solving the irregular strip packing
//! problem via guided local search for overlap minimization" (2009), with growth and decay of weights and sampling of places
//! after the 2025 paper of J. Gardeyn and G. Vanden Berghe (arXiv 2509.13329).

use super::field::{End, Field, Keep, Piece};
use super::random::Random;
use super::watch::Watch;
use crate::geometry::{Point, Vec2};
use crate::nest::shape::shapes::Spot;

/// How much is tried.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Patience {
    /// Places tried all over the sheets for each move.
    pub(in crate::nest) anywhere: usize,
    /// Places tried near the present one.
    pub(in crate::nest) nearby: usize,
    /// Sweeps without a better result before a strike.
    pub(in crate::nest) sweeps: usize,
    /// Strikes before giving up.
    pub(in crate::nest) strikes: usize,
    /// Moves after which it ends in any case.
    pub(in crate::nest) moves: u64,
}

/// Weight growth of the least and the deepest overlapping pair, and decay of all others, for each sweep.
const GROWTH: (f64, f64) = (1.2, 2.0);
const DECAY: f32 = 0.95;

/// Times a piece is pushed off its neighbours at the end of a move.
const PUSHES: usize = 3;

/// Below this total depth, in millimetres, a layout counts as parted.
const PARTED: f64 = 1e-9;

/// A search at work on a field.
pub(in crate::nest) struct Parting<'f, 'a> {
    pub(in crate::nest) field: &'f mut Field<'a>,
    weights: Vec<f32>,
    /// Pairs whose weight is more than one, so that not all of them need be looked at after each sweep.
    raised: Vec<(u32, u32)>,
    random: &'f mut Random,
    watch: &'f Watch<'f>,
    /// Moves made, to bound the work.
    pub(in crate::nest) moves: u64,
}

impl<'f, 'a> Parting<'f, 'a> {
    pub(in crate::nest) fn new(field: &'f mut Field<'a>, random: &'f mut Random, watch: &'f Watch<'f>) -> Self {
        let count = field.pieces.len();
        Self { field, weights: vec![1.0; count * count], raised: Vec::new(), random, watch, moves: 0 }
    }

    /// Parts all pieces, or leaves the least overlapping layout found.
    pub(in crate::nest) fn part(&mut self, patience: Patience) -> bool {
        for (a, b) in std::mem::take(&mut self.raised) {
            self.weigh(a as usize, b as usize, 1.0);
        }
        let mut least = self.field.total();
        let mut best = self.field.pieces.clone();
        let mut strikes = 0;
        while strikes < patience.strikes && least > PARTED && self.moves < patience.moves {
            let mut idle = 0;
            let at_start = least;
            while idle < patience.sweeps && least > PARTED && self.moves < patience.moves {
                let moves = self.moves;
                self.sweep(patience);
                if !self.watch.spent(self.moves - moves) {
                    self.restore(&best);
                    return false;
                }
                let total = self.reweigh();
                if total < least {
                    // Small steps down keep the search going, but only a real one counts as progress.
                    if total < 0.98 * least {
                        idle = 0;
                    }
                    least = total;
                    best.clone_from(&self.field.pieces);
                } else {
                    idle += 1;
                }
            }
            strikes = if least < 0.98 * at_start { 0 } else { strikes + 1 };
            if least > PARTED {
                self.restore(&best);
            }
        }
        self.restore(&best);
        least <= PARTED
    }

    fn restore(&mut self, pieces: &[Piece]) {
        for (index, piece) in pieces.iter().enumerate() {
            self.field.put(index, piece.sheet, piece.spot);
        }
    }

    /// Moves every overlapping piece once, in random order.
    fn sweep(&mut self, patience: Patience) {
        let count = self.field.pieces.len();
        let mut order: Vec<usize> = (0..count).filter(|index| self.price_now(*index) > 0.0).collect();
        self.random.shuffle(&mut order);
        for index in order {
            let now = self.price_now(index);
            if now > 0.0 {
                self.moves += 1;
                self.relocate(index, now, patience);
            }
        }
    }

    fn price_now(&self, index: usize) -> f64 {
        let piece = self.field.pieces[index];
        self.price(index, piece.sheet, piece.spot, f64::INFINITY)
    }

    fn price(&self, index: usize, sheet: usize, spot: Spot, enough: f64) -> f64 {
        let count = self.field.pieces.len();
        self.field.price(index, sheet, spot, &self.weights[index * count..(index + 1) * count], enough)
    }

    /// Moves one piece to the cheapest place found.
    fn relocate(&mut self, index: usize, now: f64, patience: Patience) {
        let piece = self.field.pieces[index];
        let mut best = Best::new();
        best.offer(now, piece.sheet, piece.spot);
        for _ in 0..patience.anywhere {
            if best.least() <= 0.0 {
                break;
            }
            let sheet = match piece.keep {
                Keep::Anywhere => self.random.below(self.field.spaces.len()),
                Keep::OnItsSheet => piece.sheet,
            };
            let turn = self.random.below(self.field.shapes.turns.len());
            if let Some(spot) = self.field.anywhere(piece.item, turn, sheet, self.random) {
                self.offer(&mut best, index, sheet, spot);
            }
        }
        let reach = self.field.shapes.shape(piece.item).radius;
        for _ in 0..patience.nearby {
            if best.least() <= 0.0 {
                break;
            }
            let turn = self.nearby_turn(piece.spot.turn);
            let step = Vec2::new(self.random.between(-reach, reach), self.random.between(-reach, reach));
            if let Some(at) = self.field.clamped(piece.item, turn, piece.sheet, piece.spot.at + step) {
                self.offer(&mut best, index, piece.sheet, Spot { turn, at });
            }
        }
        let size = self.field.shapes.shape(piece.item).size;
        let mut winner = (f64::INFINITY, piece.sheet, piece.spot);
        for (price, sheet, spot) in best.found() {
            let (price, spot) = self.descend(index, sheet, spot, price, 0.25 * size, 0.02 * size);
            if price < winner.0 {
                winner = (price, sheet, spot);
            }
            if price <= 0.0 {
                break;
            }
        }
        let (price, sheet, spot) = winner;
        if price > 0.0 {
            let (price, spot) = self.descend(index, sheet, spot, price, 0.02 * size, 0.0005 * size);
            let (price, spot) = self.push_off(index, sheet, spot, price);
            winner = (price, sheet, spot);
        }
        if winner.0 <= now {
            self.field.put(index, winner.1, winner.2);
        }
    }

    fn offer(&self, best: &mut Best, index: usize, sheet: usize, spot: Spot) {
        let price = self.price(index, sheet, spot, best.worst());
        best.offer(price, sheet, spot);
    }

    /// Moves a piece off its neighbours, always off the one it weighs most on. Where two or three edges leave just room
    /// enough, this ends in the corner between them, which no walk in steps would hit. Round a ring nothing is that tight.
    fn push_off(&self, index: usize, sheet: usize, spot: Spot, price: f64) -> (f64, Spot) {
        let mut best = (price, spot);
        if self.field.spaces[sheet].end == End::Repeats {
            return best;
        }
        let (item, count) = (self.field.pieces[index].item, self.field.pieces.len());
        let weights = &self.weights[index * count..(index + 1) * count];
        let mut spot = spot;
        for _ in 0..PUSHES {
            let step = if best.0 > 0.0 { self.field.push(index, sheet, spot, weights) } else { None };
            let moved = step.and_then(|step| self.field.clamped(item, spot.turn, sheet, spot.at + step));
            let Some(at) = moved else { break };
            spot.at = at;
            let found = self.price(index, sheet, spot, f64::INFINITY);
            if found < best.0 {
                best = (found, spot);
            }
        }
        best
    }

    fn nearby_turn(&mut self, turn: usize) -> usize {
        let turns = self.field.shapes.turns.len();
        match self.random.below(4) {
            _ if turns == 1 => 0,
            0 => self.random.below(turns),
            1 if turns > 4 => (turn + 1) % turns,
            2 if turns > 4 => (turn + turns - 1) % turns,
            _ => turn,
        }
    }

    /// Walks downhill in steps that grow on success and halve on failure, along the axes, the diagonals and the turn.
    fn descend(&mut self, index: usize, sheet: usize, spot: Spot, price: f64, step: f64, least: f64) -> (f64, Spot) {
        let item = self.field.pieces[index].item;
        let turns = self.field.shapes.turns.len();
        let (mut spot, mut price, mut step) = (spot, price, step);
        while step > least && price > 0.0 {
            let axis = match self.random.below(if turns > 4 { 5 } else { 4 }) {
                0 => Vec2::new(1.0, 0.0),
                1 => Vec2::new(0.0, 1.0),
                2 => Vec2::new(0.7, 0.7),
                3 => Vec2::new(0.7, -0.7),
                _ => Vec2::ZERO,
            };
            let mut better = false;
            for way in [step, -step] {
                let turn = match (axis == Vec2::ZERO, way > 0.0) {
                    (true, true) => (spot.turn + 1) % turns,
                    (true, false) => (spot.turn + turns - 1) % turns,
                    _ => spot.turn,
                };
                let Some(at) = self.field.clamped(item, turn, sheet, spot.at + axis * way) else { continue };
                let there = Spot { turn, at };
                let found = self.price(index, sheet, there, price);
                if found < price {
                    (spot, price, better) = (there, found, true);
                    break;
                }
            }
            step *= if better { 1.1 } else { 0.5 };
        }
        (price, spot)
    }

    fn weigh(&mut self, a: usize, b: usize, weight: f32) {
        let count = self.field.pieces.len();
        self.weights[a * count + b] = weight;
        self.weights[b * count + a] = weight;
    }

    /// Raises the weights of overlapping pairs, lets the others fade, and returns the total depth.
    fn reweigh(&mut self) -> f64 {
        let count = self.field.pieces.len();
        let mut pairs: Vec<(usize, usize, f64)> = Vec::new();
        for (index, piece) in self.field.pieces.iter().enumerate() {
            self.field.overlaps(index, piece.sheet, piece.spot, |other, depth| {
                if other >= index {
                    pairs.push((index, other, depth));
                }
            });
        }
        let deepest = pairs.iter().map(|pair| pair.2).fold(0.0, f64::max);
        let mut raised = std::mem::take(&mut self.raised);
        raised.retain(|(a, b)| {
            let faded = (self.weights[*a as usize * count + *b as usize] * DECAY).max(1.0);
            self.weigh(*a as usize, *b as usize, faded);
            faded > 1.0
        });
        self.raised = raised;
        for (a, b, depth) in &pairs {
            let growth = GROWTH.0 + (GROWTH.1 - GROWTH.0) * depth / deepest;
            #[allow(clippy::cast_possible_truncation, reason = "a weight needs few digits")]
            let growth = growth as f32 / DECAY;
            let before = self.weights[a * count + b];
            if before <= 1.0 {
                let narrow = |index: usize| u32::try_from(index).unwrap_or(u32::MAX);
                self.raised.push((narrow(*a), narrow(*b)));
            }
            self.weigh(*a, *b, (before * growth).min(1e6));
        }
        pairs.iter().map(|pair| pair.2).sum()
    }
}

/// The three cheapest places found for a move.
struct Best {
    held: [(f64, usize, Spot); 3],
}

impl Best {
    const fn new() -> Self {
        Self { held: [(f64::INFINITY, 0, Spot { turn: 0, at: Point::ZERO }); 3] }
    }

    const fn least(&self) -> f64 {
        self.held[0].0
    }

    const fn worst(&self) -> f64 {
        self.held[2].0
    }

    fn offer(&mut self, price: f64, sheet: usize, spot: Spot) {
        if price < self.worst() {
            self.held[2] = (price, sheet, spot);
            self.held.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
    }

    fn found(&self) -> impl Iterator<Item = (f64, usize, Spot)> {
        self.held.into_iter().filter(|place| place.0.is_finite())
    }
}
