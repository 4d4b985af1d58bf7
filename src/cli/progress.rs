//! Shows how far a long search is, and lets her stop it.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

use hemwright::nest::Progress;
use indicatif::{ProgressBar, ProgressStyle};

/// How often she has asked to stop.
static ASKED: AtomicU32 = AtomicU32::new(0);

/// Listens for Ctrl-C: the first ends the search with the best so far, the second gives up the plan, the third ends the
/// program where it stands.
pub(crate) fn listen() {
    // Without the listener Ctrl-C ends the program at once, as it does everywhere.
    let _ = ctrlc::set_handler(|| {
        if ASKED.fetch_add(1, Ordering::SeqCst) >= 2 {
            std::process::exit(130);
        }
    });
}

/// Whether the search was told to end with the best so far.
pub(crate) fn cut_short() -> bool {
    ASKED.load(Ordering::SeqCst) > 0
}

/// Whether the plan was given up.
pub(crate) fn given_up() -> bool {
    ASKED.load(Ordering::SeqCst) > 1
}

/// What a terminal shows once she has asked to stop.
const ENDING: &str = "Ending the search with the best layout so far. Ctrl-C once more gives up the plan.";

/// A bar on the terminal; silent where standard error is none.
pub(crate) struct Bar {
    bar: Mutex<Option<ProgressBar>>,
    told: AtomicBool,
}

impl Bar {
    pub(crate) const fn new() -> Self {
        Self { bar: Mutex::new(None), told: AtomicBool::new(false) }
    }
}

impl Progress for Bar {
    fn step(&self, done: u64, total: u64, best: &str) -> bool {
        if let Ok(mut bar) = self.bar.lock() {
            let bar = bar.get_or_insert_with(|| {
                // Short enough for the best so far to be read on 80 columns.
                let style = ProgressStyle::with_template("laying pieces {bar:20} {percent:>3} %  {msg}");
                let bar = ProgressBar::new(total);
                bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()));
                bar
            });
            bar.set_length(total);
            bar.set_position(done);
            bar.set_message(best.to_owned());
            if cut_short() && !self.told.swap(true, Ordering::SeqCst) {
                bar.println(ENDING);
            }
        }
        !cut_short()
    }

    fn threads(&self) -> usize {
        threads()
    }
}

impl Drop for Bar {
    fn drop(&mut self) {
        if let Ok(Some(bar)) = self.bar.get_mut() {
            bar.finish_and_clear();
        }
    }
}

/// A bar for the counts whose cost is searched for.
pub(crate) struct Steps {
    bar: ProgressBar,
}

impl Steps {
    pub(crate) fn new() -> Self {
        let style = ProgressStyle::with_template("trying counts {bar:30} {pos}/{len}");
        let bar = ProgressBar::new(0);
        bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()));
        Self { bar }
    }
}

impl Progress for Steps {
    fn step(&self, done: u64, total: u64, _best: &str) -> bool {
        self.bar.set_length(total);
        self.bar.set_position(done);
        !cut_short()
    }

    fn threads(&self) -> usize {
        threads()
    }
}

impl Drop for Steps {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}
