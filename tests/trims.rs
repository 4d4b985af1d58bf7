//! Trims: lengths, strips and cloth against figures worked by hand and published examples.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;
use std::f64::consts::{PI, SQRT_2, TAU};

use hemwright::art::Motif;
use hemwright::geometry::Point;
use hemwright::hem::{self, Ends, HemWish, Measurements};
use hemwright::place::{BandSetting, Garments, Hand, Lands, Placement, Setting};
use hemwright::press::ZoneState;
use hemwright::quantity::{Mm, Radians, mm};
use hemwright::trims::{
    Binding, Braid, DrawThread, Edge, Facing, FacingCut, Goods, Kind, Lace, Piping, PleatStyle, Pleats, Ruffle, Side,
    StripCloth, TrimError, TrimNeed, TrimWish, hidden_motifs, needs, windows,
};
use proptest::prelude::*;

/// S1: waist 720, length 700, full circle.
fn s1() -> Edge {
    Edge { length: mm(720.0 + TAU * 700.0), sweep: Radians::new(TAU), closed: true }
}

fn straight(length: Mm) -> Edge {
    Edge { length, sweep: Radians::new(0.0), closed: true }
}

fn wish(kind: Kind) -> TrimWish {
    TrimWish {
        name: "the trim".to_string(),
        kind,
        height: Mm::ZERO,
        side: Side::Right,
        price: None,
        weight: None,
        material: None,
        state: None,
    }
}

/// Worked by hand: round a rectangle of 600 x 400 the line 10 mm up is 8 x 10 shorter than 2000, not 2 pi x 10, and the upper
/// edge of a facing 50 deep lies on 1600. On every shape the trim's line is the motif line at the same height.
#[test]
fn round_corners_a_trim_lies_on_the_line_that_motifs_sit_on() {
    let sides = |count| Measurements::Polygon { sides: count, side: mm(300.0) };
    let rectangle = Measurements::Rectangle { width: mm(600.0), depth: mm(400.0) };
    let circle = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };
    for measurements in [rectangle, sides(3), sides(6), circle] {
        let wish = HemWish::ring(measurements);
        let hem = hem::shape(&wish).unwrap();
        let edge = Edge::of(&hem, &wish.ends);
        for height in [10.0, 50.0] {
            near(edge.line_at(mm(height)).unwrap(), hem.line_at(mm(height)).unwrap().length().get(), 0.01);
        }
    }
    let hem = hem::shape(&HemWish::ring(Measurements::Rectangle { width: mm(600.0), depth: mm(400.0) })).unwrap();
    near(Edge::of(&hem, &Ends::Closed).line_at(mm(10.0)).unwrap(), 1920.0, 1e-6);
    near(Edge::of(&hem, &Ends::Closed).line_at(mm(50.0)).unwrap(), 1600.0, 1e-6);
}

fn one(edge: Edge, kind: Kind) -> TrimNeed {
    needs(edge, Garments::One, &[wish(kind)]).unwrap().remove(0)
}

fn near(found: Mm, wanted: f64, within: f64) {
    assert!((found.get() - wanted).abs() <= within, "{found:.3} is not {wanted}");
}

const fn cloth(usable: f64, join: f64) -> StripCloth {
    StripCloth { usable: mm(usable), join: mm(join) }
}

fn braid(draw_thread: DrawThread) -> Kind {
    Kind::Braid(Braid { depth: mm(150.0), ease: 0.02, overlap: mm(50.0), draw_thread })
}

fn facing(cut: FacingCut) -> Kind {
    Kind::Facing(Facing { depth: mm(150.0), allowance: mm(12.0), cut, cloth: cloth(1100.0, 12.0) })
}

fn knife(visible: f64, cut_depth: f64, strip: StripCloth) -> Pleats {
    Pleats {
        style: PleatStyle::Knife,
        depth: mm(50.0),
        cut_depth: mm(cut_depth),
        visible: mm(visible),
        underfold: 1.0,
        rows: 1,
        row_step: Mm::ZERO,
        cloth: strip,
    }
}

