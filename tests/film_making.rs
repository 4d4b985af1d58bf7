//! What is added to pieces before they are cut: turn-under, mending, marks, boxes, cut order, thread.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

mod shapes;

use std::collections::BTreeMap;
use std::f64::consts::PI;

use hemwright::art::{Colour, Layer, Motif};
use hemwright::film::{
    Changed, CutWish, Film, FilmError, Guide, Islands, LayerWish, MatchMarks, Method, Prepared, Preparing, Spares,
    Weeding, clips, fabric_needs, in_cut_order, mended, prepare, tight_places, with_allowance,
};
use hemwright::finding::Severity;
use hemwright::geometry::clearance::Measurable;
use hemwright::geometry::{self, Outline, Point, Ring};
use hemwright::nest::Turning;
use hemwright::place::{BandSetting, Hand, Lands, Placement, Setting};
use hemwright::quantity::{Radians, mm};
use proptest::prelude::*;
use shapes::{around, disc, distance_to_edge, edge_points, polygon, rectangle, shape, square};

const RED: Colour = Colour { red: 200, green: 30, blue: 30 };
const GREEN: Colour = Colour { red: 30, green: 120, blue: 40 };

fn motif(layers: Vec<(Colour, Vec<Outline>)>) -> Motif {
    let layers = layers.into_iter().map(|(colour, outlines)| Layer { colour, outlines }).collect();
    Motif { name: "poppy".to_string(), layers, width: mm(60.0), height: mm(60.0) }
}

