//! Motifs that are their own mirror images have no hand: mirrored they are the same piece, with spares for one hand. A twin that is
//! hardly uneven has two hands.

use super::*;
use hemwright::art::SAME_MIRRORED;
use hemwright::job;
use hemwright::place::Hand::{self, AsDrawn, Mirrored};
use hemwright::plan::{self, Plan};
use proptest::prelude::*;

/// A heart of 60 on a leaf of 90, both drawn from the top round; the tip of the heart so far to the right of its middle.
fn art(tip: f64) -> BTreeMap<String, String> {
    let drawing = format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="80mm" viewBox="-45 -40 90 80">
<path d="M0 -40 C30 -40 45 -10 45 0 C45 20 20 40 0 40 C-20 40 -45 20 -45 0 C-45 -10 -30 -40 0 -40 Z" fill="#2e7d32"/>
<path d="M0 -15 C10 -30 30 -25 30 -8 C30 8 10 18 {tip} 30 C-10 18 -30 8 -30 -8 C-30 -25 -10 -30 0 -15 Z" fill="#c62828"/></svg>"##
    );
    BTreeMap::from([("bloom.svg".to_owned(), drawing)])
}

fn planned(tip: f64, band: &str, more: &str) -> Plan {
    let text = format!(
        "[hem.circle]\nwaist = \"720 mm\"\nlength = \"700 mm\"\n[[band]]\nheight = \"75 mm\"\ncf = \"motif\"\n{band}\n\
         [motif.bloom]\nart = \"bloom.svg\"\ncolours = {{ \"#2e7d32\" = \"green\", \"#c62828\" = \"red\" }}\n\
         [film.green]\nclass = \"smooth\"\n[film.red]\nclass = \"glitter\"\n[laying]\neffort = \"quick\"\n{more}"
    );
    plan::make(&job::read(&text).unwrap(), &art(tip), &AsTheyCome).unwrap()
}

/// Hand, needed and spares of each kind of piece.
fn pieces(plan: &Plan) -> Vec<(&str, Hand, u32, u32)> {
    plan.pieces.kinds.iter().map(|kind| (kind.film.as_str(), kind.hand, kind.needed, kind.spares)).collect()
}

/// 30 motifs, 14 of them right of CF. One spare for twenty makes two of 30, and one each of 16 and 14.
#[test]
fn an_even_motif_mirrored_is_cut_in_one_hand_and_its_uneven_twin_in_two() {
    let band = "count = 30\nhands = \"mirrored right\"";
    let even = planned(0.0, band, "");
    assert_eq!(pieces(&even), [("green", AsDrawn, 30, 2), ("red", AsDrawn, 30, 2)]);
    assert!(even.setting.bands[0].placements.iter().all(|placed| placed.hand == AsDrawn));
    let told = even.findings.iter().find(|finding| finding.kind == "own-mirror-image").unwrap();
    let say = ": \"bloom\" is its own mirror image; no outline of any colour lies more than 0.05 mm from where mirroring puts it.";
    assert!(told.say.starts_with("band 1") && told.say.ends_with(say), "{}", told.say);
    // The tip of the heart a fifth of a millimetre to one side: by eye the same, and cut apart all the same, its leaf with it.
    let uneven = planned(0.2, band, "");
    let both =
        [("green", AsDrawn, 16, 1), ("green", Mirrored, 14, 1), ("red", AsDrawn, 16, 1), ("red", Mirrored, 14, 1)];
    assert_eq!(pieces(&uneven), both);
    assert!(uneven.findings.iter().all(|finding| finding.kind != "own-mirror-image"));
    // Nothing else about the two differs: they stand in the same places, as far from each other.
    for (a, b) in even.setting.bands[0].placements.iter().zip(&uneven.setting.bands[0].placements) {
        assert_eq!((&a.id, a.s_line, a.at), (&b.id, b.s_line, b.at));
    }
    assert!((even.setting.bands[0].gap_along - uneven.setting.bands[0].gap_along).abs().get() < 1e-9);
}

/// Two of a kind cannot meet where there is one kind only: an odd count closes round the ring.
#[test]
fn an_even_motif_takes_no_turns_in_hand() {
    let count = |tip| {
        let plan = planned(tip, "gap = \"62 mm\"\nhands = \"alternating\"", "");
        (plan.setting.bands[0].count, plan.findings.iter().any(|finding| finding.kind == "broken-turns"))
    };
    // The line has 2 pi (814.59 - 75) = 4646.98: with 90 wide and 62 apart 30.57 fit, so 30; with 60 apart 30.98, with 59.8 31.02.
    assert_eq!((count(0.0), count(0.2)), ((30, false), (30, false)));
    let closer = |tip| planned(tip, "gap = \"59.8 mm\"\nhands = \"alternating\"", "").setting.bands[0].count;
    assert_eq!((closer(0.0), closer(0.2)), (31, 30));
}

