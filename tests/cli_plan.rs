//! The program on good input: what it writes, what it says, and when it replaces an older plan.

#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests read and write files, and may fail loudly")]

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
        "lower edge of the tallest 20.0 mm",
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
fn a_folder_is_replaced_only_by_the_same_thing_again() {
    let desk = desk();
    hemwright(
        &desk,
        &["new", "job.toml", "--motif", "leaf.svg", "--width", "40mm", "--hem", "1200mm", "--gap", "60mm"],
    )
    .success();
    std::fs::copy(desk.path().join("job.toml"), desk.path().join("second.toml")).unwrap();
    hemwright(&desk, &["plan", "job.toml", "--out", "plan"]).success();
    let before = contents(&desk.path().join("plan"));
    // Another garment's job of the same name.
    std::fs::create_dir(desk.path().join("other")).unwrap();
    std::fs::copy(desk.path().join("job.toml"), desk.path().join("other/job.toml")).unwrap();
    std::fs::copy(desk.path().join("leaf.svg"), desk.path().join("other/leaf.svg")).unwrap();
    let refused: [&[&str]; 4] = [
        &["plan", "second.toml", "--out", "plan"],
        &["plan", "other/job.toml", "--out", "plan"],
        &["recut", "job.toml", "leaf", "--out", "plan"],
        &["inspect", "leaf.svg", "--out", "plan"],
    ];
    for arguments in refused {
        let run = hemwright(&desk, arguments).code(1);
        let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
        assert!(says.contains("plan holds the plan of ../job.toml; nothing was touched"), "{arguments:?}: {says}");
    }
    assert_eq!(contents(&desk.path().join("plan")), before);
    // Her own folder, though there is nothing in it yet.
    std::fs::create_dir(desk.path().join("plan/photographs")).unwrap();
    hemwright(&desk, &["plan", "job.toml", "--out", "plan"]).code(1);
    assert!(desk.path().join("plan/photographs").is_dir());
    // A second recut takes a folder of its own.
    hemwright(&desk, &["recut", "job.toml", "leaf"]).success();
    hemwright(&desk, &["recut", "job.toml", "leaf=2"]).success();
    assert!(desk.path().join("job-recut").is_dir() && desk.path().join("job-recut-2").is_dir());
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

/// Six gores whose seams 32 motifs, evenly spread, lie across: they stand with unlike gaps, and what else could be done is told, 30 among it.
#[test]
fn counts_that_clash_come_with_remedies() {
    let desk = desk();
    let job = "[hem.gores]\npanels = 6\ntop = \"130 mm\"\nhem = \"700 mm\"\nside = \"900 mm\"\n[[band]]\nheight = \"80 mm\"\n\
               count = 32\ncf = \"motif\"\n[motif.leaf]\nart = \"leaf.svg\"\nwidth = \"90 mm\"\n";
    fs::write(desk.path().join("gores.toml"), job).unwrap();
    let run = hemwright(&desk, &["counts", "gores.toml"]).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    assert!(says.contains("What else could be done, the least change first:"), "{says}");
    assert!(
        says.contains("each stretch from seam to seam set out on its own: 17.1 mm to 39.9 mm between them"),
        "{says}"
    );
    assert!(says.contains("32, evenly spread, puts a motif 45.0 mm across panel seam"), "{says}");
    assert!(
        says.contains("the counts beside the marked one are spread evenly, with the sheets and presses of that"),
        "{says}"
    );
    assert!(
        says.contains("- take 30: 30 with 39.9 mm between them, a motif on CF, a motif on CB, every seam clear"),
        "{says}"
    );
}

/// 32 on six gores stand with unlike steps: the summary, the page and the papers tell the least and the greatest, not one figure.
#[test]
fn unlike_steps_are_told_by_the_least_and_the_greatest() {
    let desk = desk();
    let job = "[hem.gores]\npanels = 6\ntop = \"130 mm\"\nhem = \"700 mm\"\nside = \"900 mm\"\n[[band]]\nheight = \"80 mm\"\n\
               count = 32\ncf = \"motif\"\n[motif.leaf]\nart = \"leaf.svg\"\nwidth = \"90 mm\"\n[laying]\neffort = \"quick\"\n";
    fs::write(desk.path().join("gores.toml"), job).unwrap();
    let run = hemwright(&desk, &["plan", "gores.toml", "--out", "plan"]).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    // Within a panel of five or six, worked by hand: (649.33 - 24 - 90 n) / (n - 1) + 90.
    assert!(says.contains("107.1 mm to ") && says.contains("from middle to middle"), "{says}");
    let greatest = says.split("107.1 mm to ").nth(1).unwrap().split(" mm").next().unwrap().to_owned();
    let page = fs::read_to_string(desk.path().join("plan/read-me-first.html")).unwrap();
    assert_eq!(
        page.matches(&format!("107.1 to {greatest} mm")).count(),
        3,
        "its five numbers, the band, the picture laid flat"
    );
}

#[test]
fn a_pocket_is_kept_out_of_without_a_job_file() {
    let desk = desk();
    let flags = ["counts", "--motif", "leaf.svg", "--width", "40mm", "--straight", "1m", "--gap", "20mm"];
    let with = |more: &[&str]| hemwright(&desk, &[&flags[..], more].concat());
    let says = with(&["--keep-out", "100mm to 350mm", "--open"]).success();
    let says = String::from_utf8(says.get_output().stdout.clone()).unwrap();
    assert!(says.contains("place 1 to keep out of stays clear; the nearest motif's edge is"), "{says}");
    let refused = with(&["--keep-out", "100mm-350mm"]).failure();
    let said = String::from_utf8_lossy(&refused.get_output().stderr).into_owned();
    assert!(said.contains("write from where to where along the hem"), "{said}");
}

/// Two sleeves: each has its own chalk list, and what is as drawn on the one's left is mirrored on the other's right.
#[test]
fn a_pair_has_papers_for_each_hand() {
    let desk = desk();
    let job = "[garment]\nmake = \"pair\"\n[hem.straight]\nlength = \"400 mm\"\n[hem.opening]\nat = \"100 mm\"\n[[band]]\n\
               gap = \"30 mm\"\nhands = \"mirrored right\"\n[motif.leaf]\nart = \"leaf.svg\"\n[laying]\neffort = \"quick\"\n";
    fs::write(desk.path().join("sleeves.toml"), job).unwrap();
    hemwright(&desk, &["plan", "sleeves.toml", "--out", "plan"]).success();
    let files = contents(&desk.path().join("plan"));
    let text = |name: &str| {
        let (_, bytes) = files.iter().find(|(file, _)| file == name).unwrap_or_else(|| panic!("no {name}"));
        String::from_utf8_lossy(bytes).into_owned()
    };
    let marks = |list: &str, mark: &str| {
        let line = text(list).lines().find(|line| line.starts_with(&format!("band 1,{mark},"))).map(str::to_owned);
        let line = line.unwrap_or_else(|| panic!("{mark} is not on {list}"));
        let cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        // Hand, and the distances along the hem to the left and to the right.
        (cells[3].clone(), cells[6].clone(), cells[8].clone())
    };
    let (hand, to_left, to_right) = marks("chalk-list.csv", "L1");
    let (other, other_left, other_right) = marks("chalk-list-right.csv", "R1");
    assert_eq!((hand.as_str(), other.as_str()), ("as drawn", "mirrored"));
    assert_eq!((to_left, to_right), (other_right, other_left));
    assert_eq!(marks("chalk-list.csv", "opening").1, "100.0");
    assert_eq!(marks("chalk-list-right.csv", "opening").2, "100.0");
    for picture in ["as-worn", "straightened"] {
        assert!(files.iter().any(|(name, _)| *name == format!("pictures/hem-{picture}-right.png")), "{picture}");
    }
    let page = text("read-me-first.html");
    assert!(page.contains("band 1, left-hand one") && page.contains("band 1, right-hand one"));
    let json: serde_json::Value = serde_json::from_str(&text("plan.json")).unwrap();
    assert_eq!(json["right"]["bands"][0]["count"], json["bands"][0]["count"]);
    assert!(json["bands"][0]["checks"]["folds"].is_array() && json["bands"][0]["chalk"][0]["line"].is_object());
}

/// Names of the svg files under `cut/`, with their width and height in mm.
fn cut_files(folder: &Path) -> Vec<(String, f64, f64)> {
    let svg = |(name, _): &(String, Vec<u8>)| name.starts_with("cut/") && name.ends_with(".svg");
    let size = |text: &str, key: &str| {
        let at = text.find(&format!(" {key}=\"")).unwrap() + key.len() + 3;
        text[at..].split("mm\"").next().unwrap().parse().unwrap()
    };
    let read = |(name, bytes): (String, Vec<u8>)| {
        let text = String::from_utf8(bytes).unwrap();
        (name, size(&text, "width"), size(&text, "height"))
    };
    contents(folder).into_iter().filter(svg).map(read).collect()
}

#[test]
fn a_new_job_file_plans_at_once_and_is_never_overwritten() {
    let desk = desk();
    let new = ["new", "job.toml", "--motif", "leaf.svg", "--width", "4 cm", "--hem", "1.2 m", "--gap", "60mm"];
    let run = hemwright(&desk, &new).success();
    assert!(String::from_utf8_lossy(&run.get_output().stdout).contains("hemwright plan job.toml"));
    let written = fs::read_to_string(desk.path().join("job.toml")).unwrap();
    assert!(written.contains("# ") && written.contains("width = \"4 cm\""), "{written}");
    hemwright(&desk, &["plan", "job.toml", "--out", "from-file"]).success();
    hemwright(&desk, &FLAGS).success();
    // The list of files says which job the folder belongs to, so that one never replaces the other.
    let all_but_the_list = |folder: &str| {
        let files = contents(&desk.path().join(folder)).into_iter();
        files.filter(|(name, _)| name != "contents.txt").collect::<Vec<_>>()
    };
    assert!(all_but_the_list("plan") == all_but_the_list("from-file"), "not the same job");
    let run = hemwright(&desk, &new).code(1);
    assert!(String::from_utf8_lossy(&run.get_output().stderr).starts_with("error: job.toml is already there"));
    assert_eq!(fs::read_to_string(desk.path().join("job.toml")).unwrap(), written);
    let run = hemwright(&desk, &["new", "other.toml", "--motif", "leaf.svg"]).code(2);
    assert!(String::from_utf8_lossy(&run.get_output().stderr).contains("--gap LENGTH"), "asked where none can answer");
    hemwright(&desk, &["new", "other.toml", "--motif", "lost.svg", "--hem", "1 m", "--count", "3"]).code(1);
    assert!(!desk.path().join("other.toml").exists());
}

#[test]
fn spoiled_pieces_are_cut_again_from_no_more_film_than_they_need() {
    let desk = desk();
    fs::write(
        desk.path().join("job.toml"),
        "[hem.straight]\nlength = \"600 mm\"\n[[band]]\ncount = 4\n[motif.leaf]\nart = \"leaf.svg\"\nwidth = \"40 mm\"\n",
    )
    .unwrap();
    hemwright(&desk, &["recut", "job.toml", "leaf-red-3", "leaf-green=2"]).success();
    let cut = cut_files(&desk.path().join("job-recut"));
    assert_eq!(cut.len(), 2, "{cut:?}");
    for (name, width, height) in &cut {
        assert!(*width <= 300.0 && *height < 200.0, "{name} takes {width} x {height}");
    }
    // One red lobe is 14.5 x 14.5 mm; a margin of 5 mm on every edge.
    let red = cut.iter().find(|(name, ..)| name.contains("red")).unwrap();
    assert!(red.1 <= 26.0 && red.2 <= 26.0, "{red:?}");

    let args = ["recut", "job.toml", "leaf-green-1", "--on", "green=90x60mm", "--out", "from-offcut"];
    let run = hemwright(&desk, &args).success();
    assert!(String::from_utf8_lossy(&run.get_output().stdout).contains("green: 1 piece on off-cut"));
    assert!((cut_files(&desk.path().join("from-offcut"))[0].1 - 90.0).abs() < 1e-9);

    // Two margins of 5 mm leave 5 mm for a lobe of 14.5 mm; what does not fit comes from a new sheet, which is said.
    let args = ["recut", "job.toml", "leaf-red", "--on", "red=15x90mm", "--on", "red=30x30mm", "--on", "red=60x60mm"];
    let run = hemwright(&desk, &[&args[..], &["--out", "small-offcuts"]].concat()).success();
    let says = String::from_utf8_lossy(&run.get_output().stdout).into_owned();
    for words in ["nothing fits on the off-cut of 15 x 90 mm: leaf-red, the smallest piece, needs 2", "is not needed"] {
        assert!(says.contains(words), "\"{words}\" is not in: {says}");
    }

    let run = hemwright(&desk, &["recut", "job.toml", "leaf", "--out", "whole"]).success();
    assert_eq!(String::from_utf8_lossy(&run.get_output().stdout).matches("1 piece on").count(), 2);
}

#[test]
fn what_cannot_be_cut_again_is_refused() {
    let desk = desk();
    fs::write(
        desk.path().join("job.toml"),
        "[hem.straight]\nlength = \"600 mm\"\n[[band]]\ncount = 4\n[motif.leaf]\nart = \"leaf.svg\"\n",
    )
    .unwrap();
    for (args, code, word) in [
        (&["recut", "job.toml", "rose-red"][..], 1, "error: there is no piece \"rose-red\" in this job"),
        (&["recut", "job.toml", "leaf-red-999"][..], 1, "error: there is no piece \"leaf-red-999\" in this job"),
        (
            &["recut", "job.toml", "leaf-red", "--on", "green=9x9cm"][..],
            1,
            "none of these pieces is cut from film \"green\"",
        ),
        (&["recut", "job.toml"][..], 2, "<PIECE>"),
        (&["recut", "job.toml", "leaf-red=0"][..], 2, "from 1 to 1000"),
        (&["recut", "job.toml", "leaf-red", "--on", "9"][..], 2, "is not a width and a height"),
    ] {
        let run = hemwright(&desk, args).code(code);
        let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
        assert!(says.contains(word), "{args:?}: {says}");
    }
    assert!(!desk.path().join("job-recut").exists());
}

#[test]
fn the_tables_are_listed_with_source_and_confidence() {
    let desk = desk();
    let run = hemwright(&desk, &["materials"]).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    for word in
        ["silk-dupion", "braid-nylon", "glitter", "hand-230", "by the edition of 2012", "at most 110 C", "handbook"]
    {
        assert!(says.contains(word), "\"{word}\" is not in: {says}");
    }
    let run = hemwright(&desk, &["materials", "Silk"]).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    assert!(says.contains("too hot") && !says.contains("glitter"), "{says}");
    let run = hemwright(&desk, &["materials", "sikl"]).code(1);
    let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(says.contains("error: nothing in the tables has \"sikl\" in its name"), "{says}");
}

#[test]
fn completions_and_the_manual_know_every_command() {
    let desk = desk();
    for args in [&["completions", "bash"][..], &["completions", "fish"][..], &["manual"][..]] {
        let run = hemwright(&desk, args).success();
        let text = String::from_utf8(run.get_output().stdout.clone()).unwrap();
        for command in ["plan", "inspect", "counts", "recut", "new", "materials"] {
            assert!(text.contains(command), "{command} is not in {args:?}");
        }
    }
}

#[test]
fn help_shows_examples() {
    for command in ["plan", "inspect", "counts", "recut", "new", "materials"] {
        let run = hemwright(&desk(), &[command, "--help"]).success();
        let help = String::from_utf8(run.get_output().stdout.clone()).unwrap();
        assert!(help.contains("Examples:"), "{help}");
    }
}

/// A star of eight needle points: something to look at, nothing that stops.
const STAR: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">
<path id="star" fill="#c62828" d="M30 0L33 30L60 33L30 36L27 60L24 36L0 33L27 30Z"/></svg>"##;

#[test]
fn a_drawing_is_inspected_in_words_and_on_a_numbered_picture() {
    let desk = desk();
    fs::write(desk.path().join("star.svg"), STAR).unwrap();
    let args = ["inspect", "star.svg", "--width", "50mm", "--out", "star"];
    let run = hemwright(&desk, &args).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    for word in ["50.0 mm wide", "#c62828", "look at this", "star", "Written to star"] {
        assert!(says.contains(word), "\"{word}\" is not in: {says}");
    }
    let folder = desk.path().join("star");
    let names: Vec<String> =
        fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    for end in [".png", ".svg", ".json"] {
        assert!(names.iter().any(|name| name.ends_with(end)), "no {end} in {names:?}");
    }
    fs::write(folder.join("mine.txt"), "hers").unwrap();
    hemwright(&desk, &args).code(1);
    assert_eq!(fs::read_to_string(folder.join("mine.txt")).unwrap(), "hers");
}

#[test]
fn what_stops_the_job_in_a_drawing_ends_the_inspection_with_one() {
    let desk = desk();
    let open = r##"<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60">
        <path fill="none" stroke="none" d="M0 0"/><path fill="#c62828" d="M0 0H60V60H0Z"/>
        <text x="5" y="20" fill="#c62828">hello</text></svg>"##;
    fs::write(desk.path().join("text.svg"), open).unwrap();
    let run = hemwright(&desk, &["inspect", "text.svg"]);
    let output = run.get_output();
    let (says, code) = (String::from_utf8_lossy(&output.stdout).into_owned(), output.status.code());
    assert!(says.contains("stops the job") == (code == Some(1)), "{code:?}: {says}");
    assert!(says.contains("ext"), "text is not reported: {says}");
    hemwright(&desk, &["inspect", "lost.svg"]).code(1);
    hemwright(&desk, &["inspect", "leaf.svg", "--film", "gliter"]).code(1);
    hemwright(&desk, &["inspect", "leaf.svg", "--working", "glue"]).code(2);
}

/// The demo job from drawn pieces: planned as it stands, its seams and panels named; refused when the drawing was scaled.
#[test]
fn a_hem_drawn_in_a_file_beside_the_job_is_planned() {
    let desk = tempfile::tempdir().unwrap();
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-art");
    for file in ["harvest-pieces.svg", "meadow-flower.svg"] {
        fs::copy(sample.join(file), desk.path().join(file)).unwrap();
    }
    // Fewer motifs are planned sooner.
    let job =
        fs::read_to_string(sample.join("harvest-pieces.toml")).unwrap().replace("gap = \"95 mm\"", "gap = \"700 mm\"");
    fs::write(desk.path().join("harvest-pieces.toml"), &job).unwrap();
    hemwright(&desk, &["plan", "harvest-pieces.toml", "--out", "plan"]).success();
    let chalk = fs::read_to_string(desk.path().join("plan/chalk-list.csv")).unwrap();
    assert!(chalk.contains("front to left-side seam") && chalk.contains("right-side to front seam"), "{chalk}");
    let map = fs::read_to_string(desk.path().join("plan/plan.json")).unwrap();
    assert!(map.contains("kink-at-seam"), "kinks at the seams are told");
    hemwright(&desk, &["counts", "harvest-pieces.toml"]).success();
    let refusal = |job: &str| {
        fs::write(desk.path().join("other.toml"), job).unwrap();
        let run = hemwright(&desk, &["plan", "other.toml", "--out", "other"]).failure();
        String::from_utf8(run.get_output().stderr.clone()).unwrap()
    };
    let mistyped = refusal(&job.replace("\"side-hem\"", "\"side-hm\""));
    assert!(mistyped.contains("harvest-pieces.svg has no line with the id \"side-hm\""), "{mistyped}");
    assert!(mistyped.contains("did you mean \"side-hem\"?"), "{mistyped}");
    // A further size has a drawing of its own with the same ids.
    let sized = job.clone() + "\n[size.large]\nfile = \"large.svg\"\n";
    assert!(refusal(&sized).contains("large.svg"), "its drawing is missing");
    fs::copy(sample.join("harvest-pieces.svg"), desk.path().join("large.svg")).unwrap();
    hemwright(&desk, &["plan", "other.toml", "--out", "other"]).success();
    let pieces = fs::read_to_string(sample.join("harvest-pieces.svg")).unwrap();
    fs::write(desk.path().join("harvest-pieces.svg"), pieces.replace("3400mm", "2550mm").replace("1250mm", "937.5mm"))
        .unwrap();
    let run = hemwright(&desk, &["counts", "harvest-pieces.toml"]).failure();
    let says = String::from_utf8(run.get_output().stderr.clone()).unwrap();
    assert!(says.contains("\"test-square-side\" is 75.0 mm long in the drawing and should be 100.0 mm"), "{says}");
    assert!(says.contains("save it full size"), "{says}");
}

/// What is said of a table of the job file is said with its line: a film that nothing is cut from, a motif in no band, a size whose
/// seams come to lie elsewhere.
#[test]
fn notices_about_the_job_file_name_its_lines() {
    let desk = desk();
    let job = "[hem]\nseams = [\"300 mm\"]\n[hem.straight]\nlength = \"1200 mm\"\n[[band]]\nmotifs = \"leaf\"\ncount = 20\n\
               [motif.leaf]\nart = \"leaf.svg\"\nwidth = \"40 mm\"\n[motif.other]\nart = \"leaf.svg\"\nwidth = \"30 mm\"\n[film.gold]\n\
               [size.small]\nlength = \"820 mm\"\n";
    fs::write(desk.path().join("job.toml"), job).unwrap();
    let run = hemwright(&desk, &["plan", "job.toml"]).success();
    let says = String::from_utf8(run.get_output().stdout.clone()).unwrap();
    let says = says.split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "Nothing is cut from [film.gold] (line 14 of the job file): no motif names it",
        "[motif.other] (line 11 of the job file) stands in no band: nothing of it is cut, no spare or test motif either.",
        "in size small (line 15 of the job file): ",
    ] {
        assert!(says.contains(wanted), "{wanted}: {says}");
    }
}
