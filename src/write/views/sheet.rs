//! One sheet as it is cut: margin, patches, pieces with a letter for each kind, used length, and whether it is reversed.

use super::{BORDER, WIDTH, heading, legend_item, scale_bar};
use crate::film::PieceKind;
use crate::geometry::{Affine, Outline, Point, Rect, Vec2};
use crate::nest::{self, Turning};
use crate::plan::{FilmSheets, Plan};
use crate::write::drawing::{Anchor, Drawing, Mark, Pen, Words, outline_path, ring_path};
use crate::write::figures::{both, counted};
use crate::write::sheet_facts::{self, Reversed};
use crate::write::{cut_sheet, guide_line, style, swatches};

/// Greatest height of the sheet on paper, mm.
const TALLEST: f64 = 200.0;
/// Room beside the sheet for its measures.
const SIDE: f64 = 9.0;

/// The picture of sheet `number` (from 0) of a film.
pub(crate) fn draw(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> Drawing {
    let film = &plan.films[film_sheets.film];
    let sheet = &film_sheets.layout.sheets[number];
    let width = film.stock[sheet.stock].width;
    let height = sheet_facts::sheet_height(plan, film_sheets, sheet);
    let way = sheet_facts::reversed(plan, film_sheets, sheet);
    let mut drawing = Drawing::new(WIDTH, 10.0, says(plan, film_sheets, number));
    let times = if sheet.copies > 1 { format!(", cut {} times", sheet.copies) } else { String::new() };
    let of = film_sheets.layout.sheets.len();
    let title = format!("{} ({}), sheet {} of {of}{times}", film.key, film.colour_name, number + 1);
    let used = sheet_facts::used_fraction(plan, film_sheets, sheet) * 100.0;
    let sub = format!(
        "{}, {used:.0} % of it in pieces. Drawn as the knife cuts it, seen from the cutting side.",
        film.stock[sheet.stock].name
    );
    let head = heading(&mut drawing, &title, &sub);
    let badge = badge(&mut drawing, way, head);
    if film.turning == Turning::None {
        one_way(&mut drawing, badge);
    }
    let room = WIDTH - 2.0 * BORDER - SIDE;
    let scale = (room / width.get()).min(TALLEST / height.get());
    let corner = Point::new((WIDTH - SIDE - width.get() * scale) / 2.0, badge.y1 + 6.5);
    let place = Affine::translate(corner.to_vec2()) * Affine::scale(scale);
    let edge = place.transform_rect_bbox(Rect::new(0.0, 0.0, width.get(), height.get()));
    drawing.rect(edge, Some(style::CLOTH), Some(Pen::new(style::TEXT, style::FIRM)));
    let margin = edge.inset(-film.margin.get() * scale);
    drawing.rect(margin, None, Some(Pen::new(style::SOFT, style::HAIRLINE).dashed(style::HELP_DASH)));
    pieces(&mut drawing, plan, film_sheets, number, place);
    if number == 0 {
        test_swatches(&mut drawing, plan, film_sheets, place);
    }
    measures(&mut drawing, edge, [&both(width), &both(height)]);
    let mut in_all = counted(sheet.laid.len(), "piece", "pieces") + " in all";
    if sheet.used < height {
        let y = corner.y + sheet.used.get() * scale;
        drawing.line((edge.x0, y), (edge.x1, y), Pen::new(style::ACCENT, style::THIN).dashed(style::SEAM_DASH));
        let swatches = if number == 0 { swatch_squares(plan, film_sheets, place) } else { Vec::new() };
        let used = format!("used length {}", both(sheet.used));
        if let Some(words) = used_length(&used, edge, y, &swatches) {
            drawing.rect(words.bounds().inflate(0.6, 0.0), Some(style::CLOTH), None);
            drawing.words(words);
        } else {
            in_all += &format!("; long dashes: {used}");
        }
    }
    let below = legend(&mut drawing, &letters(plan, film_sheets, number), &in_all, edge.y1 + 6.0);
    scale_bar(&mut drawing, Point::new(BORDER, below + 2.0), scale);
    let scissored =
        sheet.laid.iter().any(|laid| plan.pieces.kinds[film_sheets.items[laid.item]].cut.outlines().len() > 1);
    let cloth = sheet.laid.iter().any(|laid| plan.pieces.kinds[film_sheets.items[laid.item]].grain.is_some());
    let dashed = match (scissored, cloth) {
        (_, true) => "dashed: margin, and the line to fold on; short lines: clips; arrow: grain",
        (true, false) => "dashed: margin and scissor lines",
        (false, false) => "dashed: margin",
    };
    let dashed = match sheet_facts::in_holes(plan, film_sheets, sheet).len() {
        0 => dashed.to_owned(),
        _ => format!("{dashed}; some pieces lie inside others"),
    };
    let note = Words::new(dashed, (WIDTH - BORDER, below + 2.9)).size(style::SMALL);
    drawing.words(note.ink(style::SOFT).anchor(Anchor::End));
    drawing.height = below + 2.0 + BORDER;
    drawing
}

fn says(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> String {
    let sheet = &film_sheets.layout.sheets[number];
    let contents = sheet_facts::contents(plan, film_sheets, sheet);
    let kinds: Vec<String> = contents.iter().map(|(kind, count)| format!("{count} {}", kind.name)).collect();
    format!(
        "Sheet {} of {} of {}, as cut: {}.",
        number + 1,
        film_sheets.layout.sheets.len(),
        plan.films[film_sheets.film].key,
        kinds.join(", ")
    )
}

/// The word that must not be overlooked, in a frame; returns the frame.
fn badge(drawing: &mut Drawing, way: Reversed, y: f64) -> Rect {
    let (words, ink) = match way {
        Reversed::Yes => ("REVERSED already: do not mirror again", style::STOP),
        Reversed::No => ("NOT reversed: do not mirror", style::ACCENT),
        Reversed::Some => ("SOME reversed: cut as it is, do not mirror", style::STOP),
    };
    let words = Words::new(words, (BORDER + 2.0, y + 1.0)).bold().ink(ink);
    let frame = words.bounds().inflate(2.0, 1.2);
    drawing.rect(frame, None, Some(Pen::new(ink, style::FIRM)));
    drawing.words(words);
    frame
}

/// An arrow along the film's direction beside a frame, and what it means: nap, print and brushed lines all run one way.
fn one_way(drawing: &mut Drawing, beside: Rect) {
    let (x, top, foot) = (beside.x1 + 5.0, beside.y0 + 0.4, beside.y1 - 0.4);
    let pen = || Pen::new(style::STOP, style::BOLD);
    drawing.line((x, foot), (x, top), pen());
    for side in [-1.4, 1.4] {
        drawing.line((x + side, top + 2.2), (x, top), pen());
    }
    let words = Words::new("one way: no piece may be turned", (x + 3.5, beside.center().y)).size(style::SMALL);
    let drop = words.bounds().center().y - beside.center().y;
    let at = Point::new(words.at.x, words.at.y - drop);
    drawing.words(Words { at, ..words }.ink(style::STOP));
}

fn pieces(drawing: &mut Drawing, plan: &Plan, film_sheets: &FilmSheets, number: usize, place: Affine) {
    let sheet = &film_sheets.layout.sheets[number];
    let kind_of = |item: usize| &plan.pieces.kinds[film_sheets.items[item]];
    // All patches first: one may lie in the hole of another.
    for laid in &sheet.laid {
        let kind = kind_of(laid.item);
        // A single outline is its own patch; a scissor line on top of it would only blur it.
        if kind.cut.outlines().len() > 1 {
            let pen = Pen::new(style::SOFT, style::HAIRLINE).dashed(style::HELP_DASH);
            drawing.shape(ring_path(&kind.patch, place * laid.transform()), Some(style::PAPER), Some(pen));
        }
    }
    for laid in &sheet.laid {
        let kind = kind_of(laid.item);
        let to_paper = place * laid.transform();
        let mut path = kurbo::BezPath::new();
        for outline in kind.cut.outlines() {
            path.extend(outline_path(&nest::placed(outline, laid), place));
        }
        drawing.shape(path, Some(kind.colour.into()), Some(Pen::new(style::TEXT, style::HAIRLINE * 0.7)));
        for line in cut_sheet::guides(kind, to_paper) {
            drawing.marks.extend(guide_line::shapes(&line).map(Mark::Shape));
        }
        for ring in kind.waste_rings() {
            drawing.shape(ring_path(&ring, to_paper), None, Some(Pen::new(style::TEXT, style::HAIRLINE * 0.7)));
        }
    }
    let in_use = sheet_facts::in_holes(plan, film_sheets, sheet);
    let letters = letters(plan, film_sheets, number);
    for (index, laid) in sheet.laid.iter().enumerate() {
        let kind = kind_of(laid.item);
        let letter = letters.iter().find(|(other, ..)| other.name == kind.name).map_or("?", |(_, letter, _)| letter);
        let bounds = (place * laid.transform()).transform_rect_bbox(kind.patch.bounds());
        let host = in_use.iter().any(|(_, host)| *host == index);
        let spot = host.then(|| beside_hole(kind, place * laid.transform())).flatten();
        let (middle, room) = spot.unwrap_or((bounds.center(), bounds.width().min(bounds.height())));
        let radius = (room * 0.42).min(2.1);
        if radius < 1.3 {
            continue;
        }
        drawing.dot(middle, radius, style::PAPER);
        drawing.words(Words::new(letter, middle).size(radius * 1.45).bold().centred());
    }
}

/// Where a piece with others in its hole takes its letter: the middle of its widest stretch level with its middle, and how
/// wide that is on paper.
fn beside_hole(kind: &PieceKind, to_paper: Affine) -> Option<(Point, f64)> {
    let rings: Vec<_> =
        kind.cut.outlines().iter().flat_map(Outline::rings).map(|ring| ring.transformed(to_paper)).collect();
    let level = to_paper.transform_rect_bbox(kind.patch.bounds()).center().y;
    let mut cuts: Vec<f64> = rings
        .iter()
        .flat_map(crate::geometry::Ring::edges)
        .filter(|(a, b)| (a.y > level) != (b.y > level))
        .map(|(a, b)| a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y))
        .collect();
    cuts.sort_by(f64::total_cmp);
    let widest = cuts.chunks_exact(2).max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))?;
    Some((Point::new(f64::midpoint(widest[0], widest[1]), level), widest[1] - widest[0]))
}

