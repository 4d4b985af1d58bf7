//! Rows that depart from one even line of motifs: sequences, mirrored orders, sizes, rows, waves, equal clear gaps.

use super::*;
use hemwright::geometry::Outline;
use hemwright::geometry::clearance::Measurable;
use hemwright::hem::Mark;
use hemwright::place::{Change, Evenness, Hand, Lands, Order, Placement, RowOffset, Rows};

fn circle() -> Hem {
    let measured = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };
    hem(measured, Ends::Closed, vec![])
}

fn with(rhythm: Rhythm, motifs: &[&str], spacing: Spacing) -> BandWish {
    BandWish { motifs: motifs.iter().map(|m| (*m).to_owned()).collect(), rhythm, ..band("", 75.0, spacing) }
}

fn names(band: &BandSetting) -> String {
    band.placements.iter().map(|p| p.motif.chars().next().unwrap_or(' ')).collect()
}

/// True distance between two placements, by the clearance of their placed outlines.
fn clear(motif: &Motif, a: &Placement, b: &Placement) -> f64 {
    let placed = |p: &Placement| -> Vec<Outline> {
        motif.layers[0].outlines.iter().map(|outline| outline.transformed(p.transform())).collect()
    };
    Measurable::new(&placed(a)).unwrap().clearance_to(&Measurable::new(&placed(b)).unwrap()).distance
}

#[test]
fn a_sequence_repeats_whole_rounds_on_a_ring() {
    let motifs = [disc("poppy", 110.0), disc("leaf", 50.0), disc("corn", 30.0)];
    let wish = with(Rhythm::default(), &["poppy", "leaf", "corn"], Spacing::AtLeast(mm(20.0)));
    let found = setting(&circle(), &motifs, &wish);
    // One round takes 110 + 50 + 30 + 3 x 20 = 250; 4646.99 / 250 = 18.6.
    assert_eq!(found.count, 54);
    near(found.gap_along, (4646.99 - 18.0 * 190.0) / 54.0);
    let order = names(&found);
    assert!(order.contains("plcplcplc"), "{order}");
}

#[test]
fn a_count_that_breaks_the_sequence_is_said() {
    let motifs = [disc("poppy", 110.0), disc("leaf", 50.0)];
    let wish = with(Rhythm::default(), &["poppy", "leaf"], Spacing::Count(31));
    let found = try_setting(&circle(), &motifs, &wish).unwrap();
    let told = found.findings.iter().find(|finding| finding.kind == "broken-sequence").unwrap();
    // The two that it names are the only neighbours of one kind.
    let placed = &found.bands[0].placements;
    let alike = |k: &usize| placed[*k].motif == placed[(k + 1) % 31].motif;
    let [broken] = (0..31).filter(alike).collect::<Vec<_>>()[..] else { panic!("{}", names(&found.bands[0])) };
    let (a, b) = (&placed[broken].id, &placed[(broken + 1) % 31].id);
    assert!(told.advice.starts_with(&format!("Between {a} and {b} the sequence breaks")), "{}", told.advice);
}

