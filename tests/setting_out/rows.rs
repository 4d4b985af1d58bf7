//! Further rows and counts that are asked for, beside places to keep clear. Figures worked by hand.

use super::*;
use hemwright::hem::Mark;
use hemwright::place::{Change, Evenness, KeepOut, Lands, RowOffset, Rows};

fn ring(length: f64, seams: &[f64]) -> Hem {
    let seam = |s: &f64| Seam { name: format!("seam {s}"), at: Mark::At(mm(*s)), keep_clear: mm(12.0) };
    hem(Measurements::Straight { length: mm(length) }, Ends::Closed, seams.iter().map(seam).collect())
}

/// Two rows of tiles 60 wide and 50 high at 40 and 120 above the hem, and a pocket along so much of it.
fn two_rows(spacing: Spacing, along: (f64, f64), heights: (f64, Option<f64>), offset: RowOffset) -> Setting {
    let pocket = KeepOut {
        name: "pocket".to_owned(),
        along: (mm(along.0), mm(along.1)),
        heights: (mm(heights.0), heights.1.map(mm)),
        clear: mm(10.0),
        line: None,
    };
    let rows = Rows { count: 2, rise: mm(80.0), offset };
    let rhythm = Rhythm { rows, ..Rhythm::default() };
    let wish = BandWish { on_cf: Anchor::Best, rhythm, keep_out: vec![pocket], ..band("tile", 40.0, spacing) };
    try_setting(&ring(1000.0, &[]), &[rectangle("tile", 60.0, 50.0)], &wish).unwrap()
}

const ABOVE: (f64, Option<f64>) = (90.0, None);

/// A pocket from 100 to 350 with 10 on either side leaves the upper row 730: eight of 60 have (730 - 480) / 7 = 35.71 between
/// them, twelve (730 - 720) / 11 = 0.91. The lower row is even, and nothing is said of the pocket there.
#[test]
fn a_further_row_keeps_the_count_beside_a_pocket() {
    for (count, lower, upper) in [(8, 65.0, 35.71), (12, 1000.0 / 12.0 - 60.0, 0.91)] {
        let found = two_rows(Spacing::Count(count), (100.0, 350.0), ABOVE, RowOffset::None);
        let [first, second] = found.bands.as_slice() else { panic!("{found:?}") };
        assert_eq!((first.count, second.count), (count, count));
        near(first.gap_along, lower);
        near(second.gap_along, upper);
        assert!(found.bands.iter().all(|row| row.clashes.is_empty()) && first.remedies.is_empty(), "{found:?}");
        assert!(found.findings.iter().all(|finding| finding.kind != "fewer-in-row"), "{:?}", found.findings);
        assert!(first.reasons.iter().all(|why| !why.contains("pocket")), "{:?}", first.reasons);
        let says = format!(
            "{count}, as many as the first row, set out from one side of pocket round to the other: {upper:.1} mm between them;"
        );
        assert!(second.reasons[0].starts_with(&says), "{:?}", second.reasons);
        assert!(
            second.reasons.iter().any(|why| why.starts_with("pocket stays clear; the nearest")),
            "{:?}",
            second.reasons
        );
    }
}

/// Thirteen are 780 wide, more than the 730 there are: with the first row's gap of 1000 / 13 - 60 = 16.92 nine stand there,
/// (730 + 16.92) / 76.92 = 9.71, with (730 - 540) / 8 = 23.75 between them.
#[test]
fn a_further_row_that_cannot_take_the_count_is_told() {
    let found = two_rows(Spacing::Count(13), (100.0, 350.0), ABOVE, RowOffset::None);
    assert_eq!((found.bands[0].count, found.bands[1].count), (13, 9));
    near(found.bands[1].gap_along, 23.75);
    let says = "9, 4 fewer than the first row's 13, since so many do not fit between what must stay clear there, set out from one \
                side of pocket round to the other: 23.8 mm between them;";
    assert!(found.bands[1].reasons[0].starts_with(says), "{:?}", found.bands[1].reasons);
    let told = found.findings.iter().find(|finding| finding.kind == "fewer-in-row").expect("must be told");
    assert!(told.say.starts_with("band 1 row 2: 9 motifs, 4 fewer than"), "{}", told.say);
    // Twelve fit in both, and that is offered.
    let twelve = found.bands[0].remedies.iter().find(|remedy| remedy.change == Change::Count(12));
    assert!(twelve.is_some(), "{:?}", found.bands[0].remedies);
}

