//! One kind of closure: the layers from the side, as they lie under the plate, and the same place from above, to scale.
//!
//! What is in place is drawn full, what must be away is dashed and named; the layer that sets the limit says so in words.

use super::{BORDER, Labels, WIDTH, heading, scale_bar};
use crate::geometry::{Affine, Point, Rect};
use crate::press::{ClosureKind, SideLayer, TopView, TopZone, What, ZoneState};
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words, ring_path};
use crate::write::figures::{heat, runs};
use crate::write::style::{self, Ink};

/// Height of one layer in the side view, mm on paper.
const LAYER: f64 = 6.4;
/// Width of the side view's bars.
const BARS: f64 = 102.0;
/// Greatest height of the view from above.
const TALLEST: f64 = 104.0;
/// Room left of the view from above for the names of what runs out of it on that side.
const NAMES: f64 = 52.0;
/// How much of a zone, mm on paper, counts as its end.
const END: f64 = 8.0;
/// Cloth shown round the plate, as a part of its size.
const AROUND: f64 = 0.16;

/// The picture of one kind of closure.
pub(crate) fn draw(kind: &ClosureKind) -> Drawing {
    let mut drawing = Drawing::new(WIDTH, 10.0, says(kind));
    let title = match kind.closures.as_slice() {
        [one] => format!("Closure {one}"),
        several => format!("Closures {}", runs(several)),
    };
    let mut y = heading(&mut drawing, &title, &subtitle(kind));
    for layer in &kind.side {
        side_layer(&mut drawing, layer, y);
        y += LAYER;
    }
    drawing.height = from_above(&mut drawing, &kind.top, y + 5.0) + BORDER;
    drawing
}

fn subtitle(kind: &ClosureKind) -> String {
    let film = if kind.films.is_empty() { String::new() } else { format!(" Film: {}.", kind.films) };
    format!("{}.{film} From the side, then from above.", capital(&kind.name))
}

