//! Keys of the job file that setting out answers, from the file's text to the plan. Figures worked by hand.

use super::*;
use hemwright::job;
use hemwright::nest::Silent;
use hemwright::plan::{self, Plan};

/// A square of 110 mm with its middle at the origin of the drawing, as a drawing.
const SQUARE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="110mm" height="110mm" viewBox="0 0 110 110">
<path d="M0 0 H110 V110 H0 Z" fill="#c62828"/></svg>"##;

/// The circle skirt of waist 720 and length 700 with a square motif of 110, and more of the job.
fn text(band: &str, more: &str) -> String {
    format!(
        "[hem]\nseams = [\"side left\", \"side right\"]\n[hem.circle]\nwaist = \"720 mm\"\nlength = \"700 mm\"\n\
         [[band]]\n{band}\n[motif.tile]\nart = \"tile.svg\"\n{more}"
    )
}

fn read(band: &str, more: &str) -> Result<job::Job, String> {
    job::read(&text(band, more)).map_err(|fault| fault.to_string())
}

fn drawings() -> BTreeMap<String, String> {
    BTreeMap::from([("tile.svg".to_owned(), SQUARE.to_owned())])
}

fn planned(band: &str, more: &str) -> Plan {
    plan::make(&read(band, more).unwrap(), &drawings(), &Silent).unwrap()
}

#[test]
fn sizes_share_a_count_or_a_gap_and_say_what_a_size_moves() {
    let sizes = |policy: &str| {
        format!(
            "[garment]\nsize = \"M\"\nsizes = \"{policy}\"\n[size.S]\nwaist = \"660 mm\"\n[size.L]\nwaist = \"780 mm\"\n"
        )
    };
    let found = planned("height = \"75 mm\"\ngap = \"40 mm\"\ncf = \"motif\"", &sizes("same count"));
    let rows = &found.sizes[0].card.rows;
    assert_eq!(rows.iter().map(|row| row.name.as_str()).collect::<Vec<_>>(), ["M", "S", "L"]);
    for (row, gap) in rows.iter().zip([44.90, 42.90, 46.90]) {
        assert_eq!(row.band.count, 30);
        near(row.band.gap_along, gap);
    }
    let line = "[hem.circle]\nwaist = \"720 mm\"\nlength = \"700 mm\"\n[[band]]\nheight = \"75 mm\"\ngap = \"40 mm\"\n\
                cf = \"motif\"\n[motif.tile]\nart = \"tile.svg\"\n";
    // Without seams to keep clear of, the largest size takes 31 by the gap alone.
    let job = job::read(&format!("{line}{}", sizes("same gap"))).unwrap();
    let found = plan::make(&job, &drawings(), &Silent).unwrap();
    assert_eq!(found.sizes[0].card.rows.iter().map(|row| row.band.count).collect::<Vec<_>>(), [30, 30, 31]);
    assert!(found.findings.iter().any(|f| f.kind == "size-differs" && f.say.contains("31")), "{:?}", found.findings);
}

#[test]
fn a_size_by_what_the_hem_is_not_measured_by_is_refused() {
    let told = read("gap = \"40 mm\"", "[size.S]\ntop = \"130 mm\"\n").unwrap_err();
    assert_eq!(told, "top goes only with a hem that is measured by it");
    let job = read("gap = \"40 mm\"", "[size.S]\nlength = \"20 mm\"\n").unwrap();
    let told = plan::make(&job, &drawings(), &Silent).unwrap_err().to_string();
    assert!(told.starts_with("size S: "), "{told}");
}

const TRIMS: &str = "[[trim]]\nkind = \"lace\"\ndepth = \"30 mm\"\n[[trim]]\nkind = \"knife pleats\"\ndepth = \"60 mm\"\n\
                     height = \"170 mm\"\nvisible = \"15 mm\"\n";

/// Lace to 30, pleats from 170: the middle lies at 100.
#[test]
fn motifs_sit_in_the_middle_of_the_window_that_trims_leave() {
    let job = read("window = 1\ngap = \"40 mm\"", TRIMS).unwrap();
    near(job.bands[0].height, 100.0);
    assert!(job.assumptions.iter().any(|taken| taken.taken.contains("between lace and knife pleats")));
    let found = plan::set_out(&job, &drawings()).unwrap();
    near(found.setting.bands[0].height, 100.0);
    for (window, told) in [("0", "there is no window 0"), ("2", "there is no window 2: the trims leave 1")] {
        let fault = read(&format!("window = {window}\ngap = \"40 mm\""), TRIMS).unwrap_err();
        assert!(fault.contains(told), "{fault}");
    }
    let fault = read("window = 1\nheight = \"75 mm\"\ngap = \"40 mm\"", TRIMS).unwrap_err();
    assert_eq!(fault, "only one of these may be given: height, window");
}

#[test]
fn slips_are_told_with_what_to_write_instead() {
    for (band, told) in [
        (
            "gap = \"40 mm\"\nsizes = [0, -1]",
            "0 is not a factor on a motif's size\n-1 is not a factor on a motif's size",
        ),
        ("count = 100000000000000000000", "100000000000000000000 is not a number of things"),
        ("gap = \"1,234\"", "\"1,234\" can be read two ways: write \"1.234 mm\" or \"1234 mm\""),
    ] {
        assert_eq!(read(band, "").unwrap_err(), told);
    }
    let open = "[hem]\nends = \"open\"\nends_clear = \"900 mm\"\n[hem.straight]\nlength = \"1500 mm\"\n[[band]]\ngap = \"9 mm\"\n\
                [motif.tile]\nart = \"tile.svg\"\n";
    let fault = plan::set_out(&job::read(open).unwrap(), &drawings()).unwrap_err();
    assert_eq!(fault.to_string(), "band 1: 900 mm kept clear at each end leave nothing of the 1500 mm line");
    assert_eq!(fault.hint(), "keep less than 750 mm clear at each end (ends_clear)");
}
