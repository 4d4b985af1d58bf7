//! Motifs that are cut otherwise than as drawn and placed: in one hand, since they are their own mirror images, or smaller.

use crate::art::SAME_MIRRORED;
use crate::finding::{Finding, Severity};
use crate::place::Spacing;
use crate::place::choice::chosen::Choice;
use crate::place::ground::Ground;
use crate::place::say::{range_words, short};
use crate::quantity::Mm;

/// Per cent from which on smaller motifs are told: what is written of them is rounded to a tenth.
const LEAST_SMALLER: f64 = 0.05;

/// Motifs of a band that asks for mirrored ones and gets them as drawn, since the two are the same.
pub(in crate::place) fn own_mirror_images(ground: &Ground<'_>) -> Option<Finding> {
    let names = ground.own_mirror_images();
    let (which, they) = match names.as_slice() {
        [] => return None,
        [one] => (format!("\"{one}\" is its own mirror image"), "it is"),
        [others @ .., last] => {
            (format!("\"{}\" and \"{last}\" are their own mirror images", others.join("\", \"")), "they are")
        }
    };
    Some(Finding {
        severity: Severity::FixedForYou,
        kind: "own-mirror-image",
        place: None,
        measure: None,
        say: format!(
            "{}: {which}; no outline of any colour lies more than {SAME_MIRRORED:.2} from where mirroring puts it.",
            ground.wish.name
        ),
        advice: format!("So {they} cut, counted and pressed as drawn everywhere, with spares for one hand."),
    })
}

/// Motifs that are smaller than drawn, so that as many as asked for fit with the gap asked for.
pub(in crate::place) fn made_smaller(choice: &Choice, ground: &Ground<'_>) -> Option<Finding> {
    let (Spacing::Fit { count, gap }, fit) = (ground.wish.spacing, ground.course().sequence.fit) else { return None };
    let smaller = (1.0 - fit) * 100.0;
    let drawn = &ground.course().sequence.widths;
    let seats = || choice.rows.iter().flat_map(|laid| &laid.row.seats).filter(|seat| !seat.corner);
    let widths = || seats().map(|seat| drawn[seat.item] * seat.scale);
    let widths = range_words(
        Mm::new(widths().fold(f64::INFINITY, f64::min)),
        Mm::new(widths().fold(f64::NEG_INFINITY, f64::max)),
    );
    (smaller > LEAST_SMALLER && seats().next().is_some()).then(|| Finding {
        severity: Severity::LookAtThis,
        kind: "made-smaller",
        place: None,
        measure: None,
        say: format!(
            "{}: motifs are {smaller:.1} % smaller than drawn, {widths} wide, so that {count} fit with at least {} between them.",
            ground.wish.name,
            short(gap)
        ),
        advice: "Ask for fewer or for a smaller gap if that is too small; leave one of the two out to have them as drawn.".to_owned(),
    })
}
