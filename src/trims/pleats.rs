//! Knife and box pleats laid from joined strips.
//!
//! Fullness = (visible + 2 x depth of fold) / visible for each fold. A knife pleat has one fold for each visible width, a box
//! pleat two, so a box pleat whose folds meet behind it needs a fold of half its width for the same 3 to 1.

use super::braid::upper_edge;
use super::buy::Goods;
use super::error::TrimError;
use super::need::{Labour, On, PleatCount, TrimNeed, above_zero};
use super::strips::{Run, Strips, across};
use super::wish::{PleatStyle, Pleats};
use crate::data::usual;
use crate::quantity::Mm;

/// More pleats or rows than a hem has: a slip of unit.
const MOST_PLEATS: f64 = 100_000.0;
const MOST_ROWS: u32 = 100;

pub(super) fn need(on: &On<'_>, pleats: &Pleats) -> Result<TrimNeed, TrimError> {
    check(on, pleats)?;
    let fullness = fullness(pleats);
    let lines = lines(on, pleats)?;
    let lowest = lines[0];
    let (count, visible) = whole(lowest, pleats.visible).ok_or(too_many(on, "pleats", 100_000))?;
    let flat: Mm = lines.iter().map(|line| *line * fullness).sum();
    let strips = strips(on, pleats, &lines, fullness)?;
    let buy = on.buy(Goods::Cloth, strips.cloth);
    let mut need = on.need(flat);
    need.grams = on.grams_by_area(flat, pleats.cut_depth);
    need.edges_to_finish = Some(flat * 2.0);
    let sewn: Mm = lines.iter().copied().sum();
    need.labour = vec![
        Labour::joins(strips),
        Labour::metres("finish-edge", flat * 2.0),
        Labour::metres("lay-pleats", sewn),
        Labour::metres("sew-on", sewn),
    ];
    need.working.push(format!(
        "{lowest:.2} / {} = {:.1}: {count} pleats of {visible:.2}{}",
        pleats.visible,
        lowest / pleats.visible,
        if pleats.rows > 1 { " in the lowest row" } else { "" },
    ));
    need.working.push(format!("fullness {}", fullness_sum(pleats, fullness)));
    need.working.push(format!("{}strip {flat:.2} long before pleating", rows_sum(pleats, &lines, fullness)));
    need.working.push(strips_sum(&strips, pleats, lines.len()));
    upper_edge(on, &mut need);
    need.warnings.extend(warnings(on, pleats, lowest, count));
    need.pleats = Some(PleatCount { count, visible, fullness, rows: pleats.rows });
    need.strips = Some(strips);
    Ok(need.bought(vec![buy]))
}

fn check(on: &On<'_>, pleats: &Pleats) -> Result<(), TrimError> {
    above_zero(on.wish, "visible width", pleats.visible)?;
    above_zero(on.wish, "cut depth of a strip", pleats.cut_depth)?;
    if pleats.rows > MOST_ROWS {
        return Err(too_many(on, "rows", MOST_ROWS));
    }
    let small = |what, found: String| TrimError::TooSmall { trim: on.wish.name.clone(), what, found, least: "0" };
    if pleats.rows == 0 {
        return Err(small("number of rows", "0".into()));
    }
    if !(pleats.underfold > 0.0 && pleats.underfold.is_finite()) {
        return Err(small("underfold", pleats.underfold.to_string()));
    }
    Ok(())
}

fn too_many(on: &On<'_>, what: &'static str, most: u32) -> TrimError {
    TrimError::TooMany { trim: on.wish.name.clone(), what, most }
}

/// Folds for each visible width.
const fn folds(style: PleatStyle) -> f64 {
    match style {
        PleatStyle::Knife => 1.0,
        PleatStyle::Box => 2.0,
    }
}

/// Length of strip for a length of line.
fn fullness(pleats: &Pleats) -> f64 {
    1.0 + 2.0 * folds(pleats.style) * pleats.underfold
}

