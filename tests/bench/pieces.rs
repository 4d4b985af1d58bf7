//! How long making the pieces takes: `cargo bench --bench pieces`.
//!
//! Prints the median of several runs; no threshold is asserted, since machines differ. Aim: the pieces of 200 different
//! motifs of three layers in under a second.
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

use hemwright::art::{self, Colour, Layer, Motif, MotifWish, Working};
use hemwright::film::{CutWish, Film, LayerWish, Layering, Method, Preparing, Spares, prepare};
use hemwright::geometry::{Affine, Outline, Point, Ring};
use hemwright::nest::Turning;
use hemwright::place::{BandSetting, Hand, Lands, Placement, Setting};
use hemwright::quantity::{Radians, mm};
use median::median;

const RUNS: usize = 5;
const COLOURS: [Colour; 3] = [
    Colour { red: 200, green: 30, blue: 30 },
    Colour { red: 30, green: 120, blue: 40 },
    Colour { red: 240, green: 200, blue: 30 },
];

fn main() {
    let auto = Preparing::default();
    let knock_out = Preparing { layering: Layering::KnockOut, ..Preparing::default() };
    report("1 motif, both hands, 200 placed", 1, 200, 100, &auto);
    report("200 motifs, both hands, stacked", 200, 200, 100, &auto);
    report("200 motifs, both hands, knocked out", 200, 200, 100, &knock_out);
    report("1 traced motif of 2000 points a layer", 1, 200, 2000, &knock_out);
    from_the_drawing(250, &knock_out);
}

/// A traced flower of eight outlines, from the text of its drawing to its pieces.
fn from_the_drawing(points: u32, preparing: &Preparing) {
    let svg = drawing(&flower("traced", points, 0.3));
    let wish = MotifWish { name: "flower".into(), file: "flower.svg".into(), width: Some(mm(90.0)) };
    let films: Vec<Film> = (0..3).map(film).collect();
    let setting = setting((0..200).map(|_| "flower".to_owned()));
    time(&format!("traced flower of {} points, inspected and prepared", points * 8), || {
        let motif = art::inspect(&svg, &wish, &Working::Film.into()).unwrap().motif;
        let layers = motif.layers.iter().enumerate().map(|(k, layer)| LayerWish {
            colour: layer.colour,
            film: format!("film-{k}"),
            method: Method::Film,
        });
        let layers = layers.collect();
        let preparing = preparing.clone();
        let cut = CutWish { motif: "flower".to_owned(), layers, spares: Spares::Each(1), tests: 1, preparing };
        let motifs = BTreeMap::from([("flower".to_owned(), motif)]);
        drop(black_box(prepare(&motifs, &setting, &[cut], &films).unwrap()));
    });
}

/// A motif as automatic tracing writes it: straight edges only.
fn drawing(motif: &Motif) -> String {
    let path = |outline: &Outline| {
        let points = outline.outer().points().iter().map(|p| format!("{:.3} {:.3}", p.x + 60.0, p.y + 60.0));
        format!("M{}Z", points.collect::<Vec<_>>().join("L"))
    };
    let layer = |layer: &Layer| {
        let paths: String = layer.outlines.iter().map(|outline| format!("<path d=\"{}\"/>", path(outline))).collect();
        format!("<g fill=\"{}\">{paths}</g>", layer.colour)
    };
    let layers: String = motif.layers.iter().map(layer).collect();
    let head = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"120mm\" height=\"120mm\" viewBox=\"0 0 120 120\">";
    format!("{head}{layers}</svg>")
}

fn time(what: &str, run: impl Fn()) {
    println!("{what:<50} {:>9.1} ms", median(RUNS, run));
}

fn report(what: &str, motifs: u32, placed: u32, points: u32, preparing: &Preparing) {
    let name = |k: u32| format!("flower-{k}");
    let all: BTreeMap<String, Motif> = (0..motifs).map(|k| (name(k), flower(&name(k), points, f64::from(k)))).collect();
    let setting = setting((0..placed).map(|k| name(k % motifs)));
    let layers = COLOURS.iter().enumerate().map(|(k, colour)| LayerWish {
        colour: *colour,
        film: format!("film-{k}"),
        method: Method::Film,
    });
    let layers: Vec<LayerWish> = layers.collect();
    let cuts: Vec<CutWish> = all
        .keys()
        .map(|motif| CutWish {
            motif: motif.clone(),
            layers: layers.clone(),
            spares: Spares::Each(1),
            tests: 1,
            preparing: preparing.clone(),
        })
        .collect();
    let films: Vec<Film> = (0..3).map(film).collect();
    time(what, || drop(black_box(prepare(&all, &setting, &cuts, &films).unwrap())));
}

/// Five separate petals, two leaves to one side, a middle; all a little different from motif to motif.
fn flower(name: &str, points: u32, turn: f64) -> Motif {
    let blob = |middle: (f64, f64), along: f64, across: f64| {
        let ring = (0..points).map(|k| {
            let angle = TAU * f64::from(k) / f64::from(points);
            let wave = 1.0 + 0.04 * (7.0 * angle + turn).sin();
            Point::new(middle.0 + along * wave * angle.cos(), middle.1 + across * wave * angle.sin())
        });
        Outline::new(Ring::new(ring).unwrap(), vec![])
    };
    let petals = (0..5).map(|k| blob((24.0, 0.0), 17.0, 11.0).transformed(Affine::rotate(TAU * f64::from(k) / 5.0)));
    let leaves = vec![blob((38.0, 40.0), 14.0, 7.0), blob((-10.0, 46.0), 9.0, 5.0)];
    let layers = [leaves, petals.collect(), vec![blob((0.0, 0.0), 12.0, 12.0)]];
    let layers = COLOURS.iter().zip(layers).map(|(colour, outlines)| Layer { colour: *colour, outlines });
    Motif { name: name.to_owned(), layers: layers.collect(), width: mm(90.0), height: mm(90.0) }
}

fn film(number: u32) -> Film {
    Film {
        key: format!("film-{number}"),
        class: "smooth".to_owned(),
        colour_name: String::new(),
        stock: vec![],
        margin: mm(5.0),
        gap: mm(4.0),
        turning: Turning::Free,
        use_holes: false,
    }
}

fn setting(motifs: impl Iterator<Item = String>) -> Setting {
    let placements = motifs.enumerate().map(|(k, motif)| Placement {
        id: format!("L{k}"),
        motif,
        hand: if k % 2 == 0 { Hand::AsDrawn } else { Hand::Mirrored },
        scale: 1.0,
        s_line: mm(100.0),
        s_hem: mm(100.0),
        height: mm(50.0),
        at: Point::ZERO,
        turn: Radians::new(0.0),
    });
    let band = BandSetting {
        name: "band 1".to_owned(),
        height: mm(50.0),
        line: mm(20_000.0),
        count: 200,
        repeat: mm(100.0),
        gap_along: mm(10.0),
        clear_gap: None,
        on_cf: Lands::Motif,
        on_cb: Lands::Gap,
        placements: placements.collect(),
        in_corners: 0,
        clashes: vec![],
        reasons: vec![],
        remedies: vec![],
    };
    Setting { bands: vec![band], findings: vec![] }
}
