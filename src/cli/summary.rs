//! What a plan comes to, on one screen: heat first, then the figures a maker needs, then what to look at and what was
//! taken for granted.

use std::fmt::Write as _;
use std::path::Path;

use clap::builder::styling::{AnsiColor, Style};
use hemwright::film::CutFrom;
use hemwright::finding::{Finding, Severity};
use hemwright::place::{BandSetting, Garments, Lands};
use hemwright::plan::{ON_NO_SHEET, Plan};
use hemwright::press::{HeatRisk, Outcome, numbers_in_words};
use hemwright::quantity::Mm;
use hemwright::write::shopping;

use super::table::Columns;

const HEADING: Style = Style::new().bold();
const GRAVE: Style = AnsiColor::BrightRed.on_default().bold();
const LOOK: Style = AnsiColor::Yellow.on_default().bold();

/// The summary; `place` is where the folder was written.
pub(crate) fn text(plan: &Plan, place: &Path) -> String {
    let mut text = format!("{HEADING}{}{HEADING:#}\n\n", plan.job.name);
    on_no_sheet(&mut text, plan);
    heat(&mut text, plan);
    figures(&mut text, plan);
    findings(&mut text, &plan.findings);
    assumptions(&mut text, plan);
    let first = place.join("read-me-first.html");
    writeln!(text, "Written to {}. Open {} first.", place.display(), first.display()).expect(INFALLIBLE);
    text
}

const INFALLIBLE: &str = "writing to a String cannot fail";

fn heading(text: &mut String, style: Style, words: &str) {
    writeln!(text, "{style}{words}{style:#}").expect(INFALLIBLE);
}

/// Pieces that are in no cut file, before everything else.
fn on_no_sheet(text: &mut String, plan: &Plan) {
    let mut columns = Columns::new();
    let left: Vec<&Finding> = plan.findings.iter().filter(|finding| finding.kind == ON_NO_SHEET).collect();
    for finding in &left {
        columns.row(["too large", &format!("{} {}", finding.say, finding.advice)]);
    }
    if !left.is_empty() {
        heading(text, GRAVE, "On no sheet");
        writeln!(text, "{columns}").expect(INFALLIBLE);
    }
}

/// What is found, gravest first; advice that several layers share is given once, after the last of them.
fn heat(text: &mut String, plan: &Plan) {
    let risks: Vec<&HeatRisk> = plan.risks.iter().filter(|risk| risk.outcome != Outcome::Go).collect();
    if risks.is_empty() {
        return;
    }
    let mut told: Vec<Vec<&HeatRisk>> = Vec::new();
    for risk in risks {
        match told.iter_mut().find(|group| group[0].outcome == risk.outcome && group[0].advice == risk.advice) {
            Some(group) => group.push(risk),
            None => told.push(vec![risk]),
        }
    }
    let mut columns = Columns::new();
    let last = plan.press.closures.len();
    for group in told {
        for (index, risk) in group.iter().enumerate() {
            let advice = if index + 1 == group.len() { format!(" {}", risk.advice) } else { String::new() };
            let head = if index == 0 { outcome_words(risk.outcome) } else { "" };
            columns.row([head, &format!("{}{}{advice}", risk.say, closings(&risk.closures, last))]);
        }
    }
    heading(text, GRAVE, "Heat");
    writeln!(text, "{columns}").expect(INFALLIBLE);
}

/// ` (closings 3, 17 and 18)`; nothing to add where no closing is concerned.
fn closings(numbers: &[u32], of: usize) -> String {
    match numbers {
        [] => String::new(),
        _ if numbers.len() == of => " (Every closure.)".to_owned(),
        [one] => format!(" (Closure {one}.)"),
        _ => format!(" (Closures {}.)", numbers_in_words(numbers)),
    }
}

const fn outcome_words(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Go => "within limits",
        Outcome::ClothAndTest => "test first",
        Outcome::MoveFirst => "move first",
        Outcome::Stop => "do not press",
    }
}

fn figures(text: &mut String, plan: &Plan) {
    let mut columns = Columns::new();
    let ring = if plan.hem.is_closed() { "a ring" } else { "open" };
    let sweep = plan.hem.sweep().degrees();
    let length = plan.hem.as_hung().map_or_else(
        || plan.hem.length().to_string(),
        |hung| format!("{} as it hung, {} as drafted", hung.length(), plan.hem.length()),
    );
    columns.row(["hem", &format!("{length}, {ring}, turning through {sweep:.0} degrees")]);
    for band in &plan.setting.bands {
        band_rows(&mut columns, band);
    }
    for sizes in &plan.sizes {
        for row in &sizes.card.rows {
            let words = format!("{}: {} with a gap of {}", sizes.band, row.band.count, row.band.gap_along);
            columns.row([&format!("size {}", row.name), &words]);
        }
    }
    columns.row(["cut", &cut_words(plan)]);
    for (what, words) in buy_words(plan) {
        columns.row([what, &words]);
    }
    press_rows(&mut columns, plan);
    writeln!(text, "{columns}").expect(INFALLIBLE);
}

/// Closings and time, for both of a pair with those of each beside them.
fn press_rows(columns: &mut Columns, plan: &Plan) {
    let (closures, total) = (plan.at_press.closures(), plan.at_press.total());
    let closes = if closures == 1 { "once".to_owned() } else { format!("{closures} times") };
    let (each, of_each) = match (plan.at_press.closures_of_each(), plan.at_press.time_of_each()) {
        (Some(closures), Some(time)) => (format!(" for both ({closures}, {time})"), "of each, "),
        _ => (String::new(), ""),
    };
    if closures == 0 {
        columns.row(["press", "nothing is pressed: the pieces are sewn down"]);
    } else {
        columns.row(["press", &format!("the press closes {closes}, {total} in all{each}")]);
        columns.row(["", &format!("{of_each}{}", plan.press.places_in_words())]);
    }
}

