//! The cover: the job's name, the hem as worn, and the five numbers that matter.

use super::compose::{Composer, Section};
use crate::finding::Severity;
use crate::geometry::Rect;
use crate::place::Garments;
use crate::plan::Plan;
use crate::press::Outcome;
use crate::quantity::{Mm, Seconds};
use crate::write::drawing::pdf::Part;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::{both, closures, counted, for_both, inches, repeat};
use crate::write::lettering::{self, Weight};
use crate::write::views::hem_worn;
use crate::write::{chalk, shopping, style};

/// Height of the row of numbers.
const NUMBERS: f64 = 27.0;

/// Type size of the numbers, mm, where all of them have room.
const FIGURE: f64 = 7.0;

/// One number with what it is.
struct Key {
    figure: String,
    what: String,
    more: String,
}

pub(crate) fn section(plan: &Plan) -> Section {
    let name = if plan.job.name.trim().is_empty() { "A hem band" } else { plan.job.name.trim() };
    let mut composer = Composer::new(name, &subtitle(plan));
    let keys = keys(plan);
    let notices = notices(plan);
    let (y, width) = (composer.y(), composer.width());
    numbers(&mut composer, &keys, y, width);
    composer.space(NUMBERS + 5.0);
    let room = composer.room() - 22.0 * notices.len() as f64;
    composer.figure_within(hem_worn::draw(plan), room);
    for (ink, head, text) in notices {
        composer.notice(ink, &head, &text);
    }
    composer.finish()
}

fn subtitle(plan: &Plan) -> String {
    let bands: Vec<String> = plan
        .setting
        .bands
        .iter()
        .map(|band| {
            let motifs = if band.count == 1 { "motif" } else { "motifs" };
            format!("{} {motifs} at {} above the hem", band.count_in_words(), both(band.height))
        })
        .collect();
    format!("Workbook for a hem of {}: {}.", both(chalk::hem_length(plan)), bands.join("; "))
}

fn keys(plan: &Plan) -> Vec<Key> {
    let mut keys = Vec::new();
    let motifs: usize = plan.setting.bands.iter().map(|band| band.placements.len()).sum();
    let names: Vec<&str> = plan.motifs.values().map(|motif| motif.name.as_str()).collect();
    keys.push(Key {
        figure: motifs.to_string(),
        what: match plan.job.garments {
            Garments::One => "motifs".to_owned(),
            Garments::MirroredPair => "motifs on each".to_owned(),
        },
        more: names.join(", "),
    });
    if let Some(band) = plan.setting.bands.first() {
        let (figure, more) = repeat(band);
        let bands = &plan.setting.bands;
        let of = if bands.len() > 1 { format!(" of {}", band.name) } else { String::new() };
        keys.push(Key { figure, what: format!("repeat along the motif line{of}"), more });
        // The tightest place of all bands.
        let gaps = bands.iter().filter_map(|band| band.clear_gap.as_ref());
        match gaps.min_by(|a, b| a.least.total_cmp(&b.least)) {
            Some(gap) => keys.push(length("least clear gap between motifs", gap.least)),
            None => keys.push(length("gap along the motif line", band.gap_along)),
        }
    }
    keys.push(sheets(plan));
    keys.push(Key {
        figure: minutes(plan.at_press.total()),
        what: format!("at the press{}", for_both(plan)),
        more: match plan.at_press.closures_of_each() {
            Some(each) => format!("{} closures, {each}", plan.at_press.closures()),
            None => closures(plan),
        },
    });
    keys
}

fn length(what: &str, length: Mm) -> Key {
    Key { figure: length.to_string(), what: what.to_owned(), more: inches(length) }
}

