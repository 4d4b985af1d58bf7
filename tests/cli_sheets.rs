//! What the program says and writes about sheets: holes in use, pieces on no sheet, other choices, a search cut short.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::unwrap_used,
    reason = "tests read and write files, and may fail loudly"
)]

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

const RING: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200">
<path fill="#c62828" fill-rule="evenodd" d="M0 0H200V200H0ZM40 40H160V160H40Z"/></svg>"##;
const SQUARE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="50mm" viewBox="0 0 50 50">
<path fill="#c62828" d="M0 0H50V50H0Z"/></svg>"##;

/// One ring of 200 and one square of 50, all of film `red`, nothing spare; `film` stands under [film.red].
fn job(film: &str) -> String {
    let motif = |name: &str| format!("[motif.{name}]\nart = \"{name}.svg\"\nfilm = \"red\"\nspares = 0\ntests = 0\n");
    format!(
        "[hem.straight]\nlength = \"1000 mm\"\n[[band]]\ncount = 2\nmotifs = [\"ring\", \"square\"]\n{}{}[film.red]\nmargin = \"5 mm\"\ngap = \"4 mm\"\n{film}",
        motif("ring"),
        motif("square")
    )
}

fn desk(film: &str) -> TempDir {
    let desk = tempfile::tempdir().unwrap();
    fs::write(desk.path().join("ring.svg"), RING).unwrap();
    fs::write(desk.path().join("square.svg"), SQUARE).unwrap();
    fs::write(desk.path().join("job.toml"), job(film)).unwrap();
    desk
}

/// Plans the job; what was said, and plan.json.
fn planned(desk: &TempDir) -> (String, Value) {
    let mut program = Command::cargo_bin("hemwright").unwrap();
    let run = program.args(["plan", "job.toml", "--out", "plan"]).current_dir(desk.path()).assert().success();
    (String::from_utf8(run.get_output().stdout.clone()).unwrap(), read_plan(&desk.path().join("plan")))
}

fn read_plan(folder: &Path) -> Value {
    serde_json::from_str(&fs::read_to_string(folder.join("plan.json")).unwrap()).unwrap()
}

/// The words of a PDF, in one line; `None`, said aloud, where the program that reads them is missing.
fn words_of(paper: &Path) -> Option<String> {
    let Ok(read) = std::process::Command::new("pdftotext").arg(paper).arg("-").output() else {
        eprintln!("skipped what stands on paper: pdftotext is missing");
        return None;
    };
    assert!(read.status.success(), "{read:?}");
    let words = String::from_utf8(read.stdout).unwrap();
    Some(words.split_whitespace().collect::<Vec<_>>().join(" "))
}

const SMALL: &str = "sheets = [{ size = \"210 x 210 mm\", price = 3.00 }]\n";

#[test]
fn a_square_in_the_hole_of_a_ring_saves_a_sheet_where_the_film_allows_it() {
    let (_, apart) = planned(&desk(SMALL));
    assert_eq!(apart["buy"][0]["sheets"], 2);
    let inside = desk(&format!("{SMALL}use_holes = true\n"));
    let (_, plan) = planned(&inside);
    assert_eq!(plan["buy"][0]["sheets"], 1);
    let pieces = plan["sheets"][0]["pieces"].as_array().unwrap();
    assert_eq!(pieces.len(), 2);
    let used = plan["sheets"][0]["used_fraction"].as_f64().unwrap();
    // The ring of 200 round its hole of 120, and the square of 50 in it.
    let film = 200.0 * 200.0 - 120.0 * 120.0 + 50.0 * 50.0;
    assert!((used - film / (210.0 * 210.0)).abs() < 1e-3, "film that becomes pieces: {used}");
    // The square is cut while the film round it is whole, in every format.
    let file = inside.path().join("plan").join(plan["sheets"][0]["file"].as_str().unwrap());
    let cut = fs::read_to_string(file).unwrap();
    let (square, ring) = (cut.find("id=\"square-red-1\"").unwrap(), cut.find("id=\"ring-red-1\"").unwrap());
    assert!(square < ring, "{cut}");
    // It keeps 4 from the edge of the hole of 120: its middle is no farther than 60 - 25 - 4 from the ring's.
    let at = |kind: &str| {
        let piece = pieces.iter().find(|piece| piece["kind"] == kind).unwrap();
        [piece["x_mm"].as_f64().unwrap(), piece["y_mm"].as_f64().unwrap()]
    };
    let (ring, square) = (at("ring-red"), at("square-red"));
    assert!((0..2).all(|axis| (ring[axis] - square[axis]).abs() <= 31.0 + 0.002), "{ring:?} {square:?}");
}

