//! Where the plate goes: every motif under its trusted part, with as few places as can be.

pub(in crate::press) mod bound;
pub(in crate::press) mod cover;
pub(in crate::press) mod ground;
pub(in crate::press) mod groups;
pub(in crate::press) mod laying;
pub(in crate::press) mod plate;
pub(in crate::press) mod positions;
pub(in crate::press) mod spots;
pub(in crate::press) mod tiles;
