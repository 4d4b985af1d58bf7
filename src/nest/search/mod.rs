//! Searches that pull overlapping pieces apart, shorten what is used, or shake like pieces down.

pub(in crate::nest) mod field;
pub(in crate::nest) mod jostle;
pub(in crate::nest) mod part;
pub(in crate::nest) mod random;
pub(in crate::nest) mod sheets;
pub(in crate::nest) mod shorten;
pub(in crate::nest) mod watch;
