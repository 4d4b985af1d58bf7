//! Each stretch between places to keep clear set out on its own.
//!
//! Within a stretch the gap is even. At a seam half a gap is left on each side, or the distance to keep clear where that is
//! more; beside a place to keep out of the same, from its middle; at an open end exactly the distance to keep clear; at a
//! corner what the corner takes up, and a whole gap. Motifs are taken to be as wide as the widest of them.
//!
//! Further rows have in each stretch as many as the first row there, so that they stay above each other. Where a row has a
//! stretch that the first one has not (a pocket that only it reaches up to), that stretch gets what fits.

use super::Anchor;
use super::row::{Course, ON_PLACE, Row, SAME, Seat, Start};
use super::seams::{Keep, KeepId};

/// One row and what bounds its stretches.
#[derive(Debug)]
pub(super) struct Plot<'a> {
    pub(super) course: &'a Course,
    pub(super) keeps: Vec<&'a Keep>,
    pub(super) nooks: &'a [Nook],
    /// Whether its motifs stand above the gaps of the first row.
    pub(super) shifted: bool,
}

/// A corner of the line, and what it takes up on each side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Nook {
    pub(super) s: f64,
    pub(super) occupied: f64,
}

/// What bounds a stretch, the same on every row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum BoundId {
    End,
    Corner(usize),
    Keep(KeepId),
}

/// What lies between two stretches.
#[derive(Clone, Copy, Debug)]
struct Bound {
    /// As the end of the stretch before it and as the start of the one after it.
    sides: [Side; 2],
}

/// One side of a bound.
#[derive(Clone, Copy, Debug)]
struct Side {
    id: BoundId,
    /// The place from which what is bare is measured.
    s: f64,
    end: End,
}

/// How a stretch ends.
#[derive(Clone, Copy, Debug)]
enum End {
    /// At a seam: half a gap, at least so much.
    Seam(f64),
    /// At the end of an open band: exactly so much.
    Edge(f64),
    /// At a corner that takes up so much: that, and a whole gap.
    Corner(f64),
}

/// A stretch of the line between two places to keep clear.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    bounds: [BoundId; 2],
    start: f64,
    length: f64,
    /// Bare at each end.
    ends: [End; 2],
    /// Whether its middle is the middle of the line.
    on_middle: bool,
}

/// The rows with at least a gap in every stretch, or with exactly a count of motifs in the first; `None` where there is
/// nothing to keep clear, or a stretch over the middle cannot have what is asked for there.
pub(super) fn between(plots: &[Plot<'_>], anchor: Anchor, (gap, count): (f64, Option<u32>)) -> Option<Vec<Row>> {
    let all: Vec<Vec<Stretch>> = plots.iter().map(stretches).collect();
    if all.iter().all(Vec::is_empty) {
        return None;
    }
    let (first, further) = (plots.first()?, 1..plots.len());
    let counts: Vec<u32> = match count {
        None => all[0]
            .iter()
            .map(|stretch| {
                let others = further.clone().filter_map(|k| Some((&plots[k], same(&all[k], stretch)?)));
                let most = others.map(|(plot, there)| there.most(plot.width(), gap, anchor)).min();
                most.unwrap_or(u32::MAX).min(stretch.most(first.width(), gap, anchor))
            })
            .collect(),
        Some(count) if all[0].is_empty() => vec![count],
        Some(count) => shared_out(&all[0], first.width(), count, anchor)?,
    };
    let mut rows = vec![row_of(first, &all[0], &counts, (gap, anchor))?];
    let gap = if count.is_some() { rows[0].gap().max(0.0) } else { gap };
    for k in further {
        let own = |stretch: &Stretch| {
            let below = all[0].iter().position(|there| there.bounds == stretch.bounds);
            below.map_or_else(|| stretch.most(plots[k].width(), gap, anchor), |index| counts[index])
        };
        let own: Vec<u32> = all[k].iter().map(own).collect();
        rows.push(row_of(&plots[k], &all[k], &own, (gap, anchor))?);
    }
    Some(rows)
}

/// The stretch of another row between the same bounds.
fn same<'s>(stretches: &'s [Stretch], wanted: &Stretch) -> Option<&'s Stretch> {
    stretches.iter().find(|stretch| stretch.bounds == wanted.bounds)
}

/// A row with so many in each stretch; without stretches an even one. `None` where nothing fits.
fn row_of(plot: &Plot<'_>, stretches: &[Stretch], counts: &[u32], (gap, anchor): (f64, Anchor)) -> Option<Row> {
    if stretches.is_empty() {
        let count = counts.first().copied().unwrap_or_else(|| plot.course.most(gap)).min(plot.course.most(0.0));
        let start = if (anchor == Anchor::Gap) == plot.shifted { Start::Motif } else { Start::Gap };
        return (count > 0).then(|| plot.course.row(count, start));
    }
    let width = plot.width();
    let places = |(stretch, count): (&Stretch, &u32)| {
        let places = stretch.places(width, *count, gap);
        // One motif above each gap: half a step further in at both ends.
        let between = |pair: &[f64]| pair[0].midpoint(pair[1]);
        if plot.shifted { places.windows(2).map(between).collect() } else { places }
    };
    let places: Vec<f64> = stretches.iter().zip(counts).flat_map(places).collect();
    (!places.is_empty()).then(|| seated(plot.course, places))
}

