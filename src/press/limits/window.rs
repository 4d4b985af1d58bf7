//! The common window: temperatures and times that serve every film, the cloth, and every layer in place, and what to do when
//! there are none.
//!
//! Lower end: the film that wants most heat. Upper end: whatever stands least of films, cloth and layers under the plate.
//! Fusibles that melt again do not bind it (their rule asks for a test instead), since hardly any film is pressed below
//! them. Times are those all the films' windows share. Settings that a maker publishes as equal are shown inside the
//! window, point by point; nothing is ever drawn between or beyond them, because adhesive that has not melted does not bond
//! at any time.

use super::heat::times_in_common;
use super::layers::{Layer, ROOM};
use crate::data::{FilmClass, Fixes, LabelEdition, Limit, Trait, sources_text, tables};
use crate::press::Inputs;
use crate::press::plates::laying::LaidOut;
use crate::press::setup::Setup;
use crate::quantity::{Celsius, Seconds};

/// What sets an end of the window.
#[derive(Clone, Debug, PartialEq)]
pub struct Binds {
    /// The film, cloth or layer, in words.
    pub item: String,
    /// The temperature it sets.
    pub at: Celsius,
}

/// The setting that serves everything at once, if there is one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CommonWindow {
    /// Lowest and highest temperature; `None` when nothing serves everything.
    pub temperature: Option<(Celsius, Celsius)>,
    /// Shortest and longest time all films share; `None` when they share none.
    pub time: Option<(Seconds, Seconds)>,
    /// What sets the lower end.
    pub lower: Option<Binds>,
    /// What sets the upper end.
    pub upper: Option<Binds>,
    /// The window, or why there is none, in one sentence.
    pub say: String,
    /// What can be done when there is none, the gentlest remedy first.
    pub remedies: Vec<String>,
    /// Settings that one maker publishes as equal for one film, as far as they lie inside the window.
    pub trade: Vec<(Celsius, Seconds)>,
    /// What the points of `trade` are, with their source; empty when there are none.
    pub trade_note: String,
}

/// What can set the upper end.
enum Ceiling<'a> {
    Film,
    Layer(&'a Layer),
}

/// Searches the window.
pub(in crate::press) fn common_window(inputs: &Inputs<'_>, laid_out: &LaidOut) -> CommonWindow {
    let classes = classes(laid_out);
    let lowest = classes.iter().map(|class| (class.temperatures().0, *class));
    let Some((low, wants)) = lowest.reduce(|a, b| if b.0 > a.0 { b } else { a }) else {
        return CommonWindow { say: "Nothing is pressed.".to_owned(), ..CommonWindow::default() };
    };
    let films = classes.iter().map(|class| (class.temperatures().1, class.name.as_str(), Ceiling::Film));
    let layers = laid_out.layers_met().filter(|layer| !matches!(layer.material.limit, Limit::MeltsFrom(_)));
    let layers = layers.map(|layer| (layer.ceiling.unwrap_or(ROOM), layer.name.as_str(), Ceiling::Layer(layer)));
    let highest = films.chain(layers).reduce(|a, b| if b.0 < a.0 { b } else { a });
    let Some((high, stands, ceiling)) = highest else { return CommonWindow::default() };
    let time = times_in_common(&classes);
    let temperature = (low <= high).then_some((low, high));
    let (trade, trade_note) = trade(&classes, temperature);
    CommonWindow {
        temperature,
        time,
        lower: Some(Binds { item: wants.name.clone(), at: low }),
        upper: Some(Binds { item: stands.to_owned(), at: high }),
        say: match temperature {
            Some((low, high)) => format!(
                "Everything together can be pressed from {low} to {high}{}: {} wants at least {low}, {stands} stands at most \
                 {high}.",
                time.map_or(String::new(), |(from, to)| format!(" for {}", from_to(from, to))),
                wants.name
            ),
            None => format!(
                "No one setting serves everything: {} wants at least {low}, {stands} stands at most {high}.",
                wants.name
            ),
        },
        remedies: if temperature.is_some() {
            Vec::new()
        } else {
            remedies(inputs, (low, high), wants, stands, &ceiling)
        },
        trade,
        trade_note,
    }
}

/// Every class pressed, in order of the table.
pub(in crate::press) fn classes(laid_out: &LaidOut) -> Vec<&'static FilmClass> {
    let used =
        |class: &&FilmClass| laid_out.spots.iter().any(|spot| spot.laid.iter().any(|l| l.class.key == class.key));
    tables().films().iter().filter(used).collect()
}

