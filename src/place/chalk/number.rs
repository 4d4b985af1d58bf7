//! Chalk numbers: `CF`, `CB`, `L1` to the wearer's left, `R1` to her right, `C1` for the first corner to her left.

use crate::hem::{Hem, Middle};
use crate::place::along::row::{ON_PLACE, Row, Seat};

/// The ids of a row's seats, in order, with `prefix` before each.
pub(in crate::place) fn ids(row: &Row, hem: &Hem, prefix: &str) -> Vec<String> {
    let (middle, toward_greater, toward_less) = match hem.middle() {
        Middle::CentreFront => ("CF", 'L', 'R'),
        Middle::CentreBack => ("CB", 'R', 'L'),
    };
    let first = row.seats.partition_point(|seat| seat.s < -ON_PLACE);
    let (less, greater) = row.seats.split_at(first);
    let mut corners = 0;
    // Corners are numbered round from CF to the wearer's left, so those on her right come last.
    let mut greater_names = Vec::new();
    let mut along = 0;
    for seat in greater {
        greater_names.push(match special(row, seat, middle, &mut corners) {
            Some(name) => name,
            None => {
                along += 1;
                format!("{toward_greater}{along}")
            }
        });
    }
    let mut less_names = Vec::new();
    let mut back = less.iter().filter(|seat| !seat.corner).count();
    for seat in less {
        less_names.push(match special(row, seat, middle, &mut corners) {
            Some(name) => name,
            None => {
                back -= 1;
                format!("{toward_less}{}", back + 1)
            }
        });
    }
    less_names.into_iter().chain(greater_names).map(|name| format!("{prefix}{name}")).collect()
}

/// The name of a seat in a corner, on the middle or opposite it.
fn special(row: &Row, seat: &Seat, middle: &str, corners: &mut u32) -> Option<String> {
    let opposite = row.round.is_some_and(|round| (seat.s.abs() - round / 2.0).abs() <= ON_PLACE);
    if seat.corner {
        *corners += 1;
        return Some(format!("C{corners}"));
    }
    if seat.s.abs() <= ON_PLACE {
        return Some(middle.to_owned());
    }
    opposite.then(|| "CB".to_owned())
}
