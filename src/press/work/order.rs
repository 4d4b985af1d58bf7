//! The order of work for one job, one sentence a step with its reason, and states that do not fit it.
//!
//! Canonical order: seams, hang, level, mark, cloth pieces made ready, test, turned pieces that lie under film, pre-press, layers,
//! cool and peel, second press, measure again, the edges of cloth pieces; then interfacing, braid, facing, lace and other trims, pleats, decoration; then the gentler pressing that the weakest of them
//! asks for. A zone in place or folded away is already sewn on, one sewn on later is not: the rules at the end find what
//! cannot be so.

use super::checklist::numbers_in_words;
use super::closure::films_in_words;
use super::cloth_pieces;
use super::schedule::Round;
use crate::data::{Condition, Limit, MaterialKind, PeelWhen, RepressIs, Steam, Trait};
use crate::press::limits::layers::{Layer, SEAM};
use crate::press::limits::risk::Risks;
use crate::press::plates::laying::LaidOut;
use crate::press::{Closure, HeatRisk, Inputs, Outcome, PressKind, ZoneState};
use crate::quantity::Celsius;

/// Sentences in working order.
pub(in crate::press) fn order_of_work(inputs: &Inputs<'_>, laid_out: &LaidOut, risks: &[HeatRisk]) -> Vec<String> {
    let pressed = !laid_out.closures.is_empty();
    let mut steps = before_pressing(inputs, risks, pressed);
    steps.extend(cloth_pieces::sewn_before_pressing(inputs));
    steps.extend(pressing(laid_out));
    if pressed {
        steps.push("Measure the band and the marks again, since heat can shrink it.".to_owned());
    }
    steps.extend(cloth_pieces::sewn_after_pressing(inputs));
    for zone in inputs.zones.iter().filter(|zone| zone.state == ZoneState::FoldedAway) {
        steps.push(format!("Turn back and finish {}, which was folded away.", zone.name));
    }
    steps.extend(sewn_on_later(laid_out));
    steps
}

fn before_pressing(inputs: &Inputs<'_>, risks: &[HeatRisk], pressed: bool) -> Vec<String> {
    let cut_through = if pressed { "the film" } else { "the pieces" };
    let level: &[&str] = if inputs.hem.as_hung().is_some() {
        &["Leave the hem as it hung, was levelled and measured again, since every place is counted on it as it is now."]
    } else {
        &[
            "Hang the garment for a day or longer, since cloth on the bias drops.",
            "Level the hem, since every height of the setting is measured from it.",
        ]
    };
    let mut steps = vec![format!(
        "Sew the seams that cross the band and press them open, since a seam sewn later would cut through {cut_through}."
    )];
    steps.extend(level.iter().map(|step| (*step).to_owned()));
    steps.extend(in_place(inputs, risks).filter(|_| pressed));
    steps.push(
        "Mark the places from the chalk list, from centre front both ways, since stepping from mark to mark drifts."
            .to_owned(),
    );
    steps.extend(cloth_pieces::made_ready(inputs));
    steps.extend(pressed.then(|| test(inputs).to_owned()));
    let away = if pressed { "since it must not lie under the plate" } else { "out of the way of the needle" };
    let folded = inputs.zones.iter().filter(|zone| zone.state == ZoneState::FoldedAway);
    steps.extend(folded.map(|zone| format!("Fold {} away and pin it, {away}.", zone.name)));
    for risk in risks.iter().filter(|risk| risk.outcome == Outcome::MoveFirst && risk.zone.is_some()) {
        steps.push(format!("Before any closure, see to {}. {}", risk.layer, risk.advice));
    }
    steps
}

/// What lies in place under the plate is sewn on before; what heat would spoil there has steps of its own.
fn in_place(inputs: &Inputs<'_>, risks: &[HeatRisk]) -> Option<String> {
    let spoilt = |name: &str| {
        let grave = risks.iter().filter(|risk| risk.outcome >= Outcome::MoveFirst);
        grave.filter_map(|risk| risk.zone.as_deref()).any(|zone| zone.contains(name))
    };
    let there = inputs.zones.iter().filter(|zone| zone.state == ZoneState::InPlace && !spoilt(&zone.name));
    let names: Vec<&str> = there.map(|zone| zone.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        let (are, lie) = if names.len() == 1 { ("is", "it lies") } else { ("are", "they lie") };
        format!("See that {} {are} sewn on, since {lie} in place under the plate by this plan.", names.join(" and "))
    })
}

