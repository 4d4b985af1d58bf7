//! The band as the press meets it: hem coordinates to the flat development and back, across the join of a ring.
//!
//! In: a [`Hem`]. Method: the hem's own line is sampled every [`STEP`] millimetres with its directions; a point at height h
//! stands h along the normal there, so a band between two heights is a strip of four-cornered patches. A ring that develops
//! to an open arc (gores, cones) has one rigid move that carries its start on to its end; going past the end applies it.
//! Limit: heights stay below the hem's radius of curvature, as everywhere in hem coordinates.

use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::hem::{AsHung, Frame, Hem, HemError};
use crate::quantity::Mm;

/// Distance between samples on the hem, in millimetres. On a radius of 200 mm a chord this long strays 0.016 mm.
const STEP: f64 = 5.0;

/// Most samples: 100 m of hem; beyond it the step grows.
const MOST_SAMPLES: f64 = 20_000.0;

/// The band, sampled.
#[derive(Clone, Debug)]
pub(in crate::press) struct Ground {
    /// s and frame, in order of s, both ends included.
    samples: Vec<(f64, Frame)>,
    /// For a ring: carries the development's start on to its end.
    join: Option<Affine>,
    /// Where places lie on the hem as measured after hanging, where it was.
    hung: Option<AsHung>,
}

/// One patch of a strip between two heights, in the flat development.
pub(in crate::press) type Patch = [Point; 4];

impl Ground {
    /// Samples the hem.
    ///
    /// # Errors
    /// Those of [`Hem::line_at`] for the hem itself.
    pub(in crate::press) fn of(hem: &Hem) -> Result<Self, HemError> {
        let line = hem.line_at(Mm::ZERO)?;
        let (start, end) = line.span();
        let join = hem.is_closed().then(|| line.once_round(Affine::IDENTITY));
        let ground = Self::sampled(start.get(), end.get(), join, |s| line.frame_at(Mm::new(s)));
        Ok(Self { hung: hem.as_hung(), ..ground })
    }

    /// Samples any line given by its frames.
    pub(in crate::press) fn sampled(start: f64, end: f64, join: Option<Affine>, frame: impl Fn(f64) -> Frame) -> Self {
        let length = (end - start).max(1e-6);
        let pieces = (length / STEP).ceil().clamp(2.0, MOST_SAMPLES);
        // A closed line takes its last place for its first: stay a hair inside both ends.
        let hair = if join.is_some() { 1e-7 } else { 0.0 };
        let mut samples = Vec::new();
        let mut k = 0.0;
        while k <= pieces {
            let s = start + length * k / pieces;
            samples.push((s, frame(s.clamp(start + hair, end - hair))));
            k += 1.0;
        }
        Self { samples, join, hung: None }
    }

    /// Least and greatest s.
    pub(in crate::press) fn span(&self) -> (f64, f64) {
        (self.samples[0].0, self.samples[self.samples.len() - 1].0)
    }

    /// Length of the hem.
    pub(in crate::press) fn length(&self) -> f64 {
        let (start, end) = self.span();
        end - start
    }

    /// Whether motifs run round without an end.
    pub(in crate::press) const fn is_closed(&self) -> bool {
        self.join.is_some()
    }

    /// Whether a group that reaches so far along the hem can lie flat under a plate: any part of an open band or of a ring
    /// that is a flat disc; not more than half of any other ring, which stands up as a cone or a tube.
    pub(in crate::press) fn lies_flat(&self, reach: f64) -> bool {
        /// A join that turns and moves by less than this, in radians and millimetres, closes a flat disc.
        const CLOSED: f64 = 1e-3;
        let Some(join) = self.join else { return true };
        let apart = join.as_coeffs().into_iter().zip(Affine::IDENTITY.as_coeffs()).map(|(a, b)| (a - b).abs());
        reach <= self.length() / 2.0 || apart.fold(0.0, f64::max) < CLOSED
    }

    /// The move that carries what lies `laps` times round on to the development's next turn.
    pub(in crate::press) fn lap(&self, laps: i32) -> Affine {
        let Some(join) = self.join else { return Affine::IDENTITY };
        let once = if laps < 0 { join.inverse() } else { join };
        (0..laps.unsigned_abs().min(4)).fold(Affine::IDENTITY, |done, _| once * done)
    }

