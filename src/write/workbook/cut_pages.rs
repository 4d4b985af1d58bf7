//! What is cut and bought: motifs as seen and as cut, every sheet, the shopping list.

use super::setter::{Column, Setter};
use crate::plan::Plan;
use crate::write::figures::both;
use crate::write::views::{seen_and_cut, sheet};
use crate::write::{names, shopping};

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Shopping list");
    let rows = shopping::rows(plan);
    let columns = [
        Column::left("Film or cloth", 60.0),
        Column::left("Size", 50.0),
        Column::left("How many", 30.0),
        Column::right("Each", 22.0),
        Column::right("In all", 24.0),
    ];
    let price = |price: Option<f64>| price.map_or_else(|| "not given".to_owned(), |price| format!("{price:.2}"));
    let mut cells: Vec<Vec<String>> = rows
        .iter()
        .map(|row| {
            vec![
                shopping::film_words(row.film),
                format!("{} ({})", row.stock.name, both(row.stock.width)),
                shopping::count_words(row),
                price(row.stock.price),
                price(row.price),
            ]
        })
        .collect();
    if let Some(total) = shopping::total(&rows).filter(|_| rows.len() > 1) {
        cells.push(vec!["together".into(), String::new(), String::new(), String::new(), format!("{total:.2}")]);
    }
    setter.table(&columns, &cells);
    let alternatives: Vec<&String> = plan.sheets.iter().flat_map(|film| &film.layout.alternatives).collect();
    if !alternatives.is_empty() {
        setter.section("What another choice would change");
        setter.list("•", &alternatives);
    }
    setter.paragraph("Buy all of one colour at once and from one batch: colours differ between batches.");
    setter.section("Pieces");
    let columns = [
        Column::left("Piece", 62.0),
        Column::left("From", 34.0),
        Column::right("Needed", 20.0),
        Column::right("Spare", 20.0),
        Column::right("Test", 20.0),
        Column::right("Cut in all", 30.0),
    ];
    let kinds: Vec<Vec<String>> = plan
        .pieces
        .kinds
        .iter()
        .map(|kind| {
            let numbers = [kind.needed, kind.spares, kind.tests, kind.quantity()].map(|n| n.to_string());
            [vec![kind.name.clone(), kind.film.clone()], numbers.to_vec()].concat()
        })
        .collect();
    setter.table(&columns, &kinds);
    setter.chapter("Motifs and sheets as cut");
    for motif in plan.motifs.values() {
        setter.figure(seen_and_cut::draw(plan, motif));
    }
    for film_sheets in &plan.sheets {
        for number in 0..film_sheets.layout.sheets.len() {
            setter.new_page();
            setter.small(&format!("cut/{}.svg", names::sheet(plan, film_sheets, number)));
            let room = setter.room();
            let drawing = sheet::draw(plan, film_sheets, number);
            let scale = (super::setter::MEASURE / drawing.width).min(room / drawing.height).min(1.0);
            setter.figure_scaled(drawing, scale);
        }
    }
}
