//! Few boxes fitted as closely as can be: a depth-first search in which every dead end is undone.
//!
//! The sheet is filled from its start. What is filled so far ends in a skyline of level steps, and the lowest of them, the
//! leftmost where several are as low, is dealt with next: some box lies in its left corner, or in its right one, or the step
//! stays empty up to its lower neighbour (after S. Martello, M. Monaci, D. Vigo, "An exact approach to the strip-packing
//! problem", 2003, and the valleys of M. Kenmochi et al., "Exact algorithms for the two-dimensional strip packing problem",
//! 2009). How much may stay empty is allowed beforehand, least first, so that whatever needs more is given up at once: a
//! rectangle that its boxes fill without a gap is found, or proved not to be one, within some hundred steps. Gaps make boxes
//! larger. The count of steps is bounded; where it runs out the plain rules stand.

use super::empty::Fit;
use super::free::{self, Order};
use super::load::{self, Load, WORTHWHILE};
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{Boxed, EXACT, Kind, Room};

/// Boxes of a task at most: beyond, the tree of choices is too wide to be searched to any depth that matters.
const MOST_BOXES: u32 = 64;

/// Boxes that a sheet may hold by area at most.
const MOST_ON_A_SHEET: f64 = 18.0;

/// Steps for one length or one share left empty, and for all of them together; a sheet of several gets a fifth.
const STEPS: (u32, u32) = (50_000, 300_000);

/// Lengths tried between the least that the area allows and what the plain rules take, closer together where they are short.
const LENGTHS: u32 = 14;

/// Shares of a sheet that may stay empty where it cannot take everything.
const EMPTY: [f64; 9] = [0.0, 0.002, 0.005, 0.01, 0.02, 0.04, 0.07, 0.11, 0.16];

/// Whether the search is meant for pieces of such kinds: few, and each as large as its box.
pub(in crate::nest) fn serve(kinds: &[Kind], wanted: &[u32]) -> bool {
    let full = |kind: &Kind| {
        kind.boxes.iter().any(|boxed| kind.area.outer().area() >= boxed.bounds.area() - EXACT * boxed.bounds.width())
    };
    let count: u32 = wanted.iter().fold(0, |sum, count| sum.saturating_add(*count));
    (2..=MOST_BOXES).contains(&count) && kinds.iter().zip(wanted).all(|(kind, count)| *count == 0 || full(kind))
}

/// Lays as much area as found on the least length found; nothing where the search is not meant for such pieces or where no
/// layout holds all that must come first.
pub(in crate::nest) fn fill(load: &Load<'_>) -> Vec<Pose> {
    if !serve(load.kinds, load.wanted) {
        return Vec::new();
    }
    load::hair_apart(load, WORTHWHILE, |load| {
        let mut search = Search::new(load);
        let found = search.all_on_least_length().or_else(|| search.most());
        found.map(|placed| (search.end(&placed), search.poses(&placed)))
    })
}

/// A level step of the skyline.
#[derive(Clone, Copy, Debug)]
struct Step {
    x: f64,
    width: f64,
    y: f64,
}

/// A box that lies somewhere.
#[derive(Clone, Copy, Debug)]
struct Placed {
    /// Index into the choices.
    choice: usize,
    x: f64,
    y: f64,
}

/// An item in one of its boxes, grown by the gap on its far sides.
#[derive(Clone, Copy, Debug)]
struct Choice {
    item: usize,
    boxed: Boxed,
    width: f64,
    height: f64,
}

impl Choice {
    fn area(&self) -> f64 {
        self.width * self.height
    }
}

struct Search<'a> {
    room: &'a Room,
    first: &'a [u32],
    /// Largest first.
    choices: Vec<Choice>,
    width: f64,
    /// Longest allowed.
    most_length: f64,
    /// What the plain rules use, where they lay everything.
    plain: Option<f64>,
    left: Vec<u32>,
    placed: Vec<Placed>,
    /// Length now tried.
    length: f64,
    /// Area that may still stay empty.
    empty: f64,
    /// Area still to be laid until the layout is as good as asked.
    missing: f64,
    both_ends: bool,
    /// Most steps for one length, and in all.
    most_steps: (u32, u32),
    steps: u32,
    steps_in_all: u32,
}

