//! What to open, how to fill it, and what another choice would change.

pub(in crate::nest) mod alone;
pub(in crate::nest) mod alternatives;
mod best;
pub(in crate::nest) mod beyond_drawer;
pub(in crate::nest) mod bound;
mod budget;
pub(in crate::nest) mod buy;
pub(in crate::nest) mod draft;
pub(in crate::nest) mod drawer;
mod improve;
pub(in crate::nest) mod inside;
pub(in crate::nest) mod mixes;
pub(in crate::nest) mod repeats;
pub(in crate::nest) mod spare_room;
pub(in crate::nest) mod spares;
pub(in crate::nest) mod tidy;
