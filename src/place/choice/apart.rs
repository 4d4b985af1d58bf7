//! Each stretch between what must stay clear set out on its own, and when that is taken in place of an even row.

use super::choose::FEWEST;
use super::chosen::{Bounds, Choice, laid};
use crate::place::along::even::even_out;
use crate::place::along::row::{Row, SAME, Seat};
use crate::place::along::stretches::{Ask, Plot, between};
use crate::place::clash::clear::Measure;
use crate::place::clash::seams::Keep;
use crate::place::ground::{Ground, Tier};
use crate::place::{Evenness, Stance};
use crate::quantity::Mm;

impl Ground<'_> {
    /// Each stretch on its own in place of a choice that clashes: between everything that must stay clear, or, where that
    /// takes too much, between the places to keep out of alone.
    pub(super) fn beside(
        &self,
        measure: &mut Measure<'_>,
        instead_of: &Choice,
        (gap, count): (f64, Option<u32>),
    ) -> Option<Choice> {
        if instead_of.clashes() == 0 {
            return None;
        }
        let apart = [Bounds::All, Bounds::Areas].map(|bounds| self.stretches(measure, gap, count, bounds));
        apart.into_iter().flatten().min_by_key(|choice| {
            let (areas, across, near) = choice.faults();
            // So many as were asked for count more than seams; what a gap alone gives less than them.
            let asked = if count.is_some() { choice.short() } else { 0 };
            (areas, asked, across, choice.short(), near, std::cmp::Reverse(choice.count))
        })
    }

    /// Evens the clear gaps of motifs that stand in one stretch, the first and the last staying where they are; gives the common
    /// clear gap, less than nothing where there is none.
    pub(super) fn evened_run(&self, measure: &mut Measure<'_>, tier: &Tier, seats: &mut [Seat]) -> f64 {
        let mut row = Row::run(seats.to_vec());
        let Some(clear) = even_out(&mut row, |row| self.run_clears(measure, tier, row)) else { return -1.0 };
        seats.copy_from_slice(&row.seats);
        clear
    }

    /// The least distance between true outlines of neighbours that stand in one stretch.
    fn least_clear(&self, measure: &mut Measure<'_>, tier: &Tier, seats: &[Seat]) -> Option<f64> {
        self.run_clears(measure, tier, &Row::run(seats.to_vec()))?.into_iter().min_by(f64::total_cmp)
    }

    /// Each stretch between what must stay clear on its own, with at least a gap or with exactly a count in the first row;
    /// `None` where that cannot be had.
    pub(in crate::place) fn stretches(
        &self,
        measure: &mut Measure<'_>,
        gap: f64,
        count: Option<u32>,
        bounds: Bounds,
    ) -> Option<Choice> {
        let bounding = |keep: &&Keep| bounds == Bounds::All || keep.is_firm();
        let plots: Vec<Plot<'_>> = self
            .tiers
            .iter()
            .map(|tier| Plot {
                course: &tier.course,
                keeps: tier.keeps.iter().filter(bounding).collect(),
                nooks: &tier.nooks,
                shifted: tier.shifted,
            })
            .collect();
        let clear = self.manner() == Evenness::ClearGap;
        let stacked = self.stacked(Mm::new(gap));
        // Along some sides of a cloth motifs that stand upright reach further than they are wide.
        let upright = self.has_corners() && self.wish.stance == Stance::Upright;
        let ask = Ask { anchor: self.wish.on_cf, gap, count, stacked, clear: clear || upright, fewest: FEWEST };
        let mut gauge = |tier: usize, seats: &mut [Seat]| {
            if clear {
                return self.evened_run(measure, &self.tiers[tier], seats);
            }
            let along = least_gap(seats);
            if upright {
                self.least_clear(measure, &self.tiers[tier], seats).map_or(along, |c| c.min(along))
            } else {
                along
            }
        };
        let mut rows = between(&plots, ask, &mut gauge)?;
        let found = u32::try_from(rows[0].seats.len()).ok()?;
        let narrow = |row: &Row| !clear && row.seats.len() > 1 && row.gap() < gap - SAME;
        if rows.iter().any(narrow) || count.is_some_and(|count| count != found) {
            return None;
        }
        // A row without stretches is even in the sense that is asked for.
        for (tier, row) in self.tiers.iter().zip(&mut rows).filter(|(_, row)| clear && row.apart.is_none()) {
            let mut evened = row.clone();
            if even_out(&mut evened, |row| self.clears(measure, tier, row)).is_some() {
                *row = evened;
            }
        }
        if let Some(item) = self.corner_item() {
            for (tier, row) in self.tiers.iter().zip(&mut rows) {
                let free =
                    tier.nooks.iter().map(|nook| tier.corner_seat(*nook, item)).filter(|seat| tier.is_free(row, *seat));
                row.seats.extend(free.collect::<Vec<_>>());
                row.seats.sort_by(|a, b| a.s.total_cmp(&b.s));
            }
        }
        let rows = self.tiers.iter().zip(rows).map(|(tier, row)| laid(tier, row)).collect();
        Some(Choice { count: found, manner: Evenness::BetweenSeams, bounds: Some(bounds), rows })
    }
}

/// Whether stretches set out on their own are taken in place of an even row that clashes: where they keep clear of everything with at
/// least `fewest` motifs in every row, or of more places to keep out of.
pub(super) fn in_place_of(apart: &Choice, even: &Choice, fewest: f64) -> bool {
    let clear = apart.clashes() == 0 && apart.short() == 0 && f64::from(apart.count) >= fewest;
    clear || apart.faults().0 < even.faults().0
}

/// The least gap along the line between seats in order.
fn least_gap(seats: &[Seat]) -> f64 {
    let gap = |pair: &[Seat]| pair[1].s - pair[0].s - pair[0].half - pair[1].half;
    seats.windows(2).map(gap).fold(f64::INFINITY, f64::min)
}
