//! Which count, alone or together with others, and what else could be done.

mod apart;
mod asked;
pub(in crate::place) mod card;
pub(in crate::place) mod choose;
pub(in crate::place) mod chosen;
mod equal_clear;
mod even_rows;
pub(in crate::place) mod remedy;
pub(in crate::place) mod settle;
pub(in crate::place) mod sizes;
