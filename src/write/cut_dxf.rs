//! A sheet as DXF for programs that open nothing else: closed polylines in millimetres, one layer for each kind of piece.
//!
//! Written by hand in the oldest dialect (release 12), which every reader takes: it needs no handles, no dates and no
//! random ids, so the same sheet gives the same bytes. y runs up in DXF, so the sheet's lower edge is y = 0.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::cut_sheet::{CutPatch, CutSheet};
use super::cut_svg::Micrometres;

/// Longest layer name release 12 allows.
const LONGEST_LAYER: usize = 31;

/// The file's text.
pub(crate) fn file(sheet: &CutSheet) -> String {
    let mut text = Text::default();
    // Group 999 is a comment.
    text.pair(999, format_args!("finished width: {}", sheet.widths));
    header(&mut text, sheet);
    layers(&mut text, sheet);
    text.pair(0, "SECTION").pair(2, "ENTITIES");
    for patch in &sheet.patches {
        for ring in patch.rings.iter().chain(&patch.waste) {
            polyline(&mut text, sheet, &layer(patch), ring);
        }
    }
    text.pair(0, "ENDSEC").pair(0, "EOF");
    text.0
}

/// A file is pairs of lines: a group code, and its value.
#[derive(Default)]
struct Text(String);

impl Text {
    fn pair(&mut self, code: u16, value: impl std::fmt::Display) -> &mut Self {
        write!(self.0, "{code}\r\n{value}\r\n").expect("writing to a string cannot fail");
        self
    }
}

fn header(text: &mut Text, sheet: &CutSheet) {
    text.pair(0, "SECTION").pair(2, "HEADER");
    text.pair(9, "$ACADVER").pair(1, "AC1009");
    // Millimetres, said in both ways readers ask for it: $INSUNITS 4 and metric $MEASUREMENT.
    text.pair(9, "$INSUNITS").pair(70, 4);
    text.pair(9, "$MEASUREMENT").pair(70, 1);
    text.pair(9, "$EXTMIN").pair(10, "0.0").pair(20, "0.0").pair(30, "0.0");
    text.pair(9, "$EXTMAX").pair(10, real(um(sheet.width))).pair(20, real(um(sheet.height))).pair(30, "0.0");
    text.pair(0, "ENDSEC");
}

fn layers(text: &mut Text, sheet: &CutSheet) {
    let names: BTreeSet<String> = sheet.patches.iter().map(layer).collect();
    text.pair(0, "SECTION").pair(2, "TABLES").pair(0, "TABLE").pair(2, "LAYER").pair(70, names.len() + 1);
    for name in std::iter::once("0".to_owned()).chain(names) {
        text.pair(0, "LAYER").pair(2, name).pair(70, 0).pair(62, 7).pair(6, "CONTINUOUS");
    }
    text.pair(0, "ENDTAB").pair(0, "ENDSEC");
}

/// The id without its number: all patches of one kind share a layer.
fn layer(patch: &CutPatch) -> String {
    let kind = patch.id.rsplit_once('-').map_or(patch.id.as_str(), |(kind, _)| kind);
    kind.chars().take(LONGEST_LAYER).collect::<String>().to_ascii_uppercase()
}

fn polyline(text: &mut Text, sheet: &CutSheet, layer: &str, ring: &[[i64; 2]]) {
    // Flag 1: closed.
    text.pair(0, "POLYLINE").pair(8, layer).pair(66, 1).pair(70, 1);
    text.pair(10, "0.0").pair(20, "0.0").pair(30, "0.0");
    let bottom = um(sheet.height);
    for [x, y] in ring {
        text.pair(0, "VERTEX").pair(8, layer).pair(10, real(*x)).pair(20, real(bottom - y)).pair(30, "0.0");
    }
    text.pair(0, "SEQEND").pair(8, layer);
}

#[expect(clippy::cast_possible_truncation, reason = "sheets are bounded to 10 km, 1e10 micrometres")]
fn um(mm: f64) -> i64 {
    (mm * 1000.0).round() as i64
}

/// A real number always has a decimal point here.
fn real(um: i64) -> String {
    let text = Micrometres(um).to_string();
    if text.contains('.') { text } else { format!("{text}.0") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::art::Colour;
    use dxf::entities::EntityType;

    #[test]
    fn another_reader_finds_the_same_closed_outline_with_y_up() {
        let ring = vec![[10_000, 10_000], [30_500, 10_000], [30_500, 25_125]];
        let patch = CutPatch {
            id: "leaf-2".to_owned(),
            colour: Colour { red: 0, green: 0, blue: 0 },
            rings: vec![ring],
            waste: vec![],
            guides: vec![],
        };
        let sheet = CutSheet {
            name: "test".to_owned(),
            width: 100.0,
            height: 200.0,
            widths: "leaf".to_owned(),
            patches: vec![patch],
        };
        let drawing = dxf::Drawing::load(&mut file(&sheet).as_bytes()).unwrap();
        assert_eq!(drawing.header.default_drawing_units, dxf::enums::Units::Millimeters);
        let entities: Vec<_> = drawing.entities().collect();
        assert_eq!(entities.len(), 1);
        assert_eq!(entities[0].common.layer, "LEAF");
        let EntityType::Polyline(line) = &entities[0].specific else { panic!("{:?}", entities[0].specific) };
        assert!(line.is_closed());
        let points: Vec<(f64, f64)> = line.vertices().map(|v| (v.location.x, v.location.y)).collect();
        assert_eq!(points, [(10.0, 190.0), (30.5, 190.0), (30.5, 174.875)]);
    }
}
