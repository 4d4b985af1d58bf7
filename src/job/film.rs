//! `[film.NAME]` and `[every_film]`: a film or cloth, its class, the sheets it comes in, and how pieces may lie on it.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table, is_name};
use super::fault::FaultKind;
use super::given::{Given, Named, Section, Size};
use crate::film::Film;
use crate::nest::{Stock, Turning};
use crate::quantity::{Mm, mm};

/// Clear border on every edge of a sheet unless told otherwise: what cutters' rollers and clamps take; common practice,
/// no source.
const MARGIN: Mm = mm(5.0);
/// Least distance between patches unless told otherwise: room for scissors; common practice, no source.
const GAP: Mm = mm(4.0);
/// A common small sheet of film, taken unless told otherwise.
const SHEET: Size = Size(mm(300.0), mm(500.0));

/// `[film.NAME]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [film.NAME]")]
pub(crate) struct FilmKeys {
    /// Class in the table of films.
    class: Option<Given<String>>,
    /// The maker's own colour name.
    colour: Option<Given<String>>,
    /// Sizes to buy or in the drawer.
    sheets: Option<Vec<Section<SheetKeys>>>,
    /// Clear border on every edge.
    margin: Option<Given<Mm>>,
    /// Least distance between pieces.
    gap: Option<Given<Mm>>,
    /// Cut in one direction only: nap, print, brushed metal.
    one_way: Option<Given<bool>>,
    /// How pieces may be turned: "any", "quarter turns", "half turn", "none".
    turning: Option<Given<String>>,
}

/// One size of sheet or roll.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table such as { size = \"300 x 500 mm\", price = 6.50 }")]
pub(crate) struct SheetKeys {
    /// Width and height of a sheet.
    size: Option<Given<Size>>,
    /// Or the width of a roll, bought by length.
    roll: Option<Given<Mm>>,
    /// Price of a sheet, or of a metre of roll.
    price: Option<Given<f64>>,
    /// How many there are; without it as many as needed can be bought.
    have: Option<Given<u32>>,
}

/// The films as checked, in the order of the file, and what holds for every film without a table of its own.
pub(crate) fn check(
    check: &mut Check,
    films: &Named<Section<FilmKeys>>,
    every: Option<&Section<FilmKeys>>,
) -> (Vec<Film>, Film) {
    let usual = every_film(check, every);
    let mut checked = Vec::new();
    for (name, section) in films.entries() {
        if !is_name(name.get_ref()) {
            check.fault(&name.span(), FaultKind::NotAName { found: name.get_ref().clone() });
        }
        checked.push(check_film(check, name.get_ref(), section, &usual));
    }
    (checked, usual)
}

/// `[every_film]`, filled with the usual values.
fn every_film(check: &mut Check, section: Option<&Section<FilmKeys>>) -> Film {
    let sheet = usual_sheet();
    let absent = FilmKeys::default();
    let keys = section.map_or(&absent, |section| &section.keys);
    let mut assume = |open: bool, about: &str, taken: String, key: &str| {
        if open {
            check.assume(about, taken, format!("every_film.{key}, or that of a film"));
        }
    };
    assume(keys.class.is_none(), "class of films", "smooth".to_owned(), "class");
    assume(keys.sheets.is_none(), "sheets of films", sheet.name.clone(), "sheets");
    assume(keys.margin.is_none(), "clear border of sheets", MARGIN.to_string(), "margin");
    assume(keys.gap.is_none(), "distance between pieces on a sheet", GAP.to_string(), "gap");
    let usual = Film {
        key: String::new(),
        class: "smooth".to_owned(),
        colour_name: String::new(),
        stock: vec![sheet],
        margin: MARGIN,
        gap: GAP,
        turning: Turning::Free,
    };
    match section {
        Some(section) => check_film(check, "", section, &usual),
        None => usual,
    }
}

/// A film's own values, and the usual ones for what it leaves open.
fn check_film(check: &mut Check, name: &str, section: &Section<FilmKeys>, usual: &Film) -> Film {
    let keys = &section.keys;
    let heading = if name.is_empty() { "[every_film]".to_owned() } else { format!("[film.{name}]") };
    Film {
        key: name.to_owned(),
        class: check.take(keys.class.as_ref()).unwrap_or_else(|| usual.class.clone()),
        colour_name: check.take(keys.colour.as_ref()).unwrap_or_else(|| name.to_owned()),
        stock: stock(check, Table { name: &heading, at: &section.at }, keys).unwrap_or_else(|| usual.stock.clone()),
        margin: check.not_below_zero("margin", keys.margin.as_ref()).unwrap_or(usual.margin),
        gap: check.not_below_zero("gap", keys.gap.as_ref()).unwrap_or(usual.gap),
        turning: turning(check, keys).unwrap_or(usual.turning),
    }
}

fn turning(check: &mut Check, keys: &FilmKeys) -> Option<Turning> {
    check.only_one(
        &[("one_way", keys.one_way.as_ref().map(|g| &g.at)), ("turning", keys.turning.as_ref().map(|g| &g.at))],
        "one_way = true is the same as turning = \"none\"",
    );
    if check.take(keys.one_way.as_ref()) == Some(true) {
        return Some(Turning::None);
    }
    let choices = [
        ("any", Turning::Free),
        ("quarter turns", Turning::Steps(90)),
        ("half turn", Turning::Half),
        ("none", Turning::None),
    ];
    check.one_of(keys.turning.as_ref(), &choices)
}

fn stock(check: &mut Check, table: Table<'_>, keys: &FilmKeys) -> Option<Vec<Stock>> {
    let sheets = keys.sheets.as_ref()?;
    if sheets.is_empty() {
        check.missing(table, "sheet in its list", "sheets = [{ size = \"300 x 500 mm\" }]");
    }
    Some(sheets.iter().filter_map(|sheet| check_sheet(check, sheet)).collect())
}

/// The sheet that is taken where the job names none.
fn usual_sheet() -> Stock {
    sheet(SHEET, None, None)
}

fn sheet(Size(width, height): Size, price: Option<f64>, available: Option<u32>) -> Stock {
    Stock {
        name: format!("{} x {} mm sheet", short(width), short(height)),
        width,
        height: Some(height),
        price,
        available,
    }
}

/// A length without needless decimals: `300`, `304.8`.
fn short(length: Mm) -> String {
    ((length.get() * 10.0).round() / 10.0).to_string()
}

fn check_sheet(check: &mut Check, section: &Section<SheetKeys>) -> Option<Stock> {
    let keys = &section.keys;
    let table = Table { name: "a sheet", at: &section.at };
    check.only_one(
        &[("size", keys.size.as_ref().map(|g| &g.at)), ("roll", keys.roll.as_ref().map(|g| &g.at))],
        "a sheet has a size, a roll has a width",
    );
    let price = check.take(keys.price.as_ref());
    if let (Some(given), Some(price)) = (&keys.price, price)
        && price < 0.0
    {
        check.fault(&given.at, FaultKind::BelowZero { key: "price", found: price.to_string() });
    }
    let have = check.take(keys.have.as_ref());
    if let Some(size) = &keys.size {
        return Some(sheet(check.take(Some(size))?, price, have));
    }
    let Some(roll) = &keys.roll else {
        check.missing(table, "size", "size = \"300 x 500 mm\"");
        return None;
    };
    let width = check.above_zero("roll", Some(roll))?;
    Some(Stock { name: format!("{} mm roll", short(width)), width, height: None, price, available: have })
}
