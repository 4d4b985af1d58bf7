//! Which sheets to open and how to fill them: several methods lay out the same task, and the best verified layout is kept.

use super::alone::{self, Alone};
use super::budget::{Budget, worthwhile};
use super::draft::{Draft, Score};
use super::improve::{Ready, best_draft};
use super::inside::{self, Filled};
use super::{alternatives, beyond_drawer, spare_room, spares, tidy};
use crate::nest::by_box::simple;
use crate::nest::search::sheets::Search;
use crate::nest::search::watch::Watch;
use crate::nest::shape::kind::Kind;
use crate::nest::unplaced::unplaced;
use crate::nest::{Ended, Layout, Progress, Task};

/// Lays a checked task.
pub(in crate::nest) fn lay(task: &Task, progress: &dyn Progress) -> Layout {
    let kinds: Vec<Kind> = task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
    let unplaced = unplaced(&kinds, task);
    let mut within = task.clone();
    for left in &unplaced {
        let item = &mut within.items[left.item];
        (item.quantity, item.on_first_sheet, item.spares) = (0, 0, 0);
    }
    let budget = Budget::of(worthwhile(task.effort, &kinds, &within));

    let moves = budget.of_a_plan(&kinds, &within);
    let asks_for_fewer = spares::moves(&within);
    let watch = Watch::new(progress, moves + asks_for_fewer);
    let ready = Ready::new(&kinds);
    let draft = planned(&within, &ready, budget, &watch);
    let draft = tidy::sorted(draft.unwrap_or(Draft { sheets: Vec::new(), method: "grid" }), &within);
    let ended = if watch.stopped() { Ended::StoppedEarly } else { Ended::Complete };
    let mut layout = draft.layout(&kinds, &within, unplaced, ended);
    let mut likely = Vec::new();
    if ended == Ended::Complete {
        watch.begins(asks_for_fewer);
        let dense = (asks_for_fewer > 0).then(|| ready.dense(&within, &watch)).flatten();
        let search = dense.map(|dense| Search { task: &within, kinds: &kinds, shapes: &dense.shapes, watch: &watch });
        likely = spares::likely(&draft, &kinds, &within, search.as_ref());
    }
    let stopped = watch.stopped();
    drop(watch);
    if !likely.is_empty() && !stopped {
        // What is promised must be what she gets when she asks for it.
        let trial = Watch::of_a_trial(progress, moves * likely.len() as u64, "again with one spare fewer");
        let plan = |fewer: &Task| planned(fewer, &Ready::new(&kinds), budget, &trial).filter(|_| !trial.stopped());
        layout.alternatives = spares::confirmed(likely, &draft, &kinds, &within, plan);
    }
    layout.alternatives.extend(alternatives::larger_last(&draft, &kinds, &within));
    layout.alternatives.extend(spare_room::sentence(&draft, &kinds, &within));
    layout
}

/// The best draft of a task; where the drawer is all there is and seems not to hold everything, searched once more before that
/// is said.
fn planned(task: &Task, ready: &Ready<'_>, budget: Budget, watch: &Watch<'_>) -> Option<Draft> {
    let kinds = ready.fills.kinds;
    let draft = of_given_stock(task, ready, budget, watch);
    let lacks = |draft: &Draft| !draft.missing(task).is_empty();
    let again = draft.as_ref().is_none_or(lacks) && !watch.stopped();
    let Some(more) = again.then(|| beyond_drawer::with_more(task)).flatten() else { return draft };
    let found = of_given_stock(&more, ready, budget, watch);
    let found = found.map(|draft| beyond_drawer::from_the_drawer(draft, task)).filter(|found| {
        let better = draft.as_ref().is_none_or(|now| found.score(kinds, task).beats(&now.score(kinds, task)));
        better && found.is_sound(kinds, task)
    });
    found.or(draft)
}

