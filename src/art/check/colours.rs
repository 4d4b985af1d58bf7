//! Colours so near to each other that one film was probably meant.

use std::collections::BTreeSet;

use super::super::Colour;
use super::super::note::{Measure, Note};
use super::Subject;
use crate::geometry::bounds;

/// Most different colours compared; a drawing with more has other troubles.
const MOST: usize = 100;

pub(super) fn check(subject: &Subject<'_>) -> Vec<Note> {
    let colours: BTreeSet<Colour> = subject.layers.iter().map(|layer| layer.colour).collect();
    let colours: Vec<Colour> = colours.into_iter().take(MOST).collect();
    let mut notes = Vec::new();
    for (index, &colour) in colours.iter().enumerate() {
        for &other in &colours[index + 1..] {
            let difference = difference(colour, other);
            if difference < subject.limits.of(colour).colour {
                notes.push(note(subject, colour, other, difference));
            }
        }
    }
    notes
}

fn note(subject: &Subject<'_>, colour: Colour, other: Colour, difference: f64) -> Note {
    let outlines = subject.layers.iter().find(|layer| layer.colour == other).map_or(&[][..], |layer| &layer.outlines);
    let at = bounds(outlines).map(|rect| rect.center()).unwrap_or_default();
    Note::look(
        "near-colours",
        subject.label(other, at),
        format!("Two colours differ by a hair: {colour} and {other}."),
        "As drawn they make two layers, cut from two films. If one film is meant, give both the same colour.",
    )
    .at(at)
    .measured(Measure::ColourDifference(difference))
}

/// Distance in CIE L*a*b* (CIE 15, 1976 formula), from sRGB (IEC 61966-2-1) under its own white, D65.
fn difference(a: Colour, b: Colour) -> f64 {
    let (a, b) = (lab(a), lab(b));
    a.iter().zip(b).map(|(x, y)| (x - y) * (x - y)).sum::<f64>().sqrt()
}

fn lab(colour: Colour) -> [f64; 3] {
    let linear = |value: u8| {
        let share = f64::from(value) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    };
    let (r, g, b) = (linear(colour.red), linear(colour.green), linear(colour.blue));
    // Rows of the sRGB matrix, each divided by its sum, so that white is (1, 1, 1).
    let x = (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505;
    let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let z = (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.0890;
    let f = |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    [116.0 * f(y) - 16.0, 500.0 * (f(x) - f(y)), 200.0 * (f(y) - f(z))]
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn rgb(red: u8, green: u8, blue: u8) -> Colour {
        Colour { red, green, blue }
    }

    /// L*a*b* of sRGB red under D65: 53.24, 80.09, 67.20 (from memory of published conversion tables).
    #[test]
    fn red_has_its_published_place() {
        let red = lab(rgb(255, 0, 0));
        for (found, expected) in red.into_iter().zip([53.24, 80.09, 67.20]) {
            assert!((found - expected).abs() < 0.05, "{red:?}");
        }
        let white = lab(rgb(255, 255, 255));
        assert!((white[0] - 100.0).abs() < 0.01 && white[1].abs() < 0.05 && white[2].abs() < 0.05);
    }

    #[test]
    fn a_hair_is_less_than_a_shade() {
        assert!(difference(rgb(0x2e, 0x7d, 0x32), rgb(0x2e, 0x7d, 0x33)) < 1.0);
        assert!(difference(rgb(0x2e, 0x7d, 0x32), rgb(0x3e, 0x9d, 0x42)) > 5.0);
    }
}
