//! Counts the work done by all threads, tells the caller how far it is, and passes on the wish to stop.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

use crate::nest::Progress;

/// One search as seen from outside.
pub(in crate::nest) struct Watch<'p> {
    progress: &'p dyn Progress,
    total: u64,
    done: AtomicU64,
    stopped: AtomicBool,
    best: Mutex<String>,
}

impl<'p> Watch<'p> {
    /// A search of about so many moves in all.
    pub(in crate::nest) fn new(progress: &'p dyn Progress, total: u64) -> Self {
        progress.begins();
        // She may have asked to stop before, over another film.
        let stopped = AtomicBool::new(!progress.step(0, total, ""));
        Self { progress, total, done: AtomicU64::new(0), stopped, best: Mutex::default() }
    }

    /// Counts moves made; false once the search is to end with the best so far.
    pub(in crate::nest) fn spent(&self, moves: u64) -> bool {
        let done = self.done.fetch_add(moves, Ordering::Relaxed) + moves;
        if self.stopped() {
            return false;
        }
        // What a thread that panicked was about to say is of no use.
        let best = self.best.lock().map(|best| best.clone()).unwrap_or_default();
        let on = self.progress.step(done.min(self.total), self.total, &best);
        if !on {
            self.stopped.store(true, Ordering::Relaxed);
        }
        on
    }

    /// The best layout so far, in words.
    pub(in crate::nest) fn tell(&self, words: String) {
        if let Ok(mut best) = self.best.lock() {
            *best = words;
        }
    }

    /// Whether the search was told to stop.
    pub(in crate::nest) fn stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    /// How many threads may be taken.
    pub(in crate::nest) fn threads(&self) -> usize {
        self.progress.threads().max(1)
    }
}

impl Drop for Watch<'_> {
    fn drop(&mut self) {
        self.progress.ends();
    }
}
