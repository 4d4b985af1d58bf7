//! What another choice of stock would change, in plain sentences.

use super::draft::{Draft, bought};
use crate::nest::Task;
use crate::nest::shape::kind::Kind;
use crate::quantity::Mm;

/// An off-cut narrower than this, in millimetres, is not worth a sentence: few motifs are smaller; common practice, no source.
const USABLE: f64 = 50.0;

/// A larger sheet in place of the last one.
struct Larger {
    stock: usize,
    more: f64,
    strip: f64,
    gain: f64,
}

/// Larger sheets in place of the last one that cost more but leave an off-cut for less than film costs otherwise; the cheapest
/// first, then the one that leaves most.
pub(in crate::nest) fn larger_last(draft: &Draft, kinds: &[Kind], task: &Task) -> Vec<String> {
    let Some(last) = draft.sheets.last() else { return Vec::new() };
    let (own, used) = (&task.stock[last.stock], last.used(kinds, task));
    let (Some(height), Some(price), None) = (own.height, own.price, own.available) else { return Vec::new() };
    let far = |pose: &super::draft::Pose| kinds[pose.item].bounds_at(pose.turn_deg).x1 + pose.x;
    let across = last.poses.iter().map(far).fold(0.0, f64::max) + task.margin.get();
    let left_now = own.width.get() * (height.get() - used);
    let mut found: Vec<Larger> = Vec::new();
    for (stock, other) in task.stock.iter().enumerate() {
        let (Some(length), Some(other_price), None) = (other.height, other.price, other.available) else { continue };
        let (more, strip) = (other_price - price, length.get() - used);
        let gain = other.width.get() * strip - left_now;
        let takes_it = across <= other.width.get() + crate::nest::shape::kind::EXACT && strip >= USABLE;
        if takes_it && more > 0.004 && gain > 0.0 && more / gain < film_costs(task) {
            found.push(Larger { stock, more, strip, gain });
        }
    }
    found.sort_by(|a, b| a.more.total_cmp(&b.more).then(b.gain.total_cmp(&a.gain)));
    let now = height.get() - used;
    let otherwise = if now >= 1.0 { format!(" ({} otherwise)", down(now)) } else { " (nothing otherwise)".to_owned() };
    found
        .iter()
        .map(|larger| {
            format!(
                "a {} in place of the last {} costs {:.2} more but leaves a usable {}{otherwise}",
                task.stock[larger.stock].name,
                own.name,
                larger.more,
                down(larger.strip),
            )
        })
        .collect()
}

/// Whole millimetres, rounded down: what is left for certain.
fn down(length: f64) -> String {
    format!("{:.0} mm", (length + 1e-6).floor())
}

/// The cheapest price of a square millimetre of film that can be bought.
fn film_costs(task: &Task) -> f64 {
    let each = |stock: usize| {
        let length = task.stock[stock].height.map_or(1000.0, Mm::get);
        super::draft::price(stock, length, task).map(|price| price / bought(stock, length, task))
    };
    let to_buy = (0..task.stock.len()).filter(|stock| task.stock[*stock].available.is_none());
    to_buy.filter_map(each).fold(f64::INFINITY, f64::min)
}
