//! Every cloth with every trim under every film: one letter a cell, kept as a snapshot, and two promises checked against the
//! tables themselves: no "go" where any layer in place has a limit below the plate, and none for what is unknown.

use std::fmt::Write as _;

use hemwright::data::{LabelEdition, tables};
use hemwright::hem::{Ends, HemWish, Measurements, Middle};
use hemwright::place::Spacing;
use hemwright::press::{Outcome, ZoneState};
use hemwright::quantity::{Celsius, mm};

use crate::skirt::{Skirt, band, flower, setup};

const CLOTHS: [&str; 21] = [
    "cotton",
    "linen",
    "silk",
    "silk-dupion",
    "wool",
    "viscose",
    "lyocell",
    "acetate",
    "nylon",
    "polyester",
    "polyester-coloured",
    "acrylic",
    "modacrylic",
    "cotton + elastane",
    "cotton + polyester",
    "polypropylene",
    "coated-cloth",
    "leather",
    "velvet",
    "metallised-cloth",
    "unknown",
];

const TRIMS: [&str; 18] = [
    "none",
    "braid",
    "braid-nylon",
    "braid-polyester",
    "lace-cotton",
    "lace-nylon",
    "tulle-nylon",
    "elastic",
    "sequins",
    "set-stones",
    "metallic-braid",
    "cotton + interfacing-copolyester",
    "interfacing-eva",
    "zip-coil",
    "seam",
    "unknown",
    "thread-nylon",
    "film-pressed",
];

const FILMS: [&str; 11] = [
    "smooth",
    "smooth-low",
    "nylon-film",
    "dye-blocking",
    "stretch",
    "glitter",
    "flock",
    "metallic",
    "puff",
    "fabric-web-light",
    "unknown-film",
];

/// One for each trim.
const LETTERS: &str = "abcdefghijklmnopqr";

/// A short straight band with one flower: one closing.
fn strip(cloth: &str, film: &str) -> Skirt {
    let wish = HemWish {
        measurements: Measurements::Straight { length: mm(300.0) },
        ends: Ends::Open { keep_clear: mm(0.0), middle: Middle::CentreFront },
        seams: vec![],
        hung: vec![],
    };
    Skirt::new(&wish, flower(60.0, 1), &[band(60.0, Spacing::Count(1))], &[film], setup(cloth))
}

/// Lowest limit of everything in place, straight from the tables; `None` for what is never pressed.
fn lowest(stack: &str) -> Option<Celsius> {
    let ceilings = tables().stack(stack).into_iter().map(|m| m.ceiling(tables(), LabelEdition::Of2012));
    ceilings.collect::<Option<Vec<_>>>()?.into_iter().reduce(Celsius::min)
}

#[test]
fn no_cell_goes_where_a_layer_stands_less_than_the_plate_and_unknown_never_goes() {
    let mut table = String::from("g go, t press cloth and test, m fold away or later, S stop; columns:\n");
    for (k, trim) in TRIMS.iter().enumerate() {
        writeln!(table, "{:>17}{} {trim}", "", LETTERS.chars().nth(k).unwrap()).unwrap();
    }
    let mut cells = 0;
    for film in FILMS {
        writeln!(table, "\n{film}: {LETTERS}").unwrap();
        for cloth in CLOTHS {
            let plain = strip(cloth, film);
            let mut row = String::new();
            for trim in TRIMS {
                let skirt = match trim {
                    "none" => plain.clone(),
                    trim => plain.clone().with_zone("trim", trim, (0.0, 120.0), ZoneState::InPlace),
                };
                let (plan, risks) = skirt.plan();
                let outcome = risks.iter().map(|risk| risk.outcome).max().unwrap_or(Outcome::Go);
                let press = plan.closures[0].temperature;
                let stack = if trim == "none" { cloth.to_owned() } else { format!("{cloth} + {trim}") };
                let cell = format!("{cloth}, {trim}, {film} at {press}");
                if lowest(&stack).is_none_or(|limit| press > limit) {
                    assert!(outcome > Outcome::Go, "{cell} goes over its limit");
                }
                if stack.contains("unknown") {
                    assert!(outcome > Outcome::Go, "{cell} goes although unknown");
                }
                row.push(match outcome {
                    Outcome::Go => 'g',
                    Outcome::ClothAndTest => 't',
                    Outcome::MoveFirst => 'm',
                    Outcome::Stop => 'S',
                });
                cells += 1;
            }
            writeln!(table, "{cloth:>20}: {row}").unwrap();
        }
    }
    assert_eq!(cells, 21 * 18 * 11);
    insta::assert_snapshot!("cloth_by_trim_by_film", table);
}
