//! A hem as a chain of curves, each turned by some angle from the one before it.
//!
//! A chain stands nowhere: a ring of it can be opened at any place, a panel joined to the next, a godet let in, and only then is
//! it laid out flat as an [`Edge`] with CF at the origin.

use super::Frame;
use super::curve::Curve;
use super::edge::{Edge, Piece};
use super::line::turned;
use super::reach::Joint;
use crate::geometry::{Affine, Point, Vec2};

/// Two places nearer than this, in millimetres, are one: far below a thread, far above rounding.
const SAME_PLACE: f64 = 1e-6;

/// Cells of the table for each link, before any is halved further.
const CELLS: u32 = 4;

/// A curve of the chain.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    curve: Curve,
    from: f64,
    to: f64,
    /// Angle from the end of the link before, positive toward the upper side.
    pub(super) turn: f64,
    length: f64,
}

/// Links from end to end; in a ring the first link's turn is that from the last.
#[derive(Clone, Debug, Default)]
pub(super) struct Chain {
    links: Vec<Link>,
}

impl Link {
    /// The part of a curve between two parameters.
    pub(super) fn new(curve: Curve, from: f64, to: f64, turn: f64) -> Self {
        let length = Piece::between(curve, from, to, CELLS).length();
        Self { curve, from, to, turn, length }
    }

    /// Length along the hem.
    pub(super) const fn length(&self) -> f64 {
        self.length
    }

    /// The table of the link alone.
    pub(super) fn piece(&self) -> Piece {
        Piece::between(self.curve, self.from, self.to, CELLS)
    }

    fn cut(self, at: f64) -> (Self, Self) {
        let t = self.piece().parameter(0.0, at);
        (Self::new(self.curve, self.from, t, self.turn), Self::new(self.curve, t, self.to, 0.0))
    }
}

impl Chain {
    /// A chain of these links.
    pub(super) const fn new(links: Vec<Link>) -> Self {
        Self { links }
    }

    /// The chain of a laid out edge.
    pub(super) fn of(edge: &Edge, joints: &[Joint]) -> Self {
        let link = |(piece, joint): (&Piece, &Joint)| {
            let (curve, from, to) = piece.part();
            Link::new(curve, from, to, joint.turn)
        };
        Self { links: edge.pieces().iter().zip(joints).map(link).collect() }
    }

    /// Its links in order.
    pub(super) fn links(&self) -> &[Link] {
        &self.links
    }

    /// Its length.
    pub(super) fn length(&self) -> f64 {
        self.links.iter().map(Link::length).sum()
    }

    /// Adds another chain at its end, whose first link is turned by `turn` from the last of this one.
    pub(super) fn append(&mut self, other: &Self, turn: f64) {
        let start = self.links.len();
        self.links.extend_from_slice(&other.links);
        if let Some(first) = self.links.get_mut(start) {
            first.turn = turn;
        }
    }

    /// Lets a link in at a distance from the start. A kink that was there is shared between its two ends.
    pub(super) fn let_in(&mut self, at: f64, link: Link) {
        let index = self.cut(at);
        // Past the last link of a ring lies the first.
        let next = index % self.links.len().max(1);
        let half = self.links.get(next).map_or(0.0, |next| next.turn / 2.0);
        if let Some(next) = self.links.get_mut(next) {
            next.turn = half;
        }
        self.links.insert(index, Link { turn: half, ..link });
    }

    /// A ring opened at a distance from where it now starts.
    #[must_use]
    pub(super) fn opened_at(mut self, at: f64) -> Self {
        let length = self.length();
        let index = self.cut(at.rem_euclid(length));
        let count = self.links.len();
        self.links.rotate_left(index % count.max(1));
        self
    }