/// A ring of 1000 with a gap on CF, 60 and 40 wide by turns both ways from it: seven are 60 40 60 40 60 40 60 from CF round to
/// it, in all 360, and the gap is 640 / 7. Counted from a motif on CF they would be 60 40 40 60 60 40 40, which is 340.
#[test]
fn a_mirrored_order_of_an_odd_count_has_its_gap_on_cf_and_a_motif_on_cb() {
    let ring = hem(Measurements::Straight { length: mm(1000.0) }, Ends::Closed, vec![]);
    let rhythm = Rhythm { order: Order::MirroredAboutMiddle, ..Rhythm::default() };
    let motifs = ["wide", "slim"].map(str::to_owned).to_vec();
    let wish = BandWish { motifs, on_cf: Anchor::Gap, rhythm, ..band("wide", 50.0, Spacing::Count(7)) };
    let found = setting(&ring, &[rectangle("wide", 60.0, 20.0), rectangle("slim", 40.0, 20.0)], &wish);
    assert_eq!((found.on_cf, found.on_cb), (Lands::Gap, Lands::Motif));
    near(found.gap_along, 640.0 / 7.0);
    let by_id = |id: &str| found.placements.iter().find(|placed| placed.id == id).unwrap();
    near(by_id("L1").s_line, 640.0 / 14.0 + 30.0);
    assert_eq!(by_id("CB").motif, "slim");
    for k in 1..=3 {
        let (left, right) = (by_id(&format!("L{k}")), by_id(&format!("R{k}")));
        near(left.s_line, -right.s_line.get());
        assert_eq!(left.motif, right.motif);
    }
    assert!(
        found.reasons.last().unwrap().ends_with("a gap on CF, a motif on CB because 7 is odd"),
        "{:?}",
        found.reasons
    );
}

/// Seven by turns on two lines with a gap on CF: two on the upper line meet at the back, the middle of one of them a hair past CB,
/// and it keeps the width that it was given there. All gaps are alike, each motif as wide on the lower line as on its own.
#[test]
fn an_odd_wave_keeps_one_gap_also_where_two_of_a_kind_meet() {
    let flare = hemwright::hem::Flare::Sweep(-0.9);
    let ring = hem(Measurements::Measured { hem: mm(960.0), flare }, Ends::Closed, vec![]);
    let rhythm = Rhythm { wave: Some(mm(5.0)), ..Rhythm::default() };
    let wish = BandWish { on_cf: Anchor::Gap, rhythm, ..band("tile", 170.0, Spacing::Count(7)) };
    let found = setting(&ring, &[rectangle("tile", 90.0, 20.0)], &wish);
    let covers = |placed: &Placement| 90.0 * (found.line.get() / ring.line_at(placed.height).unwrap().length().get());
    for (k, a) in found.placements.iter().enumerate() {
        let b = &found.placements[(k + 1) % 7];
        let step = (b.s_line - a.s_line).get().rem_euclid(found.line.get());
        near(mm(step - (covers(a) + covers(b)) / 2.0), found.gap_along.get());
    }
}

#[test]
fn a_mirrored_order_is_the_same_on_both_sides() {
    let motifs = [disc("poppy", 110.0), disc("leaf", 50.0), disc("corn", 30.0)];
    let rhythm = Rhythm { order: Order::MirroredAboutMiddle, ..Rhythm::default() };
    for on_cf in [Anchor::Motif, Anchor::Gap] {
        for count in [24, 25] {
            let wish = with(rhythm.clone(), &["poppy", "leaf", "corn"], Spacing::Count(count));
            let found = setting(&circle(), &motifs, &BandWish { on_cf, ..wish });
            let by_id: BTreeMap<&str, &Placement> = found.placements.iter().map(|p| (p.id.as_str(), p)).collect();
            for left in found.placements.iter().filter(|p| p.id.starts_with('L')) {
                let right = by_id[left.id.replace('L', "R").as_str()];
                assert_eq!(left.motif, right.motif, "{} of {count}", left.id);
                assert!((left.s_line.get() + right.s_line.get()).abs() < 1e-9);
            }
            assert!((found.gap_along.get() - (4646.99 - widths(&found)) / f64::from(count)).abs() < HAND);
        }
    }
}

fn widths(found: &BandSetting) -> f64 {
    let width = |p: &Placement| match p.motif.as_str() {
        "poppy" => 110.0,
        "leaf" => 50.0,
        _ => 30.0,
    };
    found.placements.iter().map(width).sum()
}

