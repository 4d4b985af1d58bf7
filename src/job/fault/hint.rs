//! What to write instead.

use super::kind::{DRAWN_PANEL, FaultKind};
use crate::data::nearest_names;
use crate::job::given::{MOST_CIRCLES, MOST_TIMES, PARTS, TIMES};

/// The known word that was probably meant.
fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    nearest_names(word, known).first().copied()
}

/// The words of a list as they are written: `"full", "half"`.
fn in_quotes<T>(words: &[(&str, T)]) -> String {
    words.iter().map(|(word, _)| format!("\"{word}\"")).collect::<Vec<_>>().join(", ")
}

/// Whether a value was written without a unit.
fn is_bare(found: &str) -> bool {
    found.ends_with(|last: char| last.is_ascii_digit())
}

/// Whether a text in quotes holds a number alone.
fn number_in_quotes(found: &str) -> Option<String> {
    let number = found.strip_prefix('"')?.strip_suffix('"')?.trim().replace(',', ".");
    number.parse::<f64>().ok().filter(|_| !number.contains(char::is_alphabetic)).map(|_| number)
}

/// A name as it may be written: lower-case letters, digits and dashes.
fn as_name(found: &str) -> Option<String> {
    let plain = found.to_lowercase();
    let plain: String = plain.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).take(40).collect();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    Some(words.join("-")).filter(|name| !name.is_empty())
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
            Self::NotAText { found } if found == "\"\"" => "write it between the quotes, or leave the line out".to_owned(),
            Self::NotAText { .. } => "write a text in quotes".to_owned(),
            Self::HiddenMark { .. } => {
                "delete the whole text, quotes too, and type it anew: such marks come along unseen when text is copied".to_owned()
            }
            Self::NotAFileName => "write / between folders, as in \"art/rose.svg\": a backslash in quotes begins a special mark".to_owned(),
            Self::TextTooLong { most, .. } => format!("write at most {most} letters; it must fit a line of the papers"),
            Self::NotTimes { .. } => {
                let words = in_quotes(&TIMES);
                format!("write {words}, a number up to {MOST_TIMES}, or for instance \"3/2\" for three to every two")
            }
            Self::TiedToItself => "name another band, or give this one a gap or count of its own".to_owned(),
            Self::TiedInTurn { .. } => "tie both to a third band, or give one of them a gap or count of its own".to_owned(),
            Self::NotACount { found } if number_in_quotes(found).is_some_and(|number| !number.contains(['.', '-'])) => {
                format!("write it without quotes: {}", found.trim_matches('"'))
            }
            Self::NotACount { .. } => "write a whole number up to 100000, without quotes".to_owned(),
            Self::NotASizeFactor { most, .. } => {
                format!("write a number above 0 and up to {most}: 1.15 is 15 % larger than drawn")
            }
            Self::NotANumber { found } if number_in_quotes(found).is_some() => {
                let number = number_in_quotes(found).unwrap_or_default();
                format!("write a number with a decimal point, without quotes: {number}")
            }
            Self::NotANumber { .. } => "write a number with a decimal point, without quotes: 6.50".to_owned(),
            Self::TooGreat { .. } => "look for a slip of the keyboard".to_owned(),
            Self::NotASwitch { .. } => "write true or false, without quotes".to_owned(),
            Self::NotAPart { .. } => {
                format!("write {}, a fraction such as \"3/4\", or a number up to {MOST_CIRCLES}", in_quotes(&PARTS))
            }
            Self::NotAnAngle { found } if number_in_quotes(found).is_some() || found.parse::<f64>().is_ok() => {
                format!("write it with its unit, in quotes: \"{} deg\"", found.trim_matches('"'))
            }
            Self::NotAnAngle { .. } => "write for instance \"360 deg\"".to_owned(),
            Self::NotAColour { .. } => "write the drawing's colour as in \"#c62828\"".to_owned(),
            Self::NotAName { found } => {
                let instead = as_name(found).map_or_else(String::new, |name| format!("write for instance {name}: "));
                format!(
                    "{instead}use lower-case letters a to z, digits and dashes, at most 40: the name becomes part of file names"
                )
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
            Self::NotReadable { hint, .. } => return hint.clone(),
            Self::WrongShape { say } if say.ends_with("a list") => {
                "write the entries between [ and ], even where there is but one".to_owned()
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
            Self::NotOfThisHem { known, .. } if known.is_empty() => "a further size of this hem has a drawing of its own: file".to_owned(),
            Self::NotOfThisHem { known, .. } => format!("a further size changes what [hem] is measured by: {}", known.join(", ")),
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
