//! The best layout of one choice of stock: what the simple rules give, searched on.

use std::sync::OnceLock;

use super::best::Best;
use super::budget::{Budget, STREAMS, shapes_of_one_kind};
use super::draft::{Draft, room};
use super::repeats::Dense;
use super::{drawer, mixes, repeats};
use crate::nest::Task;
use crate::nest::by_box::fills::Fills;
use crate::nest::by_box::{sets, simple};
use crate::nest::pattern::patterns::Patterns;
use crate::nest::search::part::Patience;
use crate::nest::search::random::Random;
use crate::nest::search::sheets::Search;
use crate::nest::search::shorten::Plan;
use crate::nest::search::watch::Watch;
use crate::nest::shape::kind::Kind;
use crate::parallel;

/// Pieces to be laid, made ready once for all searches of a plan.
pub(super) struct Ready<'a> {
    pub(super) fills: Fills<'a>,
    dense: OnceLock<Option<Dense>>,
}

impl<'a> Ready<'a> {
    pub(super) fn new(kinds: &'a [Kind]) -> Self {
        Self { fills: Fills::new(kinds), dense: OnceLock::new() }
    }

    /// The shapes and their densest lattices; `None` when there are too many kinds for a search, or it was told to stop.
    pub(super) fn dense(&self, task: &Task, watch: &Watch<'_>) -> Option<&Dense> {
        let found = || if watch.stopped() { None } else { Dense::of(task, self.fills.kinds, watch) };
        self.dense.get_or_init(found).as_ref()
    }
}

/// The best draft of a task whose pieces all fit some stock, from its simple layouts and others. Tasks searched with the same
/// pieces differ in their stock alone.
pub(super) fn best_draft(
    task: &Task,
    ready: &Ready<'_>,
    (mut drafts, starts): (Vec<Draft>, Vec<Draft>),
    budget: Budget,
    watch: &Watch<'_>,
) -> Option<Draft> {
    let kinds = ready.fills.kinds;
    for draft in drafts.first().and_then(|first| sets::cheaper(first, &ready.fills, task)).into_iter().chain(starts) {
        let best = drafts.first().is_none_or(|best| draft.score(kinds, task).beats(&best.score(kinds, task)));
        drafts.insert(if best { 0 } else { drafts.len() }, draft);
    }
    let mut best = Best::new(task, kinds, watch);
    drafts.iter().for_each(|draft| best.offer(draft));
    // One piece lies best in its smallest box.
    let alone = task.items.iter().map(|item| item.quantity).sum::<u32>() < 2;
    if let Some(dense) = ready.dense(task, watch).filter(|_| !alone && !best.reached()) {
        let search = Search { task, kinds, shapes: &dense.shapes, watch };
        let main = drafts.first().and_then(|draft| draft.sheets.last()).map(|sheet| room(sheet.stock, task));
        improve(&search, &drafts, &mut dense.patterns(kinds, main, watch), budget, &mut best);
    }
    // Each round closes one off-cut, so there are no more rounds than sheets.
    while let Some(now) = best.draft.clone() {
        drawer::one_fewer(&now, kinds, task).iter().for_each(|draft| best.offer(draft));
        if best.draft.as_ref() == Some(&now) {
            break;
        }
    }
    best.draft
}

