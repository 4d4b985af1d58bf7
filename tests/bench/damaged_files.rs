//! Damaged drawings and job files by the ten thousand: `cargo bench --bench damaged_files -- 100000`.
//!
//! Prints how many of each were read and refused, the longest case, and the memory in use after every tenth of the cases;
//! stops with a fault and the case's number when a reader panics. The same numbers are the same cases on every machine.
//!
//! Every drawing is read on a thread of its own, and the allocator keeps what such threads gave back: the memory in use
//! rises while the hardest cases so far come up, and a leak would show as a rise that goes on by the same step. So the
//! same cases are run a second time: whatever grows then is not the reach of a harder case.
#![allow(
    missing_docs,
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench reads the clock and prints"
)]

#[path = "../damage/mod.rs"]
mod damage;

use std::panic;
use std::time::{Duration, Instant};

use hemwright::art::{self, ArtError, MotifWish, Working};
use hemwright::job::{self, Look};

fn main() {
    let count = std::env::args().skip(1).find_map(|word| word.parse().ok()).unwrap_or(2_000);
    // The reader turns a panic into an error; its message would only be noise here.
    panic::set_hook(Box::new(|_| {}));
    let drawings = damage::drawings();
    let kinds = [Working::Film, Working::RawEdge, Working::TurnedEdge];
    run("drawings inspected", count, |number| {
        let svg = damage::damaged(&drawings, number);
        let wish = MotifWish { name: "odd".into(), file: "odd.svg".into(), width: None };
        match art::inspect(&svg, &wish, &kinds[usize::try_from(number % 3).unwrap()].into()) {
            Ok(_) => Verdict::Read,
            Err(ArtError::ReaderFailed { .. }) => Verdict::Panicked,
            Err(_) => Verdict::Refused,
        }
    });
    let jobs = damage::jobs();
    run("job files read", count, |number| {
        let text = damage::damaged(&jobs, number);
        let read =
            panic::catch_unwind(|| job::read(&text).map_err(|error| error.render("job.toml", &text, Look::Plain)));
        match read {
            Ok(Ok(_)) => Verdict::Read,
            Ok(Err(_)) => Verdict::Refused,
            Err(_) => Verdict::Panicked,
        }
    });
}

enum Verdict {
    Read,
    Refused,
    Panicked,
}

fn run(what: &str, count: u64, case: impl Fn(u64) -> Verdict) {
    let (mut read, mut refused, mut panicked) = (0_u64, 0_u64, Vec::new());
    let mut longest = (Duration::ZERO, 0);
    let mut marks = Vec::new();
    for number in 0..count {
        let start = Instant::now();
        match case(number) {
            Verdict::Read => read += 1,
            Verdict::Refused => refused += 1,
            Verdict::Panicked => panicked.push(number),
        }
        longest = longest.max((start.elapsed(), number));
        if (number + 1) % (count / 10).max(1) == 0 {
            marks.extend(resident());
        }
    }
    let before = resident();
    for number in 0..count / 5 {
        case(number);
    }
    let again = before.zip(resident());
    let again = again.map_or("not known".to_owned(), |(early, late)| format!("{:.1} MB", (late - early) / 1e6));
    let marks: Vec<String> = marks.iter().map(|bytes| format!("{:.1}", bytes / 1e6)).collect();
    println!("{what:20} {count} cases: {read} read, {refused} refused, {} panics", panicked.len());
    println!("{:20} longest {:.0} ms (case {})", "", longest.0.as_secs_f64() * 1e3, longest.1);
    println!("{:20} MB in use after every tenth: {}", "", marks.join(", "));
    println!("{:20} grown while the first fifth ran again: {again}", "");
    assert!(panicked.is_empty(), "cases that panic: {panicked:?}");
}

/// Bytes of memory in use, where the system tells.
fn resident() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = told.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse::<f64>().ok().map(|kilobytes| kilobytes * 1e3)
}
