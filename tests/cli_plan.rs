//! The program on good input: what it writes, what it says, and when it replaces an older plan.

#![allow(clippy::disallowed_methods, reason = "tests read and write files")]

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use tempfile::TempDir;

/// A leaf with one lobe, so that mirroring shows.
const LEAF: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">
<path fill="#2e7d32" d="M20 0L30 20L20 40L10 20Z"/><path fill="#c62828" d="M24 20l8 -4v8z"/></svg>"##;

fn desk() -> TempDir {
    let desk = tempfile::tempdir().unwrap();
    fs::write(desk.path().join("leaf.svg"), LEAF).unwrap();
    desk
}

const FLAGS: [&str; 11] =
    ["plan", "--motif", "leaf.svg", "--width", "40mm", "--hem", "1200mm", "--gap", "60mm", "--out", "plan"];

fn hemwright(desk: &TempDir, args: &[&str]) -> assert_cmd::assert::Assert {
    Command::cargo_bin("hemwright").unwrap().args(args).current_dir(desk.path()).assert()
}

/// Every file of a folder with its contents, in order of name.
fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_owned()];
    while let Some(next) = open.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
                found.push((name, fs::read(&path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn a_job_from_flags_is_planned_and_every_assumption_said() {
    let desk = desk();
    let run = hemwright(&desk, &FLAGS).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    for word in [
        "1200.0 mm",
        "repeat ",
        "the press closes",
        "Taken for granted",
        "flare of the hem",
        "hem.measured.sweep",
        "lower edge of the tallest 20.0 mm above the hem",
        "spare motifs of leaf",
        "film of the colour #2e7d32",
        "plate of the press",
        "Written to plan. Open plan/read-me-first.html first.",
    ] {
        assert!(says.contains(word), "\"{word}\" is not in: {says}");
    }
    assert!(says.lines().all(|line| line.chars().count() <= 120), "{says}");
    assert!(!says.contains('\u{1b}'), "colour codes where no terminal is");
    let names: Vec<String> = contents(&desk.path().join("plan")).into_iter().map(|(name, _)| name).collect();
    for name in ["read-me-first.html", "plan.json", "chalk-list.csv", "contents.txt"] {
        assert!(names.iter().any(|n| n == name), "{name} is not in {names:?}");
    }
    assert!(names.iter().any(|name| name.starts_with("cut/")), "{names:?}");
}

#[test]
fn the_same_job_gives_the_same_bytes_and_replaces_its_older_plan() {
    let desk = desk();
    hemwright(&desk, &FLAGS).success();
    let first = contents(&desk.path().join("plan"));
    hemwright(&desk, &FLAGS).success();
    assert!(first == contents(&desk.path().join("plan")), "the second plan differs from the first");
    let mut other = FLAGS;
    other[8] = "90mm";
    hemwright(&desk, &other).success();
    assert!(first != contents(&desk.path().join("plan")), "the older plan was not replaced");
    let mut names: Vec<_> = fs::read_dir(desk.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["leaf.svg", "plan"], "something was left beside the plan");
}

#[test]
fn a_plan_she_has_written_into_is_left_alone() {
    let desk = desk();
    hemwright(&desk, &FLAGS).success();
    let chalk = desk.path().join("plan/chalk-list.csv");
    let mut ticked = fs::read_to_string(&chalk).unwrap();
    ticked.push_str("done up to L3\n");
    fs::write(&chalk, &ticked).unwrap();
    let run = hemwright(&desk, &FLAGS).code(1);
    let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(says.starts_with("error: plan/chalk-list.csv was changed since it was planned"), "{says}");
    assert_eq!(fs::read_to_string(&chalk).unwrap(), ticked);

    fs::remove_dir_all(desk.path().join("plan")).unwrap();
    hemwright(&desk, &FLAGS).success();
    fs::write(desk.path().join("plan/cut/from-my-friend.svg"), "hers").unwrap();
    let run = hemwright(&desk, &FLAGS).code(1);
    let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(says.starts_with("error: plan holds cut/from-my-friend.svg, which no plan wrote"), "{says}");
}

#[test]
fn art_is_looked_for_beside_the_job_file_and_the_folder_named_after_it() {
    let desk = desk();
    let sub = desk.path().join("summer");
    fs::create_dir(&sub).unwrap();
    fs::rename(desk.path().join("leaf.svg"), sub.join("leaf.svg")).unwrap();
    let job = "[hem.straight]\nlength = \"600 mm\"\n[[band]]\ncount = 4\n[motif.leaf]\nart = \"leaf.svg\"\n";
    fs::write(sub.join("cloth.toml"), job).unwrap();
    hemwright(&desk, &["plan", "summer/cloth.toml"]).success();
    assert!(desk.path().join("cloth-plan/plan.json").is_file());
}

#[test]
fn the_schema_of_the_job_file_is_printed() {
    let run = hemwright(&desk(), &["plan", "--job-schema"]).success();
    let schema: serde_json::Value = serde_json::from_slice(&run.get_output().stdout).unwrap();
    assert!(schema["properties"]["motif"].is_object(), "{schema:#}");
}

#[test]
fn counts_are_shown_side_by_side_and_one_is_marked() {
    let desk = desk();
    let run =
        hemwright(&desk, &["counts", "--motif", "leaf.svg", "--width", "40mm", "--hem", "1200mm", "--gap", "60mm"]);
    let says = String::from_utf8(run.success().get_output().stdout.clone()).unwrap();
    assert_eq!(says.matches('>').count(), 1, "{says}");
    assert!(says.contains("tightest") && says.contains("sheets"), "{says}");
}

#[test]
fn completions_and_the_manual_know_every_command() {
    let desk = desk();
    for args in [&["completions", "bash"][..], &["completions", "fish"][..], &["manual"][..]] {
        let run = hemwright(&desk, args).success();
        let text = String::from_utf8(run.get_output().stdout.clone()).unwrap();
        for command in ["plan", "counts"] {
            assert!(text.contains(command), "{command} is not in {args:?}");
        }
    }
}

#[test]
fn help_shows_examples() {
    for command in ["plan", "counts"] {
        let run = hemwright(&desk(), &[command, "--help"]).success();
        let help = String::from_utf8(run.get_output().stdout.clone()).unwrap();
        assert!(help.contains("Examples:"), "{help}");
    }
}
