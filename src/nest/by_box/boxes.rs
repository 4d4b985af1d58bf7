//! Laying pieces by their bounding boxes: the rules there are, and each of them followed.
//!
//! This is the floor below which no layout falls, and the fallback for pieces no search can help (rectangles that fill the
//! sheet exactly).

use super::empty::Fit;
use super::free::Order;
use super::load::{Load, SAFETY};
use super::{blocks, corners, free, rows};
use crate::nest::buying::draft::Pose;

/// One way of laying boxes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::nest) enum Rule {
    /// Whole rows of one kind, in its n-th box.
    Rows(usize),
    /// Boxes in free rectangles.
    Free(Fit, Order),
    /// Boxes of one size in blocks, some upright and some on their side.
    Blocks,
    /// Few rectangles, every dead end undone.
    Corners,
}

/// All quick ways.
pub(in crate::nest) const RULES: [Rule; 14] = [
    Rule::Rows(0),
    Rule::Rows(1),
    Rule::Rows(2),
    Rule::Rows(3),
    Rule::Free(Fit::Nearest, Order::LongSide),
    Rule::Free(Fit::Nearest, Order::ShortSide),
    Rule::Free(Fit::Nearest, Order::Area),
    Rule::Free(Fit::Nearest, Order::AsGiven),
    Rule::Free(Fit::ShortSide, Order::LongSide),
    Rule::Free(Fit::ShortSide, Order::Area),
    Rule::Free(Fit::ShortSide, Order::ShortSide),
    Rule::Free(Fit::SmallestArea, Order::Area),
    Rule::Free(Fit::SmallestArea, Order::LongSide),
    Rule::Blocks,
];

/// Lays as many as fit.
pub(in crate::nest) fn fill(rule: Rule, load: &Load<'_>) -> Vec<Pose> {
    match rule {
        Rule::Rows(choice) => rows::fill(choice, load),
        Rule::Free(fit, order) => {
            let loose = free::fill(fit, order, &Load { gap: load.gap + SAFETY, ..*load });
            let exact = free::fill(fit, order, load);
            if exact.len() > loose.len() { exact } else { loose }
        }
        Rule::Blocks => blocks::fill(load),
        Rule::Corners => corners::fill(load),
    }
}
