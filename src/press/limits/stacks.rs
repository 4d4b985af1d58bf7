//! The film stack of each motif: which class is laid when, and what really lies on what.
//!
//! Taken from the pieces as they will be cut, not from the drawing: a layer that is cut away under the one above bears
//! nothing, but for the narrow underlap.

use std::collections::BTreeMap;

use crate::data::{FilmClass, Fixes, tables};
use crate::film::{CutFrom, Method, PieceKind};
use crate::geometry::{Affine, Outline, overlay};
use crate::press::Inputs;

/// One pressed layer of a motif.
#[derive(Clone, Copy, Debug)]
pub(in crate::press) struct Laid {
    /// Which layer of the drawing it is, from 0 for the lowest.
    pub(in crate::press) layer: usize,
    /// Class of the film or web it is made of.
    pub(in crate::press) class: &'static FilmClass,
    /// Whether film of a later layer really lies on it.
    pub(in crate::press) bears: bool,
    /// How many layers lie on each other here, this one and those really below it counted.
    pub(in crate::press) depth: u32,
}

/// Overlaps narrower than twice this, in millimetres, are the underlap that keeps ground from showing.
const UNDERLAP: f64 = 2.0;

/// Pressed layers of every motif that is cut, lowest first, by motif key.
pub(in crate::press) fn stacks(inputs: &Inputs<'_>) -> BTreeMap<String, Vec<Laid>> {
    let motifs = inputs.motifs.iter();
    motifs.map(|(key, motif)| (key.clone(), stack(inputs, key, motif.layers.len()))).collect()
}

fn stack(inputs: &Inputs<'_>, motif: &str, layers: usize) -> Vec<Laid> {
    let pressed: Vec<(usize, &'static FilmClass, Vec<Outline>)> = (0..layers)
        .filter_map(|layer| {
            let kind = kinds(inputs, motif, layer).next()?;
            let class = class_of(inputs, &kind.film, kind.method);
            class.is_pressed().then(|| (layer, class, as_seen(inputs, motif, layer)))
        })
        .collect();
    let lies_on = |upper: usize, lower: usize| {
        let common = overlay::intersection(&pressed[lower].2, &pressed[upper].2);
        !common.is_empty() && !overlay::grown(&common, -UNDERLAP).is_empty()
    };
    (0..pressed.len())
        .map(|k| {
            let below = (0..k).filter(|lower| lies_on(k, *lower)).count();
            let bears = (k + 1..pressed.len()).any(|upper| lies_on(upper, k));
            Laid {
                layer: pressed[k].0,
                class: pressed[k].1,
                bears,
                depth: u32::try_from(below + 1).unwrap_or(u32::MAX),
            }
        })
        .collect()
}

fn kinds<'a>(inputs: &Inputs<'a>, motif: &str, layer: usize) -> impl Iterator<Item = &'a PieceKind> {
    inputs.pieces.kinds.iter().filter(move |kind| kind.motif == motif && kind.layer == layer)
}

/// What is cut for a layer in one hand and size, turned back to how it is seen.
fn as_seen(inputs: &Inputs<'_>, motif: &str, layer: usize) -> Vec<Outline> {
    let Some(first) = kinds(inputs, motif, layer).next() else { return Vec::new() };
    let same = |kind: &&PieceKind| kind.hand == first.hand && kind.scale.total_cmp(&first.scale).is_eq();
    kinds(inputs, motif, layer)
        .filter(same)
        .flat_map(|kind| {
            let turned = match kind.method.cut_from() {
                CutFrom::Back => Affine::FLIP_X,
                CutFrom::RightSide => Affine::IDENTITY,
            };
            kind.cut.outlines().iter().map(move |outline| outline.transformed(turned))
        })
        .collect()
}

/// The class of a film by its key in the job; what is not known is taken as film of a class not stated.
pub(in crate::press) fn class_of(inputs: &Inputs<'_>, film: &str, method: Method) -> &'static FilmClass {
    let tables = tables();
    let named = inputs.films.iter().find(|known| known.key == film).map_or("", |known| known.class.as_str());
    let by_method = match method {
        Method::Film => None,
        Method::FusedTraced | Method::FusedBacked => {
            let web = tables.film(named).is_some_and(|class| class.fixes == Fixes::Web);
            (!web).then_some("fabric-web-light")
        }
        Method::TurnedTemplateOnRight | Method::TurnedTemplateOnWrong => Some("fabric-turned"),
    };
    tables.film_or_unknown(by_method.unwrap_or(named))
}
