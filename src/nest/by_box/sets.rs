//! Every set of sheets that could be cheaper, filled by boxes.
//!
//! Where a film comes in several sizes the cheapest mix is a question of counting before it is one of fitting: sets are
//! grown sheet by sheet, the largest first, each filled with as much as it takes, and a roll may take the rest. A set is given
//! up as soon as what it costs, and what the pieces still left must cost at the least, is no better than the best so far. The
//! count of boxes laid is bounded; where it runs out, the best set until then stands.

use super::boxes::Rule;
use super::empty::Fit;
use super::fills::Fills;
use super::free::Order;
use super::simple;
use crate::nest::Task;
use crate::nest::buying::draft::{Draft, DraftSheet, Score, bought, price, room};

/// Rules by which a sheet of a set is filled: those that most often fill it best.
const RULES: [Rule; 6] = [
    Rule::Rows(0),
    Rule::Rows(1),
    Rule::Free(Fit::Nearest, Order::LongSide),
    Rule::Free(Fit::ShortSide, Order::Area),
    Rule::Free(Fit::SmallestArea, Order::Area),
    Rule::Blocks,
];

/// Boxes laid in all before the best set so far must do.
const MOST_BOXES: usize = 60_000;

/// A set of sheets in the making.
#[derive(Clone)]
struct Set {
    sheets: Vec<DraftSheet>,
    /// Pieces of each item still to be laid.
    left: Vec<u32>,
    /// Place in the order of stocks from which the next sheet is taken.
    from: usize,
}

/// A draft that is better than another because it takes a cheaper set of sheets; `None` when none is found.
pub(in crate::nest) fn cheaper(than: &Draft, fills: &Fills<'_>, task: &Task) -> Option<Draft> {
    if task.stock.len() < 2 {
        return None;
    }
    let mut order: Vec<usize> = (0..task.stock.len()).filter(|stock| task.stock[*stock].height.is_some()).collect();
    order.sort_by(|a, b| usable(*b, task).total_cmp(&usable(*a, task)).then(a.cmp(b)));
    let rolls: Vec<usize> = (0..task.stock.len()).filter(|stock| task.stock[*stock].height.is_none()).collect();
    let left = task.items.iter().map(|item| item.quantity).collect();
    let mut search = Filling { fills, task, boxes: 0, best: than.score(fills.kinds, task), found: None };
    // The dearest sets come last, so that a good one is found early: last in, first out.
    let mut open = vec![Set { sheets: Vec::new(), left, from: 0 }];
    while let Some(set) = open.pop() {
        if search.boxes > MOST_BOXES {
            break;
        }
        for roll in &rolls {
            if let Some(whole) = search.with(&set, *roll) {
                search.offer(&whole);
            }
        }
        let mut grown = Vec::new();
        for (place, stock) in order.iter().enumerate().skip(set.from) {
            let Some(next) = search.with(&set, *stock) else { continue };
            if !search.offer(&next) && search.may_win(&next) {
                grown.push(Set { from: place, ..next });
            }
        }
        open.extend(grown.into_iter().rev());
    }
    search.found
}

fn usable(stock: usize, task: &Task) -> f64 {
    let room = room(stock, task);
    room.width * room.length
}

struct Filling<'a> {
    fills: &'a Fills<'a>,
    task: &'a Task,
    boxes: usize,
    best: Score,
    found: Option<Draft>,
}

impl Filling<'_> {
    /// The set with one more sheet, as full as may be; `None` when there is none or it takes nothing.
    fn with(&mut self, set: &Set, stock: usize) -> Option<Set> {
        let there = self.task.stock[stock].available.map_or(usize::MAX, |available| available as usize);
        if set.left.iter().all(|count| *count == 0)
            || set.sheets.iter().filter(|sheet| sheet.stock == stock).count() >= there
        {
            return None;
        }
        self.boxes += RULES.len() * set.left.iter().map(|count| *count as usize).sum::<usize>();
        let is_first = set.sheets.is_empty();
        let poses = simple::fill_sheet(&RULES, stock, is_first, &set.left, self.fills, self.task);
        let tests = |item: usize| if is_first { self.task.items[item].on_first_sheet as usize } else { 0 };
        let holds_tests =
            (0..set.left.len()).all(|item| poses.iter().filter(|pose| pose.item == item).count() >= tests(item));
        if poses.is_empty() || !holds_tests {
            return None;
        }
        let mut next = set.clone();
        poses.iter().for_each(|pose| next.left[pose.item] -= 1);
        next.sheets.push(DraftSheet { stock, poses });
        Some(next)
    }

    /// Keeps a set that holds everything when it is the best; tells whether it holds everything.
    fn offer(&mut self, set: &Set) -> bool {
        let whole = set.left.iter().all(|count| *count == 0);
        if whole {
            let draft = Draft { sheets: set.sheets.clone(), method: "grid" };
            let score = draft.score(self.fills.kinds, self.task);
            if score.beats(&self.best) {
                (self.best, self.found) = (score, Some(draft));
            }
        }
        whole
    }

    /// Whether a set could be the best with what it still needs: the area of the pieces left, of the cheapest film.
    fn may_win(&self, set: &Set) -> bool {
        let left: f64 =
            set.left.iter().zip(self.fills.kinds).map(|(count, kind)| f64::from(*count) * kind.square_mm).sum();
        let (mut cost, mut area) = (0.0, 0.0);
        for sheet in &set.sheets {
            let used = sheet.used(self.fills.kinds, self.task);
            cost += price(sheet.stock, used, self.task).unwrap_or(0.0);
            area += bought(sheet.stock, used, self.task);
        }
        // A thousand millimetres of a roll stand for all of it.
        let each = |of: fn(usize, f64, &Task) -> f64, stock: usize| {
            let length = self.task.stock[stock].height.map_or(1000.0, crate::quantity::Mm::get);
            of(stock, length, self.task) / (self.task.stock[stock].width.get() * length)
        };
        let least = |of: fn(usize, f64, &Task) -> f64| {
            (0..self.task.stock.len()).map(|stock| each(of, stock)).fold(f64::INFINITY, f64::min)
        };
        let priced = |stock: usize, used: f64, task: &Task| price(stock, used, task).unwrap_or(0.0);
        let hoped = Score {
            missing: 0,
            cost: cost + left * least(priced),
            area: area + left * least(bought),
            // However many come from the drawer, one at least is counted.
            sheets: 1,
            last_used: 0.0,
            different: 0,
        };
        hoped.beats(&self.best)
    }
}
