//! Jobs that buy nothing, searched as if they could.
//!
//! A search moves pieces between sheets; where the drawer is all there is, what finds no place at first has no sheet to come
//! from. So the same sheets are offered once more at a price, and what lies on those of the drawer then is what they hold.

use super::draft::Draft;
use crate::nest::{Stock, Task};

/// The task with every sheet of the drawer to be bought as well; `None` where something can be bought anyway.
pub(in crate::nest) fn with_more(task: &Task) -> Option<Task> {
    if task.stock.iter().any(|stock| stock.available.is_none()) {
        return None;
    }
    let area = |stock: &Stock| stock.width.get() * stock.height.map_or(1000.0, crate::quantity::Mm::get);
    let bought = |stock: &Stock| Stock { price: Some(area(stock)), available: None, ..stock.clone() };
    let stock = task.stock.iter().cloned().chain(task.stock.iter().map(bought)).collect();
    Some(Task { stock, ..task.clone() })
}

/// A draft of that task without what would be bought.
pub(in crate::nest) fn from_the_drawer(mut draft: Draft, task: &Task) -> Draft {
    draft.sheets.retain(|sheet| sheet.stock < task.stock.len());
    draft
}
