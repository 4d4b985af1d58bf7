//! How long inspecting a drawing takes: `cargo bench --bench inspecting`.
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

use std::f64::consts::TAU;
use std::hint::black_box;

use hemwright::art::{self, MotifWish, Working};
use hemwright::quantity::mm;
use median::median;

const RUNS: usize = 11;

fn main() {
    let sample =
        |name: &str| std::fs::read_to_string(format!("{}/sample-art/{name}.svg", env!("CARGO_MANIFEST_DIR"))).unwrap();
    for working in [Working::Film, Working::RawEdge, Working::TurnedEdge] {
        for points in [2_000_u32, 8_000, 32_000] {
            report(&format!("traced flower of {points} points, {working:?}"), &traced(points), working);
        }
        for name in ["meadow-flower", "curled-leaf", "hasty-tulip"] {
            report(&format!("{name}, {working:?}"), &sample(name), working);
        }
    }
}

fn report(what: &str, svg: &str, working: Working) {
    let wish = MotifWish { name: "flower".into(), file: "flower.svg".into(), width: Some(mm(90.0)) };
    let read = median(RUNS, || drop(black_box(art::read(svg, &wish).unwrap())));
    let inspected = median(RUNS, || drop(black_box(art::inspect(svg, &wish, &working.into()).unwrap())));
    println!("{what:50} read {read:8.2} ms   inspected {inspected:8.2} ms");
}

/// A five-petalled flower in three colours as automatic tracing gives it: short straight edges, ragged by a hair.
fn traced(points: u32) -> String {
    let ring = |count: u32, radius: f64, lobes: f64, depth: f64| {
        let mut data = String::from("M");
        for k in 0..count {
            let angle = TAU * f64::from(k) / f64::from(count);
            let ragged = 0.04 * ((f64::from(k) * 12.9898).sin() * 43_758.545_3).fract();
            let r = radius * (1.0 + depth * (lobes * angle).cos()) + ragged;
            data.push_str(&format!("{:.3} {:.3} ", 50.0 + r * angle.cos(), 50.0 + r * angle.sin()));
        }
        data + "Z"
    };
    let petals = ring(points * 6 / 10, 34.0, 5.0, 0.3);
    let inner = ring(points * 3 / 10, 20.0, 5.0, 0.2);
    let centre = ring(points / 10, 8.0, 9.0, 0.05);
    format!(
        r##"<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path fill="#b8344f" d="{petals}"/><path fill="#e58a9c" d="{inner}"/><path fill="#f2b705" d="{centre}"/></svg>"##
    )
}
