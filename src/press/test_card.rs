//! The test card: a ladder of settings to press on scraps of the same stack, small swatches of the film for it, and where they
//! fit in the waste of a sheet.
//!
//! The ladder climbs from the coolest and shortest setting of the common window to the hottest and longest, so that the first
//! swatch that holds without a mark is the gentlest that does. Every setting that the plan presses with stands on it, inside
//! the window or not: what is never tried on a scrap is tried on the garment. Where there is no common window it holds the
//! lowest setting of the film that wants most heat besides, and says that a mark is to be expected.

use crate::data::{FilmClass, usual};
use crate::geometry::clearance::Measurable;
use crate::geometry::{Outline, Point, Rect, Ring};
use crate::press::limits::window::{CommonWindow, classes};
use crate::press::plates::laying::LaidOut;
use crate::press::setup::{Setup, Verdict};
use crate::press::{Inputs, Lies, PressKind, ZoneState};
use crate::quantity::{Celsius, Mm, Seconds, mm};

/// One swatch to press.
#[derive(Clone, Debug, PartialEq)]
pub struct Swatch {
    /// Number on the card, from 1.
    pub number: u32,
    /// Plate temperature.
    pub temperature: Celsius,
    /// Time under the plate.
    pub dwell: Seconds,
    /// Classes of film whose top layers the plan presses with just this setting, by name; none for a rung of the ladder only.
    pub plan_for: Vec<String>,
}

/// The test card.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TestCard {
    /// What to lay under the plate, from the top.
    pub stack: Vec<String>,
    /// The ladder, gentlest first.
    pub swatches: Vec<Swatch>,
    /// Side of the square swatch to cut from each film.
    pub side: Mm,
    /// What to do, in order.
    pub how: Vec<String>,
    /// What the job says a test has shown, in one sentence.
    pub tested: Option<String>,
}

/// Heads of the boxes to fill in beside each swatch.
pub const BOXES: [&str; 5] = [
    "holds when cold and peeled",
    "an edge lifts",
    "mark, shine, colour or shrinkage",
    "trim or glue changed",
    "after one wash",
];

/// Makes the card.
pub(super) fn test_card(inputs: &Inputs<'_>, laid_out: &LaidOut, window: &CommonWindow) -> TestCard {
    let classes = classes(laid_out);
    let Some(settings) = ladder(laid_out, window, &classes) else { return TestCard::default() };
    let planned = planned(laid_out);
    let settings = together(settings.into_iter().chain(planned.iter().map(|(setting, _)| *setting)));
    let swatch = |(number, setting): (u32, Setting)| Swatch {
        number,
        temperature: setting.0,
        dwell: setting.1,
        plan_for: planned.iter().filter(|(at, _)| same(*at, setting)).flat_map(|(_, names)| names.clone()).collect(),
    };
    TestCard {
        stack: stack(inputs, &classes),
        swatches: (1..).zip(settings).map(swatch).collect(),
        side: mm(usual("test-swatch")),
        how: how(window, planned.len()),
        tested: tested(inputs.setup),
    }
}

/// Plate temperature and time.
type Setting = (Celsius, Seconds);

/// Nearer than a dial and a timer can be set.
fn same(a: Setting, b: Setting) -> bool {
    (a.0.get() - b.0.get()).abs() < 1.0 && (a.1.get() - b.1.get()).abs() < 0.5
}

/// Without repeats, from gentle to strong.
fn together(settings: impl Iterator<Item = Setting>) -> Vec<Setting> {
    let mut found: Vec<Setting> = Vec::new();
    for setting in settings {
        if found.iter().all(|known| !same(*known, setting)) {
            found.push(setting);
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.get().total_cmp(&b.1.get())));
    found
}

/// Every setting of a full press in the plan, with the names of the classes that get it.
fn planned(laid_out: &LaidOut) -> Vec<(Setting, Vec<String>)> {
    let mut found: Vec<(Setting, Vec<String>)> = Vec::new();
    let full = laid_out.closures.iter().zip(&laid_out.rounds).filter(|(closure, _)| closure.kind == PressKind::Full);
    for (closure, round) in full {
        let setting = (closure.temperature, closure.parts.dwell);
        let names = round.classes.iter().map(|class| class.name.clone());
        match found.iter_mut().find(|(known, _)| same(*known, setting)) {
            Some((_, known)) => {
                let new: Vec<String> = names.filter(|name| !known.contains(name)).collect();
                known.extend(new);
            }
            None => found.push((setting, names.collect())),
        }
    }
    found
}

