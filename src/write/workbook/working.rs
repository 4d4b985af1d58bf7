//! Show the working: each number with the sum that gives it, to be followed with a pocket calculator.

use std::f64::consts::TAU;

use super::compose::{Composer, Section};
use super::table::{Cell, Column, Table};
use crate::film::Under;
use crate::hem::Measurements;
use crate::place::{self, BandSetting, BandWish, GapSum};
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::figures::{both, counted, for_both, repeat_both};
use crate::write::{chalk, sheet_facts, shopping};

/// A number, the sum, the result.
type Line = (String, String, String);

pub(crate) fn section(plan: &Plan) -> Section {
    let mut composer = Composer::new(
        "Show the working",
        "Every number with the sum that gives it, to check with a pocket calculator. Figures are rounded when printed and \
         not before, so a last digit may differ from a sum of printed figures.",
    );
    group(&mut composer, "The hem", hem(plan));
    let of_rows = |wish| std::iter::repeat_n(wish, BandWish::row_count(wish));
    let wishes = plan.job.bands.iter().flat_map(of_rows);
    for (band, wish) in plan.setting.bands.iter().zip(wishes) {
        group(&mut composer, &band.name, self::band(plan, band, wish));
    }
    group(&mut composer, "Pieces, sheets and prices", film(plan));
    group(&mut composer, "Layers on each other", layers(plan));
    group(&mut composer, "Cloth pieces", cloth(plan));
    group(&mut composer, "At the press", press(plan));
    composer.finish()
}

fn group(composer: &mut Composer, name: &str, lines: Vec<Line>) {
    if lines.is_empty() {
        return;
    }
    composer.heading(name);
    let columns = vec![Column::left("What", 44.0), Column::left("How", 98.0), Column::right("Result", 48.0)];
    let mut table = Table::new(format!("{name}: each number with its sum"), columns);
    for (what, how, is) in lines {
        table.row(vec![Cell::Strong(what), how.into(), is.into()]);
    }
    composer.table(&table);
}

fn line(what: impl Into<String>, how: impl Into<String>, is: impl Into<String>) -> Line {
    (what.into(), how.into(), is.into())
}

fn hem(plan: &Plan) -> Vec<Line> {
    let length = plan.hem.length();
    let sweep = plan.hem.sweep();
    let hung = plan.hem.as_hung();
    let what = if hung.is_some() { "finished hem as drafted" } else { "finished hem" };
    let mut lines = vec![line(what, hem_sum(&plan.job.hem.measurements), both(length))];
    lines.extend(hung.map(|hung| {
        let parts: Vec<String> = plan.hem.hung().iter().map(|part| part.measured.to_string()).collect();
        line("finished hem as it hung", format!("measured again: {}", parts.join(" + ")), both(hung.length()))
    }));
    lines.extend([
        line(
            "sweep",
            format!("angle the hem turns through: {:.2}° × π / 180", sweep.degrees()),
            format!("{:.4}", sweep.get()),
        ),
        line(
            "one step higher",
            "each mm above the hem makes the line shorter by the sweep",
            format!("{:.2} mm", sweep.get()),
        ),
    ]);
    lines
}

/// How the hem follows from what was measured; the shapes without a plain sum say so.
fn hem_sum(measurements: &Measurements) -> String {
    match measurements {
        Measurements::Circle { fraction, waist, length } => {
            format!("waist + 2π × part of a circle × length: {waist} + 6.2832 × {fraction} × {length}")
        }
        Measurements::Gores { panels, hem, .. } => format!("panels × width of one at the hem: {panels} × {hem}"),
        Measurements::Ellipse { front_back, side_side } => {
            format!("round an ellipse with half axes {front_back} and {side_side}, measured along the curve")
        }
        Measurements::Measured { hem, .. } => format!("measured by tape: {hem}"),
        Measurements::Straight { length } => format!("measured: {length}"),
        Measurements::Oval { waist, front, side, back, tape } => oval_sum(*waist, [*front, *side, *back], *tape),
        Measurements::Train { .. } => {
            "radius = waist / 2π + length, which grows from front to side and from side to back without a turn between"
                .to_owned()
        }
        Measurements::Cloth { width, depth } if width == depth => format!("π × width: 3.1416 × {width}"),
        Measurements::Godets { hem, .. } => format!("{}; and the widths of the godets let in", hem_sum(hem)),
        Measurements::Drawn(_) => "the hem edges of the drawn panels, one after another".to_owned(),
        _ => "measured along the curve that the job's measurements give".to_owned(),
    }
}

