//! Hems from drawn pattern pieces, judged by the same hems measured and by figures worked by hand.

use super::*;
use hemwright::art;
use hemwright::finding::Finding;
use hemwright::hem::{
    Allowances, CheckLine, Drawn, DrawnPanel, DrawnPanels, DrawnWay, HemError, Mark, Middle, PanelHand, PanelKind,
    PanelPart, PanelSide, shape_drawn,
};
use proptest::prelude::*;

/// A page in millimetres with these elements.
fn page(elements: &str) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="3000mm" height="3000mm" viewBox="0 0 3000 3000">{elements}</svg>"#
    )
}

fn path(id: &str, d: &str) -> String {
    format!(r#"<path id="{id}" d="{d}" fill="none" stroke="black"/>"#)
}

fn panel(name: &str) -> DrawnPanel {
    DrawnPanel {
        name: name.to_owned(),
        hem: format!("{name}-hem"),
        left: Some(format!("{name}-left")),
        right: Some(format!("{name}-right")),
        fold: None,
        hand: PanelHand::AsDrawn,
        kind: PanelKind::Whole,
    }
}

fn drawn(panels: Vec<DrawnPanel>) -> Drawn {
    let way = DrawnWay::Panels(DrawnPanels {
        panels,
        on_middle: PanelPart::Middle,
        side_seams: None,
        keep_clear: Some(mm(12.0)),
    });
    Drawn { file: "pieces.svg".to_owned(), way, allowances: Allowances::default(), check: None }
}

/// Three of each.
fn taking_turns(a: DrawnPanel, b: DrawnPanel) -> Vec<DrawnPanel> {
    [a, b].iter().cycle().take(6).cloned().collect()
}

fn outline(id: &str) -> Drawn {
    Drawn { way: DrawnWay::Outline(id.to_owned()), ..drawn(vec![]) }
}

fn try_drawn(drawn: Drawn, ends: Ends, page: &str) -> Result<Hem, HemError> {
    let ids = drawn.ids().map(str::to_owned).collect();
    let lines = art::lines(page, "pieces.svg", &ids).unwrap();
    shape_drawn(&HemWish { measurements: Measurements::Drawn(drawn), ends, seams: vec![], hung: vec![] }, &lines.by_id)
}

#[track_caller]
fn ring(drawn: Drawn, page: &str) -> Hem {
    try_drawn(drawn, Ends::Closed, page).unwrap()
}

fn refused(drawn: Drawn, page: &str) -> String {
    try_drawn(drawn, Ends::Closed, page).unwrap_err().to_string()
}

fn told<'h>(hem: &'h Hem, kind: &str) -> Vec<&'h Finding> {
    hem.findings().iter().filter(|finding| finding.kind == kind).collect()
}

/// The gore of scenario S3, hem an arc round the apex, its axis upright at `x`: hem 700, side 900, sweep 570 / 900, so that
/// the hem's radius is 700 / 0.63333 = 1105.263.
fn curved_gore(name: &str, x: f64) -> String {
    let half = 570.0 / 900.0 / 2.0;
    let (low, high) = (1_105.263_157_9, 205.263_157_9);
    let at = |radius: f64, side: f64| (x + side * radius * f64::sin(half), radius * f64::cos(half));
    let (a, b) = (at(low, -1.0), at(low, 1.0));
    let (c, d) = (at(high, -1.0), at(high, 1.0));
    path(&format!("{name}-hem"), &format!("M{},{}A{low} {low} 0 0 0 {},{}", a.0, a.1, b.0, b.1))
        + &path(&format!("{name}-left"), &format!("M{},{}L{},{}", a.0, a.1, c.0, c.1))
        + &path(&format!("{name}-right"), &format!("M{},{}L{},{}", d.0, d.1, b.0, b.1))
}

