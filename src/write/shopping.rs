//! What to take or buy, one row for each film and size of stock: one list for the papers, the page and the terminal.

use crate::data::usual;
use crate::film::Film;
use crate::nest::Stock;
use crate::plan::Plan;
use crate::quantity::{Mm, hundredths, mm};
use crate::trims::Goods;

/// One line of the shopping list.
#[derive(Clone, Debug)]
pub struct Row<'a> {
    /// The film or cloth.
    pub film: &'a Film,
    /// The size of sheet, or the roll.
    pub stock: &'a Stock,
    /// Whole sheets, or lengths cut from a roll.
    pub sheets: u32,
    /// Length in all, for a roll.
    pub length: Option<Mm>,
    /// Price in all, in the currency of the job, where one is given; rounded as it is printed, so that printed prices add up.
    pub price: Option<f64>,
}

impl Row<'_> {
    /// Whether this is film she has already and does not buy.
    #[must_use]
    pub fn in_drawer(&self) -> bool {
        self.stock.available.is_some()
    }

    /// `13.00`, `in the drawer`, `not given`.
    #[must_use]
    pub fn price_words(&self) -> String {
        match self.price {
            Some(price) => format!("{price:.2}"),
            None if self.in_drawer() => "in the drawer".to_owned(),
            None => "not given".to_owned(),
        }
    }
}

/// Rows in job order.
#[must_use]
pub fn rows(plan: &Plan) -> Vec<Row<'_>> {
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
            rows.push(Row { film, stock, sheets, length, price: stock.price.map(|price| hundredths(price * units)) });
        }
    }
    rows
}

/// What is bought, drawer left out: `3 sheets`, `1.24 m of roll`, `2 sheets and 1.24 m of roll`.
#[must_use]
pub fn bought_words(rows: &[Row<'_>]) -> String {
    let bought = || rows.iter().filter(|row| !row.in_drawer());
    let sheets: u32 = bought().filter(|row| row.length.is_none()).map(|row| row.sheets).sum();
    let roll: Mm = bought().filter_map(|row| row.length).sum();
    let sheets = super::figures::counted(usize::try_from(sheets).unwrap_or(usize::MAX), "sheet", "sheets");
    let roll = (roll > Mm::ZERO).then(|| format!("{:.2} m of roll", roll.get() / 1000.0));
    match roll {
        None => sheets,
        Some(roll) if sheets.starts_with("0 ") => roll,
        Some(roll) => format!("{sheets} and {roll}"),
    }
}

/// Everything together, where every row to buy has a price.
#[must_use]
pub fn total(rows: &[Row<'_>]) -> Option<f64> {
    let bought = rows.iter().filter(|row| row.price.is_some() || !row.in_drawer());
    // The empty sum of floating-point numbers is minus zero.
    bought.map(|row| row.price).sum::<Option<f64>>().map(|total| total + 0.0)
}

/// What another choice for a film would change.
#[derive(Clone, Copy, Debug)]
pub struct Alternative<'a> {
    /// The film.
    pub film: &'a Film,
    /// In one sentence without its film.
    pub say: &'a str,
}

impl Alternative<'_> {
    /// `red: one fewer spare of flower saves a sheet (6.50 less to pay)`.
    #[must_use]
    pub fn words(&self) -> String {
        format!("{}: {}", self.film.key, self.say)
    }
}

/// What other choices would change, film after film.
#[must_use]
pub fn alternatives(plan: &Plan) -> Vec<Alternative<'_>> {
    let all = plan.sheets.iter().flat_map(|film| film.layout.alternatives.iter().map(move |say| (film, say)));
    all.map(|(film, say)| Alternative { film: &plan.films[film.film], say }).collect()
}

/// One line of what trims and cloth pieces need beside film and cloth, as the shop sells it.
#[derive(Clone, Debug)]
pub struct GoodsRow {
    /// `stiff braid`, `cloth for facing with interfacing`.
    pub what: String,
    /// `7.3 m (287 3/8 in)`.
    pub amount: String,
    /// Price in all, in the currency of the job, where one is given.
    pub price: Option<f64>,
}

/// What to buy for the trims, in job order, then web and thread for the cloth pieces.
#[must_use]
pub fn other_goods(plan: &Plan) -> Vec<GoodsRow> {
    let mut goods = for_trims(plan);
    for need in &plan.fabric {
        let mut row = |what: String, amount: String| goods.push(GoodsRow { what, amount, price: None });
        if let Some(web) = need.web {
            let web = mm((web.get() / 100.0 - 1e-9).ceil() * 100.0);
            let amount = format!("{:.1} m ({})", web.get() / 1000.0, super::figures::inches(web));
            row(format!("fusible web for {}, {:.0} mm wide", need.film, usual("web-width")), amount);
        }
        let thread = need.thread_above + need.thread_below;
        row(format!("thread for the edges of {}", need.film), format!("{:.0} m", (thread.get() / 1000.0).ceil()));
    }
    goods
}

fn for_trims(plan: &Plan) -> Vec<GoodsRow> {
    let rows = plan.trims.iter().flat_map(|need| need.buy.iter().map(move |buy| (need, buy)));
    rows.map(|(need, buy)| {
        let what = match buy.goods {
            Goods::Trim => need.name.clone(),
            Goods::Cloth => format!("cloth for {}", need.name),
            Goods::Cord => format!("cord for {}", need.name),
        };
        let amount = format!("{} ({})", buy.metres(), super::figures::inches(buy.bought));
        GoodsRow { what, amount, price: buy.cost }
    })
    .collect()
}

/// `red, poppy red, smooth`: the film's name in the job first, since two films may be of like colours.
#[must_use]
pub fn film_words(film: &Film) -> String {
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
#[must_use]
pub fn count_words(row: &Row<'_>) -> String {
    match row.length {
        Some(length) => super::figures::both(length),
        None if row.sheets == 1 => "1 sheet".to_owned(),
        None => format!("{} sheets", row.sheets),
    }
}
