//! Stretches between seams and places to keep out of, each set out on its own. Figures worked by hand.

use super::*;
use hemwright::geometry::Outline;
use hemwright::geometry::clearance::Measurable;
use hemwright::hem::{Mark, Middle};
use hemwright::place::{Evenness, KeepOut, Lands, Order, Placement, RowOffset, Rows};

fn straight(length: f64, seams: &[f64]) -> Hem {
    let seam = |s: &f64| Seam { name: format!("seam {s}"), at: Mark::At(mm(*s)), keep_clear: mm(10.0) };
    hem(Measurements::Straight { length: mm(length) }, Ends::Closed, seams.iter().map(seam).collect())
}

/// A place to keep out of, all the way up, with 10 kept clear.
fn out_of(from: f64, to: f64) -> KeepOut {
    KeepOut {
        name: "monogram".to_owned(),
        along: (mm(from), mm(to)),
        heights: (Mm::ZERO, None),
        clear: mm(10.0),
        line: None,
    }
}

fn apart(motifs: &[&str], spacing: Spacing) -> BandWish {
    BandWish {
        motifs: motifs.iter().map(|m| (*m).to_owned()).collect(),
        on_cf: Anchor::Best,
        rhythm: Rhythm { evenness: Evenness::BetweenSeams, ..Rhythm::default() },
        ..band("wide", 40.0, spacing)
    }
}

fn width(placed: &Placement) -> f64 {
    let drawn = match placed.motif.as_str() {
        "wide" => 100.0,
        "slim" => 20.0,
        _ => 60.0,
    };
    drawn * placed.scale
}

fn wide_and_slim() -> [Motif; 2] {
    [rectangle("wide", 100.0, 40.0), rectangle("slim", 20.0, 40.0)]
}

/// Gaps along the line between neighbours, in order.
fn gaps(band: &BandSetting) -> Vec<f64> {
    let gap = |pair: &[Placement]| (pair[1].s_line - pair[0].s_line).get() - (width(&pair[0]) + width(&pair[1])) / 2.0;
    band.placements.windows(2).map(gap).collect()
}

/// Two stretches of 500 of a ring of 1000, seams on CF and CB, wide of 100 and slim of 20 by turns. From CF to the wearer's left
/// wide, slim, wide, slim, wide, slim: 360 and five gaps and half a gap at either end, 140 / 6 = 23.33; the wearer's right ends
/// with slim beside CF and has the same. As wide as the widest each, four would fit: 500 / 120 = 4.2.
#[test]
fn gaps_and_not_middles_are_even_in_a_stretch() {
    let ring = straight(1000.0, &[0.0, 500.0]);
    let found = setting(&ring, &wide_and_slim(), &apart(&["wide", "slim"], Spacing::AtLeast(mm(20.0))));
    assert_eq!(found.count, 12, "{:?}", found.reasons);
    let all: Vec<f64> = gaps(&found);
    assert!(all.iter().all(|gap| (gap - 140.0 / 6.0).abs() < 1e-6), "{all:?}");
    // Beside the seam on CF the edge of what stands there is half a gap away, whatever its width.
    let beside = |sign: f64| {
        let edges = found.placements.iter().map(|placed| placed.s_line.get() * sign - width(placed) / 2.0);
        edges.filter(|edge| *edge > 0.0).fold(f64::MAX, f64::min)
    };
    assert!((beside(1.0) - 70.0 / 6.0).abs() < 1e-6 && (beside(-1.0) - 70.0 / 6.0).abs() < 1e-6);
    assert!(found.clashes.is_empty());
}

