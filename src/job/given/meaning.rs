//! What values of the file can mean: texts, lengths, temperatures, times, numbers, switches, sizes, parts, angles.

use std::borrow::Cow;

use super::{Meaning, Scalar};
use crate::job::fault::FaultKind;
use crate::quantity::{Celsius, Mm, Seconds, heat_text, length_text, size_text, time_text};

/// Characters that no name on a paper needs and that could garble it: controls but for line ends and tabs, and marks that
/// turn the reading direction.
fn unprintable(character: char) -> bool {
    let turns = matches!(character, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || (character.is_control() && !matches!(character, '\n' | '\r' | '\t'))
}

/// Longest name, in letters: more than a line of any paper holds.
pub(crate) const LONGEST_NAME: usize = 200;

/// Longest path of a file, in letters: what systems take.
const LONGEST_PATH: usize = 4096;

/// A text of at most so many letters that can be printed.
fn printable(scalar: &Scalar, most: usize) -> Result<String, FaultKind> {
    let Scalar::Text(text) = scalar else { return Err(FaultKind::NotAText { found: scalar.to_string() }) };
    if let Some(mark) = text.chars().find(|character| unprintable(*character)) {
        return Err(FaultKind::HiddenMark { mark, letter: text.chars().take_while(|c| *c != mark).count() + 1 });
    }
    let letters = text.trim().chars().count();
    match letters {
        0 => Err(FaultKind::NotAText { found: scalar.to_string() }),
        _ if letters > most => Err(FaultKind::TextTooLong { letters, most }),
        _ => Ok(text.trim().to_owned()),
    }
}

/// A word or name in quotes.
impl Meaning for String {
    const SCHEMA: (&'static str, &'static str) = ("string", "");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        printable(scalar, LONGEST_NAME)
    }
}

/// The name of a file, or the way to it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct FileName(pub(crate) String);

impl Meaning for FileName {
    const SCHEMA: (&'static str, &'static str) = ("string", "poppy.svg");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let name = printable(scalar, LONGEST_PATH)?;
        // What was meant as a folder: a backslash in quotes begins a special mark, \n or \t.
        match name.chars().find(|c| c.is_control()) {
            Some(_) => Err(FaultKind::NotAFileName),
            None => Ok(Self(name)),
        }
    }
}

/// So many for so many: `twice`, `half`, `3/2`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Times {
    pub(crate) own: u32,
    pub(crate) of: u32,
}

/// Most for one, or one for most, that two bands are tied by.
pub(crate) const MOST_TIMES: u32 = 12;

/// Words for so many for so many.
pub(crate) const TIMES: [(&str, (u32, u32)); 7] = [
    ("same", (1, 1)),
    ("once", (1, 1)),
    ("twice", (2, 1)),
    ("double", (2, 1)),
    ("half", (1, 2)),
    ("third", (1, 3)),
    ("quarter", (1, 4)),
];

impl Meaning for Times {
    const SCHEMA: (&'static str, &'static str) = ("any", "twice");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let fail = || FaultKind::NotTimes { found: scalar.to_string() };
        let whole = |text: &str| text.trim().parse::<u32>().ok().filter(|n| (1..=MOST_TIMES).contains(n));
        let (own, of) = match scalar {
            Scalar::Number(number) => (whole(&number.to_string()).ok_or_else(fail)?, 1),
            Scalar::Text(text) => match (word_of(&TIMES, text), text.split_once('/')) {
                (Some(times), _) => times,
                (None, Some((own, of))) => (whole(own).ok_or_else(fail)?, whole(of).ok_or_else(fail)?),
                (None, None) => (whole(text).ok_or_else(fail)?, 1),
            },
            Scalar::Switch(_) => return Err(fail()),
        };
        let common = (1..=own.min(of)).rev().find(|n| own.is_multiple_of(*n) && of.is_multiple_of(*n)).unwrap_or(1);
        Ok(Self { own: own / common, of: of / common })
    }
}

