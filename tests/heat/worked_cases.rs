//! Worked cases: what the maker is told before she closes the press.

use hemwright::art::Motif;
use hemwright::film::Layering;
use hemwright::hem::HemWish;
use hemwright::place::{BandWish, Spacing};
use hemwright::press::{HeatRisk, Outcome, Tested, Verdict, What, ZoneState};
use hemwright::quantity::{Celsius, Seconds};

use crate::skirt::{Skirt, band, flower, full_circle, setup, with_side_seams};

fn of<'a>(risks: &'a [HeatRisk], material: &str) -> &'a HeatRisk {
    risks.iter().find(|risk| risk.material == material).unwrap_or_else(|| panic!("no risk for {material}: {risks:#?}"))
}

fn gravest(risks: &[HeatRisk]) -> Outcome {
    risks.iter().map(|risk| risk.outcome).max().unwrap_or(Outcome::Go)
}

/// Nylon braid 150 deep turned up behind flowers pressed at 150 C: its label class is 110 (source 56).
#[test]
fn nylon_braid_turned_up_behind_the_motifs_is_stopped_until_moved() {
    let skirt = Skirt::s1("cotton").with_zone("stiff braid", "nylon braid", (0.0, 150.0), ZoneState::InPlace);
    assert_eq!(skirt.plan().1[0].material, "unknown", "a name the tables do not know counts as unknown");
    let skirt = Skirt::s1("cotton").with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::InPlace);
    let (plan, risks) = skirt.plan();
    let braid = of(&risks, "braid-nylon");
    assert_eq!(braid.outcome, Outcome::MoveFirst);
    assert_eq!((braid.limit, braid.press), (Celsius::new(110.0), Celsius::new(150.0)));
    assert_eq!(braid.closures.len(), 15, "every closing");
    assert!(
        braid.say.contains("tiff braid") && braid.say.contains("110 C") && braid.say.contains("150 C"),
        "{}",
        braid.say
    );
    assert!(braid.source.contains("58"), "{}", braid.source);
    assert!(plan.checklist.iter().any(|line| line.contains("stiff braid")));
}

#[test]
fn the_same_braid_sewn_on_later_passes_and_the_order_is_stated() {
    let skirt = Skirt::s1("cotton").with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::SewnOnLater);
    let (plan, risks) = skirt.plan();
    assert_eq!(of(&risks, "braid-nylon").outcome, Outcome::Go);
    assert_eq!(gravest(&risks), Outcome::Go);
    let place =
        |word: &str| plan.order_of_work.iter().position(|step| step.contains(word)).unwrap_or_else(|| panic!("{word}"));
    assert!(place("Round 1") < place("Sew on stiff braid"));
    assert!(plan.order_of_work.iter().any(|step| step.contains("at most at 110 C")));
}

/// Folded down from the hem edge the braid hangs where a plate that reaches over the edge would come down on it; the box to
/// tick says so, and the plate is put as high as the flowers allow.
#[test]
fn the_same_braid_folded_away_passes_with_a_box_to_tick() {
    let skirt = Skirt::s1("cotton").with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::FoldedAway);
    let (plan, risks) = skirt.plan();
    assert_eq!(of(&risks, "braid-nylon").outcome, Outcome::Go);
    let ticked = |start: &str| plan.checklist.iter().any(|line| line.starts_with(start));
    assert!(ticked("Each closure: stiff braid is folded away"));
    assert!(ticked("Closures 1 to 15: the plate hangs over the hem edge; stiff braid"));
    let (plain, _) = Skirt::s1("cotton").plan();
    let raised = plan.closures[0].height - plain.closures[0].height;
    assert!(raised.get() > 50.0, "raised by {raised}");
}

/// A plate hardly wider than one flower, on a line high above the hem, stays clear of what hangs from the edge.
#[test]
fn a_plate_that_stops_above_the_hem_has_nothing_folded_beneath_it() {
    let skirt =
        Skirt::new(&full_circle(), flower(110.0, 1), &[band(110.0, Spacing::Count(20))], &["smooth"], setup("cotton"));
    let mut skirt = skirt.with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::FoldedAway);
    skirt.setup.plate.0 = hemwright::quantity::mm(140.0);
    let (plan, risks) = skirt.plan();
    assert!(of(&risks, "braid-nylon").closures.is_empty());
    assert!(!plan.checklist.iter().any(|line| line.starts_with("Closures")));
}

