//! Time and weight against sums worked by hand.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;

use hemwright::art::Colour;
use hemwright::budget::{Budget, Minutes, Rates, Work, budget};
use hemwright::film::{AsSeen, Film, Method, PieceKind, Pieces, for_cutting, patch};
use hemwright::geometry::{Outline, Rect, Ring};
use hemwright::nest::Turning;
use hemwright::place::{Garments, Hand};
use hemwright::quantity::{Mm, Radians, Seconds, mm};
use hemwright::trims::{Edge, Kind, PleatStyle, Pleats as Folds, Side, StripCloth, TrimNeed, TrimWish, needs};

fn square(side: f64) -> Ring {
    Ring::rectangle(Rect::new(-side / 2.0, -side / 2.0, side / 2.0, side / 2.0)).unwrap()
}

/// Squares of 100 with a square hole of 50: 600 mm of cut in two closed cuts, 7500 mm².
fn kind(film: &str, method: Method, needed: u32, spares: u32) -> PieceKind {
    let outline = Outline::new(square(100.0), vec![square(50.0)]);
    let cut = for_cutting(&AsSeen::new(vec![outline]), method.cut_from());
    let ring = patch(cut.outlines()).unwrap();
    PieceKind {
        name: film.to_string(),
        motif: "tile".to_string(),
        layer: 0,
        colour: Colour { red: 1, green: 2, blue: 3 },
        film: film.to_string(),
        hand: Hand::AsDrawn,
        scale: 1.0,
        method,
        cut,
        finish: None,
        marks: for_cutting(&AsSeen::new(vec![]), method.cut_from()),
        weeding: None,
        clips: vec![],
        grain: None,
        patch: ring,
        needed,
        spares,
        tests: 0,
    }
}

fn film(key: &str, class: &str) -> Film {
    Film {
        key: key.to_string(),
        class: class.to_string(),
        colour_name: key.to_string(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(4.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

fn plan(kinds: Vec<PieceKind>, films: &[Film], trims: &[TrimNeed], rates: &Rates) -> Budget {
    let placements = kinds.iter().map(|kind| kind.needed).sum();
    let pieces = Pieces { kinds };
    budget(Work { pieces: &pieces, films, sheets: 3, placements, press: Seconds::new(900.0), trims, rates })
}

/// One row of knife pleats on a straight hem of 270 in.
fn pleats() -> Vec<TrimNeed> {
    let folds = Folds {
        style: PleatStyle::Knife,
        depth: mm(40.0),
        cut_depth: mm(60.0),
        visible: Mm::INCH,
        underfold: 1.0,
        rows: 1,
        row_step: Mm::ZERO,
        cloth: StripCloth { usable: mm(1380.0), join: mm(10.0) },
    };
    let wish = TrimWish {
        name: "pleats".to_string(),
        kind: Kind::Pleats(folds),
        height: Mm::ZERO,
        side: Side::Right,
        price: None,
        weight: Some(120.0),
        material: None,
        state: None,
    };
    let edge = Edge { length: Mm::INCH * 270.0, sweep: Radians::new(0.0), closed: true };
    needs(edge, Garments::One, &[wish]).unwrap()
}

/// Fact of the trade, common practice with no source: about 2 h for 270 in of hem, one row.
#[test]
fn pleats_by_eye_take_about_two_hours_for_270_inches() {
    let rates = Rates::default();
    let laid: f64 = pleats()[0].labour.iter().filter(|one| one.rate == "lay-pleats").map(|one| one.amount * 17.5).sum();
    assert!((laid - 120.0).abs() < 0.1, "{laid} min");
    let found = plan(vec![], &[], &pleats(), &rates);
    let task = found.tasks.iter().find(|task| task.what == "pleats (knife pleats)").unwrap();
    assert!(task.working.contains("lay pleats 6.9 x 17.5 min"), "{}", task.working);
}

/// Worked by hand: 12 pieces cut of 600 mm = 7.2 m x 0.5 + 3 sheets x 4 = 15.6 min; 24 cuts x 0.15 + 12 x 0.3 = 7.2 min;
/// 10 marks x 1 = 10 min; press 15 min: 47.8 min. Film: 10 x 7500 mm² = 0.075 m² x 110 g = 8.25 g.
#[test]
fn film_takes_the_time_and_weight_of_the_sum() {
    let found = plan(vec![kind("red", Method::Film, 10, 2)], &[film("red", "smooth")], &[], &Rates::default());
    let minutes: Vec<(&str, f64)> = found.tasks.iter().map(|t| (t.what.as_str(), t.minutes.usual)).collect();
    let wanted =
        [("marking the hem", 10.0), ("cutting film", 15.6), ("weeding and parting patches", 7.2), ("pressing", 15.0)];
    for (found, wanted) in minutes.iter().zip(wanted) {
        assert_eq!(found.0, wanted.0);
        assert!((found.1 - wanted.1).abs() < 1e-9, "{found:?}");
    }
    assert!((found.total.usual - 47.8).abs() < 1e-9);
    assert!((found.grams - 8.25).abs() < 1e-9);
}

#[test]
fn her_own_rate_replaces_the_table_and_its_bounds() {
    let own = Rates::with_own(BTreeMap::from([("mark".to_string(), 2.0), ("film-weight-glitter".to_string(), 400.0)]));
    let found = plan(vec![kind("red", Method::Film, 10, 0)], &[film("red", "glitter")], &[], &own);
    assert_eq!(found.tasks[0].minutes, Minutes { least: 20.0, usual: 20.0, most: 20.0 });
    assert!((found.grams - 30.0).abs() < 1e-9);
}

#[test]
fn cloth_pieces_are_cut_by_scissors_and_their_weight_is_said_to_be_unknown() {
    let kinds = vec![kind("calico", Method::FusedTraced, 10, 0), kind("lawn", Method::TurnedTemplateOnWrong, 10, 0)];
    let found =
        plan(kinds, &[film("calico", "fabric-web-light"), film("lawn", "fabric-turned")], &[], &Rates::default());
    let minutes: Vec<(&str, f64)> = found.tasks.iter().map(|t| (t.what.as_str(), t.minutes.usual)).collect();
    assert!((minutes[1].1 - 24.0).abs() < 1e-9, "12 m x 2 min: {minutes:?}");
    assert!((minutes[3].1 - 36.0).abs() < 1e-9, "6 m x 6 min: {minutes:?}");
    assert!((minutes[4].1 - 240.0).abs() < 1e-9, "6 m x 40 min: {minutes:?}");
    assert!(found.parts.iter().all(|part| part.grams.is_none()));
    assert!(found.grams.abs() < 1e-12);
}

/// 120 g/m² x 20.574 m x 0.06 m = 148.1 g.
#[test]
fn a_trim_of_known_weight_counts() {
    let found = plan(vec![], &[], &pleats(), &Rates::default());
    assert!((found.grams - 148.13).abs() < 0.01, "{}", found.grams);
}

#[test]
fn times_read_as_people_say_them() {
    let minutes = |least: f64, usual: f64, most: f64| Minutes { least, usual, most }.to_string();
    assert_eq!(minutes(70.0, 125.0, 240.0), "2 h 5 min (1 h 10 min to 4 h)");
    assert_eq!(minutes(15.0, 15.0, 15.0), "15 min");
    assert_eq!(minutes(59.6, 59.6, 59.6), "1 h");
}
