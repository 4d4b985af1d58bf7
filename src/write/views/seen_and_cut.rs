//! A motif as seen on the garment beside each of its pieces as they are cut, so that nobody mirrors twice.

use super::{BORDER, WIDTH, heading, motif_paint, scale_bar};
use crate::art::Motif;
use crate::film::PieceKind;
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::plan::Plan;
use crate::write::drawing::{Anchor, Drawing, Pen, Words, ring_path};
use crate::write::figures::{both, counted};
use crate::write::lettering::{self, Weight};
use crate::write::{sheet_facts, style};

/// Cells across.
const ACROSS: usize = 3;
/// Room for the four lines of words under a cell.
const CAPTION: f64 = 19.0;

/// The picture of one motif.
pub(crate) fn draw(plan: &Plan, motif: &Motif) -> Drawing {
    let kinds: Vec<&PieceKind> = plan.pieces.kinds.iter().filter(|kind| kind.motif == motif.name).collect();
    let says = format!(
        "{} as seen on the garment, {} wide and {} high, beside its {} as cut.",
        motif.name,
        motif.width,
        motif.height,
        counted(kinds.len(), "piece", "pieces")
    );
    let mut drawing = Drawing::new(WIDTH, 10.0, says);
    let head = heading(
        &mut drawing,
        &format!("{}: as seen, and as cut", motif.name),
        "The files are as cut. Dashed: where scissors part the patch from its neighbours.",
    ) + 2.0;
    let cell = (WIDTH - 2.0 * BORDER) / ACROSS as f64;
    let picture = cell - 6.0;
    let scale = cell_scale(motif, &kinds, picture);
    let heights: Vec<f64> = std::iter::once(motif.height.get())
        .chain(kinds.iter().map(|kind| kind.patch.bounds().height()))
        .map(|height| height * scale + 5.0)
        .collect();
    let rows: Vec<f64> = heights.chunks(ACROSS).map(|row| row.iter().copied().fold(0.0, f64::max)).collect();
    let corner = |k: usize| {
        let above: f64 = rows[..k / ACROSS].iter().map(|row| row + CAPTION).sum();
        Point::new(BORDER + (k % ACROSS) as f64 * cell, head + above)
    };
    let (as_seen, tallest) = (corner(0), rows[0]);
    let middle = as_seen + Vec2::new(cell / 2.0, tallest / 2.0);
    motif_paint::paint(&mut drawing, motif, Affine::translate(middle.to_vec2()) * Affine::scale(scale));
    let size = format!("{} wide", both(motif.width));
    let high = format!("{} high", both(motif.height));
    caption(&mut drawing, as_seen, tallest, cell, ["as seen on the garment", &size, &high, ""], style::TEXT);
    for (k, kind) in kinds.iter().enumerate() {
        piece(&mut drawing, plan, kind, corner(k + 1), (cell, rows[(k + 1) / ACROSS]), scale);
    }
    let bottom = head + rows.iter().map(|row| row + CAPTION).sum::<f64>() + 1.0;
    scale_bar(&mut drawing, Point::new(BORDER, bottom), scale);
    drawing.height = bottom + BORDER;
    drawing
}

fn cell_scale(motif: &Motif, kinds: &[&PieceKind], room: f64) -> f64 {
    let widest = kinds.iter().map(|kind| kind.patch.bounds().width()).fold(motif.width.get(), f64::max);
    let highest = kinds.iter().map(|kind| kind.patch.bounds().height()).fold(motif.height.get(), f64::max);
    (room / widest.max(1.0)).min(70.0 / highest.max(1.0)).min(1.0)
}

fn piece(drawing: &mut Drawing, plan: &Plan, kind: &PieceKind, corner: Point, (cell, tallest): (f64, f64), scale: f64) {
    let bounds = kind.patch.bounds();
    let middle = corner + Vec2::new(cell / 2.0, tallest / 2.0);
    let place =
        Affine::translate(middle.to_vec2()) * Affine::scale(scale) * Affine::translate(-bounds.center().to_vec2());
    let pen = Pen::new(style::SOFT, style::THIN).dashed(style::HELP_DASH);
    if kind.cut.outlines().len() > 1 {
        drawing.shape(ring_path(&kind.patch, place), Some(style::CLOTH), Some(pen));
    }
    for outline in kind.cut.outlines() {
        drawing.outline(outline, place, Some(kind.colour.into()), Some(Pen::new(style::TEXT, style::HAIRLINE)));
    }
    let film = plan.films.iter().find(|film| film.key == kind.film);
    let colour_name = film.map_or("", |film| film.colour_name.as_str());
    let from = if colour_name.is_empty() || colour_name == kind.film {
        format!("from {}", kind.film)
    } else {
        format!("from {} ({colour_name})", kind.film)
    };
    let (way, ink) =
        if sheet_facts::is_reversed(kind) { ("reversed", style::STOP) } else { ("not reversed", style::FINE) };
    let number = format!("{} to cut: {} + {} spare", kind.quantity(), kind.needed, kind.spares);
    let tests = if kind.tests > 0 { format!(" + {} test", kind.tests) } else { String::new() };
    caption(drawing, corner, tallest, cell, [&kind.name, &from, &format!("{number}{tests}"), way], ink);
}

fn caption(drawing: &mut Drawing, corner: Point, tallest: f64, cell: f64, lines: [&str; 4], last: style::Ink) {
    let mut y = corner.y + tallest + style::BODY;
    for (k, text) in lines.into_iter().enumerate() {
        let (size, weight) = if k == 0 { (style::BODY, Weight::Bold) } else { (style::SMALL, Weight::Regular) };
        let fitted = lettering::fitted(text, size, weight, cell - 3.0);
        let mut words = Words::new(fitted, (corner.x + cell / 2.0, y)).size(size).anchor(Anchor::Middle);
        words.weight = weight;
        if k == 3 {
            words = words.ink(last).bold();
        }
        if !text.is_empty() {
            drawing.words(words);
        }
        y += size * style::LEADING;
    }
    let frame = Rect::new(corner.x + 0.8, corner.y, corner.x + cell - 0.8, corner.y + tallest + CAPTION - 3.0);
    drawing.rect(frame, None, Some(Pen::new(style::RULE, style::HAIRLINE)));
}