/// The ring needs 210 with its margins: 10 too much for the nearest size. The square is laid all the same.
#[test]
fn a_piece_too_large_for_every_sheet_is_told_everywhere() {
    let desk =
        desk("turning = \"quarter turns\"\nsheets = [{ size = \"200 x 300 mm\" }, { size = \"150 x 150 mm\" }]\n");
    let (says, plan) = planned(&desk);
    let reason = "For the 200 x 300 mm sheet (less a margin of 5.0 mm on every edge), as drawn it is 10.0 mm too wide; turned a quarter round it is 10.0 mm too wide. The smallest sheet that takes it is 210.0 mm x 210.0 mm, the narrowest roll 210.0 mm wide.";
    let left = &plan["unplaced"][0];
    assert_eq!((left["kind"].as_str(), left["quantity"].as_u64()), (Some("ring-red"), Some(1)));
    assert_eq!(left["say"], reason);
    assert_eq!(
        (left["smallest_sheet_mm"][0].as_f64(), left["too_large_by"][0]["wide_mm"].as_f64()),
        (Some(210.0), Some(10.0))
    );
    assert_eq!(plan["findings"][0]["kind"], "fits-no-sheet");
    assert!(says.find("On no sheet").unwrap() < says.find("hem ").unwrap(), "{says}");
    let flat = says.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(reason), "{says}");
    assert_eq!(flat.matches("Piece ring-red fits no sheet").count(), 1, "said once: {says}");
    let page = fs::read_to_string(desk.path().join("plan/read-me-first.html")).unwrap();
    assert!(page.contains("<strong>On no sheet:</strong> Piece ring-red fits no sheet of film"), "not on the page");
    assert!(page.contains(reason), "no reason on the page");
    if let Some(paper) = words_of(&desk.path().join("plan/workbook.pdf")) {
        assert!(paper.contains("1 piece is on no sheet: too large"), "not on the cover: {paper}");
        assert!(paper.contains("Piece ring-red fits no sheet of film"), "not on the shopping list: {paper}");
        assert!(paper.contains(reason), "no reason on paper: {paper}");
    }
    assert_eq!(plan["sheets"][0]["pieces"].as_array().unwrap().len(), 1);
    let cut: Vec<_> = fs::read_dir(desk.path().join("plan/cut")).unwrap().collect();
    assert_eq!(cut.len(), 4, "three formats and the helper's page");
}

#[test]
fn nothing_is_written_where_no_piece_fits_and_a_one_way_film_is_named_as_the_reason() {
    let desk = desk("one_way = true\nsheets = [{ size = \"40 x 300 mm\" }]\n");
    fs::write(
        desk.path().join("square.svg"),
        SQUARE
            .replace(
                "width=\"50mm\" height=\"50mm\" viewBox=\"0 0 50 50\"",
                "width=\"60mm\" height=\"20mm\" viewBox=\"0 0 50 16\"",
            )
            .replace("V50", "V16"),
    )
    .unwrap();
    let mut program = Command::cargo_bin("hemwright").unwrap();
    let run = program.args(["plan", "job.toml", "--out", "plan"]).current_dir(desk.path()).assert().code(1);
    let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert!(says.contains("Piece square-red fits no sheet of film \"red\"."), "{says}");
    assert!(
        says.contains(
            "Turned a quarter round the 40 x 300 mm sheet would take it, but this film may not be turned so."
        ),
        "{says}"
    );
    assert!(says.contains("Give film \"red\" a larger sheet or a roll"), "{says}");
    assert!(!desk.path().join("plan").exists());
}

/// 200 and 50 with 4 between and the margins use 264 of 270 (and a hair); a sheet of 400 costs 0.80 more and leaves 135 whole mm.
#[test]
fn a_longer_sheet_that_leaves_a_usable_off_cut_is_offered() {
    let desk = desk(
        "turning = \"none\"\nsheets = [{ size = \"210 x 270 mm\", price = 3.00 }, { size = \"210 x 400 mm\", price = 3.80 }]\n",
    );
    let (says, plan) = planned(&desk);
    assert_eq!(plan["buy"][0]["price"].as_f64(), Some(3.0));
    let offer = "a 210 x 400 mm sheet in place of the last 210 x 270 mm sheet costs 0.80 more but leaves a usable 135 mm (5 mm otherwise)";
    assert_eq!(plan["alternatives"][0]["say"], offer);
    assert_eq!(plan["alternatives"][0]["film"], "red");
    let flat = says.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(&format!("note red: {offer}")), "{says}");
    let page = fs::read_to_string(desk.path().join("plan/read-me-first.html")).unwrap();
    assert!(page.contains(&format!("<li>red: {offer}</li>")), "not on the page");
}

