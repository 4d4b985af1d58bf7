//! Layouts by bounding boxes: in rows, free or packed as closely as they go, on one stock or on the cheapest set of them.

pub(in crate::nest) mod blocks;
pub(in crate::nest) mod boxes;
pub(in crate::nest) mod corners;
pub(in crate::nest) mod empty;
mod parted;
pub(in crate::nest) mod sets;
pub(in crate::nest) mod simple;
