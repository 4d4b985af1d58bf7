//! Whole skirts worked by hand, each with the answer a hasty tool would give.

use super::*;
use hemwright::geometry::Rect;
use hemwright::hem::{Mark, Middle, PanelPart};
use hemwright::place::{Lands, RowOffset, Rows};

const CIRCLE: Measurements = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };

fn side_seams(keep_clear: f64) -> Vec<Seam> {
    [("side seam left", Mark::SideLeft), ("side seam right", Mark::SideRight)]
        .map(|(name, at)| Seam { name: name.to_owned(), at, keep_clear: mm(keep_clear) })
        .to_vec()
}

/// Worked by hand: a full circle over a waist of 720, length 700; motif 110 across, middle line 75 up, gap 40.
#[test]
fn a_full_circle_takes_thirty_with_the_side_seams_mid_gap() {
    let hem = hem(CIRCLE, Ends::Closed, side_seams(12.0));
    near(hem.length(), 5118.23);
    let line = hem.line_at(mm(75.0)).unwrap();
    near(line.length(), 4646.99);
    let band = setting(&hem, &[disc("poppy", 110.0)], &band("poppy", 75.0, Spacing::AtLeast(mm(40.0))));
    assert_eq!(band.count, 30);
    near(band.repeat, 154.90);
    near(band.gap_along, 44.90);
    assert_eq!((band.on_cf, band.on_cb), (Lands::Motif, Lands::Motif));
    assert!(band.clashes.is_empty());
    // Along the hem edge the same repeat is wider.
    let feet: Vec<f64> = band.placements.iter().map(|p| p.s_hem.get()).collect();
    near(mm(feet[15] - feet[14]), 170.61);
    // Side seams at 7.5 repeats: 22.45 from the nearest edge.
    near(line.from_hem(hem.place_of(Mark::SideLeft).unwrap()), 1161.75);
    assert!(band.reasons.iter().any(|why| why.contains("22.4") || why.contains("22.5")), "{:?}", band.reasons);
    // A round motif keeps the chord: 154.62 - 110.
    near(band.clear_gap.unwrap().least, 44.62);
    // The hasty answer divides the hem by 150.
    assert_ne!(band.count, 34);
}

/// Worked by hand: the same with square corners, which lean together to 33.72.
#[test]
fn square_corners_on_a_full_circle_are_warned_of() {
    let hem = hem(CIRCLE, Ends::Closed, vec![]);
    let wish = band("tile", 75.0, Spacing::AtLeast(mm(40.0)));
    let found = try_setting(&hem, &[rectangle("tile", 110.0, 110.0)], &wish).unwrap();
    let gap = found.bands[0].clear_gap.clone().unwrap();
    near(gap.least, 33.72);
    assert!((gap.at.0.distance(gap.at.1) - gap.least.get()).abs() < 1e-9);
    // The nearest points are upper corners, 686.80 from the circle's middle at (0, -814.59).
    for corner in [gap.at.0, gap.at.1] {
        near(mm(corner.distance(Point::new(0.0, -814.59))), 686.80);
    }
    let warning = found.findings.iter().find(|finding| finding.kind == "square-corners").expect("must warn");
    near(warning.measure.unwrap(), 33.72);
    assert!(warning.say.contains("33.7 mm") && warning.say.contains("40 mm"), "{}", warning.say);
    // Discs keep 44.62 and need no warning.
    let wish = BandWish { motifs: vec!["poppy".to_owned()], ..wish };
    assert_eq!(try_setting(&hem, &[disc("poppy", 110.0)], &wish).unwrap().findings, []);
}

