//! The mirror image of a hem: the right-hand one of a pair.
//!
//! In the development the image is that about the upright line through the middle, walked the other way, so that s still grows
//! toward the wearer's left: what lay at s lies at -s, with the same line above it.

use std::sync::Arc;

use super::edge::{Edge, Piece};
use super::marks::{self, Quarters};
use super::{Ends, Hem, HemMark, HungPart, Mark, PanelOnHem, reach};
use crate::geometry::Affine;
use crate::quantity::Mm;

/// The reflection about the upright line through the origin.
const ACROSS: Affine = Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);

impl Hem {
    /// The same hem with left and right exchanged, as on the other one of a pair.
    #[must_use]
    pub fn mirror_image(&self) -> Self {
        let pieces: Vec<Piece> = self.edge.pieces().iter().rev().map(|piece| piece.mirror_image(ACROSS)).collect();
        let edge = Edge::of(pieces);
        let once_round = self.once_round.map(|once| ACROSS * once.inverse() * ACROSS);
        let joints = reach::joints(&edge, once_round);
        let mut marks: Vec<HemMark> = self.marks.iter().filter(|mark| !is_corner(mark)).map(mirrored).collect();
        let named = |corner: &HemMark| marks.iter().any(|mark| (mark.s_hem - corner.s_hem).abs() < Mm::new(0.05));
        let corners: Vec<HemMark> = marks::corners(&edge, &joints).into_iter().filter(|c| !named(c)).collect();
        marks.extend(corners);
        // CB lies at the end of the development that s reaches by growing, on either hand.
        let (least, _) = edge.span();
        for mark in marks.iter_mut().filter(|mark| self.is_closed() && (mark.s_hem.get() - least).abs() < 1e-6) {
            mark.s_hem = -mark.s_hem;
        }
        marks.sort_by(|a, b| a.s_hem.total_cmp(&b.s_hem));
        let panel = |panel: &PanelOnHem| PanelOnHem { name: panel.name.clone(), from: -panel.to, to: -panel.from };
        Self {
            joints: joints.into(),
            edge: Arc::new(edge),
            once_round,
            ends: match self.ends {
                Ends::Opening { at, underlap, keep_clear } => {
                    Ends::Opening { at: mirrored_mark(at), underlap, keep_clear }
                }
                ref other => other.clone(),
            },
            quarters: Quarters { left: -self.quarters.right, right: -self.quarters.left },
            marks,
            drawn_panels: self.drawn_panels.iter().rev().map(panel).collect(),
            hung: self.hung.iter().rev().map(|part| mirrored_part(part, self.length(), self.is_closed())).collect(),
            findings: self.findings.clone(),
            ..self.clone()
        }
    }
}

fn is_corner(mark: &HemMark) -> bool {
    mark.keep_clear.is_none() && mark.name.starts_with("corner ")
}

fn mirrored(mark: &HemMark) -> HemMark {
    let at = Mm::new(0.0) - mark.s_hem;
    let name = match mark.name.strip_prefix("seam at ") {
        Some(_) => format!("seam at {at}"),
        None => exchanged(&mark.name),
    };
    HemMark { name, s_hem: at, keep_clear: mark.keep_clear }
}

/// Left for right and right for left in the name of a place.
pub(crate) fn exchanged(name: &str) -> String {
    let word = |word: &str| match word {
        "left" => "right".to_owned(),
        "right" => "left".to_owned(),
        "Left" => "Right".to_owned(),
        "Right" => "Left".to_owned(),
        other => other.to_owned(),
    };
    name.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

const fn mirrored_mark(mark: Mark) -> Mark {
    match mark {
        Mark::SideLeft => Mark::SideRight,
        Mark::SideRight => Mark::SideLeft,
        Mark::At(s) => Mark::At(Mm::new(-s.get())),
        Mark::CentreFront | Mark::CentreBack => mark,
    }
}

/// Parts of a ring are counted on from CF, so that the image of the last is the first.
fn mirrored_part(part: &HungPart, length: Mm, ring: bool) -> HungPart {
    let round = if ring { length } else { Mm::ZERO };
    let names = (exchanged(&part.names.1), exchanged(&part.names.0));
    HungPart { names, from: round - part.to, to: round - part.from, measured: part.measured }
}
