//! Which sheets to open and how to fill them: several methods lay out the same task, and the best verified layout is kept.

use super::draft::{Draft, Score, room};
use super::{alone, alternatives, beyond_drawer, bound, drawer, inside, mixes, repeats, spare_room, spares, tidy};
use crate::nest::by_box::sets;
use crate::nest::by_box::simple;
use crate::nest::pattern::patterns::Patterns;
use crate::nest::search::part::Patience;
use crate::nest::search::random::Random;
use crate::nest::search::sheets::{self, Search};
use crate::nest::search::shorten::Plan;
use crate::nest::search::watch::Watch;
use crate::nest::shape::kind::Kind;
use crate::nest::shape::shapes::Shapes;
use crate::nest::unplaced::unplaced;
use crate::nest::{Effort, Ended, Layout, Progress, Task, Unplaced, verify};
use crate::parallel;

/// How much work goes into each part of a search, in moves of one piece.
#[derive(Clone, Copy, Debug)]
struct Budget {
    /// Rings of different length tried, and moves for each.
    rings: (usize, u64),
    /// Sets of sheets tried in vain before the search for a better one ends, and moves for each.
    sets: (usize, u64),
    /// Searches side by side that empty the last sheet, and moves for each.
    emptying: (usize, u64),
    /// Ways of standing in columns that like pieces are shaken down from, and sweeps for each.
    shaking: (usize, u32),
    /// Rounds in which [`STREAMS`] searches go on from the best layout, and moves for each of them.
    going_on: (u32, u64),
    /// The same where pieces of one kind lie on several sheets and there are no other such rounds: one more on each full sheet
    /// is often found, and the second round, from what the first has found, often finds another.
    alike: (u32, u64),
}

/// Searches side by side that start from one layout.
const STREAMS: u64 = 2;

impl Budget {
    const fn of(effort: Effort) -> Self {
        match effort {
            Effort::Quick => Self {
                rings: (2, 400),
                sets: (1, 1_000),
                emptying: (2, 1_000),
                shaking: (0, 0),
                going_on: (0, 0),
                alike: (2, 1_500),
            },
            Effort::Usual => Self {
                rings: (3, 300),
                sets: (2, 4_000),
                emptying: (2, 7_000),
                shaking: (0, 0),
                going_on: (0, 0),
                alike: (2, 2_000),
            },
            Effort::Thorough => Self {
                rings: (20, 4_000),
                sets: (3, 20_000),
                emptying: (4, 12_000),
                shaking: (2, 60_000),
                going_on: (6, 32_000),
                alike: (1, 32_000),
            },
        }
    }

    /// Rounds that go on from the best layout.
    const fn rounds(&self, alike_on_several_sheets: bool) -> (u32, u64) {
        if self.going_on.0 == 0 && alike_on_several_sheets { self.alike } else { self.going_on }
    }

    /// About as many moves as one search of a task takes.
    fn of_one_search(&self, kinds: &[Kind], task: &Task) -> u64 {
        let (rounds, moves) = self.rounds(shapes_of_one_kind(kinds, task));
        let going_on = u64::from(rounds) * STREAMS * moves;
        self.rings.0 as u64 * self.rings.1 + self.sets.1 + self.emptying.0 as u64 * self.emptying.1 + going_on
    }

    /// About as many moves as a whole plan takes: each size alone, then all of them, holes filled before or not.
    fn of_a_plan(&self, kinds: &[Kind], task: &Task) -> u64 {
        let searches = (alone::each(kinds, task).len() as u64 + 1) * if inside::may_fill(kinds) { 2 } else { 1 };
        searches * self.of_one_search(kinds, task)
    }
}

/// Whether all pieces are of one kind and no rectangles.
fn shapes_of_one_kind(kinds: &[Kind], task: &Task) -> bool {
    let asked = task.items.iter().filter(|item| item.quantity > 0).count();
    asked == 1 && !kinds.iter().all(Kind::fills_its_box)
}

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
    let (draft, shapes) = planned(&within, &kinds, budget, &watch);
    let draft = tidy::sorted(draft.unwrap_or(Draft { sheets: Vec::new(), method: "grid" }), &within);
    let ended = if watch.stopped() { Ended::StoppedEarly } else { Ended::Complete };
    let mut layout = finish(&draft, &kinds, &within, unplaced, ended);
    let mut likely = Vec::new();
    if ended == Ended::Complete {
        watch.begins(asks_for_fewer);
        let search = shapes.as_ref().map(|shapes| Search { task: &within, kinds: &kinds, shapes, watch: &watch });
        likely = spares::likely(&draft, &kinds, &within, search.as_ref());
    }
    let stopped = watch.stopped();
    drop(watch);
    if !likely.is_empty() && !stopped {
        // What is promised must be what she gets when she asks for it.
        let trial = Watch::of_a_trial(progress, moves * likely.len() as u64, "again with one spare fewer");
        let plan = |fewer: &Task| planned(fewer, &kinds, budget, &trial).0.filter(|_| !trial.stopped());
        layout.alternatives = spares::confirmed(likely, &draft, &kinds, &within, plan);
    }
    layout.alternatives.extend(alternatives::larger_last(&draft, &kinds, &within));
    layout.alternatives.extend(spare_room::sentence(&draft, &kinds, &within));
    layout
}

