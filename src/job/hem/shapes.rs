//! The shapes of hem that are measured: what their keys mean.

mod keys;

use std::ops::Range;

use super::{HemKeys, drawn};
use crate::hem::{Flare, Measurements, PanelPart};
use crate::job::check::{Check, Table};
use crate::job::fault::FaultKind;
use crate::job::given::{Degrees, Section};
use crate::quantity::Mm;
pub(super) use keys::{
    CircleKeys, ClothKeys, EllipseKeys, GoresKeys, MeasuredKeys, OvalKeys, PolygonKeys, RectangleKeys, StraightKeys,
    TrainKeys,
};

/// A garment of more panels than this is a slip of the keyboard.
const MOST_PANELS: u32 = 200;

/// The shapes that are given, with the places of their tables.
pub(super) fn given(keys: &HemKeys) -> impl Iterator<Item = (&'static str, &Range<usize>)> {
    let all: [(&'static str, Option<&Range<usize>>); 11] = [
        ("[hem.circle]", keys.circle.as_ref().map(|s| &s.at)),
        ("[hem.oval]", keys.oval.as_ref().map(|s| &s.at)),
        ("[hem.ellipse]", keys.ellipse.as_ref().map(|s| &s.at)),
        ("[hem.gores]", keys.gores.as_ref().map(|s| &s.at)),
        ("[hem.rectangle]", keys.rectangle.as_ref().map(|s| &s.at)),
        ("[hem.polygon]", keys.polygon.as_ref().map(|s| &s.at)),
        ("[hem.measured]", keys.measured.as_ref().map(|s| &s.at)),
        ("[hem.straight]", keys.straight.as_ref().map(|s| &s.at)),
        ("[hem.drawn]", keys.drawn.as_ref().map(|s| &s.at)),
        ("[hem.train]", keys.train.as_ref().map(|s| &s.at)),
        ("[hem.cloth]", keys.cloth.as_ref().map(|s| &s.at)),
    ];
    all.into_iter().filter_map(|(name, at)| Some((name, at?)))
}

/// The one shape that is given.
pub(super) fn shape(check: &mut Check, section: &Section<HemKeys>, seams_clear: Mm) -> Option<Measurements> {
    let keys = &section.keys;
    let there: Vec<_> = given(keys).map(|(name, at)| (name, Some(at))).collect();
    check.only_one(&there, "a hem has one shape: keep the table that fits, take the others out");
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
    if let Some(drawn) = &keys.drawn {
        return drawn::check(check, drawn, seams_clear).map(Measurements::Drawn);
    }
    if let Some(train) = &keys.train {
        return shape_train(check, train);
    }
    if let Some(cloth) = &keys.cloth {
        return shape_cloth(check, cloth);
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

fn shape_train(check: &mut Check, train: &Section<TrainKeys>) -> Option<Measurements> {
    let (keys, table) = (&train.keys, Table { name: "[hem.train]", at: &train.at });
    let waist = check.need_above_zero(table, "waist", "waist = \"720 mm\"", keys.waist.as_ref());
    let front = check.need_above_zero(table, "front", "front = \"1040 mm\"", keys.front.as_ref());
    let side = match &keys.side {
        Some(given) => check.above_zero("side", Some(given)),
        None => {
            check.assume("length at the side", "as in front", "hem.train.side");
            front
        }
    };
    let back = check.need_above_zero(table, "back", "back = \"1700 mm\"", keys.back.as_ref());
    Some(Measurements::Train { waist: waist?, front: front?, side: side?, back: back? })
}

fn shape_cloth(check: &mut Check, cloth: &Section<ClothKeys>) -> Option<Measurements> {
    let (keys, table) = (&cloth.keys, Table { name: "[hem.cloth]", at: &cloth.at });
    let width = check.need_above_zero(table, "width", "width = \"1800 mm\"", keys.width.as_ref());
    let depth = match &keys.depth {
        Some(given) => check.above_zero("depth", Some(given)),
        None => {
            check.assume("depth of the cloth", "as its width: round", "hem.cloth.depth");
            width
        }
    };
    Some(Measurements::Cloth { width: width?, depth: depth? })
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
