//! Reasons and warnings in plain sentences.

use super::choose::{Choice, Chosen, Laid};
use super::ground::{Ground, Tier};
use super::remedy::{Change, Outcome};
use super::row::{Apart, Row, SAME};
use super::seams::{Keep, Near};
use super::{Anchor, BandSetting, BandWish, Evenness, Lands, Placement, Spacing, Stance, Tie, Together};
use crate::finding::{Finding, Severity};
use crate::hem::{Hem, HemError, Middle};
use crate::quantity::Mm;

/// Most larger counts that are explained one by one; the rest are alike.
const EXPLAINED: usize = 3;

/// Short of the gap asked for by less than this, in millimetres, is not worth a warning: half of what scissors keep.
const SHORT: f64 = 0.05;

/// Gaps that differ by less than this, in millimetres, are spoken of as one.
const ALIKE: f64 = 0.05;

/// A length without a decimal that says nothing: `95 mm`, `62.5 mm`.
pub(super) fn short(length: Mm) -> String {
    let tenths = (length.get() * 10.0).round() / 10.0;
    if (tenths - tenths.round()).abs() < 0.01 { format!("{length:.0}") } else { length.to_string() }
}

/// Why this count and this arrangement.
pub(super) fn reasons(chosen: &Chosen, ground: &Ground<'_>) -> Vec<String> {
    let mut said = vec![count_reason(chosen, ground)];
    said.extend(size_reason(chosen.choice.row(), ground));
    said.extend(chosen.passed_over.iter().take(EXPLAINED).map(|choice| passed_over(choice, ground)));
    said.extend(bare_corners(&chosen.choice, ground));
    said.extend(seams_reason(&chosen.choice, ground));
    said.extend(chosen.too_few.map(too_few));
    said.extend(middle_reason(&chosen.choice, ground));
    said
}

