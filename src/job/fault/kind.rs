//! What can be wrong with a job file, each fault with its place and what to write instead.

use std::fmt;
use std::ops::Range;

use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

use crate::data::nearest_names;
use crate::quantity::heat_text::HeatTextError;
use crate::quantity::length_text::LengthTextError;
use crate::quantity::size_text::SizeTextError;
use crate::quantity::time_text::TimeTextError;

/// Why a job file cannot be used: every fault found, in order of place.
#[derive(Clone, Debug, PartialEq)]
pub struct JobError {
    faults: Vec<Fault>,
}

/// One fault of a job file.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Bytes of the file it is about; `None` when it is about the file as a whole.
    pub at: Option<Range<usize>>,
    /// What is wrong.
    pub kind: FaultKind,
}

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
    /// No number of motifs for those of another band.
    NotTimes {
        /// As written.
        found: String,
    },
    /// A band tied to one that is tied itself, or to itself.
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
    /// A drawing that cannot be had.
    Drawing {
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

impl JobError {
    /// All faults, sorted by place; those of the whole file come first, how many more there are comes last.
    #[must_use]
    pub fn new(mut faults: Vec<Fault>) -> Self {
        let place = |fault: &Fault| fault.at.as_ref().map(|at| (at.start, at.end));
        faults.sort_by_key(|fault| (matches!(fault.kind, FaultKind::Others { .. }), place(fault)));
        Self { faults }
    }

    /// The same with further faults.
    #[must_use]
    pub fn with(mut self, further: Vec<Fault>) -> Self {
        self.faults.extend(further);
        Self::new(self.faults)
    }

    /// The faults, in order of place.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// All faults as text, each with the line of the file it is about.
    #[must_use]
    pub fn render(&self, file: &str, text: &str, look: Look) -> String {
        let renderer = look.renderer();
        let rendered: Vec<String> =
            self.faults.iter().map(|fault| render_fault(&renderer, file, text, fault)).collect();
        rendered.join("\n\n")
    }
}

/// How messages are rendered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// For a file or pipe.
    Plain,
    /// For a terminal.
    Coloured,
}

impl Look {
    fn renderer(self) -> Renderer {
        match self {
            Self::Plain => Renderer::plain(),
            Self::Coloured => Renderer::styled(),
        }
    }
}

fn render_fault(renderer: &Renderer, file: &str, text: &str, fault: &Fault) -> String {
    rendered(renderer, (file, text), fault.at.clone(), &fault.kind.to_string(), fault.kind.hint().as_deref())
}

/// What a later stage says of a job, shown at its line of the file like the faults of the file itself.
#[must_use]
pub fn render_at((file, text): (&str, &str), at: Range<usize>, look: Look, say: &str, hint: Option<&str>) -> String {
    rendered(&look.renderer(), (file, text), Some(at), say, hint)
}

fn rendered(
    renderer: &Renderer,
    (file, text): (&str, &str),
    at: Option<Range<usize>>,
    say: &str,
    hint: Option<&str>,
) -> String {
    let title = Level::ERROR.primary_title(say);
    let hint = hint.map(|hint| Level::NOTE.with_name("hint").message(hint));
    match at.and_then(|at| on_one_line(text, at)) {
        Some(at) => {
            let snippet = Snippet::source(text).path(file).annotation(AnnotationKind::Primary.span(at));
            renderer.render(&[title.element(snippet).elements(hint)])
        }
        None => {
            let origin = annotate_snippets::Origin::path(file);
            renderer.render(&[title.element(origin).elements(hint)])
        }
    }
}

/// The part of a span that lies on its first line and on character borders: a table's fault points at its heading.
fn on_one_line(text: &str, at: Range<usize>) -> Option<Range<usize>> {
    let from = text.get(at.start..)?;
    let line = from.find(['\n', '\r']).unwrap_or(from.len());
    let end = at.end.clamp(at.start, at.start + line);
    text.is_char_boundary(end).then_some(at.start..end)
}

/// The known word that was probably meant.
fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    nearest_names(word, known).first().copied()
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

/// Whether a value was written without a unit.
fn is_bare(found: &str) -> bool {
    found.ends_with(|last: char| last.is_ascii_digit())
}

