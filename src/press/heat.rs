//! The setting for one closure: temperature and time, from the job, or within the windows of the films' classes.

use super::setup::{Setup, Verdict};
use crate::data::{FilmClass, LabelEdition, tables};
use crate::quantity::{Celsius, Seconds};

/// Tack press of a lower layer where the job gives none: just enough to hold it; common practice (source 105).
const TACK: Seconds = Seconds::new(3.0);

/// Plate temperature and time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Heat {
    /// Plate temperature.
    pub(super) temperature: Celsius,
    /// Full press.
    pub(super) full: Seconds,
    /// Short press of a layer that gets another on top.
    pub(super) tack: Seconds,
}

/// Which edition of the care label the job says.
pub(super) const fn edition(setup: &Setup) -> LabelEdition {
    if setup.label_2023 { LabelEdition::Of2023 } else { LabelEdition::Of2012 }
}

/// Lowest ceiling of the garment's cloth; `None` when some part of it is not pressed at all.
pub(super) fn cloth_ceiling(setup: &Setup) -> Option<Celsius> {
    let ceilings = tables().stack(&setup.cloth).into_iter().map(|m| m.ceiling(tables(), edition(setup)));
    ceilings.collect::<Option<Vec<_>>>()?.into_iter().reduce(Celsius::min)
}

/// The setting for pieces of these classes pressed at once.
///
/// The job's own figures come first, then those of a test that held. Otherwise the usual temperature of the topmost class, brought into every class's window
/// and then down to what the cloth stands, but never below the windows; cooler than usual is pressed for the window's longest
/// time. Where the windows share no temperature, the coolest window rules and a risk says so.
///
/// `stack` holds every class that ends up in the same place: where all their windows share a temperature, one setting serves
/// every round and the dial is left alone.
pub(super) fn heat(classes: &[&FilmClass], stack: &[&FilmClass], setup: &Setup) -> Heat {
    let Some(top) = classes.last() else {
        return Heat { temperature: Celsius::new(20.0), full: Seconds::ZERO, tack: Seconds::ZERO };
    };
    let (usual, usual_time) = top.usual();
    let shared = common(stack);
    let (low, high) = if shared.0 <= shared.1 { shared } else { common(classes) };
    let ceiling = cloth_ceiling(setup).unwrap_or(usual);
    // A test that held is the best setting known for this stack.
    let held = setup.tested.filter(|tested| tested.verdict == Verdict::Held);
    let asked = setup.temperature.or(held.map(|tested| tested.temperature));
    let chosen = asked.unwrap_or_else(|| usual.min(ceiling).max(low).min(high));
    let longest = top.times().1;
    let cooler = if chosen < usual { longest } else { usual_time };
    let full = setup.dwell.or(held.map(|tested| tested.dwell)).unwrap_or(cooler);
    Heat { temperature: chosen, full, tack: setup.tack.unwrap_or(TACK) }
}

/// Highest low end and lowest high end of the windows; upside down when they share nothing.
pub(super) fn common(classes: &[&FilmClass]) -> (Celsius, Celsius) {
    let start = (Celsius::new(0.0), Celsius::new(1000.0));
    classes.iter().fold(start, |(low, high), class| {
        let (from, to) = class.temperatures();
        (low.max(from), high.min(to))
    })
}
