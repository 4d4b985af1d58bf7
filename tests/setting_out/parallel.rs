//! Lines over a hem against independent engines: a polyline offsetter, a curve library, brute force.

use super::*;
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};
use hemwright::hem::MotifLine;
use kurbo::BezPath;
use kurbo::{ParamCurveArclen, Shape};
use proptest::prelude::*;

fn oval(waist: f64, front: f64, side: f64, back: f64) -> Measurements {
    Measurements::Oval { waist: mm(waist), front: mm(front), side: mm(side), back: mm(back), tape: None }
}

/// Points of a closed line at even distances.
fn points(line: &MotifLine, count: u32) -> Vec<Point> {
    let (least, _) = line.span();
    (0..count).map(|k| line.frame_at(least + line.length() * (f64::from(k) / f64::from(count))).at).collect()
}

fn smooth_hems() -> impl Strategy<Value = (Hem, f64)> {
    let ovals = (300.0..1200.0, 500.0..1100.0, -80.0..80.0, -150.0..250.0)
        .prop_map(|(waist, side, front, back)| oval(waist, side + front, side, side + back));
    let ellipses = (300.0..1500.0, 0.45..1.0)
        .prop_map(|(a, ratio)| Measurements::Ellipse { front_back: mm(a * ratio), side_side: mm(a) });
    let trains = (300.0..1200.0, 500.0..1100.0, 0.0..100.0, 0.0..600.0).prop_map(|(waist, front, down, sweep)| {
        let (waist, front, side, back) = (mm(waist), mm(front), mm(front + down), mm(front + down + sweep));
        Measurements::Train { waist, front, side, back }
    });
    let height = 5.0..180.0;
    (prop_oneof![ovals, ellipses, trains], height)
        .prop_map(|(measured, height)| (hem(measured, Ends::Closed, vec![]), height))
        // Well below the tightest curve: nearer to its middle the numerical offset loses its footing.
        .prop_filter("the line must exist", |(hem, height)| hem.line_at(mm(*height * 1.3 + 5.0)).is_ok())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Steiner's formula against the polyline offset of cavalier_contours, which knows nothing of it. A polyline of n
    /// even chords is short of its curve by the sum of (chord x turn)^2 / 24 n^2: under 0.01 mm here.
    #[test]
    fn steiner_agrees_with_a_numerical_offset((hem, height) in smooth_hems()) {
        let line = hem.line_at(mm(height)).unwrap();
        let mut outline: Polyline<f64> = Polyline::new_closed();
        for point in points(&hem.line_at(Mm::ZERO).unwrap(), 4096) {
            outline.add(point.x, point.y, 0.0);
        }
        let inward = if outline.area() > 0.0 { height } else { -height };
        let offset = outline.parallel_offset(inward);
        prop_assert_eq!(offset.len(), 1);
        prop_assert!((offset[0].path_length() - line.length().get()).abs() < 0.02);
        let steiner = hem.length().get() - hem.sweep().get() * height;
        prop_assert!((line.length().get() - steiner).abs() < 1e-9);
        prop_assert!((hem.sweep().get() - TAU).abs() < 1e-12);
    }

    /// Every place on the line is as far from the hem as its height says, and above its own foot.
    #[test]
    fn a_line_keeps_its_distance_from_the_hem((hem, height) in smooth_hems(), share in 0.0..1.0) {
        let (edge, line) = (hem.line_at(Mm::ZERO).unwrap(), hem.line_at(mm(height)).unwrap());
        let s_line = line.span().0 + line.length() * share;
        let place = line.frame_at(s_line).at;
        let foot = edge.frame_at(line.to_hem(s_line));
        prop_assert!((place.distance(foot.at) - height).abs() < 1e-6);
        prop_assert!((place - foot.at).dot(foot.along).abs() < 1e-6);
        let nearest = points(&edge, 2000).into_iter().map(|p| p.distance(place)).fold(f64::MAX, f64::min);
        prop_assert!(nearest > height - 1e-6);
        prop_assert!((line.from_hem(line.to_hem(s_line)).get() - s_line.get()).abs() < 1e-6);
    }

    /// Distances along the line are true: chords of a short step are as long as the step.
    #[test]
    fn steps_along_a_line_are_true((hem, height) in smooth_hems(), share in -0.49..0.48) {
        let line = hem.line_at(mm(height)).unwrap();
        let s = line.length() * share;
        let step = 0.5;
        let (a, b) = (line.frame_at(s), line.frame_at(s + mm(step)));
        // A chord is short of its arc by step^3 / 24 r^2: nothing here unless the curve is tight.
        prop_assert!((a.at.distance(b.at) - step).abs() < 1e-3);
        prop_assert!(a.along.dot(b.at - a.at) > 0.0);
        prop_assert!((a.along.hypot() - 1.0).abs() < 1e-12);
    }
}

