//! How long the press plan takes, heat check, map and check after the fact included: `cargo bench --bench pressing`.
//!
//! Prints the median of several runs; no threshold is asserted, since machines differ.
#![allow(
    missing_docs,
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench reads the clock and prints"
)]

mod median;

use std::collections::BTreeMap;
use std::f64::consts::TAU;
use std::hint::black_box;

use hemwright::art::{Colour, Layer, Motif};
use hemwright::film::{CutWish, Film, LayerWish, Method, Preparing, Spares, prepare};
use hemwright::geometry::{Outline, Point, Ring, Vec2};
use hemwright::hem::{Ends, HemWish, Measurements, shape};
use hemwright::nest::Turning;
use hemwright::place::{Anchor, BandWish, Hands, Level, Rhythm, Spacing, Stance, set_out};
use hemwright::press::{Inputs, Lies, Setup, Zone, ZoneState, plan};
use hemwright::quantity::mm;
use median::median;

const RUNS: usize = 7;

fn main() {
    let motifs = BTreeMap::from([("flower".to_owned(), flower(60.0, 200))]);
    for (count, rows) in [(30, 1), (200, 1), (60, 3), (2_000, 1), (10_000, 1)] {
        let hem = shape(&HemWish {
            measurements: Measurements::Circle {
                fraction: 1.0,
                waist: mm(700.0),
                length: mm(f64::from(count) * 90.0 / TAU),
            },
            ends: Ends::Closed,
            seams: vec![],
            hung: vec![],
        })
        .unwrap();
        let bands: Vec<BandWish> = (0..rows).map(|row| band(row, count)).collect();
        let setting = set_out(&hem, &motifs, &bands).unwrap();
        let films = [film()];
        let layers = vec![LayerWish { colour: RED, film: "red".into(), method: Method::Film }];
        let cuts = [CutWish {
            motif: "flower".into(),
            layers,
            spares: Spares::Each(0),
            tests: 0,
            preparing: Preparing::default(),
        }];
        let pieces = prepare(&motifs, &setting, &cuts, &films).unwrap().pieces;
        let zones = [zone("stiff braid", "braid-nylon", 150.0), zone("facing", "cotton + interfacing", 60.0)];
        let setup = Setup { cloth: "silk".into(), ..Setup::default() };
        let inputs = Inputs {
            motifs: &motifs,
            hem: &hem,
            setting: &setting,
            pieces: &pieces,
            films: &films,
            zones: &zones,
            setup: &setup,
        };
        let places = plan(inputs).unwrap().0.places;
        report(&format!("{count} motifs, {rows} rows, 2 zones: {places} places"), || {
            black_box(plan(inputs).unwrap());
        });
    }
}

fn report(what: &str, run: impl Fn()) {
    println!("{what:<50} {:>10.3} ms", median(RUNS, run));
}

const RED: Colour = Colour { red: 200, green: 30, blue: 30 };

fn flower(across: f64, points: u32) -> Motif {
    let ring = (0..points).map(|k| {
        let angle = TAU * f64::from(k) / f64::from(points);
        Point::ZERO + across / 2.0 * (0.9 + 0.1 * (5.0 * angle).cos()) * Vec2::from_angle(angle)
    });
    let outlines = vec![Outline::new(Ring::new(ring).unwrap(), vec![])];
    Motif {
        name: "flower".into(),
        layers: vec![Layer { colour: RED, outlines }],
        width: mm(across),
        height: mm(across),
    }
}

fn band(row: u32, count: u32) -> BandWish {
    BandWish {
        name: format!("band {row}"),
        height: mm(75.0 + 90.0 * f64::from(row)),
        level: Level::Middle,
        motifs: vec!["flower".into()],
        spacing: Spacing::Count(count),
        on_cf: Anchor::Motif,
        stance: Stance::SquareToHem,
        rhythm: Rhythm::default(),
        keep_out: vec![],
        covered: vec![],
        hands: Hands::AsDrawn,
    }
}

fn film() -> Film {
    Film {
        key: "red".into(),
        class: "smooth".into(),
        colour_name: String::new(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(3.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

fn zone(name: &str, material: &str, depth: f64) -> Zone {
    Zone {
        name: name.into(),
        material: material.into(),
        along: None,
        heights: (mm(0.0), mm(depth)),
        state: ZoneState::InPlace,
        lies: Lies::Beneath,
    }
}
