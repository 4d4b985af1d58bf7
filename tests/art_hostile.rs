//! Hostile drawings: every one is refused or read in bounded time and memory, and never panics.
#![allow(missing_docs, clippy::unwrap_used, clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "tests")]

use hemwright::art::{self, ArtError, Excess, MotifWish, Read, Working};
use hemwright::quantity::mm;
use proptest::prelude::*;

/// Reads and inspects; both must come to the same verdict.
fn read_at(svg: &str, width: Option<f64>) -> Result<Read, ArtError> {
    let wish = MotifWish { name: "odd".into(), file: "odd.svg".into(), width: width.map(mm) };
    let read = art::read(svg, &wish);
    assert_eq!(art::inspect(svg, &wish, &Working::TurnedEdge.into()).is_ok(), read.is_ok());
    read
}

fn read(svg: &str) -> Result<Read, ArtError> {
    read_at(svg, Some(60.0))
}

fn drawing(body: &str) -> String {
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="100mm" height="100mm" viewBox="0 0 100 100">{body}</svg>"#
    )
}

fn excess(result: Result<Read, ArtError>) -> Excess {
    match result {
        Err(ArtError::TooMuch { what, .. }) => what,
        other => panic!("expected a refusal for size, got {other:?}"),
    }
}

const SQUARE: &str = r#"<rect id="sq" width="10" height="10"/>"#;

#[test]
fn entity_bombs_are_refused() {
    let mut laughs = String::from("<!DOCTYPE svg [<!ENTITY l0 \"<rect width='1' height='1'/>\">");
    for level in 1..30 {
        let copies = format!("&l{};", level - 1).repeat(10);
        laughs.push_str(&format!("<!ENTITY l{level} \"{copies}\">"));
    }
    laughs.push_str("]><svg xmlns='http://www.w3.org/2000/svg' width='10mm' height='10mm'>&l29;</svg>");
    assert!(read(&laughs).is_err());

    let wide = format!("<!ENTITY a \"{}\">", "x".repeat(100_000));
    let blow = format!(
        "<!DOCTYPE svg [{wide}]><svg xmlns='http://www.w3.org/2000/svg' width='10mm' height='10mm'><desc>{}</desc></svg>",
        "&a;".repeat(20_000)
    );
    assert!(read(&blow).is_err());
}

#[test]
fn nothing_outside_the_drawing_is_read() {
    let outside = "<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/passwd'>]><svg xmlns='http://www.w3.org/2000/svg' \
                   width='10mm' height='10mm'><desc>&x;</desc><rect width='5' height='5'/></svg>";
    assert!(read(outside).is_err(), "an entity from outside stays unknown");

    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-art/curled-leaf.svg");
    let body = format!(
        "{SQUARE}<image href='{path}' width='50' height='50'/><image href='file://{path}' width='9' height='9'/>\
         <use href='{path}#leaf'/><style>@import url('{path}');</style>"
    );
    let found = read_at(&drawing(&body), None).unwrap();
    assert!((found.motif.width.get() - 10.0).abs() < 1e-3, "only the square is there");
    assert_eq!(found.findings.iter().filter(|finding| finding.kind == "picture").count(), 2);
    assert_eq!(found.findings.iter().filter(|finding| finding.kind == "missing-copy").count(), 1);
}

/// A PNG header that claims an extreme shape once brought the parser down; pictures are not even decoded.
#[test]
fn embedded_pictures_are_never_opened() {
    let header = "iVBORw0KGgoAAAANSUhEUgAAAAH/////CAYAAAA=";
    let body = format!("{SQUARE}<image href='data:image/png;base64,{header}' width='5' height='5'/>");
    assert!(read(&drawing(&body)).is_ok());
}

#[test]
fn nesting_is_followed_to_two_hundred_and_no_further() {
    let nested = |levels: usize| drawing(&format!("{}{SQUARE}{}", "<g>".repeat(levels), "</g>".repeat(levels)));
    assert!(read(&nested(190)).is_ok());
    assert_eq!(excess(read(&nested(250))), Excess::Depth);
    assert_eq!(excess(read(&nested(100_000))), Excess::Depth);
    assert_eq!(excess(read(&nested(500_000))), Excess::Elements);
}

#[test]
fn chains_of_copies_count_as_nesting() {
    let mut body = format!("<defs>{SQUARE}");
    for k in 0..300 {
        let target = if k == 0 { "sq".to_owned() } else { format!("u{}", k - 1) };
        body.push_str(&format!("<use id='u{k}' href='#{target}'/>"));
    }
    body.push_str("</defs><use href='#u299'/>");
    assert_eq!(excess(read(&drawing(&body))), Excess::Depth);
}

#[test]
fn copies_of_copies_are_counted_before_they_are_made() {
    let mut body = format!("<defs><g id='g0'>{SQUARE}</g>");
    for k in 1..40 {
        body.push_str(&format!("<g id='g{k}'><use href='#g{0}'/><use href='#g{0}' x='1'/></g>", k - 1));
    }
    body.push_str("</defs><use href='#g39'/>");
    assert_eq!(excess(read(&drawing(&body))), Excess::Elements);
}

