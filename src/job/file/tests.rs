use super::*;
use crate::hem::{Ends, Flare, Mark, Measurements};
use crate::job::{Look, Paper};
use crate::nest::{Effort, Turning};
use crate::place::{Anchor, Hands, Level, Spacing};
use crate::press::ZoneState;
use crate::quantity::mm;

const FULL: &str = r##"
[garment]
name = "summer skirt"
cloth = "silk-dupion"
label = "2023"

[hem]
seams = ["side left", "side right", "350 mm"]
seams_clear = "1/2 in"
[hem.circle]
fraction = "3/4"
waist = "72 cm"
length = "27 1/2 in"
[hem.opening]
at = "CB"
underlap = "40 mm"
keep_clear = "10 mm"

[[band]]
name = "lower"
height = "75 mm"
motifs = ["poppy", "leaf"]
gap = "40 mm"
cf = "motif"
stance = "square to hem"
hands = "mirrored right"

[[band]]
lower_edge = "150 mm"
motifs = ["leaf"]
count = 12

[motif.poppy]
art = "poppy.svg"
width = "60 mm"
spares = 2
tests = 0
[motif.poppy.colours]
"#c62828" = "red"
"#2e7d32" = { film = "green", method = "fused traced" }

[motif.leaf]
art = "leaf.svg"
film = "green"

[film.red]
class = "glitter"
colour = "poppy red"
sheets = [{ size = "300 x 500 mm", price = 6.50, have = 2 }, { roll = "50 cm", price = 12 }]
margin = "6 mm"
gap = "3 mm"
one_way = true

[film.green]
turning = "quarter turns"

[[zone]]
name = "stiff braid"
material = "braid-nylon"
to = "150 mm"
along_from = "-100 mm"
along_to = "100 mm"
state = "sewn on later"

[press]
plate = "15 x 15 in"
rim = "10 mm"
temperature = "300 F"
dwell = "15 s"
tack = "3 s"
pre_press = "5 s"
handling = "40 s"
one_at_a_time = true

[papers]
paper = "Letter"

[laying]
effort = "thorough"
seed = 7
"##;

const SMALLEST: &str = r#"
[hem.measured]
hem = "5118 mm"
[[band]]
gap = "40 mm"
[motif.flower]
art = "flower.svg"
width = "60 mm"
"#;

/// The faults of a job file as one line each.
fn faults(text: &str) -> Vec<String> {
    read(text).unwrap_err().faults().iter().map(|fault| fault.kind.to_string()).collect()
}

/// The one fault of a job file, its hint, and the part of the file it points at.
fn fault(text: &str) -> (String, String, &str) {
    let error = read(text).unwrap_err();
    let [fault] = error.faults() else { panic!("one fault wanted: {error}") };
    let at = fault.at.clone().map_or("", |at| &text[at]);
    (fault.kind.to_string(), fault.kind.hint().unwrap_or_default(), at)
}

#[test]
fn every_key_of_a_full_job_reaches_the_stage_it_is_for() {
    let job = read(FULL).unwrap();
    assert_eq!(job.name, "summer skirt");
    assert_eq!(job.hem.measurements, Measurements::Circle { fraction: 0.75, waist: mm(720.0), length: mm(698.5) });
    assert_eq!(job.hem.ends, Ends::Opening { at: Mark::CentreBack, underlap: mm(40.0), keep_clear: mm(10.0) });
    assert_eq!(job.hem.seams.len(), 3);
    assert_eq!(job.hem.seams[2].at, Mark::At(mm(350.0)));
    assert!((job.hem.seams[0].keep_clear.get() - 12.7).abs() < 1e-9);
    let [lower, upper] = &job.bands[..] else { panic!("two bands") };
    assert_eq!((lower.height, lower.level, lower.spacing), (mm(75.0), Level::Middle, Spacing::AtLeast(mm(40.0))));
    assert_eq!((lower.on_cf, lower.hands), (Anchor::Motif, Hands::MirroredRight));
    assert_eq!((upper.name.as_str(), upper.level, upper.spacing), ("band 2", Level::LowerEdge, Spacing::Count(12)));
    assert_eq!(job.motifs[0].file, "poppy.svg");
    assert_eq!(job.motifs[1].width, None);
    assert_eq!((job.cuts[0].spares, job.cuts[0].tests), (Some(2), 0));
    assert_eq!(job.cuts[0].colours.len(), 2);
    assert_eq!(job.cuts[1].film.as_deref(), Some("green"));
    let red = &job.films[0];
    assert_eq!((red.key.as_str(), red.class.as_str(), red.turning), ("red", "glitter", Turning::None));
    assert_eq!(red.stock[0].name, "300 x 500 mm sheet");
    assert_eq!((red.stock[0].price, red.stock[0].available), (None, Some(2)));
    assert_eq!((red.stock[1].name.as_str(), red.stock[1].price), ("300 x 500 mm sheet", Some(6.5)));
    assert_eq!((red.stock[2].name.as_str(), red.stock[2].height), ("500 mm roll", None));
    assert_eq!((red.stock[2].price, red.stock[2].available), (Some(12.0), None));
    assert_eq!(job.films[1].turning, Turning::Steps(90));
    assert_eq!(job.zones[0].state, ZoneState::SewnOnLater);
    assert_eq!(job.zones[0].along, Some((mm(-100.0), mm(100.0))));
    assert_eq!(job.press.plate, (mm(381.0), mm(381.0)));
    assert!(job.press.one_at_a_time && job.press.label_2023);
    assert!((job.press.temperature.unwrap().get() - 148.888_888).abs() < 1e-4);
    assert_eq!((job.paper, job.effort, job.seed), (Paper::Letter, Effort::Thorough, 7));
}

