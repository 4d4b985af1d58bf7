//! From spots to numbered closures: places, middles that keep off hazards, rounds, footprints, and what each plate meets.

use std::cmp::Ordering;

use super::ground::{Ground, Patch};
use super::groups::{all_apart, heat_groups};
use super::plate::{Bench, HAIR, Member, PlateSize, overlap};
use super::positions::{Positions, Spread, middle_s, positions};
use super::spots::{Spot, spots};
use super::tiles::{tiles, tiles_at_least};
use crate::geometry::{Point, Ring};
use crate::press::limits::layers::{Layer, Near, area_under, layers, patches, window};
use crate::press::limits::risk::outcome;
use crate::press::setup::Setup;
use crate::press::work::closure::{Closure, PressedFilm};
use crate::press::work::schedule::{Round, rounds};
use crate::press::{Inputs, Outcome, PressError, Tool, ZoneState};
use crate::quantity::{Celsius, Mm, Radians};

/// Smaller overlaps than this, in square millimetres, are the rounding of plate and hem.
const TOUCHES: f64 = 1.0;

/// One plate position as laid.
#[derive(Clone, Debug)]
pub(in crate::press) struct Place {
    /// The motifs under it and where the plate may lie.
    pub(in crate::press) spread: Spread,
    /// Middle of the plate in the flat development.
    pub(in crate::press) at: Point,
    /// The whole plate, rim included.
    pub(in crate::press) footprint: Ring,
    /// For each layer of the garment, whether it lies under the plate, or folded below where the plate hangs over the hem.
    pub(in crate::press) meets: Vec<bool>,
}

/// Closures with what they were made from.
#[derive(Debug)]
pub(in crate::press) struct LaidOut {
    pub(in crate::press) closures: Vec<Closure>,
    pub(in crate::press) places: u32,
    pub(in crate::press) places_at_least: u32,
    pub(in crate::press) ground: Ground,
    pub(in crate::press) spots: Vec<Spot>,
    pub(in crate::press) layers: Vec<Layer>,
    pub(in crate::press) plate: PlateSize,
    /// For each closure, its round.
    pub(in crate::press) rounds: Vec<Round>,
    /// Every plate position, in order along the hem.
    pub(in crate::press) laid: Vec<Place>,
}

/// Lays the plate over every pressed motif and numbers the closures.
pub(in crate::press) fn lay_out(inputs: &Inputs<'_>) -> Result<LaidOut, PressError> {
    let ground = Ground::of(inputs.hem)?;
    let spots = spots(inputs);
    let plate = plate(inputs.setup)?;
    let bench = Bench { ground: &ground, spots: &spots, plate };
    let Spreads { spreads, groups, at_least } = spreads(&bench, inputs.setup)?;
    let rounds = rounds(&groups, &spreads, &spots, inputs.setup);
    let layers = layers(inputs);
    let laid: Vec<Place> = spreads
        .into_iter()
        .enumerate()
        .map(|(place, spread)| laid(&bench, spread, hottest_round(&rounds, place), &layers, inputs.setup))
        .collect();
    let closures =
        (1..).zip(&rounds).map(|(number, round)| closure(&bench, inputs, number, round, &laid[round.place])).collect();
    let places = u32::try_from(laid.len()).unwrap_or(u32::MAX);
    let places_at_least = u32::try_from(at_least).unwrap_or(u32::MAX);
    Ok(LaidOut { closures, places, places_at_least, ground, spots, layers, plate, rounds, laid })
}

fn plate(setup: &Setup) -> Result<PlateSize, PressError> {
    let (along, up) = setup.trusted()?;
    Ok(PlateSize { along: along.get(), up: up.get(), rim: setup.rim.get() })
}

/// Plate positions of all heat groups.
struct Spreads {
    /// In order along the hem.
    spreads: Vec<Spread>,
    /// For each heat group, hottest first, the indices of its positions.
    groups: Vec<Vec<usize>>,
    /// How few there could be at best.
    at_least: usize,
}

