//! All faults of a job that do not hang on each other are told in one run, in the order of the file.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use hemwright::job;
use serde_json::Value;

/// A text that no key can mean anything by: it has a mark that is not seen, and is no number, length, word or switch.
const WRONG: &str = "\"\\u0007\"";

/// A table of the job file with every key of the schema in it, each with a value that means nothing, and nothing else wrong
/// with its shape.
struct Table {
    text: String,
    /// Lines, from 1, on which a fault must be told.
    wrong: Vec<usize>,
}

impl Table {
    fn line(&mut self, line: &str) {
        writeln!(self.text, "{line}").unwrap();
    }

    fn wrong(&mut self, line: &str) {
        self.line(line);
        self.wrong.push(self.text.lines().count());
    }
}

/// What a key leads to: `anyOf` with null is the thing itself.
fn meant<'s>(schema: &'s Value, mut value: &'s Value) -> &'s Value {
    loop {
        if let Some(name) = value["$ref"].as_str() {
            value = &schema["$defs"][name.rsplit('/').next().unwrap()];
        } else if let Some(first) = value["anyOf"].as_array().and_then(|all| all.first()) {
            value = first;
        } else {
            return value;
        }
    }
}

/// The keys of one table, but for those that leave no room for the others.
fn fill(table: &mut Table, schema: &Value, of: &Value, left_out: &[&str]) {
    for (key, value) in of["properties"].as_object().unwrap() {
        let value = meant(schema, value);
        if left_out.contains(&key.as_str())
            || value["properties"].is_object()
            || value["additionalProperties"].is_object()
        {
            continue;
        }
        let items = meant(schema, &value["items"]);
        match items["properties"].as_object() {
            Some(_) => {}
            None if value["items"].is_object() => table.wrong(&format!("{key} = [{WRONG}]")),
            None => table.wrong(&format!("{key} = {WRONG}")),
        }
    }
}

/// Every key of every table with a value that means nothing: each is told at its line. One table at a time, so that no fault is
/// left out for being one of many.
#[test]
fn every_key_of_every_table_is_told_together() {
    let schema = job::schema();
    let of = |name: &str| schema["$defs"][name].clone();
    let shapes = [
        "circle",
        "oval",
        "train",
        "cloth",
        "ellipse",
        "gores",
        "rectangle",
        "polygon",
        "measured",
        "straight",
        "drawn",
    ];
    let mut tables: Vec<(String, String, Vec<&str>)> = Vec::new();
    let mut add = |heading: &str, keys: &str, left_out: &[&'static str]| {
        tables.push((heading.to_owned(), keys.to_owned(), left_out.to_vec()));
    };
    for shape in shapes {
        let keys = format!("{}{}Keys", shape[..1].to_uppercase(), &shape[1..]);
        // A drawn hem is drawn in panels or as a whole.
        let left_out: &[&str] = if shape == "drawn" { &["outline"] } else { &[] };
        add(&format!("[hem.{shape}]"), &keys, left_out);
    }
    add("[hem]", "HemKeys", &[]);
    add("[hem.opening]", "OpeningKeys", &[]);
    add("[[hem.godet]]", "GodetKeys", &[]);
    add("[hem.drawn.panel.front]", "PanelKeys", &["mirror_of"]);
    add("[garment]", "GarmentKeys", &[]);
    add("[[band]]", "BandKeys", &[]);
    add("[[keep_out]]", "KeepOutKeys", &[]);
    add("[motif.other]", "MotifKeys", &[]);
    add("[motif.other.prepare]", "PrepareKeys", &[]);
    add("[motif.other.limits]", "LimitKeys", &[]);
    add("[film.red]", "FilmKeys", &["sheets"]);
    add("[every_film]", "FilmKeys", &["sheets"]);
    add("[[trim]]", "TrimKeys", &[]);
    add("[[zone]]", "ZoneKeys", &[]);
    add("[press]", "PressKeys", &[]);
    add("[press.tested]", "TestedKeys", &[]);
    add("[rates]", "RateKeys", &[]);
    add("[papers]", "PapersKeys", &[]);
    add("[laying]", "LayingKeys", &[]);
    add("[size.large]", "SizeKeys", &[]);
    let mut tried = BTreeSet::new();
    for (heading, keys, left_out) in tables {
        let mut table = Table { text: String::new(), wrong: Vec::new() };
        table.line(&heading);
        fill(&mut table, &schema, &of(&keys), &left_out);
        let own_shape = heading.starts_with("[hem.") && !heading.starts_with("[hem.opening");
        let rest = "[motif.a]\nart = \"a.svg\"\n";
        table.text.push_str(rest);
        if !own_shape {
            // The hem has a fault of its own, behind which nothing may hide.
            table.text.push_str("[hem.circle]\nlength = \"1 m\"\n");
        }
        if heading != "[[band]]" {
            table.text.push_str("[[band]]\ngap = \"1 mm\"\n");
        }
        let fault = job::read(&table.text).unwrap_err();
        let line = |at: usize| table.text[..at].matches('\n').count() + 1;
        let told: Vec<usize> =
            fault.faults().iter().filter_map(|fault| fault.at.as_ref()).map(|at| line(at.start)).collect();
        assert!(told.is_sorted(), "{told:?}");
        for wanted in &table.wrong {
            let own = table.text.lines().nth(wanted - 1).unwrap();
            assert!(told.contains(wanted), "{heading}: nothing is told of  {own}\n{fault}");
        }
        tried.insert(keys);
    }
    // A table that is new to the schema must be tried too; the colours and sheets of a list have their own tests.
    let all: BTreeSet<String> = schema["$defs"].as_object().unwrap().keys().cloned().collect();
    let untried: Vec<&String> = all.difference(&tried).collect();
    assert_eq!(untried, ["ColourKeys", "ColourTable", "SheetKeys"]);
}

