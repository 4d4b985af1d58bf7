//! Places to keep out of, and motifs that reach above the cloth. Figures worked by hand.

use super::*;
use hemwright::hem::Mark;
use hemwright::place::{Change, CornerWish, KeepOut, RowOffset, Rows, gap_sum};

/// A place from 100 to 350 along the hem, all the way up, that motifs keep 10 from.
fn pocket(from: f64, to: f64) -> KeepOut {
    KeepOut {
        name: "pocket".to_owned(),
        along: (mm(from), mm(to)),
        heights: (Mm::ZERO, None),
        clear: mm(10.0),
        line: Some(12),
    }
}

fn straight(ends: Ends, seams: Vec<Seam>) -> Hem {
    hem(Measurements::Straight { length: mm(1000.0) }, ends, seams)
}

fn open() -> Hem {
    straight(Ends::Open { keep_clear: mm(20.0), middle: hemwright::hem::Middle::CentreFront }, vec![])
}

fn beside(spacing: Spacing, place: KeepOut) -> BandWish {
    BandWish { on_cf: Anchor::Best, keep_out: vec![place], ..band("tile", 40.0, spacing) }
}

fn places(band: &BandSetting) -> Vec<f64> {
    band.placements.iter().map(|placed| (placed.s_line.get() * 100.0).round() / 100.0).collect()
}

const TILE: f64 = 60.0;

fn tile() -> [Motif; 1] {
    [rectangle("tile", TILE, 50.0)]
}

/// From -480 to 90 are 570: (570 + 20) / 80 = 7.4, so 7 with (570 - 420) / 6 = 25 between them. From 360 to 480 are 120: one,
/// in its middle, 420.
#[test]
fn on_an_open_hem_the_stretches_beside_a_pocket_are_set_out_on_their_own() {
    let found = setting(&open(), &tile(), &beside(Spacing::AtLeast(mm(20.0)), pocket(100.0, 350.0)));
    assert_eq!(places(&found), [-450.0, -365.0, -280.0, -195.0, -110.0, -25.0, 60.0, 420.0]);
    assert!(found.clashes.is_empty() && found.remedies.is_empty(), "{found:?}");
    near(found.gap_along, 25.0);
    near(found.repeat, 85.0);
    assert!(found.reasons[0].starts_with("8, each stretch beside pocket set out on its own"), "{:?}", found.reasons);
}

/// Round a ring of 1000 from 360 to 1090 are 730: (730 + 20) / 80 = 9.4, so 9 with (730 - 540) / 8 = 23.75 between them.
#[test]
fn round_a_ring_motifs_keep_out_of_a_pocket_by_gap_and_by_count() {
    let ring = straight(Ends::Closed, vec![]);
    let found = setting(&ring, &tile(), &beside(Spacing::AtLeast(mm(20.0)), pocket(100.0, 350.0)));
    assert_eq!(found.count, 9);
    near(found.gap_along, 23.75);
    assert!(found.clashes.is_empty());
    let eight = setting(&ring, &tile(), &beside(Spacing::Count(8), pocket(100.0, 350.0)));
    near(eight.gap_along, 250.0 / 7.0);
    assert!(eight.clashes.is_empty());
    // Twelve are 720 and fit edge to edge nearly; thirteen do not, and it is told by how much.
    assert!(setting(&ring, &tile(), &beside(Spacing::Count(12), pocket(100.0, 350.0))).clashes.is_empty());
    let thirteen = try_setting(&ring, &tile(), &beside(Spacing::Count(13), pocket(100.0, 350.0))).unwrap();
    let told = thirteen.findings.iter().find(|finding| finding.kind == "too-near").unwrap();
    assert!(told.say.contains("across the pocket; 10 mm was asked for"), "{}", told.say);
    assert!(told.advice.contains("fewer"), "{}", told.advice);
    // The same place said past CB, the other way round.
    let other_way = setting(&ring, &tile(), &beside(Spacing::AtLeast(mm(20.0)), pocket(-900.0, -650.0)));
    assert_eq!(places(&other_way), places(&found));
}

/// A seam in the middle of the pocket and one at its edge change nothing: the pocket covers both.
#[test]
fn a_seam_under_a_pocket_is_kept_clear_by_the_pocket() {
    let seams = [225.0, 345.0].map(|s| Seam { name: format!("seam {s}"), at: Mark::At(mm(s)), keep_clear: mm(12.0) });
    let wish = beside(Spacing::AtLeast(mm(20.0)), pocket(100.0, 350.0));
    let found = setting(&straight(Ends::Closed, seams.to_vec()), &tile(), &wish);
    // The second seam asks for 357, the pocket for 360.
    assert_eq!(places(&found), places(&setting(&straight(Ends::Closed, vec![]), &tile(), &wish)));
}

