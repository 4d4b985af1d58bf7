//! The README's promises: its job first, exactly two set-up commands, and every command in it does what it says.

#![allow(clippy::disallowed_methods, reason = "tests read and write files")]

use assert_cmd::Command;

const README: &str = include_str!("../README.md");

/// The shell blocks of the README, each a list of command lines.
fn shell_blocks() -> Vec<Vec<&'static str>> {
    let mut blocks = Vec::new();
    let mut open: Option<Vec<&str>> = None;
    for line in README.lines() {
        match (&mut open, line) {
            (None, "```sh") => open = Some(Vec::new()),
            (Some(_), "```") => blocks.extend(open.take()),
            (Some(lines), line) => lines.push(line),
            (None, _) => {}
        }
    }
    blocks
}

#[test]
fn the_first_two_blocks_run_the_demo_and_pass_the_tests() {
    let blocks = shell_blocks();
    assert_eq!(blocks[0].len(), 1, "one command runs the main job");
    assert!(blocks[0][0].starts_with("cargo run --release -- plan sample-art/"));
    assert_eq!(blocks[1], ["cargo test"], "one command passes the tests");
}

/// Words of a command line, those in double quotes kept together.
fn words(line: &str) -> Vec<String> {
    let parts = line.split('"').enumerate();
    parts
        .flat_map(|(k, part)| if k % 2 == 1 { vec![part] } else { part.split_whitespace().collect() })
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_command_of_the_readme_runs_in_the_order_of_the_page() {
    let folder = tempfile::tempdir().unwrap();
    let project = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut said = Vec::new();
    for line in shell_blocks().into_iter().flatten() {
        let Some(arguments) = line.strip_prefix("cargo run --release -- ").or_else(|| line.strip_prefix("hemwright "))
        else {
            assert_eq!(line, "cargo test", "a command of the README that no test runs");
            continue;
        };
        let mut command = Command::cargo_bin("hemwright").unwrap();
        for word in words(arguments) {
            if word.starts_with("sample-art/") {
                command.arg(project.join(word))
            } else {
                command.arg(word)
            };
        }
        let output = command.current_dir(folder.path()).assert().success().get_output().stdout.clone();
        said.push((arguments, String::from_utf8(output).unwrap()));
    }
    let of = |start: &str| &said.iter().find(|(line, _)| line.starts_with(start)).unwrap().1;
    // What the page says of its own example: 46 on a line of 4682.4 mm, 41.8 mm apart; 45 across the right side seam.
    let counts = of("counts");
    assert!(counts.contains("46 is the most") && counts.contains("line of 4682.4 mm: 41.8 mm"), "{counts}");
    let row_of_45 = counts.lines().find(|line| line.trim_start().starts_with("45 ")).unwrap();
    // The last column wraps, so that the seam's name may stand on the next line.
    assert!(row_of_45.contains("R11 -4.0 mm from") && counts.contains("right side seam"), "{counts}");
    assert!(of("recut").contains("2 pieces"), "{}", of("recut"));
}

#[test]
fn every_picture_and_page_the_readme_names_is_there() {
    let project = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let targets = README.split("](").skip(1).filter_map(|rest| rest.split(')').next());
    let ours: Vec<&str> = targets.filter(|target| !target.contains("://")).collect();
    assert!(ours.len() >= 4, "{ours:?}");
    for target in ours {
        assert!(project.join(target).is_file(), "{target}");
    }
}
