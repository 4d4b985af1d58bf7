//! Shortening what is used of the last sheet or the roll: cut a piece off, pull the pieces apart, cut again.
//!
//! Three stages. First large cuts, halved as they fail. Then the smallest cut again and again, and where that fails the least
//! overlapping of the failed layouts are disturbed (two unlike pieces change places, or a few are thrown elsewhere) and tried
//! once more. At last thin slices at random heights are taken out of the best layout. After J. Gardeyn and G. Vanden Berghe,
//! 2025 (arXiv 2509.13329).

use super::field::{End, Field, Piece};
use super::part::{Parting, Patience};
use super::random::Random;
use super::watch::Watch;
use crate::nest::shape::shapes::Spot;

/// A parted layout: the pieces and the length of the last sheet.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Shortened {
    pub(in crate::nest) pieces: Vec<Piece>,
    pub(in crate::nest) length: f64,
}

/// How a search spends its work.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Plan {
    /// Share of the length cut off at first.
    pub(in crate::nest) first_cut: f64,
    /// Share cut off at a time once large cuts fail.
    pub(in crate::nest) least_cut: f64,
    /// Share of the moves kept for the thin slices at the end.
    pub(in crate::nest) slicing: f64,
    pub(in crate::nest) patience: Patience,
    /// Moves in all.
    pub(in crate::nest) moves: u64,
}

/// Thickest and thinnest slice, as a share of the length.
const SLICES: (f64, f64) = (0.001, 0.000_02);

/// Failed layouts remembered.
const REMEMBERED: usize = 8;

/// A search that shortens the last sheet of a field.
struct Shortening<'a, 'r> {
    field: Field<'a>,
    plan: &'r Plan,
    random: &'r mut Random,
    watch: &'r Watch<'r>,
    best: Shortened,
    /// What the area alone forces into the last sheet: below that no search need look.
    floor: f64,
    moves: u64,
}

/// Shortens the last sheet as far as the plan allows, from a parted start.
pub(in crate::nest) fn shorten(field: Field<'_>, plan: &Plan, random: &mut Random, watch: &Watch<'_>) -> Shortened {
    let last = field.spaces.len() - 1;
    let area: f64 = field.pieces.iter().map(|piece| field.shapes.shape(piece.item).area).sum();
    let full: f64 = field.spaces[..last].iter().map(super::field::Space::area).sum();
    let floor = (area - full) / field.spaces[last].width;
    let best = Shortened { pieces: field.pieces.clone(), length: used(&field) };
    let mut search = Shortening { field, plan, random, watch, best, floor, moves: 0 };
    search.cut_largely();
    search.explore();
    search.slice();
    search.best
}

impl Shortening<'_, '_> {
    /// Moves left before so large a share of all is spent.
    fn left(&self, share: f64) -> u64 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a count of moves")]
        let limit = (self.plan.moves as f64 * share) as u64;
        // An empty last sheet is as short as it gets.
        if self.watch.stopped() || self.best.length <= 0.0 { 0 } else { limit.saturating_sub(self.moves) }
    }

    fn cut_largely(&mut self) {
        let mut cut = self.plan.first_cut;
        while cut >= self.plan.least_cut && self.left(1.0 - self.plan.slicing) > 0 {
            let patience = Patience { sweeps: 40, strikes: 1, ..self.plan.patience };
            let pieces = self.best.pieces.clone();
            let target = Target { length: self.best.length * (1.0 - cut), from: self.best.length, split: None };
            if !self.attempt(&pieces, target, patience).is_ok_and(|parted| parted) {
                cut /= 2.0;
            }
        }
    }

    /// Cuts a little, and disturbs what fails until it parts.
    fn explore(&mut self) {
        let mut failed: Vec<(f64, Vec<Piece>)> = Vec::new();
        let mut start = self.best.pieces.clone();
        while self.left(1.0 - self.plan.slicing) > 0 {
            let length = self.best.length * (1.0 - self.plan.least_cut);
            let target = if failed.is_empty() {
                Target { length, from: self.best.length, split: Some(self.random.between(0.0, length)) }
            } else {
                Target { length, from: length, split: None }
            };
            match self.attempt(&start, target, self.plan.patience) {
                Ok(true) => {
                    failed.clear();
                    start.clone_from(&self.best.pieces);
                }
                Ok(false) => {
                    failed.push((self.field.total(), self.field.pieces.clone()));
                    failed.sort_by(|a, b| a.0.total_cmp(&b.0));
                    failed.truncate(REMEMBERED);
                    // Squaring favours the least overlapping.
                    let skewed = self.random.unit().powi(2) * failed.len() as f64;
                    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below the number kept")]
                    let chosen = skewed as usize;
                    start.clone_from(&failed[chosen].1);
                    disturb(&self.field, &mut start, self.random);
                }
                Err(TooShort) => break,
            }
        }
    }

    /// Takes ever thinner slices out of the best layout.
    fn slice(&mut self) {
        while self.left(1.0) > 0 {
            let gone = 1.0 - self.left(1.0) as f64 / (self.plan.moves as f64 * self.plan.slicing).max(1.0);
            let share = SLICES.0 * (SLICES.1 / SLICES.0).powf(gone.clamp(0.0, 1.0));
            let length = self.best.length;
            let target =
                Target { length: length * (1.0 - share), from: length, split: Some(self.random.between(0.0, length)) };
            let pieces = self.best.pieces.clone();
            let patience = Patience { sweeps: 60, strikes: 1, ..self.plan.patience };
            if self.attempt(&pieces, target, patience).is_err() {
                break;
            }
        }
    }

    /// Tries to part pieces on a shorter last sheet.
    fn attempt(&mut self, pieces: &[Piece], target: Target, patience: Patience) -> Result<bool, TooShort> {
        if target.length < self.floor {
            return Err(TooShort);
        }
        self.field = squeezed(&self.field, pieces, target, self.random).ok_or(TooShort)?;
        let left = self.left(1.0).max(1);
        let mut parting = Parting::new(&mut self.field, self.random, self.watch);
        let parted = parting.part(Patience { moves: left, ..patience });
        // An attempt costs something even when nothing overlaps.
        self.moves += parting.moves.max(1);
        if parted {
            self.best = Shortened { pieces: self.field.pieces.clone(), length: used(&self.field) };
        }
        Ok(parted)
    }
}

