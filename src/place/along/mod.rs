//! Motifs along one line: how many fit, which comes where, and how evenly they are spread.

pub(in crate::place) mod bend;
pub(in crate::place) mod bounds;
pub(in crate::place) mod course;
pub(in crate::place) mod even;
mod fill;
pub(in crate::place) mod mitre;
pub(in crate::place) mod row;
pub(in crate::place) mod sequence;
mod share;
pub(in crate::place) mod stretch;
pub(in crate::place) mod stretches;
