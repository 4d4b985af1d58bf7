//! Why this count and this arrangement.

use crate::place::along::row::{Row, SAME};
use crate::place::chalk::as_hung::Hung;
use crate::place::choice::chosen::{Bounds, Choice, Chosen, Laid};
use crate::place::clash::seams::{Keep, Near};
use crate::place::ground::{Ground, Tier};
use crate::place::say::middle::middle_reason;
use crate::place::say::together::settled_words;
use crate::place::say::{ALIKE, Kept, lands_words, middle_name, range_words, short};
use crate::place::{Anchor, Evenness, Lands, Spacing};
use crate::quantity::Mm;

/// Most larger counts that are explained one by one; the rest are alike.
const EXPLAINED: usize = 3;

/// Why this count and this arrangement of the first row. What was weighed is told of the draft; gaps and distances are those of the
/// hem as it hung, where it did.
pub(in crate::place) fn reasons(chosen: &Chosen, ground: &Ground<'_>, hung: Option<&Hung<'_>>) -> Vec<String> {
    let (choice_now, now) = hung.map_or((&chosen.choice, ground), |hung| (&hung.choice, &hung.ground));
    let drafted = if hung.is_some() { "as drafted, " } else { "" };
    let mut said: Vec<String> = hung.map(|hung| counted_on(0, ground, hung)).into_iter().collect();
    said.push(count_reason(chosen, ground, hung));
    said.extend(size_reason(&chosen.choice, ground).map(|said| format!("{drafted}{said}")));
    said.extend(raised_reason(ground));
    let apart = chosen.choice.manner == Evenness::BetweenSeams;
    // Why the stretches of a further row are set out on their own is told with that row.
    let here = |choice: &&Choice| {
        !apart || chosen.choice.row().apart.is_some() || choice.worst().is_none_or(|(row, _)| row == 0)
    };
    let passed_over =
        chosen.passed_over.iter().filter(here).take(EXPLAINED).map(|choice| passed_over(choice, apart, ground));
    said.extend(passed_over.map(|said| format!("{drafted}{said}")));
    said.extend(corners_reason(&chosen.choice, ground));
    said.extend(bare_corners(&chosen.choice, ground));
    said.extend(clear_reason(chosen.choice.count, &now.tiers[0], &choice_now.rows[0]));
    said.extend(chosen.too_few.map(too_few));
    said.extend(middle_reason(&chosen.choice, ground));
    said
}

/// What a row was counted on and where it came to lie.
pub(super) fn counted_on(row: usize, ground: &Ground<'_>, hung: &Hung<'_>) -> String {
    format!(
        "counted on the hem as drafted, {} along the motif line, and spread anew within each part of the hem as measured again, {} \
         along the motif line",
        ground.tiers[row].line.length(),
        Mm::new(hung.ground.tiers[row].course.length())
    )
}

/// How motifs stand beside corners that have none of their own.
fn corners_reason(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    let (row, nooks) = (choice.row(), &ground.tiers[0].nooks);
    // So many as were asked for may have to stand nearer; what then touches is told.
    let keeps = nooks
        .iter()
        .all(|nook| row.seats.iter().all(|seat| row.offset(nook.s, seat.s).abs() - seat.half >= nook.occupied - SAME));
    (!nooks.is_empty() && ground.corner_item().is_none() && keeps).then(|| {
        "at each corner the motifs on both sides keep half a gap from the mitre line, so that round the corner their outlines are \
         at least one gap apart too"
            .to_owned()
    })
}

/// Corners that stay without their motif.
fn bare_corners(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    ground.corner_item()?;
    let there = choice.row().seats.iter().filter(|seat| seat.corner).count();
    let bare = ground.tiers[0].nooks.len().checked_sub(there).filter(|bare| *bare > 0)?;
    let stay = if bare == 1 {
        "1 corner stays without its motif"
    } else {
        &format!("{bare} corners stay without their motif")
    };
    Some(format!("{stay}, since a place to keep out of lies there"))
}

