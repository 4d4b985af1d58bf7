//! How wide the finished motifs are, in words: on every paper and in every file, so that a wrong size is seen wherever it is
//! looked for.

use super::figures::{both, listed};
use crate::film::PieceKind;
use crate::plan::{FilmSheets, Plan};

/// Sizes named one by one; more are counted.
const NAMED: usize = 4;

/// `flower 80.0 mm (3 1/8 in) and leaf 38.0 mm (1 1/2 in)`: every motif of the plan in every size that is cut.
pub(crate) fn widths(plan: &Plan) -> String {
    of(plan, plan.pieces.kinds.iter())
}

/// Those of which a sheet holds pieces.
pub(crate) fn widths_on_sheet(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> String {
    let laid = film_sheets.layout.sheets[number].laid.iter();
    of(plan, laid.map(|laid| &plan.pieces.kinds[film_sheets.items[laid.item]]))
}

fn of<'a>(plan: &Plan, kinds: impl Iterator<Item = &'a PieceKind>) -> String {
    let mut sizes: Vec<(&str, f64)> = kinds.map(|kind| (kind.motif.as_str(), kind.scale)).collect();
    sizes.sort_by(|a, b| a.0.cmp(b.0).then(b.1.total_cmp(&a.1)));
    sizes.dedup();
    let more = sizes.len().saturating_sub(NAMED);
    let width =
        |(motif, scale): &(&str, f64)| Some(format!("{motif} {}", both(plan.motifs.get(*motif)?.width * *scale)));
    let mut named: Vec<String> = sizes.iter().take(NAMED).filter_map(width).collect();
    named.extend((more > 0).then(|| format!("{more} more")));
    listed(&named)
}
