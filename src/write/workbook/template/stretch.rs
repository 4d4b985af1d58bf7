//! Which motifs the template at true size shows.
//!
//! Where every repeat is like the last one, a few of them are enough: the paper is moved along. Two repeats count as alike
//! when laying one on the other puts no edge more than [`ALIKE`] off. Where the curve of the hem changes, the template
//! shows a whole side if its halves match, the whole band otherwise, as far as the paper allows.

use crate::geometry::{Affine, Point};
use crate::hem::MotifLine;
use crate::place::{BandSetting, Placement, own_mirror_images};
use crate::plan::Plan;
use crate::quantity::{Mm, mm};

/// Farthest that an edge may lie off between two repeats which share a page, mm: half the width of a chalk line (common
/// practice, no source).
pub(crate) const ALIKE: f64 = 0.5;
/// Longest rhythm looked for, in motifs.
const LONGEST_RHYTHM: usize = 24;
/// Farthest that a stretch may turn, radians: beyond half a turn its ends would come back over its beginning.
const FARTHEST_TURN: f64 = std::f64::consts::PI + 0.05;
/// A hem farther below the motifs than this is left off the template, mm.
const HEM_SHOWN_WITHIN: f64 = 120.0;

/// Room below the lowest edge for the number of a motif, where no hem is shown, mm.
const NUMBER_BELOW: f64 = 8.0;

/// A run of neighbouring motifs in one piece of paper.
#[derive(Clone, Debug)]
pub(crate) struct Stretch<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) band: &'a BandSetting,
    /// Neighbours in order, to the wearer's left.
    pub(crate) placements: &'a [Placement],
    /// The line they sit on.
    pub(crate) line: MotifLine,
    /// What is drawn along the motif line, from where to where.
    pub(crate) span: (Mm, Mm),
    /// Heights above the hem between which it is drawn.
    pub(crate) heights: (Mm, Mm),
    /// Turns the flat development so that the middle of the stretch stands upright.
    pub(crate) upright: Affine,
}

/// How the repeats of a band are alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rhythm {
    /// Every so many motifs the same again.
    Even(usize),
    /// The same on either side of CF by itself, the right side the mirror image of the left.
    EachSide(usize),
    /// The curve changes along the hem; the halves right and left of CF are mirror images.
    Halves,
    /// No two places need be alike.
    Uneven,
}

/// Finds how the repeats of a band are alike.
pub(crate) fn rhythm(plan: &Plan, band: &BandSetting) -> Rhythm {
    let placements = &band.placements;
    let steps: Vec<Affine> =
        placements.windows(2).map(|pair| pair[0].transform().inverse() * pair[1].transform()).collect();
    let reach = reach(plan, placements);
    let same = |i: usize, j: usize| {
        let kind = |k: usize| (&placements[k].motif, placements[k].hand);
        kind(i) == kind(j) && kind(i + 1) == kind(j + 1) && off(steps[i], steps[j], reach) <= ALIKE
    };
    let hangs_unlike = hangs_unlike(plan, band);
    let even_from = |start: usize| {
        // What comes back only once is no rhythm, and what never comes back would be one of any length.
        let longest = LONGEST_RHYTHM.min(steps.len().saturating_sub(start) / 2);
        let even = |p: &usize| (start..steps.len() - p).all(|i| same(i, i + p));
        (1..=longest).find(even).filter(|_| !hangs_unlike)
    };
    if let Some(period) = even_from(0) {
        return Rhythm::Even(period);
    }
    if !halves_match(placements) {
        return Rhythm::Uneven;
    }
    even_from(front(placements)).map_or(Rhythm::Halves, Rhythm::EachSide)
}

/// The first motif on CF or to the wearer's left of it.
fn front(placements: &[Placement]) -> usize {
    placements.iter().position(|placement| placement.s_line.get() >= -1e-6).unwrap_or(0)
}

/// Half the greatest extent of the motifs.
fn reach(plan: &Plan, placements: &[Placement]) -> f64 {
    let of = |placement: &Placement| {
        plan.motifs
            .get(&placement.motif)
            .map_or(0.0, |motif| motif.width.max(motif.height).get() * placement.scale / 2.0)
    };
    placements.iter().map(of).fold(0.0, f64::max)
}

/// How far a motif's farthest edge lies off when one step is taken for the other.
fn off(a: Affine, b: Affine, reach: f64) -> f64 {
    let edges = [Point::ORIGIN, Point::new(reach, 0.0), Point::new(0.0, reach), Point::new(-reach, 0.0)];
    edges.into_iter().map(|edge| (a * edge).distance(b * edge)).fold(0.0, f64::max)
}

/// Whether the motifs stand differently to the hem from place to place, so that a template moved along would not fit.
fn hangs_unlike(plan: &Plan, band: &BandSetting) -> bool {
    let Ok(line) = plan.hem.line_at(band.height) else { return false };
    let lean = |placement: &Placement| {
        let turn = placement.turn.get() - line.frame_unrolled(placement.s_line).turn().get();
        turn.sin().atan2(turn.cos())
    };
    let mut leans = band.placements.iter().map(lean);
    let Some(first) = leans.next() else { return false };
    leans.any(|other| (other - first).abs() * reach(plan, &band.placements) > ALIKE)
}