/// A 10 m hem against kurbo's arc length of the same ellipse.
#[test]
fn ten_metres_agree_with_a_curve_library() {
    let hem = hem(Measurements::Ellipse { front_back: mm(1800.0), side_side: mm(1380.0) }, Ends::Closed, vec![]);
    let path: BezPath = kurbo::Ellipse::new((0.0, 0.0), (1380.0, 1800.0), 0.0).to_path(1e-9);
    let theirs: f64 = path.segments().map(|segment| segment.arclen(1e-9)).sum();
    assert!(theirs > 10_000.0);
    assert!((hem.length().get() - theirs).abs() < 0.01, "{} against {theirs}", hem.length());
}

#[test]
fn equal_lengths_all_round_give_the_plain_circle() {
    let draft = hem(oval(720.0, 700.0, 700.0, 700.0), Ends::Closed, vec![]);
    let circle = Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) };
    let circle = hem(circle, Ends::Closed, vec![]);
    assert!((draft.length().get() - circle.length().get()).abs() < 1e-9);
    let (a, b) = (draft.line_at(mm(75.0)).unwrap(), circle.line_at(mm(75.0)).unwrap());
    for k in -20..20 {
        let s = mm(100.0 * f64::from(k));
        assert!(a.frame_at(s).at.distance(b.frame_at(s).at) < 1e-9);
    }
}

/// A round hem whose waist is set off centre: the draft through its three lengths stays within 1 mm of the true circle.
#[test]
fn a_waist_set_off_centre_still_gives_its_round_hem() {
    let (radius, waist) = (815.0, 720.0);
    for off in [20.0, 60.0, 120.0, 200.0] {
        let side = f64::sqrt(radius * radius - off * off) - waist / TAU;
        let lengths = oval(waist, radius - off - waist / TAU, side, radius + off - waist / TAU);
        let draft = hem(lengths, Ends::Closed, vec![]);
        // CF at the origin: the circle's middle is the radius above it.
        for point in points(&draft.line_at(Mm::ZERO).unwrap(), 720) {
            let miss = (point.distance(Point::new(0.0, -radius)) - radius).abs();
            assert!(miss < 1.0, "off by {miss} with the waist {off} off centre");
        }
        assert!((draft.length().get() - TAU * radius).abs() < 1.0);
    }
}

#[test]
fn the_tape_wins_over_the_draft_and_says_so() {
    let lengths = |tape| Measurements::Oval {
        waist: mm(720.0),
        front: mm(680.0),
        side: mm(700.0),
        back: mm(760.0),
        tape: Some(mm(tape)),
    };
    let draft = hem(oval(720.0, 680.0, 700.0, 760.0), Ends::Closed, vec![]).length().get();
    let taped = hem(lengths(draft + 60.0), Ends::Closed, vec![]);
    assert!((taped.length().get() - draft - 60.0).abs() < 1e-6);
    // Lines above still shorten by a full turn.
    let line = taped.line_at(mm(80.0)).unwrap().length().get();
    assert!((line - (draft + 60.0 - TAU * 80.0)).abs() < 1e-6);
    let finding = &taped.findings()[0];
    assert!(finding.say.contains("60.0 mm longer"), "{}", finding.say);
}

/// Half a circle joined into a ring is developed as half a circle; once round turns it by half a turn.
#[test]
fn once_round_carries_one_end_of_the_development_onto_the_other() {
    let half = Measurements::Circle { fraction: 0.5, waist: mm(400.0), length: mm(800.0) };
    let hem = hem(half, Ends::Closed, vec![]);
    let line = hem.line_at(mm(50.0)).unwrap();
    let (least, greatest) = line.span();
    let carried = line.once_round(line.frame_at(least).placement());
    let end = line.frame_at(greatest).placement();
    for (a, b) in carried.as_coeffs().into_iter().zip(end.as_coeffs()) {
        assert!((a - b).abs() < 1e-9);
    }
    // Just past the join, the unrolled line goes on smoothly; the plain frame is back at the other end.
    let past = line.frame_unrolled(greatest + mm(1.0)).at;
    assert!((past.distance(line.frame_at(greatest).at) - 1.0).abs() < 1e-4);
    assert!(line.frame_at(greatest + mm(1.0)).at.distance(line.frame_at(least).at) < 1.1);
}

/// Laid flat, a ring of 1.7 circles ends far from where it starts; CB lies at the end it is reached from, also when half the
/// line comes out a hair longer than the end.
#[test]
fn a_place_at_the_end_of_the_development_does_not_jump_to_the_other_end() {
    let measured = Measurements::Circle { fraction: 1.7, waist: mm(468.6), length: mm(350.0) };
    let line = hem(measured, Ends::Closed, vec![]).line_at(mm(158.8)).unwrap();
    let (_, greatest) = line.span();
    for hair in [0.0, 1e-12, 1e-9, 1e-7] {
        let there = line.frame_at(greatest + mm(hair)).at;
        assert!(there.distance(line.frame_at(greatest).at) < 1e-6, "{hair}");
    }
}
