//! `[hem]`: the shape of the hem by its measurements, whether it closes, its opening and seams.

use std::ops::Range;

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::{Check, Table};
use super::fault::FaultKind;
use super::given::{Degrees, Given, Part, Section};
use crate::hem::{Ends, Flare, HemWish, Mark, Measurements, Middle, PanelPart, Seam};
use crate::quantity::{Mm, length_text, mm};

/// Motifs keep this far from a seam unless told otherwise; common practice, no source: half an inch, rounded down.
const SEAM_CLEAR: Mm = mm(12.0);
/// Motifs keep this far from the closing edge of an opening unless told otherwise; common practice, no source.
const OPENING_CLEAR: Mm = mm(10.0);
/// Motifs keep this far from an open end unless told otherwise: a 20 mm turning stays free; common practice, no source.
const END_CLEAR: Mm = mm(20.0);
/// A garment of more panels than this is a slip of the keyboard.
const MOST_PANELS: u32 = 200;

/// `[hem]` as written: exactly one shape, and what goes with any shape.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem]")]
pub(crate) struct HemKeys {
    circle: Option<Section<CircleKeys>>,
    oval: Option<Section<OvalKeys>>,
    ellipse: Option<Section<EllipseKeys>>,
    gores: Option<Section<GoresKeys>>,
    rectangle: Option<Section<RectangleKeys>>,
    polygon: Option<Section<PolygonKeys>>,
    measured: Option<Section<MeasuredKeys>>,
    straight: Option<Section<StraightKeys>>,
    /// "closed" for a ring, "open" for a band with two ends.
    ends: Option<Given<String>>,
    /// How far motifs keep from each open end.
    ends_clear: Option<Given<Mm>>,
    /// What lies at the middle of an open band: "CF", or "CB" for a cape open in front.
    middle: Option<Given<String>>,
    /// An opening in a ring.
    opening: Option<Section<OpeningKeys>>,
    /// Seams across the band: "CF", "CB", "side left", "side right", or a distance from CF along the hem.
    seams: Option<Vec<Given<String>>>,
    /// How far motifs keep from each seam.
    seams_clear: Option<Given<Mm>>,
    /// Lengths of the hem's parts as measured again after hanging: four quarters from CF to the wearer's left, or equal parts.
    hung: Option<Vec<Given<Mm>>>,
}

/// Part of a circle: hem = waist + 2 pi x fraction x length.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.circle]")]
pub(crate) struct CircleKeys {
    /// "full", "3/4", "half", "quarter", or a number.
    fraction: Option<Given<Part>>,
    /// Finished waist or neck line.
    waist: Option<Given<Mm>>,
    /// From waist to hem.
    length: Option<Given<Mm>>,
}

/// Longer at the back, over an oval or round waist.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.oval]")]
pub(crate) struct OvalKeys {
    /// Finished waist line.
    waist: Option<Given<Mm>>,
    /// From waist to hem at centre front.
    front: Option<Given<Mm>>,
    /// From waist to hem at the side.
    side: Option<Given<Mm>>,
    /// From waist to hem at centre back.
    back: Option<Given<Mm>>,
    /// Hem length by tape, where measured.
    tape: Option<Given<Mm>>,
}

/// An ellipse known by its half axes at the hem.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.ellipse]")]
pub(crate) struct EllipseKeys {
    /// Half the extent from front to back.
    front_back: Option<Given<Mm>>,
    /// Half the extent from side to side.
    side_side: Option<Given<Mm>>,
}

/// Equal panels with straight sides.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.gores]")]
pub(crate) struct GoresKeys {
    /// How many.
    panels: Option<Given<u32>>,
    /// Finished width of one panel at the top.
    top: Option<Given<Mm>>,
    /// Finished width of one panel at the hem.
    hem: Option<Given<Mm>>,
    /// Finished length of the side seam.
    side: Option<Given<Mm>>,
    /// What lies on centre front: "panel" (its middle) or "seam".
    cf: Option<Given<String>>,
}

