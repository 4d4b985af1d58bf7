//! `plan.json`: the plan for other programs. Conventions and every name are in docs/formats.md; the types here are the
//! written form only and are changed with the schema's number.
//!
//! Lengths in mm to three places, angles in degrees to four, temperatures in Celsius, times in seconds.

mod marking;
mod pressing;
mod rounding;
mod setting;
mod sheets;
mod sizes;
mod told;

use serde::Serialize;

use crate::plan::Plan;
use crate::write::shopping;

pub(crate) use pressing::press_kind;

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
    hem: setting::WrittenHem,
    motifs: Vec<setting::WrittenMotif<'a>>,
    bands: Vec<setting::WrittenBand<'a>>,
    right: Option<setting::WrittenRight<'a>>,
    sizes: Option<sizes::WrittenSizes<'a>>,
    pieces: Vec<sheets::WrittenKind<'a>>,
    sheets: Vec<sheets::WrittenSheet<'a>>,
    unplaced: Vec<sheets::WrittenUnplaced<'a>>,
    buy: Vec<sheets::WrittenBuy<'a>>,
    alternatives: Vec<sheets::WrittenAlternative<'a>>,
    press: pressing::WrittenPress<'a>,
    risks: Vec<pressing::WrittenRisk<'a>>,
    findings: Vec<told::WrittenFinding<'a>>,
    assumptions: Vec<told::WrittenAssumption<'a>>,
}

fn written(plan: &Plan) -> Written<'_> {
    Written {
        schema: SCHEMA,
        job: &plan.job.name,
        hem: setting::hem(plan),
        motifs: plan.motifs.values().map(|motif| setting::motif(plan, motif)).collect(),
        bands: plan.setting.bands.iter().map(|band| setting::band(plan, band)).collect(),
        right: plan.right_hand().map(setting::right),
        sizes: sizes::sizes(plan),
        pieces: plan.pieces.kinds.iter().map(sheets::kind).collect(),
        sheets: plan.sheets.iter().flat_map(|film_sheets| sheets::sheets(plan, film_sheets)).collect(),
        unplaced: plan.sheets.iter().flat_map(|film_sheets| sheets::unplaced(plan, film_sheets)).collect(),
        buy: shopping::rows(plan).iter().map(sheets::buy).collect(),
        alternatives: shopping::alternatives(plan).iter().map(sheets::alternative).collect(),
        press: pressing::press(plan),
        risks: plan.risks.iter().map(pressing::risk).collect(),
        findings: plan.findings.iter().map(told::finding).collect(),
        assumptions: plan.assumptions.iter().map(told::assumption).collect(),
    }
}