/// Length of the line under each row, the lowest first.
fn lines(on: &On<'_>, pleats: &Pleats) -> Result<Vec<Mm>, TrimError> {
    let heights = (0..pleats.rows).map(|row| on.wish.height + pleats.row_step * f64::from(row));
    heights
        .map(|height| {
            let highest = on.edge.highest().unwrap_or(Mm::ZERO);
            on.edge.line_at(height).ok_or_else(|| TrimError::TooDeep {
                trim: on.wish.name.clone(),
                upper: height,
                highest,
            })
        })
        .collect()
}

/// The nearest whole number of pleats and the width that makes them come out.
fn whole(line: Mm, visible: Mm) -> Option<(u32, Mm)> {
    let count = (line / visible).round().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and MOST_PLEATS")]
    (count <= MOST_PLEATS).then(|| (count as u32, line / count))
}

/// Strips of all rows. Each row is joined by itself, so each rounds up to whole strips.
fn strips(on: &On<'_>, pleats: &Pleats, lines: &[Mm], fullness: f64) -> Result<Strips, TrimError> {
    let mut all: Option<Strips> = None;
    for line in lines {
        let row = across(&on.wish.name, *line * fullness, pleats.cut_depth, pleats.cloth, Run::of(on.edge))?;
        all = Some(match all {
            None => row,
            Some(sum) => Strips {
                count: sum.count + row.count,
                joins: sum.joins + row.joins,
                cloth: sum.cloth + row.cloth,
                ..row
            },
        });
    }
    Ok(all.expect("there is at least one row"))
}

fn fullness_sum(pleats: &Pleats, fullness: f64) -> String {
    let fold = pleats.visible * pleats.underfold;
    match pleats.style {
        PleatStyle::Knife => format!("({} + 2 x {fold}) / {} = {fullness:.2}", pleats.visible, pleats.visible),
        PleatStyle::Box => format!("({} + 4 x {fold}) / {} = {fullness:.2}", pleats.visible, pleats.visible),
    }
}

fn rows_sum(pleats: &Pleats, lines: &[Mm], fullness: f64) -> String {
    if pleats.rows == 1 {
        return format!("{:.2} x {fullness:.2} = ", lines[0]);
    }
    let lines: Vec<String> = lines.iter().map(|line| format!("{line:.2}")).collect();
    format!("({}) x {fullness:.2} = ", lines.join(" + "))
}

/// `15354.69 mm / (1380.0 mm - 2 x 10.0 mm) = 12 strips, cut 60.0 mm deep: 720.0 mm of cloth`
pub(super) fn strips_sum(strips: &Strips, pleats: &Pleats, rows: usize) -> String {
    format!(
        "each strip adds {} - 2 x {} = {}: {} strips{}, {} joins; {} x {} = {} of cloth",
        pleats.cloth.usable,
        pleats.cloth.join,
        strips.each_adds,
        strips.count,
        if rows > 1 { " in all rows" } else { "" },
        strips.joins,
        strips.count,
        strips.cut_width,
        strips.cloth,
    )
}

fn warnings(on: &On<'_>, pleats: &Pleats, lowest: Mm, count: u32) -> Vec<String> {
    let mut said = Vec::new();
    let just_meet = 1.0 / folds(pleats.style);
    if pleats.underfold > just_meet + 1e-9 {
        said.push(format!(
            "The folds reach {:.2} times as far as where they just meet, so they lie over each other: thick to press and to sew.",
            pleats.underfold / just_meet
        ));
    }
    let upper = on.edge.line_at(on.wish.height + pleats.depth);
    if let Some(lost) = upper.map(|upper| lowest - upper)
        && lost / lowest > usual("pleats-turned-without-shaping")
    {
        said.push(format!(
            "All round, the upper edge of the pleats is {lost} shorter than their lower edge: take up {:.2} mm more in every pleat at \
             the top than at the bottom.",
            lost.get() / f64::from(count)
        ));
    }
    said.push("Lay the joins inside the folds, where they do not show; shift a pleat by a little where one would fall on top.".into());
    said
}
