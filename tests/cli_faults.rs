//! The program on bad input: one clear message, the right exit code, and nothing written.

#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests read and write files, and may fail loudly")]

use std::fs;
use std::path::Path;

use assert_cmd::Command;
use tempfile::TempDir;

/// A square of 40 mm: the simplest drawing that can be cut.
const SQUARE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">
<path fill="#c62828" d="M0 0H40V40H0Z"/></svg>"##;

const JOB: &str = r#"
[hem.circle]
waist = "720 mm"
length = "700 mm"
[[band]]
height = "75 mm"
gap = "40 mm"
[motif.square]
art = "square.svg"
width = "60 mm"
"#;

/// A folder with a drawing and a job that can be planned.
fn desk() -> TempDir {
    let desk = tempfile::tempdir().unwrap();
    fs::write(desk.path().join("square.svg"), SQUARE).unwrap();
    fs::write(desk.path().join("job.toml"), JOB).unwrap();
    desk
}

/// Names of everything in a folder, hidden or not, in order.
fn everything(folder: &Path) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let mut names: Vec<String> = names.collect();
    names.sort();
    names
}

/// What is wrong, what is said, and with which code the program ends.
struct Refusal {
    code: i32,
    says: String,
}

/// Runs the program, and checks that it refuses and leaves the desk as it was.
#[track_caller]
fn refused(desk: &TempDir, args: &[&str]) -> Refusal {
    let before = everything(desk.path());
    let run = Command::cargo_bin("hemwright").unwrap().args(args).current_dir(desk.path()).assert().failure();
    let output = run.get_output();
    assert_eq!(everything(desk.path()), before, "something was written");
    assert!(output.stdout.is_empty(), "an answer was given: {}", String::from_utf8_lossy(&output.stdout));
    let says = String::from_utf8(output.stderr.clone()).unwrap();
    assert!(!says.contains("panicked"), "{says}");
    assert!(!says.contains('\u{1b}'), "colour codes where no terminal is: {says}");
    Refusal { code: output.status.code().unwrap(), says }
}

/// Checks that a job, made by a change to one that can be planned, is refused with these words.
#[track_caller]
fn job_refused(from: &str, to: &str, words: &[&str]) {
    assert!(JOB.contains(from), "{from} is not in the job");
    let desk = desk();
    fs::write(desk.path().join("job.toml"), JOB.replace(from, to)).unwrap();
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "plan"]);
    assert_eq!(refusal.code, 1, "{}", refusal.says);
    for word in words {
        assert!(refusal.says.contains(word), "\"{word}\" is not in: {}", refusal.says);
    }
}

/// Checks that a drawing is refused with these words.
#[track_caller]
fn drawing_refused(drawing: &[u8], words: &[&str]) {
    let desk = desk();
    fs::write(desk.path().join("square.svg"), drawing).unwrap();
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "plan"]);
    assert_eq!(refusal.code, 1, "{}", refusal.says);
    for word in words {
        assert!(refusal.says.contains(word), "\"{word}\" is not in: {}", refusal.says);
    }
}

#[test]
fn a_job_file_that_is_not_there() {
    let refusal = refused(&desk(), &["plan", "jbo.toml"]);
    assert_eq!((refusal.code, refusal.says.lines().next().unwrap()), (1, "error: there is no job file jbo.toml"));
    assert!(refusal.says.contains("hint: "), "{}", refusal.says);
}

#[test]
fn a_drawing_that_is_not_there() {
    job_refused(
        "square.svg",
        "sqaure.svg",
        &["error: there is no drawing sqaure.svg", "hint: drawings are looked for"],
    );
}

