//! The heights that trims leave free.

use super::wish::{Side, TrimWish};
use crate::quantity::Mm;

/// A stretch of height on the right side without a trim.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// From this height above the hem.
    pub from: Mm,
    /// To this height; `None` where nothing lies above.
    pub to: Option<Mm>,
    /// The trim below it; `None` when it begins at the hem.
    pub above: Option<String>,
    /// The trim over it.
    pub below: Option<String>,
}

impl Window {
    /// How high it is; `None` when nothing bounds it above.
    #[must_use]
    pub fn height(&self) -> Option<Mm> {
        self.to.map(|to| to - self.from)
    }

    /// Whether something from one height to another lies inside it.
    #[must_use]
    pub fn holds(&self, from: Mm, to: Mm) -> bool {
        from >= self.from && self.to.is_none_or(|end| to <= end)
    }
}

/// The windows between the trims of the right side, from the hem up. Trims behind the cloth take no window.
#[must_use]
pub fn windows(trims: &[TrimWish]) -> Vec<Window> {
    let mut taken: Vec<(Mm, Mm, &str)> = trims
        .iter()
        .filter(|trim| trim.side == Side::Right)
        .map(|trim| (trim.heights().0, trim.heights().1, trim.name.as_str()))
        .collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut found = Vec::new();
    let (mut free_from, mut last) = (Mm::ZERO, None);
    for (from, to, name) in taken {
        if from > free_from {
            let (above, below) = (last.map(str::to_string), Some(name.to_string()));
            found.push(Window { from: free_from, to: Some(from), above, below });
        }
        if to > free_from {
            free_from = to;
            last = Some(name);
        }
    }
    found.push(Window { from: free_from, to: None, above: last.map(str::to_string), below: None });
    found
}
