//! `cut/do-this-first.html`: one page for whoever owns the cutter and knows nothing of the garment.

use askama::Template;

use super::{Picture, picture};
use crate::geometry::Affine;
use crate::nest;
use crate::plan::{FilmSheets, Plan};
use crate::quantity::mm;
use crate::write::cut_sheet::{self, CutSheet};
use crate::write::drawing::{Drawing, Pen, outline_path};
use crate::write::figures::{counted, inches, listed};
use crate::write::sheet_facts::{self, Reversed};
use crate::write::{finished, shopping, style};

#[derive(Template)]
#[template(path = "do_this_first.html", config = "src/write/page/askama.toml")]
struct Helper<'a> {
    job: &'a str,
    version: &'static str,
    css: &'static str,
    lead: String,
    widths: String,
    way: (&'static str, &'static str, &'static str),
    one_way: String,
    sheets: Vec<SheetRow>,
    example_head: String,
    wrong: Vec<WrongRow>,
    pictures: Vec<Picture>,
}

struct SheetRow {
    name: String,
    film: String,
    stock: String,
    times: String,
    pieces: usize,
    size_mm: String,
    size_in: String,
}

struct WrongRow {
    read: &'static str,
    example: String,
    why: &'static str,
    scale: &'static str,
}

/// Sizes that come of a wrong count of drawing units to the inch: 72, 90 and 96 are the ones in use.
const WRONG: [(&str, f64, &str, &str); 4] = [
    ("75 %", 0.75, "made at 72 units to the inch, read at 96", "133.33 %"),
    ("93.75 %", 0.9375, "made at 90 units to the inch, read at 96", "106.67 %"),
    ("106.67 %", 96.0 / 90.0, "made at 96 units to the inch, read at 90", "93.75 %"),
    ("133.33 %", 96.0 / 72.0, "made at 96 units to the inch, read at 72", "75 %"),
];

/// The page's text; `None` when nothing is cut.
pub(crate) fn file(plan: &Plan) -> Option<String> {
    let mut rows = Vec::new();
    let mut pictures = Vec::new();
    let mut ways = Vec::new();
    let mut first = None;
    for film_sheets in &plan.sheets {
        for number in 0..film_sheets.layout.sheets.len() {
            let cut = cut_sheet::cut_sheet(plan, film_sheets, number);
            let size = size(&cut)?;
            first.get_or_insert((cut.name.clone(), size));
            ways.push(sheet_facts::reversed(plan, film_sheets, &film_sheets.layout.sheets[number]));
            pictures.push(picture(
                &thumb(plan, film_sheets, number, &cut),
                &format!("thumb-{}", cut.name),
                cut.name.clone(),
            ));
            rows.push(row(plan, film_sheets, number, &cut, size));
        }
    }
    let (name, (across, down)) = first?;
    let helper = Helper {
        job: &plan.job.name,
        version: env!("CARGO_PKG_VERSION"),
        css: include_str!("page.css"),
        lead: format!("{} to cut, each as SVG, DXF and PDF.", counted(rows.len(), "sheet", "different sheets")),
        widths: finished::widths(plan),
        way: way(&ways),
        one_way: listed(&one_way(plan)),
        example_head: format!("for {name}"),
        wrong: WRONG
            .iter()
            .map(|(read, factor, why, scale)| {
                let example = format!("{:.1} × {:.1} mm", across * factor, down * factor);
                WrongRow { read, example, why, scale }
            })
            .collect(),
        sheets: rows,
        pictures,
    };
    Some(helper.render().expect("the template only shows strings"))
}

/// Films on which no piece may be turned.
fn one_way(plan: &Plan) -> Vec<&str> {
    let films = plan.sheets.iter().filter(|sheets| !sheets.layout.sheets.is_empty());
    let films = films.map(|sheets| &plan.films[sheets.film]);
    films.filter(|film| film.turning == nest::Turning::None).map(|film| film.key.as_str()).collect()
}

/// Width and height of everything cut.
fn size(cut: &CutSheet) -> Option<(f64, f64)> {
    let [x0, y0, x1, y1] = cut.extent()?;
    Some((x1 - x0, y1 - y0))
}

fn row(plan: &Plan, film_sheets: &FilmSheets, number: usize, cut: &CutSheet, (across, down): (f64, f64)) -> SheetRow {
    let (film, sheet) = (&plan.films[film_sheets.film], &film_sheets.layout.sheets[number]);
    SheetRow {
        name: cut.name.clone(),
        film: shopping::film_words(film),
        stock: film.stock[sheet.stock].name.clone(),
        times: counted(sheet.copies as usize, "time", "times"),
        pieces: cut.patches.len(),
        size_mm: format!("{across:.1} × {down:.1} mm"),
        size_in: format!("{} × {}", inches(mm(across)), inches(mm(down))),
    }
}

/// Class, the words that must not be overlooked, and what they mean.
fn way(ways: &[Reversed]) -> (&'static str, &'static str, &'static str) {
    if ways.iter().all(|way| *way == Reversed::Yes) {
        return (
            "stop",
            "Already reversed: do not mirror.",
            "The files show what the knife cuts, from the cutting side.",
        );
    }
    if ways.iter().all(|way| *way == Reversed::No) {
        return ("care", "Not reversed: do not mirror.", "These pieces are cut with their right side up.");
    }
    (
        "stop",
        "Do not mirror anything.",
        "Some pieces are reversed already and some must not be; the files have it right.",
    )
}

/// The sheet's outline with its areas, small.
fn thumb(plan: &Plan, film_sheets: &FilmSheets, number: usize, cut: &CutSheet) -> Drawing {
    let scale = 40.0 / cut.width.max(cut.height);
    let says = format!("{}, {} pieces.", cut.name, cut.patches.len());
    let mut drawing = Drawing::new(cut.width * scale + 1.0, cut.height * scale + 1.0, says);
    let place = Affine::translate((0.5, 0.5)) * Affine::scale(scale);
    let edge = place.transform_rect_bbox(kurbo::Rect::new(0.0, 0.0, cut.width, cut.height));
    drawing.rect(edge, Some(style::CLOTH), Some(Pen::new(style::TEXT, style::THIN)));
    for laid in &film_sheets.layout.sheets[number].laid {
        let kind = &plan.pieces.kinds[film_sheets.items[laid.item]];
        let mut path = kurbo::BezPath::new();
        for outline in kind.cut.outlines() {
            path.extend(outline_path(&nest::placed(outline, laid), place));
        }
        drawing.shape(path, Some(kind.colour.into()), None);
    }
    drawing
}
