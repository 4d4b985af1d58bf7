//! Pieces: hands, reversal, quantities and carrier patches, from outside the library.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

use hemwright::art::{Colour, Layer, Motif};
use hemwright::film::{
    AsSeen, CutFrom, CutWish, Film, FilmError, LayerWish, Method, PieceKind, Preparing, Spares, for_cutting, patch,
    prepare,
};
use hemwright::geometry::{self, Affine, Outline, Point, Rect, Ring, Vec2};
use hemwright::nest::Turning;
use hemwright::place::{BandSetting, Hand, Lands, Placement, Setting};
use hemwright::quantity::{Radians, mm};
use proptest::prelude::*;

const RED: Colour = Colour { red: 200, green: 30, blue: 30 };
const GREEN: Colour = Colour { red: 30, green: 120, blue: 40 };

// Shapes ------------------------------------------------------------------------------------------------------------

/// A closed curve by its radius at each of `points` equal angles.
fn around(middle: Point, points: usize, radius: impl Fn(f64) -> f64) -> Outline {
    let ring = (0..points).map(|k| {
        let angle = TAU * k as f64 / points as f64;
        middle + Vec2::from_angle(angle) * radius(angle)
    });
    Outline::new(Ring::new(ring).unwrap(), vec![])
}

fn disc(x: f64, y: f64, radius: f64) -> Outline {
    around(Point::new(x, y), 64, |_| radius)
}

/// Separate petals round a middle that stays open.
fn petals(count: usize, inner: f64, length: f64, width: f64) -> Vec<Outline> {
    let petal = around(Point::ZERO, 40, |_| 1.0);
    (0..count)
        .map(|k| {
            let turn = Affine::rotate(TAU * k as f64 / count as f64);
            let stretch = Affine::scale_non_uniform(length / 2.0, width / 2.0);
            petal.transformed(turn * Affine::translate((inner + length / 2.0, 0.0)) * stretch)
        })
        .collect()
}

/// Three points and a hook to one side: no symmetry at all.
fn leaf() -> Outline {
    let points = [(-12.0, 30.0), (-9.0, -5.0), (3.0, -30.0), (12.0, -4.0), (2.0, 6.0), (5.0, 30.0)];
    Outline::new(Ring::new(points.map(Point::from)).unwrap(), vec![])
}

// A setting without the setting-out stage ----------------------------------------------------------------------------

fn motif(name: &str, layers: Vec<(Colour, Vec<Outline>)>) -> (String, Motif) {
    let layers = layers.into_iter().map(|(colour, outlines)| Layer { colour, outlines }).collect();
    (name.to_string(), Motif { name: name.to_string(), layers, width: mm(60.0), height: mm(60.0) })
}

fn setting(placed: &[(&str, Hand, f64)]) -> Setting {
    let placements = placed.iter().enumerate().map(|(k, (motif, hand, scale))| Placement {
        id: format!("L{k}"),
        motif: (*motif).to_string(),
        hand: *hand,
        scale: *scale,
        s_line: mm(100.0 * k as f64),
        s_hem: mm(100.0 * k as f64),
        height: mm(50.0),
        at: Point::new(100.0 * k as f64, -50.0),
        turn: Radians::new(0.0),
    });
    Setting {
        findings: Vec::new(),
        bands: vec![BandSetting {
            name: "band 1".to_string(),
            height: mm(50.0),
            line: mm(3000.0),
            count: u32::try_from(placed.len()).unwrap(),
            repeat: mm(100.0),
            gap_along: mm(40.0),
            clear_gap: None,
            on_cf: Lands::Motif,
            on_cb: Lands::Gap,
            placements: placements.collect(),
            in_corners: 0,
            clashes: vec![],
            remedies: Vec::new(),
            reasons: vec![],
        }],
    }
}