/// Two drawings that are not there and two faults of the text: four messages in the order of the lines, from one run.
#[test]
fn drawings_that_are_not_there_are_told_with_all_other_faults() {
    let desk = desk();
    let job = JOB.replace("\"720 mm\"", "\"720\"").replace("gap =", "gpa =").replace("square.svg", "sqaure.svg");
    let job = job + "[motif.tulip]\nart = \"tulip.svg\"\n[motif.other]\nart = \"square.svg\"\n";
    fs::write(desk.path().join("job.toml"), &job).unwrap();
    let refusal = refused(&desk, &["counts", "job.toml"]);
    let told: Vec<&str> = refusal.says.lines().filter(|line| line.starts_with("error: ")).collect();
    assert_eq!(told.len(), 4, "{}", refusal.says);
    assert!(told[0].contains("720 has no unit") && told[1].contains("gpa"), "{told:?}");
    assert_eq!(told[2..], ["error: there is no drawing sqaure.svg", "error: there is no drawing tulip.svg"]);
    for place in ["job.toml:3:9", "job.toml:7:1", "job.toml:9:7", "job.toml:12:7"] {
        assert!(refusal.says.contains(place), "{place}: {}", refusal.says);
    }
    // With nothing else amiss both are told as well.
    fs::write(desk.path().join("job.toml"), job.replace("\"720\"", "\"720 mm\"").replace("gpa", "gap")).unwrap();
    assert_eq!(refused(&desk, &["counts", "job.toml"]).says.matches("error: there is no drawing").count(), 2);
}

#[test]
fn a_folder_where_a_file_is_wanted() {
    let refusal = refused(&desk(), &["plan", "."]);
    assert_eq!((refusal.code, refusal.says.lines().next().unwrap()), (1, "error: . is a folder, and no job file"));
    let desk = desk();
    fs::create_dir(desk.path().join("art")).unwrap();
    fs::write(desk.path().join("job.toml"), JOB.replace("square.svg", "art")).unwrap();
    let refusal = refused(&desk, &["plan", "job.toml"]);
    assert!(refusal.says.starts_with("error: art is a folder, and no drawing"), "{}", refusal.says);
}

#[test]
fn a_drawing_that_is_no_svg() {
    drawing_refused(b"GIF89a and so on", &["error: square.svg"]);
    drawing_refused(b"\x89PNG\r\n\x1a\n", &["error: square.svg is not text, so no drawing", "hint: "]);
    drawing_refused(b"\x1f\x8b\x08\x00", &["error: square.svg is packed", "svgz"]);
    drawing_refused(b"<html><body>hello</body></html>", &["error: square.svg"]);
    drawing_refused(b"", &["error: the drawing square.svg is empty", "hint: save the drawing again"]);
}

#[test]
fn a_drawing_with_nothing_to_cut() {
    drawing_refused(br#"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm"/>"#, &["error: square.svg"]);
}

/// 1 GB of nothing: a sparse file, refused by its size before a byte is read.
#[test]
fn a_drawing_of_a_gigabyte() {
    let desk = desk();
    fs::File::create(desk.path().join("square.svg")).unwrap().set_len(1_000_000_000).unwrap();
    let start = std::time::Instant::now();
    let refusal = refused(&desk, &["plan", "job.toml"]);
    assert!(refusal.says.starts_with("error: square.svg is 1000 MB large; at most 16 MB are read"), "{}", refusal.says);
    assert!(start.elapsed().as_secs() < 10, "the file was read");
}

/// Each of them could be read, all of them would fill the memory: refused by their sum before a byte is read.
#[test]
fn drawings_that_are_too_large_together() {
    let desk = desk();
    let mut job = JOB.to_owned();
    for number in 0..7 {
        fs::File::create(desk.path().join(format!("m{number}.svg"))).unwrap().set_len(15_000_000).unwrap();
        job.push_str(&format!("[motif.m{number}]\nart = \"m{number}.svg\"\n"));
    }
    fs::write(desk.path().join("job.toml"), job).unwrap();
    let refusal = refused(&desk, &["plan", "job.toml"]);
    let told = "error: the 8 drawings of this job are 105 MB large together; at most 100 MB are read";
    assert!(refusal.says.starts_with(told), "{}", refusal.says);
}

#[test]
fn lengths_that_cannot_be() {
    job_refused("\"720 mm\"", "\"0 mm\"", &["job.toml:3:9", "waist is 0.0 mm; it must be more than zero"]);
    job_refused("\"700 mm\"", "\"-70 cm\"", &["job.toml:4:10", "length is -700.0 mm"]);
    job_refused("\"40 mm\"", "40", &["job.toml:7:7", "40 has no unit: write \"40 mm\""]);
    job_refused("\"40 mm\"", "\"40 ft\"", &["unknown unit \"ft\""]);
    job_refused("\"60 mm\"", "\"1,234 mm\"", &["can be read two ways"]);
}

#[test]
fn a_key_that_is_not_known() {
    job_refused("height", "heigth", &["job.toml:6:1", "unknown key \"heigth\"", "hint: did you mean \"height\"?"]);
}

#[test]
fn a_motif_wider_than_its_line() {
    job_refused("\"60 mm\"", "\"6 m\"", &["error: "]);
}

#[test]
fn a_height_above_the_waist() {
    job_refused("height = \"75 mm\"", "height = \"900 mm\"", &["error: "]);
}

#[test]
fn a_waist_larger_than_the_hem() {
    job_refused(
        "[hem.circle]\nwaist = \"720 mm\"\nlength = \"700 mm\"",
        "[hem.oval]\nwaist = \"7200 mm\"\nfront = \"700 mm\"\nside = \"700 mm\"\nback = \"700 mm\"\ntape = \"700 mm\"",
        &["error: the hem is 700.0 mm by tape but", "hint: "],
    );
}

#[test]
fn a_sheet_smaller_than_a_piece() {
    job_refused(
        "[[band]]",
        "[every_film]\nsheets = [{ size = \"50 x 50 mm\" }]\n[[band]]",
        &["square-red fit no sheet of film", "hint: "],
    );
}

#[test]
fn an_output_place_that_is_taken() {
    let desk = desk();
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "square.svg"]);
    assert!(refusal.says.starts_with("error: square.svg is a file; the plan is a folder"), "{}", refusal.says);
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "."]);
    assert!(refusal.says.starts_with("error: . holds other files, which no plan wrote"), "{}", refusal.says);
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "no/such/folder"]);
    assert!(refusal.says.starts_with("error: there is no folder no/such"), "{}", refusal.says);
    fs::create_dir(desk.path().join("mine")).unwrap();
    fs::write(desk.path().join("mine/notes.txt"), "mine").unwrap();
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "mine"]);
    assert!(refusal.says.starts_with("error: mine holds notes.txt, which no plan wrote"), "{}", refusal.says);
    assert_eq!(everything(&desk.path().join("mine")), ["notes.txt"]);
}

