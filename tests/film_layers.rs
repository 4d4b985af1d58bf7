//! Layers on each other: stacked, cut away with underlap, and how far they may be pressed off.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

mod shapes;

use hemwright::film::{Bears, Layering, OnTop, Under, Why, layered, least_underlap};
use hemwright::geometry::{Outline, Rect, overlay};
use hemwright::quantity::mm;
use proptest::prelude::*;
use shapes::{disc, distance_to_edge, edge_points, raster_area, rectangle, shape, square, within};

const ANY: Bears = Bears { most: 9, on_top: OnTop::Taken };
const NONE_ON_TOP: Bears = Bears { most: 2, on_top: OnTop::Refused };

/// A square of 60 with a disc of radius 20 in its middle, lowest first.
fn flower() -> Vec<Vec<Outline>> {
    vec![vec![square(-30.0, -30.0, 60.0)], vec![disc(0.0, 0.0, 20.0)]]
}

#[test]
fn layers_stay_whole_where_the_films_bear_it() {
    let done = layered(&flower(), &[ANY, ANY], Layering::Auto, mm(1.0));
    assert_eq!(done.outlines, flower());
    assert_eq!(done.under, [Under::Stacked, Under::Free]);
}

/// Under a disc of radius 20 with underlap 1 a hole of radius 19 is left: 3600 - pi x 19² (the disc has 64 corners, so its
/// area is a little less than pi r²).
#[test]
fn a_layer_cut_away_keeps_its_underlap() {
    let done = layered(&flower(), &[ANY, ANY], Layering::KnockOut, mm(1.0));
    let hole = 3600.0 - overlay::area(&done.outlines[0]);
    assert!((hole - 1134.1).abs() < 5.0, "hole of {hole} mm²");
    for point in edge_points(&done.outlines[0][..1]).into_iter().filter(|point| point.to_vec2().hypot() < 25.0) {
        let reach = distance_to_edge(&flower()[1], point);
        assert!((reach - 1.0).abs() < 0.05, "reaches {reach} mm under");
    }
    assert_eq!(done.under[0], Under::KnockedOut { underlap: mm(1.0), why: Why::Asked });
}

#[test]
fn a_film_that_takes_nothing_on_top_is_cut_away_to_the_edge() {
    let done = layered(&flower(), &[NONE_ON_TOP, ANY], Layering::Auto, mm(1.0));
    assert_eq!(done.under[0], Under::KnockedOut { underlap: mm(0.0), why: Why::NothingOnTop });
    assert!(overlay::area(&overlay::intersection(&done.outlines[0], &done.outlines[1])) < 1e-3);
    let stacked = layered(&flower(), &[NONE_ON_TOP, ANY], Layering::Stack, mm(1.0));
    assert_eq!(stacked.outlines, flower());
    assert_eq!(stacked.against, [(0, Why::NothingOnTop)]);
}

/// Four discs on each other, films that bear three: the lowest is cut away under the place where three others lie.
#[test]
fn no_more_layers_than_the_films_bear_lie_in_one_place() {
    let stack: Vec<Vec<Outline>> =
        [40.0, 30.0, 20.0, 10.0].iter().map(|radius| vec![disc(0.0, 0.0, *radius)]).collect();
    let three = Bears { most: 3, on_top: OnTop::Taken };
    let done = layered(&stack, &[three; 4], Layering::Auto, mm(1.0));
    assert_eq!(done.under[0], Under::KnockedOut { underlap: mm(1.0), why: Why::TooMany { most: 3 } });
    assert_eq!(done.under[1..], [Under::Stacked, Under::Stacked, Under::Free]);
    let middle = hemwright::geometry::Point::ZERO;
    let count = done.outlines.iter().filter(|layer| within(layer, middle)).count();
    assert_eq!(count, 3);
}

#[test]
fn what_lies_wholly_hidden_is_left_out_when_cut_away() {
    let layers = vec![vec![disc(0.0, 0.0, 5.0), disc(50.0, 0.0, 5.0)], vec![disc(0.0, 0.0, 20.0)]];
    let done = layered(&layers, &[ANY, ANY], Layering::KnockOut, mm(1.0));
    assert_eq!(done.outlines[0].len(), 1, "only the disc that is seen is cut");
}

/// Two squares drawn edge to edge: asked for an underlap, the lower one gains it.
#[test]
fn layers_drawn_edge_to_edge_gain_the_underlap() {
    let layers = vec![vec![square(0.0, 0.0, 20.0)], vec![square(20.0, 0.0, 20.0)]];
    assert!(least_underlap(&layers[0], &layers[1]).unwrap().least < 0.03, "as drawn, ground shows at once");
    let done = layered(&layers, &[ANY, ANY], Layering::KnockOut, mm(1.0));
    let least = least_underlap(&done.outlines[0], &done.outlines[1]).unwrap().least;
    assert!((least - 1.0).abs() < 0.02, "{least} mm");
}

// Pressed off -------------------------------------------------------------------------------------------------------

#[test]
fn nothing_shows_where_the_lower_layer_goes_through_underneath() {
    let [lower, upper] = [&flower()[0], &flower()[1]];
    assert_eq!(least_underlap(lower, upper), None);
}

