//! `hemwright inspect`: is a drawing fit to cut? Findings in words, and numbered on a picture.

use std::fmt::Write as _;
use std::path::Path;

use clap::builder::styling::{AnsiColor, Style};
use hemwright::art::{self, Inspection, Limits, MotifWish};
use hemwright::data::tables;
use hemwright::finding::Severity;
use hemwright::plan;
use hemwright::quantity::{Mm, length_text};

use super::args::InspectArgs;
use super::table::Columns;
use super::trouble::Trouble;
use super::{folder, input, say};

const HEADING: Style = Style::new().bold();
const GOOD: Style = AnsiColor::Green.on_default().bold();
const INFALLIBLE: &str = "writing to a String cannot fail";

pub(crate) fn run(args: &InspectArgs) -> Result<(), Trouble> {
    let limits = limits(args)?;
    let text = input::read_drawing(&args.art)?;
    let file = args.art.file_name().unwrap_or_default().to_string_lossy().into_owned();
    // The length was read once already, when the flag was taken.
    let width = args.width.as_deref().and_then(|width| length_text::parse(width).ok());
    let wish = MotifWish { name: "motif".to_owned(), file: file.clone(), width };
    let inspection =
        art::inspect(&text, &wish, &limits.into()).map_err(|fault| plan::Error::Art { file: file.clone(), fault })?;
    if let Some(picture) = &args.picture {
        folder::write_new(picture, &hemwright::write::inspected(&inspection, &file))?;
    }
    say::out(&words(&inspection, &file, args.picture.as_deref()))?;
    let stops = inspection.found.iter().filter(|found| found.finding.severity == Severity::StopsTheJob).count();
    if stops > 0 { Err(Trouble::DrawingStops { file, findings: stops }) } else { Ok(()) }
}

/// The limits of the way of working, with the narrowest part that the class of film allows.
fn limits(args: &InspectArgs) -> Result<Limits, Trouble> {
    let limits = Limits::usual(args.working.into());
    let Some(word) = &args.film else { return Ok(limits) };
    match tables().film(word) {
        Some(class) => Ok(limits.with_neck(Mm::new(class.cutting.stroke_mm))),
        None => Err(Trouble::NoMaterial { word: word.clone(), near: super::materials::near(word) }),
    }
}

fn words(inspection: &Inspection, file: &str, picture: Option<&Path>) -> String {
    let motif = &inspection.motif;
    let mut text = format!("{HEADING}{file}{HEADING:#}  {} wide, {} high\n\n", motif.width, motif.height);
    let mut columns = Columns::new();
    for layer in &motif.layers {
        let areas = layer.outlines.len();
        let word = if areas == 1 { "area" } else { "areas" };
        columns.row([&layer.colour.to_string(), &format!("{areas} {word}")]);
    }
    writeln!(text, "{columns}").expect(INFALLIBLE);
    let mut columns = Columns::new();
    for found in &inspection.found {
        let finding = &found.finding;
        let place = finding.place.as_ref().map_or_else(String::new, |place| match place.line {
            Some(line) => format!("{}, line {line}", place.element),
            None => place.element.clone(),
        });
        let said = format!("{} {}", finding.say, finding.advice);
        columns.row([&found.number.to_string(), finding.severity.words(), &place, &said]);
    }
    write!(text, "{columns}").expect(INFALLIBLE);
    if inspection.found.is_empty() {
        writeln!(text, "{GOOD}Nothing found: fit to cut.{GOOD:#}").expect(INFALLIBLE);
    }
    if let Some(picture) = picture {
        writeln!(text, "\nThe numbers stand on {}.", picture.display()).expect(INFALLIBLE);
    }
    text
}
