//! Which count, alone or together with others, and what else could be done.

pub(in crate::place) mod card;
pub(in crate::place) mod choose;
mod equal_clear;
pub(in crate::place) mod remedy;
pub(in crate::place) mod settle;
pub(in crate::place) mod sizes;
