//! Steps of work for pieces of cloth: made ready before the press is switched on, sewn down before or after it.
//!
//! Fused pieces are pressed first and zigzagged then, since the web holds them under the needle. Turned pieces are sewn down
//! after pressing, since their folds would hold the plate off what is pressed beside them; but those that a pressed layer of
//! their motif comes on top of must lie there before it. Common practice, no source (106).

use crate::data::usual;
use crate::film::{Method, PieceKind, Travels};
use crate::press::Inputs;
use crate::press::limits::stacks::class_of;

/// Cutting, fusing and turning, before anything is pressed.
pub(super) fn made_ready(inputs: &Inputs<'_>) -> Vec<String> {
    let steps = [
        (
            Method::FusedTraced,
            "Iron fusible web onto the wrong side of the cloth for",
            "with the pieces traced reversed on its \
          paper, as the web's maker says; let it cool, cut along the line and peel off the paper.",
        ),
        (
            Method::FusedBacked,
            "Cut the cloth pieces of",
            "right side up from the cloth that is backed with web, and peel off the \
          paper.",
        ),
        (
            Method::TurnedTemplateOnRight,
            "Cut the cloth pieces of",
            "with their allowance, clip it where the cut sheets show, turn \
          it under along the line marked on the right side, and tack it.",
        ),
        (
            Method::TurnedTemplateOnWrong,
            "Cut the cloth pieces of",
            "with their allowance, clip it where the cut sheets show, turn \
          it under over the stiff template on the wrong side, tack it, and take the template out.",
        ),
    ];
    let step = |(method, begin, end): (Method, &str, &str)| {
        let named = named(inputs.pieces.kinds.iter().filter(|kind| kind.method == method))?;
        Some(format!("{begin} {named}, {end}"))
    };
    steps.into_iter().filter_map(step).collect()
}

/// Turned pieces that something is pressed on top of.
pub(super) fn sewn_before_pressing(inputs: &Inputs<'_>) -> Option<String> {
    let named = named(turned(inputs).filter(|kind| is_pressed_over(inputs, kind)))?;
    Some(format!(
        "Sew the tacked pieces of {named} down along their folds, the lowest layer first, and take the tacking out, before \
         pressing, since what is pressed comes on top of them."
    ))
}

/// Raw edges of fused pieces, then turned pieces that nothing is pressed on top of.
pub(super) fn sewn_after_pressing(inputs: &Inputs<'_>) -> Vec<String> {
    let fused = |kind: &&PieceKind| matches!(kind.method, Method::FusedTraced | Method::FusedBacked);
    let fused: Vec<&PieceKind> = inputs.pieces.kinds.iter().filter(fused).collect();
    let with_film = |kind: &&PieceKind| {
        let film = |other: &PieceKind| other.motif == kind.motif && other.method == Method::Film;
        inputs.pieces.kinds.iter().any(film)
    };
    let film =
        if fused.iter().any(with_film) { "; stop where film lies over an edge, since the needle cuts it" } else { "" };
    let zigzag = named(fused.into_iter()).map(|named| {
        format!(
            "Zigzag closely, {} mm wide, round the raw edges that show of {named}, the lowest layer first, after pressing, since \
             the web holds them then{film}.",
            usual("satin-width")
        )
    });
    let anything_pressed =
        inputs.pieces.kinds.iter().any(|kind| class_of(inputs, &kind.film, kind.method).is_pressed());
    let why = if anything_pressed {
        "; after pressing, since their folds would hold the plate off what is pressed beside them"
    } else {
        ""
    };
    let sewn = named(turned(inputs).filter(|kind| !is_pressed_over(inputs, kind))).map(|named| {
        format!(
            "Sew the tacked pieces of {named} down along their folds, the lowest layer first, and take the tacking out{why}."
        )
    });
    zigzag.into_iter().chain(sewn).collect()
}

fn turned<'a>(inputs: &Inputs<'a>) -> impl Iterator<Item = &'a PieceKind> {
    let is_turned =
        |kind: &&PieceKind| matches!(kind.method, Method::TurnedTemplateOnRight | Method::TurnedTemplateOnWrong);
    inputs.pieces.kinds.iter().filter(is_turned)
}

/// Whether a later layer of its motif is pressed.
fn is_pressed_over(inputs: &Inputs<'_>, kind: &PieceKind) -> bool {
    let over = |other: &PieceKind| {
        other.motif == kind.motif
            && other.layer > kind.layer
            && class_of(inputs, &other.film, other.method).is_pressed()
    };
    inputs.pieces.kinds.iter().any(over)
}