/// Gives the places their motifs in the order of the sequence, from the middle of a ring or the end of a band.
fn seated(course: &Course, mut places: Vec<f64>) -> Row {
    if course.closed {
        for place in &mut places {
            *place -= course.length() * ((*place - course.span.0) / course.length()).floor();
        }
    }
    places.sort_by(f64::total_cmp);
    let count = u32::try_from(places.len()).unwrap_or(u32::MAX);
    if course.closed {
        let first = places.partition_point(|place| *place < -ON_PLACE);
        places.rotate_left(first);
    }
    let members = course.sequence.members(count, course.closed, Start::Motif);
    let seats = places.iter().zip(members).map(|(place, member)| Seat::new(*place, member));
    course.in_order(seats.collect(), course.room() - course.width_of(count))
}

/// One motif after another to the stretch whose gap stays widest; the stretch over the middle gets what suits it first.
fn shared_out(stretches: &[Stretch], width: f64, count: u32, anchor: Anchor) -> Option<Vec<u32>> {
    let mut counts: Vec<u32> = stretches.iter().map(|s| u32::from(s.on_middle && anchor == Anchor::Motif)).collect();
    let mut left = count.checked_sub(counts.iter().sum())?;
    while left > 0 {
        let step = |stretch: &Stretch| if stretch.on_middle && anchor != Anchor::Best { 2 } else { 1 };
        let (index, added) = stretches
            .iter()
            .enumerate()
            .map(|(index, stretch)| (index, step(stretch)))
            .filter(|(_, added)| *added <= left)
            .max_by(|(a, more_a), (b, more_b)| {
                let gap = |index: usize, more: u32| stretches[index].gap(width, counts[index] + more);
                gap(*a, *more_a).total_cmp(&gap(*b, *more_b)).then(b.cmp(a))
            })?;
        counts[index] += added;
        left -= added;
    }
    Some(counts)
}

/// The stretches in order of s; none where nothing is to be kept clear.
fn stretches(plot: &Plot<'_>) -> Vec<Stretch> {
    let course = plot.course;
    let bounds = bounds(plot);
    let (Some(first), Some(last)) = (bounds.first(), bounds.last()) else { return Vec::new() };
    let mut ends: Vec<(Side, Side)> = bounds.windows(2).map(|pair| (pair[0].sides[1], pair[1].sides[0])).collect();
    if course.closed {
        let next = first.sides[0];
        ends.push((last.sides[1], Side { s: next.s + course.length(), ..next }));
    } else {
        let edge = |s| Side { id: BoundId::End, s, end: End::Edge(course.ends) };
        ends.insert(0, (edge(course.span.0), first.sides[0]));
        ends.push((last.sides[1], edge(course.span.1)));
    }
    ends.into_iter().map(|(start, end)| Stretch::new(start, end, course)).collect()
}

/// What lies between the stretches, in order of s; what overlaps is one.
fn bounds(plot: &Plot<'_>) -> Vec<Bound> {
    let keep = |keep: &&Keep| {
        let side = Side { id: BoundId::Keep(keep.id), s: keep.s, end: End::Seam(keep.half + keep.clear) };
        Bound { sides: [side, side] }
    };
    let nook = |(index, nook): (usize, &Nook)| {
        let side = Side { id: BoundId::Corner(index), s: nook.s, end: End::Corner(nook.occupied) };
        Bound { sides: [side, side] }
    };
    let mut all: Vec<Bound> = plot.keeps.iter().map(keep).chain(plot.nooks.iter().enumerate().map(nook)).collect();
    all.sort_by(|a, b| a.reach()[0].total_cmp(&b.reach()[0]));
    let mut merged: Vec<Bound> = Vec::new();
    for bound in all {
        match merged.last_mut() {
            Some(last) if bound.reach()[0] < last.reach()[1] + SAME => *last = last.with(bound),
            _ => merged.push(bound),
        }
    }
    // Round a ring the last may reach into the first.
    if plot.course.closed
        && let [first, .., last] = merged[..]
        && last.reach()[1] > first.reach()[0] + plot.course.length() - SAME
    {
        merged[0] = last.moved(-plot.course.length()).with(first);
        merged.pop();
    }
    merged
}

impl Bound {
    /// From where to where nothing may stand.
    fn reach(&self) -> [f64; 2] {
        [self.sides[0].s - self.sides[0].end.least(), self.sides[1].s + self.sides[1].end.least()]
    }

    /// One bound of two that overlap.
    fn with(self, other: Self) -> Self {
        let [own, others] = [self.sides, other.sides];
        Self { sides: [outer(own[0], others[0], -1.0), outer(own[1], others[1], 1.0)] }
    }

