//! Reasons and warnings in plain sentences.

use super::choose::{Choice, Chosen};
use super::row::SAME;
use super::seams::{Keep, Near};
use super::{Anchor, BandSetting, BandWish, Lands, Spacing};
use crate::finding::{Finding, Severity};
use crate::hem::{Hem, Middle};
use crate::quantity::Mm;

/// Most larger counts that are explained one by one; the rest are alike.
const EXPLAINED: usize = 3;

/// Short of the gap asked for by less than this, in millimetres, is not worth a warning: half of what scissors keep.
const SHORT: f64 = 0.05;

/// A length without a decimal that says nothing: `95 mm`, `62.5 mm`.
pub(super) fn short(length: Mm) -> String {
    let tenths = (length.get() * 10.0).round() / 10.0;
    if (tenths - tenths.round()).abs() < 0.01 { format!("{length:.0}") } else { length.to_string() }
}

/// Why this count and this arrangement.
pub(super) fn reasons(chosen: &Chosen, keeps: &[Keep], wish: &BandWish, hem: &Hem, line: Mm) -> Vec<String> {
    let mut said = vec![count_reason(chosen, wish, line)];
    said.extend(chosen.passed_over.iter().take(EXPLAINED).map(|choice| passed_over(choice, keeps)));
    said.extend(seams_reason(&chosen.choice, keeps));
    said.extend(middle_reason(&chosen.choice, wish, hem));
    said
}

fn count_reason(chosen: &Chosen, wish: &BandWish, line: Mm) -> String {
    let count = chosen.choice.count;
    let gap = Mm::new(chosen.choice.row.gap);
    match wish.spacing {
        Spacing::Count(_) => format!("{count}, as asked: {gap} between them along the motif line of {line}"),
        Spacing::AtLeast(least) if count == chosen.most => format!(
            "{count} is the most that leave at least {} along the motif line of {line}; it leaves {gap}",
            short(least)
        ),
        Spacing::AtLeast(least) => format!(
            "{} would leave at least {} along the motif line of {line}, but {count} serves the seams better; it leaves {gap}",
            chosen.most,
            short(least)
        ),
    }
}

/// `31 puts a motif 34.5 mm across panel seam 2, and 3 more too near`
fn passed_over(choice: &Choice, keeps: &[Keep]) -> String {
    let Some(worst) = worst(&choice.near) else { return format!("{} was passed over", choice.count) };
    let keep = &keeps[worst.keep];
    let more = match choice.near.len() - 1 {
        0 => String::new(),
        more => format!("; {more} more are too near a seam"),
    };
    format!("{} {}{more}", choice.count, near_words(*worst, keep))
}

/// `puts a motif 34.5 mm across panel seam 2`
fn near_words(near: Near, keep: &Keep) -> String {
    if near.clear < -SAME {
        format!("puts a motif {} across {}", Mm::new(-near.clear), keep.name)
    } else {
        format!("leaves {} to {}, less than {}", Mm::new(near.clear), keep.name, short(Mm::new(keep.clear)))
    }
}

fn worst(near: &[Near]) -> Option<&Near> {
    near.iter().min_by(|a, b| a.clear.total_cmp(&b.clear))
}

fn seams_reason(choice: &Choice, keeps: &[Keep]) -> Option<String> {
    if keeps.is_empty() {
        return None;
    }
    if let Some(worst) = worst(&choice.near) {
        let keep = &keeps[worst.keep];
        return Some(format!(
            "{} {}; no other count or middle does better here",
            choice.count,
            near_words(*worst, keep)
        ));
    }
    let least = keeps
        .iter()
        .flat_map(|keep| choice.row.seats.iter().map(move |seat| choice.row.offset(keep.s, seat.s).abs() - seat.half));
    let least = least.min_by(f64::total_cmp)?;
    let mid_gap = keeps.iter().all(|keep| choice.row.lands(keep.s) == Lands::Gap);
    let places = if mid_gap { "every seam lies in the middle of a gap" } else { "every seam stays clear" };
    Some(format!("{places}; the nearest motif's edge is {} away", Mm::new(least)))
}

