//! Where and how the press closes, and what its heat may do.

use serde::Serialize;

use super::rounding::places;
use crate::plan::Plan;
use crate::press::test_card::Swatch;
use crate::press::{Closure, CommonWindow, HeatRisk, Outcome, PressKind, PressedFilm};

#[derive(Serialize)]
pub(super) struct WrittenPress<'a> {
    closures: Vec<WrittenClosure<'a>>,
    total_closures: usize,
    total_seconds: f64,
    places: u32,
    places_at_least: u32,
    common_window: WrittenWindow<'a>,
    test_card: Vec<WrittenSwatch<'a>>,
    order_of_work: &'a [String],
    checklist: &'a [String],
}

#[derive(Serialize)]
pub(super) struct WrittenClosure<'a> {
    number: u32,
    place: u32,
    layer: u32,
    kind: &'static str,
    placements: &'a [String],
    films: Vec<WrittenPressedFilm<'a>>,
    part: Option<[u32; 2]>,
    s_hem_mm: f64,
    height_mm: f64,
    x_mm: f64,
    y_mm: f64,
    angle_deg: f64,
    temperature_c: f64,
    seconds: f64,
}

#[derive(Serialize)]
struct WrittenPressedFilm<'a> {
    film: &'a str,
    motif: &'a str,
    layer: u32,
}

#[derive(Serialize)]
struct WrittenWindow<'a> {
    temperature_c: Option<[f64; 2]>,
    seconds: Option<[f64; 2]>,
    lower: Option<&'a str>,
    upper: Option<&'a str>,
    say: &'a str,
    remedies: &'a [String],
}

#[derive(Serialize)]
struct WrittenSwatch<'a> {
    number: u32,
    temperature_c: f64,
    seconds: f64,
    plan_for: &'a [String],
}

#[derive(Serialize)]
pub(super) struct WrittenRisk<'a> {
    severity: &'static str,
    material: &'a str,
    layer: &'a str,
    zone: Option<&'a str>,
    rules: &'a [&'static str],
    limit_c: f64,
    press_c: f64,
    closures: &'a [u32],
    say: &'a str,
    r#do: &'a str,
    source: &'a str,
}

pub(super) fn closure(closure: &Closure) -> WrittenClosure<'_> {
    WrittenClosure {
        number: closure.number,
        place: closure.place,
        layer: closure.layer,
        kind: press_kind(closure.kind),
        placements: &closure.placements,
        films: closure.films.iter().map(film).collect(),
        part: closure.part.map(|part| [part.number, part.of]),
        s_hem_mm: closure.s_hem.rounded(),
        height_mm: closure.height.rounded(),
        x_mm: places(closure.at.x, 3),
        y_mm: places(closure.at.y, 3),
        angle_deg: places(closure.turn.degrees(), 4),
        temperature_c: places(closure.temperature.get(), 1),
        seconds: places(closure.seconds.get(), 1),
    }
}

fn film(film: &PressedFilm) -> WrittenPressedFilm<'_> {
    WrittenPressedFilm { film: &film.film, motif: &film.motif, layer: film.layer }
}

fn window(window: &CommonWindow) -> WrittenWindow<'_> {
    WrittenWindow {
        temperature_c: window.temperature.map(|(low, high)| [places(low.get(), 1), places(high.get(), 1)]),
        seconds: window.time.map(|(from, to)| [places(from.get(), 1), places(to.get(), 1)]),
        lower: window.lower.as_ref().map(|binds| binds.item.as_str()),
        upper: window.upper.as_ref().map(|binds| binds.item.as_str()),
        say: &window.say,
        remedies: &window.remedies,
    }
}

fn swatch(swatch: &Swatch) -> WrittenSwatch<'_> {
    WrittenSwatch {
        number: swatch.number,
        temperature_c: places(swatch.temperature.get(), 1),
        seconds: places(swatch.dwell.get(), 1),
        plan_for: &swatch.plan_for,
    }
}

pub(super) fn risk(risk: &HeatRisk) -> WrittenRisk<'_> {
    WrittenRisk {
        severity: outcome(risk.outcome),
        material: &risk.material,
        layer: &risk.layer,
        zone: risk.zone.as_deref(),
        rules: &risk.rules,
        limit_c: places(risk.limit.get(), 1),
        press_c: places(risk.press.get(), 1),
        closures: &risk.closures,
        say: &risk.say,
        r#do: &risk.advice,
        source: &risk.source,
    }
}

/// `tack`, `full`, `second press`.
pub(crate) const fn press_kind(kind: PressKind) -> &'static str {
    match kind {
        PressKind::Tack => "tack",
        PressKind::Full => "full",
        PressKind::Second => "second press",
    }
}

/// Stable short name of an outcome.
const fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Go => "go",
        Outcome::ClothAndTest => "cloth-and-test",
        Outcome::MoveFirst => "move-first",
        Outcome::Stop => "stop",
    }
}

pub(super) fn press(plan: &Plan) -> WrittenPress<'_> {
    WrittenPress {
        closures: plan.press.closures.iter().map(closure).collect(),
        total_closures: plan.at_press.closures(),
        total_seconds: places(plan.at_press.total().get(), 3),
        places: plan.press.places,
        places_at_least: plan.press.places_at_least,
        common_window: window(&plan.press.window),
        test_card: plan.press.test_card.swatches.iter().map(swatch).collect(),
        order_of_work: &plan.press.order_of_work,
        checklist: &plan.press.checklist,
    }
}
