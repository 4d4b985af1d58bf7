//! Stack or knock out: which layers stay whole under others, and which are cut away.
//!
//! In: the layers of a motif as seen, lowest first, and what each film bears. Out: the layers as they will be cut, and for
//! every overlap what was done ([`Layered`]).
//!
//! A layer L cut away under U with underlap u keeps what is seen of it, V = L less U, and reaches u farther under U:
//! L' = (V grown by u) within (L and U together). So parts of L that cannot be seen are left out altogether, and a layer
//! drawn edge to edge with U gains the underlap it lacks.

use crate::geometry::{self, Outline, overlay};
use crate::quantity::Mm;

use super::preparing::Layering;

/// What the films of a stack bear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bears {
    /// Most layers in one place, this one counted.
    pub most: u32,
    /// Whether another film may lie on it.
    pub on_top: OnTop,
}

/// Whether a film takes another on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnTop {
    /// It does.
    Taken,
    /// It does not: textured, metallised.
    Refused,
}

/// What was done where one layer lies under others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Under {
    /// Nothing lies over it.
    Free,
    /// It stays whole.
    Stacked,
    /// It is cut away but for the underlap.
    KnockedOut {
        /// How far it reaches under.
        underlap: Mm,
        /// Why.
        why: Why,
    },
}

/// Why a layer is cut away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// The job asks for it.
    Asked,
    /// Its film takes nothing on top.
    NothingOnTop,
    /// There would be more layers in one place than the films bear.
    TooMany {
        /// The most they bear.
        most: u32,
    },
}

/// Layers cut as they can be pressed.
#[derive(Clone, Debug, PartialEq)]
pub struct Layered {
    /// Each layer, lowest first.
    pub outlines: Vec<Vec<Outline>>,
    /// What was done with each.
    pub under: Vec<Under>,
    /// Layers that stay whole against what their film bears, because the job asks for stacking.
    pub against: Vec<(usize, Why)>,
}

/// Layers this near, in millimetres, are drawn edge to edge.
const MEETS: f64 = 0.05;

/// Less shared area than this, in square millimetres, is no overlap: a touch along an edge.
const NO_OVERLAP: f64 = 0.01;

/// Decides for every layer, from the top down, and cuts away what must be.
#[must_use]
pub fn layered(layers: &[Vec<Outline>], bears: &[Bears], layering: Layering, underlap: Mm) -> Layered {
    let mut outlines = layers.to_vec();
    let mut under = vec![Under::Free; layers.len()];
    let mut against = Vec::new();
    // depth[k]: where more than k layers lie, of those already decided above.
    let mut depth: Vec<Vec<Outline>> = Vec::new();
    for layer in (0..layers.len()).rev() {
        let above = depth.first().cloned().unwrap_or_default();
        let meets = match layering {
            // Layers drawn edge to edge gain the underlap too.
            Layering::KnockOut => shares(&overlay::grown(&layers[layer], MEETS), &above),
            Layering::Auto | Layering::Stack => shares(&layers[layer], &above),
        };
        if meets {
            let decision = decide(&layers[layer], &depth, most(layers, bears, layer), bears[layer], layering);
            under[layer] = Under::Stacked;
            match (decision, layering) {
                (Some((why, _)), Layering::Stack) => against.push((layer, why)),
                (Some((why, region)), _) => {
                    let reach = if why == Why::NothingOnTop { Mm::ZERO } else { underlap };
                    outlines[layer] = cut_away(&layers[layer], region, reach);
                    under[layer] = Under::KnockedOut { underlap: reach, why };
                }
                (None, _) => {}
            }
        }
        // Nothing lies under the lowest layer, so that nobody asks how deep it lies there.
        if layer > 0 {
            deepen(&mut depth, &outlines[layer]);
        }
    }
    Layered { outlines, under, against }
}

/// Most layers that a film and all films over it bear in one place.
fn most(layers: &[Vec<Outline>], bears: &[Bears], layer: usize) -> u32 {
    let over = (layer + 1..layers.len()).filter(|upper| shares(&layers[layer], &layers[*upper]));
    over.chain([layer]).map(|one| bears[one].most).min().unwrap_or(1).max(1)
}

/// Why a layer is cut away, and under what; `None` when it can stay whole.
fn decide<'a>(
    layer: &[Outline],
    depth: &'a [Vec<Outline>],
    most: u32,
    bears: Bears,
    layering: Layering,
) -> Option<(Why, &'a [Outline])> {
    if bears.on_top == OnTop::Refused {
        return Some((Why::NothingOnTop, &depth[0]));
    }
    if layering == Layering::KnockOut {
        return Some((Why::Asked, &depth[0]));
    }
    let full = depth.get(most as usize - 1)?;
    shares(layer, full).then_some((Why::TooMany { most }, full.as_slice()))
}

fn shares(a: &[Outline], b: &[Outline]) -> bool {
    let (Some(box_a), Some(box_b)) = (geometry::bounds(a), geometry::bounds(b)) else { return false };
    let common = box_a.intersect(box_b);
    common.width() > 0.0 && common.height() > 0.0 && overlay::area(&overlay::intersection(a, b)) > NO_OVERLAP
}

/// What is seen of a layer, and so much more under what lies over it.
fn cut_away(layer: &[Outline], over: &[Outline], underlap: Mm) -> Vec<Outline> {
    let seen = overlay::difference(layer, over);
    if underlap <= Mm::ZERO {
        return seen;
    }
    let both: Vec<Outline> = layer.iter().chain(over).cloned().collect();
    let reaching = overlay::intersection(&overlay::grown(&seen, underlap.get()), &overlay::union(&both));
    // Where a gap of ground lies between, a part of what is near lies under the upper layer alone: of no use.
    reaching.into_iter().filter(|part| shares(std::slice::from_ref(part), &seen)).collect()
}

/// Adds a layer to the count of layers in each place.
fn deepen(depth: &mut Vec<Vec<Outline>>, layer: &[Outline]) {
    let mut rising = layer.to_vec();
    for level in depth.iter_mut() {
        // Where this level already was and the new layer is too, the next level begins.
        let next = overlay::intersection(level, &rising);
        let both: Vec<Outline> = level.iter().chain(&rising).cloned().collect();
        *level = overlay::union(&both);
        rising = next;
    }
    if !rising.is_empty() {
        depth.push(rising);
    }
}
