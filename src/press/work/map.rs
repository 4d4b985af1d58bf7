//! The pin-away map: what lies beneath the plate, from the side and from above, for each kind of closure.
//!
//! Closures are of one kind when the same layers lie under them and they press the same number of motifs in the same round.
//! The view from above is in plate millimetres: origin at the plate's middle, x along the hem toward the wearer's left, y
//! down toward the hem; it is true to scale, so that a picture of it can be laid beside the press.

use super::closure::{PressKind, films_in_words};
use crate::data::PeelWhen;
use crate::geometry::{Affine, Outline, Point, Rect, Ring};
use crate::press::limits::layers::{Layer, Near, heights, patches};
use crate::press::plates::laying::{LaidOut, Place, reach};
use crate::press::plates::positions::middle_s;
use crate::press::plates::spots::placed_outlines;
use crate::press::{Closure, Inputs, Lies, ZoneState};
use crate::quantity::Celsius;

/// The whole map.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PinAwayMap {
    /// One for each kind of closure, in the order they first occur.
    pub kinds: Vec<ClosureKind>,
}

/// Closures that have the same layers beneath them.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosureKind {
    /// What it is: `round 1, two motifs, over the stiff braid`.
    pub name: String,
    /// Numbers of the closures.
    pub closures: Vec<u32>,
    /// Films laid at them, round by round: `gold on key; green on leaf`, `round 1: red on poppy; round 2: green on leaf`.
    pub films: String,
    /// Layers from the plate down.
    pub side: Vec<SideLayer>,
    /// The first of these closures from above.
    pub top: TopView,
}

/// What a layer in the side view is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The hot plate.
    Plate,
    /// Cover sheet or press cloth.
    Cover,
    /// Film, carrier up.
    Film,
    /// Something of the garment on the right side of its cloth, in place.
    Over,
    /// The garment's cloth.
    Cloth,
    /// Something of the garment under the cloth, in place.
    Beneath,
    /// Something that must not be here: folded away, or not yet sewn on.
    Away,
    /// Pad and lower plate.
    Pad,
}

/// One layer of the side view.
#[derive(Clone, Debug, PartialEq)]
pub struct SideLayer {
    /// What it is.
    pub what: What,
    /// In words.
    pub name: String,
    /// What it stands, where it is part of the garment or film.
    pub limit: Option<Celsius>,
    /// Whether it sets the limit of this closure.
    pub weakest: bool,
}

/// A closure from above, in plate millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct TopView {
    /// The whole plate.
    pub plate: Rect,
    /// Its trusted part.
    pub trusted: Rect,
    /// The hem edge, as far as it passes near the plate.
    pub hem: Vec<Point>,
    /// What is pressed.
    pub pressed: Vec<Outline>,
    /// Motifs beside it.
    pub beside: Vec<Outline>,
    /// Zones under or near the plate.
    pub zones: Vec<TopZone>,
}

/// A zone from above.
#[derive(Clone, Debug, PartialEq)]
pub struct TopZone {
    /// What the maker calls it.
    pub name: String,
    /// Whether it is there.
    pub state: ZoneState,
    /// Where it lies, or where it hangs when folded down from the hem; sewn on later: where it will lie.
    pub area: Ring,
}

/// Most motifs beside the plate that are drawn; more would hide what matters.
const MOST_BESIDE: usize = 24;

/// Draws the map as values.
pub(in crate::press) fn pin_away_map(inputs: &Inputs<'_>, laid_out: &LaidOut) -> PinAwayMap {
    // One picture serves every closing that has as many motifs and the same layers under it at the same setting.
    let mut kinds: Vec<Group> = Vec::new();
    for (k, closure) in laid_out.closures.iter().enumerate() {
        let side = side_of(laid_out, k);
        let found = kinds.iter_mut().find(|group| {
            let first = &laid_out.closures[group.members[0]];
            group.side == side
                && first.placements.len() == closure.placements.len()
                && laid_out.laid[laid_out.rounds[group.members[0]].place].meets
                    == laid_out.laid[laid_out.rounds[k].place].meets
        });
        match found {
            Some(group) => group.members.push(k),
            None => kinds.push(Group { side, members: vec![k] }),
        }
    }
    PinAwayMap { kinds: kinds.into_iter().map(|group| kind_of(inputs, laid_out, group)).collect() }
}

