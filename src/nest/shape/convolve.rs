//! Where one piece may not lie beside another: the no-fit region.
//!
//! The offsets at which a moving piece overlaps a fixed one are the Minkowski sum of the fixed piece and the moving one
//! turned half round. Its boundary lies on the convolution of the two outlines (L. Guibas, L. Ramshaw, J. Stolfi, "A kinetic
//! framework for computational geometry", 1983): every edge of one, carried to every corner of the other whose turn sweeps
//! over the edge's direction; backward where that corner turns the other way. The region is where the curves so made wind
//! round a point at all. No cutting into convex parts is needed, bays and closed pockets come out by themselves.

use crate::geometry::{Outline, Point, Ring, overlay};

/// Directions nearer than this, in radians, count as parallel.
const PARALLEL: f64 = 1e-12;

/// Offsets of `moving`'s origin at which it overlaps `fixed`, as areas; touching is outside.
///
/// A hole matters only when the other piece is smaller than it; other holes are taken as filled, which also keeps the
/// winding rule true (a piece larger than a hole can surround it).
pub(in crate::nest) fn no_fit(fixed: &Outline, moving: &Outline) -> Vec<Outline> {
    let turned: Vec<Vec<Point>> = open_rings(moving, fixed).map(half_turned).collect();
    let mut rings = Vec::new();
    for ring in open_rings(fixed, moving) {
        for other in &turned {
            convolve(ring.points(), other, &mut rings);
        }
    }
    overlay::filled(&rings, overlay::FillRule::NonZero)
}

/// The outer ring, and those holes the other piece could lie in.
fn open_rings<'a>(piece: &'a Outline, other: &'a Outline) -> impl Iterator<Item = &'a Ring> {
    let needed = other.outer().area();
    std::iter::once(piece.outer()).chain(piece.holes().iter().filter(move |hole| hole.area() > needed))
}

/// An edge of one piece carried to a corner of the other, the region to the left of travel.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Carried {
    pub(in crate::nest) from: Point,
    pub(in crate::nest) to: Point,
    /// Whether the corner turns outward; only then can the edge lie on the region's boundary.
    pub(in crate::nest) outward: bool,
}

/// All edges of the convolution. The region is where they wind round a point at all.
pub(in crate::nest) fn carried(fixed: &Outline, moving: &Outline) -> Vec<Carried> {
    let turned: Vec<Vec<Point>> = open_rings(moving, fixed).map(half_turned).collect();
    let mut all = Vec::new();
    for ring in open_rings(fixed, moving) {
        for other in &turned {
            let (first, second) = (ring.points(), other);
            let at = |state: usize| first[state / second.len()] + second[state % second.len()].to_vec2();
            steps(first, second, |from, to, outward| all.push(Carried { from: at(from), to: at(to), outward }));
        }
    }
    all
}

fn half_turned(ring: &Ring) -> Vec<Point> {
    ring.points().iter().map(|point| Point::new(-point.x, -point.y)).collect()
}

/// A closed chain with its edges' directions as ranks, so that comparing them is exact.
struct Chain<'a> {
    points: &'a [Point],
    ranks: Vec<i64>,
}

impl Chain<'_> {
    fn len(&self) -> usize {
        self.points.len()
    }

    fn corner(&self, at: usize) -> Corner {
        let before = (at + self.len() - 1) % self.len();
        let after = (at + 1) % self.len();
        let left = (self.points[at] - self.points[before]).cross(self.points[after] - self.points[at]) >= 0.0;
        Corner { into: self.ranks[before], out: self.ranks[at], left }
    }
}

/// The turn at a corner.
struct Corner {
    /// Rank of the edge that leads in.
    into: i64,
    /// Rank of the edge that leads out.
    out: i64,
    /// Whether it turns toward growing angles.
    left: bool,
}

/// How an edge is carried to a corner.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sweep {
    Not,
    Forward,
    Backward,
}

/// Whether the turn at a corner sweeps over a direction, on a circle of so many ranks.
///
/// At ties the first chain counts as turned a hair on, hence `late` is 1 for directions of the second chain.
fn sweeps(direction: i64, corner: &Corner, circle: i64, late: i64) -> Sweep {
    let turn = (corner.out - corner.into).rem_euclid(circle);
    let past = |start: i64| (direction - start - late).rem_euclid(circle);
    match (turn, corner.left) {
        (0, _) => Sweep::Not,
        (_, true) if past(corner.into) < turn => Sweep::Forward,
        (_, false) if past(corner.out) < circle - turn => Sweep::Backward,
        _ => Sweep::Not,
    }
}

fn convolve(first: &[Point], second: &[Point], rings: &mut Vec<Ring>) {
    let mut all: Vec<(usize, usize)> = Vec::new();
    steps(first, second, |from, to, _| all.push((from, to)));
    let at = |state: usize| first[state / second.len()] + second[state % second.len()].to_vec2();
    rings.extend(cycles(all).into_iter().filter_map(|cycle| Ring::new(cycle.into_iter().map(at)).ok()));
}

