//! Which line of the job file an error is about.

use std::ops::Range;

use super::Error;
use super::recut::OFF_CUT;
use crate::film::FilmError;
use crate::hem::{DrawnError, HemError};
use crate::job::{self, Step};
use crate::nest::NestError;
use crate::place::PlaceError;
use crate::press::PressError;
use crate::trims::TrimError;

impl Error {
    /// The place in the text of the job file that the error is about, where it is about one.
    #[must_use]
    pub fn place_in(&self, text: &str) -> Option<Range<usize>> {
        match self {
            Self::NoDrawing { file } | Self::Art { file, .. } => job::span_of_text(text, file),
            Self::NoLine { id, .. } => job::span_of_text(text, id),
            Self::Hem(HemError::Drawn(fault)) => drawn(text, fault),
            Self::Hem(fault) => job::span_of(text, &hem(text, fault)),
            Self::Place(PlaceError::KeepOutOffHem { line: Some(line), .. }) => {
                // In the table that begins on that line, the key that says where the place begins.
                let table = text.split_inclusive('\n').take(line - 1).map(str::len).sum::<usize>();
                let key = text.get(table..)?.find("along_from").map(|at| table + at..table + at + "along_from".len());
                key.or_else(|| job::span_of(text, &[job::Step::Key("keep_out".to_owned())]))
            }
            Self::Place(fault) => job::span_of(text, &band(fault)?),
            Self::Size { size, .. } => job::span_of(text, &[key("size"), key(size)]),
            // Off-cuts are told of by flags.
            Self::Nest { fault: NestError::MarginLeavesNothing { stock, .. }, .. } if stock.starts_with(OFF_CUT) => {
                None
            }
            Self::Nest { film: name, .. } | Self::DrawerTooSmall { film: name, .. } => film(text, name),
            Self::TooLarge { pieces } => film(text, &pieces.first()?.film),
            Self::Film(FilmError::TooManySpares { motif, .. }) => {
                let own = |wanted: &str| {
                    let span = job::span_of(text, &[key("motif"), key(motif), key(wanted)])?;
                    text.get(span.clone())?.starts_with(wanted).then_some(span)
                };
                own("spares").or_else(|| own("tests")).or_else(|| job::span_of(text, &[key("motif"), key(motif)]))
            }
            Self::Film(FilmError::CannotTurn { places }) => {
                let motif = || vec![key("motif"), key(&places[0].layer.motif)];
                let prepare = motif().into_iter().chain([key("prepare"), key("turn_under")]).collect::<Vec<_>>();
                job::span_of(text, &prepare)
            }
            Self::Film(FilmError::TwoMaterials { layer, .. }) => {
                let of_motif = |more: &[&str]| {
                    let steps = ["motif", layer.motif.as_str()].into_iter().chain(more.iter().copied());
                    job::span_of(text, &steps.map(key).collect::<Vec<_>>())
                };
                let colour = layer.colour.to_string();
                let own = of_motif(&["colours", &colour])
                    .filter(|at| text.get(at.clone()).is_some_and(|t| t.contains(&colour)));
                own.or_else(|| of_motif(&["film"]))
            }
            Self::Press(fault) => job::span_of(text, &press(fault)?),
            Self::Trims(faults) => job::span_of(text, &[key("trim"), named(trim(faults.first()?))]),
            Self::Several(faults) => faults.iter().find_map(|fault| fault.place_in(text)),
            Self::Stopped { findings } => {
                let place = findings.first()?.place.as_ref()?;
                job::span_of_text(text, &place.drawing)
            }
            Self::Film(_) | Self::BadLayout { .. } | Self::NoSuchPiece { .. } | Self::NoSuchFilm { .. } => None,
        }
    }
}

fn key(key: &str) -> Step {
    Step::Key(key.to_owned())
}

fn named(name: &str) -> Step {
    Step::Named(name.to_owned())
}

/// The table of a film, or that of every film where it has none of its own.
fn film(text: &str, name: &str) -> Option<Range<usize>> {
    let own = job::span_of(text, &[key("film"), key(name)]).filter(|span| text.get(span.clone()) == Some(name));
    own.or_else(|| job::span_of(text, &[key("every_film")]))
}

/// The id of the line, or the panel, that a fault of drawn pieces is about.
fn drawn(text: &str, fault: &DrawnError) -> Option<Range<usize>> {
    let of = |steps: &[&str]| {
        let steps: Vec<Step> = ["hem", "drawn"].iter().chain(steps).map(|step| key(step)).collect();
        job::span_of(text, &steps)
    };
    match fault {
        DrawnError::NoPanels | DrawnError::TooManyPieces { .. } => of(&["panels"]),
        DrawnError::WrongSize { .. } => of(&["check_length"]),
        DrawnError::NothingLeft { .. } => of(&["hem_allowance"]),
        DrawnError::UpsideDown { panel } => of(&["panel", panel]),
        DrawnError::NoLine { id }
        | DrawnError::TooFine { id, .. }
        | DrawnError::TooLong { id, .. }
        | DrawnError::Broken { id, .. }
        | DrawnError::Closes { id }
        | DrawnError::Open { id, .. }
        | DrawnError::TurnsBack { id }
        | DrawnError::Crosses { id, .. }
        | DrawnError::SeamApart { id, .. } => job::span_of_text(text, id).or_else(|| of(&[])),
    }
}

