//! Closures in working order: films that want most heat first; of these the first layer all round, then the next; opposite
//! quarters by turns.
//!
//! Going round layer by layer lets each place cool to peel while the others are pressed. The topmost layer of every motif is
//! laid in the last round and gets the full press, so that a motif with fewer layers is heated less often than its neighbour
//! with more.

use crate::data::FilmClass;
use crate::press::limits::heat::{Heat, Pressed, heat};
use crate::press::plates::positions::Spread;
use crate::press::plates::spots::Spot;
use crate::press::{Parts, PressKind, Setup};
use crate::quantity::Seconds;

/// One closure to be numbered.
#[derive(Clone, Debug)]
pub(in crate::press) struct Round {
    /// Index of the plate position.
    pub(in crate::press) place: usize,
    /// Which round, from 1.
    pub(in crate::press) layer: u32,
    /// Why the plate is closed.
    pub(in crate::press) kind: PressKind,
    /// Indices of the spots that get a layer in this round; all under the plate for a second press.
    pub(in crate::press) spots: Vec<usize>,
    /// What is laid on each of them: an index into the spot's pressed layers; at a second press its topmost.
    pub(in crate::press) laid: Vec<usize>,
    /// Classes laid in this round, lowest first.
    pub(in crate::press) classes: Vec<&'static FilmClass>,
    /// Temperature and times.
    pub(in crate::press) heat: Heat,
    /// Where the seconds go.
    pub(in crate::press) parts: Parts,
}

/// Which layer of a spot is laid in a round: its last layer goes down in the last round of its place.
pub(in crate::press) fn layer_in_round(spot: &Spot, round: usize, rounds: usize) -> Option<usize> {
    (round + spot.laid.len()).checked_sub(rounds)
}

/// All closures in working order; `groups` gives for each heat group, hottest first, its plate positions.
pub(in crate::press) fn rounds(groups: &[Vec<usize>], spreads: &[Spread], spots: &[Spot], setup: &Setup) -> Vec<Round> {
    let sole = distinct(spots.iter().flat_map(|spot| &spot.laid).map(|laid| laid.class)).len() < 2;
    let table = Table { spreads, spots, setup, sole };
    groups.iter().flat_map(|places| table.rounds_of(places)).collect()
}

/// What closures are made from.
#[derive(Clone, Copy)]
struct Table<'a> {
    spreads: &'a [Spread],
    spots: &'a [Spot],
    setup: &'a Setup,
    /// Whether the whole job presses only one class.
    sole: bool,
}

