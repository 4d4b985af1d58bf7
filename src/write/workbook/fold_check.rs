//! Under a band's chalk list: what must lie on the folds of the hem, and what dividers are set to.

use super::compose::Composer;
use super::table::{Cell, Column, Table};
use crate::place::{self, BandSetting, Dividers, There};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::chalk;
use crate::write::figures::both;

pub(super) fn set(composer: &mut Composer, plan: &Plan, band: &BandSetting) {
    let Ok(marking) = place::marking(&plan.hem, band) else { return };
    if !marking.folds.is_empty() {
        composer.heading(&format!("{}: check the chalk by folding", band.name));
        let columns = vec![
            Column::left("Fold", 11.0),
            Column::left("Side", 13.0),
            Column::left("Along the hem", 41.0),
            Column::left("Along the motif line", 41.0),
            Column::left("What must lie there", 84.0),
        ];
        let mut table = Table::new("What lies on the folds of the hem", columns).size(3.0);
        for fold in &marking.folds {
            table.row(vec![
                Cell::Strong(format!("{}/{}", fold.part.0, fold.part.1)),
                chalk::side(plan, fold.s_hem).into(),
                both(fold.s_hem.abs()).into(),
                both(fold.s_line.abs()).into(),
                there(plan, &fold.there).into(),
            ]);
        }
        composer.table(&table);
    }
    if let Some(dividers) = marking.dividers {
        composer.paragraph(&dividers_words(dividers, band.count));
    }
}

fn there(plan: &Plan, there: &There) -> String {
    match there {
        There::Motif(id) => format!("middle of {id}"),
        There::Gap(a, b) => format!("middle of the gap between {a} and {b}"),
        There::Beside(id, by) => {
            let way = chalk::side(plan, *by);
            format!("{id}, its middle {} further {way}", both(by.abs()))
        }
    }
}

fn dividers_words(dividers: Dividers, count: u32) -> String {
    let Dividers { chord, repeat, drift } = dividers;
    let check = format!("Dividers set to {} step from middle to middle.", both(chord));
    if drift.abs() < Mm::new(0.5) {
        return check;
    }
    // Where the line hardly bends the two are the same in print, and only their difference shows why it matters.
    let more = (repeat - chord).get();
    format!(
        "{check} The repeat along the curved line is {more:.2} mm more: set to it they would be out by {} after {count} steps. Chalk \
         every place from the middle and use dividers only to check single steps.",
        both(drift.abs())
    )
}
