//! Stage 6, press plan and heat risks: what lies under the plate at each closure, what sets the limit, in which order.
//!
//! Facts live in `data/*.toml` with source and confidence; this stage only reasons over them. Nothing about heat is
//! promised: an unknown limits to 110 C and asks for a test, and the film maker's sheet and the care label come first.

mod error;
mod limits;
mod plates;
mod risks;
mod setup;
pub mod test_card;
pub mod verify;
mod work;

use std::collections::BTreeMap;

pub use error::PressError;
pub use limits::window::{Binds, CommonWindow};
pub use limits::zone::{Lies, Zone, ZoneState};
pub use setup::{Setup, Tested, Verdict};
pub use test_card::TestCard;
pub use work::checklist::numbers_in_words;
pub use work::closure::{Closure, Part, Parts, PressKind, PressedFilm, films_in_words};
pub use work::map::{ClosureKind, PinAwayMap, SideLayer, TopView, TopZone, What};

use crate::art::Motif;
pub use crate::data::Tool;
use crate::film::{Film, Pieces};
use crate::hem::Hem;
use crate::place::Setting;
use crate::quantity::{Celsius, Mm, Seconds, mm};

/// Closures in order with their time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PressPlan {
    /// In working order.
    pub closures: Vec<Closure>,
    /// Everything added up.
    pub total: Seconds,
    /// How many plate positions there are.
    pub places: u32,
    /// No plan with this plate, turned to the band, needs fewer positions.
    pub places_at_least: u32,
    /// The time of each round.
    pub rounds: Vec<RoundTime>,
    /// Temperatures and times that serve every film and every layer in place, if there are any.
    pub window: CommonWindow,
    /// What to press on scraps first.
    pub test_card: TestCard,
    /// What lies beneath the plate, from the side and from above, for each kind of closure.
    pub map: PinAwayMap,
    /// Order of work for this job, one sentence a step with its reason.
    pub order_of_work: Vec<String>,
    /// Checklist for the press.
    pub checklist: Vec<String>,
}

impl PressPlan {
    /// How many places the plate takes and how near that is to the fewest there could be: `18 places of the plate, the fewest
    /// there are`.
    #[must_use]
    pub fn places_in_words(&self) -> String {
        let places = if self.places == 1 { "1 place".to_owned() } else { format!("{} places", self.places) };
        if self.places <= self.places_at_least {
            return format!("{places} of the plate, the fewest there are");
        }
        format!("{places} of the plate; no plan does with fewer than {}", self.places_at_least)
    }
}

/// One round of closures: a layer all round, or the second press.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundTime {
    /// Which layer, from 1 for the lowest.
    pub layer: u32,
    /// Why the plate is closed in this round's last closures of each place.
    pub kind: PressKind,
    /// How many closures.
    pub closures: u32,
    /// Plate temperature.
    pub temperature: Celsius,
    /// Their time.
    pub seconds: Seconds,
}

/// What may be done. Order: the gravest last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Within every limit known.
    Go,
    /// Only under a press cloth and after a test on the same stack.
    ClothAndTest,
    /// Fold away first, or sew on later.
    MoveFirst,
    /// Not with this film and these layers.
    Stop,
}

/// One risk from heat.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatRisk {
    /// What may be done.
    pub outcome: Outcome,
    /// Material or film class: key in the tables.
    pub material: String,
    /// What it is called in words: `stiff braid (stiff hem braid of nylon)`.
    pub layer: String,
    /// Name of the zone it lies in; `None` for the garment's cloth and for film.
    pub zone: Option<String>,
    /// Its limit; unknown materials get 110 C, what is never pressed room temperature.
    pub limit: Celsius,
    /// Plate temperature it would meet.
    pub press: Celsius,
    /// Numbers of the closures concerned; none for what is folded away or sewn on later.
    pub closures: Vec<u32>,
    /// Keys of the rules that speak, as in docs/heat-rules.md.
    pub rules: Vec<&'static str>,
    /// What goes wrong, one or two plain sentences.
    pub say: String,
    /// What to do.
    pub advice: String,
    /// Numbered sources in docs/sources.md.
    pub source: String,
}

/// What the press plan is made from.
#[derive(Clone, Copy, Debug)]
pub struct Inputs<'a> {
    /// Motifs by key.
    pub motifs: &'a BTreeMap<String, Motif>,
    /// The hem.
    pub hem: &'a Hem,
    /// Where everything goes.
    pub setting: &'a Setting,
    /// What is cut: gives each motif's layers and films.
    pub pieces: &'a Pieces,
    /// Films by the key that pieces name.
    pub films: &'a [Film],
    /// What else lies in the band.
    pub zones: &'a [Zone],
    /// The press.
    pub setup: &'a Setup,
}

/// Plans the closures, checks them for heat, and has every footprint checked anew.
///
/// # Errors
/// [`PressError`] when a motif does not fit the plate, with the smallest plate that would take it, when the plate has no
/// trusted part, or when the check after the fact finds a motif outside it, which would be a fault of this program.
pub fn plan(inputs: Inputs<'_>) -> Result<(PressPlan, Vec<HeatRisk>), PressError> {
    let laid_out = plates::laying::lay_out(&inputs)?;
    let risks = risks::of(&laid_out, &inputs);
    let window = limits::window::common_window(&inputs, &laid_out);
    let plan = PressPlan {
        total: laid_out.closures.iter().map(|closure| closure.seconds).sum(),
        places: laid_out.places,
        places_at_least: laid_out.places_at_least,
        rounds: round_times(&laid_out.closures),
        test_card: test_card::test_card(&inputs, &laid_out, &window),
        map: work::map::pin_away_map(&inputs, &laid_out),
        order_of_work: work::order::order_of_work(&inputs, &laid_out, &risks),
        checklist: work::checklist::checklist(&inputs, &laid_out, &risks),
        closures: as_hung(inputs.hem, laid_out.closures),
        window,
    };
    let flaws = verify::flaws(&plan, &inputs);
    if flaws.is_empty() { Ok((plan, risks)) } else { Err(PressError::Unsound(flaws)) }
}

/// A plate nearer than this to where a ring is joined lies on it: a tenth of what a plate can be laid to.
const AT_JOIN: Mm = mm(0.1);

/// Places counted along the hem as it is now: as measured after hanging, where it was, like those of the motifs.
fn as_hung(hem: &Hem, mut closures: Vec<Closure>) -> Vec<Closure> {
    if let Some(hung) = hem.as_hung() {
        let (least, greatest) = hem.span();
        // Half a turn away is reached from the wearer's left, as motifs there are.
        let at_join = |s: Mm| hem.is_closed() && (s - least).abs() < AT_JOIN;
        for closure in &mut closures {
            closure.s_hem = hung.at(if at_join(closure.s_hem) { greatest } else { closure.s_hem });
        }
    }
    closures
}

/// Time by round, in working order.
fn round_times(closures: &[Closure]) -> Vec<RoundTime> {
    let mut rounds: Vec<RoundTime> = Vec::new();
    for closure in closures {
        let second = closure.kind == PressKind::Second;
        match rounds.last_mut() {
            Some(round)
                if round.layer == closure.layer
                    && (round.kind == PressKind::Second) == second
                    && round.temperature.total_cmp(&closure.temperature).is_eq() =>
            {
                round.kind = closure.kind;
                round.closures += 1;
                round.seconds += closure.seconds;
            }
            _ => rounds.push(RoundTime {
                layer: closure.layer,
                kind: closure.kind,
                closures: 1,
                temperature: closure.temperature,
                seconds: closure.seconds,
            }),
        }
    }
    rounds
}
