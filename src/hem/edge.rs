//! A hem edge with its length and turn known at every point, and the lines parallel to it.
//!
//! An edge is one smooth piece or several that meet in corners. A piece is cut into cells short enough for Gauss-Legendre quadrature; each knot keeps the distance s from CF and the
//! angle turned since CF. A line at height h over the edge has, from CF to any point, the length s - h x turn exactly:
//! that is Steiner's formula for parallel curves taken point by point, the integral of (1 - h x curvature) ds (J. Steiner,
//! "Ueber parallele Flaechen", Monatsbericht der Akademie der Wissenschaften zu Berlin, 1840, pp. 114-118). So one
//! table serves every height.

use super::Frame;
use super::curve::{Curve, turn_between};
use crate::geometry::{Affine, Vec2};

/// Nodes and weights of eight-point Gauss-Legendre quadrature on [-1, 1], positive half (Abramowitz and Stegun, Handbook
/// of Mathematical Functions, table 25.4).
const GAUSS: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_48),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
];

/// Largest error of a cell's length, in millimetres; a 10 m hem of 64 cells is then good to far below a micrometre.
const CELL_ERROR: f64 = 1e-9;

/// Most times one cell is halved to reach [`CELL_ERROR`]; bounds the table for hems as flat as a folded strip.
const HALVINGS: u32 = 12;

/// A position along a line is refined until it moves by less than this, in millimetres.
const POSITION_ERROR: f64 = 1e-9;

/// Most steps of that refinement; halving alone ends below rounding in 60.
const STEPS: u32 = 60;

/// A point of the table.
#[derive(Clone, Copy, Debug)]
struct Knot {
    /// Parameter on the curve.
    t: f64,
    /// Distance from CF along the hem.
    s: f64,
    /// Angle turned since CF, toward the upper side.
    turn: f64,
}

/// A place on a piece, found by distance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    t: f64,
    /// Distance from CF along the hem.
    pub(super) s: f64,
    turn: f64,
}

/// A smooth part of an edge.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    curve: Curve,
    /// Carries the curve as it is described into the development.
    place: Affine,
    knots: Vec<Knot>,
}

/// The edge from one end to the other.
#[derive(Clone, Debug)]
pub(super) struct Edge {
    pieces: Vec<Piece>,
    tightest_radius: Option<f64>,
}

impl Edge {
    /// The edge of one curve for t from `start` (not above zero) to `end` (above zero), in at least `cells` cells each side.
    pub(super) fn new(curve: Curve, start: f64, end: f64, cells: u32) -> Self {
        Self::of(vec![Piece::new(curve, start, end, cells)])
    }

    /// The edge of pieces in order, each already in its place; s is zero at `zero` from the start of the first.
    pub(super) fn joined(mut pieces: Vec<Piece>, zero: f64) -> Self {
        let (mut s, mut turn) = (-zero, 0.0);
        let mut along: Option<Vec2> = None;
        for piece in &mut pieces {
            let (first, last) = piece.ends();
            turn += along.map_or(0.0, |along| turn_between(along, piece.direction(first)));
            piece.shift(s - first.s, turn - first.turn);
            s += last.s - first.s;
            turn += last.turn - first.turn;
            along = Some(piece.direction(last));
        }
        let mut edge = Self::of(pieces);
        // Turn counts from CF, as s does.
        let at_zero = edge.spot_on_hem(0.0).1.turn;
        for piece in &mut edge.pieces {
            piece.shift(0.0, -at_zero);
        }
        edge
    }

    /// The edge of pieces whose s and turn run on already.
    pub(super) fn of(pieces: Vec<Piece>) -> Self {
        let tightest_radius = pieces.iter().filter_map(Piece::tightest_radius).min_by(f64::total_cmp);
        Self { pieces, tightest_radius }
    }

    /// Its smooth pieces in order.
    pub(super) fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Least and greatest s.
    pub(super) fn span(&self) -> (f64, f64) {
        (self.pieces[0].ends().0.s, self.pieces[self.pieces.len() - 1].ends().1.s)
    }

    /// Angle turned from end to end.
    pub(super) fn turn(&self) -> f64 {
        self.pieces[self.pieces.len() - 1].ends().1.turn - self.pieces[0].ends().0.turn
    }

    /// Frames at the two ends.
    pub(super) fn end_frames(&self) -> (Frame, Frame) {
        let (first, last) = (&self.pieces[0], &self.pieces[self.pieces.len() - 1]);
        (first.frame(first.ends().0, 0.0), last.frame(last.ends().1, 0.0))
    }

    /// Distance from CF along the hem at a parameter of an edge of one piece.
    pub(super) fn s_at(&self, t: f64) -> f64 {
        let piece = &self.pieces[0];
        let knot = piece.knots[piece.cell(|knot| knot.t, t)];
        knot.s + arc_length(piece.curve, knot.t, t)
    }

