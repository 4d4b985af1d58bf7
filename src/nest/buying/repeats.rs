//! Layouts of many like pieces: patterns that repeat, cut to the sheets of a task, and columns shaken down.

use super::draft::{Draft, room};
use crate::geometry::{Outline, Rect};
use crate::nest::by_box::boxes::RULES;
use crate::nest::by_box::fills::Fills;
use crate::nest::by_box::load::SAFETY;
use crate::nest::by_box::simple;
use crate::nest::pattern::columns;
use crate::nest::pattern::lattice::{self, Lattice};
use crate::nest::pattern::patterns::{self, Patterns};
use crate::nest::pattern::ring::{self, Ring};
use crate::nest::search::jostle::Shaking;
use crate::nest::search::random::Random;
use crate::nest::search::sheets::{self, Search};
use crate::nest::search::shorten::Plan;
use crate::nest::search::watch::Watch;
use crate::nest::shape::kind::{Kind, Room};
use crate::nest::shape::shapes::Shapes;
use crate::nest::{Task, Turning};
use crate::parallel;

/// Like pieces from which on patterns that repeat are looked for.
const MANY_ALIKE: u32 = 12;

/// The shapes of a task, those there is much of begun with the rows of their densest lattice along the edge where turning is
/// free, and those lattices. What stock there is plays no part.
pub(in crate::nest) struct Dense {
    pub(in crate::nest) shapes: Shapes,
    kinds: Vec<OfKind>,
}

/// What is found of one kind; nothing where there are few of it.
#[derive(Default)]
struct OfKind {
    /// Where one of it overlaps another.
    same: Vec<Outline>,
    /// Degrees its shape is turned by at first.
    base: f64,
    /// Its lattices before that turn, the densest first.
    lattices: Vec<Lattice>,
}

impl Dense {
    /// `None` when there are too many kinds for a search.
    pub(in crate::nest) fn of(task: &Task, kinds: &[Kind], watch: &Watch<'_>) -> Option<Self> {
        let shapes = sheets::shapes(task, kinds)?;
        let half = shapes.half_turn();
        let items: Vec<usize> = (0..kinds.len()).collect();
        let found = parallel::each(watch.threads(), &items, |_, item| {
            if task.items[*item].quantity < MANY_ALIKE || watch.stopped() {
                return OfKind::default();
            }
            let same = shapes.region(*item, 0);
            let double = half.and_then(|half| lattice::double(&same, &shapes.region(*item, half)));
            let mut lattices: Vec<Lattice> = lattice::single(&same).into_iter().chain(double).collect();
            lattices.sort_by(|a, b| a.area_each().total_cmp(&b.area_each()));
            let base = match lattices.first() {
                Some(lattice) if task.turning == Turning::Free => (-lattice.u.atan2().to_degrees()).rem_euclid(360.0),
                _ => 0.0,
            };
            OfKind { same, base, lattices }
        });
        let needs: Vec<Option<f64>> = found.iter().map(|kind| kind.lattices.first().map(Lattice::area_each)).collect();
        let bases: Vec<f64> = found.iter().map(|kind| kind.base).collect();
        Some(Self { shapes: shapes.based(kinds, &bases, &needs), kinds: found })
    }

    /// The lattices to cut sheets from, with those whose rows end flush at the edges of one.
    pub(in crate::nest) fn patterns(&self, kinds: &[Kind], sheet: Option<Room>, watch: &Watch<'_>) -> Vec<Patterns> {
        parallel::each(watch.threads(), &self.kinds, |item, OfKind { same, base, lattices }| {
            let turned = |lattices: &[Lattice]| lattices.iter().map(|lattice| lattice.turned(*base)).collect();
            let rows = sheet.filter(|_| !same.is_empty() && !watch.stopped());
            let rows = rows.map(|room| rows_along_edges(same, *base, kinds[item].bounds_at(*base), &room));
            Patterns { lattices: turned(lattices), rows: turned(&rows.unwrap_or_default()), rings: Vec::new() }
        })
    }
}

/// Rows across a sheet and down it, of a shape turned by `base` degrees, before that turn.
fn rows_along_edges(same: &[Outline], base: f64, bounds: Rect, room: &Room) -> Vec<Lattice> {
    let across = (0.0, room.width - bounds.width());
    let down = (90.0, room.length - bounds.height());
    let edges = [across, down].into_iter().filter(|(_, travel)| travel.is_finite() && *travel > 0.0);
    edges.flat_map(|(along, travel)| lattice::in_rows(same, (along - base).to_radians(), travel)).collect()
}

/// Pressure on shaken pieces at the start, where patches of the lattice just begin to slide, and at the end, where a
/// thousandth of the length is open.
const PRESSURE: (f64, f64) = (12.0, 2_000.0);

/// Moves of shaken pieces in all, for each way: as many as twelve hundred pieces make in full.
const MOST_SHAKEN: u32 = 72_000_000;