fn told(text: &str) -> Vec<String> {
    let fault = job::read(text).unwrap_err();
    let line = |at: usize| text[..at].matches('\n').count() + 1;
    let told = |fault: &job::Fault| format!("{} {}", fault.at.as_ref().map_or(0, |at| line(at.start)), fault.kind);
    fault.faults().iter().map(told).collect()
}

/// Faults that lie between keys and between tables, none of which hides another.
#[test]
fn faults_between_keys_and_tables_are_told_together() {
    let text = r#"[hem.circle]
waist = "720 mm"
[hem]
ends = "ajar"
ends_clear = "-1 mm"
[hem.opening]
underlap = "-2 mm"
[[band]]
name = "lower"
tied_to = "nobody"
times = "often"
corner = "sq"
corner_takes = "0 mm"
rows = 0
rise = "-1 mm"
offset = "sideways"
[[band]]
name = "lower"
window = 3
height = "-3 m"
count = 0
gap = "-1 mm"
[[band]]
tied_to = "band 3"
[motif.sq]
art = "sq.svg"
[[keep_out]]
along_from = "wide"
along_to = "1 m"
from = "20 mm"
to = "10 mm"
[[trim]]
kind = "braiding"
depth = "0 mm"
weight = -1
[every_film]
sheets = [{ size = "big", roll = "0 mm" }]
[size.large]
length = "0 mm"
[size.as]
"#;
    let wanted = [
        "1 [hem.circle] has no length",
        "4 \"ajar\" is not known here",
        "5 ends_clear is -1.0 mm; it must not be less than zero",
        "7 underlap is -2.0 mm; it must not be less than zero",
        "10 there is no band \"nobody\" in this job",
        "11 \"often\" does not say how many motifs for those of another band",
        "12 sq is asked for in the corners, and this hem has no corners",
        "13 corner_takes is 0.0 mm; it must be more than zero",
        "14 rows is 0; it must be more than zero",
        "15 rise is -1.0 mm; it must be more than zero",
        "16 \"sideways\" is not known here",
        "18 the band name \"lower\" is given twice",
        "20 height is -3000.0 mm; it must not be less than zero",
        "19 only one of these may be given: height, window",
        "21 count is 0; it must be more than zero",
        "22 gap is -1.0 mm; it must not be less than zero",
        "24 a band cannot follow itself",
        "28 \"wide\" is not a length: write for instance \"60 mm\" or \"1 1/2 in\"",
        "30 from is 20.0 mm, which is not less than to, 10.0 mm",
        "33 \"braiding\" is not known here",
        "34 depth is 0.0 mm; it must be more than zero",
        "35 weight is -1; it must not be less than zero",
        "37 \"big\" is not a width and a height",
        "37 only one of these may be given: size, roll",
        "37 roll is 0.0 mm; it must be more than zero",
        "39 length is 0.0 mm; it must be more than zero",
        "40 the size has no measurement",
    ];
    let said = told(text);
    for wanted in wanted {
        assert!(said.iter().any(|said| said.starts_with(wanted)), "not told: {wanted}\n{}", said.join("\n"));
    }
    assert_eq!(said.len(), wanted.len(), "{}", said.join("\n"));
}

/// What is wrong with the lines of a panel is told once, though another is its mirror image.
#[test]
fn a_fault_that_two_tables_share_is_told_once() {
    let said = told(
        "[hem.drawn]\nfile = \"a.svg\"\npanels = [\"l\", \"r\", \"\"]\n[hem.drawn.panel.l]\nhem = 3\nleft = 4\n\
         [hem.drawn.panel.r]\nmirror_of = \"l\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n",
    );
    assert_eq!(said, ["3 nothing stands between the quotes", "5 3 is not a text", "6 4 is not a text"]);
}

