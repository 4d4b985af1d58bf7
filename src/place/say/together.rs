//! Counts that were settled together with those of other sizes or bands, in words.

use crate::place::say::short;
use crate::place::{BandWish, Tie, Together};
use crate::quantity::Mm;

/// `30, the largest count that every size takes with at least 40 mm (this size alone would take 31)`
pub(super) fn settled_words(
    (own, count): (u32, &str),
    (gap, most, with, held_by_row): (Mm, u32, Together, Option<usize>),
    wish: &BandWish,
) -> String {
    // Where no gap was asked for, neither that nor how many would stand edge to edge is worth a word.
    let asked = gap > Mm::ZERO;
    let least = if asked { format!(" with at least {}", short(gap)) } else { String::new() };
    let comma = if asked { "," } else { "" };
    let alone = |which: &str| {
        let same = most == own || !asked;
        if same { String::new() } else { format!(" ({which} alone would take {most})") }
    };
    let tied = wish.rhythm.tie.as_ref().map(|tie| (times_words(tie), &tie.to));
    // Of a tied band that has what it would have alone nothing is held down.
    let held = held_by_row.filter(|_| tied.is_none() || most > own).map_or(String::new(), |row| {
        let of = wish.rhythm.tie.as_ref().map_or_else(|| "its row".to_owned(), |tie| format!("{} row", tie.to));
        format!(", since {of} {row} has room for no more")
    });
    let said = match (with, tied) {
        (Together::Sizes, _) => {
            format!("{count}, the largest count that suits every size{least}{}", alone("this size"))
        }
        (Together::Bands, None) => {
            format!("{count}, chosen together with the bands tied to it{least}{}", alone("this band"))
        }
        (Together::SizesAndBands, None) => format!(
            "{count}, chosen for every size together with the bands tied to it{least}{}",
            alone("this band in this size")
        ),
        (Together::Bands, Some((times, to))) => {
            format!("{count}, {times} {to}{comma}{least}{}", alone("this band"))
        }
        (Together::SizesAndBands, Some((times, to))) => {
            format!("{count}, {times} {to} in every size{comma}{least}{}", alone("this band in this size"))
        }
    };
    said + &held
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::{Anchor, Hands, Level, Rhythm, Spacing, Stance};

    #[test]
    fn no_gap_is_spoken_of_where_none_was_asked_for() {
        let tie = Some(Tie { to: "flowers".to_owned(), own: 2, of: 1 });
        let wish = BandWish {
            name: "buds".to_owned(),
            height: Mm::new(60.0),
            level: Level::Middle,
            motifs: vec!["bud".to_owned()],
            spacing: Spacing::AtLeast(Mm::ZERO),
            on_cf: Anchor::Best,
            stance: Stance::SquareToHem,
            hands: Hands::AsDrawn,
            rhythm: Rhythm { tie, ..Rhythm::default() },
            keep_out: vec![],
            covered: vec![],
        };
        let said = |gap: f64| settled_words((42, "42"), (Mm::new(gap), 80, Together::Bands, None), &wish);
        assert_eq!(said(0.0), "42, twice as many as flowers");
        assert_eq!(said(20.0), "42, twice as many as flowers, with at least 20 mm (this band alone would take 80)");
    }
}
