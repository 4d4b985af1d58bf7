//! What the chalk needs: numbers, checks by folds and dividers, and hems measured again after hanging.

pub(in crate::place) mod as_hung;
pub(in crate::place) mod hung;
pub(in crate::place) mod marking;
pub(in crate::place) mod number;
pub(in crate::place) mod sum;
