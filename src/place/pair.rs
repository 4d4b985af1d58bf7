//! Pairs of garments that mirror each other: two sleeves, two fronts.

use super::{BandSetting, Hand, Placement, Setting};
use crate::geometry::Point;
use crate::quantity::Radians;

/// How many of the garment are made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Garments {
    /// One.
    #[default]
    One,
    /// Two, the second the mirror image of the first.
    MirroredPair,
}

impl Garments {
    /// How many.
    #[must_use]
    pub const fn count(self) -> u32 {
        match self {
            Self::One => 1,
            Self::MirroredPair => 2,
        }
    }
}

/// The motifs of a garment and of its mirror image together: what must be cut for a pair.
#[must_use]
pub fn with_mirror_image(setting: &Setting) -> Setting {
    let images = setting.bands.iter().map(mirror_image);
    Setting { bands: setting.bands.iter().cloned().chain(images).collect(), findings: setting.findings.clone() }
}

/// A band with left and right exchanged and every motif in its other hand.
fn mirror_image(band: &BandSetting) -> BandSetting {
    let placements = band.placements.iter().rev().map(|placed| Placement {
        hand: match placed.hand {
            Hand::AsDrawn => Hand::Mirrored,
            Hand::Mirrored => Hand::AsDrawn,
        },
        s_line: -placed.s_line,
        s_hem: -placed.s_hem,
        at: Point::new(-placed.at.x, placed.at.y),
        turn: Radians::new(-placed.turn.get()),
        ..placed.clone()
    });
    BandSetting { placements: placements.collect(), ..band.clone() }
}
