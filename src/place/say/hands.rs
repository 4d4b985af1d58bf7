//! Motifs that have no hand, since they are their own mirror images.

use crate::art::SAME_MIRRORED;
use crate::finding::{Finding, Severity};
use crate::place::ground::Ground;

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