/// Settings of the window from gentle to strong.
fn ladder(laid_out: &LaidOut, window: &CommonWindow, classes: &[&FilmClass]) -> Option<Vec<Setting>> {
    let top = classes.first()?;
    let lowest = classes.iter().map(|class| class.temperatures().0).reduce(Celsius::max)?;
    let (low, high) = window.temperature.unwrap_or((lowest, lowest));
    let (shortest, longest) = window.time.unwrap_or_else(|| top.times());
    let planned = laid_out.closures.last()?.temperature.max(low).min(high);
    let mut heats = vec![low, planned, high];
    heats.dedup_by(|a, b| (a.get() - b.get()).abs() < 1.0);
    let mut times = vec![shortest, longest];
    times.dedup_by(|a, b| (a.get() - b.get()).abs() < 0.5);
    Some(heats.iter().flat_map(|heat| times.iter().map(move |time| (*heat, *time))).collect())
}

fn stack(inputs: &Inputs<'_>, classes: &[&FilmClass]) -> Vec<String> {
    let mut stack = vec!["cover sheet".to_owned()];
    stack.extend(classes.iter().rev().map(|class| format!("swatch of {}, carrier up", class.name)));
    let in_place = |lies: Lies, how: &'static str| {
        let there = inputs.zones.iter().filter(move |zone| zone.state == ZoneState::InPlace && zone.lies == lies);
        there.map(move |zone| format!("{} ({}), as it lies {how}", zone.name, zone.material))
    };
    stack.extend(in_place(Lies::Over, "on the right side"));
    stack.push(format!("the garment's own cloth ({}), its grain and lining as on the garment", inputs.setup.cloth));
    stack.extend(in_place(Lies::Beneath, "behind the band"));
    stack
}

fn how(window: &CommonWindow, settings: usize) -> Vec<String> {
    let take = if settings > 1 {
        "Stop at the first swatch that marks the cloth. The plan presses its films with different settings, named below the \
         card: judge each film by itself, and take for it the lowest number that holds and does not mark."
    } else {
        "Stop at the first swatch that marks the cloth. Take the lowest number that holds and does not mark."
    };
    let mut how = vec![
        "Pre-press the scrap; press the swatches in the order of their numbers, each on a fresh place.".to_owned(),
        "Let each cool, peel as the film's sheet says, and fill in the boxes by daylight.".to_owned(),
        take.to_owned(),
        "Wash the scrap once as the garment will be washed, a day after pressing, and look again.".to_owned(),
        "Write the result into the job under [press]: tested = { temperature = \"140 C\", dwell = \"12 s\", verdict = \"held\" }."
            .to_owned(),
    ];
    if window.temperature.is_none() {
        how.insert(
            0,
            "No setting is known to serve everything here: expect a mark, and stop at the first one.".to_owned(),
        );
    }
    how
}

/// What the job says a test has shown.
pub(super) fn tested(setup: &Setup) -> Option<String> {
    setup.tested.map(|tested| {
        let seen = match tested.verdict {
            Verdict::Held => "film held and nothing was marked",
            Verdict::Lifted => "an edge lifted",
            Verdict::Marked => "cloth or trim was marked",
        };
        format!("Your test at {} for {}: {seen}.", tested.temperature, tested.dwell)
    })
}

/// Middles of up to `count` square swatches in the waste of a sheet, left to right and top to bottom, on a grid of 5 mm.
///
/// `patches` are the pieces as they lie; swatches keep the sheet's margin and gap. Sheet corner at the origin, y down.
#[must_use]
pub fn in_waste(sheet: (Mm, Mm), margin: Mm, gap: Mm, patches: &[Ring], side: Mm, count: usize) -> Vec<Point> {
    let half = side.get() / 2.0;
    let edge = margin.get() + half;
    let measured: Vec<Measurable> =
        patches.iter().filter_map(|patch| Measurable::new(&[Outline::new(patch.clone(), vec![])])).collect();
    let mut found: Vec<Point> = Vec::new();
    for y in steps(edge, sheet.1.get() - edge, GRID) {
        let beside = |patch: &&Measurable| {
            let bounds = patch.bounds().inflate(gap.get(), gap.get());
            bounds.y0 <= y + half && bounds.y1 >= y - half
        };
        let level: Vec<&Measurable> = measured.iter().filter(beside).collect();
        let mut blocked_to = f64::NEG_INFINITY;
        for x in steps(edge, sheet.0.get() - edge, GRID) {
            if found.len() == count {
                return found;
            }
            let apart = |p: &Point| (p.x - x).abs().max((p.y - y).abs()) >= side.get() + gap.get();
            if x <= blocked_to || !found.iter().all(apart) {
                continue;
            }
            let square = Rect::new(x - half, y - half, x + half, y + half);
            match level.iter().find_map(|patch| blocked(patch, square, gap)) {
                Some(left) => blocked_to = left + half,
                None => found.push(Point::new(x, y)),
            }
        }
    }
    found
}