    /// The piece and the place on it at a distance along the hem; the earlier piece where two meet.
    pub(super) fn spot_on_hem(&self, s: f64) -> (usize, Spot) {
        let index = self.pieces.partition_point(|piece| piece.ends().1.s < s).min(self.pieces.len() - 1);
        let piece = &self.pieces[index];
        (index, piece.find(0.0, s - piece.ends().0.s))
    }

    /// Smallest radius of curvature toward the upper side; `None` where the edge never turns that way but in corners.
    pub(super) const fn tightest_radius(&self) -> Option<f64> {
        self.tightest_radius
    }
}

impl Piece {
    /// The part of a curve from `start` (not above zero) to `end` (above zero), in at least `cells` cells on each side of t = 0.
    pub(super) fn new(curve: Curve, start: f64, end: f64, cells: u32) -> Self {
        let origin = Knot { t: 0.0, s: 0.0, turn: 0.0 };
        let mut knots = if start < 0.0 { outward(curve, origin, start, cells) } else { Vec::new() };
        knots.reverse();
        knots.push(origin);
        knots.extend(outward(curve, origin, end, cells));
        Self { curve, place: Affine::IDENTITY, knots }
    }

    /// The part of a curve between any two parameters, s and turn zero at its start, in at least `cells` cells.
    pub(super) fn between(curve: Curve, start: f64, end: f64, cells: u32) -> Self {
        let first = Knot { t: start, s: 0.0, turn: 0.0 };
        let mut knots = vec![first];
        knots.extend(outward(curve, first, end, cells));
        Self { curve, place: Affine::IDENTITY, knots }
    }

    /// Its curve, and the parameters of its two ends.
    pub(super) fn part(&self) -> (Curve, f64, f64) {
        let (first, last) = self.ends();
        (self.curve, first.t, last.t)
    }

    /// The parameter whose distance along the line at `height`, from the piece's start, is `distance`.
    pub(super) fn parameter(&self, height: f64, distance: f64) -> f64 {
        self.find(height, distance).t
    }

    /// Its length along the hem.
    pub(super) fn length(&self) -> f64 {
        self.line_length(0.0)
    }

    /// Greatest turn within one cell of its table; more than a sharp bend where the curve comes to a point.
    pub(super) fn sharpest(&self) -> f64 {
        self.knots.windows(2).map(|pair| (pair[1].turn - pair[0].turn).abs()).fold(0.0, f64::max)
    }

    /// The piece carried elsewhere by a rigid motion.
    pub(super) fn carried(mut self, motion: Affine) -> Self {
        self.place = motion * self.place;
        self
    }

    /// Its image by a reflection about a line through the origin, walked the other way: s and turn change sign.
    pub(super) fn mirror_image(&self, across: Affine) -> Self {
        let (curve, from) = self.curve.mirror_image();
        let knots = self.knots.iter().rev().map(|knot| Knot { t: from - knot.t, s: -knot.s, turn: -knot.turn });
        Self { curve, place: across * self.place * across, knots: knots.collect() }
    }

    /// Its first and last place.
    pub(super) fn ends(&self) -> (Spot, Spot) {
        let spot = |knot: Knot| Spot { t: knot.t, s: knot.s, turn: knot.turn };
        (spot(self.knots[0]), spot(self.knots[self.knots.len() - 1]))
    }

    /// Length of the line over the whole piece, its ends not trimmed.
    pub(super) fn line_length(&self, height: f64) -> f64 {
        let (first, last) = self.ends();
        last.s - first.s - height * (last.turn - first.turn)
    }

    /// Distance along the line over the piece, from its start, of the point above a place.
    pub(super) fn along_line(&self, spot: Spot, height: f64) -> f64 {
        let first = self.knots[0];
        spot.s - first.s - height * (spot.turn - first.turn)
    }

    /// Whether it is a straight line.
    pub(super) fn is_straight(&self) -> bool {
        matches!(self.curve, Curve::Arc { curvature } if curvature.abs() <= 0.0)
    }

    /// Place and direction above a spot, at a height.
    pub(super) fn frame(&self, spot: Spot, height: f64) -> Frame {
        let velocity = self.curve.derivatives(spot.t).0;
        let frame = Frame { at: self.curve.at(spot.t), along: velocity / velocity.hypot() }.carried(self.place);
        Frame { at: frame.at + frame.up() * height, along: frame.along }
    }

