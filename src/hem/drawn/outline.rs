//! The whole edge of a flat cloth, drawn as one closed line.

use kurbo::{BezPath, ParamCurve as _, ParamCurveArclen as _, ParamCurveExtrema as _, PathSeg};

use super::stretch::{NOTHING, Stretch};
use super::{Allowances, Developed, DrawnError};
use crate::geometry::{Point, Rect};
use crate::hem::chain::Chain;
use crate::quantity::Mm;

/// Ends of a closed line may be this far apart, in millimetres: one whose last point was set by hand.
const CLOSES: f64 = 0.5;

pub(super) fn develop(id: &str, path: &BezPath, allowances: Allowances) -> Result<Developed, DrawnError> {
    let drawn = Stretch::new(id, path)?;
    let by = drawn.opening();
    if by > CLOSES {
        return Err(DrawnError::Open { id: id.to_owned(), by: Mm::new(by) });
    }
    let drawn = if by > NOTHING { closed(&drawn) } else { drawn };
    let area: f64 = drawn.pieces().iter().map(kurbo::ParamCurveArea::signed_area).sum();
    // Below the middle the edge must run to the right of the page, so that the cloth lies on the upper side.
    let drawn = if area > 0.0 { drawn.reversed() } else { drawn };
    let edge = drawn.raised(allowances.hem.get(), true).ok_or_else(|| DrawnError::NothingLeft {
        of: id.to_owned(),
        hem: allowances.hem,
        seam: Mm::ZERO,
    })?;
    let closing = crate::hem::curve::turn_between(edge.last_direction(), edge.first_direction());
    let chain = Chain::new(edge.links(closing));
    let length = chain.length();
    Ok(Developed {
        chain: chain.opened_at(lowest_in_the_middle(&edge) + length / 2.0),
        zero: length / 2.0,
        seams: Vec::new(),
        keep_clear: None,
        sides: None,
        panels: Vec::new(),
        shortest_seam: None,
        findings: Vec::new(),
    })
}

/// With a straight piece from the end to the start.
fn closed(line: &Stretch) -> Stretch {
    let mut path = BezPath::from_path_segments(line.pieces().iter().copied());
    path.line_to(line.start());
    Stretch::new("", &path).unwrap_or_else(|_| line.clone())
}

/// Distance along a closed line to where the upright line through the middle of its bounding box meets it lowest.
fn lowest_in_the_middle(edge: &Stretch) -> f64 {
    let boxes = edge.pieces().iter().map(PathSeg::bounding_box);
    let bounds = boxes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
    let middle = bounds.center().x;
    let upright = kurbo::Line::new(Point::new(middle, bounds.y0 - 1.0), Point::new(middle, bounds.y1 + 1.0));
    let mut start = 0.0;
    let mut best = (f64::NEG_INFINITY, 0.0);
    for seg in edge.pieces() {
        for hit in seg.intersect_line(upright) {
            let y = seg.eval(hit.segment_t).y;
            if y > best.0 {
                best = (y, start + seg.subsegment(0.0..hit.segment_t).arclen(1e-9));
            }
        }
        start += seg.arclen(1e-9);
    }
    best.1
}
