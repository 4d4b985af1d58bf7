//! The median time of several runs, which one slow run does not move.

use std::time::{Duration, Instant};

/// Milliseconds of the middle one of so many runs.
pub(crate) fn median(runs: usize, run: impl Fn()) -> f64 {
    let timed = |_| {
        let start = Instant::now();
        run();
        start.elapsed()
    };
    let mut times: Vec<Duration> = (0..runs).map(timed).collect();
    times.sort();
    times[runs / 2].as_secs_f64() * 1000.0
}
