//! Reading drawings: sizes, layers, what is repaired, what is refused.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    missing_docs,
    reason = "tests read the sample drawings from disk"
)]

use hemwright::art::{self, ArtError, Motif, MotifWish, Read};
use hemwright::finding::Severity;
use hemwright::geometry::{Point, bounds, overlay};
use hemwright::quantity::mm;

fn wish(width: Option<f64>) -> MotifWish {
    MotifWish { name: "poppy".into(), file: "poppy.svg".into(), width: width.map(mm) }
}

/// A drawing of 100 x 80 mm, one unit a millimetre.
fn drawing(body: &str) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="100mm" height="80mm" viewBox="0 0 100 80">{body}</svg>"#
    )
}

fn read(body: &str) -> Read {
    art::read(&drawing(body), &wish(None)).unwrap()
}

fn kinds(read: &Read) -> Vec<&'static str> {
    read.findings.iter().map(|finding| finding.kind).collect()
}

fn area(motif: &Motif, layer: usize) -> f64 {
    overlay::area(&motif.layers[layer].outlines)
}

#[test]
fn a_rectangle_keeps_its_size_and_is_centred() {
    let read = read(r##"<rect x="10" y="20" width="30" height="12" fill="#c00"/>"##);
    assert!((read.motif.width.get() - 30.0).abs() < 1e-4);
    assert!((read.motif.height.get() - 12.0).abs() < 1e-4);
    assert!((area(&read.motif, 0) - 360.0).abs() < 1e-2);
    let bounds = bounds(&read.motif.layers[0].outlines).unwrap();
    assert!(bounds.center().to_vec2().hypot() < 1e-6);
    assert_eq!(read.motif.layers[0].colour.to_string(), "#cc0000");
    assert!(read.findings.is_empty(), "{:?}", read.findings);
}

#[test]
fn the_wished_width_is_met_exactly_and_heights_follow() {
    let body = r##"<circle cx="50" cy="40" r="20" fill="#c00"/><path d="M20 40 h10 v5 h-10 z" fill="#080"/>"##;
    let read = art::read(&drawing(body), &wish(Some(75.0))).unwrap();
    let all: Vec<_> = read.motif.layers.iter().flat_map(|layer| layer.outlines.clone()).collect();
    let bounds = bounds(&all).unwrap();
    assert!((bounds.width() - 75.0).abs() < 1e-9);
    // 50 mm from the rectangle's left edge to the circle's right; 40 mm high: 60 mm after scaling by 1.5.
    assert!((read.motif.height.get() - 60.0).abs() < 0.05);
    // Flattening leaves at most the tolerance along the whole outline.
    let circle = read.motif.layers.iter().position(|layer| layer.colour.red == 0xcc).unwrap();
    let exact = std::f64::consts::PI * 30.0 * 30.0;
    assert!((area(&read.motif, circle) - exact).abs() < 0.02 * std::f64::consts::TAU * 30.0);
}

#[test]
fn physical_sizes_agree_in_every_unit() {
    // 6 in = 15.24 cm = 432 pt = 36 pc = 576 px; the rectangle takes half the page.
    for width in ["152.4mm", "15.24cm", "6in", "432pt", "36pc", "576px", "576"] {
        let svg = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}" viewBox="0 0 60 60"><rect width="30" height="60"/></svg>"#
        );
        let read = art::read(&svg, &wish(None)).unwrap();
        assert!((read.motif.width.get() - 76.2).abs() < 1e-3, "{width}: {}", read.motif.width);
        let guessed = matches!(width, "576px" | "576");
        assert_eq!(kinds(&read).contains(&"unit-guessed"), guessed, "{width}");
    }
}

