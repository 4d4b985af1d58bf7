//! Sets out repeated motifs along a curved hem, makes the pieces, nests them onto sheets, and plans the pressing.
//!
//! Seven stages, each a plain function from values to values; nothing here touches disk, clock, terminal or environment:
//!
//! 1. [`art`] reads SVG text: a motif in layers, and what is wrong with the drawing
//! 2. [`hem`] shapes the hem from measurements
//! 3. [`place`] sets the motifs out along a line parallel to it
//! 4. [`film`] makes the pieces: reversed, in both hands, with carrier patches
//! 5. [`nest`] lays them on sheets and says what to buy
//! 6. [`press`] plans the pressing and checks every layer for heat
//! 7. [`mod@write`] turns the whole plan into files, as bytes
//!
//! Beside them [`trims`] works out braid, facing, lace and pleats for the hem, and [`budget`] the time and weight of it all.
//!
//! [`job`] checks what the maker wrote; [`plan`] runs the stages in order. [`quantity`], [`geometry`] and [`finding`] are
//! the values they share; [`data`] holds the facts of the craft with their sources.

pub mod art;
pub mod budget;
pub mod data;
pub mod film;
pub mod finding;
pub mod geometry;
pub mod hem;
pub mod job;
pub mod nest;
mod parallel;
pub mod place;
pub mod plan;
pub mod press;
pub mod quantity;
pub mod trims;
pub mod write;
