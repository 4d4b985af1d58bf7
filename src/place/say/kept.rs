//! What must be kept clear in a band, in words: seams, the opening, places to keep out of.

use crate::place::ground::Ground;

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
        let mut kept = Self::default();
        for keep in &ground.tiers[0].keeps {
            match (keep.is_area(), keep.opening) {
                (true, _) => {}
                (false, true) => kept.opening = true,
                (false, false) => kept.seams += 1,
            }
        }
        let areas = ground.tiers.iter().flat_map(|tier| &tier.keeps).filter(|keep| keep.is_area());
        kept.areas = areas.map(|keep| keep.name.clone()).collect();
        kept.areas.sort_unstable();
        kept.areas.dedup();
        kept
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
