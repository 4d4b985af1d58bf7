//! What the maker should look at in a row that is set out.

use crate::finding::{Finding, Severity};
use crate::hem::HemError;
use crate::place::along::row::{SAME, Seat};
use crate::place::choice::chosen::Laid;
use crate::place::ground::Ground;
use crate::place::say::short;
use crate::place::{BandSetting, Level, Placement, Stance};
use crate::quantity::Mm;

/// Short of the gap asked for by less than this, in millimetres, is not worth a warning: half of what scissors keep.
pub(in crate::place) const NEARER: f64 = 0.05;

/// What the maker should look at in a row that is set out.
pub(in crate::place) fn findings(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Vec<Finding> {
    let found = [
        clear_gap_short(band, ground),
        below_hem(band, ground, laid),
        corner_over_edge(band, ground, laid),
        leaning(band, ground),
        above_limit(band, ground, laid),
        (!band.clashes.is_empty()).then(|| clashes(band, ground)),
        fewer_in_row(band, ground, laid),
        broken_sequence(band, ground, laid),
        broken_turns(band, ground, laid),
    ];
    found.into_iter().flatten().collect()
}

fn look(kind: &'static str, measure: Option<Mm>, say: String, advice: &str) -> Finding {
    Finding { severity: Severity::LookAtThis, kind, place: None, measure, say, advice: advice.to_owned() }
}

/// So little lowered changes nothing that could be seen, and so much must be free below a line for that to be advised.
const LOWERED: Mm = Mm::new(10.0);

fn clear_gap_short(band: &BandSetting, ground: &Ground<'_>) -> Option<Finding> {
    let lower = ground.may_be_lowered(LOWERED);
    let gap = band.clear_gap.as_ref()?;
    let (a, b) = &gap.between;
    let wanted = ground.wish.spacing.gap().unwrap_or(Mm::ZERO);
    if gap.least.get() <= 0.0 {
        let say = format!("{}: {a} and {b} touch or overlap.", band.name);
        let lower = if lower { ", or bring the motif line down" } else { "" };
        return Some(look("motifs-touch", None, say, &format!("Choose fewer motifs or a narrower one{lower}.")));
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
    let lower = if lower { ", or bring the motif line down," } else { "" };
    let advice = format!(
        "Look at the picture: corners lean toward each other on a flared hem. Take one or two fewer{lower} if it looks crowded."
    );
    (gap.least.get() < wanted.get() - NEARER).then(|| look("square-corners", Some(gap.least), say(), &advice))
}

fn below_hem(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let tier = &ground.tiers[0];
    let first = (band.height - tier.line.height()).get().abs() < SAME;
    let lowest = ground.lowest(tier, &laid.row);
    (first && lowest.get() < -SAME).then(|| {
        let say = format!("{}: motifs reach {} below the finished hem.", band.name, lowest.abs());
        look("below-hem", Some(lowest.abs()), say, "Raise the motif line, or make the motif smaller.")
    })
}

/// A motif in a corner may be larger than those that the line's height was chosen for.
fn corner_over_edge(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let tier = ground.tiers.iter().find(|tier| (tier.line.height() - band.height).abs().get() < SAME)?;
    let (name, least) = (ground.names.last()?, ground.least_in_corners(tier, &laid.row)?);
    let wanted = if ground.wish.level == Level::LowerEdge { ground.wish.height } else { Mm::ZERO };
    let short = wanted - least;
    let say = if least.get() < -SAME {
        format!("{}: {name} in the corners reaches {} over the edge of the cloth.", band.name, least.abs())
    } else {
        let wanted = crate::place::say::short(wanted);
        format!("{}: {name} in the corners comes within {least} of the edge; {wanted} was asked for.", band.name)
    };
    let advice = format!("Raise the motif line {short}, or make {name} smaller.");
    (short.get() > NEARER).then(|| look("below-hem", Some(least.abs()), say, &advice))
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
        let advice = "For a garment take stance \"square to hem\"; on a cloth, which is seen from above, look at the picture laid \
                      flat.";
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
    let advice = if ground.may_be_lowered(by) {
        "Bring the motif line down by that much, or make the motif smaller; there is no cloth for the part above."
    } else {
        "Make the motif smaller; there is no cloth for the part above, and no room below to bring the motif line down by that much."
    };
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
        "What else could be done stands beside the counts; where nothing stands there, make the motif smaller or ask for fewer."
    };
    look("too-near", measure, say, advice)
}

/// A further row that has not as many as the first.
fn fewer_in_row(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let (short, count) = (laid.row.short, along(laid).count());
    (short > 0).then(|| {
        let say = format!(
            "{}: {count} motifs, {short} fewer than the row should have to go with the first, {}.",
            band.name,
            crate::place::say::rows::why_fewer(laid, ground)
        );
        let advice = "Make the motif smaller or ask for fewer, so that every row has the same; or move the place to keep out of.";
        look("fewer-in-row", None, say, advice)
    })
}

fn broken_sequence(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let length = ground.course().sequence.step(ground.course().closed);
    let count = u32::try_from(along(laid).count()).unwrap_or(u32::MAX);
    (!count.is_multiple_of(length)).then(|| {
        let say = format!("{}: {count} motifs are no whole rounds of the {length} that take turns.", band.name);
        let order = &ground.wish.motifs;
        let follow = |a: &str, b: &str| {
            let next = |k: usize| order[(k + 1) % order.len()].as_str();
            (0..order.len()).any(|k| (order[k] == a && next(k) == b) || (order[k] == b && next(k) == a))
        };
        let placed = |(index, _): (usize, &Seat)| &band.placements[index];
        let broken = along(laid)
            .map(placed)
            .zip(along(laid).cycle().skip(1).map(placed))
            .find(|(a, b)| !follow(&a.motif, &b.motif));
        let place = broken.map_or_else(
            || "Somewhere round the ring the sequence breaks".to_owned(),
            |(a, b)| format!("Between {} and {} the sequence breaks", a.id, b.id),
        );
        let advice = format!("{place}; take a multiple of {length}.");
        look("broken-sequence", None, say, &advice)
    })
}

/// Index and seat of the motifs along the line; those in corners take no turns.
fn along(laid: &Laid) -> impl Iterator<Item = (usize, &Seat)> + Clone {
    laid.row.seats.iter().enumerate().filter(|(_, seat)| !seat.corner)
}

/// Motifs that take turns (hands, heights) round a ring in an odd count: two of a kind meet.
fn broken_turns(band: &BandSetting, ground: &Ground<'_>, laid: &Laid) -> Option<Finding> {
    let count = along(laid).count();
    if !ground.takes_turns() || laid.row.round.is_none() || count < 2 {
        return None;
    }
    let ((a, _), (b, _)) =
        along(laid).zip(along(laid).cycle().skip(1)).find(|((_, a), (_, b))| a.second == b.second)?;
    let (a, b) = (&band.placements[a].id, &band.placements[b].id);
    let why = if count % 2 == 1 { format!("{count} is odd, so ") } else { String::new() };
    let say = format!("{}: {why}{a} and {b} are neighbours of the same kind.", band.name);
    Some(look("broken-turns", None, say, "Take an even count, or let the two meet at the back or at an opening."))
}
