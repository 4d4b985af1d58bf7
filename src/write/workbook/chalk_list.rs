//! The chalk list: every motif and garment line in walking order from the middle, in two columns that lie as the two sides
//! lie before somebody who faces the garment.

use super::compose::{Composer, Section};
use super::fold_check;
use super::table::{Cell, Column, Table};
use crate::geometry::Point;
use crate::place::{BandSetting, Hand};
use crate::plan::{Plan, Shows};
use crate::quantity::{Mm, mm};
use crate::write::chalk::{self, Row};
use crate::write::drawing::Words;
use crate::write::drawing::pdf::Part;
use crate::write::figures::{bare_inches, bare_mm, both, counted};
use crate::write::style;
use crate::write::views::hem_flat;
use crate::write::views::titled;

/// Free room between the two columns.
const BETWEEN: f64 = 6.0;

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        &titled(plan, "Chalk list"),
        &format!(
            "Lay the tape along the finished hem from {} and chalk every distance; then measure the height square up from \
             the hem. The second pair of figures is the same place measured along the motif line instead.",
            chalk::middle_name(plan)
        ),
    );
    if let Some(which) = which_of_pair(plan) {
        composer.paragraph(&which);
    }
    for band in &plan.setting.bands {
        whole_band(&mut composer, plan, band);
    }
    composer.finish()
}

/// Which one of a pair the list is for, and how many motifs of each hand it takes.
fn which_of_pair(plan: &Plan) -> Option<String> {
    let which = match plan.shows {
        Shows::One => return None,
        Shows::LeftOfPair(_) => "left",
        Shows::RightOfPair => "right",
    };
    let all = || plan.setting.bands.iter().flat_map(|band| &band.placements);
    let mirrored = all().filter(|placed| placed.hand == Hand::Mirrored).count();
    Some(format!(
        "This list is for the {which}-hand one of the pair: {} as drawn and {mirrored} mirrored. Pin it to its own piece of cloth.",
        counted(all().count() - mirrored, "motif", "motifs")
    ))
}

fn whole_band(composer: &mut Composer, plan: &Plan, band: &BandSetting) {
    // The heading stays with the first rows of its list.
    composer.keep(45.0);
    composer.heading(&format!("{}: {} above the hem to the motif's middle", band.name, both(band.height)));
    let rows = told_once(band, chalk::rows(plan, band));
    let backward =
        half(band, &rows, |row| Some((row.hem.backward?, row.line.backward?)).filter(|_| row.hem.signed <= Mm::ZERO));
    let forward =
        half(band, &rows, |row| Some((row.hem.forward?, row.line.forward?)).filter(|_| row.hem.signed >= Mm::ZERO));
    let titles = [mm(-1.0), mm(1.0)]
        .map(|s| format!("From {} to the wearer's {}", chalk::middle_name(plan), chalk::side(plan, s)));
    let (mut next_backward, mut next_forward) = (0, 0);
    let width = (composer.width() - BETWEEN) / 2.0;
    loop {
        composer.keep(30.0);
        for (k, title) in titles.iter().enumerate() {
            let x = k as f64 * (width + BETWEEN);
            let words = Words::new(title.clone(), (x, composer.y() + style::BODY)).bold().ink(style::ACCENT);
            composer.push(Part::Text(vec![words]));
        }
        composer.space(style::BODY * 1.6);
        let mut bottom = composer.y();
        for (k, (table, next)) in
            [(&backward, &mut next_backward), (&forward, &mut next_forward)].into_iter().enumerate()
        {
            if *next >= table.len() {
                continue;
            }
            let corner = Point::new(k as f64 * (width + BETWEEN), composer.y());
            let (part, ground, end, below) = table.set(*next, corner, width, composer.room());
            composer.furnish(ground);
            composer.push(part);
            *next = end;
            bottom = bottom.max(below);
        }
        let used = bottom - composer.y();
        composer.space(used + 4.0);
        if next_backward >= backward.len() && next_forward >= forward.len() {
            break;
        }
        composer.turn();
    }
    fold_check::set(composer, plan, band);
}

/// Without the garment lines that carry the same name as the motif lying on them: CF, CB.
fn told_once(band: &BandSetting, rows: Vec<Row>) -> Vec<Row> {
    let motifs = rows.iter().filter(|row| row.motif.is_some());
    let motifs: Vec<(String, Mm)> =
        motifs.map(|row| (hem_flat::short_number(&row.mark, band).to_owned(), row.hem.signed)).collect();
    let same = |row: &Row| motifs.iter().any(|(mark, s)| *mark == row.mark && (*s - row.hem.signed).abs() < mm(0.5));
    rows.into_iter().filter(|row| row.motif.is_some() || !same(row)).collect()
}

/// One side in walking order.
fn half(band: &BandSetting, rows: &[Row], distances: impl Fn(&Row) -> Option<(Mm, Mm)>) -> Table {
    let columns = vec![
        Column::left("", 6.0),
        Column::left("Mark", 20.0),
        Column::right("Hem, mm", 16.0),
        Column::right("inches", 18.0),
        Column::right("Line, mm", 16.0),
        Column::right("inches", 18.0),
    ];
    let table = Table::new("Distances along the hem and along the motif line", columns);
    let mut walked: Vec<(Mm, Mm, &Row)> =
        rows.iter().filter_map(|row| distances(row).map(|(hem, line)| (hem, line, row))).collect();
    walked.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Three whole inches and a fraction need smaller type to stay on one line.
    let far = walked.last().is_some_and(|(hem, ..)| hem.inches() >= 99.5);
    let mut table = table.size(if far { 2.75 } else { 3.0 });
    for (hem, line, row) in walked {
        let mark = match row.motif {
            // The heading says which band is meant.
            Some(_) => Cell::Strong(hem_flat::short_number(&row.mark, band).to_owned()),
            None => Cell::Inked(row.mark.clone(), style::ACCENT),
        };
        table.row(vec![
            Cell::Tick,
            mark,
            bare_mm(hem).into(),
            bare_inches(hem).into(),
            bare_mm(line).into(),
            bare_inches(line).into(),
        ]);
    }
    table
}
