//! Each stretch between places to keep clear set out on its own.
//!
//! Within a stretch the gap is even, whatever the widths of the motifs. At a seam half a gap is left on each side, or the
//! distance to keep clear where that is more; beside a place to keep out of the same, from its middle; at an open end exactly
//! the distance to keep clear; at a corner what the corner takes up, and a whole gap beside a
//! motif that stands there, or half a gap from the mitre line where none does.
//!
//! Further rows have in each stretch as many as the first row there, so that they stay above each other; above gaps one fewer.
//! Where a row has stretches that the first one has not (a pocket that only it reaches up to), they share what the row still needs
//! to have as many as the first; where so many do not fit, they get what does, and how many are missing is kept with the row.
//!
//! Which motif stands where goes by the order from the middle of the line, so that what a stretch takes depends on what the
//! stretches between it and the middle have: counts are looked for stretch by stretch until none changes.

use super::bounds::{Nook, sides};
use super::course::Course;
use super::row::{Apart, ON_PLACE, Row, SAME, Seat};
use super::sequence::{Lot, Member, Start};
use super::stretch::{Stretch, side_by_side};
use crate::place::Anchor;
use crate::place::clash::seams::Keep;

/// One row and what bounds its stretches.
#[derive(Debug)]
pub(in crate::place) struct Plot<'a> {
    pub(in crate::place) course: &'a Course,
    pub(in crate::place) keeps: Vec<&'a Keep>,
    pub(in crate::place) nooks: &'a [Nook],
    /// Whether its motifs stand above the gaps of the first row.
    pub(in crate::place) shifted: bool,
}

/// What is asked of stretches.
#[derive(Clone, Copy, Debug)]
pub(in crate::place) struct Ask {
    pub(in crate::place) anchor: Anchor,
    /// Least gap.
    pub(in crate::place) gap: f64,
    /// Exactly so many in the first row.
    pub(in crate::place) count: Option<u32>,
    /// Whether a motif may stand right above another of the row below.
    pub(in crate::place) stacked: bool,
    /// Whether the gap is that between true outlines.
    pub(in crate::place) clear: bool,
    /// Down to this part of what an even first row takes it gives motifs up, so that every row has as many.
    pub(in crate::place) fewest: f64,
}

/// The least gap between motifs of a row, by its index, that stand in one stretch as they are.
pub(in crate::place) type Gauge<'g> = &'g mut dyn FnMut(usize, &mut [Seat]) -> f64;

/// Rounds in which the stretches find their counts; with motifs of one width the first changes nothing.
pub(super) const SWEEPS: u32 = 6;

/// The rows with at least a gap in every stretch, or with exactly a count of motifs in the first; `None` where there is
/// nothing to keep clear, or a stretch over the middle cannot have what is asked for there.
pub(in crate::place) fn between(plots: &[Plot<'_>], ask: Ask, gauge: Gauge<'_>) -> Option<Vec<Row>> {
    let mut field = Field::new(plots, ask);
    if field.groups.is_empty() {
        return None;
    }
    let mut counts = vec![0; field.groups.len()];
    let own: Vec<usize> = (0..field.stretches[0].len()).collect();
    let Some(count) = ask.count else {
        field.fill_all(&mut counts, &own, gauge);
        for _ in 0..SWEEPS {
            if !ask.clear || !field.parted(&counts, gauge) {
                break;
            }
            field.fill_all(&mut counts, &own, gauge);
        }
        return (0..plots.len()).map(|k| field.row(k, &counts, gauge)).collect();
    };
    field.share_out((0, &own), &mut counts, count, ask.anchor)?;
    field.first = count;
    let first = field.row(0, &counts, gauge)?;
    if ask.clear && ask.gap > SAME {
        let tight = own.iter().any(|group| field.gap(*group, &counts, gauge) < field.enough());
        if tight || field.parted(&counts, gauge) {
            return None;
        }
    }
    // Where so many do not fit above, those that do keep the gap that the first row came to.
    field.part_tight_rows(&mut counts, gauge);
    field.share_further(&mut counts, first.gap().max(ask.gap), gauge);
    field.ask.gap = first.gap().max(0.0);
    let further = (1..plots.len()).map(|k| field.row(k, &counts, gauge));
    std::iter::once(Some(first)).chain(further).collect()
}

/// The stretches of all rows.
pub(super) struct Field<'a> {
    pub(super) plots: &'a [Plot<'a>],
    pub(super) ask: Ask,
    /// How many the first row has.
    pub(super) first: u32,
    /// How many each further row lacks in the stretches that it leads in.
    pub(super) lack: Vec<u32>,
    /// Those of each row in order of s.
    pub(super) stretches: Vec<Vec<Stretch>>,
    /// Those of all rows between the same bounds, the first row's first.
    pub(super) groups: Vec<Vec<(usize, usize)>>,
    /// The group of each stretch of each row.
    pub(super) group_of: Vec<Vec<usize>>,
}

/// Members of a row, in order, and whether each is the second of two that take turns.
type Members = Vec<(Member, bool)>;

