//! Drawn lines as stretches of curve: one piece after another, in the millimetres of the page, y down.

use kurbo::{BezPath, CubicBez, ParamCurve as _, ParamCurveArclen as _, ParamCurveDeriv as _, PathSeg, offset};

use super::DrawnError;
use super::crossing::crosses_itself;
use crate::geometry::{Affine, Point, Vec2};
use crate::hem::chain::{Chain, Link};
use crate::hem::curve::{Curve, turn_between};
use crate::hem::reach::{self, Reach};
use crate::quantity::Mm;

/// Pieces of a line shorter than this, in millimetres, are dropped, and ends nearer than this meet: rounding of the drawing
/// program and of single precision.
pub(super) const NOTHING: f64 = 0.01;

/// Lengths of drawn curves are found to this, in millimetres.
const LENGTH_ERROR: f64 = 1e-9;

/// A curve parallel to a drawn one is fitted to this, in millimetres: below the drawing's own digits.
const PARALLEL_ERROR: f64 = 1e-4;

/// Most pieces of one line: a tracing of a metre with a point every millimetre stays below.
const MOST_PIECES: usize = 2_000;

/// Longest line taken, in millimetres.
const LONGEST: f64 = 100_000.0;

/// A curve that turns by more than this within the smallest part looked at, in radians, comes to a point.
const POINTED: f64 = 1.0;

/// Pieces of a line in order, each starting where the last ended; never empty.
#[derive(Clone, Debug)]
pub(super) struct Stretch(Vec<PathSeg>);

impl Stretch {
    /// The pieces of a drawn line, which must be one stretch.
    pub(super) fn new(id: &str, path: &BezPath) -> Result<Self, DrawnError> {
        let id = || id.to_owned();
        let pieces: Vec<PathSeg> =
            path.segments().flat_map(plain).filter(|seg| seg.arclen(1e-3) > NOTHING).take(MOST_PIECES + 1).collect();
        if pieces.is_empty() || pieces.iter().any(|seg| !seg.is_finite()) {
            return Err(DrawnError::NoLine { id: id() });
        }
        if pieces.len() > MOST_PIECES {
            return Err(DrawnError::TooFine { id: id(), most: MOST_PIECES });
        }
        let gaps = pieces.windows(2).map(|pair| pair[0].end().distance(pair[1].start()));
        // A dropped piece leaves an opening as long as itself.
        if let Some(by) = gaps.into_iter().find(|gap| *gap > 2.0 * NOTHING) {
            return Err(DrawnError::Broken { id: id(), by: Mm::new(by) });
        }
        let stretch = Self(pieces);
        let length = stretch.length();
        if length > LONGEST {
            return Err(DrawnError::TooLong { id: id(), length: Mm::new(length), most: Mm::new(LONGEST) });
        }
        if stretch.links(0.0).iter().any(|link| link.piece().sharpest() > POINTED) {
            return Err(DrawnError::TurnsBack { id: id() });
        }
        if let Some(at) = crosses_itself(&stretch.0, length) {
            return Err(DrawnError::Crosses { id: id(), at: (Mm::new(at.x), Mm::new(at.y)) });
        }
        Ok(stretch)
    }

    /// The same, with two ends.
    pub(super) fn open(id: &str, path: &BezPath) -> Result<Self, DrawnError> {
        let stretch = Self::new(id, path)?;
        if stretch.opening() < NOTHING { Err(DrawnError::Closes { id: id.to_owned() }) } else { Ok(stretch) }
    }

    /// How far its two ends are apart.
    pub(super) fn opening(&self) -> f64 {
        self.start().distance(self.end())
    }

    pub(super) fn start(&self) -> Point {
        self.0[0].start()
    }

    pub(super) fn end(&self) -> Point {
        self.0[self.0.len() - 1].end()
    }

    /// Unit direction at the start.
    pub(super) fn first_direction(&self) -> Vec2 {
        direction(&self.0[0], 0.0)
    }

    /// Unit direction at the end.
    pub(super) fn last_direction(&self) -> Vec2 {
        direction(&self.0[self.0.len() - 1], 1.0)
    }

    pub(super) fn pieces(&self) -> &[PathSeg] {
        &self.0
    }

    pub(super) fn length(&self) -> f64 {
        self.0.iter().map(|seg| seg.arclen(LENGTH_ERROR)).sum()
    }

