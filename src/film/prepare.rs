//! From motifs and a setting to piece kinds: as seen, in its hand and size, as cut, with its patch and its quantity.

use std::collections::{BTreeMap, BTreeSet};

use super::error::MOST_SPARES;
use super::name::{self, Parts};
use super::variant::{Variant, variants};
use super::{AsSeen, CutWish, Film, FilmError, LayerName, LayerWish, PieceKind, Pieces, Prepared, Travels};
use super::{for_cutting, patch};
use crate::art::Motif;
use crate::place::Setting;

/// A motif of the setting with its layers' wishes, all films known.
struct Checked<'a> {
    motif: &'a Motif,
    wish: &'a CutWish,
    layers: Vec<&'a LayerWish>,
}

/// Makes the pieces of the whole setting: one kind for each motif, layer, hand and size that occurs.
///
/// Spares are cut in every hand and size that occurs, test motifs in one of them only (the largest size, as drawn if that
/// occurs in it): one hand shows all that a test can show.
///
/// # Errors
/// [`FilmError`] when a placed motif was not read, a layer's colour has no film, or a film is unknown.
pub fn prepare(
    motifs: &BTreeMap<String, Motif>,
    setting: &Setting,
    cuts: &[CutWish],
    films: &[Film],
) -> Result<Prepared, FilmError> {
    let variants = variants(setting);
    let checked = check(motifs, &variants, cuts, films)?;
    let mut kinds = Vec::new();
    let mut taken = BTreeSet::new();
    for (index, variant) in variants.iter().enumerate() {
        let first = index == 0 || variants[index - 1].motif != variant.motif;
        kinds.extend(kinds_of(&checked[&variant.motif], variant, first, &mut taken));
    }
    // Films in the order of the job; within a film the order of making (motif, size, hand, layer) is kept.
    kinds.sort_by_key(|kind| films.iter().position(|film| film.key == kind.film));
    Ok(Prepared { pieces: Pieces { kinds }, findings: vec![] })
}

fn kinds_of(checked: &Checked<'_>, variant: &Variant, first: bool, taken: &mut BTreeSet<String>) -> Vec<PieceKind> {
    let mut kinds = Vec::new();
    for (layer, wish) in checked.layers.iter().enumerate() {
        let seen = AsSeen::new(checked.motif.layers[layer].outlines.clone());
        let singles = match wish.method.travels() {
            Travels::OnCarrier => vec![seen],
            Travels::Singly => seen.outlines().iter().map(|one| AsSeen::new(vec![one.clone()])).collect(),
        };
        let numbered = singles.len() > 1;
        for (number, seen) in singles.iter().enumerate() {
            let cut = for_cutting(&seen.scaled(variant.scale).in_hand(variant.hand), wish.method.cut_from());
            let Some(patch) = patch(cut.outlines()) else { continue };
            let parts = Parts {
                motif: &variant.motif,
                film: &wish.film,
                hand: variant.hand,
                scale: variant.scale,
                single: numbered.then_some(number + 1),
            };
            kinds.push(PieceKind {
                name: name::unique(parts, taken),
                motif: variant.motif.clone(),
                layer,
                colour: checked.motif.layers[layer].colour,
                film: wish.film.clone(),
                hand: variant.hand,
                scale: variant.scale,
                method: wish.method,
                cut,
                patch,
                needed: variant.count,
                spares: checked.wish.spares,
                tests: if first { checked.wish.tests } else { 0 },
            });
        }
    }
    kinds
}

/// Every motif of the setting with its wishes, or everything that is missing.
fn check<'a>(
    motifs: &'a BTreeMap<String, Motif>,
    variants: &[Variant],
    cuts: &'a [CutWish],
    films: &[Film],
) -> Result<BTreeMap<String, Checked<'a>>, FilmError> {
    let placed: BTreeSet<&str> = variants.iter().map(|variant| variant.motif.as_str()).collect();
    let unknown: Vec<String> =
        placed.iter().filter(|key| !motifs.contains_key(**key)).map(ToString::to_string).collect();
    if !unknown.is_empty() {
        return Err(FilmError::UnknownMotif { motifs: unknown });
    }
    let mut checked = BTreeMap::new();
    let (mut without, mut lost) = (Vec::new(), Vec::new());
    for key in placed {
        let motif = &motifs[key];
        let wish = cuts.iter().find(|wish| wish.motif == key);
        let mut layers = Vec::new();
        for (index, layer) in motif.layers.iter().enumerate() {
            let name = || LayerName { motif: key.to_string(), colour: layer.colour };
            match wish.and_then(|wish| layer_wish(wish, index, layer.colour)) {
                None => without.push(name()),
                Some(wish) if films.iter().all(|film| film.key != wish.film) => lost.push((name(), wish.film.clone())),
                Some(wish) => layers.push(wish),
            }
        }
        if let Some(wish) = wish {
            let asked = u64::from(wish.spares) + u64::from(wish.tests);
            if asked > MOST_SPARES {
                return Err(FilmError::TooManySpares { motif: key.to_string(), asked });
            }
            checked.insert(key.to_string(), Checked { motif, wish, layers });
        }
    }
    if !without.is_empty() {
        return Err(FilmError::NoFilm { layers: without });
    }
    if !lost.is_empty() {
        let known = films.iter().map(|film| film.key.clone()).collect();
        return Err(FilmError::UnknownFilm { layers: lost, known });
    }
    Ok(checked)
}

/// The wish for a layer: the one at its place if the colour agrees, otherwise the one that names its colour.
fn layer_wish(wish: &CutWish, index: usize, colour: crate::art::Colour) -> Option<&LayerWish> {
    let at_place = wish.layers.get(index).filter(|layer| layer.colour == colour);
    at_place.or_else(|| wish.layers.iter().find(|layer| layer.colour == colour))
}