/// Copolyester resin melts from 105 (source 45); a press at 150 melts it again.
#[test]
fn a_cotton_facing_with_polyester_resin_warns_of_melting_again() {
    let skirt =
        Skirt::s1("cotton").with_zone("facing", "cotton + interfacing-copolyester", (0.0, 60.0), ZoneState::InPlace);
    let risks = skirt.plan().1;
    let facing = of(&risks, "interfacing-copolyester");
    assert_eq!(facing.outcome, Outcome::ClothAndTest);
    assert_eq!(facing.limit, Celsius::new(105.0));
    assert!(facing.say.contains("melts again") && facing.advice.contains("cold"), "{} {}", facing.say, facing.advice);
    assert!(risks.iter().all(|risk| risk.material != "cotton"), "cotton at 150 needs no word");
}

#[test]
fn silk_asks_for_dry_heat_a_cloth_and_a_test() {
    let (plan, risks) = Skirt::s1("silk dupioni").plan();
    let silk = of(&risks, "silk-dupion");
    assert_eq!(silk.outcome, Outcome::ClothAndTest);
    assert!(
        silk.advice.contains("Dry heat") && silk.advice.contains("press cloth") && silk.advice.contains("test piece")
    );
    assert!(plan.checklist.iter().any(|line| line.starts_with("Dry heat only")));
}

#[test]
fn glitter_on_silk_is_too_hot_and_stops() {
    // Glitter wants at least 155 [80]; silk stands 150 by the 2012 label [56], 160 by the 2023 one [57].
    let mut skirt = Skirt::s1_in("silk", "glitter");
    assert_eq!(of(&skirt.plan().1, "silk").outcome, Outcome::Stop);
    skirt.setup.label_2023 = true;
    assert_eq!(of(&skirt.plan().1, "silk").outcome, Outcome::ClothAndTest);
}

#[test]
fn cotton_under_smooth_film_goes() {
    assert_eq!(gravest(&Skirt::s1("cotton").plan().1), Outcome::Go);
}

#[test]
fn nothing_unknown_or_delicate_ever_passes_in_silence() {
    let cloths =
        ["unknown", "nylon", "acetate", "cotton + elastane", "polyester", "coated-cloth", "silk", "gossamer", "wool"];
    for cloth in cloths {
        for class in ["smooth", "smooth-low", "nylon-film"] {
            let risks = Skirt::s1_in(cloth, class).plan().1;
            assert!(gravest(&risks) > Outcome::Go, "{cloth} under {class}");
        }
    }
    let zones = ["set-stones", "sequins", "metallic-braid", "interfacing", "elastic", "gossamer"];
    for zone in zones {
        let skirt = Skirt::s1_in("cotton", "smooth-low").with_zone("trim", zone, (0.0, 40.0), ZoneState::InPlace);
        assert!(gravest(&skirt.plan().1) > Outcome::Go, "{zone}");
    }
}

#[test]
fn a_zone_out_of_the_plates_reach_is_no_risk() {
    let skirt = Skirt::s1("cotton").with_zone("waist tape", "elastic", (600.0, 640.0), ZoneState::InPlace);
    assert_eq!(gravest(&skirt.plan().1), Outcome::Go);
}

#[test]
fn a_zip_at_centre_back_concerns_only_the_closings_there() {
    let mut skirt = Skirt::s1("cotton").with_zone("zip", "zip", (0.0, 200.0), ZoneState::InPlace);
    let half = skirt.hem.length() * 0.5;
    let wide = hemwright::quantity::mm(15.0);
    skirt.zones[0].along = Some((half - wide, half + wide));
    let zip = of(&skirt.plan().1, "zip-coil").clone();
    assert_eq!(zip.outcome, Outcome::MoveFirst);
    assert!((1..=2).contains(&zip.closures.len()), "{:?}", zip.closures);
    // The same place named from the other side of centre back.
    skirt.zones[0].along = Some((-half - wide, -half + wide));
    assert_eq!(of(&skirt.plan().1, "zip-coil").closures, zip.closures);
}

