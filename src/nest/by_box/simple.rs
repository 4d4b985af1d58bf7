//! The simple layouts: sheet after sheet by boxes, off-cuts from the drawer first.

use super::boxes::{RULES, Rule};
use super::corners;
use super::fills::Fills;
use crate::nest::Task;
use crate::nest::buying::draft::{Draft, DraftSheet, Pose};
use crate::nest::shape::kind::Kind;

/// The best simple layout with each stock as the one mainly bought, best first.
pub(in crate::nest) fn drafts(fills: &Fills<'_>, task: &Task) -> Vec<Draft> {
    let kinds = fills.kinds;
    let mut best: Vec<Draft> = (0..task.stock.len()).filter_map(|main| best_with(main, fills, task)).collect();
    for at in 1..best.len() {
        let better = |a: usize, b: usize, all: &[Draft]| all[a].score(kinds, task).beats(&all[b].score(kinds, task));
        let mut at = at;
        while at > 0 && better(at, at - 1, &best) {
            best.swap(at, at - 1);
            at -= 1;
        }
    }
    best
}

fn best_with(main: usize, fills: &Fills<'_>, task: &Task) -> Option<Draft> {
    let kinds = fills.kinds;
    let wanted: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
    let mut best: Option<Draft> = None;
    let with_corners: Vec<Rule> = RULES.into_iter().chain([Rule::Corners]).collect();
    let closely = corners::serve(kinds, &wanted).then_some(&with_corners[..]);
    for rules in RULES.iter().map(std::slice::from_ref).chain([&RULES[..]]).chain(closely) {
        let draft = by_boxes(rules, main, &wanted, fills, task);
        if best.as_ref().is_none_or(|other| draft.score(kinds, task).beats(&other.score(kinds, task))) {
            best = Some(draft);
        }
    }
    best
}

/// The order in which sheets are opened: the drawer, the stock mainly bought, whatever else there is.
pub(in crate::nest) fn opening(main: usize, task: &Task) -> Vec<usize> {
    let drawer = (0..task.stock.len()).filter(|stock| task.stock[*stock].available.is_some());
    drawer.chain([main]).chain(0..task.stock.len()).collect()
}

/// Sheet after sheet, off-cuts first, then one stock; every sheet by the rule that fills it best, the last on the cheapest
/// stock that takes what is left.
pub(in crate::nest) fn by_boxes(rules: &[Rule], main: usize, wanted: &[u32], fills: &Fills<'_>, task: &Task) -> Draft {
    let mut filling = Filling {
        rules,
        fills,
        task,
        left: wanted.to_vec(),
        stock_left: task.stock.iter().map(|stock| stock.available.map_or(u64::MAX, u64::from)).collect(),
        draft: Draft { sheets: Vec::new(), method: "grid" },
    };
    let order = opening(main, task);
    let tests: Vec<u32> = task.items.iter().zip(wanted).map(|(item, count)| item.on_first_sheet.min(*count)).collect();
    if tests.iter().any(|count| *count > 0) {
        match order.iter().find(|stock| filling.takes(**stock, &tests)) {
            Some(stock) => filling.open(*stock, 1),
            // Too many tests for any one sheet: they are laid alone, before all others.
            None => filling.lay_before_all(&tests, &order),
        }
    }
    for stock in order {
        filling.open(stock, u64::MAX);
    }
    let Filling { mut draft, stock_left, .. } = filling;
    cheaper_last(rules, &mut draft, &stock_left, fills, task);
    draft
}

/// Sheets being filled one after another.
struct Filling<'a> {
    rules: &'a [Rule],
    fills: &'a Fills<'a>,
    task: &'a Task,
    left: Vec<u32>,
    stock_left: Vec<u64>,
    draft: Draft,
}

