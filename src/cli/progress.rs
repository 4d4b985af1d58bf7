//! Shows how far a long search is, and lets her stop it.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::Duration;

use hemwright::nest::Progress;
use indicatif::{ProgressBar, ProgressStyle};

use super::say;
use super::trouble::Trouble;

/// How often she has asked to stop, and how many searches are running.
static ASKED: AtomicU32 = AtomicU32::new(0);
static SEARCHES: AtomicU32 = AtomicU32::new(0);

/// Whether files are being written; held while the program ends, so that no file is begun then.
static WRITING: Mutex<bool> = Mutex::new(false);

/// What one more Ctrl-C does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Answer {
    /// The search ends with the best so far, or what is under way is finished and then given up.
    Soon,
    /// Nothing is written yet, and nothing waits to be asked: the program ends.
    AtOnce,
    /// She insists: the program ends where it stands.
    Insisted,
    /// She insists while files are written: the program ends as soon as what was begun is taken away.
    OnceTidied,
}

/// How long a folder that was begun may take to be taken away once she insists. A disk that has not answered by then may
/// never do so; the hidden folder beside the place then stays.
const TIDYING: Duration = Duration::from_secs(3);

/// `asked` counts the times before.
const fn answer(asked: u32, searching: bool, writing: bool) -> Answer {
    match (asked, searching || writing) {
        (2.., _) if writing => Answer::OnceTidied,
        (2.., _) => Answer::Insisted,
        (_, true) => Answer::Soon,
        (_, false) => Answer::AtOnce,
    }
}

/// Listens for Ctrl-C: during a search the first ends it with the best so far, the second gives up the plan, the third ends
/// the program where it stands, though files begun are taken away first. Where no search is running the first stops at once.
pub(crate) fn listen() {
    // Without the listener Ctrl-C ends the program at once, as it does everywhere.
    let _ = ctrlc::set_handler(|| {
        let writing = WRITING.lock();
        let searching = SEARCHES.load(Ordering::SeqCst) > 0;
        let asked = ASKED.fetch_add(1, Ordering::SeqCst);
        match answer(asked, searching, writing.as_ref().is_ok_and(|writing| **writing)) {
            Answer::Soon => {}
            Answer::AtOnce => {
                say::trouble(&Trouble::Stopped);
                std::process::exit(i32::from(Trouble::Stopped.exit_code()));
            }
            Answer::Insisted => std::process::exit(130),
            Answer::OnceTidied => {
                // The writer has been told to give up, takes its folder away and ends the program.
                drop(writing);
                std::thread::sleep(TIDYING);
                std::process::exit(130);
            }
        }
    });
}

/// From now on files are written.
pub(crate) fn begin_to_write() {
    if let Ok(mut writing) = WRITING.lock() {
        *writing = true;
    }
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

    fn begins(&self) {
        SEARCHES.fetch_add(1, Ordering::SeqCst);
    }

    fn ends(&self) {
        SEARCHES.fetch_sub(1, Ordering::SeqCst);
        // The bar would stand still through all that follows; the next search draws it again.
        if let Ok(mut bar) = self.bar.lock()
            && let Some(bar) = bar.take()
        {
            bar.finish_and_clear();
        }
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
        SEARCHES.fetch_add(1, Ordering::SeqCst);
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
        SEARCHES.fetch_sub(1, Ordering::SeqCst);
        self.bar.finish_and_clear();
    }
}

fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ctrl_c_is_answered_at_once_only_where_nothing_is_searched_or_written() {
        assert_eq!(answer(0, false, false), Answer::AtOnce);
        assert_eq!(answer(1, false, false), Answer::AtOnce);
        assert_eq!(answer(0, true, false), Answer::Soon);
        assert_eq!(answer(1, true, false), Answer::Soon);
        assert_eq!(answer(0, false, true), Answer::Soon);
        assert_eq!(answer(2, true, false), Answer::Insisted);
        assert_eq!(answer(2, false, true), Answer::OnceTidied);
    }
}
