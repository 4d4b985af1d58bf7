//! What is wrong, named for the maker's problem, in one line.

use std::fmt;

use crate::quantity::heat_text::HeatTextError;
use crate::quantity::length_text::LengthTextError;
use crate::quantity::size_text::SizeTextError;
use crate::quantity::time_text::TimeTextError;

/// What is wrong, named for the maker's problem.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum FaultKind {
    /// The file is larger than any job can be.
    TooLong {
        /// Bytes.
        bytes: usize,
    },
    /// The text is a drawing.
    ADrawing,
    /// More faults than are told at once.
    Others {
        /// How many more there are.
        count: usize,
    },
    /// The text does not follow the rules of the file.
    NotReadable {
        /// What the reader stumbled over.
        say: String,
        /// What to write instead.
        hint: Option<String>,
    },
    /// A key that is not known here.
    UnknownKey {
        /// As written.
        key: String,
        /// Keys that may stand here.
        known: Vec<String>,
    },
    /// A list or table where one value is wanted, or the other way round.
    WrongShape {
        /// What the reader found and wanted.
        say: String,
    },
    /// No length.
    NotALength(LengthTextError),
    /// No temperature.
    NotATemperature(HeatTextError),
    /// No time.
    NotATime(TimeTextError),
    /// No width and height.
    NotASize(SizeTextError),
    /// No text in quotes.
    NotAText {
        /// As written.
        found: String,
    },
    /// A text with a mark that is not seen: a control, or one that turns the reading direction.
    HiddenMark {
        /// The mark.
        mark: char,
        /// Which letter of the text it is, from 1.
        letter: usize,
    },
    /// A text longer than any paper holds.
    TextTooLong {
        /// Its letters.
        letters: usize,
        /// The most.
        most: usize,
    },
    /// A file's name with a line end or tab in it, as a backslash before n or t makes one.
    NotAFileName,
    /// No number of motifs for those of another band.
    NotTimes {
        /// As written.
        found: String,
    },
    /// A band tied to itself.
    TiedToItself,
    /// A band tied to one that is tied itself.
    TiedInTurn {
        /// The other band.
        to: String,
    },
    /// No whole number.
    NotACount {
        /// As written.
        found: String,
    },
    /// No number.
    NotANumber {
        /// As written.
        found: String,
    },
    /// A number greater than any that is meant.
    TooGreat {
        /// Greatest that is taken, either way from zero.
        most: f64,
    },
    /// Neither true nor false.
    NotASwitch {
        /// As written.
        found: String,
    },
    /// No part of a circle.
    NotAPart {
        /// As written.
        found: String,
    },
    /// No factor on a size.
    NotASizeFactor {
        /// As written.
        found: String,
        /// Greatest that is taken.
        most: f64,
    },
    /// No angle.
    NotAnAngle {
        /// As written.
        found: String,
    },
    /// No colour.
    NotAColour {
        /// As written.
        found: String,
    },
    /// A name that cannot be part of a file name.
    NotAName {
        /// As written.
        found: String,
    },
    /// A value at or below zero that must be above it.
    NotAboveZero {
        /// Key.
        key: &'static str,
        /// As read.
        found: String,
    },
    /// A value below zero that must not be.
    BelowZero {
        /// Key.
        key: &'static str,
        /// As read.
        found: String,
    },
    /// Two values the wrong way round.
    WrongWayRound {
        /// Key of the lesser.
        less: &'static str,
        /// Key of the greater.
        greater: &'static str,
        /// As read.
        found: (String, String),
    },
    /// A word that is none of those that may stand here.
    NotOneOf {
        /// As written.
        word: String,
        /// Words that may stand here.
        choices: Vec<String>,
    },
    /// A name that nothing in the file carries.
    NoSuch {
        /// `motif`, `film`.
        what: &'static str,
        /// As written.
        name: String,
        /// Names there are.
        known: Vec<String>,
    },
    /// A material that the table does not know.
    NoSuchMaterial {
        /// As written.
        name: String,
        /// Materials there are.
        known: Vec<String>,
    },
    /// A key that must be there.
    Missing {
        /// Key.
        key: &'static str,
        /// The table it belongs to.
        table: String,
        /// A line that would do.
        example: &'static str,
    },
    /// Keys of which only one may be there.
    OnlyOne {
        /// Those given.
        given: Vec<&'static str>,
        /// Why.
        why: &'static str,
    },
    /// A key that goes only with another one.
    OnlyWith {
        /// Key given.
        key: &'static str,
        /// What it goes with.
        with: &'static str,
    },
    /// A measurement that the job's shape of hem does not have.
    NotOfThisHem {
        /// Key given.
        key: &'static str,
        /// Measurements it has.
        known: Vec<&'static str>,
    },
    /// The same thing said twice.
    Twice {
        /// What.
        what: String,
    },
    /// A window between trims that is not there.
    NoWindow {
        /// As asked for, counted from the hem up.
        number: u32,
        /// How many there are.
        found: usize,
    },
    /// A motif for the corners of a hem that has none.
    NoCorners {
        /// The motif.
        motif: String,
    },
    /// A drawing that cannot be had, or what only shows when the job is worked out.
    WorkedOut {
        /// Why.
        say: String,
        /// What to do.
        hint: Option<String>,
    },
    /// More of something than any job has.
    TooMany {
        /// What.
        what: &'static str,
        /// How many.
        found: usize,
        /// The most.
        most: usize,
    },
}