/// What TOML knows and no measurement is: told as what it is, and not as what the reader makes of it.
#[test]
fn dates_and_numbers_that_are_none_are_told_as_such() {
    let said = |value: &str| {
        told(&format!("[hem.straight]\nlength = {value}\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n"))
    };
    assert_eq!(said("nan"), ["2 \"NaN\" is not a length: write for instance \"60 mm\" or \"1 1/2 in\""]);
    assert_eq!(said("-inf"), ["2 \"-inf\" is not a length: write for instance \"60 mm\" or \"1 1/2 in\""]);
    let date = "2 a date stands where there should be one value: a text in quotes, a number, true or false";
    assert_eq!(said("1979-05-27"), [date]);
}

/// Ordinary slips in a text that is no TOML: place, what is wrong in plain words, and the very text to write.
#[test]
fn ordinary_slips_are_told_with_what_to_write() {
    for (line, place, say, hint) in [
        ("waist = \u{201c}72 cm\u{201d}", 9, "stands between typographic quotes", "straight: \"72 cm\""),
        ("waist = 70,5 cm", 9, "70,5 cm stands here without quotes", "quotes: \"70,5 cm\""),
        ("waist = 3,5", 9, "3,5 stands here without quotes", "\"3,5 cm\""),
        ("waist = 720 mm", 9, "720 mm stands here without quotes", "quotes: \"720 mm\""),
        ("waist = \"28 1/2\"\"", 9, "for inches, ends this text", "write \"28 1/2 in\""),
        (
            "art = \"art\\rose.svg\"\nart = \"a\\my.svg\"",
            7,
            "a backslash in a text begins a special mark",
            "\"a/my.svg\"",
        ),
        ("waist: \"72 cm\"", 6, "have no = between them", "waist = \"72 cm\""),
        ("my own skirt", 4, "neither a heading nor a key", "a remark begins with #"),
        (
            "length = \"1 m\"",
            1,
            "length is given twice; it stands first on line 2",
            "write each key and each table once",
        ),
        ("[hem.circle]", 6, "[hem.circle] is given twice; it stands first on line 1", "each table once"),
        ("[hem\nseams = [\"CF\",\n\"CB\"", 9, "this list has no end", "write it after the last entry"),
    ] {
        let text = format!("[hem.circle]\nlength = \"2 m\"\n{line}\n[[band]]\ngap = \"1 mm\"\n");
        let said = job::read(&text).unwrap_err().render("job.toml", &text, job::Look::Plain);
        assert!(said.contains(say) && said.contains(hint) && said.contains(&format!(":{place}\n")), "{line}\n{said}");
    }
}

/// What follows from a fault above it is not told: all that comes after a list without end, and the keys of a table given twice.
#[test]
fn what_only_follows_is_left_out() {
    let said = told(
        "[hem]\nseams = [\"CF\"\nends_clear = \"1 mm\"\n[hem.circle]\nwaist = \"1 m\"\n[[band]]\ngap = \"1 mm\"\n",
    );
    assert_eq!(said, ["2 this list has no end"]);
    let said = told("[hem.circle]\nwaist = \"1 m\"\n[hem.circle]\nwaist = \"1 m\"\n[[band]]\ngap = 1 mm\n");
    assert_eq!(said, ["3 [hem.circle] is given twice; it stands first on line 1", "6 1 mm stands here without quotes"]);
    let said = told("[Hem.circle]\nwaist = \"1 m\"\n[[Band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n");
    assert_eq!(said, ["1 unknown key \"Hem\"", "3 unknown key \"Band\""]);
}

/// A quote or bracket that is missing: a line says what to look for.
#[test]
fn what_is_missing_in_a_text_that_is_no_toml_is_hinted_at() {
    for (line, hint) in [
        ("waist = \"720 mm", "write the one that is missing"),
        ("waist = 720 mm\"", "a text lacks one of its two quotes"),
        ("waist = 720 mm", "write the text between quotes"),
        ("waist = '720 mm", "write the one that is missing"),
        ("seams = [\"CF\", \"CB, \"side left\"]", "lacks its closing quote"),
        ("seams = [\"CF\" \"CB\"]", "write a comma between two entries"),
        ("seams = [\"CF\", \"CB\"", "a list ends with ]"),
        ("sheets = [{ size = \"1 x 2 m\" ]", "a table that begins with {"),
        ("waist", "write the key, = and its value"),
        ("length = \"1 m\"", "write each key and each table once"),
    ] {
        let text = format!("[hem.circle]\nlength = \"2 m\"\n{line}\n[[band]]\ngap = \"1 mm\"\n");
        let said = job::read(&text).unwrap_err().render("job.toml", &text, job::Look::Plain);
        assert!(said.contains("hint: ") && said.contains(hint), "{line}\n{said}");
    }
}