#[test]
fn three_numbers_are_a_job_and_everything_else_is_said() {
    let job = read(SMALLEST).unwrap();
    assert_eq!(job.hem.measurements, Measurements::Measured { hem: mm(5118.0), flare: Flare::Unknown });
    assert_eq!(job.bands[0].motifs, ["flower"]);
    assert_eq!((job.bands[0].height, job.bands[0].level), (mm(20.0), Level::LowerEdge));
    let about: Vec<&str> = job.assumptions.iter().map(|assumption| assumption.about.as_str()).collect();
    for taken in
        ["flare of the hem", "height of the motif line", "cloth of the garment", "plate of the press", "test motifs"]
    {
        assert!(about.contains(&taken), "{taken} is missing from {about:?}");
    }
}

#[test]
fn films_and_motifs_keep_the_order_of_the_file() {
    let text = format!("{SMALLEST}[motif.aster]\nart = \"a.svg\"\n[film.zinc]\n[film.amber]\n");
    let job = read(&text).unwrap();
    assert_eq!(job.motifs.iter().map(|m| m.name.as_str()).collect::<Vec<_>>(), ["flower", "aster"]);
    assert_eq!(job.films.iter().map(|f| f.key.as_str()).collect::<Vec<_>>(), ["zinc", "amber"]);
}

/// A cloth that is named like a film and says no class is no film: turned under or fused, by how its pieces are made.
#[test]
fn what_only_cloth_pieces_are_cut_from_has_a_class_for_cloth() {
    let text = format!(
        "{SMALLEST}[motif.aster]\nart = \"a.svg\"\nfilm = \"lawn\"\nmethod = \"turned on right\"\n\
         [motif.daisy]\nart = \"d.svg\"\nfilm = \"red\"\ncolours = {{ \"#102030\" = {{ film = \"satin\", method = \"fused traced\" }} }}\n\
         [film.lawn]\n[film.satin]\n[film.red]\n[film.spare]\n[every_film]\nclass = \"smooth-low\"\n"
    );
    let job = read(&text).unwrap();
    let classes: Vec<(&str, &str)> = job.films.iter().map(|film| (film.key.as_str(), film.class.as_str())).collect();
    let meant =
        [("lawn", "fabric-turned"), ("satin", "fabric-web-light"), ("red", "smooth-low"), ("spare", "smooth-low")];
    assert_eq!(classes, meant);
    let own = read(&text.replace("[film.satin]\n", "[film.satin]\nclass = \"fabric-web-heavy\"\n")).unwrap();
    assert_eq!(own.films[1].class, "fabric-web-heavy", "what the job says stands");
}

#[test]
fn an_unknown_key_is_refused_with_the_one_that_was_meant() {
    let text = SMALLEST.replace("gap", "gpa");
    assert_eq!(faults(&text), ["unknown key \"gpa\""], "that a gap is missing follows from it");
    let text = SMALLEST.replace("[[band]]", "[[band]]\nheigth = \"75 mm\"");
    assert_eq!(fault(&text), ("unknown key \"heigth\"".into(), "did you mean \"height\"?".into(), "heigth"));
    let text = format!("{SMALLEST}[moon]\n");
    let (say, hint, at) = fault(&text);
    assert_eq!((say.as_str(), at), ("unknown key \"moon\"", "moon"));
    assert!(hint.starts_with("what may stand here: garment, hem, band"), "{hint}");
}

#[test]
fn a_length_without_its_unit_is_told_what_to_write_at_its_place() {
    let text = SMALLEST.replace("\"60 mm\"", "60");
    let (say, _, at) = fault(&text);
    assert_eq!((say.as_str(), at), ("60 has no unit: write \"60 mm\", \"60 cm\" or \"60 in\"", "60"));
    let text = SMALLEST.replace("60 mm", "1,234 mm");
    assert_eq!(fault(&text).2, "\"1,234 mm\"");
}

