//! What may lie under the plate: the garment's cloth and the zones, each material with its limit.

use super::heat::{cloth_ceiling, edition};
use crate::data::{Limit, Material, folded_name, tables, usual};
use crate::geometry::{Point, Ring};
use crate::press::plates::ground::{Ground, Patch, covered};
use crate::press::{Inputs, Lies, Setup, Zone, ZoneState};
use crate::quantity::{Celsius, Mm, mm};

/// One material in one place.
#[derive(Clone, Debug)]
pub(in crate::press) struct Layer {
    /// What the maker calls it: `stiff braid`, `the garment's cloth`.
    pub(in crate::press) thing: String,
    /// The same with what it is made of: `stiff braid (stiff hem braid of nylon)`.
    pub(in crate::press) name: String,
    /// The material.
    pub(in crate::press) material: &'static Material,
    /// Its ceiling; `None` when it is never pressed.
    pub(in crate::press) ceiling: Option<Celsius>,
    /// The zone it lies in; `None` for the garment's own cloth, which is always under the plate.
    pub(in crate::press) zone: Option<Zone>,
}

/// A layer's limit as papers show it where it is never pressed: room temperature.
pub(in crate::press) const ROOM: Celsius = Celsius::new(20.0);

/// Every layer of the garment: its cloth, its zones, its seams.
pub(in crate::press) fn layers(inputs: &Inputs<'_>) -> Vec<Layer> {
    let cloth = tables().stack(&inputs.setup.cloth).into_iter().map(|material| (material, None, "the garment's cloth"));
    let seams = seams(inputs);
    let zones = inputs.zones.iter().chain(&seams).flat_map(|zone| {
        tables().stack(&zone.material).into_iter().map(move |material| (material, Some(zone), zone.name.as_str()))
    });
    cloth
        .chain(zones)
        .map(|(material, zone, name)| Layer {
            thing: name.to_owned(),
            name: called(name, material),
            ceiling: ceiling(material, inputs.setup),
            material,
            zone: zone.cloned(),
        })
        .collect()
}

/// What a material stands. A seam is the garment's own cloth, so that it stands no more than that.
fn ceiling(material: &Material, setup: &Setup) -> Option<Celsius> {
    let own = material.ceiling(tables(), edition(setup));
    if material.key != SEAM {
        return own;
    }
    own.zip(cloth_ceiling(setup)).map(|(own, cloth)| own.min(cloth))
}

/// Key of the row for seams.
pub(in crate::press) const SEAM: &str = "seam";

/// `stiff braid (stiff hem braid of nylon)`; the bare name where the table calls it the same.
pub(in crate::press) fn called(name: &str, material: &Material) -> String {
    if folded_name(name) == folded_name(&material.name) || folded_name(name) == material.key {
        return material.name.clone();
    }
    format!("{name} ({})", material.name)
}

/// Seams that cross the band, as narrow ridges; the hem's marks name them.
fn seams(inputs: &Inputs<'_>) -> Vec<Zone> {
    let half = mm(usual("press-seam-half"));
    let marks = inputs.hem.marks().iter().filter(|mark| mark.name.contains("seam"));
    marks
        .map(|mark| Zone {
            name: spoken(&mark.name),
            material: SEAM.to_owned(),
            along: Some((mark.s_hem - half, mark.s_hem + half)),
            heights: (Mm::ZERO, inputs.setup.plate.1 * 2.0),
            state: ZoneState::InPlace,
            lies: Lies::Beneath,
        })
        .collect()
}

/// `left side seam` for `side seam left` and for `seam side left`.
fn spoken(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().collect();
    let Some((side, rest)) = words.split_last().filter(|(side, rest)| SIDES.contains(side) && !rest.is_empty()) else {
        return name.to_owned();
    };
    let kept: Vec<&str> = rest.iter().copied().filter(|word| *word != "seam").collect();
    let seam = if kept.len() < rest.len() { " seam" } else { "" };
    format!("{side} {}{seam}", kept.join(" ")).replace("  ", " ")
}

const SIDES: [&str; 2] = ["left", "right"];

impl Layer {
    /// Whether it is there when the press closes.
    pub(in crate::press) fn state(&self) -> ZoneState {
        self.zone.as_ref().map_or(ZoneState::InPlace, |zone| zone.state)
    }

