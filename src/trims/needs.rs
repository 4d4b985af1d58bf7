//! Every trim worked out, each by its kind.

use super::edge::Edge;
use super::error::TrimError;
use super::garments::for_all;
use super::need::{On, TrimNeed, above_zero};
use super::wish::{Kind, TrimWish};
use super::{binding, braid, facing, gathered, lace, piping, pleats};
use crate::place::Garments;
use crate::quantity::Mm;

/// Works out every trim for so many garments, or says what is wrong with each that cannot be.
///
/// # Errors
/// [`TrimError`] for every trim that is deeper than the hem, wider than its cloth, or measured in the wrong unit.
pub fn needs(edge: Edge, garments: Garments, wishes: &[TrimWish]) -> Result<Vec<TrimNeed>, Vec<TrimError>> {
    let mut errors = Vec::new();
    let mut found = Vec::new();
    for wish in wishes {
        match need(edge, wish) {
            Ok(need) => found.push(for_all(&need, garments)),
            Err(error) => errors.push(error),
        }
    }
    if errors.is_empty() { Ok(found) } else { Err(errors) }
}

/// What one garment needs.
fn need(edge: Edge, wish: &TrimWish) -> Result<TrimNeed, TrimError> {
    let depth = wish.kind.depth();
    above_zero(wish, "depth", depth)?;
    let (from, to) = wish.heights();
    let draw_up = edge.draw_up(from, to).ok_or_else(|| TrimError::TooDeep {
        trim: wish.name.clone(),
        upper: to,
        highest: edge.highest().unwrap_or(Mm::ZERO),
    })?;
    let on = On { edge, wish, draw_up };
    match &wish.kind {
        Kind::Braid(braid) => braid::need(&on, braid),
        Kind::Facing(facing) => facing::need(&on, facing),
        Kind::Lace(lace) => lace::need(&on, lace),
        Kind::Pleats(pleats) => pleats::need(&on, pleats),
        Kind::Ruffle(ruffle) => gathered::need(&on, ruffle),
        Kind::Binding(binding) => binding::need(&on, binding),
        Kind::Piping(piping) => piping::need(&on, piping),
    }
}
