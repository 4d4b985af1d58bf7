//! What comes too near: rows, seams, openings, edges, and neighbours by their true outlines.

pub(in crate::place) mod across;
pub(in crate::place) mod beside;
pub(in crate::place) mod clear;
pub(in crate::place) mod seams;
pub(in crate::place) mod upright;
