//! An item made ready for laying: its area, and its bounding box at every turn worth trying.

use crate::geometry::{Affine, Outline, Point, Rect};
use crate::nest::{Item, Stock, Task, Turning};

/// The part of a sheet inside the margins. A roll has no end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Room {
    /// Clear border all round; also where the room begins.
    pub(in crate::nest) margin: f64,
    /// Usable width.
    pub(in crate::nest) width: f64,
    /// Usable length, infinite for a roll.
    pub(in crate::nest) length: f64,
}

impl Room {
    pub(in crate::nest) fn of(stock: &Stock, task: &Task) -> Self {
        let margin = task.margin.get();
        let length = stock.height.map_or(f64::INFINITY, |height| height.get() - 2.0 * margin);
        Self { margin, width: stock.width.get() - 2.0 * margin, length }
    }
}

/// Slack below which something still counts as fitting, in millimetres: what reading a drawing in single precision loses on
/// two metres, so that a motif drawn 290 wide lies on a sheet of 300 with margins of 5.
pub(in crate::nest) const EXACT: f64 = 2e-4;

/// A piece's bounding box at one turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Boxed {
    pub(in crate::nest) turn_deg: f64,
    pub(in crate::nest) bounds: Rect,
}

impl Boxed {
    pub(in crate::nest) fn fits(&self, room: &Room) -> bool {
        self.bounds.width() <= room.width + EXACT && self.bounds.height() <= room.length + EXACT
    }
}

/// An item made ready.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Kind {
    /// Patch with the holes where others may lie.
    pub(in crate::nest) area: Outline,
    /// Points of the patch on its convex hull, enough for bounding boxes.
    hull: Vec<Point>,
    /// Square millimetres of the patch less its holes.
    pub(in crate::nest) square_mm: f64,
    /// The boxes worth trying: as drawn, a quarter turn, and the smallest there is.
    pub(in crate::nest) boxes: Vec<Boxed>,
    turning: Turning,
}

/// Step in degrees in which free turning looks for the smallest box and for a turn that fits.
///
/// A 600 mm piece half a step off is 1.3 mm wider at the far end, which the finer second look recovers.
const LOOK_STEP: f64 = 0.5;

impl Kind {
    pub(in crate::nest) fn new(item: &Item, turning: Turning) -> Self {
        let area = Outline::new(item.patch.clone(), item.holes.clone());
        let hull = hull(item.patch.points());
        let mut kind = Self { square_mm: area.area(), area, hull, boxes: Vec::new(), turning };
        let smallest = kind.best_turn(|bounds| bounds.width() * bounds.height());
        let quarter = matches!(turning, Turning::Free) || matches!(turning, Turning::Steps(step) if 90 % step == 0);
        let turns = if quarter { vec![0.0, 90.0, smallest, (smallest + 90.0) % 360.0] } else { vec![0.0, smallest] };
        for turn_deg in turns {
            let boxed = Boxed { turn_deg, bounds: kind.bounds_at(turn_deg) };
            let same = |b: &Boxed| {
                (b.bounds.width() - boxed.bounds.width()).abs() < EXACT
                    && (b.bounds.height() - boxed.bounds.height()).abs() < EXACT
            };
            if !kind.boxes.iter().any(same) {
                kind.boxes.push(boxed);
            }
        }
        kind
    }

    /// Bounding box after a turn about the piece's origin.
    pub(in crate::nest) fn bounds_at(&self, turn_deg: f64) -> Rect {
        let turn = turn(turn_deg);
        let first = turn * self.hull[0];
        self.hull.iter().fold(Rect::from_points(first, first), |rect, point| rect.union_pt(turn * *point))
    }