// S1, worked by hand --------------------------------------------------------------------------------------------------

/// 5118.23 x 1.02 + 50 = 5270.6, buy 5.3 m; the upper edge draws in to 5118.23 - 942.48 = 4175.75, by 18.4 %.
#[test]
fn s1_braid_has_ease_overlap_and_draws_in() {
    let need = one(s1(), braid(DrawThread::Unknown));
    near(need.length, 5270.6, 0.05);
    assert_eq!(need.buy[0].metres(), "5.3 m");
    near(need.draw_up.upper, 4175.75, 0.01);
    assert_eq!(need.draw_up.percent(), "18.4 %");
    assert_eq!(need.working[0], "5118.23 mm x 1.020 + 50.0 mm for the overlap = 5270.6 mm");
    assert_eq!(need.working.last().unwrap(), "to buy: 5270.6 mm, so 5.3 m");
    assert!(need.warnings[0].contains("draw in by 942.5 mm (18.4 %)"), "{}", need.warnings[0]);
    assert!(need.warnings[0].contains("draw thread"));
}

/// 5118.23 / 1076 = 4.76: 5 strips 174 deep, 870 of cloth; a straight strip has 942 to lose at the top.
#[test]
fn s1_facing_takes_five_strips_and_warns_of_the_straight_one() {
    let need = one(s1(), facing(FacingCut::Straight));
    let strips = need.strips.unwrap();
    assert_eq!((strips.count, strips.joins), (5, 5));
    near(strips.cloth, 870.0, 1e-9);
    assert_eq!(
        need.warnings,
        ["A straight strip would have 942.5 mm (18.4 %) to lose at the top: cut it on the bias or shaped."]
    );
}

/// 5118.23 / 15 = 341.2: 341 pleats of 15.01; strip 15354.69; 15354.69 / 1360 = 11.29: 12 strips cut 60, 720 of cloth.
#[test]
fn s1_knife_pleats_come_out_whole() {
    let need = one(s1(), Kind::Pleats(knife(15.0, 60.0, cloth(1380.0, 10.0))));
    let pleats = need.pleats.unwrap();
    assert_eq!(pleats.count, 341);
    near(pleats.visible, 15.01, 0.005);
    near(need.length, 15354.69, 0.05);
    let strips = need.strips.unwrap();
    assert_eq!((strips.count, strips.joins), (12, 12));
    near(strips.cloth, 720.0, 1e-9);
    near(need.edges_to_finish.unwrap(), 2.0 * 15354.69, 0.1);
    assert_eq!(need.buy[0].metres(), "0.8 m");
}

// Facts of the trade --------------------------------------------------------------------------------------------------

/// Common practice, no source: a hem of 270 in takes two rows of knife-pleat trim at three times the hem, 1620 in (41.1 m)
/// in all, 30 strips of 54 in before joins are counted.
#[test]
fn two_rows_of_pleats_on_a_hem_of_270_inches_take_30_strips() {
    let rows = |join| Kind::Pleats(Pleats { rows: 2, ..knife(25.4, 60.0, cloth(54.0 * 25.4, join)) });
    let need = one(straight(Mm::INCH * 270.0), rows(0.0));
    near(need.length, 1620.0 * 25.4, 1e-6);
    assert_eq!(format!("{:.1}", need.length.get() / 1000.0), "41.1");
    assert_eq!(need.strips.unwrap().count, 30);
    // With 10 mm at each end a strip adds 1351.6: 20574 / 1351.6 = 15.22, so 16 for each row.
    assert_eq!(one(straight(Mm::INCH * 270.0), rows(10.0)).strips.unwrap().count, 32);
}