#[cfg(unix)]
#[test]
fn an_output_place_that_is_a_link() {
    let desk = desk();
    fs::create_dir(desk.path().join("real")).unwrap();
    std::os::unix::fs::symlink("real", desk.path().join("link")).unwrap();
    let refusal = refused(&desk, &["plan", "job.toml", "--out", "link"]);
    assert!(refusal.says.starts_with("error: link is a link"), "{}", refusal.says);
}

/// /proc takes no new folders from anyone, not even from root, as whom these tests may run.
#[cfg(target_os = "linux")]
#[test]
fn an_output_place_that_cannot_be_written() {
    let refusal = refused(&desk(), &["plan", "job.toml", "--out", "/proc/plan"]);
    assert_eq!(refusal.code, 1);
    assert!(refusal.says.starts_with("error: /proc/plan cannot be written: "), "{}", refusal.says);
    assert!(refusal.says.contains("hint: nothing was left behind"), "{}", refusal.says);
}

/// The disk fills up while files are written: stood in for by a limit on the size of a file, beyond which the system
/// refuses to write. Runs where there is a shell that can set one.
#[cfg(unix)]
#[test]
fn a_disk_that_fills_up() {
    let desk = desk();
    let before = everything(desk.path());
    let program = assert_cmd::cargo::cargo_bin("hemwright");
    // Ignored, the signal for the limit turns into a refusal, which is what a full disk gives.
    let script = format!("trap '' XFSZ; ulimit -f 1; exec '{}' plan job.toml --out plan", program.display());
    let run = Command::new("sh").args(["-c", &script]).current_dir(desk.path()).assert().failure();
    let says = String::from_utf8_lossy(&run.get_output().stderr).into_owned();
    assert_eq!(run.get_output().status.code(), Some(1), "{says}");
    assert!(says.contains("error: plan cannot be written: "), "{says}");
    assert_eq!(everything(desk.path()), before, "something was left behind");
}

