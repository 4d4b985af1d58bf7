//! The densest lattice of one shape, and the densest double lattice of a shape and its half-turned copies.
//!
//! In a lattice every piece lies at a whole number of two steps from every other. One step `u` makes a row; the next row is
//! laid as near as the no-fit region lets it come, at the sideways shift that is best. In a double lattice rows of half-turned
//! pieces lie between (G. Kuperberg, W. Kuperberg, "Double-lattice packings of convex bodies in the plane", 1990). Rows may
//! reach into each other's bays; every pair near enough to meet is checked. Steps are sampled and then refined, so the result
//! is a true layout but only nearly the densest.

use super::region::{CLEAR, Region};
use crate::geometry::{Affine, Outline, Vec2};

/// A layout of the endless plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Lattice {
    /// From piece to piece along a row.
    pub(in crate::nest) u: Vec2,
    /// From row to like row.
    pub(in crate::nest) v: Vec2,
    /// From a piece to its half-turned partner, in a double lattice.
    pub(in crate::nest) partner: Option<Vec2>,
}

impl Lattice {
    /// The same layout turned by so many degrees.
    pub(in crate::nest) fn turned(&self, degrees: f64) -> Self {
        let turn = Affine::rotate(degrees.to_radians());
        let on = |step: Vec2| (turn * step.to_point()).to_vec2();
        Self { u: on(self.u), v: on(self.v), partner: self.partner.map(on) }
    }

    /// Square millimetres of the plane for each piece.
    pub(in crate::nest) fn area_each(&self) -> f64 {
        self.u.cross(self.v).abs() / if self.partner.is_some() { 2.0 } else { 1.0 }
    }
}

/// Directions in which a row is tried, over half a turn.
const DIRECTIONS: u32 = 90;

/// Row pitches tried in a double lattice, from touching up to so many times as much; half-turned pieces lie between.
const PITCHES: (u32, f64) = (9, 2.1);

/// Sideways shifts tried for the next row.
const SHIFTS: u32 = 24;

/// Steps of a row that a piece may reach past; needles side by side reach past hundreds and lie as well in plain rows.
const LONGEST_REACH: f64 = 40.0;

/// Halvings of the step by which the best layout is refined.
const REFINEMENTS: u32 = 44;

/// Direction of the row, pitch over the least pitch, shift of the partner, shift of the next row; shifts as shares of a pitch.
type Steps = [f64; 4];

/// The densest lattice of a shape with this no-fit region against its own like.
pub(in crate::nest) fn single(same: &[Outline]) -> Option<Lattice> {
    let (rough, same) = (Region::coarse(same), Region::new(same));
    let mut best = None;
    for direction in 0..DIRECTIONS {
        for shift in 0..SHIFTS {
            let at = [angle(direction), 1.0, 0.0, f64::from(shift) / f64::from(SHIFTS)];
            better(&mut best, single_at(&rough, at), at);
        }
    }
    refined(best, |at| single_at(&same, at), [angle(1), 0.0, 0.0, 1.0 / f64::from(SHIFTS)])
}

/// The densest double lattice, from the no-fit regions against the like and against the half-turned.
pub(in crate::nest) fn double(same: &[Outline], turned: &[Outline]) -> Option<Lattice> {
    let (rough, rough_turned) = (Region::coarse(same), Region::coarse(turned));
    let (same, turned) = (Region::new(same), Region::new(turned));
    let mut best = None;
    let shares: Vec<f64> = (0..SHIFTS / 2).map(|shift| 2.0 * f64::from(shift) / f64::from(SHIFTS)).collect();
    for direction in 0..DIRECTIONS / 3 {
        for pitch in 0..PITCHES.0 {
            let stretch = 1.0 + (PITCHES.1 - 1.0) * f64::from(pitch) / f64::from(PITCHES.0);
            let start = [angle(3 * direction), stretch, 0.0, 0.0];
            let Some((u, upward)) = row(&rough, start) else { continue };
            let heights = |way: Vec2| -> Vec<Vec<f64>> {
                shares.iter().map(|share| rough_turned.free_heights(u, share * u.hypot(), way)).collect()
            };
            let (ups, downs) = (heights(upward), heights(-upward));
            for (up, to) in ups.iter().zip(&shares) {
                for (down, back) in downs.iter().zip(&shares) {
                    let at = [start[0], stretch, *to, *back];
                    let least = best.map_or(f64::INFINITY, |(best, _): (Lattice, Steps)| best.area_each());
                    let made = stacked(&rough, &rough_turned, (u, upward), (*to, up), (*back, down), least);
                    better(&mut best, made, at);
                }
            }
        }
    }
    let share = 2.0 / f64::from(SHIFTS);
    refined(
        best,
        |at| double_at(&same, &turned, at),
        [angle(3), (PITCHES.1 - 1.0) / f64::from(PITCHES.0), share, share],
    )
}