/// Worked by hand: 290 x 490 usable takes 3 x 5 squares of 90 with 4 between, so 46 fill three sheets and leave one, for which
/// the off-cut in the drawer does. Three like sheets are one file, and where nobody looks on, no progress is drawn.
#[test]
fn the_drawer_saves_a_sheet_and_three_like_sheets_are_one_file() {
    let desk = tempfile::tempdir().unwrap();
    fs::write(desk.path().join("square.svg"), SQUARE.replace("50mm", "90mm")).unwrap();
    let job = "[hem.straight]\nlength = \"6000 mm\"\n[[band]]\ncount = 46\nmotifs = [\"square\"]\n[motif.square]\nart = \"square.svg\"\nfilm = \"red\"\nspares = 0\ntests = 0\n[film.red]\nmargin = \"5 mm\"\ngap = \"4 mm\"\nsheets = [{ size = \"300 x 500 mm\", price = 6.50 }, { size = \"200 x 110 mm\", have = 1 }]\n";
    fs::write(desk.path().join("job.toml"), job).unwrap();
    let mut program = Command::cargo_bin("hemwright").unwrap();
    let run = program.args(["plan", "job.toml", "--out", "plan"]).current_dir(desk.path()).assert().success();
    assert_eq!(String::from_utf8_lossy(&run.get_output().stderr), "");
    let plan = read_plan(&desk.path().join("plan"));
    let bought = |in_drawer: bool| -> Vec<u64> {
        let rows = plan["buy"].as_array().unwrap().iter().filter(|row| row["in_drawer"] == in_drawer);
        rows.map(|row| row["sheets"].as_u64().unwrap()).collect()
    };
    assert_eq!((bought(false), bought(true)), (vec![3], vec![1]));
    let copies: Vec<u64> =
        plan["sheets"].as_array().unwrap().iter().map(|sheet| sheet["copies"].as_u64().unwrap()).collect();
    assert!(copies.contains(&3) && copies.len() == 2, "{copies:?}");
    let page = fs::read_to_string(desk.path().join("plan/read-me-first.html")).unwrap();
    assert!(page.contains("cut 3 times"), "not on the page");
}

/// Margin and gap are each film's own; no two pieces of a film come nearer than its gap.
#[test]
fn margin_and_gap_are_each_films_own() {
    let text = job("sheets = [{ size = \"300 x 500 mm\" }]\n").replace(
        "[motif.square]\nart = \"square.svg\"\nfilm = \"red\"",
        "[motif.square]\nart = \"square.svg\"\nfilm = \"gold\"",
    ) + "[film.gold]\nmargin = \"12 mm\"\ngap = \"9 mm\"\n";
    let desk = desk("");
    fs::write(desk.path().join("job.toml"), text.replace("spares = 0", "spares = 5")).unwrap();
    let (_, plan) = planned(&desk);
    for (film, margin, gap, side) in [("red", 5.0, 4.0, 200.0), ("gold", 12.0, 9.0, 50.0)] {
        let of_film = |sheet: &&Value| sheet["film"] == film;
        for sheet in plan["sheets"].as_array().unwrap().iter().filter(of_film) {
            assert_eq!((sheet["margin_mm"].as_f64(), sheet["gap_mm"].as_f64()), (Some(margin), Some(gap)));
            let middles: Vec<[f64; 2]> = sheet["pieces"]
                .as_array()
                .unwrap()
                .iter()
                .map(|piece| ["x_mm", "y_mm"].map(|axis| piece[axis].as_f64().unwrap()))
                .collect();
            // Squares laid at a right angle; at any other they would be farther in.
            assert!(middles.iter().flatten().all(|middle| *middle >= margin + side / 2.0 - 0.002), "{middles:?}");
            for (index, a) in middles.iter().enumerate() {
                for b in &middles[..index] {
                    let apart = (a[0] - b[0]).hypot(a[1] - b[1]);
                    assert!(apart >= side + gap - 0.003, "{film}: {apart}");
                }
            }
        }
    }
}

