//! `hemwright recut`: a small folder of cut files for spoiled pieces.

use std::path::PathBuf;

use hemwright::plan::{self, OffCut, OffCutLeft, Plan, Spoiled};

use super::args::RecutArgs;
use super::input::{self, Input};
use super::progress::{self, Bar};
use super::trouble::Trouble;
use super::{contents, folder, say};

pub(crate) fn run(args: &RecutArgs) -> Result<(), Trouble> {
    let Input { job, art, stem, origin, source } = input::read_file(&args.job)?;
    let place = args.out.clone().unwrap_or_else(|| free(&stem));
    let about = about(args, &contents::seen_from(&place, &origin));
    folder::may_write(&place, &about)?;
    folder::can_write(&place)?;
    progress::listen();
    let spoiled: Vec<Spoiled> = args.pieces.iter().map(|piece| piece.0.clone()).collect();
    let offcuts: Vec<OffCut> = args.on.iter().map(|offcut| offcut.0.clone()).collect();
    let plan = plan::recut(&job, &art, &spoiled, &offcuts, &Bar::new());
    let plan = plan.map_err(|fault| input::trouble(source.as_ref(), fault))?;
    progress::begin_to_write();
    if progress::given_up() {
        return Err(Trouble::Stopped);
    }
    folder::write(&place, &about, &hemwright::write::recut_folder(&plan))?;
    let left = plan::offcuts_left(&plan, &offcuts)?;
    say::out(&format!("{}{}Written to {}.\n", sheets(&plan), offcut_words(&left), place.display()))
}

/// `skirt-recut`, or where that is taken `skirt-recut-2` and on: pieces of an earlier recut may still have to be cut.
fn free(stem: &str) -> PathBuf {
    let name = |k: u32| PathBuf::from(if k == 1 { format!("{stem}-recut") } else { format!("{stem}-recut-{k}") });
    (1..1000).map(name).find(|place| !place.exists()).unwrap_or_else(|| name(1))
}

/// Only the same pieces cut again may replace an older folder.
fn about(args: &RecutArgs, job: &str) -> String {
    let pieces: Vec<String> = args.pieces.iter().map(|piece| format!("{} x {}", piece.0.count, piece.0.name)).collect();
    format!("recut of {job}: {}", pieces.join(", "))
}

/// Off-cuts on which nothing is cut, and why.
fn offcut_words(left: &[OffCutLeft]) -> String {
    let words = |left: &OffCutLeft| match &left.smallest {
        Some((piece, (width, height))) => format!(
            "{}: nothing fits on the {}: {piece}, the smallest piece, needs {:.0} x {:.0} mm with its margins\n",
            left.film,
            left.offcut,
            width.get().ceil(),
            height.get().ceil()
        ),
        None => format!("{}: the {} is not needed\n", left.film, left.offcut),
    };
    left.iter().map(words).collect()
}

/// What of each film is cut.
fn sheets(plan: &Plan) -> String {
    let mut text = String::new();
    for film_sheets in &plan.sheets {
        let film = &plan.films[film_sheets.film];
        for sheet in &film_sheets.layout.sheets {
            let pieces = sheet.laid.len() * sheet.copies as usize;
            let word = if pieces == 1 { "piece" } else { "pieces" };
            text.push_str(&format!("{}: {pieces} {word} on {}\n", film.colour_name, film.stock[sheet.stock].name));
        }
    }
    text
}
