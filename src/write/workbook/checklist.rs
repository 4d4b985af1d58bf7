//! The checklist to hang beside the press: large type, one page.

use super::compose::{Before, Composer, Section};
use crate::plan::Plan;
use crate::write::cautions::CAUTIONS;

/// Largest and smallest type, mm: read from a step away, and from arm's length.
const SIZES: [f64; 6] = [5.6, 5.2, 4.8, 4.4, 4.0, 3.6];

pub(crate) fn section(plan: &Plan) -> Section {
    let items: Vec<&str> = if plan.press.checklist.is_empty() {
        CAUTIONS.to_vec()
    } else {
        plan.press.checklist.iter().map(String::as_str).collect()
    };
    let set = |size: f64| {
        let mut composer =
            Composer::new("At the press", "Hang this page beside the press and go through it each time.");
        composer.space(2.0);
        composer.list_sized(Before::Box, &items, size);
        composer.finish()
    };
    let sizes = SIZES.into_iter().map(set);
    let mut tried = None;
    for section in sizes {
        let fits = section.leaves.len() == 1;
        tried = Some(section);
        if fits {
            break;
        }
    }
    tried.unwrap_or_else(|| set(SIZES[0]))
}
