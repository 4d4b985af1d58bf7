//! Lengths as people write them: `6 in`, `15cm`, `1 1/2 in`, `3,5 cm`.

use super::Mm;

/// Longest length taken from outside, in millimetres (1 km): keeps arithmetic far from overflow and catches slips of unit.
pub const LONGEST: f64 = 1_000_000.0;

/// Why a text is no length. The `Display` text says what to write instead.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum LengthTextError {
    /// A number without a unit.
    NoUnit {
        /// The number as written.
        number: String,
    },
    /// A unit this program does not know.
    UnknownUnit {
        /// The unit as written.
        unit: String,
    },
    /// No number could be read.
    NotANumber {
        /// The text as written.
        text: String,
    },
    /// A comma that may be a decimal comma or a thousands mark, as in `1,234 mm`.
    AmbiguousComma {
        /// The number as written.
        number: String,
        /// The unit as written; empty where there is none.
        unit: String,
    },
    /// Beyond [`LONGEST`].
    TooLong,
}

impl std::fmt::Display for LengthTextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoUnit { number } => {
                write!(f, "{number} has no unit: write \"{number} mm\", \"{number} cm\" or \"{number} in\"")
            }
            Self::UnknownUnit { unit } => write!(f, "unknown unit \"{unit}\": write mm, cm, m or in"),
            Self::NotANumber { text } => {
                write!(f, "\"{text}\" is not a length: write for instance \"60 mm\" or \"1 1/2 in\"")
            }
            Self::AmbiguousComma { number, unit } => {
                let (whole, part) = number.split_once(',').unwrap_or((number, ""));
                let unit = if unit.is_empty() { "mm" } else { unit };
                write!(
                    f,
                    "\"{number}\" can be read two ways: write \"{whole}.{part} {unit}\" or \"{whole}{part} {unit}\""
                )
            }
            Self::TooLong => write!(f, "longer than 1 km: is the unit right?"),
        }
    }
}

impl std::error::Error for LengthTextError {}

/// Marks that stand for inches, as they are typed and as writing programs change them.
pub(super) const INCH_MARKS: [char; 3] = ['"', '\u{2033}', '\u{201d}'];

/// Fractions that are one letter, which writing programs put in for three.
const FRACTIONS: [(char, &str); 9] = [
    ('\u{bd}', "1/2"),
    ('\u{bc}', "1/4"),
    ('\u{be}', "3/4"),
    ('\u{2153}', "1/3"),
    ('\u{2154}', "2/3"),
    ('\u{215b}', "1/8"),
    ('\u{215c}', "3/8"),
    ('\u{215d}', "5/8"),
    ('\u{215e}', "7/8"),
];

fn is_inch_mark(unit: &str) -> bool {
    let mut letters = unit.chars();
    letters.next().is_some_and(|first| INCH_MARKS.contains(&first)) && letters.next().is_none()
}

/// Where a unit begins in a length, or a size.
pub(super) fn unit_at(text: &str) -> Option<usize> {
    text.find(|c: char| c.is_alphabetic() || INCH_MARKS.contains(&c)).or_else(|| text.find("''"))
}

/// Reads a length with its unit: mm, cm, m, in (or `"`), with fractions and a decimal point or comma.
///
/// # Errors
/// [`LengthTextError`] says which part could not be read.
pub fn parse(text: &str) -> Result<Mm, LengthTextError> {
    let text = text.trim();
    let unit_at = unit_at(text).unwrap_or(text.len());
    let (number, unit) = (text[..unit_at].trim(), text[unit_at..].trim());
    let value = parse_number(number, text).map_err(|fault| match fault {
        LengthTextError::AmbiguousComma { number, .. } => {
            LengthTextError::AmbiguousComma { number, unit: unit.to_owned() }
        }
        other => other,
    })?;
    let factor = match unit.to_ascii_lowercase().as_str() {
        "mm" => 1.0,
        "cm" => 10.0,
        "m" => 1000.0,
        "in" | "inch" | "inches" | "''" => Mm::INCH.get(),
        mark if is_inch_mark(mark) => Mm::INCH.get(),
        "" => return Err(LengthTextError::NoUnit { number: number.to_owned() }),
        _ => return Err(LengthTextError::UnknownUnit { unit: unit.to_owned() }),
    };
    let length = value * factor;
    if length.abs() > LONGEST {
        return Err(LengthTextError::TooLong);
    }
    Mm::checked(length).ok_or(LengthTextError::TooLong)
}

