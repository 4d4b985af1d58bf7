//! Values with their unit in the type: lengths, temperatures, times, turns.
//!
//! Inside the library everything is millimetres, degrees Celsius, seconds and radians. Inches, Fahrenheit and drawing
//! pixels are turned into these where they enter ([`length_text`], [`heat_text`], [`size_text`], [`time_text`], `art::svg`) and nowhere else.
//! Figures are rounded once, when they are written ([`Mm::rounded`]), so that floating-point noise dies there.

mod celsius;
pub mod heat_text;
pub mod length_text;
mod mm;
mod money;
mod radians;
mod seconds;
pub mod size_text;
pub mod time_text;

pub use celsius::Celsius;
pub use mm::{Mm, mm};
pub use money::hundredths;
pub use radians::Radians;
pub use seconds::Seconds;
