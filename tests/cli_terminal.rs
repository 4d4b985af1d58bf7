//! The program on a terminal: a bar with the best so far, Ctrl-C that keeps it, a terminal left as it was.
//!
//! The terminal is a pseudo terminal made by `script` of util-linux; where that is missing the tests are skipped, with a line.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "tests read and write files, and may fail loudly"
)]

use std::fs;
use std::io::{Read as _, Write as _};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{self, Receiver};
use std::time::Duration;

use serde_json::Value;
use tempfile::TempDir;

/// A leaf that is no rectangle, so that there is something to search for.
const LEAF: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
<path fill="#2e7d32" d="M0 20C15 -5 40 -5 60 12C45 14 45 26 60 38C35 45 12 42 0 20Z"/></svg>"##;

/// More leaves than lie on one sheet, searched for as long as may be.
const JOB: &str = r#"
[hem.straight]
length = "9000 mm"
[[band]]
count = 80
motifs = ["leaf"]
[motif.leaf]
art = "leaf.svg"
film = "green"
[film.green]
sheets = [{ size = "300 x 500 mm" }]
[laying]
effort = "thorough"
"#;

fn desk() -> TempDir {
    let desk = tempfile::tempdir().unwrap();
    fs::write(desk.path().join("leaf.svg"), LEAF).unwrap();
    fs::write(desk.path().join("job.toml"), JOB).unwrap();
    desk
}

/// What stands on the desk, by name.
fn names(desk: &TempDir) -> Vec<String> {
    let entries = fs::read_dir(desk.path()).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// A program on a terminal of its own.
struct Terminal {
    program: Child,
    said: String,
    more: Receiver<String>,
}

impl Terminal {
    /// Plans the job on a terminal; `None`, said aloud, where none can be made.
    fn plan(desk: &TempDir) -> Option<Self> {
        let version = Command::new("script").arg("--version").output();
        if !version.is_ok_and(|version| String::from_utf8_lossy(&version.stdout).contains("util-linux")) {
            eprintln!("skipped what a terminal shows: there is no script of util-linux to make one");
            return None;
        }
        let line = format!("stty cols 80; exec '{}' plan job.toml --out plan", env!("CARGO_BIN_EXE_hemwright"));
        let mut program = Command::new("script")
            .args(["-qec", &line, "/dev/null"])
            .env("SHELL", "/bin/sh")
            .env("TERM", "xterm")
            .current_dir(desk.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut screen = program.stdout.take().unwrap();
        let (told, more) = mpsc::channel();
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = screen.read(&mut bytes) {
                if told.send(String::from_utf8_lossy(&bytes[..count]).into_owned()).is_err() {
                    break;
                }
            }
        });
        Some(Self { program, said: String::new(), more })
    }

    /// Waits until something stands on the screen.
    fn until(&mut self, words: &str) {
        while !self.said.contains(words) {
            match self.more.recv_timeout(Duration::from_mins(5)) {
                Ok(more) => self.said += &more,
                Err(_) => panic!("never said {words:?}: {}", self.said),
            }
        }
    }

    fn press_ctrl_c(&mut self) {
        self.program.stdin.as_mut().unwrap().write_all(&[3]).unwrap();
    }

    /// Exit code, and everything that stood on the screen.
    fn end(mut self) -> (Option<i32>, String) {
        while let Ok(more) = self.more.recv_timeout(Duration::from_mins(5)) {
            self.said += &more;
        }
        (self.program.wait().unwrap().code(), self.said)
    }
}

const ENDING: &str = "Ending the search with the best layout so far.";

/// The cursor is never hidden for good, and the bar is wiped away before anything else is said.
fn is_left_clean(said: &str) {
    let (hidden, shown) = (said.rfind("\u{1b}[?25l"), said.rfind("\u{1b}[?25h"));
    assert!(hidden.is_none() || hidden < shown, "the cursor stays hidden");
    let bar = said.rfind("laying pieces").unwrap();
    assert!(said[bar..].contains("\u{1b}[2K"), "the bar is left standing: {}", &said[bar..]);
}

#[test]
fn ctrl_c_keeps_the_best_layout_so_far_and_says_so() {
    let desk = desk();
    let Some(mut terminal) = Terminal::plan(&desk) else { return };
    terminal.until("the last used to ");
    terminal.press_ctrl_c();
    terminal.until(ENDING);
    let (code, said) = terminal.end();
    assert_eq!(code, Some(0), "{said}");
    is_left_clean(&said);
    assert!(said.contains("was ended early on green"), "{said}");
    assert_eq!(names(&desk), ["job.toml", "leaf.svg", "plan"]);
    let plan: Value = serde_json::from_str(&fs::read_to_string(desk.path().join("plan/plan.json")).unwrap()).unwrap();
    let early = |finding: &Value| finding["kind"] == "search-ended-early";
    assert!(plan["findings"].as_array().unwrap().iter().any(early));
    let laid = |sheet: &Value| {
        sheet["pieces"].as_array().unwrap().len() * usize::try_from(sheet["copies"].as_u64().unwrap()).unwrap()
    };
    let laid: usize = plan["sheets"].as_array().unwrap().iter().map(laid).sum();
    assert!(laid >= 80, "{laid} pieces are in the cut files");
}

#[test]
fn ctrl_c_once_more_gives_up_the_plan_and_leaves_nothing_behind() {
    let desk = desk();
    let Some(mut terminal) = Terminal::plan(&desk) else { return };
    terminal.until("the last used to ");
    terminal.press_ctrl_c();
    terminal.until(ENDING);
    terminal.press_ctrl_c();
    let (code, said) = terminal.end();
    assert_eq!(code, Some(1), "{said}");
    is_left_clean(&said);
    assert!(said.contains("stopped; nothing was written"), "{said}");
    assert_eq!(names(&desk), ["job.toml", "leaf.svg"]);
}

#[test]
fn no_bar_and_no_control_sequence_where_there_is_no_terminal() {
    let desk = desk();
    fs::write(desk.path().join("job.toml"), JOB.replace("thorough", "quick")).unwrap();
    let run = Command::new(env!("CARGO_BIN_EXE_hemwright"))
        .args(["plan", "job.toml", "--out", "plan"])
        .current_dir(desk.path())
        .output()
        .unwrap();
    assert!(run.status.success());
    for said in [run.stdout, run.stderr] {
        let said = String::from_utf8(said).unwrap();
        assert!(!said.contains("laying pieces") && !said.contains('\u{1b}') && !said.contains('\r'), "{said}");
    }
}
