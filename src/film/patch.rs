//! The carrier patch: the region of carrier that scissors part from its neighbours.
//!
//! In: the outlines of one layer of one motif, as cut. Out: one simple ring that contains them all. For a single outline
//! (or several inside the outermost one) it is that outline's outer ring. For several, the outlines are joined:
//!
//! 1. bays narrower than two [`SCISSOR_RADIUS`] are filled (grown by it, joined, shrunk by it: a closing);
//! 2. what is still apart is joined by straight bridges of carrier along the shortest links (a minimum spanning tree);
//! 3. the result is grown by [`PATCH_CLEARANCE`] and trimmed to the convex hull of the outlines.
//!
//! So the patch is never wider or higher than what it holds, has clearance in the spaces it joins across, and follows the
//! drawing elsewhere, where the sheet's gap leaves the scissors room. It stays one piece: every point of step 3 lies within
//! the clearance of a point of step 2 that is inside the hull too, and the hull is convex.
//!
//! Limits: more than [`MOST_PARTS`] parts after step 1 get the hull itself. Points that cut inward by less than
//! [`SIMPLER_BY`] are left out, so the patch only ever grows by that.

use super::PATCH_CLEARANCE;
use crate::geometry::clearance::Measurable;
use crate::geometry::{Outline, Point, Rect, Ring, overlay};

/// Scissors round no inside corner tighter than this; narrower bays stay part of the patch, in millimetres.
///
/// At 2 the patch of a five-petalled flower keeps a slit between all petals; at 10 it is nearly the hull.
const SCISSOR_RADIUS: f64 = 5.0;

/// Width of a bridge of carrier between parts, in millimetres. Narrower ones curl and let the parts shift.
const BRIDGE: f64 = 6.0;

/// Parts grown at most: each of so many that lie close together meets all its neighbours, which takes the square of their number.
const MOST_GROWN: usize = 1_000;

/// How far a bridge reaches into the parts it joins, in millimetres, so that they overlap for certain.
const BRIDGE_HOLD: f64 = 0.5;

/// Parts joined by bridges at most; beyond it the links cost more than they save and the hull is taken.
const MOST_PARTS: usize = 64;

/// Clearance that may be lost to simpler edges in all, in millimetres. A quarter takes most points out of round corners of 1
/// and 5 mm radius.
const CLEARANCE_SPENT: f64 = 0.25;

/// What each step on the way may lose of it, in millimetres: growing costs by the point, and a curve within so little of
/// the one drawn has a third of its points.
const EASED: f64 = 0.03;

/// Steps that are eased: the parts, the parts grown, and those shrunk again.
const EASED_STEPS: f64 = 3.0;

/// Inward corners flatter than this are filled, in millimetres: a tenth is far below what scissors follow.
const SIMPLER_BY: f64 = 0.1;

/// The carrier patch of some outlines; `None` when there are none.
#[must_use]
pub fn patch(outlines: &[Outline]) -> Option<Ring> {
    let solid: Vec<Outline> = outlines.iter().map(|one| Outline::new(one.outer().clone(), vec![])).collect();
    if let [one] = solid.as_slice() {
        return Some(one.outer().clone());
    }
    let solid = filled_in(&overlay::union(&solid));
    match solid.as_slice() {
        [] => None,
        [one] => Some(one.outer().clone()),
        several => Some(simpler(joined(several)?)),
    }
}

/// One ring round several parts that lie apart.
fn joined(parts: &[Outline]) -> Option<Ring> {
    let hull = overlay::hull(parts)?;
    if parts.len() > MOST_GROWN {
        return Some(hull);
    }
    let eased = |areas: &[Outline]| overlay::simplified(areas, EASED);
    let wide = eased(&overlay::grown(&eased(parts), SCISSOR_RADIUS));
    let closed = eased(&filled_in(&overlay::grown(&wide, -SCISSOR_RADIUS)));
    if closed.len() > MOST_PARTS {
        return Some(hull);
    }
    let mut all = closed.clone();
    all.extend(links(&closed).into_iter().filter_map(|(from, to)| bridge(from, to)));
    let left = CLEARANCE_SPENT - EASED_STEPS * EASED;
    let grown = overlay::simplified(&overlay::grown(&all, PATCH_CLEARANCE.get()), left);
    let mut trimmed = overlay::intersection(&grown, &[Outline::new(hull.clone(), vec![])]);
    // Simplifying and the arithmetic of growing may cut in; the parts themselves put that right.
    trimmed.extend_from_slice(parts);
    match filled_in(&overlay::union(&trimmed)).as_slice() {
        [one] => Some(one.outer().clone()),
        _ => Some(hull),
    }
}