/// Common practice, no source: facing and 6 in braid follow the hem line and reach 6 in up.
#[test]
fn braid_of_six_inches_reaches_six_inches_up() {
    let deep = Kind::Braid(Braid { depth: Mm::INCH * 6.0, ease: 0.0, overlap: Mm::ZERO, draw_thread: DrawThread::Yes });
    let need = one(s1(), deep);
    assert_eq!(need.heights, (Mm::ZERO, Mm::INCH * 6.0));
    near(need.length, s1().length.get(), 1e-9);
}

/// A teaching page's table: multipliers 2, 3, 4, 5 for underfold / visible 0.5, 1, 1.5, 2 (closed form 1 + 2 u / s).
#[test]
fn pleat_fullness_follows_the_published_multipliers() {
    for (underfold, times) in [(0.5, 2.0), (1.0, 3.0), (1.5, 4.0), (2.0, 5.0)] {
        let kind = Kind::Pleats(Pleats { underfold, ..knife(20.0, 60.0, cloth(1400.0, 10.0)) });
        near(one(straight(mm(1000.0)), kind).length, 1000.0 * times, 1e-9);
    }
}

/// Box pleats whose folds meet behind them take three times their length too.
#[test]
fn full_box_pleats_take_three_to_one() {
    let pleats = Pleats { style: PleatStyle::Box, underfold: 0.5, ..knife(30.0, 60.0, cloth(1400.0, 10.0)) };
    let need = one(straight(mm(3000.0)), Kind::Pleats(pleats));
    near(need.length, 9000.0, 1e-9);
    assert_eq!(need.pleats.unwrap().count, 100);
}

/// Published examples: 15 in x 2.5 = 37.5 in (a sewing teacher's page, 2017), 20 in x 2.5 = 50 in (a calculator's page).
#[test]
fn ruffles_follow_the_published_examples() {
    for (line, strip) in [(15.0, 37.5), (20.0, 50.0)] {
        let ruffle = Ruffle { depth: mm(40.0), cut_depth: mm(60.0), fullness: 2.5, cloth: cloth(1100.0, 10.0) };
        let need = one(straight(Mm::INCH * line), Kind::Ruffle(ruffle));
        near(need.length, strip * 25.4, 1e-9);
        assert!(need.warnings.is_empty());
    }
}

/// Geometry: on a full circle the inner edge of a band of width w is shorter by 2 pi w, whatever the radius; 50 mm: 314 mm.
#[test]
fn the_inner_edge_of_a_band_round_a_circle_is_shorter_by_two_pi_widths() {
    for length in [1000.0, 5118.23, 9000.0] {
        let edge = Edge { length: mm(length), sweep: Radians::new(TAU), closed: true };
        let kind = Kind::Braid(Braid { depth: mm(50.0), ease: 0.0, overlap: Mm::ZERO, draw_thread: DrawThread::Yes });
        near(one(edge, kind).draw_up.excess(), 314.159, 0.001);
    }
}

// Strips --------------------------------------------------------------------------------------------------------------

#[test]
fn an_exact_number_of_strips_is_not_rounded_up_by_noise() {
    // 0.1 + 0.2 style sums: 3 x 1360.1 / 1360.1 must stay 3.
    let ruffle = Ruffle { depth: mm(40.0), cut_depth: mm(60.0), fullness: 3.0, cloth: cloth(1380.1, 10.0) };
    assert_eq!(one(straight(mm(1360.1)), Kind::Ruffle(ruffle)).strips.unwrap().count, 3);
}

#[test]
fn an_open_hem_has_one_join_fewer() {
    let open = Edge { closed: false, ..s1() };
    let strips = one(open, facing(FacingCut::Straight)).strips.unwrap();
    assert_eq!((strips.count, strips.joins), (5, 4));
}

