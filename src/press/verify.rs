//! An independent check of a finished plan: every pressed motif wholly inside the trusted part of its plates.
//!
//! Shares nothing with the search but the inputs: places the outlines anew (all points, not the hull), and measures their
//! distance to the plate's edges as the closures give them. A motif larger than the plate must lie under all its parts
//! together: its outline and a grid of points inside it are each looked for under some part. Runs on every plan.

use std::collections::{BTreeMap, BTreeSet};

use crate::geometry::{Affine, Outline, Point, Vec2};
use crate::place::Placement;
use crate::press::limits::stacks::class_of;
use crate::press::plates::spots::placed_outlines;
use crate::press::{Closure, Inputs, PressKind, PressPlan};
use crate::quantity::Mm;

/// A motif reaching out of the trusted part, or not pressed as it must be.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PressFlaw {
    /// A motif reaches out of the trusted part of a plate it is pressed under.
    ReachesOut {
        /// The closure's number.
        closure: u32,
        /// The placement's id.
        placement: String,
        /// By how much.
        by: Mm,
    },
    /// A placement does not get one layer for each closure that lists it, or no full press at the end.
    NotPressed {
        /// The placement's id.
        placement: String,
        /// Layers to press.
        layers: usize,
        /// Closures that lay one.
        closures: usize,
    },
    /// A closure lists a placement that does not exist.
    NoSuchPlacement {
        /// The closure's number.
        closure: u32,
        /// The id it lists.
        placement: String,
    },
    /// The times do not add up.
    Time {
        /// Seconds stated.
        stated: f64,
        /// Seconds added up.
        added: f64,
    },
}

/// Distance forgiven, in millimetres.
const FORGIVEN: f64 = 1e-4;

/// Everything wrong with a plan; empty for a sound one.
#[must_use]
pub fn flaws(plan: &PressPlan, inputs: &Inputs<'_>) -> Vec<PressFlaw> {
    let placements: BTreeMap<&str, &Placement> =
        inputs.setting.bands.iter().flat_map(|band| &band.placements).map(|p| (p.id.as_str(), p)).collect();
    let line = inputs.hem.line_at(Mm::ZERO).ok();
    let join = line.filter(|_| inputs.hem.is_closed()).map(|line| line.once_round(Affine::IDENTITY));
    let mut found = Vec::new();
    for closure in &plan.closures {
        for id in &closure.placements {
            match placements.get(id.as_str()) {
                None => found.push(PressFlaw::NoSuchPlacement { closure: closure.number, placement: id.clone() }),
                Some(_) if closure.part.is_some() => {}
                Some(placement) => found.extend(reaching_out(closure, placement, join, inputs)),
            }
        }
    }
    found.extend(placements.values().filter_map(|placement| not_pressed(plan, placement, inputs)));
    found.extend(placements.values().filter_map(|placement| uncovered(plan, placement, join, inputs)));
    let added: f64 = plan.closures.iter().map(|closure| closure.seconds.get()).sum();
    if (added - plan.total.get()).abs() > 1e-6 * added.max(1.0) {
        found.push(PressFlaw::Time { stated: plan.total.get(), added });
    }
    found
}

fn reaching_out(
    closure: &Closure,
    placement: &Placement,
    join: Option<Affine>,
    inputs: &Inputs<'_>,
) -> Option<PressFlaw> {
    let motif = inputs.motifs.get(&placement.motif)?;
    let points: Vec<Point> =
        placed_outlines(motif, placement).iter().flat_map(|o| o.outer().points().to_vec()).collect();
    let moves = [Some(Affine::IDENTITY), join, join.map(Affine::inverse)];
    let by = moves
        .into_iter()
        .flatten()
        .map(|moved| points.iter().map(|p| outside_by(closure, moved * *p, inputs)).fold(f64::NEG_INFINITY, f64::max))
        .fold(f64::INFINITY, f64::min);
    let flaw = PressFlaw::ReachesOut { closure: closure.number, placement: placement.id.clone(), by: Mm::checked(by)? };
    (by > FORGIVEN).then_some(flaw)
}

