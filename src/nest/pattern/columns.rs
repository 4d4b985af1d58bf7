//! Like pieces in straight columns spread over a width, every other column half a pitch lower.
//!
//! Where the columns stand closer than in the densest lattice their pitch is longer, and the other way round.

use crate::geometry::{Point, Vec2};
use crate::nest::search::field::{Keep, Piece};
use crate::nest::shape::shapes::{Shapes, Spot};

/// Pieces of one item in so many straight columns over a width, every other column half a pitch lower; `None` when they
/// cannot stand so.
pub(in crate::nest) fn in_columns(
    shapes: &Shapes,
    item: usize,
    width: f64,
    columns: u32,
    quantity: usize,
) -> Option<Vec<Piece>> {
    let bounds = shapes.bounds(item, 0);
    let apart = (width - bounds.width()) / f64::from(columns.saturating_sub(1).max(1));
    let pitch = pitch(shapes, item, apart)?;
    let at = |place: usize| {
        let (row, column) = (place / columns as usize, place % columns as usize);
        let lowered = if column % 2 == 1 { 0.5 } else { 0.0 };
        let corner = Vec2::new(apart * column as f64, pitch * (row as f64 + lowered));
        Point::new(-bounds.x0, -bounds.y0) + corner
    };
    let piece = |place| Piece { item, sheet: 0, spot: Spot { turn: 0, at: at(place) }, keep: Keep::Anywhere };
    Some((0..quantity).map(piece).collect())
}

/// Square millimetres of a sheet for each piece that stands in so many columns over a width.
pub(in crate::nest) fn needs(shapes: &Shapes, item: usize, width: f64, columns: u32) -> Option<f64> {
    let bounds = shapes.bounds(item, 0);
    let apart = (width - bounds.width()) / f64::from(columns.saturating_sub(1).max(1));
    (apart > 0.0).then(|| pitch(shapes, item, apart)).flatten().map(|pitch| pitch * apart)
}

/// The least pitch at which columns so far apart keep clear of themselves and each other.
fn pitch(shapes: &Shapes, item: usize, apart: f64) -> Option<f64> {
    let overlaps = |x: f64, y: f64| {
        let spot = |at| Spot { turn: 0, at };
        shapes.depth(item, spot(Point::ZERO), item, spot(Point::new(x, y))) > 0.0
    };
    if overlaps(2.0 * apart, 0.0) {
        return None;
    }
    let step = shapes.shape(item).size / 400.0;
    let clear = |pitch: f64| {
        let again = (1..4).any(|k| overlaps(0.0, f64::from(k) * pitch) || overlaps(2.0 * apart, f64::from(k) * pitch));
        let beside = (-5..5).any(|k| overlaps(apart, (f64::from(k) + 0.5) * pitch));
        !again && !beside
    };
    (1..2000).map(|k| f64::from(k) * step).find(|pitch| *pitch > 0.25 * shapes.shape(item).size && clear(*pitch))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::geometry::Ring;
    use crate::nest::shape::kind::Kind;
    use crate::nest::{Item, Turning};

    pub(crate) fn shapes(rings: Vec<Ring>, turns: Vec<f64>) -> Shapes {
        let item = |patch| Item {
            name: "piece".into(),
            motif: "piece".into(),
            patch,
            holes: Vec::new(),
            quantity: 1,
            spares: 0,
            on_first_sheet: 0,
        };
        let kinds: Vec<Kind> = rings.into_iter().map(|ring| Kind::new(&item(ring), Turning::Half)).collect();
        Shapes::new(&kinds, 0.0, turns, |_| 0.01)
    }

    /// A polygon round about a circle about the origin, pulled in at the top by a part of its radius.
    pub(crate) fn heart(radius: f64, notch: f64) -> Ring {
        let points = (0..72).map(|k| {
            let angle = std::f64::consts::TAU * f64::from(k) / 72.0;
            let top = (1.0 - (angle - 0.75 * std::f64::consts::TAU).abs() / 0.6).max(0.0);
            let far = radius * (1.0 - notch * top);
            Point::new(far * angle.cos(), far * angle.sin())
        });
        Ring::new(points).unwrap()
    }

    /// Circles of radius r whose columns stand d apart touch their neighbours beside when half a pitch and d make 2 r.
    #[test]
    fn columns_of_circles_stand_as_pythagoras_has_it() {
        let shapes = shapes(vec![heart(10.0, 0.0)], vec![0.0]);
        for (apart, pitch) in [(20.5, 20.0), (18.0, 20.0), (16.0, 24.0), (12.0, 32.0)] {
            let found = super::pitch(&shapes, 0, apart).unwrap();
            assert!((found - pitch).abs() < 0.15, "{apart}: {found}, not {pitch}");
        }
        assert_eq!(super::pitch(&shapes, 0, 9.0), None, "every other column would overlap");
    }
}
