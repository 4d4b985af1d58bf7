//! One repeat on one page, to walk along the hem from chalk mark to chalk mark.

use super::stretch::{self, Rhythm, Stretch};
use super::{draw, fan};
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::quantity::{Mm, mm};
use crate::write::drawing::pdf::Part;
use crate::write::figures::both;
use crate::write::workbook::compose::Section;
use crate::write::workbook::leaf::Leaf;

/// Drawn beyond the outer middles, or beyond the outer motifs, mm.
const BESIDE: Mm = mm(6.0);
const TITLE: &str = "One repeat to walk along the hem";

/// A page for each band whose repeats are all alike and fit one.
pub(crate) fn section(plan: &Plan) -> Section {
    let mut leaves: Vec<Leaf> = plan.setting.bands.iter().filter_map(|band| page(plan, band)).collect();
    if let Some(part) = leaves.first_mut().and_then(|leaf| leaf.parts.first_mut())
        && let Part::Text(lines) = part
    {
        *part = Part::Heading { level: 1, lines: std::mem::take(lines) };
    }
    Section { title: TITLE.to_owned(), leaves }
}

fn page(plan: &Plan, band: &BandSetting) -> Option<Leaf> {
    let (Rhythm::Even(period) | Rhythm::EachSide(period)) = stretch::rhythm(plan, band) else { return None };
    let whole = Stretch::from_front(plan, band, period + 1)?;
    // With the gaps outside it, else with the whole motifs, else from middle to middle: that is enough to walk by.
    let motif = (band.repeat - band.gap_along) / 2.0 + BESIDE;
    let stretches = [band.repeat / 2.0, motif, BESIDE].map(|beyond| whole.clone().reaching(beyond));
    let (stretch, tiling) = stretches.into_iter().find_map(|one| fan::tiling(&one, 1).map(|tiling| (one, tiling)))?;
    let name = format!("{TITLE}: {}, {} along the motif line", band.name, both(band.repeat * period as f64));
    Some(tiling.leaf(&draw::draw(&stretch), 0, &name, &format!("One repeat of {}.", band.name)))
}