/// The draft through three lengths, with its figures.
fn oval_sum(waist: Mm, [front, side, back]: [Mm; 3], tape: Option<Mm>) -> String {
    let radius = waist / TAU;
    let mean = (front + back + side * 2.0) / 4.0;
    let (once, twice) = ((front - back) / 2.0, (front + back - side * 2.0) / 4.0);
    let draft = format!(
        "round the middle of the waist, t from CF: radius = {radius} + {mean} + ({once}) cos t + ({twice}) cos 2t, through \
         {front}, {side} and {back}"
    );
    match tape {
        Some(tape) => format!("by tape {tape}; the draft drawn to it {draft}"),
        None => format!("{draft}; measured along that curve"),
    }
}

fn band(plan: &Plan, band: &BandSetting, wish: &BandWish) -> Vec<Line> {
    let mut lines = vec![motif_line(plan, band)];
    let motifs = band.placements.len();
    let count = u32::try_from(motifs).unwrap_or(u32::MAX).max(1);
    let sum = place::gap_sum(&plan.hem, &plan.motifs, wish, band);
    let even = sum.as_ref().is_none_or(|sum| sum.even);
    let apart = |a: Mm, b: Mm| (a - b).abs().get() >= 0.05;
    if plan.hem.is_closed() && !apart(band.line / f64::from(count), band.repeat) {
        let what = if even { "motif line / motifs" } else { "on average, motif line / motifs" };
        lines.push(line("repeat", format!("{what}: {} / {motifs}", band.line), both(band.repeat)));
    } else if let (true, [first, .., last]) = (even && !plan.hem.is_closed(), band.placements.as_slice()) {
        let run = last.s_line - first.s_line;
        let how = format!("from the first middle to the last / steps between: {run} / {}", motifs - 1);
        lines.push(line("repeat", how, both(band.repeat)));
    } else {
        lines.push(line("repeat", "usual step from middle to middle along the motif line", both(band.repeat)));
    }
    if band.unlike_steps().is_some() {
        let how = "least and greatest step from middle to middle along the motif line, motifs in corners aside";
        lines.push(line("steps", how, repeat_both(band)));
    }
    lines.push(gap_line(band, sum.as_ref()));
    if let Some(gap) = &band.clear_gap {
        let how =
            format!("shortest distance between the outlines of {} and {}, laid flat", gap.between.0, gap.between.1);
        lines.push(line("least clear gap", how, both(gap.least)));
    }
    if plan.hem.is_closed() {
        let ratio = chalk::hem_length(plan) / band.line;
        let how = format!("repeat × hem / motif line, on average: {} × {ratio:.4}", band.repeat);
        lines.push(line("repeat along the hem", how, both(band.repeat * ratio)));
    }
    lines
}

/// The smallest gap along the line, from the repeat where the whole row is even, otherwise from the two that stand nearest.
fn gap_line(band: &BandSetting, sum: Option<&GapSum>) -> Line {
    let Some(sum) = sum else {
        return line("gap along the line", "what one motif leaves of the line", both(band.gap_along));
    };
    if sum.even && (sum.step - band.repeat).abs().get() < 0.05 {
        let how = format!("repeat − motif width: {} − {}", band.repeat, sum.covers.0);
        return line("gap along the line", how, both(sum.gap));
    }
    let how = format!(
        "smallest, {} to {}: middle to middle − what each takes up of the line on that side: {} − {} − {}",
        sum.between.0,
        sum.between.1,
        sum.step,
        sum.covers.0 / 2.0,
        sum.covers.1 / 2.0
    );
    line("least gap along the line", how, both(sum.gap))
}

/// On a smooth hem every parallel line is shorter by sweep x height (Steiner's formula for parallel curves); where the hem
/// has corners or an underlap the sum does not hold, and is not shown.
fn motif_line(plan: &Plan, band: &BandSetting) -> Line {
    let sweep = plan.hem.sweep().get();
    let hem = chalk::hem_length(plan);
    let by_sum = hem - band.height * sweep;
    let how = if (by_sum - band.line).abs().get() < 0.05 {
        format!("hem − height × sweep: {hem} − {} × {sweep:.4}", band.height)
    } else {
        format!("measured along the line {} above the hem", band.height)
    };
    line("motif line", how, both(band.line))
}

