//! What leaving out one spare would save.

use std::collections::BTreeSet;

use super::draft::Draft;
use super::mixes;
use crate::nest::Task;
use crate::nest::by_box::fills::Fills;
use crate::nest::by_box::simple;
use crate::nest::search::part::Patience;
use crate::nest::search::random::Random;
use crate::nest::search::sheets::Search;
use crate::nest::shape::kind::Kind;
use crate::parallel;

/// Moves spent on finding out whether one spare fewer needs fewer sheets.
const MOVES: u64 = 1_500;

/// Motifs with spares.
fn motifs(task: &Task) -> Vec<&str> {
    let motifs: BTreeSet<&str> =
        task.items.iter().filter(|item| item.spares > 0).map(|item| item.motif.as_str()).collect();
    motifs.into_iter().collect()
}

/// Moves that [`likely`] spends at most.
pub(in crate::nest) fn moves(task: &Task) -> u64 {
    MOVES * motifs(task).len() as u64
}

/// A motif, and the task with one spare of it less.
pub(in crate::nest) struct OneFewer {
    motif: String,
    task: Task,
}

/// Where a short search finds that one spare of a motif less needs fewer sheets.
pub(in crate::nest) fn likely(
    draft: &Draft,
    kinds: &[Kind],
    task: &Task,
    search: Option<&Search<'_>>,
) -> Vec<OneFewer> {
    let threads = search.map_or(1, |search| search.watch.threads());
    let likely = parallel::each(threads, &motifs(task), |_, motif| {
        let fewer = without_one(task, motif);
        let other = with_fewer_sheets(draft, kinds, &fewer, search)?;
        // Fewer sheets of a larger size may cost more.
        saved(draft, &other, kinds, (task, &fewer)).map(|_| OneFewer { motif: (*motif).to_owned(), task: fewer })
    });
    likely.into_iter().flatten().collect()
}

/// What is so of that by `plan`, which lays a task as it is laid when she asks for it.
pub(in crate::nest) fn confirmed(
    likely: Vec<OneFewer>,
    draft: &Draft,
    kinds: &[Kind],
    task: &Task,
    plan: impl Fn(&Task) -> Option<Draft>,
) -> Vec<String> {
    let said = likely.into_iter().filter_map(|OneFewer { motif, task: fewer }| {
        let saved = saved(draft, &plan(&fewer)?, kinds, (task, &fewer))?;
        let saved = saved.map_or_else(String::new, |saved| format!(" ({saved:.2} less to pay)"));
        Some(format!("one fewer spare of {motif} saves a sheet{saved}"))
    });
    said.collect()
}

/// What another draft, of a task with fewer pieces, costs less, where prices tell; `None` where it saves no sheet or no money.
fn saved(draft: &Draft, other: &Draft, kinds: &[Kind], (task, fewer): (&Task, &Task)) -> Option<Option<f64>> {
    let (now, then) = (draft.score(kinds, task), other.score(kinds, fewer));
    let saved = draft.cost(kinds, task).zip(other.cost(kinds, fewer)).map(|(now, then)| now - then);
    let saves = then.missing <= now.missing && then.sheets < now.sheets && saved.is_none_or(|saved| saved >= 0.005);
    saves.then_some(saved)
}

/// The task with one spare of a motif less.
fn without_one(task: &Task, motif: &str) -> Task {
    let mut fewer = task.clone();
    for item in fewer.items.iter_mut().filter(|item| item.motif == motif && item.spares > 0) {
        item.quantity -= 1;
        item.spares -= 1;
        item.on_first_sheet = item.on_first_sheet.min(item.quantity);
    }
    fewer
}

fn with_fewer_sheets(draft: &Draft, kinds: &[Kind], fewer: &Task, search: Option<&Search<'_>>) -> Option<Draft> {
    let simple = simple::drafts(&Fills::new(kinds), fewer).into_iter().next()?;
    if simple.sheets.len() < draft.sheets.len() {
        return Some(simple);
    }
    let search = Search { task: fewer, ..*search? };
    let mut start = draft.clone();
    let mut over: Vec<u32> = vec![0; kinds.len()];
    for pose in start.sheets.iter().flat_map(|sheet| &sheet.poses) {
        over[pose.item] += 1;
    }
    for (over, item) in over.iter_mut().zip(&fewer.items) {
        *over = over.saturating_sub(item.quantity);
    }
    for sheet in start.sheets.iter_mut().rev() {
        sheet.poses.retain(|pose| {
            let drop = over[pose.item] > 0;
            over[pose.item] -= u32::from(drop);
            !drop
        });
    }
    start.sheets.retain(|sheet| !sheet.poses.is_empty());
    if start.sheets.len() < draft.sheets.len() {
        return Some(start);
    }
    let sets = mixes::better_than(&start, kinds, search.shapes, fewer);
    let set = sets.into_iter().find(|set| set.len() < draft.sheets.len())?;
    let patience = Patience { anywhere: 50, nearby: 25, sweeps: 100, strikes: 2, moves: MOVES };
    search.onto(&start, &set, patience, &mut Random::new(fewer.seed, 4000))
}
