//! Stage 2, shape the hem: measurements or drawn pieces to a [`Hem`], and the lines parallel to it.
//!
//! Knows no motifs. Hem coordinates, fixed once and drawn in docs/geometry.md: s = distance along the finished hem from
//! CF, positive toward the wearer's left; h = height above the hem, square to it. The *flat development* is the band laid
//! out flat in millimetres, y down, hem's right side up; a gored or conical hem is developed round its own apex, so that
//! a ring may come out as an open arc.

use crate::geometry::{Point, Vec2};
use crate::quantity::{Mm, Radians};

/// What a maker measures, by shape of garment. Each variant states what its numbers mean.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Measurements {
    /// A fraction of a circle: hem = waist + 2 pi x fraction x length.
    Circle {
        /// Part of a full circle, above 0; 1 is a full circle, 0.5 a half. More than 1 for several circles joined.
        fraction: f64,
        /// Finished waist (or neck) line.
        waist: Mm,
        /// From waist to hem.
        length: Mm,
    },
    /// Longer at the back, over an oval or round waist.
    Oval {
        /// Finished waist line.
        waist: Mm,
        /// From waist to hem at centre front.
        front: Mm,
        /// From waist to hem at the side seam.
        side: Mm,
        /// From waist to hem at centre back.
        back: Mm,
        /// Hem length by tape, where measured.
        tape: Option<Mm>,
    },
    /// An ellipse known by its half axes at the hem.
    Ellipse {
        /// Half the hem's extent from front to back.
        front_back: Mm,
        /// Half the hem's extent from side to side.
        side_side: Mm,
    },
    /// Equal panels with straight sides.
    Gores {
        /// How many.
        panels: u32,
        /// Finished width of one panel at the top.
        top: Mm,
        /// Finished width of one panel at the hem.
        hem: Mm,
        /// Finished length of the side seam.
        side: Mm,
    },
    /// Hem length by tape with how much it flares.
    Measured {
        /// Finished hem length.
        hem: Mm,
        /// How the lines above the hem shorten.
        flare: Flare,
    },
    /// A straight band: every line is as long as the hem.
    Straight {
        /// Finished length.
        length: Mm,
    },
}

/// How much a measured hem flares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Flare {
    /// A second line measured higher up: sweep = (hem - upper) / height.
    UpperLine {
        /// Length of the upper line.
        length: Mm,
        /// Its height above the hem.
        height: Mm,
    },
    /// Sweep in radians; a full circle has 2 pi.
    Sweep(f64),
    /// Not known: taken as a full circle, the flare at which motifs come closest, and said so.
    Unknown,
}

/// What is asked of the hem beside its measurements.
#[derive(Clone, Debug, PartialEq)]
pub struct HemWish {
    /// The measurements.
    pub measurements: Measurements,
    /// Closed ring, or a band with two ends.
    pub ends: Ends,
    /// Seams that motifs should keep clear of.
    pub seams: Vec<Seam>,
}

/// Whether the hem closes on itself.
#[derive(Clone, Debug, PartialEq)]
pub enum Ends {
    /// A ring without an opening.
    Closed,
    /// A ring with an opening whose two edges meet or overlap when worn (S11): the visible length is set out, `underlap`
    /// beyond it stays bare.
    Opening {
        /// Where the closing edge lies.
        at: Mark,
        /// How far one edge reaches under the other.
        underlap: Mm,
        /// How far motifs keep from the closing edge.
        keep_clear: Mm,
    },
    /// Two ends that do not meet: a cape, a stole, a sleeve cut open.
    Open {
        /// How far motifs keep from each end.
        keep_clear: Mm,
    },
}

/// A named place on the hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mark {
    /// Centre front.
    CentreFront,
    /// Centre back.
    CentreBack,
    /// The quarter to the wearer's left.
    SideLeft,
    /// The quarter to the wearer's right.
    SideRight,
    /// Any distance along the hem from CF, positive to the wearer's left.
    At(Mm),
}

/// A seam that crosses the band.
#[derive(Clone, Debug, PartialEq)]
pub struct Seam {
    /// `side seam left`, `panel seam 2`.
    pub name: String,
    /// Where it meets the hem.
    pub at: Mark,
    /// How far motifs keep from it.
    pub keep_clear: Mm,
}

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
}

/// A named line across the band, where something is or must be kept clear.
#[derive(Clone, Debug, PartialEq)]
pub struct HemMark {
    /// `CF`, `CB`, `side seam left`, `opening`, `end`.
    pub name: String,
    /// Where it meets the hem.
    pub s_hem: Mm,
    /// How far motifs keep from it along the motif line; `None` where it only names a place.
    pub keep_clear: Option<Mm>,
}

/// A shaped hem.
#[derive(Clone, Debug)]
pub struct Hem {}

/// The line parallel to the hem on which motifs sit.
#[derive(Clone, Debug)]
pub struct MotifLine {}

/// Why a hem cannot be shaped, or a line not be drawn at a height.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum HemError {}

/// Shapes the hem.
///
/// # Errors
/// [`HemError`] for measurements that contradict each other, with by how much.
pub fn shape(wish: &HemWish) -> Result<Hem, HemError> {
    unimplemented!("{wish:?}")
}

impl Hem {
    /// Length of the finished hem that is seen (an underlap not counted).
    #[must_use]
    pub fn length(&self) -> Mm {
        unimplemented!()
    }

    /// Angle through which the hem turns in all.
    #[must_use]
    pub fn sweep(&self) -> Radians {
        unimplemented!()
    }

    /// Whether motifs run round without an end.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        unimplemented!()
    }

    /// Least and greatest s on the hem; a closed hem runs from -length/2 to length/2.
    #[must_use]
    pub fn span(&self) -> (Mm, Mm) {
        unimplemented!()
    }

    /// Named places, in order of s.
    #[must_use]
    pub fn marks(&self) -> &[HemMark] {
        unimplemented!()
    }

    /// The line parallel to the hem at a height; height zero is the hem itself.
    ///
    /// # Errors
    /// [`HemError`] when the height reaches the waist or the middle of the tightest curve.
    pub fn line_at(&self, height: Mm) -> Result<MotifLine, HemError> {
        unimplemented!("{height}")
    }
}

impl MotifLine {
    /// Height above the hem.
    #[must_use]
    pub fn height(&self) -> Mm {
        unimplemented!()
    }

    /// Length from end to end, or all round.
    #[must_use]
    pub fn length(&self) -> Mm {
        unimplemented!()
    }

    /// Least and greatest s on this line.
    #[must_use]
    pub fn span(&self) -> (Mm, Mm) {
        unimplemented!()
    }

    /// Place and direction at a distance from CF along this line; a closed line wraps round.
    #[must_use]
    pub fn frame_at(&self, s_line: Mm) -> Frame {
        unimplemented!("{s_line}")
    }

    /// Foot of the square line: distance from CF along the hem for a distance along this line.
    #[must_use]
    pub fn to_hem(&self, s_line: Mm) -> Mm {
        unimplemented!("{s_line}")
    }

    /// The other way round: distance along this line for a distance along the hem.
    #[must_use]
    pub fn from_hem(&self, s_hem: Mm) -> Mm {
        unimplemented!("{s_hem}")
    }
}
