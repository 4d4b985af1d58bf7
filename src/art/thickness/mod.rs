//! True local thickness of areas, and of the waste between them: where it is least, and how little.
//!
//! At points along the outline the largest disc is found that touches it there and lies inside: its middle is a point of
//! the medial axis, its diameter the local thickness (H. Blum, "A transformation for extracting new descriptors of shape",
//! 1967). The tangent disc is found in closed form against each edge near by, so the result is exact for the polygon; the
//! idea of starting from the outline's normals is that of J. Ma, S. Bae and S. Choi, "3D medial axis point approximation
//! using nearest neighbors and the normal field", The Visual Computer 28, 2012.
//!
//! Inward corners are met by a fan of normals, since the thinnest places of polygons lie at their points. From the discs
//! the places where thickness is locally least are kept; a minimum counts only if between it and any lesser one the
//! thickness rises by a quarter, so that noise along a strip makes one finding. A minimum at the very end of a
//! tapering point is that point's end and no neck.

mod disc;
mod pools;

use super::edge_grid::EdgeGrid;
use crate::geometry::{Point, Ring, Vec2};
use disc::{Contact, Disc, Probe, starts, walk};
use pools::Pools;

/// Which side of the outlines is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::art) enum Side {
    /// The areas themselves.
    Inside,
    /// What lies between and around them.
    Outside,
}

/// Most discs tried along straight parts, so that a drawing of endless outlines takes no endless time: at the usual step,
/// 20 m of outline.
const MOST_DISCS: f64 = 100_000.0;

/// A place where thickness is locally least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::art) struct Thinnest {
    /// Middle of the smallest disc.
    pub(in crate::art) at: Point,
    /// Its contacts.
    pub(in crate::art) ends: (Point, Point),
    /// Its diameter in millimetres.
    pub(in crate::art) thickness: f64,
}

/// Normals at contacts this far from facing each other belong to a corner, not to a thin part: 120 degrees between them.
const FACES: f64 = -0.5;

/// How much thickness must rise between two minima for both to count.
const RISES: f64 = 1.25;

/// Thickness within this share of the least one is one plateau, found at its middle.
const PLATEAU: f64 = 1.02;

/// Discs thinner than a limit along the outlines of areas.
#[derive(Debug)]
pub(in crate::art) struct Discs {
    discs: Vec<Disc>,
    lengths: Vec<f64>,
    step: f64,
}

impl Discs {
    /// Discs of diameter below `limit`, at least one every `step` millimetres of outline (fewer on endless outlines).
    ///
    /// Rings must run as those of an outline do: the area always on the same hand.
    pub(in crate::art) fn new(rings: &[Ring], side: Side, limit: f64, step: f64) -> Self {
        let turned: Vec<Ring> = match side {
            Side::Inside => rings.to_vec(),
            Side::Outside => rings.iter().map(Ring::reversed).collect(),
        };
        let lengths: Vec<f64> = turned.iter().map(Ring::perimeter).collect();
        let step = step.max(lengths.iter().sum::<f64>() / MOST_DISCS);
        let Some(grid) = EdgeGrid::new(&turned) else { return Self { discs: Vec::new(), lengths, step } };
        let probe = Probe { grid: &grid, starts: &starts(&turned), radius: limit / 2.0 };
        let mut discs = Vec::new();
        for (ring, points) in turned.iter().enumerate() {
            walk(points, step, &mut |edge, at, along, normal| {
                discs.extend(probe.disc(Contact { ring, edge, at, along, normal }));
            });
        }
        Self { discs, lengths, step }
    }

    /// Necks, strips or gaps: places where the outlines face each other and thickness is locally least.
    pub(in crate::art) fn thinnest(&self) -> Vec<Thinnest> {
        let facing: Vec<Disc> = self.discs.iter().copied().filter(|disc| disc.facing < FACES).collect();
        let mut found: Vec<Thinnest> = self
            .minima(&facing)
            .into_iter()
            .filter(|disc| !self.is_tip(disc))
            .map(|disc| Thinnest { at: disc.middle, ends: (disc.at, disc.across), thickness: disc.thickness })
            .collect();
        found.sort_by(|a, b| {
            a.thickness.total_cmp(&b.thickness).then(a.at.x.total_cmp(&b.at.x)).then(a.at.y.total_cmp(&b.at.y))
        });
        found
    }

    /// The end of a tapering point: its contacts are next to each other along the outline.
    fn is_tip(&self, disc: &Disc) -> bool {
        self.apart(disc).is_some_and(|apart| apart <= 4.0 * self.step)
    }

    /// Length along the outline between a disc's contacts, the shorter way; `None` when they lie on different rings.
    fn apart(&self, disc: &Disc) -> Option<f64> {
        let ((ring, here), (other, there)) = (disc.here, disc.there);
        (ring == other).then(|| {
            let way = (here - there).abs();
            way.min(self.lengths[ring] - way)
        })
    }

    /// Local minima by rising water: discs in order of thickness join the pools of their neighbours; where two pools meet,
    /// the shallower one is a minimum of its own only if the water has risen enough since its floor.
    fn minima(&self, discs: &[Disc]) -> Vec<Disc> {
        let mut order: Vec<usize> = (0..discs.len()).collect();
        order.sort_by(|a, b| discs[*a].thickness.total_cmp(&discs[*b].thickness).then(a.cmp(b)));
        let neighbours = self.neighbours(discs);
        let mut pools = Pools::new(discs.len());
        let mut floors = Vec::new();
        for &number in &order {
            pools.open(number);
            for &other in &neighbours[number] {
                if !pools.is_open(other) {
                    continue;
                }
                let (kept, lost) = pools.join(number, other, |floor| discs[floor].thickness);
                if kept != lost && discs[number].thickness >= RISES * discs[lost].thickness {
                    floors.push(lost);
                }
            }
        }
        floors.extend(order.iter().copied().filter(|number| pools.floor(*number) == *number));
        floors.sort_unstable();
        floors.dedup();
        floors.into_iter().map(|floor| middle_of_plateau(discs, floor, &neighbours)).collect()
    }

