//! Edges of straight sides and equal corners: shawls and table cloths, the upper side being the inside.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::Frame;
use super::curve::Curve;
use super::edge::{Edge, Piece};
use super::line::turned;
use crate::geometry::{Point, Vec2};

/// A rectangle, CF in the middle of a side of length `width`; the ring closes in the middle of the side opposite.
pub(super) fn rectangle(width: f64, depth: f64) -> Edge {
    walk(&[width / 2.0, depth, width, depth, width / 2.0], FRAC_PI_2)
}

/// A regular polygon, CF in the middle of a side; the ring closes in a corner where the number of sides is odd.
pub(super) fn regular(sides: u32, side: f64) -> Edge {
    let whole = if sides % 2 == 1 { sides } else { sides - 1 } as usize;
    let mut lengths = vec![side; whole];
    if sides.is_multiple_of(2) {
        lengths.insert(0, side / 2.0);
        lengths.push(side / 2.0);
    }
    walk(&lengths, TAU / f64::from(sides))
}

/// Straight pieces one after another, turning by `corner` between them; CF is the middle of the middle one.
fn walk(lengths: &[f64], corner: f64) -> Edge {
    let middle = lengths.len() / 2;
    let mut frame = Frame { at: Point::ORIGIN, along: Vec2::new(1.0, 0.0) };
    let mut frames = Vec::new();
    for length in lengths {
        frames.push(frame);
        frame = Frame { at: frame.at + frame.along * *length, along: turned(frame.along, corner) };
    }
    let cf = Frame { at: frames[middle].at + frames[middle].along * (lengths[middle] / 2.0), ..frames[middle] };
    let home = cf.placement().inverse();
    let pieces = lengths.iter().zip(frames).map(|(length, frame)| {
        Piece::new(Curve::Arc { curvature: 0.0 }, 0.0, *length, 1).carried(home * frame.placement())
    });
    let zero = lengths[..middle].iter().sum::<f64>() + lengths[middle] / 2.0;
    Edge::joined(pieces.collect(), zero)
}
