//! An inspected drawing as files and words: a numbered picture with a magnified view of each finding (SVG and PNG), the
//! findings for other programs (JSON), and the text for the terminal.
//!
//! Reads an [`Inspection`] and nothing else; no plan is needed to look at a drawing.

mod json;
mod picture;
mod text;

pub use text::text;

use super::OutFile;
use super::drawing::{png, svg_text};
use super::names;
use crate::art::Inspection;

/// The files of an inspection, in a fixed order, named after the motif.
#[must_use]
pub fn files(inspection: &Inspection) -> Vec<OutFile> {
    let stem = match names::part(&inspection.motif.name) {
        name if name.is_empty() => "drawing".to_owned(),
        name => name,
    };
    let picture = picture::draw(inspection);
    vec![
        OutFile { name: format!("{stem}-inspection.png"), bytes: png::file(&picture) },
        OutFile { name: format!("{stem}-inspection.svg"), bytes: svg_text::file(&picture).into_bytes() },
        OutFile { name: format!("{stem}-inspection.json"), bytes: json::file(inspection).into_bytes() },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::art::{self, MotifWish, Working};
    use crate::quantity::mm;

    fn inspection() -> Inspection {
        let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" width="66mm" height="40mm" viewBox="0 0 66 40">
            <path id="lobes" fill="#b8344f" d="M20 8 C27 8 29 19.7 33 19.7 C37 19.7 39 8 46 8 C53 8 58 13 58 20 C58 27 53 32 46 32 C39 32 37 20.3 33 20.3 C29 20.3 27 32 20 32 C13 32 8 27 8 20 C8 13 13 8 20 8 Z"/>
            <circle id="dot" fill="#b8344f" cx="62" cy="6" r="1"/><text id="note" x="4" y="38">hem &lt;b&gt;</text></svg>"##;
        let wish = MotifWish { name: "lobes".to_owned(), file: "lobes.svg".to_owned(), width: Some(mm(56.0)) };
        art::inspect(svg, &wish, &Working::Film.into()).unwrap()
    }

    #[test]
    fn every_finding_is_numbered_alike_in_picture_text_and_data() {
        let inspection = inspection();
        let kinds: Vec<&str> = inspection.found.iter().map(|found| found.finding.kind).collect();
        assert_eq!(kinds, ["thin-neck", "text", "tiny-island"]);
        let files = files(&inspection);
        assert_eq!(files[0].name, "lobes-inspection.png");
        assert_eq!(&files[0].bytes[1..4], b"PNG");
        let picture = std::str::from_utf8(&files[1].bytes).unwrap();
        let document = roxmltree::Document::parse(picture).unwrap();
        let words: Vec<&str> = document.descendants().filter_map(|node| node.text().map(str::trim)).collect();
        let data: serde_json::Value = serde_json::from_slice(&files[2].bytes).unwrap();
        let text = text(&inspection);
        for found in &inspection.found {
            let number = found.number.to_string();
            assert!(
                words.iter().filter(|word| **word == number).count() >= 2,
                "{number} on the motif and beside its view"
            );
            let written = &data["findings"][found.number - 1];
            assert_eq!(written["kind"], found.finding.kind);
            assert_eq!(written["number"], found.number);
            assert!(text.contains(&found.finding.say), "{text}");
        }
        assert_eq!(data["schema"], "hemwright-inspection/1");
        assert_eq!(data["findings"][0]["measure"]["unit"], "mm");
        assert!((data["findings"][0]["measure"]["value"].as_f64().unwrap() - 0.6).abs() < 0.03);
    }

    #[test]
    fn the_same_inspection_gives_the_same_bytes() {
        assert!(files(&inspection()) == files(&inspection()));
    }

    /// Writes the inspections of all sample drawings where `HEMWRIGHT_LOOK` says, for eyes.
    #[test]
    #[ignore = "for looking at"]
    #[allow(clippy::disallowed_methods, reason = "a test for eyes writes files")]
    fn look() {
        let place = std::env::var("HEMWRIGHT_LOOK").unwrap();
        for name in ["meadow-flower", "curled-leaf", "hasty-tulip"] {
            let svg = std::fs::read_to_string(format!("{}/sample-art/{name}.svg", env!("CARGO_MANIFEST_DIR"))).unwrap();
            let wish = MotifWish { name: name.to_owned(), file: format!("{name}.svg"), width: None };
            let inspection = art::inspect(&svg, &wish, &Working::Film.into()).unwrap();
            for file in files(&inspection) {
                std::fs::write(format!("{place}/{}", file.name), file.bytes).unwrap();
            }
            std::fs::write(format!("{place}/{name}.txt"), text(&inspection)).unwrap();
        }
    }

    #[test]
    fn the_text_says_what_where_how_big_and_what_to_do() {
        let text = text(&inspection());
        assert!(text.starts_with("lobes.svg: 56.0 mm wide, 27.5 mm high, 1 colour (#b8344f)"), "{text}");
        assert!(text.contains("look at this"), "{text}");
        assert!(text.contains("1. lobes is 0.6 mm at a thin place, less than 1.0 mm. (lobes, line 2;"), "{text}");
        assert!(text.contains("Make it at least 1.2 mm wide."), "{text}");
        assert!(!text.contains("stops the job"), "{text}");
    }
}
