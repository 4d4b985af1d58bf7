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

#[test]
fn every_command_of_the_readme_runs() {
    let folder = tempfile::tempdir().unwrap();
    let mut run = 0;
    for line in shell_blocks().into_iter().flatten() {
        let Some(arguments) = line.strip_prefix("cargo run --release -- ") else {
            assert_eq!(line, "cargo test", "a command of the README that no test runs");
            continue;
        };
        let mut command = Command::cargo_bin("hemwright").unwrap();
        for argument in arguments.split_whitespace() {
            let project = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
            if argument.starts_with("sample-art/") {
                command.arg(project.join(argument));
            } else {
                command.arg(argument);
            }
        }
        command.current_dir(folder.path()).assert().success();
        run += 1;
    }
    assert!(run >= 2, "the README shows at least the demo and a job from flags");
}
