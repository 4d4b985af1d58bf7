//! Why nothing can be laid, and the check that finds out before any work is done.

use std::fmt;

use crate::nest::{MOST_PIECES, Stock, Task, Turning};
use crate::quantity::Mm;

/// Why nothing can be laid.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum NestError {
    /// No size of sheet or roll is given.
    NoStock,
    /// The margins take up the whole sheet.
    MarginLeavesNothing {
        /// Name of the stock.
        stock: String,
        /// Its shorter side.
        side: Mm,
        /// The margin asked for.
        margin: Mm,
    },
    /// A sheet without width or height.
    EmptySheet {
        /// Name of the stock.
        stock: String,
    },
    /// A negative margin or gap.
    Negative {
        /// `margin` or `gap`.
        what: &'static str,
        /// As asked.
        value: Mm,
    },
    /// A step that does not divide a full turn.
    StepNoDivisor {
        /// The step asked for.
        degrees: u16,
    },
    /// More pieces than are laid in one task.
    TooManyPieces {
        /// How many were asked for.
        asked: u64,
    },
    /// More pieces asked onto the first sheet than there are.
    MoreFirstThanAll {
        /// Name of the item.
        item: String,
        /// Asked onto the first sheet.
        first: u32,
        /// In all.
        quantity: u32,
    },
    /// A price that is negative or not a number.
    BadPrice {
        /// Name of the stock.
        stock: String,
    },
}

impl fmt::Display for NestError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoStock => write!(f, "no size of sheet or roll to lay pieces on"),
            Self::MarginLeavesNothing { stock, side, margin } => {
                write!(f, "a margin of {margin} on both sides leaves nothing of the {stock}, which is {side} wide")
            }
            Self::EmptySheet { stock } => write!(f, "{stock} has no width or no height"),
            Self::Negative { what, value } => write!(f, "the {what} is {value}, less than nothing"),
            Self::StepNoDivisor { degrees } => write!(f, "a turning step of {degrees} degrees does not divide 360"),
            Self::TooManyPieces { asked } => write!(f, "{asked} pieces of one film are more than {MOST_PIECES}"),
            Self::MoreFirstThanAll { item, first, quantity } => {
                write!(f, "{first} of {item} belong on the first sheet but there are only {quantity}")
            }
            Self::BadPrice { stock } => write!(f, "the price of {stock} is no amount of money"),
        }
    }
}

impl std::error::Error for NestError {}

impl NestError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NoStock => "name at least one sheet size or roll width of this film",
            Self::MarginLeavesNothing { .. } => "make the margin smaller, or take a larger sheet or off-cut",
            Self::EmptySheet { .. } => "write the sheet as width x height",
            Self::Negative { .. } => "write 0 mm for none",
            Self::StepNoDivisor { .. } => "use 15, 30, 45, 60, 90 or 180 degrees",
            Self::TooManyPieces { .. } => "split the job into several",
            Self::MoreFirstThanAll { .. } => "count the test pieces among all pieces",
            Self::BadPrice { .. } => "write a price of 0 or more, or leave it out",
        }
    }
}

/// The first fault of a task.
pub(super) fn check(task: &Task) -> Result<(), NestError> {
    faults(task).into_iter().next().map_or(Ok(()), Err)
}

/// Whether margins leave something of a sheet or roll to lay pieces on.
///
/// # Errors
/// [`NestError::EmptySheet`] or [`NestError::MarginLeavesNothing`].
pub fn leaves_room(stock: &Stock, margin: Mm) -> Result<(), NestError> {
    let side = stock.height.map_or(stock.width, |height| height.min(stock.width));
    if side <= Mm::ZERO {
        Err(NestError::EmptySheet { stock: stock.name.clone() })
    } else if side <= margin * 2.0 {
        Err(NestError::MarginLeavesNothing { stock: stock.name.clone(), side, margin })
    } else {
        Ok(())
    }
}

/// Every fault of a task that shows before anything is laid.
#[must_use]
pub fn faults(task: &Task) -> Vec<NestError> {
    let mut faults = Vec::new();
    if task.stock.is_empty() {
        faults.push(NestError::NoStock);
    }
    for (what, value) in [("margin", task.margin), ("gap", task.gap)] {
        if value < Mm::ZERO {
            faults.push(NestError::Negative { what, value });
        }
    }
    for stock in &task.stock {
        faults.extend(leaves_room(stock, task.margin).err());
        if stock.price.is_some_and(|price| !(price.is_finite() && price >= 0.0)) {
            faults.push(NestError::BadPrice { stock: stock.name.clone() });
        }
    }
    if let Turning::Steps(degrees) = task.turning
        && (degrees == 0 || 360 % degrees != 0)
    {
        faults.push(NestError::StepNoDivisor { degrees });
    }
    let asked: u64 = task.items.iter().map(|item| u64::from(item.quantity)).sum();
    if asked > u64::from(MOST_PIECES) {
        faults.push(NestError::TooManyPieces { asked });
    }
    for item in task.items.iter().filter(|item| item.on_first_sheet > item.quantity) {
        let (first, quantity) = (item.on_first_sheet, item.quantity);
        faults.push(NestError::MoreFirstThanAll { item: item.name.clone(), first, quantity });
    }
    faults
}
