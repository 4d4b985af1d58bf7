//! What the maker is told when a hem or a band cannot be had.

use super::*;
use hemwright::hem::{Flare, HemError, Mark};

fn refused(measurements: Measurements) -> HemError {
    shape(&HemWish { measurements, ends: Ends::Closed, seams: vec![], hung: vec![] }).unwrap_err()
}

/// Worked by hand: a cuff line of 95, motif 100, gap 10.
#[test]
fn a_cuff_too_short_for_one_flower_says_what_fits() {
    let cuff = hem(Measurements::Straight { length: mm(95.0) }, Ends::Closed, vec![]);
    let wish = band("flower", 60.0, Spacing::AtLeast(mm(10.0)));
    let error = try_setting(&cuff, &[disc("flower", 100.0)], &wish).unwrap_err();
    assert_eq!(error.to_string(), "band 1: 95 mm cannot take one 100 mm flower plus 10 mm");
    assert_eq!(error.hint(), "largest that fits: 85 mm (85 %)");
    // What is said to fit does fit.
    assert_eq!(setting(&cuff, &[disc("flower", 85.0)], &wish).count, 1);
}

#[test]
fn too_many_motifs_are_refused_with_the_most_that_fit() {
    let cuff = hem(Measurements::Straight { length: mm(250.0) }, Ends::Closed, vec![]);
    let error = try_setting(&cuff, &[disc("flower", 100.0)], &band("flower", 60.0, Spacing::Count(3))).unwrap_err();
    assert_eq!(error.to_string(), "band 1: 3 motifs are 300 mm wide side by side, 50 mm more than the line's 250 mm");
    assert_eq!(error.hint(), "ask for at most 2, or for a smallest gap instead of a count");
}

#[test]
fn a_line_above_the_waist_or_the_tightest_curve_is_refused_with_numbers() {
    let circle = hem(Measurements::Circle { fraction: 1.0, waist: mm(720.0), length: mm(700.0) }, Ends::Closed, vec![]);
    assert_eq!(
        circle.line_at(mm(710.0)).unwrap_err().to_string(),
        "a line 710.0 mm above the hem reaches the waist, which is 700.0 mm above it"
    );
    // The tightest curve of an ellipse has the radius b^2 / a: 400^2 / 640 = 250.
    let oval = hem(Measurements::Ellipse { front_back: mm(640.0), side_side: mm(400.0) }, Ends::Closed, vec![]);
    assert_eq!(
        oval.line_at(mm(251.0)).unwrap_err().to_string(),
        "a line 251.0 mm above the hem reaches the middle of its tightest curve, which is 250.0 mm above it"
    );
    assert!(oval.line_at(mm(249.0)).is_ok());
    assert_eq!(circle.line_at(mm(-5.0)).unwrap_err().to_string(), "the motif line lies 5.0 mm below the hem");
}

#[test]
fn measurements_that_make_no_hem_are_refused() {
    let error = refused(Measurements::Circle { fraction: 0.0, waist: mm(700.0), length: mm(600.0) });
    assert_eq!(error.to_string(), "a hem of 0 circles cannot be shaped; more than 0 and at most 20 can");
    let error = refused(Measurements::Straight { length: mm(0.0) });
    assert_eq!(error.to_string(), "the length is 0.0 mm; it must be more than nothing");
    let flare = Flare::UpperLine { length: mm(100.0), height: mm(1.0) };
    let error = refused(Measurements::Measured { hem: mm(4000.0), flare });
    assert!(error.to_string().contains("full circles"), "{error}");
    let oval = Measurements::Oval {
        waist: mm(700.0),
        front: mm(700.0),
        side: mm(800.0),
        back: mm(900.0),
        tape: Some(mm(9000.0)),
    };
    assert!(refused(oval).to_string().starts_with("the hem is 9000.0 mm by tape but"), "wording");
}

#[test]
fn a_seam_beyond_the_hem_is_refused() {
    let seam = Seam { name: "pocket seam".to_owned(), at: Mark::At(mm(2600.0)), keep_clear: mm(5.0) };
    let wish = HemWish {
        measurements: Measurements::Straight { length: mm(5000.0) },
        ends: Ends::Closed,
        seams: vec![seam],
        hung: vec![],
    };
    assert_eq!(
        shape(&wish).unwrap_err().to_string(),
        "the pocket seam does not lie on the hem, which reaches 2500.0 mm from its middle"
    );
}