/// Why motifs lie too near seams though stretches set out on their own would keep them clear.
fn too_few(count: u32) -> String {
    format!(
        "with each stretch set out on its own {count} would keep clear of everything: more than one in six fewer, which is given up \
         for clear seams only where it is asked for (even = \"between seams\")"
    )
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

/// Why a further row stands as it does.
pub(super) fn row_reasons(ground: &Ground<'_>, tier: &Tier, (chosen, laid): (&Chosen, &Laid)) -> Vec<String> {
    let shorter = format!(
        "the line is {} long at this height, {} shorter than the first row's",
        tier.line.length(),
        (ground.tiers[0].line.length() - tier.line.length()).max(Mm::ZERO)
    );
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
    vec![format!("{stands}; {shorter}")]
}

/// `, in each stretch as many as in the first row, each above a motif of it, and in a stretch of its own what fits there`
fn apart_words(apart: Apart) -> String {
    let Apart { above_motifs, above_gaps, above_only, bare, own } = apart;
    let mut said = String::new();
    if above_motifs > 0 {
        said += ", in each stretch as many as in the first row, each above a motif of it";
    }
    if above_gaps > 0 {
        said += ", in each stretch one fewer than in the first row, each above a gap of it";
    }
    let only = |stretches: u32| if stretches == 1 { "a stretch" } else { "stretches" };
    if above_only > 0 {
        said += &format!(", where {} of the first row has only one motif above that", only(above_only));
    }
    if bare > 0 {
        said += &format!(
            ", {bare} {} where the first row has only one left bare, since the rows are too near for one right above it",
            if bare == 1 { "stretch" } else { "stretches" }
        );
    }
    if own > 0 {
        said += &format!(", and in {} of its own what fits there", only(own));
    }
    said
}

fn count_reason(chosen: &Chosen, ground: &Ground<'_>) -> String {
    let count = chosen.choice.count;
    let line = ground.tiers[0].line.length();
    let gaps = gaps_words(&chosen.choice, &ground.tiers[0].keeps);
    let apart = match chosen.choice.manner {
        Evenness::BetweenSeams => format!(", each stretch {} set out on its own", stretch_words(ground)),
        Evenness::Gap | Evenness::ClearGap => String::new(),
    };
    match (ground.wish.spacing, chosen.choice.manner) {
        (Spacing::Count(_) | Spacing::Fit { .. }, _) => {
            format!("{count}, as asked{apart}: {gaps} between them along the motif line of {line}")
        }
        (Spacing::Settled { gap, alone, with, .. }, _) => format!(
            "{}{apart}: {gaps} between them along the motif line of {line}",
            settled_words(count, (gap, alone, with), ground.wish)
        ),
        (Spacing::AtLeast(least), Evenness::BetweenSeams) if ground.manner() == Evenness::ClearGap => format!(
            "{count}{apart} with at least {} between true outlines, equal within each: {gaps} along the motif line of {line}",
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::BetweenSeams) => {
            format!("{count}{apart} with at least {} along the motif line of {line}: {gaps} between them", short(least))
        }
        (Spacing::AtLeast(least), Evenness::ClearGap) if count < chosen.most => format!(
            "{} would keep at least {} between their true outlines, but {count} serves the seams better: {gaps} along the motif \
             line of {line}",
            chosen.most,
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::ClearGap) => format!(
            "{count} is the most that keep at least {} between their true outlines, equal all round: {gaps} along the motif line \
             of {line}",
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::Gap) if count == chosen.most => format!(
            "{count} is the most that leave at least {} along the motif line of {line}: {gaps} between them",
            short(least)
        ),
        (Spacing::AtLeast(least), Evenness::Gap) => format!(
            "{} would leave at least {} along the motif line of {line}, but {count} serves the seams better: {gaps} between them",
            chosen.most,
            short(least)
        ),
    }
}

/// `from seam to seam`, `beside left pocket`
fn stretch_words(ground: &Ground<'_>) -> String {
    let keeps = || ground.tiers.iter().flat_map(|tier| &tier.keeps);
    let mut areas: Vec<&str> = keeps().filter(|keep| keep.is_area()).map(|keep| keep.name.as_str()).collect();
    areas.sort_unstable();
    areas.dedup();
    let (seams, corners) = (keeps().any(|keep| !keep.is_area()), ground.has_corners());
    match (areas.as_slice(), seams || corners) {
        ([], _) if !corners => "from seam to seam".to_owned(),
        ([], _) if !seams => "from corner to corner".to_owned(),
        ([], _) => "between seams and corners".to_owned(),
        ([area], false) => format!("beside {area}"),
        (_, false) => "between the places to keep out of".to_owned(),
        (_, true) => "between seams and places to keep out of".to_owned(),
    }
}

/// `30, the largest count that every size takes with at least 40 mm (this size alone would take 31)`
fn settled_words(count: u32, (gap, alone, with): (Mm, u32, Together), wish: &BandWish) -> String {
    let gap = short(gap);
    let alone =
        |which: &str| if alone == count { String::new() } else { format!(" ({which} alone would take {alone})") };
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

/// `44.9 mm`, or `38.0 mm to 44.9 mm`
fn gaps_words(choice: &Choice, keeps: &[Keep]) -> String {
    let row = choice.row();
    // What lies beside a place to keep out of is no gap between two motifs.
    let areas: Vec<usize> = keeps.iter().filter(|keep| keep.is_area()).map(|keep| row.gap_at(keep.s)).collect();
    let between = || row.gaps().enumerate().filter(|(k, _)| !areas.contains(k)).map(|(_, gap)| gap);
    let least = between().min_by(f64::total_cmp).unwrap_or_else(|| row.gap());
    range_words(Mm::new(least), Mm::new(between().fold(least, f64::max)))
}

fn range_words(least: Mm, greatest: Mm) -> String {
    if (greatest - least).get() < ALIKE { least.to_string() } else { format!("{least} to {greatest}") }
}

fn size_reason(row: &Row, ground: &Ground<'_>) -> Option<String> {
    let (Spacing::Fit { count, gap }, fit) = (ground.wish.spacing, ground.course().sequence.fit) else { return None };
    let smaller = (1.0 - fit) * 100.0;
    (smaller > 1e-6).then(|| {
        let (apart, least) = if row.apart.is_some() {
            (format!(" {}", stretch_words(ground)), "at least ")
        } else {
            (String::new(), "")
        };
        let gap = short(gap);
        format!("motifs {smaller:.1} % smaller than drawn, so that {count} fit{apart} with {least}{gap} between them")
    })
}

/// `31 puts a motif 34.5 mm across panel seam 2; 3 more are too near a seam`
fn passed_over(choice: &Choice, ground: &Ground<'_>) -> String {
    let Some((row, worst)) = choice.worst() else { return format!("{} was passed over", choice.count) };
    let keep = &ground.tiers[row].keeps[worst.keep];
    let what = if choice.faults().0 > 0 { "it or a seam" } else { "a seam" };
    let more = match choice.clashes() - 1 {
        0 => String::new(),
        1 => format!("; 1 more is too near {what}"),
        more => format!("; {more} more are too near {what}"),
    };
    format!("{} {}{more}", choice.count, near_words(worst, keep))
}

/// `puts a motif 34.5 mm across panel seam 2`
fn near_words(near: Near, keep: &Keep) -> String {
    if near.clear < -SAME {
        format!("puts a motif {} across {}", Mm::new(-near.clear), keep.name)
    } else {
        format!("leaves {} to {}, less than {}", Mm::new(near.clear), keep.name, short(Mm::new(keep.clear)))
    }
}

fn seams_reason(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    if let Some((row, worst)) = choice.worst() {
        let keep = &ground.tiers[row].keeps[worst.keep];
        return Some(format!("{} {}", choice.count, near_words(worst, keep)));
    }
    let (keeps, row) = (&ground.tiers[0].keeps, choice.row());
    let edges = keeps
        .iter()
        .flat_map(|keep| row.seats.iter().map(|seat| row.offset(keep.s, seat.s).abs() - seat.half - keep.half));
    let least = edges.min_by(f64::total_cmp)?;
    let mid_gap = keeps.iter().all(|keep| row.lands(keep.s) == Lands::Gap);
    let (areas, seams) = (keeps.iter().any(Keep::is_area), keeps.iter().any(|keep| !keep.is_area()));
    let places = match (areas, seams, mid_gap) {
        (false, _, true) => "every seam lies in the middle of a gap",
        (false, _, false) => "every seam stays clear",
        (true, true, _) => "every seam and every place to keep out of stays clear",
        (true, false, _) => "every place to keep out of stays clear",
    };
    Some(format!("{places}; the nearest motif's edge is {} away along the line", Mm::new(least)))
}

fn middle_reason(choice: &Choice, ground: &Ground<'_>) -> Option<String> {
    let (wish, row) = (ground.wish, choice.row());
    let front = row.lands(0.0);
    let mut said = format!("{} on {}", lands_words(front), middle_name(ground.hem));
    if let Some(round) = row.round {
        let back = row.lands(round / 2.0);
        said += &format!(", {} on CB", lands_words(back));
        if wish.motifs.len() == 1 && choice.manner == Evenness::Gap {
            let parity = if choice.count.is_multiple_of(2) { "even" } else { "odd" };
            said += &format!(" because {} is {parity}", choice.count);
        }
    }
    let wanted = match wish.on_cf {
        Anchor::Motif => Lands::Motif,
        Anchor::Gap => Lands::Gap,
        Anchor::Best => front,
    };
    if wish.rhythm.shift.abs().get() > SAME {
        let by = short(wish.rhythm.shift.abs());
        let way = if (wish.rhythm.shift > Mm::ZERO) == (ground.hem.middle() == Middle::CentreFront) {
            "left"
        } else {
            "right"
        };
        said += &if row.apart.is_none() {
            format!("; every motif stands {by} further to the wearer's {way}, as asked")
        } else {
            format!(
                "; the {by} further to the wearer's {way} that was asked for is given up, since each stretch is set out on its own \
                 and a shift would bring motifs too near its end"
            )
        };
    } else if front != wanted {
        let why = match choice.manner {
            Evenness::BetweenSeams => "which the stretch there has not in its middle",
            Evenness::Gap | Evenness::ClearGap => "which takes one more or one fewer",
        };
        said += &format!("; {} was asked for, {why}", lands_words(wanted));
    }
    Some(said)
}

const fn middle_name(hem: &Hem) -> &'static str {
    match hem.middle() {
        Middle::CentreFront => "CF",
        Middle::CentreBack => "CB",
    }
}

const fn lands_words(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "a motif",
        Lands::Gap => "a gap",
        Lands::Between => "neither a motif's nor a gap's middle",
    }
}