impl<'a> Search<'a> {
    fn new(load: &Load<'a>) -> Self {
        let Load { room, gap, kinds, wanted, first } = *load;
        let asked = (0..kinds.len()).filter(|item| wanted[*item] > 0);
        let boxed = asked.flat_map(|item| kinds[item].boxes_in(room).into_iter().map(move |boxed| (item, boxed)));
        let mut choices: Vec<Choice> = boxed
            .map(|(item, boxed)| {
                let (width, height) = (boxed.bounds.width() + gap, boxed.bounds.height() + gap);
                Choice { item, boxed, width, height }
            })
            .collect();
        choices.sort_by(|a, b| b.area().total_cmp(&a.area()).then(a.item.cmp(&b.item)));
        let none_first = vec![0; wanted.len()];
        let plain = free::fill(Fit::Nearest, Order::LongSide, &Load { first: &none_first, ..*load });
        let far = |pose: &Pose| kinds[pose.item].bounds_at(pose.turn_deg).y1 + pose.y - room.margin + gap;
        let whole = plain.len() == wanted.iter().sum::<u32>() as usize;
        Self {
            room,
            first,
            choices,
            width: room.width + gap,
            most_length: room.length + gap,
            plain: whole.then(|| plain.iter().map(far).fold(0.0, f64::max)),
            left: wanted.to_vec(),
            placed: Vec::new(),
            length: 0.0,
            empty: 0.0,
            missing: 0.0,
            both_ends: false,
            most_steps: if whole { STEPS } else { (STEPS.0 / 5, STEPS.1 / 5) },
            steps: 0,
            steps_in_all: 0,
        }
    }

    /// Area of everything that is wanted, in the smallest box of each item.
    fn wanted_area(&self) -> f64 {
        let least = |item: usize| {
            let own = self.choices.iter().filter(|choice| choice.item == item);
            own.map(Choice::area).fold(f64::INFINITY, f64::min)
        };
        let count = |item: usize| f64::from(self.left[item]);
        (0..self.left.len()).filter(|item| self.left[*item] > 0).map(|item| least(item) * count(item)).sum()
    }

    /// Everything on the least length found; `None` when no length that the sheet has takes everything.
    fn all_on_least_length(&mut self) -> Option<Vec<Placed>> {
        let area = self.wanted_area();
        let narrowest = |item: usize| {
            let own = self.choices.iter().filter(|choice| choice.item == item);
            own.map(|choice| choice.height).fold(f64::INFINITY, f64::min)
        };
        let tallest = (0..self.left.len()).filter(|item| self.left[*item] > 0).map(narrowest).fold(0.0, f64::max);
        let least = (area / self.width).max(tallest);
        let most = self.plain.map_or(self.most_length, |plain| plain.min(self.most_length));
        let each = area / f64::from(self.left.iter().sum::<u32>().max(1));
        if !most.is_finite() || least > most + EXACT || (self.width * most).min(area) / each > MOST_ON_A_SHEET {
            return None;
        }
        let share = |k: u32| (f64::from(k) / f64::from(LENGTHS)).powi(2);
        let (mut failed, mut found) = (least, None);
        for k in 0..=LENGTHS {
            let length = least + (most - least) * share(k);
            found = self.within(length, self.width * length - area, area);
            if found.is_some() || self.steps_in_all >= self.most_steps.1 {
                break;
            }
            failed = length;
        }
        // Between the length that failed and what is used there may be room for a little less.
        let mut best = found?;
        while self.end(&best) - failed > WORTHWHILE && self.steps_in_all < self.most_steps.1 {
            let length = f64::midpoint(self.end(&best) - WORTHWHILE, failed);
            match self.within(length, self.width * length - area, area) {
                Some(shorter) => best = shorter,
                None => failed = length,
            }
            if self.end(&best) - failed <= 2.0 * WORTHWHILE {
                break;
            }
        }
        Some(best)
    }

    /// As much as found of a sheet that cannot take everything.
    fn most(&mut self) -> Option<Vec<Placed>> {
        let each = self.wanted_area() / f64::from(self.left.iter().sum::<u32>().max(1));
        let whole = self.width * self.most_length;
        if !whole.is_finite() || whole / each > MOST_ON_A_SHEET {
            return None;
        }
        EMPTY.iter().find_map(|share| {
            let go_on = self.steps_in_all < self.most_steps.1;
            go_on.then(|| self.within(self.most_length, whole * share, whole * (1.0 - share))).flatten()
        })
    }

    /// A layout of so much area on a length, with so much empty at the most.
    fn within(&mut self, length: f64, empty: f64, area: f64) -> Option<Vec<Placed>> {
        // Where nothing may stay empty a box in the right corner would come to lie there anyway.
        for both_ends in [false, true] {
            (self.length, self.empty, self.missing) = (length, empty.max(0.0) + EXACT * length, area - EXACT * length);
            (self.both_ends, self.steps) = (both_ends, 0);
            self.placed.clear();
            let whole = self.left.clone();
            let found = self.descend(&[Step { x: 0.0, width: self.width, y: 0.0 }]);
            self.left = whole;
            self.steps_in_all += self.steps;
            if found {
                return Some(std::mem::take(&mut self.placed));
            }
        }
        None
    }

    fn alike(&self, a: usize, b: usize) -> bool {
        let (a, b) = (self.choices[a], self.choices[b]);
        (a.width - b.width).abs() < EXACT
            && (a.height - b.height).abs() < EXACT
            && self.first[a.item] == 0
            && self.first[b.item] == 0
    }

    fn holds_first(&self) -> bool {
        let on = |item: usize| self.placed.iter().filter(|placed| self.choices[placed.choice].item == item).count();
        self.first.iter().enumerate().all(|(item, count)| on(item) >= *count as usize)
    }

