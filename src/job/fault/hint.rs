//! What to write instead.

use super::kind::{DRAWN_PANEL, FaultKind};
use crate::data::nearest_names;

/// The known word that was probably meant.
fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    nearest_names(word, known).first().copied()
}

/// Whether a value was written without a unit.
fn is_bare(found: &str) -> bool {
    found.ends_with(|last: char| last.is_ascii_digit())
}

/// What to look for where the text is no TOML, by what its reader stumbled over.
fn unreadable(say: &str) -> Option<&'static str> {
    const HINTS: [(&str, &str); 12] = [
        ("invalid basic string", "a text stands between two quotes on one line: write the one that is missing"),
        ("invalid literal string", "a text stands between two quotes on one line: write the one that is missing"),
        ("invalid multi-line", "a text that begins with three quotes ends with three: write those that are missing"),
        ("missing opening quote", "here, or further left in this line, a text lacks one of its two quotes"),
        (
            "missing comma",
            "write a comma between two entries; where there is one, a text before it lacks its closing quote",
        ),
        ("string values must be quoted", "write the text between quotes: \"60 mm\""),
        ("unclosed array", "a list ends with ]: write it after the last entry"),
        ("unclosed inline table", "a table that begins with { ends with }: write it on the same line"),
        ("unclosed table", "the heading of a table ends with ]"),
        ("key with no value", "write the key, = and its value on one line"),
        ("duplicate key", "write each key and each table once; what is given twice can only mean one"),
        ("unexpected `=` in array", "the list above has no end: write ] after its last entry"),
    ];
    HINTS.iter().find(|(begins, _)| say.starts_with(begins)).map(|(_, hint)| *hint)
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
            Self::WorkedOut { hint, .. } => return hint.clone(),
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
            Self::NoCorners { .. } => {
                "leave corner and corner_takes out, or name the motif among motifs; corners have [hem.rectangle], [hem.polygon] and \
                 drawn edges that turn sharply"
                    .to_owned()
            }
            Self::NotReadable { say } => return unreadable(say).map(str::to_owned),
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
