//! As seen and as cut: two types, and the one function that turns the first into the second.
//!
//! Whether a piece is reversed follows from the side that is drawn or cut ([`Method::cut_from`](super::Method::cut_from)),
//! never from a switch. [`AsCut`] has no other maker than [`for_cutting`], so that nothing can be reversed twice or
//! forgotten: what is nested and written is an `AsCut`, what is set out and pictured is an [`AsSeen`].

use crate::geometry::{Affine, Outline};
use crate::place::Hand;

/// Outlines as seen on the garment's right side, in motif millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct AsSeen(Vec<Outline>);

impl AsSeen {
    /// Outlines in the motif's own frame.
    #[must_use]
    pub const fn new(outlines: Vec<Outline>) -> Self {
        Self(outlines)
    }

    /// The outlines.
    #[must_use]
    pub fn outlines(&self) -> &[Outline] {
        &self.0
    }

    /// The other hand: mirrored about the motif's upright axis, still as seen.
    #[must_use]
    pub fn in_hand(&self, hand: Hand) -> Self {
        match hand {
            Hand::AsDrawn => self.clone(),
            Hand::Mirrored => Self(flipped(&self.0)),
        }
    }

    /// Larger or smaller about the motif's middle; the factor is above 0.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        debug_assert!(factor > 0.0 && factor.is_finite(), "a size factor is above 0");
        Self(self.0.iter().map(|outline| outline.transformed(Affine::scale(factor))).collect())
    }
}

/// Outlines as the knife cuts them, in piece millimetres (origin at the motif's middle, x mirrored where reversed).
///
/// There is no public constructor: only [`for_cutting`] makes one.
///
/// ```compile_fail
/// let cut = hemwright::film::AsCut(vec![]);
/// ```
///
/// Nor can it be cut again, since it is not as seen any more:
///
/// ```compile_fail
/// use hemwright::film::{AsSeen, CutFrom, for_cutting};
/// let once = for_cutting(&AsSeen::new(vec![]), CutFrom::Back);
/// let twice = for_cutting(&once, CutFrom::Back);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct AsCut(Vec<Outline>);

impl AsCut {
    /// The outlines.
    #[must_use]
    pub fn outlines(&self) -> &[Outline] {
        &self.0
    }
}

/// Which side faces the knife or pencil.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFrom {
    /// The side that ends on the garment: adhesive, wrong side, paper of the web. What is cut is reversed.
    Back,
    /// The side that is seen. What is cut is not reversed.
    RightSide,
}

/// Turns outlines as seen into outlines as cut: the one place where anything is reversed.
#[must_use]
pub fn for_cutting(seen: &AsSeen, from: CutFrom) -> AsCut {
    match from {
        CutFrom::RightSide => AsCut(seen.0.clone()),
        CutFrom::Back => AsCut(flipped(&seen.0)),
    }
}

fn flipped(outlines: &[Outline]) -> Vec<Outline> {
    outlines.iter().map(|outline| outline.transformed(Affine::FLIP_X)).collect()
}
