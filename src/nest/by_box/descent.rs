//! A depth-first search for boxes in a rectangle in which every dead end is undone.
//!
//! The rectangle is filled from its start. What is filled so far ends in a skyline of level steps, and the lowest of them, the
//! leftmost where several are as low, is dealt with next: some box lies in its left corner, or in its right one, or the step
//! stays empty up to its lower neighbour (after S. Martello, M. Monaci, D. Vigo, "An exact approach to the strip-packing
//! problem", 2003, and the valleys of M. Kenmochi et al., "Exact algorithms for the two-dimensional strip packing problem",
//! 2009). What is left to do hangs on the skyline and on what is left to lay alone, so a state that failed once is not gone
//! into again.

use super::dead_ends::{DeadEnds, mixed, of_length};
use super::side_sums::SideSums;
use super::skyline::{Skyline, Step};
use crate::nest::shape::kind::{Boxed, EXACT};

/// A box that lies somewhere.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    /// Index into the choices.
    pub(super) choice: usize,
    pub(super) x: f64,
    pub(super) y: f64,
}

/// An item in one of its boxes, grown by the gap on its far sides.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choice {
    pub(super) item: usize,
    pub(super) boxed: Boxed,
    pub(super) width: f64,
    pub(super) height: f64,
}

impl Choice {
    pub(super) fn area(&self) -> f64 {
        self.width * self.height
    }

    fn as_large_as(&self, other: &Self) -> bool {
        (self.width - other.width).abs() < EXACT && (self.height - other.height).abs() < EXACT
    }
}

/// What is looked for: so much area in a rectangle of which so much may stay empty.
#[derive(Clone, Copy, Debug)]
pub(super) struct Goal {
    pub(super) width: f64,
    pub(super) length: f64,
    pub(super) empty: f64,
    pub(super) area: f64,
}

/// The search, one goal after another.
pub(super) struct Descent<'a> {
    /// Largest first.
    pub(super) choices: Vec<Choice>,
    /// What sides add up to.
    pub(super) widths: SideSums,
    pub(super) heights: SideSums,
    pub(super) steps_in_all: u32,
    first: &'a [u32],
    /// For each choice the first one that leads nowhere else: as large, and neither of them a test that must lie somewhere.
    like: Vec<usize>,
    /// For each item what one of it left to lay adds to the number of a state.
    numbers: Vec<u64>,
    left: Vec<u32>,
    placed: Vec<Placed>,
    /// Length now tried.
    length: f64,
    /// Area that may still stay empty.
    empty: f64,
    /// Area still to be laid until the layout is as good as asked.
    missing: f64,
    both_ends: bool,
    most_steps: u32,
    steps: u32,
    dead_ends: DeadEnds,
    /// Number of this run and of what is left to lay.
    number: u64,
}

impl<'a> Descent<'a> {
    pub(super) fn new(
        choices: Vec<Choice>,
        (widths, heights): (SideSums, SideSums),
        wanted: &[u32],
        first: &'a [u32],
    ) -> Self {
        let alike = |a: &Choice, b: &Choice| a.as_large_as(b) && first[a.item] == 0 && first[b.item] == 0;
        let like = choices.iter().map(|choice| choices.iter().position(|other| alike(other, choice)));
        let like: Vec<usize> = like.enumerate().map(|(own, like)| like.unwrap_or(own)).collect();
        let of = |item: usize| choices.iter().zip(&like).filter(move |(choice, _)| choice.item == item);
        let number = |item: usize| {
            of(item).fold(item_number(item, first), |sum, (_, like)| sum.wrapping_add(mixed(2, *like as u64)))
        };
        let numbers = (0..wanted.len()).map(number).collect();
        Self {
            choices,
            widths,
            heights,
            steps_in_all: 0,
            first,
            like,
            numbers,
            left: wanted.to_vec(),
            placed: Vec::new(),
            length: 0.0,
            empty: 0.0,
            missing: 0.0,
            both_ends: false,
            most_steps: 0,
            steps: 0,
            dead_ends: DeadEnds::none(),
            number: 0,
        }
    }

    /// A layout that reaches a goal, found within so many steps.
    pub(super) fn reaches(&mut self, goal: Goal, most_steps: u32) -> Option<Vec<Placed>> {
        let Goal { width, length, empty, area } = goal;
        // Where nothing may stay empty a box in the right corner would come to lie there anyway.
        for both_ends in [false, true] {
            (self.length, self.empty, self.missing) = (length, empty.max(0.0) + EXACT * length, area - EXACT * length);
            (self.both_ends, self.steps, self.most_steps) = (both_ends, 0, most_steps);
            self.number = mixed(self.number, u64::from(both_ends));
            self.placed.clear();
            let (left, number) = (self.left.clone(), self.number);
            let found = self.descend(&Skyline::level(width));
            (self.left, self.number) = (left, number);
            self.steps_in_all += self.steps;
            if found {
                return Some(std::mem::take(&mut self.placed));
            }
        }
        None
    }