/// `gap on CF: 28 with 44.9 mm between them, a gap on CF, a motif on CB`
pub(super) fn remedy(change: Change, outcome: Outcome, wish: &BandWish, hem: &Hem) -> String {
    let middle = middle_name(hem);
    let motifs = if wish.motifs.len() == 1 { wish.motifs[0].as_str() } else { "the motifs" };
    let change = match change {
        Change::Middle(Anchor::Gap) => format!("put a gap on {middle}"),
        Change::Middle(Anchor::Motif | Anchor::Best) => format!("put a motif on {middle}"),
        Change::Count(count) => format!("take {count}"),
        Change::Narrow { by, factor } => format!("make {motifs} {} narrower ({:.1} %)", short(by), factor * 100.0),
        Change::Raise(by) if by > Mm::ZERO => format!("raise the motif line {}", short(by)),
        Change::Raise(by) => format!("lower the motif line {}", short(by.abs())),
        Change::Gap(gap) => format!("allow a gap of {}", short(gap)),
        Change::Shift(by) => {
            let left = (by > Mm::ZERO) == (hem.middle() == Middle::CentreFront);
            format!("shift every motif {} to the wearer's {}", short(by.abs()), if left { "left" } else { "right" })
        }
        Change::BetweenSeams => "set each stretch from seam to seam out on its own".to_owned(),
    };
    let opposite = outcome.opposite.map(|opposite| format!(", {} on CB", lands_words(opposite))).unwrap_or_default();
    format!(
        "{change}: {} with {} between them, {} on {middle}{opposite}, every seam clear",
        outcome.count,
        range_words(outcome.gap_along, outcome.widest_gap),
        lands_words(outcome.on_middle)
    )
}

