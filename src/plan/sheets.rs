//! Which pieces are laid on which film, and the check of every layout after the fact.

use crate::nest::{Layout, Task};

/// The sheets of one film.
#[derive(Clone, Debug)]
pub struct FilmSheets {
    /// Index into the plan's films.
    pub film: usize,
    /// For each item of the layout, its index in the piece kinds.
    pub items: Vec<usize>,
    /// What was laid.
    pub task: Task,
    /// Where everything lies.
    pub layout: Layout,
}