/// Why motifs lie too near seams though stretches set out on their own would keep them clear.
fn too_few(count: u32) -> String {
    format!(
        "with each stretch set out on its own {count} would keep clear of everything: more than one in six fewer, which is given up \
         for clear seams only where it is asked for (even = \"between seams\")"
    )
}

fn count_reason(chosen: &Chosen, ground: &Ground<'_>, hung: Option<&Hung<'_>>) -> String {
    let (own, most) = (chosen.choice.count, chosen.most);
    let (choice_now, now) = hung.map_or((&chosen.choice, ground), |hung| (&hung.choice, &hung.ground));
    let count = count_words(own, chosen.choice.row());
    let line = ground.tiers[0].line.length();
    let line_now = Mm::new(now.tiers[0].course.length());
    let as_hung = if hung.is_some() { "as hung " } else { "" };
    let gaps = format!("{as_hung}{}{}", gaps_words(&choice_now.rows[0], now, 0), wave_words(ground));
    // A row that nothing bounds is even, whatever the rows above it are.
    let manner = match (chosen.choice.manner, &chosen.choice.row().apart) {
        (Evenness::BetweenSeams, None) if ground.manner() != Evenness::BetweenSeams => ground.manner(),
        (manner, _) => manner,
    };
    let apart = match chosen.choice.row().apart {
        Some(_) => format!(", {}", stretch_words(ground, 0, chosen.choice.bounds)),
        None => String::new(),
    };
    match (ground.wish.spacing, manner) {
        (Spacing::Count(_) | Spacing::Even(_) | Spacing::Fit { .. }, _) => {
            format!("{count}, as asked{apart}: {gaps} along the motif line of {line_now}")
        }
        (Spacing::Settled { gap, alone, with, held_by_row, .. }, _) => format!(
            "{}{apart}: {gaps} along the motif line of {line_now}",
            settled_words((own, &count), (gap, alone, with, held_by_row), ground.wish)
        ),
        (Spacing::AtLeast(least), Evenness::BetweenSeams) if ground.manner() == Evenness::ClearGap => format!(
            "{count}{apart} with at least {} between true outlines, equal within each: {gaps} along the motif line of {line_now}",
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::BetweenSeams) => {
            format!("{count}{apart} with at least {} along the motif line of {line}: {gaps}", short(least))
        }
        (Spacing::AtLeast(least), Evenness::ClearGap) if own < most => format!(
            "{most} would keep at least {} between their true outlines, but {}: {gaps} along the motif line of {line}",
            short(least),
            why_fewer(chosen, ground)
        ),
        (Spacing::AtLeast(least), Evenness::ClearGap) => format!(
            "{count} is the most that keep at least {} between their true outlines, equal all round: {gaps} along the motif line \
             of {line}",
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::Gap) if own == most => {
            let every = tightest_above(choice_now).filter(|_| chosen.choice.short() == 0);
            let (rows, above) = every.map_or((String::new(), String::new()), |(number, gap)| {
                (" in every row".to_owned(), format!(", {gap} in row {number}"))
            });
            format!(
                "{count} is the most that leave at least {}{rows} along the motif line of {line}: {gaps}{above}",
                short(least)
            )
        }
        (Spacing::AtLeast(least), Evenness::Gap) => format!(
            "{most} would leave at least {} along the motif line of {line}, but {}: {gaps}",
            short(least),
            why_fewer(chosen, ground)
        ),
    }
}

/// The number and the gap of the tightest further row, where it is tighter than the first.
fn tightest_above(choice: &Choice) -> Option<(usize, Mm)> {
    let gap = |row: usize| choice.rows[row].row.gap();
    let tightest = (0..choice.rows.len()).min_by(|a, b| gap(*a).total_cmp(&gap(*b)))?;
    (gap(tightest) < gap(0) - ALIKE).then(|| (tightest + 1, Mm::new(gap(tightest))))
}

