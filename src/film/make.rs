//! One motif in one size made ready: its layers mended, laid over each other, and each with what its method adds.

use super::error::{CannotTurn, LayerName, TurnFault};
use super::layering::{Bears, Layered, OnTop, Under, Why, layered};
use super::mend::{Change, mended};
use super::misplacing::{Underlap, least_underlap};
use super::preparing::{MatchMarks, Preparing};
use super::turn_under::{tight_places, with_allowance};
use super::{AsSeen, Film, LayerWish, Method, Travels, match_marks};
use crate::art::{Colour, Motif};
use crate::data::tables;
use crate::geometry::{self, Outline, Ring, overlay};
use crate::quantity::{Mm, mm};

/// How a layer lies among the others of its motif.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerMade {
    /// Motif key.
    pub motif: String,
    /// Factor on the motif's finished size.
    pub scale: f64,
    /// Index of the layer in the motif, in press order.
    pub layer: usize,
    /// Drawing colour.
    pub colour: Colour,
    /// Key of its film or cloth.
    pub film: String,
    /// What was done with what lies under others.
    pub under: Under,
    /// Set when it stays whole though its film bears less: the job asked for stacking.
    pub against: Option<Why>,
    /// How far it may be pressed off before ground shows beside the layers under it; `None` when none can show.
    pub may_be_off: Option<Underlap>,
    /// Changes to its outlines that were asked for.
    pub changes: Vec<Change>,
}

/// Single pieces of a layer, as seen, before hand and reversal.
#[derive(Clone, Debug)]
pub(super) struct Single {
    /// What is cut.
    pub(super) cut: AsSeen,
    /// The finished line, where it differs.
    pub(super) finish: Option<AsSeen>,
}

/// A motif in one size, ready to be cut.
#[derive(Clone, Debug)]
pub(super) struct Made {
    /// Pieces of each layer.
    pub(super) singles: Vec<Vec<Single>>,
    /// Match marks as seen, empty unless asked for.
    pub(super) marks: AsSeen,
    /// How the layers lie on each other.
    pub(super) layers: Vec<LayerMade>,
    /// Turned pieces with strips too narrow to be comfortable: layer, and the width they fall short of.
    pub(super) narrow: Vec<(usize, Mm)>,
}

