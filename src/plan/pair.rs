//! The right-hand one of a pair: the same plan with left and right exchanged.

use std::collections::BTreeMap;

use super::{Error, Plan, Shows, lines};
use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::hem::Hem;
use crate::place::{self, Hand, Setting};
use crate::press::{self, HeatRisk, PressPlan, Zone};

/// What the right-hand one has of its own.
pub(super) struct RightHand {
    hem: Hem,
    setting: Setting,
    zones: Vec<Zone>,
    pub(super) press: PressPlan,
    risks: Vec<HeatRisk>,
}

impl RightHand {
    /// The mirror image of the left-hand one, with its own pressing.
    pub(super) fn pressed(left: press::Inputs<'_>) -> Result<Self, Error> {
        let (hem, setting) = (left.hem.mirror_image(), place::mirror_image(left.setting, left.motifs));
        let zones: Vec<Zone> = left.zones.iter().map(mirrored).collect();
        let (press, mut risks) = press::plan(press::Inputs { hem: &hem, setting: &setting, zones: &zones, ..left })?;
        risks.sort_by_key(|risk| std::cmp::Reverse(risk.outcome));
        Ok(Self { hem, setting, zones, press, risks })
    }

    /// The plan of the left-hand one, with that of this one.
    pub(super) fn beside(self, left: Plan) -> Plan {
        let Self { hem, setting, zones, press, risks } = self;
        let risks = risks.into_iter().map(|risk| lines::of_risk(risk, &left.job)).collect();
        let mut right = Plan { shows: Shows::RightOfPair, hem, setting, press, risks, ..left.clone() };
        right.job.zones = zones;
        Plan { shows: Shows::LeftOfPair(Box::new(right)), ..left }
    }
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
             with {other_drawn} as drawn and {other_mirrored} mirrored{without_hand}. Pieces, sheets, trims, times \
             and what to buy are for both; hem map, chalk list, tick strip and press schedule stand in the papers once for each."
        ),
        advice: "Pin the papers of each to its own piece of cloth before you begin; the two are easily exchanged."
            .to_owned(),
    }
}
