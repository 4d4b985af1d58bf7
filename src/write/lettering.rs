//! The two bundled typefaces and the room that words take in them.
//!
//! Every picture and page is set in these, so that widths measured here hold wherever the files are opened.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};

/// DejaVu Sans Book, subset (licence in `fonts/LICENCE.txt`).
pub(crate) const REGULAR: &[u8] = include_bytes!("fonts/DejaVuSans-subset.ttf");
/// DejaVu Sans Bold, subset.
pub(crate) const BOLD: &[u8] = include_bytes!("fonts/DejaVuSans-Bold-subset.ttf");
/// The name both files carry inside.
pub(crate) const FAMILY: &str = "DejaVu Sans";

/// Height of capitals as a part of the type size, from the font's own tables; used to centre words on a line.
pub(crate) const CAP_HEIGHT: f64 = 0.729;

/// Which of the two cuts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Weight {
    #[default]
    Regular,
    Bold,
}

impl Weight {
    pub(crate) const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => REGULAR,
            Self::Bold => BOLD,
        }
    }
}

/// Width of one line of words at a type size, in the unit of the size.
pub(crate) fn width(words: &str, size: f64, weight: Weight) -> f64 {
    let widths = &WIDTHS[weight as usize];
    words.chars().map(|c| widths.get(&c).or_else(|| widths.get(&UNKNOWN)).copied().unwrap_or(0.0)).sum::<f64>() * size
}

/// Whether both fonts have a sign.
pub(crate) fn has(c: char) -> bool {
    WIDTHS.iter().all(|widths| widths.contains_key(&c))
}

/// Stands for every sign the fonts lack.
pub(crate) const UNKNOWN: char = '□';

/// Width of every sign of each font as a part of the type size, read once from the fonts' own tables.
static WIDTHS: LazyLock<[BTreeMap<char, f64>; 2]> = LazyLock::new(|| [Weight::Regular, Weight::Bold].map(widths));

fn widths(weight: Weight) -> BTreeMap<char, f64> {
    let font = FontRef::new(weight.bytes()).expect("the bundled font is a whole font");
    let metrics = font.glyph_metrics(Size::unscaled(), LocationRef::default());
    let units = f64::from(font.metrics(Size::unscaled(), LocationRef::default()).units_per_em);
    let sign =
        |(code, glyph)| Some((char::from_u32(code)?, f64::from(metrics.advance_width(glyph).unwrap_or(0.0)) / units));
    font.charmap().mappings().filter_map(sign).collect()
}

/// Words broken into lines no wider than `room`; a word wider than the room is broken where it must be.
pub(crate) fn lines(words: &str, size: f64, weight: Weight, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    // Only plain spaces break a line; a no-break space keeps a figure with its unit.
    for word in words.split([' ', '\n', '\t']).filter(|word| !word.is_empty()) {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width(&longer, size, weight) <= room {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for c in word.chars() {
            line.push(c);
            if width(&line, size, weight) > room && line.chars().count() > 1 {
                line.pop();
                lines.push(std::mem::take(&mut line));
                line.push(c);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// Words cut to the room with an ellipsis where they are too long.
pub(crate) fn fitted(words: &str, size: f64, weight: Weight, room: f64) -> String {
    if width(words, size, weight) <= room {
        return words.to_owned();
    }
    let mut kept: Vec<char> = words.chars().collect();
    while kept.pop().is_some() {
        let shorter: String = kept.iter().collect::<String>().trim_end().to_owned() + "…";
        if width(&shorter, size, weight) <= room {
            return shorter;
        }
    }
    String::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_all_equally_wide_so_that_columns_stand() {
        let one = width("1", 10.0, Weight::Regular);
        assert!("023456789".chars().all(|c| (width(&c.to_string(), 10.0, Weight::Regular) - one).abs() < 1e-9));
    }

    #[test]
    fn no_broken_line_is_wider_than_its_room() {
        let words =
            "Fold the stiff braid away before closure 7, or sew it on afterwards: Donaudampfschifffahrtsgesellschaft";
        for room in [12.0, 30.0, 80.0] {
            for line in lines(words, 3.2, Weight::Regular, room) {
                assert!(width(&line, 3.2, Weight::Regular) <= room + 1e-9, "{line}");
            }
        }
        let joined: String = lines(words, 3.2, Weight::Regular, 30.0).concat();
        assert_eq!(joined.replace(' ', ""), words.replace(' ', ""));
    }

    #[test]
    fn every_sign_the_papers_use_is_in_both_fonts() {
        for c in "Aaßéñøł½¼¾⅛°×–—…’“”→←↑↓≥≤≈−•□☐✂✓■▲€\u{a0}".chars()
        {
            assert!(has(c), "{c} is missing");
        }
        assert!(!has('漢'));
    }
}