    /// The same line the other way.
    #[must_use]
    pub(super) fn reversed(&self) -> Self {
        Self(self.0.iter().rev().map(PathSeg::reverse).collect())
    }

    #[must_use]
    pub(super) fn carried(&self, motion: Affine) -> Self {
        Self(self.0.iter().map(|seg| motion * *seg).collect())
    }

    /// The same line and another that starts where it ends.
    #[must_use]
    pub(super) fn followed_by(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }

    /// Its pieces as links of a chain, the first turned by `turn`.
    pub(super) fn links(&self, turn: f64) -> Vec<Link> {
        let mut turn = turn;
        let mut links = Vec::with_capacity(self.0.len());
        for (index, seg) in self.0.iter().enumerate() {
            let (curve, to) = curve(seg);
            links.push(Link::new(curve, 0.0, to, turn));
            if let Some(next) = self.0.get(index + 1) {
                turn = turn_between(direction(seg, 1.0), direction(next, 0.0));
            }
        }
        links
    }

    /// The line parallel to it so far toward the upper side, cut or lengthened at its corners; `None` where it vanishes.
    /// A closed line is cut at the corner where it closes, too.
    pub(super) fn raised(&self, height: f64, closed: bool) -> Option<Self> {
        if height <= 0.0 {
            return Some(self.clone());
        }
        let closing = if closed { turn_between(self.last_direction(), self.first_direction()) } else { 0.0 };
        let (edge, once) = Chain::new(self.links(closing)).laid_out(0.0);
        if edge.tightest_radius().is_some_and(|radius| radius <= height) {
            return None;
        }
        let once = closed.then_some(once);
        let joints = reach::joints(&edge, once);
        let reaches = reach::reaches(&edge, &joints, once, height)?;
        let pieces = self.0.iter().zip(edge.pieces()).zip(reaches);
        let raised: Vec<PathSeg> = pieces
            .flat_map(|((seg, piece), Reach { trim, length, .. })| {
                let whole = piece.line_length(height);
                let share = |distance: f64| piece.parameter(height, distance.clamp(0.0, whole)) / curve(seg).1;
                let part = seg.subsegment(share(trim)..share(trim + length));
                let along = parallel(&part, height);
                let (first, last) = (along[0], along[along.len() - 1]);
                // At an inward corner the line goes on straight until it meets the next.
                let ahead = first.start() + direction(&first, 0.0) * trim.min(0.0);
                let beyond = last.end() + direction(&last, 1.0) * (trim + length - whole).max(0.0);
                let line = |from: Point, to: Point| PathSeg::Line(kurbo::Line::new(from, to));
                let before = (trim < 0.0).then(|| line(ahead, first.start()));
                let after = (trim + length > whole).then(|| line(last.end(), beyond));
                let pieces = before.into_iter().chain(along).chain(after);
                pieces.filter(|seg| seg.arclen(1e-3) > LENGTH_ERROR).collect::<Vec<_>>()
            })
            .collect();
        Some(Self(raised))
    }

    /// What lies between the first place where `left` is not below zero and the last where `right` is not; `None` where
    /// that is nothing. Both are signed distances in millimetres.
    pub(super) fn between(&self, left: impl Fn(Point) -> f64, right: impl Fn(Point) -> f64) -> Option<Self> {
        let kept = self.after(left)?;
        Some(kept.reversed().after(right)?.reversed())
    }

    fn after(&self, side: impl Fn(Point) -> f64) -> Option<Self> {
        // Thirty-two samples a piece: between two of them no drawn piece leaves a seam's allowance and comes back.
        const SAMPLES: u32 = 32;
        for (index, seg) in self.0.iter().enumerate() {
            let at = |k: u32| f64::from(k) / f64::from(SAMPLES);
            let Some(k) = (0..=SAMPLES).find(|k| side(seg.eval(at(*k))) >= -LENGTH_ERROR) else { continue };
            let t = if k == 0 { 0.0 } else { crossing(at(k - 1), at(k), |t| side(seg.eval(t))) };
            let rest = seg.subsegment(t..1.0);
            let rest = (rest.arclen(LENGTH_ERROR) > NOTHING).then_some(rest);
            let kept: Vec<PathSeg> = rest.into_iter().chain(self.0[index + 1..].iter().copied()).collect();
            return (!kept.is_empty()).then_some(Self(kept));
        }
        None
    }
}