#[test]
fn a_place_off_the_hem_is_refused_with_its_line_and_by_how_much() {
    let refused = |hem: &Hem, place: KeepOut| {
        let error = try_setting(hem, &tile(), &beside(Spacing::AtLeast(mm(20.0)), place)).unwrap_err();
        (error.to_string(), error.hint())
    };
    let (say, hint) = refused(&open(), pocket(400.0, 900.0));
    assert_eq!(
        say,
        "pocket (line 12 of the job file) runs from 400 mm to 900 mm along the hem, which runs from -500 mm to 500 mm: 400 mm \
         outside it"
    );
    assert!(hint.contains("write places from -500 mm to 500 mm"), "{hint}");
    let ring = straight(Ends::Closed, vec![]);
    assert!(refused(&ring, pocket(-1200.0, -1100.0)).0.ends_with("200 mm outside it"));
    assert_eq!(
        refused(&ring, pocket(-600.0, 700.0)).0,
        "pocket (line 12 of the job file) is 1300 mm long and leaves nothing of the hem's 1000 mm"
    );
    // Across CB it lies on the ring.
    let across = setting(&ring, &tile(), &beside(Spacing::AtLeast(mm(20.0)), pocket(400.0, 600.0)));
    assert!(across.clashes.is_empty());
}

/// Two rows of one garment: both stop at the pocket, as many in each stretch, each above its fellow. A pocket that only the
/// upper row reaches leaves the lower one even.
#[test]
fn several_rows_are_set_out_stretch_by_stretch() {
    let rows = |place: KeepOut, offset| {
        let rows = Rows { count: 2, rise: mm(80.0), offset };
        let rhythm = Rhythm { rows, ..Rhythm::default() };
        let wish = BandWish { rhythm, ..beside(Spacing::AtLeast(mm(20.0)), place) };
        try_setting(&straight(Ends::Closed, vec![]), &tile(), &wish).unwrap().bands
    };
    let both = rows(pocket(100.0, 350.0), RowOffset::None);
    assert_eq!((both[0].count, places(&both[0])), (9, places(&both[1])));
    assert!(both.iter().all(|row| row.clashes.is_empty()));
    assert!(both[1].reasons[0].starts_with("9, in each stretch as many as in the first row"), "{:?}", both[1].reasons);
    let above_gaps = rows(pocket(100.0, 350.0), RowOffset::HalfRepeat);
    assert_eq!(above_gaps[1].count, 8);
    let nearest = |placed: &hemwright::place::Placement| {
        let apart = above_gaps[0].placements.iter().map(|below| (below.s_line - placed.s_line).abs());
        apart.fold(mm(1000.0), Mm::min)
    };
    for placed in &above_gaps[1].placements {
        near(nearest(placed), (60.0 + 23.75) / 2.0);
    }
    let high = KeepOut { heights: (mm(90.0), None), ..pocket(100.0, 350.0) };
    let upper_only = rows(high, RowOffset::None);
    assert_eq!((upper_only[0].count, upper_only[1].count), (12, 9));
    assert!(upper_only.iter().all(|row| row.clashes.is_empty()));
}

/// A monogram over the corner of a shawl, 600 from the middle of its side: that corner stays bare, the others do not.
#[test]
fn a_corner_under_a_place_to_keep_out_of_stays_without_its_motif() {
    let corner = CornerWish { motif: "rose".to_owned(), occupies: Some(mm(80.0)) };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let shawl = hem(Measurements::Rectangle { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![]);
    let wish = BandWish {
        on_cf: Anchor::Best,
        rhythm,
        keep_out: vec![pocket(500.0, 760.0)],
        ..band("leaf", 60.0, Spacing::AtLeast(mm(35.0)))
    };
    let found = setting(&shawl, &[disc("leaf", 70.0), disc("rose", 100.0)], &wish);
    assert_eq!(found.placements.iter().filter(|placed| placed.motif == "rose").count(), 3);
    assert!(found.clashes.is_empty() && found.gap_along >= mm(35.0), "{found:?}");
    assert!(
        found.reasons.iter().any(|reason| reason.starts_with("1 corner stays without its motif")),
        "{:?}",
        found.reasons
    );
}

/// A circle skirt of 100 length: a tile of 110 with its middle at 75 reaches 130.
#[test]
fn motifs_that_reach_above_the_waist_are_told_by_how_much() {
    let short = |length: f64| {
        let measurements = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(length) };
        let hem = hem(measurements, Ends::Closed, vec![]);
        let wish = band("tile", 75.0, Spacing::AtLeast(mm(40.0)));
        let findings = try_setting(&hem, &[rectangle("tile", 110.0, 110.0)], &wish).unwrap().findings;
        findings.into_iter().find(|finding| finding.kind == "above-limit")
    };
    let told = short(100.0).unwrap();
    assert_eq!(
        told.say,
        "band 1: motifs reach 130.0 mm above the hem, 30.0 mm higher than the waist where it is nearest, which lies 100.0 mm \
         above it."
    );
    assert_eq!(short(131.0), None);
}