#[test]
fn all_faults_are_told_at_once_in_the_order_of_the_file() {
    let text = r#"
[hem.circle]
waist = 720
length = "-70 cm"
[[band]]
gap = true
motfis = ["poppy"]
motifs = ["popy"]
[motif.poppy]
art = ["a.svg", "b.svg"]
width = "0 mm"
film = "red"
[press]
dwell = "15"
temperature = "150 K"
"#;
    let error = read(text).unwrap_err();
    insta::assert_snapshot!(error.render("skirt.toml", text, Look::Plain));
}

#[test]
fn a_table_where_a_value_belongs_and_the_other_way_round_are_both_told() {
    let text = SMALLEST.replace("width = \"60 mm\"", "width = { mm = 60 }\n[film]\nred = 5\n");
    let told = faults(&text);
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(told.iter().all(|say| say.contains(" stands where there should be ")), "{told:?}");
}

/// A list of one table where the table itself belongs, and an empty list; either is told by what should stand there.
#[test]
fn a_list_where_a_table_belongs_is_told() {
    for (list, wanted) in [
        ("[press]\ntested = [{ temperature = \"150 C\" }]\n", "a table [press.tested]"),
        ("[press]\ntested = []\n", "a table [press.tested]"),
        ("[hem]\nopening = [{ at = \"CB\" }]\n", "a table [hem.opening]"),
        ("[film]\nred = [\"smooth\"]\n", "a table"),
    ] {
        let told = faults(&format!("{SMALLEST}{list}"));
        let wanted = format!("a list stands where there should be {wanted}");
        assert!(told.iter().any(|say| say.starts_with(&wanted)), "{list}: {told:?}");
        assert!(told.iter().all(|say| !say.contains("length")), "{told:?}");
    }
}

#[test]
fn a_drawing_in_place_of_a_job_is_told_apart() {
    for text in ["<svg/>", "\n\u{feff}<?xml version=\"1.0\"?>\n<svg/>"] {
        let error = read(text).unwrap_err();
        assert_eq!(error.faults().len(), 1);
        let told = error.render("rose.svg", text, Look::Plain);
        assert!(told.starts_with("error: this is a drawing, not a job file"), "{told}");
        assert!(told.contains("hemwright inspect"), "{told}");
    }
}

#[test]
fn what_is_no_job_at_all_is_told_in_a_few_lines() {
    for text in [format!("a = {}", "[".repeat(20_000)), "}]".repeat(10_000), "what is this\n".repeat(1_000)] {
        let error = read(&text).unwrap_err();
        assert!(error.faults().len() <= 7, "{}", error.faults().len());
        assert!(error.render("job.toml", &text, Look::Plain).lines().count() < 60);
    }
    let told = read(&"what is this\n".repeat(1_000)).unwrap_err().to_string();
    assert!(told.ends_with("994 faults more") || told.lines().count() == 1, "{told}");
}

#[test]
fn what_is_no_such_file_at_all_is_told_with_its_line() {
    let text = "[hem.circle\nwaist = \"720 mm\"\n";
    let error = read(text).unwrap_err();
    let told = error.render("skirt.toml", text, Look::Plain);
    assert!(told.contains("skirt.toml:1:12"), "{told}");
    assert!(read(&"#".repeat(LONGEST_FILE + 1)).is_err());
}

#[test]
fn a_hem_has_one_shape() {
    let text = format!("{SMALLEST}[hem.straight]\nlength = \"1 m\"\n");
    let (say, _, _) = fault(&text);
    assert_eq!(say, "only one of these may be given: [hem.measured], [hem.straight]");
    assert!(faults("[hem]\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a\"\n")[0].contains("[hem] has no shape"));
    assert!(faults("")[0].contains("the job has no"), "{:?}", faults(""));
}

#[test]
fn a_name_that_is_no_file_name_is_refused() {
    let text = SMALLEST.replace("motif.flower", "motif.\"../flower\"");
    assert_eq!(fault(&text).0, "\"../flower\" cannot be used as a name");
}

#[test]
fn the_schema_knows_every_table() {
    let schema = schema().to_string();
    for key in ["garment", "seams_clear", "upper_height", "lower_edge", "colours", "one_at_a_time", "effort"] {
        assert!(schema.contains(&format!("\"{key}\"")), "{key} is missing");
    }
}

