//! The plate over a group of motifs: whether the trusted part covers them, and where it may lie.

use super::ground::Ground;
use super::spots::Spot;
use crate::geometry::{Affine, Point, Ring, Vec2};

/// Rounding forgiven when a motif just fits, in millimetres: a thousandth of a hair.
pub(in crate::press) const HAIR: f64 = 1e-6;

/// The plate's trusted part and its rim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::press) struct PlateSize {
    /// Trusted extent along the hem.
    pub(in crate::press) along: f64,
    /// Trusted extent up the garment.
    pub(in crate::press) up: f64,
    /// Border round the trusted part.
    pub(in crate::press) rim: f64,
}

/// One motif of a group: its index among the spots, and how many times round the ring it is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::press) struct Member {
    /// Index of the spot.
    pub(in crate::press) spot: usize,
    /// Laps of the ring.
    pub(in crate::press) laps: i32,
}

/// Where the plate may lie over a group: any middle whose plate-frame coordinates are within both ranges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::press) struct Room {
    /// Turn of the plate in the flat development, radians, clockwise on screen.
    pub(in crate::press) turn: f64,
    /// Least and greatest coordinate of the middle along the plate.
    pub(in crate::press) along: (f64, f64),
    /// Least and greatest coordinate of the middle down the plate.
    pub(in crate::press) down: (f64, f64),
}

impl Room {
    /// A middle: so much of the way from the first (0) to the last (1) place along the plate, and from the highest (0) to
    /// the lowest (1) down it.
    pub(in crate::press) fn middle(&self, (along, down): (f64, f64)) -> Point {
        let (u, v) = axes(self.turn);
        let part = |(from, to): (f64, f64), share: f64| from + (to - from) * share;
        (u * part(self.along, along) + v * part(self.down, down)).to_point()
    }
}

/// Unit directions along and down a plate turned by so much.
fn axes(turn: f64) -> (Vec2, Vec2) {
    let along = Vec2::from_angle(turn);
    (along, Vec2::new(-along.y, along.x))
}

/// Everything needed to ask whether a group goes under the plate.
#[derive(Clone, Copy, Debug)]
pub(in crate::press) struct Bench<'a> {
    /// The band.
    pub(in crate::press) ground: &'a Ground,
    /// The motifs.
    pub(in crate::press) spots: &'a [Spot],
    /// The plate.
    pub(in crate::press) plate: PlateSize,
}

impl Bench<'_> {
    /// Distance along the hem of a member, laps counted.
    pub(in crate::press) fn s(&self, member: Member) -> f64 {
        self.spots[member.spot].s + f64::from(member.laps) * self.ground.length()
    }

    /// Distances along the hem of a group's first and last motif.
    fn ends(&self, group: &[Member]) -> (f64, f64) {
        group.iter().map(|member| self.s(*member)).fold((f64::INFINITY, f64::NEG_INFINITY), spread)
    }

    /// Hull corners of a member in the flat development, laps counted.
    pub(in crate::press) fn hull(&self, member: Member) -> impl Iterator<Item = Point> {
        let moved = self.ground.lap(member.laps);
        self.spots[member.spot].hull.iter().map(move |point| moved * *point)
    }

    /// Distance between the first hull corners of two members; a member without outlines is never near.
    pub(in crate::press) fn apart(&self, a: Member, b: Member) -> f64 {
        let corners = self.hull(a).next().zip(self.hull(b).next());
        corners.map_or(f64::INFINITY, |(a, b)| a.distance(b))
    }

    /// Longest line within the trusted part.
    pub(in crate::press) fn diagonal(&self) -> f64 {
        self.plate.along.hypot(self.plate.up)
    }

    /// The plate's turn over a group: along the hem's direction halfway between its first and last motif.
    pub(in crate::press) fn turn(&self, group: &[Member]) -> f64 {
        let ends = self.ends(group);
        let along = self.ground.frame(f64::midpoint(ends.0, ends.1)).along;
        along.y.atan2(along.x)
    }

    /// Extent of a group along and down a plate turned by so much. Motifs of a hem that hung lie further apart, or nearer, than the
    /// development shows: the plate must reach them where they are, too.
    pub(in crate::press) fn extent(&self, group: &[Member], turn: f64) -> ((f64, f64), (f64, f64)) {
        let (u, v) = axes(turn);
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        let ends = self.ends(group);
        let middle = self.ground.carried_on(f64::midpoint(ends.0, ends.1));
        let places = group.iter().flat_map(|member| {
            let s = self.s(*member);
            let moved = self.ground.frame(s).along * (self.ground.carried_on(s) - middle);
            self.hull(*member).flat_map(move |point| [point.to_vec2(), point.to_vec2() + moved])
        });
        places.fold((none, none), |(along, down), point| (spread(along, point.dot(u)), spread(down, point.dot(v))))
    }

    /// Where the plate may lie over a group; `None` when its trusted part does not cover it.
    pub(in crate::press) fn room(&self, group: &[Member]) -> Option<Room> {
        let (from, to) = self.ends(group);
        if !self.ground.lies_flat(to - from) {
            return None;
        }
        let turn = self.turn(group);
        let (along, down) = self.extent(group, turn);
        let range = |(least, greatest): (f64, f64), size: f64| {
            let (low, high) = (greatest - size / 2.0, least + size / 2.0);
            (low <= high + HAIR).then(|| (low.min(high), high.max(low)))
        };
        Some(Room { turn, along: range(along, self.plate.along)?, down: range(down, self.plate.up)? })
    }

    /// The whole plate, rim included, round a middle.
    pub(in crate::press) fn footprint(&self, middle: Point, turn: f64) -> Ring {
        let (along, up) = (self.plate.along / 2.0 + self.plate.rim, self.plate.up / 2.0 + self.plate.rim);
        let placed = Affine::translate(middle.to_vec2()) * Affine::rotate(turn);
        let corners = [(-along, -up), (along, -up), (along, up), (-along, up)];
        Ring::new(corners.map(|corner| placed * Point::from(corner))).expect("a plate has four corners apart")
    }

    /// A group carried home, so that its middle lies in the development's own turn.
    pub(in crate::press) fn carried_home(&self, group: &[Member]) -> Vec<Member> {
        let ends = self.ends(group);
        let laps = self.ground.laps_at(f64::midpoint(ends.0, ends.1));
        group.iter().map(|member| Member { laps: member.laps - laps, ..*member }).collect()
    }
}

fn spread((least, greatest): (f64, f64), value: f64) -> (f64, f64) {
    (least.min(value), greatest.max(value))
}

/// Whether two convex areas share more than a line (separating axes).
pub(in crate::press) fn overlap(a: &[Point], b: &[Point]) -> bool {
    let parted_by = |one: &[Point], other: &[Point]| {
        one.iter().zip(one.iter().cycle().skip(1)).any(|(p, q)| {
            let normal = Vec2::new(q.y - p.y, p.x - q.x);
            let reach = |points: &[Point]| {
                let along = points.iter().map(|point| point.to_vec2().dot(normal));
                along.fold((f64::INFINITY, f64::NEG_INFINITY), spread)
            };
            let (one, other) = (reach(one), reach(other));
            one.1 <= other.0 || other.1 <= one.0
        })
    };
    !parted_by(a, b) && !parted_by(b, a)
}
