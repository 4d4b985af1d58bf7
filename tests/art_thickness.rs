//! Thin places against independent means: eroding the shape by geo's buffer, and moving, turning and mirroring it.
#![allow(missing_docs, clippy::unwrap_used, reason = "tests")]

use hemwright::art::{self, Inspection, Measure, MotifWish, Working};
use hemwright::geometry::overlay;
use proptest::prelude::*;

/// Two ellipses joined by a strip, turned and moved; one colour, so that they are one piece.
fn dumbbell(strip: f64, turn: f64, first: (f64, f64), second: (f64, f64), mirrored: bool) -> String {
    let flip = if mirrored { "-1" } else { "1" };
    format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="-100 -100 200 200">
        <g fill="#b8344f" transform="scale({flip} 1) rotate({turn})">
        <ellipse cx="-20" rx="{}" ry="{}"/><ellipse cx="20" rx="{}" ry="{}"/>
        <rect x="-20" y="{}" width="40" height="{strip}"/></g></svg>"##,
        first.0,
        first.1,
        second.0,
        second.1,
        -strip / 2.0
    )
}

fn inspect(svg: &str) -> Inspection {
    let wish = MotifWish { name: "bell".into(), file: "bell.svg".into(), width: None };
    art::inspect(svg, &wish, &Working::RawEdge.into()).unwrap()
}

fn necks(inspection: &Inspection) -> Vec<f64> {
    let necks = inspection.found.iter().filter(|found| found.finding.kind == "thin-neck");
    necks
        .filter_map(|found| match found.measure {
            Some(Measure::Length(length)) => Some(length.get()),
            _ => None,
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Eroded by a hair less than half its thickness a neck holds; by a hair more the piece falls in two.
    #[test]
    fn a_neck_breaks_exactly_when_half_its_thickness_is_eroded(
        strip in 0.3_f64..2.8,
        turn in 0.0_f64..360.0,
        first in (5.0_f64..12.0, 5.0_f64..12.0),
        second in (5.0_f64..12.0, 5.0_f64..12.0),
        mirrored in any::<bool>(),
    ) {
        let inspection = inspect(&dumbbell(strip, turn, first, second, mirrored));
        let found = necks(&inspection);
        prop_assert_eq!(found.len(), 1, "{:?}", found);
        let piece = &inspection.motif.layers[0].outlines;
        prop_assert_eq!(piece.len(), 1);
        prop_assert_eq!(overlay::grown(piece, -(found[0] / 2.0 - 0.01)).len(), 1);
        prop_assert_eq!(overlay::grown(piece, -(found[0] / 2.0 + 0.01)).len(), 2);
    }

    /// Where the ellipses themselves come near each other the gap is measured, whatever its direction.
    #[test]
    fn a_gap_closes_exactly_when_half_its_width_is_grown(
        gap in 0.1_f64..0.9,
        turn in 0.0_f64..360.0,
        radii in (5.0_f64..12.0, 5.0_f64..12.0),
    ) {
        let svg = format!(
            r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="-100 -100 200 200">
            <g fill="#b8344f" transform="rotate({turn})"><circle cx="{}" r="{}"/><circle cx="{}" r="{}"/></g></svg>"##,
            -radii.0 - gap / 2.0, radii.0, radii.1 + gap / 2.0, radii.1
        );
        let inspection = inspect(&svg);
        let found: Vec<_> = inspection.found.iter().filter(|found| found.finding.kind == "sliver").collect();
        prop_assert_eq!(found.len(), 1);
        let Some(Measure::Length(width)) = found[0].measure else { panic!("a sliver has a width") };
        let pieces = &inspection.motif.layers[0].outlines;
        prop_assert_eq!(overlay::grown(pieces, width.get() / 2.0 - 0.02).len(), 2);
        prop_assert_eq!(overlay::grown(pieces, width.get() / 2.0 + 0.02).len(), 1);
    }

    /// A petal with no thin place has none found, however it is turned.
    #[test]
    fn a_thick_shape_has_no_neck(turn in 0.0_f64..360.0, rx in 6.0_f64..20.0, ry in 6.0_f64..20.0) {
        let svg = format!(
            r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="-100 -100 200 200">
            <path transform="rotate({turn})" d="M0 {ry} C{rx} {ry} {rx} -{ry} 0 -{ry} C-{rx} -{ry} -{rx} {ry} 0 {ry} Z"/></svg>"##
        );
        prop_assert!(necks(&inspect(&svg)).is_empty());
    }
}
