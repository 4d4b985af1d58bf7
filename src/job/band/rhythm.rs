//! The keys of `[[band]]` that depart from one even row: order, sizes, rows, waves, what is kept even.

use std::ops::Range;

use super::keys::BandKeys;
use crate::job::check::Check;
use crate::job::fault::FaultKind;
use crate::job::given::Times;
use crate::place::{CornerWish, Evenness, Order, Rhythm, RowOffset, Rows, Tie};
use crate::quantity::Mm;

/// A motif more than so many times as large as drawn is a slip: per cents written without their sign.
const LARGEST_SIZE: f64 = 10.0;

/// The rhythm as checked; what is left out is the plain one and needs no assumption.
pub(super) fn check(
    check: &mut Check,
    keys: &BandKeys,
    key: &str,
    (motifs, without_corners): (&[String], bool),
) -> Option<Rhythm> {
    let order = match &keys.order {
        None => Some(Order::Repeating),
        given => {
            check.one_of(given.as_ref(), &[("repeating", Order::Repeating), ("mirrored", Order::MirroredAboutMiddle)])
        }
    };
    let evenness = match &keys.even {
        None => {
            let taken = "the gap along the line: in an even row steps are equal too, halves fold onto each other, and chalk is easy to check";
            check.assume("what is kept equal between motifs", taken, format!("{key}: even"));
            Some(Evenness::Gap)
        }
        given => check.one_of(
            given.as_ref(),
            &[("gap", Evenness::Gap), ("clear gap", Evenness::ClearGap), ("between seams", Evenness::BetweenSeams)],
        ),
    };
    let wave = match &keys.wave {
        None => Some(None),
        given => check.above_zero("wave", given.as_ref()).map(Some),
    };
    let sizes = sizes(check, keys);
    let rows = rows(check, keys);
    let corner = corner(check, keys, motifs, without_corners);
    let shift = match &keys.shift {
        None => Some(Mm::ZERO),
        given => check.take(given.as_ref()),
    };
    let tie = tie(check, keys);
    let (order, evenness) = (order?, evenness?);
    let (wave, corner, shift) = (wave?, corner?, shift?);
    Some(Rhythm { order, sizes: sizes?, evenness, rows: rows?, wave, corner, shift, tie: tie? })
}

fn tie(check: &mut Check, keys: &BandKeys) -> Option<Option<Tie>> {
    let Some(given) = &keys.tied_to else {
        if let Some(times) = &keys.times {
            check.fault(&times.at, FaultKind::OnlyWith { key: "times", with: "tied_to" });
        }
        return Some(None);
    };
    let to = check.take(Some(given));
    let times = match &keys.times {
        None => Some(Times { own: 1, of: 1 }),
        given => check.take(given.as_ref()),
    };
    let Times { own, of } = times?;
    Some(Some(Tie { to: to?, own, of }))
}

fn corner(check: &mut Check, keys: &BandKeys, motifs: &[String], without_corners: bool) -> Option<Option<CornerWish>> {
    let Some(given) = &keys.corner else {
        if let Some(takes) = &keys.corner_takes {
            check.fault(&takes.at, FaultKind::OnlyWith { key: "corner_takes", with: "corner" });
        }
        return Some(None);
    };
    let occupies = match &keys.corner_takes {
        Some(takes) => check.above_zero("corner_takes", Some(takes)).map(Some),
        None => Some(None),
    };
    let name = check.take(Some(given))?;
    if !motifs.contains(&name) {
        check.fault(&given.at, FaultKind::NoSuch { what: "motif", name, known: motifs.to_vec() });
        return None;
    }
    if without_corners {
        check.fault(&given.at, FaultKind::NoCorners { motif: name });
        return None;
    }
    Some(Some(CornerWish { motif: name, occupies: occupies? }))
}

fn sizes(check: &mut Check, keys: &BandKeys) -> Option<Vec<f64>> {
    let mut sizes = Vec::new();
    for given in keys.sizes.iter().flatten() {
        let Some(size) = check.take(Some(given)) else { continue };
        if size > 0.0 && size <= LARGEST_SIZE {
            sizes.push(size);
        } else {
            check.fault(&given.at, FaultKind::NotASizeFactor { found: size.to_string(), most: LARGEST_SIZE });
        }
    }
    (sizes.len() == keys.sizes.as_ref().map_or(0, Vec::len)).then_some(sizes)
}

fn rows(check: &mut Check, keys: &BandKeys) -> Option<Rows> {
    let count = match &keys.rows {
        None => Some(1),
        Some(given) => check.take(Some(given)).filter(|rows| {
            if *rows == 0 {
                check.fault(&given.at, FaultKind::NotAboveZero { key: "rows", found: "0".to_owned() });
            }
            *rows > 0
        }),
    };
    let rise = match &keys.rise {
        None => Some(Mm::ZERO),
        given => check.above_zero("rise", given.as_ref()),
    };
    let offset = match &keys.offset {
        None => Some(RowOffset::None),
        given => check.one_of(given.as_ref(), &[("none", RowOffset::None), ("half", RowOffset::HalfRepeat)]),
    };
    let mut whole = true;
    let mut lacks = |at: &Range<usize>, key, with| {
        check.fault(at, FaultKind::OnlyWith { key, with });
        whole = false;
    };
    match (&keys.rows, &keys.rise) {
        (Some(rows), None) if count.is_some_and(|rows| rows > 1) => lacks(&rows.at, "rows", "rise"),
        (None, Some(rise)) => lacks(&rise.at, "rise", "rows"),
        _ => {}
    }
    if let (Some(given), None) = (&keys.offset, &keys.rows) {
        lacks(&given.at, "offset", "rows");
    }
    Some(Rows { count: count?, rise: rise?, offset: offset? }).filter(|_| whole)
}
