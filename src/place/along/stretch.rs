//! One stretch of a line between two places to keep clear: what its gap is with certain motifs, and where they stand.

use super::bounds::{BoundId, End, Side};
use super::course::Course;
use super::row::{ON_PLACE, SAME, Seat};
use super::sequence::Member;
use crate::place::Anchor;

/// A stretch of the line between two places to keep clear.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Stretch {
    pub(in crate::place) bounds: [BoundId; 2],
    pub(in crate::place) start: f64,
    pub(in crate::place) length: f64,
    /// Bare at each end.
    ends: [End; 2],
    /// Whether its middle is the middle of the line.
    pub(in crate::place) on_middle: bool,
}

impl Stretch {
    pub(in crate::place) fn new([start, end]: [Side; 2], course: &Course) -> Self {
        let middle = start.s.midpoint(end.s);
        let off = if course.closed { middle - course.length() * (middle / course.length()).round() } else { middle };
        Self {
            bounds: [start.id, end.id],
            start: start.s,
            length: end.s - start.s,
            ends: [start.end, end.end],
            on_middle: off.abs() < ON_PLACE,
        }
    }

    /// Where it ends.
    pub(in crate::place) const fn end(&self) -> f64 {
        self.start + self.length
    }

    /// Keeps at least so much bare at an end that lies at a seam.
    pub(in crate::place) const fn keep_bare(&mut self, end: usize, bare: f64) {
        if let End::Seam(clear) = &mut self.ends[end] {
            *clear = clear.max(bare);
        }
    }

    /// Whether a place lies within it.
    pub(in crate::place) fn holds(&self, s: f64) -> bool {
        s > self.start + ON_PLACE && s < self.start + self.length - ON_PLACE
    }

    /// By how many motifs it grows so that what was asked for stays on the middle.
    pub(in crate::place) const fn step(&self, anchor: Anchor) -> u32 {
        if self.on_middle && !matches!(anchor, Anchor::Best) { 2 } else { 1 }
    }

    /// Whether so many leave on the middle what was asked for.
    pub(in crate::place) const fn suits(&self, count: u32, anchor: Anchor) -> bool {
        match anchor {
            Anchor::Motif if self.on_middle => count % 2 == 1,
            Anchor::Gap if self.on_middle => count.is_multiple_of(2),
            _ => true,
        }
    }

    /// The gap of `count` motifs that are so wide in all; below zero where they do not fit, endless for none.
    pub(in crate::place) fn gap(&self, widths: f64, count: u32) -> f64 {
        self.gap_and_ends(widths, count).0
    }

    /// The gap of seats in it.
    pub(in crate::place) fn gap_of(&self, seats: &[Seat]) -> f64 {
        let widths = 2.0 * seats.iter().map(|seat| seat.half).sum::<f64>();
        self.gap(widths, u32::try_from(seats.len()).unwrap_or(u32::MAX))
    }

    /// The gap, and what is bare at each end.
    fn gap_and_ends(&self, widths: f64, count: u32) -> (f64, [f64; 2]) {
        let least = self.ends.map(End::least);
        let free = self.length - widths;
        if count == 0 {
            return (f64::INFINITY, least);
        }
        // Half a gap at each seam, unless that is less than must be kept clear there: then that distance is fixed.
        let mut fixed = self.ends.map(|end| !matches!(end, End::Seam(_)));
        let corners = self.ends.map(|end| if let End::Corner { gaps, .. } = end { gaps } else { 0.0 });
        loop {
            let halves = fixed.iter().filter(|fixed| !**fixed).count() as f64 / 2.0;
            let taken: f64 = (0..2).filter(|k| fixed[*k]).map(|k| least[k]).sum();
            let parts = f64::from(count - 1) + halves + corners[0] + corners[1];
            let gap = if parts > 0.0 { (free - taken) / parts } else { free - taken };
            let short = (0..2).find(|k| !fixed[*k] && gap / 2.0 < least[*k]);
            match short {
                Some(k) => fixed[k] = true,
                None => {
                    return (gap, [0, 1].map(|k| if fixed[k] { least[k] + corners[k] * gap } else { gap / 2.0 }));
                }
            }
        }
    }

    /// Middles of motifs in their order, alone with the gap that was asked for.
    pub(in crate::place) fn places(&self, members: &[Member], asked: f64) -> Vec<f64> {
        let widths: f64 = members.iter().map(|member| member.width).sum();
        let count = u32::try_from(members.len()).unwrap_or(u32::MAX);
        let (gap, mut ends) = self.gap_and_ends(widths, count);
        let even = self.ends.iter().all(|end| matches!(end, End::Seam(_))) && (ends[0] - ends[1]).abs() < SAME;
        let corner = self.ends.iter().any(|end| matches!(end, End::Corner { .. }));
        if count == 1 && !even && !corner {
            // Alone where half a gap on either side is not to be had it stands in the middle of the room there is; a seam has
            // half of the gap asked for on this side of it.
            let room = self.length - widths;
            let least = self
                .ends
                .map(|end| if matches!(end, End::Seam(_)) { end.least().max(asked / 2.0) } else { end.least() });
            let middle = f64::midpoint(self.ends[0].least(), room - self.ends[1].least());
            ends[0] = middle.min(room - least[1]).max(least[0]);
        }
        side_by_side(members, gap, self.start + ends[0])
    }
}

/// Middles of motifs with a gap between them, the first one's edge at `edge`.
pub(in crate::place) fn side_by_side(members: &[Member], gap: f64, edge: f64) -> Vec<f64> {
    let mut before = 0.0;
    let place = |(k, member): (usize, &Member)| {
        // Gaps are multiplied, not added up, so that ten thousand motifs drift no more than ten.
        let s = edge + before + gap * k as f64 + member.width / 2.0;
        before += member.width;
        s
    };
    members.iter().enumerate().map(place).collect()
}