#[test]
fn loops_of_copies_clips_masks_and_patterns_end() {
    for body in [
        "<g id='a'><use href='#a'/></g>",
        "<use id='a' href='#b'/><use id='b' href='#a'/>",
        "<g id='a'><use href='#b'/></g><g id='b'><g id='c'><use href='#a'/></g></g>",
        "<clipPath id='c' clip-path='url(#c)'><rect width='9' height='9' clip-path='url(#c)'/></clipPath><rect clip-path='url(#c)' width='9' height='9'/>",
        "<mask id='m'><rect width='9' height='9' mask='url(#m)'/></mask><rect mask='url(#m)' width='9' height='9'/>",
        "<pattern id='p' width='4' height='4'><rect width='2' height='2' fill='url(#p)'/></pattern><rect fill='url(#p)' width='9' height='9'/>",
        "<linearGradient id='l' href='#k'/><linearGradient id='k' href='#l'/><rect fill='url(#l)' width='9' height='9'/>",
        "<marker id='m'><path d='M0 0 L1 1' marker-end='url(#m)'/></marker><path d='M0 0 L9 9 L0 9' marker-end='url(#m)'/>",
    ] {
        let found = read(&drawing(&format!("<rect x='20' width='5' height='5'/>{body}")));
        assert!(!matches!(found, Err(ArtError::ReaderFailed { .. })), "{body}");
    }
}

#[test]
fn markers_patterns_and_clips_are_counted_where_they_are_used() {
    let parts = "<rect width='1' height='1'/>".repeat(1_000);
    let path = "<path d='M0 0".to_owned() + &"l1 1l1-1".repeat(1_000);
    for body in [
        format!("<marker id='m'>{parts}</marker>{path}' marker-mid='url(#m)'/>"),
        format!("<marker id='m'>{parts}</marker><style>path{{marker-mid:url(#m)}}</style>{path}'/>"),
        format!("<pattern id='m' width='3' height='3'>{parts}</pattern><g fill='url(#m)'>{parts}</g>"),
        format!("<clipPath id='m'>{parts}</clipPath><g clip-path='url(#m)'>{parts}</g>"),
    ] {
        assert_eq!(excess(read(&drawing(&body))), Excess::Elements);
    }
}

#[test]
fn crowds_of_attributes_and_style_rules_are_refused() {
    let attributes: String = (0..60_000).map(|k| format!(" a{k}=''")).collect();
    assert_eq!(excess(read(&drawing(&format!("<rect{attributes}/>")))), Excess::Attributes);
    let rules: String = (0..10_000).map(|k| format!(".c{k}{{fill:#123456}}")).collect();
    let body = format!("<style>{rules}</style>{}", "<rect width='1' height='1'/>".repeat(10_000));
    assert_eq!(excess(read(&drawing(&body))), Excess::StyleRules);
}

#[test]
fn large_files_are_refused_by_size_alone() {
    assert_eq!(excess(read(&drawing(&" ".repeat(17 << 20)))), Excess::Bytes);
}

#[test]
fn points_far_out_or_no_numbers_never_panic() {
    for value in ["1e30", "-1e38", "1e400", "NaN", "inf", "1e9", "1e-30", "0"] {
        for body in [
            format!("<rect x='{value}' width='5' height='5'/>"),
            format!("<rect width='{value}' height='5'/>"),
            format!("<path d='M0 0 L{value} 5 L3 9 Z'/>"),
            format!("<path d='M0 0 C{value} 5 3 {value} 3 9 Z'/>"),
            format!("<path d='M0 0 L9 9' stroke='#000' stroke-width='{value}'/>"),
            format!("<path d='M0 0 L9 9 L0 1' stroke='#000' stroke-miterlimit='{value}'/>"),
            format!("<path d='M0 0 L9 9' stroke='#000' stroke-dasharray='{value} 1'/>"),
            format!("<circle r='{value}' fill='#123'/>"),
            format!("<g transform='scale({value})'>{SQUARE}</g>"),
            format!("<g transform='matrix(1 0 0 1 {value} 0)'>{SQUARE}</g>"),
            format!("<g transform='matrix({value} 1 1 {value} 0 0)'>{SQUARE}</g>"),
        ] {
            for extra in ["", "<rect x='20' width='5' height='5'/>"] {
                for width in [None, Some(60.0)] {
                    let found = read_at(&drawing(&format!("{body}{extra}")), width);
                    assert!(!matches!(found, Err(ArtError::ReaderFailed { .. })), "{body}");
                }
            }
        }
    }
}

#[test]
fn absurd_widths_are_refused_or_met() {
    let at = |width| read_at(&drawing(SQUARE), Some(width));
    assert!(matches!(at(1e6), Err(ArtError::TooLarge { .. })));
    assert!(matches!(at(-5.0), Err(ArtError::BadWidth { .. })));
    assert!(!matches!(at(1e-9), Err(ArtError::ReaderFailed { .. })));
}

