//! The look of every picture and page, in one place: colours, line weights, type sizes.
//!
//! A quiet, printed look: ink on paper, one accent, tints that survive a grey printer. Meaning is never carried by colour
//! alone; every coloured thing also has a word, a sign or a line pattern. Sizes are millimetres on paper.

use crate::art::Colour;
use crate::press::Outcome;

/// A colour of the papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Ink {
    pub(crate) red: u8,
    pub(crate) green: u8,
    pub(crate) blue: u8,
}

impl Ink {
    const fn hex(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { red, green, blue }
    }
}

impl From<Colour> for Ink {
    fn from(colour: Colour) -> Self {
        Self { red: colour.red, green: colour.green, blue: colour.blue }
    }
}

/// `#26323c`
impl std::fmt::Display for Ink {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// Words and main lines: 12.9 : 1 on white.
pub(crate) const TEXT: Ink = Ink::hex(0x26_323c);
/// Second words, captions: 5.9 : 1 on white, above the 4.5 : 1 that small type needs (WCAG 2.2, 1.4.3).
pub(crate) const SOFT: Ink = Ink::hex(0x5a_6872);
/// Thin helping lines, frames of tables.
pub(crate) const RULE: Ink = Ink::hex(0xb9_c2c8);
/// The paper.
pub(crate) const PAPER: Ink = Ink::hex(0xff_ffff);
/// Cloth of the garment, sheets of film.
pub(crate) const CLOTH: Ink = Ink::hex(0xf5_f0e6);
/// Under table heads and in boxes.
pub(crate) const TINT: Ink = Ink::hex(0xee_f2f3);
/// The one accent: CF, CB, numbers that matter: 6.4 : 1 on white.
pub(crate) const ACCENT: Ink = Ink::hex(0x1f_6673);
/// What must not be done: 7.3 : 1 on white.
pub(crate) const STOP: Ink = Ink::hex(0x9c_2430);
/// What needs care: 5.5 : 1 on white.
pub(crate) const CARE: Ink = Ink::hex(0x8a_5a00);
/// What is fine: 5.6 : 1 on white.
pub(crate) const FINE: Ink = Ink::hex(0x2c_6e49);

/// Colour of an outcome; its words always stand beside it.
pub(crate) const fn outcome_ink(outcome: Outcome) -> Ink {
    match outcome {
        Outcome::Stop | Outcome::MoveFirst => STOP,
        Outcome::ClothAndTest => CARE,
        Outcome::Go => FINE,
    }
}

/// Outline of a motif or piece.
pub(crate) const HAIRLINE: f64 = 0.12;
/// Helping lines, margins, frames.
pub(crate) const THIN: f64 = 0.2;
/// The hem, sheet edges.
pub(crate) const FIRM: f64 = 0.45;
/// CF and CB.
pub(crate) const BOLD: f64 = 0.7;

/// Type sizes in millimetres of body height; 2.5 mm is about 7 pt, the smallest used on paper.
pub(crate) const SMALL: f64 = 2.5;
/// Body of papers and labels.
pub(crate) const BODY: f64 = 3.2;
/// Heads within a page.
pub(crate) const HEAD: f64 = 4.4;
/// Title of a page.
pub(crate) const TITLE: f64 = 6.4;
/// Line to line, as a factor on the type size.
pub(crate) const LEADING: f64 = 1.42;

/// Dashes of a seam, mm on and off.
pub(crate) const SEAM_DASH: [f64; 2] = [2.4, 1.2];
/// Dashes of a helping line such as a margin or the motif line.
pub(crate) const HELP_DASH: [f64; 2] = [0.9, 0.9];

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast by the formula of WCAG 2.2, "contrast ratio" and "relative luminance".
    fn contrast(a: Ink, b: Ink) -> f64 {
        let luminance = |ink: Ink| {
            let part = |v: u8| {
                let v = f64::from(v) / 255.0;
                if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * part(ink.red) + 0.7152 * part(ink.green) + 0.0722 * part(ink.blue)
        };
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn words_stand_out_from_every_ground_they_are_set_on() {
        for ink in [TEXT, SOFT, ACCENT, STOP, CARE, FINE] {
            for ground in [PAPER, CLOTH, TINT] {
                assert!(contrast(ink, ground) >= 4.5, "{ink} on {ground}: {:.2}", contrast(ink, ground));
            }
        }
    }
}
