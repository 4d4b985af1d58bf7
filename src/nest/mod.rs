//! Stage 5, nest: lay carrier patches on sheets or rolls and say what to buy.
//!
//! Knows no garments and no heat: shapes, counts and stock in, positions out. Several methods lay out the same task (boxes
//! in rows or free, lattices of like pieces, a search that pulls overlapping pieces apart) and the best layout is kept, so
//! none can be worse than the simplest. Every layout is checked after the fact by [`verify()`], which shares no code with
//! the search.
//!
//! Sheet coordinates: millimetres, origin at a corner, x across, y down the sheet. A roll has no end in y.

mod buying;
mod by_box;
mod centre;
mod error;
mod pattern;
mod search;
mod shape;
mod unplaced;
mod verify;

pub use error::{NestError, faults, leaves_room};
pub use unplaced::{Over, Unplaced};
pub use verify::{Fault, TOLERANCE, verify};

use crate::geometry::{Affine, Outline, Ring};
use crate::quantity::Mm;

/// How a piece may be turned on its sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// Not at all: one-way film, printed or napped cloth.
    None,
    /// Upright or upside down.
    Half,
    /// In steps of so many degrees that divide 360.
    Steps(u16),
    /// Any angle.
    Free,
}

/// One size of sheet or roll of a film.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// What it is called on the shopping list: `300 x 500 mm sheet`.
    pub name: String,
    /// Across.
    pub width: Mm,
    /// Down the sheet; `None` for a roll, bought by length.
    pub height: Option<Mm>,
    /// Price of a sheet, or of a metre of roll.
    pub price: Option<f64>,
    /// How many there are; `None` when as many as needed can be bought. Off-cuts already in the drawer come first.
    pub available: Option<u32>,
}

/// A shape to lay, so many times.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Name of the piece kind.
    pub name: String,
    /// Key of the motif it belongs to. One spare motif less is one piece less of every item of that motif.
    pub motif: String,
    /// The patch to keep apart from others, as cut.
    pub patch: Ring,
    /// Holes in the patch where a small one may lie, where the job allows it.
    pub holes: Vec<Ring>,
    /// How many in all.
    pub quantity: u32,
    /// How many of them are spares, which she could do without.
    pub spares: u32,
    /// How many of them must lie on the first sheet (test pieces).
    pub on_first_sheet: u32,
}

/// Everything to be laid on one film.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// Shapes and counts.
    pub items: Vec<Item>,
    /// Sizes to choose from.
    pub stock: Vec<Stock>,
    /// Clear border on every edge of a sheet.
    pub margin: Mm,
    /// Least distance between patches.
    pub gap: Mm,
    /// How pieces may be turned.
    pub turning: Turning,
    /// How hard to search.
    pub effort: Effort,
    /// Seed of the search; same seed, same layout.
    pub seed: u64,
}

/// How hard to search, bounded by counts of moves and never by the clock.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Effort {
    /// Within about a second for 200 pieces.
    Quick,
    /// What `plan` does unless told otherwise.
    #[default]
    Usual,
    /// For the last sheet of dear film.
    Thorough,
}

/// Where one piece lies: turned about its own origin, then moved; sheet corner at the origin, y down.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// Index into the task's items.
    pub item: usize,
    /// Turn in degrees, clockwise on screen.
    pub turn_deg: f64,
    /// Where the piece's own origin lies.
    pub x: Mm,
    /// Where the piece's own origin lies.
    pub y: Mm,
}

impl Laid {
    /// The move as a transform from piece to sheet millimetres.
    #[must_use]
    pub fn transform(&self) -> Affine {
        Affine::translate((self.x.get(), self.y.get())) * Affine::rotate(self.turn_deg.to_radians())
    }
}

/// One sheet with what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidSheet {
    /// Index into the task's stock.
    pub stock: usize,
    /// Length used, from the sheet's start to the last piece's far edge plus margin.
    pub used: Mm,
    /// The pieces.
    pub laid: Vec<Laid>,
    /// How many sheets are cut exactly like this.
    pub copies: u32,
}

/// A verified layout of one film.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The sheets in cutting order.
    pub sheets: Vec<LaidSheet>,
    /// Pieces that fit no stock, with the reason.
    pub unplaced: Vec<Unplaced>,
    /// Price in all, where every stock used has one.
    pub cost: Option<f64>,
    /// Which method gave the layout: `grid`, `lattice`, `search`.
    pub method: &'static str,
    /// What another choice would change, in plain sentences ("one fewer spare saves a sheet").
    pub alternatives: Vec<String>,
    /// Whether the search ran to its end.
    pub ended: Ended,
}

/// Whether a search ran to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// All of it.
    Complete,
    /// Stopped on the way by [`Progress::step`]; the layout is the best verified one until then.
    StoppedEarly,
}

/// Told how far a long search is; the shell draws a bar from it.
pub trait Progress: Sync {
    /// `done` of `total` steps, and the best result so far in words. Returns false to stop early with the best so far.
    fn step(&self, done: u64, total: u64, best: &str) -> bool;

    /// A search begins; from now on [`Progress::step`] is asked often.
    fn begins(&self) {}

    /// A search has ended.
    fn ends(&self) {}

    /// How many threads the search may take. The layout is the same on any number.
    fn threads(&self) -> usize {
        1
    }
}

/// Says nothing and never stops.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent;

impl Progress for Silent {
    fn step(&self, _done: u64, _total: u64, _best: &str) -> bool {
        true
    }
}

/// Outline of an item placed on a sheet, for drawing and checking.
#[must_use]
pub fn placed(outline: &Outline, laid: &Laid) -> Outline {
    outline.transformed(laid.transform())
}

/// Most pieces laid in one task.
///
/// A hem of a hundred metres with a thousand motifs of five colours stays well below; it bounds time and memory.
pub const MOST_PIECES: u32 = 20_000;

/// Pieces of a task that fit none of its stock at any turn, without a search; none where the stock itself has a fault.
#[must_use]
pub fn too_large(task: &Task) -> Vec<Unplaced> {
    if error::faults(task).is_empty() { unplaced::of_task(&centre::centred(task).0) } else { Vec::new() }
}

/// Lays everything of one film.
///
/// # Errors
/// [`NestError`] when there is no stock, a margin leaves no sheet, or a number makes no sense. A piece too large for all
/// stock is not an error but listed in [`Layout::unplaced`].
pub fn lay(task: &Task, progress: &dyn Progress) -> Result<Layout, NestError> {
    error::check(task)?;
    let (about_middles, middles) = centre::centred(task);
    Ok(centre::about_origins(buying::buy::lay(&about_middles, progress), &middles))
}
