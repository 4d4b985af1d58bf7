//! Setting motifs out along hems, judged by figures worked by hand and by published tables.
#![allow(
    missing_docs,
    clippy::approx_constant,
    clippy::float_cmp,
    clippy::missing_panics_doc,
    clippy::must_use_candidate,
    clippy::unwrap_used,
    reason = "a test crate: tables are copied as printed, and what cannot be had fails the test"
)]

mod clear_gaps;
mod corners;
mod drawn;
mod godets;
mod jobs;
mod marking;
mod own_mirror_images;
mod parallel;
mod pockets;
mod properties;
mod published;
mod rhythms;
mod rows;
mod scenarios;
mod stretches;
mod together;
mod trains;
mod wording;

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use hemwright::art::{Colour, Layer, Motif};
use hemwright::geometry::{Outline, Point, Rect, Ring};
use hemwright::hem::{Ends, Hem, HemWish, Measurements, PanelPart, Seam, shape};
use hemwright::nest::Progress;
use hemwright::place::{
    Anchor, BandSetting, BandWish, CountsCard, Hands, Level, PlaceError, Rhythm, Setting, Spacing, Stance, counts,
    set_out,
};
use hemwright::quantity::{Mm, mm};

/// Lays the sheets as they come at once, without a search for better: where motifs stand, what is cut and how it is pressed does not
/// depend on them, and a search takes a hundred times as long as all that together.
pub(crate) struct AsTheyCome;

impl Progress for AsTheyCome {
    fn step(&self, _: u64, _: u64, _: &str) -> bool {
        false
    }
}

/// Tolerance of figures worked by hand to two decimals.
pub(crate) const HAND: f64 = 0.05;

/// Six gores, a panel's middle on CF, motifs 12 clear of seams; worked by hand in several tests.
pub(crate) fn six_gores() -> Measurements {
    Measurements::Gores {
        panels: 6,
        top: mm(130.0),
        hem: mm(700.0),
        side: mm(900.0),
        on_middle: PanelPart::Middle,
        keep_clear: Some(mm(12.0)),
    }
}

#[track_caller]
pub(crate) fn near(found: Mm, worked: f64) {
    assert!((found.get() - worked).abs() < HAND, "found {found:.4}, worked by hand {worked}");
}

pub(crate) fn motif(name: &str, outline: Ring) -> Motif {
    let bounds = outline.bounds();
    let colour = Colour { red: 0, green: 0, blue: 0 };
    Motif {
        name: name.to_owned(),
        layers: vec![Layer { colour, outlines: vec![Outline::new(outline, vec![])] }],
        width: mm(bounds.width()),
        height: mm(bounds.height()),
    }
}

/// A disc, as a polygon of 720 corners: at a diameter of 140 mm its edge is within a thousandth of a millimetre.
pub(crate) fn disc(name: &str, diameter: f64) -> Motif {
    let corner = |k: i32| {
        let angle = TAU * f64::from(k) / 720.0;
        Point::new(diameter / 2.0 * angle.cos(), diameter / 2.0 * angle.sin())
    };
    motif(name, Ring::new((0..720).map(corner)).unwrap())
}

pub(crate) fn rectangle(name: &str, width: f64, height: f64) -> Motif {
    let rect = Rect::new(-width / 2.0, -height / 2.0, width / 2.0, height / 2.0);
    motif(name, Ring::rectangle(rect).unwrap())
}

pub(crate) fn hem(measurements: Measurements, ends: Ends, seams: Vec<Seam>) -> Hem {
    shape(&HemWish { measurements, ends, seams, hung: vec![] }).unwrap()
}

/// A band of one motif on its middle line, motif on CF, smallest gap as given.
pub(crate) fn band(motif: &str, height: f64, spacing: Spacing) -> BandWish {
    BandWish {
        name: "band 1".to_owned(),
        height: mm(height),
        level: Level::Middle,
        motifs: vec![motif.to_owned()],
        spacing,
        on_cf: Anchor::Motif,
        stance: Stance::SquareToHem,
        rhythm: Rhythm::default(),
        keep_out: vec![],
        covered: vec![],
        hands: Hands::AsDrawn,
    }
}

pub(crate) fn try_setting(hem: &Hem, motifs: &[Motif], wish: &BandWish) -> Result<Setting, PlaceError> {
    let motifs: BTreeMap<String, Motif> = motifs.iter().map(|m| (m.name.clone(), m.clone())).collect();
    set_out(hem, &motifs, std::slice::from_ref(wish))
}

/// The counts card of a band on its own.
pub(crate) fn card_of(hem: &Hem, motifs: &BTreeMap<String, Motif>, wish: &BandWish) -> CountsCard {
    counts(hem, motifs, std::slice::from_ref(wish), 0).unwrap()
}

pub(crate) fn setting(hem: &Hem, motifs: &[Motif], wish: &BandWish) -> BandSetting {
    try_setting(hem, motifs, wish).unwrap().bands.remove(0)
}
