//! Small changes to the drawing that the maker asks for: needle points rounded, necks thickened, islands dropped or enlarged.
//!
//! In: outlines as seen and what is asked. Out: the outlines as changed, and every change with what was measured before and
//! after. Nothing here runs unasked.

mod island;
mod neck;
mod needle;

use crate::geometry::{Outline, Point};
use crate::quantity::Mm;

use super::preparing::{Islands, Preparing};

/// One change to a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What was done.
    pub what: Changed,
    /// Where, in motif millimetres.
    pub at: Point,
    /// The measure before.
    pub before: Mm,
    /// The measure after.
    pub after: Mm,
}

/// What was done to a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Changed {
    /// A needle point was rounded; before and after are its radius.
    PointRounded {
        /// Angle of the point, in degrees.
        degrees: f64,
        /// How much shorter it is.
        shorter: Mm,
    },
    /// A neck was thickened; before and after are its width.
    NeckThickened,
    /// An island was left out; before is its larger side.
    IslandDropped,
    /// An island was enlarged; before and after are its larger side.
    IslandEnlarged,
}

/// A layer with its changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Mended {
    /// The outlines.
    pub outlines: Vec<Outline>,
    /// What was changed.
    pub changes: Vec<Change>,
}

/// Makes the changes asked for, islands first, since a dropped one needs no rounding.
#[must_use]
pub fn mended(outlines: &[Outline], asked: &Preparing) -> Mended {
    let mut done = Mended { outlines: outlines.to_vec(), changes: vec![] };
    done = match asked.islands {
        Islands::Keep => done,
        Islands::Drop(size) => island::dropped(done, size.get()),
        Islands::Enlarge(size) => island::enlarged(done, size.get()),
    };
    if let Some(width) = asked.thicken_necks {
        done = neck::thickened(done, width.get());
    }
    if let Some(radius) = asked.round_points {
        done = needle::rounded(done, radius.get());
    }
    done
}
