//! Which sheets to open: off-cuts from the drawer first, then the cheapest mix that holds everything.

use super::boxes::{self, RULES, Rule};
use super::draft::{Draft, DraftSheet, Pose, room};
use super::kind::Kind;
use super::{Ended, Layout, Progress, Task, Unplaced, verify};
use crate::quantity::Mm;

/// Lays a checked task.
pub(super) fn lay(task: &Task, progress: &dyn Progress) -> Layout {
    let kinds: Vec<Kind> = task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
    let unplaced = unplaced(&kinds, task);
    let mut within = task.clone();
    for left in &unplaced {
        let item = &mut within.items[left.item];
        (item.quantity, item.on_first_sheet, item.spares) = (0, 0, 0);
    }
    let simple = best(&kinds, &within);
    let searched = super::strip::improved(simple.clone(), &kinds, &within, progress);
    let better = searched.score(&kinds, &within).beats(&simple.score(&kinds, &within));
    let mut layout = finish(&simple, &kinds, &within, unplaced.clone(), Ended::Complete);
    if better {
        let made = finish(&searched, &kinds, &within, unplaced, Ended::Complete);
        if verify(task, &made).is_empty() {
            layout = made;
        }
    }
    layout.alternatives = fewer_spares(&kinds, &within, &layout);
    layout
}

/// Pieces that fit no stock at any turn, with the smallest sheet that would take them.
fn unplaced(kinds: &[Kind], task: &Task) -> Vec<Unplaced> {
    let fits = |kind: &Kind| (0..task.stock.len()).any(|stock| kind.fitting(&room(stock, task)).is_some());
    let border = 2.0 * task.margin.get();
    kinds
        .iter()
        .enumerate()
        .filter(|(item, kind)| task.items[*item].quantity > 0 && !fits(kind))
        .map(|(item, kind)| {
            let smallest = kind
                .boxes
                .iter()
                .map(|boxed| boxed.bounds)
                .min_by(|a, b| a.area().total_cmp(&b.area()))
                .unwrap_or_else(|| kind.bounds_at(0.0));
            let smallest = (Mm::new(smallest.width() + border), Mm::new(smallest.height() + border));
            Unplaced { item, quantity: task.items[item].quantity, smallest }
        })
        .collect()
}

fn finish(draft: &Draft, kinds: &[Kind], task: &Task, unplaced: Vec<Unplaced>, ended: Ended) -> Layout {
    Layout {
        sheets: draft.sheets(kinds, task),
        unplaced,
        cost: draft.cost(kinds, task),
        method: draft.method,
        alternatives: Vec::new(),
        ended,
    }
}

/// The best layout found.
fn best(kinds: &[Kind], task: &Task) -> Draft {
    let mut best: Option<Draft> = None;
    let mains: Vec<usize> = (0..task.stock.len()).collect();
    for main in mains {
        for rules in RULES.iter().map(std::slice::from_ref).chain([&RULES[..]]) {
            let draft = by_boxes(rules, main, kinds, task);
            let better = best.as_ref().is_none_or(|other| draft.score(kinds, task).beats(&other.score(kinds, task)));
            if better {
                best = Some(draft);
            }
        }
    }
    best.unwrap_or(Draft { sheets: Vec::new(), method: "grid" })
}

/// Sheet after sheet, off-cuts first, then one stock; every sheet by the rule that fills it best, the last on the cheapest
/// stock that takes what is left.
fn by_boxes(rules: &[Rule], main: usize, kinds: &[Kind], task: &Task) -> Draft {
    let mut left: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
    let mut stock_left: Vec<u64> = task.stock.iter().map(|stock| stock.available.map_or(u64::MAX, u64::from)).collect();
    let mut draft = Draft { sheets: Vec::new(), method: "grid" };
    let drawer = (0..task.stock.len()).filter(|stock| task.stock[*stock].available.is_some());
    for stock in drawer.chain([main]).chain(0..task.stock.len()) {
        while left.iter().any(|count| *count > 0) && stock_left[stock] > 0 {
            let poses = fill_sheet(rules, stock, draft.sheets.is_empty(), &left, kinds, task);
            if poses.is_empty() {
                break;
            }
            stock_left[stock] -= 1;
            for pose in &poses {
                left[pose.item] -= 1;
            }
            draft.sheets.push(DraftSheet { stock, poses });
        }
    }
    cheaper_last(rules, &mut draft, &stock_left, kinds, task);
    draft
}

/// Fills one sheet by the rule that leaves least of the pieces' area, then uses the least length.
fn fill_sheet(rules: &[Rule], stock: usize, is_first: bool, left: &[u32], kinds: &[Kind], task: &Task) -> Vec<Pose> {
    let first: Vec<u32> = task.items.iter().map(|item| if is_first { item.on_first_sheet } else { 0 }).collect();
    let mut best: Option<(f64, f64, Vec<Pose>)> = None;
    for rule in rules {
        let poses = boxes::fill(*rule, &room(stock, task), task.gap.get(), kinds, left, &first);
        let area: f64 = poses.iter().map(|pose| kinds[pose.item].square_mm).sum();
        let used = DraftSheet { stock, poses: poses.clone() }.used(kinds, task);
        let better = best
            .as_ref()
            .is_none_or(|(most, least, _)| area > most + 1e-6 || (area > most - 1e-6 && used < least - 1e-6));
        if better {
            best = Some((area, used, poses));
        }
    }
    best.map(|(_, _, poses)| poses).unwrap_or_default()
}

/// Moves the last sheet's pieces to another stock where that is better.
fn cheaper_last(rules: &[Rule], draft: &mut Draft, stock_left: &[u64], kinds: &[Kind], task: &Task) {
    let Some(last) = draft.sheets.last().cloned() else { return };
    let mut left = vec![0u32; kinds.len()];
    for pose in &last.poses {
        left[pose.item] += 1;
    }
    let is_first = draft.sheets.len() == 1;
    for (stock, _) in stock_left.iter().enumerate().filter(|(stock, count)| **count > 0 && *stock != last.stock) {
        let poses = fill_sheet(rules, stock, is_first, &left, kinds, task);
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

/// Whether leaving out a spare of one motif, or of all, needs fewer sheets.
fn fewer_spares(kinds: &[Kind], task: &Task, layout: &Layout) -> Vec<String> {
    let sheets = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.copies)).sum::<u64>();
    let motifs: std::collections::BTreeSet<&str> =
        task.items.iter().filter(|item| item.spares > 0).map(|item| item.motif.as_str()).collect();
    let mut said = Vec::new();
    for motif in motifs {
        let mut fewer = task.clone();
        for item in fewer.items.iter_mut().filter(|item| item.motif == motif && item.spares > 0) {
            item.quantity -= 1;
            item.spares -= 1;
            item.on_first_sheet = item.on_first_sheet.min(item.quantity);
        }
        let other = finish(&best(kinds, &fewer), kinds, &fewer, Vec::new(), Ended::Complete);
        if sheets(&other) < sheets(layout) {
            let saved = layout
                .cost
                .zip(other.cost)
                .map_or_else(String::new, |(now, then)| format!(" ({:.2} less to pay)", now - then));
            said.push(format!("one fewer spare of {motif} saves a sheet{saved}"));
        }
    }
    said
}
