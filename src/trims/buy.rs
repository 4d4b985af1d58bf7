//! What is bought for a trim, rounded up as shops sell it.

use crate::quantity::Mm;

/// What a purchase is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Goods {
    /// The trim itself: braid, lace, binding.
    Trim,
    /// Cloth that strips are cut from.
    Cloth,
    /// Cord for piping.
    Cord,
}

/// A line of the shopping list.
#[derive(Clone, Debug, PartialEq)]
pub struct Buy {
    /// What it is.
    pub goods: Goods,
    /// Length needed.
    pub needed: Mm,
    /// Length to ask for: rounded up to a tenth of a metre.
    pub bought: Mm,
    /// Price of a metre.
    pub price_per_metre: Option<f64>,
    /// Price of it, where a metre has one.
    pub cost: Option<f64>,
}

/// Shops cut to the tenth of a metre, in millimetres.
const SOLD_BY: f64 = 100.0;

impl Buy {
    /// A length rounded up to what shops sell, with its price.
    #[must_use]
    pub fn by_length(goods: Goods, needed: Mm, price_per_metre: Option<f64>) -> Self {
        // A tenth already whole must not be rounded up to the next one by floating-point noise.
        let bought = Mm::new((needed.get() / SOLD_BY - 1e-9).ceil().max(0.0) * SOLD_BY);
        let cost = price_per_metre.map(|price| price * bought.get() / 1000.0);
        Self { goods, needed, bought, price_per_metre, cost }
    }

    /// The same purchase where another length is needed.
    #[must_use]
    pub fn needing(&self, needed: Mm) -> Self {
        Self::by_length(self.goods, needed, self.price_per_metre)
    }

    /// `5.3 m`
    #[must_use]
    pub fn metres(&self) -> String {
        format!("{:.1} m", self.bought.get() / 1000.0)
    }
}
