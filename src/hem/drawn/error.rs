//! Why no hem can be made of drawn pattern pieces.

use std::fmt;

use crate::quantity::Mm;

/// Why no hem can be made of drawn pattern pieces.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum DrawnError {
    /// No panel is named.
    NoPanels,
    /// The drawing has no line of this id.
    NoLine {
        /// As asked for.
        id: String,
    },
    /// A line has more pieces than any drawn edge.
    TooFine {
        /// Its id.
        id: String,
        /// Most pieces taken.
        most: usize,
    },
    /// The panels' edges have more pieces together than any drawn hem.
    TooManyPieces {
        /// Most pieces taken.
        most: usize,
    },
    /// A line is longer than any hem.
    TooLong {
        /// Its id.
        id: String,
        /// Its length.
        length: Mm,
        /// The longest taken.
        most: Mm,
    },
    /// A line that must be one stretch is broken.
    Broken {
        /// Its id.
        id: String,
        /// Width of the first opening in it.
        by: Mm,
    },
    /// A line that must have two ends closes.
    Closes {
        /// Its id.
        id: String,
    },
    /// An edge drawn whole does not close.
    Open {
        /// Its id.
        id: String,
        /// How far apart its ends are.
        by: Mm,
    },
    /// A line comes to a point and turns back on itself.
    TurnsBack {
        /// Its id.
        id: String,
    },
    /// A line crosses itself, or runs back on itself.
    Crosses {
        /// Its id.
        id: String,
        /// Where, from the corner of the page.
        at: (Mm, Mm),
    },
    /// A seam does not start at the end of the hem edge.
    SeamApart {
        /// The panel.
        panel: String,
        /// Id of the seam.
        id: String,
        /// How far from it.
        by: Mm,
    },
    /// Seams run down from the hem and not up.
    UpsideDown {
        /// The panel.
        panel: String,
    },
    /// Allowances leave nothing of a hem edge.
    NothingLeft {
        /// Panel, or id of the edge.
        of: String,
        /// Allowance of the hem.
        hem: Mm,
        /// Allowance of the seams.
        seam: Mm,
    },
    /// The line that checks the drawing's size is not as long as it should be.
    WrongSize {
        /// Its id.
        id: String,
        /// Length in the drawing.
        found: Mm,
        /// Length it should have.
        wanted: Mm,
    },
}

impl DrawnError {
    /// What the maker can do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoPanels => "list the panels in the order in which they are sewn, from centre front to her left",
            Self::NoLine { .. } => {
                "in your drawing tool give the line this id, or write the id it has; ids are told apart by capitals"
            }
            Self::TooFine { .. } | Self::TooManyPieces { .. } => {
                "draw each edge as a few smooth curves; a tracing has too many points"
            }
            Self::TooLong { .. } => "check the size of the drawing's page: pattern pieces are drawn full size",
            Self::Broken { .. } => "join the parts of the line into one, from seam to seam",
            Self::Closes { .. } => {
                "draw the hem and each seam as lines of their own; a whole panel as one outline does not say which is which"
            }
            Self::Open { .. } => "join the two ends, or give the panels and their hem edges one by one",
            Self::TurnsBack { .. } => "look at its points in your drawing tool; a handle lies on the wrong side",
            Self::Crosses { .. } => "draw the line so that it runs from one end to the other without a loop",
            Self::SeamApart { .. } => "draw the seam so that it ends where the hem edge ends",
            Self::UpsideDown { .. } => {
                "name the seams as seen with the hem below and the right side of the cloth toward you: left and right may be swapped"
            }
            Self::NothingLeft { .. } => "check the allowances; leave them out where the finished lines are drawn",
            Self::WrongSize { .. } => {
                "the drawing was made in another unit or scaled when saved: save it full size, with its page in millimetres"
            }
        }
    }
}

impl fmt::Display for DrawnError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPanels => f.write_str("the drawn hem has no panels"),
            Self::NoLine { id } => write!(f, "the drawing of the pieces has no line with the id \"{id}\""),
            Self::TooFine { id, most } => write!(f, "the line \"{id}\" has more than {most} pieces"),
            Self::TooManyPieces { most } => write!(f, "the edges of the panels have more than {most} pieces together"),
            Self::TooLong { id, length, most } if length.get() > 100.0 * most.get() => {
                write!(f, "the line \"{id}\" is far longer than the {most} that is taken")
            }
            Self::TooLong { id, length, most } => {
                write!(f, "the line \"{id}\" is {length} long, more than the {most} that is taken")
            }
            Self::Broken { id, by } => write!(f, "the line \"{id}\" is in parts, {by} from each other"),
            Self::Closes { id } => write!(f, "the line \"{id}\" closes; an edge from seam to seam has two ends"),
            Self::Open { id, by } => write!(f, "the edge \"{id}\" does not close: its ends are {by} apart"),
            Self::TurnsBack { id } => write!(f, "the line \"{id}\" comes to a point and turns back on itself"),
            Self::Crosses { id, at: (x, y) } => write!(
                f,
                "the line \"{id}\" crosses itself or runs back on itself, {x} from the left and {y} from the top of the page"
            ),
            Self::SeamApart { panel, id, by } => {
                write!(f, "the seam \"{id}\" of {panel} starts {by} from the end of its hem edge")
            }
            Self::UpsideDown { panel } => write!(f, "the seams of {panel} run down from its hem edge"),
            Self::NothingLeft { of, hem, seam } => {
                write!(
                    f,
                    "allowances of {hem} at the hem and {seam} at the seams leave nothing of the hem edge of {of}"
                )
            }
            Self::WrongSize { id, found, wanted } => {
                write!(f, "the line \"{id}\" is {found} long in the drawing and should be {wanted}")
            }
        }
    }
}

impl std::error::Error for DrawnError {}