/// Closures that share a picture, by index; never empty.
struct Group {
    side: Vec<SideLayer>,
    members: Vec<usize>,
}

/// Layers beneath a place of the plate.
fn beneath<'a>(laid_out: &'a LaidOut, place: &Place) -> Vec<&'a Layer> {
    laid_out.layers.iter().enumerate().filter(|(k, _)| place.meets[*k]).map(|(_, layer)| layer).collect()
}

fn side_of(laid_out: &LaidOut, k: usize) -> Vec<SideLayer> {
    let round = &laid_out.rounds[k];
    let beneath = beneath(laid_out, &laid_out.laid[round.place]);
    side_view(laid_out, &laid_out.closures[k], round.classes.as_slice(), &beneath)
}

/// `round 1`, `rounds 1 and 2`, `round 3, second press`.
fn rounds_in_words(laid_out: &LaidOut, members: &[usize]) -> String {
    let mut rounds: Vec<u32> = members.iter().map(|k| laid_out.closures[*k].layer).collect();
    rounds.dedup();
    let numbers: Vec<String> = rounds.iter().map(ToString::to_string).collect();
    let word = if rounds.len() == 1 { "round" } else { "rounds" };
    let all_second = members.iter().all(|k| laid_out.closures[*k].kind == PressKind::Second);
    format!("{word} {}{}", numbers.join(" and "), if all_second { ", second press" } else { "" })
}

/// The films of these closures; with their rounds, where there are several.
fn films(laid_out: &LaidOut, members: &[usize]) -> String {
    let mut rounds: Vec<u32> = members.iter().map(|k| laid_out.closures[*k].layer).collect();
    rounds.sort_unstable();
    rounds.dedup();
    let of = |round: u32| {
        let closures = members.iter().map(|k| &laid_out.closures[*k]).filter(move |closure| closure.layer == round);
        films_in_words(closures.flat_map(|closure| &closure.films), str::to_owned)
    };
    match rounds.as_slice() {
        [one] => of(*one),
        several => {
            let each: Vec<String> = several.iter().map(|round| format!("round {round}: {}", of(*round))).collect();
            each.join("; ")
        }
    }
}

/// Most letters on one bar of the side view: where the films' names would make more, they stand above the picture alone.
const ON_A_BAR: usize = 70;

/// The side view with each film's own name before its class.
fn side_naming_films(laid_out: &LaidOut, members: &[usize], side: Vec<SideLayer>) -> Vec<SideLayer> {
    let of_class = |name: &str| {
        let mut films: Vec<&str> = Vec::new();
        for k in members {
            let (closure, round) = (&laid_out.closures[*k], &laid_out.rounds[*k]);
            for film in &closure.films {
                let spot = round.spots.iter().map(|spot| &laid_out.spots[*spot]).find(|spot| spot.motif == film.motif);
                let laid = spot.and_then(|spot| spot.laid.iter().find(|laid| laid.layer + 1 == film.layer as usize));
                let same = laid.is_some_and(|laid| name.starts_with(laid.class.name.as_str()));
                if same && !films.contains(&film.film.as_str()) {
                    films.push(&film.film);
                }
            }
        }
        films
    };
    let named = |layer: SideLayer| {
        let films = if layer.what == What::Film { of_class(&layer.name) } else { Vec::new() };
        let name = format!("{}: {}", films.join(", "), layer.name);
        let fits = !films.is_empty() && name.chars().count() <= ON_A_BAR;
        if fits { SideLayer { name, ..layer } } else { layer }
    };
    side.into_iter().map(named).collect()
}

