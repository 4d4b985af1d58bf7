//! Which line of the job file an error is about.

use std::ops::Range;

use super::Error;
use crate::film::FilmError;
use crate::hem::HemError;
use crate::job::{self, Step};
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
            Self::Hem(fault) => job::span_of(text, &hem(fault)),
            Self::Place(fault) => job::span_of(text, &band(fault)?),
            Self::Size { size, .. } => job::span_of(text, &[key("size"), key(size)]),
            Self::Nest { film: name, .. } | Self::DrawerTooSmall { film: name, .. } => film(text, name),
            Self::TooLarge { pieces } => film(text, &pieces.first()?.film),
            Self::Film(FilmError::TooManySpares { motif, .. }) => {
                let own = |wanted: &str| {
                    let span = job::span_of(text, &[key("motif"), key(motif), key(wanted)])?;
                    text.get(span.clone())?.starts_with(wanted).then_some(span)
                };
                own("spares").or_else(|| own("tests")).or_else(|| job::span_of(text, &[key("motif"), key(motif)]))
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

fn hem(fault: &HemError) -> Vec<Step> {
    let mut steps = vec![key("hem")];
    match fault {
        HemError::MarkOffHem { name, .. } if name == "opening" => steps.extend([key("opening"), key("at")]),
        HemError::MarkOffHem { seam: Some(seam), .. } => steps.extend([key("seams"), Step::Item(*seam)]),
        HemError::MarkOffHem { .. } => steps.push(key("godet")),
        HemError::Underlap { .. } => steps.extend([key("opening"), key("underlap")]),
        HemError::HungParts { .. } => steps.push(key("hung")),
        HemError::HungFar { part, .. } => steps.extend([key("hung"), Step::Item(part.saturating_sub(1))]),
        HemError::GodetWide { .. } | HemError::GodetsMeet { .. } | HemError::Godets { .. } | HemError::NoPanelSeams => {
            steps.push(key("godet"));
        }
        _ => {}
    }
    steps
}

fn band(fault: &PlaceError) -> Option<Vec<Step>> {
    let (name, wanted) = match fault {
        PlaceError::Line { band, .. } => (band, "height"),
        PlaceError::NoMotifs { band } | PlaceError::UnknownMotif { band, .. } => (band, "motifs"),
        PlaceError::NotPositive { band, what } => (band, what.as_str()),
        PlaceError::DoesNotFit { band, .. }
        | PlaceError::SidesTooShort { band, .. }
        | PlaceError::TooMany { band, .. } => (band, "gap"),
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
