//! Paths, strokes and transforms of the parser in the words of our geometry.

use crate::geometry::overlay::FillRule;
use crate::geometry::{Affine, Point};
use kurbo::{BezPath, Cap, Join};
use usvg::tiny_skia_path::PathSegment;

pub(super) const fn fill_rule(rule: usvg::FillRule) -> FillRule {
    match rule {
        usvg::FillRule::NonZero => FillRule::NonZero,
        usvg::FillRule::EvenOdd => FillRule::EvenOdd,
    }
}

pub(super) fn kurbo_stroke(stroke: &usvg::Stroke) -> kurbo::Stroke {
    let cap = match stroke.linecap() {
        usvg::LineCap::Butt => Cap::Butt,
        usvg::LineCap::Round => Cap::Round,
        usvg::LineCap::Square => Cap::Square,
    };
    let join = match stroke.linejoin() {
        usvg::LineJoin::Miter | usvg::LineJoin::MiterClip => Join::Miter,
        usvg::LineJoin::Round => Join::Round,
        usvg::LineJoin::Bevel => Join::Bevel,
    };
    let dashes = stroke.dasharray().unwrap_or_default().iter().map(|dash| f64::from(*dash));
    kurbo::Stroke::new(f64::from(stroke.width().get()))
        .with_caps(cap)
        .with_join(join)
        .with_miter_limit(f64::from(stroke.miterlimit().get()))
        .with_dashes(f64::from(stroke.dashoffset()), dashes)
}

pub(super) fn affine(transform: usvg::Transform) -> Affine {
    let usvg::Transform { sx, kx, ky, sy, tx, ty } = transform;
    Affine::new([sx, ky, kx, sy, tx, ty].map(f64::from))
}

pub(super) fn bez_path(data: &usvg::tiny_skia_path::Path) -> BezPath {
    let point = |p: usvg::tiny_skia_path::Point| Point::new(f64::from(p.x), f64::from(p.y));
    let mut path = BezPath::new();
    for segment in data.segments() {
        match segment {
            PathSegment::MoveTo(p) => path.move_to(point(p)),
            PathSegment::LineTo(p) => path.line_to(point(p)),
            PathSegment::QuadTo(c, p) => path.quad_to(point(c), point(p)),
            PathSegment::CubicTo(c, d, p) => path.curve_to(point(c), point(d), point(p)),
            PathSegment::Close => path.close_path(),
        }
    }
    path
}
