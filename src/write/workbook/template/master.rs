//! One repeat on as few pages as it takes, to walk along the hem from chalk mark to chalk mark.

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

/// Most pages glued together for one repeat.
const MOST_PAGES: usize = 4;

/// Pages for each band whose repeats are all alike.
pub(crate) fn section(plan: &Plan) -> Section {
    let mut leaves: Vec<Leaf> = plan.setting.bands.iter().flat_map(|band| pages(plan, band)).collect();
    if let Some(part) = leaves.first_mut().and_then(|leaf| leaf.parts.first_mut())
        && let Part::Text(lines) = part
    {
        *part = Part::Heading { level: 1, lines: std::mem::take(lines) };
    }
    Section { title: TITLE.to_owned(), leaves }
}

fn pages(plan: &Plan, band: &BandSetting) -> Vec<Leaf> {
    if plan.hem.as_hung().is_some() {
        return Vec::new();
    }
    let (Rhythm::Even(period) | Rhythm::EachSide(period)) = stretch::rhythm(plan, band) else { return Vec::new() };
    let Some(whole) = Stretch::from_front(plan, band, period + 1) else { return Vec::new() };
    // With the gaps outside it, else with the whole motifs, else from middle to middle: that is enough to walk by.
    let motif = (band.repeat - band.gap_along) / 2.0 + BESIDE;
    let stretches = [band.repeat / 2.0, motif, BESIDE].map(|beyond| whole.clone().reaching(beyond));
    let on_one = stretches.iter().find_map(|one| Some((one, fan::tiling(one, 1)?)));
    let on_few = || {
        // Where the template shows one repeat and no more, it is what is walked along the hem.
        let template = super::template(plan, band)?;
        let more = template.stretch.placements.len() > period + 1;
        more.then(|| fan::tiling(&stretches[1], MOST_PAGES)).flatten().map(|tiling| (&stretches[1], tiling))
    };
    let Some((stretch, tiling)) = on_one.or_else(on_few) else { return Vec::new() };
    // Where sheets are glued together, the hint how to do it takes the other half of the line.
    let name = match tiling.len() {
        1 => format!("{TITLE}: {}, {} along the motif line", band.name, both(band.repeat * period as f64)),
        _ => format!("One repeat of {}", band.name),
    };
    let (marks, says) = (draw::draw(stretch), format!("One repeat of {}.", band.name));
    (0..tiling.len()).map(|k| tiling.leaf(&marks, k, &name, &says)).collect()
}