    /// Deals with the lowest step of the skyline; true once so much is laid as asked, and then nothing is undone.
    fn descend(&mut self, skyline: &[Step]) -> bool {
        if self.missing <= 0.0 {
            return self.holds_first();
        }
        self.steps += 1;
        let lowest =
            (1..skyline.len()).fold(0, |low, at| if skyline[at].y < skyline[low].y - EXACT { at } else { low });
        let step = skyline[lowest];
        let spent = self.steps > self.most_steps.0 || step.y >= self.length - EXACT;
        if spent || self.surely_empty(skyline) > self.empty {
            return false;
        }
        let fits =
            |choice: &Choice| choice.width <= step.width + EXACT && step.y + choice.height <= self.length + EXACT;
        let fills = |choice: &Choice| choice.width >= step.width - EXACT;
        let fitting = |at: &usize| self.left[self.choices[*at].item] > 0 && fits(&self.choices[*at]);
        let (mut order, rest): (Vec<usize>, Vec<usize>) =
            (0..self.choices.len()).filter(fitting).partition(|at| fills(&self.choices[*at]));
        let filling = order.len();
        order.extend(rest);
        for rank in 0..order.len() {
            let choice = order[rank];
            // A box of another item that is as large leads nowhere else, unless one of them must lie here as a test.
            if order[..rank].iter().any(|before| self.alike(*before, choice)) {
                continue;
            }
            let Choice { item, width, height, .. } = self.choices[choice];
            let area = width * height;
            let ends: &[bool] = if self.both_ends && rank >= filling { &[false, true] } else { &[false] };
            for right in ends {
                let x = if *right { step.x + step.width - width } else { step.x };
                self.left[item] -= 1;
                self.missing -= area;
                self.placed.push(Placed { choice, x, y: step.y });
                let raised = Step { x, width: width.min(step.width), y: step.y + height };
                if self.descend(&raise(skyline, lowest, raised)) {
                    return true;
                }
                self.placed.pop();
                self.missing += area;
                self.left[item] += 1;
            }
        }
        let beside = [lowest.checked_sub(1), Some(lowest + 1)];
        let neighbours = beside.into_iter().flatten().filter_map(|at| skyline.get(at)).map(|step| step.y);
        let up_to = neighbours.fold(self.length, f64::min);
        let empty = step.width * (up_to - step.y);
        if empty > self.empty {
            return false;
        }
        self.empty -= empty;
        let found = self.descend(&raise(skyline, lowest, Step { y: up_to, ..step }));
        if !found {
            self.empty += empty;
        }
        found
    }

    /// Area above the skyline that no box still to be laid can cover: too near the end, or between neighbours too close.
    fn surely_empty(&self, skyline: &[Step]) -> f64 {
        let (mut least_width, mut least_height) = (f64::INFINITY, f64::INFINITY);
        for choice in self.choices.iter().filter(|choice| self.left[choice.item] > 0) {
            least_width = least_width.min(choice.width);
            least_height = least_height.min(choice.height);
        }
        let empty = |(at, step): (usize, &Step)| {
            if self.length - step.y < least_height - EXACT {
                return step.width * (self.length - step.y);
            }
            let beside = at.checked_sub(1).into_iter().chain([at + 1]).filter_map(|at| skyline.get(at));
            let up_to = beside.map(|step| step.y).fold(self.length, f64::min);
            if step.width < least_width - EXACT { step.width * (up_to - step.y).max(0.0) } else { 0.0 }
        };
        skyline.iter().enumerate().map(empty).sum()
    }

    /// Length used, one gap beyond the last box.
    fn end(&self, placed: &[Placed]) -> f64 {
        placed.iter().map(|placed| placed.y + self.choices[placed.choice].height).fold(0.0, f64::max)
    }

    fn poses(&self, placed: &[Placed]) -> Vec<Pose> {
        let pose = |placed: &Placed| {
            let Choice { item, boxed, .. } = self.choices[placed.choice];
            load::pose(item, &boxed, placed.x, placed.y, self.room)
        };
        placed.iter().map(pose).collect()
    }
}

/// The skyline with a part of one step raised, and steps as high as their neighbours joined with them.
fn raise(skyline: &[Step], at: usize, raised: Step) -> Vec<Step> {
    let step = skyline[at];
    let before = Step { width: raised.x - step.x, ..step };
    let end = raised.x + raised.width;
    let after = Step { x: end, width: step.x + step.width - end, ..step };
    let parts = [before, raised, after].into_iter().filter(|part| part.width > EXACT);
    let mut made: Vec<Step> = Vec::with_capacity(skyline.len() + 2);
    for step in skyline[..at].iter().copied().chain(parts).chain(skyline[at + 1..].iter().copied()) {
        match made.last_mut().filter(|last| (last.y - step.y).abs() <= EXACT) {
            Some(last) => last.width = step.x + step.width - last.x,
            None => made.push(step),
        }
    }
    made
}