fn kind_of(inputs: &Inputs<'_>, laid_out: &LaidOut, group: Group) -> ClosureKind {
    let Group { side, members } = group;
    let closure = &laid_out.closures[members[0]];
    let place = &laid_out.laid[laid_out.rounds[members[0]].place];
    let beneath = beneath(laid_out, place);
    let mut over: Vec<&str> = beneath
        .iter()
        .filter(|layer| layer.state() == ZoneState::InPlace)
        .filter_map(|layer| layer.zone.as_ref().map(|zone| zone.name.as_str()))
        .collect();
    over.dedup();
    let motifs = match closure.placements.len() {
        1 => "one motif".to_owned(),
        count => format!("{count} motifs"),
    };
    let over = if over.is_empty() { "nothing beneath".to_owned() } else { format!("over {}", over.join(" and ")) };
    ClosureKind {
        name: format!("{}, {motifs}, {over}", rounds_in_words(laid_out, &members)),
        closures: members.iter().map(|k| laid_out.closures[*k].number).collect(),
        films: films(laid_out, &members),
        side: side_naming_films(laid_out, &members, side),
        top: top_view(inputs, laid_out, closure, place),
    }
}

fn side_view(
    laid_out: &LaidOut,
    closure: &Closure,
    classes: &[&'static crate::data::FilmClass],
    beneath: &[&Layer],
) -> Vec<SideLayer> {
    let plain = |what, name: String| SideLayer { what, name, limit: None, weakest: false };
    let mut side = vec![
        plain(What::Plate, format!("plate at {}, {}", closure.temperature, closure.parts.dwell)),
        plain(What::Cover, "cover sheet or press cloth".to_owned()),
    ];
    let peel = |class: &crate::data::FilmClass| match class.peel.when {
        PeelWhen::ByTheSheet => String::new(),
        when => format!(", {}", when.words()),
    };
    side.extend(classes.iter().rev().map(|class| SideLayer {
        what: What::Film,
        name: format!("{}{}", class.name, peel(class)),
        limit: Some(class.temperatures().1),
        weakest: false,
    }));
    let of =
        |layer: &Layer, what| SideLayer { what, name: layer.name.clone(), limit: Some(layer.limit()), weakest: false };
    let in_place = |lies: Lies| {
        let there = move |layer: &&&Layer| layer.zone.as_ref().is_some_and(|zone| zone.lies == lies);
        beneath.iter().filter(there).filter(|layer| layer.state() == ZoneState::InPlace)
    };
    side.extend(in_place(Lies::Over).map(|layer| of(layer, What::Over)));
    side.extend(beneath.iter().filter(|layer| layer.zone.is_none()).map(|layer| of(layer, What::Cloth)));
    side.extend(in_place(Lies::Beneath).map(|layer| of(layer, What::Beneath)));
    let away = laid_out.layers.iter().filter(|layer| layer.state() != ZoneState::InPlace);
    side.extend(away.map(|layer| of(layer, What::Away)));
    side.push(plain(What::Pad, "pressing pad, lower plate".to_owned()));
    let there = |layer: &&mut SideLayer| matches!(layer.what, What::Film | What::Over | What::Cloth | What::Beneath);
    let weakest = side.iter_mut().filter(there).min_by(|a, b| match (a.limit, b.limit) {
        (Some(a), Some(b)) => a.total_cmp(&b),
        _ => std::cmp::Ordering::Equal,
    });
    if let Some(layer) = weakest {
        layer.weakest = true;
    }
    side
}

fn top_view(inputs: &Inputs<'_>, laid_out: &LaidOut, closure: &Closure, place: &Place) -> TopView {
    let bench = laid_out.bench();
    let plate = laid_out.plate;
    let to_plate = Affine::rotate(-closure.turn.get()) * Affine::translate(-closure.at.to_vec2());
    let rect = |along: f64, up: f64| Rect::new(-along / 2.0, -up / 2.0, along / 2.0, up / 2.0);
    let whole = rect(plate.along + 2.0 * plate.rim, plate.up + 2.0 * plate.rim);
    let middle = middle_s(&bench, &place.spread);
    let half = reach(&bench);
    let ring = laid_out.ground.is_closed();
    let (least, greatest) = laid_out.ground.span();
    let limit = |s: f64| if ring { s } else { s.clamp(least, greatest) };
    let (from, to) = (limit(middle - half), limit(middle + half));
    let edge = |height: f64| -> Vec<Point> {
        (0..=40)
            .map(|k| from + (to - from) * f64::from(k) / 40.0)
            .map(|s| to_plate * laid_out.ground.point(s, height))
            .collect()
    };
    let strip = |(low, high): (f64, f64)| {
        let mut points = edge(low);
        points.extend(edge(high).into_iter().rev());
        Ring::new(points).ok()
    };
    let zones = laid_out.layers.iter().filter_map(|layer| layer.zone.as_ref());
    let mut seen: Vec<TopZone> = Vec::new();
    for zone in zones.filter(|zone| zone.along.is_none()) {
        let there = heights(zone, zone.state).unwrap_or((zone.heights.0.get(), zone.heights.1.get()));
        let area = strip(there).map(|area| TopZone { name: zone.name.clone(), state: zone.state, area });
        seen.extend(area.filter(|new| seen.iter().all(|known| known.name != new.name)));
    }
    seen.extend(partial_zones(laid_out, place, to_plate));
    let outlines = |own: bool| -> Vec<Outline> {
        let placements = inputs.setting.bands.iter().flat_map(|band| &band.placements);
        let wanted = placements.filter(|placement| closure.placements.contains(&placement.id) == own);
        let placed = wanted.filter_map(|placement| {
            let motif = inputs.motifs.get(&placement.motif)?;
            let drafted = inputs.hem.as_hung().map_or(placement.s_hem, |hung| hung.drafted(placement.s_hem));
            let along = (drafted.get(), middle);
            Some(near_plate(laid_out, along, &placed_outlines(motif, placement), to_plate, whole))
        });
        placed.flatten().collect()
    };
    let mut beside = outlines(false);
    beside.truncate(MOST_BESIDE);
    TopView {
        plate: whole,
        trusted: rect(plate.along, plate.up),
        hem: edge(0.0),
        pressed: outlines(true),
        beside,
        zones: seen,
    }
}

/// Zones that take up part of the hem, as far as they lie near the plate.
fn partial_zones(laid_out: &LaidOut, place: &Place, to_plate: Affine) -> Vec<TopZone> {
    let bench = laid_out.bench();
    let near = Near { s: middle_s(&bench, &place.spread), at: place.at, radius: reach(&bench) };
    let partial = laid_out.layers.iter().filter_map(|layer| layer.zone.as_ref()).filter(|zone| zone.along.is_some());
    let mut seen: Vec<TopZone> = Vec::new();
    for zone in partial {
        let patches = patches(&laid_out.ground, zone, near);
        let lower = patches.iter().map(|patch| patch[0]).chain(patches.last().map(|patch| patch[1]));
        let upper = patches.iter().map(|patch| patch[3]).chain(patches.last().map(|patch| patch[2]));
        let mut points: Vec<Point> = lower.collect();
        points.extend(upper.collect::<Vec<_>>().into_iter().rev());
        let area = Ring::new(points.into_iter().map(|point| to_plate * point)).ok();
        let area = area.map(|area| TopZone { name: zone.name.clone(), state: zone.state, area });
        seen.extend(area.filter(|new| seen.iter().all(|known| known.name != new.name)));
    }
    seen
}

/// A motif's outlines in plate millimetres; nothing when it is far off. On a ring it is taken the short way round from the
/// plate's place `middle` along the hem: laid flat, other turns of a ring may pass over the same ground.
fn near_plate(
    laid_out: &LaidOut,
    (s_hem, middle): (f64, f64),
    outlines: &[Outline],
    to_plate: Affine,
    plate: Rect,
) -> Vec<Outline> {
    let ground = &laid_out.ground;
    let laps: &[i32] = if ground.is_closed() { &[0, -1, 1] } else { &[0] };
    let apart = |lap: i32| (s_hem + f64::from(lap) * ground.length() - middle).abs();
    let lap = laps.iter().copied().min_by(|a, b| apart(*a).total_cmp(&apart(*b))).unwrap_or(0);
    let around = plate.inflate(plate.width() / 4.0, plate.height() / 4.0);
    let moved = to_plate * ground.lap(lap);
    let placed: Vec<Outline> = outlines.iter().map(|outline| outline.transformed(moved)).collect();
    let near = crate::geometry::bounds(&placed).map(|bounds| bounds.intersect(around));
    if near.is_some_and(|common| common.width() > 0.0 && common.height() > 0.0) { placed } else { Vec::new() }
}
