//! What lies on the middle of a row and opposite, and why, in words.

use crate::hem::Middle;
use crate::place::along::row::SAME;
use crate::place::choice::chosen::Choice;
use crate::place::ground::Ground;
use crate::place::say::{lands_words, middle_name, short};
use crate::place::{Anchor, Evenness, Hands, Lands};
use crate::quantity::Mm;

/// Of a row of like motifs: the shift to which one of more than half a repeat comes to the same.
fn shorter_shift(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    let (wish, repeat) = (ground.wish, choice.row().repeat());
    let like = wish.motifs.len() == 1
        && wish.rhythm.sizes.is_empty()
        && wish.rhythm.wave.is_none()
        && (wish.hands == Hands::AsDrawn || !ground.course().sequence.has_hands())
        && choice.manner == Evenness::Gap;
    let shift = wish.rhythm.shift.get();
    let rest = shift - repeat * (shift / repeat).round();
    (like && shift.abs() > repeat / 2.0 + SAME).then(|| {
        let (repeat, rest) = (Mm::new(repeat), Mm::new(if rest.abs() < SAME { 0.0 } else { rest }));
        if rest == Mm::ZERO {
            return format!(", which is the same as no shift at all: motifs repeat every {repeat}");
        }
        let to_left = (rest > Mm::ZERO) == (ground.hem.middle() == Middle::CentreFront);
        let way = if to_left { "left" } else { "right" };
        format!(", which is the same as {} to her {way}: motifs repeat every {repeat}", rest.abs())
    })
}

/// What lies there, and why where something else was asked for.
pub(super) fn middle_reason(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    let (wish, row) = (ground.wish, choice.row());
    let front = row.lands(0.0);
    let shifted = wish.rhythm.shift.abs().get() > SAME;
    let mut said = format!("{} on {}", lands_words(front), middle_name(ground.hem));
    if let Some(round) = row.round {
        let back = row.lands(round / 2.0);
        said += &format!(", {} on CB", lands_words(back));
        if choice.manner == Evenness::Gap && !shifted && front != Lands::Between && back != Lands::Between {
            let parity = if choice.count.is_multiple_of(2) { "even" } else { "odd" };
            said += &format!(" because {} is {parity}", choice.count);
        }
    }
    let wanted = match wish.on_cf {
        Anchor::Motif => Lands::Motif,
        Anchor::Gap => Lands::Gap,
        Anchor::Best => front,
    };
    if shifted {
        let by = short(wish.rhythm.shift.abs());
        let way = if (wish.rhythm.shift > Mm::ZERO) == (ground.hem.middle() == Middle::CentreFront) {
            "left"
        } else {
            "right"
        };
        said += &if row.apart.is_none() {
            let like = shorter_shift(choice, ground).unwrap_or_default();
            format!("; every motif stands {by} further to the wearer's {way}, as asked{like}")
        } else {
            format!(
                "; the {by} further to the wearer's {way} that was asked for is given up, since each stretch is set out on its own \
                 and a shift would bring motifs too near its end"
            )
        };
    } else if front != wanted {
        let there = ground.tiers[0].keeps.iter().find(|keep| keep.s.abs() < keep.half + SAME);
        let why = match (choice.manner, front, there) {
            (Evenness::BetweenSeams, _, Some(keep)) => format!("but {} lies there", keep.name),
            (Evenness::BetweenSeams, ..) => "which the stretch there has not in its middle".to_owned(),
            (Evenness::Gap | Evenness::ClearGap, Lands::Between, _) => {
                "which motifs of different widths one after the other do not leave there: write order = \"mirrored\""
                    .to_owned()
            }
            (Evenness::Gap | Evenness::ClearGap, ..) => "which takes one more or one fewer".to_owned(),
        };
        said += &format!("; {} was asked for, {why}", lands_words(wanted));
    }
    Some(said)
}
