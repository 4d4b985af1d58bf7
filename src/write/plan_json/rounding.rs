//! Figures as they are written.

pub(super) fn point(point: crate::geometry::Point) -> [f64; 2] {
    [places(point.x, 3), places(point.y, 3)]
}

/// Rounded for writing; never minus zero.
pub(super) fn places(value: f64, places: i32) -> f64 {
    let scale = 10f64.powi(places);
    (value * scale).round() / scale + 0.0
}
