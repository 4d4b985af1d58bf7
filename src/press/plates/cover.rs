//! Fewest runs of neighbours that cover a row, open or closed to a ring.
//!
//! Pure counting: no plate and no hem here, only whether a run of neighbours goes under one plate. Dynamic programming over
//! the row; a ring is cut open at every place among the first few where some best cover must have a cut. Exact, whatever the
//! shape of the question asked, for covers by runs of neighbours.

/// A run of neighbours: first index and how many; on a ring it may go past the last on to the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::press) struct Run {
    /// First index.
    pub(in crate::press) first: usize,
    /// How many.
    pub(in crate::press) count: usize,
}

/// Fewest runs covering `n` neighbours, each once; `fits(first, count)` says whether a run goes under one plate.
///
/// `most` bounds the length of a run. A single neighbour must always fit. Among covers with as few runs, the one with the
/// most even runs is taken, then the one that begins first.
pub(in crate::press) fn fewest_runs(
    n: usize,
    most: usize,
    closed: bool,
    fits: &dyn Fn(usize, usize) -> bool,
) -> Vec<Run> {
    let most = most.clamp(1, n.max(1));
    // Each question is asked once, not once for every cut; and none is kept past the longest run that fits, since every cut goes
    // through all that are kept.
    let fit: Vec<Vec<bool>> = (0..n)
        .map(|first| {
            let room = if closed { most } else { most.min(n - first) };
            let mut row: Vec<bool> = (1..=room).map(|count| count == 1 || fits(first, count)).collect();
            row.truncate(row.iter().rposition(|ok| *ok).map_or(1, |at| at + 1));
            row
        })
        .collect();
    let longest = fit.iter().map(Vec::len).max().unwrap_or(1);
    let cuts = if closed { longest.min(n) } else { 1 };
    (0..cuts)
        .filter_map(|cut| opened(n, cut, &fit))
        .min_by_key(|(cost, _)| *cost)
        .map_or_else(Vec::new, |(_, runs)| runs)
}

/// Cost of a cover: how many runs, then how uneven they are.
type Cost = (usize, usize);

/// Best cover of the row that begins at `cut`.
fn opened(n: usize, cut: usize, fit: &[Vec<bool>]) -> Option<(Cost, Vec<Run>)> {
    let mut best: Vec<Option<(Cost, usize)>> = vec![None; n + 1];
    best[0] = Some(((0, 0), 0));
    for done in 0..n {
        let Some((cost, _)) = best[done] else { continue };
        let first = (cut + done) % n;
        for (index, ok) in fit[first].iter().enumerate().take(n - done) {
            let count = index + 1;
            let reached = (cost.0 + 1, cost.1 + count * count);
            let end = &mut best[done + count];
            if *ok && end.is_none_or(|(known, _)| reached < known) {
                *end = Some((reached, count));
            }
        }
    }
    let (cost, _) = best[n]?;
    let mut runs = Vec::new();
    let mut end = n;
    while end > 0 {
        let (_, count) = best[end]?;
        end -= count;
        runs.push(Run { first: (cut + end) % n, count });
    }
    runs.reverse();
    Some((cost, runs))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn counts(runs: &[Run]) -> Vec<usize> {
        runs.iter().map(|run| run.count).collect()
    }

    /// Thirty under a plate that takes two: fifteen (worked by hand).
    #[test]
    fn a_ring_of_thirty_by_twos_takes_fifteen() {
        assert_eq!(fewest_runs(30, 10, true, &|_, count| count <= 2).len(), 15);
        assert_eq!(fewest_runs(31, 10, true, &|_, count| count <= 2).len(), 16);
    }

    #[test]
    fn runs_are_as_even_as_they_can_be() {
        assert_eq!(counts(&fewest_runs(8, 8, false, &|_, count| count <= 3)), [2, 3, 3]);
    }

    #[test]
    fn a_ring_is_cut_where_it_pays() {
        // Only the pair that goes over the join fits, so a cover cut at the start would need one more.
        let fits = |first, count| (first, count) == (3, 2);
        let runs = fewest_runs(4, 4, true, &fits);
        assert_eq!(runs.len(), 3);
        assert!(runs.contains(&Run { first: 3, count: 2 }));
        assert_eq!(fewest_runs(4, 4, false, &fits).len(), 4);
    }

    #[test]
    fn nothing_needs_no_run() {
        assert!(fewest_runs(0, 4, true, &|_, _| true).is_empty());
    }

    /// Every way to mark the beginnings of runs, by brute force.
    fn fewest_by_trial(n: usize, closed: bool, fits: &dyn Fn(usize, usize) -> bool) -> usize {
        (1_u32..1 << n)
            .filter(|marks| closed || marks & 1 == 1)
            .filter(|marks| {
                let begins: Vec<usize> = (0..n).filter(|k| marks >> k & 1 == 1).collect();
                begins.iter().enumerate().all(|(k, first)| {
                    let next = begins.get(k + 1).copied().unwrap_or(if closed { begins[0] + n } else { n });
                    next - first == 1 || fits(*first, next - first)
                })
            })
            .map(|marks| marks.count_ones() as usize)
            .min()
            .unwrap()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]
        #[test]
        fn no_cover_by_runs_is_smaller(n in 1_usize..9, closed: bool, table in prop::collection::vec(any::<bool>(), 81)) {
            let fits = |first: usize, count: usize| table[first * 9 + count];
            let found = fewest_runs(n, n, closed, &fits);
            prop_assert_eq!(found.len(), fewest_by_trial(n, closed, &fits));
            let mut covered: Vec<usize> = found.iter().flat_map(|r| (0..r.count).map(move |k| (r.first + k) % n)).collect();
            covered.sort_unstable();
            prop_assert_eq!(covered, (0..n).collect::<Vec<_>>());
        }
    }
}