#[test]
fn usage_that_is_wrong_ends_with_two() {
    let desk = desk();
    for (args, word) in [
        (&["plan"][..], "error: give a job file, or: --motif SVG"),
        (&["plan", "--motif", "square.svg", "--hem", "5 m"][..], "error: give a job file, or: --gap LENGTH"),
        (&["plan", "job.toml", "--width", "60mm"][..], "--width cannot go with the job file job.toml"),
        (&["plan", "--width", "60"][..], "60 has no unit"),
        (&["plan", "--waist", "70cm"][..], "--length"),
        (&["plna"][..], "similar"),
        (&[][..], "Usage"),
    ] {
        let refusal = refused(&desk, args);
        assert_eq!(refusal.code, 2, "{args:?}: {}", refusal.says);
        assert!(refusal.says.contains(word), "{args:?}: {}", refusal.says);
    }
}

#[test]
fn a_length_below_zero_from_a_flag_is_told_with_its_line_in_the_job_it_makes() {
    let args = ["plan", "--motif", "square.svg", "--hem", "5 m", "--gap", "40mm", "--width=-60mm"];
    let refusal = refused(&desk(), &args);
    assert_eq!(refusal.code, 1);
    assert!(refusal.says.contains("width is -60.0 mm; it must be more than zero"), "{}", refusal.says);
    assert!(refusal.says.contains("job made from the flags:"), "{}", refusal.says);
}

#[test]
fn a_drawer_that_does_not_hold_all_pieces() {
    let desk = desk();
    let job = "[hem.straight]\nlength = \"2 m\"\n[[band]]\ngap = \"40 mm\"\n[motif.square]\nart = \"square.svg\"\nwidth = \"40 mm\"\n\
               [every_film]\nsheets = [{ size = \"300 x 100 mm\", have = 1 }]\n[laying]\neffort = \"quick\"\n";
    fs::write(desk.path().join("drawer.toml"), job).unwrap();
    let refusal = refused(&desk, &["plan", "drawer.toml"]);
    assert_eq!(refusal.code, 1);
    let says = refusal.says.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(says.contains("no layout was found that puts all of film \"red\" on the sheets in the drawer"), "{says}");
    // Squares of 40 lie six to a row and two rows high on 290 x 90.
    assert!(says.contains("in the best one 16 of 28 pieces find no place"), "{says}");
    assert!(refusal.says.contains("a size to buy as well"), "{}", refusal.says);
}

/// A seam off the hem and a trim deeper than the skirt only show when the job is worked out; neither hangs on a temperature without
/// its unit, and all three are told. What the width of a motif decides is not, where that cannot be read.
#[test]
fn what_does_not_hang_on_a_fault_of_the_file_is_told_with_it() {
    let desk = desk();
    let further =
        "[hem]\nseams = [\"6 m\"]\n[press]\ntemperature = \"150\"\n[[trim]]\nkind = \"braid\"\ndepth = \"900 mm\"\n";
    let job = format!("{JOB}{further}");
    for (job, faults) in [(job.clone(), 3), (job.replace("\"60 mm\"", "\"60\"").replace("gap", "count = 900\ngap"), 4)]
    {
        fs::write(desk.path().join("job.toml"), job).unwrap();
        let refusal = refused(&desk, &["plan", "job.toml"]);
        let told = refusal.says.lines().filter(|line| line.starts_with("error: ")).count();
        assert_eq!(told, faults, "{}", refusal.says);
        for words in
            ["does not lie on the hem", "is not a temperature", "900.0 mm up, but the lines of this hem end at"]
        {
            assert!(refusal.says.contains(words), "{words}: {}", refusal.says);
        }
    }
}

