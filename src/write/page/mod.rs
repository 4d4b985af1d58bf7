//! `read-me-first.html`: the whole job on one self-contained page for screen, phone and paper.

mod base64;
pub(crate) mod helper;
pub(crate) mod rows;

use askama::Template;

use super::drawing::{Drawing, svg_text};
use super::figures::{both, counted, listed};
use super::views::{hem_flat, hem_map, hem_worn, seen_and_cut, sheet};
use super::{chalk, lettering, shopping, time_and_weight};
use crate::finding::Assumption;
use crate::plan::{ON_NO_SHEET, Plan};
use rows::{BandPart, BuyRow, ChalkPart, ClosureRow, FindingRow, RiskRow, TrimPart, WorkRow};

/// What a file of the folder is called and is for.
pub(crate) type FileNote = (String, String);

#[derive(Template)]
#[template(path = "read_me_first.html", config = "src/write/page/askama.toml")]
struct Page<'a> {
    job: &'a str,
    job_key: String,
    version: &'static str,
    css: &'static str,
    font_regular: String,
    font_bold: String,
    lead: String,
    unplaced: Vec<String>,
    five: Vec<Number>,
    bands: Vec<BandPart>,
    chalk: Vec<ChalkPart>,
    risks: Vec<RiskRow>,
    buy: Vec<BuyRow>,
    buy_total: String,
    buy_other: Vec<BuyRow>,
    buy_for: &'static str,
    buy_notes: Vec<String>,
    order: &'a [String],
    hem_pictures: Vec<Picture>,
    press_lead: String,
    checklist: &'a [String],
    closures: Vec<ClosureRow>,
    motif_pictures: Vec<Picture>,
    sheet_pictures: Vec<Picture>,
    findings: Vec<FindingRow>,
    assumptions: &'a [Assumption],
    cautions: &'static [&'static str],
    trims: Vec<TrimPart<'a>>,
    work: Vec<WorkRow<'a>>,
    work_total: String,
    files: &'a [FileNote],
}

/// One of the numbers at the top.
#[derive(Clone, Debug)]
pub(crate) struct Number {
    pub(crate) name: &'static str,
    pub(crate) value: String,
    pub(crate) also: String,
}

struct Picture {
    svg: String,
    caption: String,
}

/// The page's text; `files` is what else lies in the folder.
pub(crate) fn file(plan: &Plan, files: &[FileNote]) -> String {
    let buy = shopping::rows(plan);
    let page = Page {
        job: &plan.job.name,
        // JSON is a safe script literal once "<" cannot end the script element.
        job_key: serde_json::to_string(&plan.job.name).unwrap_or_default().replace('<', "\\u003c"),
        version: env!("CARGO_PKG_VERSION"),
        css: include_str!("page.css"),
        font_regular: base64::encode(lettering::REGULAR),
        font_bold: base64::encode(lettering::BOLD),
        lead: lead(plan),
        unplaced: unplaced(plan),
        five: five(plan),
        bands: plan.setting.bands.iter().map(|band| rows::band(plan, band)).collect(),
        chalk: rows::chalk(plan),
        risks: rows::risks(&plan.risks),
        buy_total: shopping::total(&buy).map(|total| format!("{total:.2}")).unwrap_or_default(),
        buy: buy.iter().map(rows::buy).collect(),
        buy_other: shopping::other_goods(plan).into_iter().map(rows::buy_goods).collect(),
        buy_for: super::figures::all_for_both(plan),
        buy_notes: shopping::alternatives(plan).iter().map(shopping::Alternative::words).collect(),
        order: &plan.press.order_of_work,
        hem_pictures: hem_pictures(plan),
        press_lead: press_lead(plan),
        checklist: &plan.press.checklist,
        closures: plan.press.closures.iter().map(|closure| rows::closure(plan, closure)).collect(),
        motif_pictures: motif_pictures(plan),
        sheet_pictures: sheet_pictures(plan),
        findings: plan.findings.iter().map(rows::finding).collect(),
        assumptions: &plan.assumptions,
        cautions: &super::cautions::CAUTIONS,
        trims: plan.trims.iter().map(rows::trim).collect(),
        work: plan.budget.tasks.iter().map(rows::work).collect(),
        work_total: time_and_weight::in_all(plan),
        files,
    };
    page.render().expect("the template only shows strings")
}

/// The job in a sentence.
pub(crate) fn lead(plan: &Plan) -> String {
    let motifs: usize = plan.setting.bands.iter().map(|band| band.placements.len()).sum();
    let bands = counted(plan.setting.bands.len(), "band", "bands");
    let pair = if plan.right_hand().is_some() { ", on each of two that mirror each other" } else { "" };
    format!("{} in {bands} along a hem of {}{pair}.", counted(motifs, "motif", "motifs"), both(chalk::hem_length(plan)))
}

