//! The curves a hem is made of, as functions of a parameter t.

use kurbo::{CubicBez, ParamCurve as _, ParamCurveDeriv as _};

use crate::geometry::{Point, Vec2};

/// A plane curve with two derivatives. At t = 0 each stands at the origin and runs along (1, 0), but for the links of a chain
/// (swept and drawn ones), which stand anywhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Curve {
    /// Constant curvature (positive when the middle lies on the upper side; zero is a straight line). t is arc length.
    Arc { curvature: f64 },
    /// Ellipse; t is the eccentric angle from centre front.
    Ellipse { front_back: f64, side_side: f64 },
    /// `r(t) = middle + once cos t + twice cos 2t` round the middle of the waist; t is the angle from centre front.
    Oval { middle: f64, once: f64, twice: f64 },
    /// `r(t) = radius[0] + radius[1] t + radius[2] t^2 + radius[3] t^3` round the origin, t the angle from its start, which
    /// lies straight below.
    Swept { radius: [f64; 4] },
    /// A drawn curve, t from 0 to 1; no handle lies on its end, so that it has a direction everywhere.
    Drawn(CubicBez),
}

impl Curve {
    pub(super) fn at(self, t: f64) -> Point {
        match self {
            Self::Arc { curvature } => {
                let half = sinc(curvature * t / 2.0);
                Point::new(t * sinc(curvature * t), -curvature * t * t / 2.0 * half * half)
            }
            Self::Ellipse { front_back, side_side } => {
                let half = (t / 2.0).sin();
                Point::new(side_side * t.sin(), -2.0 * front_back * half * half)
            }
            Self::Oval { middle, once, twice } => {
                let (sin, cos) = t.sin_cos();
                let r = middle + once * cos + twice * (2.0 * cos * cos - 1.0);
                Point::new(r * sin, r * cos - (middle + once + twice))
            }
            Self::Swept { radius: [a, b, c, d] } => {
                let r = a + t * (b + t * (c + t * d));
                Point::new(r * t.sin(), r * t.cos())
            }
            Self::Drawn(cubic) => cubic.eval(t),
        }
    }

    /// First and second derivative by t.
    pub(super) fn derivatives(self, t: f64) -> (Vec2, Vec2) {
        match self {
            Self::Arc { curvature } => {
                let (sin, cos) = (curvature * t).sin_cos();
                (Vec2::new(cos, -sin), curvature * Vec2::new(-sin, -cos))
            }
            Self::Ellipse { front_back, side_side } => {
                let (sin, cos) = t.sin_cos();
                (Vec2::new(side_side * cos, -front_back * sin), Vec2::new(-side_side * sin, -front_back * cos))
            }
            Self::Oval { middle, once, twice } => {
                let (sin, cos) = t.sin_cos();
                let (sin2, cos2) = (2.0 * sin * cos, 2.0 * cos * cos - 1.0);
                let r = middle + once * cos + twice * cos2;
                let r1 = -once * sin - 2.0 * twice * sin2;
                let r2 = -once * cos - 4.0 * twice * cos2;
                polar((sin, cos), r, r1, r2)
            }
            Self::Swept { radius: [a, b, c, d] } => {
                let r = a + t * (b + t * (c + t * d));
                polar(t.sin_cos(), r, b + t * (2.0 * c + t * 3.0 * d), 2.0 * c + 6.0 * d * t)
            }
            Self::Drawn(cubic) => {
                let slope = cubic.deriv();
                (slope.eval(t).to_vec2(), slope.deriv().eval(t).to_vec2())
            }
        }
    }

    /// The curve whose place at a parameter less its own is the image of this one's about the upright axis, and that parameter.
    pub(super) fn mirror_image(self) -> (Self, f64) {
        let image = |point: Point| Point::new(-point.x, point.y);
        match self {
            // Symmetrical about the axis through their start.
            Self::Arc { .. } | Self::Ellipse { .. } | Self::Oval { .. } => (self, 0.0),
            Self::Swept { radius: [a, b, c, d] } => (Self::Swept { radius: [a, -b, c, -d] }, 0.0),
            Self::Drawn(cubic) => {
                (Self::Drawn(CubicBez::new(image(cubic.p3), image(cubic.p2), image(cubic.p1), image(cubic.p0))), 1.0)
            }
        }
    }

