//! Trains, cloths without a waist, and drafts through three lengths that cannot be meant.

use super::*;
use hemwright::hem::{HemError, Mark, MotifLine};
use proptest::prelude::*;

fn train(front: f64, side: f64, back: f64) -> Measurements {
    Measurements::Train { waist: mm(720.0), front: mm(front), side: mm(side), back: mm(back) }
}

fn oval(front: f64, side: f64, back: f64) -> Measurements {
    Measurements::Oval { waist: mm(720.0), front: mm(front), side: mm(side), back: mm(back), tape: None }
}

fn ring(measured: Measurements) -> Hem {
    hem(measured, Ends::Closed, vec![])
}

fn edge(hem: &Hem) -> MotifLine {
    hem.line_at(Mm::ZERO).unwrap()
}

/// Length from the waist at a place of the hem: the waist's middle lies above CF by the front length and its radius.
fn length_at(line: &MotifLine, front: f64, s: Mm) -> f64 {
    let radius = 720.0 / TAU;
    line.frame_at(s).at.distance(Point::new(0.0, -(front + radius))) - radius
}

#[test]
fn a_train_of_equal_lengths_is_the_plain_circle() {
    let circle = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };
    let (train, circle) = (ring(train(700.0, 700.0, 700.0)), ring(circle));
    assert!((train.length() - circle.length()).abs() < mm(1e-6));
    let (a, b) = (train.line_at(mm(75.0)).unwrap(), circle.line_at(mm(75.0)).unwrap());
    for k in -20..20 {
        let s = mm(100.0 * f64::from(k));
        assert!(a.frame_at(s).at.distance(b.frame_at(s).at) < 1e-6);
    }
}

/// Level in front, 1700 behind: every length between front and side is 1040, the side seam lies where it is still level. The
/// same three lengths as an oval dip in front, which is told.
#[test]
fn a_train_is_level_in_front_and_swept_behind() {
    let hem = ring(train(1040.0, 1040.0, 1700.0));
    let line = edge(&hem);
    let side = hem.place_of(Mark::SideLeft).unwrap();
    for k in 0..=10 {
        assert!((length_at(&line, 1040.0, side * (f64::from(k) / 10.0)) - 1040.0).abs() < 1e-6);
    }
    // A quarter of the circle through the front: (1040 + 114.59) x pi / 2.
    near(side, (1040.0 + 720.0 / TAU) * TAU / 4.0);
    near(mm(length_at(&line, 1040.0, hem.length() / 2.0)), 1700.0);
    assert!((hem.sweep().get() - TAU).abs() < 1e-9);
    assert!(hem.findings().is_empty());
    let oval = ring(oval(1040.0, 1040.0, 1700.0));
    // a0 = 1205, a1 = -330, a2 = 165: least at cos t = 1/2, 1205 - 165 - 82.5 = 957.5.
    assert!(
        oval.findings()[0].say.starts_with(
            "Between front and side the smooth hem through your three lengths is 957.5 mm long, 82.5 mm shorter"
        ),
        "{:?}",
        oval.findings()
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Between measured places no length lies outside the two it lies between; the hem is as long as the sum of short chords
    /// and its lines shorten by a full turn; the left half mirrors the right one.
    #[test]
    fn a_train_never_turns_between_its_lengths(
        front in 500.0..1200.0,
        down in 0.0..200.0,
        sweep in 0.0..900.0,
        share in 0.0..1.0,
    ) {
        let (side, back) = (front + down, front + down + sweep);
        let hem = ring(train(front, side, back));
        let line = edge(&hem);
        let quarter = hem.place_of(Mark::SideLeft).unwrap();
        let half = hem.length() / 2.0;
        let (before, after) = (quarter * share, quarter + (half - quarter) * share);
        let found = length_at(&line, front, before);
        prop_assert!(found > front - 1e-6 && found < side + 1e-6);
        let found = length_at(&line, front, after);
        prop_assert!(found > side - 1e-6 && found < back + 1e-6);
        let mirrored = line.frame_at(Mm::ZERO - after).at;
        let there = line.frame_at(after).at;
        prop_assert!(mirrored.distance(Point::new(-there.x, there.y)) < 1e-6);
        let count = 4000;
        let at = |k: i32| line.frame_at(hem.length() * (f64::from(k) / f64::from(count) - 0.5)).at;
        let chords: f64 = (0..count).map(|k| at(k).distance(at(k + 1))).sum();
        prop_assert!((chords - hem.length().get()).abs() < 0.01);
        if let Ok(above) = hem.line_at(mm(60.0)) {
            prop_assert!((above.length().get() - (hem.length().get() - TAU * 60.0)).abs() < 1e-6);
        }
    }
}

#[test]
fn a_cloth_without_a_waist_is_round_or_oval() {
    let cloth = |width, depth| ring(Measurements::Cloth { width: mm(width), depth: mm(depth) });
    near(cloth(1800.0, 1800.0).length(), 1800.0 * TAU / 2.0);
    near(cloth(1800.0, 1800.0).line_at(mm(100.0)).unwrap().length(), 1600.0 * TAU / 2.0);
    let ellipse = ring(Measurements::Ellipse { front_back: mm(640.0), side_side: mm(560.0) });
    assert_eq!(cloth(1120.0, 1280.0).length(), ellipse.length());
}

#[test]
fn three_lengths_that_cannot_be_one_smooth_hem_are_refused_with_their_numbers() {
    let refused = |measured| -> HemError { shape(&HemWish::ring(measured)).unwrap_err() };
    let error = refused(oval(100.0, 3000.0, 1000.0));
    assert_eq!(
        error.to_string(),
        "the smooth hem through 100.0 mm in front, 3000.0 mm at the side and 1000.0 mm behind would bend inward near centre front"
    );
    assert!(error.hint().contains("[hem.train]"), "{}", error.hint());
    assert!(refused(oval(3000.0, 100.0, 3000.0)).to_string().contains("bend inward near the sides"));
    // Long in front and short behind for a dance is odd, but a hem.
    assert!(shape(&HemWish::ring(oval(500.0, 700.0, 1400.0))).is_ok());
}
