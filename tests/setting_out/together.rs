//! Counts that are settled together: in several sizes of a garment, and of bands tied to each other. Figures worked by hand.

use super::*;
use hemwright::place::{Change, Remedy, RowOffset, Rows, Tie, Together, settle, with_count};

fn circle(waist: f64) -> Hem {
    hem(Measurements::Circle { fraction: 1.0, waist: mm(waist), length: mm(700.0) }, Ends::Closed, vec![])
}

fn motifs() -> BTreeMap<String, Motif> {
    [disc("poppy", 110.0), disc("bud", 40.0)].into_iter().map(|motif| (motif.name.clone(), motif)).collect()
}

fn poppies() -> BandWish {
    BandWish { name: "lower".to_owned(), ..band("poppy", 75.0, Spacing::AtLeast(mm(40.0))) }
}

fn buds(own: u32, of: u32, gap: f64) -> BandWish {
    let tie = Tie { to: "lower".to_owned(), own, of };
    let rhythm = Rhythm { tie: Some(tie), ..Rhythm::default() };
    BandWish { name: "upper".to_owned(), rhythm, ..band("bud", 200.0, Spacing::AtLeast(mm(gap))) }
}

/// The largest of three sizes leads: alone it takes 31 (4706.99 / 150 = 31.4); with 660 and 720 beside it 30.
#[test]
fn the_plan_of_a_size_has_the_count_that_all_share() {
    let hems = [circle(780.0), circle(660.0), circle(720.0)];
    let named: Vec<(String, &Hem)> = ["L", "S", "M"].map(str::to_owned).into_iter().zip(&hems).collect();
    let settled = settle(&named, &motifs(), &[poppies()]).unwrap();
    let (with, held_by_row, even) = (Together::Sizes, None, None);
    assert_eq!(settled[0].spacing, Spacing::Settled { count: 30, gap: mm(40.0), alone: 31, with, held_by_row, even });
    let found = setting(&hems[0], &[disc("poppy", 110.0)], &settled[0]);
    assert_eq!(found.count, 30);
    near(found.gap_along, 46.90);
    assert!(
        found.reasons[0].starts_with(
            "30, the largest count that suits every size with at least 40 mm (this size alone would take 31): 46.9 mm"
        ),
        "{}",
        found.reasons[0]
    );
}

/// 30 poppies leave 4646.99 - 78.54 = 3861.59 at 200: 60 buds of 40 take 64.36 each, 24.36 between them; 62 for 31 poppies
/// would not fit the lower line. With a gap of 30 no more than 55 buds fit: 54 for 27 poppies.
#[test]
fn two_bands_choose_their_counts_together() {
    let ring = circle(720.0);
    let line = ring.line_at(mm(200.0)).unwrap().length();
    near(line, 5118.23 - TAU * 200.0);
    let both = |tied: BandWish| set_out(&ring, &motifs(), &[poppies(), tied]).map(|setting| setting.bands);
    let found = both(buds(2, 1, 20.0)).unwrap();
    assert_eq!((found[0].count, found[1].count), (30, 60));
    near(found[1].gap_along, line.get() / 60.0 - 40.0);
    assert!(
        found[1].reasons[0].starts_with("60, twice as many as lower, with at least 20 mm"),
        "{:?}",
        found[1].reasons
    );
    // Every second bud stands above a poppy.
    for poppy in &found[0].placements {
        let above = found[1].placements.iter().any(|bud| (bud.s_hem - poppy.s_hem).abs().get() < 0.01);
        assert!(above, "{} at {}", poppy.id, poppy.s_hem);
    }
    let tight = both(buds(2, 1, 30.0)).unwrap();
    assert_eq!((tight[0].count, tight[1].count), (27, 54));
    assert!(tight[0].reasons[0].contains("(this band alone would take 30)"), "{:?}", tight[0].reasons);
    // Half as many, and three for every two: the lower count is even.
    let half = both(buds(1, 2, 20.0)).unwrap();
    assert_eq!((half[0].count, half[1].count), (30, 15));
    let more = both(buds(3, 2, 20.0)).unwrap();
    assert_eq!((more[0].count, more[1].count), (30, 45));
}

