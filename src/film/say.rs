//! What the maker is told about how her layers were prepared.

use super::layering::{Under, Why};
use super::make::LayerMade;
use super::mend::{Change, Changed};
use crate::finding::{Finding, Place, Severity};
use crate::quantity::{Mm, mm};

/// Nearer than this a layer cannot be placed by hand for certain; common practice, no source.
const PLACED_WITHIN: Mm = mm(0.5);

/// `#c62828 of "poppy"`, with its size where that is not the drawn one.
fn named(layer: &LayerMade) -> String {
    let of = format!("{} of \"{}\"", layer.colour, layer.motif);
    let percent = layer.scale * 100.0;
    if (percent - 100.0).abs() < 0.05 { of } else { format!("{of} at {} %", (percent * 10.0).round() / 10.0) }
}

/// Findings about one layer.
pub(super) fn of_layer(layer: &LayerMade) -> Vec<Finding> {
    let name = named(layer);
    let mut found = Vec::new();
    if let Under::KnockedOut { underlap, why } = layer.under {
        found.push(cut_away(&name, &layer.motif, underlap, why));
    }
    if let Some(why) = layer.against {
        found.push(finding(
            Severity::LookAtThis,
            "stacked-against",
            None,
            format!("{name} stays whole under what lies over it, as the job asks; {}.", reason(why)),
            "Make a test piece of the whole stack, or leave layering to the program.".into(),
        ));
    }
    if let Some(least) = layer.may_be_off
        && mm(least.least) < PLACED_WITHIN
    {
        let mut said = finding(
            Severity::LookAtThis,
            "shows-ground",
            Some(mm(least.least)),
            format!("Ground shows beside {name} if it is pressed off by more than {:.1}.", mm(least.least)),
            format!(
                "Draw the layer below farther under it, or write layering = \"knock out\" and an underlap under [motif.{}.prepare].",
                layer.motif
            ),
        );
        said.place = place(layer, least.at);
        found.push(said);
    }
    found.extend(layer.changes.iter().map(|change| changed(layer, &name, change)));
    found
}

/// A turned layer has strips narrower than is comfortable.
pub(super) fn narrow(layer: &LayerMade, width: Mm) -> Finding {
    finding(
        Severity::LookAtThis,
        "narrow-to-turn",
        Some(width),
        format!("{} has strips narrower than {width}: both edges are hard to turn there.", named(layer)),
        "Use a raw edge for this colour, or draw them wider.".into(),
    )
}

fn cut_away(name: &str, motif: &str, underlap: Mm, why: Why) -> Finding {
    let reach = if underlap > Mm::ZERO {
        format!("it reaches {underlap} under")
    } else {
        "the edges meet, so place what lies over it with care".into()
    };
    let severity = if underlap > Mm::ZERO { Severity::FixedForYou } else { Severity::LookAtThis };
    finding(
        severity,
        "cut-away",
        Some(underlap),
        format!("{name} is cut away under what lies over it, since {}; {reach}.", reason(why)),
        format!("Write layering = \"stack\" under [motif.{motif}.prepare] to keep it whole, or press this layer last."),
    )
}

fn reason(why: Why) -> String {
    match why {
        Why::Asked => "the job asks for it".into(),
        Why::NothingOnTop => "its film takes nothing on top".into(),
        Why::TooMany { most } => format!("these films bear {most} layers in one place"),
    }
}

fn changed(layer: &LayerMade, name: &str, change: &Change) -> Finding {
    let (before, after) = (change.before, change.after);
    let (kind, say) = match change.what {
        Changed::PointRounded { degrees, shorter } => (
            "point-rounded",
            format!(
                "A point of {degrees:.0} degrees of {name} was rounded to a radius of {after} and is {shorter} shorter."
            ),
        ),
        Changed::NeckThickened => ("neck-thickened", format!("A neck of {name} was {before} wide and is now {after}.")),
        Changed::IslandDropped => ("island-dropped", format!("An island of {name}, {before} across, was left out.")),
        Changed::IslandEnlarged => {
            ("island-enlarged", format!("An island of {name} was {before} across and is now {after}."))
        }
    };
    let mut said = finding(Severity::FixedForYou, kind, Some(before), say, "As the job asks.".into());
    said.place = place(layer, change.at);
    said
}

fn place(layer: &LayerMade, at: crate::geometry::Point) -> Option<Place> {
    let element = format!("colour {}", layer.colour);
    Some(Place { drawing: layer.motif.clone(), element, line: None, at: Some(at) })
}

fn finding(severity: Severity, kind: &'static str, measure: Option<Mm>, say: String, advice: String) -> Finding {
    Finding { severity, kind, place: None, measure, say, advice }
}