/// Makes a motif ready in one size; sizes in millimetres (underlap, allowances) do not scale with it.
pub(super) fn make(
    motif: &Motif,
    scale: f64,
    wishes: &[&LayerWish],
    films: &[Film],
    asked: &Preparing,
) -> Result<Made, Vec<CannotTurn>> {
    let scaled = |outlines: &[Outline]| AsSeen::new(outlines.to_vec()).scaled(scale).outlines().to_vec();
    let drawn: Vec<Vec<Outline>> = motif.layers.iter().map(|layer| scaled(&layer.outlines)).collect();
    let (mended, changes): (Vec<_>, Vec<_>) =
        drawn.iter().map(|layer| mended(layer, asked)).map(|done| (done.outlines, done.changes)).unzip();
    let bears: Vec<Bears> = wishes.iter().map(|wish| bears(wish, films)).collect();
    let laid = layered(&mended, &bears, asked.layering, asked.underlap);
    let layers = layers_made(motif, scale, wishes, &laid, changes);
    let mut faults = Vec::new();
    let mut narrow = Vec::new();
    let mut singles = Vec::new();
    for (index, (outlines, wish)) in laid.outlines.iter().zip(wishes).enumerate() {
        let name = LayerName { motif: motif.name.clone(), colour: motif.layers[index].colour };
        match cut_singles(outlines, wish.method, asked.turn_under, &name) {
            Ok(pieces) => singles.push(pieces),
            Err(places) => faults.extend(places),
        }
        narrow.extend(too_narrow(outlines, wish.method).map(|width| (index, width)));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    Ok(Made { singles, marks: AsSeen::new(marks(&drawn, wishes, asked)), layers, narrow })
}

/// What a layer's film bears; cloth pieces bear what their class says as well.
fn bears(wish: &LayerWish, films: &[Film]) -> Bears {
    let class = films.iter().find(|film| film.key == wish.film).map_or("", |film| film.class.as_str());
    let layers = &tables().film_or_unknown(class).layers;
    Bears { most: layers.most, on_top: if layers.top_only { OnTop::Refused } else { OnTop::Taken } }
}

fn layers_made(
    motif: &Motif,
    scale: f64,
    wishes: &[&LayerWish],
    laid: &Layered,
    changes: Vec<Vec<Change>>,
) -> Vec<LayerMade> {
    let mut below: Vec<Outline> = Vec::new();
    let mut made = Vec::new();
    for (index, changes) in changes.into_iter().enumerate() {
        let own = &laid.outlines[index];
        made.push(LayerMade {
            motif: motif.name.clone(),
            scale,
            layer: index,
            colour: motif.layers[index].colour,
            film: wishes[index].film.clone(),
            under: laid.under[index],
            against: laid.against.iter().find(|(layer, _)| *layer == index).map(|(_, why)| *why),
            may_be_off: least_underlap(&below, own),
            changes,
        });
        // Nothing lies on the uppermost layer.
        if index + 1 < laid.outlines.len() {
            below.extend_from_slice(own);
            below = overlay::union(&below);
        }
    }
    made
}

fn marks(layers: &[Vec<Outline>], wishes: &[&LayerWish], asked: &Preparing) -> Vec<Outline> {
    let on_film = wishes.iter().filter(|wish| wish.method.travels() == Travels::OnCarrier).count();
    let whole = layers.iter().filter_map(|layer| geometry::bounds(layer)).reduce(|a, b| a.union(b));
    match (asked.match_marks, whole) {
        (MatchMarks::Outside, Some(whole)) if on_film > 1 => match_marks::marks(whole),
        _ => vec![],
    }
}

/// The pieces of a layer: one for all on a carrier, one for each outline of cloth, with its turn-under.
fn cut_singles(
    outlines: &[Outline],
    method: Method,
    turn_under: Mm,
    layer: &LayerName,
) -> Result<Vec<Single>, Vec<CannotTurn>> {
    if method.travels() == Travels::OnCarrier {
        let cut = AsSeen::new(outlines.to_vec());
        return Ok(if outlines.is_empty() { vec![] } else { vec![Single { cut, finish: None }] });
    }
    let alone = |one: &Outline| AsSeen::new(vec![one.clone()]);
    if !is_turned(method) {
        return Ok(outlines.iter().map(|one| Single { cut: alone(one), finish: None }).collect());
    }
    let mut faults = Vec::new();
    let mut pieces = Vec::new();
    for one in outlines {
        let fault = |at, why| CannotTurn { layer: layer.clone(), at, why, turn_under };
        let tight = tight_places(one, turn_under.get());
        faults.extend(tight.iter().map(|t| fault(t.at, TurnFault::InsideCurve { radius: mm(t.radius) })));
        match with_allowance(one, turn_under.get()) {
            Some(cut) => pieces.push(Single { cut: alone(&cut), finish: Some(alone(one)) }),
            None if tight.is_empty() => {
                let hole = one.holes().iter().map(Ring::bounds).min_by(|a, b| a.area().total_cmp(&b.area()));
                let (at, side) = hole.map_or((one.bounds().center(), 0.0), |b| (b.center(), b.width().min(b.height())));
                faults.push(fault(at, TurnFault::Hole { side: mm(side) }));
            }
            None => {}
        }
    }
    if faults.is_empty() { Ok(pieces) } else { Err(faults) }
}

pub(super) const fn is_turned(method: Method) -> bool {
    matches!(method, Method::TurnedTemplateOnRight | Method::TurnedTemplateOnWrong)
}

/// Whether a turned layer has strips that are hard to turn on both sides: shrinking by half the comfortable width parts
/// them or leaves nothing.
fn too_narrow(outlines: &[Outline], method: Method) -> Option<Mm> {
    let comfortable = mm(crate::data::usual("turned-strip"));
    let parts = |one: &Outline| overlay::grown(std::slice::from_ref(one), -comfortable.get() / 2.0).len() != 1;
    (is_turned(method) && outlines.iter().any(parts)).then_some(comfortable)
}
