//! Facings: straight or bias strips, or pieces with the curve of the hem.

use super::braid::upper_edge;
use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed};
use super::strips::{Grain, MOST_STRIPS, Run, StripCloth, Strips, across, bias};
use super::wish::{Facing, FacingCut};
use crate::data::usual;
use crate::quantity::Mm;

pub(super) fn need(on: &On<'_>, facing: &Facing) -> Result<TrimNeed, TrimError> {
    let line = on.draw_up.lower;
    let cut_depth = facing.depth + 2.0 * facing.allowance;
    let radius = on.edge.average_radius().filter(|_| facing.cut == FacingCut::Shaped);
    let name = &on.wish.name;
    let strips = match (facing.cut, radius) {
        (FacingCut::Bias, _) => bias(name, line, cut_depth, facing.cloth, Run::of(on.edge))?,
        (FacingCut::Shaped, Some(radius)) => shaped(on, facing, radius - on.wish.height)?,
        // A shaped facing of a straight hem is a straight strip.
        (FacingCut::Straight | FacingCut::Shaped, _) => across(name, line, cut_depth, facing.cloth, Run::of(on.edge))?,
    };
    let mut need = on.need(line);
    need.grams = on.grams_by_area(line.min(on.draw_up.upper) * 0.5 + line.max(on.draw_up.upper) * 0.5, cut_depth);
    need.edges_to_finish = Some(on.draw_up.upper);
    need.working.push(format!(
        "cut {} + 2 x {} = {cut_depth} deep; {line:.2} / {:.2} = {:.2}: {} {}, {} joins; {} of cloth",
        facing.depth,
        facing.allowance,
        strips.each_adds,
        line / strips.each_adds,
        strips.count,
        pieces(strips.grain),
        strips.joins,
        strips.cloth,
    ));
    need.labour = vec![
        Labour::joins(strips),
        Labour::metres("finish-edge", on.draw_up.upper),
        Labour::metres("sew-on", line),
        Labour::metres("hand-hem", on.draw_up.upper),
    ];
    upper_edge(on, &mut need);
    need.warnings.extend(curve(on, strips.grain));
    need.strips = Some(strips);
    Ok(need.bought(vec![on.buy(Goods::Cloth, strips.cloth)]))
}

const fn pieces(grain: Grain) -> &'static str {
    match grain {
        Grain::Across => "strips",
        Grain::Bias => "bias strips",
        Grain::Shaped => "shaped pieces",
    }
}

/// What a strip that is not shaped to the curve has to lose.
fn curve(on: &On<'_>, grain: Grain) -> Option<String> {
    let (share, lost, percent) = (on.draw_up.share(), on.draw_up.excess(), on.draw_up.percent());
    match grain {
        Grain::Across if share > usual("straight-strip-eased") => Some(format!(
            "A straight strip would have {lost} ({percent}) to lose at the top: cut it on the bias or shaped."
        )),
        Grain::Bias if share > usual("bias-eased") => Some(format!(
            "A bias strip would have {lost} ({percent}) to lose at the top, more than bias cloth takes: cut it shaped, or shallower."
        )),
        Grain::Across | Grain::Bias | Grain::Shaped => None,
    }
}

/// Pieces of a ring, laid one above the other across the cloth: the number of them that takes least cloth.
///
/// A piece that spans the angle a has outer radius R and inner radius r (allowances included), and is 2 R sin(a/2) wide,
/// plus its joins. Stacked pieces lie at a distance of sqrt(R² - r² sin²(a/2)) - r cos(a/2) from each other, where the
/// corner of one's inner edge meets the outer edge of the next; the first takes R - r cos(a/2) of cloth.
fn shaped(on: &On<'_>, facing: &Facing, radius: Mm) -> Result<Strips, TrimError> {
    let outer = (radius + facing.allowance).get();
    let inner = (radius - facing.depth - facing.allowance).get();
    if inner <= 0.0 {
        return Err(TrimError::TooDeep {
            trim: on.wish.name.clone(),
            upper: on.wish.height + facing.depth + facing.allowance,
            highest: radius + on.wish.height,
        });
    }
    let best = (1..=MOST_SHAPED)
        .filter_map(|count| {
            let half = on.edge.sweep.get() / f64::from(count) / 2.0;
            // A piece of more than a half circle would close on itself; a third is as much as is handy.
            let fits = half <= 1.05 && width(outer, half, facing.cloth) <= facing.cloth.usable.get();
            fits.then(|| (count, half, cloth(outer, inner, half, count)))
        })
        .min_by(|a, b| a.2.total_cmp(&b.2));
    let (count, half, cloth) = best.ok_or_else(|| TrimError::ClothTooNarrow {
        trim: on.wish.name.clone(),
        usable: facing.cloth.usable,
        needed: Mm::new(width(outer, on.edge.sweep.get() / f64::from(MOST_SHAPED) / 2.0, facing.cloth)),
    })?;
    debug_assert!(count <= MOST_STRIPS, "few pieces");
    Ok(Strips {
        count,
        grain: Grain::Shaped,
        each_adds: on.draw_up.lower / f64::from(count),
        cut_width: facing.depth + 2.0 * facing.allowance,
        joins: Run::of(on.edge).joins(count),
        cloth: Mm::new(cloth),
        once: Mm::new(outer - inner * half.cos() - step(outer, inner, half)),
    })
}

/// More pieces than this make a facing of seams.
const MOST_SHAPED: u32 = 60;

fn width(outer: f64, half: f64, cloth: StripCloth) -> f64 {
    2.0 * outer * half.sin() + 2.0 * cloth.join.get()
}

fn cloth(outer: f64, inner: f64, half: f64, count: u32) -> f64 {
    outer - inner * half.cos() + f64::from(count - 1) * step(outer, inner, half)
}

/// What every further piece takes of the cloth.
fn step(outer: f64, inner: f64, half: f64) -> f64 {
    (outer.powi(2) - (inner * half.sin()).powi(2)).sqrt() - inner * half.cos()
}
