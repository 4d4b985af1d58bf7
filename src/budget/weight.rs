//! Weight: film on the hem, cloth pieces, trims.

use super::{Part, Work};
use crate::film::Travels;
use crate::geometry::overlay;

pub(super) fn parts(work: &Work<'_>) -> Vec<Part> {
    let mut parts: Vec<Part> = work.films.iter().filter_map(|film| of_film(work, film)).collect();
    parts.extend(work.trims.iter().map(|trim| Part {
        what: format!("{} ({})", trim.name, trim.kind),
        grams: trim.grams,
        working: match trim.grams {
            Some(_) if trim.garments.count() > 1 => {
                format!("{} x {} at the weight given", trim.garments.count(), trim.length)
            }
            Some(_) => format!("{} at the weight given", trim.length),
            None => "its weight is not known: give weight, grams a metre for a trim, a square metre for cloth".into(),
        },
    }));
    parts
}

/// What is cut from one film and stays on the hem; carrier, waste, spares and tests do not.
fn of_film(work: &Work<'_>, film: &crate::film::Film) -> Option<Part> {
    let kinds: Vec<_> = work.pieces.kinds.iter().filter(|kind| kind.film == film.key).collect();
    let first = kinds.first()?;
    let area: f64 =
        kinds.iter().map(|kind| overlay::area(kind.cut.outlines()) * f64::from(kind.needed)).sum::<f64>() / 1.0e6;
    Some(match first.method.travels() {
        Travels::OnCarrier => {
            let weight = work.rates.film_weight(&film.class);
            Part {
                what: format!("film {}", film.key),
                grams: Some(area * weight),
                working: format!("{area:.4} m² x {weight} g"),
            }
        }
        Travels::Singly => Part {
            what: format!("cloth {}", film.key),
            grams: None,
            working: format!("{area:.4} m²; the weight of this cloth is not known"),
        },
    })
}