/// A pocket from 100 to 160 leaves the upper row 920: (920 + 20) / 80 = 11.75. The lower one gives the twelfth up as well, as it
/// would for a shorter line above; one in six it may, not three of twelve.
#[test]
fn an_even_first_row_gives_up_few_so_that_rows_are_alike() {
    let few = two_rows(Spacing::AtLeast(mm(20.0)), (100.0, 160.0), ABOVE, RowOffset::None);
    assert_eq!((few.bands[0].count, few.bands[1].count), (11, 11));
    near(few.bands[1].gap_along, 26.0);
    assert!(few.bands[0].reasons[0].contains("in every row"), "{:?}", few.bands[0].reasons);
    let many = two_rows(Spacing::AtLeast(mm(20.0)), (100.0, 350.0), ABOVE, RowOffset::None);
    assert_eq!((many.bands[0].count, many.bands[1].count), (12, 9));
    assert!(many.findings.iter().any(|finding| finding.kind == "fewer-in-row"));
    // Made smaller to fit, both rows have them all: twelve and eleven gaps of 20 in 730.
    let fit = two_rows(Spacing::Fit { count: 12, gap: mm(20.0) }, (100.0, 350.0), ABOVE, RowOffset::None);
    assert_eq!((fit.bands[0].count, fit.bands[1].count), (12, 12));
    assert!((fit.bands[1].placements[0].scale * 60.0 - (730.0 - 220.0) / 12.0).abs() < 1e-4);
}

/// A monogram low down that only the first row meets: the row above it has as many, evenly spread.
#[test]
fn a_row_above_a_place_to_keep_out_of_has_no_more_than_the_first() {
    let found = two_rows(Spacing::Count(8), (100.0, 350.0), (0.0, Some(50.0)), RowOffset::None);
    assert_eq!((found.bands[0].count, found.bands[1].count), (8, 8));
    near(found.bands[0].gap_along, 250.0 / 7.0);
    near(found.bands[1].gap_along, 65.0);
    assert!(
        found.bands[1].reasons[0].starts_with("8, as many as the first row; even all along"),
        "{:?}",
        found.bands[1]
    );
}

/// Half a repeat along or not, a row that a pocket cuts keeps the count.
#[test]
fn rows_above_gaps_keep_the_count_beside_a_pocket() {
    let found = two_rows(Spacing::Count(9), (100.0, 350.0), ABOVE, RowOffset::HalfRepeat);
    assert_eq!((found.bands[0].count, found.bands[1].count), (9, 9));
    near(found.bands[1].gap_along, 23.75);
}