/// The length to be reached.
#[derive(Clone, Copy, Debug)]
struct Target {
    length: f64,
    /// Length at which the pieces were laid.
    from: f64,
    /// What lies beyond this height moves up by what is cut off.
    split: Option<f64>,
}

/// The last sheet is shorter than its pieces need.
struct TooShort;

/// Two unlike pieces change places, or, where all are alike, a few are thrown elsewhere.
fn disturb(field: &Field<'_>, pieces: &mut [Piece], random: &mut Random) {
    let free: Vec<usize> =
        (0..pieces.len()).filter(|index| pieces[*index].keep == super::field::Keep::Anywhere).collect();
    if free.is_empty() {
        return;
    }
    let area = |index: usize| field.shapes.shape(pieces[index].item).area;
    let largest = free.iter().map(|index| area(*index)).fold(0.0, f64::max);
    let large: Vec<usize> = free.iter().copied().filter(|index| area(*index) > 0.2 * largest).collect();
    let first = large[random.below(large.len())];
    let unlike: Vec<usize> = large.iter().copied().filter(|index| pieces[*index].item != pieces[first].item).collect();
    if unlike.is_empty() || random.below(4) == 0 {
        for _ in 0..=random.below(3) {
            let index = free[random.below(free.len())];
            let sheet = random.below(field.spaces.len());
            let turn = random.below(field.shapes.turns.len());
            if let Some(spot) = field.anywhere(pieces[index].item, turn, sheet, random) {
                (pieces[index].sheet, pieces[index].spot) = (sheet, spot);
            }
        }
        return;
    }
    let second = unlike[random.below(unlike.len())];
    let middle = |piece: Piece| field.shapes.bounds(piece.item, piece.spot.turn).center().to_vec2();
    let (a, b) = (pieces[first], pieces[second]);
    for (index, from, to) in [(first, a, b), (second, b, a)] {
        // Each takes the other's middle, not its origin.
        let at = to.spot.at + middle(to) - middle(from);
        if let Some(at) = field.clamped(from.item, from.spot.turn, to.sheet, at) {
            (pieces[index].sheet, pieces[index].spot) = (to.sheet, Spot { at, ..from.spot });
        }
    }
}

/// Length used of the last sheet; a ring is always used whole.
pub(in crate::nest) fn used(field: &Field<'_>) -> f64 {
    let last = field.spaces.len() - 1;
    if field.spaces[last].end == End::Repeats {
        return field.spaces[last].length;
    }
    let far = |piece: &Piece| field.shapes.bounds(piece.item, piece.spot.turn).y1 + piece.spot.at.y;
    field.pieces.iter().filter(|piece| piece.sheet == last).map(far).fold(0.0, f64::max)
}

/// The same pieces with another length of the last sheet; those that no longer fit move inside. `None` when one fits nowhere.
fn squeezed<'a>(field: &Field<'a>, pieces: &[Piece], target: Target, random: &mut Random) -> Option<Field<'a>> {
    let mut spaces = field.spaces.clone();
    let last = spaces.len() - 1;
    spaces[last].length = target.length;
    let mut moved = pieces.to_vec();
    for piece in moved.iter_mut().filter(|piece| piece.sheet == last) {
        match (spaces[last].end, target.split) {
            // Round a ring everything moves closer, so that no seam opens.
            (End::Repeats, _) => piece.spot.at.y *= target.length / target.from,
            (End::Closed, Some(split)) if piece.spot.at.y > split => piece.spot.at.y -= target.from - target.length,
            (End::Closed, _) => {}
        }
    }
    let mut made = Field::new(field.shapes, spaces, moved.clone());
    for (index, piece) in moved.iter().enumerate() {
        let kept = made.clamped(piece.item, piece.spot.turn, piece.sheet, piece.spot.at);
        let (sheet, spot) = match kept {
            Some(at) => (piece.sheet, Spot { at, ..piece.spot }),
            None => elsewhere(&made, piece, random)?,
        };
        made.put(index, sheet, spot);
    }
    Some(made)
}

/// A random place on any sheet, at any turn, for a piece that no longer fits where it was.
fn elsewhere(field: &Field<'_>, piece: &Piece, random: &mut Random) -> Option<(usize, Spot)> {
    (0..50).find_map(|_| {
        let sheet = match piece.keep {
            super::field::Keep::Anywhere => random.below(field.spaces.len()),
            super::field::Keep::OnItsSheet => piece.sheet,
        };
        let turn = random.below(field.shapes.turns.len());
        field.anywhere(piece.item, turn, sheet, random).map(|spot| (sheet, spot))
    })
}
