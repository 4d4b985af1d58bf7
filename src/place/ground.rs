//! What a band is set out on: its motif lines, its motifs, and what must be kept clear.

mod around;
mod refused;
mod standing;
mod tier;
mod wished;

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::hem::{Hem, MotifLine};
use crate::place::along::bounds::Nook;
use crate::place::along::course::{Course, MOST};
use crate::place::along::row::SAME;
use crate::place::along::sequence::{Sequence, Start};
use crate::place::clash::across::BETWEEN_ROWS;
use crate::place::clash::clear::Measure;
use crate::place::clash::seams::{self, Keep};
use crate::place::clash::upright::{self, Stood};
use crate::place::{Anchor, BandWish, Hands, Level, PlaceError, RowOffset, Spacing, Stance};
use crate::quantity::Mm;

use around::Strip;
pub(super) use around::tell;
use tier::nooks;
pub(super) use tier::{corner_takes, lifted};
pub(super) use wished::on_hem;
use wished::{Named, checked, named};

/// One band's ground.
#[derive(Clone, Debug)]
pub(super) struct Ground<'a> {
    pub(super) hem: &'a Hem,
    pub(super) wish: &'a BandWish,
    /// Names of the motifs, that of the corners last.
    pub(super) names: Vec<String>,
    /// For each of them, its index among all motifs.
    all: Vec<usize>,
    /// Finished height of the tallest motif.
    pub(super) tallest: Mm,
    /// The least part of its width that the shorter side of a motif is.
    slim: f64,
    /// Finished height of the motif that stands in corners.
    in_corners: Mm,
    /// Outlines of motifs that stand upright, those along the line in the order of their names.
    stood: Vec<Stood>,
    /// Outline of the motif that stands in corners.
    cornered: Option<Stood>,
    /// How much higher the first line runs than for motifs square to the hem, so that upright ones keep what was asked for below
    /// their lower edge.
    pub(super) raised: Mm,
    /// One motif line for each row, from the hem up.
    pub(super) tiers: Vec<Tier>,
    /// What lies above and below: other bands, and what covers the cloth.
    pub(super) around: Vec<Strip>,
}

/// One motif line of a band.
#[derive(Clone, Debug)]
pub(super) struct Tier {
    pub(super) line: MotifLine,
    pub(super) course: Course,
    pub(super) keeps: Vec<Keep>,
    /// Its corners, and what each takes up.
    pub(super) nooks: Vec<Nook>,
    /// Whether its motifs stand above the gaps of the first row.
    pub(super) shifted: bool,
}

/// Rounds in which the size of the motifs and the height of their line settle on each other; each brings the difference
/// down by the sweep times the motif's height over the line, a tenth at most on hems that are worn.
const SETTLING: u32 = 40;

/// Most of their size that motifs made to fit give up so that seams stay clear as well: a sixth. Common practice, no source.
const MOST_SMALLER: f64 = 1.0 / 6.0;

/// Times the range of sizes is halved where what must be kept clear leaves less than the line: to a ten-millionth.
const HALVINGS: u32 = 24;

/// Most rows that lie over each other at any height: far more than films bear in one place (data/film_classes.toml), and each costs as
/// much to look at as all below it.
pub(super) const MOST_DEEP: f64 = 8.0;

/// Rows must not lie over each other without end.
fn rows_apart(wish: &BandWish, tallest: Mm) -> Result<(), PlaceError> {
    let rise = wish.rhythm.rows.rise.abs();
    if wish.rhythm.rows.count < 2 || rise * MOST_DEEP >= tallest {
        return Ok(());
    }
    let gap = wish.spacing.gap().map_or(BETWEEN_ROWS, |gap| gap.min(BETWEEN_ROWS));
    let clear = tallest + wish.rhythm.wave.unwrap_or(Mm::ZERO).abs() + gap;
    Err(PlaceError::RowsTooNear { band: wish.name.clone(), rise, height: tallest, clear })
}

