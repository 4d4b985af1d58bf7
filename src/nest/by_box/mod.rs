//! Layouts by bounding boxes: in rows, free or packed as closely as they go, on one stock or on the cheapest set of them.

mod block;
mod blocks;
pub(in crate::nest) mod boxes;
mod corners;
mod dead_ends;
mod descent;
pub(in crate::nest) mod empty;
pub(in crate::nest) mod fills;
mod free;
pub(in crate::nest) mod load;
mod parted;
mod rows;
pub(in crate::nest) mod sets;
pub(in crate::nest) mod side_sums;
pub(in crate::nest) mod simple;
mod skyline;
