//! How often the press closes and how long it takes.

use hemwright::hem::{Ends, HemWish, Measurements};
use hemwright::place::Spacing;
use hemwright::press::verify::{self, PressFlaw};
use hemwright::press::{PressError, PressKind, PressPlan, PressedFilm, Setup, Tool, films_in_words};
use hemwright::quantity::{Seconds, mm};

use crate::skirt::{Skirt, band, circle, flower, full_circle, hem_length, setup};
use hemwright::data::tables;
use hemwright::film::Layering;
use hemwright::press::HeatRisk;

/// S1, worked by hand: a plate trusted on 360 takes two flowers (154.62 + 110 = 264.6), not three (417.5): 15 closings of
/// 5 + 15 + 40 s, 15 min.
#[test]
fn the_full_circle_skirt_takes_fifteen_presses_and_fifteen_minutes() {
    let (plan, _) = Skirt::s1("cotton").plan();
    assert_eq!(plan.closures.len(), 15);
    assert_eq!((plan.places, plan.places_at_least), (15, 15));
    assert!(plan.closures.iter().all(|closure| closure.placements.len() == 2));
    assert!((plan.total.get() - 900.0).abs() < 1e-9);
    assert_eq!(plan.total.to_string(), "15.0 min");
}

/// The wrong answer of a hasty count: a plate of 380 without its rim still takes only two; one of 440 would take three.
#[test]
fn a_wider_plate_takes_three() {
    let mut skirt = Skirt::s1("cotton");
    skirt.setup.plate.0 = mm(440.0);
    assert_eq!(skirt.plan().0.places, 10);
    skirt.setup.plate.0 = mm(437.0);
    assert_eq!(skirt.plan().0.places, 15, "417.5 does not go into 417");
}

/// S8, worked by hand: tack 3, tack 3, full 15; 5 pre-press once a place; 40 handling: 146 s x 15 = 2190 s = 36.5 min.
#[test]
fn three_layers_take_thirty_six_and_a_half_minutes() {
    let classes = ["smooth", "smooth", "smooth"];
    let skirt =
        Skirt::new(&full_circle(), flower(110.0, 3), &[band(75.0, Spacing::Count(30))], &classes, setup("cotton"));
    let (plan, _) = skirt.plan();
    assert_eq!(plan.closures.len(), 45);
    let seconds: Vec<f64> = [0, 15, 30].map(|k| plan.closures[k].seconds.get()).to_vec();
    assert_eq!(seconds, [48.0, 43.0, 55.0]);
    assert!((plan.total.get() - 2190.0).abs() < 1e-9);
    assert_eq!(plan.total.to_string(), "36.5 min");
    let kinds = |kind| plan.closures.iter().filter(|closure| closure.kind == kind).count();
    assert_eq!((kinds(PressKind::Tack), kinds(PressKind::Full), kinds(PressKind::Second)), (30, 15, 0));
}

/// A flower of three layers beside a leaf of one: the leaf is laid in the last round of its place, with the flower's third layer.
#[test]
fn every_film_of_a_closing_is_named_with_its_motif() {
    let classes = ["smooth", "flock", "glitter"];
    let skirt =
        Skirt::new(&full_circle(), flower(110.0, 3), &[band(75.0, Spacing::Count(30))], &classes, setup("cotton"));
    let (plan, _) = skirt.plan();
    for closure in &plan.closures {
        let (first, at) = (&closure.films[0], closure.layer as usize - 1);
        assert_eq!((closure.films.len(), first.layer, first.film.as_str()), (1, closure.layer, classes[at]));
    }
    let name = |layer: usize| format!("Film: {} on ", classes[layer]);
    for layer in 0..3 {
        let round = format!("Round {}", layer + 1);
        let said = plan.order_of_work.iter().any(|step| step.starts_with(&round) && step.contains(&name(layer)));
        assert!(said, "{:#?}", plan.order_of_work);
    }
    assert!(plan.map.kinds.iter().all(|kind| !kind.films.is_empty()));
    let mixed = [("gold", "key", 2), ("green", "leaf", 1), ("green", "bud", 1)]
        .map(|(film, motif, layer)| PressedFilm { film: film.to_owned(), motif: motif.to_owned(), layer });
    assert_eq!(films_in_words(&mixed, str::to_owned), "gold on key; green on leaf and bud");
}

