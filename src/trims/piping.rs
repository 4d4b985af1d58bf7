//! Piping: a cord and its bias cover.

use std::f64::consts::PI;

use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed};
use super::strips::{Run, bias};
use super::wish::Piping;

pub(super) fn need(on: &On<'_>, piping: &Piping) -> Result<TrimNeed, TrimError> {
    let line = on.draw_up.lower;
    let length = line + piping.overlap;
    // Once round the cord and an allowance on both sides.
    let cut_width = piping.cord * PI + 2.0 * piping.allowance;
    let strips = bias(&on.wish.name, length, cut_width, piping.cloth, Run::of(on.edge))?;
    let mut need = on.need(length);
    need.grams = on.grams_by_area(length, cut_width);
    need.working.push(format!("{line:.2} + {} where its ends lap = {length:.2} of cord and of cover", piping.overlap));
    need.working.push(format!(
        "cover cut {:.4} x {} + 2 x {} = {cut_width} wide on the bias; each strip adds ({} - 2 x {}) x 1.414 = {}: {} strips, {} joins",
        PI, piping.cord, piping.allowance, piping.cloth.usable, piping.cloth.join, strips.each_adds, strips.count, strips.joins,
    ));
    need.working.push(format!(
        "{} strips x {cut_width} x 1.414 + {} for the corner = {} of cloth",
        strips.count, piping.cloth.usable, strips.cloth
    ));
    // Sewn round its cord first, then into the seam.
    need.labour = vec![Labour::joins(strips), Labour::metres("sew-on", line * 2.0)];
    need.strips = Some(strips);
    // The price given is that of the cloth; cord has none, so the cost of piping stays open.
    let cord = super::Buy::by_length(Goods::Cord, length, None);
    Ok(need.bought(vec![on.buy(Goods::Cloth, strips.cloth), cord]))
}