/// Lattices with rows along an edge, their pitch stretched until a row ends flush at both ends: every second row shifted by
/// half a pitch, or all alike. Rows farther apart within reach deeper into each other, so that a few may take less than in the
/// densest lattice, which leaves an edge ragged. `travel` is how far a piece can be moved along the edge.
pub(in crate::nest) fn in_rows(same: &[Outline], along: f64, travel: f64) -> Vec<Lattice> {
    let same = Region::new(same);
    let least = same.touching(Vec2::from_angle(along)) + CLEAR;
    let (shifted, level) = ((travel / least + 0.5).floor() - 0.5, (travel / least).floor());
    let ways = [(shifted, 0.5), (level, 0.5), (level, 0.0)].into_iter().filter(|(pitches, _)| *pitches > 0.0);
    ways.filter_map(|(pitches, shift)| single_at(&same, [along, travel / pitches / least, 0.0, shift])).collect()
}

fn angle(direction: u32) -> f64 {
    std::f64::consts::PI * f64::from(direction) / f64::from(DIRECTIONS)
}

fn single_at(same: &Region, at: Steps) -> Option<Lattice> {
    let (u, upward) = row(same, at)?;
    let made = same.free_heights(u, at[3] * u.hypot(), upward).into_iter().map(|h| u * at[3] + upward * h);
    made.map(|v| Lattice { u, v, partner: None }).find(|lattice| !same.self_meeting(lattice))
}

/// The step along a row, and the direction in which rows follow.
fn row(same: &Region, at: Steps) -> Option<(Vec2, Vec2)> {
    let way = Vec2::from_angle(at[0]);
    let u = way * (same.touching(way) * at[1].max(1.0));
    if same.reach > LONGEST_REACH * u.hypot() {
        return None;
    }
    let free = u.hypot() > 1e-6 && !same.meets_row(Vec2::ZERO, u, true);
    free.then_some((u, Vec2::new(-way.y, way.x)))
}

/// A row of turned pieces above a row, and the next row above that.
fn double_at(same: &Region, turned: &Region, at: Steps) -> Option<Lattice> {
    let (u, upward) = row(same, at)?;
    let ups = turned.free_heights(u, at[2] * u.hypot(), upward);
    let downs = turned.free_heights(u, at[3] * u.hypot(), -upward);
    stacked(same, turned, (u, upward), (at[2], &ups), (at[3], &downs), f64::INFINITY)
}

/// The best of the heights at which a turned row can lie above a row, and a row above that, if it takes less than `least`.
fn stacked(
    same: &Region,
    turned: &Region,
    (u, upward): (Vec2, Vec2),
    (to, ups): (f64, &[f64]),
    (back, downs): (f64, &[f64]),
    mut least: f64,
) -> Option<Lattice> {
    let mut best: Option<Lattice> = None;
    for up in ups {
        let partner = u * to + upward * *up;
        for down in downs {
            // Seen from the next row its turned neighbours lie below, as `down` says.
            let v = partner - (u * back - upward * *down);
            let made = Lattice { u, v, partner: Some(partner) };
            if least <= made.area_each() {
                break;
            }
            if !same.self_meeting(&made) && !turned.partners_meeting(&made, partner) {
                least = made.area_each();
                best = Some(made);
            }
        }
    }
    best
}

impl Region {
    /// Whether any two like pieces of a lattice overlap.
    fn self_meeting(&self, lattice: &Lattice) -> bool {
        let height = lattice.u.cross(lattice.v).abs() / lattice.u.hypot();
        let rows = (self.reach / height.max(1e-9)).ceil().min(50.0);
        let mut row = 1.0;
        while row <= rows {
            if self.meets_row(lattice.v * row, lattice.u, false) {
                return true;
            }
            row += 1.0;
        }
        height < 1e-9
    }

    /// Whether any half-turned piece of a lattice overlaps one that is not.
    fn partners_meeting(&self, lattice: &Lattice, partner: Vec2) -> bool {
        let height = lattice.u.cross(lattice.v).abs() / lattice.u.hypot();
        let rows = (self.reach / height.max(1e-9)).ceil().min(50.0) + 1.0;
        let mut row = -rows;
        while row <= rows {
            if self.meets_row(partner + lattice.v * row, lattice.u, false) {
                return true;
            }
            row += 1.0;
        }
        false
    }
}