/// Worked by hand: six of them make a hem of 4200, and a line 80 up is 3896.00.
#[test]
fn six_drawn_gores_with_curved_hems_are_the_measured_skirt() {
    let hem = ring(drawn(vec![panel("gore"); 6]), &page(&curved_gore("gore", 500.0)));
    near(hem.length(), 4200.0);
    assert!((hem.sweep().get() - 3.8).abs() < 1e-3);
    near(hem.line_at(mm(80.0)).unwrap().length(), 3896.0);
    assert!(hem.findings().is_empty(), "{:?}", hem.findings());
    let seams: Vec<(&str, f64)> =
        hem.marks().iter().filter(|m| m.name.contains("seam")).map(|m| (m.name.as_str(), m.s_hem.get())).collect();
    assert_eq!(seams.len(), 6);
    for ((name, s), (wanted, at)) in seams.iter().zip([
        ("gore to gore seam 4", -1750.0),
        ("gore to gore seam 5", -1050.0),
        ("gore to gore seam 6", -350.0),
        ("gore to gore seam 1", 350.0),
        ("gore to gore seam 2", 1050.0),
        ("gore to gore seam 3", 1750.0),
    ]) {
        assert_eq!(*name, wanted);
        near(mm(*s), at);
    }
    // S3: 30 motifs of 90, gap 39.87, none nearer to a seam than 12.
    let band = setting(&hem, &[disc("flower", 90.0)], &band("flower", 80.0, Spacing::AtLeast(mm(30.0))));
    assert_eq!(band.count, 30);
    near(band.gap_along, 39.87);
    assert!(band.clashes.is_empty());
}

/// Cut straight across, the same gores meet in points of 2 asin(285 / 900) at the seams; lines over them lose h tan of half
/// that on both sides of each.
#[test]
fn gores_with_straight_hems_have_a_point_at_every_seam() {
    let rise = f64::sqrt(900.0 * 900.0 - 285.0 * 285.0);
    let gore = path("gore-hem", "M100 1000H800")
        + &path("gore-left", &format!("M100 1000L385 {}", 1000.0 - rise))
        + &path("gore-right", &format!("M800 1000L515 {}", 1000.0 - rise));
    let hem = ring(drawn(vec![panel("gore"); 6]), &page(&gore));
    near(hem.length(), 4200.0);
    let lean = f64::asin(285.0 / 900.0);
    assert!((hem.sweep().get() - 12.0 * lean).abs() < 1e-5);
    near(hem.line_at(mm(80.0)).unwrap().length(), 4200.0 - 12.0 * 80.0 * lean.tan());
    let say = &told(&hem, "kink-at-seam")[0].say;
    let first = "at the gore to gore seam 1 it makes a point downward of 36.9 degrees";
    assert!(say.contains(first), "{say}");
    assert_eq!(hem.marks().iter().filter(|mark| mark.name.starts_with("corner")).count(), 0, "seams are named once");
}

/// Half of it on the fold, or drawn as the mirror image, is the same panel.
#[test]
fn panels_on_the_fold_and_mirrored_are_unfolded() {
    let whole = ring(drawn(vec![panel("gore"); 6]), &page(&curved_gore("gore", 500.0)));
    let half = 570.0 / 900.0 / 2.0;
    let (low, high) = (1_105.263_157_9, 205.263_157_9);
    let (x, y) = (500.0 + low * f64::sin(half), low * f64::cos(half));
    let (u, v) = (500.0 + high * f64::sin(half), high * f64::cos(half));
    let right_half = path("gore-hem", &format!("M500,{low}A{low} {low} 0 0 0 {x},{y}"))
        + &path("gore-right", &format!("M{x},{y}L{u},{v}"));
    let folded = DrawnPanel { fold: Some(PanelSide::Left), left: None, ..panel("gore") };
    let mirrored = DrawnPanel { hand: PanelHand::Mirrored, ..folded.clone() };
    for panels in [vec![folded.clone(); 6], vec![mirrored.clone(); 6], taking_turns(folded, mirrored)] {
        let hem = ring(drawn(panels), &page(&right_half));
        near(hem.length(), whole.length().get());
        assert!((hem.sweep().get() - whole.sweep().get()).abs() < 1e-3);
        assert!(hem.findings().is_empty(), "{:?}", hem.findings());
    }
}

/// A fold that the hem does not meet squarely is told.
#[test]
fn a_hem_that_is_not_square_to_its_fold_is_told() {
    let half = path("front-hem", "M100 1000L500 970") + &path("front-right", "M500 970V100");
    let front = DrawnPanel { fold: Some(PanelSide::Left), left: None, ..panel("front") };
    let hem = ring(drawn(vec![front; 2]), &page(&half));
    // atan(30 / 400) = 4.289 degrees on each side, and as much again at the seams.
    let say = &told(&hem, "kink-at-seam")[0].say;
    assert!(say.contains("at the fold of front it makes a point downward of 8.6 degrees"), "{say}");
    assert!(say.contains("at the left side seam it makes a notch upward of 8.6 degrees"), "{say}");
}