/// One-way film: every piece the same way up, an arrow on the picture, a warning for whoever runs the cutter.
#[test]
fn one_way_film_is_laid_upright_and_says_so() {
    let desk = desk("one_way = true\n");
    let (_, plan) = planned(&desk);
    let sheets = plan["sheets"].as_array().unwrap();
    let mut turns =
        sheets.iter().flat_map(|sheet| sheet["pieces"].as_array().unwrap()).map(|piece| piece["rotation_deg"].as_f64());
    assert!(turns.all(|turn| turn == Some(0.0)));
    let page = fs::read_to_string(desk.path().join("plan/read-me-first.html")).unwrap();
    assert!(page.contains("one way: no piece may be turned"), "no arrow on the page");
    let helper = fs::read_to_string(desk.path().join("plan/cut/do-this-first.html")).unwrap();
    assert!(helper.contains("<strong>One way: red.</strong>"), "the helper is not told");
}

/// Ctrl-C as soon as the program listens for it, while two thousand motifs are still being set out: nothing to keep, so it ends
/// there and then. What Ctrl-C does to a search is in tests/cli_terminal.rs.
#[cfg(target_os = "linux")]
#[test]
fn ctrl_c_where_no_search_is_running_ends_the_program_at_once() {
    use std::process::{Command, Stdio};
    let desk = desk("");
    let text = fs::read_to_string(desk.path().join("job.toml")).unwrap();
    let many = "[hem.straight]\nlength = \"20000 mm\"\n[[band]]\ngap = \"1 mm\"\nrows = 4\nrise = \"60 mm\"\nmotifs = [\"square\"]\n";
    let motifs = text.find("[motif.ring]").unwrap();
    fs::write(desk.path().join("job.toml"), format!("{many}{}", &text[motifs..])).unwrap();
    let mut program = Command::new(assert_cmd::cargo::cargo_bin("hemwright"));
    program.args(["plan", "job.toml", "--out", "plan"]).current_dir(desk.path());
    let run = program.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    while !listens(run.id()) {
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    assert!(Command::new("kill").args(["-INT", &run.id().to_string()]).status().unwrap().success());
    let end = run.wait_with_output().unwrap();
    let says = String::from_utf8_lossy(&end.stderr).into_owned();
    assert_eq!(end.status.code(), Some(1), "{says}");
    assert_eq!(says, "error: stopped; nothing was written\n");
    assert!(!desk.path().join("plan").exists());
    assert_eq!(fs::read_dir(desk.path()).unwrap().count(), 3, "something is left behind");
}

/// Whether a process catches SIGINT (number 2), as proc(5) tells; a process that has ended does not wait for it.
#[cfg(target_os = "linux")]
fn listens(process: u32) -> bool {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap();
    let line =
        |name: &str| status.lines().find_map(|line| line.strip_prefix(name)).unwrap_or_default().trim().to_owned();
    let caught = u64::from_str_radix(&line("SigCgt:"), 16).unwrap_or(0);
    caught & 0b10 != 0 || line("State:").starts_with('Z')
}

/// Two sheets are needed, one for the ring and one for the square. One lies in the drawer and costs nothing; the other is bought.
#[test]
fn further_sheets_of_a_size_in_the_drawer_are_bought_at_their_price() {
    let bought = |film: &str| {
        let (_, plan) = planned(&desk(film));
        let rows = plan["buy"].as_array().unwrap();
        let row = |row: &Value| (row["sheets"].as_u64().unwrap(), row["price_each"].as_f64());
        rows.iter().map(row).collect::<Vec<_>>()
    };
    let size = "size = \"210 x 210 mm\"";
    assert_eq!(bought(&format!("sheets = [{{ {size}, price = 3.00, have = 1 }}]\n")), [(1, None), (1, Some(3.0))]);
    // Three in the drawer are enough, whatever another would cost.
    assert_eq!(bought(&format!("sheets = [{{ {size}, price = 3.00, have = 3 }}]\n")), [(2, None)]);
    let roll = desk("sheets = [{ roll = \"500 mm\", price = 12.00, have = 1 }]\n");
    let mut program = Command::cargo_bin("hemwright").unwrap();
    let refused = program.args(["plan", "job.toml", "--out", "plan"]).current_dir(roll.path()).assert().failure();
    let says = String::from_utf8(refused.get_output().stderr.clone()).unwrap();
    assert!(says.contains("price") && says.contains("as a size of its own"), "{says}");
}
