//! What cannot be had on a ground, and the nearest that can.

use crate::place::along::bounds::Nook;
use crate::place::along::course::MOST;
use crate::place::along::row::SAME;
use crate::place::along::sequence::Start;
use crate::place::clash::seams::Keep;
use crate::place::ground::Ground;
use crate::place::{Evenness, PlaceError, Stance};
use crate::quantity::Mm;

/// The number of a row; no band has more than fit a byte.
fn number(index: usize) -> u8 {
    u8::try_from(index + 1).unwrap_or(u8::MAX)
}

impl Ground<'_> {
    pub(in crate::place) fn does_not_fit(&self, gap: Mm) -> PlaceError {
        if let Some(sides) = self.sides_too_short(gap) {
            return sides;
        }
        let (index, course) = self.shortest(1);
        let once = course.sequence.step(course.closed);
        PlaceError::DoesNotFit {
            band: self.wish.name.clone(),
            room: Mm::new(course.room(once)),
            motifs: self.wish.motifs.iter().take(once as usize).cloned().collect::<Vec<_>>().join(", "),
            width: Mm::new(course.width_of(once, Start::Motif)),
            gaps: gap * if course.closed { f64::from(once) } else { 0.0 },
            row: number(index),
        }
    }

    /// Why nothing fits along the sides of a cloth with corners: what the longest side has and needs of the row that has least room.
    fn sides_too_short(&self, gap: Mm) -> Option<PlaceError> {
        let rows = (0..self.tiers.len()).filter_map(|row| self.longest_side(row, gap));
        rows.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, fault)| fault)
    }

    /// The width up to which a motif would fit along the longest side of a row, and what is told where none does.
    fn longest_side(&self, row: usize, gap: Mm) -> Option<(f64, PlaceError)> {
        let tier = &self.tiers[row];
        let (first, last) = (tier.nooks.first()?, tier.nooks.last()?);
        let closing = Nook { s: first.s + tier.course.length(), ..*first };
        let pairs = tier.nooks.iter().zip(tier.nooks.iter().skip(1)).chain(std::iter::once((last, &closing)));
        let pairs = pairs.filter(|_| tier.course.closed);
        let (from, to) = pairs.max_by(|a, b| (a.1.s - a.0.s).total_cmp(&(b.1.s - b.0.s)))?;
        let sequence = &tier.course.sequence;
        let widest = (0..sequence.widths.len()).max_by(|a, b| sequence.widths[*a].total_cmp(&sequence.widths[*b]))?;
        let (side, width) = (to.s - from.s, sequence.widest());
        let (taken, gaps) = (from.occupied + to.occupied, (from.gaps + to.gaps) * gap.get());
        // Without motifs of their own corners take up less for smaller ones.
        let largest = match self.corner_item() {
            Some(_) => side - taken - gaps,
            None => (side - gaps) * width / (width + taken),
        };
        let fault = PlaceError::SidesTooShort {
            band: self.wish.name.clone(),
            side: Mm::new(side),
            motif: self.names[widest].clone(),
            width: Mm::new(width),
            corners: Mm::new(taken + gaps),
            largest: if largest >= 1.0 { Mm::new(largest) } else { Mm::ZERO },
            row: number(row),
        };
        Some((largest, fault))
    }

    /// So many gaps leave nothing for motifs; as drawn `most` fit.
    pub(super) fn gaps_take_all(&self, (count, gap): (u32, Mm), most: Option<u32>) -> PlaceError {
        let room = Mm::new(self.shortest(count).1.room(count));
        let beside = self.tiers.iter().any(|tier| tier.keeps.iter().any(Keep::is_firm));
        PlaceError::GapsTakeAll { band: self.wish.name.clone(), count, gap, room, beside, most }
    }

    /// Part of its width that a motif takes up of the line at least. Those that stand upright with equal clear gaps stand
    /// behind each other where the line runs up or down, and take up no more there than their shorter side.
    pub(in crate::place) fn slimmest(&self) -> f64 {
        if self.wish.stance == Stance::Upright && self.manner() == Evenness::ClearGap { self.slim } else { 1.0 }
    }

    /// Whether so many fit edge to edge.
    pub(in crate::place) fn check_count(&self, count: u32) -> Result<(), PlaceError> {
        let band = self.wish.name.clone();
        if count > MOST {
            return Err(PlaceError::TooMany { band, most: MOST });
        }
        for (index, tier) in self.tiers.iter().enumerate() {
            let (width, room) = (Mm::new(self.widest(tier, count) * self.slimmest()), Mm::new(tier.course.room(count)));
            if width.get() > room.get() + SAME {
                let most = self.allowed().iter().map(|start| tier.course.most(0.0, tier.own(*start)));
                let most = most.min().unwrap_or(0).min(MOST);
                return Err(PlaceError::CountTooGreat { band, count, width, room, most, row: number(index) });
            }
        }
        Ok(())
    }
}