/// Worked by hand: an ellipse of half axes 640 and 560 as the motif line; motif 120, gap 60.
#[test]
fn an_oval_hem_takes_twenty_with_equal_repeats() {
    let hem = hem(Measurements::Ellipse { front_back: mm(640.0), side_side: mm(560.0) }, Ends::Closed, vec![]);
    near(hem.length(), 3774.10);
    let band = setting(&hem, &[disc("rose", 120.0)], &band("rose", 0.0, Spacing::AtLeast(mm(60.0))));
    assert_eq!(band.count, 20);
    near(band.repeat, 188.71);
    near(band.gap_along, 68.71);
    let steps: Vec<f64> = band.placements.windows(2).map(|p| p[1].s_line.get() - p[0].s_line.get()).collect();
    let (least, greatest) = (steps.iter().copied().fold(f64::MAX, f64::min), steps.iter().copied().fold(0.0, f64::max));
    assert!(greatest - least < 1e-6, "repeats {least} to {greatest}");
    // Five repeats to the quarter: on CF, both sides, CB.
    near(hem.place_of(Mark::SideLeft).unwrap(), 943.53);
    near(hem.place_of(Mark::SideLeft).unwrap(), 5.0 * band.repeat.get());
    assert_eq!((band.on_cf, band.on_cb), (Lands::Motif, Lands::Motif));
    assert!(band.placements.iter().any(|p| (p.s_line.get() - 943.53).abs() < HAND));
    // Fold test: the front quarter is as long as the back quarter.
    near(hem.length() / 2.0 - hem.place_of(Mark::SideLeft).unwrap(), 943.53);
}

/// Worked by hand: equal steps of the ellipse's parameter give repeats of 176.8 to 200.3; ours differ from them.
#[test]
fn equal_steps_of_the_ellipse_parameter_would_break_the_gap() {
    let hem = hem(Measurements::Ellipse { front_back: mm(640.0), side_side: mm(560.0) }, Ends::Closed, vec![]);
    let band = setting(&hem, &[disc("rose", 120.0)], &band("rose", 0.0, Spacing::Count(20)));
    for placed in &band.placements {
        // On the ellipse exactly.
        let (x, y) = (placed.at.x / 560.0, (placed.at.y + 640.0) / 640.0);
        assert!((x.hypot(y) - 1.0).abs() < 1e-9);
    }
    let l1 = band.placements.iter().find(|p| p.id == "L1").unwrap();
    let wrong = (TAU / 20.0).sin() * 560.0;
    assert!((l1.at.x - wrong).abs() > 5.0, "L1 at {} against the hasty {wrong}", l1.at.x);
}

/// Worked by hand: six panels 130 to 700 over 900, motif 90, line 80 up, gap 30, 12 clear of seams.
#[test]
fn six_gores_take_thirty_and_not_thirty_one_or_thirty_two() {
    let gores = six_gores();
    let hem = hem(gores, Ends::Closed, vec![]);
    assert!((hem.sweep().get() - 3.8).abs() < 1e-12);
    let line = hem.line_at(mm(80.0)).unwrap();
    near(line.length(), 3896.0);
    near(line.length() / 6.0, 649.33);
    let motifs = [disc("daisy", 90.0)];
    let wish = band("daisy", 80.0, Spacing::AtLeast(mm(30.0)));
    let found = setting(&hem, &motifs, &wish);
    assert_eq!(found.count, 30);
    near(found.repeat, 129.87);
    near(found.gap_along, 39.87);
    assert_eq!(found.clashes, []);
    let why = found.reasons.join("\n");
    assert!(why.contains("32") && why.contains("31") && why.contains("45.0 mm across"), "{why}");
    assert!(why.contains("19.9 mm"), "{why}");
    // By gap alone 32 would go in: 31.75 between them, and seams at -4.42, -45, -4.42 twice over.
    let motifs = BTreeMap::from([("daisy".to_owned(), disc("daisy", 90.0))]);
    let card = card_of(&hem, &motifs, &wish);
    let of = |count: u32| card.rows.iter().find(|row| row.count == count).unwrap();
    let by_gap = of(32);
    near(by_gap.gap_along, 31.75);
    let mut clear: Vec<f64> = by_gap.clashes.iter().map(|clash| clash.clear.get()).collect();
    clear.sort_by(f64::total_cmp);
    assert_eq!(clear.iter().filter(|c| (**c + 45.0).abs() < HAND).count(), 2, "{clear:?}");
    assert_eq!(clear.iter().filter(|c| (**c + 4.42).abs() < HAND).count(), 4, "{clear:?}");
    let worst = of(31).clashes.iter().map(|clash| clash.clear.get()).fold(f64::MAX, f64::min);
    near(mm(worst), -34.5);
}