/// How far a point lies beyond the trusted part: the rim less its distance inward from the nearest edge.
fn outside_by(closure: &Closure, point: Point, inputs: &Inputs<'_>) -> f64 {
    let inward = closure.footprint.edges().map(|(a, b)| {
        let edge: Vec2 = b - a;
        edge.cross(point - a) / edge.hypot()
    });
    inputs.setup.rim.get() - inward.fold(f64::INFINITY, f64::min)
}

fn not_pressed(plan: &PressPlan, placement: &Placement, inputs: &Inputs<'_>) -> Option<PressFlaw> {
    let motif = inputs.motifs.get(&placement.motif)?;
    let pressed = |layer: usize| {
        let kinds = inputs.pieces.kinds.iter();
        let mut of_layer = kinds.filter(|k| k.motif == placement.motif && k.layer == layer);
        of_layer.next().is_some_and(|kind| class_of(inputs, &kind.film, kind.method).is_pressed())
    };
    let layers = (0..motif.layers.len()).filter(|layer| pressed(*layer)).count();
    let lists = |closure: &&Closure| closure.kind != PressKind::Second && closure.placements.contains(&placement.id);
    // Several plate positions over one motif lay one layer together.
    let parts = plan.closures.iter().filter(lists).find_map(|closure| closure.part);
    let parts = parts.map_or(1, |part| usize::try_from(part.of).unwrap_or(usize::MAX));
    let closures = plan.closures.iter().filter(lists).count();
    let last = plan.closures.iter().rfind(lists).map(|closure| closure.kind);
    let sound = closures == layers * parts && (layers == 0 || last == Some(PressKind::Full));
    (!sound).then(|| PressFlaw::NotPressed { placement: placement.id.clone(), layers, closures })
}

/// A point of a motif pressed in parts that lies under none of them, in some round.
fn uncovered(plan: &PressPlan, placement: &Placement, join: Option<Affine>, inputs: &Inputs<'_>) -> Option<PressFlaw> {
    let of_motif = |closure: &&Closure| closure.part.is_some() && closure.placements.contains(&placement.id);
    let first = plan.closures.iter().find(of_motif)?;
    let outlines = placed_outlines(inputs.motifs.get(&placement.motif)?, placement);
    let moves = [Some(Affine::IDENTITY), join, join.map(Affine::inverse)];
    let points = outlines.iter().flat_map(points_of);
    let farthest = points
        .flat_map(|point| {
            let rounds: BTreeSet<u32> = plan.closures.iter().filter(of_motif).map(|closure| closure.layer).collect();
            let least = |round: u32| {
                let parts = plan.closures.iter().filter(of_motif).filter(move |closure| closure.layer == round);
                parts
                    .flat_map(|closure| moves.iter().flatten().map(|m| outside_by(closure, *m * point, inputs)))
                    .fold(f64::INFINITY, f64::min)
            };
            rounds.into_iter().map(least).collect::<Vec<_>>()
        })
        .fold(f64::NEG_INFINITY, f64::max);
    let by = Mm::checked(farthest)?;
    (farthest > FORGIVEN).then(|| PressFlaw::ReachesOut { closure: first.number, placement: placement.id.clone(), by })
}

/// Outline points and a grid of points inside.
fn points_of(outline: &Outline) -> Vec<Point> {
    const GRID: u32 = 24;
    let bounds = outline.bounds();
    let at = |k: u32, from: f64, size: f64| from + size * (f64::from(k) + 0.5) / f64::from(GRID);
    let grid = (0..GRID * GRID)
        .map(|k| Point::new(at(k % GRID, bounds.x0, bounds.width()), at(k / GRID, bounds.y0, bounds.height())))
        .filter(|point| outline.contains(*point));
    outline.outer().points().iter().copied().chain(grid).collect()
}
