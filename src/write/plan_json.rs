//! `plan.json`: the plan for other programs. Conventions and every name are in docs/formats.md; the types here are the
//! written form only and are changed with the schema's number.
//!
//! Lengths in mm to three places, angles in degrees to four, temperatures in Celsius, times in seconds.

mod marking;
mod sizes;

use serde::Serialize;

use super::{chalk, names, sheet_facts};
use crate::finding::{Assumption, Finding};
use crate::nest::LaidSheet;
use crate::place::{BandSetting, ClearGap, Lands, Placement};
use crate::plan::{FilmSheets, Plan};
use crate::press::test_card::Swatch;
use crate::press::{Closure, CommonWindow, HeatRisk, Outcome, PressKind};
use crate::quantity::Mm;

/// Name and number of the written form.
pub(crate) const SCHEMA: &str = "hemwright-plan/1";

/// The file's text.
pub(crate) fn file(plan: &Plan) -> String {
    let mut text =
        serde_json::to_string_pretty(&written(plan)).expect("plain fields with string keys always serialise");
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Written<'a> {
    schema: &'static str,
    job: &'a str,
    hem: WrittenHem,
    motifs: Vec<WrittenMotif<'a>>,
    bands: Vec<WrittenBand<'a>>,
    right: Option<WrittenRight<'a>>,
    sizes: Option<sizes::WrittenSizes<'a>>,
    pieces: Vec<WrittenKind<'a>>,
    sheets: Vec<WrittenSheet<'a>>,
    unplaced: Vec<WrittenUnplaced<'a>>,
    buy: Vec<WrittenBuy<'a>>,
    alternatives: Vec<WrittenAlternative<'a>>,
    press: WrittenPress<'a>,
    risks: Vec<WrittenRisk<'a>>,
    findings: Vec<WrittenFinding<'a>>,
    assumptions: Vec<WrittenAssumption<'a>>,
}

#[derive(Serialize)]
struct WrittenHem {
    length_mm: f64,
    hung_mm: Option<f64>,
    sweep_rad: f64,
    closed: bool,
    marks: Vec<WrittenMark>,
}

#[derive(Serialize)]
struct WrittenMark {
    name: String,
    s_hem_mm: f64,
    keep_clear_mm: Option<f64>,
}

#[derive(Serialize)]
struct WrittenMotif<'a> {
    name: &'a str,
    width_mm: f64,
    height_mm: f64,
    colours: Vec<String>,
}

#[derive(Serialize)]
struct WrittenBand<'a> {
    name: &'a str,
    height_mm: f64,
    line_mm: f64,
    count: u32,
    count_along: u32,
    count_in_corners: u32,
    repeat_mm: f64,
    gap_along_mm: f64,
    clear_gap_mm: Option<WrittenGap<'a>>,
    on_cf: &'static str,
    on_cb: &'static str,
    placements: Vec<WrittenPlacement<'a>>,
    clashes: Vec<WrittenClash<'a>>,
    reasons: &'a [String],
    remedies: Vec<&'a str>,
    chalk: Vec<marking::WrittenChalk>,
    checks: Option<marking::WrittenChecks>,
}

/// The right-hand one of a pair.
#[derive(Serialize)]
struct WrittenRight<'a> {
    marks: Vec<WrittenMark>,
    bands: Vec<WrittenBand<'a>>,
    closures: Vec<WrittenClosure<'a>>,
}

#[derive(Serialize)]
struct WrittenGap<'a> {
    least: f64,
    between: [&'a str; 2],
    at: [[f64; 2]; 2],
}

#[derive(Serialize)]
struct WrittenPlacement<'a> {
    id: &'a str,
    motif: &'a str,
    hand: &'static str,
    scale: f64,
    s_line_mm: f64,
    s_hem_mm: f64,
    height_mm: f64,
    x_mm: f64,
    y_mm: f64,
    angle_deg: f64,
}

#[derive(Serialize)]
struct WrittenClash<'a> {
    placement: &'a str,
    with: &'a str,
    clear_mm: f64,
    wanted_mm: f64,
}

#[derive(Serialize)]
struct WrittenKind<'a> {
    kind: &'a str,
    motif: &'a str,
    film: &'a str,
    colour: String,
    layer: usize,
    hand: &'static str,
    scale: f64,
    reversed: bool,
    needed: u32,
    spares: u32,
    tests: u32,
}

