//! Nesting and buying, from outside the library: figures that can be followed on paper or looked up, oracles that share no
//! code with the search or its check, and random tasks.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod brute;
mod buying;
mod circles;
mod corners;
mod cuttable;
mod degenerate;
mod dissections;
mod first_sheet;
mod holes;
mod interrupted;
mod properties;
mod published;
#[path = "../shapes/mod.rs"]
mod shapes;
mod tasks;
mod threads;
