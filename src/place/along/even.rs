//! Equal clear gaps: motifs shifted along the line until the shortest distance between true outlines is the same everywhere.
//!
//! Where a hem curves more in one place than in another, equal steps along the line give unequal clear gaps. Each step is
//! lengthened by what its clear gap lacks and shortened by what it has too much, the sum kept; how far a clear gap follows
//! its step is learned from the round before (a secant for each step). A few rounds settle it.

use super::row::{Row, Seat};

/// Clear gaps that differ by less than this, in millimetres, are equal: a hundredth, far below any knife.
pub(in crate::place) const EQUAL: f64 = 0.01;

/// Most rounds; hems that are worn settle within six.
const ROUNDS: u32 = 40;

/// Rounds in which outlines that overlap must come apart.
const PARTING: u32 = 10;

/// Clear gaps follow their steps at least and at most this fast in the secant, so that one odd round cannot throw a motif
/// across the skirt.
const SLOPES: std::ops::RangeInclusive<f64> = 0.2..=2.0;

/// Evens the clear gaps of a row; gives the common clear gap, or `None` when they cannot be made equal (outlines that
/// overlap, a single motif).
///
/// `clears` measures the clear gaps of a row between neighbours in order; the closing one of a ring last.
pub(in crate::place) fn even_out(row: &mut Row, mut clears: impl FnMut(&Row) -> Option<Vec<f64>>) -> Option<f64> {
    let count = row.seats.len();
    let neighbours = if row.round.is_some() { count } else { count.checked_sub(1)? };
    if count < 2 {
        return None;
    }
    let mut slopes = vec![1.0; neighbours];
    let mut last: Option<(Vec<f64>, Vec<f64>)> = None;
    for round in 0..ROUNDS {
        let steps: Vec<f64> = (0..neighbours).map(|k| next(row, k).s - row.seats[k].s).collect();
        let gaps = clears(row)?;
        let (least, greatest) = gaps.iter().fold((f64::MAX, f64::MIN), |(l, g), gap| (l.min(*gap), g.max(*gap)));
        if greatest - least < EQUAL {
            return (least > 0.0).then_some(least);
        }
        if least < 0.0 && round >= PARTING {
            return None;
        }
        if let Some((steps_before, gaps_before)) = &last {
            for k in 0..neighbours {
                let moved = steps[k] - steps_before[k];
                if moved.abs() > 1e-6 {
                    let slope = (gaps[k] - gaps_before[k]) / moved;
                    slopes[k] = slope.clamp(*SLOPES.start(), *SLOPES.end());
                }
            }
        }
        // The gap all could have: chosen so that the changes of step add up to nothing.
        let weight: f64 = slopes.iter().map(|slope| 1.0 / slope).sum();
        let common = gaps.iter().zip(&slopes).map(|(gap, slope)| gap / slope).sum::<f64>() / weight;
        let wanted: Vec<f64> = (0..neighbours).map(|k| steps[k] + (common - gaps[k]) / slopes[k]).collect();
        respace(row, &wanted);
        last = Some((steps, gaps));
    }
    None
}

/// The seat after the `k`th, on a ring a whole round further for the last.
fn next(row: &Row, k: usize) -> Seat {
    match (row.seats.get(k + 1), row.round) {
        (Some(seat), _) => *seat,
        (None, Some(round)) => Seat { s: row.seats[0].s + round, ..row.seats[0] },
        (None, None) => row.seats[k],
    }
}

/// Lays the seats out with new steps, keeping what lies at the middle: the motif nearest to zero where one is there,
/// otherwise the middle between the two beside it; an open row keeps its first motif.
fn respace(row: &mut Row, steps: &[f64]) {
    let mut s = row.seats[0].s;
    let mut places = vec![s];
    for step in &steps[..row.seats.len() - 1] {
        s += step;
        places.push(s);
    }
    let shift = if row.round.is_some() { middle_shift(row, &places) } else { 0.0 };
    for (seat, place) in row.seats.iter_mut().zip(places) {
        seat.s = place + shift;
    }
}

fn middle_shift(row: &Row, places: &[f64]) -> f64 {
    let after = row.seats.partition_point(|seat| seat.s < -super::row::ON_PLACE).min(places.len() - 1);
    if row.seats[after].s.abs() <= super::row::ON_PLACE {
        row.seats[after].s - places[after]
    } else {
        let before = after.saturating_sub(1);
        (row.seats[before].s + row.seats[after].s - places[before] - places[after]) / 2.0
    }
}
