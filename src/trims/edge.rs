//! The line a trim follows.

use std::f64::consts::TAU;

use crate::hem::{Ends, Hem};
use crate::quantity::{Mm, Radians};

/// A finished hem as a trim meets it: how long, how much it turns, and whether it closes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Finished length, an underlap included.
    pub length: Mm,
    /// How much shorter a parallel line is for each mm of height: the angle through which the edge turns in all, 0 for a
    /// straight band, and a little more where it turns at corners.
    pub sweep: Radians,
    /// Whether a trim runs round without an end.
    pub closed: bool,
}

/// The two edges of a trim on a curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrawUp {
    /// Length of the line under its lower edge.
    pub lower: Mm,
    /// Length of the line under its upper edge.
    pub upper: Mm,
}

impl DrawUp {
    /// What the upper edge must lose.
    #[must_use]
    pub fn excess(self) -> Mm {
        self.lower - self.upper
    }

    /// The same as a share of the lower edge, 0 to 1.
    #[must_use]
    pub fn share(self) -> f64 {
        if self.lower > Mm::ZERO { self.excess() / self.lower } else { 0.0 }
    }

    /// `18.4 %`
    #[must_use]
    pub fn percent(self) -> String {
        format!("{:.1} %", self.share() * 100.0 + 0.0)
    }
}

impl Edge {
    /// The edge of a hem. An underlap is trimmed like the rest, so its length counts, and it turns as the hem does.
    #[must_use]
    pub fn of(hem: &Hem, ends: &Ends) -> Self {
        // A trim is cut for the hem as it is now.
        let seen = hem.as_hung().map_or(hem.length(), |hung| hung.length());
        let sweep = Radians::new(hem.lost_for_height());
        let underlap = match ends {
            Ends::Opening { underlap, .. } => *underlap,
            Ends::Closed | Ends::Open { .. } => Mm::ZERO,
        };
        let length = seen + underlap;
        let more = if seen > Mm::ZERO { length / seen } else { 1.0 };
        Self { length, sweep: Radians::new(sweep.get() * more), closed: matches!(ends, Ends::Closed) }
    }

    /// Length of the line at a height: shorter than the hem by sweep x height; `None` where nothing of it is left.
    #[must_use]
    pub fn line_at(self, height: Mm) -> Option<Mm> {
        let line = self.length - height * self.sweep.get();
        (line > Mm::ZERO).then_some(line)
    }

    /// The two edges of something that lies from one height to another.
    #[must_use]
    pub fn draw_up(self, from: Mm, to: Mm) -> Option<DrawUp> {
        Some(DrawUp { lower: self.line_at(from)?, upper: self.line_at(to)? })
    }

    /// Greatest height that leaves a line; `None` for a hem that does not shorten.
    #[must_use]
    pub fn highest(self) -> Option<Mm> {
        (self.sweep.get() > 0.0).then(|| self.length / self.sweep.get())
    }

    /// Radius of a circle that turns as much over the same length; `None` for a straight band.
    #[must_use]
    pub fn average_radius(self) -> Option<Mm> {
        // Half a degree in all: a straight strip follows that by itself.
        (self.sweep.get() > TAU / 720.0).then(|| self.length / self.sweep.get())
    }
}
