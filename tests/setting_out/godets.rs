//! Hems with godets let in, by figures worked by hand: a godet 300 wide on seams of 300 is a sector of one radian.

use super::*;
use hemwright::hem::{Godet, GodetPlace, HemError, Mark, Middle, PanelPart};

fn godet(at: GodetPlace) -> Godet {
    Godet { at, width: mm(300.0), height: mm(300.0), keep_clear: mm(12.0) }
}

fn with(base: Measurements, godets: Vec<Godet>) -> HemWish {
    HemWish::ring(Measurements::Godets { hem: Box::new(base), godets })
}

fn at(marks: &[Mark]) -> Vec<Godet> {
    marks.iter().map(|mark| godet(GodetPlace::Mark(*mark))).collect()
}

const STRAIGHT: Measurements = Measurements::Straight { length: mm(2400.0) };
const QUARTERS: [Mark; 4] = [Mark::CentreFront, Mark::SideLeft, Mark::CentreBack, Mark::SideRight];

fn place(hem: &Hem, name: &str) -> f64 {
    let found: Vec<f64> = hem.marks().iter().filter(|mark| mark.name == name).map(|mark| mark.s_hem.get()).collect();
    assert_eq!(found.len(), 1, "{name}: {:?}", hem.marks());
    found[0]
}

/// 2400 + 4 x 300 = 3600; at a height of 100 every godet has lost a third: 2400 + 4 x 200 = 3200.
#[test]
fn four_godets_in_a_straight_skirt_widen_its_hem_and_less_so_the_lines_above() {
    let side = Seam { name: "left side seam".to_owned(), at: Mark::SideLeft, keep_clear: mm(12.0) };
    let wish = HemWish { seams: vec![side], ..with(STRAIGHT, at(&QUARTERS)) };
    let hem = shape(&wish).unwrap();
    assert!(hem.marks().iter().all(|mark| mark.name != "left side seam"), "the godet took its place");
    near(hem.length(), 3600.0);
    assert!((hem.sweep().get() - 4.0).abs() < 1e-9);
    near(hem.line_at(mm(100.0)).unwrap().length(), 3200.0);
    near(hem.place_of(Mark::SideLeft).unwrap(), 900.0);
    near(hem.place_of(Mark::SideRight).unwrap(), -900.0);
    // The middle of the first godet is CF, that of the third CB.
    near(mm(place(&hem, "godet 1 right seam")), -150.0);
    near(mm(place(&hem, "godet 1 left seam")), 150.0);
    near(mm(place(&hem, "godet 2 right seam")), 750.0);
    near(mm(place(&hem, "godet 3 right seam")), 1650.0);
    near(mm(place(&hem, "godet 3 left seam")), -1650.0);
    assert!(hem.findings().is_empty(), "{:?}", hem.findings());
    // Above their points there is nothing of them.
    assert_eq!(
        hem.line_at(mm(310.0)).unwrap_err().to_string(),
        "a line 310.0 mm above the hem passes over the godets, whose points are 300.0 mm above it"
    );
    // On the garment and in the development a godet's two seams are 300 mm apart along the hem.
    let line = hem.line_at(Mm::ZERO).unwrap();
    let (a, b) = (line.frame_at(mm(-150.0)), line.frame_at(mm(150.0)));
    // Chord of an arc of one radian and radius 300.
    assert!((a.at.distance(b.at) - 600.0 * f64::sin(0.5)).abs() < 1e-9);
}

/// S3 with a godet in every seam: 4200 + 6 x 300, and the seams of the gores give way to those of the godets.
#[test]
fn godets_in_every_seam_of_a_gored_skirt() {
    let gores = six_gores();
    let hem = shape(&with(gores, vec![godet(GodetPlace::PanelSeams)])).unwrap();
    near(hem.length(), 6000.0);
    near(hem.line_at(mm(80.0)).unwrap().length(), 3896.0 + 6.0 * 220.0);
    let seams: Vec<&str> = hem.marks().iter().map(|m| m.name.as_str()).filter(|name| name.contains("seam")).collect();
    assert_eq!(seams.len(), 12, "{seams:?}");
    near(mm(place(&hem, "godet 1 right seam")), 350.0);
    near(mm(place(&hem, "godet 1 left seam")), 650.0);
    // Panels and godets are set out with every seam clear.
    let band = setting(&hem, &[disc("flower", 90.0)], &band("flower", 80.0, Spacing::AtLeast(mm(30.0))));
    assert!(band.clashes.is_empty(), "{:?}", band.clashes);
}

/// A panel seam that holds no godet stays where it was, moved by what was let in before it.
#[test]
fn other_seams_move_with_the_cloth() {
    let gores = Measurements::Gores {
        panels: 4,
        top: mm(300.0),
        hem: mm(600.0),
        side: mm(900.0),
        on_middle: PanelPart::Seam,
        keep_clear: None,
    };
    let hem = shape(&with(gores, at(&[Mark::At(mm(300.0)), Mark::At(mm(-300.0))]))).unwrap();
    let mut seams: Vec<f64> =
        hem.marks().iter().filter(|m| m.name.starts_with("panel seam")).map(|m| m.s_hem.get()).collect();
    seams.sort_by(f64::total_cmp);
    for (found, wanted) in seams.iter().zip([-900.0, 0.0, 900.0, 1500.0]) {
        near(mm(*found), wanted);
    }
    assert!(hem.findings().is_empty());
}

#[test]
fn an_open_band_takes_godets_too() {
    let ends = Ends::Open { keep_clear: mm(20.0), middle: Middle::CentreFront };
    let wish = HemWish { ends, ..with(STRAIGHT, at(&[Mark::At(mm(600.0)), Mark::At(mm(-600.0))])) };
    let hem = shape(&wish).unwrap();
    near(hem.length(), 3000.0);
    near(mm(place(&hem, "godet 1 left seam")), -600.0);
    near(mm(place(&hem, "godet 2 right seam")), 600.0);
}

#[test]
fn godets_on_one_side_only_are_told() {
    let hem = shape(&with(STRAIGHT, at(&[Mark::SideLeft]))).unwrap();
    assert_eq!(
        hem.findings()[0].say,
        "The godets do not lie alike on both sides: halfway round from CF is 150.0 mm beside the skirt's own CB."
    );
}

#[test]
fn godets_that_cannot_be_are_refused() {
    let refused = |godets: Vec<Godet>| -> HemError { shape(&with(STRAIGHT, godets)).unwrap_err() };
    let wide = Godet { width: mm(2000.0), ..godet(GodetPlace::Mark(Mark::CentreBack)) };
    assert_eq!(
        refused(vec![wide]).to_string(),
        "a godet 2000.0 mm wide with seams of 300.0 mm would be more than a full circle"
    );
    let flat = Godet { height: Mm::ZERO, ..wide };
    assert_eq!(refused(vec![flat]).to_string(), "the height of a godet is 0.0 mm; it must be more than nothing");
    assert_eq!(
        refused(at(&[Mark::SideLeft, Mark::At(mm(600.0))])).to_string(),
        "two godets are let in at the same place, 600.0 mm along the hem"
    );
    assert_eq!(
        refused(vec![godet(GodetPlace::PanelSeams)]).to_string(),
        "this hem has no seams between panels that godets could be let into"
    );
    assert!(refused(at(&[Mark::At(mm(1300.0))])).to_string().starts_with("the godet does not lie on the hem"));
}
