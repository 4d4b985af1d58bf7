//! A sheet as PDF at full size: a page as large as the sheet, the same closed areas as in the other cut files, and on cloth
//! what is drawn and not cut: fold lines, clips and grain arrows.

use kurbo::BezPath;

use super::cut_sheet::CutSheet;
use super::drawing::pdf::{self, Book, Page, Part};
use super::drawing::{Mark, Pen, Shape};
use super::{guide_line, style};
use crate::geometry::Point;

/// The file's bytes.
pub(crate) fn file(sheet: &CutSheet) -> Vec<u8> {
    let marks = sheet.patches.iter().flat_map(|patch| {
        let piece = Shape { path: path(&patch.rings), fill: Some(patch.colour.into()), pen: None };
        let pen = Some(Pen::new(style::TEXT, style::HAIRLINE));
        let waste = (!patch.waste.is_empty()).then(|| Shape { path: path(&patch.waste), fill: None, pen });
        let guides = patch.guides.iter().flat_map(guide_line::shapes);
        std::iter::once(piece).chain(waste).chain(guides).map(Mark::Shape).collect::<Vec<_>>()
    });
    let says = format!(
        "{}: {} patches to cut, {} by {} mm. Finished width: {}.",
        sheet.name,
        sheet.patches.len(),
        sheet.width,
        sheet.height,
        sheet.widths
    );
    let page = Page {
        paper: (sheet.width, sheet.height),
        parts: vec![Part::Figure { says, marks: marks.collect() }],
        furniture: Vec::new(),
        bookmark: Some(sheet.name.clone()),
    };
    pdf::file(&Book { title: sheet.name.clone(), pages: vec![page] })
}

fn path(rings: &[Vec<[i64; 2]>]) -> BezPath {
    let mut path = BezPath::new();
    for ring in rings {
        for (k, [x, y]) in ring.iter().enumerate() {
            let point = Point::new(*x as f64 / 1000.0, *y as f64 / 1000.0);
            if k == 0 { path.move_to(point) } else { path.line_to(point) }
        }
        path.close_path();
    }
    path
}
