//! Motifs bent to follow their line, for scrolls and vines so long that a straight one would leave it at both ends.
//!
//! In: a hem, the motifs as read, the bands. Out: the motifs bent, and what the bend does to each. A point of the motif at x
//! along and u up keeps both: it comes to lie over the place x along the line, u above it. On a line of radius R that is the
//! point at angle x / R and radius R - u, so lengths along the middle stay true and those at height u shrink by u / R.
//!
//! Limits: a motif has one shape, so all of a band are bent to the mean curvature of its line; where the line curves more in
//! one place than in another, how far the ends leave it is told. Motifs in corners stay straight.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::geometry::{Outline, Point, Ring};
use crate::hem::{Hem, MotifLine};
use crate::place::say::short;
use crate::place::{BandWish, Level, PlaceError, Stance};
use crate::quantity::Mm;

/// An edge is cut where its chord would leave the bent edge by more than this, in millimetres.
const CHORD_ERROR: f64 = 0.02;

/// Most parts one edge is cut into; a metre of scroll on the tightest line has a hundred.
const MOST_PARTS: f64 = 1000.0;

/// Places along the line at which its curvature is looked at.
const SAMPLES: u32 = 64;

/// The ends of a bent motif may leave the line by this much, in millimetres, without a word.
const WORTH_A_WORD: f64 = 0.5;

/// Bends the motifs of every band that asks for it; tells how much each is stretched and shortened.
///
/// # Errors
/// [`PlaceError`] when the line cannot be had or is tighter than the motif is high, or a motif is used in another band as well.
pub fn bend(hem: &Hem, motifs: &mut BTreeMap<String, Motif>, bands: &[BandWish]) -> Result<Vec<Finding>, PlaceError> {
    let mut findings = Vec::new();
    for wish in bands.iter().filter(|wish| wish.stance == Stance::Bent) {
        let mut names = wish.motifs.clone();
        names.sort();
        names.dedup();
        for name in names {
            let shared = bands.iter().filter(|other| other.motifs.contains(&name)).count() > 1;
            if shared {
                return Err(PlaceError::BentAndShared { band: wish.name.clone(), motif: name });
            }
            let Some(motif) = motifs.get_mut(&name) else { continue };
            findings.extend(bend_one(hem, wish, motif)?);
        }
    }
    Ok(findings)
}

fn bend_one(hem: &Hem, wish: &BandWish, motif: &mut Motif) -> Result<Option<Finding>, PlaceError> {
    let height = match wish.level {
        Level::Middle => wish.height,
        Level::LowerEdge => wish.height + motif.height / 2.0,
    };
    let fault = |error| PlaceError::Line { band: wish.name.clone(), error };
    let line = hem.line_at(height).map_err(fault)?;
    let curvature = if line.corners().is_empty() { hem.sweep().get() / line.length().get() } else { 0.0 };
    let strain = curvature.abs() * motif.height.get() / 2.0;
    let too_tight = || PlaceError::BentTooTight {
        band: wish.name.clone(),
        motif: motif.name.clone(),
        radius: Mm::new(1.0 / curvature.abs()),
    };
    if strain >= 1.0 {
        return Err(too_tight());
    }
    if curvature.abs() * motif.width.get() < 1e-6 {
        return Ok(None);
    }
    let mut layers = motif.layers.clone();
    for layer in &mut layers {
        let outlines: Option<Vec<Outline>> = layer.outlines.iter().map(|outline| bent(outline, curvature)).collect();
        layer.outlines = outlines.ok_or_else(too_tight)?;
    }
    motif.layers = layers;
    Ok(Some(told(wish, motif, &line, (curvature, strain))))
}

/// An outline bent to a curvature; `None` where nothing is left of it.
fn bent(outline: &Outline, curvature: f64) -> Option<Outline> {
    let ring = |ring: &Ring| Ring::new(ring.edges().flat_map(|edge| along(edge, curvature))).ok();
    let holes = outline.holes().iter().map(ring).collect::<Option<Vec<_>>>()?;
    Some(Outline::new(ring(outline.outer())?, holes))
}

