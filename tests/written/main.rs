//! The written folder, judged by readers that share no code with the writers.
#![allow(
    missing_docs,
    unreachable_pub,
    clippy::cast_possible_truncation,
    clippy::disallowed_methods,
    clippy::float_cmp,
    clippy::missing_panics_doc,
    clippy::must_use_candidate,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "a test crate: reads cases and runs programs, and what cannot be had fails the test"
)]

mod cut;
mod golden;
mod lists;
mod page;
mod pictures;
mod read_back;
mod workbook;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use hemwright::job;
use hemwright::nest::Silent;
use hemwright::plan::{self, Plan};
use hemwright::write::{OutFile, folder};

/// A case of tests/golden with its plan and folder, made once for all tests.
#[derive(Debug)]
pub struct Case {
    pub name: String,
    pub dir: PathBuf,
    pub plan: Plan,
    pub files: Vec<OutFile>,
}

impl Case {
    pub fn text(&self, name: &str) -> &str {
        std::str::from_utf8(self.bytes(name)).unwrap()
    }

    pub fn bytes(&self, name: &str) -> &[u8] {
        let found = self.files.iter().find(|file| file.name == name);
        &found.unwrap_or_else(|| panic!("{}: no {name}", self.name)).bytes
    }

    /// Names of files in a folder with an ending.
    pub fn named(&self, start: &str, end: &str) -> Vec<&str> {
        let names = self.files.iter().map(|file| file.name.as_str());
        names.filter(|name| name.starts_with(start) && name.ends_with(end)).collect()
    }
}

/// Every folder of tests/golden; fails where there is none.
pub fn cases() -> &'static [Case] {
    static CASES: OnceLock<Vec<Case>> = OnceLock::new();
    CASES.get_or_init(|| {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden");
        let mut dirs: Vec<PathBuf> = std::fs::read_dir(root).unwrap().map(|entry| entry.unwrap().path()).collect();
        dirs.retain(|dir| dir.join("job.toml").exists());
        dirs.sort();
        assert!(!dirs.is_empty(), "no cases found");
        dirs.into_iter().map(case).collect()
    })
}

fn case(dir: PathBuf) -> Case {
    let name = dir.file_name().unwrap().to_str().unwrap().to_owned();
    let plan = plan_of(&dir);
    let files = folder(&plan);
    Case { name, dir, plan, files }
}

pub fn plan_of(dir: &Path) -> Plan {
    let text = std::fs::read_to_string(dir.join("job.toml")).unwrap();
    let job = job::read(&text).unwrap_or_else(|error| panic!("{}: {error:?}", dir.display()));
    let drawing = |file: &String| (file.clone(), std::fs::read_to_string(dir.join(file)).unwrap());
    let pieces = job.hem.drawn().map(|drawn| &drawn.file);
    let drawings: BTreeMap<String, String> =
        job.motifs.iter().map(|motif| &motif.file).chain(pieces).map(drawing).collect();
    plan::make(&job, &drawings, &Silent).unwrap_or_else(|error| panic!("{}: {error}", dir.display()))
}

/// Runs a program that may be missing: `None`, and a visible line, where it is.
pub fn run(test: &str, program: &str, arguments: &[&str]) -> Option<String> {
    match Command::new(program).args(arguments).output() {
        Ok(output) => {
            let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
            assert!(output.status.success(), "{program} failed: {err}");
            Some(format!("{out}\n{err}"))
        }
        Err(_) => {
            eprintln!("skipped {test}: {program} is not on this machine");
            None
        }
    }
}