/// The swatches of the test card in the waste, numbered as on the card: scissored out, not in the cut files.
fn test_swatches(drawing: &mut Drawing, plan: &Plan, film_sheets: &FilmSheets, place: Affine) {
    for (number, square) in (1..).zip(swatch_squares(plan, film_sheets, place)) {
        drawing.rect(square, None, Some(Pen::new(style::ACCENT, style::THIN).dashed(style::HELP_DASH)));
        let size = (square.width() * 0.42).min(style::SMALL);
        let words = Words::new(format!("test {number}"), square.center()).size(size).ink(style::ACCENT);
        drawing.words(words.centred());
    }
}

/// Where the swatches of the test card lie on the paper, in the order of their numbers.
fn swatch_squares(plan: &Plan, film_sheets: &FilmSheets, place: Affine) -> Vec<Rect> {
    let half = plan.press.test_card.side.get() / 2.0;
    let square = |middle: Point| Rect::new(middle.x - half, middle.y - half, middle.x + half, middle.y + half);
    swatches::places(plan, film_sheets).into_iter().map(|at| place.transform_rect_bbox(square(at))).collect()
}

/// The words at the line of the used length: close below it if there is room, else close above, as far left as no swatch
/// lies; none where swatches leave no room, since words further off would seem to belong to another line.
fn used_length(text: &str, edge: Rect, y: f64, swatches: &[Rect]) -> Option<Words> {
    let below = y + style::SMALL * 1.4 < edge.y1;
    let at = Point::new(edge.x0 + 1.5, y + if below { style::SMALL * 1.1 } else { -0.8 });
    let words = Words::new(text, at).size(style::SMALL).ink(style::ACCENT).bold();
    let room = (edge.width() - 3.0 - words.width()).max(0.0);
    let across = (0..=24).map(|k| Words { at: at + Vec2::new(room * f64::from(k) / 24.0, 0.0), ..words.clone() });
    let free = |words: &Words| !swatches.iter().any(|square| square.overlaps(words.bounds()));
    across.into_iter().find(free)
}