fn sheets(plan: &Plan) -> Key {
    let rows = shopping::rows(plan);
    let sheets: u32 = rows.iter().filter(|row| row.length.is_none() && !row.in_drawer()).map(|row| row.sheets).sum();
    let rolls: Mm = rows.iter().filter(|row| !row.in_drawer()).filter_map(|row| row.length).sum();
    let (figure, what) = match (sheets, rolls.get() > 0.0) {
        (0, true) => (format!("{:.2} m", rolls.get() / 1000.0), "of film to buy".to_owned()),
        (_, true) => (format!("{sheets} + {:.2} m", rolls.get() / 1000.0), "sheets and rolls to buy".to_owned()),
        (1, false) => ("1".to_owned(), "sheet to buy".to_owned()),
        (_, false) => (sheets.to_string(), "sheets to buy".to_owned()),
    };
    let more = shopping::total(&rows).map(|total| format!("{total:.2} in all{}", for_both(plan))).unwrap_or_default();
    Key { figure, what, more }
}

/// `37 min`, `2 h 05 min`.
pub(crate) fn minutes(time: Seconds) -> String {
    let minutes = (time.get() / 60.0).round().max(0.0);
    if minutes < 90.0 {
        return format!("{minutes:.0} min");
    }
    let hours = (minutes / 60.0).floor();
    format!("{hours:.0} h {:02.0} min", minutes - hours * 60.0)
}

/// The numbers side by side, a fine rule between them.
fn numbers(composer: &mut Composer, keys: &[Key], y: f64, width: f64) {
    let mut paper = Drawing::new(0.0, 0.0, "");
    let mut set = Vec::new();
    paper.rect(Rect::new(0.0, y, width, y + NUMBERS), Some(style::TINT), None);
    let cell = width / keys.len().max(1) as f64;
    let room = cell - 4.0;
    let widest = keys.iter().map(|key| lettering::width(&key.figure, FIGURE, Weight::Bold)).fold(room, f64::max);
    let size = FIGURE * room / widest;
    for (k, key) in keys.iter().enumerate() {
        let (left, middle) = (k as f64 * cell, (k as f64 + 0.5) * cell);
        if k > 0 {
            paper.line((left, y + 4.0), (left, y + NUMBERS - 4.0), Pen::new(style::RULE, style::THIN));
        }
        set.push(
            Words::new(key.figure.clone(), (middle, y + 11.0))
                .size(size)
                .bold()
                .ink(style::ACCENT)
                .anchor(Anchor::Middle),
        );
        let mut baseline = y + 15.8;
        let lines = lettering::lines(&key.what, style::SMALL, Weight::Regular, room);
        for line in lines.into_iter().take(2) {
            set.push(Words::new(line, (middle, baseline)).size(style::SMALL).anchor(Anchor::Middle));
            baseline += style::SMALL * 1.3;
        }
        let more = lettering::fitted(&key.more, style::SMALL, Weight::Regular, room);
        set.push(
            Words::new(more, (middle, y + NUMBERS - 3.0)).size(style::SMALL).ink(style::SOFT).anchor(Anchor::Middle),
        );
    }
    composer.furnish(paper.marks);
    composer.push(Part::Text(set));
}

/// What must not be overlooked, at most four: pieces in no file, heat, clashes, findings.
fn notices(plan: &Plan) -> Vec<(style::Ink, String, String)> {
    let mut notices = Vec::new();
    let left: u32 = plan.sheets.iter().flat_map(|film| &film.layout.unplaced).map(|left| left.quantity).sum();
    if left > 0 {
        let head = format!("{} on no sheet: too large", counted(left as usize, "piece is", "pieces are"));
        notices.push((style::STOP, head, "By how much, and what would take them, is on the shopping list.".to_owned()));
    }
    if let Some(risk) = plan.risks.iter().find(|risk| risk.outcome >= Outcome::MoveFirst) {
        notices.push((style::outcome_ink(risk.outcome), risk.say.clone(), risk.advice.clone()));
    }
    let clashes: usize = plan.setting.bands.iter().map(|band| band.clashes.len()).sum();
    if clashes > 0 {
        let head = format!("{} too near a seam or an edge", counted(clashes, "motif", "motifs"));
        notices.push((style::CARE, head, "They are listed under Found and assumed.".to_owned()));
    }
    let look = plan.findings.iter().filter(|finding| finding.severity >= Severity::LookAtThis).count();
    if look > 0 {
        let head = format!("{} to look at before you cut", counted(look, "thing", "things"));
        notices.push((style::CARE, head, "They are listed under Found and assumed.".to_owned()));
    }
    notices
}