#[test]
fn a_pair_of_garments_shares_the_pieces_of_an_even_motif() {
    let more = "[garment]\nmake = \"pair\"\n";
    let even = planned(0.0, "count = 30", more);
    assert_eq!(pieces(&even), [("green", AsDrawn, 60, 3), ("red", AsDrawn, 60, 3)]);
    let right = even.right_hand().unwrap();
    assert!(right.setting.bands[0].placements.iter().all(|placed| placed.hand == AsDrawn));
    let told = even.findings.iter().find(|finding| finding.kind == "pair").unwrap();
    assert!(told.say.contains("with 30 as drawn and 0 mirrored (\"bloom\" is its own mirror image"), "{}", told.say);
    let uneven = planned(0.2, "count = 30", more);
    assert_eq!(uneven.pieces.kinds.len(), 4);
    let told = uneven.findings.iter().find(|finding| finding.kind == "pair").unwrap();
    assert!(told.say.contains("with 0 as drawn and 30 mirrored. "), "{}", told.say);
}

/// Three sizes by place, 30 motifs: one at CF of the first, two beside it of the second, 27 of the third, with 1, 1 and 2 spares.
#[test]
fn spares_go_by_how_many_of_each_size_there_are() {
    let plan = planned(0.0, "count = 30\nsizes = [1.3, 1.15, 1]", "");
    let green: Vec<_> = pieces(&plan).into_iter().filter(|piece| piece.0 == "green").collect();
    assert_eq!(green, [("green", AsDrawn, 1, 1), ("green", AsDrawn, 2, 1), ("green", AsDrawn, 27, 2)]);
    let taken = plan.assumptions.iter().find(|taken| taken.key == "motif.bloom.spares").unwrap();
    assert_eq!(taken.taken, "4: one for every 20 of each hand and size, at least one");
}

/// 30 of 90 with 80 between them want 30 x 170 = 5100 of the line's 4646.98: what is left for motifs is 74.9 each, 16.8 % less, told.
#[test]
fn motifs_made_smaller_are_told() {
    let plan = planned(0.0, "count = 30\ngap = \"80 mm\"", "");
    let told = plan.findings.iter().find(|finding| finding.kind == "made-smaller").unwrap();
    let say = ": motifs are 16.8 % smaller than drawn, 74.9 mm wide, so that 30 fit with at least 80 mm between them.";
    assert!(told.say.starts_with("band 1") && told.say.ends_with(say), "{}", told.say);
    assert!(
        planned(0.0, "count = 30\ngap = \"60 mm\"", "").findings.iter().all(|finding| finding.kind != "made-smaller")
    );
}

/// Distance of a point from an edge, worked here anew.
fn from_edge(at: Point, (a, b): (Point, Point)) -> f64 {
    let (along, off) = (b - a, at - a);
    let share = ((off.x * along.x + off.y * along.y) / (along.x * along.x + along.y * along.y)).clamp(0.0, 1.0);
    (off.x - share * along.x).hypot(off.y - share * along.y)
}

/// The farthest that a ring lies from its mirror image, tried at every hundredth of a millimetre.
fn unevenness(points: &[Point]) -> f64 {
    let edges = |points: &[Point]| -> Vec<(Point, Point)> {
        points.iter().copied().zip(points.iter().copied().cycle().skip(1)).collect()
    };
    let mirrored: Vec<Point> = points.iter().map(|point| Point::new(-point.x, point.y)).collect();
    let there = edges(&mirrored);
    let nearest = |at: Point| there.iter().map(|edge| from_edge(at, *edge)).fold(f64::INFINITY, f64::min);
    let along = edges(points).into_iter().flat_map(|(a, b)| {
        let parts = (a.distance(b) / 0.01).ceil();
        (0..).map(f64::from).take_while(move |k| *k <= parts).map(move |k| a.lerp(b, k / parts))
    });
    along.map(nearest).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Even stars with one point moved, or with another point put anywhere on an edge: brute force is the oracle.
    #[test]
    fn a_motif_is_its_own_mirror_image_where_brute_force_says_so(
        radii in prop::collection::vec(3.0..6.0, 3..7), which in 0_usize..12, move_x in -0.12..0.12, move_y in -0.12..0.12,
    ) {
        // Down the right side and up the left, none on the axis.
        let angle = |k: usize| std::f64::consts::PI * (k as f64 + 0.5) / radii.len() as f64;
        let right = radii.iter().enumerate().map(|(k, radius)| Point::new(radius * angle(k).sin(), -radius * angle(k).cos()));
        let mut points: Vec<Point> = right.collect();
        points.extend(points.clone().iter().rev().map(|point| Point::new(-point.x, point.y)));
        let which = which % points.len();
        points.insert(which + 1, points[which].lerp(points[(which + 1) % points.len()], 0.3));
        points[which].x += move_x;
        points[which].y += move_y;
        let off = unevenness(&points);
        prop_assume!((off - SAME_MIRRORED.get()).abs() > 0.006);
        let star = motif("star", Ring::new(points).unwrap());
        prop_assert_eq!(star.is_own_mirror_image(), off < SAME_MIRRORED.get(), "{} off", off);
    }
}
