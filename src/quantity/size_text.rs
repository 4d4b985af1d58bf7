//! Widths and heights as people write them: `300 x 500 mm`, `12x20in`, `30 cm x 20 in`.

use super::Mm;
use super::length_text::{self, LengthTextError};

/// Why a text is no width and height. The `Display` text says what to write instead.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum SizeTextError {
    /// No two lengths with an x between them, or one not above zero.
    NotASize {
        /// The text as written.
        text: String,
    },
    /// Neither has a unit.
    NoUnit {
        /// The first as written.
        width: String,
        /// The second as written.
        height: String,
    },
    /// One of the two is no length.
    NotALength(LengthTextError),
}

impl std::fmt::Display for SizeTextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NotASize { text } => {
                write!(f, "\"{text}\" is not a width and a height: write for instance \"300 x 500 mm\"")
            }
            Self::NoUnit { width, height } => {
                write!(f, "{width} x {height} has no unit: write \"{width} x {height} mm\", or cm or in in place of mm")
            }
            Self::NotALength(fault) => fault.fmt(f),
        }
    }
}

impl std::error::Error for SizeTextError {}

/// Reads a width and a height, both above zero; a unit after the second counts for both.
///
/// # Errors
/// [`SizeTextError`] says which part could not be read.
pub fn parse(text: &str) -> Result<(Mm, Mm), SizeTextError> {
    let fail = || SizeTextError::NotASize { text: text.chars().take(40).collect() };
    let (first, second) = text.split_once(['x', 'X', '×']).ok_or_else(fail)?;
    let height = length_text::parse(second).map_err(|fault| match fault {
        LengthTextError::NoUnit { number } if length_text::unit_at(first).is_none() => {
            SizeTextError::NoUnit { width: first.trim().to_owned(), height: number }
        }
        other => SizeTextError::NotALength(other),
    })?;
    let width = match length_text::parse(first) {
        Err(LengthTextError::NoUnit { .. }) => {
            let unit_at = length_text::unit_at(second).ok_or_else(fail)?;
            length_text::parse(&format!("{first}{}", &second[unit_at..]))
        }
        read => read,
    }
    .map_err(SizeTextError::NotALength)?;
    if width > Mm::ZERO && height > Mm::ZERO { Ok((width, height)) } else { Err(fail()) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    #[test]
    fn a_size_takes_one_unit_for_both_or_one_each() {
        assert_eq!(parse("300 x 500 mm"), Ok((mm(300.0), mm(500.0))));
        assert_eq!(parse("300x500mm"), Ok((mm(300.0), mm(500.0))));
        assert_eq!(parse("10 in × 50 cm"), Ok((mm(254.0), mm(500.0))));
        assert_eq!(parse("12 1/2 x 20 in"), Ok((mm(317.5), mm(508.0))));
    }

    #[test]
    fn what_is_no_size_is_refused() {
        for wrong in ["300", "300 x 500", "0 x 500 mm", "x", "300 mm", "-1 x 5 mm", "a x b"] {
            assert!(parse(wrong).is_err(), "{wrong} was read");
        }
        assert!(parse("300 x 500").unwrap_err().to_string().contains("write \"300 x 500 mm\""));
    }
}