fn film(key: &str) -> Film {
    Film {
        key: key.to_string(),
        class: "smooth".to_string(),
        colour_name: key.to_string(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(4.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

fn wish(motif: &str, layers: &[(Colour, &str, Method)], spares: u32, tests: u32) -> CutWish {
    let layers = layers
        .iter()
        .map(|(colour, film, method)| LayerWish { colour: *colour, film: (*film).to_string(), method: *method })
        .collect();
    CutWish { motif: motif.to_string(), layers, spares: Spares::Each(spares), tests, preparing: Preparing::default() }
}

fn quantities(kinds: &[PieceKind]) -> Vec<(&str, u32, u32, u32)> {
    kinds.iter().map(|kind| (kind.name.as_str(), kind.needed, kind.spares, kind.tests)).collect()
}

// Reversal ----------------------------------------------------------------------------------------------------------

/// +1 when the leaf's hook lies to the right of the line from its stalk to its tip, -1 to the left: the sign of the sum of
/// cubed offsets from that line, which no turn or move changes and every mirroring flips.
fn chirality(outline: &Outline) -> f64 {
    let points = outline.outer().points();
    let middle = points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2()) / points.len() as f64;
    let far =
        |from: Point| points.iter().copied().max_by(|a, b| a.distance(from).total_cmp(&b.distance(from))).unwrap();
    let one_end = far(middle.to_point());
    let other_end = far(one_end);
    let (low, high) = if one_end.y > other_end.y { (one_end, other_end) } else { (other_end, one_end) };
    points.iter().map(|p| (high - low).cross(*p - low).powi(3)).sum::<f64>().signum()
}

#[test]
fn reversing_twice_is_the_identity() {
    let leaf = [leaf(), disc(20.0, 3.0, 2.0)].to_vec();
    let once = for_cutting(&AsSeen::new(leaf.clone()), CutFrom::Back);
    let twice = for_cutting(&AsSeen::new(once.outlines().to_vec()), CutFrom::Back);
    for (before, after) in leaf.iter().zip(twice.outlines()) {
        assert_eq!(before.area().to_bits(), after.area().to_bits());
        for point in before.outer().points() {
            assert!(after.outer().points().contains(point));
        }
    }
}

#[test]
fn an_asymmetric_motif_is_reversed_where_the_method_is_drawn_on_the_back() {
    let seen = AsSeen::new(vec![leaf()]);
    let reversed = [Method::Film, Method::FusedTraced, Method::TurnedTemplateOnWrong];
    let kept = [Method::FusedBacked, Method::TurnedTemplateOnRight];
    for method in reversed {
        let cut = for_cutting(&seen, method.cut_from());
        assert!((chirality(&cut.outlines()[0]) + chirality(&leaf())).abs() < 1e-12, "{method:?}");
    }
    for method in kept {
        let cut = for_cutting(&seen, method.cut_from());
        assert!((chirality(&cut.outlines()[0]) - chirality(&leaf())).abs() < 1e-12, "{method:?}");
    }
}

#[test]
fn the_other_hand_cut_from_the_back_looks_like_the_drawing() {
    let seen = AsSeen::new(vec![leaf()]);
    let cut = for_cutting(&seen.in_hand(Hand::Mirrored), CutFrom::Back);
    assert_eq!(cut.outlines(), seen.outlines());
}

// Quantities --------------------------------------------------------------------------------------------------------

/// S8, worked by hand: 34 repeats of one left and one right leaf, two spare sets: 36 L + 36 R.
#[test]
fn hands_are_counted_apart() {
    let motifs = BTreeMap::from([motif("leaf", vec![(GREEN, vec![leaf()])])]);
    let placed: Vec<_> = (0..34).flat_map(|_| [("leaf", Hand::AsDrawn, 1.0), ("leaf", Hand::Mirrored, 1.0)]).collect();
    let wishes = [wish("leaf", &[(GREEN, "green", Method::Film)], 2, 0)];
    let kinds = prepare(&motifs, &setting(&placed), &wishes, &[film("green")]).unwrap().pieces.kinds;
    assert_eq!(quantities(&kinds), [("leaf-green", 34, 2, 0), ("leaf-green-mirrored", 34, 2, 0)]);
    assert_eq!(kinds[0].quantity() + kinds[1].quantity(), 72);
    assert!((chirality(&kinds[0].cut.outlines()[0]) + chirality(&kinds[1].cut.outlines()[0])).abs() < 1e-12);
}

#[test]
fn sizes_are_kinds_of_their_own_and_tests_come_from_the_largest() {
    let motifs = BTreeMap::from([motif("leaf", vec![(GREEN, vec![leaf()])])]);
    let placed = [("leaf", Hand::Mirrored, 0.8), ("leaf", Hand::AsDrawn, 1.0), ("leaf", Hand::Mirrored, 0.8)];
    let wishes = [wish("leaf", &[(GREEN, "green", Method::Film)], 1, 1)];
    let kinds = prepare(&motifs, &setting(&placed), &wishes, &[film("green")]).unwrap().pieces.kinds;
    assert_eq!(quantities(&kinds), [("leaf-green", 1, 1, 1), ("leaf-green-80-percent-mirrored", 2, 1, 0)]);
    let ratio = kinds[1].cut.outlines()[0].area() / kinds[0].cut.outlines()[0].area();
    assert!((ratio - 0.64).abs() < 1e-12);
}

#[test]
fn layers_go_to_their_films_in_the_order_of_the_job() {
    let flower = motif("poppy", vec![(RED, petals(5, 6.0, 30.0, 18.0)), (GREEN, vec![disc(0.0, 0.0, 8.0)])]);
    let motifs = BTreeMap::from([flower]);
    let wishes = [wish("poppy", &[(RED, "red", Method::Film), (GREEN, "green", Method::Film)], 1, 1)];
    let kinds = prepare(&motifs, &setting(&[("poppy", Hand::AsDrawn, 1.0); 3]), &wishes, &[film("green"), film("red")])
        .unwrap()
        .pieces
        .kinds;
    assert_eq!(quantities(&kinds), [("poppy-green", 3, 1, 1), ("poppy-red", 3, 1, 1)]);
    assert_eq!(kinds[1].cut.outlines().len(), 5, "all petals travel on one patch");
}

#[test]
fn fabric_outlines_are_cut_singly() {
    let motifs = BTreeMap::from([motif("poppy", vec![(RED, petals(5, 6.0, 30.0, 18.0))])]);
    let wishes = [wish("poppy", &[(RED, "calico", Method::FusedTraced)], 1, 0)];
    let kinds = prepare(&motifs, &setting(&[("poppy", Hand::AsDrawn, 1.0); 4]), &wishes, &[film("calico")]).unwrap();
    let names: Vec<_> = kinds.pieces.kinds.iter().map(|kind| kind.name.as_str()).collect();
    let expected = [
        "poppy-calico-piece-1",
        "poppy-calico-piece-2",
        "poppy-calico-piece-3",
        "poppy-calico-piece-4",
        "poppy-calico-piece-5",
    ];
    assert_eq!(names, expected);
    assert!(kinds.pieces.kinds.iter().all(|kind| kind.needed == 4 && kind.patch == *kind.cut.outlines()[0].outer()));
}

#[test]
fn what_cannot_be_cut_is_named_all_at_once() {
    let motifs = BTreeMap::from([motif("poppy", vec![(RED, vec![leaf()]), (GREEN, vec![leaf()])])]);
    let placed = setting(&[("poppy", Hand::AsDrawn, 1.0)]);
    let error = prepare(&motifs, &placed, &[], &[film("red")]).unwrap_err();
    assert_eq!(error.to_string(), "nothing to cut #c81e1e of \"poppy\" and #1e7828 of \"poppy\" from");
    let wishes = [wish("poppy", &[(RED, "red", Method::Film), (GREEN, "gren", Method::Film)], 1, 1)];
    let error = prepare(&motifs, &placed, &wishes, &[film("red")]).unwrap_err();
    assert_eq!(error.to_string(), "no such film: #1e7828 of \"poppy\" from \"gren\"");
    assert!(error.hint().contains("red"));
    let error = prepare(&motifs, &setting(&[("rose", Hand::AsDrawn, 1.0)]), &wishes, &[film("red")]).unwrap_err();
    assert_eq!(error, FilmError::UnknownMotif { motifs: vec!["rose".to_string()] });
    let wishes = [wish("poppy", &[(RED, "red", Method::Film), (GREEN, "red", Method::Film)], u32::MAX, u32::MAX)];
    let error = prepare(&motifs, &placed, &wishes, &[film("red")]).unwrap_err();
    assert_eq!(error, FilmError::TooManySpares { motif: "poppy".to_string(), asked: 2 * u64::from(u32::MAX) });
}

// Carrier patches ---------------------------------------------------------------------------------------------------

/// Inside by the sum of turned angles, or within `slack` of the edge: no code shared with the patch.
fn holds(ring: &Ring, point: Point, slack: f64) -> bool {
    let turned: f64 = ring.edges().map(|(a, b)| (a - point).cross(b - point).atan2((a - point).dot(b - point))).sum();
    let near = ring.edges().any(|(a, b)| {
        let t = ((point - a).dot(b - a) / (b - a).hypot2()).clamp(0.0, 1.0);
        (a + (b - a) * t).distance(point) <= slack
    });
    near || turned.abs() > PI
}

/// Every corner and every edge's middle of every outline.
fn assert_holds_all(ring: &Ring, outlines: &[Outline]) {
    for (a, b) in outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges) {
        for point in [a, a.midpoint(b)] {
            assert!(holds(ring, point, 1e-3), "{point:?} lies outside the patch");
        }
    }
}

/// No two edges that are not neighbours cross or touch.
fn assert_simple(ring: &Ring) {
    let edges: Vec<_> = ring.edges().collect();
    let side = |a: Point, b: Point, p: Point| (b - a).cross(p - a);
    for i in 0..edges.len() {
        for j in i + 2..edges.len() {
            if i == 0 && j == edges.len() - 1 {
                continue;
            }
            let ((a, b), (c, d)) = (edges[i], edges[j]);
            let crossing = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
            assert!(!crossing, "edges {i} and {j} of the patch cross");
        }
    }
}

fn assert_good_patch(outlines: &[Outline]) -> Ring {
    let ring = patch(outlines).unwrap();
    assert_holds_all(&ring, outlines);
    assert_simple(&ring);
    let (own, held) = (ring.bounds(), geometry::bounds(outlines).unwrap());
    for (a, b) in [(own.x0, held.x0), (own.y0, held.y0), (own.x1, held.x1), (own.y1, held.y1)] {
        assert!((a - b).abs() < 1e-3, "the patch reaches beyond what it holds: {own:?} round {held:?}");
    }
    // One outline that holds all others is its own patch.
    if outlines.iter().any(|outline| (outline.outer().area() - ring.area()).abs() < 1e-3) {
        return ring;
    }
    let hull = geometry::overlay::hull(outlines).unwrap();
    for point in ring.points().iter().filter(|point| distance(**point, &hull) > 0.05) {
        let clear = outlines.iter().map(|outline| distance(*point, outline.outer())).fold(f64::INFINITY, f64::min);
        assert!(clear > 0.745, "the scissors pass {clear} mm from an outline at {point:?}");
    }
    ring
}

/// From a point to the nearest edge of a ring.
fn distance(point: Point, ring: &Ring) -> f64 {
    let to_edge = |(a, b): (Point, Point)| {
        let along = b - a;
        let share = ((point - a).dot(along) / along.hypot2().max(1e-300)).clamp(0.0, 1.0);
        point.distance(a + along * share)
    };
    ring.edges().map(to_edge).fold(f64::INFINITY, f64::min)
}

#[test]
fn the_patch_of_one_outline_is_its_outer_ring() {
    let hole = Ring::rectangle(Rect::new(-2.0, -2.0, 2.0, 2.0)).unwrap();
    let ring = Outline::new(disc(0.0, 0.0, 10.0).outer().clone(), vec![hole]);
    assert_eq!(patch(std::slice::from_ref(&ring)).unwrap(), *ring.outer());
    let dot = disc(0.0, 0.0, 1.0);
    let eye = patch(&[ring.clone(), dot]).unwrap();
    assert!((eye.area() - ring.outer().area()).abs() < 1e-3, "a dot in the hole needs no more carrier");
}

/// A bridge of 6 with clearance 1 on both sides is 8 wide halfway between two discs.
#[test]
fn two_discs_far_apart_are_joined_by_a_bridge() {
    let discs = [disc(0.0, 0.0, 10.0), disc(40.0, 0.0, 10.0)];
    let ring = assert_good_patch(&discs);
    let across = (-150..=150).filter(|tenth| holds(&ring, Point::new(20.0, f64::from(*tenth) / 10.0), 0.0)).count();
    assert!((75..=85).contains(&across), "{across} tenths of a millimetre across");
    let bare = 2.0 * discs[0].area();
    assert!(ring.area() < bare + 20.0 * 8.0 + 2.0 * PI * 10.0, "{} mm² round {bare} mm²", ring.area());
}

#[test]
fn petals_share_one_patch_smaller_than_their_hull() {
    let flower = petals(5, 6.0, 34.0, 20.0);
    let ring = assert_good_patch(&flower);
    let petals: f64 = flower.iter().map(Outline::area).sum();
    let hull = geometry::overlay::hull(&flower).unwrap().area();
    assert!(petals < ring.area() && ring.area() < hull, "{petals} {} {hull}", ring.area());
    assert!(ring.points().len() < 300, "{} points", ring.points().len());
}

#[test]
fn scattered_dots_beyond_all_bridging_get_their_hull() {
    let dots: Vec<_> = (0..400).map(|k| disc(30.0 * f64::from(k % 20), 30.0 * f64::from(k / 20), 2.0)).collect();
    let ring = assert_good_patch(&dots);
    assert!((ring.area() - geometry::overlay::hull(&dots).unwrap().area()).abs() < 1.0);
}

#[test]
fn no_outlines_have_no_patch() {
    assert_eq!(patch(&[]), None);
}

/// A star, blob or petal somewhere near.
fn shape() -> impl Strategy<Value = Outline> {
    let place = (-60.0..60.0_f64, -60.0..60.0_f64, 0.0..TAU);
    let star = (3..9_usize, 4.0..25.0_f64, 0.3..0.9_f64).prop_map(|(points, radius, inner)| {
        let count = std::cell::Cell::new(0);
        around(Point::ZERO, 2 * points, move |_| {
            count.set(count.get() + 1);
            if count.get() % 2 == 0 { radius } else { radius * inner }
        })
    });
    let blob = (3.0..25.0_f64, 0.0..0.5_f64, 1..5_u32).prop_map(|(radius, wave, times)| {
        around(Point::ZERO, 60, move |a| radius * (1.0 + wave * (a * f64::from(times)).cos()))
    });
    let petal = (1..2_usize, 0.0..10.0_f64, 5.0..40.0_f64, 1.0..20.0_f64)
        .prop_map(|(count, inner, length, width)| petals(count, inner, length, width).remove(0));
    (prop_oneof![star, blob, petal], place)
        .prop_map(|(shape, (x, y, turn))| shape.transformed(Affine::translate((x, y)) * Affine::rotate(turn)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn every_patch_is_simple_holds_its_outlines_and_is_no_larger(shapes in prop::collection::vec(shape(), 2..8)) {
        // Layers come with separate outlines; overlapping ones are joined first.
        let outlines = geometry::overlay::union(&shapes);
        assert_good_patch(&outlines);
    }

    #[test]
    fn mirroring_before_or_after_makes_the_same_patch(shapes in prop::collection::vec(shape(), 2..5)) {
        let outlines = geometry::overlay::union(&shapes);
        let flipped: Vec<_> = outlines.iter().map(|one| one.transformed(Affine::FLIP_X)).collect();
        let (one, other) = (patch(&outlines).unwrap(), patch(&flipped).unwrap());
        prop_assert!((one.area() - other.area()).abs() < 0.02 * one.area() + 1.0, "{} {}", one.area(), other.area());
    }
}