#[test]
fn megabyte_paths_are_read_or_refused() {
    // A tangle: every edge runs across the page.
    let mut tangle = String::from("<path d='M0 0");
    for k in 0_u64..60_000 {
        tangle.push_str(&format!("L{} {}", k * 7_919 % 101, k * 104_729 % 97));
    }
    tangle.push_str("Z'/>");
    assert_eq!(excess(read(&drawing(&tangle))), Excess::Crossings);

    // More points than any drawing needs.
    let many = format!("<path d='M0 0{}Z'/>", "l.1 .1l.1-.1".repeat(150_000));
    assert_eq!(excess(read(&drawing(&many))), Excess::Points);

    // A long but orderly outline is read.
    let mut orderly = String::from("<path d='M100 50");
    for k in 1..20_000 {
        let angle = std::f64::consts::TAU * f64::from(k) / 20_000.0;
        orderly.push_str(&format!("L{:.4} {:.4}", 50.0 + 50.0 * angle.cos(), 50.0 + 50.0 * angle.sin()));
    }
    orderly.push_str("Z'/>");
    assert!(read(&drawing(&orderly)).is_ok());
}

#[test]
fn crowds_of_overlapping_shapes_end() {
    let shape = |k: u32| {
        let colour = if k.is_multiple_of(2) { "#c00" } else { "#0c0" };
        format!("<path fill='{colour}' d='M{0} 0 L50 90 L{1} 0 L50 95 Z'/>", k % 50, 50 + k % 50)
    };
    let crowd: String = (0..1_000).map(shape).collect();
    let found = read(&drawing(&crowd));
    assert!(!matches!(found, Err(ArtError::ReaderFailed { .. })));
}

#[test]
fn findings_do_not_flood() {
    let crowd = format!("{SQUARE}{}", "<text>x</text>".repeat(5_000));
    let found = read(&drawing(&crowd)).unwrap();
    assert!(found.findings.len() < 200, "{}", found.findings.len());
    assert!(found.findings.iter().any(|finding| finding.say.contains("4,960 more")), "the rest is counted");
}

/// Small drawings that touch every part of the reader; mutations start from them.
const SEEDS: [&str; 4] = [
    r##"<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="9cm" viewBox="0 0 90 90"><g transform="rotate(30 4 5)" fill="#c30"><path d="M1 1C9 2 9 8 1 9Q-3 5 1 1Z" stroke="#111" stroke-width=".5" stroke-dasharray="2 1"/></g><use href="#a" x="20"/><ellipse id="a" cx="20" cy="30" rx="7" ry="3"/></svg>"##,
    r##"<svg xmlns="http://www.w3.org/2000/svg" width="3in" viewBox="0 0 9 9"><defs><clipPath id="c"><circle r="4" cx="4" cy="4"/></clipPath><linearGradient id="g"><stop stop-color="red"/><stop offset="1"/></linearGradient></defs><rect clip-path="url(#c)" fill="url(#g)" width="8" height="8"/><text>hi</text></svg>"##,
    r##"<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100"><style>.a{fill:#0a0;stroke:none}</style><polygon class="a" points="0,0 50,0 50,50 0,50 0,.3"/><path fill-rule="evenodd" d="M60 10h30v30h-30zM70 20h10v10h-10z"/><line x1="0" y1="60" x2="90" y2="70" stroke="blue" stroke-linecap="round"/></svg>"##,
    r##"<!DOCTYPE svg [<!ENTITY s "<rect width='3' height='3'/>">]><svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm">&s;<svg x="4" width="5" height="5" viewBox="0 0 1 1"><circle r="1" opacity=".5"/></svg><switch><g/></switch><symbol id="q"><path d="M0 0l4 4l0-4z"/></symbol><use href="#q" width="9"/></svg>"##,
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn mutated_drawings_are_read_or_refused_without_a_panic(
        seed in 0_usize..SEEDS.len(),
        edits in proptest::collection::vec((0.0_f64..1.0, 0_u8..5, any::<u8>(), 0_usize..12), 1..8),
        width in proptest::option::of(1.0_f64..300.0),
    ) {
        let mut bytes = SEEDS[seed].as_bytes().to_vec();
        for (place, edit, byte, length) in edits {
            let at = ((bytes.len() as f64) * place) as usize;
            let end = (at + length).min(bytes.len());
            match edit {
                0 => bytes[at.min(end.max(1) - 1)] = byte,
                1 => bytes.insert(at, byte),
                2 => { bytes.drain(at..end); }
                3 => { let copy = bytes[at..end].to_vec(); bytes.splice(at..at, copy); }
                _ => { bytes.splice(at..end, b"9e9".iter().copied()); }
            }
            if bytes.is_empty() { break; }
        }
        let text = String::from_utf8_lossy(&bytes);
        let found = read_at(&text, width);
        prop_assert!(!matches!(found, Err(ArtError::ReaderFailed { .. })), "{}", text);
        if let Ok(found) = found {
            for outline in found.motif.layers.iter().flat_map(|layer| &layer.outlines) {
                prop_assert!(outline.area() > 0.0);
            }
        }
    }
}
