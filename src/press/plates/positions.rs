//! Plate positions: every motif under the trusted part of some plate, with as few positions as can be.
//!
//! One row: neighbours go together, the plate is turned to the band halfway between the first and last of them, and the
//! fewest positions are found exactly ([`super::cover`]). Several rows: rows are gathered into strips that the plate spans, each
//! strip solved exactly as one row of all its motifs in order round the hem, the gathering chosen by dynamic programming
//! (the strips of Hochbaum and Maass, source 111); then positions whose motifs all fit under others are dropped. How far that can
//! be from the best is stated ([`super::bound`]).

use super::bound::places_at_least;
use super::cover::fewest_runs;
use super::plate::{Bench, Member, Room};
use crate::press::work::closure::Part;

/// One plate position.
#[derive(Clone, Debug)]
pub(in crate::press) struct Spread {
    /// The motifs under it.
    pub(in crate::press) members: Vec<Member>,
    /// Where the plate may lie.
    pub(in crate::press) room: Room,
    /// Which of several positions over one motif this is, where the plate does not cover it whole.
    pub(in crate::press) part: Option<Part>,
}

/// Plate positions and how good their number is.
#[derive(Clone, Debug)]
pub(in crate::press) struct Positions {
    /// In order along the hem.
    pub(in crate::press) spreads: Vec<Spread>,
    /// No plan with this plate, turned to the band, needs fewer.
    pub(in crate::press) at_least: usize,
}

/// Covers the spots listed, each of which must fit by itself.
pub(in crate::press) fn positions(bench: &Bench<'_>, listed: &[usize], one_at_a_time: bool) -> Positions {
    let singles = || listed.iter().map(|spot| vec![Member { spot: *spot, laps: 0 }]).collect::<Vec<_>>();
    let rows = rows(bench, listed);
    let groups = if one_at_a_time { singles() } else { gathered(bench, &rows) };
    let mut spreads: Vec<Spread> = groups
        .into_iter()
        .map(|group| bench.carried_home(&group))
        .filter_map(|members| bench.room(&members).map(|room| Spread { members, room, part: None }))
        .collect();
    spreads.sort_by(|a, b| middle_s(bench, a).total_cmp(&middle_s(bench, b)));
    let at_least = match (one_at_a_time, rows.len()) {
        (true, _) | (_, 0 | 1) => spreads.len(),
        _ => places_at_least(bench, &rows).min(spreads.len()),
    };
    Positions { spreads, at_least }
}

/// Halfway along the hem between a position's first and last motif.
pub(in crate::press) fn middle_s(bench: &Bench<'_>, spread: &Spread) -> f64 {
    let sum: f64 = spread.members.iter().map(|member| bench.s(*member)).sum();
    sum / f64::from(u32::try_from(spread.members.len()).unwrap_or(u32::MAX)).max(1.0)
}

/// Spots by row, each in order along the hem; spots come sorted that way.
fn rows(bench: &Bench<'_>, listed: &[usize]) -> Vec<Vec<usize>> {
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for &spot in listed {
        match rows.last_mut() {
            Some(row) if bench.spots[row[0]].row == bench.spots[spot].row => row.push(spot),
            _ => rows.push(vec![spot]),
        }
    }
    let lowest = |row: &Vec<usize>| row.iter().map(|spot| bench.spots[*spot].height).fold(f64::INFINITY, f64::min);
    rows.sort_by(|a, b| lowest(a).total_cmp(&lowest(b)));
    rows
}

/// Rows gathered into strips so that the positions of all strips together are fewest.
fn gathered(bench: &Bench<'_>, rows: &[Vec<usize>]) -> Vec<Vec<Member>> {
    /// More rows than a plate ever spans; bounds the number of strips tried.
    const DEEPEST: usize = 8;
    let mut best: Vec<Option<Vec<Vec<Member>>>> = vec![None; rows.len() + 1];
    best[0] = Some(Vec::new());
    for last in 0..rows.len() {
        for first in (last + 1).saturating_sub(DEEPEST)..=last {
            let Some(before) = &best[first] else { continue };
            let mut all = before.clone();
            all.extend(strip(bench, &rows[first..=last]));
            if best[last + 1].as_ref().is_none_or(|known| all.len() < known.len()) {
                best[last + 1] = Some(all);
            }
        }
    }
    let groups = best.pop().flatten().unwrap_or_default();
    if rows.len() > 1 { spared(bench, groups) } else { groups }
}

/// One strip: all its motifs in order round the hem, in runs that fit.
fn strip(bench: &Bench<'_>, rows: &[Vec<usize>]) -> Vec<Vec<Member>> {
    let mut order: Vec<usize> = rows.iter().flatten().copied().collect();
    order.sort_by(|a, b| bench.spots[*a].s.total_cmp(&bench.spots[*b].s).then(a.cmp(b)));
    let closed = bench.ground.is_closed();
    let member = |k: usize| Member { spot: order[k % order.len()], laps: i32::from(k >= order.len()) };
    let run = |first: usize, count: usize| (first..first + count).map(member).collect::<Vec<_>>();
    let fits = |first: usize, count: usize| bench.room(&run(first, count)).is_some();
    fewest_runs(order.len(), longest(bench, &order, closed), closed, &fits)
        .into_iter()
        .map(|found| run(found.first, found.count))
        .collect()
}