/// Plate positions over every pressed motif.
fn spreads(bench: &Bench<'_>, setup: &Setup) -> Result<Spreads, PressError> {
    let fits = |spot: &usize| bench.room(&[Member { spot: *spot, laps: 0 }]).is_some();
    let groups = heat_groups(bench.spots);
    let large: Vec<usize> = groups.iter().flat_map(|group| &group.spots).copied().filter(|spot| !fits(spot)).collect();
    if setup.tool == Tool::Press && !large.is_empty() {
        return Err(too_large(bench, &large));
    }
    let mut found: Vec<(usize, Spread)> = Vec::new();
    let mut bounds: Vec<usize> = Vec::new();
    for (index, group) in groups.iter().enumerate() {
        let (whole, large): (Vec<usize>, Vec<usize>) = group.spots.iter().partition(|spot| fits(spot));
        let Positions { spreads, at_least } = positions(bench, &whole, setup.one_at_a_time);
        let tiled: Option<Vec<Vec<Spread>>> = large.iter().map(|spot| tiles(bench, *spot)).collect();
        let tiled = tiled.ok_or_else(|| too_large(bench, &large))?.concat();
        bounds.push(at_least + large.iter().map(|spot| tiles_at_least(bench, *spot)).sum::<usize>());
        found.extend(spreads.into_iter().chain(tiled).map(|spread| (index, spread)));
    }
    found.sort_by(|(_, a), (_, b)| {
        let number = |spread: &Spread| spread.part.map(|part| part.number);
        let first = |spread: &Spread| spread.members.first().map(|member| member.spot);
        let parts = (first(a), number(a)).cmp(&(first(b), number(b)));
        middle_s(bench, a).total_cmp(&middle_s(bench, b)).then(parts)
    });
    let of_group = |index: usize| (0..found.len()).filter(|k| found[*k].0 == index).collect();
    let at_least = if all_apart(&groups) { bounds.iter().sum() } else { bounds.iter().copied().max().unwrap_or(0) };
    Ok(Spreads {
        groups: (0..groups.len()).map(of_group).collect(),
        spreads: found.into_iter().map(|(_, spread)| spread).collect(),
        at_least,
    })
}

/// The motifs that go under no plate, with the smallest plate that would take them.
fn too_large(bench: &Bench<'_>, large: &[usize]) -> PressError {
    let size = |spot: usize| {
        let alone = [Member { spot, laps: 0 }];
        let (along, down) = bench.extent(&alone, bench.turn(&alone));
        (along.1 - along.0, down.1 - down.0)
    };
    // Of all that is pressed: a plate that takes these must still take the others.
    let pressed = (0..bench.spots.len()).filter(|spot| !bench.spots[*spot].laid.is_empty());
    let (mut most, mut turned_fits) = ((bench.plate.along, bench.plate.up), true);
    for size in pressed.map(size) {
        most = (most.0.max(size.0), most.1.max(size.1));
        turned_fits &= size.0 <= bench.plate.up + HAIR && size.1 <= bench.plate.along + HAIR;
    }
    let mut motifs: Vec<(String, (Mm, Mm))> = Vec::new();
    for &spot in large {
        let size = size(spot);
        let motif = &bench.spots[spot].motif;
        if motifs.iter().all(|(known, _)| known != motif) {
            motifs.push((motif.clone(), (Mm::new(size.0), Mm::new(size.1))));
        }
    }
    let rim = 2.0 * bench.plate.rim;
    PressError::TooLarge {
        motifs,
        trusted: (Mm::new(bench.plate.along), Mm::new(bench.plate.up)),
        smallest: (Mm::new(most.0 + rim), Mm::new(most.1 + rim)),
        turned_fits,
    }
}

/// The hottest round of a place.
fn hottest_round(rounds: &[Round], place: usize) -> Option<&Round> {
    let of_place = rounds.iter().filter(|round| round.place == place);
    of_place.max_by(|a, b| a.heat.temperature.total_cmp(&b.heat.temperature))
}

/// Where in its room a plate is tried, halfway both ways first: shares of the way along and down.
const TRIED: [(f64, f64); 9] =
    [(0.5, 0.5), (0.5, 0.0), (0.5, 1.0), (0.0, 0.5), (1.0, 0.5), (0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)];