impl<'a> Ground<'a> {
    /// The ground of a wish, with every motif's size times `size`.
    pub(super) fn new(
        hem: &'a Hem,
        motifs: &BTreeMap<String, Motif>,
        wish: &'a BandWish,
        size: f64,
    ) -> Result<Self, PlaceError> {
        let named = named(motifs, wish)?;
        checked(wish)?;
        wish.keep_out.iter().try_for_each(|place| on_hem(hem, place))?;
        let Spacing::Fit { count, gap } = wish.spacing else { return Self::of(hem, &named, wish, size) };
        let mut fit = size;
        let mut ground = Self::of(hem, &named, wish, fit)?;
        let drawn = ground.most(gap).ok();
        for _ in 0..SETTLING {
            let wanted = ground.largest_fit(count, gap.get()).map_or(0.0, |most| most.min(size));
            if wanted <= 0.0 {
                return Err(ground.gaps_take_all((count, gap), drawn));
            }
            if (wanted - fit).abs() < 1e-12 {
                break;
            }
            fit = wanted;
            ground = Self::of(hem, &named, wish, fit)?;
        }
        // What must be kept clear may leave them less than the whole line.
        let mut measure = Measure::new(motifs.values().collect());
        let serves = |ground: &Self, measure: &mut Measure<'_>, gap: Mm| {
            let choice = ground.settled(measure, count, gap).filter(|choice| choice.short() == 0)?;
            Some(choice.faults()).filter(|faults| faults.0 == 0)
        };
        // The largest below a size at which they serve, clear of seams too where that is asked.
        let largest =
            |measure: &mut Measure<'_>, (from, to): (f64, f64), seams: bool| -> Result<Option<Self>, PlaceError> {
                let (mut low, mut high, mut found) = (from, to, None);
                for _ in 0..HALVINGS {
                    let middle = f64::midpoint(low, high);
                    let trial = Self::of(hem, &named, wish, middle)?;
                    // What rounding is forgiven elsewhere would be used up whole here.
                    let faults = serves(&trial, measure, gap + Mm::new(SAME));
                    if faults.is_some_and(|faults| !seams || faults == (0, 0, 0)) {
                        (low, found) = (middle, Some(trial));
                    } else {
                        high = middle;
                    }
                }
                Ok(found)
            };
        let (mut of_areas, mut faults) = (Some(ground.clone()), serves(&ground, &mut measure, gap));
        if faults.is_none() {
            of_areas = largest(&mut measure, (0.0, fit), false)?;
            faults = of_areas.as_ref().and_then(|ground| serves(ground, &mut measure, gap));
        }
        if let (Some(size), true) =
            (of_areas.as_ref().map(|ground| ground.course().sequence.fit), faults != Some((0, 0, 0)))
        {
            // Seams cost no more of the size than a motif is made smaller to clear them elsewhere.
            let least = size * (1.0 - MOST_SMALLER);
            let clear = Self::of(hem, &named, wish, least)?;
            if serves(&clear, &mut measure, gap + Mm::new(SAME)) == Some((0, 0, 0)) {
                of_areas = largest(&mut measure, (least, size), true)?.or(Some(clear));
            }
        }
        of_areas.ok_or_else(|| {
            let at_least = BandWish { spacing: Spacing::AtLeast(gap), ..wish.clone() };
            let drawn = Ground::of(hem, &named, &at_least, size).and_then(|ground| ground.choose(&mut measure));
            ground.gaps_take_all((count, gap), drawn.ok().map(|chosen| chosen.choice.count))
        })
    }

    fn of(hem: &'a Hem, named: &[Named<'_>], wish: &'a BandWish, fit: f64) -> Result<Self, PlaceError> {
        let largest = wish.rhythm.sizes.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let largest = fit * if largest.is_finite() { largest } else { 1.0 };
        let (run, corner) = named.split_at(wish.motifs.len());
        let in_corner = corner.first().map(|corner| (corner.motif, fit));
        let corner_height = corner.first().map_or(Mm::ZERO, |corner| corner.motif.height);
        let tallest = run.iter().map(|named| named.motif.height).fold(Mm::ZERO, Mm::max) * largest;
        rows_apart(wish, tallest)?;
        let square = match wish.level {
            Level::Middle => wish.height,
            Level::LowerEdge => wish.height + tallest / 2.0,
        };
        let upright = wish.stance == Stance::Upright;
        let both = wish.hands != Hands::AsDrawn;
        let stood = |size: f64| -> Vec<Stood> {
            run.iter().filter(|_| upright).map(|named| Stood::new(named.motif, size, both)).collect()
        };
        let lowest = if upright && wish.level == Level::LowerEdge {
            let beside = |line: &MotifLine| nooks(line, wish, in_corner, (run, largest));
            let widest = run.iter().map(|named| named.motif.width).fold(Mm::ZERO, Mm::max) * largest;
            let fault = |error| PlaceError::Line { band: wish.name.clone(), error };
            upright::height(hem, &stood(largest), (square, wish.height), beside, widest).map_err(fault)?
        } else {
            square
        };
        let sequence = Sequence {
            widths: run.iter().map(|named| named.motif.width.get()).collect(),
            handed: run.iter().map(|named| named.handed).collect(),
            order: wish.rhythm.order,
            sizes: wish.rhythm.sizes.clone(),
            fit,
            lifted: 1.0,
        };
        let rows = wish.rhythm.rows;
        let tiers = (0..rows.count)
            .map(|row| {
                let height = lowest + rows.rise * f64::from(row);
                let shifted = rows.offset == RowOffset::HalfRepeat && row % 2 == 1;
                let mut tier = Tier::new(hem, wish, height, &sequence, shifted)?;
                let top = height + tallest / 2.0 + wish.rhythm.wave.unwrap_or(Mm::ZERO);
                tier.keeps.extend(seams::kept_out(&wish.keep_out, &tier.line, (height - tallest / 2.0, top)));
                tier.nooks = nooks(&tier.line, wish, in_corner, (run, largest));
                Ok(tier)
            })
            .collect::<Result<Vec<_>, _>>()?;
        if let Some(corner) = wish.rhythm.corner.as_ref().filter(|_| tiers.iter().all(|tier| tier.nooks.is_empty())) {
            return Err(PlaceError::NoCorners { band: wish.name.clone(), motif: corner.motif.clone() });
        }
        let in_corners = corner_height * fit;
        let cornered = corner.first().map(|corner| Stood::new(corner.motif, 1.0, both));
        let of_corner = wish.rhythm.corner.iter().map(|corner| &corner.motif);
        let names = wish.motifs.iter().chain(of_corner).cloned().collect();
        let all = named.iter().map(|named| named.index).collect();
        Ok(Self {
            hem,
            wish,
            names,
            all,
            tallest,
            slim: run.iter().map(|named| named.motif.height / named.motif.width).fold(1.0, f64::min),
            in_corners,
            stood: stood(1.0),
            cornered,
            raised: lowest - square,
            tiers,
            around: wish.covered.iter().copied().map(Strip::of_trim).collect(),
        })
    }

    /// The first row's course.
    pub(super) fn course(&self) -> &Course {
        &self.tiers[0].course
    }

    /// Whether neighbours differ by turns, in hand or in height.
    pub(super) fn takes_turns(&self) -> bool {
        let in_hand = self.wish.hands == Hands::Alternating && self.course().sequence.has_hands();
        in_hand || self.wish.rhythm.wave.is_some()
    }

    /// Names of the motifs that would be mirrored if they were not their own mirror images, each once.
    pub(super) fn own_mirror_images(&self) -> Vec<&str> {
        let handed = self.course().sequence.handed.iter();
        let mut names: Vec<&str> =
            self.names.iter().zip(handed).filter(|(_, handed)| !**handed).map(|(name, _)| name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    /// Whether its lines have corners.
    pub(super) fn has_corners(&self) -> bool {
        self.tiers.iter().any(|tier| !tier.nooks.is_empty())
    }

    /// Whether a place to keep clear of this name is one to keep out of, not a seam.
    pub(super) fn is_area(&self, name: &str) -> bool {
        self.tiers.iter().flat_map(|tier| &tier.keeps).any(|keep| keep.is_area() && keep.name == name)
    }

    /// Index of the motif that stands in corners.
    pub(super) fn corner_item(&self) -> Option<usize> {
        self.wish.rhythm.corner.as_ref().map(|_| self.wish.motifs.len())
    }

    /// Index and course of the row that leaves so many the least room.
    fn shortest(&self, count: u32) -> (usize, &Course) {
        let courses = self.tiers.iter().map(|tier| &tier.course).enumerate();
        courses.min_by(|a, b| a.1.room(count).total_cmp(&b.1.room(count))).unwrap_or((0, self.course()))
    }

    /// Largest count with at least `gap` along every row's line.
    pub(super) fn most(&self, gap: Mm) -> Result<u32, PlaceError> {
        let with = |start: Start| self.tiers.iter().map(move |tier| tier.course.most(gap.get(), tier.own(start))).min();
        let most = self.allowed().iter().filter_map(|start| with(*start)).max().unwrap_or(0);
        match most {
            0 => Err(self.does_not_fit(gap)),
            most if most > MOST => Err(PlaceError::TooMany { band: self.wish.name.clone(), most: MOST }),
            most => Ok(most),
        }
    }

    /// The largest count of each row with at least `gap` along it, whatever the others have.
    pub(super) fn takes(&self, gap: Mm) -> Vec<u32> {
        let most = |tier: &Tier| {
            let with = |start: &Start| tier.course.most(gap.get(), tier.own(*start));
            self.allowed().iter().map(with).max().unwrap_or(0)
        };
        self.tiers.iter().map(most).collect()
    }

    /// What the wish lets lie on the middle of a ring.
    pub(super) const fn allowed(&self) -> &'static [Start] {
        match self.wish.on_cf {
            Anchor::Motif => &[Start::Motif],
            Anchor::Gap => &[Start::Gap],
            Anchor::Best => &[Start::Motif, Start::Gap],
        }
    }

    /// Width of `count` motifs side by side, with what of the allowed lies on the middle where they are widest.
    fn widest(&self, tier: &Tier, count: u32) -> f64 {
        let width = |start: &Start| tier.course.width_of(count, tier.own(*start));
        self.allowed().iter().map(width).fold(0.0, f64::max)
    }

    /// Factor on the motifs as drawn at which `count` of them leave exactly `gap` on the row with least room.
    fn largest_fit(&self, count: u32, gap: f64) -> Option<f64> {
        let most = |tier: &Tier| {
            let gaps = if tier.course.closed { count } else { count.saturating_sub(1) };
            let room = tier.course.room(count) - gap * f64::from(gaps);
            tier.course.sequence.fit * room / self.widest(tier, count)
        };
        self.tiers.iter().map(most).min_by(f64::total_cmp)
    }
}