/// An open hem of 1000 with 10 clear at its ends and a place from 0 to 100 to keep out of: from -490 to -10 are 480, from 110 to
/// 490 are 380. From the right-hand end wide, slim, wide, slim, wide, slim fill 360 and leave 120 / 5 = 24; wide, slim, wide,
/// slim, wide are 340 and leave 40 / 4 = 10, too little for 20, so four of 240 stand there with 140 / 3 = 46.67.
#[test]
fn beside_a_place_each_motif_keeps_its_own_distance() {
    let ends = Ends::Open { keep_clear: mm(10.0), middle: Middle::CentreFront };
    let hem = hem(Measurements::Straight { length: mm(1000.0) }, ends, vec![]);
    let rhythm = Rhythm::default();
    let wish = apart(&["wide", "slim"], Spacing::AtLeast(mm(20.0)));
    let wish = BandWish { rhythm, keep_out: vec![out_of(0.0, 100.0)], ..wish };
    let found = setting(&hem, &wide_and_slim(), &wish);
    assert_eq!(found.count, 10, "{:?}", found.reasons);
    let found_gaps = gaps(&found);
    for gap in &found_gaps[..5] {
        assert!((gap - 24.0).abs() < 1e-6, "{found_gaps:?}");
    }
    for gap in &found_gaps[6..] {
        assert!((gap - 140.0 / 3.0).abs() < 1e-6, "{found_gaps:?}");
    }
    let edge = |k: usize, sign: f64| found.placements[k].s_line.get() + sign * width(&found.placements[k]) / 2.0;
    assert!((edge(0, -1.0) + 490.0).abs() < 1e-6 && (edge(5, 1.0) + 10.0).abs() < 1e-6);
    assert!((edge(6, -1.0) - 110.0).abs() < 1e-6 && (edge(9, 1.0) - 490.0).abs() < 1e-6);
}

/// A mirrored order stays mirrored: seams on both sides of a ring of 1200, the stretch over CF and the one over CB alike.
#[test]
fn a_mirrored_order_stays_mirrored_about_cf_and_cb() {
    let ring = straight(1200.0, &[-300.0, 300.0]);
    for (on_cf, lands) in [(Anchor::Motif, Lands::Motif), (Anchor::Gap, Lands::Gap)] {
        let wish = apart(&["wide", "slim"], Spacing::AtLeast(mm(20.0)));
        let rhythm = Rhythm { order: Order::MirroredAboutMiddle, ..wish.rhythm.clone() };
        let found = setting(&ring, &wide_and_slim(), &BandWish { rhythm, on_cf, ..wish });
        assert_eq!(found.on_cf, lands);
        let by_id: BTreeMap<&str, &Placement> = found.placements.iter().map(|p| (p.id.as_str(), p)).collect();
        let mut pairs = 0;
        for left in found.placements.iter().filter(|p| p.id.starts_with('L')) {
            let right = by_id[left.id.replace('L', "R").as_str()];
            assert_eq!(left.motif, right.motif, "{} with {on_cf:?}", left.id);
            assert!((left.s_line + right.s_line).abs().get() < 1e-9);
            pairs += 1;
        }
        assert!(pairs > 3 && found.clashes.is_empty(), "{found:?}");
    }
}

/// True distance between two placements, by the clearance of their placed outlines.
fn clear(motif: &Motif, a: &Placement, b: &Placement) -> f64 {
    let placed = |p: &Placement| -> Vec<Outline> {
        motif.layers[0].outlines.iter().map(|outline| outline.transformed(p.transform())).collect()
    };
    Measurable::new(&placed(a)).unwrap().clearance_to(&Measurable::new(&placed(b)).unwrap()).distance
}

