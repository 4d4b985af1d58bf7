//! What no layout can better: where it is reached there is nothing left to search for.
//!
//! Patches keep their gap when each, grown by half of it all round, keeps clear of the others, and all of them lie in the room
//! grown by as much. So their grown areas must go into the area of the grown rooms, whatever the layout.

use super::draft::{Score, bought, price, room};
use crate::nest::by_box::side_sums::SideSums;
use crate::nest::shape::kind::Kind;
use crate::nest::{Task, Turning};
use crate::quantity::Mm;

/// A tenth of a millimetre less on the last sheet is no gain.
const NO_GAIN: f64 = 0.1;

/// Area of a room grown by half the gap all round; of a roll, of so much length used.
pub(in crate::nest) fn usable(stock: usize, used: f64, task: &Task) -> f64 {
    let (room, gap) = (room(stock, task), task.gap.get());
    let length = if room.length.is_finite() { room.length } else { (used - 2.0 * room.margin).max(0.0) };
    (room.width + gap) * (length + gap)
}

/// Area that everything takes up at the least.
fn needed(kinds: &[Kind], task: &Task) -> f64 {
    let each = |(kind, item): (&Kind, &crate::nest::Item)| kind.takes_up(task.gap.get()) * f64::from(item.quantity);
    kinds.iter().zip(&task.items).map(each).sum()
}

/// A score that none beats, every piece fitting some stock.
pub(in crate::nest) fn least(kinds: &[Kind], task: &Task) -> Score {
    let (free, to_buy): (Vec<usize>, Vec<usize>) =
        (0..task.stock.len()).partition(|stock| bought(*stock, 1.0, task) <= 0.0);
    let in_drawer = |stock: &usize| f64::from(task.stock[*stock].available.unwrap_or(0)) * usable(*stock, 0.0, task);
    let left = needed(kinds, task) - free.iter().map(in_drawer).sum::<f64>();
    let nothing = Score { missing: 0, cost: 0.0, area: 0.0, sheets: 1, last_used: 0.0, different: 1 };
    if left <= 0.0 || to_buy.is_empty() {
        return nothing;
    }
    if let ([stock], true) = (&to_buy[..], free.is_empty()) {
        return of_one(*stock, kinds, task, left);
    }
    // Of several sizes, the area left over at the price of the cheapest film, and one sheet at the least.
    let mut least = Score { cost: f64::INFINITY, area: f64::INFINITY, ..nothing };
    let mut single = (f64::INFINITY, f64::INFINITY);
    for stock in to_buy {
        let alone = of_area(stock, left, task);
        let one = of_area(stock, left.min(1.0), task);
        let share = match task.stock[stock].height {
            Some(_) => left / usable(stock, 0.0, task) / f64::from(alone.sheets_bought),
            None => 1.0,
        };
        least.cost = least.cost.min(alone.cost * share);
        least.area = least.area.min(alone.area * share);
        single = (single.0.min(one.cost), single.1.min(one.area));
    }
    Score { cost: least.cost.max(single.0), area: least.area.max(single.1), ..least }
}

/// Whether no layout could be better than one of this score, but for a hair. Full sheets alike and one that is not so full are
/// two files, and that they are is no reason to search.
pub(in crate::nest) fn reached(score: &Score, least: &Score) -> bool {
    let almost = Score { last_used: least.last_used + NO_GAIN, different: score.different.min(2), ..*least };
    !almost.beats(score)
}

