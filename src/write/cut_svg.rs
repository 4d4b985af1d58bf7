//! A sheet as SVG for any cutter: sizes in millimetres, one path for each carrier patch, and nothing that a cutter's
//! program could read in two ways (no transforms, styles, text, links, curves or open lines).

use std::fmt::Write as _;

use svg::node::element::{Path, SVG};

use super::cut_sheet::{CutPatch, CutSheet};

/// The file's text.
pub(crate) fn file(sheet: &CutSheet) -> String {
    let mut root = SVG::new()
        .set("width", format!("{}mm", sheet.width))
        .set("height", format!("{}mm", sheet.height))
        .set("viewBox", format!("0 0 {} {}", sheet.width, sheet.height));
    for patch in &sheet.patches {
        root = root.add(path(patch));
        if !patch.waste.is_empty() {
            root = root.add(waste(patch));
        }
    }
    // XML allows no two hyphens within a comment.
    let widths = sheet.widths.replace("--", "- -");
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- finished width: {widths} -->\n{root}\n")
}

fn path(patch: &CutPatch) -> Path {
    Path::new()
        .set("id", patch.id.clone())
        .set("fill", patch.colour.to_string())
        .set("fill-rule", "evenodd")
        .set("d", data(&patch.rings))
}

/// Cuts that only part waste: lines without an area, after the piece, since they lie outside it.
fn waste(patch: &CutPatch) -> Path {
    Path::new()
        .set("id", format!("{}-waste", patch.id))
        .set("fill", "none")
        .set("stroke", "#000000")
        .set("stroke-width", "0.1")
        .set("d", data(&patch.waste))
}

fn data(rings: &[Vec<[i64; 2]>]) -> String {
    let mut d = String::new();
    for ring in rings {
        for (k, [x, y]) in ring.iter().enumerate() {
            let letter = if k == 0 { 'M' } else { 'L' };
            write!(d, "{letter}{} {}", Micrometres(*x), Micrometres(*y)).expect("writing to a string cannot fail");
        }
        d.push('Z');
    }
    d
}

/// Micrometres written as millimetres without rounding: `12.05`, `-0.001`, `7`.
pub(crate) struct Micrometres(pub(crate) i64);

impl std::fmt::Display for Micrometres {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (sign, um) = (if self.0 < 0 { "-" } else { "" }, self.0.unsigned_abs());
        let (whole, part) = (um / 1000, um % 1000);
        if part == 0 {
            return write!(f, "{sign}{whole}");
        }
        let digits = format!("{part:03}");
        write!(f, "{sign}{whole}.{}", digits.trim_end_matches('0'))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn micrometres_become_millimetres_to_the_last_digit() {
        for (um, text) in [(0, "0"), (12_050, "12.05"), (-1, "-0.001"), (7000, "7"), (-12_345, "-12.345")] {
            assert_eq!(Micrometres(um).to_string(), text);
        }
    }
}
