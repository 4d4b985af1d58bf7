//! Shapes and measures for tests of geometry; nothing here uses the library's own booleans.

#![allow(
    dead_code,
    unreachable_pub,
    missing_docs,
    clippy::unwrap_used,
    reason = "shared by test files, each uses some"
)]

use std::f64::consts::{PI, TAU};

use hemwright::geometry::{Affine, Outline, Point, Rect, Ring, Vec2};
use proptest::prelude::*;

/// A closed curve by its radius at each of `points` equal angles.
pub fn around(middle: Point, points: usize, radius: impl Fn(f64) -> f64) -> Outline {
    let ring = (0..points).map(|k| {
        let angle = TAU * k as f64 / points as f64;
        middle + Vec2::from_angle(angle) * radius(angle)
    });
    Outline::new(Ring::new(ring).unwrap(), vec![])
}

pub fn disc(x: f64, y: f64, radius: f64) -> Outline {
    around(Point::new(x, y), 64, |_| radius)
}

pub fn square(x0: f64, y0: f64, side: f64) -> Outline {
    rectangle(x0, y0, x0 + side, y0 + side)
}

pub fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Outline {
    Outline::new(Ring::rectangle(Rect::new(x0, y0, x1, y1)).unwrap(), vec![])
}

pub fn polygon<const N: usize>(points: [(f64, f64); N]) -> Outline {
    Outline::new(Ring::new(points.map(Point::from)).unwrap(), vec![])
}

/// Separate petals round a middle that stays open.
pub fn petals(count: usize, inner: f64, length: f64, width: f64) -> Vec<Outline> {
    let petal = around(Point::ZERO, 40, |_| 1.0);
    (0..count)
        .map(|k| {
            let turn = Affine::rotate(TAU * k as f64 / count as f64);
            let stretch = Affine::scale_non_uniform(length / 2.0, width / 2.0);
            petal.transformed(turn * Affine::translate((inner + length / 2.0, 0.0)) * stretch)
        })
        .collect()
}

/// A star, blob or petal somewhere near.
pub fn shape() -> impl Strategy<Value = Outline> {
    let place = (-60.0..60.0_f64, -60.0..60.0_f64, 0.0..TAU);
    let star = (3..9_usize, 4.0..25.0_f64, 0.3..0.9_f64).prop_map(|(points, radius, inner)| {
        around(Point::ZERO, 2 * points, move |angle| {
            let spike = (angle * points as f64 / PI).round().rem_euclid(2.0) < 0.5;
            if spike { radius } else { radius * inner }
        })
    });
    let blob = (3.0..25.0_f64, 0.0..0.5_f64, 1..5_u32).prop_map(|(radius, wave, times)| {
        around(Point::ZERO, 60, move |a| radius * (1.0 + wave * (a * f64::from(times)).cos()))
    });
    let petal = (0.0..10.0_f64, 5.0..40.0_f64, 1.0..20.0_f64)
        .prop_map(|(inner, length, width)| petals(1, inner, length, width).remove(0));
    (prop_oneof![star, blob, petal], place)
        .prop_map(|(shape, (x, y, turn))| shape.transformed(Affine::translate((x, y)) * Affine::rotate(turn)))
}

/// Area by counting the points of a grid, the oracle for booleans: no code shared with them.
pub fn raster_area(box_: Rect, step: f64, mut inside: impl FnMut(Point) -> bool) -> f64 {
    let (columns, rows) = ((box_.width() / step).ceil(), (box_.height() / step).ceil());
    let mut count = 0.0;
    let mut y = 0.0;
    while y < rows {
        let mut x = 0.0;
        while x < columns {
            let point = Point::new(box_.x0 + (x + 0.5) * step, box_.y0 + (y + 0.5) * step);
            count += if inside(point) { 1.0 } else { 0.0 };
            x += 1.0;
        }
        y += 1.0;
    }
    count * step * step
}

pub fn within(outlines: &[Outline], point: Point) -> bool {
    outlines.iter().any(|outline| outline.contains(point))
}

/// Distance from a point to the nearest edge, by every edge.
pub fn distance_to_edge(outlines: &[Outline], point: Point) -> f64 {
    let edges = outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges);
    edges
        .map(|(a, b)| {
            let t = ((point - a).dot(b - a) / (b - a).hypot2()).clamp(0.0, 1.0);
            (a + (b - a) * t).distance(point)
        })
        .fold(f64::INFINITY, f64::min)
}

/// Every corner and every edge's middle.
pub fn edge_points(outlines: &[Outline]) -> Vec<Point> {
    let edges = outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges);
    edges.flat_map(|(a, b)| [a, a.midpoint(b)]).collect()
}
