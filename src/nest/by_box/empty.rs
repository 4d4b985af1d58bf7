//! What is still empty of a sheet: every rectangle that no longer one holds, so that each box finds its best place.

use crate::geometry::Rect;
use crate::nest::shape::kind::{Boxed, EXACT, Room};

/// Where the next box goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::nest) enum Fit {
    /// Where the shorter left-over is least.
    ShortSide,
    /// Where its far edge comes nearest to the sheet's start.
    Nearest,
    /// In the smallest free rectangle.
    SmallestArea,
}

/// A box and the corner of the room's where its own comes to lie.
#[derive(Clone, Copy, Debug)]
pub(in crate::nest) struct Place {
    pub(in crate::nest) boxed: Boxed,
    pub(in crate::nest) x: f64,
    pub(in crate::nest) y: f64,
}

/// The empty rectangles of a sheet. Each box brings its gap along on its far sides, so the room is larger by one gap.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Empty {
    pub(in crate::nest) rects: Vec<Rect>,
    gap: f64,
    /// Narrower or lower rectangles are not kept.
    least: (f64, f64),
}

impl Empty {
    /// All of a room; only rectangles are kept that hold a box of at least so much width and height, gap not counted.
    pub(in crate::nest) fn whole(room: &Room, gap: f64, least: (f64, f64)) -> Self {
        let all = Rect::new(0.0, 0.0, room.width + gap, room.length.min(1e9) + gap);
        let least = ((least.0 + gap - EXACT).max(EXACT), (least.1 + gap - EXACT).max(EXACT));
        Self { rects: vec![all], gap, least }
    }

    /// Which of an item's boxes goes where, as a rule likes best.
    pub(in crate::nest) fn best_place(&self, fit: Fit, boxes: &[Boxed]) -> Option<Place> {
        let mut best: Option<([f64; 2], Place)> = None;
        for boxed in boxes {
            let (w, h) = (boxed.bounds.width() + self.gap, boxed.bounds.height() + self.gap);
            for rect in &self.rects {
                let (dx, dy) = (rect.width() - w, rect.height() - h);
                if dx < -EXACT || dy < -EXACT {
                    continue;
                }
                let rank = match fit {
                    Fit::ShortSide => [dx.min(dy), dx.max(dy)],
                    Fit::Nearest => [rect.y0 + h, rect.x0],
                    Fit::SmallestArea => [rect.area(), dx.min(dy)],
                };
                if best.as_ref().is_none_or(|(least, _)| rank < *least) {
                    best = Some((rank, Place { boxed: *boxed, x: rect.x0, y: rect.y0 }));
                }
            }
        }
        best.map(|(_, place)| place)
    }

    /// Takes the place of a box away, gap and all.
    pub(in crate::nest) fn take(&mut self, place: &Place) {
        let far = (place.x + place.boxed.bounds.width(), place.y + place.boxed.bounds.height());
        self.cut(Rect::new(place.x, place.y, far.0 + self.gap, far.1 + self.gap));
    }

    /// Takes a rectangle that something lies in, measured in the room, away with a gap all round.
    pub(in crate::nest) fn take_round(&mut self, lies: Rect) {
        self.cut(Rect::new(lies.x0 - self.gap, lies.y0 - self.gap, lies.x1 + self.gap, lies.y1 + self.gap));
    }

    /// Cuts a taken rectangle out of every empty one and drops those inside others.
    fn cut(&mut self, taken: Rect) {
        let mut made: Vec<Rect> = Vec::new();
        let least = self.least;
        self.rects.retain(|rect| {
            let apart = taken.x0 >= rect.x1 - EXACT
                || taken.x1 <= rect.x0 + EXACT
                || taken.y0 >= rect.y1 - EXACT
                || taken.y1 <= rect.y0 + EXACT;
            if !apart {
                made.extend(
                    [
                        Rect::new(rect.x0, rect.y0, taken.x0, rect.y1),
                        Rect::new(taken.x1, rect.y0, rect.x1, rect.y1),
                        Rect::new(rect.x0, rect.y0, rect.x1, taken.y0),
                        Rect::new(rect.x0, taken.y1, rect.x1, rect.y1),
                    ]
                    .into_iter()
                    .filter(|part| part.x1 - part.x0 > least.0 && part.y1 - part.y0 > least.1),
                );
            }
            apart
        });
        let within = |a: &Rect, b: &Rect| {
            a.x0 >= b.x0 - EXACT && a.y0 >= b.y0 - EXACT && a.x1 <= b.x1 + EXACT && a.y1 <= b.y1 + EXACT
        };
        for (index, part) in made.iter().enumerate() {
            let covered = self.rects.iter().any(|rect| within(part, rect))
                || made.iter().enumerate().any(|(other, rect)| {
                    other != index && within(part, rect) && (!within(rect, part) || other < index)
                });
            if !covered {
                self.rects.push(*part);
            }
        }
    }
}
