//! Motifs as seen beside their pieces as cut, and every sheet, made small.

use super::compose::{Composer, Section};
use crate::plan::Plan;
use crate::write::names;
use crate::write::views::{seen_and_cut, sheet};

/// Sheets shown; the pictures in the folder show them all.
const MOST_SHEETS: usize = 40;

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        "Sheets as cut",
        "Pictures, not to size: what the helper cuts, from which film, which way round. The files in the folder cut/ are \
         the ones to cut from.",
    );
    for motif in plan.motifs.values() {
        composer.figure(seen_and_cut::draw(plan, motif));
    }
    let all = plan.sheets.iter().flat_map(|film| (0..film.layout.sheets.len()).map(move |number| (film, number)));
    let count = all.clone().count();
    for (film, number) in all.take(MOST_SHEETS) {
        composer.keep(60.0);
        composer
            .figure_named(&format!("cut/{}.svg", names::sheet(plan, film, number)), sheet::draw(plan, film, number));
    }
    if count > MOST_SHEETS {
        composer.paragraph(&format!("{} more sheets are shown in the folder pictures/.", count - MOST_SHEETS));
    }
    composer.finish()
}
