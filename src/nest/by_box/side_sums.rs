//! Which lengths sides of boxes add up to.
//!
//! Whatever lies somewhere can be pushed up and to the left until it rests on others or on the edge. So no layout need end,
//! across or down, but where sides of boxes add up, and what is between the greatest such sum and the edge stays empty (J. C.
//! Herz, "Recursive computational procedure for two-dimensional stock cutting", 1972).

/// Sums looked at; beyond, every length counts as one.
const MOST_SUMS: usize = 500;

/// Sums nearer than this, in millimetres, are the same, and a length that much too short still counts: boxes may stand over by
/// a hair, and steps as good as level are taken for level.
const SLACK: f64 = 1e-3;

/// All sums up to some length, shortest first; `None` where every length counts as one.
#[derive(Clone, Debug)]
pub(in crate::nest) struct SideSums(Option<Vec<f64>>);

impl SideSums {
    /// Every sum of one side of each of some boxes, given as the sides one may be used by and how many of them there are.
    pub(in crate::nest) fn up_to(most: f64, boxes: &[(Vec<f64>, u32)]) -> Self {
        if !most.is_finite() {
            return Self(None);
        }
        let mut sums = vec![0.0];
        for (sides, count) in boxes {
            for _ in 0..*count {
                let before = sums.len();
                let longer = sides.iter().flat_map(|side| sums.iter().map(move |sum| sum + side));
                let mut longer: Vec<f64> = longer.filter(|sum| *sum <= most + SLACK).collect();
                sums.append(&mut longer);
                sums.sort_by(f64::total_cmp);
                sums.dedup_by(|later, earlier| *later - *earlier < SLACK / 100.0);
                if sums.len() > MOST_SUMS {
                    return Self(None);
                }
                // One more of this box adds nothing, so none after it does.
                if sums.len() == before {
                    break;
                }
            }
        }
        Self(Some(sums))
    }

    /// The least sum that is no shorter than a length.
    pub(in crate::nest) fn at_least(&self, length: f64) -> f64 {
        let Some(sums) = &self.0 else { return length };
        let before = sums.partition_point(|sum| *sum < length - SLACK);
        sums.get(before).map_or(length, |sum| sum.max(length))
    }

    /// The greatest sum that is no longer than a length.
    pub(super) fn at_most(&self, length: f64) -> f64 {
        let Some(sums) = &self.0 else { return length };
        let beyond = sums.partition_point(|sum| *sum <= length + SLACK);
        beyond.checked_sub(1).map_or(0.0, |last| sums[last].min(length))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: two of 64 and one that is 44 or 10: 0, 10, 44, 64, 74, 108, 128, 138 and 172.
    #[test]
    fn every_side_counts_as_often_as_there_are_boxes() {
        let sums = SideSums::up_to(300.0, &[(vec![64.0], 2), (vec![44.0, 10.0], 1)]);
        for (length, sum) in [(9.0, 0.0), (10.0, 10.0), (107.9, 74.0), (140.0, 138.0), (171.9, 138.0), (299.0, 172.0)] {
            assert!((sums.at_most(length) - sum).abs() < 1e-9, "{length}");
        }
        for (length, sum) in [(9.0, 10.0), (10.0, 10.0), (65.0, 74.0), (171.0, 172.0)] {
            assert!((sums.at_least(length) - sum).abs() < 1e-9, "{length}");
        }
        // A hair short still counts, and is never told longer or shorter than it is; beyond the last there is nothing to tell.
        for length in [63.9995, 64.0005] {
            assert!(
                (sums.at_most(length).max(64.0) - 64.0).abs() < 1e-12
                    && (sums.at_least(length) - length.max(64.0)).abs() < 1e-12
            );
        }
        assert!((sums.at_least(200.0) - 200.0).abs() < 1e-12);
    }

    #[test]
    fn where_there_are_too_many_every_length_counts() {
        let odd: Vec<(Vec<f64>, u32)> = (1..20).map(|k| (vec![10.0 + f64::from(k).sqrt()], 1)).collect();
        let sums = SideSums::up_to(300.0, &odd);
        assert!((sums.at_most(123.456) - 123.456).abs() < 1e-12);
    }
}