/// `key (grey and red), leaf (green)`: motifs with their cloths; `None` where there are none.
fn named<'a>(kinds: impl Iterator<Item = &'a PieceKind>) -> Option<String> {
    let mut motifs: Vec<(&str, Vec<&str>)> = Vec::new();
    for kind in kinds {
        debug_assert!(kind.method.travels() == Travels::Singly, "cloth is carried singly");
        let at = motifs.iter().position(|(motif, _)| *motif == kind.motif).unwrap_or_else(|| {
            motifs.push((&kind.motif, Vec::new()));
            motifs.len() - 1
        });
        if !motifs[at].1.contains(&kind.film.as_str()) {
            motifs[at].1.push(&kind.film);
        }
    }
    motifs.sort_by_key(|(motif, _)| *motif);
    let words: Vec<String> = motifs.iter().map(|(motif, films)| format!("{motif} ({})", films.join(" and "))).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
mod tests {
    use std::collections::BTreeMap;

    use crate::plan::{Plan, make};

    /// A square with a smaller one of another colour on it.
    const TILE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path fill="#2e7d32" d="M0 0H60V60H0Z"/><path fill="#c62828" d="M15 15H45V45H15Z"/></svg>"##;

    fn planned(motif: &str) -> Plan {
        let text = format!(
            "[hem.straight]\nlength = \"1 m\"\n[[band]]\ncount = 4\n[motif.tile]\nart = \"tile.svg\"\n{motif}\n[laying]\neffort = \"quick\"\n"
        );
        let art = BTreeMap::from([("tile.svg".to_owned(), TILE.to_owned())]);
        make(&crate::job::read(&text).unwrap(), &art, &crate::nest::Silent).unwrap()
    }

    /// Where the steps begin with these words, in this order.
    fn in_order(plan: &Plan, begin: &[&str]) {
        let steps = &plan.press.order_of_work;
        let at: Vec<Option<usize>> =
            begin.iter().map(|begin| steps.iter().position(|step| step.starts_with(begin))).collect();
        assert!(at.iter().all(Option::is_some) && at.is_sorted(), "{begin:?} at {at:?} of {steps:#?}");
    }

    #[test]
    fn fused_pieces_are_zigzagged_after_they_are_pressed() {
        let plan = planned("method = \"fused traced\"");
        in_order(
            &plan,
            &["Mark the places", "Iron fusible web", "Press the test card", "Round 1", "Measure", "Zigzag"],
        );
        assert!(!plan.press.order_of_work.iter().any(|step| step.contains("film lies over")));
        let plan = planned("method = \"fused backed\"\ncolours = { \"#c62828\" = { method = \"film\" } }");
        in_order(&plan, &["Cut the cloth pieces of tile (green)", "Round 2", "Zigzag"]);
        assert!(plan.press.order_of_work.iter().any(|step| step.contains("stop where film lies over an edge")));
    }

    #[test]
    fn turned_pieces_are_sewn_before_film_that_comes_on_top_and_after_film_below() {
        let plan = planned("method = \"turned on right\"\ncolours = { \"#c62828\" = { method = \"film\" } }");
        in_order(&plan, &["Cut the cloth pieces of tile (green)", "Sew the tacked pieces of tile (green)", "Round 1"]);
        let plan = planned("colours = { \"#c62828\" = { method = \"turned on wrong\" } }");
        in_order(&plan, &["Cut the cloth pieces of tile (red)", "Round 1", "Sew the tacked pieces of tile (red)"]);
        let sewn = plan.press.order_of_work.iter().filter(|step| step.starts_with("Sew the tacked")).count();
        assert_eq!(sewn, 1);
    }

    #[test]
    fn where_nothing_is_pressed_no_step_speaks_of_heat() {
        let plan = planned("method = \"turned on wrong\"");
        assert!(plan.press.closures.is_empty());
        in_order(
            &plan,
            &["Sew the seams", "Mark the places", "Cut the cloth pieces of tile (green and red)", "Sew the tacked"],
        );
        for step in &plan.press.order_of_work {
            assert!(
                !["heat", "the plate", "film", "test card", "pressing"].iter().any(|word| step.contains(word)),
                "{step}"
            );
        }
        assert!(plan.press.checklist.iter().all(|line| !line.contains("losing")), "{:?}", plan.press.checklist);
    }
}
