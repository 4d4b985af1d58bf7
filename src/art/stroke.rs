//! Lines with a width become shapes, and every painted path the path of its area in finished millimetres.

use kurbo::{Affine, BezPath, StrokeOpts};

use super::svg::{Brush, Painted};
use crate::geometry::flatten::TOLERANCE;

/// Most dashes one line is cut into; beyond it the line is taken as solid, and said so.
///
/// A dash of 0.01 mm on a long line would make millions.
const MOST_DASHES: f64 = 2_000.0;

/// A painted path as the path of its area, in finished millimetres.
pub(super) struct Area {
    pub(super) path: BezPath,
    pub(super) dashes: Dashes,
}

/// What became of a line's dashes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Dashes {
    None,
    Kept,
    TooMany,
}

/// The area a painted path covers, `scale` times its size on the page.
pub(super) fn area(painted: &Painted, scale: f64) -> Area {
    let to_finished = painted.to_page.then_scale(scale);
    let Brush::Stroke(style) = &painted.brush else {
        return Area { path: to_finished * painted.path.clone(), dashes: Dashes::None };
    };
    let mut style = style.clone();
    let dashes = dashes(&painted.path, &style);
    if dashes == Dashes::TooMany {
        style.dash_pattern.clear();
    }
    // A quarter of the tolerance is spent here, the rest where the outline is flattened.
    let tolerance = TOLERANCE / 4.0 / growth(to_finished).max(f64::MIN_POSITIVE);
    let outline = kurbo::stroke(painted.path.elements().iter().copied(), &style, &StrokeOpts::default(), tolerance);
    Area { path: to_finished * outline, dashes }
}

/// Factor by which a transform lengthens what it lengthens most (its larger singular value).
pub(super) fn growth(transform: Affine) -> f64 {
    let [a, b, c, d, ..] = transform.as_coeffs();
    f64::midpoint((a + d).hypot(b - c), (a - d).hypot(b + c))
}

fn dashes(path: &BezPath, style: &kurbo::Stroke) -> Dashes {
    let period: f64 = style.dash_pattern.iter().sum();
    if style.dash_pattern.is_empty() {
        return Dashes::None;
    }
    // The control polygon is at least as long as the curve.
    let length: f64 = path
        .segments()
        .map(|segment| {
            let curve = segment.to_cubic();
            curve.p0.distance(curve.p1) + curve.p1.distance(curve.p2) + curve.p2.distance(curve.p3)
        })
        .sum();
    if length / period * style.dash_pattern.len() as f64 <= MOST_DASHES { Dashes::Kept } else { Dashes::TooMany }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_transform_lengthens_by_its_larger_singular_value() {
        assert!((growth(Affine::scale_non_uniform(2.0, -5.0)) - 5.0).abs() < 1e-12);
        assert!((growth(Affine::rotate(0.7).then_scale(3.0)) - 3.0).abs() < 1e-12);
        // A shear by 1 lengthens one diagonal by the golden ratio.
        assert!((growth(Affine::new([1.0, 0.0, 1.0, 1.0, 0.0, 0.0])) - 1.618_034).abs() < 1e-6);
    }
}