/// Layouts that repeat, other sets of sheets, and a last sheet as empty as can be.
fn improve(search: &Search<'_>, drafts: &[Draft], patterns: &mut [Patterns], budget: Budget, best: &mut Best<'_>) {
    let (task, kinds) = (search.task, search.kinds);
    let patience = Patience { anywhere: 50, nearby: 25, sweeps: 200, strikes: 3, moves: 0 };
    let plan = Plan { first_cut: 0.05, least_cut: 0.001, slicing: 0.2, patience, moves: budget.rings.1 };
    let mut starts: Vec<Draft> = drafts.iter().take(2).cloned().collect();
    for draft in repeats::repeated(search, drafts, patterns, &plan, budget.rings.0) {
        best.offer(&draft);
        starts.push(draft);
    }
    if best.reached() {
        return;
    }
    for draft in repeats::shaken(search, budget.shaking) {
        best.offer(&draft);
        starts.push(draft);
    }
    let streams: Vec<u64> = (0..STREAMS).collect();
    let mut fails = 0;
    while fails < budget.sets.0 && !search.watch.stopped() && !best.reached() {
        let Some(now) = best.draft.clone() else { return };
        let sets = mixes::better_than(&now, kinds, search.shapes, task);
        let Some(set) = sets.get(fails) else { break };
        let patience = Patience { moves: budget.sets.1 / 2, ..patience };
        let found = parallel::each(search.watch.threads(), &streams, |_, stream| {
            search.onto(&now, set, patience, &mut Random::new(task.seed, 1000 + stream))
        });
        let before = now.score(kinds, task);
        found.iter().flatten().for_each(|draft| best.offer(draft));
        let better = best.draft.as_ref().is_some_and(|draft| draft.score(kinds, task).beats(&before));
        fails = if better { 0 } else { fails + 1 };
    }
    if best.reached() {
        return;
    }
    starts.extend(best.draft.clone());
    let starts = promising(starts, budget.emptying.0, kinds, task);
    let plan = Plan { moves: budget.emptying.1, ..plan };
    let found = parallel::each(search.watch.threads(), &starts, |index, start| {
        search.emptied(start, &plan, &mut Random::new(task.seed, 2000 + index as u64))
    });
    found.iter().flatten().for_each(|draft| best.offer(draft));
    go_on(search, plan, budget, best);
    let anew = best.draft.as_ref().and_then(|draft| simple::last_laid_anew(draft, kinds, task));
    anew.iter().for_each(|draft| best.offer(draft));
}

/// Searches on from the best layout, round after round: one long search gets farther than several short ones, and in
/// rounds two threads share it.
fn go_on(search: &Search<'_>, plan: Plan, budget: Budget, best: &mut Best<'_>) {
    let several = best.draft.as_ref().is_some_and(|draft| draft.sheets.len() > 1);
    let (rounds, moves) = budget.rounds(several && shapes_of_one_kind(search.kinds, search.task));
    for round in 0..rounds {
        let Some(now) = best.draft.clone().filter(|_| !search.watch.stopped() && !best.reached()) else { return };
        let slicing = if round + 1 < rounds { 0.0 } else { plan.slicing };
        // What has been searched for long is disturbed sooner.
        let patience = Patience { sweeps: plan.patience.sweeps / 4, strikes: 1, ..plan.patience };
        let streams: Vec<u64> = (0..STREAMS).map(|stream| 5000 + 10 * u64::from(round) + stream).collect();
        let found = parallel::each(search.watch.threads(), &streams, |stream, numbers| {
            // Few large pieces lie in few ways, each much shorter or longer than the next: one stream asks for more at once.
            let least_cut = if stream == 0 { plan.least_cut } else { 4.0 * plan.least_cut };
            let plan = Plan { first_cut: 4.0 * plan.least_cut, least_cut, moves, slicing, patience };
            search.emptied(&now, &plan, &mut Random::new(search.task.seed, *numbers))
        });
        found.iter().flatten().for_each(|draft| best.offer(draft));
    }
}

/// So many starts, the best first and each used more than once when there are few.
fn promising(mut starts: Vec<Draft>, count: usize, kinds: &[Kind], task: &Task) -> Vec<Draft> {
    let mut chosen: Vec<Draft> = Vec::new();
    while !starts.is_empty() && chosen.len() < count.div_ceil(2) {
        let least = (1..starts.len()).fold(0, |least, at| {
            if starts[at].score(kinds, task).beats(&starts[least].score(kinds, task)) { at } else { least }
        });
        let draft = starts.swap_remove(least);
        if !chosen.contains(&draft) {
            chosen.push(draft);
        }
    }
    let all = chosen.clone();
    all.into_iter().cycle().take(if chosen.is_empty() { 0 } else { count }).collect()
}
