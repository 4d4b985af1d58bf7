//! Remedies in words.

use crate::hem::{Hem, Middle};
use crate::place::say::{Kept, lands_words, middle_name, range_words, short};
use crate::place::{Anchor, BandWish, Change, Outcome};
use crate::quantity::Mm;

/// `put a gap on CF: 28 with 44.9 mm between them, a gap on CF, a motif on CB, every seam clear`
pub(in crate::place) fn remedy(
    change: Change,
    outcome: Outcome,
    wish: &BandWish,
    (hem, kept): (&Hem, &Kept),
) -> String {
    let middle = middle_name(hem);
    let even = match change {
        Change::ClearGap(gaps) => format!(
            "{} between true outlines all round in place of {}, {} along the line",
            gaps.then,
            range_words(gaps.now.0, gaps.now.1),
            range_words(outcome.gap_along, outcome.widest_gap)
        ),
        _ => format!("{} between them", range_words(outcome.gap_along, outcome.widest_gap)),
    };
    let motifs = if wish.motifs.len() == 1 { wish.motifs[0].as_str() } else { "the motifs" };
    let change = match change {
        Change::Middle(Anchor::Gap) => format!("put a gap on {middle}"),
        Change::Middle(Anchor::Motif | Anchor::Best) => format!("put a motif on {middle}"),
        Change::Count(count) => format!("take {count}"),
        Change::Lead(count) => {
            let to = wish.rhythm.tie.as_ref().map_or("the other band", |tie| tie.to.as_str());
            format!("take {count} of {to}")
        }
        Change::Narrow { by, factor } => {
            format!("make {motifs} {} narrower ({:.1} % of the size now)", short(by), factor * 100.0)
        }
        Change::Raise(by) if by > Mm::ZERO => format!("raise the motif line {}", short(by)),
        Change::Raise(by) => format!("lower the motif line {}", short(by.abs())),
        Change::Gap(gap) => format!("allow a gap of {}", short(gap)),
        Change::Shift(by) => {
            let left = (by > Mm::ZERO) == (hem.middle() == Middle::CentreFront);
            format!("shift every motif {} to the wearer's {}", short(by.abs()), if left { "left" } else { "right" })
        }
        Change::BetweenSeams => "set each stretch from seam to seam out on its own".to_owned(),
        Change::ClearGap(_) => "keep true distances equal, not gaps along the line (even = \"clear gap\")".to_owned(),
    };
    let opposite = outcome.opposite.map(|opposite| format!(", {} on CB", lands_words(opposite))).unwrap_or_default();
    let clear = kept.each();
    let clear = if clear.is_empty() { clear } else { format!(", {clear} clear") };
    format!("{change}: {} with {even}, {} on {middle}{opposite}{clear}", outcome.count, lands_words(outcome.on_middle))
}
