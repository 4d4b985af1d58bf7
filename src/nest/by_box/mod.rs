//! Layouts by bounding boxes: in rows, free or packed as closely as they go, on one stock or on the cheapest set of them.

mod block;
mod blocks;
pub(in crate::nest) mod boxes;
mod corners;
pub(in crate::nest) mod empty;
mod free;
pub(in crate::nest) mod load;
mod parted;
mod rows;
pub(in crate::nest) mod sets;
pub(in crate::nest) mod simple;