/// The start of an edge and the points that cut it, bent.
fn along((start, end): (Point, Point), curvature: f64) -> impl Iterator<Item = Point> {
    let longest = (8.0 * CHORD_ERROR / curvature.abs()).sqrt();
    let parts = (start.distance(end) / longest).ceil().clamp(1.0, MOST_PARTS);
    (0..).map(f64::from).take_while(move |k| *k < parts).map(move |k| bent_point(start.lerp(end, k / parts), curvature))
}

/// x along and u = -y up, carried onto the circle of the line.
fn bent_point(point: Point, curvature: f64) -> Point {
    let (radius, angle) = (1.0 / curvature, point.x * curvature);
    let half = (angle / 2.0).sin();
    // -R + (R + y) cos a, written so that a gentle bend loses no digits.
    Point::new((radius + point.y) * angle.sin(), point.y * angle.cos() - 2.0 * radius * half * half)
}

fn told(wish: &BandWish, motif: &Motif, line: &MotifLine, (curvature, strain): (f64, f64)) -> Finding {
    let (upper, lower) = if curvature > 0.0 { ("shorter", "longer") } else { ("longer", "shorter") };
    let off = greatest_departure(line, motif.width.get(), curvature);
    let leaves = if off > WORTH_A_WORD {
        format!(" The line does not curve alike everywhere: the ends leave it by up to {}.", Mm::new(off))
    } else {
        String::new()
    };
    Finding {
        severity: Severity::LookAtThis,
        kind: "bent",
        place: None,
        measure: (off > WORTH_A_WORD).then(|| Mm::new(off)),
        say: format!(
            "{}: \"{}\" is bent to follow its line of radius {}: its upper edge becomes {:.1} % {upper} and its lower edge {:.1} % \
             {lower} than drawn.{leaves}",
            wish.name,
            motif.name,
            short(Mm::new(1.0 / curvature.abs())),
            strain * 100.0,
            strain * 100.0
        ),
        advice: "Look at the motif as cut, and lay the first one on the chalked line before cutting all.".to_owned(),
    }
}

/// How far the ends of a motif leave the line where that curves least or most.
fn greatest_departure(line: &MotifLine, width: f64, curvature: f64) -> f64 {
    let (least, greatest) = (line.span().0.get(), line.span().1.get());
    let (first, last) =
        if line.is_closed() { (least, greatest) } else { (least + width / 2.0, greatest - width / 2.0) };
    let turn = |s: f64| line.frame_unrolled(Mm::new(s)).turn().get();
    let places = (0..=SAMPLES).map(|k| first + (last - first) * f64::from(k) / f64::from(SAMPLES));
    let here = places.map(|s| {
        let turned = turn(s - width / 2.0) - turn(s + width / 2.0);
        turned - std::f64::consts::TAU * (turned / std::f64::consts::TAU).round()
    });
    let off = here.map(|turned| (turned / width - curvature).abs() * width * width / 8.0);
    off.fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;

    /// On a line of radius R, a point at x along and u up lies at angle x / R and radius R - u. Worked by hand.
    #[test]
    fn a_bent_bar_lies_between_two_circles() {
        let bar = Outline::new(Ring::rectangle(Rect::new(-150.0, -20.0, 150.0, 20.0)).unwrap(), vec![]);
        let radius = 740.0;
        let bent = bent(&bar, 1.0 / radius).unwrap();
        let middle = Point::new(0.0, -radius);
        for point in bent.outer().points() {
            let far = point.distance(middle);
            assert!(
                (far - 720.0).abs() < 1e-9 || (far - 760.0).abs() < 1e-9 || (720.0..=760.0).contains(&far),
                "{far}"
            );
        }
        let end = bent.outer().points().iter().fold(0.0_f64, |most, point| most.max(point.x));
        assert!((end - 760.0 * (150.0_f64 / 740.0).sin()).abs() < 1e-9);
        // A ring sector: mean radius x angle x depth.
        assert!((bent.area() - 300.0 * 40.0).abs() < 300.0 * CHORD_ERROR);
    }

    #[test]
    fn bending_the_other_way_sags() {
        let point = bent_point(Point::new(100.0, 0.0), -0.001);
        assert!(point.y > 0.0 && (point.y - 5.0).abs() < 0.01, "{point}");
    }
}