#[derive(Serialize)]
struct WrittenSheet<'a> {
    file: String,
    film: &'a str,
    stock: &'a str,
    width_mm: f64,
    height_mm: f64,
    margin_mm: f64,
    gap_mm: f64,
    reversed: bool,
    copies: u32,
    used_mm: f64,
    pieces: Vec<WrittenPiece<'a>>,
    used_fraction: f64,
    cut_length_mm: f64,
    closed_cuts: usize,
}

#[derive(Serialize)]
struct WrittenPiece<'a> {
    kind: &'a str,
    x_mm: f64,
    y_mm: f64,
    rotation_deg: f64,
}

#[derive(Serialize)]
struct WrittenUnplaced<'a> {
    kind: &'a str,
    film: &'a str,
    quantity: u32,
    smallest_sheet_mm: [f64; 2],
    narrowest_roll_mm: f64,
    too_large_by: Vec<WrittenOver<'a>>,
    say: String,
}

#[derive(Serialize)]
struct WrittenOver<'a> {
    stock: &'a str,
    rotation_deg: f64,
    wide_mm: f64,
    long_mm: Option<f64>,
}

#[derive(Serialize)]
struct WrittenAlternative<'a> {
    film: &'a str,
    say: &'a str,
}

#[derive(Serialize)]
struct WrittenBuy<'a> {
    film: &'a str,
    class: &'a str,
    colour_name: &'a str,
    stock: &'a str,
    in_drawer: bool,
    sheets: u32,
    length_mm: Option<f64>,
    price_each: Option<f64>,
    price: Option<f64>,
}

#[derive(Serialize)]
struct WrittenPress<'a> {
    closures: Vec<WrittenClosure<'a>>,
    total_seconds: f64,
    places: u32,
    places_at_least: u32,
    common_window: WrittenWindow<'a>,
    test_card: Vec<WrittenSwatch>,
    order_of_work: &'a [String],
    checklist: &'a [String],
}

#[derive(Serialize)]
struct WrittenClosure<'a> {
    number: u32,
    place: u32,
    layer: u32,
    kind: &'static str,
    placements: &'a [String],
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
struct WrittenWindow<'a> {
    temperature_c: Option<[f64; 2]>,
    seconds: Option<[f64; 2]>,
    lower: Option<&'a str>,
    upper: Option<&'a str>,
    say: &'a str,
    remedies: &'a [String],
}

#[derive(Serialize)]
struct WrittenSwatch {
    number: u32,
    temperature_c: f64,
    seconds: f64,
}

#[derive(Serialize)]
struct WrittenRisk<'a> {
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

#[derive(Serialize)]
struct WrittenFinding<'a> {
    severity: &'static str,
    kind: &'a str,
    drawing: Option<&'a str>,
    element: Option<&'a str>,
    line: Option<u32>,
    at_mm: Option<[f64; 2]>,
    measure_mm: Option<f64>,
    say: &'a str,
    r#do: &'a str,
}

#[derive(Serialize)]
struct WrittenAssumption<'a> {
    about: &'a str,
    taken: &'a str,
    key: &'a str,
}

fn written(plan: &Plan) -> Written<'_> {
    Written {
        schema: SCHEMA,
        job: &plan.job.name,
        hem: hem(plan),
        motifs: plan.motifs.values().map(motif).collect(),
        bands: plan.setting.bands.iter().map(|band| self::band(plan, band)).collect(),
        right: plan.right_hand().map(right),
        sizes: sizes::sizes(plan),
        pieces: plan.pieces.kinds.iter().map(kind).collect(),
        sheets: plan.sheets.iter().flat_map(|film_sheets| sheets(plan, film_sheets)).collect(),
        unplaced: plan.sheets.iter().flat_map(|film_sheets| unplaced(plan, film_sheets)).collect(),
        buy: super::shopping::rows(plan).iter().map(buy).collect(),
        alternatives: super::shopping::alternatives(plan)
            .into_iter()
            .map(|other| WrittenAlternative { film: &other.film.key, say: other.say })
            .collect(),
        press: WrittenPress {
            closures: plan.press.closures.iter().map(closure).collect(),
            total_seconds: places(plan.press.total.get(), 3),
            places: plan.press.places,
            places_at_least: plan.press.places_at_least,
            common_window: window(&plan.press.window),
            test_card: plan.press.test_card.swatches.iter().map(swatch).collect(),
            order_of_work: &plan.press.order_of_work,
            checklist: &plan.press.checklist,
        },
        risks: plan.risks.iter().map(risk).collect(),
        findings: plan.findings.iter().map(finding).collect(),
        assumptions: plan.assumptions.iter().map(assumption).collect(),
    }
}

