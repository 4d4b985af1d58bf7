//! How large the drawing says it is.

use roxmltree::Node;

/// What a drawing states about its own size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum StatedSize {
    /// In millimetres, inches or another length that does not depend on a screen.
    Physical,
    /// In pixels or bare numbers: true only if the tool counted 96 to the inch.
    Pixels,
    /// Not at all, or as a share of the page.
    None,
}

/// What the outermost element's width or height says.
pub(super) fn stated(svg: Node<'_, '_>) -> StatedSize {
    let sizes = ["width", "height"].map(|side| svg.attribute(side).map_or(StatedSize::None, unit));
    if sizes.contains(&StatedSize::Physical) {
        StatedSize::Physical
    } else if sizes.contains(&StatedSize::Pixels) {
        StatedSize::Pixels
    } else {
        StatedSize::None
    }
}

/// Width of the page in the drawing's own units, where it states them.
pub(super) fn units_across(svg: Node<'_, '_>) -> Option<f64> {
    let numbers = svg.attribute("viewBox")?;
    let width = numbers.split([' ', ',', '\t', '\n']).filter(|part| !part.is_empty()).nth(2)?;
    width.parse().ok().filter(|width: &f64| width.is_finite() && *width > 0.0)
}

fn unit(length: &str) -> StatedSize {
    let length = length.trim();
    let digits = length.trim_end_matches(|c: char| c.is_ascii_alphabetic() || c == '%');
    match &length[digits.len()..] {
        "mm" | "cm" | "in" | "pt" | "pc" | "Q" | "q" => StatedSize::Physical,
        "" | "px" if !digits.is_empty() => StatedSize::Pixels,
        _ => StatedSize::None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn physical_units_and_pixels_are_told_apart() {
        for (text, expected) in [
            ("90mm", StatedSize::Physical),
            ("3.5in", StatedSize::Physical),
            ("1e2 pt", StatedSize::Physical),
            ("576", StatedSize::Pixels),
            ("576px", StatedSize::Pixels),
            ("100%", StatedSize::None),
            ("2em", StatedSize::None),
            ("auto", StatedSize::None),
        ] {
            assert_eq!(unit(text), expected, "{text}");
        }
    }
}
