//! `hemwright inspect`: is a drawing fit to cut? Findings in words, and numbered on a picture.

use hemwright::art::{self, Limits, MotifWish};
use hemwright::data::tables;
use hemwright::finding::Severity;
use hemwright::plan;
use hemwright::quantity::{Mm, length_text};
use hemwright::write::inspection;

use super::args::InspectArgs;
use super::trouble::Trouble;
use super::{folder, input, say};

pub(crate) fn run(args: &InspectArgs) -> Result<(), Trouble> {
    let limits = limits(args)?;
    let text = input::read_drawing(&args.art)?;
    let file = args.art.file_name().unwrap_or_default().to_string_lossy().into_owned();
    // The length was read once already, when the flag was taken.
    let width = args.width.as_deref().and_then(|width| length_text::parse(width).ok());
    let stem = args.art.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let wish = MotifWish { name: stem, file: file.clone(), width };
    let inspection =
        art::inspect(&text, &wish, &limits.into()).map_err(|fault| plan::Error::Art { file: file.clone(), fault })?;
    let mut text = inspection::text(&inspection);
    if let Some(place) = &args.out {
        folder::write(place, &format!("inspection of {file}"), &inspection::files(&inspection))?;
        text.push_str(&format!("Written to {}: a numbered picture, and the findings as data.\n", place.display()));
    }
    say::out(&text)?;
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
