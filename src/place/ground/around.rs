//! What lies above and below a band, and whether its line may be moved there: the edge of the hem, strips that trims cover, other
//! bands.

use crate::place::along::row::SAME;
use crate::place::choice::chosen::Choice;
use crate::place::clash::across::BETWEEN_ROWS;
use crate::place::ground::Ground;
use crate::quantity::Mm;

/// A strip all round.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Strip {
    heights: (Mm, Mm),
    /// How far motifs keep from it.
    clear: Mm,
}

impl Strip {
    /// What a trim covers.
    pub(super) const fn of_trim(heights: (Mm, Mm)) -> Self {
        Self { heights, clear: Mm::ZERO }
    }

    /// How much of what reaches from one height to another lies in it or too near it.
    fn shared(&self, (low, high): (Mm, Mm)) -> Mm {
        let (from, to) = (self.heights.0 - self.clear, self.heights.1 + self.clear);
        (high.min(to) - low.max(from)).max(Mm::ZERO)
    }
}

impl Ground<'_> {
    /// From which height to which motifs may reach, whatever is chosen.
    fn reach(&self) -> (Mm, Mm) {
        let wave = self.wish.rhythm.wave.unwrap_or(Mm::ZERO).min(Mm::ZERO);
        let (first, last) = (&self.tiers[0], &self.tiers[self.tiers.len() - 1]);
        (first.line.height() - self.tallest / 2.0 + wave, self.highest(last))
    }

    /// From which height to which the motifs of a choice reach.
    pub(in crate::place) fn strip(&self, choice: &Choice) -> (Mm, Mm) {
        (self.lowest(&self.tiers[0], choice.row()), self.reach().1)
    }

    /// Tells it of the other bands.
    pub(in crate::place) fn know(&mut self, others: &[(Mm, Mm)]) {
        self.around.extend(others.iter().map(|heights| Strip { heights: *heights, clear: BETWEEN_ROWS }));
    }

    /// Whether motifs that reach from one height to another may come to reach from another to another: no further over the edge of
    /// the hem, under a trim or into another band than they do.
    pub(in crate::place) fn may_move(&self, now: (Mm, Mm), then: (Mm, Mm)) -> bool {
        let more = Mm::new(SAME);
        let over_edge = then.0 < Mm::ZERO - more && then.0 < now.0 - more;
        !over_edge && self.around.iter().all(|strip| strip.shared(then) <= strip.shared(now) + more)
    }

    /// Whether the line may be lowered by so much.
    pub(in crate::place) fn may_be_lowered(&self, by: Mm) -> bool {
        let (low, high) = self.reach();
        self.may_move((low, high), (low - by, high - by))
    }
}

/// For each band, from which height to which the others reach.
pub(in crate::place) fn tell(grounds: &mut [Ground<'_>]) {
    let reaches: Vec<(Mm, Mm)> = grounds.iter().map(Ground::reach).collect();
    for (index, ground) in grounds.iter_mut().enumerate() {
        let others = reaches.iter().enumerate().filter(|(other, _)| *other != index);
        ground.know(&others.map(|(_, reach)| *reach).collect::<Vec<_>>());
    }
}
