//! What was chosen for a band, and how good it is.

use crate::place::Evenness;
use crate::place::along::row::Row;
use crate::place::clash::seams::{Near, too_near};
use crate::place::ground::Tier;

/// One way to set a band out.
#[derive(Clone, Debug)]
pub(in crate::place) struct Choice {
    /// Motifs in the first row.
    pub(in crate::place) count: u32,
    pub(in crate::place) manner: Evenness,
    /// What bounds the stretches that are set out on their own, where any are.
    pub(in crate::place) bounds: Option<Bounds>,
    /// From the hem up.
    pub(in crate::place) rows: Vec<Laid>,
}

/// A row and what is too near in it.
#[derive(Clone, Debug)]
pub(in crate::place) struct Laid {
    pub(in crate::place) row: Row,
    pub(in crate::place) near: Vec<Near>,
}

/// What was chosen and what was passed over for it.
#[derive(Clone, Debug)]
pub(in crate::place) struct Chosen {
    pub(in crate::place) choice: Choice,
    /// Most that fit by the gap alone; the count itself where a count was asked for.
    pub(in crate::place) most: u32,
    /// Larger counts, with their best arrangement, largest first.
    pub(in crate::place) passed_over: Vec<Choice>,
    /// So few would keep clear of everything with each stretch on its own, too few to be taken for that.
    pub(in crate::place) too_few: Option<u32>,
}

impl Chosen {
    /// A choice for which nothing was passed over.
    pub(in crate::place) const fn only(choice: Choice, most: u32) -> Self {
        Self { choice, most, passed_over: Vec::new(), too_few: None }
    }
}

/// What bounds the stretches that are set out on their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum Bounds {
    /// Everything that must stay clear, and corners.
    All,
    /// Places to keep out of alone, and corners.
    Areas,
}

impl Choice {
    /// The first row.
    pub(in crate::place) fn row(&self) -> &Row {
        &self.rows[0].row
    }

    /// How many motifs are too near something.
    pub(in crate::place) fn clashes(&self) -> usize {
        self.rows.iter().map(|laid| laid.near.len()).sum()
    }

    /// How many motifs reach into places to keep out of or the opening, how many lie across a seam, and how many are too near
    /// anything: the fewer the better, in this order.
    pub(in crate::place) fn faults(&self) -> (usize, usize, usize) {
        let near = || self.rows.iter().flat_map(|laid| &laid.near);
        let areas = near().filter(|near| near.firm).count();
        let across = near().filter(|near| !near.firm && near.clear < 0.0).count();
        (areas, across, self.clashes())
    }

    /// How many motifs further rows lack to have as many as the first.
    pub(in crate::place) fn short(&self) -> u32 {
        self.rows.iter().map(|laid| laid.row.short).sum()
    }

    /// Smallest gap along any row's line.
    pub(in crate::place) fn gap(&self) -> f64 {
        self.rows.iter().map(|laid| laid.row.gap()).fold(f64::INFINITY, f64::min)
    }

    /// The row and the motif that is worst.
    pub(in crate::place) fn worst(&self) -> Option<(usize, Near)> {
        let all = self.rows.iter().enumerate().flat_map(|(row, laid)| laid.near.iter().map(move |near| (row, *near)));
        all.min_by(|a, b| a.1.clear.total_cmp(&b.1.clear))
    }
}

pub(in crate::place) fn laid(tier: &Tier, row: Row) -> Laid {
    let near = too_near(&row, &tier.keeps);
    Laid { row, near }
}
