//! Why pressing cannot be planned.

use std::fmt;

use crate::hem::HemError;
use crate::press::verify::PressFlaw;
use crate::quantity::Mm;

/// Why pressing cannot be planned.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PressError {
    /// The rim leaves nothing of the plate.
    NoTrustedPlate {
        /// The plate.
        plate: (Mm, Mm),
        /// Its rim.
        rim: Mm,
    },
    /// Motifs larger than the plate's trusted part, all that occur.
    TooLarge {
        /// Motif key with its extent along the hem and up the garment as it lies.
        motifs: Vec<(String, (Mm, Mm))>,
        /// The trusted part.
        trusted: (Mm, Mm),
        /// What the plate must grow to, rim included, to take every motif pressed, those named and the others.
        smallest: (Mm, Mm),
        /// Whether the plate would take every motif pressed if it were turned by a quarter.
        turned_fits: bool,
    },
    /// The hem cannot be followed.
    Hem(HemError),
    /// The check after the fact found a motif that is not pressed as it must be: a fault of this program, never of the job.
    Unsound(Vec<PressFlaw>),
}

impl fmt::Display for PressError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoTrustedPlate { plate, rim } => {
                write!(f, "a plate of {} x {} with a rim of {rim} has no trusted part left", plate.0, plate.1)
            }
            Self::TooLarge { motifs, trusted, .. } => {
                let named: Vec<String> = motifs
                    .iter()
                    .map(|(motif, (along, up))| format!("\"{motif}\" takes {along} along the hem and {up} up"))
                    .collect();
                write!(f, "{}; the plate can be trusted on {} x {}", named.join(", "), trusted.0, trusted.1)
            }
            Self::Unsound(flaws) => write!(f, "the press plan does not pass its own check: {:?}", flaws.first()),
            Self::Hem(error) => write!(f, "the press cannot follow the hem: {error}"),
        }
    }
}

impl std::error::Error for PressError {}

impl PressError {
    /// What to do about it.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::NoTrustedPlate { .. } => {
                "give press.plate as along the hem x up the garment, and a smaller press.rim".into()
            }
            Self::TooLarge { turned_fits: true, .. } => {
                "turn the plate by a quarter: swap the two figures of press.plate".into()
            }
            Self::TooLarge { smallest, .. } => format!(
                "the smallest plate that would take it is {} x {}, rim included; or make the motif smaller",
                smallest.0, smallest.1
            ),
            Self::Unsound(_) => "please report this with the job; until then press one motif at a time".into(),
            Self::Hem(error) => error.hint().into(),
        }
    }
}

impl From<HemError> for PressError {
    fn from(error: HemError) -> Self {
        Self::Hem(error)
    }
}