/// Tells every step of the convolution from one pair of corners to another, and whether its corner turns outward. A pair
/// is the first chain's index times the length of the second, plus the second's index.
fn steps(first: &[Point], second: &[Point], mut tell: impl FnMut(usize, usize, bool)) {
    let (ranks, circle) = ranked(first, second);
    let (a, b) = ranks.split_at(first.len());
    let (a, b) = (Chain { points: first, ranks: a.to_vec() }, Chain { points: second, ranks: b.to_vec() });
    let state = |i: usize, j: usize| (i % a.len()) * b.len() + j % b.len();
    let mut step = |sweep: Sweep, from: usize, to: usize| match sweep {
        Sweep::Not => {}
        Sweep::Forward => tell(from, to, true),
        Sweep::Backward => tell(to, from, false),
    };
    let others: Vec<Corner> = (0..b.len()).map(|j| b.corner(j)).collect();
    for i in 0..a.len() {
        let corner = a.corner(i);
        for (j, other) in others.iter().enumerate() {
            step(sweeps(corner.out, other, circle, 0), state(i, j), state(i + 1, j));
            step(sweeps(other.out, &corner, circle, 1), state(i, j), state(i, j + 1));
        }
    }
}

/// Directions of all edges as ranks, parallel ones equal, and how many ranks there are.
fn ranked(first: &[Point], second: &[Point]) -> (Vec<i64>, i64) {
    let directions = |points: &[Point]| -> Vec<f64> {
        (0..points.len()).map(|i| (points[(i + 1) % points.len()] - points[i]).atan2()).collect()
    };
    let mut all = directions(first);
    all.extend(directions(second));
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|x, y| all[*x].total_cmp(&all[*y]).then(x.cmp(y)));
    let mut ranks = vec![0i64; all.len()];
    let mut rank = 0;
    for pair in order.windows(2) {
        if all[pair[1]] - all[pair[0]] > PARALLEL {
            rank += 1;
        }
        ranks[pair[1]] = rank;
    }
    // Minus and plus a half turn are the same direction.
    let wraps = all[order[order.len() - 1]] - all[order[0]] > std::f64::consts::TAU - PARALLEL;
    if wraps {
        let last = rank;
        ranks.iter_mut().filter(|r| **r == last).for_each(|r| *r = 0);
        rank -= 1;
    }
    (ranks, rank + 1)
}

/// Closed walks that use every step once. As many steps lead into a state as out of it, so any walk comes home.
fn cycles(mut steps: Vec<(usize, usize)>) -> Vec<Vec<usize>> {
    steps.sort_unstable();
    let mut used = vec![false; steps.len()];
    let mut found = Vec::new();
    for start in 0..steps.len() {
        if used[start] {
            continue;
        }
        let (home, mut at) = steps[start];
        used[start] = true;
        let mut cycle = vec![home];
        while at != home {
            let first = steps.partition_point(|step| step.0 < at);
            let next = (first..steps.len()).take_while(|k| steps[*k].0 == at).find(|k| !used[*k]);
            let Some(next) = next else { break };
            debug_assert!(next < steps.len());
            used[next] = true;
            cycle.push(at);
            at = steps[next].1;
        }
        debug_assert!(at == home, "a convolution closes");
        found.push(cycle);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Affine, Rect, clearance::Measurable};
    use crate::nest::search::random::Random;

    fn star(points: usize, inner: f64, phase: f64) -> Outline {
        let ring = (0..2 * points).map(|k| {
            let angle = phase + std::f64::consts::PI * k as f64 / points as f64;
            let radius = if k % 2 == 0 { 10.0 } else { inner };
            Point::new(radius * angle.cos(), radius * angle.sin())
        });
        Outline::new(Ring::new(ring).unwrap(), vec![])
    }

    fn rectangle(w: f64, h: f64) -> Outline {
        Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, w, h)).unwrap(), vec![])
    }

    /// Sum of two rectangles: (3 + 5) x (2 + 7).
    #[test]
    fn two_rectangles_keep_apart_by_the_sum_of_their_sides() {
        let region = no_fit(&rectangle(3.0, 2.0), &rectangle(5.0, 7.0));
        assert_eq!(region.len(), 1);
        assert!((region[0].area() - 72.0).abs() < 1e-6);
    }

    #[test]
    fn every_offset_inside_overlaps_and_every_offset_outside_does_not() {
        let mut random = Random::new(3, 0);
        for (a, b) in [
            (star(5, 3.0, 0.3), star(7, 5.0, 0.1)),
            (star(4, 2.0, 0.0), star(4, 2.0, 0.0)),
            (star(3, 1.0, 0.0), rectangle(6.0, 1.5)),
        ] {
            let region = no_fit(&a, &b);
            for _ in 0..400 {
                let offset = (random.between(-25.0, 25.0), random.between(-25.0, 25.0));
                let moved = Measurable::new(&[b.transformed(Affine::translate(offset))]).unwrap();
                let apart = Measurable::new(std::slice::from_ref(&a)).unwrap().clearance_to(&moved).distance;
                let inside = region.iter().any(|part| part.contains(Point::new(offset.0, offset.1)));
                assert_eq!(inside, apart <= 0.0, "offset {offset:?} lies {apart} apart");
            }
        }
    }

    #[test]
    fn a_small_piece_may_lie_in_a_hole_and_a_large_one_may_not() {
        let hole = Ring::rectangle(Rect::new(5.0, 5.0, 25.0, 25.0)).unwrap();
        let frame = Outline::new(Ring::rectangle(Rect::new(0.0, 0.0, 30.0, 30.0)).unwrap(), vec![hole]);
        let small = no_fit(&frame, &rectangle(4.0, 4.0));
        assert!((small[0].area() - (34.0 * 34.0 - 16.0 * 16.0)).abs() < 1e-6);
        let large = no_fit(&frame, &rectangle(22.0, 22.0));
        assert!((large[0].area() - 52.0 * 52.0).abs() < 1e-6);
    }
}