/// The gore drawn with 40 mm beyond its hem and 15 mm beyond its seams is the gore: the cut hem has the radius 1145.263, the
/// cut seams run 15 mm outside the finished ones.
#[test]
fn allowances_are_taken_off_cut_lines() {
    let half: f64 = 570.0 / 900.0 / 2.0;
    let (cos, sin) = (half.cos(), half.sin());
    let (low, high, seam) = (1_145.263_157_9, 205.263_157_9, 15.0);
    // A line 15 mm outside the seam meets the cut hem where along^2 + 15^2 = low^2.
    let at = |radius: f64, side: f64| {
        let along = f64::sqrt(radius * radius - seam * seam);
        (500.0 + side * (along * sin + seam * cos), along * cos - seam * sin)
    };
    let (a, b, c, d) = (at(low, -1.0), at(low, 1.0), at(high, -1.0), at(high, 1.0));
    let cut = path("gore-hem", &format!("M{},{}A{low} {low} 0 0 0 {},{}", a.0, a.1, b.0, b.1))
        + &path("gore-left", &format!("M{},{}L{},{}", a.0, a.1, c.0, c.1))
        + &path("gore-right", &format!("M{},{}L{},{}", b.0, b.1, d.0, d.1));
    let allowances = Allowances { hem: mm(40.0), seam: mm(15.0) };
    let hem = ring(Drawn { allowances, ..drawn(vec![panel("gore"); 6]) }, &page(&cut));
    near(hem.length(), 4200.0);
    near(hem.line_at(mm(80.0)).unwrap().length(), 3896.0);
    assert!(hem.findings().is_empty(), "{:?}", hem.findings());
    // Classic wrong way: to take the cut edge for the hem.
    let cut_edge = ring(drawn(vec![panel("gore"); 6]), &page(&cut));
    assert!(cut_edge.length().get() > 4500.0);
    let most = Allowances { hem: mm(40.0), seam: mm(500.0) };
    let nothing = refused(Drawn { allowances: most, ..drawn(vec![panel("gore"); 6]) }, &page(&cut));
    assert_eq!(
        nothing,
        "allowances of 40.0 mm at the hem and 500.0 mm at the seams leave nothing of the hem edge of gore"
    );
}

/// Front and back of their own, sides where they are sewn and not at the quarters; a longer back seam is told.
#[test]
fn two_panels_are_walked_along_their_side_seams() {
    let pieces = path("front-hem", "M0 1000H1200")
        + &path("front-left", "M0 1000V100")
        + &path("front-right", "M1200 1000V100")
        + &path("back-hem", "M1300 1000H2900")
        + &path("back-left", "M1300 1000V92")
        + &path("back-right", "M2900 1000V100");
    let hem = ring(drawn(vec![panel("front"), panel("back")]), &page(&pieces));
    near(hem.length(), 2800.0);
    assert!(hem.sweep().get().abs() < 1e-9);
    near(hem.place_of(Mark::SideLeft).unwrap(), 600.0);
    near(hem.place_of(Mark::SideRight).unwrap(), -600.0);
    let names: Vec<&str> = hem.marks().iter().map(|mark| mark.name.as_str()).collect();
    assert_eq!(names, ["right side seam", "CF", "left side seam", "CB"]);
    let [front, back] = hem.drawn_panels() else { panic!("two panels") };
    assert_eq!((front.name.as_str(), back.name.as_str()), ("front", "back"));
    near(front.from, -600.0);
    near(back.from, 600.0);
    near(back.to, 2200.0);
    let say = &told(&hem, "seam-lengths")[0].say;
    assert_eq!(
        say,
        "Seams differ in length: the left side seam is 900.0 mm on one and 908.0 mm on the other; 8.0 mm at most."
    );
    // The seam as the middle: CF lies where back is sewn to front.
    let DrawnWay::Panels(panels) = drawn(vec![panel("front"), panel("back")]).way else { unreachable!() };
    let seam = DrawnPanels { on_middle: PanelPart::Seam, side_seams: Some((1, 2)), ..panels };
    let hem = ring(Drawn { way: DrawnWay::Panels(seam), ..drawn(vec![]) }, &page(&pieces));
    near(hem.place_of(Mark::SideLeft).unwrap(), 1200.0);
    // From CF to the one 1200, the other way round nothing: no two sides of a skirt.
    let say = &told(&hem, "sides-uneven")[0].say;
    assert_eq!(
        say,
        "The left side seam lies 1200.0 mm from CF along the hem and the right one 0.0 mm: 1200.0 mm apart."
    );
    assert!(hem.marks().iter().any(|m| m.name == "right side seam" && m.s_hem.get().abs() < 1e-6));
}