/// `30 keeps clear of the seams`
fn why_fewer(chosen: &Chosen, ground: &Ground<'_>) -> String {
    let (choice, them) = (&chosen.choice, Kept::of(ground).them());
    let asked = match ground.wish.on_cf {
        Anchor::Motif => Some(Lands::Motif),
        Anchor::Gap => Some(Lands::Gap),
        Anchor::Best => None,
    };
    let odd_only = chosen.passed_over.iter().all(|choice| choice.clashes() == 0);
    match asked {
        _ if !chosen.passed_over.is_empty() && odd_only => {
            format!("{} is even, so that they take turns all round", choice.count)
        }
        _ if !chosen.passed_over.is_empty() && choice.clashes() == 0 => {
            format!("{} keeps clear of {them}", choice.count)
        }
        _ if !chosen.passed_over.is_empty() => format!("{} comes less near {them}", choice.count),
        Some(lands) if !ground.course().closed && choice.row().lands(0.0) == lands => {
            format!("{} puts {} on {}, as asked", choice.count, lands_words(lands), middle_name(ground.hem))
        }
        _ if ground.tiers.len() > 1 => format!("{} is the most that every row takes", choice.count),
        _ => format!("{} suits this band better", choice.count),
    }
}

/// `40`, or `40 along the edges and 4 in the corners`
fn count_words(count: u32, row: &Row) -> String {
    match row.seats.iter().filter(|seat| seat.corner).count() {
        0 => count.to_string(),
        1 => format!("{count} along the edges and 1 in a corner"),
        corners => format!("{count} along the edges and {corners} in the corners"),
    }
}

/// `each stretch from seam to seam set out on its own`
pub(super) fn stretch_words(ground: &Ground<'_>, row: usize, bounds: Option<Bounds>) -> String {
    let tier = &ground.tiers[row];
    let (kept, corners) = (Kept::bounding(tier, bounds), !tier.nooks.is_empty());
    let stretches = match (corners, &kept) {
        (false, kept) if kept.is_one() && tier.course.closed => {
            return format!("set out from one side of {} round to the other", kept.them());
        }
        (false, kept) if kept.areas_only() => format!("beside {}", kept.them()),
        (false, kept) if kept.lines_only() => "from seam to seam".to_owned(),
        (true, kept) if kept.each().is_empty() => "from corner to corner".to_owned(),
        (false, kept) => format!("between {}", kept.them()),
        (true, kept) => format!("between {} and corners", kept.them()),
    };
    format!("each stretch {stretches} set out on its own")
}

/// `44.9 mm between them`, or `38.0 mm to 44.9 mm between them`
pub(super) fn gaps_words(laid: &Laid, ground: &Ground<'_>, row: usize) -> String {
    let (tier, row) = (&ground.tiers[row], &laid.row);
    if row.seats.len() == 1 {
        return format!("{} bare beside it", Mm::new(row.gap()));
    }
    // What lies beside a place to keep out of is no gap between two motifs, and round a corner the line is longer than the way.
    let keeps = tier.keeps.iter().filter(|keep| keep.is_area()).map(|keep| keep.s);
    let bare = tier.nooks.iter().map(|nook| nook.s).filter(|_| ground.corner_item().is_none());
    let apart: Vec<usize> = keeps.chain(bare).map(|place| row.gap_at(place)).collect();
    let counts = |k: usize| !apart.contains(&k) && !row.between_corners(k);
    let between = || row.gaps().enumerate().filter(|(k, _)| counts(*k)).map(|(_, gap)| gap);
    let least = between().min_by(f64::total_cmp).unwrap_or_else(|| row.gap());
    if least < -SAME {
        return format!("up to {} behind each other", Mm::new(-least));
    }
    format!("{} between them", range_words(Mm::new(least), Mm::new(between().fold(least, f64::max))))
}

/// `, counting that a raised motif 60 mm wide covers 62.6 mm of the line`; nothing where it covers its own width.
fn wave_words(ground: &Ground<'_>) -> String {
    let sequence = &ground.course().sequence;
    let widest = Mm::new(sequence.widths.iter().copied().fold(0.0, f64::max) * sequence.fit);
    let covers = widest * sequence.lifted;
    if ground.wish.rhythm.wave.is_none() || (covers - widest).abs().get() < ALIKE {
        return String::new();
    }
    format!(" (a raised motif {} wide covers {covers} of this line)", short(widest))
}

