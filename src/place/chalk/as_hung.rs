//! A choice and its ground as the hem hung: every place where it has come to lie, so that what is said counts what is there.

use crate::place::choice::chosen::{Choice, laid};
use crate::place::clash::seams::Keep;
use crate::place::ground::{Ground, Tier};
use crate::quantity::Mm;

/// A choice on its ground after hanging.
#[derive(Clone, Debug)]
pub(in crate::place) struct Hung<'a> {
    pub(in crate::place) ground: Ground<'a>,
    pub(in crate::place) choice: Choice,
}

impl<'a> Ground<'a> {
    /// A choice as it hung; `None` where the hem was not measured again.
    pub(in crate::place) fn as_hung(&self, choice: &Choice) -> Option<Hung<'a>> {
        let tiers: Vec<Tier> = self.tiers.iter().map(|tier| self.tier_as_hung(tier)).collect::<Option<_>>()?;
        let rows = self.tiers.iter().zip(&tiers).zip(&choice.rows).map(|((drafted, hung), was)| {
            let on_line = self.hem.line_as_hung(&drafted.line);
            let at = |s: f64| on_line.as_ref().map_or(s, |line| line.at(Mm::new(s)).get());
            laid(hung, was.row.carried(at, hung.course.length() - drafted.course.length()))
        });
        let choice = Choice { rows: rows.collect(), ..choice.clone() };
        let mut ground = self.clone();
        ground.tiers = tiers;
        Some(Hung { ground, choice })
    }

    fn tier_as_hung(&self, tier: &Tier) -> Option<Tier> {
        let on_line = self.hem.line_as_hung(&tier.line)?;
        let at = |s: f64| on_line.at(Mm::new(s)).get();
        let mut hung = tier.clone();
        hung.course.span = (at(tier.course.span.0), at(tier.course.span.1));
        for keep in &mut hung.keeps {
            let (from, to) = (at(keep.s - keep.half), at(keep.s + keep.half));
            *keep = Keep { s: from.midpoint(to), half: (to - from) / 2.0, ..keep.clone() };
        }
        for nook in &mut hung.nooks {
            nook.s = at(nook.s);
        }
        Some(hung)
    }
}