#[test]
fn sizes_go_down_from_the_middle_and_keep_one_gap() {
    let rhythm = Rhythm { sizes: vec![1.5, 1.25, 1.0], ..Rhythm::default() };
    let found = setting(&circle(), &[disc("poppy", 80.0)], &with(rhythm, &["poppy"], Spacing::Count(30)));
    let scale = |id: &str| found.placements.iter().find(|p| p.id == id).unwrap().scale;
    assert_eq!((scale("CF"), scale("L1"), scale("R1"), scale("L2"), scale("CB")), (1.5, 1.25, 1.25, 1.0, 1.0));
    // 120 + 2 x 100 + 27 x 80 = 2480.
    near(found.gap_along, (4646.99 - 2480.0) / 30.0);
    // The clear gap is that of the true sizes: all gaps alike, so the tightest lies between the largest.
    let gap = found.clear_gap.unwrap();
    assert!(gap.between.0 == "CF" || gap.between.1 == "CF", "{:?}", gap.between);
}

#[test]
fn motifs_are_made_smaller_so_that_so_many_fit() {
    let spacing = Spacing::Fit { count: 32, gap: mm(40.0) };
    let found = setting(&circle(), &[disc("poppy", 110.0)], &with(Rhythm::default(), &["poppy"], spacing));
    assert_eq!(found.count, 32);
    near(found.gap_along, 40.0);
    // 4646.99 / 32 - 40 = 105.22 of 110.
    assert!((found.placements[0].scale - 105.218 / 110.0).abs() < 1e-4);
    assert!(found.reasons.iter().any(|why| why.contains("4.3 % smaller")), "{:?}", found.reasons);
    // Thirty fit as they are.
    let thirty = Spacing::Fit { count: 30, gap: mm(40.0) };
    let found = setting(&circle(), &[disc("poppy", 110.0)], &with(Rhythm::default(), &["poppy"], thirty));
    assert_eq!(found.placements[0].scale, 1.0);
}

#[test]
fn a_smaller_motif_measured_by_its_lower_edge_lowers_its_line() {
    let spacing = Spacing::Fit { count: 34, gap: mm(40.0) };
    let wish = BandWish { level: Level::LowerEdge, height: mm(20.0), ..with(Rhythm::default(), &["poppy"], spacing) };
    let found = setting(&circle(), &[disc("poppy", 110.0)], &wish);
    let width = 110.0 * found.placements[0].scale;
    near(found.height, 20.0 + width / 2.0);
    near(found.line, 5118.23 - TAU * found.height.get());
    near(found.line, 34.0 * (width + 40.0));
}

#[test]
fn two_rows_share_one_count_and_stand_half_a_repeat_apart() {
    let rows = Rows { count: 2, rise: mm(90.0), offset: RowOffset::HalfRepeat };
    let rhythm = Rhythm { rows, ..Rhythm::default() };
    let wish = with(rhythm, &["poppy"], Spacing::AtLeast(mm(40.0)));
    let found = try_setting(&circle(), &[disc("poppy", 80.0)], &wish).unwrap();
    let [lower, upper] = found.bands.as_slice() else { panic!("two rows") };
    // The upper line is the shorter one and limits both: (4646.99 - 565.49) / 120 = 34.0.
    near(upper.line, 4646.99 - TAU * 90.0);
    assert_eq!((lower.count, upper.count), (34, 34));
    assert_eq!((lower.on_cf, upper.on_cf), (Lands::Motif, Lands::Gap));
    assert_eq!(upper.name, "band 1 row 2");
    assert!(upper.placements.iter().all(|p| p.id.starts_with("band 1 row 2-")));
    // Each stands above the middle of a gap: half a repeat along the hem.
    let foot = |row: &BandSetting, k: usize| row.placements[k].s_hem.get();
    let half = circle().length().get() / 68.0;
    assert!((foot(upper, 0) - foot(lower, 0)).abs() < half * 1.01);
    assert!(upper.placements.iter().any(|p| (p.s_hem.get() - half).abs() < 1e-6));
}

