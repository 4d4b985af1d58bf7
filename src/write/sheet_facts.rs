//! What the papers say about a sheet: whether it is reversed, how high it is and how much of it becomes pieces.

use crate::film::{CutFrom, PieceKind};
use crate::geometry::{Outline, Ring};
use crate::nest::LaidSheet;
use crate::plan::{FilmSheets, Plan};
use crate::quantity::Mm;

/// Whether what lies on a sheet is reversed; decided by how each piece is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reversed {
    Yes,
    No,
    /// Pieces of both kinds lie on it.
    Some,
}

impl Reversed {
    /// The words on pictures, cut sheets and lists.
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Yes => "already reversed: do not mirror again",
            Self::No => "not reversed: cut as it is",
            Self::Some => "some pieces reversed, some not: cut as it is, do not mirror",
        }
    }
}

/// Whether a kind of piece is cut reversed.
pub(crate) fn is_reversed(kind: &PieceKind) -> bool {
    kind.method.cut_from() == CutFrom::Back
}

/// Whether the pieces of a sheet are reversed.
pub(crate) fn reversed(plan: &Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> Reversed {
    let mut kinds = sheet.laid.iter().map(|laid| is_reversed(&plan.pieces.kinds[film_sheets.items[laid.item]]));
    match kinds.next() {
        None => Reversed::No,
        Some(first) if kinds.all(|other| other == first) => {
            if first {
                Reversed::Yes
            } else {
                Reversed::No
            }
        }
        Some(_) => Reversed::Some,
    }
}

/// The sheet's height, or the used length of a roll.
pub(crate) fn sheet_height(plan: &Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> Mm {
    plan.films[film_sheets.film].stock[sheet.stock].height.unwrap_or(sheet.used)
}

/// Area of all pieces as cut, their holes left out, as a part of the whole sheet, from 0 to 1.
pub(crate) fn used_fraction(plan: &Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> f64 {
    let width = plan.films[film_sheets.film].stock[sheet.stock].width;
    let whole = width.get() * sheet_height(plan, film_sheets, sheet).get();
    let of = |(kind, count): (&PieceKind, usize)| -> f64 {
        count as f64 * kind.cut.outlines().iter().map(Outline::area).sum::<f64>()
    };
    let used: f64 = contents(plan, film_sheets, sheet).into_iter().map(of).sum();
    if whole > 0.0 { used / whole } else { 0.0 }
}

/// How many of each kind lie on a sheet, in order of first appearance in the job.
pub(crate) fn contents<'a>(plan: &'a Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> Vec<(&'a PieceKind, usize)> {
    let mut counts = vec![0_usize; film_sheets.items.len()];
    for laid in &sheet.laid {
        counts[laid.item] += 1;
    }
    let kinds = film_sheets.items.iter().map(|kind| &plan.pieces.kinds[*kind]);
    kinds.zip(counts).filter(|(_, count)| *count > 0).collect()
}

/// Pieces of a sheet that lie in a hole of another: each with the one round it, as places in the sheet's list.
pub(crate) fn in_holes(plan: &Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> Vec<(usize, usize)> {
    let film = &plan.films[film_sheets.film];
    if !film.use_holes {
        return Vec::new();
    }
    let laid = &sheet.laid;
    let kind = |index: usize| &plan.pieces.kinds[film_sheets.items[laid[index].item]];
    let holes = |index: usize| -> Vec<Ring> {
        kind(index).holes().iter().map(|hole| hole.transformed(laid[index].transform())).collect()
    };
    let hosts: Vec<(usize, Vec<Ring>)> =
        (0..laid.len()).map(|index| (index, holes(index))).filter(|(_, holes)| !holes.is_empty()).collect();
    let round = |index: usize| {
        let first = laid[index].transform() * kind(index).patch.points()[0];
        let of = hosts.iter().filter(|(host, holes)| *host != index && holes.iter().any(|hole| hole.contains(first)));
        // Of several round it the smallest is the one next to it.
        let next = of.min_by(|a, b| kind(a.0).patch.area().total_cmp(&kind(b.0).patch.area()));
        next.map(|(host, _)| (index, *host))
    };
    (0..laid.len()).filter_map(round).collect()
}

/// What the knife does on one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Cuts {
    /// Length of all cuts.
    pub(crate) length: Mm,
    /// Closed cuts.
    pub(crate) count: usize,
}

/// Length and number of the cuts of a sheet, waste included.
pub(crate) fn cuts(plan: &Plan, film_sheets: &FilmSheets, sheet: &LaidSheet) -> Cuts {
    contents(plan, film_sheets, sheet).into_iter().fold(Cuts { length: Mm::ZERO, count: 0 }, |sum, (kind, laid)| Cuts {
        length: sum.length + kind.cut_length() * laid as f64,
        count: sum.count + kind.knife_rings().len() * laid,
    })
}