fn cape() -> Hem {
    let ends = Ends::Open { keep_clear: mm(30.0), middle: Middle::CentreBack };
    hem(Measurements::Circle { fraction: 0.5, waist: mm(400.0), length: mm(800.0) }, ends, vec![])
}

/// Worked by hand: a half-circle cape over a neck of 400, length 800; motif 140, line 50 up, gap 50, 30 clear at the fronts.
#[test]
fn a_cape_takes_fourteen_with_a_gap_on_centre_back() {
    let hem = cape();
    near(hem.length(), 2913.27);
    let line = hem.line_at(mm(50.0)).unwrap();
    near(line.length(), 2756.19);
    let wish = BandWish { on_cf: Anchor::Best, ..band("leaf", 50.0, Spacing::AtLeast(mm(50.0))) };
    let found = setting(&hem, &[disc("leaf", 140.0)], &wish);
    assert_eq!(found.count, 14);
    near(found.gap_along, 56.63);
    near(found.repeat, 196.63);
    let from_end: Vec<f64> = found.placements.iter().map(|p| p.s_line.get() + line.length().get() / 2.0).collect();
    near(mm(from_end[0]), 100.0);
    near(mm(from_end[6]), 1279.78);
    near(mm(from_end[7]), 1476.41);
    assert_eq!((found.on_cf, found.on_cb), (Lands::Between, Lands::Gap));
    // The hasty answer forgets that fourteen motifs have thirteen gaps.
    assert!((found.gap_along.get() - (2696.19 - 14.0 * 140.0) / 14.0).abs() > 3.0);
}

#[test]
fn a_motif_on_centre_back_of_the_cape_makes_it_thirteen() {
    let found = setting(&cape(), &[disc("leaf", 140.0)], &band("leaf", 50.0, Spacing::AtLeast(mm(50.0))));
    assert_eq!(found.count, 13);
    near(found.gap_along, 73.02);
    assert_eq!(found.on_cb, Lands::Motif);
    let ids: Vec<&str> = found.placements.iter().map(|p| p.id.as_str()).collect();
    // Seen from behind, her left lies to the left, where s is least.
    assert_eq!(ids, ["L6", "L5", "L4", "L3", "L2", "L1", "CB", "R1", "R2", "R3", "R4", "R5", "R6"]);
}

/// Worked by hand: a visible line of 2400 with 40 lying under; motif 80, gap 40, 10 clear of the closing edge.
#[test]
fn an_opening_gets_the_middle_of_a_gap_and_the_underlap_stays_bare() {
    let measured = Measurements::Straight { length: mm(2400.0) };
    let ends = Ends::Opening { at: Mark::CentreBack, underlap: mm(40.0), keep_clear: mm(10.0) };
    let hem = hem(measured, ends, vec![]);
    near(hem.length(), 2400.0);
    let wish = BandWish { on_cf: Anchor::Best, ..band("bud", 30.0, Spacing::AtLeast(mm(40.0))) };
    let found = setting(&hem, &[disc("bud", 80.0)], &wish);
    assert_eq!(found.count, 20);
    near(found.repeat, 120.0);
    near(found.gap_along, 40.0);
    assert_eq!(found.clashes, []);
    let from_edge: Vec<f64> = found.placements.iter().map(|p| p.s_line.get() + 1200.0).collect();
    near(mm(from_edge[0]), 60.0);
    near(mm(from_edge[19]), 2340.0);
    // 20 clear on both sides of the closing edge; the hasty 2440 would hide 19 of the last motif.
    near(mm(2400.0 - from_edge[19] - 40.0), 20.0);
    assert!((found.repeat.get() - 122.0).abs() > 1.0);
    assert!(found.placements.iter().all(|p| p.s_line.get() + 40.0 <= 1200.0));
}