    /// Discs next to each other along an outline, and across from each other.
    fn neighbours(&self, discs: &[Disc]) -> Vec<Vec<usize>> {
        let mut order: Vec<usize> = (0..discs.len()).collect();
        let place = |number: &usize| discs[*number].here;
        let compare = |a: (usize, f64), b: (usize, f64)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1));
        order.sort_by(|a, b| compare(place(a), place(b)).then(a.cmp(b)));
        let near = 2.0 * self.step;
        let mut neighbours = vec![Vec::new(); discs.len()];
        let mut link = |a: usize, b: usize| {
            if a != b {
                neighbours[a].push(b);
                neighbours[b].push(a);
            }
        };
        for (pair, wrapped) in order.iter().zip(order.iter().cycle().skip(1)) {
            let (a, b) = (discs[*pair].here, discs[*wrapped].here);
            let gap = if b.1 >= a.1 { b.1 - a.1 } else { b.1 + self.lengths[b.0] - a.1 };
            if a.0 == b.0 && gap <= near {
                link(*pair, *wrapped);
            }
        }
        for (number, disc) in discs.iter().enumerate() {
            let after = order.partition_point(|other| compare(place(other), disc.there).is_lt());
            for other in [after.checked_sub(1), Some(after)].into_iter().flatten().filter_map(|at| order.get(at)) {
                if discs[*other].here.0 == disc.there.0 && (discs[*other].here.1 - disc.there.1).abs() <= near {
                    link(number, *other);
                }
            }
        }
        neighbours
    }
}

/// Among the discs joined to the floor that are hardly thicker, the one nearest to their common middle.
fn middle_of_plateau(discs: &[Disc], floor: usize, neighbours: &[Vec<usize>]) -> Disc {
    let level = discs[floor].thickness * PLATEAU;
    let mut plateau = vec![floor];
    let mut seen: std::collections::BTreeSet<usize> = plateau.iter().copied().collect();
    let mut next = 0;
    while let Some(number) = plateau.get(next).copied() {
        next += 1;
        for &other in &neighbours[number] {
            if discs[other].thickness <= level && seen.insert(other) {
                plateau.push(other);
            }
        }
    }
    let sum = plateau.iter().fold(Vec2::ZERO, |sum, number| sum + discs[*number].middle.to_vec2());
    let middle = (sum / plateau.len() as f64).to_point();
    let nearest = plateau
        .into_iter()
        .min_by(|a, b| discs[*a].middle.distance(middle).total_cmp(&discs[*b].middle.distance(middle)).then(a.cmp(b)));
    // The place is the plateau's middle; the thickness is its least.
    Disc { thickness: discs[floor].thickness, ..discs[nearest.unwrap_or(floor)] }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Ring {
        Ring::new(points.iter().map(|(x, y)| Point::new(*x, *y))).unwrap().positive()
    }

    fn thinnest(rings: &[Ring], side: Side, limit: f64) -> Vec<Thinnest> {
        Discs::new(rings, side, limit, 0.2).thinnest()
    }

    /// Two squares joined by a bridge 0.6 high and 4 long.
    fn dumbbell() -> Ring {
        ring(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 4.7),
            (14.0, 4.7),
            (14.0, 0.0),
            (24.0, 0.0),
            (24.0, 10.0),
            (14.0, 10.0),
            (14.0, 5.3),
            (10.0, 5.3),
            (10.0, 10.0),
            (0.0, 10.0),
        ])
    }

    #[test]
    fn a_bridge_is_one_neck_at_its_middle() {
        let found = thinnest(&[dumbbell()], Side::Inside, 1.0);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!((found[0].thickness - 0.6).abs() < 1e-9);
        assert!(found[0].at.distance(Point::new(12.0, 5.0)) < 0.3, "{found:?}");
    }

    #[test]
    fn nothing_is_found_where_all_is_thick() {
        assert!(thinnest(&[ring(&[(0.0, 0.0), (9.0, 0.0), (9.0, 7.0), (0.0, 7.0)])], Side::Inside, 3.0).is_empty());
        // Sharp but thick: the points of a triangle are tips, not necks.
        assert!(thinnest(&[ring(&[(0.0, 0.0), (40.0, 3.0), (0.0, 6.0)])], Side::Inside, 1.0).is_empty());
    }

    /// Two half planes end in points that face each other: the hourglass is exactly 0.8 wide at its waist.
    #[test]
    fn an_hourglass_is_measured_between_its_inward_corners() {
        let glass = ring(&[(0.0, 0.0), (20.0, 0.0), (10.4, 10.0), (20.0, 20.0), (0.0, 20.0), (9.6, 10.0)]);
        let found = thinnest(&[glass], Side::Inside, 1.0);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!((found[0].thickness - 0.8).abs() < 0.01, "{found:?}");
        assert!(found[0].at.distance(Point::new(10.0, 10.0)) < 0.05);
    }

    #[test]
    fn a_gap_between_two_areas_is_measured_from_outside() {
        let left = ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let right = ring(&[(10.3, 2.0), (20.0, 2.0), (20.0, 8.0), (10.3, 8.0)]);
        let found = thinnest(&[left, right], Side::Outside, 1.0);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!((found[0].thickness - 0.3).abs() < 1e-9);
        assert!(found[0].at.distance(Point::new(10.15, 5.0)) < 0.3);
    }
}