/// Most neighbours that could lie within the plate's diagonal.
fn longest(bench: &Bench<'_>, order: &[usize], closed: bool) -> usize {
    let n = order.len();
    let member = |k: usize| Member { spot: order[k % n], laps: i32::from(k >= n) };
    let reach = bench.diagonal();
    let run = |first: usize| {
        let room = if closed { n } else { n - first };
        (1..room).take_while(|count| bench.apart(member(first), member(first + count)) <= reach).count() + 1
    };
    (0..n).map(run).max().unwrap_or(1)
}

/// Drops every position whose motifs all fit under others, smallest first.
fn spared(bench: &Bench<'_>, mut groups: Vec<Vec<Member>>) -> Vec<Vec<Member>> {
    groups.sort_by_key(Vec::len);
    let mut k = 0;
    while k < groups.len() {
        let mut others: Vec<Vec<Member>> = groups.clone();
        let leaving = others.remove(k);
        let homes = leaving.iter().all(|member| taken_in(bench, &mut others, *member));
        if homes { groups = others } else { k += 1 }
    }
    groups
}

/// Puts a motif under the first position that can take it beside its own.
fn taken_in(bench: &Bench<'_>, groups: &mut [Vec<Member>], member: Member) -> bool {
    let laps: &[i32] = if bench.ground.is_closed() { &[0, -1, 1] } else { &[0] };
    let reach = 2.0 * bench.diagonal();
    for group in groups {
        for lap in laps {
            let guest = Member { laps: member.laps + lap, ..member };
            if bench.apart(guest, group[0]) > reach {
                continue;
            }
            group.push(guest);
            if bench.room(group).is_some() {
                return true;
            }
            group.pop();
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::tables;
    use crate::geometry::Point;
    use crate::hem::Frame;
    use crate::press::limits::layers::Near;
    use crate::press::limits::stacks::Laid;
    use crate::press::plates::ground::{Ground, tests::cone};
    use crate::press::plates::laying::stretch_near;
    use crate::press::plates::plate::PlateSize;
    use crate::press::plates::spots::{Spot, convex_hull};
    use proptest::prelude::*;
    use std::f64::consts::TAU;

    /// A round motif of so wide at a place of the band.
    fn disc(ground: &Ground, row: usize, s: f64, height: f64, wide: f64) -> Spot {
        let middle = ground.point(s, height);
        let round = (0..48).map(|k| middle + wide / 2.0 * crate::geometry::Vec2::from_angle(TAU * f64::from(k) / 48.0));
        Spot {
            id: format!("{row} at {s:.0}"),
            motif: "disc".into(),
            row,
            s,
            height,
            hull: convex_hull(round.collect::<Vec<Point>>()),
            radius: wide / 2.0,
            laid: vec![Laid { layer: 0, class: tables().film_or_unknown("smooth"), bears: false, depth: 1 }],
        }
    }

    fn found(ground: &Ground, spots: &[Spot], plate: (f64, f64)) -> Positions {
        let bench = Bench { ground, spots, plate: PlateSize { along: plate.0, up: plate.1, rim: 10.0 } };
        positions(&bench, &(0..spots.len()).collect::<Vec<_>>(), false)
    }

    /// S1: hem radius 814.59, thirty motifs 110 wide at 75 above the hem, trusted plate 360 along: two fit (264.6), three
    /// do not (417.5); fifteen places (worked by hand).
    #[test]
    fn thirty_flowers_on_a_full_circle_take_fifteen_places() {
        let radius = 814.5916;
        let ground = cone(radius, TAU);
        let spots: Vec<Spot> = (0..30)
            .map(|k| disc(&ground, 0, radius * TAU * (f64::from(k) / 30.0 - 0.5 + 1.0 / 60.0), 75.0, 110.0))
            .collect();
        let found = found(&ground, &spots, (360.0, 280.0));
        assert_eq!((found.spreads.len(), found.at_least), (15, 15));
        assert!(found.spreads.iter().all(|spread| spread.members.len() == 2));
    }

    #[test]
    fn two_rows_within_the_plate_share_their_places() {
        let ground = cone(900.0, TAU);
        let row = |row: usize, height: f64| {
            let ground = &ground;
            (0..12).map(move |k| disc(ground, row, 900.0 * TAU * (f64::from(k) / 12.0 - 0.45), height, 60.0))
        };
        let near: Vec<Spot> = row(0, 50.0).chain(row(1, 150.0)).collect();
        assert_eq!(found(&ground, &near, (300.0, 280.0)).spreads.len(), 12);
        let far: Vec<Spot> = row(0, 50.0).chain(row(1, 450.0)).collect();
        // The upper line is half as long: its repeat of 235.6 leaves two motifs of 60 within 300, so 6 places above 12.
        assert_eq!(found(&ground, &far, (300.0, 280.0)).spreads.len(), 18);
        assert_eq!(found(&ground, &far, (300.0, 280.0)).at_least, 18);
    }

    /// Fewest plates by trying every way to share out the motifs, runs of neighbours or not.
    fn fewest_by_trial(bench: &Bench<'_>) -> usize {
        let n = bench.spots.len();
        let half = bench.ground.length() / 2.0;
        let under_one_plate = |mask: usize| {
            // Within half the ring of the first motif, every motif has only one lap.
            let of_mask: Vec<usize> = (0..n).filter(|k| mask >> k & 1 == 1).collect();
            let first = bench.spots[of_mask[0]].s;
            let lap = |spot: usize| {
                if bench.spots[spot].s - first > half { -1 } else { i32::from(bench.spots[spot].s - first < -half) }
            };
            let group: Vec<Member> = of_mask.iter().map(|spot| Member { spot: *spot, laps: lap(*spot) }).collect();
            bench.room(&group).is_some()
        };
        let fits: Vec<bool> = (0..1 << n).map(|mask| mask > 0 && under_one_plate(mask)).collect();
        let mut best = vec![n + 1; 1 << n];
        best[0] = 0;
        for mask in 1..1_usize << n {
            let mut part = mask;
            while part > 0 {
                if fits[part] {
                    best[mask] = best[mask].min(best[mask ^ part] + 1);
                }
                part = (part - 1) & mask;
            }
        }
        best[(1 << n) - 1]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(60))]
        #[test]
        fn no_sharing_out_takes_fewer_places_in_one_row(
            n in 3_usize..9, sweep in 0.5..5.5_f64, wide in 30.0..80.0_f64, plate in 90.0..300.0_f64,
            jitter in prop::collection::vec(-0.3..0.3_f64, 8),
        ) {
            let ground = cone(500.0 / sweep, sweep);
            let repeat = ground.length() / n as f64;
            let spots: Vec<Spot> = (0..n)
                .map(|k| disc(&ground, 0, ground.span().0 + repeat * (k as f64 + 0.5 + jitter[k]), 40.0, wide))
                .collect();
            let bench = Bench { ground: &ground, spots: &spots, plate: PlateSize { along: plate, up: 200.0, rim: 5.0 } };
            let all: Vec<usize> = (0..n).collect();
            let found = positions(&bench, &all, false);
            let best = fewest_by_trial(&bench);
            prop_assert_eq!(found.spreads.len(), best);
            prop_assert!(places_at_least(&bench, &[all]) <= best);
        }

        #[test]
        fn the_stated_bound_is_never_above_the_fewest_for_two_rows(
            n in 2_usize..5, wide in 30.0..60.0_f64, plate in 70.0..260.0_f64, shift in 0.0..100.0_f64,
        ) {
            let ground = cone(160.0, 5.0);
            let repeat = ground.length() / n as f64;
            let place = |k: usize| ground.span().0 + repeat * (k as f64 + 0.5);
            let spots: Vec<Spot> = (0..n)
                .map(|k| disc(&ground, 0, place(k), 30.0, wide))
                .chain((0..n).map(|k| disc(&ground, 1, place(k) + shift, 75.0, wide)))
                .collect();
            let bench = Bench { ground: &ground, spots: &spots, plate: PlateSize { along: plate, up: 140.0, rim: 5.0 } };
            let all: Vec<usize> = (0..2 * n).collect();
            let found = positions(&bench, &all, false);
            let best = fewest_by_trial(&bench);
            prop_assert!(found.at_least <= best && best <= found.spreads.len(), "{} {} {}", found.at_least, best, found.spreads.len());
        }
    }

    /// Ten circles lie over each other in the development, so ten motifs, one on each, lie at one place of it: a plate there
    /// meets the one that it was laid over, and none that is a circle or more away along the hem.
    #[test]
    fn a_plate_meets_only_what_lies_near_along_the_hem() {
        let (radius, round) = (500.0, TAU * 500.0);
        let frame = |s: f64| {
            let out = crate::geometry::Vec2::from_angle(s / radius);
            Frame { at: (out * radius).to_point(), along: crate::geometry::Vec2::new(-out.y, out.x) }
        };
        let ground = Ground::sampled(0.0, 10.0 * round, Some(crate::geometry::Affine::IDENTITY), frame);
        let spots: Vec<Spot> = (0..10).map(|k| disc(&ground, 0, round * f64::from(k), 60.0, 80.0)).collect();
        let bench = Bench { ground: &ground, spots: &spots, plate: PlateSize { along: 300.0, up: 300.0, rim: 20.0 } };
        let near = Near { s: 3.0 * round, at: ground.point(3.0 * round, 60.0), radius: 480.0 };
        assert!(spots.iter().all(|spot| spot.hull[0].distance(near.at) < 81.0));
        let (from, to) = stretch_near(&bench, near);
        let met: Vec<usize> = (0..10).filter(|spot| (from..=to).contains(&spots[*spot].s)).collect();
        assert_eq!(met, [3]);
    }
}