/// Both ends of a span of time; the one time where they are the same.
fn from_to(from: Seconds, to: Seconds) -> String {
    if to > from { format!("{:.0} to {to}", from.get()) } else { to.to_string() }
}

/// Published equal settings inside the window.
fn trade(classes: &[&FilmClass], window: Option<(Celsius, Celsius)>) -> (Vec<(Celsius, Seconds)>, String) {
    let none = (Vec::new(), String::new());
    let Some((low, high)) = window else { return none };
    let Some((class, trade)) = classes.iter().find_map(|class| Some((class, class.trade.as_ref()?))) else {
        return none;
    };
    let point = |p: &[f64; 2]| (Celsius::new(p[0]), Seconds::new(p[1]));
    let points: Vec<_> = trade.points.iter().map(point).filter(|(c, _)| low <= *c && *c <= high).collect();
    if points.len() < 2 {
        return none;
    }
    let note = format!(
        "One maker publishes these settings as equal for one {}; yours may differ, and nothing is to be read between or \
         beyond them. {}",
        class.name,
        sources_text(&trade.source, trade.confidence)
    );
    (points, note)
}

/// What can be done, the gentlest first.
fn remedies(
    inputs: &Inputs<'_>,
    (low, high): (Celsius, Celsius),
    wants: &FilmClass,
    stands: &str,
    ceiling: &Ceiling<'_>,
) -> Vec<String> {
    let mut found = Vec::new();
    match ceiling {
        Ceiling::Layer(layer) if layer.zone.is_some() => {
            found.push(format!("Fold {stands} away from under the plate, or sew it on after pressing."));
        }
        Ceiling::Layer(layer) => {
            if layer.material.is(Trait::Unknown) {
                found.push(format!(
                    "Find out what {stands} is made of, and say so: until then it is trusted with {high} only."
                ));
            }
            found.extend(newer_label(layer, low, inputs.setup));
            found.extend(cooler_film(layer, high));
            found.extend(film_made_for(layer, (low, high)));
        }
        Ceiling::Film => {
            found.push(format!(
                "Press {} first and {stands} last, each at its own setting, with the cover on.",
                wants.name
            ));
            found.push("Take films of one class for all layers.".to_owned());
        }
    }
    if high > ROOM && low.get() - high.get() <= NEAR {
        found.push(format!(
            "Test {} at its lowest, {low}, on a scrap: it is {:.0} C over what {stands} is trusted with, and only a test can tell.",
            wants.name,
            low.get() - high.get()
        ));
    }
    found.push("Sew the motifs on as fabric with turned or stitched edges instead of pressing them.".to_owned());
    found
}

/// A gap a test may bridge, in degrees: one step between the editions of the care label, and a dial's own error.
const NEAR: f64 = 15.0;

/// Labels of the newer edition allow 10 C more.
fn newer_label(layer: &Layer, low: Celsius, setup: &Setup) -> Option<String> {
    let newer = layer.material.ceiling(tables(), LabelEdition::Of2023)?;
    let helps = !setup.label_2023 && newer >= low && layer.ceiling.is_some_and(|older| newer > older);
    helps.then(|| {
        format!(
            "Find out whether the care label is of the 2023 edition: it would allow {newer} (garment.label = \"2023\")."
        )
    })
}

/// Up to three classes that stay below the ceiling, those made for the cloth first.
fn cooler_film(layer: &Layer, high: Celsius) -> Option<String> {
    let made_for = |class: &FilmClass| class.made_for.iter().any(|t: &Trait| layer.material.is(*t));
    let mut cooler: Vec<&FilmClass> =
        tables().films().iter().filter(|class| class.fixes == Fixes::Film && class.temperatures().0 <= high).collect();
    cooler.retain(|class| class.made_for.is_empty() || made_for(class));
    cooler.sort_by_key(|class| !made_for(class));
    let named: Vec<String> =
        cooler.iter().take(3).map(|class| format!("{} (from {})", class.name, class.temperatures().0)).collect();
    (!named.is_empty()).then(|| format!("Take a film for lower temperatures: {}.", named.join(", ")))
}

/// A class made for the cloth that is hotter than its label, yet cooler than the film chosen: only with a test.
fn film_made_for(layer: &Layer, (low, high): (Celsius, Celsius)) -> Option<String> {
    let made_for = |class: &&FilmClass| class.made_for.iter().any(|t: &Trait| layer.material.is(*t));
    let from = |class: &FilmClass| class.temperatures().0;
    let class = tables().films().iter().filter(made_for).find(|class| from(class) > high && from(class) < low)?;
    Some(format!(
        "Take {}, which wants {} at least: more than the label allows, so press a test piece first and go no further if it marks.",
        class.name,
        from(class)
    ))
}
