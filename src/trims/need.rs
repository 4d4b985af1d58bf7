//! What a trim needs, and what every kind of trim works it out from.

use super::buy::Buy;
use super::edge::{DrawUp, Edge};
use super::error::TrimError;
use super::strips::Strips;
use super::wish::TrimWish;
use crate::place::Garments;
use crate::quantity::Mm;

/// What one trim needs.
#[derive(Clone, Debug, PartialEq)]
pub struct TrimNeed {
    /// How many garments are made. Strips, purchases, price, grams and work are for all of them, the rest for each.
    pub garments: Garments,
    /// What the maker calls it.
    pub name: String,
    /// `braid`, `knife pleats`.
    pub kind: &'static str,
    /// From which to which height above the hem it lies.
    pub heights: (Mm, Mm),
    /// Length of the trim on each garment: as bought, or of the joined strip before it is pleated or gathered.
    pub length: Mm,
    /// Strips it is joined from, where it is cut from cloth.
    pub strips: Option<Strips>,
    /// Pleats, where it is pleated.
    pub pleats: Option<PleatCount>,
    /// Length of raw edge to hem or neaten, where it is cut from cloth.
    pub edges_to_finish: Option<Mm>,
    /// Its two edges on the garment.
    pub draw_up: DrawUp,
    /// What to buy.
    pub buy: Vec<Buy>,
    /// Price of all that, where everything has one.
    pub cost: Option<f64>,
    /// What it adds to the garments in grams, where its weight is known.
    pub grams: Option<f64>,
    /// What it takes to make and sew it on, for the budget of time.
    pub labour: Vec<Labour>,
    /// The sums, one line each.
    pub working: Vec<String>,
    /// What she must know before she cuts or sews it, a plain sentence each.
    pub warnings: Vec<String>,
}

/// So much of one kind of work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Labour {
    /// Key of its rate in `data/work.toml`.
    pub rate: &'static str,
    /// Metres, or pieces, as the rate counts.
    pub amount: f64,
}

impl Labour {
    /// Work that goes by the metre.
    pub(super) const fn metres(rate: &'static str, length: Mm) -> Self {
        Self { rate, amount: length.get() / 1000.0 }
    }

    /// The joins of strips.
    pub(super) fn joins(strips: Strips) -> Self {
        Self { rate: "join-strip", amount: f64::from(strips.joins) }
    }
}

/// Pleats of one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PleatCount {
    /// Whole pleats in a row; in the lowest row where rows differ.
    pub count: u32,
    /// Their visible width, so that whole pleats come out.
    pub visible: Mm,
    /// Length of strip for a length of line.
    pub fullness: f64,
    /// Rows.
    pub rows: u32,
}

/// A wish on its edge, as each kind works from it.
pub(super) struct On<'a> {
    pub(super) edge: Edge,
    pub(super) wish: &'a TrimWish,
    pub(super) draw_up: DrawUp,
}

impl On<'_> {
    /// A need with everything that is the same for all kinds.
    pub(super) fn need(&self, length: Mm) -> TrimNeed {
        TrimNeed {
            garments: Garments::One,
            name: self.wish.name.clone(),
            kind: self.wish.kind.word(),
            heights: self.wish.heights(),
            length,
            strips: None,
            pleats: None,
            edges_to_finish: None,
            draw_up: self.draw_up,
            buy: vec![],
            cost: None,
            grams: None,
            labour: vec![],
            working: vec![],
            warnings: vec![],
        }
    }

    /// A purchase of the trim itself, or of cloth, at the price given for it.
    pub(super) fn buy(&self, goods: super::Goods, needed: Mm) -> Buy {
        Buy::by_length(goods, needed, self.wish.price)
    }

    /// Grams of a trim bought by length.
    pub(super) fn grams_by_length(&self, length: Mm) -> Option<f64> {
        self.wish.weight.map(|grams_a_metre| grams_a_metre * length.get() / 1000.0)
    }

    /// Grams of cloth.
    pub(super) fn grams_by_area(&self, length: Mm, width: Mm) -> Option<f64> {
        self.wish.weight.map(|grams_a_square_metre| grams_a_square_metre * (length.get() * width.get()) / 1.0e6)
    }
}

impl TrimNeed {
    /// With what one garment needs to be bought.
    pub(super) fn bought(self, buy: Vec<Buy>) -> Self {
        Self { buy, ..self }
    }
}

/// Refuses a measurement of zero or less.
pub(super) fn above_zero(wish: &TrimWish, what: &'static str, length: Mm) -> Result<(), TrimError> {
    if length > Mm::ZERO {
        return Ok(());
    }
    Err(TrimError::TooSmall { trim: wish.name.clone(), what, found: length.to_string(), least: "0 mm" })
}

/// Refuses a fullness that would be shorter than the line.
pub(super) fn at_least_one(wish: &TrimWish, what: &'static str, fullness: f64) -> Result<(), TrimError> {
    if fullness >= 1.0 && fullness.is_finite() {
        return Ok(());
    }
    Err(TrimError::TooSmall { trim: wish.name.clone(), what, found: fullness.to_string(), least: "0.99" })
}