impl Plot<'_> {
    /// What every motif takes up of the line, where all take up the same.
    pub(super) fn one_width(&self) -> Option<f64> {
        let (narrowest, widest) = (self.course.sequence.narrowest(), self.course.sequence.widest());
        (widest - narrowest < 1e-9).then_some(widest)
    }
}

impl<'a> Field<'a> {
    fn new(plots: &'a [Plot<'a>], ask: Ask) -> Self {
        let of_plot = |plot: &Plot<'_>| -> Vec<Stretch> {
            let sides = sides(plot.course, &plot.keeps, plot.nooks);
            sides.into_iter().map(|sides| Stretch::new(sides, plot.course)).collect()
        };
        let stretches: Vec<Vec<Stretch>> = plots.iter().map(of_plot).collect();
        let mut groups: Vec<Vec<(usize, usize)>> = Vec::new();
        let mut group_of = Vec::new();
        for (row, own) in stretches.iter().enumerate() {
            let mut of = Vec::new();
            for (index, stretch) in own.iter().enumerate() {
                let same = |group: &Vec<(usize, usize)>| {
                    let (row, index) = group[0];
                    stretches[row][index].bounds == stretch.bounds
                };
                let group = groups.iter().position(same).unwrap_or_else(|| {
                    groups.push(Vec::new());
                    groups.len() - 1
                });
                groups[group].push((row, index));
                of.push(group);
            }
            group_of.push(of);
        }
        Self { plots, ask, first: 0, lack: vec![0; plots.len()], stretches, groups, group_of }
    }

    /// Whether a row's motifs stand above the gaps of the row that leads in a group.
    pub(super) fn above_gaps(&self, row: usize, group: usize) -> bool {
        self.plots[row].shifted != self.plots[self.groups[group][0].0].shifted
    }

    /// How many a row has in a stretch, by the counts of the groups.
    pub(super) fn count(&self, row: usize, index: usize, counts: &[u32]) -> u32 {
        let group = self.group_of[row][index];
        if self.above_gaps(row, group) { self.between_gaps(counts[group]) } else { counts[group] }
    }

    /// How many stand above the gaps of so many in a stretch.
    pub(super) fn between_gaps(&self, count: u32) -> u32 {
        if count == 1 { u32::from(self.ask.stacked) } else { count.saturating_sub(1) }
    }

    /// How many a row has in each stretch, and what lies on its middle.
    pub(super) fn lot(&self, row: usize, counts: &[u32]) -> (Vec<u32>, Lot) {
        let (stretches, course) = (&self.stretches[row], self.plots[row].course);
        let own: Vec<u32> = (0..stretches.len()).map(|index| self.count(row, index, counts)).collect();
        let upto = |index: usize| own[..index].iter().sum::<u32>();
        let half = course.length() / 2.0;
        let opposite = |stretch: &Stretch| course.closed && (stretch.holds(half) || stretch.holds(-half));
        let either = stretches.iter().position(opposite);
        let either_way = either.map_or(0..0, |index| upto(index)..upto(index + 1));
        let mut lot = Lot { count: own.iter().sum(), before: 0, start: Start::Gap, either_way };
        let Some(index) = stretches.iter().position(|stretch| stretch.holds(0.0)) else {
            let ends = |stretch: &&Stretch| stretch.start + stretch.length <= ON_PLACE;
            lot.before = upto(stretches.iter().take_while(ends).count());
            return (own, lot);
        };
        // Which of the motifs in the stretch over the middle stand before it shows when they are set out.
        let (stretch, count, further) = (&stretches[index], own[index], upto(index));
        // A half exactly, as a quarter of a ring often gives, is rounded toward the middle of the stretch, so that no hair decides
        // and a mirrored hem gets the mirrored row.
        let (part, half) = (f64::from(count) * (-stretch.start / stretch.length), f64::from(count) / 2.0);
        let part = part - 1e-6 * (part - half).signum();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a part of a count")]
        let part = part.round() as u32;
        lot.before = further + if stretch.on_middle { count / 2 } else { part.min(count) };
        lot.start = if stretch.on_middle && count % 2 == 1 { Start::Motif } else { Start::Gap };
        for _ in 0..SWEEPS {
            let run = self.run((row, index), (&own, &lot));
            let places = self.places((row, index), &run, counts);
            let before = u32::try_from(places.partition_point(|place| *place < -ON_PLACE)).unwrap_or(u32::MAX);
            let on = if places.iter().any(|place| place.abs() <= ON_PLACE) { Start::Motif } else { Start::Gap };
            if (further + before, on) == (lot.before, lot.start) {
                break;
            }
            (lot.before, lot.start) = (further + before, on);
        }
        (own, lot)
    }

    /// The members of one stretch of a row.
    fn run(&self, (row, index): (usize, usize), (own, lot): (&[u32], &Lot)) -> Members {
        let (course, before) = (self.plots[row].course, own[..index].iter().sum::<u32>());
        course.sequence.about(before..before + own[index], (lot, course.closed)).collect()
    }

    /// Middles of the members of one stretch of a row.
    fn places(&self, (row, index): (usize, usize), run: &Members, counts: &[u32]) -> Vec<f64> {
        let (stretch, group) = (&self.stretches[row][index], self.group_of[row][index]);
        let plain = |members: &Members| -> Vec<Member> { members.iter().map(|(member, _)| *member).collect() };
        let own = plain(run);
        if !self.above_gaps(row, group) || counts[group] < 2 {
            return stretch.places(&own, self.ask.gap);
        }
        // The first above the first gap of the row below, the last above the last, the others evenly between them.
        let leads = self.groups[group][0];
        let (of_below, lot) = self.lot(leads.0, counts);
        let below = plain(&self.run(leads, (&of_below, &lot)));
        let places = stretch.places(&below, self.ask.gap);
        let gap_after =
            |k: usize| (places[k] + below[k].width / 2.0).midpoint(places[k + 1] - below[k + 1].width / 2.0);
        let (from, to) = (gap_after(0), gap_after(places.len() - 2));
        let ([first, .., last], widths) = (own.as_slice(), own.iter().map(|member| member.width).sum::<f64>()) else {
            return vec![from];
        };
        let edges = (from - first.width / 2.0, to + last.width / 2.0);
        let gap = (edges.1 - edges.0 - widths) / (own.len() - 1) as f64;
        // Wide motifs above narrow ones have the whole stretch.
        if gap < self.ask.gap - SAME { stretch.places(&own, self.ask.gap) } else { side_by_side(&own, gap, edges.0) }
    }

    /// The seats of one stretch of a row.
    pub(super) fn seats(&self, (row, index): (usize, usize), lot: (&[u32], &Lot), counts: &[u32]) -> Vec<Seat> {
        let run = self.run((row, index), lot);
        let places = self.places((row, index), &run, counts);
        let seat =
            |(place, (member, second)): (f64, &(Member, bool))| Seat { second: *second, ..Seat::new(place, *member) };
        places.into_iter().zip(&run).map(seat).collect()
    }

    /// The least gap in a group, of all its rows; that of a single motif is what is bare beside it.
    pub(super) fn gap(&self, group: usize, counts: &[u32], gauge: Gauge<'_>) -> f64 {
        let rows = self.groups[group].iter();
        rows.map(|place| self.gap_in(*place, counts[group], counts, gauge)).fold(f64::INFINITY, f64::min)
    }

    /// The gap in one stretch of a row whose group has so many.
    pub(super) fn gap_in(&self, (row, index): (usize, usize), count: u32, counts: &[u32], gauge: Gauge<'_>) -> f64 {
        let stretch = &self.stretches[row][index];
        match self.plots[row].one_width() {
            Some(width) if !self.ask.clear => stretch.gap(width * f64::from(count), count),
            _ => {
                let (own, lot) = self.lot(row, counts);
                let mut seats = self.seats((row, index), (&own, &lot), counts);
                let along = stretch.gap_of(&seats);
                if seats.len() < 2 || along < 0.0 { along } else { gauge(row, &mut seats) }
            }
        }
    }

    /// A row; one without stretches is even. `None` where nothing fits.
    fn row(&self, k: usize, counts: &[u32], gauge: Gauge<'_>) -> Option<Row> {
        let plot = &self.plots[k];
        let wanted = if k == 0 { self.first } else { self.wanted(k, counts) };
        if self.stretches[k].is_empty() {
            let (start, least) = (self.start(k), if self.ask.count.is_some() { 0.0 } else { self.ask.gap });
            let count = wanted.min(plot.course.most(least, start));
            return (count > 0).then(|| plot.course.row(count, start).lacking(wanted - count));
        }
        let (own, lot) = self.lot(k, counts);
        let mut seats = Vec::new();
        let mut apart = Apart::default();
        for index in 0..self.stretches[k].len() {
            let mut run = self.seats((k, index), (&own, &lot), counts);
            if run.len() > 1 {
                gauge(k, &mut run);
            }
            let group = self.group_of[k][index];
            let kind = match (self.groups[group][0].0, counts[group], self.above_gaps(k, group)) {
                (0, _, false) => &mut apart.above_motifs,
                (0, 0, true) => &mut apart.above_gaps,
                (0, 1, true) if run.is_empty() => &mut apart.bare,
                (0, 1, true) => &mut apart.above_only,
                (0, _, true) => &mut apart.above_gaps,
                _ => &mut apart.own,
            };
            *kind += 1;
            seats.extend(run);
        }
        let of_first = |group: &&usize| counts[**group] > 0 && !self.group_of[k].contains(group);
        apart.missing = u32::try_from(self.group_of[0].iter().filter(of_first).count()).unwrap_or(u32::MAX);
        let short = if k == 0 { 0 } else { self.missing(k, counts) };
        (!seats.is_empty()).then(|| plot.course.apart(seats, apart).lacking(short))
    }
}
