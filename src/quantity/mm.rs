//! Length in millimetres.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A length in millimetres, finite, of either sign.
///
/// # Guarantees
/// Built only from finite numbers. Sums and products stay finite for any length a garment can have; a length read from
/// outside is bounded where it is read ([`super::length_text`]).
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Mm(f64);

/// Shorthand for [`Mm::new`], for figures written in code and tests.
#[must_use]
pub const fn mm(value: f64) -> Mm {
    Mm::new(value)
}

impl Mm {
    /// No length.
    pub const ZERO: Self = Self(0.0);
    /// One international inch, 25.4 mm exactly (international yard and pound agreement, 1959).
    pub const INCH: Self = Self(25.4);

    /// A length known to be finite.
    ///
    /// # Panics
    /// In debug builds, on NaN or infinity; values from outside go through [`Mm::checked`].
    #[must_use]
    pub const fn new(value: f64) -> Self {
        debug_assert!(value.is_finite(), "a length must be finite");
        Self(value)
    }

    /// A length from outside: `None` for NaN or infinity.
    #[must_use]
    pub fn checked(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The bare number of millimetres.
    #[must_use]
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The same length as inches.
    #[must_use]
    pub const fn inches(self) -> f64 {
        self.0 / Self::INCH.0
    }

    /// Rounded to the micrometre, the one rounding used when a figure is written; never minus zero.
    #[must_use]
    pub fn rounded(self) -> f64 {
        (self.0 * 1000.0).round() / 1000.0 + 0.0
    }

    /// Length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// The smaller of two lengths.
    #[must_use]
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// The larger of two lengths.
    #[must_use]
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// Order for sorting; total because lengths are never NaN.
    #[must_use]
    pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

/// One decimal and the unit, as people read it: `154.9 mm`. A width or precision in the format string is kept.
impl fmt::Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let places = f.precision().unwrap_or(1);
        let scale = 10f64.powi(i32::try_from(places).unwrap_or(6));
        // Adding zero turns -0.0 into 0.0, so that a gap is never printed as "-0.0 mm".
        let shown = (self.0 * scale).round() / scale + 0.0;
        write!(f, "{shown:.places$} mm")
    }
}

impl Add for Mm {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Mm {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Mm {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Mm {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Mm {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Mm {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self(self.0 * factor)
    }
}

impl Mul<Mm> for f64 {
    type Output = Mm;
    fn mul(self, length: Mm) -> Mm {
        Mm(self * length.0)
    }
}

impl Div<f64> for Mm {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        Self(self.0 / divisor)
    }
}

/// How many times one length goes into another.
impl Div for Mm {
    type Output = f64;
    fn div(self, other: Self) -> f64 {
        self.0 / other.0
    }
}

impl Sum for Mm {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_reads_as_people_write_it() {
        assert_eq!(mm(154.8997).to_string(), "154.9 mm");
        assert_eq!(format!("{:.2}", mm(154.8997)), "154.90 mm");
        assert_eq!(mm(-0.01).to_string(), "0.0 mm");
    }

    #[test]
    fn writing_rounds_once_to_the_micrometre_and_has_no_minus_zero() {
        assert_eq!(mm(1.23456).rounded().to_string(), "1.235");
        assert_eq!(mm(-0.000_01).rounded().to_string(), "0");
    }

    #[test]
    fn infinity_and_nan_are_no_length() {
        assert_eq!(Mm::checked(f64::NAN), None);
        assert_eq!(Mm::checked(f64::INFINITY), None);
    }
}