#[test]
fn rows_that_touch_are_told() {
    let rows = Rows { count: 2, rise: mm(70.0), offset: RowOffset::None };
    let rhythm = Rhythm { rows, ..Rhythm::default() };
    let wish = with(rhythm, &["poppy"], Spacing::AtLeast(mm(40.0)));
    let found = try_setting(&circle(), &[disc("poppy", 80.0)], &wish).unwrap();
    let finding = found.findings.iter().find(|finding| finding.kind == "rows-too-near").unwrap();
    assert!(finding.say.contains("touch or overlap"), "{}", finding.say);
    let apart = Rhythm { rows: Rows { count: 2, rise: mm(130.0), offset: RowOffset::None }, ..Rhythm::default() };
    let found = try_setting(&circle(), &[disc("poppy", 80.0)], &BandWish { rhythm: apart, ..wish }).unwrap();
    assert!(found.findings.iter().all(|finding| finding.kind != "rows-too-near"), "{:?}", found.findings);
}

#[test]
fn a_wave_lifts_every_second_motif() {
    let rhythm = Rhythm { wave: Some(mm(30.0)), ..Rhythm::default() };
    let found = setting(&circle(), &[disc("poppy", 80.0)], &with(rhythm.clone(), &["poppy"], Spacing::Count(30)));
    let height = |id: &str| found.placements.iter().find(|p| p.id == id).unwrap().height.get();
    assert_eq!((height("CF"), height("L1"), height("R1"), height("L2")), (75.0, 105.0, 105.0, 75.0));
    // The lower line has radius 739.59, the upper 709.59: a motif of 80 up there covers 80 x 739.59 / 709.59 = 83.38 of the
    // lower one, so of the repeat of 154.90 are left 154.90 - 40 - 41.69 = 73.21.
    near(found.gap_along, 73.21);
    // By definition the repeat less the mean of what raised and low ones cover, exactly; and it is said.
    let line = |height: f64| circle().line_at(mm(height)).unwrap().length();
    let covers = (80.0 + 80.0 * (line(75.0) / line(105.0))) / 2.0;
    assert!((found.gap_along.get() - (found.repeat.get() - covers)).abs() < 1e-6, "{}", found.gap_along);
    assert!(
        found.reasons[0].contains("(a raised motif 80 mm wide covers 83.4 mm of this line)"),
        "{:?}",
        found.reasons
    );
    for placed in &found.placements {
        let radius = placed.at.distance(Point::new(0.0, -814.59));
        assert!((radius - (814.59 - placed.height.get())).abs() < 0.01);
    }
    let odd = try_setting(&circle(), &[disc("poppy", 80.0)], &with(rhythm, &["poppy"], Spacing::Count(31))).unwrap();
    assert!(odd.findings.iter().any(|finding| finding.kind == "broken-turns"));
}

/// A triangle of 80 by 80 with its upper end to one side.
fn uneven(name: &str) -> Motif {
    motif(name, Ring::new([(20.0, -40.0), (40.0, 40.0), (-40.0, 40.0)].map(Point::from)).unwrap())
}

#[test]
fn hands_follow_the_side_or_take_turns() {
    let wish = |hands| BandWish { hands, ..with(Rhythm::default(), &["poppy"], Spacing::Count(30)) };
    let hand = |hands, id: &str| {
        let found = setting(&circle(), &[uneven("poppy")], &wish(hands));
        found.placements.iter().find(|p| p.id == id).unwrap().hand
    };
    use Hand::{AsDrawn, Mirrored};
    assert_eq!([hand(Hands::MirroredRight, "CF"), hand(Hands::MirroredRight, "L3")], [AsDrawn, AsDrawn]);
    assert_eq!(hand(Hands::MirroredRight, "R3"), Mirrored);
    assert_eq!([hand(Hands::Alternating, "CF"), hand(Hands::Alternating, "L1")], [AsDrawn, Mirrored]);
    assert_eq!([hand(Hands::Alternating, "R1"), hand(Hands::Alternating, "R2")], [Mirrored, AsDrawn]);
}

