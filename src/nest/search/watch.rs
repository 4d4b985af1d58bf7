//! Counts the work done by all threads, tells the caller how far it is, and passes on the wish to stop.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::nest::Progress;

/// One search as seen from outside: several parts, one after another.
pub(in crate::nest) struct Watch<'p> {
    progress: &'p dyn Progress,
    /// Moves of all parts together.
    total: u64,
    stopped: AtomicBool,
    said: Mutex<Said>,
    /// Whether what it says is the best layout so far.
    tells_the_best: bool,
}

/// How far the search is.
#[derive(Default)]
struct Said {
    /// Moves of the parts that are done.
    before: u64,
    /// Moves of the part under way: those made, and about as many as it takes.
    made: u64,
    part: u64,
    words: String,
}

impl Said {
    /// Moves that count as done. A part that takes more than was thought waits at its end, and one that takes less leaps
    /// there; all of them are done only when the search has ended.
    fn done(&self, total: u64) -> u64 {
        (self.before + self.made.min(self.part)).min(total.saturating_sub(1))
    }
}

impl<'p> Watch<'p> {
    /// A search of about so many moves in all.
    pub(in crate::nest) fn new(progress: &'p dyn Progress, total: u64) -> Self {
        progress.begins();
        // She may have asked to stop before, over another film.
        let stopped = AtomicBool::new(!progress.step(0, total, ""));
        Self { progress, total, stopped, said: Mutex::default(), tells_the_best: true }
    }

    /// A search for something else than the layout, which says the same words all the time.
    pub(in crate::nest) fn of_a_trial(progress: &'p dyn Progress, total: u64, words: &str) -> Self {
        let mut watch = Self::new(progress, total);
        watch.tell(words.to_owned());
        watch.tells_the_best = false;
        watch
    }

    /// A part of about so many moves begins; the one before is done.
    pub(in crate::nest) fn begins(&self, moves: u64) {
        if let Ok(mut said) = self.said.lock() {
            said.before += said.part;
            (said.made, said.part) = (0, moves);
        }
    }

    /// Counts moves made; false once the search is to end with the best so far.
    pub(in crate::nest) fn spent(&self, moves: u64) -> bool {
        // What a thread that panicked was about to say is of no use.
        let (done, words) = self.said.lock().map_or_else(
            |_| (0, String::new()),
            |mut said| {
                said.made += moves;
                (said.done(self.total), said.words.clone())
            },
        );
        if self.stopped() {
            return false;
        }
        let on = self.progress.step(done, self.total, &words);
        if !on {
            self.stopped.store(true, Ordering::Relaxed);
        }
        on
    }

    /// The best layout so far, in words.
    pub(in crate::nest) fn tell(&self, words: String) {
        if let (true, Ok(mut said)) = (self.tells_the_best, self.said.lock()) {
            said.words = words;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Remembers everything it is told.
    #[derive(Default)]
    struct Heard(Mutex<Vec<(u64, u64, String)>>);

    impl Progress for Heard {
        fn step(&self, done: u64, total: u64, best: &str) -> bool {
            self.0.lock().unwrap().push((done, total, best.to_owned()));
            true
        }
    }

    /// Worked by hand: parts of 10, 20 and 10 moves, the first with more moves than thought, the second with fewer.
    #[test]
    fn no_part_runs_into_the_next_and_the_end_is_never_reached_before_it_is() {
        let heard = Heard::default();
        let watch = Watch::new(&heard, 40);
        for (part, made) in [(10, [4, 9]), (20, [5, 1]), (10, [2, 50])] {
            watch.begins(part);
            made.iter().for_each(|moves| assert!(watch.spent(*moves)));
        }
        let done: Vec<u64> = heard.0.lock().unwrap().iter().map(|told| told.0).collect();
        assert_eq!(done, [0, 4, 10, 15, 16, 32, 39]);
    }

    #[test]
    fn a_trial_says_its_own_words_and_not_the_best_of_what_it_tries() {
        let heard = Heard::default();
        let watch = Watch::of_a_trial(&heard, 10, "trying");
        watch.begins(10);
        watch.tell("1 sheet".to_owned());
        assert!(watch.spent(1));
        assert_eq!(heard.0.lock().unwrap().last().unwrap(), &(1, 10, "trying".to_owned()));
    }
}
