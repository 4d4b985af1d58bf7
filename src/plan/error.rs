//! Why a job cannot be planned.

use std::fmt;

use crate::art::ArtError;
use crate::data::nearest_names;
use crate::film::FilmError;
use crate::finding::Finding;
use crate::hem::HemError;
use crate::nest::NestError;
use crate::place::PlaceError;
use crate::press::PressError;
use crate::trims::TrimError;

/// Why a job cannot be planned: the stage's own error, or what lies between two stages.
///
/// `Display` is one line, what and by how much; [`Error::hint`] says what to do.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// The text of a drawing the job names was not handed in.
    NoDrawing {
        /// As the job names it.
        file: String,
    },
    /// The drawing of the pattern pieces has no line of an id that the job gives.
    NoLine {
        /// The drawing's file.
        file: String,
        /// As the job gives it.
        id: String,
        /// Ids there are.
        known: Vec<String>,
    },
    /// A drawing cannot be read.
    Art {
        /// As the job names it.
        file: String,
        /// Why.
        fault: ArtError,
    },
    /// A drawing has findings that stop the job.
    Stopped {
        /// Those findings.
        findings: Vec<Finding>,
    },
    /// The hem cannot be shaped.
    Hem(HemError),
    /// A band cannot be set out.
    Place(PlaceError),
    /// A further size cannot be had.
    Size {
        /// Which size.
        size: String,
        /// Why.
        fault: Box<Error>,
    },
    /// Pieces cannot be made.
    Film(FilmError),
    /// Pieces cannot be laid.
    Nest {
        /// Film key.
        film: String,
        /// Why.
        fault: NestError,
    },
    /// Pieces fit no sheet of their film.
    TooLarge {
        /// Which ones.
        pieces: Vec<TooLarge>,
    },
    /// No layout was found on which the sheets there are, with nothing to buy, hold all pieces.
    DrawerTooSmall {
        /// Film key.
        film: String,
        /// Pieces that found no place in the best layout found.
        left: u32,
        /// Pieces in all.
        of: u32,
    },
    /// A layout did not pass the check after the fact: a fault of this program, never of the job.
    BadLayout {
        /// Film key.
        film: String,
        /// What the check found.
        fault: String,
    },
    /// No piece of the job has this name.
    NoSuchPiece {
        /// As asked for.
        name: String,
        /// Names there are.
        known: Vec<String>,
    },
    /// None of the pieces to cut again is of this film.
    NoSuchFilm {
        /// As asked for.
        name: String,
        /// Films of those pieces.
        known: Vec<String>,
    },
    /// Pressing cannot be planned.
    Press(PressError),
    /// Trims that cannot be worked out, each with its own reason.
    Trims(Vec<TrimError>),
    /// Several at once that do not hang on each other; never fewer than two.
    Several(Vec<Error>),
}

/// A piece that fits no sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct TooLarge {
    /// Name of the piece.
    pub piece: String,
    /// Film key.
    pub film: String,
    /// How many of it.
    pub quantity: u32,
    /// By how much it is too large, and what would take it.
    pub reason: String,
}

impl TooLarge {
    pub(super) fn advice(&self) -> String {
        format!("Give film \"{}\" a larger sheet or a roll, make the motif smaller, or split its drawing.", self.film)
    }
}

impl fmt::Display for TooLarge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { piece, film, quantity, reason } = self;
        match quantity {
            1 => write!(f, "Piece {piece} fits no sheet of film \"{film}\". {reason}"),
            _ => write!(f, "{quantity} pieces {piece} fit no sheet of film \"{film}\". {reason}"),
        }
    }
}

impl Error {
    /// One fault as it is, several as one.
    pub(super) fn several(mut faults: Vec<Self>) -> Self {
        match faults.len() {
            1 => faults.remove(0),
            _ => Self::Several(faults),
        }
    }

    /// Every fault on its own: those that are several at once, of each trim, each piece and each place of a drawing its own, and of
    /// each finding that stops the job.
    #[must_use]
    pub fn each(self) -> Vec<Self> {
        match self {
            Self::Several(faults) => faults.into_iter().flat_map(Self::each).collect(),
            Self::Trims(faults) => faults.into_iter().map(|fault| Self::Trims(vec![fault])).collect(),
            Self::Stopped { findings } => {
                findings.into_iter().map(|finding| Self::Stopped { findings: vec![finding] }).collect()
            }
            Self::Film(FilmError::CannotTurn { places }) => {
                places.into_iter().map(|place| Self::Film(FilmError::CannotTurn { places: vec![place] })).collect()
            }
            Self::TooLarge { pieces } => {
                pieces.into_iter().map(|piece| Self::TooLarge { pieces: vec![piece] }).collect()
            }
            other => vec![other],
        }
    }

