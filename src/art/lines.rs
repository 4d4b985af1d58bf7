//! Lines of a drawing by the ids of their elements: edges of pattern pieces, which are measured and never cut.
//!
//! Read within the same limits as any drawing. Curves come through the SVG parser, which keeps single-precision points and
//! turns arcs into cubic curves: on a drawing of 5 m that is some hundredths of a millimetre, below a chalk line.

use std::collections::{BTreeMap, BTreeSet};

use kurbo::BezPath;

use super::error::ArtError;
use super::labels::Labels;
use super::size::{self, StatedSize};
use super::{hostile, misread, note, svg};
use crate::finding::{Finding, Place, Severity};

/// Most ids listed for a maker who mistyped one.
const MOST_KNOWN: usize = 40;

/// Lines read from a drawing, and what was found on the way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lines {
    /// Lines in page millimetres, y down, by id; ids that the drawing does not have are left out.
    pub by_id: BTreeMap<String, BezPath>,
    /// Ids that the drawing gives, the first few: for whoever asked for one that it does not.
    pub known: Vec<String>,
    /// What the maker should look at: a drawing whose unit is a guess, or what cannot be read of these lines.
    pub findings: Vec<Finding>,
}

/// Reads the lines of the elements with these ids, whatever their colour; a group stands for all lines in it.
///
/// # Errors
/// [`ArtError`] when it is no SVG, states no size, or is beyond the limits kept against hostile files.
pub fn lines(text: &str, file: &str, ids: &BTreeSet<String>) -> Result<Lines, ArtError> {
    hostile::on_deep_stack(file, || {
        hostile::check_text(text, file)?;
        let document = hostile::parse(text, file)?;
        hostile::check_tree(&document, file)?;
        let stated = size::stated(document.root_element());
        if stated == StatedSize::None {
            return Err(ArtError::NoScale { file: file.to_owned() });
        }
        let labels = Labels::new(&document);
        let misread = note::in_order(misread::notes_on_lines(&document, &labels, ids));
        let labelled = labels.write();
        let by_id = svg::lines(&labelled, file, ids)?;
        let given = labelled.by_id.iter().filter(|(id, label)| **id == label.element).map(|(id, _)| id.clone());
        let known = given.take(MOST_KNOWN).collect();
        let misread = misread.into_iter().map(|note| note.into_finding(file));
        let findings = misread.chain((stated == StatedSize::Pixels).then(|| guessed(file))).collect();
        Ok(Lines { by_id, known, findings })
    })
}

fn guessed(file: &str) -> Finding {
    Finding {
        severity: Severity::LookAtThis,
        kind: "unit-guessed",
        place: Some(Place { drawing: file.to_owned(), element: "drawing".to_owned(), line: None, at: None }),
        measure: None,
        say: "The drawing gives its size in bare numbers; its lines were measured at 96 to the inch.".to_owned(),
        advice: "Give the page a width in millimetres, and measure one line of the drawing against the figures here."
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(ids: &[&str]) -> BTreeSet<String> {
        ids.iter().map(|id| (*id).to_owned()).collect()
    }

    #[test]
    fn a_line_is_found_by_its_id_whatever_its_paint_and_group() {
        let text = r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 2000 1000">
            <g transform="translate(100 0)"><path id="bare" d="M0 500H1000" fill="none"/>
            <path id="unpainted-black" d="M0 500H1000"/>
            <line id="hair" x1="0" y1="0" x2="0" y2="300" stroke="red"/></g>
            <g id="pair"><path d="M0 0L100 0" stroke="red"/><path d="M100 0V50" stroke="red"/></g>
            <defs><path id="mould" d="M0 0H10" stroke="red"/></defs><use id="copy" href="#mould" y="70"/></svg>"##;
        let wanted = ids(&["bare", "unpainted-black", "hair", "pair", "copy", "missing"]);
        let lines = lines(text, "pieces.svg", &wanted).unwrap();
        assert!(lines.findings.is_empty());
        let ends = |id: &str| {
            let segments: Vec<_> = lines.by_id[id].segments().collect();
            use kurbo::ParamCurve as _;
            (segments.len(), segments[0].start(), segments[segments.len() - 1].end())
        };
        let near = |found: kurbo::Point, x: f64, y: f64| found.distance(kurbo::Point::new(x, y)) < 1e-4;
        for id in ["bare", "unpainted-black"] {
            let (count, start, end) = ends(id);
            assert!(count == 1 && near(start, 10.0, 50.0) && near(end, 110.0, 50.0), "{id}");
        }
        assert!(near(ends("hair").2, 10.0, 30.0));
        assert!(ends("pair").0 == 2 && near(ends("pair").2, 10.0, 5.0));
        assert!(near(ends("copy").1, 0.0, 7.0));
        assert!(!lines.by_id.contains_key("missing"));
        assert_eq!(lines.known, ["bare", "copy", "hair", "mould", "pair", "unpainted-black"]);
    }

    /// A pattern piece whose enlargement is dropped would give a hem of another length.
    #[test]
    fn what_cannot_be_read_of_a_wanted_line_stops_the_job() {
        let text = r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">
            <g transform="scale(2"><path id="a" d="M0 0H9"/></g><path id="b" d="M0 5H9 x"/>
            <path id="other" transform="scale(2" stroke="blurple" d="M0 0H9"/></svg>"##;
        let kinds = |id: &str| {
            let found = lines(text, "pieces.svg", &ids(&[id])).unwrap().findings;
            assert!(found.iter().all(|finding| finding.severity == Severity::StopsTheJob));
            found.iter().map(|finding| finding.kind).collect::<Vec<_>>()
        };
        assert_eq!(kinds("a"), ["unread-transform"]);
        assert_eq!(kinds("b"), ["broken-path"]);
        assert!(kinds("missing").is_empty());
    }

    #[test]
    fn a_drawing_without_a_true_size_is_told_or_refused() {
        let svg =
            |size: &str| format!(r#"<svg xmlns="http://www.w3.org/2000/svg" {size}><path id="a" d="M0 0H96"/></svg>"#);
        let pixels = lines(&svg(r#"width="96" height="96""#), "pieces.svg", &ids(&["a"])).unwrap();
        assert_eq!(pixels.findings[0].kind, "unit-guessed");
        let refused = lines(&svg(r#"viewBox="0 0 96 96""#), "pieces.svg", &ids(&["a"])).unwrap_err();
        assert_eq!(refused.to_string(), "pieces.svg states no size in mm, cm or inches, so its lines have no length");
    }
}
