//! What else the hem needs: braid, facing, lace, pleats, ruffles, binding and piping, in lengths, strips and cloth.
//!
//! In: the length and sweep of the hem ([`Edge`]) and what the maker wishes of each trim. Out: a [`TrimNeed`] for each,
//! with the sum that gave it, for all garments that are made. Method: a trim of depth w whose lower edge lies at height h has a lower edge as long as the
//! line at h and an upper edge as long as the line at h + w; on a flared hem the upper is shorter by sweep x w (Steiner's
//! formula for parallel curves), and that is what must be drawn up, eased or cut to shape.
//!
//! Knows no films and no sheets, and of the press only the zone that a trim becomes; ranges and usual values are figures of `data/trims.toml`.
//!
//! Limits: an uneven hem (oval, drawn) is taken at its average curve for shaped facings; straight strips are cut across the
//! cloth from selvedge to selvedge.

mod binding;
mod braid;
mod buy;
mod edge;
mod error;
mod facing;
mod garments;
mod gathered;
mod lace;
mod need;
mod needs;
mod piping;
mod pleats;
mod strips;
mod window;
mod wish;

pub use buy::{Buy, Goods};
pub use edge::{DrawUp, Edge};
pub use error::TrimError;
pub use need::{Labour, PleatCount, TrimNeed};
pub use needs::needs;
pub use strips::{Grain, StripCloth, Strips};
pub use window::{Window, hidden_motifs, windows};
pub use wish::{
    Binding, Braid, DrawThread, Facing, FacingCut, Kind, Lace, Piping, PleatStyle, Pleats, Ruffle, Side, TrimWish,
};