#[test]
fn seams_under_the_plate_ask_for_a_pad() {
    let wish: HemWish = with_side_seams(full_circle());
    let skirt = Skirt::new(&wish, flower(110.0, 1), &[band(75.0, Spacing::Count(30))], &["smooth"], setup("cotton"));
    let risks = skirt.plan().1;
    let seam = of(&risks, "seam");
    assert_eq!(seam.outcome, Outcome::ClothAndTest);
    assert!(seam.advice.contains("pressing pad"));
}

#[test]
fn film_on_glitter_and_heat_above_a_lower_film_are_told() {
    let layered = |classes: &[&str], layering: Layering| {
        let bands = [band(75.0, Spacing::Count(30))];
        Skirt::layered(&full_circle(), flower(110.0, 2), &bands, classes, setup("cotton"), layering)
    };
    let risks = layered(&["glitter", "smooth"], Layering::Stack).plan().1;
    assert_eq!(of(&risks, "glitter").outcome, Outcome::Stop);
    let risks = layered(&["glitter", "smooth"], Layering::KnockOut).plan().1;
    assert!(
        risks.iter().all(|risk| !risk.rules.contains(&"film-top-only")),
        "cut away, nothing lies on it: {risks:#?}"
    );
    let risks = layered(&["smooth-low", "glitter"], Layering::Stack).plan().1;
    let low = of(&risks, "smooth-low");
    assert_eq!(low.outcome, Outcome::ClothAndTest);
    assert_eq!((low.limit, low.press), (Celsius::new(135.0), Celsius::new(160.0)));
}

/// Each film is pressed within its own window: low-temperature film at 120, glitter at 160 [80], hottest first.
#[test]
fn films_without_a_common_window_are_pressed_apart_each_at_its_own_heat() {
    let layered = Skirt::new(
        &full_circle(),
        flower(110.0, 2),
        &[band(75.0, Spacing::Count(30))],
        &["smooth-low", "glitter"],
        setup("cotton"),
    );
    let (plan, _) = layered.plan();
    let rounds: Vec<(u32, f64)> = plan.rounds.iter().map(|r| (r.closures, r.temperature.get())).collect();
    assert_eq!(rounds, [(15, 120.0), (15, 160.0)]);
    // The same two classes on two bands of single flowers: no place is shared, glitter is pressed before the cooler film.
    let buds = BandWish { name: "buds".into(), motifs: vec!["bud".into()], ..band(190.0, Spacing::Count(12)) };
    let bands = [band(75.0, Spacing::Count(12)), buds];
    let bud = Motif { name: "bud".into(), ..flower(40.0, 1) };
    let motifs: [(Motif, &[&str]); 2] = [(flower(60.0, 1), &["glitter"]), (bud, &["smooth-low"])];
    let skirt = Skirt::of_motifs(&full_circle(), &motifs, &bands, setup("cotton"), Layering::Auto);
    let (plan, risks) = skirt.plan();
    let heats: Vec<f64> = plan.rounds.iter().map(|r| r.temperature.get()).collect();
    assert_eq!(heats, [160.0, 120.0]);
    assert!(risks.iter().all(|risk| risk.rules != ["too-cool"]));
    assert!(
        plan.order_of_work.iter().any(|step| step.starts_with("Round 1") && step.contains("glitter film at 160 C"))
    );
}

