//! Small pieces in the holes of large ones.
//!
//! Each large piece's holes are filled before anything is laid: the largest pieces that fit first, each as near to the hole's
//! upper edge as its neighbours let it come, found on the no-fit regions as in the search, so that the full gap is kept inside.
//! A piece with others in it then counts as one, and every method that lays pieces lays it; [`Filled::opened`] takes it apart
//! again. Pieces with filled holes lie in the holes of still larger ones. Test pieces, which belong on the first sheet, are left
//! for the search to lay.

use std::collections::BTreeMap;

use super::draft::{Draft, DraftSheet, Pose};
use crate::geometry::{Affine, Outline, Point, overlay};
use crate::nest::shape::convolve::no_fit;
use crate::nest::shape::grow::grown;
use crate::nest::shape::kind::{Kind, turn};
use crate::nest::{Item, Task, Turning};

/// How far outward, in millimetres, outlines are simplified before they are laid in a hole.
const COARSE: f64 = 0.05;

/// Pieces in the holes of one piece at most.
const MOST_INSIDE: usize = 200;

/// A task in which pieces with others in their holes count as one.
pub(in crate::nest) struct Filled {
    /// What is to be laid.
    pub(in crate::nest) task: Task,
    /// For each of its items, the pieces of the whole task it stands for, about the first one's origin.
    contents: Vec<Vec<Pose>>,
}

impl Filled {
    /// The draft of the whole task.
    pub(in crate::nest) fn opened(&self, draft: &Draft) -> Draft {
        let open = |sheet: &DraftSheet| DraftSheet {
            stock: sheet.stock,
            poses: sheet
                .poses
                .iter()
                .flat_map(|pose| self.contents[pose.item].iter().map(|q| within(pose, q)))
                .collect(),
        };
        Draft { sheets: draft.sheets.iter().map(open).collect(), method: draft.method }
    }
}

/// Where a piece lies that lies at `inner` in another one's frame.
fn within(outer: &Pose, inner: &Pose) -> Pose {
    let moved = turn(outer.turn_deg) * Point::new(inner.x, inner.y);
    let turn_deg = (outer.turn_deg + inner.turn_deg).rem_euclid(360.0);
    Pose { item: inner.item, turn_deg, x: outer.x + moved.x, y: outer.y + moved.y }
}

/// Like pieces with the like in their holes.
#[derive(Clone, Debug)]
struct Unit {
    count: u32,
    tests: u32,
    /// The outermost piece, then what lies in it.
    contents: Vec<Pose>,
}

impl Unit {
    fn item(&self) -> usize {
        self.contents[0].item
    }

    const fn free(&self) -> u32 {
        self.count - self.tests
    }
}

/// Whether there are holes to fill.
pub(in crate::nest) fn may_fill(kinds: &[Kind]) -> bool {
    kinds.iter().any(|kind| !kind.area.holes().is_empty())
}

/// The task with its holes filled; `None` when nothing lies in any.
pub(in crate::nest) fn filled(task: &Task, kinds: &[Kind]) -> Option<Filled> {
    if !may_fill(kinds) {
        return None;
    }
    let own = |item: usize| vec![Pose { item, turn_deg: 0.0, x: 0.0, y: 0.0 }];
    let unit =
        |(item, wish): (usize, &Item)| Unit { count: wish.quantity, tests: wish.on_first_sheet, contents: own(item) };
    let mut units: Vec<Unit> = task.items.iter().enumerate().map(unit).collect();
    let mut filling = Filling::new(task, kinds);
    let mut hosts: Vec<usize> = (0..kinds.len()).filter(|item| !kinds[*item].area.holes().is_empty()).collect();
    hosts.sort_by(|a, b| kinds[*a].area.outer().area().total_cmp(&kinds[*b].area.outer().area()).then(a.cmp(b)));
    for host in hosts {
        while units[host].count > 0 {
            let guests = filling.fill(host, &units);
            if guests.is_empty() {
                break;
            }
            let mut taken = vec![0u32; units.len()];
            guests.iter().for_each(|(unit, _)| taken[*unit] += 1);
            let often =
                units.iter().zip(&taken).filter(|(_, taken)| **taken > 0).map(|(unit, taken)| unit.free() / taken);
            let times = often.min().unwrap_or(0).min(units[host].count);
            let mut contents = own(host);
            contents.extend(guests.iter().flat_map(|(unit, at)| units[*unit].contents.iter().map(|q| within(at, q))));
            let tests = units[host].tests.min(times);
            units[host].tests -= tests;
            units[host].count -= times;
            units.iter_mut().zip(&taken).for_each(|(unit, taken)| unit.count -= taken * times);
            units.push(Unit { count: times, tests, contents });
        }
    }
    (units.len() > kinds.len()).then(|| collected(task, &units))
}

fn collected(task: &Task, units: &[Unit]) -> Filled {
    let kept = || units.iter().filter(|unit| unit.count > 0);
    let item = |unit: &Unit| {
        let own = &task.items[unit.item()];
        Item { holes: Vec::new(), quantity: unit.count, spares: 0, on_first_sheet: unit.tests, ..own.clone() }
    };
    let items = kept().map(item).collect();
    Filled { task: Task { items, ..task.clone() }, contents: kept().map(|unit| unit.contents.clone()).collect() }
}

/// A shape as it lies in a hole.
type Turned = (usize, usize);

