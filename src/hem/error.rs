//! Why a hem cannot be shaped, or a line not be drawn over it.

use std::fmt;

use super::DrawnError;
use crate::quantity::Mm;

/// Why a hem cannot be shaped, or a line not be drawn at a height.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum HemError {
    /// Drawn pattern pieces make no hem.
    Drawn(DrawnError),
    /// A measurement that must be more than nothing is not.
    NotPositive {
        /// Which: `hem length`.
        what: &'static str,
        /// What was given.
        value: Mm,
    },
    /// A measurement is negative.
    Negative {
        /// Which: `waist`.
        what: &'static str,
        /// What was given.
        value: Mm,
    },
    /// A fraction of a circle at or below zero, or beyond what cloth can be joined to.
    Fraction {
        /// What was given.
        fraction: f64,
        /// Greatest taken.
        most: f64,
    },
    /// No panels, or more than can be meant.
    Panels {
        /// What was given.
        panels: u32,
        /// Greatest number taken.
        most: u32,
    },
    /// The hem would turn through more than any garment does.
    TooMuchSweep {
        /// What the measurements give, in full circles.
        circles: f64,
        /// Greatest taken, in full circles.
        most: f64,
    },
    /// The hem by tape is too far from the draft through the measured lengths.
    TapeAgainstDraft {
        /// Hem by tape.
        tape: Mm,
        /// Hem of the draft.
        draft: Mm,
    },
    /// The draft through the lengths comes inside the waist.
    InsideWaist {
        /// How far inside.
        by: Mm,
    },
    /// The draft through the lengths bends inward.
    BendsInward {
        /// From waist to hem at centre front.
        front: Mm,
        /// At the side.
        side: Mm,
        /// At centre back.
        back: Mm,
        /// Where: `centre front`, `the sides`, `centre back`.
        near: &'static str,
    },
    /// A godet that would be more than a full circle.
    GodetWide {
        /// Which of the godets of the wish it is, from 0.
        godet: usize,
        /// Its width along the hem.
        width: Mm,
        /// Length of its seams.
        height: Mm,
    },
    /// Two godets at the same place.
    GodetsMeet {
        /// Which of the godets of the wish is the second there, from 0.
        godet: usize,
        /// Where, along the hem without godets.
        s: Mm,
    },
    /// More godets than any skirt has.
    Godets {
        /// How many.
        found: usize,
        /// Greatest number taken.
        most: usize,
    },
    /// Godets for the seams between panels of a hem that has none.
    NoPanelSeams {
        /// Which of the godets of the wish asks for them, from 0.
        godet: usize,
    },
    /// A line at or above the point of a godet.
    ReachesGodet {
        /// Height asked for.
        height: Mm,
        /// Height of the point.
        top: Mm,
    },
    /// A named place does not lie on the hem.
    MarkOffHem {
        /// Whose place: `left side seam`, `opening`.
        name: String,
        /// Which of the seams of the wish it is, from 0, if it is one.
        seam: Option<usize>,
        /// Which of the godets of the wish it is, from 0, if it is one.
        godet: Option<usize>,
        /// Greatest distance from CF that lies on the hem.
        farthest: Mm,
    },
    /// The underlap is not shorter than the hem it lies under.
    Underlap {
        /// What was given.
        underlap: Mm,
        /// The visible hem.
        hem: Mm,
    },
    /// More parts measured after hanging than are taken.
    HungParts {
        /// How many were given.
        parts: usize,
        /// Greatest number taken.
        most: usize,
    },
    /// A part measured after hanging is too far from the draft.
    HungFar {
        /// Which part, from 1.
        part: usize,
        /// As measured.
        measured: Mm,
        /// As drafted.
        drafted: Mm,
    },
    /// A line below the hem.
    BelowHem {
        /// Height asked for.
        height: Mm,
    },
    /// A line at or above the waist.
    ReachesWaist {
        /// Height asked for.
        height: Mm,
        /// Height of the waist above the hem where it is nearest.
        waist: Mm,
    },
    /// A line so high that a side between two corners has shrunk to nothing.
    CornersMeet {
        /// Height asked for.
        height: Mm,
        /// Height at which the first side vanishes.
        most: Mm,
    },
    /// A polygon of too few or too many sides.
    Sides {
        /// What was given.
        sides: u32,
        /// Greatest number taken.
        most: u32,
    },
    /// A line at or beyond the middle of the tightest curve, where it would shrink to a point and turn back.
    ReachesMiddle {
        /// Height asked for.
        height: Mm,
        /// Radius of the tightest curve.
        radius: Mm,
    },
}

