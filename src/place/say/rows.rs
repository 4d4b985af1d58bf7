//! Why further rows stand as they do.

use crate::place::along::row::Apart;
use crate::place::chalk::as_hung::Hung;
use crate::place::choice::chosen::{Choice, Chosen, Laid};
use crate::place::ground::Ground;
use crate::place::say::reasons::{clear_reason, counted_on, gaps_words, passed_over, stretch_words};
use crate::place::say::short;
use crate::place::{Evenness, Spacing};
use crate::quantity::Mm;

/// Why a further row, by its number from 0 for the first, stands as it does; lengths are those of the hem as it hung, where it did.
pub(in crate::place) fn row_reasons(
    index: usize,
    chosen: &Chosen,
    ground: &Ground<'_>,
    hung: Option<&Hung<'_>>,
) -> Vec<String> {
    let (choice, now) = hung.map_or((&chosen.choice, ground), |hung| (&hung.choice, &hung.ground));
    let (tier, laid, as_hung) = (&now.tiers[index], &choice.rows[index], if hung.is_some() { "as hung " } else { "" });
    let line = Mm::new(tier.course.length());
    let longer = line - Mm::new(now.tiers[0].course.length());
    let than = match longer.get() {
        more if more > crate::place::say::ALIKE => format!("{longer} longer than the first row's"),
        less if less < -crate::place::say::ALIKE => format!("{} shorter than the first row's", longer.abs()),
        _ => "as long as the first row's".to_owned(),
    };
    let (count, first) = (along(laid), along(&choice.rows[0]));
    let gaps = || format!(": {as_hung}{}", gaps_words(laid, now, index));
    let stands = match (laid.row.apart, chosen.choice.manner) {
        (Some(apart), _) => {
            let stretches = stretch_words(ground, index, chosen.choice.bounds);
            let fewer = fewer_words((first, count), laid, ground);
            format!("{count}{}{}", apart_words(apart, &fewer, (&stretches, first == count)), gaps())
        }
        (None, Evenness::BetweenSeams) => {
            let as_many = fewer_words((first, count), laid, ground);
            format!("{count}, {as_many}; even all along, since nothing must stay clear at this height{}", gaps())
        }
        (None, _) if !tier.shifted => "as many as the first row, each above a motif of it".to_owned(),
        (None, _) if count == first => "as many as the first row, each above a gap of it".to_owned(),
        (None, _) => "one fewer than the first row, each above a gap of it".to_owned(),
    };
    let mut said: Vec<String> = hung.map(|hung| counted_on(index, ground, hung)).into_iter().collect();
    said.push(format!("{stands}; the line is {line} long at this height, {than}"));
    if laid.row.apart.is_some() && chosen.choice.row().apart.is_none() {
        let here = |even: &&Choice| even.worst().is_some_and(|(row, _)| row == index);
        let drafted = if hung.is_some() { "as drafted, " } else { "" };
        let even = chosen.passed_over.iter().find(here);
        said.extend(even.map(|even| format!("{drafted}{}", passed_over(even, true, ground))));
    }
    if laid.row.apart.is_some() || !laid.near.is_empty() {
        said.extend(clear_reason(u32::try_from(count).unwrap_or(u32::MAX), tier, laid));
    }
    said
}

/// Motifs of a row along its line.
pub(super) fn along(laid: &Laid) -> usize {
    laid.row.seats.iter().filter(|seat| !seat.corner).count()
}

/// `as many as the first row`, or `5 fewer than the first row's 40, since no more leave 20 mm there`
fn fewer_words((first, count): (usize, usize), laid: &Laid, ground: &Ground<'_>) -> String {
    let Some(fewer) = first.checked_sub(count) else {
        return format!("{} more than the first row's {first}", count - first);
    };
    let short = usize::try_from(laid.row.short).unwrap_or(usize::MAX).min(fewer);
    // Above gaps there is one fewer in a stretch.
    let above = "as each stands above a gap of the row below";
    match (fewer, short) {
        (0, _) => "as many as the first row".to_owned(),
        (_, 0) => format!("{fewer} fewer than the first row's {first}, {above}"),
        _ if short == fewer => format!("{fewer} fewer than the first row's {first}, {}", why_fewer(laid, ground)),
        _ => format!(
            "{fewer} fewer than the first row's {first}, {} of them {above}, {short} {}",
            fewer - short,
            why_fewer(laid, ground)
        ),
    }
}

/// Why a row lacks motifs: `since no more leave 20 mm there`
pub(super) fn why_fewer(laid: &Laid, ground: &Ground<'_>) -> String {
    match ground.wish.spacing {
        Spacing::Count(_) | Spacing::Even(_) if laid.row.short > 0 => {
            "since so many do not fit between what must stay clear there".to_owned()
        }
        spacing => match spacing.gap() {
            Some(gap) => format!("since no more leave {} there", short(gap)),
            None => "since no more fit there".to_owned(),
        },
    }
}

/// `, in each stretch as many as in the first row, each above a motif of it, and in a stretch of its own what makes it as many`
fn apart_words(apart: Apart, fewer: &str, (stretches, as_many): (&str, bool)) -> String {
    let Apart { above_motifs, above_gaps, above_only, bare, own, missing } = apart;
    if own > 0 && above_motifs + above_gaps + above_only + bare == 0 {
        return format!(", {fewer}, {stretches}");
    }
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
        said += &format!(", and in {} of its own ", only(own));
        said += &if as_many { format!("what makes it {fewer}") } else { format!("what fits: {fewer}") };
    } else if missing > 0 {
        said += &format!(", and none in {} that only the first row has", only(missing));
    }
    said
}