/// Round a cloth of radius 600 both rows meet a pocket of 100 along the edge, and the upper line is shorter: radii of 560 and 460 are
/// 3518.58 and 2890.27 long, less 93.33 + 20 and 76.67 + 20 there are 3405.25 and 2793.60. 35 of 80 are 2800: below with 605.25 / 34 =
/// 17.80 between them, above too wide. With that gap 28 stand there, (2793.60 + 17.80) / 97.80 = 28.7, and have 553.60 / 27 = 20.50.
#[test]
fn a_shorter_line_above_takes_what_fits_beside_a_pocket_that_both_rows_meet() {
    let skirt = hem(Measurements::Cloth { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![]);
    let along = (mm(200.0), mm(300.0));
    let pocket = KeepOut { name: "pocket".to_owned(), along, heights: (Mm::ZERO, None), clear: mm(10.0), line: None };
    let rhythm = Rhythm { rows: Rows { count: 2, rise: mm(100.0), offset: RowOffset::None }, ..Rhythm::default() };
    let wish =
        BandWish { on_cf: Anchor::Best, rhythm, keep_out: vec![pocket], ..band("tile", 40.0, Spacing::Count(35)) };
    let found = try_setting(&skirt, &[rectangle("tile", 80.0, 20.0)], &wish).unwrap();
    assert_eq!((found.bands[0].count, found.bands[1].count), (35, 28));
    near(found.bands[0].gap_along, 17.80);
    near(found.bands[1].gap_along, 20.50);
    assert!(found.bands.iter().all(|row| row.clashes.is_empty()), "{found:?}");
    assert!(found.findings.iter().any(|finding| finding.kind == "fewer-in-row"), "{:?}", found.findings);
}

/// Side seams of a ring of 2374 lie at 593.5. Evenly spread 38 of 40 come 11.24 from them at best, less than 12; nineteen on either
/// side keep them clear: 1187 - 760 - 24 = 403 in 18 gaps of 22.39.
#[test]
fn a_count_keeps_seams_clear_stretch_by_stretch_where_no_even_row_does() {
    let wish = BandWish { on_cf: Anchor::Best, ..band("box", 60.0, Spacing::Count(38)) };
    let found = setting(&ring(2374.0, &[-593.5, 593.5]), &[rectangle("box", 40.0, 60.0)], &wish);
    assert_eq!((found.count, found.clashes.len()), (38, 0));
    near(found.gap_along, 22.39);
    assert!(
        found.reasons[0].starts_with(
            "38, as asked, each stretch from seam to seam set out on its own: 22.4 mm to 24.0 mm between them along"
        ),
        "{:?}",
        found.reasons
    );
    assert!(
        found.reasons.iter().any(|why| why.starts_with("38, evenly spread, leaves 11.2 mm to seam")),
        "{:?}",
        found.reasons
    );
    // Even rows that keep clear are still offered: 36 = 4 x 9 leave 2374 / 36 - 40 = 25.94, half a step off the seams or on them.
    assert!(found.remedies.iter().any(|remedy| matches!(remedy.change, Change::Count(_))), "{:?}", found.remedies);
}

/// Six panels of 649.33: 32 of 90 are two panels of six, (649.33 - 540 - 24) / 5 = 17.07, and four of five,
/// (649.33 - 450) / 5 = 39.87.
#[test]
fn thirty_two_on_six_gores_keep_the_seams_clear_with_gaps_that_differ() {
    let gores = six_gores();
    let found =
        setting(&hem(gores, Ends::Closed, vec![]), &[disc("daisy", 90.0)], &band("daisy", 80.0, Spacing::Count(32)));
    assert_eq!((found.count, found.clashes.len(), found.on_cf), (32, 0, Lands::Motif));
    near(found.gap_along, 17.07);
    assert!(found.reasons[0].contains("17.1 mm to 39.9 mm between them"), "{:?}", found.reasons);
    assert!(found.remedies.iter().any(|remedy| remedy.change == Change::Count(30)), "{:?}", found.remedies);
}

/// Where the stretches hold fewer, so many as were asked for lie across seams, and that is told: two stretches of 500 less 24 hold
/// seven of 60 each, 420 of 476.
#[test]
fn a_count_that_no_stretches_hold_is_told_at_the_seams() {
    let wish = BandWish { on_cf: Anchor::Best, ..band("box", 60.0, Spacing::Count(15)) };
    let boxes = [rectangle("box", 60.0, 60.0)];
    let found = setting(&ring(1000.0, &[-250.0, 250.0]), &boxes, &wish);
    assert!(found.count == 15 && !found.clashes.is_empty());
    let wish = BandWish { spacing: Spacing::Count(14), ..wish };
    let found = setting(&ring(1000.0, &[-250.0, 250.0]), &boxes, &wish);
    assert!(found.count == 14 && found.clashes.is_empty(), "{found:?}");
}

/// A card compares even rows, so that what each count puts on the seams can be seen.
#[test]
fn the_card_shows_neighbouring_counts_evenly_spread() {
    let motifs = BTreeMap::from([("box".to_owned(), rectangle("box", 40.0, 60.0))]);
    let wish = BandWish { on_cf: Anchor::Best, ..band("box", 60.0, Spacing::Count(37)) };
    let card = card_of(&ring(2374.0, &[-593.5, 593.5]), &motifs, &wish);
    let of_38 = card.rows.iter().find(|row| row.count == 38).unwrap();
    assert_eq!((of_38.on_cf, of_38.clashes.len()), (Lands::Motif, 4));
    of_38.clashes.iter().for_each(|clash| near(clash.clear, 11.24));
}

/// Round a ring every second one stands higher: 1000 / 72 = 13.9 of 60 with 12 between them, and thirteen would bring two of a kind
/// side by side.
#[test]
fn a_wave_closes_round_a_ring_with_an_even_count() {
    let rhythm = Rhythm { wave: Some(mm(20.0)), ..Rhythm::default() };
    let wish = BandWish { rhythm, ..band("tile", 40.0, Spacing::AtLeast(mm(12.0))) };
    let tile = [rectangle("tile", 60.0, 40.0)];
    let found = try_setting(&ring(1000.0, &[]), &tile, &wish).unwrap();
    assert_eq!(found.bands[0].count, 12);
    assert!(found.findings.iter().all(|finding| finding.kind != "broken-turns"));
    let why = found.bands[0].reasons.join("\n");
    assert!(why.contains("but 12 is even, so that they take turns all round") && why.contains("13 is odd"), "{why}");
    // So many as are asked for stay.
    let odd = try_setting(&ring(1000.0, &[]), &tile, &BandWish { spacing: Spacing::Count(13), ..wish }).unwrap();
    assert!(odd.bands[0].count == 13 && odd.findings.iter().any(|finding| finding.kind == "broken-turns"));
}

/// Equal clear gaps, every second one higher, three seams to a ring of 1000: each stretch of 333.33 takes three of 90 with 12 clear
/// of the seams, (333.33 - 270 - 24) / 2 = 19.67, while 9 and 10 evenly spread lie across seams.
#[test]
fn equal_clear_gaps_keep_seams_clear_stretch_by_stretch_too() {
    let rhythm = Rhythm { wave: Some(mm(20.0)), evenness: Evenness::ClearGap, ..Rhythm::default() };
    let seams = [-333.3333, 0.0, 333.3333];
    for spacing in [Spacing::AtLeast(mm(9.0)), Spacing::Count(9)] {
        let wish = BandWish { rhythm: rhythm.clone(), on_cf: Anchor::Best, ..band("tile", 40.0, spacing) };
        let found = setting(&ring(1000.0, &seams), &[rectangle("tile", 90.0, 40.0)], &wish);
        assert!(found.clashes.is_empty() && found.count >= 8, "{} {:?}", found.count, found.clashes);
    }
}

/// A circle skirt with both side seams, three rows of 40 half a repeat along, and a pocket beside one seam that only the upper two
/// meet: no motif lies across a seam to keep rows alike, and what a row lacks is one number wherever it is told.
#[test]
fn rows_that_a_pocket_and_seams_cut_keep_clear_of_both() {
    let seams = [("left seam", Mark::SideLeft), ("right seam", Mark::SideRight)]
        .map(|(name, at)| Seam { name: name.to_owned(), at, keep_clear: mm(12.0) })
        .to_vec();
    let circle = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };
    let skirt = hem(circle, Ends::Closed, seams);
    let along = (mm(700.0), mm(900.0));
    let pocket = KeepOut { name: "pocket".to_owned(), along, heights: (mm(120.0), None), clear: mm(10.0), line: None };
    let rows = Rows { count: 3, rise: mm(60.0), offset: RowOffset::HalfRepeat };
    let rhythm = Rhythm { rows, ..Rhythm::default() };
    let wish = BandWish {
        on_cf: Anchor::Best,
        rhythm,
        keep_out: vec![pocket],
        ..band("sq", 80.0, Spacing::AtLeast(mm(30.0)))
    };
    let found = try_setting(&skirt, &[rectangle("sq", 40.0, 30.0)], &wish).unwrap();
    assert!(
        found.bands.iter().all(|row| row.clashes.is_empty() && row.gap_along >= mm(30.0)),
        "{:?}",
        found.bands[0].reasons
    );
    for row in &found.bands[1..] {
        let told =
            found.findings.iter().find(|it| it.kind == "fewer-in-row" && it.say.starts_with(&format!("{}:", row.name)));
        let says = &row.reasons[0];
        assert_eq!(told.is_some(), says.contains("since no more leave 30 mm there"), "{says}");
    }
}

