//! Needle points: sharper than the tables allow, rounded to a radius.
//!
//! Shrinking by r and growing again takes away what no disc of radius r reaches: tips, but necks too. A part that was taken
//! away is given back unless it is the tip of a needle and the outline stays in one piece without it.

use super::{Change, Changed, Mended};
use crate::data::usual;
use crate::geometry::clearance::Measurable;
use crate::geometry::{Outline, Point, Ring, overlay};
use crate::quantity::Mm;

/// A needle: its tip and angle in degrees.
struct Needle {
    tip: Point,
    degrees: f64,
}

/// How much more than the tip is taken, in millimetres, so that no hair of it is left where its sides run along the outline.
const TAKEN_WITH: f64 = 0.005;

/// Parts of this many square millimetres are rounding noise, not tips.
const NOISE: f64 = 1e-3;

pub(super) fn rounded(layer: Mended, radius: f64) -> Mended {
    let Mended { outlines, mut changes } = layer;
    let mut done = Vec::with_capacity(outlines.len());
    for outline in outlines {
        let needles: Vec<Needle> = outline.rings().flat_map(|ring| needles(ring, radius)).collect();
        done.push(if needles.is_empty() { outline } else { without_tips(&outline, &needles, radius, &mut changes) });
    }
    Mended { outlines: done, changes }
}

/// Tips that turn by more than the complement of the needle angle within the length of the radius asked for.
fn needles(ring: &Ring, radius: f64) -> Vec<Needle> {
    let points = ring.points();
    let count = points.len();
    let turn = |i: usize| {
        let (before, at, after) = (points[(i + count - 1) % count], points[i % count], points[(i + 1) % count]);
        let (come, go) = (at - before, after - at);
        come.cross(go).atan2(come.dot(go))
    };
    let least = (180.0 - usual("needle-angle")).to_radians();
    let mut found: Vec<Needle> = Vec::new();
    let mut index = 0;
    while index < count {
        let (mut turning, mut way, mut next) = (turn(index), 0.0, index);
        while turning < least && next + 1 < index + count {
            way += points[next % count].distance(points[(next + 1) % count]);
            if way > radius {
                break;
            }
            next += 1;
            turning += turn(next);
        }
        if turning >= least && turn(index) > 0.0 {
            let tip = points[index].midpoint(points[next % count]);
            found.push(Needle { tip, degrees: (180.0 - turning.to_degrees()).max(0.0) });
            index = next;
        }
        index += 1;
    }
    found
}

fn without_tips(outline: &Outline, needles: &[Needle], radius: f64, changes: &mut Vec<Change>) -> Outline {
    let whole = std::slice::from_ref(outline);
    let opened = overlay::grown(&overlay::grown(whole, -radius), radius);
    let mut left = outline.clone();
    for part in overlay::difference(whole, &opened) {
        let Some(needle) = needles.iter().find(|needle| part.area() > NOISE && reaches(&part, needle.tip)) else {
            continue;
        };
        let without = overlay::difference(std::slice::from_ref(&left), &overlay::grown(&[part], TAKEN_WITH));
        // Slivers beside the cut are noise; anything larger means that the part was a neck.
        let mut pieces = without.into_iter().filter(|piece| piece.area() > NOISE);
        let (Some(piece), None) = (pieces.next(), pieces.next()) else { continue };
        let shorter = Measurable::new(std::slice::from_ref(&piece)).map_or(0.0, |piece| distance(needle.tip, &piece));
        changes.push(Change {
            what: Changed::PointRounded { degrees: needle.degrees, shorter: Mm::new(shorter) },
            at: needle.tip,
            before: Mm::ZERO,
            after: Mm::new(radius),
        });
        left = piece;
    }
    left
}

fn reaches(part: &Outline, tip: Point) -> bool {
    part.rings().flat_map(Ring::points).any(|point| point.distance(tip) < 0.05) || part.contains(tip)
}

fn distance(point: Point, outline: &Measurable) -> f64 {
    let speck = Ring::new([point, point + (1e-4, 0.0), point + (0.0, 1e-4)]).map(|ring| Outline::new(ring, vec![]));
    speck.ok().and_then(|speck| Measurable::new(&[speck])).map_or(0.0, |speck| speck.clearance_to(outline).distance)
}
