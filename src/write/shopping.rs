//! What to buy, one row for each film and size of stock.

use crate::film::Film;
use crate::nest::Stock;
use crate::plan::Plan;
use crate::quantity::Mm;

/// One line of the shopping list.
#[derive(Clone, Debug)]
pub(crate) struct Row<'a> {
    pub(crate) film: &'a Film,
    pub(crate) stock: &'a Stock,
    /// Whole sheets, or lengths cut from a roll.
    pub(crate) sheets: u32,
    /// Length in all, for a roll.
    pub(crate) length: Option<Mm>,
    /// Price in all, where one is given.
    pub(crate) price: Option<f64>,
}

/// Rows in job order.
pub(crate) fn rows(plan: &Plan) -> Vec<Row<'_>> {
    let mut rows = Vec::new();
    for film_sheets in &plan.sheets {
        let film = &plan.films[film_sheets.film];
        for (index, stock) in film.stock.iter().enumerate() {
            let of_stock = || film_sheets.layout.sheets.iter().filter(move |sheet| sheet.stock == index);
            let sheets: u32 = of_stock().map(|sheet| sheet.copies).sum();
            if sheets == 0 {
                continue;
            }
            let used: Mm = of_stock().map(|sheet| sheet.used * f64::from(sheet.copies)).sum();
            let length = stock.height.is_none().then_some(used);
            let units = length.map_or(f64::from(sheets), |length| length.get() / 1000.0);
            rows.push(Row { film, stock, sheets, length, price: stock.price.map(|price| price * units) });
        }
    }
    rows
}

/// Everything together, where every row has a price.
pub(crate) fn total(rows: &[Row<'_>]) -> Option<f64> {
    rows.iter().map(|row| row.price).sum()
}

/// `red: poppy red, smooth film`
pub(crate) fn film_words(film: &Film) -> String {
    let mut words = film.key.clone();
    for more in [&film.colour_name, &film.class] {
        if !more.is_empty() && *more != film.key {
            words.push_str(", ");
            words.push_str(more);
        }
    }
    words
}

/// `3 sheets`, or `1240.0 mm (48 13/16 in)` of roll.
pub(crate) fn count_words(row: &Row<'_>) -> String {
    match row.length {
        Some(length) => super::figures::both(length),
        None if row.sheets == 1 => "1 sheet".to_owned(),
        None => format!("{} sheets", row.sheets),
    }
}