    /// How many whole times round `s` lies beyond the development.
    pub(in crate::press) fn laps_at(&self, s: f64) -> i32 {
        if !self.is_closed() {
            return 0;
        }
        let turns = ((s - self.span().0) / self.length()).floor().clamp(-4.0, 4.0);
        (-4..=4).find(|laps| (f64::from(*laps) - turns).abs() < 0.5).unwrap_or(0)
    }

    /// Frame on the hem at any s; past the ends of a ring it goes on, past the ends of a band it runs straight on.
    pub(in crate::press) fn frame(&self, s: f64) -> Frame {
        let laps = self.laps_at(s);
        let (start, end) = self.span();
        let home = s - f64::from(laps) * self.length();
        let inside = home.clamp(start, end);
        let after = self.samples.partition_point(|(at, _)| *at <= inside).clamp(1, self.samples.len() - 1);
        let ((s0, f0), (s1, f1)) = (self.samples[after - 1], self.samples[after]);
        let part = (inside - s0) / (s1 - s0);
        let along = unit(f0.along * (1.0 - part) + f1.along * part, f0.along);
        let at = f0.at.lerp(f1.at, part) + along * (home - inside);
        let moved = self.lap(laps);
        Frame { at: moved * at, along: turned(moved, along) }
    }

    /// How much further along than drafted a place of the drafted hem lies since it hung, counted on round a ring.
    pub(in crate::press) fn carried_on(&self, s: f64) -> f64 {
        let Some(hung) = &self.hung else { return 0.0 };
        let laps = f64::from(self.laps_at(s));
        let home = s - laps * self.length();
        hung.at(Mm::new(home)).get() - home + laps * (hung.length().get() - self.length())
    }

    /// The point at a distance along the hem and a height above it.
    pub(in crate::press) fn point(&self, s: f64, height: f64) -> Point {
        let frame = self.frame(s);
        frame.at + frame.up() * height
    }

    /// Distance along the hem and height above it of a point, sought within `reach` of `near`.
    pub(in crate::press) fn coordinates(&self, point: Point, near: f64, reach: f64) -> (f64, f64) {
        let mut best = (f64::INFINITY, near);
        for s in steps(near - reach, near + reach, STEP) {
            let distance = self.frame(s).at.distance_squared(point);
            if distance < best.0 {
                best = (distance, s);
            }
        }
        // The foot of the square line lies within one step of the nearest sample; halve on the sign of the slope.
        let (mut low, mut high) = (best.1 - STEP, best.1 + STEP);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            let frame = self.frame(middle);
            if (point - frame.at).dot(frame.along) > 0.0 { low = middle } else { high = middle }
        }
        let s = f64::midpoint(low, high);
        let frame = self.frame(s);
        (s, (point - frame.at).dot(frame.up()))
    }

    /// The strip between two heights as patches, from `from` to `to` along the hem.
    pub(in crate::press) fn strip(&self, (from, to): (f64, f64), (low, high): (f64, f64)) -> Vec<Patch> {
        let cuts: Vec<f64> = steps(from, to, STEP).collect();
        let edge: Vec<(Point, Point)> = cuts.iter().map(|s| (self.point(*s, low), self.point(*s, high))).collect();
        edge.windows(2).map(|pair| [pair[0].0, pair[1].0, pair[1].1, pair[0].1]).collect()
    }
}

/// From `from` to `to` in steps no longer than `step`, both ends included.
fn steps(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let length = (to - from).max(0.0);
    let pieces = (length / step).ceil().clamp(1.0, 4.0 * MOST_SAMPLES);
    let mut k = 0.0;
    std::iter::from_fn(move || {
        (k <= pieces).then(|| {
            let s = from + length * k / pieces;
            k += 1.0;
            s
        })
    })
}

/// A direction carried along by a rigid move.
pub(in crate::press) fn turned(moved: Affine, direction: Vec2) -> Vec2 {
    (moved * direction.to_point()) - (moved * Point::ZERO)
}

fn unit(direction: Vec2, otherwise: Vec2) -> Vec2 {
    let length = direction.hypot();
    if length > 1e-9 { direction / length } else { otherwise }
}