/// The second of two rows of a three-sided cloth has hardly a side left: it is named, and the line that brings it so high. A side of 901.8
/// is shorter by 2 sqrt(3) for every millimetre further in: 445.6 at 131.7, 64.5 at 241.7.
#[test]
fn a_further_row_without_room_is_named() {
    let cloth = hem(Measurements::Polygon { sides: 3, side: mm(901.8) }, Ends::Closed, vec![]);
    let tile = rectangle("tile", 41.5, 41.5);
    let rows = Rows { count: 2, rise: mm(110.0), offset: RowOffset::None };
    let wish = |spacing| BandWish { rhythm: Rhythm { rows, ..Rhythm::default() }, ..band("tile", 131.7, spacing) };
    let told = |spacing| try_setting(&cloth, std::slice::from_ref(&tile), &wish(spacing)).unwrap_err();
    let sides = told(Spacing::AtLeast(mm(10.0)));
    assert!(sides.to_string().starts_with("band 1 row 2: the longest side of 64.5 mm"), "{sides}");
    assert!(sides.hint().starts_with("a smaller rise leaves row 2 more room; otherwise"), "{}", sides.hint());
    let count = told(Spacing::Count(6));
    assert_eq!(
        count.to_string(),
        "band 1 row 2: 6 motifs are 249 mm wide side by side, 55.4 mm more than the line's 193.6 mm"
    );
}

/// Tiles 50 high need 60 from row to row to stand 10 clear; an eighth of 50 is 6.25.
#[test]
fn rows_that_lie_over_each_other_without_end_are_refused() {
    let rise = |rise: f64| {
        let rows = Rows { count: 100, rise: mm(rise), offset: RowOffset::None };
        let rhythm = Rhythm { rows, ..Rhythm::default() };
        let wish = BandWish { rhythm, ..band("tile", 40.0, Spacing::Count(2)) };
        try_setting(&ring(2000.0, &[]), &[rectangle("tile", 60.0, 50.0)], &wish)
    };
    let error = rise(1.0).unwrap_err();
    assert_eq!(error.to_string(), "band 1: rows 1 mm apart lay 50 motifs 50 mm high over each other");
    assert_eq!(
        error.hint(),
        "with a rise of 60 mm or more they stand clear above each other; less than 6.3 mm is not taken"
    );
    let told = |found: &Setting| found.findings.iter().any(|finding| finding.kind == "rows-too-near");
    assert!(told(&rise(6.25).unwrap()));
    assert!(!told(&rise(60.0).unwrap()));
}