fn hem(plan: &Plan) -> WrittenHem {
    let mark = |mark: &crate::hem::HemMark| WrittenMark {
        name: mark.name.clone(),
        s_hem_mm: mark.s_hem.rounded(),
        keep_clear_mm: mark.keep_clear.map(Mm::rounded),
    };
    WrittenHem {
        length_mm: plan.hem.length().rounded(),
        hung_mm: plan.hem.as_hung().map(|hung| hung.length().rounded()),
        sweep_rad: places(plan.hem.sweep().get(), 6),
        closed: plan.hem.is_closed(),
        marks: super::chalk::marks(plan).iter().map(mark).collect(),
    }
}

fn motif(motif: &crate::art::Motif) -> WrittenMotif<'_> {
    WrittenMotif {
        name: &motif.name,
        width_mm: motif.width.rounded(),
        height_mm: motif.height.rounded(),
        colours: motif.layers.iter().map(|layer| layer.colour.to_string()).collect(),
    }
}

fn right(right: &Plan) -> WrittenRight<'_> {
    WrittenRight {
        marks: hem(right).marks,
        bands: right.setting.bands.iter().map(|band| self::band(right, band)).collect(),
        closures: right.press.closures.iter().map(closure).collect(),
    }
}

fn band<'a>(plan: &Plan, band: &'a BandSetting) -> WrittenBand<'a> {
    WrittenBand {
        name: &band.name,
        height_mm: band.height.rounded(),
        line_mm: band.line.rounded(),
        count: band.count,
        count_along: band.count - band.in_corners,
        count_in_corners: band.in_corners,
        repeat_mm: band.repeat.rounded(),
        gap_along_mm: band.gap_along.rounded(),
        clear_gap_mm: band.clear_gap.as_ref().map(gap),
        on_cf: lands(band.on_cf),
        on_cb: lands(band.on_cb),
        placements: band.placements.iter().map(placement).collect(),
        clashes: band.clashes.iter().map(clash).collect(),
        reasons: &band.reasons,
        remedies: band.remedies.iter().map(|remedy| remedy.say.as_str()).collect(),
        chalk: marking::list(plan, band),
        checks: marking::checks(plan, band),
    }
}

fn gap(gap: &ClearGap) -> WrittenGap<'_> {
    WrittenGap {
        least: gap.least.rounded(),
        between: [&gap.between.0, &gap.between.1],
        at: [point(gap.at.0), point(gap.at.1)],
    }
}

fn placement(placement: &Placement) -> WrittenPlacement<'_> {
    WrittenPlacement {
        id: &placement.id,
        motif: &placement.motif,
        hand: chalk::hand(placement.hand),
        scale: places(placement.scale, 6),
        s_line_mm: placement.s_line.rounded(),
        s_hem_mm: placement.s_hem.rounded(),
        height_mm: placement.height.rounded(),
        x_mm: places(placement.at.x, 3),
        y_mm: places(placement.at.y, 3),
        angle_deg: places(placement.turn.degrees(), 4),
    }
}

fn clash(clash: &crate::place::Clash) -> WrittenClash<'_> {
    WrittenClash {
        placement: &clash.placement,
        with: &clash.with,
        clear_mm: clash.clear.rounded(),
        wanted_mm: clash.wanted.rounded(),
    }
}

fn kind(kind: &crate::film::PieceKind) -> WrittenKind<'_> {
    WrittenKind {
        kind: &kind.name,
        motif: &kind.motif,
        film: &kind.film,
        colour: kind.colour.to_string(),
        layer: kind.layer + 1,
        hand: chalk::hand(kind.hand),
        scale: places(kind.scale, 6),
        reversed: sheet_facts::is_reversed(kind),
        needed: kind.needed,
        spares: kind.spares,
        tests: kind.tests,
    }
}

