//! Lines drawn on cloth pieces and never cut: the fold of turned edges, clips on inside curves, the grain arrow.

use super::{AsCut, PieceKind};
use crate::geometry::{Affine, Outline, Point};

/// What a drawn line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// The finished line: a turned edge is folded on it.
    Fold,
    /// From the cut line to just outside the fold: snipped by hand.
    Clip,
    /// Along the straight grain, its head upward in the motif.
    Grain,
}

/// A line drawn on a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct GuideLine {
    /// What it is for.
    pub what: Guide,
    /// Its points in the frame of the piece as cut; a closed line repeats its first.
    pub points: Vec<Point>,
}

/// Each side of an arrow's head, as a share of the arrow, and its turn from the shaft in radians: easily seen, never mistaken
/// for a clip.
const HEAD: (f64, f64) = (0.16, 0.4);

impl PieceKind {
    /// Lines drawn on the piece and never cut; none on film.
    #[must_use]
    pub fn guide_lines(&self) -> Vec<GuideLine> {
        let closed = |points: &[Point]| points.iter().chain(points.first()).copied().collect();
        let rings = self.finish.iter().flat_map(AsCut::outlines).flat_map(Outline::rings);
        let folds = rings.map(|ring| GuideLine { what: Guide::Fold, points: closed(ring.points()) });
        let clips = self.clips.iter().map(|(from, to)| GuideLine { what: Guide::Clip, points: vec![*from, *to] });
        folds.chain(clips).chain(self.grain.map(arrow)).collect()
    }
}

fn arrow((from, tip): (Point, Point)) -> GuideLine {
    let back = (from - tip) * HEAD.0;
    let side = |turn: f64| tip + (Affine::rotate(turn) * back.to_point()).to_vec2();
    GuideLine { what: Guide::Grain, points: vec![from, tip, side(HEAD.1), tip, side(-HEAD.1)] }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_has_a_head_at_its_tip_alike_on_both_sides() {
        let line = arrow((Point::new(0.0, 30.0), Point::new(0.0, 0.0)));
        let [_, tip, one, again, other] = line.points[..] else { panic!("{line:?}") };
        assert_eq!((tip, again), (Point::ZERO, Point::ZERO));
        assert!((one.x + other.x).abs() < 1e-12 && (one.y - other.y).abs() < 1e-12);
        assert!((one.distance(tip) - 4.8).abs() < 1e-9 && one.y > 0.0);
    }
}
