//! Clear gaps: the shortest distance between the true outlines of neighbours, and where it is.
//!
//! Neighbours are measured as they stand to each other on the garment, also across the join of the development.

use std::collections::BTreeMap;

use super::{ClearGap, Hand, Placement};
use crate::art::Motif;
use crate::geometry::clearance::{Clearance, Measurable};
use crate::geometry::{Affine, Outline};
use crate::hem::MotifLine;
use crate::quantity::Mm;

/// Neighbours that stand to each other alike to this step (millimetres and radians times ten million) are measured once.
const ALIKE: f64 = 1e7;

/// A motif in one hand and size, by index into the band's motifs; the size as bits, so that it can be a key.
type Kind = (usize, Hand, u64);

/// Two kinds and how the second stands to the first, in whole steps of [`ALIKE`].
type Pair = (Kind, Kind, [i64; 6]);

/// Measures neighbours of one band.
pub(super) struct Measure<'a> {
    motifs: &'a [&'a Motif],
    shapes: BTreeMap<Kind, Option<(Vec<Outline>, Measurable)>>,
    known: BTreeMap<Pair, Option<Clearance>>,
}

impl<'a> Measure<'a> {
    pub(super) const fn new(motifs: &'a [&'a Motif]) -> Self {
        Self { motifs, shapes: BTreeMap::new(), known: BTreeMap::new() }
    }

    /// The tightest gap between neighbours along the line; the last and the first are neighbours on a closed line.
    pub(super) fn tightest(&mut self, line: &MotifLine, placed: &[(usize, &Placement)]) -> Option<ClearGap> {
        let round = if line.is_closed() { line.length() } else { Mm::ZERO };
        let closing = line.is_closed().then(|| (placed.len().checked_sub(1), 0));
        let neighbours = (1..placed.len()).map(|k| (k - 1, k, Mm::ZERO));
        let closing = closing.and_then(|(last, first)| last.map(|last| (last, first, round)));
        neighbours
            .chain(closing)
            .filter_map(|(a, b, turn)| self.between(line, placed[a], placed[b], turn))
            .min_by(|a, b| a.least.total_cmp(&b.least))
    }

    fn between(
        &mut self,
        line: &MotifLine,
        (a_motif, a): (usize, &Placement),
        (b_motif, b): (usize, &Placement),
        further: Mm,
    ) -> Option<ClearGap> {
        let a_place = rigid(a);
        let b_place = if further > Mm::ZERO { line.once_round(rigid(b)) } else { rigid(b) };
        let apart = a_place.inverse() * b_place;
        #[expect(clippy::cast_possible_truncation, reason = "places lie within kilometres: far inside 64 bits")]
        let key = apart.as_coeffs().map(|c| (c * ALIKE).round() as i64);
        let kinds = ((a_motif, a.hand, a.scale.to_bits()), (b_motif, b.hand, b.scale.to_bits()));
        let pair = (kinds.0, kinds.1, key);
        if !self.known.contains_key(&pair) {
            let found = self.measure(kinds, apart);
            self.known.insert(pair, found);
        }
        let found = self.known.get(&pair).copied().flatten()?;
        Some(ClearGap {
            least: Mm::new(found.distance),
            between: (a.id.clone(), b.id.clone()),
            at: (a_place * found.from, a_place * found.to),
        })
    }

    fn measure(&mut self, (a, b): (Kind, Kind), apart: Affine) -> Option<Clearance> {
        self.prepare(a);
        self.prepare(b);
        let (_, from) = self.shapes.get(&a)?.as_ref()?;
        let (outlines, _) = self.shapes.get(&b)?.as_ref()?;
        let moved: Vec<Outline> = outlines.iter().map(|outline| outline.transformed(apart)).collect();
        Some(from.clearance_to(&Measurable::new(&moved)?))
    }

    /// The silhouette of a kind in its own millimetres. Holes face no neighbour.
    fn prepare(&mut self, kind: Kind) {
        let motif = self.motifs[kind.0];
        self.shapes.entry(kind).or_insert_with(|| {
            let scale = f64::from_bits(kind.2);
            let across = if kind.1 == Hand::Mirrored { -scale } else { scale };
            let size = Affine::scale_non_uniform(across, scale);
            let outlines: Vec<Outline> = motif
                .layers
                .iter()
                .flat_map(|layer| &layer.outlines)
                .map(|outline| Outline::new(outline.outer().transformed(size), Vec::new()))
                .collect();
            Measurable::new(&outlines).map(|shape| (outlines, shape))
        });
    }
}

/// Where a placement stands, without its hand and size.
fn rigid(placement: &Placement) -> Affine {
    Affine::translate(placement.at.to_vec2()) * Affine::rotate(placement.turn.get())
}