/// A letter for each kind on the sheet, A first.
fn letters<'a>(plan: &'a Plan, film_sheets: &FilmSheets, number: usize) -> Vec<(&'a PieceKind, String, usize)> {
    let contents = sheet_facts::contents(plan, film_sheets, &film_sheets.layout.sheets[number]);
    let letter = |k: usize| {
        let alphabet = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
        let one = |k: usize| char::from(alphabet[k % alphabet.len()]);
        if k < alphabet.len() { one(k).to_string() } else { format!("{}{}", one(k / alphabet.len() - 1), one(k)) }
    };
    contents.into_iter().enumerate().map(|(k, (kind, count))| (kind, letter(k), count)).collect()
}

fn measures(drawing: &mut Drawing, edge: Rect, [across, down]: [&str; 2]) {
    let top = Words::new(across, (edge.center().x, edge.y0 - 2.0)).size(style::SMALL).ink(style::SOFT);
    drawing.words(top.anchor(Anchor::Middle));
    let at = Point::new(edge.x1 + 3.6, edge.center().y);
    let side = Words { turn: 90.0, ..Words::new(down, at).size(style::SMALL).ink(style::SOFT) };
    drawing.words(side.anchor(Anchor::Middle));
}

/// The letters with their names, and a last line; returns the y below them.
fn legend(drawing: &mut Drawing, letters: &[(&PieceKind, String, usize)], in_all: &str, mut y: f64) -> f64 {
    let mut x = BORDER;
    for (kind, letter, count) in letters {
        let words = format!("{letter}  {} × {}", count, kind.name);
        let width = Words::new(words.clone(), (0.0, 0.0)).size(style::SMALL).width() + style::SMALL + 1.2;
        if x > BORDER && x + width > WIDTH - BORDER {
            x = BORDER;
            y += style::SMALL * 1.7;
        }
        x = legend_item(drawing, Point::new(x, y), kind.colour.into(), &words);
    }
    let words = Words::new(in_all, (BORDER, y + style::SMALL * 1.9)).size(style::SMALL);
    drawing.words(words.ink(style::SOFT));
    y + style::SMALL * 3.4
}