fn better(best: &mut Option<(Lattice, Steps)>, made: Option<Lattice>, at: Steps) -> bool {
    let Some(made) = made else { return false };
    let is = best.as_ref().is_none_or(|(best, _)| made.area_each() < best.area_each() - 1e-9);
    if is {
        *best = Some((made, at));
    }
    is
}

/// Walks from the best sample in ever smaller steps.
fn refined(
    start: Option<(Lattice, Steps)>,
    try_at: impl Fn(Steps) -> Option<Lattice>,
    steps: Steps,
) -> Option<Lattice> {
    let (_, at) = start?;
    let mut best = Some((try_at(at)?, at));
    let mut size = 1.0;
    for _ in 0..REFINEMENTS {
        let mut moved = false;
        for way in 0..81u8 {
            let (_, at) = best?;
            let digit = |place: u32| f64::from(way / 3u8.pow(place) % 3) - 1.0;
            let at: Steps =
                [0, 1, 2, 3].map(|k: u8| at[usize::from(k)] + digit(k.into()) * steps[usize::from(k)] * size);
            moved |= better(&mut best, try_at(at), at);
        }
        if !moved {
            size /= 2.0;
        }
    }
    best.map(|(lattice, _)| lattice)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Point, Ring};
    use crate::nest::shape::convolve::no_fit;

    fn regular(corners: u32) -> Outline {
        let points = (0..corners).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / f64::from(corners);
            Point::new(20.0 * angle.cos(), 20.0 * angle.sin())
        });
        Outline::new(Ring::new(points).unwrap(), vec![])
    }

    fn single_density(shape: &Outline) -> f64 {
        shape.area() / single(&no_fit(shape, shape)).unwrap().area_each()
    }

    fn double_density(shape: &Outline) -> f64 {
        let turned = shape.transformed(Affine::rotate(std::f64::consts::PI));
        shape.area() / double(&no_fit(shape, shape), &no_fit(shape, &turned)).unwrap().area_each()
    }

    fn assert_near(density: f64, known: f64) {
        assert!((density - known).abs() < 0.0015, "{density}, known is {known}");
    }

    /// J. L. Lagrange (1773): circles cover pi / sqrt(12) = 0.9069 at best in a lattice.
    #[test]
    fn circles_in_a_lattice_cover_0_9069() {
        assert_near(single_density(&regular(72)), std::f64::consts::PI / 12f64.sqrt());
    }

    /// Fáry (1950): no shape is worse than the triangle, whose densest lattice covers 2/3; in pairs it fills the plane.
    #[test]
    fn triangles_cover_two_thirds_in_a_lattice_and_all_in_a_double_one() {
        assert_near(single_density(&regular(3)), 2.0 / 3.0);
        assert_near(double_density(&regular(3)), 1.0);
    }

    /// G. and W. Kuperberg (1990): the regular pentagon's densest double lattice covers (5 - sqrt 5) / 3 = 0.9213.
    #[test]
    fn pentagons_in_a_double_lattice_cover_0_9213() {
        assert_near(double_density(&regular(5)), (5.0 - 5f64.sqrt()) / 3.0);
    }

    /// The regular octagon's densest lattice covers (4 + 4 sqrt 2) / (5 + 4 sqrt 2) = 0.9062 (Reinhardt 1934, Mahler 1947).
    #[test]
    fn octagons_in_a_lattice_cover_0_9062() {
        let root = 2f64.sqrt();
        assert_near(single_density(&regular(8)), (4.0 + 4.0 * root) / (5.0 + 4.0 * root));
    }

    #[test]
    fn hexagons_fill_the_plane_in_a_lattice() {
        assert_near(single_density(&regular(6)), 1.0);
    }

    /// The regular heptagon's densest double lattice covers 0.8927 (after G. and W. Kuperberg 1990; Y. Kallus and W. Kusner,
    /// "The local optimality of the double lattice packing", 2016); from memory.
    #[test]
    fn heptagons_in_a_double_lattice_cover_0_8927() {
        assert_near(double_density(&regular(7)), 0.8927);
    }

    /// Every quadrilateral tiles the plane with itself turned half round about the middles of its sides; a parallelogram alone.
    #[test]
    fn quadrilaterals_fill_the_plane() {
        let shape = |corners: [(f64, f64); 4]| Outline::new(Ring::new(corners.map(Point::from)).unwrap(), vec![]);
        assert_near(double_density(&shape([(0.0, 0.0), (40.0, 5.0), (30.0, 28.0), (-8.0, 33.0)])), 1.0);
        assert_near(single_density(&shape([(0.0, 0.0), (40.0, 5.0), (55.0, 30.0), (15.0, 25.0)])), 1.0);
    }
}