/// What is tried before anything is pressed.
fn test(inputs: &Inputs<'_>) -> &'static str {
    if inputs.pieces.kinds.iter().any(|kind| kind.tests > 0) {
        return "Press the test card on scraps of the same stack, let it cool, peel, wash it once and look at it, since nothing else \
                tells how this cloth takes this heat.";
    }
    "Press an off-cut of each film, or the swatches of the test card, on scraps of the same stack, let it cool, peel, wash it once \
     and look at it, since nothing else tells how this cloth takes this heat; the job cuts no motif to test."
}

/// The steps at the press.
fn pressing(laid_out: &LaidOut) -> Vec<String> {
    let Some(first) = laid_out.closures.first() else { return Vec::new() };
    let mut steps = Vec::new();
    if first.parts.pre_press.get() > 0.0 {
        steps.push(format!(
            "Pre-press every place for {} just before its first layer, to drive out moisture.",
            first.parts.pre_press
        ));
    }
    let closings: Vec<(&Closure, &Round)> = laid_out.closures.iter().zip(&laid_out.rounds).collect();
    let same = |a: &(&Closure, &Round), b: &(&Closure, &Round)| {
        let second = |closure: &Closure| closure.kind == PressKind::Second;
        a.0.layer == b.0.layer && second(a.0) == second(b.0) && a.0.temperature.total_cmp(&b.0.temperature).is_eq()
    };
    steps.extend(closings.chunk_by(same).map(one_pass));
    steps
}

/// One pass over the garment with one setting of the dial.
fn one_pass(pass: &[(&Closure, &Round)]) -> String {
    let mut films: Vec<&str> = Vec::new();
    for class in pass.iter().flat_map(|(_, round)| &round.classes) {
        if !films.contains(&class.name.as_str()) {
            films.push(&class.name);
        }
    }
    let kind = |kind| pass.iter().find(|(closure, _)| closure.kind == kind).map(|(closure, _)| closure.parts.dwell);
    let how = match (kind(PressKind::Tack), kind(PressKind::Full), kind(PressKind::Second)) {
        (_, _, Some(time)) => format!("{time} under cover after peeling, as this class of film asks"),
        (Some(tack), Some(full), _) => format!("{tack} where another layer follows, {full} where none does"),
        (Some(tack), None, _) => format!("{tack} only, a tack, since the next layer is pressed on top"),
        (None, full, _) => format!("{}, the full time", full.unwrap_or_default()),
    };
    let peel = pass.iter().flat_map(|(_, round)| &round.classes).map(|class| class.peel.when).next();
    let numbers: Vec<u32> = pass.iter().map(|(closure, _)| closure.number).collect();
    format!(
        "Round {}: {} of {} at {}, {how}; opposite quarters by turns so that a place cools before its neighbour is pressed; {}. \
         Film: {}.",
        pass[0].0.layer,
        match numbers.as_slice() {
            [one] => format!("closure {one}"),
            several => format!("{} closures ({})", several.len(), numbers_in_words(several)),
        },
        films.join(" and "),
        pass[0].0.temperature,
        peel.unwrap_or(PeelWhen::ByTheSheet).words(),
        films_in_words(pass.iter().flat_map(|(closure, _)| &closure.films), str::to_owned)
    )
}

/// Rank in the order of sewing after pressing; what goes on first has the lowest. Interfacing goes on with its facing.
fn rank(layer: &Layer) -> u8 {
    match layer.material.kind {
        MaterialKind::Trim if is_braid(layer) => 1,
        MaterialKind::Interfacing | MaterialKind::Web | MaterialKind::Structure | MaterialKind::Cloth => 2,
        MaterialKind::Trim | MaterialKind::Thread => 3,
        MaterialKind::Hardware => 4,
        MaterialKind::Decoration => 5,
    }
}

fn is_braid(layer: &Layer) -> bool {
    layer.material.key.starts_with("braid")
}

/// What is sewn on after pressing, in order, and the limit that holds from then on.
fn sewn_on_later(laid_out: &LaidOut) -> Vec<String> {
    let later = || laid_out.layers.iter().filter(|layer| layer.state() == ZoneState::SewnOnLater);
    let Some(lowest) = later().map(Layer::limit).reduce(Celsius::min) else { return Vec::new() };
    let mut zones: Vec<Vec<&Layer>> = Vec::new();
    for layer in later() {
        match zones.iter_mut().find(|zone| zone[0].zone == layer.zone) {
            Some(zone) => zone.push(layer),
            None => zones.push(vec![layer]),
        }
    }
    zones.sort_by_key(|zone| zone.iter().map(|layer| rank(layer)).max());
    let mut steps: Vec<String> = zones.iter().map(|zone| sewing(laid_out, zone)).collect();
    steps.push(format!(
        "Write beside the care label that the finished hem stands no more than {lowest}, since its weakest part rules."
    ));
    steps
}

/// Sewing one thing on, all of its materials together.
fn sewing(laid_out: &LaidOut, zone: &[&Layer]) -> String {
    let name = zone[0].zone.as_ref().map_or(zone[0].name.as_str(), |zone| zone.name.as_str());
    let steam = if zone.iter().any(|layer| layer.material.steam == Steam::Never) { ", without steam" } else { "" };
    let sewn = zone.iter().any(|layer| layer.material.kind != MaterialKind::Decoration);
    let crossing = if sewn && crosses_motifs(laid_out, zone[0]) {
        "; its upper edge lies behind the motifs, so catch it by hand to seams and gaps, not through the film"
    } else {
        ""
    };
    let put_on = if sewn { "Sew on" } else { "Put on" };
    match zone.iter().map(|layer| layer.ceiling).collect::<Option<Vec<_>>>() {
        Some(limits) => {
            let limit = limits.into_iter().fold(zone[0].limit(), Celsius::min);
            format!("{put_on} {name}{crossing}; from now on press there at most at {limit}{steam}.")
        }
        None => format!("Put on {name}{crossing}; from now on keep iron and press away from it."),
    }
}

/// Whether the upper edge of a layer runs behind some motif.
fn crosses_motifs(laid_out: &LaidOut, layer: &Layer) -> bool {
    let Some(upper) = layer.zone.as_ref().map(|zone| zone.heights.1.get()) else { return false };
    laid_out.spots.iter().any(|spot| {
        let frame = laid_out.ground.frame(spot.s);
        let heights = spot.hull.iter().map(|point| (*point - frame.at).dot(frame.up()));
        let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), h| (a.min(h), b.max(h)));
        low < upper && upper < high
    })
}

