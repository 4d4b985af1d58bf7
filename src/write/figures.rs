//! How figures are written for people: millimetres with inches to the sixteenth, degrees in both scales, counts of things.

use crate::place::{BandSetting, Garments};
use crate::plan::Plan;
use crate::quantity::{Celsius, Mm, Seconds};

/// Inches to the nearest sixteenth, as a tape shows them: `6 1/16 in`, `3/8 in`, `-2 in`.
pub(crate) fn inches(length: Mm) -> String {
    format!("{} in", bare_inches(length))
}

/// The same without the unit, for table columns.
pub(crate) fn bare_inches(length: Mm) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "lengths are bounded to 10 km, far inside i64 sixteenths")]
    let sixteenths = (length.inches() * 16.0).round() as i64;
    let sign = if sixteenths < 0 { "-" } else { "" };
    let (whole, part) = (sixteenths.abs() / 16, sixteenths.abs() % 16);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let halvings = part.trailing_zeros();
    let fraction = format!("{}/{}", part >> halvings, 16 >> halvings);
    if whole == 0 { format!("{sign}{fraction}") } else { format!("{sign}{whole} {fraction}") }
}

/// Millimetres to one decimal without the unit, for table columns.
pub(crate) fn bare_mm(length: Mm) -> String {
    let text = length.to_string();
    text.strip_suffix(" mm").unwrap_or(&text).to_owned()
}

/// Both, as in running text: `154.9 mm (6 1/8 in)`.
pub(crate) fn both(length: Mm) -> String {
    format!("{length} ({})", inches(length))
}

/// The repeat of a band, or from the least to the greatest step where those are unlike: in millimetres and in inches.
pub(crate) fn repeat(band: &BandSetting) -> (String, String) {
    match band.unlike_steps() {
        Some((least, greatest)) => {
            (format!("{} to {greatest}", bare_mm(least)), format!("{} to {}", bare_inches(least), inches(greatest)))
        }
        None => (band.repeat.to_string(), inches(band.repeat)),
    }
}

/// Both, as in running text: `118.2 to 130.4 mm (4 5/8 to 5 1/8 in)`.
pub(crate) fn repeat_both(band: &BandSetting) -> String {
    let (mm, inches) = repeat(band);
    format!("{mm} ({inches})")
}

/// Both scales, whole degrees: `150 °C (302 °F)`.
pub(crate) fn heat(temperature: Celsius) -> String {
    format!("{:.0} °C ({:.0} °F)", temperature.get(), temperature.fahrenheit())
}

/// A span of time as a plan can know it: whole seconds under two minutes, whole minutes above.
pub(crate) fn about(time: Seconds) -> String {
    if time.get() < 120.0 { format!("{:.0} s", time.get()) } else { format!("{:.0} min", time.minutes()) }
}

/// A count with its noun: `1 sheet`, `3 sheets`.
pub(crate) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// How often the press closes, for all garments: `18 closures`, `36 closures for both, 18 for each`.
pub(crate) fn closures(plan: &Plan) -> String {
    let all = counted(plan.at_press.closures(), "closure", "closures");
    match plan.at_press.closures_of_each() {
        Some(each) => format!("{all}{}, {each}", for_both(plan)),
        None => all,
    }
}

/// ` for both` behind a figure that counts both of a pair.
pub(crate) fn for_both(plan: &Plan) -> &'static str {
    match plan.job.garments {
        Garments::One => "",
        Garments::MirroredPair => " for both",
    }
}

/// The same as a sentence, for lists and tables; empty where one garment is made.
pub(crate) fn all_for_both(plan: &Plan) -> &'static str {
    match plan.job.garments {
        Garments::One => "",
        Garments::MirroredPair => "All of this is for both garments of the pair together.",
    }
}

/// A list as a sentence has it: `a`, `a and b`, `a, b and c`.
pub(crate) fn listed<T: AsRef<str>>(items: &[T]) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [start @ .., last] => {
            let start: Vec<&str> = start.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", start.join(", "), last.as_ref())
        }
    }
}

/// Numbers of a working order with runs drawn together: `1-3, 7, 9-10`.
pub(crate) fn runs(numbers: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &number in numbers {
        match runs.last_mut() {
            Some((_, end)) if number == *end + 1 => *end = number,
            _ => runs.push((number, number)),
        }
    }
    let words: Vec<String> =
        runs.iter().map(|(a, b)| if a == b { a.to_string() } else { format!("{a}-{b}") }).collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    #[test]
    fn inches_are_written_as_a_tape_shows_them() {
        for (length, text) in [
            (154.9, "6 1/8"),
            (9.525, "3/8"),
            (-50.8, "-2"),
            (0.3, "0"),
            (25.0, "1"),
            (38.1, "1 1/2"),
            (4647.0, "182 15/16"),
        ] {
            assert_eq!(bare_inches(mm(length)), text, "{length} mm");
        }
    }

    #[test]
    fn runs_of_numbers_are_drawn_together() {
        assert_eq!(runs(&[1, 2, 3, 7, 9, 10]), "1-3, 7, 9-10");
        assert_eq!(runs(&[]), "");
    }

    #[test]
    fn lists_read_as_sentences() {
        assert_eq!(listed(&["braid", "lace", "facing"]), "braid, lace and facing");
        assert_eq!(listed(&["braid"]), "braid");
    }
}