/// Common practice, no source: a 270 in hem (6858 mm), a one-layer flower every 6 to 8 in, pressed one at a time, takes one
/// person about an hour and a half; between 30 and 180 minutes counts as agreeing.
#[test]
fn a_hem_of_270_inches_takes_between_half_an_hour_and_three() {
    let wish = HemWish {
        measurements: Measurements::Straight { length: mm(6858.0) },
        ends: Ends::Closed,
        seams: vec![],
        hung: vec![],
    };
    for inches in [6.0, 7.0, 8.0] {
        let gap = mm(inches * 25.4 - 60.0);
        let own = Setup { one_at_a_time: true, ..Setup::default() };
        let skirt = Skirt::new(&wish, flower(60.0, 1), &[band(75.0, Spacing::AtLeast(gap))], &["smooth"], own);
        assert!((hem_length(&skirt).get() - 6858.0).abs() < 1e-6);
        let (plan, _) = skirt.plan();
        assert_eq!(plan.places as usize, skirt.setting.bands[0].placements.len());
        let minutes = plan.total.minutes();
        assert!((30.0..=180.0).contains(&minutes), "{inches} in apart: {minutes} min");
        assert!((60.0..=120.0).contains(&minutes), "{inches} in apart: {minutes} min is far from an hour and a half");
    }
}

#[test]
fn every_hem_is_covered_and_checked_ring_or_open_cone_or_disc() {
    for fraction in [0.25, 0.5, 1.0, 1.5] {
        for count in [7, 12, 13] {
            let skirt = Skirt::new(
                &circle(fraction, 700.0, 600.0),
                flower(80.0, 2),
                &[band(90.0, Spacing::Count(count))],
                &["smooth", "glitter"],
                setup("cotton"),
            );
            let (plan, _) = skirt.plan();
            assert!(plan.places <= count);
        }
    }
}

#[test]
fn closings_are_numbered_in_working_order_and_neighbours_do_not_follow_each_other() {
    let (plan, _) = Skirt::s1("cotton").plan();
    assert!(plan.closures.iter().zip(1..).all(|(closure, number)| closure.number == number));
    for pair in plan.closures.windows(2) {
        let apart = pair[0].place.abs_diff(pair[1].place);
        assert!(apart.min(15 - apart) > 1, "place {} follows place {}", pair[1].place, pair[0].place);
    }
}

#[test]
fn a_film_that_asks_for_a_second_press_gets_one_round_more() {
    let (plan, _) = Skirt::s1_in("cotton", "printed-transfer").plan();
    assert_eq!(plan.closures.len(), 30);
    assert!(
        plan.closures[15..].iter().all(|closure| closure.kind == PressKind::Second && closure.placements.len() == 2)
    );
    assert!(plan.closures[15..].iter().all(|closure| closure.parts.dwell == Seconds::new(15.0)));
}

#[test]
fn a_motif_too_large_for_the_plate_is_refused_with_the_smallest_that_takes_it() {
    let mut skirt = Skirt::s1("cotton");
    skirt.setup.plate = (mm(120.0), mm(300.0));
    let error = skirt.try_plan().unwrap_err();
    let PressError::TooLarge { turned_fits, .. } = &error else { panic!("{error:?}") };
    assert!(!turned_fits);
    assert!(error.to_string().ends_with("up; the plate can be trusted on 100.0 mm x 280.0 mm"), "{error}");
    assert!(
        error.hint().starts_with("the smallest plate that would take it is 130.0 mm x 300.0 mm"),
        "{}",
        error.hint()
    );
    skirt.setup.rim = mm(60.0);
    let error = skirt.try_plan().unwrap_err();
    assert_eq!(error.to_string(), "a plate of 120.0 mm x 300.0 mm with a rim of 60.0 mm has no trusted part left");
}

