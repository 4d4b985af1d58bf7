//! What is pressed where: each placed motif as the hull of its outlines on the band, with the film classes of its layers.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::geometry::{Outline, Point};
use crate::place::Placement;
use crate::press::Inputs;
use crate::press::limits::stacks::{Laid, stacks};

/// One placed motif.
#[derive(Clone, Debug)]
pub(in crate::press) struct Spot {
    /// The placement's id.
    pub(in crate::press) id: String,
    /// Motif key.
    pub(in crate::press) motif: String,
    /// Row it belongs to: index of its band in the setting.
    pub(in crate::press) row: usize,
    /// Distance from CF along the drafted hem.
    pub(in crate::press) s: f64,
    /// Height of its middle above the hem.
    pub(in crate::press) height: f64,
    /// Convex hull of all its outlines in the flat development.
    pub(in crate::press) hull: Vec<Point>,
    /// How far the hull reaches from the motif's middle.
    pub(in crate::press) radius: f64,
    /// Its pressed layers, lowest first; empty when all of it is sewn on.
    pub(in crate::press) laid: Vec<Laid>,
}

/// Every placed motif of the setting, in order of row and s.
pub(in crate::press) fn spots(inputs: &Inputs<'_>) -> Vec<Spot> {
    let stacks = stacks(inputs);
    let mut found: Vec<Spot> = inputs
        .setting
        .bands
        .iter()
        .enumerate()
        .flat_map(|(row, band)| band.placements.iter().map(move |placement| (row, placement)))
        .filter_map(|(row, placement)| spot(inputs, &stacks, row, placement))
        .collect();
    found.sort_by(|a, b| a.row.cmp(&b.row).then(a.s.total_cmp(&b.s)).then(a.id.cmp(&b.id)));
    found
}

/// `None` for a motif that was not read or holds nothing; earlier stages stop such a job.
fn spot(inputs: &Inputs<'_>, stacks: &BTreeMap<String, Vec<Laid>>, row: usize, placement: &Placement) -> Option<Spot> {
    let motif = inputs.motifs.get(&placement.motif)?;
    let outlines = motif.layers.iter().flat_map(|layer| &layer.outlines);
    let placed = placement.transform();
    let points = outlines.flat_map(|outline| outline.outer().points()).map(|point| placed * *point);
    let hull = convex_hull(points.collect());
    let radius = hull.iter().map(|point| point.distance(placement.at)).fold(0.0, f64::max);
    (hull.len() > 2).then(|| Spot {
        id: placement.id.clone(),
        motif: placement.motif.clone(),
        row,
        // Plates are laid in the flat development, which is the draft's.
        s: inputs.hem.as_hung().map_or(placement.s_hem, |hung| hung.drafted(placement.s_hem)).get(),
        height: placement.height.get(),
        hull,
        radius,
        laid: stacks.get(&placement.motif).cloned().unwrap_or_default(),
    })
}

/// All outlines of a placed motif in the flat development, for checks and pictures.
pub(in crate::press) fn placed_outlines(motif: &Motif, placement: &Placement) -> Vec<Outline> {
    let placed = placement.transform();
    motif.layers.iter().flat_map(|layer| &layer.outlines).map(|outline| outline.transformed(placed)).collect()
}

/// Corners of the smallest convex area round the points, by the monotone chain (source 112); clockwise on screen.
pub(in crate::press) fn convex_hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let mut hull: Vec<Point> = Vec::new();
    for pass in [points.clone(), points.iter().rev().copied().collect()] {
        let base = hull.len();
        for point in pass {
            while hull.len() >= base + 2 && turns_out(hull[hull.len() - 2], hull[hull.len() - 1], point) {
                hull.pop();
            }
            hull.push(point);
        }
        hull.pop();
    }
    hull
}

fn turns_out(a: Point, b: Point, c: Point) -> bool {
    (b - a).cross(c - b) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Ring;

    #[test]
    fn a_hull_keeps_corners_and_drops_what_lies_inside() {
        let points = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0), (2.0, 1.0), (2.0, 0.0)].map(Point::from);
        let hull = convex_hull(points.to_vec());
        assert_eq!(hull.len(), 4);
        assert!((Ring::new(hull).unwrap().signed_area() - 12.0).abs() < 1e-12);
    }

    #[test]
    fn points_on_one_line_make_no_hull() {
        assert!(convex_hull([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)].map(Point::from).to_vec()).len() < 3);
    }
}