/// An oval curves most at its front and back: beside a pocket equal steps leave unequal clear gaps, equal clear gaps are equal
/// by measuring the placed outlines, and none is less than asked.
#[test]
fn beside_a_pocket_clear_gaps_are_equal_where_that_is_asked() {
    let oval = Measurements::Ellipse { front_back: mm(500.0), side_side: mm(260.0) };
    let hem = hem(oval, Ends::Closed, vec![]);
    let tile = rectangle("tile", 60.0, 80.0);
    let all = |evenness, spacing| -> (Vec<f64>, BandSetting) {
        let rhythm = Rhythm { evenness, ..Rhythm::default() };
        let wish = BandWish {
            rhythm,
            on_cf: Anchor::Best,
            keep_out: vec![out_of(300.0, 560.0)],
            ..band("tile", 60.0, spacing)
        };
        let found = setting(&hem, std::slice::from_ref(&tile), &wish);
        assert!(found.clashes.is_empty(), "{:?}", found.clashes);
        let (before, after): (Vec<_>, Vec<_>) = found.placements.iter().partition(|placed| placed.s_hem < mm(430.0));
        // From the pocket round CB to it again: what lies after it comes first.
        let round: Vec<&Placement> = after.into_iter().chain(before).collect();
        (round.windows(2).map(|pair| clear(&tile, pair[0], pair[1])).collect(), found)
    };
    let spread =
        |gaps: &[f64]| gaps.iter().copied().fold(0.0, f64::max) - gaps.iter().copied().fold(f64::MAX, f64::min);
    let by_step = all(Evenness::Gap, Spacing::Count(14)).0;
    assert!(spread(&by_step) > 3.0, "{by_step:?}");
    let (by_clear, _) = all(Evenness::ClearGap, Spacing::Count(14));
    assert!(spread(&by_clear) < 0.02, "{by_clear:?}");
    let (wide, found) = all(Evenness::ClearGap, Spacing::AtLeast(mm(30.0)));
    assert!(wide.iter().all(|gap| *gap >= 30.0 - 0.011) && spread(&wide) < 0.02, "{wide:?}");
    assert!(
        found.reasons[0].contains("with at least 30 mm between true outlines, equal within each"),
        "{:?}",
        found.reasons
    );
    // One more would leave less.
    let (more, _) = all(Evenness::ClearGap, Spacing::Count(found.count + 1));
    assert!(more.iter().any(|gap| *gap < 30.0), "{more:?}");
}

/// Of 1000 round a ring a place of 200 and 10 on either side of it leave 780: twelve motifs and eleven gaps of 30 fill them at
/// (780 - 330) / 12 = 37.5.
#[test]
fn so_many_with_a_gap_are_made_to_fit_beside_a_place_to_keep_out_of() {
    let tile = [rectangle("tile", 60.0, 50.0)];
    let wish = |count, gap| BandWish {
        on_cf: Anchor::Best,
        keep_out: vec![out_of(-100.0, 100.0)],
        ..band("tile", 40.0, Spacing::Fit { count, gap: mm(gap) })
    };
    let ring = straight(1000.0, &[]);
    let found = setting(&ring, &tile, &wish(12, 30.0));
    assert_eq!((found.count, found.clashes.len()), (12, 0));
    assert!((found.placements[0].scale * 60.0 - 37.5).abs() < 1e-4, "{}", found.placements[0].scale * 60.0);
    near(found.gap_along, 30.0);
    assert!(
        found
            .reasons
            .iter()
            .any(|why| why.contains("37.5 % smaller than drawn, so that 12 fit beside monogram with at least 30 mm")),
        "{:?}",
        found.reasons
    );
    // Eight of 60 and seven gaps of 30 are 690: they fit as drawn.
    let drawn = setting(&ring, &tile, &wish(8, 30.0));
    assert!((drawn.placements[0].scale - 1.0).abs() < 1e-12 && drawn.clashes.is_empty());
    assert!(drawn.gap_along >= mm(30.0));
    // 27 have 26 gaps of 30, the whole 780; of motifs of 60 nine fit: 540 + 240 = 780.
    let refused = try_setting(&ring, &tile, &wish(27, 30.0)).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "band 1: 27 motifs with 30 mm between them leave nothing of the line's 1000 mm, of which some must stay clear, for the \
         motifs"
    );
    assert_eq!(refused.hint(), "ask for at most 9, which fit as they are drawn, or for a smaller gap between 27");
    // Without the place 34 gaps are more than the line.
    let plain = BandWish { keep_out: vec![], ..wish(34, 30.0) };
    let refused = try_setting(&ring, &tile, &plain).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "band 1: 34 motifs with 30 mm between them leave nothing of the line's 1000 mm for the motifs"
    );
    assert_eq!(refused.hint(), "ask for at most 11, which fit as they are drawn, or for a smaller gap between 34");
}