fn film(plan: &Plan) -> Vec<Line> {
    let mut lines = Vec::new();
    for kind in &plan.pieces.kinds {
        let how = format!("{} needed + {} spare + {} test", kind.needed, kind.spares, kind.tests);
        lines.push(line(format!("{}: to cut", kind.name), how, kind.quantity().to_string()));
    }
    for film_sheets in &plan.sheets {
        for (number, sheet) in film_sheets.layout.sheets.iter().enumerate() {
            let used = sheet_facts::used_fraction(plan, film_sheets, sheet);
            let what = format!("{}: sheet {} in pieces", plan.films[film_sheets.film].key, number + 1);
            let pieces = counted(sheet.laid.len(), "piece", "pieces");
            let how = format!("area of {pieces} without their holes / area of the sheet");
            lines.push(line(what, how, format!("{:.1} %", used * 100.0)));
            let cuts = sheet_facts::cuts(plan, film_sheets, sheet);
            let what = format!("{}: sheet {} cut", plan.films[film_sheets.film].key, number + 1);
            let how = format!("length of {}", counted(cuts.count, "closed cut", "closed cuts"));
            lines.push(line(what, how, format!("{:.2} m", cuts.length.get() / 1000.0)));
        }
    }
    let rows = shopping::rows(plan);
    for row in &rows {
        let (Some(each), Some(price)) = (row.stock.price, row.price) else { continue };
        let units =
            row.length.map_or_else(|| row.sheets.to_string(), |length: Mm| format!("{:.3} m", length.get() / 1000.0));
        lines.push(line(format!("{}: price", row.film.key), format!("{units} × {each:.2}"), format!("{price:.2}")));
    }
    lines
}

/// What lies under what, and how far each layer may be pressed off.
fn layers(plan: &Plan) -> Vec<Line> {
    let mut lines = Vec::new();
    for layer in &plan.layers {
        let size =
            if (layer.scale - 1.0).abs() > 1e-6 { format!(", {:.0} %", layer.scale * 100.0) } else { String::new() };
        let what = format!("{} layer {} ({}){size}", layer.motif, layer.layer + 1, layer.film);
        let under = match layer.under {
            Under::Free => continue,
            Under::Stacked => "stays whole under what lies over it".to_owned(),
            Under::KnockedOut { underlap, .. } => format!("cut away under what lies over it, but for {underlap}"),
        };
        lines.push(line(what, under, ""));
    }
    for layer in plan.layers.iter().filter(|layer| layer.layer > 0) {
        let what = format!("{} layer {} ({}) may be off by", layer.motif, layer.layer + 1, layer.film);
        match layer.may_be_off {
            Some(off) => {
                lines.push(line(
                    what,
                    "least that the layers below reach under its edge",
                    format!("{:.1} mm", off.least),
                ));
            }
            None => {
                lines.push(line(what, "the layers below go through under it, or it stands alone", "no ground shows"));
            }
        }
    }
    lines
}

fn cloth(plan: &Plan) -> Vec<Line> {
    let mut lines = Vec::new();
    for need in &plan.fabric {
        for sum in &need.working {
            lines.push(line(need.film.clone(), sum.clone(), ""));
        }
        let metres = |length: Mm| format!("{:.1} m", length.get() / 1000.0);
        lines.push(line(
            format!("{}: edge to stitch", need.film),
            "finished outlines of the pieces on the hem",
            metres(need.edge),
        ));
        let thread = need.thread_above + need.thread_below;
        lines.push(line(
            format!("{}: thread", need.film),
            "from above and below together, an estimate; where its rates come from stands with the sum",
            metres(thread),
        ));
        if let Some(web) = need.web {
            lines.push(line(format!("{}: fusible web", need.film), "all rows one after the other", metres(web)));
        }
    }
    lines
}

fn press(plan: &Plan) -> Vec<Line> {
    let mut seconds: Vec<(f64, usize)> = Vec::new();
    let garments = [Some(plan), plan.right_hand()].into_iter().flatten();
    for closure in garments.flat_map(|one| &one.press.closures) {
        let each = closure.seconds.get();
        match seconds.iter_mut().find(|(other, _)| (other - each).abs() < 0.05) {
            Some((_, count)) => *count += 1,
            None => seconds.push((each, 1)),
        }
    }
    if seconds.is_empty() {
        return Vec::new();
    }
    let sum: Vec<String> = seconds.iter().map(|(each, count)| format!("{count} × {each:.0} s")).collect();
    let (along, up) = plan.job.press.plate;
    let rim = plan.job.press.rim;
    vec![
        line(
            "plate that counts",
            format!("plate less its rim on each side: {along} × {up}, rim {rim}"),
            format!("{} × {}", along - rim * 2.0, up - rim * 2.0),
        ),
        line(
            format!("time at the press{}", for_both(plan)),
            format!("closures × seconds: {}", sum.join(" + ")),
            plan.at_press.total().to_string(),
        ),
    ]
}
