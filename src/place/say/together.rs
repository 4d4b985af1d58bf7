//! Counts that were settled together with those of other sizes or bands, in words.

use crate::place::say::short;
use crate::place::{BandWish, Tie, Together};
use crate::quantity::Mm;

/// `30, the largest count that every size takes with at least 40 mm (this size alone would take 31)`
pub(super) fn settled_words(
    (own, count): (u32, &str),
    (gap, alone, with): (Mm, u32, Together),
    wish: &BandWish,
) -> String {
    let gap = short(gap);
    let alone = |which: &str| if alone == own { String::new() } else { format!(" ({which} alone would take {alone})") };
    let tied = wish.rhythm.tie.as_ref().map(|tie| (times_words(tie), &tie.to));
    match (with, tied) {
        (Together::Sizes, _) => {
            format!("{count}, the largest count that suits every size with at least {gap}{}", alone("this size"))
        }
        (Together::Bands, None) => {
            format!("{count}, chosen together with the bands tied to it with at least {gap}{}", alone("this band"))
        }
        (Together::SizesAndBands, None) => format!(
            "{count}, chosen for every size together with the bands tied to it with at least {gap}{}",
            alone("this band in this size")
        ),
        (Together::Bands, Some((times, to))) => {
            format!("{count}, {times} {to}, with at least {gap}{}", alone("this band"))
        }
        (Together::SizesAndBands, Some((times, to))) => {
            format!("{count}, {times} {to} in every size, with at least {gap}{}", alone("this band in this size"))
        }
    }
}

/// `twice as many as`
fn times_words(tie: &Tie) -> String {
    match (tie.own, tie.of) {
        (1, 1) => "as many as".to_owned(),
        (2, 1) => "twice as many as".to_owned(),
        (1, 2) => "half as many as".to_owned(),
        (1, 3) => "a third as many as".to_owned(),
        (own, 1) => format!("{own} times as many as"),
        (own, of) => format!("{own} for every {of} of"),
    }
}
