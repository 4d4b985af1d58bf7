//! Stiff braid: hem length with ease and overlap, its upper edge drawn in.

use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, TrimNeed};
use super::wish::{Braid, DrawThread};
use crate::data::usual;
use crate::quantity::Mm;

pub(super) fn need(on: &On<'_>, braid: &Braid) -> Result<TrimNeed, TrimError> {
    let line = on.draw_up.lower;
    let length = line * (1.0 + braid.ease) + braid.overlap;
    let mut need = on.need(length);
    need.grams = on.grams_by_length(length);
    need.working.push(format!(
        "{line:.2} x {:.3} + {} for the {} = {length}",
        1.0 + braid.ease,
        braid.overlap,
        if on.edge.closed { "overlap" } else { "turned ends" },
    ));
    need.labour = vec![Labour::metres("sew-on", line), Labour::metres("hand-hem", on.draw_up.upper)];
    upper_edge(on, &mut need);
    need.warnings.extend(draw_in(on, braid));
    Ok(need.bought(vec![on.buy(Goods::Trim, length)]))
}

/// The sum for the upper edge, the same for every trim that lies on a curve.
pub(super) fn upper_edge(on: &On<'_>, need: &mut TrimNeed) {
    let draw_up = on.draw_up;
    if draw_up.excess() > Mm::ZERO {
        need.working.push(format!(
            "its upper edge lies on {:.2} - {:.4} x {} = {:.2}, {} shorter ({})",
            draw_up.lower,
            on.edge.sweep.get(),
            on.wish.kind.depth(),
            draw_up.upper,
            draw_up.excess(),
            draw_up.percent(),
        ));
    }
}

fn draw_in(on: &On<'_>, braid: &Braid) -> Option<String> {
    if on.draw_up.share() <= usual("braid-eased-without-thread") {
        return None;
    }
    let (percent, excess) = (on.draw_up.percent(), on.draw_up.excess());
    Some(match braid.draw_thread {
        DrawThread::Yes => format!(
            "Draw the upper edge of the braid in by {excess} ({percent}) with its thread, evenly, before it is sewn."
        ),
        DrawThread::Unknown => format!(
            "The upper edge of the braid must draw in by {excess} ({percent}): buy braid with a draw thread along one edge, or cut it to shape."
        ),
        DrawThread::No => format!(
            "This braid has no draw thread and its upper edge must lose {excess} ({percent}): run a gathering thread along it, use narrower braid, or cut it to shape."
        ),
    })
}