fn film(key: &str, class: &str) -> Film {
    Film {
        key: key.to_string(),
        class: class.to_string(),
        colour_name: key.to_string(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(4.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

/// One placement in each hand.
fn setting() -> Setting {
    let placement = |hand| Placement {
        id: "CF".to_string(),
        motif: "poppy".to_string(),
        hand,
        scale: 1.0,
        s_line: mm(0.0),
        s_hem: mm(0.0),
        height: mm(50.0),
        at: Point::new(0.0, -50.0),
        turn: Radians::new(0.0),
    };
    Setting {
        bands: vec![BandSetting {
            name: "band 1".to_string(),
            height: mm(50.0),
            line: mm(3000.0),
            count: 2,
            repeat: mm(1500.0),
            gap_along: mm(1440.0),
            clear_gap: None,
            on_cf: Lands::Motif,
            on_cb: Lands::Motif,
            placements: vec![placement(Hand::AsDrawn), placement(Hand::Mirrored)],
            in_corners: 0,
            clashes: vec![],
            reasons: vec![],
            remedies: vec![],
        }],
        findings: vec![],
    }
}

fn prepared(
    layers: Vec<(Colour, Vec<Outline>)>,
    methods: &[(&str, &str, Method)],
    preparing: Preparing,
) -> Result<Prepared, FilmError> {
    let wishes = layers.iter().zip(methods).map(|((colour, _), (film, _, method))| LayerWish {
        colour: *colour,
        film: (*film).to_string(),
        method: *method,
    });
    let cut =
        CutWish { motif: "poppy".to_string(), layers: wishes.collect(), spares: Spares::Each(0), tests: 0, preparing };
    let films: Vec<Film> = methods.iter().map(|(key, class, _)| film(key, class)).collect();
    prepare(&BTreeMap::from([("poppy".to_string(), motif(layers))]), &setting(), &[cut], &films)
}

// Turned edges --------------------------------------------------------------------------------------------------------

/// A band bent to an arc: inner curve of radius r over half a circle.
fn horseshoe(inner: f64, width: f64) -> Outline {
    let arc = |radius: f64, from: f64, to: f64| {
        (0..=60).map(move |k| {
            let angle = from + (to - from) * f64::from(k) / 60.0;
            Point::new(radius * angle.cos(), radius * angle.sin())
        })
    };
    let ring = arc(inner + width, 0.0, PI).chain(arc(inner, PI, 0.0));
    Outline::new(Ring::new(ring).unwrap(), vec![])
}

#[test]
fn the_turn_under_lies_outside_the_finished_line_everywhere() {
    let finished = disc(0.0, 0.0, 20.0);
    let cut = with_allowance(&finished, 4.8).unwrap();
    for point in edge_points(std::slice::from_ref(&cut)) {
        let off = distance_to_edge(std::slice::from_ref(&finished), point);
        assert!((off - 4.8).abs() < 0.05, "{off}");
    }
    assert!(cut.area() > finished.area());
}

/// Scenario "inside curve radius 2 is tighter than 5 turn-under"; 8 is wide enough.
#[test]
fn inside_curves_tighter_than_the_turn_under_are_found_with_their_radius() {
    let tight = tight_places(&horseshoe(2.0, 20.0), 5.0);
    assert_eq!(tight.len(), 1);
    assert!((tight[0].radius - 2.0).abs() < 0.1, "radius {}", tight[0].radius);
    assert!(tight[0].at.to_vec2().hypot() < 2.1, "at the inner curve, {:?}", tight[0].at);
    assert!(tight_places(&horseshoe(8.0, 20.0), 5.0).is_empty());
    assert!((4..=16).all(|r| tight_places(&horseshoe(f64::from(r), 20.0), 5.0).is_empty() == (r >= 5)));
}

#[test]
fn one_clip_serves_a_corner_and_outside_curves_need_none() {
    let step = polygon([(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)]);
    assert!(tight_places(&step, 5.0).is_empty());
    let snips = clips(&step, 5.0, 6.0);
    assert_eq!(snips.len(), 1);
    let (from, to) = snips[0];
    assert!((to - Point::new(20.0, 20.0)).hypot() < 1.01 && (from - to).hypot() > 3.9, "{from:?} to {to:?}");
    assert!(!step.contains(from) && !step.contains(to), "clips stay outside the finished line");
    assert!(clips(&disc(0.0, 0.0, 20.0), 5.0, 6.0).is_empty());
    // A cleft of 30 degrees cannot be served by one clip.
    let cleft = polygon([(-20.0, 0.0), (0.0, 30.0), (20.0, 0.0), (30.0, 60.0), (-30.0, 60.0)]);
    assert_eq!(tight_places(&cleft, 5.0).len(), 0, "a cleft of 67 degrees can be turned");
    let cleft = polygon([(-8.0, 0.0), (0.0, 30.0), (8.0, 0.0), (30.0, 60.0), (-30.0, 60.0)]);
    assert_eq!(tight_places(&cleft, 5.0).len(), 1, "a cleft of 30 degrees cannot");
}

#[test]
fn inside_curves_are_clipped_at_the_spacing() {
    let snips = clips(&horseshoe(20.0, 20.0), 5.0, 6.0);
    // The inner curve is 20 pi = 62.8 long: a clip every 6 mm or at the next corner of the drawing.
    assert!((8..=11).contains(&snips.len()), "{} clips", snips.len());
}

#[test]
fn a_turned_piece_carries_both_lines_and_is_refused_where_it_cannot_turn() {
    let ok = prepared(
        vec![(RED, vec![horseshoe(8.0, 20.0)])],
        &[("lawn", "fabric-turned", Method::TurnedTemplateOnWrong)],
        Preparing::default(),
    );
    let kinds = ok.unwrap().pieces.kinds;
    assert_eq!(kinds.len(), 2, "one of each hand");
    assert!(kinds[0].patch.area() > kinds[0].finished()[0].outer().area() + 100.0);
    assert!(!kinds[0].clips.is_empty() && kinds[0].grain.is_some());
    // What is drawn on the cloth: the fold as a closed line inside the cut one, every clip, one arrow.
    let guides = kinds[0].guide_lines();
    let of = |what: Guide| guides.iter().filter(|line| line.what == what).collect::<Vec<_>>();
    assert_eq!((of(Guide::Fold).len(), of(Guide::Clip).len(), of(Guide::Grain).len()), (1, kinds[0].clips.len(), 1));
    let fold = &of(Guide::Fold)[0].points;
    assert_eq!(fold.first(), fold.last());
    assert!(fold.iter().all(|point| kinds[0].cut.outlines()[0].contains(*point)));
    let error = prepared(
        vec![(RED, vec![horseshoe(2.0, 20.0)])],
        &[("lawn", "fabric-turned", Method::TurnedTemplateOnRight)],
        Preparing::default(),
    )
    .unwrap_err();
    let text = error.to_string();
    assert!(text.starts_with("an inside curve of #c81e1e of \"poppy\" has a radius of 2.0 mm"), "{text}");
    assert!(text.ends_with("tighter than the 4.8 mm turn-under"), "{text}");
    assert!(error.hint().contains("raw edge") && error.hint().contains("[motif.poppy.prepare]"));
    let holed = Outline::new(disc(0.0, 0.0, 30.0).outer().clone(), vec![square(-3.0, -3.0, 6.0).outer().clone()]);
    let error = prepared(
        vec![(RED, vec![holed])],
        &[("lawn", "fabric-turned", Method::TurnedTemplateOnRight)],
        Preparing::default(),
    )
    .unwrap_err();
    assert_eq!(error.to_string(), "a hole of #c81e1e of \"poppy\" is 6.0 mm wide, too small for the 4.8 mm turn-under");
}

#[test]
fn narrow_strips_of_turned_edges_are_told() {
    let strip = rectangle(-30.0, -4.0, 30.0, 4.0);
    let done = prepared(
        vec![(RED, vec![strip])],
        &[("lawn", "fabric-turned", Method::TurnedTemplateOnWrong)],
        Preparing::default(),
    )
    .unwrap();
    let finding = done.findings.iter().find(|finding| finding.kind == "narrow-to-turn").unwrap();
    assert!(finding.say.contains("narrower than 10.0 mm"), "{}", finding.say);
}

// Mending, only when asked ----------------------------------------------------------------------------------------------

fn asked(preparing: Preparing) -> impl Fn(&[Outline]) -> hemwright::film::Mended {
    move |outlines| mended(outlines, &preparing)
}

/// A needle of 20 degrees: half angle 10, rounded to radius r its tip loses r / sin 10 - r = 4.759 r.
#[test]
fn a_needle_point_is_rounded_and_its_loss_measured() {
    let length = 40.0;
    let half = length * 10f64.to_radians().tan();
    let needle = polygon([(-half, 0.0), (0.0, -length), (half, 0.0), (half, 20.0), (-half, 20.0)]);
    let round = asked(Preparing { round_points: Some(mm(0.8)), ..Preparing::default() });
    let done = round(std::slice::from_ref(&needle));
    assert_eq!(done.changes.len(), 1, "{:?}", done.changes);
    let Changed::PointRounded { degrees, shorter } = done.changes[0].what else { panic!("{:?}", done.changes) };
    assert!((degrees - 20.0).abs() < 0.5, "{degrees} degrees");
    assert!((shorter.get() - 0.8 * 4.759).abs() < 0.05, "{shorter:.3} shorter");
    assert!((done.changes[0].at - Point::new(0.0, -length)).hypot() < 0.1);
    assert!(done.outlines[0].area() < needle.area() && done.outlines[0].area() > needle.area() - 10.0);
    let blunt = polygon([(-20.0, 0.0), (0.0, -40.0), (20.0, 0.0)]);
    assert!(round(&[blunt]).changes.is_empty(), "53 degrees is no needle");
}

/// Two squares joined by a bar of 0.6: thickened to 1.2.
#[test]
fn a_neck_is_thickened_and_nothing_else() {
    let dumb_bell = |bar: f64| {
        let b = bar / 2.0;
        polygon([
            (0.0, -10.0),
            (0.0, -b),
            (10.0, -b),
            (10.0, -10.0),
            (30.0, -10.0),
            (30.0, 10.0),
            (10.0, 10.0),
            (10.0, b),
            (0.0, b),
            (0.0, 10.0),
            (-20.0, 10.0),
            (-20.0, -10.0),
        ])
    };
    let thicken = asked(Preparing { thicken_necks: Some(mm(1.2)), ..Preparing::default() });
    let done = thicken(&[dumb_bell(0.6)]);
    assert_eq!(done.changes.len(), 1, "{:?}", done.changes);
    let change = &done.changes[0];
    assert_eq!(change.what, Changed::NeckThickened);
    assert!((change.before.get() - 0.6).abs() < 0.02, "{:.3} before", change.before);
    assert!((change.at - Point::new(5.0, 0.0)).hypot() < 1.0, "{:?}", change.at);
    // Measured by points: halfway along the neck it is now 1.2 high.
    let inside = |y: f64| done.outlines[0].contains(Point::new(5.0, y));
    assert!(inside(0.58) && inside(-0.58) && !inside(0.62) && !inside(-0.62));
    assert!(thicken(&[dumb_bell(1.5)]).changes.is_empty(), "wide enough");
    assert!(thicken(&[disc(0.0, 0.0, 10.0)]).changes.is_empty(), "no neck at all");
}

#[test]
fn islands_are_dropped_enlarged_or_kept_as_asked() {
    let layer =
        [square(0.0, 0.0, 20.0), square(30.0, 0.0, 2.0), square(40.0, 0.0, 2.0), rectangle(40.0, 2.3, 42.0, 12.0)];
    let keep = asked(Preparing::default())(&layer);
    assert_eq!((keep.outlines.len(), keep.changes.len()), (4, 0));
    let drop = asked(Preparing { islands: Islands::Drop(mm(3.0)), ..Preparing::default() })(&layer);
    assert_eq!((drop.outlines.len(), drop.changes.len()), (2, 2));
    let larger = asked(Preparing { islands: Islands::Enlarge(mm(3.0)), ..Preparing::default() })(&layer);
    let sides: Vec<f64> = larger.outlines.iter().map(|one| one.bounds().width()).collect();
    assert!((sides[1] - 3.0).abs() < 1e-9, "{sides:?}");
    assert!((sides[2] - 2.0).abs() < 1e-9, "would touch its neighbour, so it is left: {sides:?}");
    assert_eq!(larger.changes.len(), 1);
}

#[test]
fn changes_are_told_with_before_and_after() {
    let layers = vec![(RED, vec![square(0.0, 0.0, 20.0), square(30.0, 0.0, 2.0)])];
    let drop = Preparing { islands: Islands::Drop(mm(3.0)), ..Preparing::default() };
    let done = prepared(layers, &[("red", "smooth", Method::Film)], drop).unwrap();
    let told: Vec<_> = done.findings.iter().map(|finding| (finding.severity, finding.say.as_str())).collect();
    assert_eq!(told, [(Severity::FixedForYou, "An island of #c81e1e of \"poppy\", 2.0 mm across, was left out.")]);
}

// Marks and boxes -------------------------------------------------------------------------------------------------------

#[test]
fn match_marks_lie_at_the_same_place_of_every_layer_and_outside_the_motif() {
    let layers = vec![(RED, vec![square(-20.0, -20.0, 40.0)]), (GREEN, vec![disc(3.0, 0.0, 8.0)])];
    let marks = Preparing { match_marks: MatchMarks::Outside, ..Preparing::default() };
    let methods = [("red", "smooth", Method::Film), ("green", "smooth", Method::Film)];
    let kinds = prepared(layers.clone(), &methods, marks).unwrap().pieces.kinds;
    let of = |film: &str, hand: Hand| kinds.iter().find(|kind| kind.film == film && kind.hand == hand).unwrap();
    for hand in [Hand::AsDrawn, Hand::Mirrored] {
        assert_eq!(of("red", hand).marks, of("green", hand).marks);
        assert_eq!(of("red", hand).marks.outlines().len(), 2);
    }
    assert_ne!(of("red", Hand::AsDrawn).marks, of("red", Hand::Mirrored).marks, "turned over, they do not match");
    let kind = of("green", Hand::AsDrawn);
    let motif = Measurable::new(&[square(-20.0, -20.0, 40.0)]).unwrap();
    for mark in kind.marks.outlines() {
        let clear = Measurable::new(std::slice::from_ref(mark)).unwrap().clearance_to(&motif).distance;
        assert!((clear - 3.0).abs() < 1e-9, "{clear}");
        assert!(mark.rings().flat_map(Ring::points).all(|p| distance_to_edge(
            &[Outline::new(kind.patch.clone(), vec![])],
            *p
        ) < 1e-3
            || kind.patch.contains(*p)));
    }
    assert_eq!(kind.knife_rings().len(), 3, "two marks and the disc");
    let one = prepared(
        layers[..1].to_vec(),
        &methods[..1],
        Preparing { match_marks: MatchMarks::Outside, ..Preparing::default() },
    );
    assert!(one.unwrap().pieces.kinds[0].marks.outlines().is_empty(), "a single layer has nothing to match");
}

#[test]
fn weeding_boxes_and_relief_cuts_keep_three_millimetres_from_every_piece() {
    let layers = vec![(RED, vec![disc(0.0, 0.0, 20.0), disc(45.0, 10.0, 12.0)])];
    let boxed = Preparing { weeding: Weeding::Box, ..Preparing::default() };
    let kinds = prepared(layers, &[("red", "smooth", Method::Film)], boxed).unwrap().pieces.kinds;
    let weeding = kinds[0].weeding.as_ref().unwrap();
    assert_eq!(kinds[0].patch, weeding.ring);
    assert!(weeding.relief.len() >= 2, "{:?}", weeding.relief);
    let pieces = kinds[0].cut.outlines();
    for point in
        weeding.relief.iter().flat_map(|(a, b)| [*a, a.midpoint(*b), *b]).chain(weeding.ring.points().iter().copied())
    {
        assert!(distance_to_edge(pieces, point) >= 3.0 - 1e-6, "{}", distance_to_edge(pieces, point));
        assert!(!pieces.iter().any(|piece| piece.contains(point)));
    }
    let length: f64 = pieces.iter().flat_map(Outline::rings).map(Ring::perimeter).sum::<f64>()
        + weeding.ring.perimeter()
        + weeding.relief.iter().map(|(a, b)| 2.0 * a.distance(*b)).sum::<f64>();
    assert!((kinds[0].cut_length().get() - length).abs() < 1e-6);
}

// Cut order -----------------------------------------------------------------------------------------------------------

#[test]
fn what_lies_inside_is_cut_first() {
    let eye = Outline::new(disc(0.0, 0.0, 20.0).outer().clone(), vec![disc(0.0, 0.0, 12.0).outer().clone()]);
    let order = in_cut_order(&[eye, disc(0.0, 0.0, 5.0), disc(50.0, 0.0, 9.0)]);
    let radii: Vec<f64> = order.iter().map(|ring| ring.bounds().width() / 2.0).collect();
    let rounded: Vec<i32> = radii.iter().map(|r| format!("{r:.0}").parse().unwrap()).collect();
    assert_eq!(rounded[..2], [5, 12], "{rounded:?}");
    assert!(rounded[2..] == [20, 9] || rounded[2..] == [9, 20], "{rounded:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_ring_is_cut_once_and_after_all_inside_it(shapes in prop::collection::vec(shape(), 1..8)) {
        let outlines = geometry::overlay::union(&shapes);
        let order = in_cut_order(&outlines);
        let rings: usize = outlines.iter().map(|one| one.rings().count()).sum();
        prop_assert_eq!(order.len(), rings);
        for (early, ring) in order.iter().enumerate() {
            for late in &order[early + 1..] {
                prop_assert!(!ring.contains(late.points()[0]), "a ring inside is cut after the one outside");
            }
        }
    }

    #[test]
    fn rounding_never_adds_and_never_parts(shape in shape(), radius in 0.3..1.5_f64) {
        let done = mended(std::slice::from_ref(&shape), &Preparing { round_points: Some(mm(radius)), ..Preparing::default() });
        prop_assert_eq!(done.outlines.len(), 1);
        prop_assert!(done.outlines[0].area() <= shape.area() + 1e-3);
        prop_assert!(done.outlines[0].area() >= shape.area() * 0.5);
    }
}

// Cloth ---------------------------------------------------------------------------------------------------------------

/// Six pieces of 6 in from web 17 in wide lie two by two: 3 rows, 18 in (a page's slab of 6 x 36 in has the same area when
/// cut 6 wide). Zigzag 3 wide, 0.4 long: sqrt(9 + 0.16) / 0.4 = 7.57 times the edge (worked by hand), 15 % more.
#[test]
fn fused_pieces_need_web_and_thread() {
    let layers = vec![(RED, vec![square(-76.2, -76.2, 152.4)])];
    let mut done =
        prepared(layers, &[("calico", "fabric-web-light", Method::FusedTraced)], Preparing::default()).unwrap();
    done.pieces.kinds[0].needed = 3;
    done.pieces.kinds[1].needed = 3;
    let needs = fabric_needs(&done.pieces, &[film("calico", "fabric-web-light")]);
    assert_eq!(needs.len(), 1);
    // Each hand in its own rows: 2 rows of 3 pieces twice.
    assert!((needs[0].web.unwrap().get() - 4.0 * 152.4).abs() < 1e-6);
    let edge = 6.0 * 4.0 * 152.4;
    assert!((needs[0].edge.get() - edge).abs() < 1e-6);
    assert!((needs[0].thread_above.get() - edge * 7.5664 * 1.15).abs() < 1.0);
    assert!((needs[0].thread_below.get() - needs[0].thread_above.get() / 2.0).abs() < 1e-6);
    assert!(needs[0].working.iter().any(|line| line.contains("x 7.6 x 1.15")), "{:?}", needs[0].working);
    assert!(needs[0].working.iter().any(|line| line.ends_with("(rates [106] from memory)")), "{:?}", needs[0].working);
}

/// A teaching page: a seam of 220 cm takes 550 cm of thread.
#[test]
fn turned_edges_take_thread_like_a_seam() {
    let layers = vec![(RED, vec![square(0.0, 0.0, 275.0)])];
    let done =
        prepared(layers, &[("lawn", "fabric-turned", Method::TurnedTemplateOnWrong)], Preparing::default()).unwrap();
    let needs = fabric_needs(&done.pieces, &[film("lawn", "fabric-turned")]);
    assert!((needs[0].edge.get() - 2200.0).abs() < 1e-6, "two squares of 1100 round, finished line");
    assert!((needs[0].thread_above.get() - 5500.0).abs() < 1e-6);
    assert!(needs[0].working[0].ends_with("= 5.5 m of thread (rates [120] published)"), "{:?}", needs[0].working);
    assert_eq!(needs[0].web, None);
}

#[test]
fn a_blob_on_glitter_is_cut_into_the_glitter() {
    let layers = vec![
        (RED, vec![square(-30.0, -30.0, 60.0)]),
        (GREEN, vec![around(Point::ZERO, 60, |a| 14.0 + 3.0 * (3.0 * a).cos())]),
    ];
    let methods = [("sparkle", "glitter", Method::Film), ("green", "smooth", Method::Film)];
    let done = prepared(layers, &methods, Preparing::default()).unwrap();
    let sparkle = done.pieces.kinds.iter().find(|kind| kind.film == "sparkle").unwrap();
    assert_eq!(sparkle.cut.outlines()[0].holes().len(), 1);
    let said: Vec<_> = done.findings.iter().map(|finding| (finding.severity, finding.kind)).collect();
    assert_eq!(said, [(Severity::LookAtThis, "cut-away"), (Severity::LookAtThis, "shows-ground")]);
    assert!(done.findings[0].say.contains("its film takes nothing on top"), "{}", done.findings[0].say);
}
