//! How few plate positions there could be at best, whatever the plan: a bound from below.
//!
//! Rows of which no two motifs go under one plate are counted apart and added up. Within rows that can share plates, the
//! greatest of: motifs of which no two go under one plate, which need a position each; and for each row, and for all of them
//! together, the fewest runs of neighbours when any run is let through whose first and last motif go under one plate. Every
//! plate's motifs lie in such a run, so that no plan needs fewer. Two motifs are said to go together whenever some turn that
//! a plate over them may have allows it; the turn of a plate over many motifs is not known here.

use super::cover::fewest_runs;
use super::plate::{Bench, HAIR, Member};

/// No group under one plate is longer along the hem than so many of the plate's diagonals.
const MOST_REACHES: f64 = 4.0;

/// No plan with this plate, turned to the band, needs fewer positions for the spots of these rows.
pub(in crate::press) fn places_at_least(bench: &Bench<'_>, rows: &[Vec<usize>]) -> usize {
    let mut sharing: Vec<Vec<&Vec<usize>>> = Vec::new();
    for row in rows {
        let (near, mut far): (Vec<_>, Vec<_>) =
            sharing.into_iter().partition(|group| group.iter().any(|other| share(bench, other, row)));
        far.push(near.into_iter().flatten().chain([row]).collect());
        sharing = far;
    }
    sharing.iter().map(|group| of_group(bench, group)).sum()
}

/// Whether some plate could hold a motif of each row.
fn share(bench: &Bench<'_>, row: &[usize], other: &[usize]) -> bool {
    row.iter().any(|a| other.iter().any(|b| together(bench, *a, *b)))
}

/// The bound for rows that can share plates.
fn of_group(bench: &Bench<'_>, rows: &[&Vec<usize>]) -> usize {
    let mut all: Vec<usize> = rows.iter().copied().flatten().copied().collect();
    all.sort_by(|a, b| bench.spots[*a].s.total_cmp(&bench.spots[*b].s).then(a.cmp(b)));
    let of_rows = rows.iter().map(|row| by_runs(bench, row)).max().unwrap_or(0);
    of_rows.max(by_runs(bench, &all)).max(apart(bench, &all))
}

/// Fewest runs of neighbours, any run being let through whose ends, or the ends of a longer run, go under one plate.
fn by_runs(bench: &Bench<'_>, order: &[usize]) -> usize {
    let (n, closed) = (order.len(), bench.ground.is_closed());
    let member = |k: usize| Member { spot: order[k % n], laps: i32::from(k >= n) };
    // What lies nearly once round the ring is near in the flat, but no plate takes in all between.
    let farthest_s = MOST_REACHES * bench.diagonal();
    let end = |first: usize| {
        let last = if closed { first + n } else { n };
        let within = |k: &usize| bench.s(member(*k)) - bench.s(member(first)) <= farthest_s;
        (first + 1..last)
            .take_while(within)
            .filter(|k| pair_together(bench, [member(first), member(*k)]))
            .last()
            .unwrap_or(first)
            + 1
    };
    let ends: Vec<usize> = (0..n).map(end).collect();
    let farthest = |first: usize| {
        let own = ends[..=first].iter().copied();
        let round = ends[first + 1..].iter().filter(|_| closed).map(|end| end.saturating_sub(n));
        own.chain(round).max().unwrap_or(first + 1)
    };
    let farthest: Vec<usize> = (0..n).map(farthest).collect();
    let most = farthest.iter().enumerate().map(|(first, end)| end - first).max().unwrap_or(1);
    fewest_runs(n, most, closed, &|first, count| first + count <= farthest[first]).len()
}

/// How many spots can be found of which no two go under one plate turned to the band: each needs its own position.
fn apart(bench: &Bench<'_>, order: &[usize]) -> usize {
    let mut chosen: Vec<usize> = Vec::new();
    for spot in order {
        if chosen.iter().all(|other| !together(bench, *other, *spot)) {
            chosen.push(*spot);
        }
    }
    chosen.len()
}

/// Whether some plate turned to the band may hold both, whichever way round the ring.
fn together(bench: &Bench<'_>, a: usize, b: usize) -> bool {
    let laps: &[i32] = if bench.ground.is_closed() { &[0, -1, 1] } else { &[0] };
    laps.iter().any(|lap| pair_together(bench, [Member { spot: a, laps: 0 }, Member { spot: b, laps: *lap }]))
}

/// Whether some plate turned to the band may hold a pair. Never says no to a pair that one does: the plate is turned as the
/// hem runs halfway between the first and last motif of a group, and the middle of a group that holds the pair lies within
/// half the group's length of the pair's; between the turns tried an extent changes by no more than the pair's breadth
/// times the change of turn.
fn pair_together(bench: &Bench<'_>, pair: [Member; 2]) -> bool {
    const TRIES: u32 = 64;
    let reach = bench.diagonal();
    if bench.apart(pair[0], pair[1]) > reach {
        return false;
    }
    let direction = |s: f64| bench.ground.frame(s).along;
    let middle = f64::midpoint(bench.s(pair[0]), bench.s(pair[1]));
    let straight = direction(middle);
    let off = |s: f64| straight.cross(direction(s)).atan2(straight.dot(direction(s)));
    let half = longest_group(bench, pair) / 2.0;
    let (from, to) = (off(middle - half), off(middle + half));
    let (from, to) = (from.min(to).min(0.0), from.max(to).max(0.0));
    let slack = HAIR + reach * (to - from) / f64::from(2 * TRIES);
    let turn = bench.turn(&pair);
    (0..=TRIES).any(|k| {
        let (along, down) = bench.extent(&pair, turn + from + (to - from) * f64::from(k) / f64::from(TRIES));
        along.1 - along.0 <= bench.plate.along + slack && down.1 - down.0 <= bench.plate.up + slack
    })
}

/// Length along the hem that no group under one plate passes, near a pair: the plate's diagonal as a half circle, and as much
/// longer as the hem is than a line at the height of the highest motif. Never less than a quarter more, for motifs whose
/// middles lie outside their outlines, and never more than four diagonals.
fn longest_group(bench: &Bench<'_>, pair: [Member; 2]) -> f64 {
    const STEP: f64 = 1.0;
    let reach = bench.diagonal();
    let height = bench.spots.iter().map(|spot| spot.height).fold(0.0, f64::max);
    let line = |member: &Member| {
        let s = bench.s(*member);
        bench.ground.point(s - STEP, height).distance(bench.ground.point(s + STEP, height)) / (2.0 * STEP)
    };
    let shortest = pair.iter().map(line).fold(1.0, f64::min).max(0.1);
    (reach * std::f64::consts::FRAC_PI_2 / shortest).clamp(reach * 1.25, reach * MOST_REACHES)
}