/// So much area of one stock.
struct OfOne {
    sheets_bought: u32,
    cost: f64,
    area: f64,
    last_used: f64,
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count of sheets, not below one")]
fn of_area(stock: usize, needed: f64, task: &Task) -> OfOne {
    let (room, gap) = (room(stock, task), task.gap.get());
    let length = |area: f64| (area / (room.width + gap) - gap + 2.0 * room.margin).max(2.0 * room.margin);
    let sheets = if room.length.is_finite() { (needed / usable(stock, 0.0, task) - 1e-9).ceil().max(1.0) } else { 1.0 };
    let last = if room.length.is_finite() { needed - (sheets - 1.0) * usable(stock, 0.0, task) } else { needed };
    let last_used = length(last);
    let used = task.stock[stock].height.map_or(last_used, Mm::get);
    let (cost, area) = (price(stock, used, task).unwrap_or(0.0), bought(stock, used, task));
    OfOne { sheets_bought: sheets as u32, cost: sheets * cost, area: sheets * area, last_used }
}

/// The least of a single stock: by area, and exactly for upright boxes of one size.
fn of_one(stock: usize, kinds: &[Kind], task: &Task, needed: f64) -> Score {
    let least = of_area(stock, needed, task);
    // Of a roll what is used is what is paid.
    let (last_used, is_roll) = (straight_end(least.last_used, kinds, task), task.stock[stock].height.is_none());
    let cost = if is_roll { price(stock, last_used, task).unwrap_or(0.0) } else { least.cost };
    let area = if is_roll { bought(stock, last_used, task) } else { least.area };
    let by_area = Score { missing: 0, cost, area, sheets: least.sheets_bought as usize, last_used, different: 1 };
    let rows = upright_rows(stock, kinds, task).filter(|rows| by_area.beats(rows));
    rows.unwrap_or(by_area)
}

/// Where all pieces are boxes that can lie no other way than straight, the least length from some length on at which a layout
/// can end: where sides of boxes add up, and no shorter than the tallest.
fn straight_end(used: f64, kinds: &[Kind], task: &Task) -> f64 {
    let straight = match task.turning {
        Turning::None | Turning::Half => true,
        Turning::Steps(step) => step % 90 == 0,
        Turning::Free => false,
    };
    let asked = || (0..kinds.len()).filter(|item| task.items[*item].quantity > 0);
    if !straight || !asked().all(|item| kinds[item].fills_its_box()) {
        return used;
    }
    let (gap, margins) = (task.gap.get(), 2.0 * task.margin.get());
    let heights = |item: usize| kinds[item].boxes.iter().map(|boxed| boxed.bounds.height() + gap);
    let tallest = asked().map(|item| heights(item).fold(f64::INFINITY, f64::min)).fold(0.0, f64::max);
    let longest = asked().flat_map(heights).fold(0.0, f64::max);
    let inner = (used - margins + gap).max(tallest);
    let boxes: Vec<(Vec<f64>, u32)> =
        asked().map(|item| (heights(item).collect(), task.items[item].quantity)).collect();
    SideSums::up_to(inner + longest, &boxes).at_least(inner) - gap + margins
}

/// Boxes of one size that may not be turned onto their side lie nowhere closer than in rows and columns.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts of rows and sheets")]
fn upright_rows(stock: usize, kinds: &[Kind], task: &Task) -> Option<Score> {
    let mut asked = (0..kinds.len()).filter(|item| task.items[*item].quantity > 0);
    let (item, None) = (asked.next()?, asked.next()) else { return None };
    if !matches!(task.turning, Turning::None | Turning::Half) || !kinds[item].fills_its_box() {
        return None;
    }
    let (room, gap, bounds) = (room(stock, task), task.gap.get(), kinds[item].bounds_at(0.0));
    let along = |length: f64, side: f64| ((length + gap + crate::nest::shape::kind::EXACT) / (side + gap)).floor();
    let (columns, rows) = (along(room.width, bounds.width()), along(room.length, bounds.height()));
    let quantity = f64::from(task.items[item].quantity);
    if columns < 1.0 || rows < 1.0 {
        return None;
    }
    let sheets = if rows.is_finite() { (quantity / (columns * rows)).ceil() } else { 1.0 };
    let last = if rows.is_finite() { quantity - (sheets - 1.0) * columns * rows } else { quantity };
    let last_used = (last / columns).ceil() * (bounds.height() + gap) - gap + 2.0 * room.margin;
    let used = task.stock[stock].height.map_or(last_used, Mm::get);
    let cost = sheets * price(stock, used, task).unwrap_or(0.0);
    let area = sheets * bought(stock, used, task);
    Some(Score { missing: 0, cost, area, sheets: sheets as usize, last_used, different: 1 })
}