/// A straight-sided cloth with four square corners.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.rectangle]")]
pub(crate) struct RectangleKeys {
    /// Length of the side with centre front on it, and of the one opposite.
    width: Option<Given<Mm>>,
    /// Length of the two other sides; as long as the width unless told otherwise.
    depth: Option<Given<Mm>>,
}

/// A cloth of equal sides and corners.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.polygon]")]
pub(crate) struct PolygonKeys {
    /// How many sides.
    sides: Option<Given<u32>>,
    /// Length of each.
    side: Option<Given<Mm>>,
}

/// Hem length by tape.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.measured]")]
pub(crate) struct MeasuredKeys {
    /// Finished hem length.
    hem: Option<Given<Mm>>,
    /// Length of a second line measured higher up.
    upper: Option<Given<Mm>>,
    /// Its height above the hem.
    upper_height: Option<Given<Mm>>,
    /// Or the angle through which the hem turns: "360 deg" for a full circle.
    sweep: Option<Given<Degrees>>,
}

/// A straight band: every line is as long as the hem.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.straight]")]
pub(crate) struct StraightKeys {
    /// Finished length.
    length: Option<Given<Mm>>,
}

/// An opening whose edges meet or overlap when worn.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [hem.opening]")]
pub(crate) struct OpeningKeys {
    /// Where the closing edge lies.
    at: Option<Given<String>>,
    /// How far one edge reaches under the other.
    underlap: Option<Given<Mm>>,
    /// How far motifs keep from the closing edge.
    keep_clear: Option<Given<Mm>>,
}

/// The hem as checked; `None` when a fault was noted.
pub(crate) fn check(check: &mut Check, section: Option<&Section<HemKeys>>) -> Option<HemWish> {
    let Some(section) = section else {
        check.whole(FaultKind::Missing {
            key: "[hem]",
            table: "the job".to_owned(),
            example: "[hem.circle] with waist and length, or [hem.measured] with hem",
        });
        return None;
    };
    let keys = &section.keys;
    let ends = ends(check, keys);
    let clear = seams_clear(check, keys);
    let measurements = shape(check, section, clear);
    let seams = seams(check, keys, clear);
    let parts = keys.hung.iter().flatten();
    let hung: Vec<Mm> = parts.filter_map(|given| check.above_zero("hung", Some(given))).collect();
    Some(HemWish { measurements: measurements?, ends: ends?, seams, hung })
}

