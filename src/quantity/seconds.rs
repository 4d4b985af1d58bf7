//! Time in seconds.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul};

/// A span of time in seconds, finite and not negative in every use here.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Seconds(f64);

impl Seconds {
    /// No time.
    pub const ZERO: Self = Self(0.0);

    /// A span known to be finite.
    ///
    /// # Panics
    /// In debug builds, on NaN or infinity.
    #[must_use]
    pub const fn new(seconds: f64) -> Self {
        debug_assert!(seconds.is_finite(), "a time must be finite");
        Self(seconds)
    }

    /// The bare number of seconds.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The shorter of the two.
    #[must_use]
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The longer of the two.
    #[must_use]
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// The same time in minutes.
    #[must_use]
    pub const fn minutes(self) -> f64 {
        self.0 / 60.0
    }
}

/// Seconds under two minutes, minutes above: `48 s`, `36.5 min`.
impl fmt::Display for Seconds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 < 120.0 { write!(f, "{:.0} s", self.0) } else { write!(f, "{:.1} min", self.minutes()) }
    }
}

impl Add for Seconds {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Seconds {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Mul<f64> for Seconds {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Sum for Seconds {
    fn sum<I: Iterator<Item = Self>>(spans: I) -> Self {
        spans.fold(Self::ZERO, Add::add)
    }
}