fn size_reason(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    let (Spacing::Fit { count, gap }, fit) = (ground.wish.spacing, ground.course().sequence.fit) else { return None };
    let apart = choice.rows.iter().any(|laid| laid.row.apart.is_some());
    let smaller = (1.0 - fit) * 100.0;
    (smaller > 1e-6).then(|| {
        let kept = Kept::of(ground).them();
        let beside = if !apart || kept.is_empty() { String::new() } else { format!(" beside {kept}") };
        let least = if apart { "at least " } else { "" };
        let gap = short(gap);
        format!("motifs {smaller:.1} % smaller than drawn, so that {count} fit{beside} with {least}{gap} between them")
    })
}

/// Why the line of upright motifs runs higher than half their height above what was asked for.
fn raised_reason(ground: &Ground<'_>) -> Option<String> {
    (ground.raised.get() > crate::place::say::ALIKE).then(|| {
        format!(
            "the motif line runs {} above the edge, {} higher than for motifs square to it, so that upright ones keep {} to the edge \
             with their true outlines wherever they stand",
            ground.tiers[0].line.height(),
            ground.raised,
            short(ground.wish.height)
        )
    })
}

/// `31 puts a motif 34.5 mm across panel seam 2; 3 more are too near a seam`
pub(super) fn passed_over(choice: &Choice, apart: bool, ground: &Ground<'_>) -> String {
    let Some((row, worst)) = choice.worst() else {
        return match choice.count {
            odd if ground.breaks_turns(odd) => {
                format!("{odd} is odd: where the ring closes two of a kind would stand side by side")
            }
            count => format!("{count} was passed over"),
        };
    };
    let keep = &ground.tiers[row].keeps[worst.keep];
    let kept = Kept::of(ground);
    let what = match (kept.areas_only() || kept.opening_only(), choice.faults().0 > 0) {
        (true, _) => "it",
        (false, true) => "it or a seam",
        (false, false) => "a seam",
    };
    let more = match choice.clashes() - 1 {
        0 => String::new(),
        1 => format!("; 1 more is too near {what}"),
        more => format!("; {more} more are too near {what}"),
    };
    let even = if apart && choice.manner != Evenness::BetweenSeams { ", evenly spread," } else { "" };
    let there = if row > 0 { format!(" in row {}", row + 1) } else { String::new() };
    format!("{}{even} {}{there}{more}", choice.count, near_words(worst, keep))
}

/// `puts a motif 34.5 mm across panel seam 2`
fn near_words(near: Near, keep: &Keep) -> String {
    if near.clear < -SAME {
        format!("puts a motif {} across {}", Mm::new(-near.clear), keep.name)
    } else {
        format!("leaves {} to {}, less than {}", Mm::new(near.clear), keep.name, short(Mm::new(keep.clear)))
    }
}

/// What a row keeps clear of, or where it comes nearest to what it should.
pub(super) fn clear_reason(count: u32, tier: &Tier, laid: &Laid) -> Option<String> {
    if let Some(worst) = laid.near.iter().min_by(|a, b| a.clear.total_cmp(&b.clear)) {
        return Some(format!("{count} {}", near_words(*worst, &tier.keeps[worst.keep])));
    }
    let (keeps, row, kept) = (&tier.keeps, &laid.row, Kept::of_row(tier));
    let edges = keeps
        .iter()
        .flat_map(|keep| row.seats.iter().map(|seat| row.offset(keep.s, seat.s).abs() - seat.half - keep.half));
    let least = edges.min_by(f64::total_cmp)?;
    let mid_gap = kept.lines_only() && keeps.iter().all(|keep| row.lands(keep.s) == Lands::Gap);
    let places = if mid_gap {
        kept.does("lies in the middle of a gap", "lie in the middle of gaps")
    } else {
        kept.does("stays clear", "stay clear")
    };
    Some(format!("{places}; the nearest motif's edge is {} away along the line", Mm::new(least)))
}