impl Meaning for Mm {
    const SCHEMA: (&'static str, &'static str) = ("string", "1 1/2 in");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        match scalar {
            Scalar::Text(text) => length_text::parse(text).map_err(FaultKind::NotALength),
            Scalar::Number(number) if number.is_finite() => {
                Err(FaultKind::NotALength(length_text::LengthTextError::NoUnit { number: number.to_string() }))
            }
            Scalar::Number(_) | Scalar::Switch(_) => {
                Err(FaultKind::NotALength(length_text::LengthTextError::NotANumber { text: scalar.to_string() }))
            }
        }
    }
}

impl Meaning for Celsius {
    const SCHEMA: (&'static str, &'static str) = ("string", "150 C");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let text = as_text(scalar);
        heat_text::parse(&text).map_err(FaultKind::NotATemperature)
    }
}

impl Meaning for Seconds {
    const SCHEMA: (&'static str, &'static str) = ("string", "15 s");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let text = as_text(scalar);
        time_text::parse(&text).map_err(FaultKind::NotATime)
    }
}

/// A text or the bare number, to be refused by the reader of the unit with the right advice.
fn as_text(scalar: &Scalar) -> Cow<'_, str> {
    match scalar {
        Scalar::Text(text) => Cow::Borrowed(text),
        other => Cow::Owned(other.to_string()),
    }
}

/// A number of things, up to 100 000: no hem holds more motifs, and no search would end with more.
impl Meaning for u32 {
    const SCHEMA: (&'static str, &'static str) = ("integer", "30");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let fail = || FaultKind::NotACount { found: scalar.to_string() };
        match scalar {
            Scalar::Number(number) if (0.0..=100_000.0).contains(number) && number.fract() == 0.0 => {
                format!("{number:.0}").parse().map_err(|_| fail())
            }
            _ => Err(fail()),
        }
    }
}

/// Greatest price, weight or other number without a unit: more is a slip of the keyboard.
const GREATEST: f64 = 1_000_000.0;

/// A number without a unit: a price.
impl Meaning for f64 {
    const SCHEMA: (&'static str, &'static str) = ("number", "6.50");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        match scalar {
            Scalar::Number(number) if number.abs() <= GREATEST => Ok(*number),
            Scalar::Number(number) if number.is_finite() => Err(FaultKind::TooGreat { most: GREATEST }),
            other => Err(FaultKind::NotANumber { found: other.to_string() }),
        }
    }
}

impl Meaning for bool {
    const SCHEMA: (&'static str, &'static str) = ("boolean", "true");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        match scalar {
            Scalar::Switch(switch) => Ok(*switch),
            other => Err(FaultKind::NotASwitch { found: other.to_string() }),
        }
    }
}

/// Width and height of a sheet or plate: `300 x 500 mm`, `12 in x 20 in`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Size(pub(crate) Mm, pub(crate) Mm);

impl Meaning for Size {
    const SCHEMA: (&'static str, &'static str) = ("string", "300 x 500 mm");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        size_text::parse(&as_text(scalar)).map(|(width, height)| Self(width, height)).map_err(FaultKind::NotASize)
    }
}

/// Most circles of which a hem is cut.
pub(crate) const MOST_CIRCLES: f64 = 20.0;

/// Words for a part of a whole.
pub(crate) const PARTS: [(&str, f64); 6] =
    [("full", 1.0), ("three quarter", 0.75), ("half", 0.5), ("third", 1.0 / 3.0), ("quarter", 0.25), ("double", 2.0)];

/// What a word of a list means, written with capitals, dashes or an article in front too.
fn word_of<T: Copy>(words: &[(&str, T)], text: &str) -> Option<T> {
    let plain = text.trim().to_lowercase().replace(['-', '_'], " ");
    let plain = plain.strip_prefix("a ").unwrap_or(&plain);
    words.iter().find(|(word, _)| *word == plain).map(|(_, meaning)| *meaning)
}

