//! Whether a motif is its own mirror image about its upright axis: then it has no hand, and a mirrored one is the same piece.

use super::edge_grid::{Edge, EdgeGrid};
use super::{Layer, Motif};
use crate::geometry::{Affine, Outline, Point, Ring, bounds};
use crate::quantity::Mm;

/// Outlines that lie nowhere farther than this from their mirror image are the same: above what flattening alone puts two halves apart
/// (twice [`TOLERANCE`](crate::geometry::flatten::TOLERANCE)), and less than a blade or an eye tells apart (common practice, no source).
pub const SAME_MIRRORED: Mm = Mm::new(0.05);

/// Edges are halved down to this length, in millimetres; half of it is all that can be missed.
const SHORTEST: f64 = 0.01;

impl Motif {
    /// Whether every layer lies within [`SAME_MIRRORED`] of its mirror image about the motif's upright axis, all along its outlines.
    #[must_use]
    pub fn is_own_mirror_image(&self) -> bool {
        self.layers.iter().all(same_mirrored)
    }
}

fn same_mirrored(layer: &Layer) -> bool {
    let Some(extent) = bounds(&layer.outlines) else { return true };
    if (extent.x0 + extent.x1).abs() > SAME_MIRRORED.get() {
        return false;
    }
    let mirrored: Vec<Ring> = layer
        .outlines
        .iter()
        .map(|outline| outline.transformed(Affine::FLIP_X))
        .flat_map(|outline| outline.rings().cloned().collect::<Vec<_>>())
        .collect();
    // What lies far from the mirrored outlines is the mirror image of what lies far from these: one way tells both.
    let Some(there) = EdgeGrid::new(&mirrored) else { return false };
    let mut edges = layer.outlines.iter().flat_map(Outline::rings).flat_map(Ring::edges);
    edges.all(|(from, to)| runs_along(&there, from, to))
}

/// Whether an edge lies near others all along. Where both its ends are near one other edge, all between them is.
fn runs_along(there: &EdgeGrid, from: Point, to: Point) -> bool {
    let within = SAME_MIRRORED.get();
    let near = |at: Point| there.nearest(at, within).map(|(_, number, _)| there.edges()[number]);
    let also = |edge: Edge, at: Point| edge.nearest_point(at).distance(at) <= within;
    let (Some(at_from), Some(at_to)) = (near(from), near(to)) else { return false };
    if also(at_from, to) || also(at_to, from) || from.distance(to) <= SHORTEST {
        return true;
    }
    let middle = from.midpoint(to);
    runs_along(there, from, middle) && runs_along(there, middle, to)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
mod tests {
    use super::*;
    use crate::art::Colour;
    use crate::quantity::mm;

    const RED: Colour = Colour { red: 200, green: 0, blue: 0 };

    fn motif(layers: &[&[&[(f64, f64)]]]) -> Motif {
        let ring = |points: &[(f64, f64)]| Ring::new(points.iter().map(|(x, y)| Point::new(*x, *y))).unwrap();
        let outline = |points: &&[(f64, f64)]| Outline::new(ring(points), vec![]);
        let layer =
            |outlines: &&[&[(f64, f64)]]| Layer { colour: RED, outlines: outlines.iter().map(outline).collect() };
        Motif { name: "m".to_owned(), layers: layers.iter().map(layer).collect(), width: mm(100.0), height: mm(80.0) }
    }

    /// A house, its mirror image with the points elsewhere along the same edges.
    #[test]
    fn where_the_points_lie_along_an_edge_does_not_matter() {
        let house: &[(f64, f64)] =
            &[(-50.0, 40.0), (-50.0, 0.0), (-20.0, -24.0), (0.0, -40.0), (50.0, 0.0), (50.0, 13.0), (50.0, 40.0)];
        assert!(motif(&[&[house]]).is_own_mirror_image());
        // The same with its top moved by less and by more than is forgiven: under a roof of 38.7 degrees one that is off by d lies
        // 2 d sin 38.7 = 1.25 d from the mirror image, 0.025 and 0.25.
        let with = |index: usize, by: f64| {
            let mut points = house.to_vec();
            points[index].0 += by;
            motif(&[&[&points]])
        };
        assert!(!with(3, 0.2).is_own_mirror_image());
        assert!(with(3, 0.02).is_own_mirror_image());
        assert!(!with(2, 0.2).is_own_mirror_image(), "a dent in one side of the roof");
    }

    /// A slit of half a tenth on one side takes hardly any area; its ends lie far from every outline of the other side.
    #[test]
    fn a_slit_on_one_side_gives_a_hand() {
        let slit: &[(f64, f64)] =
            &[(-50.0, -40.0), (50.0, -40.0), (50.0, 0.0), (10.0, 0.02), (50.0, 0.04), (50.0, 40.0), (-50.0, 40.0)];
        assert!(!motif(&[&[slit]]).is_own_mirror_image());
    }

    #[test]
    fn every_layer_counts_and_halves_may_lie_apart() {
        let left: &[(f64, f64)] = &[(-50.0, 0.0), (-30.0, -10.0), (-30.0, 10.0)];
        let right: &[(f64, f64)] = &[(50.0, 0.0), (30.0, 10.0), (30.0, -10.0)];
        let middle: &[(f64, f64)] = &[(0.0, -10.0), (10.0, 0.0), (0.0, 10.0), (-10.0, 0.0)];
        assert!(motif(&[&[left, right], &[middle]]).is_own_mirror_image());
        // The same shapes, one side of them in another colour.
        assert!(!motif(&[&[left], &[right], &[middle]]).is_own_mirror_image());
        assert!(!motif(&[&[middle], &[left, middle]]).is_own_mirror_image());
    }
}
