//! Corners without a motif of their own.
//!
//! A corner is halved by its mitre line. Where the motif before it and the motif after it each keep half a gap from that line,
//! their true outlines are a whole gap apart, whatever they look like, as neighbours along a side are. Along the line each then
//! stands half a gap over the cosine of half the corner from it, measured from where its outline would touch the mitre line; a
//! whole gap on either side, as beside a motif that stands in the corner, would leave nearly two there.

use crate::art::Motif;
use crate::geometry::{Affine, Point};
use crate::hem::{Corner, MotifLine};
use crate::place::{BandWish, Stance};
use crate::quantity::Mm;

/// So far on either side of a corner the line runs along one side of the cloth, in millimetres.
const BESIDE: Mm = Mm::new(1e-3);

/// A corner sharper than this, as the cosine of half its turn, is taken as so sharp: the two sides lie nearly on each other.
const SHARPEST: f64 = 0.05;

/// How much of the line such a corner takes up on each side, beside the motifs' half widths.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Mitre {
    /// Until the outline that reaches furthest would touch the mitre line.
    pub(in crate::place) takes: f64,
    /// And so many gaps.
    pub(in crate::place) gaps: f64,
}

/// What a corner takes up beside motifs of these, all times `size`.
pub(in crate::place) fn mitre<'m>(
    (line, corner): (&MotifLine, Corner),
    wish: &BandWish,
    (motifs, size): (impl Iterator<Item = &'m Motif>, f64),
) -> Mitre {
    let (sin, cos) = (corner.turn.abs() / 2.0).sin_cos();
    let cos = cos.max(SHARPEST);
    let lean = sin * corner.turn.signum();
    // A motif that stands upright on the cloth is turned against the side that it stands on.
    let turns = [-BESIDE, BESIDE].map(|off| match wish.stance {
        Stance::SquareToHem | Stance::Bent => 0.0,
        Stance::Upright => -line.frame_at(corner.s_line + off).turn().get(),
    });
    let raised = wish.rhythm.wave.map_or(0.0, Mm::get) * lean;
    let toward = |point: Point| point.x.abs() * cos - point.y * lean;
    let reach = |motif: &Motif| {
        let points = motif.layers.iter().flat_map(|layer| &layer.outlines).flat_map(|outline| outline.outer().points());
        let turned = points.flat_map(|point| turns.map(|turn| Affine::rotate(turn) * *point));
        turned.map(toward).fold(f64::NEG_INFINITY, f64::max) * size + raised.max(0.0)
    };
    let takes = motifs.map(|motif| reach(motif) / cos - motif.width.get() * size / 2.0).fold(0.0, f64::max);
    Mitre { takes, gaps: 0.5 / cos }
}