    /// The place whose distance along the line at `height`, from the piece's start, is `distance`.
    pub(super) fn find(&self, height: f64, distance: f64) -> Spot {
        let first = self.knots[0];
        if let Curve::Arc { curvature } = self.curve {
            let s = distance / (1.0 - height * curvature);
            return Spot { t: first.t + s, s: first.s + s, turn: first.turn + s * curvature };
        }
        let on_line = |knot: &Knot| knot.s - first.s - height * (knot.turn - first.turn);
        let cell = self.cell(on_line, distance);
        let (mut low, mut high) = (self.knots[cell], self.knots[cell + 1]);
        let direction = self.curve.derivatives(low.t).0;
        let start = low;
        let share = (distance - on_line(&low)) / (on_line(&high) - on_line(&low));
        let mut t = low.t + (high.t - low.t) * share.clamp(0.0, 1.0);
        let mut here = start;
        for _ in 0..STEPS {
            let (velocity, _) = self.curve.derivatives(t);
            here = Knot {
                t,
                s: start.s + arc_length(self.curve, start.t, t),
                turn: start.turn + turn_between(direction, velocity),
            };
            let miss = on_line(&here) - distance;
            if miss.abs() < POSITION_ERROR {
                break;
            }
            if miss > 0.0 {
                high = here;
            } else {
                low = here;
            }
            let slope = velocity.hypot() * (1.0 - height * self.curve.curvature(t));
            let next = t - miss / slope;
            t = if next > low.t && next < high.t { next } else { low.t.midpoint(high.t) };
        }
        Spot { t: here.t, s: here.s, turn: here.turn }
    }

    fn direction(&self, spot: Spot) -> Vec2 {
        self.frame(spot, 0.0).along
    }

    fn shift(&mut self, s: f64, turn: f64) {
        for knot in &mut self.knots {
            knot.s += s;
            knot.turn += turn;
        }
    }

    fn tightest_radius(&self) -> Option<f64> {
        let greatest = match self.curve {
            Curve::Arc { curvature } => curvature,
            curve => self
                .knots
                .windows(2)
                .map(|pair| greatest_between(|t| curve.curvature(t), pair[0].t, pair[1].t))
                .fold(f64::NEG_INFINITY, f64::max),
        };
        (greatest > 0.0).then(|| 1.0 / greatest)
    }

    /// Index of the cell that holds `value` of a growing quantity; the first or last cell for values beyond the ends.
    fn cell(&self, of: impl Fn(&Knot) -> f64, value: f64) -> usize {
        self.knots.partition_point(|knot| of(knot) <= value).clamp(1, self.knots.len() - 1) - 1
    }
}

/// Knots from `origin` (not included) to `end`, nearest first.
fn outward(curve: Curve, origin: Knot, end: f64, cells: u32) -> Vec<Knot> {
    let mut knots = Vec::new();
    let mut last = origin;
    for cell in 1..=cells {
        let t = origin.t + (end - origin.t) * f64::from(cell) / f64::from(cells);
        extend(curve, &mut knots, &mut last, t, HALVINGS);
    }
    knots
}

/// Adds knots up to parameter `t`, halving while the quadrature disagrees with its own halves.
fn extend(curve: Curve, knots: &mut Vec<Knot>, last: &mut Knot, t: f64, halvings: u32) {
    let middle = last.t.midpoint(t);
    let whole = arc_length(curve, last.t, t);
    let halves = arc_length(curve, last.t, middle) + arc_length(curve, middle, t);
    if (whole - halves).abs() > CELL_ERROR && halvings > 0 {
        extend(curve, knots, last, middle, halvings - 1);
        extend(curve, knots, last, t, halvings - 1);
        return;
    }
    let turn = match curve {
        Curve::Arc { curvature } => curvature * (t - last.t),
        _ => turn_between(curve.derivatives(last.t).0, curve.derivatives(t).0),
    };
    *last = Knot { t, s: last.s + halves, turn: last.turn + turn };
    knots.push(*last);
}

/// Signed length of the curve between two parameters.
fn arc_length(curve: Curve, from: f64, to: f64) -> f64 {
    if let Curve::Arc { .. } = curve {
        return to - from;
    }
    let (middle, half) = (from.midpoint(to), (to - from) / 2.0);
    let speed = |t: f64| -> f64 { Vec2::hypot(curve.derivatives(t).0) };
    half * GAUSS.iter().map(|(node, w)| w * (speed(middle - half * node) + speed(middle + half * node))).sum::<f64>()
}

/// Greatest value of a smooth function on an interval: the best of nine samples, then a golden-section search round it.
fn greatest_between(f: impl Fn(f64) -> f64, start: f64, end: f64) -> f64 {
    const SAMPLES: u32 = 8;
    const GOLDEN: f64 = 0.618_033_988_749_894_8;
    let step = (end - start) / f64::from(SAMPLES);
    let best =
        (0..=SAMPLES).map(|k| start + step * f64::from(k)).max_by(|a, b| f(*a).total_cmp(&f(*b))).unwrap_or(start);
    let (mut low, mut high) = ((best - step).max(start), (best + step).min(end));
    // Each round keeps 0.618 of the interval: forty shrink it two hundred million times.
    for _ in 0..40 {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        if f(a) > f(b) { high = b } else { low = a }
    }
    f(low.midpoint(high)).max(f(best))
}