impl Filling<'_> {
    /// Opens up to so many sheets of a stock while there are pieces left that lie on it.
    fn open(&mut self, stock: usize, most: u64) {
        let mut opened = 0;
        while opened < most && self.left.iter().any(|count| *count > 0) && self.stock_left[stock] > 0 {
            let is_first = self.draft.sheets.is_empty();
            let poses = fill_sheet(self.rules, stock, is_first, &self.left, self.fills, self.task);
            if poses.is_empty() {
                break;
            }
            opened += 1;
            self.stock_left[stock] -= 1;
            for pose in &poses {
                self.left[pose.item] -= 1;
            }
            self.draft.sheets.push(DraftSheet { stock, poses });
        }
    }

    /// Whether one sheet of a stock takes all test pieces.
    fn takes(&self, stock: usize, tests: &[u32]) -> bool {
        let asked: u32 = tests.iter().sum();
        self.stock_left[stock] > 0
            && fill_sheet(self.rules, stock, true, tests, self.fills, self.task).len() >= asked as usize
    }

    fn lay_before_all(&mut self, tests: &[u32], order: &[usize]) {
        let others: Vec<u32> = self.left.iter().zip(tests).map(|(left, tests)| left - tests).collect();
        self.left = tests.to_vec();
        for stock in order {
            self.open(*stock, u64::MAX);
        }
        self.left.iter_mut().zip(others).for_each(|(left, other)| *left += other);
    }
}

/// Fills one sheet by the rule that lays most of the test pieces, then most of the pieces' area, then uses the least length.
pub(in crate::nest) fn fill_sheet(
    rules: &[Rule],
    stock: usize,
    is_first: bool,
    left: &[u32],
    fills: &Fills<'_>,
    task: &Task,
) -> Vec<Pose> {
    let kinds = fills.kinds;
    let first: Vec<u32> = task.items.iter().map(|item| if is_first { item.on_first_sheet } else { 0 }).collect();
    let tests_on = |poses: &[Pose]| -> f64 {
        let on = |item: usize| poses.iter().filter(|pose| pose.item == item).count();
        (0..first.len()).map(|item| on(item).min(first[item] as usize) as f64).sum()
    };
    let mut best: Option<([f64; 3], Vec<Pose>)> = None;
    for rule in rules {
        let poses = fills.fill(*rule, stock, left, &first, task);
        let area: f64 = poses.iter().map(|pose| kinds[pose.item].square_mm).sum();
        let used = DraftSheet { stock, poses: poses.clone() }.used(kinds, task);
        let rank = [tests_on(&poses), area, -used];
        let differs = |best: &[f64; 3]| (0..3).find(|k| (rank[*k] - best[*k]).abs() > 1e-6);
        if best.as_ref().is_none_or(|(best, _)| differs(best).is_some_and(|k| rank[k] > best[k])) {
            best = Some((rank, poses));
        }
    }
    best.map(|(_, poses)| poses).unwrap_or_default()
}

/// Moves the last sheet's pieces to another stock where that is better.
fn cheaper_last(rules: &[Rule], draft: &mut Draft, stock_left: &[u64], fills: &Fills<'_>, task: &Task) {
    let kinds = fills.kinds;
    let Some(last) = draft.sheets.last().cloned() else { return };
    let mut left = vec![0u32; kinds.len()];
    for pose in &last.poses {
        left[pose.item] += 1;
    }
    let is_first = draft.sheets.len() == 1;
    for (stock, _) in stock_left.iter().enumerate().filter(|(stock, count)| **count > 0 && *stock != last.stock) {
        let poses = fill_sheet(rules, stock, is_first, &left, fills, task);
        if poses.len() < last.poses.len() {
            continue;
        }
        let mut other = draft.clone();
        if let Some(sheet) = other.sheets.last_mut() {
            *sheet = DraftSheet { stock, poses };
        }
        if other.score(kinds, task).beats(&draft.score(kinds, task)) {
            *draft = other;
        }
    }
}

/// The draft with the pieces of its last sheet laid anew by boxes; a few pieces turned to their smallest boxes often lie in
/// a row lower than what the search, with fewer turns to choose from, left them in. `None` where they take one sheet in all.
pub(in crate::nest) fn last_laid_anew(draft: &Draft, kinds: &[Kind], task: &Task) -> Option<Draft> {
    let last = draft.sheets.last().filter(|_| draft.sheets.len() > 1)?;
    let mut left = vec![0u32; kinds.len()];
    last.poses.iter().for_each(|pose| left[pose.item] += 1);
    let poses = fill_sheet(&RULES, last.stock, false, &left, &Fills::new(kinds), task);
    (poses.len() == last.poses.len()).then(|| {
        let mut anew = draft.clone();
        anew.sheets.pop();
        anew.sheets.push(DraftSheet { stock: last.stock, poses });
        anew
    })
}
