//! The setting for one closure: temperature and time, from the job, or within the windows of the films' classes.

use crate::data::{self, FilmClass, LabelEdition, tables};
use crate::press::setup::{Setup, Verdict};
use crate::quantity::{Celsius, Seconds};

/// Plate temperature and time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::press) struct Heat {
    /// Plate temperature.
    pub(in crate::press) temperature: Celsius,
    /// Full press.
    pub(in crate::press) full: Seconds,
    /// Short press of a layer that gets another on top.
    pub(in crate::press) tack: Seconds,
}

/// Which edition of the care label the job says.
pub(in crate::press) const fn edition(setup: &Setup) -> LabelEdition {
    if setup.label_2023 { LabelEdition::Of2023 } else { LabelEdition::Of2012 }
}

/// Lowest ceiling of the garment's cloth; `None` when some part of it is not pressed at all.
pub(in crate::press) fn cloth_ceiling(setup: &Setup) -> Option<Celsius> {
    let ceilings = tables().stack(&setup.cloth).into_iter().map(|m| m.ceiling(tables(), edition(setup)));
    ceilings.collect::<Option<Vec<_>>>()?.into_iter().reduce(Celsius::min)
}

/// What is pressed at once, and what else the job presses.
#[derive(Clone, Copy, Debug)]
pub(in crate::press) struct Pressed<'a> {
    /// Classes laid in this closing.
    pub(in crate::press) classes: &'a [&'static FilmClass],
    /// Every class that ends up in the same place.
    pub(in crate::press) stack: &'a [&'static FilmClass],
    /// Whether the whole job presses only one class, so that the job's own figures can only mean it.
    pub(in crate::press) sole: bool,
}

/// The setting for one closing.
///
/// The job's own figures come first, then those of a test that held; where the job presses several classes they count for
/// those whose window holds them. Otherwise the usual temperature of the class that wants most heat, brought into the window
/// that all classes of the place share, or, where they share none, into that of the classes laid now, and then down to what
/// the cloth stands, but never below the window; cooler than usual is pressed for the window's longest time. The time is one
/// that all classes of the place take, or, where they share none, those laid now.
pub(in crate::press) fn heat(pressed: Pressed<'_>, setup: &Setup) -> Heat {
    let wanting = |classes: &[&'static FilmClass]| {
        classes.iter().copied().reduce(|a, b| if b.temperatures().0 > a.temperatures().0 { b } else { a })
    };
    let Some(own) = wanting(pressed.classes) else {
        return Heat { temperature: Celsius::new(20.0), full: Seconds::ZERO, tack: Seconds::ZERO };
    };
    let shared = common(pressed.stack);
    let (leader, (low, high)) = match wanting(pressed.stack) {
        Some(leader) if shared.0 <= shared.1 => (leader, shared),
        _ => (own, common(pressed.classes)),
    };
    let usual = leader.usual().0.max(low).min(high);
    let ceiling = cloth_ceiling(setup).unwrap_or(usual);
    // A test that held is the best setting known for this stack.
    let held = setup.tested.filter(|tested| tested.verdict == Verdict::Held);
    let window = common(pressed.classes);
    let fits = |asked: &Celsius| pressed.sole || (window.0 <= *asked && *asked <= window.1);
    let asked = setup.temperature.or(held.map(|tested| tested.temperature)).filter(fits);
    let chosen = asked.unwrap_or_else(|| usual.min(ceiling).max(low).min(high));
    // What gets its full press together shares a time (`plates::groups`); a tack is the same for all. What lies beneath is
    // heated as long, so a time that it takes too comes first.
    let shared = times_in_common(pressed.stack).or_else(|| times_in_common(pressed.classes));
    let (shortest, longest) = shared.unwrap_or_else(|| own.times());
    let unasked = if chosen < own.usual().0 { longest } else { own.usual().1.max(shortest).min(longest) };
    let in_time = |asked: &Seconds| pressed.sole || (shortest <= *asked && *asked <= longest);
    let full = setup.dwell.or(held.map(|tested| tested.dwell)).filter(in_time).unwrap_or(unasked);
    Heat { temperature: chosen, full, tack: setup.tack.unwrap_or_else(|| Seconds::new(data::usual("press-tack"))) }
}

/// Highest low end and lowest high end of the windows; upside down when they share nothing.
pub(in crate::press) fn common(classes: &[&FilmClass]) -> (Celsius, Celsius) {
    let start = (Celsius::new(0.0), Celsius::new(1000.0));
    classes.iter().fold(start, |(low, high), class| {
        let (from, to) = class.temperatures();
        (low.max(from), high.min(to))
    })
}

/// Shortest and longest time that all the windows take; `None` when they share none, or there are none.
pub(in crate::press) fn times_in_common(classes: &[&FilmClass]) -> Option<(Seconds, Seconds)> {
    let from = classes.iter().map(|class| class.times().0).reduce(Seconds::max)?;
    let to = classes.iter().map(|class| class.times().1).reduce(Seconds::min)?;
    (from <= to).then_some((from, to))
}
