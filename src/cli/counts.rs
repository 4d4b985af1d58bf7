//! `hemwright counts`: neighbouring counts of a band side by side, one of them recommended.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use hemwright::job::Job;
use hemwright::nest::{Effort, Progress, Silent};
use hemwright::place::{self, CountRow, Spacing};
use hemwright::plan;
use hemwright::quantity::Seconds;
use hemwright::write::shopping;

use super::args::JobArgs;
use super::input::{self, Input};
use super::progress::{self, Steps};
use super::say;
use super::summary::lands_words;
use super::table::Columns;
use super::trouble::Trouble;

pub(crate) fn run(args: &JobArgs) -> Result<(), Trouble> {
    let input = input::read(args)?;
    progress::listen();
    say::out(&card(&input)?)
}

/// The card of every band.
fn card(input: &Input) -> Result<String, Trouble> {
    let job = &input.job;
    let set = plan::set_out(job, &input.art)?;
    let mut text = String::new();
    for (band, wish) in job.bands.iter().enumerate() {
        let card = place::counts(&set.hem, &set.motifs, wish).map_err(plan::Error::from)?;
        let mut columns = Columns::new();
        columns.row([
            "", "count", "repeat", "gap", "tightest", "on CF", "on CB", "sheets", "cost", "presses", "press", "look at",
        ]);
        let steps = Steps::new(card.rows.len());
        for (index, row) in card.rows.iter().enumerate() {
            let mark = if index == card.recommended { ">" } else { "" };
            let cost = cost(job, &input.art, band, row.count);
            columns.row(cells(mark, row, cost.as_ref()).each_ref().map(String::as_str));
            steps.one_more();
            if progress::cut_short() {
                return Err(Trouble::Stopped);
            }
        }
        writeln!(text, "{}\n{columns}", wish.name).expect("writing to a String cannot fail");
        for reason in &card.reasons {
            writeln!(text, "  {reason}").expect("writing to a String cannot fail");
        }
        text.push('\n');
    }
    Ok(text)
}

fn cells(mark: &str, row: &CountRow, cost: Option<&Cost>) -> [String; 12] {
    let unknown = || "-".to_owned();
    let clash = row.clashes.iter().min_by(|a, b| a.clear.total_cmp(&b.clear));
    let look = match (row.wide_enough, clash) {
        (false, _) => "gap too small".to_owned(),
        (true, Some(clash)) => format!("{} {} from {}", clash.placement, clash.clear, clash.with),
        (true, None) => String::new(),
    };
    [
        mark.to_owned(),
        row.count.to_string(),
        row.repeat.to_string(),
        row.gap_along.to_string(),
        row.clear_gap.as_ref().map_or_else(|| "-".to_owned(), |gap| gap.least.to_string()),
        lands_words(row.on_cf).to_owned(),
        lands_words(row.on_cb).to_owned(),
        cost.map_or_else(unknown, |cost| cost.sheets.to_string()),
        cost.and_then(|cost| cost.price).map_or_else(unknown, |price| format!("{price:.2}")),
        cost.map_or_else(unknown, |cost| cost.presses.to_string()),
        cost.map_or_else(unknown, |cost| cost.time.to_string()),
        look,
    ]
}

/// What a count costs.
struct Cost {
    sheets: u32,
    price: Option<f64>,
    presses: u32,
    time: Seconds,
}

/// What it costs when the band has so many motifs; `None` when that cannot be planned.
fn cost(job: &Job, art: &BTreeMap<String, String>, band: usize, count: u32) -> Option<Cost> {
    let mut job = job.clone();
    let spacing = &mut job.bands.get_mut(band)?.spacing;
    *spacing = match *spacing {
        Spacing::Fit { gap, .. } => Spacing::Fit { count, gap },
        Spacing::AtLeast(_) | Spacing::Count(_) => Spacing::Count(count),
    };
    job.effort = Effort::Quick;
    let silent: &dyn Progress = &Silent;
    let plan = plan::make(&job, art, silent).ok()?;
    let sheets = plan.sheets.iter().flat_map(|film| &film.layout.sheets).map(|sheet| sheet.copies).sum();
    let garments = job.garments.count();
    Some(Cost {
        sheets,
        price: shopping::total(&shopping::rows(&plan)),
        presses: u32::try_from(plan.press.closures.len()).ok()? * garments,
        time: plan.press.total * f64::from(garments),
    })
}