fn sheets<'a>(plan: &'a Plan, film_sheets: &'a FilmSheets) -> Vec<WrittenSheet<'a>> {
    let film = &plan.films[film_sheets.film];
    let sheet = |(number, sheet): (usize, &'a LaidSheet)| WrittenSheet {
        file: format!("cut/{}.svg", names::sheet(plan, film_sheets, number)),
        film: &film.key,
        stock: &film.stock[sheet.stock].name,
        width_mm: film.stock[sheet.stock].width.rounded(),
        height_mm: sheet_facts::sheet_height(plan, film_sheets, sheet).rounded(),
        margin_mm: film.margin.rounded(),
        gap_mm: film.gap.rounded(),
        reversed: sheet_facts::reversed(plan, film_sheets, sheet) != sheet_facts::Reversed::No,
        copies: sheet.copies,
        used_mm: sheet.used.rounded(),
        pieces: sheet.laid.iter().map(|laid| piece(plan, film_sheets, laid)).collect(),
        used_fraction: places(sheet_facts::used_fraction(plan, film_sheets, sheet), 4),
        cut_length_mm: sheet_facts::cuts(plan, film_sheets, sheet).length.rounded(),
        closed_cuts: sheet_facts::cuts(plan, film_sheets, sheet).count,
    };
    film_sheets.layout.sheets.iter().enumerate().map(sheet).collect()
}

fn unplaced<'a>(plan: &'a Plan, film_sheets: &'a FilmSheets) -> Vec<WrittenUnplaced<'a>> {
    let film = &plan.films[film_sheets.film];
    let over = |over: &crate::nest::Over| WrittenOver {
        stock: &film.stock[over.stock].name,
        rotation_deg: places(over.turn_deg, 4),
        wide_mm: over.width.rounded(),
        long_mm: over.height.map(Mm::rounded),
    };
    let written = |left: &'a crate::nest::Unplaced| WrittenUnplaced {
        kind: &plan.pieces.kinds[film_sheets.items[left.item]].name,
        film: &film.key,
        quantity: left.quantity,
        smallest_sheet_mm: [left.smallest.0.rounded(), left.smallest.1.rounded()],
        narrowest_roll_mm: left.narrowest.rounded(),
        too_large_by: left.over.iter().map(over).collect(),
        say: left.reason(&film_sheets.task),
    };
    film_sheets.layout.unplaced.iter().map(written).collect()
}

fn piece<'a>(plan: &'a Plan, film_sheets: &FilmSheets, laid: &crate::nest::Laid) -> WrittenPiece<'a> {
    WrittenPiece {
        kind: &plan.pieces.kinds[film_sheets.items[laid.item]].name,
        x_mm: laid.x.rounded(),
        y_mm: laid.y.rounded(),
        rotation_deg: places(laid.turn_deg, 4),
    }
}

fn buy<'a>(row: &super::shopping::Row<'a>) -> WrittenBuy<'a> {
    WrittenBuy {
        film: &row.film.key,
        class: &row.film.class,
        colour_name: &row.film.colour_name,
        stock: &row.stock.name,
        in_drawer: row.in_drawer(),
        sheets: row.sheets,
        length_mm: row.length.map(Mm::rounded),
        price_each: row.stock.price,
        price: row.price.map(|price| places(price, 2)),
    }
}

fn closure(closure: &Closure) -> WrittenClosure<'_> {
    WrittenClosure {
        number: closure.number,
        place: closure.place,
        layer: closure.layer,
        kind: press_kind(closure.kind),
        placements: &closure.placements,
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

fn swatch(swatch: &Swatch) -> WrittenSwatch {
    WrittenSwatch {
        number: swatch.number,
        temperature_c: places(swatch.temperature.get(), 1),
        seconds: places(swatch.dwell.get(), 1),
    }
}

fn risk(risk: &HeatRisk) -> WrittenRisk<'_> {
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

fn finding(finding: &Finding) -> WrittenFinding<'_> {
    let place = finding.place.as_ref();
    WrittenFinding {
        severity: finding.severity.words(),
        kind: finding.kind,
        drawing: place.map(|p| p.drawing.as_str()),
        element: place.map(|p| p.element.as_str()),
        line: place.and_then(|p| p.line),
        at_mm: place.and_then(|p| p.at).map(point),
        measure_mm: finding.measure.map(Mm::rounded),
        say: &finding.say,
        r#do: &finding.advice,
    }
}

fn assumption(assumption: &Assumption) -> WrittenAssumption<'_> {
    WrittenAssumption { about: &assumption.about, taken: &assumption.taken, key: &assumption.key }
}

/// `motif`, `gap`, `between`.
const fn lands(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "motif",
        Lands::Gap => "gap",
        Lands::Between => "between",
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

fn point(point: crate::geometry::Point) -> [f64; 2] {
    [places(point.x, 3), places(point.y, 3)]
}

/// Rounded for writing; never minus zero.
fn places(value: f64, places: i32) -> f64 {
    let scale = 10f64.powi(places);
    (value * scale).round() / scale + 0.0
}
