//! Spoiled pieces cut again: from off-cuts where they fit, otherwise from as little of a new sheet as they need.

use std::collections::BTreeMap;

use super::sheets::{self, FilmSheets};
use super::{Error, Plan, make};
use crate::film::{Film, PieceKind, Pieces};
use crate::job::Job;
use crate::nest::{self, Effort, Progress, Silent, Stock};
use crate::quantity::{Mm, mm};

/// Pieces of one kind to cut again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spoiled {
    /// The piece's name as on the cut files, with or without its number there (`poppy-red`, `poppy-red-3`), or a motif's
    /// name for all its pieces.
    pub name: String,
    /// How many.
    pub count: u32,
}

/// What the name of an off-cut begins with.
pub(super) const OFF_CUT: &str = "off-cut";

/// A piece of film that is left over.
#[derive(Clone, Debug, PartialEq)]
pub struct OffCut {
    /// Which film; `None` when there is only one to cut from.
    pub film: Option<String>,
    /// Across and down.
    pub size: (Mm, Mm),
}

/// The plan with nothing to cut but the spoiled pieces, each sheet no larger than they need.
///
/// Everything but pieces, films and sheets is as in the whole plan.
///
/// # Errors
/// As [`make`]; also when no piece has such a name, or an off-cut is of no film of the job.
pub fn recut(
    job: &Job,
    drawings: &BTreeMap<String, String>,
    spoiled: &[Spoiled],
    offcuts: &[OffCut],
    progress: &dyn Progress,
) -> Result<Plan, Error> {
    // Only names and shapes are taken from the whole plan, so its sheets need not be the best.
    let mut plan = make(&Job { effort: Effort::Quick, ..job.clone() }, drawings, &Silent)?;
    plan.pieces = chosen(&plan.pieces, spoiled)?;
    add_offcuts(&mut plan.films, &plan.pieces, offcuts)?;
    plan.sheets = sheets::lay(&plan.films, &plan.pieces, job, progress)?;
    let too_large = sheets::too_large(&plan.sheets, &plan.films);
    if !too_large.is_empty() {
        return Err(Error::TooLarge { pieces: too_large });
    }
    for film_sheets in &mut plan.sheets {
        let bought = offcuts_of(&plan.films[film_sheets.film], offcuts);
        shrink(&mut plan.films, film_sheets, &plan.pieces, bought);
    }
    Ok(plan)
}

/// An off-cut on which nothing is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct OffCutLeft {
    /// Key of the film.
    pub film: String,
    /// What it is called.
    pub offcut: String,
    /// Where none of the pieces fits on it, the one that needs least, and the least sheet that takes it, margins included; `None`
    /// where the off-cut is not needed.
    pub smallest: Option<(String, (Mm, Mm))>,
}

/// The off-cuts that a recut leaves unused, and why.
///
/// # Errors
/// [`Error::Nest`] as for the recut itself.
pub fn offcuts_left(plan: &Plan, offcuts: &[OffCut]) -> Result<Vec<OffCutLeft>, Error> {
    let mut left = Vec::new();
    for sheets in &plan.sheets {
        let film = &plan.films[sheets.film];
        let unused = |k: &usize| sheets.layout.sheets.iter().all(|sheet| sheet.stock != *k);
        for k in (0..offcuts_of(film, offcuts)).filter(unused) {
            // Each piece once, on this off-cut and no other.
            let mut alone = sheets.task.clone();
            alone.stock = vec![film.stock[k].clone()];
            alone.effort = Effort::Quick;
            for item in &mut alone.items {
                (item.quantity, item.spares, item.on_first_sheet) = (1, 0, 0);
            }
            let layout = nest::lay(&alone, &Silent).map_err(|fault| Error::Nest { film: film.key.clone(), fault })?;
            let too_large = layout.unplaced.iter().filter(|piece| piece.smallest.0 > Mm::ZERO);
            let none_fits = too_large.clone().count() == alone.items.len();
            let area = |piece: &&nest::Unplaced| piece.smallest.0.get() * piece.smallest.1.get();
            let least = too_large.min_by(|a, b| area(a).total_cmp(&area(b))).filter(|_| none_fits);
            let smallest = least.map(|piece| (alone.items[piece.item].name.clone(), piece.smallest));
            left.push(OffCutLeft { film: film.key.clone(), offcut: film.stock[k].name.clone(), smallest });
        }
    }
    Ok(left)
}