/// A panel with lines of its own, as [`FaultKind::NoSuch`] names it.
pub(crate) const DRAWN_PANEL: &str = "drawn panel";

/// Letters of a strange text that a message repeats; the place shows the rest.
const REPEATED: usize = 60;

/// A text as a message repeats it.
fn repeated(text: &str) -> String {
    if text.chars().count() <= REPEATED {
        return text.to_owned();
    }
    text.chars().take(REPEATED).chain("...".chars()).collect()
}

impl fmt::Display for FaultKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { bytes } => write!(f, "a job file of {bytes} bytes is longer than any job needs"),
            Self::ADrawing => f.write_str("this is a drawing, not a job file"),
            Self::Others { count: 1 } => f.write_str("one fault more"),
            Self::Others { count } => write!(f, "{count} faults more"),
            Self::NotReadable { say, .. } | Self::WrongShape { say } => f.write_str(say),
            Self::UnknownKey { key, .. } => write!(f, "unknown key \"{}\"", repeated(key)),
            Self::NotALength(fault) => fault.fmt(f),
            Self::NotATemperature(fault) => fault.fmt(f),
            Self::NotATime(fault) => fault.fmt(f),
            Self::NotASize(fault) => fault.fmt(f),
            Self::NotAText { found } if found == "\"\"" => f.write_str("nothing stands between the quotes"),
            Self::NotAText { found } => write!(f, "{found} is not a text"),
            Self::HiddenMark { mark, letter } => write!(
                f,
                "letter {letter} of this text is an unseen mark (U+{:04X}) that would garble the papers",
                u32::from(*mark)
            ),
            Self::NotAFileName => f.write_str("the name of this file has a line end or a tab in it"),
            Self::TextTooLong { letters, most } => {
                write!(f, "a text of {letters} letters is {} longer than the {most} that are taken", letters - most)
            }
            Self::NotTimes { found } => write!(f, "{found} does not say how many motifs for those of another band"),
            Self::TiedToItself => f.write_str("a band cannot follow itself"),
            Self::TiedInTurn { to } => write!(f, "\"{to}\" cannot lead this band: it is tied itself"),
            Self::NotACount { found } => write!(f, "{found} is not a number of things"),
            Self::NotANumber { found } => write!(f, "{found} is not a number"),
            Self::TooGreat { most } => write!(f, "this number is greater than {most}, the most that is taken"),
            Self::NotASwitch { found } => write!(f, "{found} is neither true nor false"),
            Self::NotAPart { found } => write!(f, "{found} is not a part of a circle"),
            Self::NotASizeFactor { found, .. } => write!(f, "{found} is not a factor on a motif's size"),
            Self::NotAnAngle { found } => write!(f, "{found} is not an angle"),
            Self::NotAColour { found } => write!(f, "\"{found}\" is not a colour"),
            Self::NotAName { found } => write!(f, "\"{}\" cannot be used as a name", repeated(found)),
            Self::NotAboveZero { key, found } => write!(f, "{key} is {found}; it must be more than zero"),
            Self::BelowZero { key, found } => write!(f, "{key} is {found}; it must not be less than zero"),
            Self::WrongWayRound { less, greater, found } => {
                write!(f, "{less} is {}, which is not less than {greater}, {}", found.0, found.1)
            }
            Self::NotOneOf { word, .. } => write!(f, "\"{word}\" is not known here"),
            Self::NoSuch { what, name, .. } => write!(f, "there is no {what} \"{name}\" in this job"),
            Self::NoSuchMaterial { name, .. } => write!(f, "\"{name}\" is not in the table of materials"),
            Self::Missing { key, table, .. } => write!(f, "{table} has no {key}"),
            Self::OnlyOne { given, .. } => write!(f, "only one of these may be given: {}", given.join(", ")),
            Self::OnlyWith { key, with } => write!(f, "{key} goes only with {with}"),
            Self::NotOfThisHem { key, .. } => write!(f, "{key} is no measurement of the hem of this job"),
            Self::Twice { what } => write!(f, "{what} is given twice"),
            Self::NoWindow { number, found: 0 } => {
                write!(f, "there is no window {number}: no two trims leave one between them")
            }
            Self::NoWindow { number, found } => {
                write!(f, "there is no window {number}: the trims leave {found}, counted from the hem up")
            }
            Self::NoCorners { motif } => write!(f, "{motif} is asked for in the corners, and this hem has no corners"),
            Self::WorkedOut { say, .. } => f.write_str(say),
            Self::TooMany { what, found: 0, .. } => write!(f, "there must be at least one of the {what}"),
            Self::TooMany { what, found, most } => write!(f, "{found} {what} are more than the {most} a job can have"),
        }
    }
}