/// What only shows when the job is worked out is told at its line of the file, like what the file itself has wrong.
#[test]
fn faults_of_the_whole_job_point_at_their_line() {
    let line = "[[band]]\nheight = \"75 mm\"\ngap = \"40 mm\"";
    let second = "gap = \"40 mm\"\nname = \"a\"\n[[band]]\nname = \"a\"\nheight = \"150 mm\"\ngap = \"40 mm\"";
    for (from, to, at) in [
        ("height = \"75 mm\"", "height = \"750 mm\"", "job.toml:6:1"),
        ("gap = \"40 mm\"", "count = 900", "job.toml:7:1"),
        ("width = \"60 mm\"", "width = \"4800 mm\"", "job.toml:7:1"),
        ("art = \"square.svg\"", "art = \"round.svg\"", "job.toml:9:7"),
        (line, &format!("[every_film]\nmargin = \"400 mm\"\n{line}"), "job.toml:6:10"),
        (line, &format!("[film.red]\nmargin = \"400 mm\"\n{line}"), "job.toml:6:10"),
        ("[motif.square]", "[motif.square]\nspares = 5000", "job.toml:9:10"),
        (line, &format!("[hem]\nseams = [\"6 m\"]\n{line}"), "job.toml:6:10"),
        (line, &format!("[hem]\nhung = [\"3 m\"]\n{line}"), "job.toml:6:9"),
        (line, &format!("[hem.opening]\nunderlap = \"6 m\"\n{line}"), "job.toml:6:1"),
        (line, &format!("[[trim]]\nname = \"braid\"\nkind = \"braid\"\ndepth = \"900 mm\"\n{line}"), "job.toml:5:"),
        ("gap = \"40 mm\"", second, "job.toml:10:8"),
    ] {
        job_refused(from, to, &[at]);
    }
}

/// What only shows when the drawings are read and the job is worked out comes in one run too, in the order of the file: parts after
/// hanging, seams, a band too high and one shifted too far, drawings that are none, a trim deeper than the skirt, a size.
#[test]
fn faults_of_every_stage_are_told_together() {
    let desk = desk();
    let job = r#"[hem]
hung = ["1279 mm", "4 m", "1279 mm", "12 m"]
seams = ["9 m", "CB", "-8 m"]
[hem.circle]
waist = "720 mm"
length = "700 mm"
[[band]]
name = "lower"
motifs = "square"
gap = "1 mm"
shift = "9 m"
[[band]]
name = "upper"
motifs = "square"
gap = "1 mm"
height = "3 m"
[[band]]
name = "unread"
motifs = ["junk", "square"]
gap = "1 mm"
height = "3 m"
[motif.square]
art = "square.svg"
[motif.junk]
art = "junk.svg"
[motif.cut]
art = "cut.svg"
[[keep_out]]
along_from = "8 m"
along_to = "9 m"
[[trim]]
name = "deep"
kind = "braid"
depth = "9 m"
[hem.opening]
underlap = "2 m"
[size.small]
waist = "1 mm"
length = "100 mm"
"#;
    fs::write(desk.path().join("junk.svg"), "junk").unwrap();
    fs::write(desk.path().join("cut.svg"), "<svg").unwrap();
    fs::write(desk.path().join("job.toml"), job).unwrap();
    let wanted = [
        "job.toml:2:20",
        "job.toml:2:38",
        "job.toml:3:10",
        "job.toml:3:23",
        "job.toml:11:1",
        "job.toml:16:1",
        "job.toml:25:7",
        "job.toml:27:7",
        "job.toml:29:1",
        "job.toml:31:1",
        "job.toml:37:7",
    ];
    for missing in [false, true] {
        if missing {
            fs::remove_file(desk.path().join("junk.svg")).unwrap();
        }
        let says = refused(&desk, &["counts", "job.toml"]).says;
        let places: Vec<&str> = says.lines().filter_map(|line| line.trim_start().strip_prefix("--> ")).collect();
        assert_eq!(places, wanted, "{says}");
    }
}

/// A band that is tied to one with a fault of its own is told what is wrong with the tie, and not that the other band is not there.
#[test]
fn a_band_tied_to_one_with_faults_is_not_told_that_there_is_none() {
    let desk = desk();
    let bands = "[[band]]\nname = \"a\"\ngap = \"10 mm\"\n[[band]]\nname = \"b\"\ntied_to = \"a\"\ntimes = \"2/70\"\n[[band]]\n\
                 name = \"c\"\ntied_to = \"b\"\n[motif.square]";
    let job = JOB.replace("[[band]]\nheight = \"75 mm\"\ngap = \"40 mm\"\n[motif.square]", bands);
    assert_ne!(job, JOB);
    fs::write(desk.path().join("job.toml"), job).unwrap();
    let says = refused(&desk, &["counts", "job.toml"]).says;
    let told: Vec<&str> = says.lines().filter(|line| line.starts_with("error: ")).collect();
    assert!(matches!(told[..], [times, tie] if times.contains("2/70") && tie.contains("tied itself")), "{says}");
}