    /// The turn a film allows at which a measure of the box is least.
    pub(in crate::nest) fn best_turn(&self, measure: impl Fn(Rect) -> f64) -> f64 {
        let least = |turns: &mut dyn Iterator<Item = f64>| {
            turns
                .map(|turn| (measure(self.bounds_at(turn)), turn))
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .map_or(0.0, |(_, turn)| turn)
        };
        match self.turning {
            Turning::None | Turning::Half => 0.0,
            Turning::Steps(step) => least(&mut (0..360 / step).map(|k| f64::from(k * step))),
            Turning::Free => {
                let coarse = least(&mut (0..360).map(|k| f64::from(k) * LOOK_STEP));
                least(&mut (-50..=50).map(|k| coarse + f64::from(k) * LOOK_STEP / 50.0))
            }
        }
    }

    /// Whether the patch is a rectangle as drawn.
    pub(in crate::nest) fn fills_its_box(&self) -> bool {
        let bounds = self.bounds_at(0.0);
        self.area.outer().area() >= bounds.area() - EXACT * bounds.width()
    }

    /// Square millimetres that the patch takes up at the least where others keep a gap: what it covers grown by half the gap.
    ///
    /// A convex patch grows by its outline times the half gap and a disc (J. Steiner, 1840); any other grows at least as much
    /// as a disc of its area (the Brunn-Minkowski inequality). Others may lie in holes, so what grows into these is left out.
    pub(in crate::nest) fn takes_up(&self, gap: f64) -> f64 {
        let (half, pi) = (gap / 2.0, std::f64::consts::PI);
        if !self.area.holes().is_empty() {
            return self.square_mm;
        }
        let sides = || (0..self.hull.len()).map(|k| (self.hull[k], self.hull[(k + 1) % self.hull.len()]));
        let hull_area: f64 = sides().map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>().abs() / 2.0;
        if hull_area <= self.square_mm * (1.0 + 1e-9) {
            let round: f64 = sides().map(|(a, b)| (b - a).hypot()).sum();
            return self.square_mm + round * half + pi * half * half;
        }
        (self.square_mm.sqrt() + pi.sqrt() * half).powi(2)
    }

    /// A box that fits the room, if the film allows one.
    pub(in crate::nest) fn fitting(&self, room: &Room) -> Option<Boxed> {
        self.boxes.iter().find(|boxed| boxed.fits(room)).copied().or_else(|| {
            let over = |b: Rect| (b.width() - room.width).max(b.height() - room.length);
            let turn_deg = self.best_turn(over);
            let boxed = Boxed { turn_deg, bounds: self.bounds_at(turn_deg) };
            boxed.fits(room).then_some(boxed)
        })
    }

    /// Boxes to try in a room: those that fit.
    pub(in crate::nest) fn boxes_in(&self, room: &Room) -> Vec<Boxed> {
        let fitting: Vec<Boxed> = self.boxes.iter().filter(|boxed| boxed.fits(room)).copied().collect();
        if fitting.is_empty() { self.fitting(room).into_iter().collect() } else { fitting }
    }
}

/// A turn in degrees as a transform; quarter turns are exact.
pub(in crate::nest) fn turn(degrees: f64) -> Affine {
    let quarter = degrees.rem_euclid(360.0) / 90.0;
    let exact = [(0.0, 1.0, 0.0), (1.0, 0.0, 1.0), (2.0, -1.0, 0.0), (3.0, 0.0, -1.0)];
    match exact.into_iter().find(|(k, _, _)| (k - quarter).abs() < 1e-12) {
        Some((_, cos, sin)) => Affine::new([cos, sin, -sin, cos, 0.0, 0.0]),
        None => Affine::rotate(degrees.to_radians()),
    }
}

/// Convex hull by Andrew's monotone chain (1979).
fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut chain: Vec<Point> = Vec::new();
    for pass in 0..2 {
        let floor = chain.len() + 1;
        let walk: Vec<Point> = if pass == 0 { sorted.clone() } else { sorted.iter().rev().copied().collect() };
        for point in walk {
            while chain.len() > floor
                && (chain[chain.len() - 1] - chain[chain.len() - 2]).cross(point - chain[chain.len() - 1]) <= 0.0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
    }
    if chain.len() < 3 { points.to_vec() } else { chain }
}
