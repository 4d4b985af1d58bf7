//! Show the working: each number with the sum that gives it, to be followed with a pocket calculator.

use super::setter::{Column, Setter};
use crate::place::BandSetting;
use crate::plan::Plan;
use crate::quantity::Mm;
use crate::write::figures::counted;
use crate::write::{sheet_facts, shopping};

pub(crate) fn set(setter: &mut Setter, plan: &Plan) {
    setter.chapter("Show the working");
    setter.paragraph(
        "Figures are rounded when printed and not before, so a last digit may differ from a sum of printed figures.",
    );
    let columns = [Column::left("What", 44.0), Column::left("How", 104.0), Column::right("Is", 38.0)];
    let mut rows = hem(plan);
    for band in &plan.setting.bands {
        rows.extend(self::band(plan, band));
    }
    rows.extend(film(plan));
    rows.extend(press(plan));
    setter.table(&columns, &rows);
}

fn row(what: impl Into<String>, how: impl Into<String>, is: impl Into<String>) -> Vec<String> {
    vec![what.into(), how.into(), is.into()]
}

fn hem(plan: &Plan) -> Vec<Vec<String>> {
    let sweep = plan.hem.sweep();
    vec![
        row("finished hem", "from the measurements of the job", plan.hem.length().to_string()),
        row(
            "sweep",
            format!("the angle the hem turns through: {:.2}° × π / 180", sweep.degrees()),
            format!("{:.4}", sweep.get()),
        ),
    ]
}

fn band(plan: &Plan, band: &BandSetting) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let name = &band.name;
    let sweep = plan.hem.sweep().get();
    let by_sum = plan.hem.length() - band.height * sweep;
    // On a smooth hem every parallel line is shorter by sweep x height (Steiner); where the hem has corners or an
    // underlap the sum does not hold, and is not shown.
    if (by_sum - band.line).abs().get() < 0.05 {
        let how = format!("hem − height × sweep: {} − {} × {sweep:.4}", plan.hem.length(), band.height);
        rows.push(row(format!("{name}: motif line"), how, band.line.to_string()));
    } else {
        rows.push(row(format!("{name}: motif line"), "measured along the drawn line", band.line.to_string()));
    }
    let motifs = u32::try_from(band.placements.len()).unwrap_or(u32::MAX);
    if plan.hem.is_closed() && motifs > 0 && (band.line / f64::from(motifs) - band.repeat).abs().get() < 0.05 {
        let how = format!("line / motifs: {} / {motifs}", band.line);
        rows.push(row(format!("{name}: repeat"), how, band.repeat.to_string()));
    } else {
        rows.push(row(format!("{name}: repeat"), "middle to middle along the motif line", band.repeat.to_string()));
    }
    let width = band.repeat - band.gap_along;
    let how = format!("repeat − motif width: {} − {width}", band.repeat);
    rows.push(row(format!("{name}: gap along the line"), how, band.gap_along.to_string()));
    if let Some(gap) = &band.clear_gap {
        let how =
            format!("shortest distance between the outlines of {} and {}, laid flat", gap.between.0, gap.between.1);
        rows.push(row(format!("{name}: least clear gap"), how, gap.least.to_string()));
    }
    if plan.hem.is_closed() {
        let ratio = plan.hem.length() / band.line;
        let how = format!("repeat × hem / line: {} × {ratio:.4}", band.repeat);
        rows.push(row(format!("{name}: repeat along the hem"), how, (band.repeat * ratio).to_string()));
    }
    rows
}

fn film(plan: &Plan) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for kind in &plan.pieces.kinds {
        let how = format!("{} needed + {} spare + {} test", kind.needed, kind.spares, kind.tests);
        rows.push(row(format!("{}: to cut", kind.name), how, kind.quantity().to_string()));
    }
    for film_sheets in &plan.sheets {
        for (number, sheet) in film_sheets.layout.sheets.iter().enumerate() {
            let used = sheet_facts::used_fraction(plan, film_sheets, sheet);
            let what = format!("{}: sheet {} used", plan.films[film_sheets.film].key, number + 1);
            let pieces = counted(sheet.laid.len(), "patch", "patches");
            rows.push(row(what, format!("area of {pieces} / area of the sheet"), format!("{:.1} %", used * 100.0)));
        }
    }
    for buy in shopping::rows(plan) {
        let (Some(each), Some(price)) = (buy.stock.price, buy.price) else { continue };
        let units =
            buy.length.map_or_else(|| buy.sheets.to_string(), |length: Mm| format!("{:.3} m", length.get() / 1000.0));
        rows.push(row(format!("{}: price", buy.film.key), format!("{units} × {each:.2}"), format!("{price:.2}")));
    }
    rows
}

fn press(plan: &Plan) -> Vec<Vec<String>> {
    let mut seconds: Vec<(f64, usize)> = Vec::new();
    for closure in &plan.press.closures {
        let each = closure.seconds.get();
        match seconds.iter_mut().find(|(other, _)| (other - each).abs() < 0.05) {
            Some((_, count)) => *count += 1,
            None => seconds.push((each, 1)),
        }
    }
    let sum: Vec<String> = seconds.iter().map(|(each, count)| format!("{count} × {each:.0} s")).collect();
    vec![row("time at the press", sum.join(" + "), plan.press.total.to_string())]
}
