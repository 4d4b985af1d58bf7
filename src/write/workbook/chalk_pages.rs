//! The chalk list, whole: both lines, both ways round, in millimetres and inches.

use super::setter::{Column, Setter};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::chalk;
use crate::write::figures::{bare_inches, bare_mm, both};

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Chalk list");
    let middle = chalk::middle_name(plan);
    setter.paragraph(&format!(
        "Measure from {middle} along the hem, then tick the motif line as a check. On a ring the second figure is the way \
         round the other side: measured from both sides, a slip shows. Left and right are the wearer's."
    ));
    for band in &plan.setting.bands {
        setter.section(&format!("{}: motif line {} above the hem", band.name, both(band.height)));
        let columns = [
            Column::left("Mark", 24.0),
            Column::left("Motif", 30.0),
            Column::left("Side", 12.0),
            Column::right("Hem, mm", 20.0),
            Column::right("Hem, in", 20.0),
            Column::right("Line, mm", 20.0),
            Column::right("Line, in", 20.0),
            Column::right("Hem, other way", 22.0),
            Column::right("Tick", 18.0),
        ];
        let rows: Vec<Vec<String>> = chalk::rows(plan, band).iter().map(|row| cells(plan, row)).collect();
        setter.table(&columns, &rows);
    }
}

fn cells(plan: &Plan, row: &chalk::Row) -> Vec<String> {
    let hand = match row.hand {
        Some(crate::place::Hand::Mirrored) => " mirrored",
        _ => "",
    };
    let near = |walk: chalk::Walk| walk.signed.abs();
    let far: Option<Mm> = if row.hem.signed.get() >= 0.0 { row.hem.backward } else { row.hem.forward };
    vec![
        row.mark.clone(),
        row.motif.as_ref().map(|motif| format!("{motif}{hand}")).unwrap_or_default(),
        chalk::side(plan, row.line.signed).to_owned(),
        bare_mm(near(row.hem)),
        bare_inches(near(row.hem)),
        bare_mm(near(row.line)),
        bare_inches(near(row.line)),
        far.map(bare_mm).unwrap_or_default(),
        "□".to_owned(),
    ]
}
