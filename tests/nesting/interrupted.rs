//! A search told to stop: whenever that is, what it hands back is sound, whole and said to be cut short.

use std::sync::atomic::{AtomicU64, Ordering};

use hemwright::nest::{self, Effort, Ended, Progress, Turning, verify};

use super::brute;
use super::tasks::{item, lay, rectangle, regular, sheet, sheets, task};

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
