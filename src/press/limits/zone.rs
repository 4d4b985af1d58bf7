//! What else lies in the band, in hem coordinates.

use crate::quantity::Mm;

/// Whether a layer is there when the press closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZoneState {
    /// Under the plate.
    InPlace,
    /// Sewn on but folded out of the way.
    FoldedAway,
    /// Sewn on after pressing.
    SewnOnLater,
}

/// Where a layer lies against the garment's cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// On its right side, next to the plate.
    Over,
    /// Behind it, or not said.
    Beneath,
}

/// A region of the band with something in it, in hem coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What the maker calls it: `stiff braid`.
    pub name: String,
    /// Key in `data/materials.toml`; what is not found there counts as unknown.
    pub material: String,
    /// From where to where along the hem; `None` all round.
    pub along: Option<(Mm, Mm)>,
    /// From which to which height above the hem.
    pub heights: (Mm, Mm),
    /// Whether it is there when the press closes.
    pub state: ZoneState,
    /// Where it lies against the garment's cloth.
    pub lies: Lies,
}

impl Zone {
    /// Whether two zones share some part of the band; `round` is the length of the hem, for places named past its ends.
    pub(in crate::press) fn overlaps(&self, other: &Self, round: f64) -> bool {
        let share = |a: (f64, f64), b: (f64, f64)| a.0 < b.1 && b.0 < a.1;
        let get = |(a, b): (Mm, Mm)| (a.get(), b.get());
        let along = match (self.along.map(get), other.along.map(get)) {
            (Some(a), Some(b)) => {
                [-1.0, 0.0, 1.0].into_iter().any(|lap| share(a, (b.0 + lap * round, b.1 + lap * round)))
            }
            _ => true,
        };
        along && share(get(self.heights), get(other.heights))
    }
}