/// Worked by hand: cloth 1100 with joins of 12: a bias strip adds (1100 - 24) x 1.41421 = 1521.69; 5118.23 / 1521.69 = 3.36:
/// 4 strips; 4 x 174 x 1.41421 + 1100 = 2084.3 of cloth.
#[test]
fn bias_strips_run_from_selvedge_to_selvedge() {
    let need = one(s1(), facing(FacingCut::Bias));
    let strips = need.strips.unwrap();
    near(strips.each_adds, 1076.0 * SQRT_2, 1e-9);
    assert_eq!(strips.count, 4);
    near(strips.cloth, 2084.3, 0.05);
    assert!(need.warnings[0].contains("more than bias cloth takes"), "18.4 % is too much");
}

/// Pieces of the ring, checked by laying them out: neighbours do not overlap, all are on the cloth, and fewer or more
/// pieces take no less.
#[test]
fn shaped_pieces_stack_without_overlap() {
    let need = one(s1(), facing(FacingCut::Shaped));
    let strips = need.strips.unwrap();
    let radius = s1().length.get() / TAU;
    let (outer, inner, half) = (radius + 12.0, radius - 162.0, PI / f64::from(strips.count));
    assert!(2.0 * outer * half.sin() + 24.0 <= 1100.0);
    // Walk the lower piece's outer edge: the next piece, one step up, must lie above it at every x.
    let first = outer - inner * half.cos();
    let step = (strips.cloth.get() - first) / f64::from(strips.count - 1);
    let mut least = f64::INFINITY;
    for k in -1000..=1000 {
        let x = inner * half.sin() * f64::from(k) / 1000.0;
        let (lower_edge_of_next, upper_edge) = ((inner * inner - x * x).sqrt() + step, (outer * outer - x * x).sqrt());
        least = least.min(lower_edge_of_next - upper_edge);
    }
    assert!((-1e-6..1e-6).contains(&least), "pieces {least} mm apart at the tightest");
    near(strips.each_adds * f64::from(strips.count), s1().length.get(), 1e-6);
    assert!(need.warnings.is_empty(), "a shaped facing has nothing to lose");
}

#[test]
fn a_shaped_facing_of_a_straight_band_is_a_straight_strip() {
    let shaped = one(straight(mm(5000.0)), facing(FacingCut::Shaped)).strips;
    assert_eq!(shaped, one(straight(mm(5000.0)), facing(FacingCut::Straight)).strips);
}

// Lace, binding, piping -----------------------------------------------------------------------------------------------

#[test]
fn gathered_lace_takes_its_fullness_and_flat_lace_warns_on_a_curve() {
    let lace = |fullness| Kind::Lace(Lace { depth: mm(60.0), fullness, overlap: mm(50.0) });
    near(one(straight(mm(4000.0)), lace(1.5)).length, 6050.0, 1e-9);
    assert!(one(straight(mm(4000.0)), lace(1.0)).warnings.is_empty());
    let curved = one(s1(), lace(1.0));
    assert!(curved.warnings[0].contains("must lose 377.0 mm (7.4 %)"), "{}", curved.warnings[0]);
}

/// Worked by hand: finished 10, cut 40 on the bias; (1100 - 24) x 1.41421 = 1521.69; 5168.23 / 1521.69 = 3.40: 4 strips;
/// 4 x 40 x 1.41421 + 1100 = 1326.3.
#[test]
fn binding_is_cut_four_times_its_finished_width() {
    let binding = Binding { finished: mm(10.0), folds: 4.0, overlap: mm(50.0), cloth: Some(cloth(1100.0, 12.0)) };
    let need = one(s1(), Kind::Binding(binding));
    near(need.length, 5168.23, 0.01);
    near(need.strips.unwrap().cut_width, 40.0, 1e-9);
    assert_eq!(need.strips.unwrap().count, 4);
    near(need.strips.unwrap().cloth, 1326.3, 0.05);
}