fn says(kind: &ClosureKind) -> String {
    let beneath: Vec<&str> = kind.side.iter().map(|layer| layer.name.as_str()).collect();
    format!("Layers at closures {}, from the plate down: {}.", runs(&kind.closures), beneath.join("; "))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Fill, line and the words beside a layer.
fn look(layer: &SideLayer) -> (Option<Ink>, Pen, &'static str) {
    let line = Pen::new(style::TEXT, style::THIN);
    match layer.what {
        What::Plate => (Some(style::RULE), Pen::new(style::STOP, style::FIRM), "hot"),
        What::Cover => (Some(style::PAPER), line, ""),
        What::Film => (Some(style::TINT), line, "film"),
        What::Over => (Some(style::CLOTH), line, "on the cloth"),
        What::Cloth => (Some(style::CLOTH), line, "cloth"),
        What::Beneath => (Some(style::CLOTH), line, "beneath"),
        What::Away => (None, Pen::new(style::STOP, style::THIN).dashed(style::HELP_DASH), "AWAY"),
        What::Pad => (Some(style::RULE), line, ""),
    }
}

fn side_layer(drawing: &mut Drawing, layer: &SideLayer, y: f64) {
    let (fill, pen, beside) = look(layer);
    drawing.rect(Rect::new(BORDER, y, BORDER + BARS, y + LAYER - 0.8), fill, Some(pen));
    let at = Point::new(BORDER + 2.0, y + LAYER / 2.0 + style::SMALL * 0.1);
    drawing.words(Words::new(layer.name.clone(), at).size(style::SMALL).within(BARS - 4.0));
    let limit = layer.limit.map_or_else(String::new, |limit| format!("at most {}", heat(limit)));
    let weakest = if layer.weakest { "sets the limit" } else { "" };
    let said: Vec<&str> = [beside, &limit, weakest].into_iter().filter(|word| !word.is_empty()).collect();
    let words = Words::new(said.join(", "), (BORDER + BARS + 3.0, at.y)).size(style::SMALL);
    let words = match (layer.weakest, layer.what) {
        (true, _) | (_, What::Away) => words.bold().ink(style::STOP),
        _ => words.ink(style::SOFT),
    };
    drawing.words(words.within(WIDTH - 2.0 * BORDER - BARS - 3.0));
}

/// The view from above; returns the y below it.
fn from_above(drawing: &mut Drawing, top: &TopView, y: f64) -> f64 {
    let shown = top.plate.inflate(top.plate.width() * AROUND, top.plate.height() * AROUND);
    let beside = names_beside(top, shown);
    let room = WIDTH - 2.0 * BORDER - if beside { NAMES } else { 0.0 };
    let scale = (room / shown.width()).min(TALLEST / shown.height());
    let spare = room - shown.width() * scale;
    let corner = Point::new(WIDTH - BORDER - shown.width() * scale - if beside { 0.0 } else { spare / 2.0 }, y);
    let place = Affine::translate(corner.to_vec2()) * Affine::scale(scale) * Affine::translate((-shown.x0, -shown.y0));
    let window = place.transform_rect_bbox(shown);
    drawing.rect(window, Some(style::PAPER), Some(Pen::new(style::RULE, style::HAIRLINE)));
    let mut inner = Drawing::new(WIDTH, window.y1, String::new());
    for zone in &top.zones {
        zone_area(&mut inner, zone, place);
    }
    for outline in &top.beside {
        inner.outline(outline, place, None, Some(Pen::new(style::SOFT, style::HAIRLINE)));
    }
    for outline in &top.pressed {
        inner.outline(outline, place, Some(style::TINT), Some(Pen::new(style::TEXT, style::THIN)));
    }
    inner.polyline(top.hem.iter().map(|point| place * *point), Pen::new(style::TEXT, style::BOLD));
    let rect = |rect: Rect| place.transform_rect_bbox(rect);
    inner.rect(rect(top.plate), None, Some(Pen::new(style::STOP, style::FIRM)));
    inner.rect(rect(top.trusted), None, Some(Pen::new(style::ACCENT, style::THIN).dashed(style::HELP_DASH)));
    drawing.marks.push(Mark::Group(Group { place: Affine::IDENTITY, clip: Some(window), marks: inner.marks }));
    names(drawing, top, place, window);
    let below = window.y1 + 5.0;
    let right = scale_bar(drawing, Point::new(BORDER, below), scale);
    // In the picture the size would lie on the motifs beside the plate.
    let legend = format!(
        "red: whole plate, {:.0} × {:.0} mm; dashed blue-green: trusted part; heavy line: hem edge; dashed red: must be away",
        top.plate.width(),
        top.plate.height()
    );
    let words = Words::new(legend, (right + 6.0, below + style::SMALL * 0.36)).size(style::SMALL).ink(style::SOFT);
    drawing.paragraph(&words, WIDTH - BORDER - right - 6.0) - style::SMALL
}

fn zone_area(inner: &mut Drawing, zone: &TopZone, place: Affine) {
    let (fill, pen) = match zone.state {
        ZoneState::InPlace => (Some(style::CLOTH), Pen::new(style::TEXT, style::THIN)),
        ZoneState::FoldedAway | ZoneState::SewnOnLater => {
            (None, Pen::new(style::STOP, style::THIN).dashed(style::HELP_DASH))
        }
    };
    inner.shape(ring_path(&zone.area, place), fill, Some(pen));
}

/// Whether a zone runs out of the view at its left end.
fn runs_out(zone: &TopZone, shown: Rect) -> bool {
    let points = zone.area.points();
    let meets = points.iter().any(|point| shown.contains(*point));
    meets && points.iter().any(|point| point.x <= shown.x0)
}

fn names_beside(top: &TopView, shown: Rect) -> bool {
    top.zones.iter().any(|zone| runs_out(zone, shown))
}

/// Points of an edge, no more than a mm apart on paper: an edge may cross the view with both ends outside it.
fn along(a: Point, b: Point) -> impl Iterator<Item = Point> {
    let steps = a.distance(b).ceil().clamp(1.0, 2000.0);
    (0..=2000_u32).map(f64::from).take_while(move |k| *k <= steps).map(move |k| a.lerp(b, k / steps))
}

/// The words for a zone, and their ink.
fn named(zone: &TopZone) -> (String, Ink) {
    match zone.state {
        ZoneState::InPlace => (zone.name.clone(), style::TEXT),
        ZoneState::FoldedAway => (format!("{}: folded away", zone.name), style::STOP),
        ZoneState::SewnOnLater => (format!("{}: sewn on later", zone.name), style::STOP),
    }
}

/// Names of zones: of those that run out of the view on the left, beside it, so that no word lies on a motif; of seams
/// at their upper end, of the others under their lowest point, on paper of their own since lines run below them.
fn names(drawing: &mut Drawing, top: &TopView, place: Affine, window: Rect) {
    let shown = place.inverse().transform_rect_bbox(window);
    let mut labels = Labels::default();
    for zone in &top.zones {
        let (word, ink) = named(zone);
        let points: Vec<Point> = zone.area.edges().flat_map(|(a, b)| along(place * a, place * b)).collect();
        let inside = || points.iter().filter(|point| window.inflate(1.0, 1.0).contains(**point));
        let (Some(left), Some(lowest)) =
            (inside().map(|point| point.x).min_by(f64::total_cmp), inside().max_by(|a, b| a.y.total_cmp(&b.y)))
        else {
            continue;
        };
        let words = Words::new(word, *lowest).size(style::SMALL).bold().ink(ink);
        if runs_out(zone, shown) {
            let at_left = inside().filter(|point| point.x <= left + END).map(|point| point.y);
            let highest = at_left.min_by(f64::total_cmp).unwrap_or(lowest.y);
            let y = (highest + 1.0).clamp(window.y0 + 4.0, window.y1 - 2.0);
            let words = Words { at: (window.x0 - 2.0, y).into(), ..words }.anchor(Anchor::End);
            labels.set_block(drawing, &words, window.x0 - BORDER - 2.0, (0.0, 3.2));
            continue;
        }
        let highest = inside().min_by(|a, b| a.y.total_cmp(&b.y)).unwrap_or(lowest);
        let (beside, y) = if highest.y <= window.y0 + END {
            // A seam that runs out of the view at the top: words beside that end lie on no motif and no hem.
            let right = inside().filter(|point| point.y <= highest.y + END).map(|point| point.x);
            (right.max_by(f64::total_cmp).unwrap_or(highest.x), window.y0 + 3.4)
        } else {
            (lowest.x, (lowest.y + 3.5).min(window.y1 - 2.0))
        };
        let wished = beside + 1.5;
        let fits = wished + words.width() <= window.x1 - 1.0;
        let x = if fits { wished.max(window.x0 + 1.5) } else { highest.x - 1.5 - words.width() };
        let words = Words { at: (x, y).into(), ..words };
        let mut lettered = Drawing::new(WIDTH, window.y1, "");
        if let Some(taken) = labels.set(&mut lettered, words, (0.0, 3.2)) {
            drawing.rect(taken, Some(style::PAPER), None);
            drawing.marks.append(&mut lettered.marks);
        }
    }
}
