//! How long setting out takes, true clear gaps included: `cargo bench --bench setting_out`.
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
use hemwright::geometry::{Outline, Point, Ring};
use hemwright::hem::{Ends, Hem, HemWish, Measurements, PanelPart, shape};
use hemwright::place::{Anchor, BandWish, Hands, Level, Rhythm, Spacing, Stance, counts, set_out};
use hemwright::quantity::mm;
use median::median;

const RUNS: usize = 11;

fn main() {
    let motifs = BTreeMap::from([("flower".to_owned(), flower(60.0, 200))]);
    for count in [200_u32, 2_000, 10_000] {
        // The hem grows with the count, so that every row has the same repeat.
        let side = f64::from(count) * 90.0 / TAU;
        let oval = hem(Measurements::Ellipse { front_back: mm(side * 1.1), side_side: mm(side) });
        let round = hem(Measurements::Circle { fraction: 1.0, waist: mm(700.0), length: mm(side) });
        for (name, hem) in [("oval", &oval), ("round", &round)] {
            let wish = band(Spacing::Count(count));
            report(&format!("{count} placements, {name} hem"), || {
                black_box(set_out(hem, &motifs, std::slice::from_ref(&wish)).unwrap());
            });
        }
    }
    let gores = Measurements::Gores {
        panels: 12,
        top: mm(80.0),
        hem: mm(420.0),
        side: mm(900.0),
        on_middle: PanelPart::Middle,
        keep_clear: Some(mm(12.0)),
    };
    let gored = hem(gores);
    report("counts card of a 12-panel skirt", || {
        black_box(counts(&gored, &motifs, &[band(Spacing::AtLeast(mm(25.0)))], 0).unwrap());
    });
}

fn report(what: &str, run: impl Fn()) {
    println!("{what:<40} {:>9.3} ms", median(RUNS, run));
}

fn hem(measurements: Measurements) -> Hem {
    shape(&HemWish { measurements, ends: Ends::Closed, seams: vec![], hung: vec![] }).unwrap()
}

fn band(spacing: Spacing) -> BandWish {
    BandWish {
        name: "band 1".to_owned(),
        height: mm(75.0),
        level: Level::Middle,
        motifs: vec!["flower".to_owned()],
        spacing,
        on_cf: Anchor::Best,
        stance: Stance::SquareToHem,
        rhythm: Rhythm::default(),
        keep_out: vec![],
        covered: vec![],
        hands: Hands::AsDrawn,
    }
}

/// A flower of five petals with so many corners.
fn flower(width: f64, corners: i32) -> Motif {
    let corner = |k: i32| {
        let angle = TAU * f64::from(k) / f64::from(corners);
        let radius = width * (0.4 + 0.1 * (5.0 * angle).cos());
        Point::new(radius * angle.cos(), radius * angle.sin())
    };
    let ring = Ring::new((0..corners).map(corner)).unwrap();
    let bounds = ring.bounds();
    Motif {
        name: "flower".to_owned(),
        width: mm(bounds.width()),
        height: mm(bounds.height()),
        layers: vec![Layer {
            colour: Colour { red: 0, green: 0, blue: 0 },
            outlines: vec![Outline::new(ring, vec![])],
        }],
    }
}
