//! `hemwright materials`: the built-in tables, each value with its source and how sure it is.

use std::fmt::Write as _;

use clap::builder::styling::Style;
use hemwright::art;
use hemwright::data::{
    FilmClass, LabelEdition, Limit, Material, MaterialKind, Plate, Tables, TurnRule, figures, folded_name,
    nearest_names, sources_text, tables,
};

use super::say;
use super::table::Columns;
use super::trouble::Trouble;

const HEADING: Style = Style::new().bold();
const INFALLIBLE: &str = "writing to a String cannot fail";

const KINDS: [(MaterialKind, &str); 8] = [
    (MaterialKind::Cloth, "Cloth and leather"),
    (MaterialKind::Trim, "Trims"),
    (MaterialKind::Interfacing, "Interfacing"),
    (MaterialKind::Web, "Fusible web"),
    (MaterialKind::Thread, "Thread"),
    (MaterialKind::Decoration, "Sequins, stones, beads"),
    (MaterialKind::Hardware, "Fastenings"),
    (MaterialKind::Structure, "Seams, pockets, film already on the cloth"),
];

/// Lists everything, or what matches a word with all that is known of it.
pub(crate) fn run(word: Option<&str>) -> Result<(), Trouble> {
    let text = match word {
        None => listing(tables()),
        Some(word) => details(tables(), word)?,
    };
    say::out(&text)
}

fn heading(text: &mut String, words: &str) {
    writeln!(text, "{HEADING}{words}{HEADING:#}").expect(INFALLIBLE);
}

fn listing(tables: &Tables) -> String {
    let mut text = String::from(
        "The film maker's own sheet and the garment's care label come before every figure here. Numbers in brackets\n\
         are those of docs/sources.md.  hemwright materials WORD  shows all that is known of one.\n\n",
    );
    for (kind, name) in KINDS {
        heading(&mut text, name);
        let mut columns = Columns::new();
        for material in tables.materials().iter().filter(|material| material.kind == kind) {
            let basis = &material.basis;
            let limit = limit_words(tables, material);
            columns.row([&material.key, &material.name, &limit, &sources_text(&basis.source, basis.confidence)]);
        }
        writeln!(text, "{columns}").expect(INFALLIBLE);
    }
    heading(&mut text, "Films, and cloth pieces with web");
    let mut columns = Columns::new();
    for class in tables.films() {
        let source = sources_text(&class.window.source, class.window.confidence);
        columns.row([&class.key, &class.name, &window_words(class), &source]);
    }
    writeln!(text, "{columns}").expect(INFALLIBLE);
    heading(&mut text, "Presses and irons");
    let mut columns = Columns::new();
    for plate in tables.plates() {
        columns.row([&plate.key, &plate.name, &plate_words(plate), &sources_text(&plate.source, plate.confidence)]);
    }
    writeln!(text, "{columns}").expect(INFALLIBLE);
    labels(&mut text, tables);
    text.push('\n');
    heading(&mut text, "Usual figures: trims, pieces, the press, rates of work");
    writeln!(text, "{}", figure_rows(|_| true)).expect(INFALLIBLE);
    heading(&mut text, "What a drawing may have before it spoils the cut");
    write!(text, "{}", limit_rows(|_| true)).expect(INFALLIBLE);
    text
}

/// Figures whose key is wanted.
fn figure_rows(wanted: impl Fn(&str) -> bool) -> Columns {
    let mut columns = Columns::new();
    for figure in figures().iter().filter(|figure| wanted(&figure.key)) {
        let words = format!("{} (from {} to {}) {}", figure.usual, figure.low, figure.high, figure.unit);
        columns.row([&figure.key, &figure.what, &words, &figure.sources()]);
    }
    columns
}

/// Limits of drawings whose key is wanted.
fn limit_rows(wanted: impl Fn(&str) -> bool) -> Columns {
    let mut columns = Columns::new();
    for row in art::limit_rows().iter().filter(|row| wanted(&row.key)) {
        let working: Vec<&str> = row.working.iter().map(|working| working.words()).collect();
        let words = format!("{} {} for {}", row.usual, row.unit, working.join(", "));
        columns.row([&row.key, &row.what, &words, &sources_text(&row.source, row.confidence)]);
    }
    columns
}

fn labels(text: &mut String, tables: &Tables) {
    heading(text, "Care labels");
    let mut columns = Columns::new();
    for label in tables.labels() {
        let limits = format!(
            "{} by the edition of 2012, {} by that of 2023",
            label.limit(LabelEdition::Of2012),
            label.limit(LabelEdition::Of2023)
        );
        columns.row([&label.words, &limits, &sources_text(&label.source, label.confidence)]);
    }
    write!(text, "{columns}").expect(INFALLIBLE);
}

fn limit_words(tables: &Tables, material: &Material) -> String {
    let ceiling = material.ceiling(tables, LabelEdition::Of2012);
    match (material.limit, ceiling) {
        (Limit::MeltsFrom(_), Some(degrees)) => format!("melts again from {degrees}"),
        (_, Some(degrees)) => format!("at most {degrees}"),
        (_, None) => "never pressed".to_owned(),
    }
}

fn window_words(class: &FilmClass) -> String {
    let ([low, high], [short, long]) = (class.window.c, class.window.s);
    format!("{low:.0} to {high:.0} C, {short:.0} to {long:.0} s")
}