/// An oval hem turns more at front and back; equal steps leave unequal clear gaps, which the wish can even out.
#[test]
fn clear_gaps_can_be_made_equal_on_an_oval() {
    let hem = hem(Measurements::Ellipse { front_back: mm(900.0), side_side: mm(500.0) }, Ends::Closed, vec![]);
    let tile = rectangle("tile", 100.0, 120.0);
    let gaps = |evenness| -> Vec<f64> {
        let wish = with(Rhythm { evenness, ..Rhythm::default() }, &["tile"], Spacing::Count(28));
        let found = setting(&hem, std::slice::from_ref(&tile), &wish);
        let next = found.placements.iter().cycle().skip(1);
        found.placements.iter().zip(next).map(|(a, b)| clear(&tile, a, b)).collect()
    };
    let spread =
        |gaps: &[f64]| gaps.iter().copied().fold(0.0, f64::max) - gaps.iter().copied().fold(f64::MAX, f64::min);
    let (by_step, evened) = (gaps(Evenness::Gap), gaps(Evenness::ClearGap));
    assert!(spread(&by_step) > 5.0, "equal steps spread by {}", spread(&by_step));
    assert!(spread(&evened) < 0.02, "evened gaps spread by {}", spread(&evened));
}

#[test]
fn a_least_clear_gap_counts_on_the_true_outlines() {
    let hem = circle();
    let tile = rectangle("tile", 110.0, 110.0);
    let rhythm = Rhythm { evenness: Evenness::ClearGap, ..Rhythm::default() };
    let wish = with(rhythm, &["tile"], Spacing::AtLeast(mm(40.0)));
    let found = try_setting(&hem, &[tile], &wish).unwrap();
    // By the step 30 would fit, with square corners 33.72 apart; 29 leave 38.9, 28 leave 44.4.
    assert_eq!(found.bands[0].count, 28);
    assert!(found.bands[0].clear_gap.as_ref().unwrap().least >= mm(40.0));
    assert_eq!(found.findings, []);
}

/// Side seams on the quarters and a motif on CF: with a motif so wide that no even count is clear, each quarter is set out
/// on its own.
#[test]
fn stretches_are_set_out_on_their_own_where_no_even_row_is_clear() {
    let seams = [Mark::SideLeft, Mark::SideRight, Mark::At(mm(400.0)), Mark::At(mm(-700.0))]
        .iter()
        .enumerate()
        .map(|(k, at)| Seam { name: format!("seam {k}"), at: *at, keep_clear: mm(12.0) })
        .collect();
    let hem = hem(Measurements::Straight { length: mm(4000.0) }, Ends::Closed, seams);
    let found = setting(
        &hem,
        &[disc("poppy", 90.0)],
        &BandWish { on_cf: Anchor::Best, ..with(Rhythm::default(), &["poppy"], Spacing::AtLeast(mm(30.0))) },
    );
    assert_eq!(found.clashes, []);
    assert!(found.reasons[0].contains("stretch from seam to seam"), "{:?}", found.reasons);
    assert!(found.gap_along >= mm(30.0) - mm(0.001));
    for seam in hem.marks().iter().filter(|mark| mark.keep_clear.is_some()) {
        for placed in &found.placements {
            assert!((placed.s_line - seam.s_hem).abs().get() - 45.0 >= 12.0 - 0.001);
        }
    }
}

