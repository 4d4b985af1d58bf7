//! Motifs that can share a closing: those whose films, round by round, have a temperature in common, and for the full press
//! a time.
//!
//! A plate has one temperature at a time, and is closed on all of them equally long. Two motifs go under it together only
//! when, in every round, the classes laid on both share a part of their windows; others get places of their own, so that
//! every film is pressed within its window. The times of the lower layers need not agree: they are only tacked.

use super::spots::Spot;
use crate::data::FilmClass;
use crate::press::limits::heat::{common, times_in_common};
use crate::quantity::Celsius;

/// Spots that can be pressed together.
#[derive(Clone, Debug)]
pub(in crate::press) struct HeatGroup {
    /// Indices of the spots, in order.
    pub(in crate::press) spots: Vec<usize>,
    /// For each round counted back from the last, every class laid in it.
    rounds: Vec<Vec<&'static FilmClass>>,
}

/// Pressed spots in groups, hottest first, so that no finished film is heated above its window by a hotter neighbour's
/// plate afterwards if it can be helped. Spots of the same films always share a group.
pub(in crate::press) fn heat_groups(spots: &[Spot]) -> Vec<HeatGroup> {
    let mut groups: Vec<HeatGroup> = Vec::new();
    for (index, spot) in spots.iter().enumerate().filter(|(_, spot)| !spot.laid.is_empty()) {
        let own: Vec<&'static FilmClass> = spot.laid.iter().rev().map(|laid| laid.class).collect();
        match groups.iter_mut().find(|group| group.takes(&own)) {
            Some(group) => group.add(index, &own),
            None => {
                groups.push(HeatGroup { spots: vec![index], rounds: own.iter().map(|class| vec![*class]).collect() });
            }
        }
    }
    groups.sort_by(|a, b| b.hottest().total_cmp(&a.hottest()).then(a.spots.cmp(&b.spots)));
    groups
}

/// Whether no motif of one group could be pressed with any of another: then the groups' fewest places add up.
pub(in crate::press) fn all_apart(groups: &[HeatGroup]) -> bool {
    let apart = |a: &HeatGroup, b: &HeatGroup| {
        let mut rounds = a.rounds.iter().zip(&b.rounds).enumerate();
        rounds.any(|(back, (a, b))| a.iter().all(|one| b.iter().all(|other| !share(back, &[*one, *other]))))
    };
    groups.iter().enumerate().all(|(k, a)| groups[k + 1..].iter().all(|b| apart(a, b)))
}

/// Whether classes can be laid in one closing, `back` rounds before the last.
fn share(back: usize, classes: &[&FilmClass]) -> bool {
    let (low, high) = common(classes);
    low <= high && (back > 0 || times_in_common(classes).is_some())
}

impl HeatGroup {
    fn takes(&self, own: &[&'static FilmClass]) -> bool {
        self.rounds.iter().zip(own).enumerate().all(|(back, (round, class))| {
            let mut all = round.clone();
            all.push(class);
            share(back, &all)
        })
    }

    fn add(&mut self, spot: usize, own: &[&'static FilmClass]) {
        self.spots.push(spot);
        for (back, class) in own.iter().enumerate() {
            match self.rounds.get_mut(back) {
                Some(round) if round.iter().all(|known| known.key != class.key) => round.push(class),
                Some(_) => {}
                None => self.rounds.push(vec![*class]),
            }
        }
    }

    fn hottest(&self) -> Celsius {
        let lows = self.rounds.iter().flatten().map(|class| class.temperatures().0);
        lows.fold(Celsius::new(0.0), Celsius::max)
    }
}