/// The spoiled pieces with their numbers, nothing spare.
fn chosen(pieces: &Pieces, spoiled: &[Spoiled]) -> Result<Pieces, Error> {
    let mut counts = vec![0_u32; pieces.kinds.len()];
    for wanted in spoiled {
        let known = || pieces.kinds.iter().map(|kind| kind.name.clone()).collect();
        let found = named(&pieces.kinds, &wanted.name);
        if found.is_empty() {
            return Err(Error::NoSuchPiece { name: wanted.name.clone(), known: known() });
        }
        for index in found {
            counts[index] = counts[index].saturating_add(wanted.count);
        }
    }
    let kinds = pieces.kinds.iter().zip(counts).filter(|(_, count)| *count > 0);
    Ok(Pieces {
        kinds: kinds.map(|(kind, needed)| PieceKind { needed, spares: 0, tests: 0, ..kind.clone() }).collect(),
    })
}

/// Indices of the pieces that a name means.
fn named(kinds: &[PieceKind], name: &str) -> Vec<usize> {
    let exact = |name: &str| kinds.iter().position(|kind| kind.name == name);
    let without_number = || {
        let (start, number) = name.rsplit_once('-')?;
        let number: u32 = number.bytes().all(|b| b.is_ascii_digit()).then(|| number.parse().ok())??;
        exact(start).filter(|index| (1..=kinds[*index].quantity()).contains(&number))
    };
    if let Some(index) = exact(name).or_else(without_number) {
        return vec![index];
    }
    (0..kinds.len()).filter(|index| kinds[*index].motif == name).collect()
}

/// Puts the off-cuts before the sheets of their films.
fn add_offcuts(films: &mut [Film], pieces: &Pieces, offcuts: &[OffCut]) -> Result<(), Error> {
    let used: Vec<&str> = pieces.kinds.iter().map(|kind| kind.film.as_str()).collect();
    for offcut in offcuts.iter().rev() {
        let (width, height) = offcut.size;
        let name = format!("{OFF_CUT} of {} x {} mm", at_least(width), at_least(height));
        let mut taken = false;
        for film in films.iter_mut().filter(|film| used.contains(&film.key.as_str())) {
            if offcut.film.as_ref().is_none_or(|key| *key == film.key) {
                let stock = Stock { name: name.clone(), width, height: Some(height), price: None, available: Some(1) };
                film.stock.insert(0, stock);
                taken = true;
            }
        }
        if !taken {
            let known = used.iter().map(|key| (*key).to_owned()).collect();
            return Err(Error::NoSuchFilm { name: offcut.film.clone().unwrap_or_default(), known });
        }
    }
    Ok(())
}

/// What there is of a length for certain, in tenths of a millimetre: `90`, `109.9`.
fn at_least(length: Mm) -> String {
    ((length.get() * 10.0 + CREEP).floor() / 10.0).to_string()
}

fn offcuts_of(film: &Film, offcuts: &[OffCut]) -> usize {
    offcuts.iter().filter(|offcut| offcut.film.as_ref().is_none_or(|key| *key == film.key)).count()
}

/// Makes every new sheet as small as what lies on it, to the whole millimetre; off-cuts stay as they are.
fn shrink(films: &mut [Film], film_sheets: &mut FilmSheets, pieces: &Pieces, offcuts: usize) {
    let film = &mut films[film_sheets.film];
    for sheet in film_sheets.layout.sheets.iter_mut().filter(|sheet| sheet.stock >= offcuts) {
        let reach = sheet.laid.iter().map(|laid| {
            let kind = &pieces.kinds[film_sheets.items[laid.item]];
            kind.patch.transformed(laid.transform()).bounds()
        });
        let Some(all) = reach.reduce(|all, next| all.union(next)) else { continue };
        let edge = |far: f64| mm((far + film.margin.get() - CREEP).ceil());
        let whole = &film.stock[sheet.stock];
        let (width, height) = (edge(all.x1).min(whole.width), edge(all.y1));
        let height = whole.height.map_or(height, |most| height.min(most));
        let name = format!("{:.0} x {height:.0} of a {}", width.get(), whole.name);
        film.stock.push(Stock { name, width, height: Some(height), price: None, available: Some(1) });
        sheet.stock = film.stock.len() - 1;
        sheet.used = height;
    }
    film_sheets.task.stock.clone_from(&film.stock);
    debug_assert!(nest::verify(&film_sheets.task, &film_sheets.layout).is_empty(), "shrinking keeps the margin");
}

/// Less than this beyond a whole millimetre is floating-point noise, not size.
const CREEP: f64 = 1e-6;