/// A flower of 110 under an iron trusted on 80 x 130: two positions along the hem, one up; lifted, not slid.
#[test]
fn an_iron_presses_a_large_motif_in_parts_that_cover_it_together() {
    let mut skirt = Skirt::s1("cotton");
    skirt.setup.plate = (mm(110.0), mm(160.0));
    skirt.setup.rim = mm(15.0);
    assert!(skirt.try_plan().is_err(), "a press of that size is too small");
    skirt.setup.tool = Tool::Iron;
    let (plan, _) = skirt.plan();
    assert_eq!(plan.closures.len(), 60);
    assert!(plan.closures.iter().all(|closure| closure.part.is_some_and(|part| part.of == 2)));
    assert!(plan.checklist.iter().any(|line| line.contains("domestic iron")));
    // Both parts of a flower one after the other; laid and covered once: 5 + 15 + 40 s, then 5 + 15 s.
    for pair in plan.closures.chunks(2) {
        assert_eq!(pair[0].placements, pair[1].placements);
        assert_eq!((pair[0].seconds, pair[1].seconds), (Seconds::new(60.0), Seconds::new(20.0)));
    }
    // The check is no formality: without one of the parts the motif is not covered.
    let mut broken = plan.clone();
    broken.closures[3].at += hemwright::geometry::Vec2::new(60.0, 0.0);
    let moved = hemwright::geometry::Affine::translate((60.0, 0.0));
    broken.closures[3].footprint = broken.closures[3].footprint.transformed(moved);
    assert!(!verify::flaws(&broken, &skirt.inputs()).is_empty());
}

#[test]
fn the_independent_check_finds_a_plate_laid_askew_a_missing_motif_and_false_times() {
    let skirt = Skirt::s1("cotton");
    let (plan, _) = skirt.plan();
    let flaws = |change: &dyn Fn(&mut PressPlan)| {
        let mut broken = plan.clone();
        change(&mut broken);
        verify::flaws(&broken, &skirt.inputs())
    };
    let shift = hemwright::geometry::Affine::translate((60.0, 0.0));
    let askew = flaws(&|plan| plan.closures[0].footprint = plan.closures[0].footprint.transformed(shift));
    assert!(matches!(askew[..], [PressFlaw::ReachesOut { closure: 1, .. }, ..]), "{askew:?}");
    let missing = flaws(&|plan| drop(plan.closures[0].placements.pop()));
    assert!(matches!(missing[..], [PressFlaw::NotPressed { layers: 1, closures: 0, .. }]), "{missing:?}");
    let false_time = flaws(&|plan| plan.total = Seconds::new(60.0));
    assert!(matches!(false_time[..], [PressFlaw::Time { .. }]), "{false_time:?}");
}

#[test]
fn rounds_tell_their_own_minutes() {
    let classes = ["smooth", "smooth", "smooth"];
    let skirt =
        Skirt::new(&full_circle(), flower(110.0, 3), &[band(75.0, Spacing::Count(30))], &classes, setup("cotton"));
    let minutes: Vec<(u32, u32, f64)> =
        skirt.plan().0.rounds.iter().map(|round| (round.layer, round.closures, round.seconds.get())).collect();
    assert_eq!(minutes, [(1, 15, 720.0), (2, 15, 645.0), (3, 15, 825.0)]);
}

/// So many flowers of one class and buds of another by turns on S1's hem.
fn two_films(one: &str, other: &str, count: u32) -> Skirt {
    let mut wish = band(75.0, Spacing::Count(count));
    wish.motifs.push("bud".into());
    let mut bud = flower(60.0, 1);
    bud.name = "bud".into();
    let (one, other) = ([one], [other]);
    Skirt::of_motifs(
        &full_circle(),
        &[(flower(80.0, 1), &one), (bud, &other)],
        &[wish],
        setup("cotton"),
        Layering::Auto,
    )
}

fn names(risks: &[HeatRisk]) -> Vec<&str> {
    risks.iter().flat_map(|risk| risk.rules.iter().copied()).collect()
}

/// Worked by hand from the classes' windows: smooth takes 8 to 15 s, glitter 15 to 20: 15 s serves both. Light web takes 3 to
/// 10: with smooth 8 to 10, and 8 is nearest its usual 6. Puff takes 12 at most, glitter 15 at least: each in a closing of
/// its own.
#[test]
fn films_pressed_at_once_get_a_time_that_all_of_them_take() {
    let (plan, risks) = two_films("smooth", "glitter", 30).plan();
    assert_eq!(plan.closures.len(), 15);
    assert!(plan.closures.iter().all(|closure| closure.parts.dwell == Seconds::new(15.0)), "{:?}", plan.closures[0]);
    assert!(!names(&risks).contains(&"outside-window"), "{risks:?}");
    assert!(plan.window.say.starts_with("Everything together can be pressed from 155 C to 160 C for 15 s:"));
    let (plan, risks) = two_films("puff", "glitter", 30).plan();
    assert_eq!(plan.closures.len(), 30, "15 places for each");
    assert!(!names(&risks).contains(&"outside-window"), "{risks:?}");
}