/// Unit direction at a place of a piece.
pub(super) fn direction(seg: &PathSeg, t: f64) -> Vec2 {
    let slope = match seg {
        PathSeg::Line(line) => line.p1 - line.p0,
        other => other.to_cubic().deriv().eval(t).to_vec2(),
    };
    slope / slope.hypot()
}

/// A piece as lines and curves that have a direction and a bounded curvature at their ends.
fn plain(seg: PathSeg) -> Vec<PathSeg> {
    let PathSeg::Line(_) = seg else { return settled(seg.to_cubic()) };
    vec![seg]
}

/// Handles and points nearer than this to each other or to a straight line, in millimetres, lie on it.
const ON_LINE: f64 = 0.002;

/// The share of a curve, at an end whose handle lies on it, that is drawn anew with the same ends and directions. Its
/// curvature has no bound there, although nobody could see it: no line could be drawn over it. A tenth of the parameter is 3 %
/// of the length; a curve of 1 m moves by less than 0.1 mm.
const REDRAWN: f64 = 0.1;

fn settled(cubic: CubicBez) -> Vec<PathSeg> {
    let CubicBez { p0, p1, p2, p3 } = cubic;
    let line = PathSeg::Line(kurbo::Line::new(p0, p3));
    let chord = p3 - p0;
    let on_chord = |p: Point| {
        let off = (p - p0).cross(chord).abs() / chord.hypot();
        let along = (p - p0).dot(chord) / chord.hypot2();
        off < ON_LINE && (-1e-4..=1.0001).contains(&along)
    };
    let (at_start, at_end) = (p0.distance(p1) < ON_LINE, p3.distance(p2) < ON_LINE);
    if (at_start && at_end) || (chord.hypot() > ON_LINE && on_chord(p1) && on_chord(p2)) {
        return vec![line];
    }
    if at_start {
        let (first, rest) = (cubic.subsegment(0.0..REDRAWN), cubic.subsegment(REDRAWN..1.0));
        return vec![PathSeg::Cubic(redrawn(first, p2 - p0, rest.p1 - rest.p0)), PathSeg::Cubic(rest)];
    }
    if at_end {
        let (rest, last) = (cubic.subsegment(0.0..1.0 - REDRAWN), cubic.subsegment(1.0 - REDRAWN..1.0));
        return vec![PathSeg::Cubic(rest), PathSeg::Cubic(redrawn(last, rest.p3 - rest.p2, p3 - p1))];
    }
    vec![PathSeg::Cubic(cubic)]
}

/// The curve between the same ends along these directions, its handles a third of the way long.
fn redrawn(cubic: CubicBez, first: Vec2, last: Vec2) -> CubicBez {
    let third = cubic.p0.distance(cubic.p3) / 3.0;
    let p1 = cubic.p0 + first / first.hypot() * third;
    let p2 = cubic.p3 - last / last.hypot() * third;
    CubicBez { p0: cubic.p0, p1, p2, p3: cubic.p3 }
}

/// A piece as a curve of a hem, and the parameter at its end; that at its start is zero.
fn curve(seg: &PathSeg) -> (Curve, f64) {
    match seg {
        PathSeg::Line(line) => (Curve::Arc { curvature: 0.0 }, (line.p1 - line.p0).hypot()),
        other => (Curve::Drawn(other.to_cubic()), 1.0),
    }
}

/// The curve parallel to a piece, so far toward the upper side.
fn parallel(seg: &PathSeg, distance: f64) -> Vec<PathSeg> {
    if let PathSeg::Line(line) = seg {
        let along = direction(seg, 0.0);
        let shift = Vec2::new(along.y, -along.x) * distance;
        return vec![PathSeg::Line(kurbo::Line::new(line.p0 + shift, line.p1 + shift))];
    }
    let mut path = BezPath::new();
    // The library's positive side is the right-hand one where y runs up, the upper side of an edge where it runs down.
    offset::offset_cubic(seg.to_cubic(), -distance, PARALLEL_ERROR, &mut path);
    path.segments().flat_map(plain).collect()
}

/// Where a function that goes from below zero to not below zero crosses, by halving.
fn crossing(mut low: f64, mut high: f64, side: impl Fn(f64) -> f64) -> f64 {
    // Sixty rounds go below rounding.
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if side(middle) >= 0.0 { high = middle } else { low = middle }
    }
    high
}
