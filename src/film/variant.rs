//! Counting what the setting needs: each motif in each hand and size that occurs.

use crate::place::{Hand, Setting};

/// A motif in one hand and size, and how many the hem takes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Variant {
    /// Motif key.
    pub(super) motif: String,
    /// Hand on the garment.
    pub(super) hand: Hand,
    /// Factor on the motif's finished size.
    pub(super) scale: f64,
    /// Placements of it.
    pub(super) count: u32,
}

/// Sizes closer than this are one size: a hundredth of a millimetre on a motif of ten metres.
const SAME_SCALE: f64 = 1e-6;

/// How many of a motif the setting takes in each hand and size that occurs.
#[must_use]
pub fn counted(setting: &Setting, motif: &str) -> Vec<u32> {
    variants(setting).iter().filter(|variant| variant.motif == motif).map(|variant| variant.count).collect()
}

/// Every variant that occurs, in order of motif, size (full size and larger first) and hand.
pub(super) fn variants(setting: &Setting) -> Vec<Variant> {
    let mut seen: Vec<(&str, f64, Hand)> = setting
        .bands
        .iter()
        .flat_map(|band| &band.placements)
        .map(|placement| (placement.motif.as_str(), placement.scale, placement.hand))
        .collect();
    // Sizes within SAME_SCALE may still alternate with the hand, so hands are counted inside each run of one size.
    seen.sort_by(|a, b| a.0.cmp(b.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)));
    let mut found: Vec<Variant> = Vec::new();
    for run in seen.chunk_by(|a, b| a.0 == b.0 && (a.1 - b.1).abs() < SAME_SCALE) {
        for hand in [Hand::AsDrawn, Hand::Mirrored] {
            let count = u32::try_from(run.iter().filter(|one| one.2 == hand).count()).unwrap_or(u32::MAX);
            if count > 0 {
                found.push(Variant { motif: run[0].0.to_string(), hand, scale: run[0].1, count });
            }
        }
    }
    found
}