#[test]
fn film_too_cool_to_bond_is_stopped_with_the_way_out() {
    let mut skirt = Skirt::s1_in("cotton", "glitter");
    skirt.setup.temperature = Some(Celsius::new(135.0));
    let risks = skirt.plan().1;
    let glitter = of(&risks, "glitter");
    assert_eq!((glitter.outcome, glitter.rules.as_slice()), (Outcome::Stop, &["too-cool"][..]));
    assert!(
        glitter.say.contains("155 C") && glitter.advice.contains("own window"),
        "{} {}",
        glitter.say,
        glitter.advice
    );
    skirt.setup.tested =
        Some(Tested { temperature: Celsius::new(135.0), dwell: Seconds::new(15.0), verdict: Verdict::Held });
    assert_eq!(gravest(&skirt.plan().1), Outcome::Go, "its own sheet and a test came first");
    // Among several films the job's temperature counts for those whose window holds it; the others are told of.
    let layers = ["smooth", "glitter"];
    let bands = [band(75.0, Spacing::Count(30))];
    let mut skirt = Skirt::new(&full_circle(), flower(110.0, 2), &bands, &layers, setup("cotton"));
    skirt.setup.temperature = Some(Celsius::new(145.0));
    let (plan, risks) = skirt.plan();
    let heats: Vec<f64> = plan.rounds.iter().map(|r| r.temperature.get()).collect();
    assert_eq!(heats, [145.0, 160.0]);
    assert_eq!(of(&risks, "glitter").rules, ["own-window"]);
}

#[test]
fn the_same_thing_is_said_once_of_several_seams() {
    let wish: HemWish = with_side_seams(full_circle());
    let skirt = Skirt::new(&wish, flower(110.0, 1), &[band(75.0, Spacing::Count(30))], &["smooth"], setup("cotton"));
    let risks = skirt.plan().1;
    assert_eq!(risks.iter().filter(|risk| risk.material == "seam").count(), 1);
    let seams = of(&risks, "seam");
    assert!(seams.layer.starts_with("left side seam and right side seam ("), "{}", seams.layer);
    assert!(seams.say.starts_with("Left side seam and right side seam"), "{}", seams.say);
}

#[test]
fn what_is_sewn_on_later_says_so_first() {
    let skirt = Skirt::s1("cotton").with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::SewnOnLater);
    assert!(of(&skirt.plan().1, "braid-nylon").say.starts_with("Sewn on later: stiff braid"));
}

#[test]
fn raised_film_under_a_neighbours_plate_is_told() {
    let risks = Skirt::s1_in("cotton", "puff").plan().1;
    let puff = of(&risks, "puff");
    assert_eq!(puff.outcome, Outcome::MoveFirst);
    assert!(puff.say.contains("must not be pressed again"));
}

#[test]
fn facing_already_sewn_shuts_out_braid_that_is_to_come_later() {
    let skirt = Skirt::s1("cotton").with_zone("facing", "cotton", (0.0, 150.0), ZoneState::InPlace).with_zone(
        "stiff braid",
        "braid",
        (0.0, 120.0),
        ZoneState::SewnOnLater,
    );
    let risks = skirt.plan().1;
    let braid = of(&risks, "braid");
    assert_eq!(braid.outcome, Outcome::MoveFirst);
    assert!(braid.say.contains("facing") && braid.advice.contains("fold both away"), "{} {}", braid.say, braid.advice);
    // With the facing sewn on later too, the order fits: braid first, then facing.
    let skirt = Skirt::s1("cotton").with_zone("facing", "cotton", (0.0, 150.0), ZoneState::SewnOnLater).with_zone(
        "stiff braid",
        "braid",
        (0.0, 120.0),
        ZoneState::SewnOnLater,
    );
    let (plan, risks) = skirt.plan();
    assert_eq!(gravest(&risks), Outcome::Go);
    let place = |word: &str| plan.order_of_work.iter().position(|step| step.starts_with(word)).unwrap();
    assert!(place("Sew on stiff braid") < place("Sew on facing"));
    assert!(plan.order_of_work[place("Sew on stiff braid")].contains("its upper edge lies behind the motifs"));
}

#[test]
fn what_needs_heat_later_clashes_with_film_that_takes_none() {
    let skirt = Skirt::s1_in("cotton", "flock").with_zone("stones", "set-stones", (0.0, 20.0), ZoneState::SewnOnLater);
    assert!(of(&skirt.plan().1, "set-stones").rules.contains(&"order-heat-later"));
    let skirt = Skirt::s1("cotton").with_zone("stones", "set-stones", (0.0, 20.0), ZoneState::SewnOnLater);
    assert_eq!(of(&skirt.plan().1, "set-stones").outcome, Outcome::Go);
}

