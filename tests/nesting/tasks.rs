//! Short ways to write a task, and to lay it with both checks.

use hemwright::geometry::{Point, Rect, Ring};
use hemwright::nest::{self, Effort, Item, Layout, Progress, Silent, Stock, Task, Turning, verify};
use hemwright::quantity::{Mm, mm};

use super::brute;

pub(crate) const INCH: f64 = Mm::INCH.get();

pub(crate) fn rectangle(width: f64, height: f64) -> Ring {
    Ring::rectangle(Rect::new(-width / 2.0, -height / 2.0, width / 2.0, height / 2.0)).unwrap()
}

/// A regular polygon by the radius of its corners, one of them to the right.
pub(crate) fn regular(corners: u32, radius: f64) -> Ring {
    let corner = |k: u32| {
        let angle = std::f64::consts::TAU * f64::from(k) / f64::from(corners);
        Point::new(radius * angle.cos(), radius * angle.sin())
    };
    Ring::new((0..corners).map(corner)).unwrap()
}

pub(crate) fn item(name: &str, patch: Ring, quantity: u32) -> Item {
    let (name, motif) = (name.to_owned(), name.to_owned());
    Item { name, motif, patch, holes: vec![], quantity, spares: 0, on_first_sheet: 0 }
}

pub(crate) fn sheet(width: f64, height: f64, price: Option<f64>) -> Stock {
    let name = format!("{width} x {height} mm sheet");
    Stock { name, width: mm(width), height: Some(mm(height)), price, available: None }
}

pub(crate) fn roll(width: f64, price: Option<f64>) -> Stock {
    Stock { name: format!("{width} mm roll"), width: mm(width), height: None, price, available: None }
}

pub(crate) fn task(items: Vec<Item>, stock: Vec<Stock>, margin: f64, gap: f64) -> Task {
    let (margin, gap) = (mm(margin), mm(gap));
    Task { items, stock, margin, gap, turning: Turning::Free, effort: Effort::Quick, seed: 1 }
}

/// The layout, sound by the library's check and by brute force.
pub(crate) fn lay(task: &Task) -> Layout {
    let layout = nest::lay(task, &Silent).unwrap();
    assert_eq!(verify(task, &layout), vec![]);
    assert_eq!(brute::faults(task, &layout), Vec::<String>::new());
    layout
}

/// Ends a search as soon as it has a layout on so many sheets.
struct Once(u32);

impl Progress for Once {
    fn step(&self, _done: u64, _total: u64, best: &str) -> bool {
        !best.starts_with(&format!("{} sheet", self.0))
    }
}

/// The layout as soon as it takes no more than so many sheets, sound by both checks; a whole search hands back no worse.
pub(crate) fn lay_until(count: u32, task: &Task) -> Layout {
    let layout = nest::lay(task, &Once(count)).unwrap();
    assert_eq!(verify(task, &layout), vec![]);
    assert_eq!(brute::faults(task, &layout), Vec::<String>::new());
    layout
}

/// Ends a search before it begins.
struct AtOnce;

impl Progress for AtOnce {
    fn step(&self, _done: u64, _total: u64, _best: &str) -> bool {
        false
    }
}

/// The layout where the search is ended before it begins, sound by both checks: what boxes alone reach. A whole run keeps what
/// it begins with unless it finds better (`interrupted::a_whole_run_is_never_worse`), so no less is reached by it.
pub(crate) fn lay_at_once(task: &Task) -> Layout {
    let layout = nest::lay(task, &AtOnce).unwrap();
    assert_eq!(verify(task, &layout), vec![]);
    assert_eq!(brute::faults(task, &layout), Vec::<String>::new());
    layout
}

pub(crate) fn sheets(layout: &Layout) -> u32 {
    layout.sheets.iter().map(|sheet| sheet.copies).sum()
}
