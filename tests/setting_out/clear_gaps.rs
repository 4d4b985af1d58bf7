//! Clear gaps against brute force: every corner of one outline against every edge of its neighbour, nothing passed over.

use super::*;
use hemwright::place::{Change, Evenness, Placement};

/// Outlines as placed, one list of corners for each.
fn placed(motif: &Motif, placement: &Placement) -> Vec<Vec<Point>> {
    let transform = placement.transform();
    let outlines = motif.layers.iter().flat_map(|layer| &layer.outlines);
    outlines.map(|outline| outline.outer().points().iter().map(|point| transform * *point).collect()).collect()
}

/// Shortest distance from corners of one to edges of the other; the distance itself where outlines do not cross.
fn corners_to_edges(a: &[Vec<Point>], b: &[Vec<Point>]) -> f64 {
    let mut least = f64::INFINITY;
    for point in a.iter().flatten() {
        for ring in b {
            for k in 0..ring.len() {
                let (start, end) = (ring[k], ring[(k + 1) % ring.len()]);
                let along = end - start;
                let share = ((*point - start).dot(along) / along.hypot2()).clamp(0.0, 1.0);
                least = least.min(point.distance_squared(start + along * share));
            }
        }
    }
    least.sqrt()
}

fn brute_force(motif: &Motif, a: &Placement, b: &Placement) -> f64 {
    let (a, b) = (placed(motif, a), placed(motif, b));
    corners_to_edges(&a, &b).min(corners_to_edges(&b, &a))
}

/// Clear gaps of neighbours all round a hem drawn closed.
fn all_round(motif: &Motif, band: &BandSetting) -> Vec<f64> {
    let next = band.placements.iter().skip(1).chain(band.placements.first());
    band.placements.iter().zip(next).map(|(a, b)| brute_force(motif, a, b)).collect()
}

/// Petals with a pointed tip each, lopsided so that the two hands differ.
fn thistle() -> Motif {
    let corner = |k: i32| {
        let angle = TAU * f64::from(k) / 90.0;
        let radius = 34.0 + 12.0 * (7.0 * angle).cos().abs() + 5.0 * (angle + 0.4).sin();
        Point::new(radius * angle.cos(), 1.2 * radius * angle.sin())
    };
    motif("thistle", Ring::new((0..90).map(corner)).unwrap())
}

fn ovals() -> [Hem; 3] {
    let ellipse = |front_back: f64, side_side: f64| Measurements::Ellipse {
        front_back: mm(front_back),
        side_side: mm(side_side),
    };
    [(640.0, 560.0), (400.0, 700.0), (900.0, 880.0)].map(|(a, b)| hem(ellipse(a, b), Ends::Closed, vec![]))
}

#[test]
fn the_least_clear_gap_of_an_oval_is_what_brute_force_finds() {
    for (oval, count) in ovals().iter().zip([21, 24, 33]) {
        for motif in [thistle(), rectangle("thistle", 70.0, 110.0)] {
            let found = setting(oval, std::slice::from_ref(&motif), &band("thistle", 60.0, Spacing::Count(count)));
            let least = all_round(&motif, &found).into_iter().fold(f64::INFINITY, f64::min);
            let told = found.clear_gap.unwrap().least.get();
            assert!((told - least).abs() < 1e-6, "{count}: told {told}, brute force {least}");
        }
    }
}

#[test]
fn equal_clear_gaps_are_equal_by_brute_force() {
    for (oval, count) in ovals().iter().zip([21, 24, 33]) {
        let rhythm = Rhythm { evenness: Evenness::ClearGap, ..Rhythm::default() };
        let motif = thistle();
        let wish = BandWish { rhythm, ..band("thistle", 60.0, Spacing::Count(count)) };
        let found = setting(oval, std::slice::from_ref(&motif), &wish);
        let gaps = all_round(&motif, &found);
        let (least, greatest) = gaps.iter().fold((f64::MAX, f64::MIN), |(l, g), gap| (l.min(*gap), g.max(*gap)));
        assert!(greatest - least < HAND, "{count}: {least} to {greatest}");
        assert!((found.clear_gap.unwrap().least.get() - least).abs() < 1e-6);
    }
}

