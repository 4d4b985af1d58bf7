//! Each size of sheet or roll as the only one bought, so that a second size to choose from never makes a purchase dearer.
//!
//! A mix is found by adding sheets to sheets and shortening what comes last, and that leads past layouts in which one size
//! does alone. So each size that could be the cheapest alone is searched as if there were no other, and what is found there
//! competes with the mixes.

use super::bound;
use super::draft::{Draft, Score, bought, room};
use crate::nest::Task;
use crate::nest::shape::kind::Kind;

/// So many sizes, the most promising first, are searched alone wherever that could give a better layout; those after them
/// only where it could cost less.
const FREELY: usize = 4;

/// Sizes searched alone at most: more than film is sold in, and a bound on the work.
const MOST: usize = 12;

/// One size to buy, with what lies in the drawer.
pub(in crate::nest) struct Alone {
    pub(in crate::nest) task: Task,
    /// What the scores found cannot better.
    pub(in crate::nest) least: Score,
    /// Where its stock stands in the whole task's.
    stock: Vec<usize>,
    /// Its place among the sizes, the most promising first.
    rank: usize,
}

impl Alone {
    /// Whether it is to be searched although there is a draft of this score already.
    pub(in crate::nest) fn may_better(&self, best: &Score) -> bool {
        let in_money = |score: &Score| {
            // Where nothing has a price, area is what is paid.
            let unpriced = if best.cost > 0.0 { 0.0 } else { score.area };
            Score { area: unpriced, sheets: 0, last_used: 0.0, different: 0, ..*score }
        };
        match self.rank < FREELY {
            true => !bound::reached(best, &self.least),
            false => in_money(&self.least).beats(&in_money(best)),
        }
    }

    /// The draft as one of the whole task.
    pub(in crate::nest) fn of_all(&self, mut draft: Draft) -> Draft {
        draft.sheets.iter_mut().for_each(|sheet| sheet.stock = self.stock[sheet.stock]);
        draft
    }
}

/// Every size that takes all pieces alone, the most promising first; none where there is but one to buy.
pub(in crate::nest) fn each(kinds: &[Kind], task: &Task) -> Vec<Alone> {
    let (free, to_buy): (Vec<usize>, Vec<usize>) =
        (0..task.stock.len()).partition(|stock| bought(*stock, 1.0, task) <= 0.0);
    if to_buy.len() < 2 {
        return Vec::new();
    }
    let takes = |stock: usize| {
        let asked = kinds.iter().zip(&task.items).filter(|(_, item)| item.quantity > 0);
        asked.into_iter().all(|(kind, _)| kind.fitting(&room(stock, task)).is_some())
    };
    let alone = |own: usize| {
        // In the order of the whole task, so that each is laid just as it would be if the others were not there.
        let stock: Vec<usize> = (0..task.stock.len()).filter(|at| *at == own || free.contains(at)).collect();
        let sub = Task { stock: stock.iter().map(|at| task.stock[*at].clone()).collect(), ..task.clone() };
        Alone { least: bound::least(kinds, &sub), task: sub, stock, rank: 0 }
    };
    let mut each: Vec<Alone> = to_buy.into_iter().filter(|stock| takes(*stock)).map(alone).collect();
    each.sort_by(|a, b| {
        if a.least.beats(&b.least) {
            std::cmp::Ordering::Less
        } else if b.least.beats(&a.least) {
            std::cmp::Ordering::Greater
        } else {
            a.stock.cmp(&b.stock)
        }
    });
    each.truncate(MOST);
    each.iter_mut().enumerate().for_each(|(rank, alone)| alone.rank = rank);
    each
}
