//! Layouts that repeat along the sheet: a few pieces on a strip closed to a ring, as short as they can be made.
//!
//! A job of many like motifs is better searched in the small: a ring of twenty pieces is searched a hundred times as
//! thoroughly as a sheet of two hundred, keeps the sheet's true edges on both sides, and is laid one after another.

use crate::geometry::Point;
use crate::nest::search::field::{End, Field, Keep, Piece, Space};
use crate::nest::search::part::{Parting, Patience};
use crate::nest::search::random::Random;
use crate::nest::search::shorten::{Plan, Shortened, shorten};
use crate::nest::search::watch::Watch;
use crate::nest::shape::shapes::{Shapes, Spot};

/// Share of a ring's area that pieces take up at the start of a search; loose enough to be parted within a few sweeps.
const LOOSE: f64 = 0.5;

/// Share of the area that good layouts cover, to guess how many pieces a ring of some length holds.
const USUAL_COVER: f64 = 0.7;

/// Pieces in one ring at most: beyond, a ring is searched no better than the sheet itself.
const MOST_IN_A_RING: u32 = 60;

/// Times a piece may reach round its ring: every lap is looked at for every place tried, and needles would reach hundreds.
const MOST_LAPS: f64 = 10.0;

/// A strip of repeated rings: as long as wanted, in the order in which scissors come to the pieces.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Ring {
    pub(in crate::nest) pieces: Vec<Piece>,
    pub(in crate::nest) width: f64,
    /// Length after which it repeats.
    pub(in crate::nest) length: f64,
}

impl Ring {
    /// Share of the area covered.
    pub(in crate::nest) fn cover(&self, shapes: &Shapes) -> f64 {
        let area: f64 = self.pieces.iter().map(|piece| shapes.shape(piece.item).area).sum();
        area / (self.width * self.length)
    }

    /// The pieces of a strip of such a length, without those that would stick out, cut open where most area stays.
    pub(in crate::nest) fn unrolled(&self, shapes: &Shapes, length: f64) -> Vec<Piece> {
        let area = |pieces: &[Piece]| pieces.iter().map(|piece| shapes.shape(piece.item).area).sum::<f64>();
        let top = |piece: &Piece| shapes.bounds(piece.item, piece.spot.turn).y0 + piece.spot.at.y;
        let bottom = |piece: &Piece| shapes.bounds(piece.item, piece.spot.turn).y1 + piece.spot.at.y;
        let cuts = self.pieces.iter().flat_map(|piece| {
            // A piece may begin flush with the start of the strip, or end flush with its end.
            [top(piece), bottom(piece) - length]
        });
        let opened = |cut: f64| -> Vec<Piece> {
            let laps = 2 + laps(length, self.length);
            let all = (0..laps).flat_map(|lap| self.pieces.iter().map(move |piece| (lap, *piece)));
            let mut kept: Vec<Piece> = all
                .map(|(lap, piece)| {
                    let y = (piece.spot.at.y - cut).rem_euclid(self.length) + (f64::from(lap) - 1.0) * self.length;
                    let at = Point::new(piece.spot.at.x, y);
                    Piece { spot: Spot { at, ..piece.spot }, ..piece }
                })
                .filter(|piece| top(piece) >= -1e-9 && bottom(piece) <= length + 1e-9)
                .collect();
            kept.sort_by(|a, b| bottom(a).total_cmp(&bottom(b)).then(a.spot.at.x.total_cmp(&b.spot.at.x)));
            kept
        };
        let mut best: Vec<Piece> = Vec::new();
        for cut in cuts {
            let pieces = opened(cut);
            if area(&pieces) > area(&best) + 1e-6 {
                best = pieces;
            }
        }
        best
    }
}

fn laps(length: f64, ring: f64) -> u32 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to what a sheet can hold")]
    let laps = (length / ring).ceil().clamp(1.0, 20_000.0) as u32;
    laps
}

/// Numbers of each item to try in a ring, in about the proportions of the job.
pub(in crate::nest) fn mixtures(shapes: &Shapes, width: f64, wanted: &[u32], most: usize) -> Vec<Vec<u32>> {
    let area: f64 = wanted.iter().enumerate().map(|(item, n)| f64::from(*n) * shapes.shape(item).area).sum();
    let asked = wanted.iter().enumerate().filter(|(_, n)| **n > 0);
    let highest = asked.map(|(item, _)| shapes.shape(item).size).fold(0.0, f64::max);
    let all: u32 = wanted.iter().sum();
    let whole = area / (USUAL_COVER * width);
    let mut made: Vec<Vec<u32>> = Vec::new();
    // From one row of the largest piece upward, a little longer each time; two rings at least must come out of the job.
    let mut length = highest;
    while length < whole / 2.0 && made.len() < most {
        let share = length / whole;
        let mixture: Vec<u32> = wanted
            .iter()
            .map(|n| {
                #[allow(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "below the number asked for"
                )]
                let rounded = (f64::from(*n) * share).round() as u32;
                rounded
            })
            .collect();
        let count: u32 = mixture.iter().sum();
        if count > MOST_IN_A_RING.min(all) {
            break;
        }
        if count > 0 && !made.contains(&mixture) {
            made.push(mixture);
        }
        length *= 1.02;
    }
    made
}

/// The shortest ring found that holds so many of each item.
pub(in crate::nest) fn densest(
    shapes: &Shapes,
    width: f64,
    counts: &[u32],
    plan: &Plan,
    random: &mut Random,
    watch: &Watch<'_>,
) -> Option<Ring> {
    let items: Vec<usize> =
        (0..counts.len()).flat_map(|item| std::iter::repeat_n(item, counts[item] as usize)).collect();
    let area: f64 = items.iter().map(|item| shapes.shape(*item).area).sum();
    // A piece may not meet itself round the ring.
    let highest = items.iter().map(|item| shapes.shape(*item).size).fold(0.0, f64::max);
    let mut length = (area / (LOOSE * width)).max(highest);
    let reach = items.iter().map(|item| shapes.shape(*item).radius).fold(0.0, f64::max);
    if reach > MOST_LAPS * length {
        return None;
    }
    for _ in 0..10 {
        let field = scattered(shapes, width, length, &items, random)?;
        if let Some(field) = parted(field, plan, random, watch) {
            let Shortened { pieces, length } = shorten(field, plan, random, watch);
            return Some(Ring { pieces, width, length });
        }
        if watch.stopped() {
            break;
        }
        length *= 1.15;
    }
    None
}

/// Pieces at random places round a ring.
fn scattered<'a>(
    shapes: &'a Shapes,
    width: f64,
    length: f64,
    items: &[usize],
    random: &mut Random,
) -> Option<Field<'a>> {
    let start = Spot { turn: 0, at: Point::ZERO };
    let pieces = items.iter().map(|item| Piece { item: *item, sheet: 0, spot: start, keep: Keep::Anywhere }).collect();
    let mut field = Field::new(shapes, vec![Space { width, length, end: End::Repeats }], pieces);
    for (index, item) in items.iter().enumerate() {
        let spot = (0..50).find_map(|_| {
            let turn = random.below(shapes.turns.len());
            field.anywhere(*item, turn, 0, random)
        })?;
        field.put(index, 0, spot);
    }
    Some(field)
}

fn parted<'a>(mut field: Field<'a>, plan: &Plan, random: &mut Random, watch: &Watch<'_>) -> Option<Field<'a>> {
    let patience = Patience { strikes: 1, sweeps: 50, moves: plan.moves.max(1), ..plan.patience };
    Parting::new(&mut field, random, watch).part(patience).then_some(field)
}
