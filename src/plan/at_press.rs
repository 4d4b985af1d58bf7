//! How often the press closes and for how long, for all garments of a job: one figure, wherever it is told.

use crate::press::PressPlan;
use crate::quantity::Seconds;

/// Closings and time at the press of each garment; of a pair the left-hand one's first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AtPress {
    each: Vec<(usize, Seconds)>,
}

impl AtPress {
    /// Of these garments.
    #[must_use]
    pub fn of(plans: &[&PressPlan]) -> Self {
        Self { each: plans.iter().map(|plan| (plan.closures.len(), plan.total)).collect() }
    }

    /// Closings for all garments.
    #[must_use]
    pub fn closures(&self) -> usize {
        self.each.iter().map(|(closures, _)| closures).sum()
    }

    /// Time for all garments.
    #[must_use]
    pub fn total(&self) -> Seconds {
        self.each.iter().map(|(_, seconds)| *seconds).sum()
    }

    /// Of a pair how that parts between the two: `18 for each`, `18 and 19`.
    #[must_use]
    pub fn closures_of_each(&self) -> Option<String> {
        self.parted(|(closures, _)| closures.to_string())
    }

    /// Of a pair how that parts between the two: `38.6 min for each`, `38.6 min and 40.1 min`.
    #[must_use]
    pub fn time_of_each(&self) -> Option<String> {
        self.parted(|(_, seconds)| seconds.to_string())
    }

    fn parted(&self, words: impl Fn(&(usize, Seconds)) -> String) -> Option<String> {
        let [left, right] = self.each.as_slice() else { return None };
        let (left, right) = (words(left), words(right));
        Some(if left == right { format!("{left} for each") } else { format!("{left} and {right}") })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_pair_the_sum_stands_beside_its_parts() {
        let of = |each: &[(usize, f64)]| AtPress { each: each.iter().map(|(n, s)| (*n, Seconds::new(*s))).collect() };
        let one = of(&[(18, 2316.0)]);
        assert_eq!((one.closures(), one.total(), one.closures_of_each()), (18, Seconds::new(2316.0), None));
        let pair = of(&[(18, 2316.0), (18, 2316.0)]);
        assert_eq!((pair.closures(), pair.total()), (36, Seconds::new(4632.0)));
        assert_eq!(pair.closures_of_each().unwrap(), "18 for each");
        assert_eq!(pair.time_of_each().unwrap(), "38.6 min for each");
        assert_eq!(of(&[(18, 1.0), (19, 1.0)]).closures_of_each().unwrap(), "18 and 19");
    }
}
