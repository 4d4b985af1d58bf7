//! Values of the job file with their places: read at once where they stand, and kept even when they cannot be read, so that
//! every fault of a file is told and not only the first.

mod list;
mod meaning;
mod section;
mod value;

pub(crate) use list::OneOrMore;
pub(crate) use meaning::{Degrees, FileName, LONGEST_NAME, MOST_CIRCLES, MOST_TIMES, PARTS, Part, Size, TIMES, Times};
pub(crate) use section::{Named, Section};
pub(crate) use value::{Given, Meaning, Scalar};