    /// Laid out flat with s zero at a distance from the start; and, for a ring, the motion once round.
    pub(super) fn laid_out(&self, zero: f64) -> (Edge, Affine) {
        let mut frame = Frame { at: Point::ORIGIN, along: Vec2::new(1.0, 0.0) };
        let mut pieces = Vec::with_capacity(self.links.len());
        let mut starts = Vec::with_capacity(self.links.len());
        let mut start = 0.0;
        for (index, link) in self.links.iter().enumerate() {
            if index > 0 {
                frame = Frame { along: turned(frame.along, link.turn), ..frame };
            }
            let piece = link.piece();
            let motion = frame.placement() * piece.frame(piece.ends().0, 0.0).placement().inverse();
            let piece = piece.carried(motion);
            frame = piece.frame(piece.ends().1, 0.0);
            pieces.push(piece);
            starts.push(start);
            start += link.length;
        }
        let closing = self.links.first().map_or(0.0, |first| first.turn);
        let once = Frame { along: turned(frame.along, closing), ..frame }.placement();
        let home = self.frame_of(&pieces, &starts, zero).placement().inverse();
        let pieces = pieces.into_iter().map(|piece| piece.carried(home)).collect();
        (Edge::joined(pieces, zero), home * once * home.inverse())
    }

    /// Place and direction at a distance from the start; on a kink along its bisector.
    fn frame_of(&self, pieces: &[Piece], starts: &[f64], at: f64) -> Frame {
        let index = starts.partition_point(|start| *start <= at + SAME_PLACE).max(1) - 1;
        let piece = &pieces[index];
        let frame = piece.frame(piece.find(0.0, (at - starts[index]).max(0.0)), 0.0);
        if index > 0 && at - starts[index] < SAME_PLACE {
            return Frame { along: turned(frame.along, -self.links[index].turn / 2.0), ..frame };
        }
        frame
    }

    /// Cuts the chain at a distance from its start; the number of the link that starts there, one past the last at the end.
    fn cut(&mut self, at: f64) -> usize {
        let mut start = 0.0;
        for index in 0..self.links.len() {
            let along = at - start;
            if along < SAME_PLACE {
                return index;
            }
            let link = self.links[index];
            if along < link.length - SAME_PLACE {
                let (before, after) = link.cut(along);
                self.links.splice(index..=index, [before, after]);
                return index + 1;
            }
            start += link.length;
        }
        self.links.len()
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::{FRAC_PI_2, TAU};

    use super::*;

    /// A square of 400, from the middle of a side.
    fn square() -> Chain {
        let side = |length, turn| Link::new(Curve::Arc { curvature: 0.0 }, 0.0, length, turn);
        let [half, whole] = [200.0, 400.0];
        let links = vec![
            side(half, 0.0),
            side(whole, FRAC_PI_2),
            side(whole, FRAC_PI_2),
            side(whole, FRAC_PI_2),
            side(half, FRAC_PI_2),
        ];
        Chain::new(links)
    }

    #[test]
    fn a_ring_opened_elsewhere_is_as_long_and_still_closes() {
        for at in [0.0, 50.0, 200.0, 1599.0] {
            let opened = square().opened_at(at);
            assert!((opened.length() - 1600.0).abs() < 1e-9);
            let (edge, once) = opened.laid_out(800.0);
            assert!(edge.span().0 + 800.0 < 1e-9);
            let moved = once * Point::new(123.0, 45.0);
            assert!(moved.distance(Point::new(123.0, 45.0)) < 1e-9, "{at}: {once:?}");
        }
    }

    #[test]
    fn a_link_let_in_keeps_the_rest_as_it_was() {
        let wedge = Link::new(Curve::Arc { curvature: 1.0 / 50.0 }, 0.0, 25.0 * std::f64::consts::PI, 0.0);
        for (at, before) in [(400.0, 0.0), (200.0, FRAC_PI_2 / 2.0)] {
            let mut chain = square();
            chain.let_in(at, wedge);
            // The wedge, and where it cuts a side the rest of that.
            assert_eq!(chain.links().len(), if before > 0.0 { 6 } else { 7 });
            assert!((chain.length() - 1600.0 - wedge.length()).abs() < 1e-9);
            let turns: f64 = chain.links().iter().map(|link| link.turn).sum();
            assert!((turns - TAU).abs() < 1e-12, "no corner is lost");
            let index = chain.links().iter().position(|link| (link.length() - wedge.length()).abs() < 1e-9).unwrap();
            assert!((chain.links()[index].turn - before).abs() < 1e-12);
        }
    }
}
