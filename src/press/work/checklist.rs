//! The checklist for the press: what is ticked before, at and after every closing, and the usual cautions.

use crate::data::{Steam, Tool, tables};
use crate::press::plates::laying::LaidOut;
use crate::press::{HeatRisk, Inputs, Outcome, ZoneState};

/// Sentences to tick, in working order.
pub(in crate::press) fn checklist(inputs: &Inputs<'_>, laid_out: &LaidOut, risks: &[HeatRisk]) -> Vec<String> {
    if laid_out.closures.is_empty() {
        return NOTHING_PRESSED.map(str::to_owned).to_vec();
    }
    let mut list = vec![
        "The film maker's sheet and the care label come before every figure here.".to_owned(),
        "A test piece on the same cloth with the same film and trims was pressed, cooled, peeled and washed once."
            .to_owned(),
    ];
    list.extend(crate::press::test_card::tested(inputs.setup));
    for risk in risks.iter().filter(|risk| risk.outcome == Outcome::Stop) {
        list.push(format!("STOP. {} {}", risk.say, risk.advice));
    }
    list.extend(setting(laid_out));
    for zone in inputs.zones {
        match zone.state {
            ZoneState::InPlace => {}
            ZoneState::FoldedAway => {
                list.push(format!(
                    "Each closure: {} is folded away, felt with the hand, none under the plate.",
                    zone.name
                ));
            }
            ZoneState::SewnOnLater => list.push(format!("{} is not yet sewn on.", zone.name)),
        }
    }
    for risk in risks.iter().filter(|risk| risk.rules.contains(&"folded-under-overhang")) {
        list.push(format!(
            "Closures {}: the plate hangs over the hem edge; {} hangs down over the edge of the lower plate, or is pinned up.",
            numbers_in_words(&risk.closures),
            risk.layer
        ));
    }
    for risk in risks.iter().filter(|risk| risk.outcome == Outcome::MoveFirst) {
        list.push(format!("Moved out of the way before the press closes: {}.", risk.layer));
    }
    if tables().stack(&inputs.setup.cloth).iter().any(|material| material.steam != Steam::Allowed) {
        list.push("Dry heat only: no steam, no damp cloth; hands and table dry.".to_owned());
    }
    list.push(
        "Each closure: cover sheet on, motif straight on its mark, plate clear of seams and fastenings.".to_owned(),
    );
    if inputs.setup.tool == Tool::Iron {
        list.push(
            "A domestic iron presses less evenly and less hard: hold, do not slide, and turn it for the steam holes."
                .to_owned(),
        );
    }
    list.extend(CAUTIONS.map(str::to_owned));
    list
}

/// Numbers of closings as they are said: `1 to 4, 7, 9 to 11`.
#[must_use]
pub fn numbers_in_words(closures: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &number in closures {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    let told = runs.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first} to {last}"),
    });
    told.collect::<Vec<_>>().join(", ")
}

fn setting(laid_out: &LaidOut) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for (closure, round) in laid_out.closures.iter().zip(&laid_out.rounds) {
        let classes: Vec<&str> = round.classes.iter().map(|class| class.name.as_str()).collect();
        let pressure = round.classes.first().map_or("medium", |class| class.pressure.is.as_str());
        let line = format!(
            "Round {}: {} at {}, {} under the plate, {pressure} pressure.",
            closure.layer,
            classes.join(" and "),
            closure.temperature,
            closure.parts.dwell
        );
        if !told.contains(&line) {
            told.push(line);
        }
    }
    told
}

/// What is left to tick where all pieces are sewn down (source 103).
const NOTHING_PRESSED: [&str; 2] = [
    "Nothing is pressed onto this hem. Before a fold or the finished hem is ironed, the care label comes first.",
    "Blades capped, cutting away from the hand, old blades into a hard box.",
];

/// The usual cautions (sources 102, 103).
const CAUTIONS: [&str; 7] = [
    "The plate burns at a touch: gloves, tongs or tweezers, never peel a hot carrier with bare fingers; children and animals away.",
    "Window open. At any smell or smoke lift the plate and stop; never heat vinyl you do not know.",
    "Press on its own earthed socket, no light extension lead, cord away from the plate; switch it off when you leave.",
    "The dial is not the plate: check middle and corners with a thermometer strip before the first piece.",
    "Blades capped, cutting away from the hand, old blades into a hard box.",
    "Film and glue change how cloth burns: costumes for stage, children or open flame follow the venue's and the country's rules.",
    "Where a licence or a trained person is asked for, defer to it.",
];

#[cfg(test)]
mod tests {
    use super::numbers_in_words;

    #[test]
    fn runs_of_numbers_are_told_short() {
        assert_eq!(numbers_in_words(&[1, 2, 3, 4, 7, 9, 10]), "1 to 4, 7, 9, 10");
        assert_eq!(numbers_in_words(&[]), "");
    }
}
