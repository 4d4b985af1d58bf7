//! One page to keep with the garment: what was done, with what, and room for what the maker alone knows.

use super::setter::{Column, Setter};
use crate::plan::Plan;
use crate::write::figures::{both, heat, listed};
use crate::write::shopping;

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Record to keep with the garment");
    let columns = [Column::left("", 54.0), Column::left("", 132.0)];
    let motifs: Vec<String> =
        plan.motifs.values().map(|m| format!("{} ({} × {})", m.name, m.width, m.height)).collect();
    let films: Vec<String> = shopping::rows(plan).iter().map(|row| shopping::film_words(row.film)).collect();
    let mut rows: Vec<(&str, String)> = vec![
        ("garment", plan.job.name.clone()),
        ("cloth", plan.job.press.cloth.clone()),
        ("hem", both(plan.hem.length())),
        ("motifs", listed(&motifs)),
    ];
    for band in &plan.setting.bands {
        let what = format!("{} at {}, repeat {}", band.placements.len(), both(band.height), both(band.repeat));
        rows.push(("band", format!("{}: {what}", band.name)));
    }
    rows.push(("films or cloths", films.join("; ")));
    if let Some(closure) = plan.press.closures.first() {
        rows.push(("plate, planned", heat(closure.temperature)));
    }
    rows.push(("closures, planned", format!("{}, {}", plan.press.closures.len(), plan.press.total)));
    for blank in [
        "made by, for whom",
        "begun, finished",
        "film batch numbers",
        "plate and seconds, as pressed",
        "pressure, cover sheet",
        "what the test showed",
        "spare pieces kept where",
        "washed or cleaned, how",
        "repairs",
    ] {
        rows.push((blank, "\u{a0}".to_owned()));
    }
    let cells: Vec<Vec<String>> = rows.into_iter().map(|(name, value)| vec![name.to_owned(), value]).collect();
    setter.tall_table(&columns, &cells);
    setter.paragraph(
        "Keep one test piece and the spares with this page. Follow the film maker's care advice; where there is none, wash \
         cool, inside out, and iron only from the wrong side under a cloth.",
    );
}