    fn moved(self, by: f64) -> Self {
        Self { sides: self.sides.map(|side| Side { s: side.s + by, ..side }) }
    }
}

/// Of two sides the one that reaches further, outward being 1 toward growing s; a corner is a corner whatever else lies there.
fn outer(own: Side, other: Side, outward: f64) -> Side {
    let reach = |side: Side| side.s * outward + side.end.least();
    let (outer, inner) = if reach(other) > reach(own) { (other, own) } else { (own, other) };
    let corner = matches!(inner.end, End::Corner(_)) && (inner.s - outer.s).abs() < SAME;
    if corner { Side { end: End::Corner(outer.end.least()), ..inner } } else { outer }
}

impl End {
    /// What is bare at least.
    const fn least(self) -> f64 {
        match self {
            Self::Seam(clear) | Self::Edge(clear) | Self::Corner(clear) => clear,
        }
    }
}

impl Plot<'_> {
    /// What the widest motif takes up of the line.
    fn width(&self) -> f64 {
        let sequence = &self.course.sequence;
        let widest = sequence.widths.iter().copied().fold(0.0, f64::max);
        let largest = sequence.sizes.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let largest = if largest.is_finite() { largest } else { 1.0 };
        widest * largest * sequence.fit * sequence.lifted.max(1.0)
    }
}

impl Stretch {
    fn new(start: Side, end: Side, course: &Course) -> Self {
        let middle = start.s.midpoint(end.s);
        let off = if course.closed { middle - course.length() * (middle / course.length()).round() } else { middle };
        Self {
            bounds: [start.id, end.id],
            start: start.s,
            length: end.s - start.s,
            ends: [start.end, end.end],
            on_middle: off.abs() < ON_PLACE,
        }
    }

    /// The gap of `count` motifs; below zero where they do not fit, endless for none.
    fn gap(&self, width: f64, count: u32) -> f64 {
        self.gap_and_ends(width, count).0
    }

    /// The gap, and what is bare at each end.
    fn gap_and_ends(&self, width: f64, count: u32) -> (f64, [f64; 2]) {
        let least = self.ends.map(End::least);
        let free = self.length - width * f64::from(count);
        if count == 0 {
            return (f64::INFINITY, least);
        }
        // Half a gap at each seam, unless that is less than must be kept clear there: then that distance is fixed.
        let mut fixed = self.ends.map(|end| !matches!(end, End::Seam(_)));
        let corners = self.ends.map(|end| f64::from(u8::from(matches!(end, End::Corner(_)))));
        loop {
            let halves = fixed.iter().filter(|fixed| !**fixed).count() as f64 / 2.0;
            let taken: f64 = (0..2).filter(|k| fixed[*k]).map(|k| least[k]).sum();
            let parts = f64::from(count - 1) + halves + corners[0] + corners[1];
            let gap = if parts > 0.0 { (free - taken) / parts } else { free - taken };
            let short = (0..2).find(|k| !fixed[*k] && gap / 2.0 < least[*k]);
            match short {
                Some(k) => fixed[k] = true,
                None => {
                    return (gap, [0, 1].map(|k| if fixed[k] { least[k] + corners[k] * gap } else { gap / 2.0 }));
                }
            }
        }
    }

    /// The most that leave at least a gap, with what suits the middle of the line.
    fn most(&self, width: f64, gap: f64, anchor: Anchor) -> u32 {
        let fits = |count: u32| self.gap(width, count) >= gap - SAME;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
        let highest = (self.length / (width + gap) + 1.0).clamp(0.0, f64::from(super::row::MOST)) as u32;
        let suits = |count: u32| match anchor {
            Anchor::Motif => count % 2 == 1,
            Anchor::Gap => count.is_multiple_of(2),
            Anchor::Best => true,
        };
        (0..=highest).rev().find(|count| fits(*count) && (!self.on_middle || suits(*count))).unwrap_or(0)
    }

    /// Middles of `count` motifs.
    fn places(&self, width: f64, count: u32, asked: f64) -> Vec<f64> {
        let (gap, mut ends) = self.gap_and_ends(width, count);
        if count == 1 {
            // Alone between an open end and something to keep clear of it stands in the middle of the room there.
            let room = self.length - width;
            let middle = |edge: f64, seam: f64| (edge + room - seam) / 2.0;
            let from_seam = |edge: f64, seam: f64| (room - middle(edge, seam)).max(asked / 2.0).min(room - edge);
            match self.ends {
                [End::Edge(edge), End::Seam(seam)] => ends[0] = room - from_seam(edge, seam),
                [End::Seam(seam), End::Edge(edge)] => ends[0] = from_seam(edge, seam),
                _ => {}
            }
        }
        let first = self.start + ends[0] + width / 2.0;
        (0..count).map(|k| first + f64::from(k) * (width + gap)).collect()
    }
}
