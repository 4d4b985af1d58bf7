//! A placed motif painted in the flat development or anywhere else.

use std::collections::BTreeMap;

use kurbo::BezPath;

use crate::art::Motif;
use crate::geometry::{Affine, Outline, Point};
use crate::place::{Hand, Placement};
use crate::write::drawing::{Drawing, Pen, outline_path};
use crate::write::style;

/// From motif millimetres to the flat development.
pub(crate) fn to_development(placement: &Placement) -> Affine {
    Affine::translate(placement.at.to_vec2()) * Affine::rotate(placement.turn.get()) * own_form(placement)
}

/// Hand and size of the placement, still about the motif's own middle.
pub(crate) fn own_form(placement: &Placement) -> Affine {
    let size = Affine::scale(placement.scale);
    match placement.hand {
        Hand::AsDrawn => size,
        Hand::Mirrored => size * Affine::FLIP_X,
    }
}

/// Paints all layers in their colours with a hairline, lowest first.
pub(crate) fn paint(drawing: &mut Drawing, motif: &Motif, place: Affine) {
    for layer in &motif.layers {
        let mut path = BezPath::new();
        for outline in &layer.outlines {
            path.extend(outline_path(outline, place));
        }
        drawing.shape(path, Some(layer.colour.into()), Some(edge_pen()));
    }
}

/// The same with every point carried by a map that is no plain transform.
pub(crate) fn paint_bent(drawing: &mut Drawing, motif: &Motif, bend: impl Fn(Point) -> Point) {
    for layer in &motif.layers {
        let mut path = BezPath::new();
        for ring in layer.outlines.iter().flat_map(Outline::rings) {
            let mut last: Option<Point> = None;
            for point in ring.points().iter().map(|p| bend(*p)) {
                match last {
                    None => path.move_to(point),
                    Some(last) if last.distance(point) < 0.05 => continue,
                    Some(_) => path.line_to(point),
                }
                last = Some(point);
            }
            path.close_path();
        }
        drawing.shape(path, Some(layer.colour.into()), Some(edge_pen()));
    }
}

/// A hairline keeps white motifs visible on pale cloth.
const fn edge_pen() -> Pen {
    Pen::new(style::TEXT, style::HAIRLINE * 0.6)
}

/// The motif of a placement.
pub(crate) fn motif_of<'a>(motifs: &'a BTreeMap<String, Motif>, placement: &Placement) -> Option<&'a Motif> {
    motifs.get(&placement.motif)
}

/// Half the motif's extent square to the hem, when it stands square; used to find how high the band reaches.
pub(crate) fn half_height(motifs: &BTreeMap<String, Motif>, placement: &Placement) -> f64 {
    motif_of(motifs, placement).map_or(0.0, |motif| motif.height.get() * placement.scale / 2.0)
}
