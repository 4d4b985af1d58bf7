//! Lace: flat or gathered, by the metre.

use super::braid::upper_edge;
use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed, at_least_one};
use super::wish::Lace;
use crate::data::usual;

pub(super) fn need(on: &On<'_>, lace: &Lace) -> Result<TrimNeed, TrimError> {
    at_least_one(on.wish, "fullness", lace.fullness)?;
    let line = on.draw_up.lower;
    let length = line * lace.fullness + lace.overlap;
    let mut need = on.need(length);
    need.grams = on.grams_by_length(length);
    need.working.push(format!("{line:.2} x {} + {} where its ends meet = {length}", lace.fullness, lace.overlap));
    let rate = if lace.fullness > 1.0 { "gather" } else { "sew-on" };
    need.labour = vec![Labour::metres(rate, line)];
    upper_edge(on, &mut need);
    if on.draw_up.share() > usual("flat-trim-eased") && lace.fullness < 1.0 + on.draw_up.share() {
        need.warnings.push(format!(
            "Flat lace {} deep will not lie flat on this curve: its upper edge must lose {} ({}). Gather that edge, clip and lap its pattern, or take narrower lace.",
            lace.depth,
            on.draw_up.excess(),
            on.draw_up.percent()
        ));
    }
    Ok(need.bought(vec![on.buy(Goods::Trim, length)]))
}