#[test]
fn a_seam_or_fused_interfacing_cannot_be_folded_away() {
    for material in ["seam", "interfacing-copolyamide"] {
        let skirt = Skirt::s1("cotton").with_zone("stay", material, (0.0, 60.0), ZoneState::FoldedAway);
        assert!(of(&skirt.plan().1, material).rules.contains(&"order-cannot-fold"), "{material}");
    }
    let skirt = Skirt::s1("cotton").with_zone("facing", "cotton + interfacing", (0.0, 60.0), ZoneState::FoldedAway);
    assert_eq!(gravest(&skirt.plan().1), Outcome::Go, "a facing with its interfacing folds away");
}

#[test]
fn a_common_window_is_found_with_what_binds_it() {
    let (plan, _) = Skirt::s1("silk").plan();
    // Smooth film 140 to 160 [80], silk 150 [56]: 140 to 150.
    let window = &plan.window;
    assert_eq!(window.temperature, Some((Celsius::new(140.0), Celsius::new(150.0))));
    assert_eq!(window.lower.as_ref().unwrap().item, "smooth polyurethane film");
    assert_eq!(window.upper.as_ref().unwrap().item, "the garment's cloth (silk)");
    assert!(window.remedies.is_empty());
    // Of the published equal settings 150/5, 140/8, 130/10, 120/15 only two lie inside.
    let points: Vec<(f64, f64)> = window.trade.iter().map(|(c, s)| (c.get(), s.get())).collect();
    assert_eq!(points, [(150.0, 5.0), (140.0, 8.0)]);
    assert!(window.trade_note.contains("nothing is to be read between"));
}

#[test]
fn without_a_common_window_remedies_come_gentlest_first() {
    let (plan, _) = Skirt::s1_in("silk", "glitter").plan();
    assert_eq!(plan.window.temperature, None);
    assert!(plan.window.say.contains("wants at least 155 C") && plan.window.say.contains("at most 150 C"));
    let starts: Vec<&str> = plan.window.remedies.iter().map(|r| r.split(' ').next().unwrap()).collect();
    assert_eq!(starts, ["Find", "Take", "Test", "Sew"], "{:#?}", plan.window.remedies);
    assert_eq!(plan.test_card.swatches.len(), 2, "only the film's lowest heat, short and long");
    let braid = Skirt::s1("cotton").with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::InPlace);
    assert!(braid.plan().0.window.remedies[0].starts_with("Fold stiff braid"));
    let films = Skirt::new(
        &full_circle(),
        flower(110.0, 2),
        &[band(75.0, Spacing::Count(30))],
        &["smooth-low", "glitter"],
        setup("cotton"),
    );
    assert!(films.plan().0.window.remedies[0].starts_with("Press glitter film first"));
}

#[test]
fn the_test_card_climbs_inside_the_window_and_its_result_feeds_back() {
    let mut skirt = Skirt::s1("silk");
    let (plan, _) = skirt.plan();
    let ladder: Vec<(f64, f64)> =
        plan.test_card.swatches.iter().map(|s| (s.temperature.get(), s.dwell.get())).collect();
    assert_eq!(ladder, [(140.0, 8.0), (140.0, 15.0), (150.0, 8.0), (150.0, 15.0)]);
    assert!(plan.test_card.stack.iter().any(|layer| layer.contains("(silk)")));
    let tested = |verdict| Tested { temperature: Celsius::new(140.0), dwell: Seconds::new(12.0), verdict };
    skirt.setup.tested = Some(tested(Verdict::Held));
    let (plan, risks) = skirt.plan();
    assert_eq!((plan.closures[0].temperature, plan.closures[0].parts.dwell), (Celsius::new(140.0), Seconds::new(12.0)));
    assert_eq!(
        plan.test_card.tested.as_deref(),
        Some("Your test at 140 C for 12 s: film held and nothing was marked.")
    );
    assert!(plan.checklist.iter().any(|line| line.starts_with("Your test at 140 C")));
    assert_eq!(gravest(&risks), Outcome::ClothAndTest, "silk is never passed in silence");
    skirt.setup.tested = Some(tested(Verdict::Marked));
    let (_, risks) = skirt.plan();
    assert_eq!(risks[0].rules, ["test-marked"]);
    assert_eq!(risks[0].outcome, Outcome::Stop);
    skirt.setup.tested = Some(Tested { temperature: Celsius::new(160.0), ..tested(Verdict::Lifted) });
    skirt.setup.dwell = Some(Seconds::new(12.0));
    assert_eq!(skirt.plan().1[0].rules, ["test-lifted"]);
}