impl FaultKind {
    /// What to write instead, where the message does not say it already.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        Some(match self {
            Self::UnknownKey { key, known } => match nearest(key, known.iter().map(String::as_str)) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None => format!("what may stand here: {}", known.join(", ")),
            },
            Self::NotOneOf { word, choices } => match nearest(word, choices.iter().map(String::as_str)) {
                Some(near) => format!("did you mean \"{near}\"? What may stand here: {}", choices.join(", ")),
                None => format!("what may stand here: {}", choices.join(", ")),
            },
            Self::NoSuch { what: DRAWN_PANEL, known, .. } if known.is_empty() => {
                "give one panel lines of its own: hem, left and right; others can then be its mirror image".to_owned()
            }
            Self::NoSuch { what: DRAWN_PANEL, known, .. } => {
                format!("name a panel that has lines of its own: {}", known.join(", "))
            }
            Self::NoSuch { what: "band", known, .. } => format!("name one of the other bands: {}", known.join(", ")),
            Self::NoSuch { what, name, known } => match nearest(name, known.iter().map(String::as_str)) {
                Some(near) => format!("did you mean \"{near}\"?"),
                None if known.is_empty() => format!("add a table [{what}.{name}]"),
                None => format!("add a table [{what}.{name}], or write one of: {}", known.join(", ")),
            },
            Self::NoSuchMaterial { name, known } => {
                let near = nearest(name, known.iter().map(String::as_str));
                let near = near.map_or_else(String::new, |near| format!("did you mean \"{near}\"? "));
                format!("{near}\"hemwright materials\" lists what is known; \"unknown\" is the cautious choice")
            }
            Self::Drawing { hint, .. } => return hint.clone(),
            Self::Missing { example, .. } => format!("write for instance  {example}"),
            Self::NotAText { .. } => "write a text in quotes".to_owned(),
            Self::HiddenMark { .. } => {
                "delete the whole text, quotes too, and type it anew: such marks come along unseen when text is copied".to_owned()
            }
            Self::TextTooLong { most, .. } => format!("write at most {most} letters; it must fit a line of the papers"),
            Self::NotTimes { .. } => {
                "write \"same\", \"twice\", \"half\", \"third\", a number up to 12, or for instance \"3/2\" for three to every two"
                    .to_owned()
            }
            Self::TiedInTurn { .. } => "tie both to a third band, or give one of them a gap or count of its own".to_owned(),
            Self::NotACount { .. } => "write a whole number up to 100000, without quotes".to_owned(),
            Self::NotASizeFactor { most, .. } => {
                format!("write a number above 0 and up to {most}: 1.15 is 15 % larger than drawn")
            }
            Self::NotANumber { .. } => "write a number with a decimal point, without quotes: 6.50".to_owned(),
            Self::NotASwitch { .. } => "write true or false, without quotes".to_owned(),
            Self::NotAPart { .. } => "write \"full\", \"3/4\", \"half\", \"quarter\", or a number up to 20".to_owned(),
            Self::NotAnAngle { .. } => "write for instance \"360 deg\"".to_owned(),
            Self::NotAColour { .. } => "write the drawing's colour as in \"#c62828\"".to_owned(),
            Self::NotAName { .. } => {
                "use lower-case letters a to z, digits and dashes, at most 40: the name becomes part of file names".to_owned()
            }
            Self::NoWindow { .. } => {
                "a window lies between two trims of the right side: say in [[trim]] at which height each begins and how deep it \
                 is; above the hem alone write height or lower_edge"
                    .to_owned()
            }
            Self::OnlyOne { why, .. } => (*why).to_owned(),
            Self::NotAboveZero { found, .. } if is_bare(found) => "write a number above zero, without a unit".to_owned(),
            Self::NotAboveZero { .. } => {
                "measure again and write the length with its unit, or leave the line out".to_owned()
            }
            Self::BelowZero { found, .. } if is_bare(found) => {
                "write 0 for none, a number above it without a unit, or leave the line out".to_owned()
            }
            Self::BelowZero { .. } => "write 0 mm for none, or a length with its unit".to_owned(),
            Self::WrongWayRound { less, greater, .. } => {
                format!("swap them if {less} and {greater} were taken for each other")
            }
            Self::OnlyWith { .. } => "add what it goes with, or leave this out".to_owned(),
            Self::Twice { .. } => "leave one of the two out".to_owned(),
            Self::TooMany { .. } => "look for a slip of the keyboard, or split the job in two".to_owned(),
            Self::TooLong { .. } => "is this really a job file?".to_owned(),
            Self::ADrawing => {
                "a job names its drawings under [motif.NAME] art = ..; \"hemwright new\" writes one, \"hemwright inspect\" looks \
                 at the drawing alone"
                    .to_owned()
            }
            Self::Others { .. } => "mend these first; often the rest goes with them".to_owned(),
            _ => return None,
        })
    }
}

impl fmt::Display for FaultKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong { bytes } => write!(f, "a job file of {bytes} bytes is longer than any job needs"),
            Self::ADrawing => f.write_str("this is a drawing, not a job file"),
            Self::Others { count: 1 } => f.write_str("one fault more"),
            Self::Others { count } => write!(f, "{count} faults more"),
            Self::NotReadable { say } | Self::WrongShape { say } => f.write_str(say),
            Self::UnknownKey { key, .. } => write!(f, "unknown key \"{}\"", repeated(key)),
            Self::NotALength(fault) => fault.fmt(f),
            Self::NotATemperature(fault) => fault.fmt(f),
            Self::NotATime(fault) => fault.fmt(f),
            Self::NotASize(fault) => fault.fmt(f),
            Self::NotAText { found } => write!(f, "{found} is not a text"),
            Self::HiddenMark { mark, letter } => write!(
                f,
                "letter {letter} of this text is an unseen mark (U+{:04X}) that would garble the papers",
                u32::from(*mark)
            ),
            Self::TextTooLong { letters, most } => {
                write!(f, "a text of {letters} letters is {} longer than the {most} that are taken", letters - most)
            }
            Self::NotTimes { found } => write!(f, "{found} does not say how many motifs for those of another band"),
            Self::TiedInTurn { to } => write!(f, "\"{to}\" cannot lead this band: it is tied itself"),
            Self::NotACount { found } => write!(f, "{found} is not a number of things"),
            Self::NotANumber { found } => write!(f, "{found} is not a number"),
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
            Self::Twice { what } => write!(f, "{what} is given twice"),
            Self::NoWindow { number, found: 0 } => {
                write!(f, "there is no window {number}: no two trims leave one between them")
            }
            Self::NoWindow { number, found } => {
                write!(f, "there is no window {number}: the trims leave {found}, counted from the hem up")
            }
            Self::Drawing { say, .. } => f.write_str(say),
            Self::TooMany { what, found: 0, .. } => write!(f, "there must be at least one of the {what}"),
            Self::TooMany { what, found, most } => write!(f, "{found} {what} are more than the {most} a job can have"),
        }
    }
}

/// Every fault on a line of its own, without the lines of the file.
impl fmt::Display for JobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines: Vec<String> = self.faults.iter().map(|fault| fault.kind.to_string()).collect();
        f.write_str(&lines.join("\n"))
    }
}

impl std::error::Error for JobError {}
