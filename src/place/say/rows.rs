//! Why further rows stand as they do.

use crate::place::Evenness;
use crate::place::along::row::Apart;
use crate::place::choice::choose::{Chosen, Laid};
use crate::place::ground::{Ground, Tier};

/// Why a further row stands as it does.
pub(in crate::place) fn row_reasons(ground: &Ground<'_>, tier: &Tier, (chosen, laid): (&Chosen, &Laid)) -> Vec<String> {
    let longer = tier.line.length() - ground.tiers[0].line.length();
    let than = match longer.get() {
        more if more > crate::place::say::ALIKE => format!("{longer} longer than the first row's"),
        less if less < -crate::place::say::ALIKE => format!("{} shorter than the first row's", longer.abs()),
        _ => "as long as the first row's".to_owned(),
    };
    let count = laid.row.seats.iter().filter(|seat| !seat.corner).count();
    let first = chosen.choice.row().seats.iter().filter(|seat| !seat.corner).count();
    let stands = match (laid.row.apart, chosen.choice.manner) {
        (Some(apart), _) => format!("{count}{}", apart_words(apart)),
        (None, Evenness::BetweenSeams) => {
            format!("{count}, even all along, since nothing must stay clear at this height")
        }
        (None, _) if !tier.shifted => "as many as the first row, each above a motif of it".to_owned(),
        (None, _) if count == first => "as many as the first row, each above a gap of it".to_owned(),
        (None, _) => "one fewer than the first row, each above a gap of it".to_owned(),
    };
    vec![format!("{stands}; the line is {} long at this height, {than}", tier.line.length())]
}

/// `, in each stretch as many as in the first row, each above a motif of it, and in a stretch of its own what fits there`
fn apart_words(apart: Apart) -> String {
    let Apart { above_motifs, above_gaps, above_only, bare, own, missing } = apart;
    let mut said = String::new();
    if above_motifs > 0 {
        said += ", in each stretch as many as in the first row, each above a motif of it";
    }
    if above_gaps > 0 {
        said += ", in each stretch one fewer than in the first row, each above a gap of it";
    }
    let only = |stretches: u32| if stretches == 1 { "a stretch" } else { "stretches" };
    if above_only > 0 {
        let has = if above_only == 1 { "has" } else { "have" };
        said += &format!(", where {} of the first row {has} only one, one right above it", only(above_only));
    }
    if bare > 0 {
        said += &format!(
            ", {bare} {}, where the first row has only one, left bare, since the rows are too near for one right above it",
            if bare == 1 { "stretch" } else { "stretches" }
        );
    }
    if own > 0 {
        said += &format!(", and in {} of its own what fits there", only(own));
    }
    if missing > 0 {
        said += &format!(", and none in {} that only the first row has", only(missing));
    }
    said
}
