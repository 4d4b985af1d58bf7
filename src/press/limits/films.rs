//! Film on film and film beside film: layers pressed again, tops that take nothing, neighbours under the rim.

use std::collections::BTreeMap;

use super::risk::Risks;
use super::stacks::Laid;
use crate::data::{Condition, RepressIs};
use crate::geometry::Point;
use crate::press::plates::laying::LaidOut;
use crate::press::plates::plate::overlap;
use crate::press::setup::{Setup, Verdict};
use crate::press::work::schedule::{Round, layer_in_round};
use crate::press::{Closure, PressKind};
use crate::quantity::Seconds;

/// A finished motif may be reached by the plate so often before it is worth a word; common practice (source 105).
const OFTEN: u32 = 2;

/// Asks every film rule of every closure.
pub(in crate::press) fn check(laid_out: &LaidOut, setup: &Setup, risks: &mut Risks) {
    for (closure, round) in laid_out.closures.iter().zip(&laid_out.rounds) {
        window(closure, round, setup, risks);
        beneath(laid_out, closure, round, risks);
    }
    beside(laid_out, risks);
}

/// The setting against what the test piece showed.
pub(in crate::press) fn against_the_test(laid_out: &LaidOut, setup: &Setup, risks: &mut Risks) {
    let Some(tested) = setup.tested else { return };
    for (closure, round) in laid_out.closures.iter().zip(&laid_out.rounds) {
        let full = closure.kind == PressKind::Full;
        let said = match tested.verdict {
            Verdict::Marked => {
                closure.temperature >= tested.temperature && (!full || closure.parts.dwell >= tested.dwell)
            }
            Verdict::Lifted => full && closure.temperature <= tested.temperature && closure.parts.dwell <= tested.dwell,
            // What held was held at its own setting: more heat or more time was never tried.
            Verdict::Held => closure.temperature > tested.temperature || (full && closure.parts.dwell > tested.dwell),
        };
        let condition = match tested.verdict {
            Verdict::Marked => Condition::TestMarked,
            Verdict::Lifted => Condition::TestLifted,
            Verdict::Held => Condition::TestGentler,
        };
        for class in round.classes.iter().filter(|_| said) {
            risks.film(condition, class, closure.temperature, closure.number);
        }
    }
}

/// The setting against the windows of the classes pressed.
fn window(closure: &Closure, round: &Round, setup: &Setup, risks: &mut Risks) {
    let asked = setup.temperature.filter(|asked| (asked.get() - closure.temperature.get()).abs() > 0.5);
    let held = setup.tested.is_some_and(|t| t.verdict == Verdict::Held && t.temperature <= closure.temperature);
    for class in &round.classes {
        let (low, high) = class.temperatures();
        let (shortest, longest) = class.times();
        let full = closure.kind == PressKind::Full;
        let in_time = !full || (shortest..=longest).contains(&closure.parts.dwell);
        if closure.temperature < low && !held {
            risks.film(Condition::TooCool, class, closure.temperature, closure.number);
        } else if closure.temperature > high || !in_time {
            risks.film(Condition::OutsideWindow, class, closure.temperature, closure.number);
        } else if asked.is_some() {
            risks.film(Condition::OwnWindow, class, closure.temperature, closure.number);
        }
    }
}

/// The layers of the same motif that already lie below.
fn beneath(laid_out: &LaidOut, closure: &Closure, round: &Round, risks: &mut Risks) {
    let rounds = laid_out.rounds.iter().filter(|other| other.place == round.place && other.kind != PressKind::Second);
    let rounds = rounds.count();
    let this = usize::try_from(round.layer - 1).unwrap_or(usize::MAX);
    for spot in round.spots.iter().map(|spot| &laid_out.spots[*spot]) {
        let Some(layer) = layer_in_round(spot, this, rounds) else { continue };
        let upper = if closure.kind == PressKind::Second { layer + 1 } else { layer };
        for below in &spot.laid[..upper.min(spot.laid.len())] {
            if closure.temperature > below.class.temperatures().1 {
                risks.film(Condition::FilmOverWindow, below.class, closure.temperature, closure.number);
            }
            if below.class.repress.is == RepressIs::Never {
                risks.film(Condition::FilmNotAgain, below.class, closure.temperature, closure.number);
            }
            if below.class.layers.top_only && below.bears && closure.kind != PressKind::Second {
                risks.film(Condition::FilmTopOnly, below.class, closure.temperature, closure.number);
            }
        }
        let depth = spot.laid[layer.min(spot.laid.len() - 1)].depth;
        let exceeded = spot.laid[..=layer.min(spot.laid.len() - 1)].iter().find(|laid| depth > laid.class.layers.most);
        if let Some(laid) = exceeded {
            risks.film(Condition::FilmTooMany, laid.class, closure.temperature, closure.number);
        }
    }
}

/// Finished motifs of other places that the plate reaches again.
fn beside(laid_out: &LaidOut, risks: &mut Risks) {
    let mut finished: Vec<bool> = vec![false; laid_out.spots.len()];
    let mut touches: BTreeMap<usize, u32> = BTreeMap::new();
    for (closure, round) in laid_out.closures.iter().zip(&laid_out.rounds) {
        let own = &laid_out.laid[round.place].spread.members;
        for spot in reached(laid_out, closure).filter(|spot| finished[*spot]) {
            let Some(top) = laid_out.spots[spot].laid.last() else { continue };
            if own.iter().any(|member| member.spot == spot) {
                continue;
            }
            let count = touches.entry(spot).or_default();
            *count += 1;
            let overheated = |laid: &&Laid| closure.temperature > laid.class.temperatures().1;
            if let Some(laid) = laid_out.spots[spot].laid.iter().find(overheated) {
                risks.film(Condition::FilmOverWindow, laid.class, closure.temperature, closure.number);
            }
            if top.class.repress.is == RepressIs::Never {
                risks.film(Condition::FilmNotAgain, top.class, closure.temperature, closure.number);
            } else if *count > OFTEN && closure.parts.dwell > Seconds::ZERO {
                risks.film(Condition::PressedOften, top.class, closure.temperature, closure.number);
            }
        }
        if closure.kind == PressKind::Full {
            round.spots.iter().for_each(|spot| finished[*spot] = true);
        }
    }
}

/// Spots that lie, wholly or in part, under the plate, rim included.
fn reached<'a>(laid_out: &'a LaidOut, closure: &'a Closure) -> impl Iterator<Item = usize> + 'a {
    let corners = closure.footprint.points();
    let bounds = closure.footprint.bounds();
    let laps: &[i32] = if laid_out.ground.is_closed() { &[0, -1, 1] } else { &[0] };
    let (from, to) = laid_out.stretch_near(closure);
    (0..laid_out.spots.len()).filter(move |k| {
        let spot = &laid_out.spots[*k];
        laps.iter().any(|lap| {
            let s = spot.s + f64::from(*lap) * laid_out.ground.length();
            if !(from - 1e-6..=to + 1e-6).contains(&s) {
                return false;
            }
            let moved = laid_out.ground.lap(*lap);
            let hull: Vec<Point> = spot.hull.iter().map(|point| moved * *point).collect();
            hull.iter().any(|p| p.x > bounds.x0)
                && hull.iter().any(|p| p.x < bounds.x1)
                && hull.iter().any(|p| p.y > bounds.y0)
                && hull.iter().any(|p| p.y < bounds.y1)
                && overlap(&hull, corners)
        })
    })
}
