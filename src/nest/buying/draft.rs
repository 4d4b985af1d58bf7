//! A layout in the making, how two are compared, and how one becomes the [`crate::nest::Layout`] handed on.

use crate::nest::shape::kind::{Kind, Room};
use crate::nest::{Ended, Laid, LaidSheet, Layout, Task, Unplaced, verify};
use crate::quantity::Mm;

/// Where one piece lies on its sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Pose {
    pub(in crate::nest) item: usize,
    pub(in crate::nest) turn_deg: f64,
    pub(in crate::nest) x: f64,
    pub(in crate::nest) y: f64,
}

/// One sheet in the making.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::nest) struct DraftSheet {
    /// Index into the task's stock.
    pub(in crate::nest) stock: usize,
    pub(in crate::nest) poses: Vec<Pose>,
}

/// A layout in the making.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::nest) struct Draft {
    pub(in crate::nest) sheets: Vec<DraftSheet>,
    pub(in crate::nest) method: &'static str,
}

/// What counts, in this order; less is better.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Score {
    /// Pieces left over.
    pub(in crate::nest) missing: usize,
    /// Money, where everything bought has a price.
    pub(in crate::nest) cost: f64,
    /// Square millimetres bought; off-cuts from the drawer count nothing.
    pub(in crate::nest) area: f64,
    /// Sheets bought; where all comes from the drawer, sheets used. Using up an off-cut is no fault.
    pub(in crate::nest) sheets: usize,
    /// Length used of the last sheet bought, so that its off-cut is large; what is left of an off-cut is of less use.
    pub(in crate::nest) last_used: f64,
    /// Sheets that are cut differently: each is a file of its own.
    pub(in crate::nest) different: usize,
}

/// Each file more to cut must make the last sheet shorter by this, in millimetres: few motifs fit on a narrower strip, and
/// every other sheet is cut from the file that is there already; common practice, no source.
const WORTH_A_FILE: f64 = 20.0;

impl Score {
    /// Whether this one is better than another; figures closer than a micrometre or a hundredth of a penny are equal.
    pub(in crate::nest) fn beats(&self, other: &Self) -> bool {
        let figures = |s: &Self| {
            let files = WORTH_A_FILE * s.different as f64;
            [s.missing as f64, s.cost, s.area, s.sheets as f64, s.last_used + files, s.last_used]
        };
        for (own, theirs) in figures(self).into_iter().zip(figures(other)) {
            if (own - theirs).abs() > 1e-4 {
                return own < theirs;
            }
        }
        false
    }
}

impl DraftSheet {
    /// The pieces in cutting order.
    fn in_order(&self) -> Vec<Pose> {
        let mut poses = self.poses.clone();
        poses.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)).then(a.item.cmp(&b.item)));
        poses
    }

    /// Length used from the sheet's start, margin at the far end included.
    pub(in crate::nest) fn used(&self, kinds: &[Kind], task: &Task) -> f64 {
        let far = |pose: &Pose| kinds[pose.item].bounds_at(pose.turn_deg).y1 + pose.y;
        self.poses.iter().map(far).fold(0.0, f64::max) + task.margin.get()
    }
}

impl Draft {
    pub(in crate::nest) fn score(&self, kinds: &[Kind], task: &Task) -> Score {
        let placed: usize = self.sheets.iter().map(|sheet| sheet.poses.len()).sum();
        let asked: usize = task.items.iter().map(|item| item.quantity as usize).sum();
        let used: Vec<f64> = self.sheets.iter().map(|sheet| sheet.used(kinds, task)).collect();
        let (mut cost, mut area) = (0.0, 0.0);
        for (sheet, used) in self.sheets.iter().zip(&used) {
            cost += price(sheet.stock, *used, task).unwrap_or(0.0);
            area += bought(sheet.stock, *used, task);
        }
        let is_bought = |(sheet, _): &(&DraftSheet, &f64)| bought(sheet.stock, 1.0, task) > 0.0;
        let last_bought = self.sheets.iter().zip(&used).rfind(is_bought).map(|(_, used)| *used);
        let last_used = last_bought.or(used.last().copied()).unwrap_or(0.0);
        let sheets = counted(self.sheets.iter().map(|sheet| sheet.stock), task);
        let missing = asked.saturating_sub(placed);
        Score { missing, cost, area, sheets, last_used, different: self.different_sheets() }
    }