fn middle_reason(choice: &Choice, wish: &BandWish, hem: &Hem) -> Option<String> {
    let front = choice.row.lands(0.0);
    let middle = match hem.middle() {
        Middle::CentreFront => "CF",
        Middle::CentreBack => "CB",
    };
    let mut said = format!("{} on {middle}", lands_words(front));
    if let (Some(round), true) = (choice.row.round, wish.motifs.len() == 1) {
        let back = choice.row.lands(round / 2.0);
        let parity = if choice.count.is_multiple_of(2) { "even" } else { "odd" };
        said += &format!(", and {} on CB because {} is {parity}", lands_words(back), choice.count);
    }
    let wanted = match wish.on_cf {
        Anchor::Motif => Lands::Motif,
        Anchor::Gap => Lands::Gap,
        Anchor::Best => front,
    };
    if front != wanted {
        said += &format!("; {} was asked for, which takes one more or one fewer", lands_words(wanted));
    }
    Some(said)
}

fn lands_words(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "a motif",
        Lands::Gap => "a gap",
        Lands::Between => "neither a motif's nor a gap's middle",
    }
}

/// What the maker should look at in a band that is set out.
pub(super) fn findings(band: &BandSetting, wish: &BandWish, lowest: Mm, ring: bool) -> Vec<Finding> {
    let sequence = u32::try_from(wish.motifs.len()).unwrap_or(u32::MAX);
    let broken = ring && !band.count.is_multiple_of(sequence);
    [
        clear_gap_short(band, wish),
        below_hem(band, lowest),
        (!band.clashes.is_empty()).then(|| clashes(band)),
        broken.then(|| broken_sequence(band, wish)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn clear_gap_short(band: &BandSetting, wish: &BandWish) -> Option<Finding> {
    let gap = band.clear_gap.as_ref()?;
    let (a, b) = &gap.between;
    let wanted = match wish.spacing {
        Spacing::AtLeast(wanted) => wanted,
        Spacing::Count(_) => Mm::ZERO,
    };
    if gap.least.get() <= 0.0 {
        return Some(Finding {
            severity: Severity::LookAtThis,
            kind: "motifs-touch",
            place: None,
            measure: None,
            say: format!("{}: {a} and {b} touch or overlap.", band.name),
            advice: "Choose fewer motifs or a narrower one, or bring the motif line down.".to_owned(),
        });
    }
    (gap.least.get() < wanted.get() - SHORT).then(|| Finding {
        severity: Severity::LookAtThis,
        kind: "square-corners",
        place: None,
        measure: Some(gap.least),
        say: format!(
            "{}: {a} and {b} come within {} of each other at their nearest points, less than the {} asked for; along the \
             motif line they are {} apart.",
            band.name,
            gap.least,
            short(wanted),
            band.gap_along
        ),
        advice: "Look at the picture: corners lean toward each other on a flared hem. Take one or two fewer, or bring the \
                 motif line down, if it looks crowded."
            .to_owned(),
    })
}

fn below_hem(band: &BandSetting, lowest: Mm) -> Option<Finding> {
    (lowest < Mm::ZERO - Mm::new(SAME)).then(|| Finding {
        severity: Severity::LookAtThis,
        kind: "below-hem",
        place: None,
        measure: Some(lowest.abs()),
        say: format!("{}: motifs reach {} below the finished hem.", band.name, lowest.abs()),
        advice: "Raise the motif line, or make the motif smaller.".to_owned(),
    })
}

fn clashes(band: &BandSetting) -> Finding {
    let worst = band.clashes.iter().min_by(|a, b| a.clear.total_cmp(&b.clear));
    let say = worst.map_or_else(String::new, |worst| {
        let how = if worst.clear < Mm::ZERO {
            format!("lies {} across the {}", worst.clear.abs(), worst.with)
        } else {
            format!("is {} from the {}", worst.clear, worst.with)
        };
        let more = match band.clashes.len() - 1 {
            0 => String::new(),
            more => format!(" {more} more are too near."),
        };
        format!("{}: {} {how}; {} was asked for.{more}", band.name, worst.placement, short(worst.wanted))
    });
    Finding {
        severity: Severity::LookAtThis,
        kind: "too-near",
        place: None,
        measure: worst.map(|worst| worst.clear.abs()),
        say,
        advice: "Try the neighbouring counts, or a gap instead of a motif on centre front.".to_owned(),
    }
}

fn broken_sequence(band: &BandSetting, wish: &BandWish) -> Finding {
    let length = wish.motifs.len();
    Finding {
        severity: Severity::LookAtThis,
        kind: "broken-sequence",
        place: None,
        measure: None,
        say: format!(
            "{}: {} motifs are no whole number of rounds of the {length} in the sequence.",
            band.name, band.count
        ),
        advice: format!("Where the ring closes the sequence breaks; take a multiple of {length}."),
    }
}
