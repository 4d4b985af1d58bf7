//! `[press]`: the press and how it is worked.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::garment::Garment;
use super::given::{Given, Section, Size};
use crate::press::Setup;
use crate::quantity::{Celsius, Mm, Seconds, mm};

/// A common table press, 15 in square; taken unless told otherwise.
const PLATE: Size = Size(mm(380.0), mm(380.0));
/// Border of the plate not trusted to be hot; docs/sources.md, edge fall-off of small plates.
const RIM: Mm = mm(10.0);
/// Drives moisture out; docs/sources.md, procedure of the press.
const PRE_PRESS: Seconds = Seconds::new(5.0);
/// Positioning, covering, peeling; common practice, no source.
const HANDLING: Seconds = Seconds::new(40.0);

/// `[press]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [press]")]
pub(crate) struct PressKeys {
    /// Plate along the hem x up the garment.
    plate: Option<Given<Size>>,
    /// Border of the plate that is not trusted to be hot enough.
    rim: Option<Given<Mm>>,
    /// From the film maker's sheet.
    temperature: Option<Given<Celsius>>,
    /// Full press, from the film maker's sheet.
    dwell: Option<Given<Seconds>>,
    /// Short press of lower layers, from the film maker's sheet.
    tack: Option<Given<Seconds>>,
    /// Once for each place, before the first layer.
    pre_press: Option<Given<Seconds>>,
    /// Positioning, covering, peeling: for each closure.
    handling: Option<Given<Seconds>>,
    /// Motifs pressed one at a time even where the plate would take more.
    one_at_a_time: Option<Given<bool>>,
}

/// The press as checked.
pub(crate) fn check(check: &mut Check, section: Option<&Section<PressKeys>>, garment: &Garment) -> Setup {
    let usual = PressKeys::default();
    let keys = section.map_or(&usual, |section| &section.keys);
    let plate = take_or(check, keys.plate.as_ref(), PLATE, |_| {
        ("plate of the press", format!("{} x {}", PLATE.0, PLATE.1), "press.plate")
    });
    if keys.rim.is_none() {
        check.assume("rim of the plate not trusted to be hot", RIM.to_string(), "press.rim");
    }
    let rim = check.not_below_zero("rim", keys.rim.as_ref()).unwrap_or(RIM);
    if keys.temperature.is_none() {
        check.assume(
            "press temperature",
            "the usual range of the film's class; its own sheet comes first",
            "press.temperature",
        );
    }
    if keys.dwell.is_none() {
        check.assume("press time", "the usual time of the film's class; its own sheet comes first", "press.dwell");
    }
    let pre_press =
        take_or(check, keys.pre_press.as_ref(), PRE_PRESS, |s| ("pre-press", s.to_string(), "press.pre_press"));
    let handling = take_or(check, keys.handling.as_ref(), HANDLING, |s| {
        ("handling for each closure", s.to_string(), "press.handling")
    });
    Setup {
        plate: (plate.0, plate.1),
        rim,
        temperature: check.take(keys.temperature.as_ref()),
        dwell: check.take(keys.dwell.as_ref()),
        tack: check.take(keys.tack.as_ref()),
        pre_press,
        handling,
        cloth: garment.cloth.clone(),
        label_2023: garment.label_2023,
        one_at_a_time: check.take(keys.one_at_a_time.as_ref()).unwrap_or(false),
        ..Setup::default()
    }
}

/// The value given, or the usual one with the assumption that says so.
fn take_or<T: Copy>(
    check: &mut Check,
    given: Option<&Given<T>>,
    usual: T,
    say: impl Fn(T) -> (&'static str, String, &'static str),
) -> T {
    if given.is_none() {
        let (about, taken, key) = say(usual);
        check.assume(about, taken, key);
    }
    check.take(given).unwrap_or(usual)
}