impl Table<'_> {
    /// The closures of one heat group.
    fn rounds_of(&self, places: &[usize]) -> Vec<Round> {
        // The parts of one motif are pressed one after the other: the iron is only lifted to the next.
        let whole: Vec<&[usize]> = places.chunk_by(|a, b| self.same_motif(*a, *b)).collect();
        let order: Vec<usize> = by_opposite_quarters(whole.len()).into_iter().flat_map(|k| whole[k]).copied().collect();
        let most = order.iter().map(|place| self.deepest(*place)).max().unwrap_or(0);
        let layered = (0..most).flat_map(|round| {
            let places = order.iter().filter(|place| round < self.deepest(**place));
            let mut laid: Vec<Round> = places.filter_map(|place| self.lay(*place, round)).collect();
            // The dial is set once for all places of a round that want the same heat, hottest first.
            laid.sort_by(|a, b| b.heat.temperature.total_cmp(&a.heat.temperature));
            laid
        });
        let mut done: Vec<Round> = layered.collect();
        done.extend(order.iter().filter_map(|place| self.second(*place)));
        done
    }

    /// Whether two places are parts of one motif.
    fn same_motif(&self, a: usize, b: usize) -> bool {
        let (a, b) = (&self.spreads[a], &self.spreads[b]);
        a.part.is_some() && b.part.is_some() && a.members.first().map(|m| m.spot) == b.members.first().map(|m| m.spot)
    }

    /// Positioning and covering, once for all parts of a motif.
    fn handling(&self, place: usize) -> Seconds {
        let first = self.spreads[place].part.is_none_or(|part| part.number == 1);
        if first { self.setup.handling } else { Seconds::ZERO }
    }

    /// Most layers of any motif at a place.
    fn deepest(&self, place: usize) -> usize {
        self.spreads[place].members.iter().map(|m| self.spots[m.spot].laid.len()).max().unwrap_or(0)
    }

    /// The closure that lays one layer.
    fn lay(&self, place: usize, round: usize) -> Option<Round> {
        let rounds = self.deepest(place);
        let laid: Vec<(usize, usize)> = self.spreads[place]
            .members
            .iter()
            .filter_map(|m| {
                let spot = &self.spots[m.spot];
                let layer = layer_in_round(spot, round, rounds)?;
                (layer < spot.laid.len()).then_some((m.spot, layer))
            })
            .collect();
        let classes = distinct(laid.iter().map(|(spot, layer)| self.spots[*spot].laid[*layer].class));
        let peeled = self.spreads[place].part.is_none_or(|part| part.number == part.of);
        let peel = classes.iter().filter(|_| peeled).map(|class| class.peel.wait_s).fold(0.0, f64::max);
        let heat = self.heat(&classes, place);
        let kind = if round + 1 == rounds { PressKind::Full } else { PressKind::Tack };
        let parts = Parts {
            pre_press: if round == 0 { self.setup.pre_press } else { Seconds::ZERO },
            dwell: if kind == PressKind::Full { heat.full } else { heat.tack },
            peel_wait: Seconds::new(peel),
            handling: self.handling(place),
        };
        let (spots, layers) = laid.iter().copied().unzip();
        let layer = u32::try_from(round + 1).unwrap_or(u32::MAX);
        (!laid.is_empty()).then_some(Round { place, layer, kind, spots, laid: layers, classes, heat, parts })
    }

    /// The second press after peeling that a class asks for.
    fn second(&self, place: usize) -> Option<Round> {
        let members = &self.spreads[place].members;
        let tops = members.iter().filter_map(|m| self.spots[m.spot].laid.last().map(|laid| laid.class));
        let classes = distinct(tops);
        let finish = classes.iter().map(|class| class.repress.finish_s).fold(0.0, f64::max);
        let heat = self.heat(&classes, place);
        let parts = Parts { dwell: Seconds::new(finish), handling: self.handling(place), ..Parts::default() };
        (finish > 0.0).then(|| Round {
            place,
            layer: u32::try_from(self.deepest(place)).unwrap_or(u32::MAX),
            kind: PressKind::Second,
            spots: members.iter().map(|m| m.spot).collect(),
            laid: members.iter().map(|m| self.spots[m.spot].laid.len().saturating_sub(1)).collect(),
            classes,
            heat,
            parts,
        })
    }

    fn heat(&self, classes: &[&'static FilmClass], place: usize) -> Heat {
        let stack = stack(&self.spreads[place], self.spots);
        heat(Pressed { classes, stack: &stack, sole: self.sole }, self.setup)
    }
}

/// Every class that ends up under the plate at a place.
fn stack(spread: &Spread, spots: &[Spot]) -> Vec<&'static FilmClass> {
    distinct(spread.members.iter().flat_map(|m| &spots[m.spot].laid).map(|laid| laid.class))
}

/// Classes without repeats, in order of the table so that the same job gives the same order.
fn distinct(classes: impl Iterator<Item = &'static FilmClass>) -> Vec<&'static FilmClass> {
    let mut found: Vec<&'static FilmClass> = Vec::new();
    for class in classes {
        if found.iter().all(|known| known.key != class.key) {
            found.push(class);
        }
    }
    found.sort_by(|a, b| a.key.cmp(&b.key));
    found
}

/// Places 0 to n - 1 round the hem, taken from opposite quarters by turns, so that a place cools before its neighbour is
/// pressed.
pub(in crate::press) fn by_opposite_quarters(n: usize) -> Vec<usize> {
    // Quarters in the order they are visited; places left over go to those visited first, so that the last round, which
    // visits only some, begins far from where the one before it ended.
    let visited = [0, 2, 1, 3];
    let size = |quarter: usize| n / 4 + usize::from(visited.iter().take(n % 4).any(|with_more| *with_more == quarter));
    let start = |quarter: usize| (0..quarter).map(size).sum::<usize>();
    let step = |step: usize| visited.into_iter().filter(move |q| step < size(*q)).map(move |q| start(q) + step);
    (0..n.div_ceil(4)).flat_map(step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn opposite_quarters_are_pressed_by_turns_and_none_is_forgotten() {
        for n in 0..40 {
            let mut order = by_opposite_quarters(n);
            if n >= 8 {
                let apart = |a: usize, b: usize| a.abs_diff(b).min(n - a.abs_diff(b));
                assert!(order.windows(2).all(|pair| apart(pair[0], pair[1]) > 1), "{n}: {order:?}");
            }
            order.sort_unstable();
            assert_eq!(order, (0..n).collect::<Vec<_>>());
        }
    }
}
