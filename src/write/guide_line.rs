//! How lines that are drawn on cloth pieces and never cut are painted: dark on a light edge, so that they show on any colour.

use kurbo::BezPath;

use super::drawing::{Pen, Shape};
use super::style;
use crate::film::{Guide, GuideLine};

/// The line with its light edge below it; the fold dashed, clips and grain whole.
pub(crate) fn shapes(line: &GuideLine) -> [Shape; 2] {
    let mut path = BezPath::new();
    for (k, point) in line.points.iter().enumerate() {
        if k == 0 { path.move_to(*point) } else { path.line_to(*point) }
    }
    let pen = Pen::new(style::TEXT, style::THIN);
    let pen = match line.what {
        Guide::Fold => pen.dashed(style::SEAM_DASH),
        Guide::Clip | Guide::Grain => pen,
    };
    let edge = Pen::new(style::PAPER, style::BOLD);
    [Shape { path: path.clone(), fill: None, pen: Some(edge) }, Shape { path, fill: None, pen: Some(pen) }]
}
