//! Drawings of pattern pieces that are damaged, endless, crossed, empty, or name what is not there.

use super::*;

/// Two panels, front and back, with straight sides that flare.
const JOB: &str = r#"
[hem.drawn]
file = "pieces.svg"
panels = ["front", "back"]
[hem.drawn.panel.front]
hem = "front-hem"
left = "front-left"
right = "front-right"
[hem.drawn.panel.back]
hem = "back-hem"
left = "back-left"
right = "back-right"
[[band]]
gap = "30 mm"
[motif.square]
art = "square.svg"
"#;

const OUTLINE: &str = "[hem.drawn]\nfile = \"pieces.svg\"\noutline = \"edge\"\n[[band]]\ngap = \"30 mm\"\n[motif.square]\nart = \
                       \"square.svg\"\n";

fn page(elements: &str) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="3000mm" height="3000mm" viewBox="0 0 3000 3000">{elements}</svg>"#
    )
}

fn path(id: &str, d: &str) -> String {
    format!(r#"<path id="{id}" d="{d}" fill="none" stroke="black"/>"#)
}

/// The panels with the front's hem edge drawn so, in place of a straight one of 800 from (100, 1000).
fn with_front_hem(d: &str) -> String {
    page(
        &[path("front-hem", d), seams("front", 100), path("back-hem", "M1100 1000H1900"), seams("back", 1100)].concat(),
    )
}

fn seams(panel: &str, x: i32) -> String {
    let line = |side: &str, from: i32, to: i32| path(&format!("{panel}-{side}"), &format!("M{from} 1000L{to} 200"));
    [line("left", x, x + 150), line("right", x + 800, x + 650)].concat()
}

const STRAIGHT: &str = "M100 1000H900";

#[track_caller]
fn refused(job: &str, svg: &str) -> String {
    outcome(job, &[("pieces.svg", svg)]).refusal()
}

#[test]
fn the_pieces_themselves_make_a_hem() {
    let Outcome::SetOut(set) = outcome(JOB, &[("pieces.svg", &with_front_hem(STRAIGHT))]) else { panic!("refused") };
    assert!((set.hem.length().get() - 1600.0).abs() < 0.01, "{}", set.hem.length());
}

/// A few hundred damaged copies of the sample pieces and of the panels above.
#[test]
fn damaged_pieces_make_a_hem_or_are_refused() {
    let sample = damage::sample("sample-art/harvest-pieces.svg");
    let plain = damage::Sample { name: "plain".to_owned(), bytes: with_front_hem(STRAIGHT).into_bytes() };
    let harvest = String::from_utf8(damage::sample("sample-art/harvest-pieces.toml").bytes).unwrap();
    let (mut made, mut left) = (0, 0);
    for number in 0..120 {
        for (job, sample) in [(JOB, &plain), (harvest.as_str(), &sample)] {
            match outcome(
                job,
                &[("pieces.svg", &damaged(sample, number)), ("harvest-pieces.svg", &damaged(sample, number))],
            ) {
                Outcome::SetOut(_) => made += 1,
                Outcome::Refused(_) => left += 1,
            }
        }
    }
    assert!(made > 5 && left > 5, "{made} made, {left} refused: the damage tests nothing");
}

fn damaged(sample: &damage::Sample, number: u64) -> String {
    damage::damaged(std::slice::from_ref(sample), number)
}

#[test]
fn numbers_beyond_all_measure_are_refused() {
    for d in [
        "M100 1000H1e30",
        "M100 1000H1e38",
        "M100 1000H1e300",
        "M100 1000C1e30 1e30 -1e30 -1e30 900 1000",
        "M1e9 1e9H2e9",
        "M100 1000HNaN",
        "M100 1000Hinf",
        "M100 1000Q1e20 -1e20 900 1000",
    ] {
        let said = refused(JOB, &with_front_hem(d));
        assert!(said.len() < 400, "{said}");
    }
    for transform in ["scale(1e30)", "matrix(0 0 0 0 0 0)", "scale(1e-30)", "rotate(NaN)", "skewX(90)"] {
        let moved = with_front_hem(STRAIGHT).replacen("<path", &format!("<path transform=\"{transform}\""), 1);
        refused(JOB, &moved);
    }
}

#[test]
fn nothing_drawn_is_refused() {
    for d in ["", "M100 1000", "M100 1000H100", "M100 1000Z", "M100 1000l0 0l0 0", "H900", "garbage", "M 100"] {
        let said = refused(JOB, &with_front_hem(d));
        assert!(said.contains("front-hem") || said.contains("front"), "\"{d}\": {said}");
    }
    for svg in ["", " ", "<svg/>", "<svg", "not a drawing", "<html></html>", "\u{0}", "[hem.drawn]", "<svg xmlns='x'/>"]
    {
        refused(JOB, svg);
        refused(OUTLINE, svg);
    }
    refused(JOB, &page(""));
}

/// An id that is missing, doubled, or on something that is no line.
#[test]
fn ids_that_name_no_line_are_refused_with_the_nearest() {
    let said = refused(JOB, &with_front_hem(STRAIGHT).replace("front-hem", "Front-hem"));
    assert!(said.contains("has no line with the id \"front-hem\""), "{said}");
    for element in [
        r#"<text id="front-hem">hem</text>"#,
        r##"<use id="front-hem" href="#front-hem"/>"##,
        r#"<image id="front-hem" href="data:,"/>"#,
        r#"<g id="front-hem"/>"#,
        r#"<g id="front-hem"><g/><text>x</text></g>"#,
        r#"<defs id="front-hem"/>"#,
    ] {
        refused(JOB, &with_front_hem(STRAIGHT).replacen(&path("front-hem", STRAIGHT), element, 1));
    }
    for (from, to) in [
        ("\"front-hem\"", "\"\""),
        ("\"front-hem\"", "\"front hem\""),
        ("panels = [\"front\", \"back\"]", "panels = []"),
        ("panels = [\"front\", \"back\"]", "panels = [\"side\"]"),
        ("left = \"front-left\"", "mirror_of = \"front\""),
        ("left = \"front-left\"", "fold = \"up\""),
    ] {
        refused(&JOB.replacen(from, to, 1), &with_front_hem(STRAIGHT));
    }
}

/// A figure of eight, there and back, a spike; and of whole edges a bow tie and two there and back.
#[test]
fn edges_that_cross_or_turn_back_are_refused() {
    for d in [
        "M100 1000C900 200 900 1800 100 1000C900 200 900 1800 900 1000",
        "M100 1000H900H100H900",
        "M100 1000H500V100V1000H900",
    ] {
        let said = refused(JOB, &with_front_hem(d));
        assert!(said.contains("the line \"front-hem\""), "{d}: {said}");
    }
    for d in ["M500 500L900 900L900 500L500 900Z", "M500 500H900H500Z", "M500 500L900 900Z"] {
        let said = refused(OUTLINE, &page(&path("edge", d)));
        assert!(said.starts_with("the line \"edge\" crosses itself or runs back on itself, "), "{d}: {said}");
    }
    refused(OUTLINE, &page(&path("edge", "M500 500H900V900")));
    refused(OUTLINE, &page(&path("edge", "M0 0Z")));
}

/// Thousands of panels, of lines in a group, of points in a line: what is read of them is bounded.
#[test]
fn endless_pieces_are_refused() {
    let many = |count: usize| format!("panels = [{}]", vec!["\"front\", \"back\""; count].join(", "));
    refused(&JOB.replace("panels = [\"front\", \"back\"]", &many(20_000)), &with_front_hem(STRAIGHT));
    let of_own: String = (0..3_000).map(|k| format!("[hem.drawn.panel.p{k}]\nhem = \"front-hem\"\n")).collect();
    let named: Vec<String> = (0..3_000).map(|k| format!("\"p{k}\"")).collect();
    let job = format!(
        "[hem.drawn]\nfile = \"pieces.svg\"\npanels = [{}]\n{of_own}[[band]]\ngap = \"30 mm\"\n[motif.square]\nart = \
         \"square.svg\"\n",
        named.join(", ")
    );
    refused(&job, &with_front_hem(STRAIGHT));
    let fine: String = (0..100_000).map(|k| format!("L{} {}", 100.0 + 0.008 * f64::from(k), 1000 + k % 2)).collect();
    refused(JOB, &with_front_hem(&format!("M100 1000{fine}")));
    let saw: String = (0..60_000).map(|k| format!("l0.1 {}", if k % 2 == 0 { "0.1" } else { "-0.1" })).collect();
    refused(OUTLINE, &page(&path("edge", &format!("M100 1000{saw}V100H100Z"))));
    let group: String = (0..30_000).map(|_| "<path d=\"M100 1000H101\"/>").collect();
    let group = format!("<g id=\"front-hem\">{group}</g>");
    refused(JOB, &with_front_hem(STRAIGHT).replacen(&path("front-hem", STRAIGHT), &group, 1));
    let deep = format!("{}{}{}", "<g>".repeat(5_000), path("front-hem", STRAIGHT), "</g>".repeat(5_000));
    refused(JOB, &with_front_hem(STRAIGHT).replacen(&path("front-hem", STRAIGHT), &deep, 1));
    let bomb = with_front_hem(STRAIGHT).replacen(
        "<svg ",
        "<!DOCTYPE svg [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">]><svg ",
        1,
    );
    let bomb = bomb.replacen("id=\"front-hem\"", "id=\"front-hem\" class=\"&b;\"", 1);
    outcome(JOB, &[("pieces.svg", &bomb)]);
}

/// Allowances, folds and checked lengths that leave nothing or say too much.
#[test]
fn wishes_that_no_piece_meets_are_refused() {
    for more in [
        "hem_allowance = \"900 mm\"",
        "seam_allowance = \"450 mm\"",
        "check_line = \"front-hem\"\ncheck_length = \"1 m\"",
        "check_line = \"nowhere\"\ncheck_length = \"1 m\"",
        "check_line = \"front-hem\"",
        "side_seams = [1, 9]",
        "side_seams = [2, 1]",
        "side_seams = [1]",
        "outline = \"front-hem\"",
    ] {
        let job = JOB.replacen("[hem.drawn.panel.front]", &format!("{more}\n[hem.drawn.panel.front]"), 1);
        refused(&job, &with_front_hem(STRAIGHT));
    }
}
