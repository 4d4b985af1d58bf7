//! Each stretch from seam to seam set out on its own.
//!
//! Within a stretch the gap is even. At a seam half a gap is left on each side, or the distance to keep clear where that is
//! more; at an open end exactly the distance to keep clear; at a corner what the corner takes up, and a whole gap. Motifs are
//! taken to be as wide as the widest of them.

use super::Anchor;
use super::row::{Course, ON_PLACE, Row, SAME, Seat, Start};
use super::seams::Keep;

/// A stretch of the line between two places to keep clear.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    start: f64,
    length: f64,
    /// Bare at each end.
    ends: [End; 2],
    /// Whether its middle is the middle of the line.
    on_middle: bool,
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

/// A corner of the line, and what it takes up on each side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Nook {
    pub(super) s: f64,
    pub(super) occupied: f64,
}

/// The row with at least a gap in every stretch, or with exactly a count of motifs; `None` where there is no seam, or a stretch
/// over the middle cannot have what is asked for there.
pub(super) fn between_seams(
    course: &Course,
    keeps: &[Keep],
    nooks: &[Nook],
    anchor: Anchor,
    spacing: (f64, Option<u32>),
) -> Option<Row> {
    let (gap, count) = spacing;
    let stretches = stretches(course, keeps, nooks);
    let widest = course.sequence.widths.iter().copied().fold(0.0, f64::max);
    let width = widest * course.sequence.fit * course.sequence.lifted.max(1.0);
    if stretches.is_empty() || !course.sequence.sizes.is_empty() {
        return None;
    }
    let counts = match count {
        None => stretches.iter().map(|stretch| stretch.most(width, gap, anchor)).collect::<Vec<u32>>(),
        Some(count) => shared_out(&stretches, width, count, anchor)?,
    };
    let total: u32 = counts.iter().sum();
    if total == 0 {
        return None;
    }
    let places: Vec<f64> =
        stretches.iter().zip(counts).flat_map(|(stretch, count)| stretch.places(width, count)).collect();
    Some(seated(course, places))
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
    course.in_order(seats.collect(), 0.0)
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

/// The stretches in order of s; none where nothing is to be kept clear on a ring.
fn stretches(course: &Course, keeps: &[Keep], nooks: &[Nook]) -> Vec<Stretch> {
    let seams = keeps.iter().map(|keep| (keep.s, End::Seam(keep.half + keep.clear)));
    let mut bounds: Vec<(f64, End)> =
        seams.chain(nooks.iter().map(|nook| (nook.s, End::Corner(nook.occupied)))).collect();
    bounds.sort_by(|a, b| a.0.total_cmp(&b.0));
    bounds.dedup_by(|later, earlier| {
        let same = later.0 - earlier.0 < SAME;
        earlier.1 = if same { earlier.1.wider(later.1) } else { earlier.1 };
        same
    });
    let (Some(first), Some(last)) = (bounds.first().copied(), bounds.last().copied()) else { return Vec::new() };
    let mut ends: Vec<((f64, End), (f64, End))> = bounds.windows(2).map(|pair| (pair[0], pair[1])).collect();
    if course.closed {
        ends.push((last, (first.0 + course.length(), first.1)));
    } else {
        let edge = End::Edge(course.ends);
        ends.insert(0, ((course.span.0, edge), first));
        ends.push((last, (course.span.1, edge)));
    }
    ends.into_iter().map(|(start, end)| Stretch::new(start, end, course)).collect()
}

impl End {
    /// What is bare at least.
    const fn least(self) -> f64 {
        match self {
            Self::Seam(clear) | Self::Edge(clear) | Self::Corner(clear) => clear,
        }
    }

    /// Of two marks on one place the one that asks for more; a corner is a corner whatever else lies there.
    fn wider(self, other: Self) -> Self {
        let corner = |end: Self| matches!(end, Self::Corner(_));
        match (corner(self), corner(other)) {
            (true, false) => Self::Corner(self.least().max(other.least())),
            (false, true) => Self::Corner(other.least().max(self.least())),
            _ if other.least() > self.least() => other,
            _ => self,
        }
    }
}

impl Stretch {
    fn new(start: (f64, End), end: (f64, End), course: &Course) -> Self {
        let middle = start.0.midpoint(end.0);
        let off = if course.closed { middle - course.length() * (middle / course.length()).round() } else { middle };
        Self { start: start.0, length: end.0 - start.0, ends: [start.1, end.1], on_middle: off.abs() < ON_PLACE }
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
    fn places(&self, width: f64, count: u32) -> Vec<f64> {
        let (gap, ends) = self.gap_and_ends(width, count);
        let first = self.start + ends[0] + width / 2.0;
        (0..count).map(|k| first + f64::from(k) * (width + gap)).collect()
    }
}