/// Halfway both ways.
const HALFWAY: (f64, f64) = TRIED[0];

/// What a plate in one place would lie on.
#[derive(Clone, Copy, Debug)]
struct Cost {
    /// Gravest outcome of the hazards under it.
    gravest: Outcome,
    /// Area of those, in square millimetres.
    area: f64,
    /// Neighbouring motifs that would be heated with its own.
    neighbours: usize,
}

impl Cost {
    fn is_less_than(self, other: Self) -> bool {
        let apart = (self.area - other.area).abs() > TOUCHES;
        match self.gravest.cmp(&other.gravest) {
            Ordering::Equal if apart => self.area < other.area,
            Ordering::Equal => self.neighbours < other.neighbours,
            order => order.is_lt(),
        }
    }
}

/// Lays one plate: in the middle of the room it has, unless another place in it keeps it off hazards or off neighbours.
fn laid(bench: &Bench<'_>, spread: Spread, hottest: Option<&Round>, layers: &[Layer], setup: &Setup) -> Place {
    let near = Near { s: middle_s(bench, &spread), at: spread.room.middle(HALFWAY), radius: reach(bench) };
    let region = |layer: &Layer| layer.zone.as_ref().map(|zone| patches(bench.ground, zone, near));
    let regions: Vec<Option<Vec<Patch>>> = layers.iter().map(region).collect();
    let gravity = |layer: &Layer| match hottest {
        Some(_) if layer.state() == ZoneState::FoldedAway => Outcome::ClothAndTest,
        Some(round) => outcome(layer, round.heat.temperature, &round.classes, setup),
        None => Outcome::Go,
    };
    let hazards: Vec<(Outcome, &Vec<Patch>)> =
        layers.iter().zip(&regions).filter_map(|(layer, region)| Some((gravity(layer), region.as_ref()?))).collect();
    let beside = neighbours(bench, &spread, near);
    let cost = |place: (f64, f64)| {
        let footprint = bench.footprint(spread.room.middle(place), spread.room.turn);
        let met = hazards.iter().map(|(grave, region)| (*grave, area_under(region, &footprint)));
        let met: Vec<_> = met.filter(|(grave, area)| *grave > Outcome::Go && *area > TOUCHES).collect();
        let gravest = met.iter().map(|(grave, _)| *grave).max().unwrap_or(Outcome::Go);
        let area = met.iter().filter(|(grave, _)| *grave == gravest).map(|(_, area)| area).sum();
        let neighbours = beside.iter().filter(|hull| overlap(hull, footprint.points())).count();
        Cost { gravest, area, neighbours }
    };
    let tried = TRIED.map(|place| (cost(place), place)).into_iter();
    let best = tried.reduce(|best, next| if next.0.is_less_than(best.0) { next } else { best });
    let at = spread.room.middle(best.map_or(HALFWAY, |(_, place)| place));
    let footprint = bench.footprint(at, spread.room.turn);
    let under = |region: &Option<Vec<Patch>>| {
        // The garment's own cloth has no region: it always lies under the plate.
        region.as_ref().is_none_or(|region| area_under(region, &footprint) > TOUCHES)
    };
    let meets = regions.iter().map(under).collect();
    Place { spread, at, footprint, meets }
}

/// The part of the hem along which motifs can come under a plate. Where a hem turns through more than a circle its development
/// lies over itself: what lies at the same place of it may be a whole circle away on the garment.
pub(in crate::press) fn stretch_near(bench: &Bench<'_>, near: Near) -> (f64, f64) {
    let wider = |(low, high): (f64, f64), height: f64| (low.min(height), high.max(height));
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    let heights = bench.spots.iter().map(|spot| spot.height).fold(none, wider);
    let radius = near.radius + bench.spots.iter().map(|spot| spot.radius).fold(0.0, f64::max);
    window(bench.ground, heights, Near { radius, ..near })
}

