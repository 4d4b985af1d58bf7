//! Pressing: closures, times and heat risks of whole skirts, from outside the library.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

mod closings;
mod matrix;
mod rules;
mod skirt;
mod worked_cases;
