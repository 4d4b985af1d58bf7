//! Stage 2, shape the hem: measurements or drawn pieces to a [`Hem`], and the lines parallel to it.
//!
//! Knows no motifs. Hem coordinates, fixed once and drawn in docs/geometry.md: s = distance along the finished hem from
//! CF, positive toward the wearer's left; h = height above the hem, square to it. The *flat development* is the band laid
//! out flat in millimetres, y down, hem's right side up; a gored or conical hem is developed round its own apex, so that
//! a ring may come out as an open arc.

mod chain;
mod cloth;
mod curve;
mod drawn;
mod edge;
mod error;
mod faults;
mod flare;
mod godet;
mod hung;
mod line;
mod marks;
mod mirror;
mod oval;
mod polygon;
mod reach;
mod shape;
mod shaped;
mod wish;

use std::sync::Arc;

use crate::finding::Finding;
use crate::geometry::{Affine, Point, Vec2};
use crate::quantity::{Mm, Radians};
use edge::Edge;
use marks::Panels;
use marks::Quarters;
use reach::Joint;

pub use drawn::{
    Allowances, CheckLine, Drawn, DrawnError, DrawnPanel, DrawnPanels, DrawnWay, PanelHand, PanelKind, PanelOnHem,
    PanelSide,
};
pub use error::HemError;
pub use faults::faults;
pub use hung::{AsHung, HungPart};
pub use line::{Corner, MotifLine};
pub(crate) use marks::OPENING;
pub(crate) use mirror::exchanged;
pub use shape::{shape, shape_drawn};
pub use wish::{Ends, Flare, Godet, GodetPlace, HemWish, Mark, Measurements, Middle, PanelPart, Seam};

/// A place on a line with the directions there, in the flat development.
///
/// The development is fixed so: CF on the hem is the origin; there `along` is (1, 0), toward the wearer's left, which is to
/// the right of a viewer who faces the wearer; `up`, away from the hem, is (0, -1). A full circle of radius R has its
/// middle at (0, -R), and the hem at angle f from CF is (R sin f, -R (1 - cos f)).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The place.
    pub at: Point,
    /// Unit direction of growing s.
    pub along: Vec2,
}

impl Frame {
    /// Unit direction away from the hem.
    #[must_use]
    pub const fn up(self) -> Vec2 {
        Vec2::new(self.along.y, -self.along.x)
    }

    /// Turn, clockwise on screen, that carries upright onto `up`.
    #[must_use]
    pub fn turn(self) -> Radians {
        Radians::new(self.along.y.atan2(self.along.x))
    }

    /// Carries a motif drawn round the origin, upper end toward negative y, to this place, upper end along `up`.
    #[must_use]
    pub const fn placement(self) -> Affine {
        Affine::new([self.along.x, self.along.y, -self.along.y, self.along.x, self.at.x, self.at.y])
    }

    /// The frame moved by a rigid motion.
    pub(crate) fn carried(self, motion: Affine) -> Self {
        let c = motion.as_coeffs();
        let along = Vec2::new(c[0] * self.along.x + c[2] * self.along.y, c[1] * self.along.x + c[3] * self.along.y);
        Self { at: motion * self.at, along }
    }
}

/// A named line across the band, where something is or must be kept clear.
#[derive(Clone, Debug, PartialEq)]
pub struct HemMark {
    /// `CF`, `CB`, `left side seam`, `opening`, `left end`.
    pub name: String,
    /// Where it meets the hem.
    pub s_hem: Mm,
    /// How far motifs keep from it along the motif line; `None` where it only names a place.
    pub keep_clear: Option<Mm>,
}

/// A shaped hem: its edge as a curve in the flat development, and the places named on it.
#[derive(Clone, Debug)]
pub struct Hem {
    edge: Arc<Edge>,
    /// How it turns before each of its pieces.
    joints: Arc<[Joint]>,
    /// For a ring: carries the development's least s onto its greatest. The identity where the development closes.
    once_round: Option<Affine>,
    ends: Ends,
    quarters: Quarters,
    marks: Vec<HemMark>,
    panels: Option<Panels>,
    drawn_panels: Vec<PanelOnHem>,
    /// Height of the waist above the hem where it is nearest, if known.
    waist: Option<f64>,
    /// Height of the lowest point of a godet, if any was let in.
    godet_top: Option<f64>,
    hung: Vec<HungPart>,
    findings: Vec<Finding>,
}

impl Hem {
    /// Length of the finished hem that is seen (an underlap not counted).
    #[must_use]
    pub fn length(&self) -> Mm {
        let (least, greatest) = self.edge.span();
        Mm::new(greatest - least)
    }

    /// Angle through which the hem turns in all.
    #[must_use]
    pub fn sweep(&self) -> Radians {
        Radians::new(self.edge.turn() + self.joints[0].turn)
    }

