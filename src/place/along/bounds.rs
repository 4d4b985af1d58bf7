//! What lies between the stretches of a line: seams, places to keep out of, corners, and the ends of an open band.

use super::course::Course;
use super::row::SAME;
use crate::place::clash::seams::{Keep, KeepId};

/// A corner of the line, and what it takes up on each side.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Nook {
    pub(in crate::place) s: f64,
    pub(in crate::place) occupied: f64,
    /// How many gaps are left beside that: one beside a motif that stands there, less without one.
    pub(in crate::place) gaps: f64,
}

/// What bounds a stretch, the same on every row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum BoundId {
    End,
    Corner(usize),
    Keep(KeepId),
}

/// What lies between two stretches.
#[derive(Clone, Copy, Debug)]
struct Bound {
    /// As the end of the stretch before it and as the start of the one after it.
    sides: [Side; 2],
}

/// One side of a bound.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Side {
    pub(in crate::place) id: BoundId,
    /// The place from which what is bare is measured.
    pub(in crate::place) s: f64,
    pub(in crate::place) end: End,
}

/// How a stretch ends.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) enum End {
    /// At a seam: half a gap, at least so much.
    Seam(f64),
    /// At the end of an open band: exactly so much.
    Edge(f64),
    /// At a corner: what that takes up, and so many gaps.
    Corner { takes: f64, gaps: f64 },
}

/// The two sides of every stretch, in order of s; none where nothing is to be kept clear. Round a ring the first stretch begins
/// at the bound farthest from the middle, so that nothing that goes by order breaks off within a stretch.
pub(in crate::place) fn sides(course: &Course, keeps: &[&Keep], nooks: &[Nook]) -> Vec<[Side; 2]> {
    let mut bounds = bounds(course, keeps, nooks);
    let round = course.length();
    if course.closed {
        let off = |bound: &Bound| bound.sides[1].s - round * (bound.sides[1].s / round).round();
        let farthest = (0..bounds.len()).max_by(|a, b| {
            let off = |k: usize| off(&bounds[k]).abs();
            // Of two as far the one that lies toward growing s.
            if (off(*a) - off(*b)).abs() < SAME { a.cmp(b) } else { off(*a).total_cmp(&off(*b)) }
        });
        if let Some(index) = farthest {
            bounds.rotate_left(index);
            // What came after it now comes once round further.
            let start = bounds[0].sides[0].s;
            for bound in &mut bounds {
                if bound.sides[0].s < start {
                    *bound = bound.moved(round);
                }
            }
            // The span that is walked holds the middle.
            let back = -round * (bounds[0].sides[1].s / round).ceil();
            for bound in &mut bounds {
                *bound = bound.moved(back);
            }
        }
    }
    let (Some(first), Some(last)) = (bounds.first(), bounds.last()) else { return Vec::new() };
    let mut sides: Vec<[Side; 2]> = bounds.windows(2).map(|pair| [pair[0].sides[1], pair[1].sides[0]]).collect();
    if course.closed {
        sides.push([last.sides[1], first.moved(round).sides[0]]);
    } else {
        // Which motif comes to stand at an end is not known yet: what the one that needs more keeps serves both.
        let bare = course.ends.max(course.ends_raised);
        let edge = |s| Side { id: BoundId::End, s, end: End::Edge(bare) };
        sides.insert(0, [edge(course.span.0), first.sides[0]]);
        sides.push([last.sides[1], edge(course.span.1)]);
    }
    sides
}

/// What lies between the stretches, in order of s; what overlaps is one.
fn bounds(course: &Course, keeps: &[&Keep], nooks: &[Nook]) -> Vec<Bound> {
    let keep = |keep: &&Keep| {
        let side = Side { id: BoundId::Keep(keep.id), s: keep.s, end: End::Seam(keep.half + keep.clear) };
        Bound { sides: [side, side] }
    };
    let nook = |(index, nook): (usize, &Nook)| {
        let side =
            Side { id: BoundId::Corner(index), s: nook.s, end: End::Corner { takes: nook.occupied, gaps: nook.gaps } };
        Bound { sides: [side, side] }
    };
    let mut all: Vec<Bound> = keeps.iter().map(keep).chain(nooks.iter().enumerate().map(nook)).collect();
    all.sort_by(|a, b| a.reach()[0].total_cmp(&b.reach()[0]));
    let mut merged: Vec<Bound> = Vec::new();
    for bound in all {
        match merged.last_mut() {
            Some(last) if bound.reach()[0] < last.reach()[1] + SAME => *last = last.with(bound),
            _ => merged.push(bound),
        }
    }
    // Round a ring the last may reach into the first.
    if course.closed
        && let [first, .., last] = merged[..]
        && last.reach()[1] > first.reach()[0] + course.length() - SAME
    {
        merged[0] = last.moved(-course.length()).with(first);
        merged.pop();
    }
    merged
}

impl Bound {
    /// From where to where nothing may stand.
    fn reach(&self) -> [f64; 2] {
        [self.sides[0].s - self.sides[0].end.least(), self.sides[1].s + self.sides[1].end.least()]
    }

    /// One bound of two that overlap.
    fn with(self, other: Self) -> Self {
        let [own, others] = [self.sides, other.sides];
        Self { sides: [outer(own[0], others[0], -1.0), outer(own[1], others[1], 1.0)] }
    }

    fn moved(self, by: f64) -> Self {
        Self { sides: self.sides.map(|side| Side { s: side.s + by, ..side }) }
    }
}

/// Of two sides the one that reaches further, outward being 1 toward growing s; a corner is a corner whatever else lies there.
fn outer(own: Side, other: Side, outward: f64) -> Side {
    let reach = |side: Side| side.s * outward + side.end.least();
    let (outer, inner) = if reach(other) > reach(own) { (other, own) } else { (own, other) };
    match inner.end {
        End::Corner { gaps, .. } if (inner.s - outer.s).abs() < SAME => {
            Side { end: End::Corner { takes: outer.end.least(), gaps }, ..inner }
        }
        _ => outer,
    }
}

impl End {
    /// What is bare at least.
    pub(in crate::place) const fn least(self) -> f64 {
        match self {
            Self::Seam(clear) | Self::Edge(clear) | Self::Corner { takes: clear, .. } => clear,
        }
    }
}