/// The same areas without their holes; what lay in a hole goes with what lies round it.
fn filled_in(areas: &[Outline]) -> Vec<Outline> {
    let solid: Vec<Outline> = areas.iter().map(|area| Outline::new(area.outer().clone(), vec![])).collect();
    if areas.iter().all(|area| area.holes().is_empty()) { solid } else { overlay::union(&solid) }
}

/// The shortest links that join all parts (Prim's algorithm), as pairs of nearest points.
fn links(parts: &[Outline]) -> Vec<(Point, Point)> {
    let measured: Vec<Measurable> =
        parts.iter().filter_map(|part| Measurable::new(std::slice::from_ref(part))).collect();
    let Some((first, rest)) = measured.split_first() else { return vec![] };
    // For each part not reached yet, its shortest link from those that are.
    let mut waiting: Vec<_> = rest.iter().map(|part| (part, first.clearance_to(part))).collect();
    let mut found = Vec::new();
    while let Some(nearest) =
        (0..waiting.len()).min_by(|a, b| waiting[*a].1.distance.total_cmp(&waiting[*b].1.distance))
    {
        let (reached, link) = waiting.remove(nearest);
        found.push((link.from, link.to));
        for (part, shortest) in &mut waiting {
            let other = reached.clearance_to(part);
            if other.distance < shortest.distance {
                *shortest = other;
            }
        }
    }
    found
}

/// A strip of carrier along a link; `None` when the parts touch and need none.
fn bridge(from: Point, to: Point) -> Option<Outline> {
    let along = (to - from).normalize();
    if !along.is_finite() {
        return None;
    }
    let across = along.turn_90() * (BRIDGE / 2.0);
    let (from, to) = (from - along * BRIDGE_HOLD, to + along * BRIDGE_HOLD);
    Ring::new([from + across, to + across, to - across, from - across]).ok().map(|ring| Outline::new(ring, vec![]))
}

/// The ring without inward corners flatter than [`SIMPLER_BY`]: it only ever grows.
///
/// One walk round: from the last point kept, corners are left out as long as all of them lie inward of the chord and near
/// it, and no other point of the ring lies in what is added, so that the ring stays simple.
fn simpler(ring: Ring) -> Ring {
    let ring = ring.positive();
    let points = ring.points();
    let mut kept = vec![points[0]];
    let mut last_kept = 0;
    for index in 1..points.len() {
        let (from, corner, to) = (points[last_kept], points[index], points[(index + 1) % points.len()]);
        let left_out = last_kept + 1..=index;
        let near = Rect::from_points(from, to).union_pt(corner);
        let inside = |p: Point| near.x0 <= p.x && p.x <= near.x1 && near.y0 <= p.y && p.y <= near.y1;
        let holds = |p: Point| inside(p) && in_triangle(p, from, corner, to);
        let fills = left_out.clone().all(|i| is_flat_inward(from, points[i], to))
            && !points.iter().enumerate().any(|(i, p)| holds(*p) && !left_out.contains(&i));
        if !fills {
            kept.push(corner);
            last_kept = index;
        }
    }
    Ring::new(kept).unwrap_or(ring)
}

/// Whether leaving a corner out adds area, and no more than a sliver. A ring of positive area bends inward where its
/// corner lies on the side of the chord that is clockwise from it on screen.
fn is_flat_inward(from: Point, corner: Point, to: Point) -> bool {
    let chord = to - from;
    let off = chord.cross(corner - from);
    (0.0..=SIMPLER_BY * chord.hypot()).contains(&off)
}

/// Whether a point other than the three corners lies in the triangle they make, its edges included.
fn in_triangle(point: Point, a: Point, b: Point, c: Point) -> bool {
    if point == a || point == b || point == c {
        return false;
    }
    let side = |from: Point, to: Point| (to - from).cross(point - from);
    let (ab, bc, ca) = (side(a, b), side(b, c), side(c, a));
    (ab >= 0.0 && bc >= 0.0 && ca >= 0.0) || (ab <= 0.0 && bc <= 0.0 && ca <= 0.0)
}