fn shape(check: &mut Check, section: &Section<HemKeys>, seams_clear: Mm) -> Option<Measurements> {
    let keys = &section.keys;
    let given: [(&'static str, Option<&Range<usize>>); 8] = [
        ("[hem.circle]", keys.circle.as_ref().map(|s| &s.at)),
        ("[hem.oval]", keys.oval.as_ref().map(|s| &s.at)),
        ("[hem.ellipse]", keys.ellipse.as_ref().map(|s| &s.at)),
        ("[hem.gores]", keys.gores.as_ref().map(|s| &s.at)),
        ("[hem.rectangle]", keys.rectangle.as_ref().map(|s| &s.at)),
        ("[hem.polygon]", keys.polygon.as_ref().map(|s| &s.at)),
        ("[hem.measured]", keys.measured.as_ref().map(|s| &s.at)),
        ("[hem.straight]", keys.straight.as_ref().map(|s| &s.at)),
    ];
    check.only_one(&given, "a hem has one shape: keep the table that fits, take the others out");
    if let Some(circle) = &keys.circle {
        return shape_circle(check, circle);
    }
    if let Some(oval) = &keys.oval {
        return shape_oval(check, oval);
    }
    if let Some(ellipse) = &keys.ellipse {
        return shape_ellipse(check, ellipse);
    }
    if let Some(gores) = &keys.gores {
        return shape_gores(check, gores, seams_clear);
    }
    if let Some(rectangle) = &keys.rectangle {
        return shape_rectangle(check, rectangle);
    }
    if let Some(polygon) = &keys.polygon {
        return shape_polygon(check, polygon);
    }
    if let Some(measured) = &keys.measured {
        return shape_measured(check, measured);
    }
    if let Some(straight) = &keys.straight {
        let table = Table { name: "[hem.straight]", at: &straight.at };
        let length = check.need_above_zero(table, "length", "length = \"2400 mm\"", straight.keys.length.as_ref());
        return Some(Measurements::Straight { length: length? });
    }
    let table = Table { name: "[hem]", at: &section.at };
    check.missing(table, "shape", "[hem.circle] with waist and length, or [hem.measured] with hem");
    None
}

fn shape_circle(check: &mut Check, circle: &Section<CircleKeys>) -> Option<Measurements> {
    let (keys, table) = (&circle.keys, Table { name: "[hem.circle]", at: &circle.at });
    let waist = check.need_above_zero(table, "waist", "waist = \"720 mm\"", keys.waist.as_ref());
    let length = check.need_above_zero(table, "length", "length = \"700 mm\"", keys.length.as_ref());
    let fraction = match &keys.fraction {
        Some(given) => check.take(Some(given)).map(|part| part.0),
        None => {
            check.assume("fraction of a circle", "a full circle", "hem.circle.fraction");
            Some(1.0)
        }
    };
    Some(Measurements::Circle { fraction: fraction?, waist: waist?, length: length? })
}

fn shape_oval(check: &mut Check, oval: &Section<OvalKeys>) -> Option<Measurements> {
    let (keys, table) = (&oval.keys, Table { name: "[hem.oval]", at: &oval.at });
    let waist = check.need_above_zero(table, "waist", "waist = \"720 mm\"", keys.waist.as_ref());
    let front = check.need_above_zero(table, "front", "front = \"1020 mm\"", keys.front.as_ref());
    let side = check.need_above_zero(table, "side", "side = \"1040 mm\"", keys.side.as_ref());
    let back = check.need_above_zero(table, "back", "back = \"1100 mm\"", keys.back.as_ref());
    let tape = check.above_zero("tape", keys.tape.as_ref());
    Some(Measurements::Oval { waist: waist?, front: front?, side: side?, back: back?, tape })
}

fn shape_ellipse(check: &mut Check, ellipse: &Section<EllipseKeys>) -> Option<Measurements> {
    let (keys, table) = (&ellipse.keys, Table { name: "[hem.ellipse]", at: &ellipse.at });
    let front_back = check.need_above_zero(table, "front_back", "front_back = \"640 mm\"", keys.front_back.as_ref());
    let side_side = check.need_above_zero(table, "side_side", "side_side = \"560 mm\"", keys.side_side.as_ref());
    Some(Measurements::Ellipse { front_back: front_back?, side_side: side_side? })
}

fn shape_gores(check: &mut Check, gores: &Section<GoresKeys>, keep_clear: Mm) -> Option<Measurements> {
    let (keys, table) = (&gores.keys, Table { name: "[hem.gores]", at: &gores.at });
    if keys.panels.is_none() {
        check.missing(table, "panels", "panels = 6");
    }
    let panels = check.take(keys.panels.as_ref()).filter(|panels| {
        let most = MOST_PANELS as usize;
        let found = *panels as usize;
        if found == 0 || found > most {
            check.fault(table.at, FaultKind::TooMany { what: "panels", found, most });
        }
        (1..=most).contains(&found)
    });
    let top = check.need_above_zero(table, "top", "top = \"130 mm\"", keys.top.as_ref());
    let hem = check.need_above_zero(table, "hem", "hem = \"700 mm\"", keys.hem.as_ref());
    let side = check.need_above_zero(table, "side", "side = \"900 mm\"", keys.side.as_ref());
    let on_middle = match &keys.cf {
        Some(given) => check.one_of(Some(given), &[("panel", PanelPart::Middle), ("seam", PanelPart::Seam)]),
        None => {
            check.assume("centre front of the gores", "the middle of a panel", "hem.gores.cf");
            Some(PanelPart::Middle)
        }
    };
    Some(Measurements::Gores {
        panels: panels?,
        top: top?,
        hem: hem?,
        side: side?,
        on_middle: on_middle?,
        keep_clear: Some(keep_clear),
    })
}

fn shape_rectangle(check: &mut Check, rectangle: &Section<RectangleKeys>) -> Option<Measurements> {
    let (keys, table) = (&rectangle.keys, Table { name: "[hem.rectangle]", at: &rectangle.at });
    let width = check.need_above_zero(table, "width", "width = \"1200 mm\"", keys.width.as_ref());
    let depth = match &keys.depth {
        Some(given) => check.above_zero("depth", Some(given)),
        None => {
            check.assume("depth of the cloth", "as long as its width: a square", "hem.rectangle.depth");
            width
        }
    };
    Some(Measurements::Rectangle { width: width?, depth: depth? })
}

fn shape_polygon(check: &mut Check, polygon: &Section<PolygonKeys>) -> Option<Measurements> {
    let (keys, table) = (&polygon.keys, Table { name: "[hem.polygon]", at: &polygon.at });
    if keys.sides.is_none() {
        check.missing(table, "sides", "sides = 6");
    }
    let sides = check.take(keys.sides.as_ref());
    let side = check.need_above_zero(table, "side", "side = \"400 mm\"", keys.side.as_ref());
    Some(Measurements::Polygon { sides: sides?, side: side? })
}

fn shape_measured(check: &mut Check, measured: &Section<MeasuredKeys>) -> Option<Measurements> {
    let (keys, table) = (&measured.keys, Table { name: "[hem.measured]", at: &measured.at });
    let hem = check.need_above_zero(table, "hem", "hem = \"5118 mm\"", keys.hem.as_ref());
    let upper = check.above_zero("upper", keys.upper.as_ref());
    let height = check.above_zero("upper_height", keys.upper_height.as_ref());
    let sweep = check.take(keys.sweep.as_ref());
    check.only_one(
        &[("upper", keys.upper.as_ref().map(|g| &g.at)), ("sweep", keys.sweep.as_ref().map(|g| &g.at))],
        "either a second line or the sweep says how much the hem flares",
    );
    match (&keys.upper, &keys.upper_height) {
        (Some(given), None) => check.fault(&given.at, FaultKind::OnlyWith { key: "upper", with: "upper_height" }),
        (None, Some(given)) => check.fault(&given.at, FaultKind::OnlyWith { key: "upper_height", with: "upper" }),
        _ => {}
    }
    let flare = match (upper, height, sweep) {
        (Some(length), Some(height), _) => Flare::UpperLine { length, height },
        (_, _, Some(Degrees(degrees))) => Flare::Sweep(degrees.to_radians()),
        _ => {
            check.assume(
                "flare of the hem",
                "a full circle, at which motifs come closest",
                "hem.measured.sweep or upper",
            );
            Flare::Unknown
        }
    };
    Some(Measurements::Measured { hem: hem?, flare })
}

fn ends(check: &mut Check, keys: &HemKeys) -> Option<Ends> {
    let open = match &keys.ends {
        Some(given) => check.one_of(Some(given), &[("closed", false), ("open", true)])?,
        None => {
            if keys.opening.is_none() && keys.ends_clear.is_none() {
                check.assume("ends of the hem", "none: a ring without an opening", "hem.ends, or hem.opening");
            }
            keys.ends_clear.is_some()
        }
    };
    if open {
        if let Some(opening) = &keys.opening {
            check.fault(&opening.at, FaultKind::OnlyWith { key: "[hem.opening]", with: "ends = \"closed\"" });
        }
        let keep_clear = match &keys.ends_clear {
            Some(given) => check.not_below_zero("ends_clear", Some(given))?,
            None => {
                check.assume("clear of each open end", END_CLEAR.to_string(), "hem.ends_clear");
                END_CLEAR
            }
        };
        let middle = match &keys.middle {
            Some(given) => check.one_of(Some(given), &[("cf", Middle::CentreFront), ("cb", Middle::CentreBack)])?,
            None => {
                check.assume("middle of the open band", "centre front", "hem.middle");
                Middle::CentreFront
            }
        };
        return Some(Ends::Open { keep_clear, middle });
    }
    if let Some(given) = &keys.ends_clear {
        check.fault(&given.at, FaultKind::OnlyWith { key: "ends_clear", with: "ends = \"open\"" });
    }
    if let Some(given) = &keys.middle {
        check.fault(&given.at, FaultKind::OnlyWith { key: "middle", with: "ends = \"open\"" });
    }
    match &keys.opening {
        Some(opening) => check_opening(check, &opening.keys),
        None => Some(Ends::Closed),
    }
}

fn check_opening(check: &mut Check, keys: &OpeningKeys) -> Option<Ends> {
    let at = match &keys.at {
        Some(given) => mark(check, given),
        None => {
            check.assume("place of the opening", "centre back", "hem.opening.at");
            Some(Mark::CentreBack)
        }
    };
    let underlap = match &keys.underlap {
        Some(given) => check.not_below_zero("underlap", Some(given)),
        None => {
            check.assume("underlap of the opening", "none: the edges meet", "hem.opening.underlap");
            Some(Mm::ZERO)
        }
    };
    let keep_clear = match &keys.keep_clear {
        Some(given) => check.not_below_zero("keep_clear", Some(given)),
        None => {
            check.assume("clear of the opening's edge", OPENING_CLEAR.to_string(), "hem.opening.keep_clear");
            Some(OPENING_CLEAR)
        }
    };
    Some(Ends::Opening { at: at?, underlap: underlap?, keep_clear: keep_clear? })
}

/// How far motifs keep from each seam.
fn seams_clear(check: &mut Check, keys: &HemKeys) -> Mm {
    let has_seams = keys.gores.is_some() || keys.seams.as_ref().is_some_and(|seams| !seams.is_empty());
    if has_seams && keys.seams_clear.is_none() {
        check.assume("clear of each seam", SEAM_CLEAR.to_string(), "hem.seams_clear");
    }
    check.not_below_zero("seams_clear", keys.seams_clear.as_ref()).unwrap_or(SEAM_CLEAR)
}

/// The seams named in the list; seams between gores follow from the panels.
fn seams(check: &mut Check, keys: &HemKeys, keep_clear: Mm) -> Vec<Seam> {
    if keys.gores.is_none() && keys.seams.is_none() {
        check.assume("seams across the band", "none that motifs must keep clear of", "hem.seams");
    }
    let mut seams = Vec::new();
    for given in keys.seams.iter().flatten() {
        if let (Some(at), Ok(word)) = (mark(check, given), &given.value) {
            seams.push(Seam { name: format!("seam {word}"), at, keep_clear });
        }
    }
    seams
}

fn mark(check: &mut Check, given: &Given<String>) -> Option<Mark> {
    let word = check.take(Some(given))?;
    match word.to_lowercase().as_str() {
        "cf" | "centre front" | "center front" => return Some(Mark::CentreFront),
        "cb" | "centre back" | "center back" => return Some(Mark::CentreBack),
        "side left" | "left side" => return Some(Mark::SideLeft),
        "side right" | "right side" => return Some(Mark::SideRight),
        _ => {}
    }
    if let Ok(length) = length_text::parse(&word) {
        return Some(Mark::At(length));
    }
    let choices = ["CF", "CB", "side left", "side right", "350 mm (from CF toward the wearer's left)"];
    check.fault(&given.at, FaultKind::NotOneOf { word, choices: choices.map(str::to_owned).to_vec() });
    None
}
