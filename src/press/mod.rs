//! Stage 6, press plan and heat risks: what lies under the plate at each closure, what sets the limit, in which order.
//!
//! Facts live in `data/*.toml` with source and confidence; this stage only reasons over them. Nothing about heat is
//! promised: an unknown limits to 110 C and asks for a test, and the film maker's sheet and the care label come first.

mod checklist;
mod closures;
mod cover;
mod error;
mod films;
mod ground;
mod heat;
mod layers;
mod order;
mod plate;
mod positions;
mod risk;
mod schedule;
mod spots;
pub mod verify;

use std::collections::BTreeMap;

pub use error::PressError;

use crate::art::Motif;
pub use crate::data::Tool;
use crate::data::UNKNOWN;
use crate::film::{Film, Pieces};
use crate::geometry::{Point, Ring};
use crate::hem::Hem;
use crate::place::Setting;
use crate::quantity::{Celsius, Mm, Radians, Seconds};

/// Whether a layer is there when the press closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZoneState {
    /// Under the plate.
    InPlace,
    /// Sewn on but folded out of the way.
    FoldedAway,
    /// Sewn on after pressing.
    SewnOnLater,
}

/// A region of the band with something in it, in hem coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// What the maker calls it: `stiff braid`.
    pub name: String,
    /// Key in `data/materials.toml`; what is not found there counts as unknown.
    pub material: String,
    /// From where to where along the hem; `None` all round.
    pub along: Option<(Mm, Mm)>,
    /// From which to which height above the hem.
    pub heights: (Mm, Mm),
    /// Whether it is there when the press closes.
    pub state: ZoneState,
}

/// The press and how it is worked.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// Plate along the hem and up the garment.
    pub plate: (Mm, Mm),
    /// Border of the plate that is not trusted to be hot enough.
    pub rim: Mm,
    /// Temperature and time from the film's sheet, where the maker gives them; otherwise the class's window.
    pub temperature: Option<Celsius>,
    /// Full press; the class's usual time where not given.
    pub dwell: Option<Seconds>,
    /// Lower layers are pressed this short; 3 s where not given.
    pub tack: Option<Seconds>,
    /// Once for each place, before the first layer.
    pub pre_press: Seconds,
    /// Positioning, covering, peeling: for each closure.
    pub handling: Seconds,
    /// Garment cloth: key in `data/materials.toml`.
    pub cloth: String,
    /// Whether care labels are of the 2023 edition; 2012 unless said.
    pub label_2023: bool,
    /// Motifs pressed one at a time even where the plate would take more.
    pub one_at_a_time: bool,
    /// Press or domestic iron.
    pub tool: Tool,
    /// What a test piece on this stack showed, once it was made.
    pub tested: Option<Tested>,
}

/// A table press of 380 x 300 mm, nothing known of film or cloth, and two minutes to position, cover and peel.
///
/// Two minutes: pressing the motifs of a 270 in hem takes one person about an hour and a half [107]; at 34 to 45 motifs and
/// 20 s under the plate that leaves 100 to 140 s for the hands.
impl Default for Setup {
    fn default() -> Self {
        Self {
            plate: (Mm::new(380.0), Mm::new(300.0)),
            rim: Mm::new(10.0),
            temperature: None,
            dwell: None,
            tack: None,
            pre_press: Seconds::new(5.0),
            handling: Seconds::new(120.0),
            cloth: UNKNOWN.to_owned(),
            label_2023: false,
            one_at_a_time: false,
            tool: Tool::Press,
            tested: None,
        }
    }
}

/// What a test piece showed: pressed, cooled, peeled, and best washed once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tested {
    /// Plate temperature of the test.
    pub temperature: Celsius,
    /// Full press of the test.
    pub dwell: Seconds,
    /// What was seen.
    pub verdict: Verdict,
}

/// What was seen on the test piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Film holds, cloth is unmarked.
    Held,
    /// An edge lifts: too cool, too short or too little pressure.
    Lifted,
    /// Cloth or trim is marked, shiny, shrunk or coloured: too hot or too long.
    Marked,
}

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
    /// Middle of the plate in the flat development.
    pub at: Point,
    /// Middle of the plate along the hem.
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
    /// Positioning, covering, peeling.
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
    /// Order of work for this job, one sentence a step with its reason.
    pub order_of_work: Vec<String>,
    /// Checklist for the press.
    pub checklist: Vec<String>,
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

/// Plans the closures and checks them for heat.
///
/// # Errors
/// [`PressError`] when a motif does not fit the plate, with the smallest plate that would take it, or when the plate has no
/// trusted part.
pub fn plan(inputs: Inputs<'_>) -> Result<(PressPlan, Vec<HeatRisk>), PressError> {
    let laid_out = closures::closures(&inputs)?;
    let risks = laid_out.risks(&inputs);
    let order_of_work = order::order_of_work(&inputs, &laid_out, &risks);
    let checklist = checklist::checklist(&inputs, &laid_out, &risks);
    let closures = laid_out.closures;
    let plan = PressPlan {
        total: closures.iter().map(|closure| closure.seconds).sum(),
        closures,
        places: laid_out.places,
        places_at_least: laid_out.places_at_least,
        order_of_work,
        checklist,
    };
    Ok((plan, risks))
}