/// A part of a whole, as a maker says it: `full`, `half`, `3/4`, or a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Part(pub(crate) f64);

impl Meaning for Part {
    const SCHEMA: (&'static str, &'static str) = ("any", "3/4");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let fail = || FaultKind::NotAPart { found: scalar.to_string() };
        let part = match scalar {
            Scalar::Number(number) => *number,
            Scalar::Text(text) => word_of(&PARTS, text).or_else(|| fraction(text.trim())).ok_or_else(fail)?,
            Scalar::Switch(_) => return Err(fail()),
        };
        if part > 0.0 && part <= MOST_CIRCLES { Ok(Self(part)) } else { Err(fail()) }
    }
}

/// `3/4`, `0.75` or `0,75`.
fn fraction(text: &str) -> Option<f64> {
    if let Some((over, under)) = text.split_once('/') {
        let (over, under): (u32, u32) = (over.trim().parse().ok()?, under.trim().parse().ok()?);
        return (under > 0).then(|| f64::from(over) / f64::from(under));
    }
    let text = text.replace(',', ".");
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    plain.then(|| text.parse().ok())?
}

/// A turn in degrees: `360 deg`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Degrees(pub(crate) f64);

impl Meaning for Degrees {
    const SCHEMA: (&'static str, &'static str) = ("string", "360 deg");
    fn of(scalar: &Scalar) -> Result<Self, FaultKind> {
        let fail = || FaultKind::NotAnAngle { found: scalar.to_string() };
        let Scalar::Text(text) = scalar else { return Err(fail()) };
        let number = text.trim().trim_end_matches("rees").trim_end_matches("deg").trim_end_matches('°').trim();
        let given_unit = number.len() < text.trim().len();
        let degrees = fraction(number).filter(|d| given_unit && *d <= 7200.0).ok_or_else(fail)?;
        Ok(Self(degrees))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> Scalar {
        Scalar::Text(text.to_owned())
    }

    #[test]
    fn a_part_is_read_in_words_fractions_and_numbers() {
        for (written, part) in
            [("Full", 1.0), ("3/4", 0.75), ("three-quarter", 0.75), ("half", 0.5), ("0,5", 0.5), ("1.5", 1.5)]
        {
            assert_eq!(Part::of(&text(written)), Ok(Part(part)));
        }
        assert_eq!(Part::of(&Scalar::Number(0.5)), Ok(Part(0.5)));
        for wrong in ["1/0", "0", "-1", "most of it", "nan", "21"] {
            assert!(Part::of(&text(wrong)).is_err(), "{wrong} was read");
        }
    }

    #[test]
    fn degrees_need_their_unit() {
        assert_eq!(Degrees::of(&text("360 deg")), Ok(Degrees(360.0)));
        assert_eq!(Degrees::of(&text("90°")), Ok(Degrees(90.0)));
        assert_eq!(Degrees::of(&text("90 degrees")), Ok(Degrees(90.0)));
        assert!(Degrees::of(&text("360")).is_err());
        assert!(Degrees::of(&Scalar::Number(360.0)).is_err());
    }

    #[test]
    fn a_count_is_whole_and_not_endless() {
        assert_eq!(u32::of(&Scalar::Number(30.0)), Ok(30));
        for wrong in [Scalar::Number(1.5), Scalar::Number(-1.0), Scalar::Number(1e9), text("30")] {
            assert!(u32::of(&wrong).is_err(), "{wrong} was read");
        }
    }

    #[test]
    fn a_length_without_its_unit_is_told_what_to_write() {
        let fault = Mm::of(&Scalar::Number(60.0)).unwrap_err();
        assert_eq!(fault.to_string(), "60 has no unit: write \"60 mm\", \"60 cm\" or \"60 in\"");
    }
}