/// A godet between two panels: its seams are not held against the longer ones beside it, and the hem is as much longer.
#[test]
fn a_drawn_godet_widens_the_hem() {
    let godet = path("godet-hem", "M1400,1000A300 300 0 0 0 1700,1000")
        + &path("godet-left", "M1400,1000L1550,740.192")
        + &path("godet-right", "M1700,1000L1550,740.192");
    let gores = curved_gore("gore", 500.0) + &godet;
    let wedge = DrawnPanel { kind: PanelKind::Godet, ..panel("godet") };
    let hem = ring(drawn(taking_turns(panel("gore"), wedge)), &page(&gores));
    // A sector of 60 degrees and radius 300: 314.159 of hem, gone 300 up.
    near(hem.length(), 2100.0 + 3.0 * 314.159);
    near(hem.line_at(mm(80.0)).unwrap().length(), 1948.0 + 3.0 * 220.0 * TAU / 6.0);
    assert!(told(&hem, "seam-lengths").is_empty());
    assert!(hem.line_at(mm(301.0)).is_err(), "above its point the godet is gone");
}

#[test]
fn an_open_band_runs_from_its_first_panel_to_its_last() {
    let pieces = path("front-hem", "M0 1000H400")
        + &path("front-left", "M0 1000V100")
        + &path("front-right", "M400 1000V100")
        + &path("back-hem", "M1300 1000H2300")
        + &path("back-left", "M1300 1000V100")
        + &path("back-right", "M2300 1000V100");
    let ends = Ends::Open { keep_clear: mm(20.0), middle: Middle::CentreBack };
    let cape = try_drawn(drawn(vec![panel("front"), panel("back"), panel("front")]), ends, &page(&pieces)).unwrap();
    near(cape.length(), 1800.0);
    let seams: Vec<f64> = cape.marks().iter().filter(|m| m.name.ends_with("seam")).map(|m| m.s_hem.get()).collect();
    assert_eq!(seams.len(), 2);
    near(mm(seams[0]), -500.0);
    near(mm(seams[1]), 500.0);
}

/// The whole edge of a cloth as one line is the measured cloth, with or without its allowance; CF is the middle below.
#[test]
fn an_edge_drawn_whole_is_the_measured_cloth() {
    let square = r#"<rect id="edge" x="100" y="100" width="1200" height="1200" fill="none" stroke="black"/>"#;
    let measured = hem(Measurements::Rectangle { width: mm(1200.0), depth: mm(1200.0) }, Ends::Closed, vec![]);
    let cut = r#"<rect id="edge" x="80" y="80" width="1240" height="1240"/>"#;
    let allowances = Allowances { hem: mm(20.0), seam: Mm::ZERO };
    for cloth in [ring(outline("edge"), &page(square)), ring(Drawn { allowances, ..outline("edge") }, &page(cut))] {
        near(cloth.length(), 4800.0);
        // S6: 60 in, a square of 1080.
        let line = cloth.line_at(mm(60.0)).unwrap();
        near(line.length(), 4320.0);
        let corners =
            |line: &hemwright::hem::MotifLine| line.corners().iter().map(|c| c.s_line.get()).collect::<Vec<_>>();
        for (a, b) in corners(&line).iter().zip(corners(&measured.line_at(mm(60.0)).unwrap())) {
            assert!((a - b).abs() < 0.01);
        }
    }
    let round = r#"<ellipse id="edge" cx="1500" cy="1500" rx="560" ry="640"/>"#;
    let measured = Measurements::Ellipse { front_back: mm(640.0), side_side: mm(560.0) };
    let (drawn, measured) = (ring(outline("edge"), &page(round)), hem(measured, Ends::Closed, vec![]));
    // Four cubic curves for an ellipse: within a fifth of a millimetre of it, and in length within a hundredth.
    assert!((drawn.length().get() - measured.length().get()).abs() < 0.3, "{} {}", drawn.length(), measured.length());
    let (a, b) = (drawn.line_at(mm(80.0)).unwrap(), measured.line_at(mm(80.0)).unwrap());
    for k in -8..8 {
        let s = mm(200.0 * f64::from(k));
        assert!(a.frame_at(s).at.distance(b.frame_at(s).at) < 0.3, "{k}");
    }
}

