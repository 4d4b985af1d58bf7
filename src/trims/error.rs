//! Why a trim cannot be worked out.

use std::fmt;

use crate::quantity::Mm;

/// Why a trim cannot be worked out.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TrimError {
    /// It reaches higher than the hem's curve leaves room for.
    TooDeep {
        /// The trim.
        trim: String,
        /// Height of its upper edge.
        upper: Mm,
        /// Height at which no line is left.
        highest: Mm,
    },
    /// A measurement that must be above zero, or a fullness below 1.
    TooSmall {
        /// The trim.
        trim: String,
        /// Which measurement: `depth`.
        what: &'static str,
        /// As given, with its unit if it has one.
        found: String,
        /// The least: `0`, `1`.
        least: &'static str,
    },
    /// Joins take the whole width of the cloth.
    ClothTooNarrow {
        /// The trim.
        trim: String,
        /// Usable width.
        usable: Mm,
        /// What joins, or one piece, take of it.
        needed: Mm,
    },
    /// More pleats or strips than a hem can have: a slip of unit.
    TooMany {
        /// The trim.
        trim: String,
        /// `pleats`, `strips`, `rows`.
        what: &'static str,
        /// The most.
        most: u32,
    },
}

impl fmt::Display for TrimError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooDeep { trim, upper, highest } => {
                write!(f, "{trim} reaches {upper} up, but the lines of this hem end at {highest}")
            }
            Self::TooSmall { trim, what, found, least } => {
                write!(f, "{what} of {trim} is {found}, it must be more than {least}")
            }
            Self::ClothTooNarrow { trim, usable, needed } => {
                write!(f, "{trim}: the cloth is {usable} wide between selvedges and {needed} of it are needed")
            }
            Self::TooMany { trim, what, most } => write!(f, "{trim} needs more than {most} {what}"),
        }
    }
}

impl std::error::Error for TrimError {}

impl TrimError {
    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::TooDeep { highest, .. } => format!("keep its upper edge well below {highest}"),
            Self::TooSmall { what, least, .. } => format!("give a {what} of more than {least}"),
            Self::ClothTooNarrow { .. } => {
                "give the width of the cloth between selvedges, and the allowance at one join".into()
            }
            Self::TooMany { .. } => "is a unit wrong, centimetres for millimetres?".into(),
        }
    }
}
