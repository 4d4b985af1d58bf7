//! Clear gaps: the shortest distance between the true outlines of two motifs, and where it is.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::geometry::clearance::{Clearance, Measurable};
use crate::geometry::{Affine, Outline};
use crate::place::Hand;

/// Motifs are measured once where they stand to each other alike: the same turn to a ten-thousand-millionth (so that a motif
/// a metre across is out by no more than rounding), the same distances to a tenth of a nanometre.
const ALIKE: [f64; 6] = [1e10, 1e10, 1e10, 1e10, 1e7, 1e7];

/// A motif in one hand and size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::place) struct Kind {
    /// Which of the motifs measured.
    pub(in crate::place) motif: usize,
    pub(in crate::place) hand: Hand,
    pub(in crate::place) scale: f64,
}

/// A motif where it stands in the flat development.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::place) struct Standing {
    pub(in crate::place) kind: Kind,
    /// Turn and place, without hand and size.
    pub(in crate::place) place: Affine,
}

/// The tightest place between two neighbours of a row.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Between {
    pub(in crate::place) clear: Clearance,
    /// Their places in the row.
    pub(in crate::place) pair: (usize, usize),
}

/// A kind as a key.
type KindKey = (usize, Hand, u64);

/// Two kinds and how the second stands to the first, in whole steps of [`ALIKE`].
type PairKey = (KindKey, KindKey, [i64; 6]);

/// Measures motifs; remembers what it measured.
#[derive(Debug)]
pub(in crate::place) struct Measure<'a> {
    motifs: Vec<&'a Motif>,
    shapes: BTreeMap<KindKey, Option<Measurable>>,
    known: BTreeMap<PairKey, Option<Clearance>>,
}

impl Kind {
    fn key(self) -> KindKey {
        (self.motif, self.hand, self.scale.to_bits())
    }
}

impl<'a> Measure<'a> {
    pub(in crate::place) const fn new(motifs: Vec<&'a Motif>) -> Self {
        Self { motifs, shapes: BTreeMap::new(), known: BTreeMap::new() }
    }

    /// The tightest place between two motifs; `None` where one has no outline.
    pub(in crate::place) fn between(&mut self, a: Standing, b: Standing) -> Option<Clearance> {
        let apart = a.place.inverse() * b.place;
        #[expect(clippy::cast_possible_truncation, reason = "places lie within kilometres: far inside 64 bits")]
        let steps = std::array::from_fn(|k| (apart.as_coeffs()[k] * ALIKE[k]).round() as i64);
        let key = (a.kind.key(), b.kind.key(), steps);
        if !self.known.contains_key(&key) {
            let found = self.measure(a.kind, b.kind, apart);
            self.known.insert(key, found);
        }
        let found = self.known.get(&key).copied().flatten()?;
        Some(Clearance { distance: found.distance, from: a.place * found.from, to: a.place * found.to })
    }

    fn measure(&mut self, a: Kind, b: Kind, apart: Affine) -> Option<Clearance> {
        self.prepare(a);
        self.prepare(b);
        let from = self.shapes.get(&a.key())?.as_ref()?;
        let to = self.shapes.get(&b.key())?.as_ref()?;
        Some(from.clearance_to_moved(to, apart))
    }

    /// The outer outline of a kind in its own millimetres. Holes face no neighbour.
    fn prepare(&mut self, kind: Kind) {
        let motif = self.motifs[kind.motif];
        self.shapes.entry(kind.key()).or_insert_with(|| {
            let across = if kind.hand == Hand::Mirrored { -kind.scale } else { kind.scale };
            let size = Affine::scale_non_uniform(across, kind.scale);
            let outlines: Vec<Outline> = motif
                .layers
                .iter()
                .flat_map(|layer| &layer.outlines)
                .map(|outline| Outline::new(outline.outer().transformed(size), Vec::new()))
                .collect();
            Measurable::new(&outlines)
        });
    }
}
