//! How much work goes into a search, by how hard it is to be.

use super::{alone, inside};
use crate::nest::shape::kind::Kind;
use crate::nest::{Effort, Task};

/// How much work goes into each part of a search, in moves of one piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Budget {
    /// Rings of different length tried, and moves for each.
    pub(super) rings: (usize, u64),
    /// Sets of sheets tried in vain before the search for a better one ends, and moves for each.
    pub(super) sets: (usize, u64),
    /// Searches side by side that empty the last sheet, and moves for each.
    pub(super) emptying: (usize, u64),
    /// Ways of standing in columns that like pieces are shaken down from, and sweeps for each.
    pub(super) shaking: (usize, u32),
    /// Rounds in which [`STREAMS`] searches go on from the best layout, and moves for each of them.
    pub(super) going_on: (u32, u64),
    /// The same where pieces of one kind lie on several sheets and there are no other such rounds: one more on each full sheet
    /// is often found, and the second round, from what the first has found, often finds another.
    pub(super) alike: (u32, u64),
}

/// Searches side by side that start from one layout.
pub(super) const STREAMS: u64 = 2;

impl Budget {
    pub(super) const fn of(effort: Effort) -> Self {
        match effort {
            Effort::Quick => Self {
                rings: (2, 400),
                sets: (1, 1_000),
                emptying: (2, 1_000),
                shaking: (0, 0),
                going_on: (0, 0),
                alike: (2, 1_500),
            },
            Effort::Usual => Self {
                rings: (3, 300),
                sets: (2, 4_000),
                emptying: (2, 7_000),
                shaking: (0, 0),
                going_on: (0, 0),
                alike: (2, 2_000),
            },
            Effort::Thorough => Self {
                rings: (20, 4_000),
                sets: (3, 20_000),
                emptying: (4, 12_000),
                shaking: (2, 60_000),
                going_on: (6, 32_000),
                alike: (1, 32_000),
            },
        }
    }

    /// Rounds that go on from the best layout.
    pub(super) const fn rounds(&self, alike_on_several_sheets: bool) -> (u32, u64) {
        if self.going_on.0 == 0 && alike_on_several_sheets { self.alike } else { self.going_on }
    }

    /// The search without its long last part, where it has one.
    pub(super) const fn at_first(self) -> Self {
        if self.going_on.0 == 0 { self } else { Self { going_on: (0, 0), alike: (0, 0), ..self } }
    }

    /// That last part alone; `None` where there is none.
    pub(super) fn later(self) -> Option<Self> {
        let later = Self { rings: (0, 0), sets: (0, 0), emptying: (0, 0), shaking: (0, 0), ..self };
        (self.going_on.0 > 0).then_some(later)
    }

    /// About as many moves as one search of a task takes.
    pub(super) fn of_one_search(&self, kinds: &[Kind], task: &Task) -> u64 {
        let (rounds, moves) = self.rounds(shapes_of_one_kind(kinds, task));
        let going_on = u64::from(rounds) * STREAMS * moves;
        self.rings.0 as u64 * self.rings.1 + self.sets.1 + self.emptying.0 as u64 * self.emptying.1 + going_on
    }

    /// About as many moves as a whole plan takes: each size alone, then all of them, holes filled before or not.
    pub(super) fn of_a_plan(&self, kinds: &[Kind], task: &Task) -> u64 {
        let searches = (alone::each(kinds, task).len() as u64 + 1) * if inside::may_fill(kinds) { 2 } else { 1 };
        searches * self.of_one_search(kinds, task)
    }
}

/// Whether all pieces are of one kind and no rectangles.
pub(super) fn shapes_of_one_kind(kinds: &[Kind], task: &Task) -> bool {
    let asked = task.items.iter().filter(|item| item.quantity > 0).count();
    asked == 1 && !kinds.iter().all(Kind::fills_its_box)
}

/// How hard it pays to search: rectangles of one size lie in blocks, and nothing shakes them closer together.
pub(super) fn worthwhile(effort: Effort, kinds: &[Kind], task: &Task) -> Effort {
    let mut asked = (0..kinds.len()).filter(|item| task.items[*item].quantity > 0);
    match (effort, asked.next(), asked.next()) {
        (Effort::Thorough, Some(item), None) if kinds[item].fills_its_box() => Effort::Usual,
        _ => effort,
    }
}