/// Asked between seams, a count with a gap keeps that gap in every stretch: of 1000 with two seams 500 each, six motifs of 60 and
/// six gaps of 30 are 540; at (500 - 180) / 6 = 53.33 they fit.
#[test]
fn so_many_with_a_gap_keep_it_between_seams() {
    let ring = straight(1000.0, &[-250.0, 250.0]);
    let found = setting(
        &ring,
        &[rectangle("tile", 60.0, 50.0)],
        &BandWish { motifs: vec!["tile".to_owned()], ..apart(&[], Spacing::Fit { count: 12, gap: mm(30.0) }) },
    );
    assert!((found.placements[0].scale * 60.0 - 320.0 / 6.0).abs() < 1e-4, "{}", found.placements[0].scale * 60.0);
    near(found.gap_along, 30.0);
}

/// A ring of 1000 with pockets that leave 380 and 100 to set out: five of 60 with 20 between them and one.
fn half_offset(rise: f64) -> Vec<BandSetting> {
    let rows = Rows { count: 3, rise: mm(rise), offset: RowOffset::HalfRepeat };
    let wish = BandWish {
        on_cf: Anchor::Best,
        rhythm: Rhythm { rows, ..Rhythm::default() },
        keep_out: vec![out_of(200.0, 390.0), KeepOut { name: "pocket".to_owned(), ..out_of(510.0, 790.0) }],
        ..band("tile", 40.0, Spacing::AtLeast(mm(20.0)))
    };
    try_setting(&straight(1000.0, &[]), &[rectangle("tile", 60.0, 50.0)], &wish).unwrap().bands
}

/// From 800 round CF to 190 are 390: (390 + 20) / 80 = 5.1, so five; from 400 to 500 one. Above gaps come four, and above the only
/// one of the short stretch one right above it where the rows are far enough apart: 60 of rise less 50 of height are the 10 that
/// rows keep. Nearer than that it stays bare, which is said.
#[test]
fn rows_half_a_repeat_along_say_what_they_have_in_short_stretches() {
    let apart = half_offset(60.0);
    assert_eq!(apart.iter().map(|row| row.count).collect::<Vec<_>>(), [6, 5, 6]);
    let short = |row: &BandSetting| {
        let there = row.placements.iter().filter(|placed| placed.s_line > mm(390.0) && placed.s_line < mm(510.0));
        there.map(|placed| placed.s_line.get()).collect::<Vec<_>>()
    };
    for row in &apart {
        assert_eq!(short(row).len(), 1);
        assert!((short(row)[0] - 450.0).abs() < 1e-9);
    }
    assert!(
        apart[1].reasons[0].starts_with(
            "5, in each stretch one fewer than in the first row, each above a gap of it, where a stretch of the first row has only one, \
             one right above it: 22.5 mm between them;"
        ),
        "{:?}",
        apart[1].reasons
    );
    assert!(
        apart[2].reasons[0].starts_with("6, in each stretch as many as in the first row, each above a motif of it:"),
        "{:?}",
        apart[2].reasons
    );
    let near = half_offset(59.0);
    assert_eq!(near.iter().map(|row| row.count).collect::<Vec<_>>(), [6, 4, 6]);
    assert!(short(&near[1]).is_empty());
    assert!(
        near[1].reasons[0]
            .contains("1 stretch, where the first row has only one, left bare, since the rows are too near"),
        "{:?}",
        near[1].reasons
    );
}

/// A pocket that only the upper row reaches: it has a stretch of its own there, and fills it, above gaps or not.
#[test]
fn a_stretch_that_only_an_upper_row_has_is_filled() {
    for offset in [RowOffset::None, RowOffset::HalfRepeat] {
        let wish = BandWish {
            on_cf: Anchor::Best,
            rhythm: Rhythm { rows: Rows { count: 2, rise: mm(80.0), offset }, ..Rhythm::default() },
            keep_out: vec![KeepOut { heights: (mm(90.0), None), ..out_of(100.0, 350.0) }],
            ..band("tile", 40.0, Spacing::AtLeast(mm(20.0)))
        };
        let found = try_setting(&straight(1000.0, &[]), &[rectangle("tile", 60.0, 50.0)], &wish).unwrap().bands;
        // 730: nine with 23.75 between them, as in a row of its own.
        assert_eq!((found[0].count, found[1].count), (12, 9), "{offset:?}");
        assert!(
            found[1].reasons[0].starts_with(
                "9, 3 fewer than the first row's 12, since no more leave 20 mm there, set out from one side of monogram round to the other: 23.8 mm between them;"
            ),
            "{:?}",
            found[1].reasons
        );
    }
}

