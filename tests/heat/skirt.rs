//! Skirts to press: S1's full circle unless told otherwise.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use hemwright::art::{Colour, Layer, Motif};
use hemwright::film::{CutWish, Film, LayerWish, Layering, Method, Pieces, Preparing, Spares, prepare};
use hemwright::geometry::{Outline, Point, Ring, Vec2};
use hemwright::hem::{self, Ends, Hem, HemWish, Mark, Measurements, Seam};
use hemwright::nest::Turning;
use hemwright::place::{Anchor, BandWish, Hands, Level, Rhythm, Setting, Spacing, Stance, set_out};
use hemwright::press::{HeatRisk, Inputs, Lies, PressError, PressPlan, Setup, Zone, ZoneState, plan, verify};
use hemwright::quantity::{Mm, Seconds, mm};

/// A job with everything the press stage takes.
#[derive(Clone, Debug)]
pub(crate) struct Skirt {
    pub(crate) hem: Hem,
    pub(crate) motifs: BTreeMap<String, Motif>,
    pub(crate) setting: Setting,
    pub(crate) pieces: Pieces,
    pub(crate) films: Vec<Film>,
    pub(crate) zones: Vec<Zone>,
    pub(crate) setup: Setup,
}

/// S1: full circle, waist 720, length 700.
pub(crate) fn full_circle() -> HemWish {
    circle(1.0, 720.0, 700.0)
}

pub(crate) fn circle(fraction: f64, waist: f64, length: f64) -> HemWish {
    HemWish {
        measurements: Measurements::Circle { fraction, waist: mm(waist), length: mm(length) },
        ends: Ends::Closed,
        seams: vec![],
        hung: vec![],
    }
}

pub(crate) fn with_side_seams(mut wish: HemWish) -> HemWish {
    wish.seams = [("side seam left", Mark::SideLeft), ("side seam right", Mark::SideRight)]
        .map(|(name, at)| Seam { name: name.into(), at, keep_clear: mm(12.0) })
        .to_vec();
    wish
}

/// A round flower of so many layers, each smaller than the one below.
pub(crate) fn flower(across: f64, layers: usize) -> Motif {
    let layer = |k: usize| {
        let radius = across / 2.0 * (1.0 - 0.2 * k as f64);
        let points = (0..60).map(|n| Point::ZERO + radius * Vec2::from_angle(TAU * f64::from(n) / 60.0));
        let colour = Colour { red: 40 * u8::try_from(k).unwrap(), green: 90, blue: 20 };
        Layer { colour, outlines: vec![Outline::new(Ring::new(points).unwrap(), vec![])] }
    };
    Motif { name: "flower".into(), layers: (0..layers).map(layer).collect(), width: mm(across), height: mm(across) }
}

pub(crate) fn band(height: f64, spacing: Spacing) -> BandWish {
    BandWish {
        name: "band 1".into(),
        height: mm(height),
        level: Level::Middle,
        motifs: vec!["flower".into()],
        spacing,
        on_cf: Anchor::Motif,
        stance: Stance::SquareToHem,
        rhythm: Rhythm::default(),
        keep_out: vec![],
        covered: vec![],
        hands: Hands::AsDrawn,
    }
}

/// S1's press: 380 along the hem, 10 not trusted on each side, 5 + 15 + 40 s.
pub(crate) fn setup(cloth: &str) -> Setup {
    Setup {
        plate: (mm(380.0), mm(300.0)),
        rim: mm(10.0),
        handling: Seconds::new(40.0),
        cloth: cloth.into(),
        ..Setup::default()
    }
}

impl Skirt {
    /// Flowers, one film class for each layer.
    pub(crate) fn new(wish: &HemWish, flower: Motif, bands: &[BandWish], classes: &[&str], setup: Setup) -> Self {
        Self::layered(wish, flower, bands, classes, setup, Layering::Auto)
    }

    /// The same, with a wish about layers that lie under others.
    pub(crate) fn layered(
        wish: &HemWish,
        flower: Motif,
        bands: &[BandWish],
        classes: &[&str],
        setup: Setup,
        layering: Layering,
    ) -> Self {
        Self::of_motifs(wish, &[(flower, classes)], bands, setup, layering)
    }

    /// Several motifs, each with one film class for each layer.
    pub(crate) fn of_motifs(
        wish: &HemWish,
        motifs: &[(Motif, &[&str])],
        bands: &[BandWish],
        setup: Setup,
        layering: Layering,
    ) -> Self {
        let hem = hem::shape(wish).unwrap();
        let mut films: Vec<Film> = Vec::new();
        for class in motifs.iter().flat_map(|(_, classes)| *classes) {
            if films.iter().all(|film| film.key != *class) {
                films.push(film(class));
            }
        }
        let cut = |(motif, classes): &(Motif, &[&str])| {
            let wish = |(layer, class): (&Layer, &&str)| LayerWish {
                colour: layer.colour,
                film: (*class).to_owned(),
                method: Method::Film,
            };
            CutWish {
                motif: motif.name.clone(),
                layers: motif.layers.iter().zip(*classes).map(wish).collect(),
                spares: Spares::Each(0),
                tests: 0,
                preparing: Preparing { layering, ..Preparing::default() },
            }
        };
        let cuts: Vec<CutWish> = motifs.iter().map(cut).collect();
        let motifs: BTreeMap<String, Motif> =
            motifs.iter().map(|(motif, _)| (motif.name.clone(), motif.clone())).collect();
        let setting = set_out(&hem, &motifs, bands).unwrap();
        let pieces = prepare(&motifs, &setting, &cuts, &films).unwrap().pieces;
        Self { hem, motifs, setting, pieces, films, zones: vec![], setup }
    }

    /// S1 with a flower of smooth film.
    pub(crate) fn s1(cloth: &str) -> Self {
        Self::new(&full_circle(), flower(110.0, 1), &[band(75.0, Spacing::Count(30))], &["smooth"], setup(cloth))
    }

    /// S1 with one layer of a film class.
    pub(crate) fn s1_in(cloth: &str, class: &str) -> Self {
        Self::new(&full_circle(), flower(110.0, 1), &[band(75.0, Spacing::Count(30))], &[class], setup(cloth))
    }

    pub(crate) fn with_zone(mut self, name: &str, material: &str, heights: (f64, f64), state: ZoneState) -> Self {
        let heights = (mm(heights.0), mm(heights.1));
        self.zones.push(Zone {
            name: name.into(),
            material: material.into(),
            along: None,
            heights,
            state,
            lies: Lies::Beneath,
        });
        self
    }

    pub(crate) fn inputs(&self) -> Inputs<'_> {
        Inputs {
            motifs: &self.motifs,
            hem: &self.hem,
            setting: &self.setting,
            pieces: &self.pieces,
            films: &self.films,
            zones: &self.zones,
            setup: &self.setup,
        }
    }

    pub(crate) fn try_plan(&self) -> Result<(PressPlan, Vec<HeatRisk>), PressError> {
        plan(self.inputs())
    }

    /// Plans, and has the independent check look at every plan made in these tests.
    pub(crate) fn plan(&self) -> (PressPlan, Vec<HeatRisk>) {
        let (plan, risks) = self.try_plan().unwrap();
        assert_eq!(verify::flaws(&plan, &self.inputs()), []);
        (plan, risks)
    }
}

fn film(class: &str) -> Film {
    Film {
        key: class.into(),
        class: class.into(),
        colour_name: String::new(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(3.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

/// Length of the hem, for figures beside checks.
pub(crate) fn hem_length(skirt: &Skirt) -> Mm {
    skirt.hem.length()
}