/// Motifs right of CF and left of it, each outward.
fn sides(placements: &[Placement]) -> (Vec<&Placement>, Vec<&Placement>) {
    let rights = placements.iter().rev().filter(|one| one.s_line.get() < -1e-6).collect();
    (rights, placements.iter().filter(|one| one.s_line.get() > 1e-6).collect())
}

/// Whether each place has its mirror image on the other side of CF.
fn halves_match(placements: &[Placement]) -> bool {
    let (rights, lefts) = sides(placements);
    // A motif on CB has no partner when a ring is cut open there.
    rights.len().abs_diff(lefts.len()) <= 1
        && rights.iter().zip(&lefts).all(|(right, left)| {
            (right.s_line + left.s_line).abs() <= mm(ALIKE)
                && right.motif == left.motif
                && (right.at.x + left.at.x).abs() <= ALIKE
                && (right.at.y - left.at.y).abs() <= ALIKE
        })
}

impl<'a> Stretch<'a> {
    /// `count` neighbours from the first at or to the left of CF, or from the beginning where not so many are left.
    pub(crate) fn from_front(plan: &'a Plan, band: &'a BandSetting, count: usize) -> Option<Self> {
        let all = &band.placements;
        let count = count.clamp(1, all.len().max(1));
        let front = front(all);
        let start = if front + count <= all.len() { front } else { all.len().saturating_sub(count) };
        Self::new(plan, band, all.get(start..start + count)?)
    }

    /// How many motifs lie from CF to the end of the wearer's left side.
    pub(crate) fn left_half(band: &BandSetting) -> usize {
        band.placements.iter().filter(|placement| placement.s_line.get() >= -1e-6).count().max(1)
    }

    pub(crate) fn new(plan: &'a Plan, band: &'a BandSetting, placements: &'a [Placement]) -> Option<Self> {
        let (first, last) = (placements.first()?, placements.last()?);
        let line = plan.hem.line_at(band.height).ok()?;
        let turn = line.frame_unrolled((first.s_line + last.s_line) / 2.0).turn();
        let upright = Affine::rotate(-turn.get());
        let nothing = (Mm::ZERO, Mm::ZERO);
        let mut stretch = Self { plan, band, placements, line, span: nothing, heights: nothing, upright };
        stretch.heights = stretch.find_heights();
        Some(stretch.reaching(band.repeat / 2.0))
    }

    /// The same drawn so far beyond the middles of its outer motifs, or to the end of an open hem.
    pub(crate) fn reaching(self, beyond: Mm) -> Self {
        let (start, end) = self.line.span();
        let within = |s: Mm| if self.plan.hem.is_closed() { s } else { s.max(start).min(end) };
        let middle = |placement: Option<&Placement>| placement.map_or(Mm::ZERO, |placement| placement.s_line);
        let (first, last) = (middle(self.placements.first()), middle(self.placements.last()));
        Self { span: (within(first - beyond), within(last + beyond)), ..self }
    }

    /// Whether the hem is among what is drawn.
    pub(crate) fn shows_hem(&self) -> bool {
        self.heights.0 <= Mm::ZERO
    }

    /// Whether each motif right of CF is the mirror image of its partner on the left: of the other hand, or without one.
    pub(crate) fn hands_mirrored(&self) -> bool {
        let (rights, lefts) = sides(&self.band.placements);
        let mut pairs = rights.iter().zip(&lefts);
        let without_hand = own_mirror_images(&self.plan.setting, &self.plan.motifs);
        pairs.all(|(right, left)| right.hand != left.hand || without_hand.contains(right.motif.as_str()))
    }

    /// Whether it turns so far that it would come back over itself when laid flat.
    pub(crate) fn turns_too_far(&self) -> bool {
        let Some((first, last)) = self.placements.first().zip(self.placements.last()) else { return false };
        (last.turn.get() - first.turn.get()).abs() > FARTHEST_TURN
    }

    /// From hem or motif line to a little above the highest edge.
    fn find_heights(&self) -> (Mm, Mm) {
        let mut low = f64::MAX;
        let mut high = f64::MIN;
        for placement in self.placements {
            let frame = self.line.frame_unrolled(placement.s_line);
            for corner in self.corners(placement) {
                let height = placement.height.get() + (corner - frame.at).dot(frame.up());
                low = low.min(height);
                high = high.max(height);
            }
        }
        let low =
            if low <= HEM_SHOWN_WITHIN { 0.0 } else { (low - NUMBER_BELOW).min(self.band.height.get() - NUMBER_BELOW) };
        (mm(low), mm(high + 5.0))
    }

    /// Corners of the box round a placed motif, in the flat development.
    fn corners(&self, placement: &Placement) -> Vec<Point> {
        let Some(motif) = self.plan.motifs.get(&placement.motif) else { return vec![placement.at] };
        let (x, y) = (motif.width.get() / 2.0, motif.height.get() / 2.0);
        [(-x, -y), (x, -y), (x, y), (-x, y)].map(|corner| placement.transform() * Point::from(corner)).to_vec()
    }

    /// A place by its distance along the motif line and its height above the hem, in the flat development.
    pub(crate) fn at(&self, s_line: Mm, height: Mm) -> Point {
        let frame = self.line.frame_unrolled(s_line);
        frame.at + frame.up() * (height - self.line.height()).get()
    }
}
