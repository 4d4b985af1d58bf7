//! `[press]`: the press and how it is worked.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::garment::Garment;
use super::given::{Given, Section};
use crate::data::{figure, tables};
use crate::press::{Setup, Tested, Verdict};
use crate::quantity::{Celsius, Mm, Seconds, size_text};

/// How a plate that is not in the table is written.
const BY_SIZE: &str = "230 x 230 mm (along the hem x up the garment)";

/// `[press]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [press]")]
pub(crate) struct PressKeys {
    /// Plate along the hem x up the garment, or a plate of the table: "hand-230".
    plate: Option<Given<String>>,
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
    /// What a test piece on the same stack showed.
    tested: Option<Section<TestedKeys>>,
}

/// `[press.tested]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [press.tested]")]
pub(crate) struct TestedKeys {
    /// Plate temperature of the test.
    temperature: Option<Given<Celsius>>,
    /// Full press of the test.
    dwell: Option<Given<Seconds>>,
    /// "held", "lifted" or "marked".
    verdict: Option<Given<String>>,
}

/// The press as checked.
pub(crate) fn check(check: &mut Check, section: Option<&Section<PressKeys>>, garment: &Garment) -> Setup {
    let absent = PressKeys::default();
    let keys = section.map_or(&absent, |section| &section.keys);
    let mut setup = Setup { cloth: garment.cloth.clone(), label_2023: garment.label_2023, ..Setup::default() };
    plate(check, keys, &mut setup);
    times(check, keys, &mut setup);
    setup.one_at_a_time = check.take(keys.one_at_a_time.as_ref()).unwrap_or(setup.one_at_a_time);
    setup.tested = keys.tested.as_ref().and_then(|tested| check_tested(check, tested));
    setup
}

fn plate(check: &mut Check, keys: &PressKeys, setup: &mut Setup) {
    if let Some(given) = &keys.plate {
        take_plate(check, given, setup);
    } else {
        let (along, up) = setup.plate;
        let source = tables().usual_plate().sources();
        check.assume("plate of the press", format!("{along} along the hem, {up} up {source}"), "press.plate");
    }
    if keys.rim.is_none() {
        check.assume("rim of the plate, not trusted", setup.rim.to_string(), "press.rim");
    }
    setup.rim = check.not_below_zero("rim", keys.rim.as_ref()).unwrap_or(setup.rim);
    if let Some(given) = keys.rim.as_ref().map(|given| &given.at).or(keys.plate.as_ref().map(|given| &given.at))
        && let Err(fault) = setup.trusted()
    {
        check.worked_out(given, &fault, fault.hint());
    }
}

/// A plate by its size, or by its key in the table with the rim and tool that stand there.
fn take_plate(check: &mut Check, given: &Given<String>, setup: &mut Setup) {
    let Some(word) = check.take(Some(given)) else { return };
    if let Some(row) = tables().plate(&word) {
        setup.plate = row.size();
        setup.rim = row.rim();
        setup.tool = row.tool;
        return;
    }
    match size_text::parse(&word) {
        Ok(size) => setup.plate = size,
        Err(fault) if word.starts_with(|first: char| first.is_ascii_digit()) => {
            check.fault(&given.at, FaultKind::NotASize(fault));
        }
        Err(_) => {
            let named = tables().plates().iter().map(|row| row.key.clone());
            let choices = named.chain([BY_SIZE.to_owned()]).collect();
            check.fault(&given.at, FaultKind::NotOneOf { word, choices });
        }
    }
}

fn times(check: &mut Check, keys: &PressKeys, setup: &mut Setup) {
    let mut assume = |open: bool, about: &str, taken: String, key: &str| {
        if open {
            check.assume(about, taken, format!("press.{key}"));
        }
    };
    let by_class = |what: &str| format!("the class's usual {what}; the film's own sheet comes first");
    assume(keys.temperature.is_none(), "press temperature", by_class("temperature"), "temperature");
    assume(keys.dwell.is_none(), "press time", by_class("time"), "dwell");
    let by_table = |taken: Seconds, key: &str| {
        figure(key).map_or_else(|| taken.to_string(), |figure| format!("{taken} {}", figure.sources()))
    };
    let (pre_press, handling) = (setup.pre_press, setup.handling);
    assume(keys.pre_press.is_none(), "pre-press", by_table(pre_press, "press-pre-press"), "pre_press");
    assume(keys.handling.is_none(), "handling for each closure", by_table(handling, "press-handling"), "handling");
    setup.temperature = check.take(keys.temperature.as_ref());
    setup.dwell = check.take(keys.dwell.as_ref());
    setup.tack = check.take(keys.tack.as_ref());
    setup.pre_press = check.take(keys.pre_press.as_ref()).unwrap_or(setup.pre_press);
    setup.handling = check.take(keys.handling.as_ref()).unwrap_or(setup.handling);
}

fn check_tested(check: &mut Check, section: &Section<TestedKeys>) -> Option<Tested> {
    let (keys, table) = (&section.keys, Table { name: "[press.tested]", at: &section.at });
    for (key, example, there) in [
        ("temperature", "temperature = \"150 C\"", keys.temperature.is_some()),
        ("dwell", "dwell = \"15 s\"", keys.dwell.is_some()),
        ("verdict", "verdict = \"held\"", keys.verdict.is_some()),
    ] {
        if !there {
            check.missing(table, key, example);
        }
    }
    let temperature = check.take(keys.temperature.as_ref());
    let dwell = check.take(keys.dwell.as_ref());
    let choices = [("held", Verdict::Held), ("lifted", Verdict::Lifted), ("marked", Verdict::Marked)];
    let verdict = check.one_of(keys.verdict.as_ref(), &choices);
    Some(Tested { temperature: temperature?, dwell: dwell?, verdict: verdict? })
}
