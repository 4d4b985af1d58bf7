//! What boxes laid from a start end in: level steps, side by side.

use crate::nest::shape::kind::EXACT;

/// A level step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Step {
    pub(super) x: f64,
    pub(super) width: f64,
    pub(super) y: f64,
}

/// The steps from the left to the right edge; neighbours are never as high.
#[derive(Clone, Debug)]
pub(super) struct Skyline(Vec<Step>);

impl Skyline {
    /// Nothing laid yet.
    pub(super) fn level(width: f64) -> Self {
        Self(vec![Step { x: 0.0, width, y: 0.0 }])
    }

    pub(super) fn steps(&self) -> &[Step] {
        &self.0
    }

    /// The lowest step, the leftmost where several are as low.
    pub(super) fn lowest(&self) -> (usize, Step) {
        let lower = |low: usize, at: usize| if self.0[at].y < self.0[low].y - EXACT { at } else { low };
        let lowest = (1..self.0.len()).fold(0, lower);
        (lowest, self.0[lowest])
    }

    /// How high the lower of a step's neighbours is, or `end` where that is lower still.
    pub(super) fn lower_neighbour(&self, at: usize, end: f64) -> f64 {
        let height = |at: usize| self.0.get(at).map_or(end, |step| step.y);
        let before = at.checked_sub(1).map_or(end, height);
        before.min(height(at + 1)).min(end)
    }

    /// The skyline with a part of one step raised, and steps as high as their neighbours joined with them.
    pub(super) fn raised(&self, at: usize, raised: Step) -> Self {
        let step = self.0[at];
        let before = Step { width: raised.x - step.x, ..step };
        let end = raised.x + raised.width;
        let after = Step { x: end, width: step.x + step.width - end, ..step };
        let parts = [before, raised, after].into_iter().filter(|part| part.width > EXACT);
        let mut made: Vec<Step> = Vec::with_capacity(self.0.len() + 2);
        for step in self.0[..at].iter().copied().chain(parts).chain(self.0[at + 1..].iter().copied()) {
            match made.last_mut().filter(|last| (last.y - step.y).abs() <= EXACT) {
                Some(last) => last.width = step.x + step.width - last.x,
                None => made.push(step),
            }
        }
        Self(made)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 3 x 2 in the left corner of a level of 7, 4 x 2 beside it, and all of it is level again.
    #[test]
    fn steps_as_high_as_their_neighbours_are_one() {
        let one = Skyline::level(7.0).raised(0, Step { x: 0.0, width: 3.0, y: 2.0 });
        assert_eq!(one.lowest(), (1, Step { x: 3.0, width: 4.0, y: 0.0 }));
        assert!((one.lower_neighbour(1, 9.0) - 2.0).abs() < 1e-12 && one.lower_neighbour(0, 9.0).abs() < 1e-12);
        let both = one.raised(1, Step { x: 3.0, width: 4.0, y: 2.0 });
        assert_eq!(both.steps(), [Step { x: 0.0, width: 7.0, y: 2.0 }]);
    }
}
