//! Equal clear gaps in place of equal gaps along the line, offered where the true distances differ along a row.
//!
//! Motifs that stand upright on an oval cloth, or square to a hem that curves more in one place than in another, come nearer to
//! each other in some places than in others though their steps are equal. Where the nearest come nearer than was asked, motifs
//! moved along the line until all are equally near can mend it, at the price of steps that differ.

use super::chosen::Choice;
use super::remedy::ClearGaps;
use crate::place::clash::clear::Measure;
use crate::place::ground::Ground;
use crate::place::say::NEARER;
use crate::place::{Evenness, Spacing};
use crate::quantity::Mm;

/// Clear gaps that differ by less than this, in millimetres, gain nothing by being made equal.
const DIFFER: f64 = 1.0;

/// Where no gap was asked for, the least clear gap is too small below this part of the greatest. Common practice, no source.
const UNEVEN: f64 = 0.5;

/// Most counts that are evened out in search of the gap asked for; each costs as much as a hundred even rows.
const MOST_TRIED: u32 = 24;

/// The row with equal clear gaps that would serve better than the one chosen, its count as asked for or the most whose clear gap is
/// as wide as asked; `None` where the chosen one is well, or none would serve.
pub(super) fn offered(measure: &mut Measure<'_>, ground: &Ground<'_>, chosen: &Choice) -> Option<(Choice, ClearGaps)> {
    // Of a hem that hung out of the draft true distances are not known so well.
    if !ground.hem.hung().is_empty() || ground.manner() != Evenness::Gap || chosen.manner != Evenness::Gap {
        return None;
    }
    let (least, greatest) = extent(measure, ground, chosen)?;
    let wanted = match ground.wish.spacing {
        Spacing::AtLeast(gap) | Spacing::Settled { gap, .. } => gap.get(),
        Spacing::Count(_) => greatest * UNEVEN,
        // Motifs made smaller to fit are measured by their gap along the line.
        Spacing::Even(_) | Spacing::Fit { .. } => return None,
    };
    if greatest - least < DIFFER || least >= wanted - NEARER {
        return None;
    }
    let gaps = |then: f64| ClearGaps { now: (Mm::new(least), Mm::new(greatest)), then: Mm::new(then) };
    match ground.wish.spacing {
        Spacing::AtLeast(gap) => {
            let step = ground.course().sequence.step(ground.course().closed);
            let mut count = chosen.count;
            for _ in 0..MOST_TRIED {
                let tried = ground.of_count_clear(measure, count, Mm::ZERO);
                let tried = tried.and_then(|choice| Some((extent(measure, ground, &choice)?.0, choice)));
                if let Some((clear, choice)) = &tried
                    && *clear >= gap.get() - NEARER
                    && choice.clashes() == 0
                    && !ground.breaks_turns(choice.count)
                {
                    return Some((choice.clone(), gaps(*clear)));
                }
                let short = tried.map_or(0.0, |(clear, _)| gap.get() - clear);
                count = fewer(count, step, short, chosen.row().repeat())?;
            }
            None
        }
        Spacing::Count(_) | Spacing::Settled { .. } => {
            let choice = ground.of_count_clear(measure, chosen.count, Mm::ZERO)?;
            let clear = extent(measure, ground, &choice)?.0;
            (choice.clashes() == 0 && clear > least + DIFFER).then(|| (choice, gaps(clear)))
        }
        Spacing::Even(_) | Spacing::Fit { .. } => None,
    }
}

/// The next count to try where the clear gap of so many is short by so much: repeats must grow, by half of that at least, since a
/// clear gap grows no faster than twice its step.
fn fewer(count: u32, step: u32, short: f64, repeat: f64) -> Option<u32> {
    let part = repeat / (repeat + short.max(0.0) / 2.0);
    let next = (1..=count / step).map(|k| count - k * step).find(|next| f64::from(*next) <= f64::from(count) * part)?;
    (next > 1).then_some(next)
}

/// The least and the greatest clear gap between neighbours of the first row.
pub(super) fn extent(measure: &mut Measure<'_>, ground: &Ground<'_>, choice: &Choice) -> Option<(f64, f64)> {
    if choice.row().seats.len() < 2 {
        return None;
    }
    let clears = ground.clears(measure, &ground.tiers[0], choice.row())?;
    Some(clears.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), gap| (least.min(*gap), most.max(*gap))))
}