/// What the stretches gave up is not said to be done.
#[test]
fn a_shift_that_stretches_give_up_is_said_to_be_given_up() {
    let shifted = |keep_out| {
        let rhythm = Rhythm { shift: mm(7.0), ..Rhythm::default() };
        let wish =
            BandWish { on_cf: Anchor::Motif, rhythm, keep_out, ..band("tile", 40.0, Spacing::AtLeast(mm(20.0))) };
        setting(&straight(1000.0, &[]), &[rectangle("tile", 60.0, 50.0)], &wish)
    };
    let done = shifted(vec![]);
    assert!(done.placements.iter().any(|placed| (placed.s_line.get() - 7.0).abs() < 1e-9));
    assert!(
        done.reasons.iter().any(|why| why.ends_with("every motif stands 7 mm further to the wearer's left, as asked"))
    );
    let given_up = shifted(vec![out_of(100.0, 350.0)]);
    assert!(given_up.reasons.iter().all(|why| !why.contains(", as asked")), "{:?}", given_up.reasons);
    assert!(
        given_up
            .reasons
            .iter()
            .any(|why| why.contains("the 7 mm further to the wearer's left that was asked for is given up")),
        "{:?}",
        given_up.reasons
    );
}

/// Larger motifs at CF over two side seams: what stands beside a seam is what counts, so that the stretches lose few.
#[test]
fn sizes_by_position_keep_off_seams_or_it_is_said_what_that_would_take() {
    let ring = straight(2000.0, &[-530.0, 470.0]);
    let rhythm = Rhythm { sizes: vec![1.5, 1.25, 1.0], ..Rhythm::default() };
    let wish = BandWish { rhythm, ..band("tile", 60.0, Spacing::AtLeast(mm(25.0))) };
    let found = setting(&ring, &[rectangle("tile", 60.0, 50.0)], &BandWish { on_cf: Anchor::Best, ..wish });
    // Of 60 each, 2000 less 90 more for the large ones are 22 at most.
    assert!(found.clashes.is_empty() && found.count >= 19, "{}: {:?}", found.count, found.reasons);
}

/// Six stretches of 170 take one of 60 with 30 beside it each, since two need 180; evenly 1020 / 90 = 11.3 stand there, of which one
/// in six may be given up, not five of eleven. That they could is said.
#[test]
fn seams_crossed_to_save_motifs_are_told_with_what_keeping_clear_would_leave() {
    let ring = straight(1020.0, &[-425.0, -255.0, -85.0, 85.0, 255.0, 425.0]);
    let wish = BandWish { on_cf: Anchor::Best, ..band("tile", 60.0, Spacing::AtLeast(mm(30.0))) };
    let found = setting(&ring, &[rectangle("tile", 60.0, 50.0)], &wish);
    assert!(found.count >= 10 && !found.clashes.is_empty(), "{}", found.count);
    assert!(
        found
            .reasons
            .iter()
            .any(|why| why.starts_with("with each stretch set out on its own 6 would keep clear of everything")),
        "{:?}",
        found.reasons
    );
    // With equal clear gaps, which on a straight hem are those along the line, just so.
    let rhythm = Rhythm { evenness: Evenness::ClearGap, ..Rhythm::default() };
    let clear = setting(&ring, &[rectangle("tile", 60.0, 50.0)], &BandWish { rhythm, ..wish.clone() });
    let told =
        clear.reasons.iter().any(|why| why.starts_with("with each stretch set out on its own 6 would keep clear"));
    assert!(clear.count >= 10 && told, "{:?}", clear.reasons);
    let between =
        setting(&ring, &[rectangle("tile", 60.0, 50.0)], &BandWish { motifs: wish.motifs, ..apart(&[], wish.spacing) });
    assert_eq!((between.count, between.clashes.len()), (6, 0));
}

