//! The hem map: the band laid flat, straightened, and the figures of each band.

use super::setter::{Column, Setter};
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::write::figures::both;
use crate::write::page::rows;
use crate::write::views::{hem_flat, hem_map};

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Hem map");
    for band in &plan.setting.bands {
        figures(setter, plan, band);
    }
    if let Some(flat) = hem_flat::draw(plan) {
        setter.figure(flat);
    }
    setter.figure(hem_map::draw(plan, hem_map::Shows::Distances));
    if !plan.job.zones.is_empty() {
        setter.section("What else lies in the band");
        let rows: Vec<Vec<String>> = plan.job.zones.iter().map(zone).collect();
        let columns = [
            Column::left("Layer", 44.0),
            Column::left("Material", 36.0),
            Column::left("Height above the hem", 46.0),
            Column::left("Along the hem", 36.0),
            Column::left("When pressing", 24.0),
        ];
        setter.table(&columns, &rows);
    }
}

fn figures(setter: &mut Setter, plan: &Plan, band: &BandSetting) {
    let part = rows::band(plan, band);
    setter.section(&part.name);
    let columns = [Column::left("", 50.0), Column::left("", 136.0)];
    let facts: Vec<Vec<String>> =
        part.facts.iter().map(|(name, value)| vec![(*name).to_owned(), value.clone()]).collect();
    setter.table(&columns, &facts);
    if !part.clashes.is_empty() {
        setter.paragraph(&format!("Too near: {}.", part.clashes));
    }
    for reason in &part.reasons {
        setter.paragraph(reason);
    }
}

fn zone(zone: &crate::press::Zone) -> Vec<String> {
    let along = match zone.along {
        None => "all round".to_owned(),
        Some((from, to)) => format!("{from} to {to}"),
    };
    vec![
        zone.name.clone(),
        zone.material.clone(),
        format!("{} to {}", zone.heights.0, both(zone.heights.1)),
        along,
        super::press_pages::state(zone.state).to_owned(),
    ]
}