/// Area of a four-cornered patch inside a convex plate, in square millimetres (Sutherland and Hodgman's clipping, source 113).
pub(in crate::press) fn covered(patch: &Patch, plate: &[Point], plate_box: Rect) -> f64 {
    let first = Rect::from_points(patch[0], patch[2]).union_pt(patch[1]).union_pt(patch[3]);
    if first.x1 < plate_box.x0 || first.x0 > plate_box.x1 || first.y1 < plate_box.y0 || first.y0 > plate_box.y1 {
        return 0.0;
    }
    let mut kept = patch.to_vec();
    for (a, b) in plate.iter().zip(plate.iter().cycle().skip(1)) {
        // The plate runs clockwise on screen (y down), so its inside has a positive cross product.
        let inside = |p: Point| (*b - *a).cross(p - *a);
        let edges = kept.iter().copied().zip(kept.iter().copied().cycle().skip(1)).collect::<Vec<_>>();
        kept.clear();
        for (p, q) in edges {
            let (dp, dq) = (inside(p), inside(q));
            if dp >= 0.0 {
                kept.push(p);
            }
            if (dp >= 0.0) != (dq >= 0.0) {
                kept.push(p.lerp(q, dp / (dp - dq)));
            }
        }
        if kept.len() < 3 {
            return 0.0;
        }
    }
    let origin = kept[0];
    let twice: f64 = kept.windows(2).map(|pair| (pair[0] - origin).cross(pair[1] - origin)).sum();
    twice.abs() / 2.0
}

#[cfg(test)]
pub(in crate::press) mod tests {
    use super::*;
    use std::f64::consts::{PI, TAU};

    /// A ring that develops to part of a circle of this radius.
    pub(in crate::press) fn cone(radius: f64, sweep: f64) -> Ground {
        let frame = |s: f64| {
            let angle = s / radius;
            Frame {
                at: Point::new(radius * angle.sin(), -radius * (1.0 - angle.cos())),
                along: Vec2::new(angle.cos(), -angle.sin()),
            }
        };
        let half = radius * sweep / 2.0;
        let join = frame(half).placement() * frame(-half).placement().inverse();
        Ground::sampled(-half, half, Some(join), frame)
    }

    #[test]
    fn a_point_goes_to_hem_coordinates_and_back() {
        for sweep in [TAU, PI, 1.0] {
            let ground = cone(800.0, sweep);
            for (s, h) in [(0.0, 75.0), (300.0, 10.0), (-390.0, 120.0)] {
                let (s_found, h_found) = ground.coordinates(ground.point(s, h), s + 40.0, 200.0);
                assert!((s_found - s).abs() < 0.01 && (h_found - h).abs() < 0.01, "{s_found} {h_found}");
            }
        }
    }

    #[test]
    fn past_the_end_of_a_ring_the_hem_goes_on() {
        let ground = cone(800.0, 1.0);
        let (_, end) = ground.span();
        let before = ground.frame(end - 30.0);
        let after = ground.frame(end + 30.0);
        // The chord of 60 mm on radius 800: 1600 sin(30/800).
        assert!((before.at.distance(after.at) - 1600.0 * (0.0375_f64).sin()).abs() < 0.01);
        assert!((before.along.cross(after.along) + (0.075_f64).sin()).abs() < 1e-4);
    }

    /// A band 150 deep on a full circle of radius 800: pi (800^2 - 650^2) in all.
    #[test]
    fn the_strip_of_a_whole_ring_has_its_area() {
        let ground = cone(800.0, TAU);
        let far = [(-2e3, -3e3), (2e3, -3e3), (2e3, 2e3), (-2e3, 2e3)].map(Point::from);
        let strip = ground.strip(ground.span(), (0.0, 150.0));
        let area: f64 = strip.iter().map(|patch| covered(patch, &far, Rect::new(-2e3, -3e3, 2e3, 2e3))).sum();
        assert!((area - PI * (800.0 * 800.0 - 650.0 * 650.0)).abs() < 5.0, "{area}");
    }

    #[test]
    fn clipping_agrees_with_the_overlay_engine() {
        use crate::geometry::{Outline, Ring, overlay};
        let patch = [(0.0, 0.0), (5.0, 1.0), (6.0, 40.0), (-2.0, 38.0)].map(Point::from);
        for turn in 0..12 {
            let moved = Affine::translate((3.0, 20.0)) * Affine::rotate(f64::from(turn) * 0.5);
            let plate = [(-9.0, -4.0), (9.0, -4.0), (9.0, 4.0), (-9.0, 4.0)].map(|p| moved * Point::from(p));
            let outline = |points: &[Point]| Outline::new(Ring::new(points.iter().copied()).unwrap(), vec![]);
            let theirs = overlay::area(&overlay::intersection(&[outline(&patch)], &[outline(&plate)]));
            let own = covered(&patch, &plate, outline(&plate).bounds());
            assert!((own - theirs).abs() < 1e-3, "{own} against {theirs}");
        }
    }
}
