//! Faults of pieces, sheets, press and trims are told in one run, and with those of the first stages where they do not hang on
//! them, each at its line.

use std::collections::BTreeMap;

use hemwright::job::{self, Job};
use hemwright::nest::Silent;
use hemwright::plan;

/// A square with a hole of 8 mm, which an allowance of 6 mm fills from both sides.
const HOLED: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">
<path fill="#c62828" d="M0 0H40V40H0ZM16 16V24H24V16Z"/></svg>"##;

const JOB: &str = r#"[hem.straight]
length = "3 m"
[hem]
seams = ["100 mm"]
[[band]]
motifs = "big"
gap = "40 mm"
[[band]]
height = "400 mm"
motifs = "corner"
gap = "40 mm"
[motif.big]
art = "big.svg"
width = "400 mm"
[motif.corner]
art = "corner.svg"
width = "40 mm"
method = "turned on right"
film = "poplin"
[motif.corner.prepare]
turn_under = "6 mm"
[film.poplin]
sheets = [{ size = "300 x 500 mm" }]
[press]
plate = "230 x 230 mm"
[[trim]]
kind = "ruffle"
depth = "5 cm"
cloth_width = "15 mm"
"#;

fn read(text: &str) -> (Job, BTreeMap<String, String>) {
    let art = [("big.svg", super::SQUARE), ("corner.svg", HOLED)];
    let art = art.iter().map(|(name, svg)| ((*name).to_owned(), (*svg).to_owned())).collect();
    (job::read(text).unwrap(), art)
}

/// The line of each fault with its first words.
fn told(text: &str, faults: Vec<plan::Error>) -> Vec<String> {
    let line = |fault: &plan::Error| fault.place_in(text).map_or(0, |at| text[..at.start].matches('\n').count() + 1);
    let each = faults.into_iter().flat_map(plan::Error::each);
    let mut said: Vec<(usize, String)> = each.map(|fault| (line(&fault), fault.to_string())).collect();
    said.sort();
    said.iter().map(|(line, say)| format!("{line} {say}")).collect()
}

#[track_caller]
fn begins(said: &[String], wanted: &[&str]) {
    let fits = said.len() == wanted.len() && said.iter().zip(wanted).all(|(said, wanted)| said.starts_with(wanted));
    assert!(fits, "{}", said.join("\n"));
}

const LATER: [&str; 4] = [
    "21 a hole of #c62828 of \"corner\" is 8.0 mm wide, too small for the 6.0 mm turn-under",
    "25 \"big\" takes 400.0 mm along the hem and 400.0 mm up; the plate can be trusted on",
    "26 ruffle: the cloth is 15.0 mm wide between selvedges",
    // Its colour has a film of its own, which has no table in the file.
    "0 ",
];

#[test]
fn faults_of_pieces_sheets_press_and_trims_are_told_together() {
    let (job, art) = read(JOB);
    let fault = plan::make(&job, &art, &Silent).unwrap_err();
    let said = told(JOB, vec![fault]);
    let (first, rest) = said.split_first().unwrap();
    assert!(first.contains("fits no sheet of film") || first.contains("fit no sheet of film"), "{first}");
    begins(rest, &LATER[..3]);
    let all = told(JOB, plan::faults(&job, &art));
    assert_eq!(all, said);
}

/// A third band that cannot be set out and a place to keep out of that lies off the hem: what is wrong with the pieces of the others
/// is told with them.
#[test]
fn they_are_told_with_those_of_the_first_stages() {
    let text = format!(
        "{JOB}[[keep_out]]\nalong_from = \"9 m\"\nalong_to = \"9500 mm\"\n[[band]]\ncount = 900\nheight = \"900 mm\"\nmotifs = \"corner\"\n"
    );
    let (job, art) = read(&text);
    let said = told(&text, vec![plan::make(&job, &art, &Silent).unwrap_err()]);
    assert!(said.iter().any(|said| said.starts_with("31 place 1 to keep out of")), "{}", said.join("\n"));
    assert!(said.iter().any(|said| said.starts_with("34 band 3: 900 motifs are")), "{}", said.join("\n"));
    for wanted in &LATER[..3] {
        assert!(said.iter().any(|said| said.starts_with(wanted)), "{wanted}\n{}", said.join("\n"));
    }
}

/// What the file alone shows of sheets, pieces and press is told with its other faults.
#[test]
fn what_shows_in_the_file_is_told_with_its_faults() {
    let text = JOB
        .replace("sheets = [", "one_way = true\nturning = \"sideways\"\nmargin = \"150 mm\"\nsheets = [")
        .replace("[press]\n", "[press]\nrim = \"115 mm\"\n")
        .replace("[motif.corner]\n", "[motif.corner]\nspares = 1000\n");
    let fault = job::read(&text).unwrap_err();
    let line = |at: usize| text[..at].matches('\n').count() + 1;
    let said: Vec<String> = fault
        .faults()
        .iter()
        .map(|fault| format!("{} {}", fault.at.as_ref().map_or(0, |at| line(at.start)), fault.kind))
        .collect();
    begins(
        &said,
        &[
            "16 1001 spare and test motifs of \"corner\" are asked for, 1000 are the most",
            "25 only one of these may be given: one_way, turning",
            "25 \"sideways\" is not known here",
            "26 a margin of 150.0 mm on both sides leaves nothing of the 300 x 500 mm sheet, which is 300.0 mm wide",
            "29 a plate of 230.0 mm x 230.0 mm with a rim of 115.0 mm has no trusted part left",
        ],
    );
    assert!(fault.faults().iter().all(|fault| fault.kind.hint().is_some()));
}

/// The margin that all films have from one table, on a sheet of a film's own, is told at that sheet.
#[test]
fn a_margin_from_another_table_is_told_at_the_sheet() {
    let text = format!(
        "{JOB}[every_film]\nmargin = \"20 mm\"\n[film.gold]\nsheets = [{{ size = \"300 x 500 mm\" }}, {{ roll = \"4 cm\" }}]\n"
    );
    let fault = job::read(&text).unwrap_err();
    let [fault] = fault.faults() else { panic!("{fault}") };
    assert_eq!(&text[fault.at.clone().unwrap()], "\"4 cm\"");
    assert_eq!(
        fault.kind.to_string(),
        "a margin of 20.0 mm on both sides leaves nothing of the 40 mm roll, which is 40.0 mm wide"
    );
}

/// Two sizes whose skirts are shorter than the band is high: both are told, and not only the first.
#[test]
fn every_size_at_fault_is_told() {
    let text = "[garment]\nsizes = \"same gap\"\n[hem.circle]\nwaist = \"72 cm\"\nlength = \"70 cm\"\n[size.S]\nlength = \"20 mm\"\n\
                [size.L]\nlength = \"80 cm\"\n[size.XS]\nlength = \"25 mm\"\n[[band]]\nheight = \"60 mm\"\ngap = \"40 mm\"\n[motif.big]\n\
                art = \"big.svg\"\nwidth = \"40 mm\"\n";
    let (job, art) = read(text);
    let said = told(text, vec![plan::make(&job, &art, &Silent).unwrap_err()]);
    begins(&said, &["6 size S: band 1: a line 60.0 mm above", "10 size XS: band 1: a line 60.0 mm above"]);
}
