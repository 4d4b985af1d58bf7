//! Blocks of like rows, and how often a box goes into a length.

/// What adding up many lengths may lose, in millimetres.
pub(super) const ROUNDING: f64 = 1e-7;

/// A box one way round, gaps on its far sides included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Size {
    pub(super) width: f64,
    pub(super) height: f64,
}

/// Like rows of boxes all the same way round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Block {
    pub(super) way: usize,
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) columns: u32,
    pub(super) rows: u32,
}

/// How often a length goes into another.
pub(super) fn times(length: f64, each: f64) -> u32 {
    let times = ((length + ROUNDING) / each).floor();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count, not below nothing")]
    let times = times.clamp(0.0, f64::from(u32::MAX)) as u32;
    times
}
