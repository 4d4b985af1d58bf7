//! Which other sets of sheets would be better to buy, if the pieces can be laid on them.

use super::draft::{Draft, Score, bought, counted, price, room};
use crate::nest::shape::kind::Kind;
use crate::nest::shape::shapes::Shapes;
use crate::nest::{Effort, Task};

/// Share of a set's usable area that pieces may need for a search to be tried; above, only luck would part them.
///
/// A piece needs what its densest lattice takes up. The best layouts found of the measuring instances, mixtures among them,
/// need 0.93 on a long strip, where edges cost least, and 0.88 on sheets.
const fn fullest(effort: Effort) -> f64 {
    match effort {
        Effort::Quick | Effort::Usual => 0.88,
        Effort::Thorough => 0.93,
    }
}

/// Below this share a set nearly always takes the pieces, so the cheapest of such sets is tried first.
const EASY: f64 = 0.65;

/// Sets looked at, at most; they are made from few sheets upward.
const MOST_SETS: usize = 20_000;

/// Sets of sheets, as stock indices, that would be better than a draft, the most promising first. Rolls are left out: a
/// roll is shortened, not chosen again.
pub(in crate::nest) fn better_than(draft: &Draft, kinds: &[Kind], shapes: &Shapes, task: &Task) -> Vec<Vec<usize>> {
    let now = draft.score(kinds, task);
    let need = |(index, item): (usize, &crate::nest::Item)| shapes.shape(index).need * f64::from(item.quantity);
    let area: f64 = task.items.iter().enumerate().map(need).sum();
    let sheets: Vec<usize> = (0..task.stock.len()).filter(|stock| task.stock[*stock].height.is_some()).collect();
    let most = draft.sheets.len() + 3;
    let mut found: Vec<(f64, Score, Vec<usize>)> = Vec::new();
    let mut sets: Vec<Vec<usize>> = vec![Vec::new()];
    let mut at = 0;
    while at < sets.len() && sets.len() < MOST_SETS {
        let set = sets[at].clone();
        at += 1;
        for stock in sheets.iter().filter(|stock| set.last().is_none_or(|last| last <= stock)) {
            let count = set.iter().filter(|other| *other == stock).count();
            let there = task.stock[*stock].available.is_none_or(|available| count < available as usize);
            let mut grown = set.clone();
            grown.push(*stock);
            let score = score(&grown, task);
            if !there || grown.len() > most || !score.beats(&now) {
                continue;
            }
            let full = area / grown.iter().map(|stock| usable(*stock, task)).sum::<f64>();
            let promising = full <= fullest(task.effort) && takes_all(&grown, kinds, task);
            // A set that may well be too tight is also tried with another sheet.
            if !promising || full > EASY {
                sets.push(grown.clone());
            }
            if promising {
                found.push((full, score, grown));
            }
        }
    }
    let hard = |full: f64| if full <= EASY { 0.0 } else { full };
    found.sort_by(|a, b| {
        hard(a.0).total_cmp(&hard(b.0)).then(a.1.cost.total_cmp(&b.1.cost)).then(a.1.area.total_cmp(&b.1.area))
    });
    found.into_iter().map(|(_, _, set)| set).collect()
}

/// What a set would cost; its last sheet counts as fully used.
fn score(set: &[usize], task: &Task) -> Score {
    let length = |stock: usize| task.stock[stock].height.map_or(0.0, crate::quantity::Mm::get);
    let cost = set.iter().map(|stock| price(*stock, length(*stock), task).unwrap_or(0.0)).sum();
    let area = set.iter().map(|stock| bought(*stock, length(*stock), task)).sum();
    let sheets = counted(set.iter().copied(), task);
    Score { missing: 0, cost, area, sheets, last_used: f64::MAX, different: set.len() }
}

/// Room on a sheet; pieces at its edges need no gap beyond.
fn usable(stock: usize, task: &Task) -> f64 {
    let room = room(stock, task);
    (room.width + task.gap.get()) * (room.length + task.gap.get())
}

/// Whether every kind fits some sheet of a set.
fn takes_all(set: &[usize], kinds: &[Kind], task: &Task) -> bool {
    let wanted = |item: &usize| task.items[*item].quantity > 0;
    (0..kinds.len())
        .filter(wanted)
        .all(|item| set.iter().any(|stock| kinds[item].fitting(&room(*stock, task)).is_some()))
}
