//! A search told to stop: whenever that is, what it hands back is sound, whole and said to be cut short.

use std::sync::atomic::{AtomicU64, Ordering};

use hemwright::nest::{self, Effort, Ended, Progress, Turning, verify};

use super::brute;
use super::tasks::{item, lay, lay_at_once, rectangle, regular, roll, sheet, sheets, task};

/// Stops at the n-th step.
struct StopAt {
    step: u64,
    seen: AtomicU64,
    threads: usize,
}

impl Progress for StopAt {
    fn step(&self, _done: u64, _total: u64, _best: &str) -> bool {
        self.seen.fetch_add(1, Ordering::SeqCst) + 1 < self.step
    }

    fn threads(&self) -> usize {
        self.threads
    }
}

#[test]
fn the_best_sound_layout_until_then_is_kept() {
    let items = vec![item("disc", regular(24, 21.0), 30), item("leaf", rectangle(18.0, 47.0), 30)];
    let mut task = task(items, vec![sheet(300.0, 300.0, None)], 5.0, 4.0);
    (task.turning, task.effort) = (Turning::Half, Effort::Usual);
    // Worked by hand: rows of 6 discs are 46 apart, rows of 13 leaves 51. Five rows and three come to 383 of 290 usable, so
    // two sheets hold them in plain rows.
    for (step, threads) in [(1, 1), (10, 2), (60, 1)] {
        let progress = StopAt { step, seen: AtomicU64::new(0), threads };
        let layout = nest::lay(&task, &progress).unwrap();
        assert_eq!(verify(&task, &layout), vec![]);
        assert_eq!(brute::faults(&task, &layout), Vec::<String>::new());
        assert_eq!(layout.ended, Ended::StoppedEarly, "step {step}");
        assert!(layout.unplaced.is_empty() && sheets(&layout) <= 2, "step {step}: {} sheets", sheets(&layout));
    }
    task.effort = Effort::Quick;
    assert_eq!(lay(&task).ended, Ended::Complete);
}

/// Ended before it begins, a search hands back what boxes alone reach; run to its end it never costs more or lies longer.
#[test]
fn a_whole_run_is_never_worse() {
    let rectangles = || vec![item("long", rectangle(70.0, 20.0), 3), item("short", rectangle(40.0, 30.0), 4)];
    let mixed = || vec![item("disc", regular(12, 17.0), 9), item("leaf", rectangle(18.0, 47.0), 5)];
    let two_sizes = || vec![sheet(120.0, 150.0, Some(2.0)), sheet(210.0, 150.0, Some(3.1))];
    for (items, stock) in [
        (rectangles(), vec![roll(110.0, Some(9.0))]),
        (rectangles(), two_sizes()),
        (mixed(), vec![roll(150.0, Some(9.0))]),
        (mixed(), two_sizes()),
    ] {
        let mut task = task(items, stock, 0.0, 2.0);
        task.turning = Turning::Half;
        let (early, whole) = (lay_at_once(&task), lay(&task));
        assert_eq!((early.ended, whole.ended), (Ended::StoppedEarly, Ended::Complete));
        assert!(whole.cost.unwrap() <= early.cost.unwrap() + 1e-6, "{:?} after {:?}", whole.cost, early.cost);
        assert!(sheets(&whole) <= sheets(&early) || whole.cost.unwrap() < early.cost.unwrap() - 1e-6);
    }
}
