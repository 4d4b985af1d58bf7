//! Clear gaps against brute force: every corner of one outline against every edge of its neighbour, nothing passed over.

use super::*;
use hemwright::place::{Evenness, Placement};

/// Outlines as placed, one list of corners for each.
fn placed(motif: &Motif, placement: &Placement) -> Vec<Vec<Point>> {
    let transform = placement.transform();
    let outlines = motif.layers.iter().flat_map(|layer| &layer.outlines);
    outlines.map(|outline| outline.outer().points().iter().map(|point| transform * *point).collect()).collect()
}

/// Shortest distance from corners of one to edges of the other; the distance itself where outlines do not cross.
fn corners_to_edges(a: &[Vec<Point>], b: &[Vec<Point>]) -> f64 {
    let mut least = f64::INFINITY;
    for point in a.iter().flatten() {
        for ring in b {
            for k in 0..ring.len() {
                let (start, end) = (ring[k], ring[(k + 1) % ring.len()]);
                let along = end - start;
                let share = ((*point - start).dot(along) / along.hypot2()).clamp(0.0, 1.0);
                least = least.min(point.distance_squared(start + along * share));
            }
        }
    }
    least.sqrt()
}

fn brute_force(motif: &Motif, a: &Placement, b: &Placement) -> f64 {
    let (a, b) = (placed(motif, a), placed(motif, b));
    corners_to_edges(&a, &b).min(corners_to_edges(&b, &a))
}

/// Clear gaps of neighbours all round a hem drawn closed.
fn all_round(motif: &Motif, band: &BandSetting) -> Vec<f64> {
    let next = band.placements.iter().skip(1).chain(band.placements.first());
    band.placements.iter().zip(next).map(|(a, b)| brute_force(motif, a, b)).collect()
}

/// Petals with a pointed tip each, lopsided so that the two hands differ.
fn thistle() -> Motif {
    let corner = |k: i32| {
        let angle = TAU * f64::from(k) / 90.0;
        let radius = 34.0 + 12.0 * (7.0 * angle).cos().abs() + 5.0 * (angle + 0.4).sin();
        Point::new(radius * angle.cos(), 1.2 * radius * angle.sin())
    };
    motif("thistle", Ring::new((0..90).map(corner)).unwrap())
}

fn ovals() -> [Hem; 3] {
    let ellipse = |front_back: f64, side_side: f64| Measurements::Ellipse {
        front_back: mm(front_back),
        side_side: mm(side_side),
    };
    [(640.0, 560.0), (400.0, 700.0), (900.0, 880.0)].map(|(a, b)| hem(ellipse(a, b), Ends::Closed, vec![]))
}

#[test]
fn the_least_clear_gap_of_an_oval_is_what_brute_force_finds() {
    for (oval, count) in ovals().iter().zip([21, 24, 33]) {
        for motif in [thistle(), rectangle("thistle", 70.0, 110.0)] {
            let found = setting(oval, std::slice::from_ref(&motif), &band("thistle", 60.0, Spacing::Count(count)));
            let least = all_round(&motif, &found).into_iter().fold(f64::INFINITY, f64::min);
            let told = found.clear_gap.unwrap().least.get();
            assert!((told - least).abs() < 1e-6, "{count}: told {told}, brute force {least}");
        }
    }
}

#[test]
fn equal_clear_gaps_are_equal_by_brute_force() {
    for (oval, count) in ovals().iter().zip([21, 24, 33]) {
        let rhythm = Rhythm { evenness: Evenness::ClearGap, ..Rhythm::default() };
        let motif = thistle();
        let wish = BandWish { rhythm, ..band("thistle", 60.0, Spacing::Count(count)) };
        let found = setting(oval, std::slice::from_ref(&motif), &wish);
        let gaps = all_round(&motif, &found);
        let (least, greatest) = gaps.iter().fold((f64::MAX, f64::MIN), |(l, g), gap| (l.min(*gap), g.max(*gap)));
        assert!(greatest - least < HAND, "{count}: {least} to {greatest}");
        assert!((found.clear_gap.unwrap().least.get() - least).abs() < 1e-6);
    }
}