/// The best draft of a task, each size of stock that could do alone tried alone before the mixes.
fn of_given_stock(task: &Task, ready: &Ready<'_>, budget: Budget, watch: &Watch<'_>) -> Option<Draft> {
    let kinds = ready.fills.kinds;
    let filled = inside::filled(task, kinds);
    let of_units = |filled: &Filled| filled.task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
    let units: Option<Vec<Kind>> = filled.as_ref().map(of_units);
    let filled = filled.zip(units.as_deref().map(Ready::new));
    let searching = Searching { task, ready, filled, watch };
    let simple = simple::drafts(&ready.fills, task);
    let mut best = simple.first().map(|draft| draft.score(kinds, task));
    let found = searching.each_alone(budget.at_first(), &mut best);
    let found = match budget.later() {
        Some(later) => searching.each_longer(found, later, best),
        None => found,
    };
    let starts = found.into_iter().map(|(alone, draft)| alone.of_all(draft)).collect();
    searching.of_stock(task, (simple, starts), budget)
}

/// The searches of one plan, for one choice of stock after another.
struct Searching<'a> {
    task: &'a Task,
    ready: &'a Ready<'a>,
    /// The pieces with others in their holes.
    filled: Option<(Filled, Ready<'a>)>,
    watch: &'a Watch<'a>,
}

impl Searching<'_> {
    /// Each size alone that could better the best so far.
    fn each_alone(&self, budget: Budget, best: &mut Option<Score>) -> Vec<(Alone, Draft)> {
        let mut found = Vec::new();
        for alone in alone::each(self.ready.fills.kinds, self.task) {
            if best.is_some_and(|best| !alone.may_better(&best)) {
                self.passed_over(budget);
                continue;
            }
            let simple = simple::drafts(&self.ready.fills, &alone.task);
            let Some(draft) = self.of_stock(&alone.task, (simple, Vec::new()), budget) else { continue };
            let score = self.score(&alone, &draft);
            if best.is_none_or(|best| score.beats(&best)) {
                *best = Some(score);
            }
            found.push((alone, draft));
        }
        found
    }

    /// The long last part of a search goes on from the best of all; alone only where a size could still become the best by it.
    fn each_longer(&self, mut found: Vec<(Alone, Draft)>, budget: Budget, best: Option<Score>) -> Vec<(Alone, Draft)> {
        for (alone, draft) in &mut found {
            let searched_anyway = best == Some(self.score(alone, draft));
            let may_better = best.is_some_and(|best| alone.may_yet_better(draft, self.ready.fills.kinds, &best));
            self.passed_over(budget);
            if !searched_anyway && may_better {
                let longer = best_draft(&alone.task, self.ready, (vec![draft.clone()], Vec::new()), budget, self.watch);
                *draft = longer.unwrap_or_else(|| draft.clone());
            }
        }
        found
    }

    fn score(&self, alone: &Alone, draft: &Draft) -> Score {
        alone.of_all(draft.clone()).score(self.ready.fills.kinds, self.task)
    }

    /// The best draft of a task that differs from the others in its stock, small pieces in the holes of large ones or not.
    fn of_stock(&self, task: &Task, (simple, mut starts): (Vec<Draft>, Vec<Draft>), budget: Budget) -> Option<Draft> {
        let kinds = self.ready.fills.kinds;
        let moves = budget.of_one_search(kinds, self.task);
        if inside::may_fill(kinds) {
            self.watch.begins(moves);
        }
        if let Some((filled, ready)) = &self.filled {
            let units = Task { stock: task.stock.clone(), ..filled.task.clone() };
            let simple = simple::drafts(&ready.fills, &units);
            let draft = best_draft(&units, ready, (simple, Vec::new()), budget, self.watch);
            starts.extend(draft.map(|draft| filled.opened(&draft)));
        }
        self.watch.begins(moves);
        best_draft(task, self.ready, (simple, starts), budget, self.watch)
    }

    /// A choice of stock that is not searched counts as done.
    fn passed_over(&self, budget: Budget) {
        let kinds = self.ready.fills.kinds;
        self.watch.begins(budget.of_one_search(kinds, self.task) * if inside::may_fill(kinds) { 2 } else { 1 });
    }
}
