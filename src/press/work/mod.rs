//! What is done when: order of work, closures, checklist and pin-away map.

pub(in crate::press) mod checklist;
pub(in crate::press) mod closure;
mod cloth_pieces;
pub(in crate::press) mod map;
pub(in crate::press) mod order;
pub(in crate::press) mod schedule;