/// Upright oblongs of 30 x 90 on an oval cloth of 900 x 500: beside the ends of the oval they stand above each other and touch
/// though 20 mm are left along the line; equal clear gaps are offered, with figures that brute force finds again.
#[test]
fn upright_motifs_on_an_oval_are_marked_and_offered_equal_clear_gaps() {
    let cloth = hem(Measurements::Cloth { width: mm(900.0), depth: mm(500.0) }, Ends::Closed, vec![]);
    let tall = rectangle("tall", 30.0, 90.0);
    let named = BTreeMap::from([("tall".to_owned(), tall.clone())]);
    let upright =
        |spacing: Spacing| BandWish { stance: Stance::Upright, level: Level::LowerEdge, ..band("tall", 20.0, spacing) };
    let wish = upright(Spacing::AtLeast(mm(20.0)));
    let card = card_of(&cloth, &named, &wish);
    let row = &card.rows[card.recommended];
    assert!(row.too_small.is_none() && row.clear_under.unwrap().wanted == mm(20.0), "{row:?}");
    let [remedy] = &card.remedies[..] else { panic!("{:?}", card.remedies) };
    let Change::ClearGap(gaps) = remedy.change else { panic!("{remedy:?}") };
    let now = all_round(&tall, &setting(&cloth, std::slice::from_ref(&tall), &wish));
    near(gaps.now.1, now.iter().copied().fold(0.0, f64::max));
    near(gaps.now.0, 0.0);
    let mut even = upright(Spacing::Count(remedy.outcome.count));
    even.rhythm.evenness = Evenness::ClearGap;
    let then = all_round(&tall, &setting(&cloth, std::slice::from_ref(&tall), &even));
    assert!(then.iter().all(|gap| (gap - gaps.then.get()).abs() < 0.02) && gaps.then >= mm(20.0), "{gaps:?}");
    // One more would not have it: what is offered is the most.
    even.spacing = Spacing::AtLeast(mm(20.0));
    assert_eq!(setting(&cloth, std::slice::from_ref(&tall), &even).count, remedy.outcome.count);
    // So many as were asked for, with no gap: equal clear gaps are offered for that count.
    let card = card_of(&cloth, &named, &upright(Spacing::Count(24)));
    assert!(card.rows.iter().all(|row| row.clear_under.is_none_or(|tight| tight.gap <= Mm::ZERO)), "{:?}", card.rows);
    assert!(card.remedies.iter().any(|r| matches!(r.change, Change::ClearGap(_)) && r.outcome.count == 24), "{card:?}");
}

/// On a round hem all clear gaps are alike: nothing is gained by making them equal, though corners lean toward each other and come
/// nearer than the gap asked for.
#[test]
fn where_all_clear_gaps_are_alike_no_others_are_offered() {
    let ring = hem(Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) }, Ends::Closed, vec![]);
    let named = BTreeMap::from([("tile".to_owned(), rectangle("tile", 110.0, 110.0))]);
    let card = card_of(&ring, &named, &band("tile", 75.0, Spacing::AtLeast(mm(40.0))));
    assert_eq!(card.rows[card.recommended].clear_under.unwrap().wanted, mm(40.0));
    assert_eq!(card.remedies, []);
    let roomy = card_of(&ring, &named, &band("tile", 75.0, Spacing::AtLeast(mm(10.0))));
    let marked = |row: &hemwright::place::CountRow| (row.too_small.is_none(), row.clear_under.is_some());
    for row in &roomy.rows {
        // What touches is marked so, too small a gap or not.
        let clear = row.clear_gap.as_ref().unwrap().least.get();
        assert_eq!(
            marked(row),
            (row.gap_along.get() >= 10.0, (row.gap_along.get() >= 10.0 && clear < 9.95) || clear <= 0.0),
            "{row:?}"
        );
    }
}

/// Of many small motifs the most are found as of few: with one more no equal clear gap is as wide as asked. Tall ones on a cloth of
/// 2 x 12 m, which overlap along its long sides until there are few enough, are found without trying every count.
#[test]
fn the_most_of_many_motifs_by_their_clear_gap_are_found() {
    let cloth =
        |width: f64, depth: f64| hem(Measurements::Cloth { width: mm(width), depth: mm(depth) }, Ends::Closed, vec![]);
    for (cloth, motif, least) in [
        (cloth(900.0, 500.0), rectangle("chip", 8.0, 8.0), 128),
        (cloth(2000.0, 12_000.0), rectangle("chip", 20.0, 120.0), 100),
    ] {
        let mut wish = BandWish { stance: Stance::Upright, ..band("chip", 70.0, Spacing::AtLeast(mm(4.0))) };
        wish.rhythm.evenness = Evenness::ClearGap;
        let found = setting(&cloth, std::slice::from_ref(&motif), &wish);
        assert!(found.count > least, "{}", found.count);
        let clear = |count: u32| {
            let wish = BandWish { spacing: Spacing::Count(count), ..wish.clone() };
            setting(&cloth, std::slice::from_ref(&motif), &wish).clear_gap.unwrap().least.get()
        };
        assert!(clear(found.count) >= 3.98 && clear(found.count + 1) < 4.0, "{}", found.count);
    }
}