/// The words of a job file and what trips readers, to be put where they do not belong.
const SHARDS: [&str; 24] = [
    "\"",
    "'",
    "[",
    "]",
    "[[",
    "{",
    "}",
    "=",
    "\n",
    "#",
    ".",
    ",",
    "\u{feff}",
    "é",
    "1e999",
    "-0",
    "0x",
    "nan",
    "true",
    "\"60 mm\"",
    "[hem.circle]",
    "[[band]]",
    "colours = { \"#fff\" = { film = 1 } }",
    "\\u0000",
];

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig { cases: 400, failure_persistence: None, ..Default::default() })]

    #[test]
    fn no_damage_to_a_job_file_makes_the_reader_or_the_messages_panic(
        damage in proptest::collection::vec((0..FULL.len(), 0..40_usize, 0..SHARDS.len() + 1), 1..6)
    ) {
        let mut text = FULL.to_owned();
        for (at, length, shard) in damage {
            let start = (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
            let end = (0..=(start + length).min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
            text.replace_range(start..end.max(start), SHARDS.get(shard).unwrap_or(&""));
        }
        if let Err(error) = read(&text) {
            proptest::prop_assert!(!error.faults().is_empty());
            for look in [Look::Plain, Look::Coloured] {
                proptest::prop_assert!(error.render("job.toml", &text, look).contains("error"));
            }
            for fault in error.faults() {
                let at = fault.at.clone().unwrap_or(0..0);
                proptest::prop_assert!(text.get(at.start..at.end.min(text.len())).is_some(), "{at:?} cuts a letter");
            }
        }
    }

    #[test]
    fn any_text_at_all_is_read_or_refused(text in "\\PC{0,200}") {
        if let Err(error) = read(&text) {
            proptest::prop_assert!(!error.render("job.toml", &text, Look::Plain).is_empty());
        }
    }
}

/// Keys of every table of the schema, nested ones included.
fn schema_keys(value: &serde_json::Value, keys: &mut std::collections::BTreeSet<String>) {
    if let Some(properties) = value.get("properties").and_then(|properties| properties.as_object()) {
        keys.extend(properties.keys().cloned());
    }
    match value {
        serde_json::Value::Object(map) => map.values().for_each(|value| schema_keys(value, keys)),
        serde_json::Value::Array(list) => list.iter().for_each(|value| schema_keys(value, keys)),
        _ => {}
    }
}

#[test]
fn every_key_of_the_job_file_is_explained_in_the_docs() {
    let docs = include_str!("../../../docs/formats.md");
    let mut keys = std::collections::BTreeSet::new();
    schema_keys(&schema(), &mut keys);
    assert!(keys.len() > 60, "the schema has lost its tables: {keys:?}");
    let told = |key: &String| {
        [format!("`{key}`"), format!("`[{key}]`"), format!("`[[{key}]]`"), format!("[{key}."), format!(".{key}]")]
            .iter()
            .any(|words| docs.contains(words))
            || docs.contains(&format!("{key} = "))
    };
    let silent: Vec<&String> = keys.iter().filter(|key| !told(key)).collect();
    assert!(silent.is_empty(), "docs/formats.md does not explain {silent:?}");
}

#[test]
fn names_with_characters_that_garble_a_page_are_refused() {
    for (name, mark) in [("a\\u0000b", "U+0000"), ("a\\u202eb", "U+202E")] {
        let text = format!("[garment]\nname = \"{name}\"\n");
        let error = read(&text).unwrap_err();
        let say = format!("letter 2 of this text is an unseen mark ({mark}) that would garble the papers");
        let fault = error.faults().iter().find(|fault| fault.kind.to_string() == say).unwrap();
        assert!(fault.kind.hint().unwrap().contains("type it anew"), "{error}");
    }
}

#[test]
fn names_of_a_page_are_refused_with_their_line() {
    let text = format!("[garment]\nname = \"{}\"\n[motif.{}]\nart = \"a.svg\"\n", "a".repeat(5000), "m".repeat(5000));
    let error = read(&text).unwrap_err();
    let said = error.render("job.toml", &text, super::super::Look::Plain);
    assert!(said.contains("a text of 5000 letters is 4800 longer than the 200 that are taken"), "{said:.300}");
    assert!(error.to_string().contains(&format!("\"{}...\" cannot be used as a name", "m".repeat(60))));
    assert!(said.contains("job.toml:2"), "{said:.300}");
}

#[test]
fn hints_fit_what_was_written() {
    let hint = |text: &str| {
        let error = read(text).unwrap_err();
        let hints: Vec<String> = error.faults().iter().filter_map(|fault| fault.kind.hint()).collect();
        hints.join("\n")
    };
    let priced = hint("[every_film]\nsheets = [{ size = \"300 x 500 mm\", price = -5 }]\n");
    assert!(priced.contains("write 0 for none, a number above it without a unit"), "{priced}");
    let panels = |mirror: &str| {
        hint(&format!(
            "[hem.drawn]\nfile = \"a.svg\"\npanels = [\"left\"]\n[hem.drawn.panel.left]\nmirror_of = \"{mirror}\"\n\
             [hem.drawn.panel.front]\nhem = \"f\"\n"
        ))
    };
    assert!(panels("left").contains("name a panel that has lines of its own: front"), "{}", panels("left"));
}