    /// Length used, one gap beyond the last box.
    pub(super) fn end(&self, placed: &[Placed]) -> f64 {
        placed.iter().map(|placed| placed.y + self.choices[placed.choice].height).fold(0.0, f64::max)
    }

    fn holds_first(&self) -> bool {
        let on = |item: usize| self.placed.iter().filter(|placed| self.choices[placed.choice].item == item).count();
        self.first.iter().enumerate().all(|(item, count)| on(item) >= *count as usize)
    }

    /// Deals with the lowest step of the skyline; true once so much is laid as asked, and then nothing is undone.
    fn descend(&mut self, skyline: &Skyline) -> bool {
        if self.missing <= 0.0 {
            return self.holds_first();
        }
        self.steps += 1;
        let (lowest, step) = skyline.lowest();
        let spent = self.steps > self.most_steps || step.y >= self.length - EXACT;
        if spent || self.surely_empty(skyline) > self.empty {
            return false;
        }
        let state = self.state(skyline);
        if self.dead_ends.holds(state) {
            return false;
        }
        let found = self.laid_in(skyline, lowest, step) || self.left_empty(skyline, lowest, step);
        if !found && self.steps <= self.most_steps {
            self.dead_ends.add(state);
        }
        found
    }

    /// Some box in one of the corners of a step.
    fn laid_in(&mut self, skyline: &Skyline, lowest: usize, step: Step) -> bool {
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
            if order[..rank].iter().any(|before| self.like[*before] == self.like[choice]) {
                continue;
            }
            let Choice { item, width, height, .. } = self.choices[choice];
            let area = width * height;
            let ends: &[bool] = if self.both_ends && rank >= filling { &[false, true] } else { &[false] };
            for right in ends {
                let x = if *right { step.x + step.width - width } else { step.x };
                self.left[item] -= 1;
                self.number = self.number.wrapping_sub(self.numbers[item]);
                self.missing -= area;
                self.placed.push(Placed { choice, x, y: step.y });
                let raised = Step { x, width: width.min(step.width), y: step.y + height };
                if self.descend(&skyline.raised(lowest, raised)) {
                    return true;
                }
                self.placed.pop();
                self.missing += area;
                self.number = self.number.wrapping_add(self.numbers[item]);
                self.left[item] += 1;
            }
        }
        false
    }

    /// Nothing more in a step up to its lower neighbour.
    fn left_empty(&mut self, skyline: &Skyline, lowest: usize, step: Step) -> bool {
        let up_to = skyline.lower_neighbour(lowest, self.length);
        let empty = step.width * (up_to - step.y);
        if empty > self.empty {
            return false;
        }
        self.empty -= empty;
        let found = self.descend(&skyline.raised(lowest, Step { y: up_to, ..step }));
        if !found {
            self.empty += empty;
        }
        found
    }

    /// Area above the skyline that no box still to be laid can cover: over a step, what remains of the length beyond the most
    /// that heights add up to there, or of a valley's width beyond the most that widths add up to in it.
    fn surely_empty(&self, skyline: &Skyline) -> f64 {
        let (mut least_width, mut least_height) = (f64::INFINITY, f64::INFINITY);
        for choice in self.choices.iter().filter(|choice| self.left[choice.item] > 0) {
            least_width = least_width.min(choice.width);
            least_height = least_height.min(choice.height);
        }
        let beyond = |length: f64, least: f64, sums: &SideSums| {
            if length < least - EXACT { length } else { length - sums.at_most(length) }
        };
        let empty = |(at, step): (usize, &Step)| {
            let above = step.width * beyond(self.length - step.y, least_height, &self.heights);
            let deep = skyline.lower_neighbour(at, self.length) - step.y;
            if deep <= EXACT { above } else { above.max(deep * beyond(step.width, least_width, &self.widths)) }
        };
        skyline.steps().iter().enumerate().map(empty).sum()
    }

    /// A number of what the rest of the search hangs on. With boxes in both corners a skyline seen in a mirror is the same.
    fn state(&self, skyline: &Skyline) -> u64 {
        let with = |number: u64, step: &Step| mixed(mixed(number, of_length(step.y)), of_length(step.width));
        let steps = skyline.steps().iter();
        // Boxes of one item may differ in area.
        let number = mixed(self.number, of_length(self.missing));
        let forward = steps.clone().fold(number, with);
        if self.both_ends { forward.min(steps.rev().fold(number, with)) } else { forward }
    }
}

/// Items that must come first are told apart from all others.
fn item_number(item: usize, first: &[u32]) -> u64 {
    if first[item] > 0 { mixed(1, item as u64) } else { 0 }
}
