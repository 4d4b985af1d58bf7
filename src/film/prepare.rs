//! From motifs and a setting to piece kinds: as seen, in its hand and size, as cut, with its patch and its quantity.

use std::collections::{BTreeMap, BTreeSet};

use super::error::spares_can_be_cut;
use super::make::{Made, Single, is_turned, make};
use super::name::{self, Parts};
use super::preparing::Weeding;
use super::variant::{Variant, variants};
use super::{
    AsCut, AsSeen, CutWish, Film, FilmError, LayerName, LayerWish, PieceKind, Pieces, Prepared, Spares, Travels,
};
use super::{fabric, for_cutting, patch, say, turn_under, weeding};
use crate::art::{Colour, Motif};
use crate::data::usual;
use crate::parallel;
use crate::place::{Hand, Setting};

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
/// [`FilmError`] when a placed motif was not read, a layer's colour has no film, a film is unknown, or a turned edge has
/// places that cannot be turned.
pub fn prepare(
    motifs: &BTreeMap<String, Motif>,
    setting: &Setting,
    cuts: &[CutWish],
    films: &[Film],
) -> Result<Prepared, FilmError> {
    let variants = variants(setting);
    let checked = check(motifs, &variants, cuts, films)?;
    let mut prepared = Prepared { pieces: Pieces { kinds: vec![] }, layers: vec![], findings: vec![] };
    let (mut taken, mut faults) = (BTreeSet::new(), Vec::new());
    let mut last: Option<&str> = None;
    // Variants come in order of motif and size, so the hands of one size stand together and share what is made for it.
    let sizes: Vec<&[Variant]> =
        variants.chunk_by(|a, b| a.motif == b.motif && a.scale.total_cmp(&b.scale).is_eq()).collect();
    // Making is nearly all of the work, and no size needs another; the results keep the order of the sizes.
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let made = parallel::each(threads, &sizes, |_, hands| {
        let this = &checked[&hands[0].motif];
        let made = make(this.motif, hands[0].scale, &this.layers, films, &this.wish.preparing)?;
        let shapes: Vec<_> = hands.iter().map(|variant| shapes_of(this, &made, variant.hand)).collect();
        Ok::<_, Vec<_>>((made, shapes))
    });
    for (hands, made) in sizes.into_iter().zip(made) {
        let motif = &hands[0].motif;
        let this = &checked[motif];
        match made {
            Ok((made, shapes)) => {
                for (index, (variant, shapes)) in hands.iter().zip(shapes).enumerate() {
                    let first = index == 0 && last != Some(motif);
                    prepared.pieces.kinds.extend(kinds_of(this, shapes, variant, first, &mut taken));
                }
                prepared.findings.extend(made.layers.iter().flat_map(say::of_layer));
                let narrow = made.narrow.iter().map(|(layer, width)| say::narrow(&made.layers[*layer], *width));
                prepared.findings.extend(narrow);
                prepared.layers.extend(made.layers);
            }
            Err(places) => faults.extend(places),
        }
        last = Some(motif);
    }
    if !faults.is_empty() {
        return Err(FilmError::CannotTurn { places: faults });
    }
    // Films in the order of the job; within a film the order of making (motif, size, hand, layer) is kept.
    prepared.pieces.kinds.sort_by_key(|kind| films.iter().position(|film| film.key == kind.film));
    Ok(prepared)
}

/// Shapes of one hand, by layer and single piece; none where nothing is left to cut.
fn shapes_of(checked: &Checked<'_>, made: &Made, hand: Hand) -> Vec<Vec<Option<Shape>>> {
    let of_layer = |(wish, singles): (&&LayerWish, &Vec<Single>)| {
        singles.iter().map(|single| shape(checked, made, hand, wish, single)).collect()
    };
    checked.layers.iter().zip(&made.singles).map(of_layer).collect()
}

fn kinds_of(
    checked: &Checked<'_>,
    shapes: Vec<Vec<Option<Shape>>>,
    variant: &Variant,
    first: bool,
    taken: &mut BTreeSet<String>,
) -> Vec<PieceKind> {
    let mut kinds = Vec::new();
    for (layer, (wish, singles)) in checked.layers.iter().zip(shapes).enumerate() {
        let numbered = singles.len() > 1;
        for (number, shape) in singles.into_iter().enumerate() {
            let Some(shape) = shape else { continue };
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
                cut: shape.cut,
                finish: shape.finish,
                marks: shape.marks,
                clips: shape.clips,
                grain: shape.grain,
                patch: shape.patch,
                weeding: shape.weeding,
                needed: variant.count,
                spares: checked.wish.spares.of(variant.count),
                tests: if first { checked.wish.tests } else { 0 },
            });
        }
    }
    kinds
}

/// Everything about a piece kind that is a shape, as cut.
struct Shape {
    cut: AsCut,
    finish: Option<AsCut>,
    marks: AsCut,
    clips: Vec<(crate::geometry::Point, crate::geometry::Point)>,
    grain: Option<(crate::geometry::Point, crate::geometry::Point)>,
    patch: crate::geometry::Ring,
    weeding: Option<weeding::WeedingBox>,
}

/// Puts a piece into its hand and turns it for cutting. Clips, grain and boxes follow from the outlines as cut, so that
/// nothing but outlines is ever reversed.
fn shape(checked: &Checked<'_>, made: &Made, hand: Hand, wish: &LayerWish, single: &Single) -> Option<Shape> {
    let as_cut = |seen: &AsSeen| for_cutting(&seen.in_hand(hand), wish.method.cut_from());
    let asked = &checked.wish.preparing;
    let (cut, finish) = (as_cut(&single.cut), single.finish.as_ref().map(as_cut));
    let on_carrier = wish.method.travels() == Travels::OnCarrier;
    let marks = if on_carrier { as_cut(&made.marks) } else { as_cut(&AsSeen::new(vec![])) };
    let held: Vec<_> = cut.outlines().iter().chain(marks.outlines()).cloned().collect();
    let weeding = match asked.weeding {
        Weeding::Box if on_carrier => weeding::weeding_box(&held, usual("weeding-clearance")),
        Weeding::Box | Weeding::None => None,
    };
    let patch = match &weeding {
        Some(weeding) => weeding.ring.clone(),
        None => patch(&held)?,
    };
    let turned = finish.as_ref().filter(|_| is_turned(wish.method));
    let clips = turned.map_or_else(Vec::new, |line| {
        let of = |one| turn_under::clips(one, asked.turn_under.get(), usual("clip-spacing"));
        line.outlines().iter().flat_map(of).collect()
    });
    let grain = (!on_carrier).then(|| fabric::grain_arrow(patch.bounds()));
    Some(Shape { cut, finish, marks, clips, grain, patch, weeding })
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
            let spares = if let Spares::Each(spares) = wish.spares { spares } else { 0 };
            spares_can_be_cut(key, spares, wish.tests)?;
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
fn layer_wish(wish: &CutWish, index: usize, colour: Colour) -> Option<&LayerWish> {
    let at_place = wish.layers.get(index).filter(|layer| layer.colour == colour);
    at_place.or_else(|| wish.layers.iter().find(|layer| layer.colour == colour))
}
