//! The right-hand one of a pair: the same plan with left and right exchanged.

use std::collections::BTreeMap;

use super::{Error, Plan, Shows, lines};
use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::place::{self, Hand, Setting};
use crate::press::{self, Zone};

/// The plan of the left-hand one, with that of the right-hand one.
pub(super) fn with_right_hand(plan: Plan) -> Result<Plan, Error> {
    let mut right = plan.clone();
    right.shows = Shows::RightOfPair;
    right.hem = plan.hem.mirror_image();
    right.setting = place::mirror_image(&plan.setting, &plan.motifs);
    right.job.zones = plan.job.zones.iter().map(mirrored).collect();
    let (press, mut risks) = press::plan(press::Inputs {
        motifs: &right.motifs,
        hem: &right.hem,
        setting: &right.setting,
        pieces: &right.pieces,
        films: &right.films,
        zones: &right.job.zones,
        setup: &right.job.press,
    })?;
    risks.sort_by_key(|risk| std::cmp::Reverse(risk.outcome));
    right.press = press;
    right.risks = risks.into_iter().map(|risk| lines::of_risk(risk, &plan.job)).collect();
    Ok(Plan { shows: Shows::LeftOfPair(Box::new(right)), ..plan })
}

fn mirrored(zone: &Zone) -> Zone {
    Zone { along: zone.along.map(|(from, to)| (-to, -from)), ..zone.clone() }
}

/// What a maker must know of a pair.
pub(super) fn told(setting: &Setting, motifs: &BTreeMap<String, Motif>) -> Finding {
    let hands = |setting: &Setting| {
        let all = || setting.bands.iter().flat_map(|band| &band.placements);
        let drawn = all().filter(|placed| placed.hand == Hand::AsDrawn).count();
        (drawn, all().count() - drawn)
    };
    let ((drawn, mirrored), (other_drawn, other_mirrored)) =
        (hands(setting), hands(&place::mirror_image(setting, motifs)));
    let names: Vec<&str> = place::own_mirror_images(setting, motifs).into_iter().collect();
    let without_hand = match names.as_slice() {
        [] => String::new(),
        [one] => format!(" (\"{one}\" is its own mirror image and needs no second hand)"),
        several => format!(" (\"{}\" are their own mirror images and need no second hand)", several.join("\", \"")),
    };
    Finding {
        severity: Severity::LookAtThis,
        kind: "pair",
        place: None,
        measure: None,
        say: format!(
            "A pair: the left-hand one has {drawn} motifs as drawn and {mirrored} mirrored; the right-hand one is its mirror image, \
             with {other_drawn} as drawn and {other_mirrored} mirrored{without_hand}. Pieces and sheets are for both; hem map, chalk \
             list, tick strip and press schedule stand in the papers once for each."
        ),
        advice: "Pin the papers of each to its own piece of cloth before you begin; the two are easily exchanged."
            .to_owned(),
    }
}
