//! The keys of `[[band]]` that depart from one even row: order, sizes, rows, waves, what is kept even.

use super::band::BandKeys;
use super::check::Check;
use super::fault::FaultKind;
use super::given::Times;
use crate::place::{CornerWish, Evenness, Order, Rhythm, RowOffset, Rows, Tie};
use crate::quantity::Mm;

/// A motif more than so many times as large as drawn is a slip: per cents written without their sign.
const LARGEST_SIZE: f64 = 10.0;

/// The rhythm as checked; what is left out is the plain one and needs no assumption.
pub(super) fn check(check: &mut Check, keys: &BandKeys, key: &str, motifs: &[String]) -> Option<Rhythm> {
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
    let corner = corner(check, keys, motifs);
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
    let to = check.take(Some(given))?;
    let Times { own, of } = match &keys.times {
        None => Times { own: 1, of: 1 },
        given => check.take(given.as_ref())?,
    };
    Some(Some(Tie { to, own, of }))
}

fn corner(check: &mut Check, keys: &BandKeys, motifs: &[String]) -> Option<Option<CornerWish>> {
    let Some(given) = &keys.corner else {
        if let Some(takes) = &keys.corner_takes {
            check.fault(&takes.at, FaultKind::OnlyWith { key: "corner_takes", with: "corner" });
        }
        return Some(None);
    };
    let name = check.take(Some(given))?;
    if !motifs.contains(&name) {
        check.fault(&given.at, FaultKind::NoSuch { what: "motif", name, known: motifs.to_vec() });
        return None;
    }
    let occupies = match &keys.corner_takes {
        Some(takes) => Some(check.above_zero("corner_takes", Some(takes))?),
        None => None,
    };
    Some(Some(CornerWish { motif: name, occupies }))
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
        None => 1,
        given => check.take(given.as_ref()).filter(|rows| {
            if *rows == 0 {
                let at = given.as_ref().map_or(0..0, |given| given.at.clone());
                check.fault(&at, FaultKind::NotAboveZero { key: "rows", found: "0".to_owned() });
            }
            *rows > 0
        })?,
    };
    let rise = check.above_zero("rise", keys.rise.as_ref());
    match (&keys.rows, &keys.rise) {
        (Some(rows), None) if count > 1 => {
            check.fault(&rows.at, FaultKind::OnlyWith { key: "rows", with: "rise" });
            return None;
        }
        (None, Some(rise)) => {
            check.fault(&rise.at, FaultKind::OnlyWith { key: "rise", with: "rows" });
            return None;
        }
        _ => {}
    }
    let offset = match &keys.offset {
        None => RowOffset::None,
        given => check.one_of(given.as_ref(), &[("none", RowOffset::None), ("half", RowOffset::HalfRepeat)])?,
    };
    if let (Some(given), None) = (&keys.offset, &keys.rows) {
        check.fault(&given.at, FaultKind::OnlyWith { key: "offset", with: "rows" });
    }
    if keys.rise.is_some() && rise.is_none() {
        return None;
    }
    Some(Rows { count, rise: rise.unwrap_or(Mm::ZERO), offset })
}
