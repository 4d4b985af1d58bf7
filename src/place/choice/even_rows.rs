//! Even rows of so many, with what may lie on the middle.

use super::chosen::{Choice, laid};
use crate::place::along::even::even_out;
use crate::place::along::row::{Row, SAME};
use crate::place::along::sequence::Start;
use crate::place::clash::clear::Measure;
use crate::place::ground::{Ground, Tier};
use crate::place::{Anchor, Evenness, Lands};
use crate::quantity::Mm;

impl Ground<'_> {
    /// What may lie on the middle with so many: on a ring what the wish allows; an open row has one place only, which must
    /// put there what was asked for.
    pub(super) fn starts(&self, count: u32) -> impl Iterator<Item = Start> + '_ {
        let closed = self.course().closed;
        let starts = if closed { self.allowed() } else { &self.allowed()[..1] };
        starts
            .iter()
            .copied()
            .filter(move |start| closed || suits(self.wish.on_cf, self.course().row(count, *start).lands(0.0)))
    }

    /// The even rows of so many whose gap is as wide as asked in every row.
    pub(super) fn wide_rows(&self, gap: Mm, count: u32) -> impl Iterator<Item = Choice> + '_ {
        let wide = move |choice: &Choice| choice.rows.iter().all(|laid| laid.row.gap() >= gap.get() - SAME);
        self.starts(count).map(move |start| self.arranged(count, start)).filter(wide)
    }

    /// The even rows of exactly `count` motifs in the first one.
    pub(in crate::place) fn arranged(&self, count: u32, start: Start) -> Choice {
        let rows = self.tiers.iter().map(|tier| laid(tier, tier.even_row(count, start))).collect();
        Choice { count, manner: Evenness::Gap, bounds: None, rows }
    }

    /// The same with equal clear gaps, and the smallest of them.
    pub(super) fn evened(&self, measure: &mut Measure<'_>, count: u32, start: Start) -> Option<(Choice, f64)> {
        let mut least = f64::INFINITY;
        let mut rows = Vec::new();
        for tier in &self.tiers {
            let mut row = tier.even_row(count, start);
            let clear = even_out(&mut row, |row| self.clears_apart(measure, tier, row))?;
            least = least.min(clear);
            rows.push(laid(tier, row));
        }
        Some((Choice { count, manner: Evenness::ClearGap, bounds: None, rows }, least))
    }
}

impl Tier {
    /// The even row that goes with `count` motifs in the first row.
    fn even_row(&self, count: u32, start: Start) -> Row {
        if !self.shifted {
            return self.course.row(count, start);
        }
        if self.course.closed {
            return self.course.row(count, self.own(start));
        }
        // One motif above each gap of an open row: half a repeat further in at both ends.
        let below = self.course.row(count, start);
        if count < 2 {
            return below;
        }
        let mut course = self.course.clone();
        let further = below.repeat() / 2.0;
        (course.ends, course.ends_raised) = (course.ends + further, course.ends_raised + further);
        course.row(count - 1, start)
    }
}

fn suits(anchor: Anchor, lands: Lands) -> bool {
    match anchor {
        Anchor::Motif => lands == Lands::Motif,
        Anchor::Gap => lands == Lands::Gap,
        Anchor::Best => true,
    }
}