/// A motif on CF and an opening on CB want an odd count: worked by hand, 19.
#[test]
fn a_motif_on_centre_front_with_an_opening_behind_gives_one_up() {
    let ends = Ends::Opening { at: Mark::CentreBack, underlap: mm(40.0), keep_clear: mm(10.0) };
    let hem = hem(Measurements::Straight { length: mm(2400.0) }, ends, vec![]);
    let found = setting(&hem, &[disc("bud", 80.0)], &band("bud", 30.0, Spacing::AtLeast(mm(40.0))));
    assert_eq!((found.count, found.on_cf, found.on_cb), (19, Lands::Motif, Lands::Gap));
    let why = found.reasons.join("\n");
    assert!(why.contains("20 puts a motif 40.0 mm across opening"), "{why}");
}

/// Worked by hand: waists of 660, 720 and 780 under the same skirt.
#[test]
fn three_sizes_take_thirty_thirty_and_thirty_one_by_the_gap_alone() {
    let motifs = [disc("poppy", 110.0)];
    let wish = band("poppy", 75.0, Spacing::AtLeast(mm(40.0)));
    let sizes = [(660.0, 4586.99, 30, 42.90), (720.0, 4646.99, 30, 44.90), (780.0, 4706.99, 31, 46.90)];
    for (waist, line, count, gap_of_thirty) in sizes {
        let measured = Measurements::Circle { fraction: 1.0, waist: mm(waist), length: mm(700.0) };
        let plain = hem(measured.clone(), Ends::Closed, vec![]);
        near(plain.line_at(mm(75.0)).unwrap().length(), line);
        assert_eq!(setting(&plain, &motifs, &wish).count, count);
        let thirty = BandWish { spacing: Spacing::Count(30), ..wish.clone() };
        near(setting(&plain, &motifs, &thirty).gap_along, gap_of_thirty);
        // With side seams to keep clear, 31 would move them out of the gaps: 30 is taken and the reason given.
        let seamed = setting(&hem(measured, Ends::Closed, side_seams(12.0)), &motifs, &wish);
        assert_eq!((seamed.count, seamed.clashes.len()), (30, 0));
        assert_eq!(seamed.reasons.iter().any(|why| why.starts_with("31 puts a motif")), count == 31);
    }
}

/// Worked by hand: line exactly 150 with 110 + 40, and 4500 with the same.
#[test]
fn a_line_that_fits_exactly_loses_no_motif() {
    for (line, count) in [(150.0, 1), (4500.0, 30)] {
        let hem = hem(Measurements::Straight { length: mm(line) }, Ends::Closed, vec![]);
        let found = setting(&hem, &[disc("poppy", 110.0)], &band("poppy", 60.0, Spacing::AtLeast(mm(40.0))));
        assert_eq!(found.count, count);
        near(found.gap_along, 40.0);
    }
}

#[test]
fn the_counts_card_recommends_what_is_set_out() {
    let hem = hem(CIRCLE, Ends::Closed, side_seams(12.0));
    let motifs = BTreeMap::from([("poppy".to_owned(), disc("poppy", 110.0))]);
    let card = card_of(&hem, &motifs, &band("poppy", 75.0, Spacing::AtLeast(mm(40.0))));
    let counted: Vec<u32> = card.rows.iter().map(|row| row.count).collect();
    assert_eq!(counted, [27, 28, 29, 30, 31, 32, 33]);
    assert_eq!(card.rows[card.recommended].count, 30);
    // 28 = 4k puts a motif on both side seams; 30 = 4k + 2 a gap.
    assert_eq!(card.rows[1].clashes.len(), 2);
    near(card.rows[1].clashes[0].clear, -55.0);
    assert!(card.rows[3].clashes.is_empty());
    assert!(card.rows[3].too_small.is_none() && card.rows[4].too_small.is_some());
}