/// Glitter over smooth: what lies beneath is heated as long, and 15 s serves both.
#[test]
fn the_layer_beneath_is_pressed_no_longer_than_it_takes_where_a_common_time_is_known() {
    let classes = ["smooth", "glitter"];
    let skirt =
        Skirt::new(&full_circle(), flower(110.0, 2), &[band(75.0, Spacing::Count(30))], &classes, setup("cotton"));
    let (plan, _) = skirt.plan();
    let full = plan.closures.iter().filter(|closure| closure.kind == PressKind::Full);
    assert!(full.clone().count() == 15 && full.clone().all(|closure| closure.parts.dwell == Seconds::new(15.0)));
}

/// No two classes of the tables, side by side, are ever pressed outside a window on cloth that stands it, and what the plan
/// presses with is always tried on the test card first, gentlest first.
#[test]
fn every_two_films_keep_their_windows_and_the_card_tries_every_setting() {
    let pressed = tables().films().iter().filter(|class| class.times().1 > Seconds::ZERO);
    let keys: Vec<&str> = pressed.map(|class| class.key.as_str()).collect();
    for (k, one) in keys.iter().enumerate() {
        for other in &keys[k + 1..] {
            let (plan, risks) = two_films(one, other, 4).plan();
            let outside = ["outside-window", "too-cool", "own-window"];
            assert!(names(&risks).iter().all(|rule| !outside.contains(rule)), "{one}, {other}: {risks:?}");
            let full = plan.closures.iter().filter(|closure| closure.kind == PressKind::Full);
            for closure in full {
                let tried =
                    plan.test_card.swatches.iter().find(|swatch| {
                        swatch.temperature == closure.temperature && swatch.dwell == closure.parts.dwell
                    });
                assert!(tried.is_some_and(|swatch| !swatch.plan_for.is_empty()), "{one}, {other}: {closure:?}");
            }
            let settings: Vec<(f64, f64)> =
                plan.test_card.swatches.iter().map(|s| (s.temperature.get(), s.dwell.get())).collect();
            assert!(settings.is_sorted(), "{one}, {other}: {settings:?}");
        }
    }
}

/// Whatever the job itself asks for stands on the card too, inside the window or not.
#[test]
fn the_card_tries_what_the_job_asks_for() {
    for asked in [110.0, 130.0, 150.0, 190.0] {
        let mut skirt = Skirt::s1("cotton");
        skirt.setup.temperature = Some(hemwright::quantity::Celsius::new(asked));
        skirt.setup.dwell = Some(Seconds::new(11.0));
        let swatches = skirt.plan().0.test_card.swatches;
        let mut planned = swatches.iter().filter(|swatch| !swatch.plan_for.is_empty());
        let own = planned.next().unwrap();
        assert!((own.temperature.get() - asked).abs() < 1e-9 && (own.dwell.get() - 11.0).abs() < 1e-9, "{swatches:?}");
        assert!(planned.next().is_none());
    }
}

/// Upright bars lie along the plate at centre front and across it at the sides: a turn helps the ones and hinders the others.
#[test]
fn a_turned_plate_is_offered_only_where_it_takes_everything() {
    let mut wish = band(200.0, Spacing::Count(8));
    wish.stance = hemwright::place::Stance::Upright;
    let bar = wide_bar(200.0, 30.0);
    let make = |plate: (f64, f64)| {
        let mut skirt = Skirt::new(&full_circle(), bar.clone(), &[wish.clone()], &["smooth"], setup("cotton"));
        skirt.setup.plate = (mm(plate.0), mm(plate.1));
        skirt.try_plan()
    };
    for plate in [(260.0, 150.0), (150.0, 260.0)] {
        let PressError::TooLarge { turned_fits, smallest, .. } = make(plate).unwrap_err() else { panic!() };
        assert!(!turned_fits, "{plate:?}");
        assert!(make((smallest.0.get(), smallest.1.get())).is_ok(), "{plate:?}: {smallest:?}");
    }
}

/// A rectangle of so much by so much.
fn wide_bar(width: f64, height: f64) -> hemwright::art::Motif {
    use hemwright::geometry::{Outline, Rect, Ring};
    let mut motif = flower(width, 1);
    let half = (width / 2.0, height / 2.0);
    motif.layers[0].outlines =
        vec![Outline::new(Ring::rectangle(Rect::new(-half.0, -half.1, half.0, half.1)).unwrap(), vec![])];
    motif.height = mm(height);
    motif
}
