//! Which pieces are laid on which film, and the check of every layout after the fact.

use super::Error;
use super::error::TooLarge;
use crate::data::{Fixes, tables};
use crate::film::{Film, Pieces};
use crate::finding::{Finding, Severity};
use crate::job::{Job, Lines};
use crate::nest::{self, Ended, Item, Layout, Progress, Task};

/// The sheets of one film.
#[derive(Clone, Debug)]
pub struct FilmSheets {
    /// Index into the plan's films.
    pub film: usize,
    /// For each item of the layout, its index in the piece kinds.
    pub items: Vec<usize>,
    /// What was laid.
    pub task: Task,
    /// Where everything lies.
    pub layout: Layout,
}

/// Lays the pieces of each film; films without pieces are passed over.
///
/// # Errors
/// Every film whose pieces cannot all be laid, and then also every piece that fits no sheet of its film.
pub(super) fn lay(
    films: &[Film],
    pieces: &Pieces,
    job: &Job,
    progress: &dyn Progress,
) -> Result<Vec<FilmSheets>, Error> {
    let (mut all, mut faults) = (Vec::new(), Vec::new());
    for (index, (items, task)) in tasks(films, pieces, job) {
        let film = &films[index].key;
        let layout = match nest::lay(&task, progress) {
            Ok(layout) => layout,
            Err(fault) => {
                faults.push(Error::Nest { film: film.clone(), fault });
                continue;
            }
        };
        if let left @ 1.. = left_out(&task, &layout) {
            let of = task.items.iter().map(|item| item.quantity).sum();
            faults.push(Error::DrawerTooSmall { film: film.clone(), left, of });
        }
        if let Some(fault) = nest::verify(&task, &layout).first() {
            faults.push(Error::BadLayout { film: film.clone(), fault: fault.to_string() });
        }
        all.push(FilmSheets { film: index, items, task, layout });
    }
    if faults.is_empty() {
        return Ok(all);
    }
    let pieces = too_large(&all, films);
    faults.extend((!pieces.is_empty()).then_some(Error::TooLarge { pieces }));
    Err(Error::several(faults))
}

/// What is wrong with the tasks of the films before anything is laid.
pub(super) fn faults(films: &[Film], pieces: &Pieces, job: &Job) -> Vec<Error> {
    let of_film = |(index, (_, task)): (usize, (Vec<usize>, Task))| {
        nest::faults(&task).into_iter().map(move |fault| Error::Nest { film: films[index].key.clone(), fault })
    };
    tasks(films, pieces, job).flat_map(of_film).collect()
}

/// Pieces that fit no sheet of their film, found without a search.
pub(super) fn too_large_of(films: &[Film], pieces: &Pieces, job: &Job) -> Option<Error> {
    let of_film = |(index, (_, task)): (usize, (Vec<usize>, Task))| {
        let left = nest::too_large(&task);
        left.iter().map(|left| one_too_large(left, &task, &films[index])).collect::<Vec<_>>()
    };
    let pieces: Vec<TooLarge> = tasks(films, pieces, job).flat_map(of_film).collect();
    (!pieces.is_empty()).then_some(Error::TooLarge { pieces })
}

/// What is laid on each film that holds pieces: its index, that of each item in the piece kinds, and the task.
fn tasks(films: &[Film], pieces: &Pieces, job: &Job) -> impl Iterator<Item = (usize, (Vec<usize>, Task))> {
    let task = |(index, film): (usize, &Film)| (index, task_for(film, pieces, job));
    films.iter().enumerate().map(task).filter(|(_, (items, _))| !items.is_empty())
}

/// Pieces that fit no sheet of their film, each with the reason.
pub(super) fn too_large(sheets: &[FilmSheets], films: &[Film]) -> Vec<TooLarge> {
    let of_film = |film_sheets: &FilmSheets| {
        let film = &films[film_sheets.film];
        let left = |left: &nest::Unplaced| one_too_large(left, &film_sheets.task, film);
        film_sheets.layout.unplaced.iter().map(left).collect::<Vec<_>>()
    };
    sheets.iter().flat_map(of_film).collect()
}

fn one_too_large(left: &nest::Unplaced, task: &Task, film: &Film) -> TooLarge {
    TooLarge {
        piece: task.items[left.item].name.clone(),
        film: film.key.clone(),
        quantity: left.quantity,
        reason: left.reason(task),
    }
}

