//! Holes in a carrier patch: waste inside a piece, in which a small patch may lie where the film allows it.

use super::PieceKind;
use crate::geometry::{Outline, Point, Ring};

impl PieceKind {
    /// Holes of the piece with nothing in them: no outline of its own, no match mark. None where the patch is a weeding box,
    /// whose waste is lifted in one.
    #[must_use]
    pub fn holes(&self) -> Vec<Ring> {
        if self.weeding.is_some() {
            return Vec::new();
        }
        let all = || self.cut.outlines().iter().chain(self.marks.outlines());
        let start = |outline: &Outline| -> Point { outline.outer().points()[0] };
        // Outlines do not cross, so any point of one tells whether it lies in the hole.
        let empty = |hole: &&Ring| !all().any(|outline| hole.contains(start(outline)));
        self.cut.outlines().iter().flat_map(Outline::holes).filter(empty).cloned().collect()
    }
}
