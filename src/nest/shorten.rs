//! Shortening what is used of the last sheet or the roll: cut a piece off, pull the pieces apart, cut again.

use super::field::{Field, Piece};
use super::part::{Parting, Patience};
use super::random::Random;
use crate::geometry::Point;

/// A parted layout: the pieces and the length of the last sheet.
#[derive(Clone, Debug)]
pub(super) struct Shortened {
    pub(super) pieces: Vec<Piece>,
    pub(super) length: f64,
}

/// How a search spends its work.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plan {
    /// Share of the length cut off at first.
    pub(super) first_cut: f64,
    /// Share below which the search ends.
    pub(super) least_cut: f64,
    pub(super) patience: Patience,
    /// Moves in all.
    pub(super) moves: u64,
}

/// Shortens the last sheet as far as the plan allows, from a parted start.
pub(super) fn shorten(
    field: &mut Field<'_>,
    plan: &Plan,
    random: &mut Random,
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Shortened {
    let last = field.lengths.len() - 1;
    // What the area alone forces into the last sheet: below that no search need look.
    let area: f64 = field.pieces.iter().map(|piece| field.shapes.shape(piece.item).area).sum();
    let full: f64 = field.lengths[..last].iter().sum();
    let floor = area / field.width - full;
    let mut best = Shortened { pieces: field.pieces.clone(), length: used(field) };
    let mut cut = plan.first_cut;
    let mut moves = 0;
    let mut fails = 0u32;
    // An empty last sheet is as short as it gets.
    while moves < plan.moves && best.length > 0.0 {
        let mut lengths = field.lengths.clone();
        lengths[last] = best.length * (1.0 - cut);
        if lengths[last] < floor {
            cut /= 2.0;
            if cut < plan.least_cut {
                break;
            }
            continue;
        }
        let Some(mut tried) = squeezed(field, &best.pieces, lengths, random) else { break };
        let mut parting = Parting::new(&mut tried, random);
        let mut stopped = false;
        let quick = cut > 2.0 * plan.least_cut;
        let patience = Patience {
            moves: plan.moves - moves,
            sweeps: if quick { 40 } else { plan.patience.sweeps },
            strikes: if quick { 1 } else { plan.patience.strikes + fails as usize },
            ..plan.patience
        };
        let parted = parting.part(patience, || {
            stopped = !go_on(best.length);
            !stopped
        });
        let used_moves = parting.moves;
        moves += used_moves;
        if parted {
            best = Shortened { pieces: tried.pieces.clone(), length: used(&tried) };
            *field = tried;
        } else if quick {
            cut /= 2.0;
        } else {
            fails += 1;
        }
        if stopped {
            break;
        }
    }
    best
}

/// Length used of the last sheet.
pub(super) fn used(field: &Field<'_>) -> f64 {
    let last = field.lengths.len() - 1;
    let far = |piece: &Piece| field.shapes.bounds(piece.item, piece.spot.turn).y1 + piece.spot.at.y;
    field.pieces.iter().filter(|piece| piece.sheet == last).map(far).fold(0.0, f64::max)
}

/// The same pieces with other lengths; those that no longer fit where they are move inside. `None` when one fits nowhere.
fn squeezed<'a>(field: &Field<'a>, pieces: &[Piece], lengths: Vec<f64>, random: &mut Random) -> Option<Field<'a>> {
    let mut made = Field::new(field.shapes, field.width, lengths, pieces.to_vec());
    for (index, piece) in pieces.iter().enumerate() {
        let at = piece.spot.at;
        let spot = match made.inner(piece.item, piece.spot.turn, piece.sheet) {
            Some(inner) => {
                Some((piece.sheet, Point::new(at.x.clamp(inner.x0, inner.x1), at.y.clamp(inner.y0, inner.y1))))
            }
            None => {
                let sheet = random.below(made.lengths.len());
                made.inner(piece.item, piece.spot.turn, sheet).map(|inner| {
                    (sheet, Point::new(random.between(inner.x0, inner.x1), random.between(inner.y0, inner.y1)))
                })
            }
        };
        let (sheet, at) = spot?;
        made.put(index, sheet, super::shapes::Spot { turn: piece.spot.turn, at });
    }
    Some(made)
}
