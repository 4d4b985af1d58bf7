//! Few boxes fitted as closely as can be: on the least length that takes all of them, or as much of them as a sheet takes.
//!
//! How much may stay empty is allowed beforehand, least first, so that whatever needs more is given up at once: a rectangle
//! that its boxes fill without a gap is found, or proved not to be one, within some hundred steps. Gaps make boxes larger. No
//! length is tried but where sides of boxes add up. The count of steps is bounded; where it runs out the plain rules stand.

use super::descent::{Choice, Descent, Goal, Placed};
use super::empty::Fit;
use super::free::{self, Order};
use super::load::{self, Load, WORTHWHILE};
use super::side_sums::SideSums;
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{EXACT, Kind, Room};

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
        let mut fitting = Fitting::new(load);
        let found = fitting.all_on_least_length().or_else(|| fitting.most());
        found.map(|placed| (fitting.descent.end(&placed), fitting.poses(&placed)))
    })
}

struct Fitting<'a> {
    room: &'a Room,
    /// Width and length of the room, one gap longer, as boxes are.
    whole: (f64, f64),
    /// What the plain rules use, where they lay everything.
    plain: Option<f64>,
    /// Area of everything that is wanted, in the smallest box of each item.
    area: f64,
    count: u32,
    /// The least height of the tallest.
    tallest: f64,
    descent: Descent<'a>,
    /// Most steps for one goal, and in all.
    most_steps: (u32, u32),
}

impl<'a> Fitting<'a> {
    fn new(load: &Load<'a>) -> Self {
        let Load { room, gap, kinds, wanted, first } = *load;
        let boxes = |item: usize| -> Vec<Choice> {
            let boxed = if wanted[item] > 0 { kinds[item].boxes_in(room) } else { Vec::new() };
            let grown = |boxed: crate::nest::shape::kind::Boxed| {
                let (width, height) = (boxed.bounds.width() + gap, boxed.bounds.height() + gap);
                Choice { item, boxed, width, height }
            };
            boxed.into_iter().map(grown).collect()
        };
        let of_items: Vec<Vec<Choice>> = (0..kinds.len()).map(boxes).collect();
        let asked = || (0..kinds.len()).filter(|item| wanted[*item] > 0);
        let least = |item: usize, of: fn(&Choice) -> f64| of_items[item].iter().map(of).fold(f64::INFINITY, f64::min);
        let area = asked().map(|item| least(item, Choice::area) * f64::from(wanted[item])).sum();
        let tallest = asked().map(|item| least(item, |choice| choice.height)).fold(0.0, f64::max);
        let none_first = vec![0; wanted.len()];
        let plain = free::fill(Fit::Nearest, Order::LongSide, &Load { first: &none_first, ..*load });
        let far = |pose: &Pose| kinds[pose.item].bounds_at(pose.turn_deg).y1 + pose.y - room.margin + gap;
        let count = wanted.iter().sum();
        let plain = (plain.len() == count as usize).then(|| plain.iter().map(far).fold(0.0, f64::max));
        let whole = (room.width + gap, room.length + gap);
        let sums = |most: f64, of: fn(&Choice) -> f64| {
            let sides = |item: usize| (of_items[item].iter().map(of).collect(), wanted[item]);
            SideSums::up_to(most, &asked().map(sides).collect::<Vec<_>>())
        };
        let widths = sums(whole.0, |choice| choice.width);
        let heights = sums(plain.unwrap_or(f64::INFINITY).min(whole.1), |choice| choice.height);
        let mut choices: Vec<Choice> = of_items.concat();
        choices.sort_by(|a, b| b.area().total_cmp(&a.area()).then(a.item.cmp(&b.item)));
        let most_steps = if plain.is_some() { STEPS } else { (STEPS.0 / 5, STEPS.1 / 5) };
        let descent = Descent::new(choices, (widths, heights), wanted, first);
        Self { room, whole, plain, area, count, tallest, descent, most_steps }
    }

    /// As wide as anything that lies side by side, and no wider than the room.
    fn width(&self) -> f64 {
        self.descent.widths.at_most(self.whole.0)
    }

    fn may_go_on(&self) -> bool {
        self.descent.steps_in_all < self.most_steps.1
    }

    /// Everything on the least length found; `None` when no length that the sheet has takes everything.
    fn all_on_least_length(&mut self) -> Option<Vec<Placed>> {
        let least = (self.area / self.width()).max(self.tallest);
        let most = self.plain.map_or(self.whole.1, |plain| plain.min(self.whole.1));
        let each = self.area / f64::from(self.count.max(1));
        if !most.is_finite() || least > most + EXACT || (self.whole.0 * most).min(self.area) / each > MOST_ON_A_SHEET {
            return None;
        }
        let share = |k: u32| (f64::from(k) / f64::from(LENGTHS)).powi(2);
        let (mut failed, mut found) = (least - EXACT, None);
        for k in 0..=LENGTHS {
            let length = least + (most - least) * share(k);
            found = self.all_within(length, failed);
            if found.is_some() || !self.may_go_on() {
                break;
            }
            failed = length;
        }
        // Between the length that failed and what is used there may be room for a little less.
        let mut best = found?;
        while self.descent.end(&best) - failed > WORTHWHILE && self.may_go_on() {
            let length = f64::midpoint(self.descent.end(&best) - WORTHWHILE, failed);
            match self.all_within(length, failed) {
                Some(shorter) => best = shorter,
                None => failed = length,
            }
            if self.descent.end(&best) - failed <= 2.0 * WORTHWHILE {
                break;
            }
        }
        Some(best)
    }

    /// Everything within a length, where any layout could end between it and one that has failed.
    fn all_within(&mut self, length: f64, failed: f64) -> Option<Vec<Placed>> {
        let length = self.descent.heights.at_most(length);
        let width = self.width();
        let goal = Goal { width, length, empty: width * length - self.area, area: self.area };
        (length > failed).then(|| self.descent.reaches(goal, self.most_steps.0)).flatten()
    }

    /// As much as found of a sheet that cannot take everything.
    fn most(&mut self) -> Option<Vec<Placed>> {
        let each = self.area / f64::from(self.count.max(1));
        let whole = self.whole.0 * self.whole.1;
        if !whole.is_finite() || whole / each > MOST_ON_A_SHEET {
            return None;
        }
        let (width, length) = (self.width(), self.descent.heights.at_most(self.whole.1));
        EMPTY.iter().find_map(|share| {
            let area = whole * (1.0 - share);
            let goal = Goal { width, length, empty: width * length - area, area };
            let may_be = goal.empty > -EXACT * length && area < self.area + EXACT * length;
            (may_be && self.may_go_on()).then(|| self.descent.reaches(goal, self.most_steps.0)).flatten()
        })
    }

    fn poses(&self, placed: &[Placed]) -> Vec<Pose> {
        let pose = |placed: &Placed| {
            let Choice { item, boxed, .. } = self.descent.choices[placed.choice];
            load::pose(item, &boxed, placed.x, placed.y, self.room)
        };
        placed.iter().map(pose).collect()
    }
}