/// What she must know of a piece that is on no sheet.
pub(super) fn on_no_sheet(piece: &TooLarge) -> Finding {
    Finding {
        severity: Severity::LookAtThis,
        kind: ON_NO_SHEET,
        place: None,
        measure: None,
        say: piece.to_string(),
        advice: piece.advice() + " Until then it is in no cut file.",
    }
}

/// Kind of the finding about a piece that fits no sheet.
pub const ON_NO_SHEET: &str = "fits-no-sheet";

/// Pieces that fit a sheet and yet are on none: there was not stock enough.
fn left_out(task: &Task, layout: &Layout) -> u32 {
    let wanted: u32 = task.items.iter().map(|item| item.quantity).sum();
    let laid: usize = layout.sheets.iter().map(|sheet| sheet.laid.len() * sheet.copies as usize).sum();
    let too_large: u32 = layout.unplaced.iter().map(|piece| piece.quantity).sum();
    wanted.saturating_sub(too_large).saturating_sub(u32::try_from(laid).unwrap_or(u32::MAX))
}

/// A film of the job that nothing is cut from.
pub(super) fn unused(film: &str, lines: &Lines) -> Finding {
    Finding {
        severity: Severity::LookAtThis,
        kind: "film-unused",
        place: None,
        measure: None,
        say: format!(
            "Nothing is cut from {}: no motif names it, and no colour is called like it.",
            lines.heading("film", film)
        ),
        advice: format!(
            "Write film = \"{film}\" under a motif, or name it for one of its colours; otherwise leave it out."
        ),
    }
}

/// Sheets that a cutter cuts: those of film, since cloth is cut by hand.
pub(super) fn of_film(sheets: &[FilmSheets], films: &[Film]) -> u32 {
    let is_film = |sheets: &&FilmSheets| tables().film_or_unknown(&films[sheets.film].class).fixes == Fixes::Film;
    sheets.iter().filter(is_film).flat_map(|film| &film.layout.sheets).map(|sheet| sheet.copies).sum()
}

/// Motifs of the job that stand in no band, of which nothing is cut.
pub(super) fn in_no_band(job: &Job) -> Vec<Finding> {
    let placed = |name: &str| {
        job.bands.iter().any(|band| {
            let corner = band.rhythm.corner.as_ref().map(|corner| &corner.motif);
            band.motifs.iter().chain(corner).any(|motif| motif == name)
        })
    };
    let found = |name: &String| Finding {
        severity: Severity::LookAtThis,
        kind: "motif-in-no-band",
        place: None,
        measure: None,
        say: format!(
            "{} stands in no band: nothing of it is cut, no spare or test motif either.",
            job.lines.heading("motif", name)
        ),
        advice: format!("Name it in a band, motifs = [\"{name}\"], or leave it out."),
    };
    job.motifs.iter().map(|motif| &motif.name).filter(|name| !placed(name)).map(found).collect()
}

/// Films whose search was ended before its time.
pub(super) fn ended_early(sheets: &[FilmSheets], films: &[Film]) -> Option<Finding> {
    let early = sheets.iter().filter(|film| film.layout.ended == Ended::StoppedEarly);
    let keys: Vec<&str> = early.map(|film| films[film.film].key.as_str()).collect();
    (!keys.is_empty()).then(|| Finding {
        severity: Severity::LookAtThis,
        kind: "search-ended-early",
        place: None,
        measure: None,
        say: format!("The search for a good layout was ended early on {}.", keys.join(", ")),
        advice: "The best layout found until then is used, checked like every other; plan again to save film."
            .to_owned(),
    })
}

fn task_for(film: &Film, pieces: &Pieces, job: &Job) -> (Vec<usize>, Task) {
    let of_film = pieces.kinds.iter().enumerate().filter(|(_, kind)| kind.film == film.key && kind.quantity() > 0);
    let (indices, items) = of_film
        .map(|(index, kind)| {
            let item = Item {
                name: kind.name.clone(),
                motif: kind.motif.clone(),
                patch: kind.patch.clone(),
                holes: if film.use_holes { kind.holes() } else { Vec::new() },
                quantity: kind.quantity(),
                spares: kind.spares,
                on_first_sheet: kind.tests,
            };
            (index, item)
        })
        .unzip();
    let task = Task {
        items,
        stock: film.stock.clone(),
        margin: film.margin,
        gap: film.gap,
        turning: film.turning,
        effort: job.effort,
        seed: job.seed,
    };
    (indices, task)
}