#[test]
fn remedies_are_ranked_and_each_says_what_it_does() {
    let ends = Ends::Opening { at: Mark::CentreBack, underlap: mm(40.0), keep_clear: mm(10.0) };
    let hem = hem(Measurements::Straight { length: mm(2400.0) }, ends, vec![]);
    let wish = BandWish { height: mm(30.0), ..with(Rhythm::default(), &["bud"], Spacing::AtLeast(mm(40.0))) };
    let found = setting(&hem, &[disc("bud", 80.0)], &wish);
    assert_eq!(found.count, 19);
    let said: Vec<&str> = found.remedies.iter().map(|remedy| remedy.say.as_str()).collect();
    // A gap on CF lets twenty in: worked by hand, 2400 / 20 - 80 = 40.
    assert_eq!(said[0], "put a gap on CF: 20 with 40.0 mm between them, a gap on CF, a gap on CB, the opening clear");
    // Narrower: 21 is the next odd count: 2400 / 21 - 40 = 74.28, six narrower.
    assert!(
        said.iter().any(|say| say.starts_with("make bud 6 mm narrower (92.5 % of the size now): 21 with")),
        "{said:#?}"
    );
    assert!(said.iter().any(|say| say.starts_with("allow a gap of 34 mm: 21 with 34.3 mm")), "{said:#?}");
    for remedy in &found.remedies {
        assert!(remedy.outcome.count > 19);
    }
    assert!(matches!(found.remedies[0].change, Change::Middle(Anchor::Gap)));
    // Nothing amiss, nothing offered.
    assert_eq!(
        setting(&circle(), &[disc("poppy", 110.0)], &band("poppy", 75.0, Spacing::AtLeast(mm(40.0)))).remedies,
        []
    );
}

/// A motif alone on a ring is its own neighbour round the ring, and must not be measured against itself.
#[test]
fn a_motif_alone_on_a_ring_has_no_clear_gap() {
    let found = setting(&circle(), &[disc("poppy", 80.0)], &with(Rhythm::default(), &["poppy"], Spacing::Count(1)));
    assert_eq!(found.count, 1);
    assert!(found.clear_gap.is_none(), "{:?}", found.clear_gap);
}

#[test]
fn a_shift_is_offered_where_it_clears_a_seam_and_does_what_it_says() {
    let seam = Seam { name: "lace join".to_owned(), at: Mark::At(mm(30.0)), keep_clear: mm(12.0) };
    for evenness in [Evenness::Gap, Evenness::ClearGap] {
        let oval = Measurements::Ellipse { front_back: mm(640.0), side_side: mm(560.0) };
        let hem = hem(oval, Ends::Closed, vec![seam.clone()]);
        let rhythm = Rhythm { evenness, ..Rhythm::default() };
        let wish = with(rhythm, &["poppy"], Spacing::Count(28));
        let found = setting(&hem, &[disc("poppy", 60.0)], &wish);
        // Set out from the join round to it the row is clear and has no motif on CF; shifted it is even about its own middle.
        assert!(found.clashes.is_empty() && found.on_cf != Lands::Motif, "{found:?}");
        assert!(
            found.reasons.iter().any(|why| why.starts_with("28, evenly spread, puts a motif")),
            "{:?}",
            found.reasons
        );
        let shift = found.remedies.iter().find_map(|remedy| match remedy.change {
            Change::Shift(by) => Some(by),
            _ => None,
        });
        let shift = shift.unwrap_or_else(|| panic!("{:?}", found.remedies));
        let shifted = BandWish { rhythm: Rhythm { shift, ..wish.rhythm.clone() }, ..wish.clone() };
        let found = setting(&hem, &[disc("poppy", 60.0)], &shifted);
        assert!(found.clashes.is_empty() && found.count == 28, "{shift}: {:?}", found.clashes);
        assert!(found.reasons.iter().any(|reason| reason.contains("further to the wearer's")), "{:?}", found.reasons);
    }
}

#[test]
fn a_row_between_two_ends_cannot_be_shifted() {
    let open = Ends::Open { keep_clear: mm(20.0), middle: hemwright::hem::Middle::CentreFront };
    let band_of = Measurements::Straight { length: mm(2000.0) };
    let rhythm = Rhythm { shift: mm(6.0), ..Rhythm::default() };
    let fault = try_setting(
        &hem(band_of, open, vec![]),
        &[disc("poppy", 60.0)],
        &with(rhythm, &["poppy"], Spacing::AtLeast(mm(40.0))),
    );
    assert_eq!(fault.unwrap_err().to_string(), "band 1: a row between two ends fills them and cannot be shifted");
}