/// Twelve panels of 250, every second disc of 60 raised by 20: no count down to a sixth fewer keeps clear of all seams with equal
/// clear gaps; 24, two to a panel with a gap on every seam, do, and so do stretches. What is offered is clear when it is asked for.
#[test]
fn a_wave_that_lies_across_seams_is_offered_what_does_not() {
    let twelve = Measurements::Gores {
        panels: 12,
        top: mm(70.0),
        hem: mm(250.0),
        side: mm(800.0),
        on_middle: PanelPart::Middle,
        keep_clear: Some(mm(12.0)),
    };
    let skirt = hem(twelve, Ends::Closed, vec![]);
    let rhythm = Rhythm { evenness: Evenness::ClearGap, wave: Some(mm(20.0)), ..Rhythm::default() };
    let wish = BandWish { rhythm, on_cf: Anchor::Best, ..band("disc", 80.0, Spacing::AtLeast(mm(30.0))) };
    let disc = [disc("disc", 60.0)];
    let found = setting(&skirt, &disc, &wish);
    assert!(found.count == 28 && found.clashes.len() >= 6, "{found:?}");
    let counts: Vec<Change> = found.remedies.iter().map(|remedy| remedy.change).collect();
    assert!(counts.contains(&Change::Count(24)) && counts.contains(&Change::BetweenSeams), "{counts:?}");
    let asked = setting(&skirt, &disc, &BandWish { spacing: Spacing::Count(24), ..wish.clone() });
    assert!(asked.clashes.is_empty() && asked.clear_gap.unwrap().least >= mm(30.0), "{:?}", asked.clashes);
    let rhythm = Rhythm { evenness: Evenness::BetweenSeams, ..wish.rhythm.clone() };
    assert!(setting(&skirt, &disc, &BandWish { rhythm, ..wish }).clashes.is_empty());
}

/// Bars of 200 by 20 standing upright round a cloth of 1500: side by side along a line of 4209.7 no more than 21 would be let in. Beside
/// CF and CB they stand side by side, 225 from middle to middle, at the sides above each other, 45: many more keep 25 between them.
#[test]
fn upright_bars_stand_behind_each_other_round_a_cloth() {
    let cloth = hem(Measurements::Cloth { width: mm(1500.0), depth: mm(1500.0) }, Ends::Closed, vec![]);
    let bar = rectangle("bar", 200.0, 20.0);
    let upright = |spacing| BandWish {
        stance: Stance::Upright,
        rhythm: Rhythm { evenness: Evenness::ClearGap, ..Rhythm::default() },
        ..band("bar", 80.0, spacing)
    };
    let found = setting(&cloth, std::slice::from_ref(&bar), &upright(Spacing::AtLeast(mm(25.0))));
    let gaps = all_round(&bar, &found);
    assert!(found.count > 30, "{}", found.count);
    assert!(gaps.iter().all(|gap| *gap > 25.0 - 0.02 && (*gap - gaps[0]).abs() < 0.02), "{gaps:?}");
    assert!(found.reasons[0].contains("behind each other along the motif line"), "{}", found.reasons[0]);
    // The next counts, asked for, are evened out as well, and keep less.
    for more in [1, 2] {
        let next = setting(&cloth, std::slice::from_ref(&bar), &upright(Spacing::Count(found.count + more)));
        assert!(all_round(&bar, &next).iter().all(|gap| *gap < 25.0), "{more} more keep as much");
    }
    // Edge to edge they are refused only where they could not lie on top of each other: 4209.7 / 20 = 210.5.
    let motifs = std::slice::from_ref(&bar);
    let error = try_setting(&cloth, motifs, &upright(Spacing::Count(250))).unwrap_err();
    assert!(matches!(error, PlaceError::CountTooGreat { .. }), "{error}");
}
