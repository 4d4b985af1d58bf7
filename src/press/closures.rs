//! From spots to numbered closures: places, middles that keep off hazards, rounds, footprints.

use super::ground::Ground;
use super::layers::{Layer, area_under, layers, patches};
use super::plate::{Bench, HAIR, Member, PlateSize};
use super::positions::{Positions, Spread, middle_s, positions};
use super::risk::{Meeting, Risks, outcome};
use super::schedule::{Round, rounds};
use super::spots::{Spot, spots};
use super::{Closure, HeatRisk, Inputs, Outcome, PressError, Setup, ZoneState, films};
use crate::geometry::{Point, Ring};
use crate::quantity::{Celsius, Mm, Radians};

/// Smaller overlaps than this, in square millimetres, are the rounding of plate and hem.
const TOUCHES: f64 = 1.0;

/// Closures with what they were made from.
#[derive(Debug)]
pub(super) struct LaidOut {
    pub(super) closures: Vec<Closure>,
    pub(super) places: u32,
    pub(super) places_at_least: u32,
    pub(super) ground: Ground,
    pub(super) spots: Vec<Spot>,
    pub(super) layers: Vec<Layer>,
    pub(super) plate: PlateSize,
    /// For each closure, its round.
    pub(super) rounds: Vec<Round>,
    /// For each place, the motifs under it.
    pub(super) spreads: Vec<Spread>,
}

/// Lays the plate over every pressed motif and numbers the closures.
pub(super) fn closures(inputs: &Inputs<'_>) -> Result<LaidOut, PressError> {
    let ground = Ground::of(inputs.hem)?;
    let spots = spots(inputs);
    let plate = plate(inputs.setup)?;
    let bench = Bench { ground: &ground, spots: &spots, plate };
    let pressed: Vec<usize> = (0..spots.len()).filter(|k| !spots[*k].laid.is_empty()).collect();
    all_fit(&bench, &pressed)?;
    let Positions { spreads, at_least } = positions(&bench, &pressed, inputs.setup.one_at_a_time);
    let rounds = rounds(&spreads, &spots, inputs.setup);
    let layers = layers(inputs);
    let middles = middles(&bench, &spreads, &rounds, &layers, inputs.setup);
    let closures =
        (1..).zip(&rounds).map(|(number, round)| closure(&bench, number, round, &spreads, &middles)).collect();
    let places = u32::try_from(spreads.len()).unwrap_or(u32::MAX);
    let places_at_least = u32::try_from(at_least).unwrap_or(u32::MAX);
    Ok(LaidOut { closures, places, places_at_least, ground, spots, layers, plate, rounds, spreads })
}

fn plate(setup: &Setup) -> Result<PlateSize, PressError> {
    let rim = setup.rim.get();
    let size = PlateSize { along: setup.plate.0.get() - 2.0 * rim, up: setup.plate.1.get() - 2.0 * rim, rim };
    if rim < 0.0 || size.along <= 0.0 || size.up <= 0.0 {
        return Err(PressError::NoTrustedPlate { plate: setup.plate, rim: setup.rim });
    }
    Ok(size)
}

/// Every motif by itself goes under the trusted part.
fn all_fit(bench: &Bench<'_>, pressed: &[usize]) -> Result<(), PressError> {
    let alone = |spot: usize| [Member { spot, laps: 0 }];
    let mut large: Vec<(String, (Mm, Mm))> = Vec::new();
    let (mut most, mut turned_fits) = ((bench.plate.along, bench.plate.up), true);
    for &spot in pressed.iter().filter(|spot| bench.room(&alone(**spot)).is_none()) {
        let (along, down) = bench.extent(&alone(spot), bench.turn(&alone(spot)));
        let size = (along.1 - along.0, down.1 - down.0);
        most = (most.0.max(size.0), most.1.max(size.1));
        turned_fits &= size.0 <= bench.plate.up + HAIR && size.1 <= bench.plate.along + HAIR;
        let motif = &bench.spots[spot].motif;
        if large.iter().all(|(known, _)| known != motif) {
            large.push((motif.clone(), (Mm::new(size.0), Mm::new(size.1))));
        }
    }
    if large.is_empty() {
        return Ok(());
    }
    let rim = 2.0 * bench.plate.rim;
    Err(PressError::TooLarge {
        motifs: large,
        trusted: (Mm::new(bench.plate.along), Mm::new(bench.plate.up)),
        smallest: (Mm::new(most.0 + rim), Mm::new(most.1 + rim)),
        turned_fits,
    })
}

