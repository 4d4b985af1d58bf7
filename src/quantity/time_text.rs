//! Times as people write them: `15 s`, `15 sec`, `1.5 min`.

use super::Seconds;

/// Longest time taken from outside, in seconds (a day): longer is a slip of unit.
const LONGEST: f64 = 86_400.0;

/// Why a text is no time. The `Display` text says what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TimeTextError {
    text: String,
}

impl std::fmt::Display for TimeTextError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "\"{}\" is not a time up to a day: write for instance \"15 s\" or \"1.5 min\"", self.text)
    }
}

impl std::error::Error for TimeTextError {}

/// Reads a time with its unit, seconds, minutes or hours; a decimal comma counts as a point.
///
/// # Errors
/// [`TimeTextError`] for a missing or unknown unit, no number, or a value out of range.
pub fn parse(text: &str) -> Result<Seconds, TimeTextError> {
    let fail = || TimeTextError { text: text.chars().take(40).collect() };
    let trimmed = text.trim();
    let unit_at = trimmed.find(char::is_alphabetic).ok_or_else(fail)?;
    let (number, unit) = (trimmed[..unit_at].trim().replace(',', "."), trimmed[unit_at..].trim());
    if number.is_empty() || !number.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return Err(fail());
    }
    let factor = match unit {
        "s" | "sec" | "second" | "seconds" => 1.0,
        "min" | "minute" | "minutes" => 60.0,
        "h" | "hour" | "hours" => 3600.0,
        _ => return Err(fail()),
    };
    let seconds = number.parse::<f64>().map_err(|_| fail())? * factor;
    if (0.0..=LONGEST).contains(&seconds) { Ok(Seconds::new(seconds)) } else { Err(fail()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_people_write_them() {
        for (text, seconds) in [("15 s", 15.0), ("15sec", 15.0), ("1.5 min", 90.0), ("1,5 min", 90.0), ("2 h", 7200.0)]
        {
            assert!((parse(text).unwrap().get() - seconds).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn what_is_no_time_is_refused() {
        for text in ["15", "", "s", "-5 s", "1e3 s", "25 h", "5 days", "1.2.3 s", "soon"] {
            assert!(parse(text).is_err(), "{text} was read");
        }
    }
}
