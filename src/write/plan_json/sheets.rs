//! What is cut from which sheet, and what is bought.

use serde::Serialize;

use super::rounding::places;
use crate::film::PieceKind;
use crate::nest::{Laid, LaidSheet, Over, Unplaced};
use crate::plan::{FilmSheets, Plan};
use crate::quantity::Mm;
use crate::write::{chalk, names, sheet_facts, shopping};

#[derive(Serialize)]
pub(super) struct WrittenKind<'a> {
    kind: &'a str,
    motif: &'a str,
    film: &'a str,
    colour: String,
    layer: usize,
    hand: &'static str,
    scale: f64,
    reversed: bool,
    needed: u32,
    spares: u32,
    tests: u32,
}

#[derive(Serialize)]
pub(super) struct WrittenSheet<'a> {
    file: String,
    film: &'a str,
    stock: &'a str,
    width_mm: f64,
    height_mm: f64,
    margin_mm: f64,
    gap_mm: f64,
    reversed: bool,
    copies: u32,
    used_mm: f64,
    pieces: Vec<WrittenPiece<'a>>,
    used_fraction: f64,
    cut_length_mm: f64,
    closed_cuts: usize,
}

#[derive(Serialize)]
struct WrittenPiece<'a> {
    kind: &'a str,
    x_mm: f64,
    y_mm: f64,
    rotation_deg: f64,
}

#[derive(Serialize)]
pub(super) struct WrittenUnplaced<'a> {
    kind: &'a str,
    film: &'a str,
    quantity: u32,
    smallest_sheet_mm: [f64; 2],
    narrowest_roll_mm: f64,
    too_large_by: Vec<WrittenOver<'a>>,
    say: String,
}

#[derive(Serialize)]
struct WrittenOver<'a> {
    stock: &'a str,
    rotation_deg: f64,
    wide_mm: f64,
    long_mm: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct WrittenAlternative<'a> {
    film: &'a str,
    say: &'a str,
}

#[derive(Serialize)]
pub(super) struct WrittenBuy<'a> {
    film: &'a str,
    class: &'a str,
    colour_name: &'a str,
    stock: &'a str,
    in_drawer: bool,
    sheets: u32,
    length_mm: Option<f64>,
    price_each: Option<f64>,
    price: Option<f64>,
}

pub(super) fn kind(kind: &PieceKind) -> WrittenKind<'_> {
    WrittenKind {
        kind: &kind.name,
        motif: &kind.motif,
        film: &kind.film,
        colour: kind.colour.to_string(),
        layer: kind.layer + 1,
        hand: chalk::hand(kind.hand),
        scale: places(kind.scale, 6),
        reversed: sheet_facts::is_reversed(kind),
        needed: kind.needed,
        spares: kind.spares,
        tests: kind.tests,
    }
}

pub(super) fn sheets<'a>(plan: &'a Plan, film_sheets: &'a FilmSheets) -> Vec<WrittenSheet<'a>> {
    let film = &plan.films[film_sheets.film];
    let sheet = |(number, sheet): (usize, &'a LaidSheet)| WrittenSheet {
        file: format!("cut/{}.svg", names::sheet(plan, film_sheets, number)),
        film: &film.key,
        stock: &film.stock[sheet.stock].name,
        width_mm: film.stock[sheet.stock].width.rounded(),
        height_mm: sheet_facts::sheet_height(plan, film_sheets, sheet).rounded(),
        margin_mm: film.margin.rounded(),
        gap_mm: film.gap.rounded(),
        reversed: sheet_facts::reversed(plan, film_sheets, sheet) != sheet_facts::Reversed::No,
        copies: sheet.copies,
        used_mm: sheet.used.rounded(),
        pieces: sheet.laid.iter().map(|laid| piece(plan, film_sheets, laid)).collect(),
        used_fraction: places(sheet_facts::used_fraction(plan, film_sheets, sheet), 4),
        cut_length_mm: sheet_facts::cuts(plan, film_sheets, sheet).length.rounded(),
        closed_cuts: sheet_facts::cuts(plan, film_sheets, sheet).count,
    };
    film_sheets.layout.sheets.iter().enumerate().map(sheet).collect()
}

pub(super) fn unplaced<'a>(plan: &'a Plan, film_sheets: &'a FilmSheets) -> Vec<WrittenUnplaced<'a>> {
    let film = &plan.films[film_sheets.film];
    let over = |over: &Over| WrittenOver {
        stock: &film.stock[over.stock].name,
        rotation_deg: places(over.turn_deg, 4),
        wide_mm: over.width.rounded(),
        long_mm: over.height.map(Mm::rounded),
    };
    let written = |left: &'a Unplaced| WrittenUnplaced {
        kind: &plan.pieces.kinds[film_sheets.items[left.item]].name,
        film: &film.key,
        quantity: left.quantity,
        smallest_sheet_mm: [left.smallest.0.rounded(), left.smallest.1.rounded()],
        narrowest_roll_mm: left.narrowest.rounded(),
        too_large_by: left.over.iter().map(over).collect(),
        say: left.reason(&film_sheets.task),
    };
    film_sheets.layout.unplaced.iter().map(written).collect()
}

fn piece<'a>(plan: &'a Plan, film_sheets: &FilmSheets, laid: &Laid) -> WrittenPiece<'a> {
    WrittenPiece {
        kind: &plan.pieces.kinds[film_sheets.items[laid.item]].name,
        x_mm: laid.x.rounded(),
        y_mm: laid.y.rounded(),
        rotation_deg: places(laid.turn_deg, 4),
    }
}

pub(super) fn buy<'a>(row: &shopping::Row<'a>) -> WrittenBuy<'a> {
    WrittenBuy {
        film: &row.film.key,
        class: &row.film.class,
        colour_name: &row.film.colour_name,
        stock: &row.stock.name,
        in_drawer: row.in_drawer(),
        sheets: row.sheets,
        length_mm: row.length.map(Mm::rounded),
        price_each: row.stock.price,
        price: row.price.map(|price| places(price, 2)),
    }
}

pub(super) fn alternative<'a>(other: &shopping::Alternative<'a>) -> WrittenAlternative<'a> {
    WrittenAlternative { film: &other.film.key, say: other.say }
}