    /// How much shorter a line parallel to the hem is for each mm of height: its sweep where it curves; at a corner that turns
    /// by a, where either side is cut back to the bisector, 2 tan(a/2) and not a. 8 for a rectangle.
    #[must_use]
    pub fn lost_for_height(&self) -> f64 {
        let at_joint = |joint: &Joint| 2.0 * (joint.turn / 2.0).tan() - joint.turn;
        self.sweep().get() + self.joints.iter().filter(|joint| joint.is_corner()).map(at_joint).sum::<f64>()
    }

    /// Whether motifs run round without an end.
    #[must_use]
    pub const fn is_closed(&self) -> bool {
        self.once_round.is_some()
    }

    /// Its ends, as asked for.
    #[must_use]
    pub const fn ends(&self) -> &Ends {
        &self.ends
    }

    /// What its middle, where s is zero, is called.
    #[must_use]
    pub const fn middle(&self) -> Middle {
        match self.ends {
            Ends::Open { middle, .. } => middle,
            Ends::Closed | Ends::Opening { .. } => Middle::CentreFront,
        }
    }

    /// Least and greatest s on the hem; a closed hem runs from -length/2 to length/2.
    #[must_use]
    pub fn span(&self) -> (Mm, Mm) {
        let (least, greatest) = self.edge.span();
        (Mm::new(least), Mm::new(greatest))
    }

    /// Named places, in order of s.
    #[must_use]
    pub fn marks(&self) -> &[HemMark] {
        &self.marks
    }

    /// Where a mark lies on the hem; `None` where this hem does not have it (the centre front of a cape open in front).
    #[must_use]
    pub fn place_of(&self, mark: Mark) -> Option<Mm> {
        marks::place_of(mark, &self.ends, self.quarters, self.length().get()).map(Mm::new)
    }

    /// How many equal panels it has, where it was measured by panels.
    #[must_use]
    pub fn panels(&self) -> Option<u32> {
        self.panels.map(|panels| panels.count)
    }

    /// The panels it was drawn in, in order from CF or from the right-hand end; none where it was measured.
    #[must_use]
    pub fn drawn_panels(&self) -> &[PanelOnHem] {
        &self.drawn_panels
    }

    /// Its parts as measured again after hanging; none where it was not.
    #[must_use]
    pub fn hung(&self) -> &[HungPart] {
        &self.hung
    }

    /// The hem as it lies after hanging; `None` where it was not measured again.
    #[must_use]
    pub fn as_hung(&self) -> Option<AsHung> {
        self.as_hung_on(|s| s)
    }

    /// The same for a line parallel to it.
    #[must_use]
    pub fn line_as_hung(&self, line: &MotifLine) -> Option<AsHung> {
        self.as_hung_on(|s| line.from_hem(s))
    }

    fn as_hung_on(&self, on_line: impl Fn(Mm) -> Mm) -> Option<AsHung> {
        AsHung::new(&self.hung, !matches!(self.ends, Ends::Open { .. }), on_line)
    }

    /// What the measurements gave cause to tell the maker.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The line parallel to the hem at a height; height zero is the hem itself.
    ///
    /// # Errors
    /// [`HemError`] when the height is below the hem, or reaches the waist or the middle of the tightest curve.
    pub fn line_at(&self, height: Mm) -> Result<MotifLine, HemError> {
        if height < Mm::ZERO {
            return Err(HemError::BelowHem { height });
        }
        let h = height.get();
        if let Some(waist) = self.waist.filter(|waist| h >= *waist) {
            return Err(HemError::ReachesWaist { height, waist: Mm::new(waist) });
        }
        if let Some(top) = self.godet_top.filter(|top| h >= *top) {
            return Err(HemError::ReachesGodet { height, top: Mm::new(top) });
        }
        if let Some(radius) = self.edge.tightest_radius().filter(|radius| h >= *radius) {
            return Err(HemError::ReachesMiddle { height, radius: Mm::new(radius) });
        }
        let reaches = |h| reach::reaches(&self.edge, &self.joints, self.once_round, h);
        let reaches =
            reaches(h).ok_or_else(|| HemError::CornersMeet { height, most: greatest(h, |h| reaches(h).is_some()) })?;
        Ok(MotifLine {
            edge: Arc::clone(&self.edge),
            height: h,
            reaches,
            joints: Arc::clone(&self.joints),
            once_round: self.once_round,
        })
    }
}

/// Greatest height below `h` at which something still holds, by halving; sixty rounds go below rounding.
fn greatest(h: f64, holds: impl Fn(f64) -> bool) -> Mm {
    let (mut low, mut high) = (0.0, h);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if holds(middle) { low = middle } else { high = middle }
    }
    Mm::new(low)
}