/// Like pieces on one sheet or roll, shaken down from the columns that promise most.
pub(in crate::nest) fn shaken(search: &Search<'_>, (ways, sweeps): (usize, u32)) -> Vec<Draft> {
    let task = search.task;
    let kinds: Vec<usize> = (0..task.items.len()).filter(|item| task.items[*item].quantity > 0).collect();
    let [item] = kinds[..] else { return Vec::new() };
    if task.items[item].quantity < MANY_ALIKE || ways == 0 {
        return Vec::new();
    }
    let mut starts: Vec<(f64, usize, u32)> = Vec::new();
    for stock in 0..task.stock.len() {
        let width = room(stock, task).width;
        let widest = width / search.shapes.shape(item).size;
        for columns in (1..=task.items[item].quantity).take_while(|columns| f64::from(*columns) < 3.0 * widest) {
            if let Some(needs) = columns::needs(search.shapes, item, width, columns) {
                starts.push((needs, stock, columns));
            }
        }
    }
    starts.sort_by(|a, b| a.0.total_cmp(&b.0));
    starts.truncate(ways);
    let shaking = Shaking { sweeps: sweeps.min(MOST_SHAKEN / task.items[item].quantity), pressure: PRESSURE };
    let found = parallel::each(search.watch.threads(), &starts, |index, (_, stock, columns)| {
        let mut random = Random::new(task.seed, 4000 + index as u64);
        search.shaken(item, (*stock, *columns), shaking, &mut random)
    });
    found.into_iter().flatten().collect()
}

/// One way of looking for rings: so many of each item round a sheet of some width.
struct RingTask {
    item: Option<usize>,
    counts: Vec<u32>,
}

/// Drafts made of patterns that repeat: kind after kind, and all kinds mixed.
pub(in crate::nest) fn repeated(
    search: &Search<'_>,
    drafts: &[Draft],
    patterns: &mut [Patterns],
    plan: &Plan,
    most: usize,
) -> Vec<Draft> {
    let (task, kinds, shapes) = (search.task, search.kinds, search.shapes);
    let Some(main) = drafts.first().and_then(|draft| draft.sheets.last()).map(|sheet| sheet.stock) else {
        return Vec::new();
    };
    let wanted: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
    let width = room(main, task).width;
    let alone =
        |item: usize| -> Vec<u32> { (0..wanted.len()).map(|k| if k == item { wanted[k] } else { 0 }).collect() };
    let several = wanted.iter().filter(|count| **count > 0).count() > 1;
    let mut rings: Vec<RingTask> = Vec::new();
    let most = most / if several { 2 } else { 1 };
    if several {
        rings.extend(
            ring::mixtures(shapes, width, &wanted, most).into_iter().map(|counts| RingTask { item: None, counts }),
        );
    }
    let many: Vec<usize> = (0..wanted.len()).filter(|item| wanted[*item] >= MANY_ALIKE).collect();
    for item in &many {
        let mixtures = ring::mixtures(shapes, width, &alone(*item), most.div_ceil(many.len()));
        rings.extend(mixtures.into_iter().map(|counts| RingTask { item: Some(*item), counts }));
    }
    let found = parallel::each(search.watch.threads(), &rings, |index, ring| {
        let mut random = Random::new(task.seed, 3000 + index as u64);
        ring::densest(shapes, width, &ring.counts, plan, &mut random, search.watch)
    });
    let mut mixed: Vec<Ring> = Vec::new();
    for (task, ring) in rings.iter().zip(found) {
        let Some(ring) = ring else { continue };
        match task.item {
            Some(item) => patterns[item].rings.push(ring),
            None => mixed.push(ring),
        }
    }
    mixed.sort_by(|a, b| b.cover(shapes).total_cmp(&a.cover(shapes)));
    mixed.truncate(2);
    let mixed = mixed.iter().map(|ring| filled(search, ring, main, &wanted));
    let apart = patterns::laid(shapes, patterns, main, kinds, task);
    mixed.chain(apart).filter(|draft| tests_lie_first(draft, task)).collect()
}

/// Sheets filled with a ring of several kinds, and what it leaves over by boxes.
fn filled(search: &Search<'_>, ring: &Ring, main: usize, wanted: &[u32]) -> Draft {
    let (task, kinds) = (search.task, search.kinds);
    let mut left = wanted.to_vec();
    let mut draft = Draft { sheets: Vec::new(), method: "lattice" };
    let most = if task.stock[main].height.is_none() { 1 } else { usize::MAX };
    let most = task.stock[main].available.map_or(most, |available| most.min(available as usize));
    while draft.sheets.len() < most && left.iter().any(|count| *count > 0) {
        let sheet = search.of_ring(ring, main, &mut left);
        if sheet.poses.is_empty() {
            break;
        }
        draft.sheets.push(sheet);
    }
    let mut rest = simple::by_boxes(&RULES, main, &left, &Fills::new(kinds), task);
    if task.stock[main].height.is_none()
        && let (Some(last), Some(more)) = (draft.sheets.last_mut(), rest.sheets.first_mut())
    {
        let down = last.used(kinds, task) - 2.0 * task.margin.get() + task.gap.get() + SAFETY;
        more.poses.iter_mut().for_each(|pose| pose.y += down);
        last.poses.append(&mut more.poses);
    } else {
        draft.sheets.append(&mut rest.sheets);
    }
    draft
}

fn tests_lie_first(draft: &Draft, task: &Task) -> bool {
    let first = draft.sheets.first().map_or(&[][..], |sheet| &sheet.poses);
    task.items
        .iter()
        .enumerate()
        .all(|(item, wish)| first.iter().filter(|pose| pose.item == item).count() >= wish.on_first_sheet as usize)
}
