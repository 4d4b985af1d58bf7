//! Chalk numbers: `CF`, `CB`, `L1` to the wearer's left, `R1` to her right.

use super::row::{ON_PLACE, Row};
use crate::hem::{Hem, Middle};

/// The ids of a row's seats, in order, with `prefix` before each.
pub(super) fn ids(row: &Row, hem: &Hem, prefix: &str) -> Vec<String> {
    let (middle, toward_greater, toward_less) = match hem.middle() {
        Middle::CentreFront => ("CF", 'L', 'R'),
        Middle::CentreBack => ("CB", 'R', 'L'),
    };
    let half_round = row.round.map(|round| round / 2.0);
    let less = row.seats.iter().filter(|seat| seat.s < -ON_PLACE).count();
    let on_middle = row.seats.iter().filter(|seat| seat.s.abs() <= ON_PLACE).count();
    row.seats
        .iter()
        .enumerate()
        .map(|(k, seat)| {
            let far = half_round.is_some_and(|half| row.seats.len() > 1 && (seat.s.abs() - half).abs() <= ON_PLACE);
            let name = if seat.s.abs() <= ON_PLACE {
                middle.to_owned()
            } else if far {
                "CB".to_owned()
            } else if k < less {
                format!("{toward_less}{}", less - k)
            } else {
                format!("{toward_greater}{}", k + 1 - less - on_middle)
            };
            format!("{prefix}{name}")
        })
        .collect()
}