    /// How many different sheets there are to cut.
    pub(in crate::nest) fn different_sheets(&self) -> usize {
        let mut seen: Vec<(usize, Vec<Pose>)> = Vec::new();
        for sheet in &self.sheets {
            let made = (sheet.stock, sheet.in_order());
            if !seen.contains(&made) {
                seen.push(made);
            }
        }
        seen.len()
    }

    /// The sheets as handed on, equal ones merged. The first keeps its place, since test pieces lie on it.
    pub(in crate::nest) fn sheets(&self, kinds: &[Kind], task: &Task) -> Vec<LaidSheet> {
        let mut sheets: Vec<LaidSheet> = Vec::new();
        for sheet in &self.sheets {
            let laid = sheet
                .in_order()
                .iter()
                .map(|p| Laid { item: p.item, turn_deg: p.turn_deg, x: Mm::new(p.x), y: Mm::new(p.y) })
                .collect();
            let used = Mm::new(sheet.used(kinds, task));
            let made = LaidSheet { stock: sheet.stock, used, laid, copies: 1 };
            match sheets.iter_mut().find(|other| other.stock == made.stock && other.laid == made.laid) {
                Some(same) => same.copies += 1,
                None => sheets.push(made),
            }
        }
        sheets
    }

    /// Pieces it leaves out where there is not stock enough for all.
    pub(in crate::nest) fn missing(&self, task: &Task) -> Vec<Unplaced> {
        let mut left: Vec<u32> = task.items.iter().map(|item| item.quantity).collect();
        for pose in self.sheets.iter().flat_map(|sheet| &sheet.poses) {
            left[pose.item] = left[pose.item].saturating_sub(1);
        }
        let items = left.into_iter().enumerate().filter(|(_, quantity)| *quantity > 0);
        items.map(|(item, quantity)| Unplaced::for_want_of_stock(item, quantity)).collect()
    }

    /// The layout that is handed on.
    pub(in crate::nest) fn layout(&self, kinds: &[Kind], task: &Task, unplaced: Vec<Unplaced>, ended: Ended) -> Layout {
        Layout {
            sheets: self.sheets(kinds, task),
            unplaced,
            cost: self.cost(kinds, task),
            method: self.method,
            alternatives: Vec::new(),
            ended,
        }
    }

    /// Whether it passes the check.
    pub(in crate::nest) fn is_sound(&self, kinds: &[Kind], task: &Task) -> bool {
        verify(task, &self.layout(kinds, task, self.missing(task), Ended::Complete)).is_empty()
    }

    /// Price of everything used, when all of it has one. Off-cuts from the drawer cost nothing.
    pub(in crate::nest) fn cost(&self, kinds: &[Kind], task: &Task) -> Option<f64> {
        self.sheets.iter().map(|sheet| price(sheet.stock, sheet.used(kinds, task), task)).sum()
    }
}

/// Price of a sheet, or of the length used of a roll.
pub(in crate::nest) fn price(stock: usize, used: f64, task: &Task) -> Option<f64> {
    let stock = &task.stock[stock];
    match (stock.price, stock.height, stock.available) {
        (Some(price), Some(_), _) => Some(price),
        (Some(price), None, _) => Some(price * used / 1000.0),
        (None, _, Some(_)) => Some(0.0),
        (None, _, None) => None,
    }
}

/// How many of some sheets must be bought; all of them when none must.
pub(in crate::nest) fn counted(stocks: impl Iterator<Item = usize> + Clone, task: &Task) -> usize {
    let bought = stocks.clone().filter(|stock| bought(*stock, 1.0, task) > 0.0).count();
    if bought > 0 { bought } else { stocks.count() }
}

/// Square millimetres that must be bought.
pub(in crate::nest) fn bought(stock: usize, used: f64, task: &Task) -> f64 {
    let stock = &task.stock[stock];
    if stock.available.is_some() && stock.price.is_none() {
        return 0.0;
    }
    stock.width.get() * stock.height.map_or(used, Mm::get)
}

/// Room inside the margins of a stock.
pub(in crate::nest) fn room(stock: usize, task: &Task) -> Room {
    Room::of(&task.stock[stock], task)
}