#[test]
fn the_clear_gap_holds_across_the_join_of_a_gored_ring() {
    let gores = Measurements::Gores {
        panels: 4,
        top: mm(200.0),
        hem: mm(500.0),
        side: mm(800.0),
        on_middle: PanelPart::Middle,
        keep_clear: None,
    };
    let hem = hem(gores, Ends::Closed, vec![]);
    let tile = motif("tile", Ring::rectangle(Rect::new(-40.0, -40.0, 40.0, 40.0)).unwrap());
    let found = setting(&hem, &[tile], &band("tile", 60.0, Spacing::Count(2)));
    // CF and CB stand half the ring apart both ways; laid flat, the ring is an open arc and CB lies at one end.
    let flat = found.placements[0].at.distance(found.placements[1].at);
    let gap = found.clear_gap.unwrap();
    assert!(gap.least.get() < flat - 80.0 + 1e-6);
    let radius = 2000.0 / 1.5 - 60.0;
    let angle = 1.5 / 4.0;
    let corner = Point::new(40.0, radius + 40.0);
    let lean = corner.x.atan2(corner.y);
    // The nearest corners of two upright squares on an arc are the upper ones.
    let upper = Point::new(40.0, radius - 40.0);
    let expect = 2.0 * upper.to_vec2().hypot() * (angle - upper.x.atan2(upper.y)).sin();
    assert!(lean < angle && (gap.least.get() - expect).abs() < 1e-6, "{} against {expect}", gap.least);
}

/// Worked by hand: side seams of a straight ring of 2374 lie at 593.5, and 38 motifs stand 2374 / 38 = 62.47 apart. With a gap on
/// CF one stands at 9.5 steps, 593.5, square on each seam; with a motif on CF the nearest stand half a step off, 31.24 less half
/// their width of 40: 11.24, less than the 12 asked for and far better. A card shows it, since it compares even rows.
#[test]
fn four_motifs_a_little_near_seams_are_better_than_two_across_them() {
    let ring = hem(Measurements::Straight { length: mm(2374.0) }, Ends::Closed, side_seams(12.0));
    let wish = BandWish { on_cf: Anchor::Best, ..band("box", 60.0, Spacing::Count(37)) };
    let motifs = BTreeMap::from([("box".to_owned(), rectangle("box", 40.0, 60.0))]);
    let card = card_of(&ring, &motifs, &wish);
    let found = card.rows.iter().find(|row| row.count == 38).unwrap();
    assert_eq!(found.on_cf, Lands::Motif);
    assert_eq!(found.clashes.len(), 4);
    found.clashes.iter().for_each(|clash| near(clash.clear, 11.24));
}

/// Worked by hand: lines of radius 574.59 and 424.59 are 3610.3 and 2667.8 long. Of motifs 60 wide the first takes 36 with 40
/// between them, the second 26: 2667.8 / 26 - 60 = 42.6, and 27 would leave 38.8.
#[test]
fn the_card_counts_the_tightest_row_and_says_so() {
    let rows = Rows { count: 2, rise: mm(150.0), offset: RowOffset::None };
    let rhythm = Rhythm { rows, ..Rhythm::default() };
    let skirt = hem(Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(500.0) }, Ends::Closed, vec![]);
    let motifs = BTreeMap::from([("box".to_owned(), rectangle("box", 60.0, 40.0))]);
    let wish = BandWish { rhythm, on_cf: Anchor::Best, ..band("box", 40.0, Spacing::AtLeast(mm(40.0))) };
    let card = card_of(&skirt, &motifs, &wish);
    assert_eq!(card.rows[card.recommended].count, 26);
    for row in &card.rows {
        // The gap that is too small is that of the second row, and told as its own.
        let tight = row.too_small.map(|tight| (tight.number, tight.wanted));
        assert_eq!(tight, (row.count > 26).then_some((Some(2), mm(40.0))), "{}", row.count);
        row.too_small.iter().for_each(|tight| near(tight.gap, 2667.8 / f64::from(row.count) - 60.0));
    }
    let reason = &card.reasons[0];
    assert!(reason.contains("in every row") && reason.contains("42.6 mm in row 2"), "{reason}");
}
