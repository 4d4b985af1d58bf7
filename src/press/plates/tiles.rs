//! A motif larger than the plate: several plate positions that together cover it, as with a domestic iron.
//!
//! The motif's box in the plate's frame is covered by a grid of trusted areas that overlap by at least the tables' `press-parts-overlap`, as few
//! as that allows; the iron is lifted, never slid.

use super::plate::{Bench, HAIR, Member, Room};
use super::positions::Spread;
use crate::data::usual;
use crate::press::work::closure::Part;

/// Most positions over one motif; beyond it the plate is no tool for the job.
const MOST: u32 = 64;

/// Plate positions over one motif; `None` when it would take more than [`MOST`], or the plate is not larger than the overlap.
pub(in crate::press) fn tiles(bench: &Bench<'_>, spot: usize) -> Option<Vec<Spread>> {
    let member = [Member { spot, laps: 0 }];
    let turn = bench.turn(&member);
    let (along, down) = bench.extent(&member, turn);
    let columns = middles(along, bench.plate.along)?;
    let rows = middles(down, bench.plate.up)?;
    let of = u32::try_from(columns.len() * rows.len()).ok().filter(|of| *of <= MOST)?;
    let grid = rows.iter().flat_map(|down| columns.iter().map(move |along| (*along, *down)));
    let spread = |(number, (along, down))| Spread {
        members: member.to_vec(),
        room: Room { turn, along: (along, along), down: (down, down) },
        part: Some(Part { number, of }),
    };
    Some((1..).zip(grid).map(spread).collect())
}

/// No fewer plate positions turned to the band cover one motif: as many as its length or its height takes, whichever is more.
pub(in crate::press) fn tiles_at_least(bench: &Bench<'_>, spot: usize) -> usize {
    let member = [Member { spot, laps: 0 }];
    let (along, down) = bench.extent(&member, bench.turn(&member));
    // Places needed to span a length, counted up.
    let spans = |(least, greatest): (f64, f64), size: f64| {
        (1..MOST).find(|count| f64::from(*count) * size + HAIR >= greatest - least).unwrap_or(MOST)
    };
    let most = spans(along, bench.plate.along).max(spans(down, bench.plate.up));
    usize::try_from(most).unwrap_or(1)
}

/// Middles of the fewest equal spans that cover a range with the overlap, evenly set.
fn middles((least, greatest): (f64, f64), size: f64) -> Option<Vec<f64>> {
    let length = greatest - least;
    if length <= size + HAIR {
        return Some(vec![f64::midpoint(least, greatest)]);
    }
    let overlap = usual("press-parts-overlap");
    let step = size - overlap;
    let count = ((length - overlap) / step).ceil();
    if step <= 0.0 || count > f64::from(MOST) {
        return None;
    }
    let even = (length - size) / (count - 1.0);
    let mut found = Vec::new();
    while f64::from(u32::try_from(found.len()).ok()?) < count {
        found.push(least + size / 2.0 + even * f64::from(u32::try_from(found.len()).ok()?));
    }
    Some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 200 under spans of 80: two cover 150 at most with 10 overlap, three cover 220; steps of 60, overlaps of 20.
    #[test]
    fn spans_cover_evenly_and_overlap_enough() {
        assert_eq!(middles((0.0, 200.0), 80.0).unwrap(), [40.0, 100.0, 160.0]);
        assert_eq!(middles((0.0, 150.0), 80.0).unwrap(), [40.0, 110.0]);
        assert_eq!(middles((5.0, 85.0), 80.0).unwrap(), [45.0]);
        assert!(middles((0.0, 100.0), 9.0).is_none());
    }
}
