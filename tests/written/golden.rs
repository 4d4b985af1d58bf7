//! Golden folders: what a case wrote when somebody last looked at it.
//!
//! `HEMWRIGHT_GOLDEN=write cargo test --test written golden` writes them anew; look at the difference before committing.
//! Text that people and programs read stands whole; cut files, pictures and the workbook stand as size and check figure.

use std::fmt::Write as _;

use crate::{Case, cases, plan_of};

/// FNV-1a, 64 bits (Fowler, Noll, Vo): enough to see a change.
fn figure(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

fn digests(case: &Case) -> String {
    let mut text = String::new();
    for file in &case.files {
        writeln!(text, "{:016x} {:>9} {}", figure(&file.bytes), file.bytes.len(), file.name).unwrap();
    }
    text
}

#[test]
fn every_case_writes_what_it_wrote_before() {
    let write = std::env::var("HEMWRIGHT_GOLDEN").is_ok_and(|value| value == "write");
    let mut changed = Vec::new();
    for case in cases() {
        let dir = case.dir.join("expected");
        if !write && !dir.exists() {
            eprintln!("skipped golden {}: nothing was written yet; HEMWRIGHT_GOLDEN=write does", case.name);
            continue;
        }
        let whole = ["plan.json", "chalk-list.csv"].map(|name| (name, case.text(name).to_owned()));
        for (name, text) in whole.into_iter().chain([("digests.txt", digests(case))]) {
            let path = dir.join(name);
            if write {
                std::fs::create_dir_all(&dir).unwrap();
                std::fs::write(&path, text).unwrap();
            } else if std::fs::read_to_string(&path).unwrap_or_default() != text {
                changed.push(format!("{}/{name}", case.name));
            }
        }
    }
    assert!(
        changed.is_empty(),
        "changed: {changed:?}; look, then HEMWRIGHT_GOLDEN=write cargo test --test written golden"
    );
}

#[test]
fn planning_again_on_another_thread_gives_the_same_bytes() {
    // One case is enough to see a clock, a random id or an unordered map.
    for case in &cases()[..1] {
        let dir = case.dir.clone();
        let again = std::thread::spawn(move || hemwright::write::folder(&plan_of(&dir))).join().unwrap();
        for (first, second) in case.files.iter().zip(&again) {
            assert!(first == second, "{}: {} differs", case.name, first.name);
        }
        assert_eq!(case.files.len(), again.len());
    }
}