/// Across an opening between two stretches too: on a narrow round hem tall tiles lean toward each other, so that half a gap along
/// the line on either side of it would leave their upper corners nearer than asked.
#[test]
fn clear_gaps_are_kept_across_an_opening_between_stretches() {
    let circle = Measurements::Circle { fraction: 1.0, waist: mm(400.0), length: mm(200.0) };
    let ends = Ends::Opening { at: Mark::CentreBack, underlap: Mm::ZERO, keep_clear: mm(5.0) };
    let hem = hem(circle, ends, vec![]);
    let tile = rectangle("tile", 60.0, 90.0);
    let laid = |evenness, spacing| {
        let rhythm = Rhythm { evenness, ..Rhythm::default() };
        let keep_out = vec![out_of(200.0, 420.0)];
        let wish = BandWish { rhythm, on_cf: Anchor::Best, keep_out, ..band("tile", 70.0, spacing) };
        setting(&hem, std::slice::from_ref(&tile), &wish)
    };
    let across = |found: &BandSetting| {
        let (first, last) = (found.placements.first().unwrap(), found.placements.last().unwrap());
        assert!(first.s_hem.get() < -700.0 && last.s_hem.get() > 700.0, "{} {}", first.s_hem, last.s_hem);
        clear(&tile, last, first)
    };
    let least = mm(30.0);
    let along = laid(Evenness::Gap, Spacing::AtLeast(least));
    assert!(across(&along) < 20.0, "{}", across(&along));
    let found = laid(Evenness::ClearGap, Spacing::AtLeast(least));
    assert!(across(&found) >= 30.0 - 0.011, "{}", across(&found));
    assert!(found.clear_gap.as_ref().unwrap().least >= least - mm(0.011), "{:?}", found.clear_gap);
    assert!(found.reasons[0].contains("set out on its own") && found.clashes.is_empty(), "{:?}", found.reasons);
    // Made to fit, so many keep it as well.
    let more = laid(Evenness::ClearGap, Spacing::Fit { count: found.count + 2, gap: least });
    assert_eq!((more.count, more.clashes.len()), (found.count + 2, 0));
    assert!(more.placements[0].scale < 1.0 && more.clear_gap.unwrap().least >= least - mm(0.011));
}

/// Made to fit, so many keep clear of seams too: of 1000 with seams at -300, 100 and 500 the stretches are 400, 400 and 200. As drawn
/// fifteen of 40 with 20 between them fill 900 of it and lie across seams; in stretches, six, six and three, each width and gap has
/// 400 / 6 = 66.67, so that they stand as drawn with 26.67 between them and 13.33 to each seam.
#[test]
fn so_many_with_a_gap_keep_clear_of_seams() {
    let ring = straight(1000.0, &[-300.0, 100.0, 500.0]);
    let tile = [rectangle("tile", 40.0, 40.0)];
    let wish = |count| BandWish { on_cf: Anchor::Best, ..band("tile", 40.0, Spacing::Fit { count, gap: mm(20.0) }) };
    let drawn = setting(&ring, &tile, &wish(15));
    assert!(drawn.clashes.is_empty() && (drawn.placements[0].scale - 1.0).abs() < 1e-9, "{:?}", drawn.reasons);
    // Seventeen are seven, seven and three: seven and seven gaps of 20 in 400 are 37.14 wide each, and half a gap at a seam is the 10 asked
    // for there.
    let more = setting(&ring, &tile, &wish(17));
    assert!(more.clashes.is_empty() && more.gap_along >= mm(20.0 - 0.0011), "{:?}", more.reasons);
    assert!(
        (more.placements[0].scale * 40.0 - (400.0 - 140.0) / 7.0).abs() < 1e-3,
        "{}",
        more.placements[0].scale * 40.0
    );
}
