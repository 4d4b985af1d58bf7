//! Temperatures as people write them: `150 C`, `300 F`, `150°C`.

use super::Celsius;

/// Why a text is no temperature. The `Display` text says what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeatTextError {
    text: String,
}

impl std::fmt::Display for HeatTextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "\"{}\" is not a temperature between 0 and 400 C: write for instance \"150 C\" or \"300 F\"",
            self.text
        )
    }
}

impl std::error::Error for HeatTextError {}

/// Reads a temperature with its unit, C or F, with or without a degree sign; 0 to 400 C, beyond any hand press.
///
/// # Errors
/// [`HeatTextError`] for a missing or unknown unit, no number, or a value out of range.
pub fn parse(text: &str) -> Result<Celsius, HeatTextError> {
    let fail = || HeatTextError { text: text.chars().take(40).collect() };
    let trimmed = text.trim();
    let (number, fahrenheit) = match trimmed.chars().last() {
        Some('C' | 'c') => (&trimmed[..trimmed.len() - 1], false),
        Some('F' | 'f') => (&trimmed[..trimmed.len() - 1], true),
        _ => return Err(fail()),
    };
    let number = number.trim_end_matches("deg").trim().trim_end_matches('°').trim().replace(',', ".");
    if number.is_empty() || !number.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return Err(fail());
    }
    let value: f64 = number.parse().map_err(|_| fail())?;
    if !value.is_finite() {
        return Err(fail());
    }
    let read = if fahrenheit { Celsius::from_fahrenheit(value) } else { Celsius::new(value) };
    if (0.0..=400.0).contains(&read.get()) { Ok(read) } else { Err(fail()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_scales_are_read_and_agree() {
        assert_eq!(parse("150 C").unwrap(), Celsius::new(150.0));
        assert_eq!(parse("150°C").unwrap(), Celsius::new(150.0));
        assert_eq!(parse("149,5 C").unwrap(), Celsius::new(149.5));
        assert!((parse("302 F").unwrap().get() - 150.0).abs() < 1e-9);
    }

    #[test]
    fn what_is_no_temperature_is_refused() {
        for text in ["150", "", "C", "hot", "-5 C", "900 C", "1e2 C", "°C", "150 K"] {
            assert!(parse(text).is_err(), "{text} was read");
        }
    }
}