#[test]
fn the_map_shows_what_lies_beneath_and_which_layer_is_weakest() {
    let skirt = Skirt::s1("cotton")
        .with_zone("facing", "cotton + interfacing-copolyester", (0.0, 60.0), ZoneState::InPlace)
        .with_zone("stiff braid", "braid-nylon", (0.0, 150.0), ZoneState::SewnOnLater);
    let (plan, _) = skirt.plan();
    assert_eq!(plan.map.kinds.len(), 1);
    let kind = &plan.map.kinds[0];
    assert_eq!(kind.closures.len(), 15);
    assert_eq!(kind.name, "round 1, 2 motifs, over facing");
    let weakest: Vec<&str> = kind.side.iter().filter(|layer| layer.weakest).map(|layer| layer.name.as_str()).collect();
    assert_eq!(weakest, ["facing (fusible interfacing with polyester resin)"]);
    assert!(kind.side.iter().any(|layer| layer.what == What::Away && layer.name.starts_with("stiff braid")));
    // From above, in plate millimetres: the flowers inside the trusted part, the facing reaching 60 up from the hem.
    let inside = |outline: &hemwright::geometry::Outline| {
        let b = outline.bounds();
        b.x0 >= -180.0 - 1e-6 && b.x1 <= 180.0 + 1e-6 && b.y0 >= -140.0 && b.y1 <= 140.0
    };
    assert_eq!(kind.top.pressed.len(), 2);
    assert!(kind.top.pressed.iter().all(inside));
    assert!(!kind.top.beside.is_empty());
    assert_eq!(kind.top.zones.iter().map(|zone| zone.name.as_str()).collect::<Vec<_>>(), ["facing", "stiff braid"]);
    let across = kind.top.hem.windows(2).map(|p| p[0].distance(p[1])).sum::<f64>();
    assert!(kind.top.zones[0].area.area() / across > 55.0);
}

#[test]
fn a_test_that_held_lets_nylon_be_pressed_with_care_and_vouches_for_no_more() {
    let mut skirt = Skirt::s1("nylon");
    assert_eq!(of(&skirt.plan().1, "nylon").outcome, Outcome::Stop, "smooth film wants 140 at least, nylon stands 110");
    skirt.setup.tested =
        Some(Tested { temperature: Celsius::new(140.0), dwell: Seconds::new(10.0), verdict: Verdict::Held });
    assert_eq!(of(&skirt.plan().1, "nylon").outcome, Outcome::ClothAndTest);
    skirt.setup.dwell = Some(Seconds::new(15.0));
    assert_eq!(of(&skirt.plan().1, "nylon").outcome, Outcome::Stop, "ten seconds say nothing of fifteen");
    skirt.setup.dwell = None;
    skirt.setup.temperature = Some(Celsius::new(150.0));
    assert_eq!(of(&skirt.plan().1, "nylon").outcome, Outcome::Stop, "140 says nothing of 150");
    // Film made for nylon: never silent, but not stopped either.
    assert_eq!(of(&Skirt::s1_in("nylon", "nylon-film").plan().1, "nylon").outcome, Outcome::ClothAndTest);
}

#[test]
fn an_unknown_cloth_is_asked_for_first() {
    let (plan, risks) = Skirt::s1("unknown").plan();
    assert_eq!(plan.window.temperature, None);
    assert!(plan.window.remedies[0].starts_with("Find out what the garment's cloth"), "{:?}", plan.window.remedies);
    let cloth = of(&risks, "unknown");
    assert_eq!((cloth.outcome, cloth.limit), (Outcome::ClothAndTest, Celsius::new(110.0)));
    assert!(cloth.advice.contains("test piece"));
}
