//! Lengths against published tables and formulas.

use super::*;
use std::f64::consts::{FRAC_PI_2, PI};

fn ellipse(a: f64, b: f64) -> Hem {
    hem(Measurements::Ellipse { front_back: mm(a), side_side: mm(b) }, Ends::Closed, vec![])
}

/// Complete elliptic integral of the second kind by parameter m (NIST Digital Library of Mathematical Functions, section
/// 19.2; Abramowitz and Stegun, Handbook of Mathematical Functions, table 17.1, whose digits for m = 0 to 0.9 these are
/// from memory; m = 0.25 and 0.99 as in the test values of the GNU Scientific Library's elliptic integrals). A full
/// ellipse is 4 a E(m) with m = 1 - (b/a)^2 (the same library, section 19.30).
const SECOND_KIND: [(f64, f64); 13] = [
    (0.0, 1.570_796_326_8),
    (0.1, 1.530_757_636_9),
    (0.2, 1.489_035_058_1),
    (0.25, 1.467_462_209_3),
    (0.3, 1.445_363_064_4),
    (0.4, 1.399_392_138_9),
    (0.5, 1.350_643_881_0),
    (0.6, 1.298_428_035_0),
    (0.64, 1.276_349_943_2),
    (0.7, 1.241_670_567_9),
    (0.75, 1.211_056_027_6),
    (0.9, 1.104_774_732_7),
    (0.96, 1.050_502_227_0),
];

#[test]
fn an_ellipse_is_as_long_as_the_elliptic_integral_says() {
    for (m, e) in SECOND_KIND {
        let (a, b) = (1000.0, 1000.0 * f64::sqrt(1.0 - m));
        let found = ellipse(a, b).length().get();
        assert!((found - 4.0 * a * e).abs() < 1e-6, "m = {m}: {found}");
        // Turned a quarter, it is as long.
        assert!((ellipse(b, a).length().get() - found).abs() < 1e-6);
    }
    // E(0.99) = 1.0159935450, the flattest of the table.
    assert!((ellipse(1000.0, 100.0).length().get() - 4000.0 * 1.015_993_545_0).abs() < 1e-6);
}

/// Perimeters: (10, 5) as published in arc-length test files, 48.442241102738; the others computed from E(m).
#[test]
fn perimeters_of_ellipses() {
    for (a, b, perimeter) in [
        (10.0, 10.0, 62.831_853_07),
        (10.0, 9.0, 59.731_604_33),
        (10.0, 8.0, 56.723_335_78),
        (10.0, 6.0, 51.053_997_73),
        (10.0, 5.0, 48.442_241_10),
        (10.0, 4.0, 46.026_225_19),
        (10.0, 3.0, 43.859_100_70),
        (10.0, 2.0, 42.020_089_08),
        (10.0, 1.0, 40.639_741_80),
        (5.0, 3.0, 25.526_998_86),
        (60.0, 45.0, 331.552_382_41),
        (70.0, 50.0, 379.613_689_35),
    ] {
        assert!((ellipse(a, b).length().get() - perimeter).abs() < 1e-8, "({a}, {b})");
    }
}

/// Arc segments of the ellipse (10, 5), amplitude phi of E(phi | 0.75) times 10, from the same published test files:
/// 9.0073890635 from pi/10 to pi/2, 7.3635807914 from pi/10 to pi/2 - pi/10. The amplitude is measured from the end of the
/// short axis, so the short axis is put on CF.
#[test]
fn arc_segments_of_an_ellipse() {
    let hem = ellipse(5.0, 10.0);
    let line = hem.line_at(Mm::ZERO).unwrap();
    // Find the distance whose place has the amplitude, by halving on x = 10 sin phi.
    let distance = |phi: f64| {
        let (mut low, mut high) = (0.0, hem.length().get() / 4.0);
        for _ in 0..80 {
            let middle = f64::midpoint(low, high);
            if line.frame_at(mm(middle)).at.x < 10.0 * phi.sin() { low = middle } else { high = middle }
        }
        low
    };
    let (start, end) = (PI / 10.0, FRAC_PI_2 - PI / 10.0);
    assert!((hem.length().get() / 4.0 - distance(start) - 9.007_389_063_5).abs() < 1e-7);
    assert!((distance(end) - distance(start) - 7.363_580_791_4).abs() < 1e-7);
}

/// Ramanujan's second approximation (Modular equations and approximations to pi, Quarterly Journal of Mathematics 45,
/// 1914, pp. 350-372) is good to 5e-10 of the length down to half as wide as long.
#[test]
fn ramanujan_agrees_on_hems_that_are_worn() {
    for b in [560.0, 500.0, 400.0, 320.0] {
        let a: f64 = 640.0;
        let h: f64 = ((a - b) / (a + b)).powi(2);
        let ramanujan = PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()));
        let found = ellipse(a, b).length().get();
        assert!((found / ramanujan - 1.0).abs() < 5e-10, "b = {b}");
    }
}

/// Circle-skirt radii: the hem length printed by makers' formula sheets, recomputed with full digits.
#[test]
fn circle_skirts_have_their_textbook_hems() {
    let circle = |fraction, waist, length| Measurements::Circle { fraction, waist: mm(waist), length: mm(length) };
    for (measured, wanted) in [
        // Waist 28 in, length 24 in: hem 178.796 in.
        (circle(1.0, 28.0 * 25.4, 24.0 * 25.4), 178.796 * 25.4),
        // Waist 70 cm, length 60 cm: full hem 446.991 cm, half 258.496 cm.
        (circle(1.0, 700.0, 600.0), 4469.91),
        (circle(0.5, 700.0, 600.0), 2584.96),
    ] {
        near(hem(measured, Ends::Closed, vec![]).length(), wanted);
    }
}

/// The radius of a full circle over a waist of 110 cm is 17.507 cm; over 26 in the full, half, third and quarter circle
/// have 4.138, 8.276, 12.414 and 16.552 in. The waist is the line that a hem of that radius would shrink to.
#[test]
fn circle_skirts_have_their_textbook_radii() {
    let radius = |fraction: f64, waist: f64| {
        let length = 600.0;
        let measured = Measurements::Circle { fraction, waist: mm(waist), length: mm(length) };
        let hem = hem(measured, Ends::Closed, vec![]);
        hem.length().get() / hem.sweep().get() - length
    };
    assert!((radius(1.0, 1100.0) - 175.07).abs() < 0.005);
    for (fraction, inches) in [(1.0, 4.138), (0.5, 8.276), (1.0 / 3.0, 12.414), (0.25, 16.552)] {
        assert!((radius(fraction, 26.0 * 25.4) / 25.4 - inches).abs() < 0.0005, "{fraction}");
    }
    // The folded-corner trap: a chord of 8 in instead of an arc gives 5.657 in; the true radius over 32 in is 5.093 in.
    assert!((radius(1.0, 32.0 * 25.4) / 25.4 - 5.093).abs() < 0.0005);
}

/// Every line of a full circle is 2 pi shorter for each millimetre up: 314 mm for a braid of 50 mm.
#[test]
fn a_braid_on_a_full_circle_draws_in_by_two_pi_times_its_width() {
    let measured = Measurements::Circle { fraction: 1.0, waist: mm(700.0), length: mm(600.0) };
    let hem = hem(measured, Ends::Closed, vec![]);
    let upper = hem.line_at(mm(50.0)).unwrap().length();
    assert!((hem.length().get() - upper.get() - 314.159).abs() < 0.001);
}