/// How hard it pays to search: rectangles of one size lie in blocks, and nothing shakes them closer together.
fn worthwhile(effort: Effort, kinds: &[Kind], task: &Task) -> Effort {
    let mut asked = (0..kinds.len()).filter(|item| task.items[*item].quantity > 0);
    match (effort, asked.next(), asked.next()) {
        (Effort::Thorough, Some(item), None) if kinds[item].fills_its_box() => Effort::Usual,
        _ => effort,
    }
}

/// The best draft of a task and the shapes it was searched with; where the drawer is all there is and seems not to hold
/// everything, searched once more before that is said.
fn planned(task: &Task, kinds: &[Kind], budget: Budget, watch: &Watch<'_>) -> (Option<Draft>, Option<Shapes>) {
    let (draft, shapes) = of_given_stock(task, kinds, budget, watch);
    let lacks = |draft: &Draft| !missing(draft, task).is_empty();
    let again = draft.as_ref().is_none_or(lacks) && !watch.stopped();
    let Some(more) = again.then(|| beyond_drawer::with_more(task)).flatten() else { return (draft, shapes) };
    let found = of_given_stock(&more, kinds, budget, watch).0;
    let found = found.map(|draft| beyond_drawer::from_the_drawer(draft, task)).filter(|found| {
        let better = draft.as_ref().is_none_or(|now| found.score(kinds, task).beats(&now.score(kinds, task)));
        better && verify(task, &finish(found, kinds, task, missing(found, task), Ended::Complete)).is_empty()
    });
    (found.or(draft), shapes)
}

/// The best draft of a task, each size of stock that could do alone tried alone before the mixes, and the shapes it was
/// searched with.
fn of_given_stock(task: &Task, kinds: &[Kind], budget: Budget, watch: &Watch<'_>) -> (Option<Draft>, Option<Shapes>) {
    let filled = inside::filled(task, kinds).map(|filled| {
        let kinds = filled.task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
        (filled, kinds)
    });
    let searching = Searching { kinds, filled, moves: budget.of_one_search(kinds, task), budget, watch };
    let simple = simple::drafts(kinds, task);
    let mut best = simple.first().map(|draft| draft.score(kinds, task));
    let mut starts = Vec::new();
    for alone in alone::each(kinds, task) {
        if best.is_some_and(|best| !alone.may_better(&best)) {
            searching.passed_over();
            continue;
        }
        let simple = simple::drafts(kinds, &alone.task);
        let found = searching.of_stock(&alone.task, simple, Vec::new()).0;
        if let Some(draft) = found.map(|draft| alone.of_all(draft)) {
            let score = draft.score(kinds, task);
            if best.is_none_or(|best| score.beats(&best)) {
                best = Some(score);
            }
            starts.push(draft);
        }
    }
    searching.of_stock(task, simple, starts)
}

/// The searches of one plan, for one choice of stock after another.
struct Searching<'a> {
    kinds: &'a [Kind],
    /// The pieces with others in their holes, and their kinds.
    filled: Option<(inside::Filled, Vec<Kind>)>,
    /// About as many moves as one search takes.
    moves: u64,
    budget: Budget,
    watch: &'a Watch<'a>,
}

impl Searching<'_> {
    /// The best draft of a task that differs from the others in its stock, small pieces in the holes of large ones or not.
    fn of_stock(&self, task: &Task, simple: Vec<Draft>, mut starts: Vec<Draft>) -> (Option<Draft>, Option<Shapes>) {
        if inside::may_fill(self.kinds) {
            self.watch.begins(self.moves);
        }
        if let Some((filled, kinds)) = &self.filled {
            let units = Task { stock: task.stock.clone(), ..filled.task.clone() };
            let simple = simple::drafts(kinds, &units);
            let draft = best_draft(&units, kinds, (simple, Vec::new()), self.budget, self.watch).0;
            starts.extend(draft.map(|draft| filled.opened(&draft)));
        }
        self.watch.begins(self.moves);
        best_draft(task, self.kinds, (simple, starts), self.budget, self.watch)
    }

    /// A choice of stock that is not searched counts as done.
    fn passed_over(&self) {
        self.watch.begins(self.moves * if inside::may_fill(self.kinds) { 2 } else { 1 });
    }
}