/// A whole number, decimal, fraction or mixed number: `6`, `1.5`, `1,5`, `1/2`, `1 1/2`, `1-1/2`.
fn parse_number(number: &str, whole_text: &str) -> Result<f64, LengthTextError> {
    let fail = || LengthTextError::NotANumber { text: whole_text.chars().take(40).collect() };
    let spelt = FRACTIONS
        .iter()
        .fold(number.to_owned(), |number, (letter, fraction)| number.replace(*letter, &format!(" {fraction}")));
    let number = spelt.trim_start();
    let (sign, number) = match number.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, number),
    };
    if let Some((before, denominator)) = number.split_once('/') {
        let (whole, numerator) = match before.trim().rsplit_once([' ', '-']) {
            Some((whole, numerator)) => (digits(whole.trim()).ok_or_else(fail)?, numerator),
            None => (0.0, before),
        };
        let numerator = digits(numerator.trim()).ok_or_else(fail)?;
        let denominator = digits(denominator.trim()).filter(|d| *d > 0.0).ok_or_else(fail)?;
        return Ok(sign * (whole + numerator / denominator));
    }
    if let Some((whole, part)) = number.split_once(',') {
        if number.contains('.') || part.contains(',') {
            return Err(fail());
        }
        if part.len() == 3 && whole != "0" {
            return Err(LengthTextError::AmbiguousComma { number: number.to_owned(), unit: String::new() });
        }
        return decimal(&format!("{whole}.{part}")).map(|v| sign * v).ok_or_else(fail);
    }
    decimal(number).map(|v| sign * v).ok_or_else(fail)
}

fn digits(text: &str) -> Option<f64> {
    (!text.is_empty() && text.len() <= 9 && text.bytes().all(|b| b.is_ascii_digit())).then(|| text.parse().ok())?
}

fn decimal(text: &str) -> Option<f64> {
    let plain = !text.is_empty() && text.len() <= 24 && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    plain.then(|| text.parse::<f64>().ok())?.filter(|v| v.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_as_people_write_them() {
        for (text, millimetres) in [
            ("60 mm", 60.0),
            ("15cm", 150.0),
            ("1.2 m", 1200.0),
            ("6 in", 152.4),
            ("1 1/2 in", 38.1),
            ("1-1/2 in", 38.1),
            ("1/2\"", 12.7),
            ("1½ in", 38.1),
            ("½\u{201d}", 12.7),
            ("28 1/2''", 723.9),
            ("-2¾\"", -69.85),
            ("3,5 cm", 35.0),
            ("0,125 in", 3.175),
            ("-4 mm", -4.0),
        ] {
            let read = parse(text).unwrap();
            assert!((read.get() - millimetres).abs() < 1e-9, "{text} read as {read}");
        }
    }

    #[test]
    fn what_is_no_length_is_refused_with_what_to_write() {
        assert!(parse("60").unwrap_err().to_string().contains("\"60 mm\""));
        assert!(parse("60 ft").unwrap_err().to_string().contains("mm, cm, m or in"));
        assert_eq!(
            parse("1,234 mm").unwrap_err().to_string(),
            "\"1,234\" can be read two ways: write \"1.234 mm\" or \"1234 mm\""
        );
        for text in [
            "", "mm", "1/0 in", "1 2 3 mm", "1e5 mm", "nan mm", "inf mm", "--3 mm", "1.2.3 mm", "1/2/3 in", "½½ in",
            "1\"\"", "2.5½ in",
        ] {
            assert!(parse(text).is_err(), "{text} was read");
        }
        assert_eq!(parse("2000 m").unwrap_err(), LengthTextError::TooLong);
    }
}
