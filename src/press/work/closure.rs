//! One closing of the press: where, why, how hot and how long.

use crate::geometry::{Point, Ring};
use crate::quantity::{Celsius, Mm, Radians, Seconds};

/// One closing of the press.
#[derive(Clone, Debug, PartialEq)]
pub struct Closure {
    /// In working order, from 1.
    pub number: u32,
    /// Which plate position, from 1, counted along the hem; closures at one place share it.
    pub place: u32,
    /// Which layer is pressed, from 1 for the lowest.
    pub layer: u32,
    /// `tack`, `full`, `second press`.
    pub kind: PressKind,
    /// Placements pressed, by id.
    pub placements: Vec<String>,
    /// The films laid on them, or at a second press those on top.
    pub films: Vec<PressedFilm>,
    /// Which of several plate positions over one motif this is; `None` when the plate covers its motifs whole.
    pub part: Option<Part>,
    /// Middle of the plate in the flat development.
    pub at: Point,
    /// Middle of the plate along the hem, as measured after hanging where it was.
    pub s_hem: Mm,
    /// Middle of the plate above the hem.
    pub height: Mm,
    /// Turn of the plate in the flat development.
    pub turn: Radians,
    /// The whole plate, rim included, in the flat development.
    pub footprint: Ring,
    /// Plate temperature.
    pub temperature: Celsius,
    /// What the time goes to.
    pub parts: Parts,
    /// All of it together.
    pub seconds: Seconds,
}

/// The film or cloth of one layer of a motif.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PressedFilm {
    /// Its key in the job.
    pub film: String,
    /// Motif key.
    pub motif: String,
    /// Which layer of the motif it is, from 1 for the lowest.
    pub layer: u32,
}

/// Films with the motifs they belong to, each film once: `gold on key; green on leaf and bud`. `call` names a film by its key.
#[must_use]
pub fn films_in_words<'a>(films: impl IntoIterator<Item = &'a PressedFilm>, call: impl Fn(&str) -> String) -> String {
    let mut told: Vec<(&str, Vec<&str>)> = Vec::new();
    for PressedFilm { film, motif, .. } in films {
        match told.iter_mut().find(|(known, _)| known == film) {
            Some((_, motifs)) if motifs.contains(&motif.as_str()) => {}
            Some((_, motifs)) => motifs.push(motif),
            None => told.push((film, vec![motif])),
        }
    }
    let words = told.iter().map(|(film, motifs)| format!("{} on {}", call(film), motifs.join(" and ")));
    words.collect::<Vec<_>>().join("; ")
}

/// What the time of one closure goes to.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Parts {
    /// Driving out moisture before the first layer of a place.
    pub pre_press: Seconds,
    /// Under the plate.
    pub dwell: Seconds,
    /// Waiting beside the press until the carrier may be peeled warm. Cold peel is done on the next round and waits for
    /// nothing.
    pub peel_wait: Seconds,
    /// Positioning, covering, peeling; once for all parts of a motif that an iron presses in several places.
    pub handling: Seconds,
}

impl Parts {
    /// All of it together.
    #[must_use]
    pub fn total(&self) -> Seconds {
        self.pre_press + self.dwell + self.peel_wait + self.handling
    }
}

/// Why the plate is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressKind {
    /// Short, for a layer that gets another on top.
    Tack,
    /// The film's full time.
    Full,
    /// Under cover after peeling.
    Second,
}

/// One of several plate positions over a motif that is larger than the plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// Which, from 1.
    pub number: u32,
    /// Of how many.
    pub of: u32,
}
