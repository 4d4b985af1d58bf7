//! `[film.NAME]` and `[every_film]`: a film or cloth, its class, the sheets it comes in, and how pieces may lie on it.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table, is_name};
use super::fault::FaultKind;
use super::given::{Given, Named, Section, Size};
use super::motif::CutChoice;
use crate::data::{TurnRule, tables};
use crate::film::{Film, Method};
use crate::nest::{self, Stock, Turning};
use crate::quantity::{Mm, mm};

/// Clear border on every edge of a sheet unless told otherwise: what cutters' rollers and clamps take; common practice,
/// no source.
const MARGIN: Mm = mm(5.0);
/// Least distance between patches unless told otherwise: room for scissors; common practice, no source.
const GAP: Mm = mm(4.0);
/// Class of a film unless told otherwise.
pub(crate) const USUAL_CLASS: &str = "smooth";
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
    /// Whether small pieces may lie in the waste inside large ones.
    use_holes: Option<Given<bool>>,
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
    /// How many lie in the drawer; with a price beside it further sheets can be bought, without it there are no more.
    have: Option<Given<u32>>,
}

/// What is said of a film; what is left open is filled by `[every_film]`, then by the table of classes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FilmWish {
    /// Class in the table of films.
    pub class: Option<String>,
    /// Sizes to buy or in the drawer.
    pub stock: Option<Vec<Stock>>,
    /// Clear border on every edge.
    pub margin: Option<Mm>,
    /// Least distance between pieces.
    pub gap: Option<Mm>,
    /// How pieces may be turned.
    pub turning: Option<Turning>,
    /// Whether small pieces may lie in the waste inside large ones.
    pub use_holes: Option<bool>,
}

impl FilmWish {
    /// What this leaves open as another says it.
    #[must_use]
    pub fn or(self, other: &Self) -> Self {
        Self {
            class: self.class.or_else(|| other.class.clone()),
            stock: self.stock.or_else(|| other.stock.clone()),
            margin: self.margin.or(other.margin),
            gap: self.gap.or(other.gap),
            turning: self.turning.or(other.turning),
            use_holes: self.use_holes.or(other.use_holes),
        }
    }

    /// The film, with the usual values for what is still open; `class` where no class is said.
    #[must_use]
    pub fn film(self, key: String, colour_name: String, class: &str) -> Film {
        let class = self.class.unwrap_or_else(|| class.to_owned());
        let row = tables().film_or_unknown(&class);
        let turning = match row.turning.is {
            TurnRule::Free => Turning::Free,
            TurnRule::Half => Turning::Half,
            TurnRule::OneWay => Turning::None,
        };
        Film {
            key,
            class,
            colour_name,
            stock: self.stock.unwrap_or_else(|| vec![usual_sheet()]),
            margin: self.margin.unwrap_or_else(|| MARGIN.max(mm(row.cutting.margin_mm))),
            gap: self.gap.unwrap_or_else(|| GAP.max(mm(row.cutting.gap_mm))),
            turning: self.turning.unwrap_or(turning),
            use_holes: self.use_holes.unwrap_or(false),
        }
    }
}

/// The films as checked, in the order of the file, each with what is said of it alone, and what holds for every film that leaves something open.
pub(crate) fn check(
    check: &mut Check,
    films: &Named<Section<FilmKeys>>,
    every: Option<&Section<FilmKeys>>,
) -> (Vec<(Film, FilmWish)>, FilmWish) {
    let usual = every_film(check, every);
    let mut checked = Vec::new();
    for (name, section) in films.entries() {
        let key = name.get_ref();
        if !is_name(key) {
            check.fault(&name.span(), FaultKind::NotAName { found: key.clone() });
        }
        let colour = check.take(section.keys.colour.as_ref()).unwrap_or_else(|| key.clone());
        let own = wish(check, &format!("[film.{key}]"), section);
        let film = own.clone().or(&usual).film(key.clone(), colour, USUAL_CLASS);
        room_on_sheets(check, section, &film);
        checked.push((film, own));
    }
    (checked, usual)
}

/// The films, those that only cloth pieces are cut from with a class for cloth where they say none: what holds for every film
/// does not hold for cloth, which has a grain, and must not be bought as film.
pub(crate) fn as_used(films: Vec<(Film, FilmWish)>, usual: &FilmWish, cuts: &[CutChoice]) -> Vec<Film> {
    let as_used = |(film, own): (Film, FilmWish)| {
        let methods = cuts.iter().flat_map(|choice| choice.methods_of(&film.key));
        let class = methods.map(cloth_class).reduce(|a, b| if b == USUAL_CLASS { b } else { a }).unwrap_or(USUAL_CLASS);
        if own.class.is_some() || class == USUAL_CLASS {
            return film;
        }
        let of_cloth = FilmWish { class: Some(class.to_owned()), turning: None, ..usual.clone() };
        own.or(&of_cloth).film(film.key, film.colour_name, USUAL_CLASS)
    };
    films.into_iter().map(as_used).collect()
}

/// The class in the table of films for what is cut by this method and has no class of its own.
pub(crate) const fn cloth_class(method: Method) -> &'static str {
    match method {
        Method::Film => USUAL_CLASS,
        Method::FusedTraced | Method::FusedBacked => "fabric-web-light",
        Method::TurnedTemplateOnRight | Method::TurnedTemplateOnWrong => "fabric-turned",
    }
}

