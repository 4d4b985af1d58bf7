//! Which motifs come too near a seam, an opening or another place to keep clear.

use crate::hem::{HemMark, MotifLine, OPENING};
use crate::place::KeepOut;
use crate::place::along::row::{Row, SAME, Seat};
use crate::quantity::Mm;

/// A place to keep clear, on the motif line.
#[derive(Clone, Debug)]
pub(in crate::place) struct Keep {
    pub(in crate::place) name: String,
    /// Distance along the motif line; of a place that has a width, its middle.
    pub(in crate::place) s: f64,
    /// Half its width along the line; nothing for a seam.
    pub(in crate::place) half: f64,
    /// How far motifs keep from it.
    pub(in crate::place) clear: f64,
    /// The same on every line of the hem: which mark, or which place to keep out of.
    pub(in crate::place) id: KeepId,
    /// Whether it is the opening, which a motif can lie across even less than a seam: it would be cut in two.
    pub(in crate::place) opening: bool,
}

/// What a place to keep clear is, whatever line it is looked at on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::place) enum KeepId {
    /// A mark of the hem, by index.
    Mark(usize),
    /// A place to keep out of, by index.
    Area(usize),
}

impl Keep {
    /// Whether it is a place to keep out of, not a seam.
    pub(in crate::place) const fn is_area(&self) -> bool {
        matches!(self.id, KeepId::Area(_))
    }

    /// Whether keeping clear of it counts more than any number of motifs.
    pub(in crate::place) const fn is_firm(&self) -> bool {
        self.is_area() || self.opening
    }
}

/// A motif too near a place, by index.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::place) struct Near {
    /// Index of the seat.
    pub(in crate::place) seat: usize,
    /// Index of the place to keep clear.
    pub(in crate::place) keep: usize,
    /// From the motif's edge to the place; negative across it.
    pub(in crate::place) clear: f64,
    /// Whether that is a place to keep out of or the opening, not a seam.
    pub(in crate::place) firm: bool,
}

/// The places on a hem that motifs of a line must keep clear of. The ends of an open band are no such places: the row
/// stops short of them.
pub(in crate::place) fn keeps(marks: &[HemMark], line: &MotifLine) -> Vec<Keep> {
    let (least, greatest) = line.span();
    let inside = |s: f64| line.is_closed() || (s > least.get() + SAME && s < greatest.get() - SAME);
    marks
        .iter()
        .enumerate()
        .filter_map(|(index, mark)| mark.keep_clear.map(|clear| (index, mark, clear)))
        .map(|(index, mark, clear)| Keep {
            name: mark.name.clone(),
            s: line.from_hem(mark.s_hem).get(),
            half: 0.0,
            clear: clear.get(),
            id: KeepId::Mark(index),
            opening: mark.name == OPENING,
        })
        .filter(|keep| inside(keep.s))
        .collect()
}

/// The places that motifs reaching from one height to another keep out of.
pub(in crate::place) fn kept_out(places: &[KeepOut], line: &MotifLine, (low, high): (Mm, Mm)) -> Vec<Keep> {
    let meets = |place: &KeepOut| {
        let (from, to) = place.heights;
        high > from && to.is_none_or(|to| low < to)
    };
    let keep = |(index, place): (usize, &KeepOut)| {
        let (from, to) = (line.from_hem(place.along.0).get(), line.from_hem(place.along.1).get());
        let (middle, round) = (from.midpoint(to), line.length().get());
        Keep {
            name: place.name.clone(),
            // A place across CB may be given past half the hem.
            s: if line.is_closed() { middle - round * (middle / round).round() } else { middle },
            half: (to - from) / 2.0,
            clear: place.clear.get(),
            id: KeepId::Area(index),
            opening: false,
        }
    };
    places.iter().enumerate().filter(|(_, place)| meets(place)).map(keep).collect()
}

/// Every motif too near a place, in order of places, then of s.
pub(in crate::place) fn too_near(row: &Row, keeps: &[Keep]) -> Vec<Near> {
    let widest = row.seats.iter().map(|seat| seat.half).fold(0.0, f64::max);
    let mut found = Vec::new();
    for (index, keep) in keeps.iter().enumerate() {
        let reach = widest + keep.clear + keep.half;
        for seat in seats_within(row, keep.s, reach) {
            let clear = row.offset(keep.s, row.seats[seat].s).abs() - row.seats[seat].half - keep.half;
            if clear < keep.clear - SAME {
                found.push(Near { seat, keep: index, clear, firm: keep.is_firm() });
            }
        }
    }
    found
}

/// Indices of the seats within `reach` of a place, in order.
fn seats_within(row: &Row, place: f64, reach: f64) -> Vec<usize> {
    let mut found: Vec<usize> = match row.round {
        Some(round) if 2.0 * reach >= round => (0..row.seats.len()).collect(),
        Some(round) => [-round, 0.0, round].iter().flat_map(|turn| between(&row.seats, place + turn, reach)).collect(),
        None => between(&row.seats, place, reach).collect(),
    };
    found.sort_unstable();
    found.dedup();
    found
}

fn between(seats: &[Seat], place: f64, reach: f64) -> std::ops::Range<usize> {
    let first = seats.partition_point(|seat| seat.s < place - reach);
    let last = seats.partition_point(|seat| seat.s <= place + reach);
    first..last.max(first)
}