/// Shapes grown by half the gap, and the regions found so far.
struct Filling<'a> {
    kinds: &'a [Kind],
    turns: Vec<f64>,
    grown: Vec<Outline>,
    /// Where the second shape may not lie beside the first.
    regions: BTreeMap<(Turned, Turned), Vec<Outline>>,
}

impl<'a> Filling<'a> {
    fn new(task: &Task, kinds: &'a [Kind]) -> Self {
        let turns: Vec<f64> = match task.turning {
            Turning::None => vec![0.0],
            Turning::Half => vec![0.0, 180.0],
            Turning::Free => vec![0.0, 90.0, 180.0, 270.0],
            // Eight of them at most: a hole that takes a piece at no eighth of a turn is rare.
            Turning::Steps(step) => {
                let all: Vec<f64> = (0..360 / step).map(|k| f64::from(k * step)).collect();
                let every = all.len().div_ceil(8);
                all.into_iter().step_by(every).collect()
            }
        };
        let grown = kinds.iter().map(|kind| grown(&kind.area, task.gap.get(), COARSE)).collect();
        Self { kinds, turns, grown, regions: BTreeMap::new() }
    }

    /// An item's grown outline without its holes at one of the turns.
    fn solid(&self, (item, at): Turned) -> Outline {
        Outline::new(self.grown[item].outer().clone(), Vec::new()).transformed(turn(self.turns[at]))
    }

    /// Units to lie in the holes of an item, and where.
    fn fill(&mut self, host: usize, units: &[Unit]) -> Vec<(usize, Pose)> {
        let roomy = self.kinds[host].area.holes().iter().map(crate::geometry::Ring::area).fold(0.0, f64::max);
        let area = |unit: &usize| self.kinds[units[*unit].item()].area.outer().area();
        let small = |unit: &usize| units[*unit].free() > 0 && units[*unit].item() != host && area(unit) < roomy;
        let mut order: Vec<usize> = (0..units.len()).filter(small).collect();
        order.sort_by(|a, b| area(b).total_cmp(&area(a)).then(a.cmp(b)));
        let mut placed: Vec<(usize, Turned, Point)> = Vec::new();
        for unit in order {
            let item = units[unit].item();
            let mut free: Vec<Vec<Outline>> = (0..self.turns.len()).map(|at| self.free(host, (item, at))).collect();
            for (_, there, at) in &placed {
                self.take_away(&mut free, *there, *at, item);
            }
            for _ in 0..units[unit].free() {
                let Some((at, place)) = self.nearest(&free, item).filter(|_| placed.len() < MOST_INSIDE) else { break };
                placed.push((unit, (item, at), place));
                self.take_away(&mut free, (item, at), place, item);
            }
        }
        let pose = |(unit, (item, at), place): (usize, Turned, Point)| {
            (unit, Pose { item, turn_deg: self.turns[at], x: place.x, y: place.y })
        };
        placed.into_iter().map(pose).collect()
    }

    /// Where a shape may lie in the holes of an item.
    fn free(&self, host: usize, shape: Turned) -> Vec<Outline> {
        let moving = self.solid(shape);
        let in_hole = |free: &Outline| {
            let at = free.outer().points()[0].to_vec2();
            // A pocket of the outline that is no hole has room as well, but only for pieces laid one by one.
            let corners = || moving.outer().points().iter().map(|point| *point + at);
            self.kinds[host].area.holes().iter().any(|hole| corners().any(|corner| hole.contains(corner)))
        };
        let regions = no_fit(&self.grown[host], &moving);
        let holes = regions.iter().flat_map(Outline::holes).map(|hole| Outline::new(hole.clone(), Vec::new()));
        holes.filter(in_hole).collect()
    }

    /// Leaves of the free places of an item those that keep clear of a shape that lies at `at`.
    fn take_away(&mut self, free: &mut [Vec<Outline>], there: Turned, at: Point, item: usize) {
        for (own, free) in free.iter_mut().enumerate().filter(|(_, free)| !free.is_empty()) {
            let pair = (there, (item, own));
            if !self.regions.contains_key(&pair) {
                let region = no_fit(&self.solid(there), &self.solid((item, own)));
                self.regions.insert(pair, region);
            }
            let move_there = Affine::translate(at.to_vec2());
            let taken: Vec<Outline> = self.regions[&pair].iter().map(|area| area.transformed(move_there)).collect();
            *free = overlay::difference(free, &taken);
        }
    }

    /// The turn and place at which an item ends nearest to the upper edge, then to the left one.
    fn nearest(&self, free: &[Vec<Outline>], item: usize) -> Option<(usize, Point)> {
        let mut best: Option<([f64; 2], usize, Point)> = None;
        for (at, areas) in free.iter().enumerate() {
            let bounds = self.kinds[item].bounds_at(self.turns[at]);
            for corner in areas.iter().flat_map(Outline::rings).flat_map(crate::geometry::Ring::points) {
                let ends = [bounds.y1 + corner.y, bounds.x1 + corner.x];
                // A micrometre is no reason to prefer a place.
                let ends = ends.map(|end| (end * 1000.0).round());
                if best.as_ref().is_none_or(|(least, ..)| ends < *least) {
                    best = Some((ends, at, *corner));
                }
            }
        }
        best.map(|(_, at, place)| (at, place))
    }
}