/// The sum that the papers print gives the gap they print: 110 - 35 - 35 = 40 on the shawl, and 85 - 30 - 30 = 25 beside the
/// pocket.
#[test]
fn the_sum_of_the_smallest_gap_holds_with_corners_and_pockets() {
    let corner = CornerWish { motif: "rose".to_owned(), occupies: Some(mm(80.0)) };
    let rhythm = Rhythm { corner: Some(corner), ..Rhythm::default() };
    let shawl = hem(Measurements::Rectangle { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![]);
    let bordered = BandWish { on_cf: Anchor::Best, rhythm, ..band("leaf", 60.0, Spacing::AtLeast(mm(35.0))) };
    let beside = beside(Spacing::AtLeast(mm(20.0)), pocket(100.0, 350.0));
    let plain = band("tile", 40.0, Spacing::AtLeast(mm(20.0)));
    let art = [disc("leaf", 70.0), disc("rose", 100.0), tile()[0].clone()];
    let motifs: BTreeMap<String, Motif> = art.iter().map(|m| (m.name.clone(), m.clone())).collect();
    for (hem, wish, step, gap, even) in [
        (&shawl, &bordered, 110.0, 40.0, false),
        (&open(), &beside, 85.0, 25.0, false),
        (&straight(Ends::Closed, vec![]), &plain, 1000.0 / 12.0, 1000.0 / 12.0 - 60.0, true),
    ] {
        let found = setting(hem, &art, wish);
        let sum = gap_sum(hem, &motifs, wish, &found).unwrap();
        near(sum.step, step);
        near(sum.gap, gap);
        near(found.repeat, step);
        assert!((sum.gap - found.gap_along).abs().get() < 1e-9);
        assert!((sum.step - (sum.covers.0 + sum.covers.1) / 2.0 - sum.gap).abs().get() < 1e-9);
        assert_eq!(sum.even, even);
    }
}

/// Thirteen of 60 do not stand beside the pocket in 730. It begins at 60 and they reach up to 65: lowered by 5 they stand below it,
/// down to 10 above the hem, unless lace covers that, the hem ends there, or buds of another band reach up to 8 and want 10 between.
#[test]
fn a_line_is_lowered_only_where_there_is_room_below() {
    let ring = straight(Ends::Closed, vec![]);
    let place = KeepOut { heights: (mm(60.0), None), ..pocket(100.0, 350.0) };
    let lower = |setting: Setting| {
        let lowered = |change: &Change| matches!(change, Change::Raise(by) if *by < Mm::ZERO);
        setting.bands.last().unwrap().remedies.iter().map(|remedy| remedy.change).find(lowered)
    };
    let wish = beside(Spacing::Count(13), place);
    assert_eq!(lower(try_setting(&ring, &tile(), &wish).unwrap()), Some(Change::Raise(mm(-5.0))));
    let under_lace = |upto: f64| BandWish { covered: vec![(Mm::ZERO, mm(upto))], ..wish.clone() };
    assert!(lower(try_setting(&ring, &tile(), &under_lace(10.0)).unwrap()).is_some());
    assert_eq!(lower(try_setting(&ring, &tile(), &under_lace(12.0)).unwrap()), None);
    // The same 25 above the hem, with a pocket from 45 on: 5 lower they would reach over it.
    let low = BandWish {
        height: mm(25.0),
        keep_out: vec![KeepOut { heights: (mm(45.0), None), ..pocket(100.0, 350.0) }],
        ..wish.clone()
    };
    assert_eq!(lower(try_setting(&ring, &tile(), &low).unwrap()), None);
    let motifs = [rectangle("tile", TILE, 50.0), rectangle("bud", 8.0, 8.0)];
    let motifs: BTreeMap<String, Motif> = motifs.into_iter().map(|motif| (motif.name.clone(), motif)).collect();
    let both = |height: f64| {
        let buds = BandWish { name: "buds".to_owned(), ..band("bud", height, Spacing::Count(20)) };
        lower(set_out(&ring, &motifs, &[buds, wish.clone()]).unwrap())
    };
    assert_eq!((both(4.0), both(150.0).is_some()), (None, true));
}

/// Corners of squares lean toward each other where the hem curves; bringing the line down is advised where there is room for it.
#[test]
fn no_room_below_is_no_advice() {
    let ring = hem(Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) }, Ends::Closed, vec![]);
    let wish = band("tile", 75.0, Spacing::AtLeast(mm(40.0)));
    let advice = |covered: Vec<(Mm, Mm)>| {
        let set =
            try_setting(&ring, &[rectangle("tile", 110.0, 110.0)], &BandWish { covered, ..wish.clone() }).unwrap();
        set.findings.iter().find(|finding| finding.kind == "square-corners").unwrap().advice.clone()
    };
    assert!(advice(vec![]).contains("bring the motif line down"));
    let under_lace = advice(vec![(Mm::ZERO, mm(18.0))]);
    assert!(!under_lace.contains("down") && under_lace.contains("one or two fewer if"), "{under_lace}");
}