fn band_rows(columns: &mut Columns, band: &BandSetting) {
    let motifs = if band.count == 1 { "1 motif".to_owned() } else { format!("{} motifs", band.count_in_words()) };
    let line = format!("{motifs} on a line of {}, {} above the hem", band.line, band.height);
    columns.row([&band.name, &line]);
    let clear = band.clear_gap.as_ref().map_or_else(String::new, |gap| {
        format!(", at the tightest {} between {} and {}", gap.least, gap.between.0, gap.between.1)
    });
    let steps = match band.unlike_steps() {
        Some((least, greatest)) if band.gap_along < Mm::ZERO => {
            let behind = band.gap_along.abs();
            format!("{least} to {greatest} from middle to middle, up to {behind} behind each other along the line")
        }
        Some((least, greatest)) => {
            format!("{least} to {greatest} from middle to middle, gap at least {}", band.gap_along)
        }
        None => format!("repeat {}, gap {}", band.repeat, band.gap_along),
    };
    columns.row(["", &format!("{steps}{clear}")]);
    columns.row(["", &format!("on CF {}, on CB {}", lands_words(band.on_cf), lands_words(band.on_cb))]);
    for clash in &band.clashes {
        let words =
            format!("{} is {} from {}; {} was asked for", clash.placement, clash.clear, clash.with, clash.wanted);
        columns.row(["", &words]);
    }
}

pub(crate) const fn lands_words(lands: Lands) -> &'static str {
    match lands {
        Lands::Motif => "a motif",
        Lands::Gap => "a gap",
        Lands::Between => "neither",
    }
}

fn cut_words(plan: &Plan) -> String {
    let kinds = &plan.pieces.kinds;
    let pieces: u32 = kinds.iter().map(hemwright::film::PieceKind::quantity).sum();
    let (spares, tests) = kinds.iter().fold((0, 0), |(s, t), kind| (s + kind.spares, t + kind.tests));
    let reversed = kinds.iter().filter(|kind| kind.method.cut_from() == CutFrom::Back).count();
    let way = match (reversed, kinds.len() - reversed) {
        (_, 0) => "all already reversed",
        (0, _) => "none reversed",
        _ => "some already reversed, as their files say",
    };
    format!("{pieces} pieces, {spares} of them spare and {tests} for the test; {way}")
}

/// For each film and size of sheet: how many to buy, or to take from the drawer; and the total where there are several.
fn buy_words(plan: &Plan) -> Vec<(&'static str, String)> {
    let rows = shopping::rows(plan);
    let words = |row: &shopping::Row<'_>| {
        let what = if row.in_drawer() { "have" } else { "buy" };
        let amount = match row.length {
            Some(length) => format!("{length} of {}", row.stock.name),
            None => format!("{} x {}", row.sheets, row.stock.name),
        };
        let price = row.price.map_or_else(String::new, |price| format!(", {price:.2}"));
        (what, format!("{amount}: {}{price}", shopping::film_words(row.film)))
    };
    let mut lines: Vec<_> = rows.iter().map(words).collect();
    if let Some(total) = shopping::total(&rows).filter(|_| rows.len() > 1) {
        lines.push(("", format!("{total:.2} for film in all")));
    }
    lines.extend(shopping::alternatives(plan).into_iter().map(|other| ("note", other.words())));
    for row in shopping::other_goods(plan) {
        let price = row.price.map_or_else(String::new, |price| format!(", {price:.2}"));
        lines.push(("buy", format!("{} of {}{price}", row.amount, row.what)));
    }
    if plan.job.garments == Garments::MirroredPair {
        lines.push(("", "pieces and what to buy are for both of the pair".to_owned()));
    }
    lines
}

/// Findings that stop or want a look, gravest first; what was put right is only counted.
fn findings(text: &mut String, findings: &[Finding]) {
    let mut columns = Columns::new();
    let (mut look, mut mended) = (0, 0);
    for finding in findings.iter().filter(|finding| finding.kind != ON_NO_SHEET) {
        if finding.severity == Severity::FixedForYou {
            mended += 1;
            continue;
        }
        look += 1;
        columns.row([finding.severity.words(), &format!("{} {}", finding.say, finding.advice)]);
    }
    if look > 0 {
        heading(text, LOOK, "Look at this");
        write!(text, "{columns}").expect(INFALLIBLE);
    }
    if mended > 0 {
        let (matters, them) = if mended == 1 { ("small matter was", "it") } else { ("small matters were", "them") };
        writeln!(text, "  {mended} {matters} seen to without asking; the papers list {them}.").expect(INFALLIBLE);
    }
    if look + mended > 0 {
        text.push('\n');
    }
}

fn assumptions(text: &mut String, plan: &Plan) {
    if plan.assumptions.is_empty() {
        return;
    }
    heading(text, HEADING, "Taken for granted (and the key of the job file that changes it)");
    let mut columns = Columns::new();
    for assumption in &plan.assumptions {
        columns.row([&assumption.about, &assumption.taken, &assumption.key]);
    }
    writeln!(text, "{columns}").expect(INFALLIBLE);
}