/// For each place the plate's middle: in the middle of the room it has, unless a higher or lower place keeps it off hazards.
fn middles(bench: &Bench<'_>, spreads: &[Spread], rounds: &[Round], layers: &[Layer], setup: &Setup) -> Vec<Point> {
    let middle = |(place, spread): (usize, &Spread)| {
        let of_place = rounds.iter().filter(|round| round.place == place);
        let hottest = of_place.clone().max_by(|a, b| a.heat.temperature.total_cmp(&b.heat.temperature));
        let Some(hottest) = hottest else { return spread.room.middle(0.5) };
        let near = middle_s(bench, spread);
        let hazards: Vec<_> = layers
            .iter()
            .filter_map(|layer| {
                let folded = layer.state() == ZoneState::FoldedAway;
                let grave = outcome(layer, hottest.heat.temperature, &hottest.classes, setup);
                let zone = layer.zone.as_ref().filter(|_| folded || grave > Outcome::Go)?;
                Some((grave, patches(bench.ground, zone, near, reach(bench))))
            })
            .collect();
        let cost = |part: f64| {
            let footprint = bench.footprint(spread.room.middle(part), spread.room.turn);
            let met = hazards.iter().map(|(grave, patches)| (*grave, area_under(patches, &footprint)));
            let met: Vec<_> = met.filter(|(_, area)| *area > TOUCHES).collect();
            let gravest = met.iter().map(|(grave, _)| *grave).max().unwrap_or(Outcome::Go);
            (gravest, met.iter().filter(|(grave, _)| *grave == gravest).map(|(_, area)| area).sum::<f64>())
        };
        let best = [0.5, 0.0, 1.0].map(|part| (cost(part), part)).into_iter().reduce(|best, next| {
            let better = next.0.0.cmp(&best.0.0).then((next.0.1 + TOUCHES).total_cmp(&best.0.1));
            if better.is_lt() { next } else { best }
        });
        spread.room.middle(best.map_or(0.5, |(_, part)| part))
    };
    spreads.iter().enumerate().map(middle).collect()
}

/// How far round a place hazards are looked for, along the hem: a plate's diagonal, and more since a plate high above a
/// flared hem stands over more hem than its own length.
fn reach(bench: &Bench<'_>) -> f64 {
    4.0 * (bench.plate.along + bench.plate.rim).hypot(bench.plate.up + bench.plate.rim)
}

fn closure(bench: &Bench<'_>, number: u32, round: &Round, spreads: &[Spread], middles: &[Point]) -> Closure {
    let (spread, at) = (&spreads[round.place], middles[round.place]);
    let (s, height) = bench.ground.coordinates(at, middle_s(bench, spread), reach(bench));
    Closure {
        number,
        place: u32::try_from(round.place + 1).unwrap_or(u32::MAX),
        layer: round.layer,
        kind: round.kind,
        placements: round.spots.iter().map(|spot| bench.spots[*spot].id.clone()).collect(),
        at,
        s_hem: Mm::new(s),
        height: Mm::new(height),
        turn: Radians::new(spread.room.turn),
        footprint: bench.footprint(at, spread.room.turn),
        temperature: round.heat.temperature,
        parts: round.parts,
        seconds: round.parts.total(),
    }
}

impl LaidOut {
    /// The plate over these spots.
    pub(super) fn bench(&self) -> Bench<'_> {
        Bench { ground: &self.ground, spots: &self.spots, plate: self.plate }
    }

    /// Hottest closure of all; room temperature when nothing is pressed.
    pub(super) fn hottest(&self) -> Celsius {
        let temperatures = self.closures.iter().map(|closure| closure.temperature);
        temperatures.reduce(Celsius::max).unwrap_or(super::layers::ROOM)
    }

    /// Everything the rules say about what lies under the plates.
    pub(super) fn risks(&self, inputs: &Inputs<'_>) -> Vec<HeatRisk> {
        let mut risks = Risks::default();
        let bench = self.bench();
        let hottest = self.hottest();
        for layer in &self.layers {
            risks.kept_away(layer, hottest);
            let touched: Vec<bool> = self.spreads.iter().map(|spread| self.touches(&bench, layer, spread)).collect();
            for (closure, round) in self.closures.iter().zip(&self.rounds) {
                if touched[round.place] {
                    let meeting =
                        Meeting { layer, closure: closure.number, press: closure.temperature, classes: &round.classes };
                    risks.meet(meeting, inputs.setup);
                }
            }
        }
        films::check(self, &mut risks);
        risks.reported()
    }

    /// Whether a layer lies under the plate at a place; the garment's own cloth always does.
    fn touches(&self, bench: &Bench<'_>, layer: &Layer, spread: &Spread) -> bool {
        let Some(zone) = &layer.zone else { return true };
        let Some(footprint) = self.footprint_over(spread) else { return false };
        area_under(&patches(&self.ground, zone, middle_s(bench, spread), reach(bench)), footprint) > TOUCHES
    }

    fn footprint_over(&self, spread: &Spread) -> Option<&Ring> {
        let place = self.spreads.iter().position(|known| std::ptr::eq(known, spread))?;
        let closures = self.closures.iter().zip(&self.rounds);
        closures.filter(|(_, round)| round.place == place).map(|(closure, _)| &closure.footprint).next()
    }
}