#[test]
fn a_tie_that_cannot_be_is_refused_with_what_would_fit() {
    let ring = circle(720.0);
    let fault = |lower: BandWish, tied: BandWish| set_out(&ring, &motifs(), &[lower, tied]).unwrap_err();
    let of_31 = BandWish { spacing: Spacing::Count(31), ..poppies() };
    let told = fault(of_31, buds(1, 2, 20.0));
    assert_eq!(told.to_string(), "upper: for the 31 of lower it would need a part of a motif");
    assert_eq!(told.hint(), "ask for 30 or 32 of lower");
    let of_30 = BandWish { spacing: Spacing::Count(30), ..poppies() };
    let told = fault(of_30, buds(3, 1, 20.0));
    assert_eq!(told.to_string(), "upper: the 30 of lower ask for 90 here, and no more than 64 fit");
    let mut alone = buds(2, 1, 20.0);
    alone.rhythm.tie = Some(Tie { to: "hem".to_owned(), own: 2, of: 1 });
    assert_eq!(fault(poppies(), alone).to_string(), "upper: there is no band \"hem\" that it could be tied to");
}

/// Two that take turns round a ring come in even counts: a third of 30 is 10, whole rounds of two but not of four; 24 gives 8
/// and 36 gives 12.
#[test]
fn a_tie_that_breaks_the_sequence_says_so_and_names_counts_that_do_not() {
    let ring = circle(720.0);
    let lower = |count: u32| BandWish { spacing: Spacing::Count(count), ..poppies() };
    let upper = |round: usize| {
        let motifs = ["bud", "poppy", "bud", "bud"][..round].iter().map(|name| (*name).to_owned()).collect();
        BandWish { motifs, ..buds(1, 3, 20.0) }
    };
    let set = |count: u32, round: usize| set_out(&ring, &motifs(), &[lower(count), upper(round)]);
    assert_eq!(set(30, 2).unwrap().bands[1].count, 10);
    let told = set(30, 4).unwrap_err();
    assert_eq!(
        told.to_string(),
        "upper: the 30 of lower ask for 10 here, and 10 are no whole rounds of the 4 motifs in its sequence, which would break \
         where the ring closes"
    );
    assert_eq!(
        told.hint(),
        "ask for 24 or 36 of lower, or write order = \"mirrored\" in the tied band, which closes with any count"
    );
    for count in [24, 36] {
        let found = set(count, 4).unwrap();
        assert_eq!(found.bands[1].count, count / 3);
        assert!(found.findings.iter().all(|finding| finding.kind != "broken-sequence"), "{:?}", found.findings);
    }
    // No third of 31 is whole, whatever the sequence.
    assert_eq!(set(31, 4).unwrap_err().hint(), "ask for 24 or 36 of lower");
}

/// In two sizes and with a tie: 660 is 4586.99 below, 30 poppies, and 60 buds need 60 x 60 of its 3801.59.
#[test]
fn sizes_and_ties_are_settled_together() {
    let hems = [circle(780.0), circle(660.0)];
    let named: Vec<(String, &Hem)> = ["L", "S"].map(str::to_owned).into_iter().zip(&hems).collect();
    let settled = settle(&named, &motifs(), &[poppies(), buds(2, 1, 20.0)]).unwrap();
    assert_eq!(settled[0].spacing.count(), Some(30));
    assert_eq!(settled[1].spacing.count(), Some(60));
    // What another count of the first would bring, the second following.
    let other = with_count(&settled, 0, 28);
    assert_eq!(other.iter().map(|wish| wish.spacing.count()).collect::<Vec<_>>(), [Some(28), Some(56)]);
}

