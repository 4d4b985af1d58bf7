//! Pairs of garments that mirror each other: two sleeves, two fronts.

use std::collections::{BTreeMap, BTreeSet};

use crate::art::Motif;
use crate::geometry::Point;
use crate::hem::exchanged;
use crate::place::{BandSetting, Clash, ClearGap, Hand, Placement, Setting};
use crate::quantity::Radians;

/// How many of the garment are made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Garments {
    /// One.
    #[default]
    One,
    /// Two, the second the mirror image of the first.
    MirroredPair,
}

impl Garments {
    /// How many.
    #[must_use]
    pub const fn count(self) -> u32 {
        match self {
            Self::One => 1,
            Self::MirroredPair => 2,
        }
    }

    /// Whom a figure is for that counts all of them: `for one`, `for both`.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::One => "for one",
            Self::MirroredPair => "for both",
        }
    }
}

/// The motifs of a garment and of its mirror image together: what must be cut for a pair.
#[must_use]
pub fn with_mirror_image(setting: &Setting, motifs: &BTreeMap<String, Motif>) -> Setting {
    let image = mirror_image(setting, motifs);
    Setting { bands: setting.bands.iter().cloned().chain(image.bands).collect(), findings: setting.findings.clone() }
}

/// The setting of the other one of a pair: left and right exchanged, and every motif that has a hand in its other one.
#[must_use]
pub fn mirror_image(setting: &Setting, motifs: &BTreeMap<String, Motif>) -> Setting {
    let without_hand = own_mirror_images(setting, motifs);
    let band = |one| band(one, &without_hand);
    Setting { bands: setting.bands.iter().map(band).collect(), findings: setting.findings.clone() }
}

/// Names of the motifs placed that are their own mirror images: they have no hand.
#[must_use]
pub fn own_mirror_images<'s>(setting: &'s Setting, motifs: &BTreeMap<String, Motif>) -> BTreeSet<&'s str> {
    let placed = setting.bands.iter().flat_map(|band| &band.placements);
    let mut names: BTreeSet<&str> = placed.map(|placed| placed.motif.as_str()).collect();
    names.retain(|name| motifs.get(*name).is_some_and(Motif::is_own_mirror_image));
    names
}

fn band(band: &BandSetting, without_hand: &BTreeSet<&str>) -> BandSetting {
    let corners = band.placements.iter().filter(|placed| corner(&placed.id).is_some()).count();
    let id = |id: &str| mirrored_id(id, corners);
    let mut placements: Vec<Placement> = band
        .placements
        .iter()
        .rev()
        .map(|placed| Placement {
            id: id(&placed.id),
            hand: match placed.hand {
                Hand::AsDrawn if !without_hand.contains(placed.motif.as_str()) => Hand::Mirrored,
                Hand::AsDrawn | Hand::Mirrored => Hand::AsDrawn,
            },
            s_line: -placed.s_line,
            s_hem: -placed.s_hem,
            at: across(placed.at),
            turn: Radians::new(-placed.turn.get()),
            ..placed.clone()
        })
        .collect();
    // A motif on CB lies at the greatest s on either hand, half the line away from CF.
    let half = band.line / 2.0;
    if placements.first().is_some_and(|first| (first.s_line + half).abs().get() < crate::place::along::row::ON_PLACE) {
        let mut first = placements.remove(0);
        (first.s_line, first.s_hem) = (-first.s_line, -first.s_hem);
        first.at = across(first.at);
        first.turn = Radians::new(-first.turn.get());
        placements.push(first);
    }
    BandSetting {
        placements,
        clear_gap: band.clear_gap.as_ref().map(|gap| ClearGap {
            least: gap.least,
            between: (id(&gap.between.1), id(&gap.between.0)),
            at: (across(gap.at.1), across(gap.at.0)),
        }),
        clashes: band
            .clashes
            .iter()
            .map(|clash| Clash { placement: id(&clash.placement), with: exchanged(&clash.with), ..clash.clone() })
            .collect(),
        ..band.clone()
    }
}

fn across(point: Point) -> Point {
    Point::new(-point.x, point.y)
}

/// `L3` for `R3`, `upper-R3` for `upper-L3`; corners are counted the other way round.
fn mirrored_id(id: &str, corners: usize) -> String {
    let (prefix, own) = id.rfind('-').map_or(("", id), |at| id.split_at(at + 1));
    let own = match (own.split_at_checked(1), corner(id)) {
        (_, Some(number)) if number <= corners => format!("C{}", corners + 1 - number),
        (Some(("L", number)), _) if is_number(number) => format!("R{number}"),
        (Some(("R", number)), _) if is_number(number) => format!("L{number}"),
        _ => own.to_owned(),
    };
    format!("{prefix}{own}")
}

/// The number of a placement in a corner.
fn corner(id: &str) -> Option<usize> {
    let own = id.rsplit('-').next()?;
    own.strip_prefix('C').filter(|number| is_number(number)).and_then(|number| number.parse().ok())
}

fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chalk_numbers_change_sides() {
        for (id, image) in
            [("L3", "R3"), ("R12", "L12"), ("CF", "CF"), ("CB", "CB"), ("left-L1", "left-R1"), ("C1", "C4")]
        {
            assert_eq!(mirrored_id(id, 4), image);
            assert_eq!(mirrored_id(image, 4), id);
        }
    }
}
