//! Ruffles: a strip gathered by its fullness.

use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed, above_zero, at_least_one};
use super::strips::{Run, across};
use super::wish::Ruffle;
use crate::data::{Figure, figure};

pub(super) fn need(on: &On<'_>, ruffle: &Ruffle) -> Result<TrimNeed, TrimError> {
    above_zero(on.wish, "cut depth of a strip", ruffle.cut_depth)?;
    at_least_one(on.wish, "fullness", ruffle.fullness)?;
    let line = on.draw_up.lower;
    let flat = line * ruffle.fullness;
    let strips = across(&on.wish.name, flat, ruffle.cut_depth, ruffle.cloth, Run::of(on.edge))?;
    let buy = on.buy(Goods::Cloth, strips.cloth);
    let mut need = on.need(flat);
    need.grams = on.grams_by_area(flat, ruffle.cut_depth);
    need.edges_to_finish = Some(flat * 2.0);
    need.labour =
        vec![Labour::joins(strips), Labour::metres("finish-edge", flat * 2.0), Labour::metres("gather", line)];
    need.working.push(format!("{line:.2} x {} = {flat:.2} of strip before gathering", ruffle.fullness));
    need.working.push(format!(
        "each strip adds {} - 2 x {} = {}: {} strips, {} joins; {} x {} = {} of cloth",
        ruffle.cloth.usable,
        ruffle.cloth.join,
        strips.each_adds,
        strips.count,
        strips.joins,
        strips.count,
        strips.cut_width,
        strips.cloth,
    ));
    need.warnings.extend(unusual(ruffle.fullness));
    need.strips = Some(strips);
    Ok(need.bought(vec![buy]))
}

/// A word when the fullness lies outside what is usual.
fn unusual(fullness: f64) -> Option<String> {
    let Figure { low, high, .. } = figure("ruffle-fullness")?;
    let (word, tip) = if fullness < *low {
        ("scanty", "it will hardly look gathered")
    } else if fullness > *high {
        ("very full", "try a short length first; the seam grows thick")
    } else {
        return None;
    };
    Some(format!("A fullness of {fullness} is {word} (usual {low} to {high}): {tip}."))
}