/// Lines of radius 574.59 and 424.59 take 36 and 26 boxes of 60 with 40 between them: the second row holds the buds down as well.
#[test]
fn a_further_row_of_the_leading_band_that_holds_the_tied_one_down_is_named() {
    let rows = Rows { count: 2, rise: mm(150.0), offset: RowOffset::None };
    let lower = |count: u32| BandWish {
        name: "lower".to_owned(),
        rhythm: Rhythm { rows: Rows { count, ..rows }, ..Rhythm::default() },
        ..band("box", 40.0, Spacing::AtLeast(mm(40.0)))
    };
    let upper = BandWish { height: mm(300.0), ..buds(2, 1, 5.0) };
    let skirt = hem(Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(500.0) }, Ends::Closed, vec![]);
    let motifs = [rectangle("box", 60.0, 40.0), disc("bud", 8.0)];
    let motifs: BTreeMap<String, Motif> = motifs.into_iter().map(|motif| (motif.name.clone(), motif)).collect();
    let found = |rows: u32| set_out(&skirt, &motifs, &[lower(rows), upper.clone()]).unwrap().bands;
    let two = found(2);
    assert_eq!((two[0].count, two[2].count), (26, 52));
    assert!(
        two[0].reasons[0].contains("with at least 40 mm, since its row 2 has room for no more"),
        "{:?}",
        two[0].reasons
    );
    assert!(
        two[2].reasons[0].contains("(this band alone would take 152), since lower row 2 has room for no more"),
        "{:?}",
        two[2].reasons
    );
    let one = found(1);
    assert_eq!((one[0].count, one[1].count), (36, 72));
    assert!(one.iter().all(|band| !band.reasons[0].contains("has room for no more")), "{one:?}");
}

/// Stretches of 649.33 between the seams of six gores hold six daisies of 90 each with (649.33 - 24 - 540) / 5 = 17.1 between them;
/// 36 evenly spread, 18.2 apart, come within 9.1 of the seams, and 30, five to a panel, leave 19.9 there. So many fewer of both bands
/// are offered to whichever of them would have unlike gaps.
#[test]
fn bands_tied_to_each_other_are_offered_the_even_count_that_suits_both() {
    let skirt = hem(six_gores(), Ends::Closed, vec![]);
    let motifs = [disc("daisy", 90.0), disc("bud", 10.0)];
    let motifs: BTreeMap<String, Motif> = motifs.into_iter().map(|motif| (motif.name.clone(), motif)).collect();
    let tie = |to: &str| Some(Tie { to: to.to_owned(), own: 1, of: 1 });
    let wish = |name: &str, motif: &str, height: f64, gap: f64, tie: Option<Tie>| BandWish {
        name: name.to_owned(),
        on_cf: Anchor::Best,
        rhythm: Rhythm { tie, ..Rhythm::default() },
        ..band(motif, height, Spacing::AtLeast(mm(gap)))
    };
    let offered = |bands: [BandWish; 2]| {
        let found = set_out(&skirt, &motifs, &bands).unwrap().bands;
        assert_eq!((found[0].count, found[1].count), (36, 36));
        let daisies = found.into_iter().find(|band| band.name == "daisies").unwrap();
        near(daisies.gap_along, 17.07);
        let counts = |remedy: &&Remedy| matches!(remedy.change, Change::Count(_) | Change::Lead(_));
        let found = daisies.remedies.iter().find(counts).unwrap().clone();
        near(found.outcome.gap_along, 39.87);
        (found.change, found.say)
    };
    let leading = [wish("daisies", "daisy", 80.0, 15.0, None), wish("buds", "bud", 200.0, 5.0, tie("daisies"))];
    assert_eq!(offered(leading).0, Change::Count(30));
    let (change, say) =
        offered([wish("buds", "bud", 200.0, 5.0, None), wish("daisies", "daisy", 80.0, 15.0, tie("buds"))]);
    assert_eq!(change, Change::Lead(30));
    assert!(say.starts_with("take 30 of buds: 30 with 39.9 mm between them"), "{say}");
    // With so many asked for both are even, and clear of every seam.
    let mut asked = [wish("buds", "bud", 200.0, 5.0, None), wish("daisies", "daisy", 80.0, 15.0, tie("buds"))];
    asked[0].spacing = Spacing::Count(30);
    let found = set_out(&skirt, &motifs, &asked).unwrap().bands;
    assert!(found.iter().all(|band| band.clashes.is_empty() && band.unlike_steps().is_none()), "{found:?}");
}
