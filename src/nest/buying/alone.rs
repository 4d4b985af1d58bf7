//! Each size of sheet or roll as the only one bought, so that a second size to choose from never makes a purchase dearer.
//!
//! A mix is found by adding sheets to sheets and shortening what comes last, and that leads past layouts in which one size
//! does alone. So each size that could be the cheapest alone is searched as if there were no other, and what is found there
//! competes with the mixes.

use super::bound;
use super::draft::{Draft, DraftSheet, Score, bought, price, room};
use crate::nest::Task;
use crate::nest::shape::kind::Kind;

/// So many sizes, the most promising first, are searched alone wherever that could give a better layout; those after them
/// only where it could cost less.
const FREELY: usize = 4;

/// Sizes searched alone at most: more than film is sold in, and a bound on the work.
const MOST: usize = 12;

/// Share of the area used that the long last part of a search is trusted to save: an allowance on the safe side, not a bound
/// that is proven.
const SAVED_AT_MOST: f64 = 0.1;

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
        match self.rank < FREELY {
            true => !bound::reached(best, &self.least),
            false => cheaper(&self.least, best),
        }
    }

    /// Whether its draft could still cost less than one of this score, searched on for long.
    pub(in crate::nest) fn may_yet_better(&self, draft: &Draft, kinds: &[Kind], best: &Score) -> bool {
        let task = &self.task;
        let taken = |sheet: &DraftSheet| task.stock[sheet.stock].width.get() * sheet.used(kinds, task);
        let mut bought_sheets: Vec<(f64, &DraftSheet)> = draft
            .sheets
            .iter()
            .filter(|sheet| bought(sheet.stock, 1.0, task) > 0.0)
            .map(|sheet| (taken(sheet), sheet))
            .collect();
        bought_sheets.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut hoped = draft.score(kinds, task);
        let mut saved = SAVED_AT_MOST * draft.sheets.iter().map(taken).sum::<f64>();
        for (taken, sheet) in bought_sheets {
            let is_roll = task.stock[sheet.stock].height.is_none();
            let share = if is_roll { (saved / taken).min(1.0) } else { f64::from(u8::from(taken <= saved)) };
            if share <= 0.0 {
                break;
            }
            let used = sheet.used(kinds, task);
            hoped.cost -= share * price(sheet.stock, used, task).unwrap_or(0.0);
            hoped.area -= share * bought(sheet.stock, used, task);
            saved -= share * taken;
        }
        cheaper(&hoped, best)
    }

    /// The draft as one of the whole task.
    pub(in crate::nest) fn of_all(&self, mut draft: Draft) -> Draft {
        draft.sheets.iter_mut().for_each(|sheet| sheet.stock = self.stock[sheet.stock]);
        draft
    }
}

/// Whether a score beats another in what is paid. Where nothing has a price, area is what is paid.
fn cheaper(score: &Score, than: &Score) -> bool {
    let in_money = |score: &Score| {
        let unpriced = if than.cost > 0.0 { 0.0 } else { score.area };
        Score { area: unpriced, sheets: 0, last_used: 0.0, different: 0, ..*score }
    };
    in_money(score).beats(&in_money(than))
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
