//! Straight-sided cloths: sides, corners, and the motifs that stand in them.

use super::*;
use hemwright::hem::HemError;
use hemwright::place::{CornerWish, Lands};

fn shawl() -> Hem {
    hem(Measurements::Rectangle { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![])
}

fn bordered(spacing: Spacing) -> BandWish {
    let corner = CornerWish { motif: "rose".to_owned(), occupies: Some(mm(80.0)) };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    BandWish { on_cf: Anchor::Best, rhythm, ..band("leaf", 60.0, spacing) }
}

/// Worked by hand: a square of 1200, line 60 in; corner motifs take 80 of each side, motif 70, gap 35 also beside corners.
#[test]
fn a_square_shawl_takes_eight_on_each_side_and_four_in_the_corners() {
    let hem = shawl();
    let line = hem.line_at(mm(60.0)).unwrap();
    near(hem.length(), 4800.0);
    near(line.length(), 4.0 * 1080.0);
    assert!((hem.sweep().get() - TAU).abs() < 1e-12);
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let found = setting(&hem, &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    assert_eq!(found.count, 36);
    near(found.gap_along, 40.0);
    assert_eq!((found.on_cf, found.on_cb), (Lands::Gap, Lands::Gap));
    let corners: Vec<&str> = found.placements.iter().filter(|p| p.motif == "rose").map(|p| p.id.as_str()).collect();
    assert_eq!(corners, ["C3", "C4", "C1", "C2"]);
    // First and last middles on the front side, from its right-hand corner: 155 and 925.
    let on_front: Vec<f64> = found
        .placements
        .iter()
        .filter(|p| p.motif == "leaf" && p.s_line.get().abs() < 540.0)
        .map(|p| p.s_line.get() + 540.0)
        .collect();
    assert_eq!(on_front.len(), 8);
    near(mm(on_front[0]), 155.0);
    near(mm(on_front[1] - on_front[0]), 110.0);
    near(mm(on_front[7]), 925.0);
    // The hasty answer sets out the hem's 4800 or forgets the corners' gaps.
    assert_ne!(found.count, 4 + 4 * 9);
}

/// Motifs in corners come on top of those along the edges, and both are told.
#[test]
fn motifs_in_corners_are_counted_apart_from_those_along_the_edges() {
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let found = setting(&shawl(), &motifs, &bordered(Spacing::Count(32)));
    assert_eq!((found.count, found.in_corners), (36, 4));
    assert_eq!(found.count_in_words(), "36 (32 along the edges, 4 in the corners)");
    assert!(
        found.reasons[0].starts_with("32 along the edges and 4 in the corners, as asked, each"),
        "{:?}",
        found.reasons
    );
    let plain = setting(&shawl(), &motifs, &BandWish { rhythm: Rhythm::default(), ..bordered(Spacing::Count(32)) });
    assert_eq!((plain.count_in_words().as_str(), plain.in_corners), ("32", 0));
}

/// Made to fit, a motif in a corner takes up less too: a disc of 100 covers 141.42 / 2 of each side, and ten of 70 with eleven gaps of
/// 35 leave (1080 - 385) / (700 + 141.42) = 0.82598 of their size.
#[test]
fn motifs_in_corners_are_made_smaller_with_the_others() {
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let corner = CornerWish { motif: "rose".to_owned(), occupies: None };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let wish = BandWish { rhythm, ..bordered(Spacing::Fit { count: 40, gap: mm(35.0) }) };
    let found = setting(&shawl(), &motifs, &wish);
    assert!(found.placements.iter().all(|placed| (placed.scale - 0.825_98).abs() < 1e-4), "{:?}", found.placements[0]);
    near(found.gap_along, 35.0);
    let by_name = motifs.map(|motif| (motif.name.clone(), motif)).into_iter().collect();
    near(hemwright::place::gap_sum(&shawl(), &by_name, &wish, &found).unwrap().gap, 35.0);
}

/// Corners of the cloth stand 600 from the middle of each side, those of the line 540: where the corner motifs' squares meet the
/// edge is the corner itself, not one of the two feet beside it.
#[test]
fn corner_motifs_are_measured_to_the_corners_themselves() {
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let found = setting(&shawl(), &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    for (id, s_line, s_hem) in
        [("C1", 540.0, 600.0), ("C2", 1620.0, 1800.0), ("C3", -1620.0, -1800.0), ("C4", -540.0, -600.0)]
    {
        let placed = found.placements.iter().find(|placed| placed.id == id).unwrap();
        assert!((placed.s_line.get() - s_line).abs() < 1e-9 && (placed.s_hem.get() - s_hem).abs() < 1e-9, "{placed:?}");
    }
}

/// A disc of 140 in the corner of a line 40 above both sides reaches 30 over either; the short sides of 220 leave 22 between two
/// of them, which is no gap between motifs. Squares of 60 and 30 between them: (420 - 198 - 120) / 3 = 34.
#[test]
fn a_corner_motif_that_reaches_over_the_edge_is_told_by_how_much() {
    let cloth = hem(Measurements::Rectangle { width: mm(500.0), depth: mm(300.0) }, Ends::Closed, vec![]);
    let corner = CornerWish { motif: "rose".to_owned(), occupies: Some(mm(99.0)) };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let level = Level::LowerEdge;
    let wish = BandWish { on_cf: Anchor::Best, level, rhythm, ..band("tile", 10.0, Spacing::AtLeast(mm(30.0))) };
    let motifs = |rose: f64| [rectangle("tile", 60.0, 60.0), disc("rose", rose)];
    let told = |rose: f64| {
        let found = try_setting(&cloth, &motifs(rose), &wish).unwrap().findings;
        found.into_iter().find(|finding| finding.kind == "below-hem")
    };
    let over = told(140.0).unwrap();
    near(over.measure.unwrap(), 30.0);
    assert_eq!(over.say, "band 1: rose in the corners reaches 30.0 mm over the edge of the cloth.");
    assert_eq!(over.advice, "Raise the motif line 40.0 mm, or make rose smaller.");
    assert_eq!(
        told(70.0).unwrap().say,
        "band 1: rose in the corners comes within 5.0 mm of the edge; 10 mm was asked for."
    );
    assert_eq!(told(60.0), None);
    let found = setting(&cloth, &motifs(140.0), &wish);
    assert_eq!(found.count, 8);
    near(found.gap_along, 34.0);
    assert!(found.reasons[0].ends_with("34.0 mm between them"), "{:?}", found.reasons);
    let named = motifs(140.0).map(|motif| (motif.name.clone(), motif)).into();
    near(hemwright::place::gap_sum(&cloth, &named, &wish, &found).unwrap().gap, 34.0);
}

/// The same flower along the sides and in the corners, where its box, turned by half a right angle, takes (70 + 70) / (2 sqrt 2) =
/// 49.50 of each side: nine of 70 leave 1080 - 98.99 - 630 = 351.01 for ten gaps of 35.1. Forty are cut.
#[test]
fn one_motif_may_stand_along_the_sides_and_in_the_corners() {
    let corner = CornerWish { motif: "leaf".to_owned(), occupies: None };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let wish = BandWish { on_cf: Anchor::Best, rhythm, ..band("leaf", 60.0, Spacing::AtLeast(mm(35.0))) };
    let motifs = [disc("leaf", 70.0)];
    let found = setting(&shawl(), &motifs, &wish);
    assert_eq!((found.count, found.placements.iter().filter(|placed| placed.in_corner()).count()), (40, 4));
    near(found.gap_along, 35.1);
    let named = motifs.map(|motif| (motif.name.clone(), motif)).into();
    let sum = hemwright::place::gap_sum(&shawl(), &named, &wish, &found).unwrap();
    near(sum.gap, 35.1);
}

/// Worked by hand: on a cloth of 400 x 300 the motif line 30 above the edge runs 340 + 240 + 340 + 240 = 1160, and every second of 24 motifs
/// 20 wide is raised by 10. Between corners both lines run straight, so a raised motif covers its own 20 there, and the sum for
/// the papers leaves what the row says.
#[test]
fn a_raised_motif_covers_its_own_width_between_corners() {
    let cloth = hem(Measurements::Rectangle { width: mm(400.0), depth: mm(300.0) }, Ends::Closed, vec![]);
    let rhythm = Rhythm { wave: Some(mm(10.0)), ..Rhythm::default() };
    let wish = BandWish { rhythm, on_cf: Anchor::Best, ..band("tile", 30.0, Spacing::Count(24)) };
    let motif = rectangle("tile", 20.0, 15.0);
    let found = setting(&cloth, std::slice::from_ref(&motif), &wish);
    let sum = hemwright::place::gap_sum(&cloth, &BTreeMap::from([("tile".to_owned(), motif)]), &wish, &found).unwrap();
    near(sum.covers.0, 20.0);
    near(sum.covers.1, 20.0);
    assert!((sum.gap - found.gap_along).abs().get() < 0.05, "{} and {}", sum.gap, found.gap_along);
}

#[test]
fn a_motif_for_corners_that_are_not_there_is_refused() {
    let round = hem(Measurements::Cloth { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![]);
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)];
    let fault = try_setting(&round, &motifs, &bordered(Spacing::AtLeast(mm(35.0)))).unwrap_err();
    assert_eq!(fault, PlaceError::NoCorners { band: "band 1".to_owned(), motif: "rose".to_owned() });
}

/// On the card a count is what a job would ask for: the corners come on top.
#[test]
fn the_card_counts_what_lies_between_the_corners() {
    let motifs = [disc("leaf", 70.0), disc("rose", 100.0)].map(|motif| (motif.name.clone(), motif)).into();
    let card = card_of(&shawl(), &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    assert_eq!(card.rows.iter().map(|row| row.count).collect::<Vec<_>>(), [29, 30, 31, 32, 33, 34, 35]);
    assert_eq!(card.rows[card.recommended].count, 32);
    near(card.rows[card.recommended].gap_along, 40.0);
}

#[test]
fn a_corner_motif_stands_in_the_corner_and_faces_the_middle_of_the_cloth() {
    let motifs = [disc("leaf", 70.0), rectangle("rose", 90.0, 100.0)];
    let found = setting(&shawl(), &motifs, &bordered(Spacing::AtLeast(mm(35.0))));
    let c1 = found.placements.iter().find(|p| p.id == "C1").unwrap();
    // The corner of the line toward the wearer's left: 540 along, 60 up; upper end up and to the right of the wearer.
    assert!(c1.at.distance(Point::new(540.0, -60.0)) < 1e-9, "{:?}", c1.at);
    assert!((c1.turn.degrees() + 45.0).abs() < 1e-9, "{}", c1.turn.degrees());
    let l1 = found.placements.iter().find(|p| p.id == "L1").unwrap();
    assert!((l1.at.x - 55.0).abs() < 1e-9 && (l1.at.y + 60.0).abs() < 1e-9);
}

/// Each side: 1080 less 2 x 35 for half the motif's height round the corner, and n motifs of 70 with n - 1 gaps and two of 1 /
/// (2 cos 45) = 0.7071 at the corners: nine leave 380 / 9.4142, ten 310 / 10.4142 = 29.8.
#[test]
fn without_corner_motifs_the_sides_keep_clear_of_each_other() {
    let wish = BandWish { on_cf: Anchor::Best, ..band("leaf", 60.0, Spacing::AtLeast(mm(35.0))) };
    let found = setting(&shawl(), &[rectangle("leaf", 70.0, 70.0)], &wish);
    assert_eq!(found.count, 36);
    near(found.gap_along, 380.0 / (8.0 + 2.0_f64.sqrt()));
    near(found.clear_gap.unwrap().least, 380.0 / (8.0 + 2.0_f64.sqrt()));
}

/// A pentagon of sides 300: the line 40 in is 300 - 80 tan 36 = 241.88 a side; squares of 60 take 30 tan 36 = 21.80 at each end;
/// two leave (198.29 - 120) / (1 + 1 / cos 36) = 35.02. A whole gap on either side of corners would leave room for one.
#[test]
fn a_pentagon_takes_two_on_each_side_with_one_gap_round_its_corners() {
    let cloth = hem(Measurements::Polygon { sides: 5, side: mm(300.0) }, Ends::Closed, vec![]);
    let wish = BandWish { on_cf: Anchor::Best, ..band("tile", 40.0, Spacing::AtLeast(mm(30.0))) };
    let tile = rectangle("tile", 60.0, 60.0);
    let found = setting(&cloth, std::slice::from_ref(&tile), &wish);
    assert_eq!(found.count, 10);
    let angle = TAU / 10.0;
    let by_hand = (300.0 - 140.0 * angle.tan() - 120.0) / (1.0 + 1.0 / angle.cos());
    near(found.gap_along, by_hand);
    assert!((nearest(&found, &[tile]) - by_hand).abs() < 1e-6);
    assert!(found.reasons.iter().any(|reason| reason.contains("from the mitre line")), "{:?}", found.reasons);
}

/// By brute force over all pairs of motifs, whatever their form, the number of sides and the size of the cloth: never nearer than
/// asked; discs, which are alike on all sides, exactly one gap apart round a corner.
#[test]
fn outlines_keep_their_gap_round_every_corner() {
    let wedge = Ring::new([(-30.0, 20.0), (35.0, 20.0), (35.0, 5.0), (5.0, -35.0)].map(Point::from)).unwrap();
    let disc = Ring::new((0..24).map(|k| {
        let angle = TAU * f64::from(k) / 24.0;
        Point::new(25.0 * angle.cos(), 25.0 * angle.sin())
    }));
    let motifs = [motif("wedge", wedge), motif("disc", disc.unwrap()), rectangle("bar", 30.0, 80.0)];
    for sides in [3, 4, 5, 6, 8] {
        let cloth = hem(Measurements::Polygon { sides, side: mm(520.0) }, Ends::Closed, vec![]);
        for one in &motifs {
            let wish = BandWish { on_cf: Anchor::Best, ..band(&one.name, 60.0, Spacing::AtLeast(mm(25.0))) };
            let found = setting(&cloth, std::slice::from_ref(one), &wish);
            let least = nearest(&found, std::slice::from_ref(one));
            assert!(least >= 25.0 - 1e-6, "{} on {sides} sides: {least}", one.name);
            if one.name == "disc" {
                assert!((least - found.gap_along.get()).abs() < 0.2, "{sides} sides: {least} and {}", found.gap_along);
            }
        }
    }
}

/// A square of 150 leaves 70 a side 40 in: a tile of 60 needs 30 and 0.7071 x 30 more at each corner, 102.43; one of w needs 2 w
/// and 42.43, so 13.79 fit.
#[test]
fn sides_too_short_for_one_motif_say_what_fits() {
    let cloth = hem(Measurements::Rectangle { width: mm(150.0), depth: mm(150.0) }, Ends::Closed, vec![]);
    let wish = BandWish { on_cf: Anchor::Best, ..band("tile", 40.0, Spacing::AtLeast(mm(30.0))) };
    let told = try_setting(&cloth, &[rectangle("tile", 60.0, 60.0)], &wish).unwrap_err();
    assert_eq!(
        told.to_string(),
        "band 1: the longest side of 70 mm along the motif line cannot take one 60 mm tile beside its corners, which need 102.4 mm"
    );
    assert_eq!(told.hint(), "largest that fits: 13.7 mm (22 %)");
    assert_eq!(setting(&cloth, &[rectangle("tile", 13.7, 13.7)], &wish).count, 4);
}

/// Bars of 40 by 120 that stand upright on a cloth of 900 by 600, the line 60 + 20 in: along the sides of 740 eight leave (620 -
/// 320) / 8.414 = 35.65; along those of 440 they reach 120 and not 40, so that two would leave (320 - 80) / 2.414 - 80 = 19.4
/// between them and one stands alone.
#[test]
fn upright_motifs_keep_their_gap_along_every_side_of_a_cloth() {
    let cloth = hem(Measurements::Rectangle { width: mm(900.0), depth: mm(600.0) }, Ends::Closed, vec![]);
    let (level, stance) = (Level::LowerEdge, Stance::Upright);
    let wish = BandWish { on_cf: Anchor::Best, level, stance, ..band("bar", 20.0, Spacing::AtLeast(mm(30.0))) };
    let bar = rectangle("bar", 40.0, 120.0);
    let found = setting(&cloth, std::slice::from_ref(&bar), &wish);
    assert_eq!(found.count, 18);
    near(found.gap_along, 300.0 / (7.0 + 2.0_f64.sqrt()));
    assert!(nearest(&found, &[bar]) >= 30.0, "{}", found.gap_along);
}

/// Made smaller to fit, upright motifs keep their gap along slanting sides too, where what stands in the way is their height.
#[test]
fn upright_motifs_made_to_fit_keep_their_gap_by_true_outlines() {
    let cloth = hem(Measurements::Polygon { sides: 5, side: mm(500.0) }, Ends::Closed, vec![]);
    let (level, stance) = (Level::LowerEdge, Stance::Upright);
    let fit = Spacing::Fit { count: 20, gap: mm(25.0) };
    let wish = BandWish { on_cf: Anchor::Best, level, stance, ..band("bar", 20.0, fit) };
    let bar = rectangle("bar", 70.0, 90.0);
    let found = setting(&cloth, std::slice::from_ref(&bar), &wish);
    assert_eq!(found.count, 20);
    // By their width alone 20 of them would fit hardly smaller: (500 - 2 x 90 x tan 36) x 5 is more than 20 x 90.
    let scale = found.placements[0].scale;
    assert!(scale < 0.95 && found.placements.iter().all(|placed| (placed.scale - scale).abs() < 1e-9), "{scale}");
    assert!(nearest(&found, &[bar]) >= 25.0 - 0.05, "{} at {scale}", nearest(&found, &[rectangle("bar", 70.0, 90.0)]));
}

/// The shortest distance between any two motifs, by every pair of their edges.
fn nearest(found: &BandSetting, motifs: &[Motif]) -> f64 {
    let edges = |k: usize| -> Vec<(Point, Point)> {
        let placed = &found.placements[k];
        let motif = motifs.iter().find(|motif| motif.name == placed.motif).unwrap();
        let ring = motif.layers[0].outlines[0].outer();
        ring.edges().map(|(a, b)| (placed.transform() * a, placed.transform() * b)).collect()
    };
    let to_edge = |point: Point, (a, b): (Point, Point)| {
        let t = ((point - a).dot(b - a) / (b - a).hypot2()).clamp(0.0, 1.0);
        point.distance(a + (b - a) * t)
    };
    let all: Vec<Vec<(Point, Point)>> = (0..found.placements.len()).map(edges).collect();
    let mut least = f64::INFINITY;
    for (k, own) in all.iter().enumerate() {
        for edge in own {
            for other in all[k + 1..].iter().flatten() {
                least = least.min(to_edge(edge.0, *other)).min(to_edge(other.0, *edge));
            }
        }
    }
    least
}

#[test]
fn polygons_lose_twice_the_tangent_of_half_a_corner() {
    for sides in [3, 4, 5, 6, 8] {
        let hem = hem(Measurements::Polygon { sides, side: mm(500.0) }, Ends::Closed, vec![]);
        let line = hem.line_at(mm(40.0)).unwrap();
        let loss = 2.0 * 40.0 * (TAU / f64::from(sides) / 2.0).tan();
        assert!((line.length().get() - f64::from(sides) * (500.0 - loss)).abs() < 1e-9, "{sides} sides");
        assert_eq!(line.corners().len(), sides as usize);
        // Every place is 40 above its foot, corners by the bisector.
        let edge = hem.line_at(Mm::ZERO).unwrap();
        for k in 0..40 {
            let s = line.span().0 + line.length() * (f64::from(k) / 40.0 + 0.003);
            let foot = edge.frame_at(line.to_hem(s));
            assert!((line.frame_at(s).at.distance(foot.at) - 40.0).abs() < 1e-9, "{sides} sides, place {k}");
            assert!((line.from_hem(line.to_hem(s)).get() - s.get()).abs() < 1e-9);
        }
    }
}

/// Along a straight side both lines of a wave are equally long: a motif of 48 covers 48, and what is left of a step is the step
/// less 48. A row counted too wide would lose motifs that fit.
#[test]
fn a_wave_covers_no_more_of_a_straight_side() {
    let cloth = hem(Measurements::Rectangle { width: mm(1000.0), depth: mm(1000.0) }, Ends::Closed, vec![]);
    let rhythm = Rhythm { wave: Some(mm(20.0)), ..Rhythm::default() };
    let wish = |spacing| BandWish { rhythm: rhythm.clone(), on_cf: Anchor::Best, ..band("box", 60.0, spacing) };
    let boxes = [rectangle("box", 48.0, 30.0)];
    let least = |found: &BandSetting| {
        let steps = found.placements.windows(2).map(|pair| (pair[1].s_line - pair[0].s_line).get());
        steps.fold(f64::INFINITY, f64::min) - 48.0
    };
    let most = setting(&cloth, &boxes, &wish(Spacing::AtLeast(mm(36.0))));
    near(most.gap_along, least(&most));
    let more = setting(&cloth, &boxes, &wish(Spacing::Count(most.count + 1)));
    near(more.gap_along, least(&more));
    assert!(most.gap_along.get() >= 36.0 && more.gap_along.get() < 36.0, "{} and {}", most.gap_along, more.gap_along);
}

#[test]
fn a_line_beyond_the_middle_of_a_cloth_is_refused() {
    assert_eq!(
        shawl().line_at(mm(601.0)).unwrap_err().to_string(),
        "a line 601.0 mm above the edge leaves nothing of one side; up to 600.0 mm it does"
    );
    let two = HemWish {
        measurements: Measurements::Polygon { sides: 2, side: mm(500.0) },
        ends: Ends::Closed,
        seams: vec![],
        hung: vec![],
    };
    assert_eq!(shape(&two).unwrap_err(), HemError::Sides { sides: 2, most: 1000 });
}

/// Worked by hand: a motif of 40 x 60 that stands upright in the corners covers 20 of the sides it stands on and 30 of the upright ones,
/// so 30 of each; turned onto the bisector it would cover (40 + 60) / (2 sqrt 2) = 35.36. Sides of 1080 less 60 with leaves of 70: nine
/// leave 390 for ten gaps of 39.
#[test]
fn an_upright_corner_motif_takes_up_what_its_box_covers_as_it_stands() {
    let corner = CornerWish { motif: "post".to_owned(), occupies: None };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let spacing = Spacing::AtLeast(mm(35.0));
    let upright = BandWish { on_cf: Anchor::Best, rhythm, stance: Stance::Upright, ..band("leaf", 60.0, spacing) };
    let motifs = [disc("leaf", 70.0), rectangle("post", 40.0, 60.0)];
    near(setting(&shawl(), &motifs, &upright).gap_along, 39.0);
    let square = BandWish { stance: Stance::SquareToHem, ..upright };
    near(setting(&shawl(), &motifs, &square).gap_along, (1080.0 - 2.0 * 35.355 - 630.0) / 10.0);
}
