//! What must be kept clear in a band, in words: seams, the opening, places to keep out of.

use crate::place::choice::chosen::Bounds;
use crate::place::ground::{Ground, Tier};

/// What must be kept clear.
#[derive(Clone, Debug, Default)]
pub(in crate::place) struct Kept {
    seams: usize,
    opening: bool,
    areas: Vec<String>,
}

impl Kept {
    /// Of all rows of a band.
    pub(in crate::place) fn of(ground: &Ground<'_>) -> Self {
        let mut kept = Self::of_row(&ground.tiers[0]);
        kept.name_areas(&ground.tiers);
        kept
    }

    /// Of one row.
    pub(in crate::place) fn of_row(tier: &Tier) -> Self {
        let mut kept = Self::default();
        for keep in &tier.keeps {
            match (keep.is_area(), keep.opening) {
                (true, _) => {}
                (false, true) => kept.opening = true,
                (false, false) => kept.seams += 1,
            }
        }
        kept.name_areas(std::slice::from_ref(tier));
        kept
    }

    /// What bounds the stretches of one row.
    pub(in crate::place) fn bounding(tier: &Tier, bounds: Option<Bounds>) -> Self {
        let kept = Self::of_row(tier);
        if bounds == Some(Bounds::Areas) { Self { seams: 0, ..kept } } else { kept }
    }

    fn name_areas(&mut self, tiers: &[Tier]) {
        let areas = tiers.iter().flat_map(|tier| &tier.keeps).filter(|keep| keep.is_area());
        self.areas = areas.map(|keep| keep.name.clone()).collect();
        self.areas.sort_unstable();
        self.areas.dedup();
    }

    /// Whether there is no place to keep out of, so that all of it are lines.
    pub(super) const fn lines_only(&self) -> bool {
        self.areas.is_empty()
    }

    /// Whether the opening alone must be kept clear.
    pub(super) const fn opening_only(&self) -> bool {
        self.opening && self.seams == 0 && self.areas.is_empty()
    }

    /// Whether there is but one of them.
    pub(super) const fn is_one(&self) -> bool {
        self.seams + self.opening as usize + self.areas.len() == 1
    }

    /// Whether places to keep out of alone must be kept clear.
    pub(super) const fn areas_only(&self) -> bool {
        !self.opening && self.seams == 0 && !self.areas.is_empty()
    }

    /// `every seam and the opening`
    pub(super) fn each(&self) -> String {
        self.joined("every seam", "every place to keep out of")
    }

    /// `the seams and the opening`
    pub(super) fn them(&self) -> String {
        self.joined("the seams", "the places to keep out of")
    }

    /// `every seam and the opening stay clear`
    pub(super) fn does(&self, one: &str, several: &str) -> String {
        let parts = usize::from(self.seams > 0) + usize::from(self.opening) + usize::from(!self.areas.is_empty());
        format!("{} {}", self.each(), if parts > 1 { several } else { one })
    }

    fn joined(&self, seams: &str, areas: &str) -> String {
        let mut parts: Vec<&str> = Vec::new();
        match self.seams {
            0 => {}
            1 => parts.push("the seam"),
            _ => parts.push(seams),
        }
        if self.opening {
            parts.push("the opening");
        }
        match self.areas.as_slice() {
            [] => {}
            [one] => parts.push(one),
            _ => parts.push(areas),
        }
        match parts.split_last() {
            None => String::new(),
            Some((only, [])) => (*only).to_owned(),
            Some((last, before)) => format!("{} and {last}", before.join(", ")),
        }
    }
}
