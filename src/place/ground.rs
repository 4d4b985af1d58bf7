//! What a band is set out on: its motif lines, its motifs, and what must be kept clear.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::geometry::Affine;
use crate::hem::{Corner, Ends, Frame, Hem, MotifLine};
use crate::place::along::bounds::Nook;
use crate::place::along::mitre::mitre;
use crate::place::along::row::{Course, MOST, Row, SAME, Seat, Start};
use crate::place::along::sequence::{Member, Sequence};
use crate::place::clash::across::BETWEEN_ROWS;
use crate::place::clash::clear::{Kind, Measure, Standing};
use crate::place::clash::seams::{self, Keep};
use crate::place::clash::upright::{self, Stood};
use crate::place::{Anchor, BandWish, Hands, KeepOut, Level, PlaceError, RowOffset, Spacing, Stance};
use crate::quantity::Mm;

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

/// Times the range of sizes is halved where what must be kept clear leaves less than the line: to a ten-millionth.
const HALVINGS: u32 = 24;

/// Most rows of one band; a skirt has no room for more.
const MOST_ROWS: u32 = 100;

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
            ground.settled(measure, count, gap).is_some_and(|choice| choice.faults().0 == 0 && choice.short() == 0)
        };
        if serves(&ground, &mut measure, gap) {
            return Ok(ground);
        }
        let (mut low, mut high, mut found) = (0.0, fit, None);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            let trial = Self::of(hem, &named, wish, middle)?;
            // What rounding is forgiven elsewhere would be used up whole here.
            if serves(&trial, &mut measure, gap + Mm::new(SAME)) {
                (low, found) = (middle, Some(trial));
            } else {
                high = middle;
            }
        }
        found.ok_or_else(|| {
            let at_least = BandWish { spacing: Spacing::AtLeast(gap), ..wish.clone() };
            let drawn = Ground::of(hem, &named, &at_least, size).and_then(|ground| ground.choose(&mut measure));
            ground.gaps_take_all((count, gap), drawn.ok().map(|chosen| chosen.choice.count))
        })
    }

    fn of(hem: &'a Hem, named: &[(usize, &Motif)], wish: &'a BandWish, fit: f64) -> Result<Self, PlaceError> {
        let largest = wish.rhythm.sizes.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let largest = fit * if largest.is_finite() { largest } else { 1.0 };
        let (run, corner) = named.split_at(wish.motifs.len());
        let in_corner = corner.first().map(|(_, motif)| (*motif, fit));
        let corner_height = corner.first().map_or(Mm::ZERO, |(_, motif)| motif.height);
        let tallest = run.iter().map(|(_, motif)| motif.height).fold(Mm::ZERO, Mm::max) * largest;
        let square = match wish.level {
            Level::Middle => wish.height,
            Level::LowerEdge => wish.height + tallest / 2.0,
        };
        let upright = wish.stance == Stance::Upright;
        let both = wish.hands != Hands::AsDrawn;
        let stood = |size: f64| -> Vec<Stood> {
            run.iter().filter(|_| upright).map(|(_, motif)| Stood::new(motif, size, both)).collect()
        };
        let lowest = if upright && wish.level == Level::LowerEdge {
            let beside = |line: &MotifLine| nooks(line, wish, in_corner, (run, largest));
            let widest = run.iter().map(|(_, motif)| motif.width).fold(Mm::ZERO, Mm::max) * largest;
            let fault = |error| PlaceError::Line { band: wish.name.clone(), error };
            upright::height(hem, &stood(largest), (square, wish.height), beside, widest).map_err(fault)?
        } else {
            square
        };
        let sequence = Sequence {
            widths: run.iter().map(|(_, motif)| motif.width.get()).collect(),
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
        let corner = wish.rhythm.corner.iter().map(|corner| &corner.motif);
        let in_corners = corner_height * fit;
        let cornered = named.get(wish.motifs.len()).map(|(_, motif)| Stood::new(motif, 1.0, both));
        let names = wish.motifs.iter().chain(corner).cloned().collect();
        let all = named.iter().map(|(index, _)| *index).collect();
        Ok(Self {
            hem,
            wish,
            names,
            all,
            tallest,
            in_corners,
            stood: stood(1.0),
            cornered,
            raised: lowest - square,
            tiers,
        })
    }

    /// The first row's course.
    pub(super) fn course(&self) -> &Course {
        &self.tiers[0].course
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

    /// The course of the row that leaves so many the least room.
    fn shortest(&self, count: u32) -> &Course {
        let courses = self.tiers.iter().map(|tier| &tier.course);
        courses.min_by(|a, b| a.room(count).total_cmp(&b.room(count))).unwrap_or(self.course())
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

    pub(super) fn does_not_fit(&self, gap: Mm) -> PlaceError {
        if let Some(sides) = self.sides_too_short(gap) {
            return sides;
        }
        let course = self.shortest(1);
        let once = course.sequence.step(course.closed);
        PlaceError::DoesNotFit {
            band: self.wish.name.clone(),
            room: Mm::new(course.room(once)),
            motifs: self.wish.motifs.iter().take(once as usize).cloned().collect::<Vec<_>>().join(", "),
            width: Mm::new(course.width_of(once, Start::Motif)),
            gaps: gap * if course.closed { f64::from(once) } else { 0.0 },
        }
    }

    /// Why nothing fits along the sides of a cloth with corners: what its longest side has and needs.
    fn sides_too_short(&self, gap: Mm) -> Option<PlaceError> {
        let tier = &self.tiers[0];
        let (first, last) = (tier.nooks.first()?, tier.nooks.last()?);
        let closing = Nook { s: first.s + tier.course.length(), ..*first };
        let pairs = tier.nooks.iter().zip(tier.nooks.iter().skip(1)).chain(std::iter::once((last, &closing)));
        let pairs = pairs.filter(|_| tier.course.closed);
        let (from, to) = pairs.max_by(|a, b| (a.1.s - a.0.s).total_cmp(&(b.1.s - b.0.s)))?;
        let sequence = &tier.course.sequence;
        let widest = (0..sequence.widths.len()).max_by(|a, b| sequence.widths[*a].total_cmp(&sequence.widths[*b]))?;
        let (side, width) = (to.s - from.s, sequence.widest());
        let (taken, gaps) = (from.occupied + to.occupied, (from.gaps + to.gaps) * gap.get());
        // Without motifs of their own corners take up less for smaller ones.
        let largest = match self.corner_item() {
            Some(_) => side - taken - gaps,
            None => (side - gaps) * width / (width + taken),
        };
        Some(PlaceError::SidesTooShort {
            band: self.wish.name.clone(),
            side: Mm::new(side),
            motif: self.names[widest].clone(),
            width: Mm::new(width),
            corners: Mm::new(taken + gaps),
            largest: (largest >= 1.0).then(|| Mm::new(largest)),
        })
    }

    /// So many gaps leave nothing for motifs; as drawn `most` fit.
    fn gaps_take_all(&self, (count, gap): (u32, Mm), most: Option<u32>) -> PlaceError {
        let room = Mm::new(self.shortest(count).room(count));
        let beside = self.tiers.iter().any(|tier| tier.keeps.iter().any(Keep::is_firm));
        PlaceError::GapsTakeAll { band: self.wish.name.clone(), count, gap, room, beside, most }
    }

    /// Whether so many fit edge to edge.
    pub(super) fn check_count(&self, count: u32) -> Result<(), PlaceError> {
        let band = self.wish.name.clone();
        if count > MOST {
            return Err(PlaceError::TooMany { band, most: MOST });
        }
        for tier in &self.tiers {
            let (width, room) = (Mm::new(self.widest(tier, count)), Mm::new(tier.course.room(count)));
            if width.get() > room.get() + SAME {
                let most = self.allowed().iter().map(|start| tier.course.most(0.0, tier.own(*start)));
                let most = most.min().unwrap_or(0).min(MOST);
                return Err(PlaceError::CountTooGreat { band, count, width, room, most });
            }
        }
        Ok(())
    }

    /// Height of the highest point of the motifs of a row above the hem.
    pub(super) fn highest(&self, tier: &Tier) -> Mm {
        let tallest = if tier.nooks.is_empty() { self.tallest } else { self.tallest.max(self.in_corners) };
        tier.line.height() + tallest / 2.0 + self.wish.rhythm.wave.unwrap_or(Mm::ZERO).max(Mm::ZERO)
    }

    /// Height of the lowest point of the motifs of the first row above the hem; of upright ones by their true outlines.
    pub(super) fn lowest(&self, tier: &Tier, row: &Row) -> Mm {
        let square = tier.line.height() - self.tallest / 2.0 + self.wish.rhythm.wave.unwrap_or(Mm::ZERO).min(Mm::ZERO);
        let Some(edge) = self.hem.line_at(Mm::ZERO).ok().filter(|_| self.wish.stance == Stance::Upright) else {
            return square;
        };
        let least = |seat: &Seat| {
            let stood = self.stood.get(seat.item).filter(|_| !seat.corner)?;
            Some(stood.least(&edge, &tier.line, (Mm::new(seat.s), self.raise(*seat)), seat.scale))
        };
        row.seats.iter().filter_map(least).min_by(f64::total_cmp).map_or(square, Mm::new)
    }

    /// Least distance from the true outlines of motifs in corners to the edge; negative where they reach over it.
    pub(super) fn least_in_corners(&self, tier: &Tier, row: &Row) -> Option<Mm> {
        let (edge, stood) = (self.hem.line_at(Mm::ZERO).ok()?, self.cornered.as_ref()?);
        let turned = self.wish.stance != Stance::Upright;
        let least =
            |seat: &Seat| upright::least_in_corner(stood, &edge, &tier.line, (Mm::new(seat.s), seat.scale, turned));
        row.seats.iter().filter(|seat| seat.corner).map(least).min_by(f64::total_cmp).map(Mm::new)
    }

    /// Where a seat's motif stands.
    pub(super) fn standing(&self, tier: &Tier, seat: Seat) -> Standing {
        self.standing_in(tier.line.frame_at(Mm::new(seat.s)), seat)
    }

    fn standing_in(&self, frame: Frame, seat: Seat) -> Standing {
        let at = frame.at + frame.up() * self.raise(seat).get();
        let turn = match self.wish.stance {
            Stance::SquareToHem | Stance::Bent => frame.turn().get(),
            Stance::Upright => 0.0,
        };
        Standing {
            kind: Kind { motif: self.all[seat.item], hand: seat.hand, scale: seat.scale },
            place: Affine::translate(at.to_vec2()) * Affine::rotate(turn),
        }
    }

    /// How far a seat's motif stands above its line.
    pub(super) fn raise(&self, seat: Seat) -> Mm {
        self.wish.rhythm.wave.filter(|_| seat.second).unwrap_or(Mm::ZERO)
    }

    /// Where the motifs of a row stand; on a ring the first once more, once round further.
    pub(super) fn standings(&self, tier: &Tier, row: &Row) -> Vec<Standing> {
        let mut all: Vec<Standing> = row.seats.iter().map(|seat| self.standing(tier, *seat)).collect();
        if let (Some(_), Some(first)) = (row.round, all.first().copied()) {
            all.push(Standing { place: tier.line.once_round(first.place), ..first });
        }
        all
    }

    /// The clear gaps between neighbours of a run that may go on past the join of the development.
    pub(super) fn run_clears(&self, measure: &mut Measure<'_>, tier: &Tier, run: &Row) -> Option<Vec<f64>> {
        let standing = |seat: &Seat| self.standing_in(tier.line.frame_unrolled(Mm::new(seat.s)), *seat);
        let standings: Vec<Standing> = run.seats.iter().map(standing).collect();
        standings.windows(2).map(|pair| Some(measure.between(pair[0], pair[1])?.distance)).collect()
    }

    /// Whether a motif may stand right above one of the row below without coming too near it.
    pub(super) fn stacked(&self, gap: Mm) -> bool {
        let (rows, wave) = (self.wish.rhythm.rows, self.wish.rhythm.wave.unwrap_or(Mm::ZERO).abs());
        rows.rise - self.tallest - wave >= gap.min(BETWEEN_ROWS)
    }

    /// The clear gaps between neighbours of a row, the closing one of a ring last; `None` where a motif has no outline.
    pub(super) fn clears(&self, measure: &mut Measure<'_>, tier: &Tier, row: &Row) -> Option<Vec<f64>> {
        let standings = self.standings(tier, row);
        standings.windows(2).map(|pair| Some(measure.between(pair[0], pair[1])?.distance)).collect()
    }
}

impl Tier {
    fn new(hem: &Hem, wish: &BandWish, height: Mm, sequence: &Sequence, shifted: bool) -> Result<Self, PlaceError> {
        let fault = |error| PlaceError::Line { band: wish.name.clone(), error };
        let line = hem.line_at(height).map_err(fault)?;
        let top = height + wish.rhythm.wave.unwrap_or(Mm::ZERO);
        let upper = hem.line_at(top).map_err(fault)?;
        let (least, greatest) = line.span();
        let ends = match hem.ends() {
            Ends::Open { keep_clear, .. } => keep_clear.get(),
            Ends::Closed | Ends::Opening { .. } => 0.0,
        };
        // A motif on the upper line of a wave covers more of the lower one, by as much as that is longer. Between the
        // corners of a cloth both lines run straight, and are of different length only because of the corners.
        let lifted = if line.corners().is_empty() { line.length() / upper.length() } else { 1.0 };
        let course = Course {
            span: (least.get(), greatest.get()),
            closed: line.is_closed(),
            ends,
            ends_raised: ends * lifted,
            sequence: Sequence { lifted, ..sequence.clone() },
            hands: wish.hands,
            middle: hem.middle(),
            shift: wish.rhythm.shift.get(),
        };
        if !course.closed && course.shift.abs() > 0.0 {
            return Err(PlaceError::ShiftOfOpen { band: wish.name.clone() });
        }
        let most = Mm::new(course.length() / 2.0);
        if wish.rhythm.shift.abs() > most + Mm::new(SAME) {
            return Err(PlaceError::ShiftTooFar { band: wish.name.clone(), shift: wish.rhythm.shift, most });
        }
        if course.room(1) <= SAME {
            let (line, clear) = (Mm::new(course.length()), Mm::new(course.ends));
            return Err(PlaceError::EndsTakeAll { band: wish.name.clone(), line, clear });
        }
        let keeps = seams::keeps(hem.marks(), &line);
        Ok(Self { line, course, keeps, nooks: Vec::new(), shifted })
    }

    /// The seat of a motif in a corner.
    pub(super) fn corner_seat(&self, nook: Nook, item: usize) -> Seat {
        let scale = self.course.sequence.fit;
        let member = Member { item, scale, width: 2.0 * nook.occupied };
        Seat { corner: true, ..Seat::new(nook.s, member) }
    }
}

impl Tier {
    /// What lies on the middle of this row where `start` lies there in the first one.
    pub(super) const fn own(&self, start: Start) -> Start {
        match (self.shifted && self.course.closed, start) {
            (false, start) => start,
            (true, Start::Motif) => Start::Gap,
            (true, Start::Gap) => Start::Motif,
        }
    }

    /// Whether a motif there keeps out of every place that it must keep out of.
    pub(super) fn is_free(&self, row: &Row, seat: Seat) -> bool {
        let apart = |keep: &Keep| row.offset(keep.s, seat.s).abs() - seat.half - keep.half;
        self.keeps.iter().filter(|keep| keep.is_area()).all(|keep| apart(keep) >= keep.clear - SAME)
    }
}

/// The corners of a line, with the motif that stands in them, so much larger than drawn, or beside motifs along it that are.
fn nooks(
    line: &MotifLine,
    wish: &BandWish,
    in_corner: Option<(&Motif, f64)>,
    (along, largest): (&[(usize, &Motif)], f64),
) -> Vec<Nook> {
    let nook = |corner: Corner| {
        let s = corner.s_line.get();
        if let Some((motif, size)) = in_corner {
            return Nook { s, occupied: corner_takes(wish, motif, (corner.turn, size)), gaps: 1.0 };
        }
        let motifs = along.iter().map(|(_, motif)| *motif);
        let mitre = mitre((line, corner), wish, (motifs, largest));
        Nook { s, occupied: mitre.takes, gaps: mitre.gaps }
    };
    line.corners().into_iter().map(nook).collect()
}

/// How much of the line a motif that stands in a corner takes up on each side: as asked, or what its box, so much larger than drawn
/// and turned onto the bisector, covers of it.
pub(super) fn corner_takes(wish: &BandWish, motif: &Motif, (turn, size): (f64, f64)) -> f64 {
    let (sin, cos) = (turn.abs() / 2.0).sin_cos();
    let asked = wish.rhythm.corner.as_ref().and_then(|corner| corner.occupies);
    asked.map_or_else(|| (motif.width.get() * cos + motif.height.get() * sin) / 2.0 * size, Mm::get)
}

/// The motifs a wish names, in its order and that of the corners last, with their index among all; each has a width that can be set out.
fn named<'m>(motifs: &'m BTreeMap<String, Motif>, wish: &BandWish) -> Result<Vec<(usize, &'m Motif)>, PlaceError> {
    let band = || wish.name.clone();
    if wish.motifs.is_empty() {
        return Err(PlaceError::NoMotifs { band: band() });
    }
    wish.motifs
        .iter()
        .chain(wish.rhythm.corner.iter().map(|corner| &corner.motif))
        .map(|name| match motifs.iter().enumerate().find(|(_, (key, _))| *key == name) {
            None => Err(PlaceError::UnknownMotif { band: band(), motif: name.clone() }),
            Some((_, (_, motif))) if motif.width <= Mm::ZERO => {
                Err(PlaceError::NotPositive { band: band(), what: format!("width of {name}") })
            }
            Some((index, (_, motif))) => Ok((index, motif)),
        })
        .collect()
}

/// A place may end past the end of the hem by this much, in millimetres: a distance written to the nearest millimetre.
const END_SLACK: Mm = Mm::new(0.5);

/// A place to keep out of lies on the hem; round a ring it may be given either way round, also across CB.
fn on_hem(hem: &Hem, place: &KeepOut) -> Result<(), PlaceError> {
    let (from, to) = place.along;
    let (round, ring) = (hem.length(), hem.is_closed());
    let span = match (ring, to - from < round) {
        (false, _) => hem.span(),
        (true, true) => (-round, round),
        (true, false) => (from, from + round),
    };
    let leaves_some = !ring || to - from < round;
    if leaves_some && from >= span.0 - END_SLACK && to <= span.1 + END_SLACK {
        return Ok(());
    }
    let (name, line) = (place.name.clone(), place.line);
    Err(PlaceError::KeepOutOffHem { name, line, along: place.along, hem: span, ring })
}

/// What a wish says by itself.
fn checked(wish: &BandWish) -> Result<(), PlaceError> {
    let refuse = |what: &str| Err(PlaceError::NotPositive { band: wish.name.clone(), what: what.to_owned() });
    match wish.spacing {
        Spacing::AtLeast(gap) | Spacing::Fit { gap, .. } | Spacing::Settled { gap, .. } if gap < Mm::ZERO => {
            return refuse("gap");
        }
        Spacing::Count(0) | Spacing::Fit { count: 0, .. } | Spacing::Settled { count: 0, .. } => {
            return refuse("count");
        }
        Spacing::Count(count) | Spacing::Fit { count, .. } | Spacing::Settled { count, .. } if count > MOST => {
            return Err(PlaceError::TooMany { band: wish.name.clone(), most: MOST });
        }
        _ => {}
    }
    if wish.rhythm.sizes.iter().any(|size| !(*size > 0.0 && size.is_finite())) {
        return refuse("sizes");
    }
    match wish.rhythm.rows.count {
        0 => refuse("rows"),
        rows if rows > MOST_ROWS => Err(PlaceError::TooManyRows { band: wish.name.clone(), rows, most: MOST_ROWS }),
        _ => Ok(()),
    }
}