impl HemError {
    /// What the maker can do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Drawn(fault) => fault.hint(),
            Self::NotPositive { .. } | Self::Negative { .. } => {
                "measure again, and write the finished length with its unit"
            }
            Self::Fraction { .. } => "write 1 for a full circle, 0.5 for a half circle, 2 for two circles joined",
            Self::Panels { .. } => "count the panels that meet the hem",
            Self::TooMuchSweep { .. } => {
                "check the two widths and the length of the side seam; a ruffle is measured as its own hem"
            }
            Self::TapeAgainstDraft { .. } => {
                "measure waist, front, side, back and hem again; one of them is not what the others say"
            }
            Self::InsideWaist { .. } => {
                "check the lengths at front, side and back: they differ too much for one smooth hem"
            }
            Self::BendsInward { .. } => {
                "check the lengths and their units; a hem level in front and swept behind is [hem.train], any other shape can be drawn: [hem.drawn]"
            }
            Self::GodetWide { .. } => {
                "give the width along the hem and the length of the godet's seam; they may be swapped"
            }
            Self::GodetsMeet { .. } => "name each place once; a wider godet takes the place of two",
            Self::Godets { .. } => "look for a slip of the keyboard",
            Self::NoPanelSeams { .. } => "give the places of the godets: CF, CB, side left, or a distance from CF",
            Self::ReachesGodet { .. } => {
                "bring the motif line down, or set that band out in a job of its own without the godets: above them the line is as if they were not there"
            }
            Self::MarkOffHem { .. } => "give the place as a distance along the hem, within its length",
            Self::Underlap { .. } => "give the part that is hidden when the opening is closed",
            Self::HungParts { .. } => "give four lengths, one for each quarter",
            Self::HungFar { .. } => {
                "measure that part again; if it is right, the garment is not what the measurements say, and they must change"
            }
            Self::BelowHem { .. } => "measure the height of the motifs' middle upward from the finished hem",
            Self::Sides { .. } => "for a round cloth give an ellipse with equal halves, or a full circle with no waist",
            Self::ReachesWaist { .. } => "bring the motif line down, nearer the hem",
            Self::ReachesMiddle { .. } | Self::CornersMeet { .. } => {
                "bring the motif line down, nearer the hem; draw a drawn edge smoother if it has small bends or many short pieces"
            }
        }
    }
}

impl fmt::Display for HemError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Drawn(fault) => fault.fmt(f),
            Self::NotPositive { what, value } => write!(f, "the {what} is {value}; it must be more than nothing"),
            Self::Negative { what, value } => write!(f, "the {what} is {value}; it cannot be less than nothing"),
            Self::Fraction { fraction, most } => {
                write!(f, "a hem of {fraction} circles cannot be shaped; more than 0 and at most {most} can")
            }
            Self::Panels { panels, most } => write!(f, "{panels} panels cannot be set out; 1 to {most} can"),
            Self::TooMuchSweep { circles, most } => {
                write!(f, "the measurements make a hem of {circles:.1} full circles; at most {most} can be shaped")
            }
            Self::TapeAgainstDraft { tape, draft } => {
                let (by, percent) = ((*tape - *draft).abs(), ((*tape / *draft) - 1.0).abs() * 100.0);
                write!(
                    f,
                    "the hem is {tape} by tape but {draft} by the lengths at front, side and back: {by} apart ({percent:.1} %)"
                )
            }
            Self::InsideWaist { by } => write!(f, "the hem through these lengths would run {by} inside the waist"),
            Self::BendsInward { front, side, back, near } => {
                write!(
                    f,
                    "the smooth hem through {front} in front, {side} at the side and {back} behind would bend inward near {near}"
                )
            }
            Self::GodetWide { width, height, .. } => {
                write!(f, "a godet {width} wide with seams of {height} would be more than a full circle")
            }
            Self::GodetsMeet { s, .. } => write!(f, "two godets are let in at the same place, {s} along the hem"),
            Self::Godets { found, most } => write!(f, "{found} godets are more than the {most} that can be let in"),
            Self::NoPanelSeams { .. } => {
                f.write_str("this hem has no seams between panels that godets could be let into")
            }
            Self::ReachesGodet { height, top } => {
                write!(f, "a line {height} above the hem passes over the godets, whose points are {top} above it")
            }
            Self::MarkOffHem { name, farthest, .. } => {
                write!(f, "the {name} does not lie on the hem, which reaches {farthest} from its middle")
            }
            Self::Underlap { underlap, hem } => {
                write!(f, "an underlap of {underlap} is not shorter than the visible hem of {hem}")
            }
            Self::HungParts { parts, most } => write!(f, "{parts} parts after hanging are more than the {most} taken"),
            Self::HungFar { part, measured, drafted } => write!(
                f,
                "part {part} of the hem is {measured} after hanging and {drafted} by the draft: {} apart",
                (*measured - *drafted).abs()
            ),
            Self::BelowHem { height } => write!(f, "the motif line lies {} below the hem", height.abs()),
            Self::ReachesWaist { height, waist } => {
                write!(f, "a line {height} above the hem reaches the waist, which is {waist} above it")
            }
            Self::CornersMeet { height, most } => {
                write!(f, "a line {height} above the edge leaves nothing of one side; up to {most} it does")
            }
            Self::Sides { sides, most } => write!(f, "an edge of {sides} sides cannot be shaped; 3 to {most} can"),
            Self::ReachesMiddle { height, radius } => write!(
                f,
                "a line {height} above the hem reaches the middle of its tightest curve, which is {radius} above it"
            ),
        }
    }
}

impl std::error::Error for HemError {}

impl From<DrawnError> for HemError {
    fn from(fault: DrawnError) -> Self {
        Self::Drawn(fault)
    }
}
