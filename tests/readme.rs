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
    assert!(row_of_45.contains("R11 4.0 mm over") && counts.contains("right side seam"), "{counts}");
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

/// The tables of the job file in docs/formats.md: the heading of the section, and the types of the schema that it describes.
const SECTIONS: [(&str, &[&str]); 14] = [
    ("### `[garment]`", &["GarmentKeys"]),
    (
        "### `[hem]`",
        &[
            "HemKeys",
            "CircleKeys",
            "OvalKeys",
            "TrainKeys",
            "EllipseKeys",
            "GoresKeys",
            "ClothKeys",
            "RectangleKeys",
            "PolygonKeys",
            "MeasuredKeys",
            "StraightKeys",
            "GodetKeys",
        ],
    ),
    ("#### `[hem.drawn]`", &["DrawnKeys", "PanelKeys", "OpeningKeys"]),
    ("### `[size.NAME]`", &["SizeKeys"]),
    ("### `[[band]]`", &["BandKeys"]),
    ("### `[motif.NAME]`", &["MotifKeys", "ColourTable", "PrepareKeys", "LimitKeys"]),
    ("### `[film.NAME]`", &["FilmKeys", "SheetKeys"]),
    ("### `[[zone]]`", &["ZoneKeys"]),
    ("### `[[keep_out]]`", &["KeepOutKeys"]),
    ("### `[[trim]]`", &["TrimKeys"]),
    ("### `[press]`", &["PressKeys", "TestedKeys"]),
    ("### `[rates]`", &["RateKeys"]),
    ("### `[papers]`", &["PapersKeys", "LayingKeys"]),
    ("## The folder", &[]),
];

/// The text of each section, up to the next.
fn sections() -> Vec<(String, &'static [&'static str])> {
    let page = std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/formats.md"))
        .expect("docs/formats.md can be read");
    let starts: Vec<usize> = SECTIONS
        .iter()
        .map(|(heading, _)| page.find(&format!("\n{heading}")).unwrap_or_else(|| panic!("no section {heading}")))
        .collect();
    assert!(starts.is_sorted(), "the sections stand in another order");
    starts.windows(2).zip(SECTIONS).map(|(at, (_, types))| (page[at[0]..at[1]].to_owned(), types)).collect()
}

/// Keys that the job file takes in tables of these types.
fn keys(types: &[&str]) -> Vec<String> {
    let schema = hemwright::job::schema();
    let of = |name: &&str| {
        let properties = schema["$defs"][*name]["properties"].as_object();
        properties.unwrap_or_else(|| panic!("no type {name}")).keys().cloned().collect::<Vec<_>>()
    };
    types.iter().flat_map(of).collect()
}

#[test]
fn every_key_that_the_job_file_takes_is_in_the_formats() {
    for (text, types) in sections() {
        for key in keys(types) {
            let ways = [format!("`{key}`"), format!("{key} = "), format!(".{key}]"), format!(".{key}.NAME]")];
            assert!(ways.iter().any(|way| text.contains(way)), "\"{key}\" of {types:?} is not in its section");
        }
    }
    // Nor is a table or a type forgotten in the list above.
    let schema = hemwright::job::schema();
    let listed: Vec<&str> = SECTIONS.iter().flat_map(|(_, types)| types.iter().copied()).collect();
    let types = schema["$defs"].as_object().expect("types");
    let all = types.iter().filter(|(_, of)| of["properties"].is_object()).map(|(name, _)| name);
    assert!(all.clone().all(|name| listed.contains(&name.as_str())), "{:?}", all.collect::<Vec<_>>());
    let page = sections().into_iter().map(|(text, _)| text).collect::<String>();
    for table in schema["properties"].as_object().expect("tables").keys() {
        let ways = [format!("`[{table}]`"), format!("`[{table}.NAME]`"), format!("`[[{table}]]`")];
        assert!(ways.iter().any(|way| page.contains(way)), "the table {table} is nowhere");
    }
}

#[test]
fn every_key_in_the_formats_is_one_that_the_job_file_takes() {
    for (text, types) in sections() {
        let mut known = keys(types);
        if types.contains(&"HemKeys") {
            // The table of shapes names those of drawn pieces, which have a section of their own.
            known.extend(keys(&["DrawnKeys"]));
        }
        for row in text.lines().filter(|line| line.starts_with("| ")) {
            let cells: Vec<&str> = row.split(" | ").collect();
            let first = cells[0].trim_start_matches("| ");
            // Shapes of hem stand in the first column, their keys in the second.
            let named =
                if first.contains('[') || !first.contains('`') { cells.get(1).copied().unwrap_or("") } else { first };
            for key in named
                .split('`')
                .skip(1)
                .step_by(2)
                .filter(|key| key.chars().all(|c| c.is_ascii_lowercase() || c == '_'))
            {
                assert!(known.iter().any(|own| own == key), "\"{key}\" is no key of {types:?}: {row}");
            }
        }
    }
}