#[test]
fn groups_copies_and_transforms_are_followed() {
    let body = r##"<defs><g id="pair"><rect id="one" width="4" height="4"/><rect x="6" width="4" height="4"/></g></defs>
        <g transform="translate(10 10) scale(2)"><use href="#pair"/><use xlink:href="#pair" y="10" transform="rotate(0)"/></g>"##;
    let read = read(body);
    assert_eq!(read.motif.layers.len(), 1);
    assert_eq!(read.motif.layers[0].outlines.len(), 4);
    assert!((area(&read.motif, 0) - 4.0 * 64.0).abs() < 0.01);
    assert!((read.motif.width.get() - 20.0).abs() < 1e-4);
    assert!((read.motif.height.get() - 28.0).abs() < 1e-4);
}

#[test]
fn a_flipped_group_is_mirrored() {
    let hook = r##"<path d="M0 0 H10 V20 H6 V4 H0 Z" fill="#111"/>"##;
    let plain = read(hook);
    let flipped = read(&format!(r#"<g transform="translate(50 0) scale(-1 1)">{hook}</g>"#));
    let lower = |read: &Read, x: f64| {
        read.motif.layers[0].outlines[0].contains(Point::new(x, read.motif.height.get() / 2.0 - 1.0))
    };
    assert!(lower(&plain, 3.0) && !lower(&plain, -3.0));
    assert!(lower(&flipped, -3.0) && !lower(&flipped, 3.0));
}

#[test]
fn holes_follow_the_fill_rule() {
    let nested = "M0 0 H20 V20 H0 Z M5 5 H15 V15 H5 Z";
    let even = read(&format!(r#"<path fill-rule="evenodd" d="{nested}"/>"#));
    assert_eq!(even.motif.layers[0].outlines[0].holes().len(), 1);
    assert!((area(&even.motif, 0) - 300.0).abs() < 0.01);
    let filled = read(&format!(r#"<path d="{nested}"/>"#));
    assert!(filled.motif.layers[0].outlines[0].holes().is_empty());
}

/// A 10 mm line 2 mm wide with round ends: 10 x 2 + pi.
#[test]
fn a_line_becomes_a_shape_of_its_width() {
    let read = read(r##"<path d="M5 5 H15" fill="none" stroke="#060" stroke-width="2" stroke-linecap="round"/>"##);
    assert!((area(&read.motif, 0) - (20.0 + std::f64::consts::PI)).abs() < 0.1);
    let finding = read.findings.iter().find(|finding| finding.kind == "line-as-shape").unwrap();
    assert!((finding.measure.unwrap().get() - 2.0).abs() < 0.01);
    assert_eq!(finding.severity, Severity::FixedForYou);
}

#[test]
fn millions_of_dashes_are_never_made() {
    let many = read(r##"<path d="M0 5 H99" fill="none" stroke="#060" stroke-dasharray="0.0001" stroke-width="2"/>"##);
    assert!(kinds(&many).contains(&"too-many-dashes"));
    assert!((area(&many.motif, 0) - 198.0).abs() < 0.01);
    let few = read(r##"<path d="M0 5 H99" fill="none" stroke="#060" stroke-dasharray="10 1" stroke-width="2"/>"##);
    assert!((area(&few.motif, 0) - 180.0).abs() < 0.01);
}

#[test]
fn layers_follow_paint_order_and_a_colour_painted_again_on_top_is_pressed_later() {
    let body = r##"<rect id="under" width="30" height="30" fill="#c00"/>
        <rect id="middle" x="10" y="10" width="10" height="10" fill="#fd0"/>
        <rect id="beside" x="40" width="10" height="10" fill="#c00"/>
        <rect id="dot" x="13" y="13" width="4" height="4" fill="#c00"/>"##;
    let read = read(body);
    let colours: Vec<String> = read.motif.layers.iter().map(|layer| layer.colour.to_string()).collect();
    assert_eq!(colours, ["#cc0000", "#ffdd00", "#cc0000"]);
    assert_eq!(read.motif.layers[0].outlines.len(), 2, "what lies beside joins the lower layer");
    let again = read.findings.iter().find(|finding| finding.kind == "colour-again").unwrap();
    assert_eq!(again.place.as_ref().unwrap().element, "dot");
}

#[test]
fn overlapping_shapes_of_one_colour_are_joined() {
    let read = read(r##"<rect width="10" height="10"/><rect x="5" width="10" height="10"/>"##);
    assert_eq!(read.motif.layers[0].outlines.len(), 1);
    assert!((area(&read.motif, 0) - 150.0).abs() < 0.01);
    assert_eq!(kinds(&read), ["overlap-joined"]);
}

#[test]
fn a_clip_is_applied_and_said() {
    let body = r##"<clipPath id="half"><rect width="10" height="40"/></clipPath>
        <g clip-path="url(#half)"><rect id="petal" width="20" height="10"/></g>"##;
    let read = read(body);
    assert!((area(&read.motif, 0) - 100.0).abs() < 0.01);
    let clipped = read.findings.iter().find(|finding| finding.kind == "clipped").unwrap();
    assert!(clipped.say.contains("100.0 mm²"), "{}", clipped.say);
}

#[test]
fn what_cannot_be_cut_is_named_with_its_line() {
    let body = "<rect width='20' height='20'/>\n<text id='label'>for the hem</text>\n\
        <image href='file:///etc/hostname' width='5' height='5'/>\n\
        <rect visibility='hidden' width='5' height='5'/>\n<g opacity='0'><rect id='ghost' width='5' height='5'/></g>\n\
        <use href='#nowhere'/>\n<rect display='none' width='5' height='5'/>\n<foreignObject/>\n\
        <rect fill='url(#gone)' width='3' height='3'/>";
    let read = read(body);
    for (kind, line) in [
        ("text", 2),
        ("picture", 3),
        ("hidden-shape", 4),
        ("hidden-shape", 5),
        ("missing-copy", 6),
        ("hidden-shape", 7),
        ("foreign-content", 8),
        ("missing-paint", 9),
    ] {
        let found = read
            .findings
            .iter()
            .any(|finding| finding.kind == kind && finding.place.as_ref().unwrap().line == Some(line));
        assert!(found, "{kind} in line {line}: {:#?}", read.findings);
    }
    assert!((area(&read.motif, 0) - 400.0).abs() < 0.01, "none of them is cut");
}

#[test]
fn whatever_goes_in_and_does_not_come_out_is_noted() {
    for body in [
        "<rect id='lost' width='0' height='9'/>",
        "<style>.off{display:none}</style><path id='lost' class='off' d='M0 0h5v5z'/>",
        "<path id='lost' d='nonsense'/>",
        "<circle id='lost' r='-3'/>",
        "<rect id='lost' width='5' height='5' transform='scale(0)'/>",
        "<switch><g systemLanguage='xx'><rect id='lost' width='5' height='5'/></g></switch>",
        "<rect id='lost' width='5' height='5' filter='url(#gone)'/>",
        "<defs><g id='nothing'/></defs><use id='lost' href='#nothing'/>",
    ] {
        let read = read(&format!("<rect width='20' height='20'/>{body}"));
        let noted = |finding: &hemwright::finding::Finding| finding.place.as_ref().unwrap().element == "lost";
        assert!(read.findings.iter().any(noted), "{body}: {:?}", read.findings);
        assert!((area(&read.motif, 0) - 400.0).abs() < 0.01);
    }
}

/// What the parser takes in place of each is what SVG 2 says of values in error: as if they were not written.
#[test]
fn what_cannot_be_read_is_quoted_and_stops_the_job_where_it_spoils_the_cut() {
    use Severity::{LookAtThis, StopsTheJob};
    for (body, kind, severity, quoted) in [
        ("<rect id='a' transform='scale(2' width='9' height='9'/>", "unread-transform", StopsTheJob, "\"scale(2\""),
        ("<rect id='a' transform='sclae(2)' width='9' height='9'/>", "unread-transform", StopsTheJob, "\"sclae(2)\""),
        ("<g id='a' transform='rotate(abc)'><rect width='9' height='9'/></g>", "unread-transform", StopsTheJob, "abc"),
        ("<rect id='a' transform='scale(nan)' width='9' height='9'/>", "unread-transform", StopsTheJob, "scale(nan)"),
        (
            "<rect id='a' transform='matrix(1 0 0 1)' width='9' height='9'/>",
            "unread-transform",
            StopsTheJob,
            "(1 0 0 1)",
        ),
        (
            "<rect id='a' style='transform:rotate(45deg)' width='9' height='9'/>",
            "unread-transform",
            StopsTheJob,
            "45deg",
        ),
        (
            "<defs><g id='b'><rect id='a' transform='scale(x)' width='9' height='9'/></g></defs><use href='#b'/>",
            "unread-transform",
            StopsTheJob,
            "scale(x)",
        ),
        ("<rect id='a' fill='blurple' width='9' height='9'/>", "unknown-colour", LookAtThis, "blurple"),
        ("<g id='a' style='fill:#c0'><rect width='9' height='9'/></g>", "unknown-colour", LookAtThis, "#c0"),
        ("<rect id='a' stroke='blurple' width='9' height='9'/>", "unknown-colour", LookAtThis, "no line was drawn"),
        ("<path id='a' stroke='blurple' fill='none' d='M0 0H9'/>", "unknown-colour", StopsTheJob, "blurple"),
        (
            "<linearGradient id='f'><stop id='a' stop-color='redd'/><stop offset='1'/></linearGradient>\
            <rect fill='url(#f)' width='9' height='9'/>",
            "unknown-colour",
            LookAtThis,
            "redd",
        ),
        ("<path id='a' d='M0 0H9V9H0Z M3 3h3oops'/>", "broken-path", StopsTheJob, "\"oops\" on, 18 characters in"),
        ("<path id='a' d='M0 0H9V9H0Z M3 3L'/>", "broken-path", StopsTheJob, "ends in the middle of a step"),
        ("<polygon id='a' points='0,0 9,0 9,9 4'/>", "broken-path", StopsTheJob, "after 3 points"),
        ("<rect id='a' width='9' height='9' rx='1.5.5'/>", "unread-size", StopsTheJob, "\"1.5.5\""),
        ("<path id='a' stroke='red' stroke-width='2 mm' d='M0 0H9'/>", "unread-size", StopsTheJob, "\"2 mm\""),
        ("<path id='a' stroke='red' stroke-dasharray='2 -1' d='M0 0H9'/>", "unread-size", StopsTheJob, "\"2 -1\""),
        (
            "<clipPath id='c'><rect width='9' height='9' transform='scale(.5' id='a'/></clipPath>\
            <rect clip-path='url(#c)' width='9' height='9'/>",
            "unread-transform",
            StopsTheJob,
            "scale(.5",
        ),
        ("<rect id='a' clip-path='circle(50%)' width='9' height='9'/>", "unread-value", StopsTheJob, "circle(50%)"),
        ("<rect id='a' opacity='half' width='9' height='9'/>", "unread-value", LookAtThis, "half"),
        ("<style id='a'>@media print{rect{fill:red}}</style>", "unread-style", LookAtThis, "@media"),
    ] {
        let read = read(&format!("<rect width='20' height='20'/>{body}"));
        let found = read.findings.iter().find(|finding| finding.kind == kind).unwrap_or_else(|| {
            panic!("{body}: {:?}", read.findings);
        });
        assert_eq!(found.severity, severity, "{body}");
        assert_eq!(found.place.as_ref().unwrap().element, "a", "{body}");
        let told = format!("{} {}", found.say, found.advice).to_lowercase();
        assert!(told.contains(&quoted.to_lowercase()), "{told}");
    }
}

/// Nothing is said of values that nothing drawn uses, nor of those that mean what the parser takes anyway.
#[test]
fn what_bears_on_nothing_is_not_noted() {
    for body in [
        "<defs><rect transform='scale(2' width='9' height='9'/></defs>",
        "<g display='none' transform='scale(2'/>",
        "<g stroke-width='wide' stroke-linecap='blunt'><rect width='9' height='9'/></g>",
        "<g fill='blurple'><rect fill='red' width='9' height='9'/></g>",
        "<g color='blurple'><rect fill='red' width='9' height='9'/></g>",
        "<rect transform='' style='transform:none;fill:initial;stroke:none;stroke-dasharray:none' width='9' height='9'/>",
        "<style>@font-face{font-family:x;src:url(x)} .q{font:italic 3px x} rect:hover{fill:red}</style>",
        "<rect fill='inherit' stroke='inherit' opacity='80%' width='9' height='9' rx='auto'/>",
    ] {
        let read = read(&format!("<rect width='20' height='20'/>{body}"));
        let noted = |kind: &str| kind.starts_with("un") || kind == "broken-path";
        assert!(!kinds(&read).into_iter().any(noted), "{body}: {:?}", read.findings);
    }
}

/// The page's own size is nothing to a motif whose width is asked for.
#[test]
fn a_page_that_cannot_be_read_stops_the_job_only_where_its_size_counts() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='9O mm' height='60mm' viewBox='0 0 90 60'>\
               <rect width='45' height='45'/></svg>";
    for (width, severity) in [(None, Severity::StopsTheJob), (Some(45.0), Severity::LookAtThis)] {
        let read = art::read(svg, &wish(width)).unwrap();
        let found = read.findings.iter().find(|finding| finding.kind == "unread-size").unwrap();
        assert_eq!(found.severity, severity);
        assert!(found.say.contains("The width of the page, \"9O mm\""), "{}", found.say);
    }
}

#[test]
fn small_openings_are_closed_and_wide_ones_stop_the_job() {
    for (path, severity) in
        [("M0 0 H20 V20 H0 V0.4", Severity::FixedForYou), ("M0 0 H20 V20 H0 V3", Severity::StopsTheJob)]
    {
        let read = read(&format!(r#"<path d="{path}"/>"#));
        let open = read.findings.iter().find(|finding| finding.kind == "open-outline").unwrap();
        assert_eq!(open.severity, severity);
        let at = open.place.as_ref().unwrap().at.unwrap();
        let gap = open.measure.unwrap().get();
        assert!(at.distance(Point::new(-10.0, -10.0 + gap / 2.0)) < 0.01, "{at:?}");
    }
    assert!(!kinds(&read(r#"<path d="M0 0 H20 V20 H0 Z"/>"#)).contains(&"open-outline"));
}

/// SVG 2, section 5.5: a copy that leads back to itself is an error; what stands beside it is not.
#[test]
fn a_copy_that_holds_itself_is_named_and_its_neighbours_are_kept() {
    let square = |x: u32| format!("<rect x='{x}' width='10' height='10'/>");
    for (body, copies) in [
        (format!("<g id='g'><use href='#g' x='5'/>{}</g>{}", square(0), square(30)), 1),
        (format!("<g id='a'><use href='#b'/>{}</g><g id='b'><use href='#a'/>{}</g>", square(0), square(30)), 2),
        (format!("<use id='u' href='#u'/>{}{}", square(0), square(30)), 1),
    ] {
        let found = read(&body);
        assert!((area(&found.motif, 0) - 200.0).abs() < 1e-3, "{body}");
        assert_eq!(kinds(&found), vec!["copy-of-itself"; copies], "{body}");
        assert!(found.findings[0].say.ends_with("that holds itself: it would go round for ever."));
    }
}

/// A dot of 1 mm makes a likely motif only as 1 cm or 1 in; one of 0.1 mm as nothing.
#[test]
fn only_units_that_make_a_likely_motif_are_offered() {
    let dot = |size: &str| {
        let svg = format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='{size}' height='{size}' viewBox='0 0 1 1'>\
             <ellipse cx='.5' cy='.5' rx='.5' ry='.5'/></svg>"
        );
        let found = art::read(&svg, &wish(None)).unwrap();
        found.findings.iter().find(|finding| finding.kind == "unit-guessed").unwrap().advice.clone()
    };
    let told = dot("1mm");
    assert!(told.contains("in centimetres (10.0 mm wide) or in inches (25.4 mm wide)"), "{told}");
    assert!(!told.contains("72"), "{told}");
    let one = "<svg xmlns='http://www.w3.org/2000/svg' width='.2mm' height='.2mm' viewBox='0 0 .2 .2'>\
               <rect width='.2' height='.2'/></svg>";
    let found = art::read(one, &wish(None)).unwrap();
    assert!(found.findings[0].advice.starts_with("No usual unit"), "{}", found.findings[0].advice);
}

#[test]
fn a_job_file_in_place_of_a_drawing_is_told_apart() {
    let job = "# a skirt\n\n[garment]\nname = \"skirt\"\n";
    for text in [job, "waist = \"72 cm\"", "\u{feff}[hem]"] {
        let error = art::read(text, &wish(None)).unwrap_err();
        assert!(error.to_string().ends_with("is a job file, not a drawing"), "{error}");
        assert!(error.hint().starts_with("hemwright plan "), "{}", error.hint());
    }
    let torn = art::read("svg width='9'>", &wish(None)).unwrap_err();
    assert!(torn.to_string().contains("is not an SVG drawing"), "{torn}");
}

#[test]
fn what_is_no_drawing_is_refused_with_a_reason() {
    let error = |svg: &str| art::read(svg, &wish(None)).unwrap_err();
    assert!(matches!(error("not a drawing"), ArtError::NotXml { .. }));
    assert!(matches!(error("<html/>"), ArtError::NotSvg { .. }));
    assert!(matches!(error(""), ArtError::NotXml { .. }));
    assert_eq!(
        error("<html/>").to_string(),
        "poppy.svg is not an SVG drawing: its outermost element is <html>, not <svg>"
    );
    assert!(matches!(error(&drawing("")), ArtError::NothingToCut { .. }));
    let only_text = error(&drawing("<text>hem</text>"));
    assert_eq!(only_text.to_string(), "poppy.svg holds nothing that can be cut; one thing was left out");
    assert!(only_text.hint().contains("Text found"), "{}", only_text.hint());
    let no_size = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 60"><rect width="30" height="60"/></svg>"#;
    assert!(matches!(error(no_size), ArtError::NoSize { .. }));
    assert!((art::read(no_size, &wish(Some(45.0))).unwrap().motif.width.get() - 45.0).abs() < 1e-9);
    let square = drawing("<rect width='2' height='2'/>");
    assert!(matches!(art::read(&square, &wish(Some(0.0))), Err(ArtError::BadWidth { .. })));
}

#[test]
fn the_sample_drawings_read_as_drawn() {
    let load = |name: &str| {
        let svg = std::fs::read_to_string(format!("{}/sample-art/{name}.svg", env!("CARGO_MANIFEST_DIR"))).unwrap();
        art::read(&svg, &MotifWish { name: name.into(), file: format!("{name}.svg"), width: None }).unwrap()
    };
    let flower = load("meadow-flower");
    let colours: Vec<String> = flower.motif.layers.iter().map(|layer| layer.colour.to_string()).collect();
    assert_eq!(colours, ["#3f7d4e", "#c8385a", "#f2b705"], "greens lowest, centre on top");
    assert!(flower.motif.layers.iter().all(|layer| layer.outlines.len() == 1), "each colour is one piece");
    assert!(flower.findings.iter().all(|finding| finding.severity == Severity::FixedForYou), "{:#?}", flower.findings);
    let leaf = load("curled-leaf");
    assert_eq!(leaf.motif.layers.len(), 1);
    assert_eq!(leaf.motif.layers[0].outlines[0].holes().len(), 1);
    assert!(leaf.findings.is_empty(), "{:#?}", leaf.findings);
    let tulip = load("hasty-tulip");
    for kind in ["open-outline", "text", "gradient", "hidden-shape", "line-as-shape"] {
        assert!(kinds(&tulip).contains(&kind), "{kind}: {:#?}", tulip.findings);
    }
}