/// Worked by hand: cord 4, allowance 15: 4 pi + 30 = 42.57.
#[test]
fn a_piping_cover_goes_once_round_the_cord() {
    let piping = Piping { cord: mm(4.0), allowance: mm(15.0), overlap: mm(50.0), cloth: cloth(1100.0, 12.0) };
    let need = one(s1(), Kind::Piping(piping));
    near(need.strips.unwrap().cut_width, 42.566, 0.001);
    let goods: Vec<_> = need.buy.iter().map(|buy| (buy.goods, buy.metres())).collect();
    assert_eq!(goods, [(Goods::Cloth, "1.4 m".to_string()), (Goods::Cord, "5.2 m".to_string())]);
}

// Money, weight, zones, windows ----------------------------------------------------------------------------------------

/// 5.3 m at 2.40 = 12.72; 5270.6 mm at 30 g a metre = 158.1 g.
#[test]
fn price_goes_by_what_is_bought_and_weight_by_what_is_used() {
    let priced = TrimWish { price: Some(2.4), weight: Some(30.0), ..wish(braid(DrawThread::Yes)) };
    let need = needs(s1(), Garments::One, &[priced]).unwrap().remove(0);
    assert!((need.cost.unwrap() - 12.72).abs() < 1e-9);
    assert!((need.grams.unwrap() - 158.1).abs() < 0.05);
    assert_eq!(one(s1(), braid(DrawThread::Yes)).cost, None);
}

/// A pair takes two runs of 5270.6 = 10541.2, rounded up once: 10.6 m at 2.40 = 25.44, and twice the grams and the sewing.
/// Five straight strips for each of two facings, joined by itself, are ten with ten joins and 1740 of cloth. On the bias the
/// corner of the cloth is lost once: strips of 174 take 174 x 1.4142 = 246.07 each, and 1100 once.
#[test]
fn a_pair_takes_everything_twice_and_rounds_up_what_is_bought_once() {
    let both = |wish: TrimWish| needs(s1(), Garments::MirroredPair, &[wish]).unwrap().remove(0);
    let priced = TrimWish { price: Some(2.4), weight: Some(30.0), ..wish(braid(DrawThread::Yes)) };
    let single = needs(s1(), Garments::One, std::slice::from_ref(&priced)).unwrap().remove(0);
    let pair = both(priced);
    near(pair.length, 5270.6, 0.05);
    assert_eq!(pair.buy[0].metres(), "10.6 m");
    assert!((pair.cost.unwrap() - 25.44).abs() < 1e-9);
    assert!((pair.grams.unwrap() - 316.236).abs() < 0.05);
    for (one, two) in single.labour.iter().zip(&pair.labour) {
        assert!(one.rate == two.rate && (two.amount - 2.0 * one.amount).abs() < 1e-12);
    }
    assert_eq!(pair.working.last().unwrap(), "to buy for both: 2 x 5270.59 mm = 10541.19 mm, so 10.6 m");

    let strips = both(wish(facing(FacingCut::Straight))).strips.unwrap();
    assert_eq!((strips.count, strips.joins), (10, 10));
    near(strips.cloth, 1740.0, 1e-6);
    let (single, two) = (one(s1(), facing(FacingCut::Bias)).strips.unwrap(), both(wish(facing(FacingCut::Bias))));
    let strips = two.strips.unwrap();
    assert_eq!((strips.count, strips.joins), (2 * single.count, 2 * single.joins));
    near(strips.cloth, f64::from(strips.count) * 246.073 + 1100.0, 0.02);
    assert_eq!(two.buy[0].needed, strips.cloth);
    // Shaped pieces of both lie in one stack: less cloth than for two, and more than for one and a half.
    let shaped =
        |garments| needs(s1(), garments, &[wish(facing(FacingCut::Shaped))]).unwrap().remove(0).strips.unwrap();
    let (one, two) = (shaped(Garments::One), shaped(Garments::MirroredPair));
    assert_eq!(two.count, 2 * one.count);
    assert!(two.cloth < one.cloth * 2.0 && two.cloth > one.cloth * 1.5, "{} {}", one.cloth, two.cloth);
}