/// States that cannot be as the job says.
pub(in crate::press) fn contradictions(laid_out: &LaidOut, risks: &mut Risks) {
    let press = laid_out.hottest();
    for layer in &laid_out.layers {
        match layer.state() {
            ZoneState::FoldedAway if is_part_of_the_band(laid_out, layer) => {
                risks.out_of_order(Condition::OrderCannotFold, layer, "", press);
            }
            ZoneState::SewnOnLater => {
                if let Some(other) = shut_in_by(laid_out, layer) {
                    risks.out_of_order(Condition::OrderShutIn, layer, &other.name, press);
                }
                if let Some(film) = film_in_the_way(laid_out, layer) {
                    risks.out_of_order(Condition::OrderHeatLater, layer, film, press);
                }
            }
            ZoneState::FoldedAway | ZoneState::InPlace => {}
        }
    }
}

/// Seams, their thread, film, and interfacing fused to the cloth by itself cannot be folded away; as part of a facing it can.
fn is_part_of_the_band(laid_out: &LaidOut, layer: &Layer) -> bool {
    let same_zone = |other: &&Layer| other.zone == layer.zone;
    let facing = laid_out.layers.iter().filter(same_zone).any(|other| other.material.kind == MaterialKind::Cloth);
    let fused = layer.material.kind == MaterialKind::Interfacing && matches!(layer.material.limit, Limit::MeltsFrom(_));
    let part = layer.material.key == SEAM
        || layer.material.kind == MaterialKind::Thread
        || layer.material.is(Trait::PressedFilm);
    part || (fused && !facing)
}

/// Cloth already sewn over the place of braid or interfacing that is to come later.
fn shut_in_by<'a>(laid_out: &'a LaidOut, layer: &Layer) -> Option<&'a Layer> {
    let comes_under = matches!(layer.material.kind, MaterialKind::Interfacing | MaterialKind::Web) || is_braid(layer);
    let zone = layer.zone.as_ref().filter(|_| comes_under)?;
    laid_out.layers.iter().find(|other| {
        let there = other.state() != ZoneState::SewnOnLater && other.material.kind == MaterialKind::Cloth;
        other.zone.as_ref().is_some_and(|cover| there && zone.overlaps(cover, laid_out.ground.length()))
    })
}

/// A film that is not pressed again, where a layer to come needs heat to hold.
fn film_in_the_way(laid_out: &LaidOut, layer: &Layer) -> Option<&'static str> {
    let Limit::MeltsFrom(melts) = layer.material.limit else {
        return layer.material.is(Trait::SetStones).then(|| never_again(laid_out)).flatten();
    };
    let bonds = layer.material.facts.iter().find(|fact| fact.what.starts_with("bonds")).map_or(melts, |fact| fact.c[0]);
    let too_cool = || {
        let classes = laid_out.spots.iter().flat_map(|spot| &spot.laid).map(|laid| laid.class);
        classes.into_iter().find(|class| class.temperatures().1 < Celsius::new(bonds)).map(|class| class.name.as_str())
    };
    never_again(laid_out).or_else(too_cool)
}

fn never_again(laid_out: &LaidOut) -> Option<&'static str> {
    let mut classes = laid_out.spots.iter().flat_map(|spot| &spot.laid).map(|laid| laid.class);
    classes.find(|class| class.repress.is == RepressIs::Never).map(|class| class.name.as_str())
}