#[test]
fn what_cannot_be_sewn_is_refused_in_words() {
    let gore = curved_gore("gore", 500.0);
    let missing = DrawnPanel { hem: "hemline".to_owned(), ..panel("gore") };
    assert_eq!(
        refused(drawn(vec![missing]), &page(&gore)),
        "the drawing of the pieces has no line with the id \"hemline\""
    );
    let swapped = DrawnPanel { left: panel("gore").right, right: panel("gore").left, ..panel("gore") };
    assert_eq!(refused(drawn(vec![swapped]), &page(&gore)), "the seams of gore run down from its hem edge");
    let apart =
        path("gore-hem", "M0 1000H500") + &path("gore-left", "M0 990V100") + &path("gore-right", "M500 1000V100");
    assert_eq!(
        refused(drawn(vec![panel("gore")]), &page(&apart)),
        "the seam \"gore-left\" of gore starts 10.0 mm from the end of its hem edge"
    );
    let plain = DrawnPanel { left: None, right: None, ..panel("gore") };
    let line = |d: &str| refused(drawn(vec![plain.clone()]), &page(&path("gore-hem", d)));
    assert_eq!(line("M0 0H100V100H0Z"), "the line \"gore-hem\" closes; an edge from seam to seam has two ends");
    assert_eq!(line("M0 0H100M150 0H200"), "the line \"gore-hem\" is in parts, 50.0 mm from each other");
    assert_eq!(line("M0 0C400 0 100 0 300 0"), "the line \"gore-hem\" comes to a point and turns back on itself");
    assert_eq!(
        refused(outline("gore-hem"), &page(&path("gore-hem", "M0 0H100V100"))),
        "the edge \"gore-hem\" does not close: its ends are 141.4 mm apart"
    );
    let fine: String = (1..1500).map(|k| format!("L{} {}", k, k % 2)).collect();
    assert_eq!(
        refused(drawn(vec![plain.clone(); 14]), &page(&path("gore-hem", &format!("M0 0{fine}")))),
        "the edges of the panels have more than 20000 pieces together"
    );
    assert_eq!(line(&format!("M0 0{fine}{fine}")), "the line \"gore-hem\" has more than 2000 pieces");
    let check = Some(CheckLine { id: "square".to_owned(), length: mm(100.0) });
    let wrong = gore + &path("square", "M0 0H75");
    assert_eq!(
        refused(Drawn { check, ..drawn(vec![panel("gore")]) }, &page(&wrong)),
        "the line \"square\" is 75.0 mm long in the drawing and should be 100.0 mm"
    );
}

/// A curve whose handle lies on its end has no direction and no bound to its curvature there; drawing tools make them.
#[test]
fn a_handle_on_its_end_does_not_stop_a_line() {
    let plain = DrawnPanel { left: None, right: None, ..panel("front") };
    for curve in [
        "M0 1000C0 1000 500 1060 1000 1000",
        "M0 1000C500 1060 1000 1000 1000 1000",
        "M0 1000C0 1000 1000 1000 1000 1000",
    ] {
        let hem = ring(drawn(vec![plain.clone()]), &page(&path("front-hem", curve)));
        let exact = kurbo::BezPath::from_svg(curve).unwrap();
        let exact: f64 = exact.segments().map(|seg| kurbo::ParamCurveArclen::arclen(&seg, 1e-6)).sum();
        assert!((hem.length().get() - exact).abs() < 0.05, "{curve}: {} {exact}", hem.length());
        let line = hem.line_at(mm(95.0)).unwrap();
        assert!((line.length() - hem.length()).abs() < mm(120.0));
    }
}

