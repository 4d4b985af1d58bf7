//! Bias binding over the edge.

use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed, above_zero};
use super::strips::{Run, bias};
use super::wish::Binding;
use crate::data::usual;

pub(super) fn need(on: &On<'_>, binding: &Binding) -> Result<TrimNeed, TrimError> {
    let line = on.draw_up.lower;
    let length = line + binding.overlap;
    let cut_width = binding.finished * binding.folds;
    above_zero(on.wish, "cut width", cut_width)?;
    let mut need = on.need(length);
    need.working.push(format!("{line:.2} + {} where its ends meet = {length:.2}", binding.overlap));
    let buy = match binding.cloth {
        None => {
            need.grams = on.grams_by_length(length);
            on.buy(Goods::Trim, length)
        }
        Some(cloth) => {
            let strips = bias(&on.wish.name, length, cut_width, cloth, Run::of(on.edge))?;
            need.grams = on.grams_by_area(length, cut_width);
            need.working.push(format!(
                "cut {} x {} = {cut_width} wide on the bias; each strip adds ({} - 2 x {}) x 1.414 = {}: {} strips, {} joins",
                binding.finished, binding.folds, cloth.usable, cloth.join, strips.each_adds, strips.count, strips.joins,
            ));
            need.working.push(format!(
                "{} strips x {cut_width} x 1.414 + {} for the corner = {} of cloth",
                strips.count, cloth.usable, strips.cloth
            ));
            need.labour.push(Labour::joins(strips));
            need.strips = Some(strips);
            on.buy(Goods::Cloth, strips.cloth)
        }
    };
    // Sewn on one side and turned over to the other: twice along the edge.
    need.labour.push(Labour::metres("sew-on", line * 2.0));
    if on.draw_up.share() > usual("bias-eased") {
        need.warnings.push(format!(
            "The binding's inner edge must lose {}: more than bias cloth takes. Make it narrower than {}.",
            on.draw_up.percent(),
            binding.finished
        ));
    }
    Ok(need.bought(vec![buy]))
}
