//! The order of work for one job, one sentence a step with its reason.

use super::closures::LaidOut;
use super::{HeatRisk, Inputs, Outcome, ZoneState};
use crate::data::{PeelWhen, Steam};

/// Sentences in working order.
pub(super) fn order_of_work(inputs: &Inputs<'_>, laid_out: &LaidOut, risks: &[HeatRisk]) -> Vec<String> {
    let mut steps = vec![
        "Sew the seams that cross the band and press them open, since film over a loose seam tears.".to_owned(),
        "Hang the garment for a day, since cloth on the bias drops.".to_owned(),
        "Level the hem, since every height of the setting is measured from it.".to_owned(),
        "Mark the places from the chalk list, from centre front both ways, since stepping from mark to mark drifts."
            .to_owned(),
        "Press the test card on scraps of the same stack, let it cool, peel, wash it once and look at it.".to_owned(),
    ];
    for risk in risks.iter().filter(|risk| risk.outcome == Outcome::MoveFirst) {
        steps.push(format!("Before any closing, move {} away: {}", risk.layer, risk.advice));
    }
    steps.extend(pressing(laid_out));
    steps.push("Measure the hem and the marks again, since heat can shrink the band.".to_owned());
    for zone in inputs.zones.iter().filter(|zone| zone.state == ZoneState::FoldedAway) {
        steps.push(format!("Turn back and finish {}, which was folded away.", zone.name));
    }
    let mut later = false;
    for layer in laid_out.layers.iter().filter(|layer| layer.state() == ZoneState::SewnOnLater) {
        let steam = if layer.material.steam == Steam::Never { ", without steam" } else { "" };
        later = true;
        steps.push(match layer.ceiling {
            Some(limit) => {
                format!("Sew on {}; from now on press the hem at most at {limit}{steam}.", layer.name)
            }
            None => format!("Sew on {}; from now on keep the iron away from it.", layer.name),
        });
    }
    if later {
        steps.push("Write the new pressing limit beside the care label, since the weakest part now rules.".to_owned());
    }
    steps
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
    let layers = laid_out.closures.iter().map(|closure| closure.layer).max().unwrap_or(1);
    for layer in 1..=layers {
        let of_layer =
            || laid_out.closures.iter().zip(&laid_out.rounds).filter(move |(closure, _)| closure.layer == layer);
        let peel = of_layer().flat_map(|(_, round)| &round.classes).map(|class| class.peel.when).next();
        let word = if layer == layers { "full time" } else { "short tack" };
        steps.push(format!(
            "Round {layer}: {} closings, {word}, from opposite quarters by turns so that a place cools before its neighbour is \
             pressed; {}.",
            of_layer().count(),
            peel.unwrap_or(PeelWhen::ByTheSheet).words()
        ));
    }
    steps
}
