//! `[hem]`: the shape of the hem by its measurements, whether it closes, its opening and seams.

mod drawn;
mod godet;
mod shapes;

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::fault::FaultKind;
use super::given::{FileName, Given, OneOrMore, Section};
use crate::hem::{Ends, HemWish, Mark, Middle, Seam};
use crate::quantity::{Mm, length_text, mm};
use drawn::DrawnKeys;
use godet::GodetKeys;
use shapes::{
    CircleKeys, ClothKeys, EllipseKeys, GoresKeys, MeasuredKeys, OvalKeys, PolygonKeys, RectangleKeys, StraightKeys,
    TrainKeys,
};

/// Motifs keep this far from a seam unless told otherwise; common practice, no source: half an inch, rounded down.
const SEAM_CLEAR: Mm = mm(12.0);
/// Motifs keep this far from the closing edge of an opening unless told otherwise; common practice, no source.
const OPENING_CLEAR: Mm = mm(10.0);
/// Motifs keep this far from an open end unless told otherwise: a 20 mm turning stays free; common practice, no source.
const END_CLEAR: Mm = mm(20.0);

const MIDDLES: [(&str, Middle); 2] = [("CF", Middle::CentreFront), ("CB", Middle::CentreBack)];

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
    drawn: Option<Section<DrawnKeys>>,
    train: Option<Section<TrainKeys>>,
    cloth: Option<Section<ClothKeys>>,
    /// Godets let into the hem, those of one size in a table.
    #[serde(default)]
    godet: Vec<Section<GodetKeys>>,
    /// "closed" for a ring, "open" for a band with two ends.
    ends: Option<Given<String>>,
    /// How far motifs keep from each open end.
    ends_clear: Option<Given<Mm>>,
    /// What lies at the middle of an open band: "CF", or "CB" for a cape open in front.
    middle: Option<Given<String>>,
    /// An opening in a ring.
    opening: Option<Section<OpeningKeys>>,
    /// Seams across the band: "CF", "CB", "side left", "side right", or a distance from CF along the hem.
    seams: Option<OneOrMore>,
    /// How far motifs keep from each seam.
    seams_clear: Option<Given<Mm>>,
    /// Lengths of the hem's parts as measured again after hanging: four quarters from CF to the wearer's left, or equal parts.
    hung: Option<Vec<Given<Mm>>>,
}

impl HemKeys {
    /// The file of drawn pieces, where it is named.
    pub(super) fn file(&self) -> Option<&Given<FileName>> {
        self.drawn.as_ref()?.keys.file.as_ref()
    }

    /// Whether the shape has no corners, whatever its measurements; a drawn edge may have some.
    pub(super) fn without_corners(&self) -> bool {
        let straight_sided = self.rectangle.is_some() || self.polygon.is_some() || self.drawn.is_some();
        !straight_sided && shapes::given(self).next().is_some()
    }
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
    let measurements = shapes::shape(check, section, clear);
    let measurements = godet::check(check, &keys.godet, measurements, clear);
    let seams = seams(check, keys, clear);
    let parts = keys.hung.iter().flatten();
    let hung: Vec<Mm> = parts.filter_map(|given| check.above_zero("hung", Some(given))).collect();
    Some(HemWish { measurements: measurements?, ends: ends?, seams, hung })
}

fn ends(check: &mut Check, keys: &HemKeys) -> Option<Ends> {
    let open = match &keys.ends {
        Some(given) => match check.one_of(Some(given), &[("closed", false), ("open", true)]) {
            Some(open) => open,
            None => {
                // Whether these belong here cannot be known, but what is wrong with them by themselves.
                check.not_below_zero("ends_clear", keys.ends_clear.as_ref());
                check.one_of(keys.middle.as_ref(), &MIDDLES);
                keys.opening.as_ref().map(|opening| check_opening(check, &opening.keys));
                return None;
            }
        },
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
            Some(given) => check.not_below_zero("ends_clear", Some(given)),
            None => {
                check.assume("clear of each open end", END_CLEAR.to_string(), "hem.ends_clear");
                Some(END_CLEAR)
            }
        };
        let middle = match &keys.middle {
            Some(given) => check.one_of(Some(given), &MIDDLES),
            None => {
                check.assume("middle of the open band", "centre front", "hem.middle");
                Some(Middle::CentreFront)
            }
        };
        return Some(Ends::Open { keep_clear: keep_clear?, middle: middle? });
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
        Some(given) => mark(check, given, &[]),
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
    let has_seams = keys.gores.is_some()
        || !keys.godet.is_empty()
        || keys.drawn.as_ref().is_some_and(|drawn| drawn.keys.has_panels())
        || keys.seams.as_ref().is_some_and(|seams| !seams.is_empty());
    if has_seams && keys.seams_clear.is_none() {
        check.assume("clear of each seam", SEAM_CLEAR.to_string(), "hem.seams_clear");
    }
    check.not_below_zero("seams_clear", keys.seams_clear.as_ref()).unwrap_or(SEAM_CLEAR)
}

/// The seams named in the list; seams between gores follow from the panels.
fn seams(check: &mut Check, keys: &HemKeys, keep_clear: Mm) -> Vec<Seam> {
    if keys.gores.is_none() && keys.drawn.is_none() && keys.seams.is_none() {
        check.assume("seams across the band", "none that motifs must keep clear of", "hem.seams");
    }
    let mut seams = Vec::new();
    for given in keys.seams.iter().flat_map(|seams| seams.iter()) {
        if let Some(at) = mark(check, given, &[]) {
            seams.push(Seam { name: seam_name(at), at, keep_clear });
        }
    }
    seams
}

/// How a maker calls a seam that lies there.
fn seam_name(at: Mark) -> String {
    match at {
        Mark::CentreFront => "CF seam".to_owned(),
        Mark::CentreBack => "CB seam".to_owned(),
        Mark::SideLeft => "left side seam".to_owned(),
        Mark::SideRight => "right side seam".to_owned(),
        Mark::At(s) => format!("seam at {s}"),
    }
}

/// Places on the hem by the words for them, the first of each as messages name it.
const PLACES: [(Mark, &[&str]); 4] = [
    (Mark::CentreFront, &["CF", "centre front", "center front"]),
    (Mark::CentreBack, &["CB", "centre back", "center back"]),
    (Mark::SideLeft, &["side left", "left side"]),
    (Mark::SideRight, &["side right", "right side"]),
];

/// A place on the hem; `other` are words that may stand here beside those for places.
fn mark(check: &mut Check, given: &Given<String>, other: &[&str]) -> Option<Mark> {
    let word = check.take(Some(given))?;
    let plain = word.to_lowercase().replace(['-', '_'], " ");
    let named = PLACES.iter().find(|(_, words)| words.iter().any(|own| own.to_lowercase() == plain));
    if let Some((mark, _)) = named {
        return Some(*mark);
    }
    match length_text::parse(&word) {
        Ok(length) => return Some(Mark::At(length)),
        Err(fault) if word.contains(|c: char| c.is_ascii_digit()) => {
            check.fault(&given.at, FaultKind::NotALength(fault));
        }
        Err(_) => {
            let named = PLACES.iter().map(|(_, words)| words[0]).chain(other.iter().copied());
            let choices = named.chain(["350 mm (from CF toward the wearer's left)"]).map(str::to_owned).collect();
            check.fault(&given.at, FaultKind::NotOneOf { word, choices });
        }
    }
    None
}