/// Hulls of pressed motifs near a plate that are not its own, laps counted.
fn neighbours(bench: &Bench<'_>, spread: &Spread, near: Near) -> Vec<Vec<Point>> {
    let laps: &[i32] = if bench.ground.is_closed() { &[0, -1, 1] } else { &[0] };
    let (from, to) = stretch_near(bench, near);
    let pressed = (0..bench.spots.len()).filter(|spot| !bench.spots[*spot].laid.is_empty());
    let all = pressed.flat_map(|spot| laps.iter().map(move |laps| Member { spot, laps: *laps }));
    let close = all.filter(|member| (from..=to).contains(&bench.s(*member)));
    let others = close.filter(|member| spread.members.iter().all(|own| own.spot != member.spot));
    let hulls = others.map(|member| bench.hull(member).collect::<Vec<Point>>());
    hulls.filter(|hull| hull.iter().any(|point| point.distance(near.at) <= near.radius)).collect()
}

/// How far from a plate's middle anything can matter: its diagonal, so that the plate may be moved up or down by half its
/// height and still be within reach.
pub(in crate::press) fn reach(bench: &Bench<'_>) -> f64 {
    (bench.plate.along + 2.0 * bench.plate.rim).hypot(bench.plate.up + 2.0 * bench.plate.rim)
}

/// The films laid in a round, each layer of each motif once.
fn films(spots: &[Spot], inputs: &Inputs<'_>, round: &Round) -> Vec<PressedFilm> {
    let mut found: Vec<PressedFilm> = Vec::new();
    for (spot, laid) in round.spots.iter().zip(&round.laid) {
        let spot = &spots[*spot];
        let Some(layer) = spot.laid.get(*laid).map(|laid| laid.layer) else { continue };
        let kind = inputs.pieces.kinds.iter().find(|kind| kind.motif == spot.motif && kind.layer == layer);
        let Some(kind) = kind else { continue };
        let number = u32::try_from(layer + 1).unwrap_or(u32::MAX);
        let film = PressedFilm { film: kind.film.clone(), motif: spot.motif.clone(), layer: number };
        if !found.contains(&film) {
            found.push(film);
        }
    }
    found
}

fn closure(bench: &Bench<'_>, inputs: &Inputs<'_>, number: u32, round: &Round, place: &Place) -> Closure {
    let (s, height) = bench.ground.coordinates(place.at, middle_s(bench, &place.spread), reach(bench));
    Closure {
        number,
        place: u32::try_from(round.place + 1).unwrap_or(u32::MAX),
        layer: round.layer,
        kind: round.kind,
        placements: round.spots.iter().map(|spot| bench.spots[*spot].id.clone()).collect(),
        films: films(bench.spots, inputs, round),
        part: place.spread.part,
        at: place.at,
        s_hem: Mm::new(s),
        height: Mm::new(height),
        turn: Radians::new(place.spread.room.turn),
        footprint: place.footprint.clone(),
        temperature: round.heat.temperature,
        parts: round.parts,
        seconds: round.parts.total(),
    }
}

impl LaidOut {
    /// The part of the hem along which motifs can come under the plate of a closure.
    pub(in crate::press) fn stretch_near(&self, closure: &Closure) -> (f64, f64) {
        let bench = self.bench();
        stretch_near(&bench, Near { s: closure.s_hem.get(), at: closure.at, radius: reach(&bench) })
    }

    /// The plate over these spots.
    pub(in crate::press) fn bench(&self) -> Bench<'_> {
        Bench { ground: &self.ground, spots: &self.spots, plate: self.plate }
    }

    /// Hottest closure of all; room temperature when nothing is pressed.
    pub(in crate::press) fn hottest(&self) -> Celsius {
        let temperatures = self.closures.iter().map(|closure| closure.temperature);
        temperatures.reduce(Celsius::max).unwrap_or(crate::press::limits::layers::ROOM)
    }

    /// Layers in place under some plate, the garment's cloth among them.
    pub(in crate::press) fn layers_met(&self) -> impl Iterator<Item = &Layer> {
        let met = |k: &usize| self.laid.iter().any(|place| place.meets[*k]);
        (0..self.layers.len()).filter(met).map(|k| &self.layers[k]).filter(|l| l.state() == ZoneState::InPlace)
    }
}