#[test]
fn a_trim_with_a_material_is_a_zone_of_its_own_depth() {
    let plain = wish(braid(DrawThread::Yes));
    assert_eq!(plain.zone(), None);
    let zone = TrimWish { material: Some("nylon-braid".into()), ..plain }.zone().unwrap();
    assert_eq!(zone.heights, (Mm::ZERO, mm(150.0)));
    assert_eq!((zone.along, zone.state), (None, ZoneState::InPlace), "unsaid means in place, the hotter case");
}

#[test]
fn windows_lie_between_the_trims_that_are_seen() {
    let pleats = TrimWish { name: "pleats".into(), ..wish(Kind::Pleats(knife(15.0, 60.0, cloth(1380.0, 10.0)))) };
    let lace = Kind::Lace(Lace { depth: mm(30.0), fullness: 1.0, overlap: mm(50.0) });
    let lace = TrimWish { name: "lace".into(), height: mm(200.0), ..wish(lace) };
    let hidden = TrimWish { side: Side::Wrong, ..wish(braid(DrawThread::Yes)) };
    let found = windows(&[lace, hidden, pleats]);
    let ends: Vec<_> = found.iter().map(|window| (window.from.get(), window.to.map(Mm::get))).collect();
    assert_eq!(ends, [(50.0, Some(200.0)), (230.0, None)]);
    assert_eq!((found[0].above.as_deref(), found[0].below.as_deref()), (Some("pleats"), Some("lace")));
    assert!(found[0].holds(mm(60.0), mm(190.0)) && !found[0].holds(mm(40.0), mm(190.0)));
}

/// A motif of 60 at 60 above the hem reaches from 30 to 90; pleats lie from 0 to 50, braid is behind the cloth.
#[test]
fn a_motif_that_reaches_under_a_trim_is_told_by_how_much() {
    let pleats = TrimWish { name: "pleats".into(), ..wish(Kind::Pleats(knife(15.0, 60.0, cloth(1380.0, 10.0)))) };
    let hidden = TrimWish { side: Side::Wrong, ..wish(braid(DrawThread::Yes)) };
    let placement = Placement {
        id: "CF".into(),
        motif: "poppy".into(),
        hand: Hand::AsDrawn,
        scale: 1.0,
        s_line: Mm::ZERO,
        s_hem: Mm::ZERO,
        height: mm(60.0),
        at: Point::new(0.0, -60.0),
        turn: Radians::new(0.0),
    };
    let band = BandSetting {
        name: "band 1".into(),
        height: mm(60.0),
        line: mm(4000.0),
        count: 1,
        repeat: mm(4000.0),
        gap_along: mm(3940.0),
        clear_gap: None,
        on_cf: Lands::Motif,
        on_cb: Lands::Gap,
        placements: vec![placement],
        in_corners: 0,
        clashes: vec![],
        remedies: vec![],
        reasons: vec![],
    };
    let setting = Setting { bands: vec![band], findings: vec![] };
    let poppy = Motif { name: "poppy".into(), layers: vec![], width: mm(60.0), height: mm(60.0) };
    let found = hidden_motifs(&[pleats, hidden], &setting, &BTreeMap::from([("poppy".to_string(), poppy)]));
    let said: Vec<_> = found.iter().map(|finding| finding.say.as_str()).collect();
    assert_eq!(
        said,
        [
            "band 1: \"poppy\" reaches from 30.0 mm to 90.0 mm above the hem, into the pleats from 0.0 mm to 50.0 mm: they share 20.0 mm."
        ]
    );
}

// What cannot be worked out ----------------------------------------------------------------------------------------------