fn plate_words(plate: &Plate) -> String {
    let (along, up) = plate.size();
    format!("{:.0} along the hem, {:.0} up, rim {:.0}", along, up, plate.rim())
}

/// All that is known of what a word names or is part of.
fn details(tables: &Tables, word: &str) -> Result<String, Trouble> {
    let wanted = folded_name(word);
    let named = |key: &str, also: &[String]| key.contains(&wanted) || also.iter().any(|name| name.contains(&wanted));
    let mut text = String::new();
    for material in tables.materials().iter().filter(|material| named(&material.key, &material.also)) {
        material_details(&mut text, tables, material);
    }
    for class in tables.films().iter().filter(|class| named(&class.key, &class.also)) {
        film_details(&mut text, class);
    }
    for plate in tables.plates().iter().filter(|plate| plate.key.contains(&wanted)) {
        heading(&mut text, &format!("{} ({})", plate.name, plate.key));
        let mut columns = Columns::new();
        columns.row(["plate", &plate_words(plate), &plate.sources()]);
        writeln!(text, "{columns}").expect(INFALLIBLE);
    }
    for (name, rows) in [
        ("Usual figures", figure_rows(|key| key.contains(&wanted)).to_string()),
        ("What a drawing may have", limit_rows(|key| key.contains(&wanted)).to_string()),
    ] {
        if !rows.is_empty() {
            heading(&mut text, name);
            writeln!(text, "{rows}").expect(INFALLIBLE);
        }
    }
    if !text.is_empty() {
        return Ok(text);
    }
    Err(Trouble::NoMaterial { word: word.to_owned(), near: near(word) })
}

/// Keys of the tables that are like a word.
pub(crate) fn near(word: &str) -> Vec<String> {
    let keys = tables().materials().iter().map(|material| material.key.as_str());
    let films = tables().films().iter().map(|class| class.key.as_str());
    let near = nearest_names(word, keys.chain(films).chain(tables().plates().iter().map(|plate| plate.key.as_str())));
    near.into_iter().map(str::to_owned).collect()
}

fn material_details(text: &mut String, tables: &Tables, material: &Material) {
    heading(text, &format!("{} ({})", material.name, material.key));
    let mut columns = Columns::new();
    let basis = &material.basis;
    let limit = format!("{}: {}", limit_words(tables, material), basis.why);
    columns.row(["limit", &limit, &sources_text(&basis.source, basis.confidence)]);
    columns.row(["steam", material.steam.words(), ""]);
    columns.row(["too hot", &material.wrong, ""]);
    for fact in &material.facts {
        let [low, high] = fact.c;
        let range = if high > low { format!("{low:.0} to {high:.0} C") } else { format!("{low:.0} C") };
        columns.row(["known", &format!("{}: {range}", fact.what), &sources_text(&fact.source, fact.confidence)]);
    }
    also(&mut columns, &material.also);
    writeln!(text, "{columns}").expect(INFALLIBLE);
}

fn film_details(text: &mut String, class: &FilmClass) {
    heading(text, &format!("{} ({})", class.name, class.key));
    let mut columns = Columns::new();
    let window = &class.window;
    columns.row(["range", &window_words(class), &sources_text(&window.source, window.confidence)]);
    let usual = &class.usual;
    let words = format!("{:.0} C, {:.0} s, where the job gives no other", usual.c, usual.s);
    columns.row(["usual", &words, &sources_text(&usual.source, usual.confidence)]);
    if let Some(trade) = &class.trade {
        let points: Vec<String> = trade.points.iter().map(|[c, s]| format!("{c:.0} C for {s:.0} s")).collect();
        let words = format!("one maker's equal settings for one film: {}", points.join(", "));
        columns.row(["equal", &words, &sources_text(&trade.source, trade.confidence)]);
    }
    let (pressure, peel, layers) = (&class.pressure, &class.peel, &class.layers);
    columns.row(["pressure", &pressure.is, &sources_text(&pressure.source, pressure.confidence)]);
    columns.row(["peel", peel.when.words(), &sources_text(&peel.source, peel.confidence)]);
    let top = if layers.top_only { ", on top only" } else { "" };
    let words = format!("at most {}{top}", layers.most);
    columns.row(["layers", &words, &sources_text(&layers.source, layers.confidence)]);
    let turning = match class.turning.is {
        TurnRule::Free => "any way on the sheet",
        TurnRule::Half => "upright or upside down on the sheet",
        TurnRule::OneWay => "one way on the sheet: its direction shows",
    };
    columns.row(["turning", turning, &sources_text(&class.turning.source, class.turning.confidence)]);
    let cutting = &class.cutting;
    let words = format!(
        "border {} mm, {} mm between pieces, nothing narrower than {} mm",
        cutting.margin_mm, cutting.gap_mm, cutting.stroke_mm
    );
    columns.row(["cutting", &words, &sources_text(&cutting.source, cutting.confidence)]);
    also(&mut columns, &class.also);
    writeln!(text, "{columns}").expect(INFALLIBLE);
}

fn also(columns: &mut Columns, names: &[String]) {
    if !names.is_empty() {
        columns.row(["also", &names.join(", "), ""]);
    }
}
