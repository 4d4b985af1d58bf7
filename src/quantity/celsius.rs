//! Temperature in degrees Celsius.

use std::fmt;

/// A temperature in degrees Celsius, finite.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Celsius(f64);

impl Celsius {
    /// A temperature known to be finite.
    ///
    /// # Panics
    /// In debug builds, on NaN or infinity.
    #[must_use]
    pub const fn new(degrees: f64) -> Self {
        debug_assert!(degrees.is_finite(), "a temperature must be finite");
        Self(degrees)
    }

    /// From degrees Fahrenheit: C = (F - 32) x 5/9.
    #[must_use]
    pub const fn from_fahrenheit(degrees: f64) -> Self {
        Self::new((degrees - 32.0) * 5.0 / 9.0)
    }

    /// The bare number of degrees Celsius.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The same temperature in degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(self) -> f64 {
        self.0 * 9.0 / 5.0 + 32.0
    }

    /// The lower of two temperatures.
    #[must_use]
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The higher of two temperatures.
    #[must_use]
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// Order for sorting; total because temperatures are never NaN.
    #[must_use]
    pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

/// Whole degrees and the unit: `150 C`.
impl fmt::Display for Celsius {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.0} C", self.0 + 0.0)
    }
}