/// A ring with an opening of radius 12 under a disc of radius 12.8: off by 0.8 and ground shows.
#[test]
fn the_least_underlap_is_what_the_upper_may_be_off() {
    let ring = Outline::new(disc(0.0, 0.0, 30.0).outer().clone(), vec![disc(0.0, 0.0, 12.0).outer().clone()]);
    let found = least_underlap(&[ring], &[disc(0.0, 0.0, 12.8)]).unwrap();
    assert!((found.least - 0.8).abs() < 0.02, "{} mm", found.least);
    let off_centre = least_underlap(
        &[Outline::new(disc(0.0, 0.0, 30.0).outer().clone(), vec![disc(0.5, 0.0, 12.0).outer().clone()])],
        &[disc(0.0, 0.0, 12.8)],
    );
    let found = off_centre.unwrap();
    assert!((found.least - 0.3).abs() < 0.02, "{} mm", found.least);
    assert!(found.at.x > 12.0, "tightest on the right, at {:?}", found.at);
}

/// A stem 4 wide that runs 7 under a petal: its end, not its crossing sides, is what may show.
#[test]
fn crossing_edges_do_not_count_as_no_underlap() {
    let stem = rectangle(-2.0, 0.0, 2.0, 40.0);
    let petal = rectangle(-15.0, -20.0, 15.0, 7.0);
    let found = least_underlap(&[stem], &[petal]).unwrap();
    assert!((found.least - 7.0).abs() < 0.02, "{} mm", found.least);
}

// Against oracles -----------------------------------------------------------------------------------------------------

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// What is seen stays the same whatever lies under it: by counting points.
    #[test]
    fn cutting_away_changes_nothing_that_is_seen(low in shape(), high in shape(), underlap in 0.0..2.0_f64) {
        let layers = vec![vec![low.clone()], vec![high.clone()]];
        let done = layered(&layers, &[ANY, ANY], Layering::KnockOut, mm(underlap));
        let box_ = low.bounds().union(high.bounds()).inflate(1.0, 1.0);
        let changed = raster_area(box_, 1.0, |p| {
            let seen_before = if high.contains(p) { 2 } else { u8::from(low.contains(p)) };
            let seen_after = if within(&done.outlines[1], p) { 2 } else { u8::from(within(&done.outlines[0], p)) };
            seen_before != seen_after
        });
        // A grid point on the very edge may fall either way.
        prop_assert!(changed <= 4.0, "{changed} mm² look different");
    }

    #[test]
    fn what_is_left_under_reaches_no_farther_than_the_underlap(low in shape(), high in shape(), underlap in 0.1..2.0_f64) {
        let layers = vec![vec![low], vec![high.clone()]];
        let done = layered(&layers, &[ANY, ANY], Layering::KnockOut, mm(underlap));
        if matches!(done.under[0], Under::KnockedOut { .. }) {
            for point in edge_points(&done.outlines[0]) {
                if high.contains(point) {
                    prop_assert!(distance_to_edge(std::slice::from_ref(&high), point) <= underlap + 0.02);
                }
            }
        }
    }

    /// Inclusion and exclusion: A + B = (A or B) + (A and B), and A = (A less B) + (A and B).
    #[test]
    fn booleans_keep_the_area_identities(a in shape(), b in shape()) {
        let (a, b) = ([a], [b]);
        let both = overlay::area(&overlay::intersection(&a, &b));
        let either = overlay::area(&overlay::union(&[a[0].clone(), b[0].clone()]));
        let less = overlay::area(&overlay::difference(&a, &b));
        prop_assert!((a[0].area() + b[0].area() - either - both).abs() < 1e-3);
        prop_assert!((a[0].area() - less - both).abs() < 1e-3);
    }

    /// Areas against the count of grid points; the error of a grid is bounded by the edge it cuts through.
    #[test]
    fn booleans_agree_with_a_raster(a in shape(), b in shape()) {
        let (step, box_) = (0.5, a.bounds().union(b.bounds()));
        let (mut either, mut both, mut less) = (0.0, 0.0, 0.0);
        raster_area(box_, step, |p| {
            let (in_a, in_b) = (a.contains(p), b.contains(p));
            either += f64::from(u8::from(in_a || in_b));
            both += f64::from(u8::from(in_a && in_b));
            less += f64::from(u8::from(in_a && !in_b));
            in_a
        });
        let (x, y) = ([a.clone()], [b.clone()]);
        let pairs = [
            (overlay::area(&overlay::union(&[a.clone(), b.clone()])), either * step * step),
            (overlay::area(&overlay::intersection(&x, &y)), both * step * step),
            (overlay::area(&overlay::difference(&x, &y)), less * step * step),
        ];
        let slack = (a.outer().perimeter() + b.outer().perimeter()) * step * 0.2;
        for (engine, raster) in pairs {
            prop_assert!((engine - raster).abs() <= slack, "{engine} against {raster}");
        }
    }

    /// Every point of a grown edge lies at the distance it was grown by.
    #[test]
    fn growing_is_checked_by_distance(a in shape(), by in 0.5..4.0_f64) {
        let whole = [a];
        for point in edge_points(&overlay::grown(&whole, by)) {
            let off = distance_to_edge(&whole, point);
            prop_assert!((off - by).abs() < 0.05, "{off} instead of {by}");
        }
    }
}

#[test]
fn the_raster_itself_is_right() {
    let area = raster_area(Rect::new(0.0, 0.0, 20.0, 20.0), 0.1, |p| disc(10.0, 10.0, 8.0).contains(p));
    assert!((area - disc(10.0, 10.0, 8.0).area()).abs() < 0.5);
}