/// Steps in which places for a swatch are tried, in millimetres.
const GRID: f64 = 5.0;

/// Where a patch is nearer to a square than the gap, how far the square's left edge must move right at least until that one
/// point of the patch is clear of it.
fn blocked(patch: &Measurable, square: Rect, gap: Mm) -> Option<f64> {
    let near = patch.bounds().inflate(gap.get(), gap.get()).intersect(square);
    if near.width() < 0.0 || near.height() < 0.0 {
        return None;
    }
    let ring = Ring::rectangle(square).ok()?;
    let apart = patch.clearance_to(&Measurable::new(&[Outline::new(ring, vec![])])?);
    let clear = apart.distance >= gap.get() && apart.distance > 0.0;
    (!clear).then(|| {
        let off = (square.y0 - apart.from.y).max(apart.from.y - square.y1).max(0.0);
        // A hair less than the whole way: what is a hair too near is measured again.
        apart.from.x + (gap.get().powi(2) - off * off).max(0.0).sqrt() - 1e-6
    })
}

fn steps(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let count = ((to - from) / step).floor().clamp(-1.0, 10_000.0);
    let mut k = 0.0;
    std::iter::from_fn(move || {
        (k <= count).then(|| {
            k += 1.0;
            from + (k - 1.0) * step
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every place of the grid tried with every piece, one after another.
    fn one_by_one(sheet: Rect, gap: f64, patches: &[Ring], side: f64, count: usize) -> Vec<Point> {
        let solid = |ring: &Ring| Measurable::new(&[Outline::new(ring.clone(), vec![])]).unwrap();
        let solids: Vec<Measurable> = patches.iter().map(solid).collect();
        let mut found: Vec<Point> = Vec::new();
        for y in steps(sheet.y0 + side / 2.0, sheet.y1 - side / 2.0, GRID) {
            for x in steps(sheet.x0 + side / 2.0, sheet.x1 - side / 2.0, GRID) {
                let square = solid(&Ring::rectangle(Rect::from_center_size((x, y), (side, side))).unwrap());
                let off_others = |p: &Point| (p.x - x).abs().max((p.y - y).abs()) >= side + gap;
                let clear = |patch: &Measurable| {
                    let apart = patch.clearance_to(&square).distance;
                    apart >= gap && apart > 0.0
                };
                if found.len() < count && found.iter().all(off_others) && solids.iter().all(clear) {
                    found.push(Point::new(x, y));
                }
            }
        }
        found
    }

    #[test]
    fn what_is_passed_over_is_blocked() {
        let mut some_found = 0;
        for k in 0..24u32 {
            let phase = f64::from(k);
            // Stars in a staggered pattern that leaves now more, now less waste.
            let star = |n: u32| {
                let middle = Point::new(60.0 + 97.0 * f64::from(n % 4) + 3.1 * phase, 45.0 + 88.0 * f64::from(n / 4));
                let corner = |c: u32| {
                    let (angle, reach) = (
                        phase + f64::from(c) * std::f64::consts::PI / 6.0,
                        if c.is_multiple_of(2) { 48.0 } else { 22.0 },
                    );
                    middle + crate::geometry::Vec2::from_angle(angle) * reach
                };
                Ring::new((0..12).map(corner)).unwrap()
            };
            let patches: Vec<Ring> = (0..12).map(star).collect();
            for gap in [0.0, 4.0] {
                let found = in_waste((mm(420.0), mm(300.0)), mm(5.0), mm(gap), &patches, mm(25.0), 9);
                let inner = Rect::new(5.0, 5.0, 415.0, 295.0);
                assert_eq!(found, one_by_one(inner, gap, &patches, 25.0, 9), "phase {phase}, gap {gap}");
                some_found += found.len();
            }
        }
        assert!(some_found > 24, "{some_found}");
    }

    /// A sheet of 100 x 60 with margin 5 and a piece over its left half leaves one column of swatches of 25.
    #[test]
    fn swatches_keep_off_pieces_margins_and_each_other() {
        let piece = Ring::rectangle(Rect::new(5.0, 5.0, 60.0, 55.0)).unwrap();
        let found = in_waste((mm(100.0), mm(60.0)), mm(5.0), mm(4.0), &[piece], mm(25.0), 6);
        assert_eq!(found, [Point::new(77.5, 17.5)]);
        let empty = in_waste((mm(100.0), mm(60.0)), mm(5.0), mm(4.0), &[], mm(20.0), 20);
        assert_eq!(empty.len(), 6, "3 x 25 + 15 = 90 across, 2 down");
        assert!(in_waste((mm(20.0), mm(20.0)), mm(5.0), mm(4.0), &[], mm(25.0), 6).is_empty());
    }
}