/// Ten metres of drawn curves against the curve library's own length of the same figures in double precision.
#[test]
fn ten_metres_of_drawn_curves_keep_their_length() {
    let wave = "M0 1500C250 1300 550 1300 800 1500S1350 1700 1600 1500 2150 1300 2400 1500 2700 1600 2950 1500";
    let exact = kurbo::BezPath::from_svg(wave).unwrap();
    let exact: f64 = exact.segments().map(|seg| kurbo::ParamCurveArclen::arclen(&seg, 1e-9)).sum();
    let plain = DrawnPanel { left: None, right: None, ..panel("front") };
    let hem = ring(drawn(vec![plain; 4]), &page(&path("front-hem", wave)));
    assert!(hem.length() > mm(10_000.0));
    assert!((hem.length().get() - 4.0 * exact).abs() < 0.01, "{} against {}", hem.length(), 4.0 * exact);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// However the pieces lie on the page, wherever the walk begins, and seen in a mirror, the hem is the same.
    #[test]
    fn the_page_the_first_panel_and_a_mirror_change_no_length(
        turn in 0.0..360.0,
        bow in 10.0..90.0_f64,
        slant in -60.0..60.0_f64,
        height in 0.0..120.0_f64,
    ) {
        let gore = path("a-hem", &format!("M0 1000C150 {0} 350 {0} 500 1000", 1000.0 + bow))
            + &path("a-left", "M0 1000L60 200")
            + &path("a-right", "M500 1000L440 200")
            + &path("b-hem", &format!("M0 0Q200 {bow} 400 {slant}"))
            + &path("b-left", "M0 0L30 -800")
            + &path("b-right", &format!("M400 {slant}L380 -760"));
        let turned = format!(r#"<g transform="translate(1500 1500) rotate({turn})">{gore}</g>"#);
        let (a, b) = (panel("a"), panel("b"));
        let flip = |panel: &DrawnPanel| DrawnPanel { hand: PanelHand::Mirrored, ..panel.clone() };
        let plain = ring(drawn(vec![a.clone(), b.clone(), b.clone()]), &page(&gore));
        let others = [
            ring(drawn(vec![a.clone(), b.clone(), b.clone()]), &page(&turned)),
            ring(drawn(vec![b.clone(), b.clone(), a.clone()]), &page(&gore)),
            ring(drawn(vec![flip(&b), flip(&b), flip(&a)]), &page(&gore)),
        ];
        let line = plain.line_at(mm(height)).map(|line| line.length());
        for other in others {
            prop_assert!((other.length() - plain.length()).abs() < mm(0.01));
            prop_assert!((other.sweep().get() - plain.sweep().get()).abs() < 1e-5);
            let over = other.line_at(mm(height)).map(|line| line.length());
            if let (Ok(a), Ok(b)) = (&line, &over) {
                prop_assert!((*a - *b).abs() < mm(0.05), "{a} {b}");
            }
        }
    }

    /// Whatever is drawn, a hem or a refusal comes of it, and every place on its lines is a place.
    #[test]
    fn any_lines_at_all_make_a_hem_or_are_refused(
        points in prop::collection::vec(prop::sample::select(vec![0.0, 1e-9, 0.004, 1.0, 700.0, 700.001, -40.0, 3e4, 1e30]), 30),
        kinds in "[LQCMZ]{1,5}",
        allowance in prop::sample::select(vec![0.0, 15.0, 400.0]),
        closed in prop::bool::ANY,
    ) {
        let mut given = points.iter();
        let mut next = || given.next().copied().unwrap_or(5.0);
        let mut d = format!("M{} {}", next(), next());
        for kind in kinds.chars() {
            let count = match kind { 'L' | 'M' => 2, 'Q' => 4, 'C' => 6, _ => 0 };
            d.push(kind);
            (0..count).for_each(|_| d.push_str(&format!("{} ", next())));
        }
        let pieces = page(&(path("a-hem", &d) + &path("a-left", "M0 0V-500") + &path("a-right", "M700 0V-500")));
        let allowances = Allowances { hem: mm(allowance), seam: mm(allowance) };
        let ends = if closed { Ends::Closed } else { Ends::Open { keep_clear: Mm::ZERO, middle: Middle::CentreFront } };
        let plain = DrawnPanel { left: None, right: None, ..panel("a") };
        let folded = DrawnPanel { fold: Some(PanelSide::Right), ..plain.clone() };
        for wish in [drawn(vec![panel("a"); 2]), drawn(vec![plain; 3]), drawn(vec![folded]), outline("a-hem")] {
            let Ok(hem) = try_drawn(Drawn { allowances, ..wish }, ends.clone(), &pieces) else { continue };
            for height in [0.0, 20.0, 200.0] {
                let Ok(line) = hem.line_at(mm(height)) else { continue };
                for k in -3..=3 {
                    let frame = line.frame_at(line.length() * (f64::from(k) / 6.0));
                    prop_assert!(frame.at.x.is_finite() && frame.at.y.is_finite() && frame.along.hypot().is_finite());
                }
            }
        }
    }
}