#[test]
fn every_trim_that_cannot_be_worked_out_is_named() {
    let small = Edge { length: mm(600.0), sweep: Radians::new(TAU), closed: true };
    let narrow = Kind::Facing(Facing {
        depth: mm(10.0),
        allowance: mm(12.0),
        cut: FacingCut::Straight,
        cloth: cloth(20.0, 12.0),
    });
    let flat = Kind::Lace(Lace { depth: mm(10.0), fullness: 0.5, overlap: mm(50.0) });
    let none = Kind::Pleats(knife(0.0, 60.0, cloth(1380.0, 10.0)));
    let faults =
        needs(small, Garments::One, &[wish(braid(DrawThread::Yes)), wish(narrow), wish(flat), wish(none)]).unwrap_err();
    let said: Vec<_> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "the trim reaches 150.0 mm up, but the lines of this hem end at 95.5 mm",
            "the trim: the cloth is 20.0 mm wide between selvedges and 24.0 mm of it are needed",
            "fullness of the trim is 0.5, it must be more than 0.99",
            "visible width of the trim is 0.0 mm, it must be more than 0 mm",
        ]
    );
    assert!(faults.iter().all(|fault| !fault.hint().is_empty()));
}

#[test]
fn absurd_counts_are_refused_in_no_time() {
    let pleats = Pleats { rows: u32::MAX, ..knife(15.0, 60.0, cloth(1380.0, 10.0)) };
    assert!(matches!(
        needs(s1(), Garments::One, &[wish(Kind::Pleats(pleats))]).unwrap_err()[0],
        TrimError::TooMany { what: "rows", .. }
    ));
    let pleats = knife(0.000_1, 60.0, cloth(1380.0, 10.0));
    assert!(matches!(
        needs(s1(), Garments::One, &[wish(Kind::Pleats(pleats))]).unwrap_err()[0],
        TrimError::TooMany { what: "pleats", .. }
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn strips_are_enough_and_not_one_too_many(
        length in 300.0..20_000.0_f64, fullness in 1.0..5.0_f64, usable in 300.0..1500.0_f64, join in 0.0..20.0_f64,
    ) {
        let ruffle = Ruffle { depth: mm(40.0), cut_depth: mm(60.0), fullness, cloth: cloth(usable, join) };
        let strips = one(straight(mm(length)), Kind::Ruffle(ruffle)).strips.unwrap();
        let joined = |count: u32| f64::from(count) * (usable - 2.0 * join);
        prop_assert!(joined(strips.count) >= length * fullness - 1e-6);
        prop_assert!(strips.count == 1 || joined(strips.count - 1) < length * fullness);
    }

    #[test]
    fn pleats_fill_the_line_exactly_and_stay_near_the_wish(length in 300.0..20_000.0_f64, visible in 5.0..60.0_f64) {
        let pleats = one(straight(mm(length)), Kind::Pleats(knife(visible, 60.0, cloth(1400.0, 10.0)))).pleats.unwrap();
        prop_assert!((pleats.visible.get() * f64::from(pleats.count) - length).abs() < 1e-6);
        prop_assert!((pleats.visible.get() - visible).abs() <= visible / 2.0 / f64::from(pleats.count) + 1e-9);
    }

    #[test]
    fn shaped_pieces_never_exceed_the_cloth(length in 2000.0..12_000.0_f64, part in 0.25..1.0_f64, usable in 700.0..1500.0_f64) {
        let edge = Edge { length: mm(length), sweep: Radians::new(TAU * part), closed: true };
        let kind = Kind::Facing(Facing {
            depth: mm(80.0), allowance: mm(10.0), cut: FacingCut::Shaped, cloth: cloth(usable, 10.0),
        });
        let strips = one(edge, kind).strips.unwrap();
        let (radius, half) = (length / (TAU * part) + 10.0, PI * part / f64::from(strips.count));
        prop_assert!(2.0 * radius * half.sin() + 20.0 <= usable + 1e-9);
        prop_assert!(strips.cloth.get() * usable >= 100.0 * length * 0.9, "less cloth than the pieces' own area");
    }
}
