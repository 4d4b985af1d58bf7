//! Why pieces cannot be made.

use std::fmt;

use crate::art::Colour;
use crate::geometry::Point;
use crate::quantity::Mm;

/// A layer, for messages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayerName {
    /// Motif key.
    pub motif: String,
    /// Drawing colour.
    pub colour: Colour,
}

impl fmt::Display for LayerName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} of \"{}\"", self.colour, self.motif)
    }
}

/// A place where an edge cannot be turned.
#[derive(Clone, Debug, PartialEq)]
pub struct CannotTurn {
    /// The layer.
    pub layer: LayerName,
    /// Where, in finished motif millimetres.
    pub at: Point,
    /// What is in the way.
    pub why: TurnFault,
    /// Allowance asked for.
    pub turn_under: Mm,
}

/// Why an edge cannot be turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TurnFault {
    /// An inside curve of this radius.
    InsideCurve {
        /// Its radius.
        radius: Mm,
    },
    /// A hole that the allowance fills.
    Hole {
        /// Its smaller side.
        side: Mm,
    },
}

impl fmt::Display for CannotTurn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.why {
            TurnFault::InsideCurve { radius } => write!(
                f,
                "an inside curve of {} has a radius of {radius}, tighter than the {} turn-under",
                self.layer, self.turn_under
            ),
            TurnFault::Hole { side } => {
                write!(f, "a hole of {} is {side} wide, too small for the {} turn-under", self.layer, self.turn_under)
            }
        }
    }
}

/// Why pieces cannot be made. Each case holds everything of its kind, so that all can be mended at once.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum FilmError {
    /// The setting places motifs that were not read.
    UnknownMotif {
        /// Their keys.
        motifs: Vec<String>,
    },
    /// Layers that nothing is to be cut from.
    NoFilm {
        /// The layers.
        layers: Vec<LayerName>,
    },
    /// Layers that name a film the job does not have.
    UnknownFilm {
        /// The layers and the film they name.
        layers: Vec<(LayerName, String)>,
        /// The films there are.
        known: Vec<String>,
    },
    /// A name that is film in one place and cloth in another.
    TwoMaterials {
        /// The film's key.
        film: String,
        /// A layer that uses it.
        layer: LayerName,
        /// Whether it is cloth there.
        cloth: bool,
        /// A layer for which it is the other.
        other: LayerName,
    },
    /// Turned edges with inside curves too tight to turn.
    CannotTurn {
        /// Every such place.
        places: Vec<CannotTurn>,
    },
    /// More spares or test motifs than anyone cuts: a slip of the keyboard.
    TooManySpares {
        /// Motif key.
        motif: String,
        /// Spares and tests asked for.
        asked: u64,
    },
}

/// Most spare and test motifs of one kind. A hem takes some hundreds of motifs at most.
const MOST_SPARES: u64 = 1000;

/// Whether so many spare and test motifs of one kind are cut.
///
/// # Errors
/// [`FilmError::TooManySpares`] where they are too many.
pub fn spares_can_be_cut(motif: &str, spares: u32, tests: u32) -> Result<(), FilmError> {
    let asked = u64::from(spares) + u64::from(tests);
    if asked > MOST_SPARES { Err(FilmError::TooManySpares { motif: motif.to_owned(), asked }) } else { Ok(()) }
}

impl fmt::Display for FilmError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownMotif { motifs } => write!(f, "no drawing was read for {}", listed(motifs)),
            Self::NoFilm { layers } => write!(f, "nothing to cut {} from", listed(layers)),
            Self::UnknownFilm { layers, .. } => {
                let named: Vec<String> =
                    layers.iter().map(|(layer, film)| format!("{layer} from \"{film}\"")).collect();
                write!(f, "no such film: {}", listed(&named))
            }
            Self::TwoMaterials { film, layer, cloth, other } => {
                let (here, there) = if *cloth { ("cloth", "film") } else { ("film", "cloth") };
                write!(
                    f,
                    "\"{film}\" is {here} for {layer}, but {there} for {other}: pieces of both would lie on one sheet"
                )
            }
            Self::CannotTurn { places } => {
                let lines: Vec<String> = places.iter().map(ToString::to_string).collect();
                f.write_str(&lines.join("\n"))
            }
            Self::TooManySpares { motif, asked } => {
                write!(f, "{asked} spare and test motifs of \"{motif}\" are asked for, {MOST_SPARES} are the most")
            }
        }
    }
}

impl std::error::Error for FilmError {}

impl FilmError {
    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::UnknownMotif { motifs } => {
                format!("add [motif.{}] with its drawing, or take it out of the band", motifs[0])
            }
            Self::NoFilm { layers } => {
                format!("give the colour {} a film or cloth under [motif.{}]", layers[0].colour, layers[0].motif)
            }
            Self::UnknownFilm { layers, known } => {
                let known = if known.is_empty() { "none yet".to_string() } else { known.join(", ") };
                format!("add [film.{}], or take one of the films there are: {known}", layers[0].1)
            }
            Self::TwoMaterials { layer, cloth, other, .. } => {
                let motif = if *cloth { &layer.motif } else { &other.motif };
                format!(
                    "give the cloth a name of its own: film = \"NAME\" under [motif.{motif}], and a table [film.NAME] with its \
                     sheets; or leave film out there and it gets one"
                )
            }
            Self::CannotTurn { places } => format!(
                "use a raw edge for this colour, split the piece there (near {:.0}, {:.0} mm from the motif's middle), or give a smaller turn_under under [motif.{}.prepare]",
                places[0].at.x, places[0].at.y, places[0].layer.motif
            ),
            Self::TooManySpares { .. } => "write how many whole motifs to cut beyond those on the hem".to_string(),
        }
    }
}

/// `a, b and c`
fn listed<T: fmt::Display>(things: &[T]) -> String {
    let words: Vec<String> = things.iter().map(ToString::to_string).collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_say_what_and_hints_say_what_to_do() {
        let layer = |red: u8| LayerName { motif: "poppy".into(), colour: Colour { red, green: 0, blue: 0 } };
        let error = FilmError::NoFilm { layers: vec![layer(1), layer(2)] };
        assert_eq!(error.to_string(), "nothing to cut #010000 of \"poppy\" and #020000 of \"poppy\" from");
        assert_eq!(error.hint(), "give the colour #010000 a film or cloth under [motif.poppy]");
        let error =
            FilmError::UnknownFilm { layers: vec![(layer(1), "rde".into())], known: vec!["gold".into(), "red".into()] };
        assert_eq!(error.to_string(), "no such film: #010000 of \"poppy\" from \"rde\"");
        assert_eq!(error.hint(), "add [film.rde], or take one of the films there are: gold, red");
        let error = FilmError::TooManySpares { motif: "poppy".into(), asked: 5000 };
        assert_eq!(error.to_string(), "5000 spare and test motifs of \"poppy\" are asked for, 1000 are the most");
    }
}