/// `[every_film]`, and what is taken where it leaves something open.
fn every_film(check: &mut Check, section: Option<&Section<FilmKeys>>) -> FilmWish {
    if let Some(given) = section.and_then(|section| section.keys.colour.as_ref()) {
        check.fault(&given.at, FaultKind::OnlyWith { key: "colour", with: "a film's own table, [film.NAME]" });
    }
    let usual = section.map(|section| wish(check, "[every_film]", section)).unwrap_or_default();
    if let Some(section) = section {
        room_on_sheets(check, section, &usual.clone().film(String::new(), String::new(), USUAL_CLASS));
    }
    let mut assume = |open: bool, about: &str, taken: String, key: &str| {
        if open {
            check.assume(about, taken, format!("every_film.{key}"));
        }
    };
    assume(usual.class.is_none(), "class of films", "smooth".to_owned(), "class");
    assume(usual.stock.is_none(), "sheets of films", usual_sheet().name, "sheets");
    assume(
        usual.margin.is_none(),
        "clear border of sheets",
        format!("{MARGIN}, more where the class asks it"),
        "margin",
    );
    assume(
        usual.gap.is_none(),
        "distance between pieces on a sheet",
        format!("{GAP}, more where the class asks it"),
        "gap",
    );
    assume(usual.turning.is_none(), "turning of pieces on a sheet", "as the class allows".to_owned(), "turning");
    assume(usual.use_holes.is_none(), "holes of pieces on a sheet", "left empty".to_owned(), "use_holes");
    usual
}

fn wish(check: &mut Check, heading: &str, section: &Section<FilmKeys>) -> FilmWish {
    let keys = &section.keys;
    FilmWish {
        class: class(check, keys.class.as_ref()),
        stock: stock(check, Table { name: heading, at: &section.at }, keys),
        margin: check.not_below_zero("margin", keys.margin.as_ref()),
        gap: check.not_below_zero("gap", keys.gap.as_ref()),
        turning: turning(check, keys),
        use_holes: check.take(keys.use_holes.as_ref()),
    }
}

/// The key of a class that the table of films knows by this name.
fn class(check: &mut Check, given: Option<&Given<String>>) -> Option<String> {
    let word = check.take(given)?;
    if let Some(row) = tables().film(&word) {
        return Some(row.key.clone());
    }
    let choices = tables().films().iter().map(|row| row.key.clone()).collect();
    check.fault(&given?.at, FaultKind::NotOneOf { word, choices });
    None
}

fn turning(check: &mut Check, keys: &FilmKeys) -> Option<Turning> {
    check.only_one(
        &[("one_way", keys.one_way.as_ref().map(|g| &g.at)), ("turning", keys.turning.as_ref().map(|g| &g.at))],
        "one_way = true is the same as turning = \"none\"",
    );
    let choices = [
        ("any", Turning::Free),
        ("quarter turns", Turning::Steps(90)),
        ("half turn", Turning::Half),
        ("none", Turning::None),
    ];
    let turning = check.one_of(keys.turning.as_ref(), &choices);
    if check.take(keys.one_way.as_ref()) == Some(true) { Some(Turning::None) } else { turning }
}

fn stock(check: &mut Check, table: Table<'_>, keys: &FilmKeys) -> Option<Vec<Stock>> {
    let sheets = keys.sheets.as_ref()?;
    if sheets.is_empty() {
        check.missing(table, "sheet in its list", "sheets = [{ size = \"300 x 500 mm\" }]");
    }
    Some(sheets.iter().flat_map(|sheet| check_sheet(check, sheet)).collect())
}

/// Each sheet or roll of which the margins leave nothing, where its own table says something of either.
fn room_on_sheets(check: &mut Check, section: &Section<FilmKeys>, film: &Film) {
    let keys = &section.keys;
    if keys.margin.is_none() && keys.sheets.is_none() && keys.class.is_none() {
        return;
    }
    for stock in &film.stock {
        let Err(fault) = nest::leaves_room(stock, film.margin) else { continue };
        let its_size = |sheet: &Section<SheetKeys>| {
            let size = sheet.keys.size.as_ref().filter(|given| {
                given.value.as_ref().is_ok_and(|size| (size.0, Some(size.1)) == (stock.width, stock.height))
            });
            let roll = sheet.keys.roll.as_ref().filter(|given| given.value == Ok(stock.width));
            size.map(|given| given.at.clone()).or_else(|| roll.map(|given| given.at.clone()))
        };
        let margin = keys.margin.as_ref().map(|given| given.at.clone());
        let at = margin.or_else(|| keys.sheets.iter().flatten().find_map(its_size));
        check.worked_out(&at.unwrap_or_else(|| section.at.clone()), &fault, fault.hint());
    }
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

/// A size of sheet or roll; two where some of it lies in the drawer and more can be bought.
fn check_sheet(check: &mut Check, section: &Section<SheetKeys>) -> Vec<Stock> {
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
    let width = check.above_zero("roll", keys.roll.as_ref());
    if let Some(size) = &keys.size {
        let Some(size) = check.take(Some(size)) else { return Vec::new() };
        return match (have, price) {
            // What she has costs nothing and comes first, whatever another would cost.
            (Some(have), Some(price)) => vec![sheet(size, None, Some(have)), sheet(size, Some(price), None)],
            (have, price) => vec![sheet(size, price, have)],
        };
    }
    check.only_one(
        &[("price", keys.price.as_ref().map(|g| &g.at)), ("have", keys.have.as_ref().map(|g| &g.at))],
        "how long the roll in the drawer is shows in neither; write what is left of it as a size of its own",
    );
    if keys.roll.is_none() {
        check.missing(table, "size", "size = \"300 x 500 mm\"");
    }
    let roll =
        |width: Mm| Stock { name: format!("{} mm roll", short(width)), width, height: None, price, available: have };
    width.map(roll).into_iter().collect()
}
