//! Pieces made ready for laying: boxes at every turn, outlines grown by half the gap, and where two of them overlap.

pub(in crate::nest) mod boundary;
pub(in crate::nest) mod convolve;
pub(in crate::nest) mod grow;
pub(in crate::nest) mod kind;
pub(in crate::nest) mod nofit;
pub(in crate::nest) mod shapes;