    /// The limit papers show.
    pub(in crate::press) fn limit(&self) -> Celsius {
        self.ceiling.unwrap_or(ROOM)
    }

    /// Whether the plate is hotter than it stands. A fusible that melts again is no matter of a limit but has its own rules.
    pub(in crate::press) fn is_over(&self, press: Celsius) -> bool {
        // The cloth that a seam is made of is checked as the garment's cloth.
        let elsewhere = matches!(self.material.limit, Limit::MeltsFrom(_)) || self.material.key == SEAM;
        !elsewhere && self.ceiling.is_none_or(|ceiling| press > ceiling)
    }
}

/// Heights a zone takes up: where it lies, or where it hangs when it is folded down from the hem edge.
///
/// Something sewn on at the hem edge folds down below it by its own depth. What is sewn on higher is folded up or aside,
/// out of reach of any reckoning here; then there is no second place and only the check box is left.
pub(in crate::press) fn heights(zone: &Zone, state: ZoneState) -> Option<(f64, f64)> {
    let (low, high) = (zone.heights.0.get(), zone.heights.1.get());
    match state {
        ZoneState::InPlace => Some((low, high)),
        ZoneState::FoldedAway if low <= AT_THE_EDGE => Some((-(high - low), 0.0)),
        ZoneState::FoldedAway | ZoneState::SewnOnLater => None,
    }
}

/// A zone that begins no higher than this is sewn on at the hem edge, in millimetres: one hem allowance.
const AT_THE_EDGE: f64 = 10.0;

/// Round where a plate lies: distance along the hem, middle in the flat development, and how far from it matters.
#[derive(Clone, Copy, Debug)]
pub(in crate::press) struct Near {
    pub(in crate::press) s: f64,
    pub(in crate::press) at: Point,
    pub(in crate::press) radius: f64,
}

/// The patches of a zone near a plate, in the zone's present state; empty when it is not there.
pub(in crate::press) fn patches(ground: &Ground, zone: &Zone, near: Near) -> Vec<Patch> {
    let Some(heights) = heights(zone, zone.state) else { return Vec::new() };
    let window = window(ground, heights, near);
    let Some((start, end)) = zone.along.map(|(start, end)| (start.get(), end.get())) else {
        return if window.0 < window.1 { ground.strip(window, heights) } else { Vec::new() };
    };
    let laps = if ground.is_closed() { -2..=2 } else { 0..=0 };
    laps.map(|lap| f64::from(lap) * ground.length())
        .map(|shift| clipped((start + shift, end + shift), window))
        .filter(|(from, to)| from < to)
        .flat_map(|range| ground.strip(range, heights))
        .collect()
}

/// The part of the hem over which a strip between two heights comes near a plate: outward from the plate until both edges
/// of the strip are out of its reach; never more than half of a ring either way.
pub(in crate::press) fn window(ground: &Ground, (low, high): (f64, f64), near: Near) -> (f64, f64) {
    /// Step of the walk, in millimetres; a strip that bends away and back within one step is no hem.
    const STEP: f64 = 20.0;
    let farthest = if ground.is_closed() { ground.length() / 2.0 } else { f64::INFINITY };
    let (least, greatest) = if ground.is_closed() { (f64::NEG_INFINITY, f64::INFINITY) } else { ground.span() };
    let far = |s: f64| {
        [low, high, f64::midpoint(low, high)].iter().all(|h| ground.point(s, *h).distance(near.at) > near.radius)
    };
    let walk = |way: f64| {
        let mut out = STEP;
        while out < farthest && !far(near.s + way * out) && (least..=greatest).contains(&(near.s + way * out)) {
            out += STEP;
        }
        near.s + way * out.min(farthest)
    };
    clipped((walk(-1.0), walk(1.0)), (least, greatest))
}

fn clipped(range: (f64, f64), to: (f64, f64)) -> (f64, f64) {
    (range.0.max(to.0), range.1.min(to.1))
}

/// Area of patches under a plate, in square millimetres.
pub(in crate::press) fn area_under(patches: &[Patch], plate: &Ring) -> f64 {
    let points: &[Point] = plate.points();
    let bounds = plate.bounds();
    patches.iter().map(|patch| covered(patch, points, bounds)).sum()
}