/// The key of the table that a godet of the wish comes from, of which each place makes one.
fn godet(text: &str, number: usize, wanted: &str) -> Vec<Step> {
    let table = |index| vec![key("hem"), key("godet"), Step::Item(index)];
    let at = |index| table(index).into_iter().chain([key("at")]).collect::<Vec<_>>();
    let (mut index, mut left) = (0, number);
    while let Some(places) = job::count_of(text, &at(index)).filter(|places| *places <= left) {
        (index, left) = (index + 1, left - places);
    }
    let mut steps = table(index);
    steps.push(key(wanted));
    if wanted == "at" {
        steps.push(Step::Item(left));
    }
    steps
}

fn hem(text: &str, fault: &HemError) -> Vec<Step> {
    let mut steps = vec![key("hem")];
    match fault {
        HemError::MarkOffHem { name, .. } if name == "opening" => steps.extend([key("opening"), key("at")]),
        HemError::MarkOffHem { seam: Some(seam), .. } => steps.extend([key("seams"), Step::Item(*seam)]),
        HemError::MarkOffHem { godet: Some(number), .. }
        | HemError::GodetsMeet { godet: number, .. }
        | HemError::NoPanelSeams { godet: number } => return godet(text, *number, "at"),
        HemError::GodetWide { godet: number, .. } => return godet(text, *number, "width"),
        HemError::Underlap { .. } => steps.extend([key("opening"), key("underlap")]),
        HemError::HungParts { .. } => steps.push(key("hung")),
        HemError::HungFar { part, .. } => steps.extend([key("hung"), Step::Item(part.saturating_sub(1))]),
        HemError::Godets { .. } => steps.push(key("godet")),
        HemError::Fraction { .. } => steps.extend([key("circle"), key("fraction")]),
        HemError::Panels { .. } => steps.extend([key("gores"), key("panels")]),
        HemError::TooMuchSweep { .. } => steps.extend([key("gores"), key("hem")]),
        HemError::Sides { .. } => steps.extend([key("polygon"), key("sides")]),
        HemError::TapeAgainstDraft { .. } => steps.extend([key("oval"), key("tape")]),
        HemError::InsideWaist { .. } | HemError::BendsInward { .. } => steps.push(key("oval")),
        _ => {}
    }
    steps
}

fn band(fault: &PlaceError) -> Option<Vec<Step>> {
    let (name, wanted) = match fault {
        PlaceError::DoesNotFit { band, row: 2.., .. }
        | PlaceError::SidesTooShort { band, row: 2.., .. }
        | PlaceError::CountTooGreat { band, row: 2.., .. } => (band, "rise"),
        PlaceError::Line { band, .. } => (band, "height"),
        PlaceError::NoMotifs { band } | PlaceError::UnknownMotif { band, .. } => (band, "motifs"),
        PlaceError::NotPositive { band, what } => (band, what.as_str()),
        PlaceError::DoesNotFit { band, .. }
        | PlaceError::SidesTooShort { band, .. }
        | PlaceError::TooMany { band, .. } => (band, "gap"),
        PlaceError::RowsTooNear { band, .. } => (band, "rise"),
        PlaceError::EndsTakeAll { .. } => return Some(vec![key("hem"), key("ends_clear")]),
        PlaceError::CountTooGreat { band, .. } | PlaceError::GapsTakeAll { band, .. } => (band, "count"),
        PlaceError::BentAndShared { band, .. } | PlaceError::BentTooTight { band, .. } => (band, "stance"),
        PlaceError::NoCorners { band, .. } => (band, "corner"),
        PlaceError::ShiftOfOpen { band } | PlaceError::ShiftTooFar { band, .. } => (band, "shift"),
        PlaceError::TiedToNone { band, .. } | PlaceError::TieDoesNotFit { band, .. } => (band, "tied_to"),
        PlaceError::TooManyRows { band, .. } => (band, "rows"),
        PlaceError::KeepOutOffHem { name, .. } => return Some(vec![key("keep_out"), named(name)]),
    };
    Some(vec![key("band"), named(name), key(wanted)])
}

fn press(fault: &PressError) -> Option<Vec<Step>> {
    match fault {
        PressError::NoTrustedPlate { .. } => Some(vec![key("press"), key("rim")]),
        PressError::TooLarge { .. } => Some(vec![key("press"), key("plate")]),
        PressError::Hem(_) | PressError::Unsound(_) => None,
    }
}

fn trim(fault: &TrimError) -> &str {
    match fault {
        TrimError::TooDeep { trim, .. }
        | TrimError::TooSmall { trim, .. }
        | TrimError::ClothTooNarrow { trim, .. }
        | TrimError::TooMany { trim, .. } => trim,
    }
}