    /// The top tables of the job file on which it hangs: with a fault in one of them it may be none.
    #[must_use]
    pub fn hangs_on(&self) -> &'static [&'static str] {
        const ALL: &[&str] =
            &["band", "every_film", "film", "garment", "hem", "keep_out", "motif", "press", "size", "trim", "zone"];
        match self {
            Self::Hem(_) | Self::NoLine { .. } | Self::Place(PlaceError::KeepOutOffHem { .. }) => &["hem"],
            Self::NoDrawing { .. } => &[],
            Self::Art { .. } | Self::Stopped { .. } => &["motif", "film", "every_film"],
            Self::Trims(_) => &["hem", "trim"],
            Self::Size { .. } => &["hem", "size", "garment"],
            Self::Place(PlaceError::Line { .. }) => &["band", "hem", "motif"],
            Self::Place(_) => &["band", "hem", "keep_out", "motif", "trim"],
            _ => ALL,
        }
    }

    /// What the maker can do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::NoDrawing { file } => format!("put {file} beside the job file, or correct the name there"),
            Self::NoLine { id, known, .. } => no_line_hint(id, known),
            Self::Art { fault, .. } => fault.hint(),
            Self::Stopped { findings } => findings.first().map_or_else(String::new, |first| first.advice.clone()),
            Self::Hem(fault) => fault.hint().to_owned(),
            Self::Place(fault) => fault.hint(),
            Self::Size { fault, .. } => fault.hint(),
            Self::Film(fault) => fault.hint(),
            Self::Nest { fault, .. } => fault.hint().to_owned(),
            Self::TooLarge { pieces } => pieces.first().map_or_else(String::new, TooLarge::advice),
            Self::DrawerTooSmall { film, .. } => {
                format!(
                    "give film \"{film}\" a size to buy as well, or a price beside \"have\" at which more can be bought; where \
                     little is missing, fewer spares may do, or a longer search: effort = \"thorough\" under [laying]"
                )
            }
            Self::NoSuchPiece { known, .. } | Self::NoSuchFilm { known, .. } => {
                format!("write one of: {}", known.join(", "))
            }
            Self::BadLayout { .. } => {
                "this is a fault of the program: nothing was written; please report it with the job file".to_owned()
            }
            Self::Press(fault) => fault.hint(),
            Self::Trims(faults) => faults.first().map_or_else(String::new, TrimError::hint),
            Self::Several(faults) => faults.first().map_or_else(String::new, Self::hint),
        }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoDrawing { file } => write!(f, "the drawing {file} is missing"),
            Self::NoLine { file, id, .. } => write!(f, "{file} has no line with the id \"{id}\""),
            Self::Art { fault, .. } => fault.fmt(f),
            Self::Stopped { findings } => {
                let lines: Vec<String> = findings.iter().map(said_where).collect();
                f.write_str(&lines.join("\n"))
            }
            Self::Hem(fault) => fault.fmt(f),
            Self::Place(fault) => fault.fmt(f),
            Self::Size { size, fault } => write!(f, "size {size}: {fault}"),
            Self::Film(fault) => fault.fmt(f),
            Self::Nest { film, fault } => write!(f, "film \"{film}\": {fault}"),
            Self::TooLarge { pieces } => {
                let lines: Vec<String> = pieces.iter().map(ToString::to_string).collect();
                f.write_str(&lines.join("\n"))
            }
            Self::DrawerTooSmall { film, left, of } => {
                let find = if *left == 1 { "finds" } else { "find" };
                write!(
                    f,
                    "no layout was found that puts all of film \"{film}\" on the sheets in the drawer: in the best one {left} \
                     of {of} pieces {find} no place"
                )
            }
            Self::NoSuchPiece { name, .. } => write!(f, "there is no piece \"{name}\" in this job"),
            Self::NoSuchFilm { name, .. } => write!(f, "none of these pieces is cut from film \"{name}\""),
            Self::BadLayout { film, fault } => {
                write!(f, "the layout of film \"{film}\" did not pass its check: {fault}")
            }
            Self::Press(fault) => fault.fmt(f),
            Self::Several(faults) => {
                let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
                f.write_str(&lines.join("\n"))
            }
            Self::Trims(faults) => {
                let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
                f.write_str(&lines.join("\n"))
            }
        }
    }
}

/// Ids of a drawing that a message lists.
const LISTED: usize = 24;

/// The id that was probably meant, and those there are.
fn no_line_hint(id: &str, known: &[String]) -> String {
    let more = if known.len() > LISTED { ", .." } else { "" };
    let listed = known.iter().take(LISTED).map(String::as_str).collect::<Vec<_>>().join(", ");
    match nearest_names(id, known.iter().map(String::as_str)).first() {
        Some(near) => {
            format!("did you mean \"{near}\"? Ids are told apart by capitals; the drawing has: {listed}{more}")
        }
        None if known.is_empty() => "give the lines ids in your drawing tool".to_owned(),
        None => format!("give the line this id in your drawing tool, or write one of: {listed}{more}"),
    }
}

/// A finding with the file, line and element it belongs to.
fn said_where(finding: &Finding) -> String {
    match &finding.place {
        Some(place) => match place.line {
            Some(line) => format!("{}, line {line}, {}: {}", place.drawing, place.element, finding.say),
            None => format!("{}, {}: {}", place.drawing, place.element, finding.say),
        },
        None => finding.say.clone(),
    }
}

impl std::error::Error for Error {}

impl From<HemError> for Error {
    fn from(fault: HemError) -> Self {
        Self::Hem(fault)
    }
}

impl From<PlaceError> for Error {
    fn from(fault: PlaceError) -> Self {
        Self::Place(fault)
    }
}

impl From<FilmError> for Error {
    fn from(fault: FilmError) -> Self {
        Self::Film(fault)
    }
}

impl From<Vec<TrimError>> for Error {
    fn from(faults: Vec<TrimError>) -> Self {
        Self::Trims(faults)
    }
}

impl From<PressError> for Error {
    fn from(fault: PressError) -> Self {
        Self::Press(fault)
    }
}
