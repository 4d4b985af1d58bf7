//! Which keys belong to which kind of trim.

use std::ops::Range;

use super::keys::TrimKeys;
use super::{What, not_negative, side, zone};
use crate::job::check::Check;
use crate::job::fault::FaultKind;
use crate::job::given::Given;

/// Refuses keys of another kind.
pub(super) fn only_its_own(check: &mut Check, keys: &TrimKeys, what: What) {
    let strips = matches!(what, What::Facing | What::Pleats(_) | What::Ruffle | What::Binding | What::Piping);
    let pleats = matches!(what, What::Pleats(_));
    let given: [(_, Option<&Range<usize>>, bool, _); 15] = [
        ("ease_percent", place(&keys.ease_percent), what == What::Braid, "braid"),
        ("draw_thread", place(&keys.draw_thread), what == What::Braid, "braid"),
        (
            "overlap",
            place(&keys.overlap),
            matches!(what, What::Braid | What::Lace | What::Binding | What::Piping),
            "braid, lace, binding and piping",
        ),
        ("allowance", place(&keys.allowance), matches!(what, What::Facing | What::Piping), "facing and piping"),
        ("cut", place(&keys.cut), what == What::Facing, "facing"),
        ("visible", place(&keys.visible), pleats, "pleats"),
        ("underfold", place(&keys.underfold), pleats, "pleats"),
        (
            "fullness",
            place(&keys.fullness),
            pleats || matches!(what, What::Ruffle | What::Lace),
            "pleats, ruffle and lace",
        ),
        ("rows", place(&keys.rows), pleats, "pleats"),
        ("row_step", place(&keys.row_step), pleats, "pleats"),
        ("cut_depth", place(&keys.cut_depth), pleats || what == What::Ruffle, "pleats and ruffle"),
        ("cloth_width", place(&keys.cloth_width), strips, "trims that are cut from cloth"),
        ("join", place(&keys.join), strips, "trims that are cut from cloth"),
        ("folds", place(&keys.folds), what == What::Binding, "binding"),
        ("ready_made", place(&keys.ready_made), what == What::Binding, "binding"),
    ];
    for (key, at, belongs, with) in given {
        if let (Some(at), false) = (at, belongs) {
            check.fault(at, FaultKind::OnlyWith { key, with });
        }
    }
}

pub(super) fn place<T>(given: &Option<Given<T>>) -> Option<&Range<usize>> {
    given.as_ref().map(|given| &given.at)
}

/// What is wrong with a trim of no known kind, as far as that does not hang on the kind.
pub(super) fn by_itself(check: &mut Check, keys: &TrimKeys, number: u32) {
    check.above_zero("depth", keys.depth.as_ref());
    for (key, given) in [
        ("height", &keys.height),
        ("overlap", &keys.overlap),
        ("allowance", &keys.allowance),
        ("row_step", &keys.row_step),
        ("join", &keys.join),
    ] {
        check.not_below_zero(key, given.as_ref());
    }
    for (key, given) in [
        ("visible", &keys.visible),
        ("underfold", &keys.underfold),
        ("cut_depth", &keys.cut_depth),
        ("cloth_width", &keys.cloth_width),
    ] {
        check.above_zero(key, given.as_ref());
    }
    for (key, given) in [
        ("price", &keys.price),
        ("weight", &keys.weight),
        ("ease_percent", &keys.ease_percent),
        ("fullness", &keys.fullness),
        ("folds", &keys.folds),
    ] {
        not_negative(check, key, given.as_ref());
    }
    check.take(keys.name.as_ref());
    check.take(keys.cut.as_ref());
    check.take(keys.rows.as_ref());
    check.take(keys.draw_thread.as_ref());
    check.take(keys.ready_made.as_ref());
    side(check, keys, What::Lace);
    zone(check, keys, number);
}
