//! Turn of a line, in radians.

use std::ops::{Add, Neg};

/// An angle in radians, finite; not reduced to one turn, since a hem may turn by more.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Radians(f64);

impl Radians {
    /// No turn.
    pub const ZERO: Self = Self(0.0);

    /// An angle known to be finite.
    ///
    /// # Panics
    /// In debug builds, on NaN or infinity.
    #[must_use]
    pub const fn new(radians: f64) -> Self {
        debug_assert!(radians.is_finite(), "an angle must be finite");
        Self(radians)
    }

    /// The bare number of radians.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The same angle in degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0.to_degrees()
    }
}

impl Add for Radians {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Neg for Radians {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
