//! What can be wrong with a layout, and how it is said.

use std::fmt;

use crate::quantity::Mm;

/// What is wrong with a layout.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// A piece reaches into the margin or over the edge.
    OverEdge {
        /// Index of the sheet.
        sheet: usize,
        /// Index of the piece on it.
        piece: usize,
        /// By how much.
        by: Mm,
    },
    /// Two pieces are nearer than the gap, or overlap (distance 0).
    TooClose {
        /// Index of the sheet.
        sheet: usize,
        /// Indices of the pieces on it.
        pieces: (usize, usize),
        /// How far apart they are.
        distance: Mm,
    },
    /// A piece is turned in a way the film does not allow.
    Turned {
        /// Index of the sheet.
        sheet: usize,
        /// Index of the piece on it.
        piece: usize,
        /// Its turn.
        degrees: f64,
    },
    /// More or fewer of an item than asked for.
    Miscounted {
        /// Index of the item.
        item: usize,
        /// Laid and listed as unplaced.
        found: u64,
        /// Asked for.
        asked: u64,
    },
    /// A test piece comes after other pieces, which she would cut before she knows whether the setting holds.
    TestLate {
        /// Index of the item.
        item: usize,
        /// Index of the sheet that holds others while the test is still to come.
        sheet: usize,
    },
    /// More sheets of a stock than there are.
    MoreThanInStock {
        /// Index of the stock.
        stock: usize,
        /// Sheets used.
        used: u64,
    },
    /// An item or stock of the layout that the task does not have.
    Unknown {
        /// Index of the sheet.
        sheet: usize,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OverEdge { sheet, piece, by } => {
                write!(f, "piece {} of sheet {} is {by:.3} over the margin", piece + 1, sheet + 1)
            }
            Self::TooClose { sheet, pieces: (a, b), distance } => {
                write!(f, "pieces {} and {} of sheet {} are {distance:.3} apart", a + 1, b + 1, sheet + 1)
            }
            Self::Turned { sheet, piece, degrees } => {
                write!(f, "piece {} of sheet {} is turned by {degrees:.3} degrees", piece + 1, sheet + 1)
            }
            Self::Miscounted { item, found, asked } => {
                write!(f, "{found} pieces of item {} are accounted for, not {asked}", item + 1)
            }
            Self::TestLate { item, sheet } => {
                write!(f, "sheet {} holds other pieces before the test piece of item {}", sheet + 1, item + 1)
            }
            Self::MoreThanInStock { stock, used } => write!(f, "{used} sheets of stock {} are used", stock + 1),
            Self::Unknown { sheet } => write!(f, "sheet {} names an item or stock that is not there", sheet + 1),
        }
    }
}