    /// Curvature, positive when the middle of curvature lies on the upper side.
    pub(super) fn curvature(self, t: f64) -> f64 {
        if let Self::Arc { curvature } = self {
            return curvature;
        }
        let (first, second) = self.derivatives(t);
        -first.cross(second) / first.hypot().powi(3)
    }
}

/// Both derivatives of a curve by its angle from straight below, from its radius and that radius's derivatives.
fn polar((sin, cos): (f64, f64), r: f64, r1: f64, r2: f64) -> (Vec2, Vec2) {
    let (out, across) = (Vec2::new(sin, cos), Vec2::new(cos, -sin));
    (r1 * out + r * across, (r2 - r) * out + 2.0 * r1 * across)
}

/// sin x / x.
fn sinc(x: f64) -> f64 {
    // Below this x² / 6 is lost in rounding, so that 1 is the nearest number.
    if x.abs() < 1e-9 { 1.0 } else { x.sin() / x }
}

/// Angle from one direction to another, positive when it turns toward the upper side.
pub(super) fn turn_between(from: Vec2, to: Vec2) -> f64 {
    (-from.cross(to)).atan2(from.dot(to))
}

#[cfg(test)]
mod tests {
    use super::*;

    const CURVES: [Curve; 5] = [
        Curve::Arc { curvature: 0.0 },
        Curve::Arc { curvature: 1.0 / 814.59 },
        Curve::Arc { curvature: -0.01 },
        Curve::Ellipse { front_back: 640.0, side_side: 560.0 },
        Curve::Oval { middle: 800.0, once: -120.0, twice: 30.0 },
    ];

    #[test]
    fn every_curve_starts_at_the_origin_toward_the_right() {
        for curve in CURVES {
            let (first, _) = curve.derivatives(0.0);
            assert!(curve.at(0.0).distance(Point::ORIGIN) < 1e-12);
            assert!(first.x > 0.0 && first.y.abs() < 1e-12, "{curve:?}");
        }
    }

    #[test]
    fn a_mirror_image_is_the_curve_walked_the_other_way() {
        let drawn = CubicBez::new((3.0, 4.0), (300.0, 90.0), (500.0, 80.0), (800.0, -20.0));
        let swept = Curve::Swept { radius: [900.0, 30.0, 200.0, -50.0] };
        for curve in CURVES.into_iter().chain([Curve::Drawn(drawn), swept]) {
            let (image, from) = curve.mirror_image();
            for t in [-0.5, 0.0, 0.25, 0.8] {
                let (there, here) = (curve.at(t), image.at(from - t));
                assert!((there.x + here.x).abs() < 1e-9 && (there.y - here.y).abs() < 1e-9, "{curve:?} at {t}");
                assert!((curve.curvature(t) - image.curvature(from - t)).abs() < 1e-12, "{curve:?} at {t}");
            }
        }
    }

    #[test]
    fn derivatives_agree_with_differences() {
        let drawn = CubicBez::new((3.0, 4.0), (300.0, 90.0), (500.0, 80.0), (800.0, -20.0));
        let swept = Curve::Swept { radius: [900.0, 30.0, 200.0, -50.0] };
        for curve in CURVES.into_iter().chain([Curve::Drawn(drawn), swept]) {
            for t in [-2.5, -0.7, 0.0, 0.3, 1.9] {
                let d = 1e-5;
                let (first, second) = curve.derivatives(t);
                let slope = (curve.at(t + d) - curve.at(t - d)) / (2.0 * d);
                let bend = (curve.derivatives(t + d).0 - curve.derivatives(t - d).0) / (2.0 * d);
                assert!((slope - first).hypot() < 1e-5 * (1.0 + first.hypot()), "{curve:?} at {t}");
                assert!((bend - second).hypot() < 1e-5 * (1.0 + second.hypot()), "{curve:?} at {t}");
            }
        }
    }
}