/// The best draft of a task whose pieces all fit some stock, from its simple layouts and others, and the shapes it was searched
/// with.
fn best_draft(
    task: &Task,
    kinds: &[Kind],
    (mut drafts, starts): (Vec<Draft>, Vec<Draft>),
    budget: Budget,
    watch: &Watch<'_>,
) -> (Option<Draft>, Option<Shapes>) {
    for draft in drafts.first().and_then(|first| sets::cheaper(first, kinds, task)).into_iter().chain(starts) {
        let best = drafts.first().is_none_or(|best| draft.score(kinds, task).beats(&best.score(kinds, task)));
        drafts.insert(if best { 0 } else { drafts.len() }, draft);
    }
    let shapes = if watch.stopped() { None } else { sheets::shapes(task, kinds) };
    let (shapes, mut patterns) = shapes.map_or((None, Vec::new()), |shapes| {
        let main = drafts.first().and_then(|draft| draft.sheets.last()).map(|sheet| room(sheet.stock, task));
        let (shapes, patterns) = repeats::with_lattices(shapes, kinds, task, main, watch);
        (Some(shapes), patterns)
    });
    let search = shapes.as_ref().map(|shapes| Search { task, kinds, shapes, watch });
    let least = bound::least(kinds, task);
    let mut best = Best { task, kinds, watch, least, draft: None, sound: false };
    drafts.iter().for_each(|draft| best.offer(draft));
    // One piece lies best in its smallest box.
    let alone = task.items.iter().map(|item| item.quantity).sum::<u32>() < 2;
    if let Some(search) = search.as_ref().filter(|_| !alone && !best.reached()) {
        improve(search, &drafts, &mut patterns, budget, &mut best);
    }
    // Each round closes one off-cut, so there are no more rounds than sheets.
    while let Some(now) = best.draft.clone() {
        drawer::one_fewer(&now, kinds, task).iter().for_each(|draft| best.offer(draft));
        if best.draft.as_ref() == Some(&now) {
            break;
        }
    }
    (best.draft, shapes)
}

/// The best verified draft; until there is one, the best of those that are not.
struct Best<'a> {
    task: &'a Task,
    kinds: &'a [Kind],
    watch: &'a Watch<'a>,
    /// No draft's score is better.
    least: Score,
    draft: Option<Draft>,
    sound: bool,
}

impl Best<'_> {
    /// Whether there is nothing left to gain.
    fn reached(&self) -> bool {
        let score = self.draft.as_ref().map(|draft| draft.score(self.kinds, self.task));
        self.sound && score.is_some_and(|score| bound::reached(&score, &self.least))
    }

    /// Takes a draft when it is better than all before and sound.
    fn offer(&mut self, draft: &Draft) {
        let score = draft.score(self.kinds, self.task);
        let better = self.draft.as_ref().is_none_or(|best| score.beats(&best.score(self.kinds, self.task)));
        if self.sound && !better {
            return;
        }
        let made = finish(draft, self.kinds, self.task, missing(draft, self.task), Ended::Complete);
        let sound = verify(self.task, &made).is_empty();
        if sound || self.draft.is_none() {
            let sheets = draft.sheets.len();
            let plural = if sheets == 1 { "sheet" } else { "sheets" };
            self.watch.tell(format!("{sheets} {plural}, the last used to {:.0} mm", score.last_used));
            (self.draft, self.sound) = (Some(draft.clone()), sound);
        }
    }
}

/// Pieces a draft leaves out where there is not stock enough for all.
fn missing(draft: &Draft, task: &Task) -> Vec<Unplaced> {
    let mut left: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
    for pose in draft.sheets.iter().flat_map(|sheet| &sheet.poses) {
        left[pose.item] = left[pose.item].saturating_sub(1);
    }
    let items = left.into_iter().enumerate().filter(|(_, quantity)| *quantity > 0);
    items.map(|(item, quantity)| Unplaced::for_want_of_stock(item, quantity)).collect()
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

pub(in crate::nest) fn finish(
    draft: &Draft,
    kinds: &[Kind],
    task: &Task,
    unplaced: Vec<Unplaced>,
    ended: Ended,
) -> Layout {
    Layout {
        sheets: draft.sheets(kinds, task),
        unplaced,
        cost: draft.cost(kinds, task),
        method: draft.method,
        alternatives: Vec::new(),
        ended,
    }
}