/// What the maker should look at in a row that is set out.
pub(super) fn findings(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Vec<Finding> {
    let found = [
        clear_gap_short(band, ground.wish),
        below_hem(band, ground),
        leaning(band, ground),
        above_limit(band, ground, laid),
        (!band.clashes.is_empty()).then(|| clashes(band, ground)),
        broken_sequence(band, ground),
        broken_turns(band, ground, laid),
    ];
    found.into_iter().flatten().collect()
}

fn look(kind: &'static str, measure: Option<Mm>, say: String, advice: &str) -> Finding {
    Finding { severity: Severity::LookAtThis, kind, place: None, measure, say, advice: advice.to_owned() }
}

fn clear_gap_short(band: &BandSetting, wish: &BandWish) -> Option<Finding> {
    let gap = band.clear_gap.as_ref()?;
    let (a, b) = &gap.between;
    let wanted = wish.spacing.gap().unwrap_or(Mm::ZERO);
    if gap.least.get() <= 0.0 {
        let say = format!("{}: {a} and {b} touch or overlap.", band.name);
        let advice = "Choose fewer motifs or a narrower one, or bring the motif line down.";
        return Some(look("motifs-touch", None, say, advice));
    }
    let say = || {
        format!(
            "{}: {a} and {b} come within {} of each other at their nearest points, less than the {} asked for; along the \
             motif line they are {} apart.",
            band.name,
            gap.least,
            short(wanted),
            band.gap_along
        )
    };
    let advice = "Look at the picture: corners lean toward each other on a flared hem. Take one or two fewer, or bring the \
                  motif line down, if it looks crowded.";
    (gap.least.get() < wanted.get() - SHORT).then(|| look("square-corners", Some(gap.least), say(), advice))
}

fn below_hem(band: &BandSetting, ground: &Ground<'_>) -> Option<Finding> {
    let lowest = ground.lowest();
    let first = (band.height - ground.tiers[0].line.height()).get().abs() < SAME;
    (first && lowest.get() < -SAME).then(|| {
        let say = format!("{}: motifs reach {} below the finished hem.", band.name, lowest.abs());
        look("below-hem", Some(lowest.abs()), say, "Raise the motif line, or make the motif smaller.")
    })
}

/// From which lean on a motif that stands upright on the flat cloth is told, degrees: a fringe of the front half looks right.
const LEAN: f64 = 45.0;

/// Upright is meant on the cloth laid flat; round a garment such motifs lean, and at the back of a full circle they hang upside
/// down, and may reach over the hem.
fn leaning(band: &BandSetting, ground: &Ground<'_>) -> Option<Finding> {
    if ground.wish.stance != Stance::Upright {
        return None;
    }
    let line = ground.hem.line_at(band.height).ok()?;
    let lean = |placed: &Placement| {
        let degrees = line.frame_at(placed.s_line).turn().degrees().rem_euclid(360.0);
        degrees.min(360.0 - degrees)
    };
    let worst = band.placements.iter().max_by(|a, b| lean(a).total_cmp(&lean(b)))?;
    (lean(worst) > LEAN).then(|| {
        let say = format!(
            "{}: motifs stand upright on the cloth laid flat, so that {} leans {:.0} degrees to the hem below it{}.",
            band.name,
            worst.id,
            lean(worst),
            if lean(worst) > 135.0 { " and hangs upside down on a garment" } else { "" }
        );
        let advice = "For a garment take stance \"square to hem\"; on a cloth look at the picture laid flat, where corners may \
                      reach nearer the edge than the lower edge asked for.";
        look("leans", None, say, advice)
    })
}

/// Motifs that reach above the waist, or above where lines over this hem end for another reason.
fn above_limit(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let tier = ground.tiers.iter().find(|tier| (tier.line.height() - band.height).abs().get() < SAME)?;
    let highest = ground.highest(tier);
    let fault = ground.hem.line_at(highest).err()?;
    let (limit, what) = match fault {
        HemError::ReachesWaist { waist, .. } => (waist, "the waist where it is nearest"),
        HemError::ReachesGodet { top, .. } => (top, "the points of the godets"),
        HemError::ReachesMiddle { radius, .. } => (radius, "the middle of the hem's tightest curve"),
        HemError::CornersMeet { most, .. } => (most, "where the sides of the cloth meet"),
        _ => return None,
    };
    let by = highest - limit;
    let many = if laid.row.seats.len() == 1 { "the motif reaches" } else { "motifs reach" };
    let say =
        format!("{}: {many} {highest} above the hem, {by} higher than {what}, which lies {limit} above it.", band.name);
    let advice =
        "Bring the motif line down by that much, or make the motif smaller; there is no cloth for the part above.";
    (by.get() > SAME).then(|| look("above-limit", Some(by), say, advice))
}

fn clashes(band: &BandSetting, ground: &Ground<'_>) -> Finding {
    let worst = band.clashes.iter().min_by(|a, b| a.clear.total_cmp(&b.clear));
    let say = worst.map_or_else(String::new, |worst| {
        let how = if worst.clear < Mm::ZERO {
            format!("lies {} across the {}", worst.clear.abs(), worst.with)
        } else {
            format!("is {} from the {}", worst.clear, worst.with)
        };
        let more = match band.clashes.len() - 1 {
            0 => String::new(),
            1 => " 1 more is too near.".to_owned(),
            more => format!(" {more} more are too near."),
        };
        format!("{}: {} {how}; {} was asked for.{more}", band.name, worst.placement, short(worst.wanted))
    });
    let measure = worst.map(|worst| worst.clear.abs());
    let advice = if band.clashes.iter().any(|clash| ground.is_area(&clash.with)) {
        "Beside that place no motif could be kept out of it: make the gap or the motif smaller, or ask for fewer."
    } else {
        "See the remedies beside the counts; each keeps every seam clear."
    };
    look("too-near", measure, say, advice)
}

fn broken_sequence(band: &BandSetting, ground: &Ground<'_>) -> Option<Finding> {
    let length = ground.course().sequence.step(ground.course().closed);
    (!band.count.is_multiple_of(length)).then(|| {
        let say = format!(
            "{}: {} motifs are no whole number of rounds of the {length} in the sequence.",
            band.name, band.count
        );
        let advice = format!("Where the ring closes the sequence breaks; take a multiple of {length}.");
        look("broken-sequence", None, say, &advice)
    })
}

/// Motifs that take turns (hands, heights) round a ring in an odd count: two of a kind meet.
fn broken_turns(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let turns = ground.wish.hands == super::Hands::Alternating || ground.wish.rhythm.wave.is_some();
    let (first, last) = (laid.row.seats.first()?, laid.row.seats.last()?);
    (turns && laid.row.round.is_some() && laid.row.seats.len() > 1 && first.second == last.second).then(|| {
        let (a, b) = (&band.placements[band.placements.len() - 1].id, &band.placements[0].id);
        let say = format!("{}: {} is odd, so {a} and {b} are neighbours of the same kind.", band.name, band.count);
        look("broken-turns", None, say, "Take an even count, or let the two meet at the back or at an opening.")
    })
}