/// The five numbers that matter: they decide the look, the money and the evening.
pub(crate) fn five(plan: &Plan) -> Vec<Number> {
    let bands = &plan.setting.bands;
    let motifs: usize = bands.iter().map(|band| band.placements.len()).sum();
    let buy = shopping::rows(plan);
    let least = bands.iter().filter_map(|band| band.clear_gap.as_ref()).min_by(|a, b| a.least.total_cmp(&b.least));
    let first = bands.first();
    let each = if plan.right_hand().is_some() { ", on each" } else { "" };
    vec![
        Number {
            name: "Motifs",
            value: motifs.to_string(),
            also: format!("{}{each}", listed(&plan.motifs.keys().map(String::as_str).collect::<Vec<_>>())),
        },
        Number {
            name: "Repeat, middle to middle",
            value: first.map(|band| super::figures::repeat(band).0).unwrap_or_default(),
            also: first.map_or_else(String::new, |band| {
                let of = if bands.len() > 1 { format!(", {}", band.name) } else { String::new() };
                format!("{}{of}", super::figures::repeat(band).1)
            }),
        },
        Number {
            name: "Least clear gap",
            value: least.map_or("none".to_owned(), |gap| gap.least.to_string()),
            also: least.map(|gap| format!("{} to {}", gap.between.0, gap.between.1)).unwrap_or_default(),
        },
        Number {
            name: "To buy",
            value: shopping::bought_words(&buy),
            also: shopping::total(&buy)
                .filter(|_| !buy.is_empty())
                .map_or_else(String::new, |total| format!("{total:.2} in all{}", super::figures::for_both(plan))),
        },
        Number {
            name: "At the press",
            value: super::figures::about(plan.at_press.total()),
            also: super::figures::closures(plan),
        },
    ]
}

/// Pieces that are in no cut file.
fn unplaced(plan: &Plan) -> Vec<String> {
    let left = plan.findings.iter().filter(|finding| finding.kind == ON_NO_SHEET);
    left.map(|finding| format!("{} {}", finding.say, finding.advice)).collect()
}

/// How long the press is in use.
pub(crate) fn press_lead(plan: &Plan) -> String {
    if plan.at_press.closures() == 0 {
        return "Nothing is pressed in this job: the pieces are sewn down, as the order of work says.".to_owned();
    }
    let (along, up) = plan.job.press.plate;
    let (closures, total) = (super::figures::closures(plan), plan.at_press.total());
    let places = plan.press.places_in_words();
    match plan.at_press.time_of_each() {
        Some(each) => format!(
            "{closures}; {total} in all with handling for both, {each}; on a plate of {along} along the hem and {up} up the \
             garment, of each at {places}. This is the schedule of the left-hand one of the pair; that of the right-hand one \
             stands in the workbook."
        ),
        None => format!(
            "{closures}, {total} in all with handling, on a plate of {along} along the hem and {up} up the garment, at {places}."
        ),
    }
}

fn picture(drawing: &Drawing, name: &str, caption: impl Into<String>) -> Picture {
    Picture { svg: svg_text::inline(drawing, name), caption: caption.into() }
}

fn hem_pictures(plan: &Plan) -> Vec<Picture> {
    let right = plan.right_hand().map(|right| of_one(right, "-right", " The right-hand one."));
    let which = if right.is_some() { " The left-hand one." } else { "" };
    of_one(plan, "", which).into_iter().chain(right.into_iter().flatten()).collect()
}

/// The pictures of one garment; their names and captions say which where there are two.
fn of_one(plan: &Plan, name: &str, which: &str) -> Vec<Picture> {
    let one = |drawing: &Drawing, what: &str, caption: &str| {
        picture(drawing, &format!("{what}{name}"), format!("{caption}{which}"))
    };
    let worn = hem_worn::beside_flat(plan).map(|d| one(&d, "worn", hem_worn::SAYS));
    let flat = hem_flat::draw(plan).map(|d| one(&d, "flat", "The band laid flat, right side up, in its true shape."));
    let straight = hem_map::draw(plan, hem_map::Shows::Distances);
    let map = one(&straight, "map", "The band straightened, with every motif's distance from the middle.");
    worn.into_iter().chain(flat).chain([map]).collect()
}

fn motif_pictures(plan: &Plan) -> Vec<Picture> {
    let draw = |motif: &crate::art::Motif| {
        let caption = format!("{}: as seen on the garment, and each piece as it is cut.", motif.name);
        picture(&seen_and_cut::draw(plan, motif), &format!("motif-{}", super::names::part(&motif.name)), caption)
    };
    plan.motifs.values().map(draw).collect()
}

fn sheet_pictures(plan: &Plan) -> Vec<Picture> {
    let mut pictures = Vec::new();
    for film_sheets in &plan.sheets {
        for number in 0..film_sheets.layout.sheets.len() {
            let name = super::names::sheet(plan, film_sheets, number);
            let drawing = sheet::draw(plan, film_sheets, number);
            pictures.push(picture(&drawing, &name, format!("cut/{name}.svg")));
        }
    }
    pictures
}
