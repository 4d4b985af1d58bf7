//! Pieces of cloth: the grain arrow, fusible web, and stitching with its thread.
//!
//! Thread of a close zigzag: each stitch of length l and width w lays sqrt(w² + l²) of thread on top, so an edge of length
//! e takes e x sqrt(w² + l²) / l, a share more for interlocking and the thickness of the cloth, and from below a share of
//! that. An edge sewn down by hand is reckoned like a straight seam, in all two and a half times its length. Values and
//! their sources are figures of `data/trims.toml`.

use super::{Film, Method, PieceKind, Pieces, Travels};
use crate::data::{figure, usual};
use crate::geometry::{Outline, Point, Rect, Ring};
use crate::quantity::{Mm, mm};

/// What the cloth pieces of one cloth need beside the cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct FabricNeed {
    /// Key of the cloth.
    pub film: String,
    /// Length of fusible web of its usual width; `None` for turned edges.
    pub web: Option<Mm>,
    /// Length of edge to stitch on the garment.
    pub edge: Mm,
    /// Thread from above; all thread for hand sewing.
    pub thread_above: Mm,
    /// Thread from below; none for hand sewing.
    pub thread_below: Mm,
    /// The sums, one line each.
    pub working: Vec<String>,
}

/// What every cloth of the job needs, in the order of the films. Spares and tests take web, but are not stitched.
#[must_use]
pub fn fabric_needs(pieces: &Pieces, films: &[Film]) -> Vec<FabricNeed> {
    let of = |film: &Film| {
        let kinds: Vec<&PieceKind> = pieces
            .kinds
            .iter()
            .filter(|kind| kind.film == film.key && kind.method.travels() == Travels::Singly)
            .collect();
        (!kinds.is_empty()).then(|| need(&film.key, &kinds))
    };
    films.iter().filter_map(of).collect()
}

fn need(film: &str, kinds: &[&PieceKind]) -> FabricNeed {
    let mut working = Vec::new();
    let (mut edge, mut above, mut below) = (0.0, 0.0, 0.0);
    let fused: Vec<&PieceKind> = kinds.iter().copied().filter(|kind| is_fused(kind.method)).collect();
    let turned: Vec<&PieceKind> = kinds.iter().copied().filter(|kind| !is_fused(kind.method)).collect();
    let web = (!fused.is_empty()).then(|| web(&fused, &mut working));
    if !fused.is_empty() {
        let length = edges(&fused);
        let (width, step) = (usual("satin-width"), usual("satin-length"));
        let times = width.hypot(step) / step;
        let top = length * times * (1.0 + usual("thread-extra"));
        working.push(format!(
            "close zigzag {width} mm wide, {step} mm long: {:.2} m of edge x {times:.1} x {:.2} = {:.1} m of thread, and {} times \
             that from below ({})",
            length / 1000.0,
            1.0 + usual("thread-extra"),
            top / 1000.0,
            usual("bobbin-share"),
            source("satin-width"),
        ));
        edge += length;
        above += top;
        below += top * usual("bobbin-share");
    }
    if !turned.is_empty() {
        let length = edges(&turned);
        let times = usual("seam-thread");
        working.push(format!(
            "sewn down by hand, reckoned like a straight seam: {:.2} m of edge x {times} = {:.1} m of thread ({})",
            length / 1000.0,
            length * times / 1000.0,
            source("seam-thread"),
        ));
        edge += length;
        above += length * times;
    }
    FabricNeed { film: film.to_owned(), web, edge: mm(edge), thread_above: mm(above), thread_below: mm(below), working }
}

/// `rates [106] from memory`: where the rates of a sum come from, for the paper.
fn source(key: &str) -> String {
    figure(key).map_or_else(String::new, |figure| format!("rates {}", figure.sources()))
}

const fn is_fused(method: Method) -> bool {
    matches!(method, Method::FusedTraced | Method::FusedBacked)
}

/// Length of all finished edges on the garment.
fn edges(kinds: &[&PieceKind]) -> f64 {
    let length =
        |kind: &PieceKind| -> f64 { kind.finished().iter().flat_map(Outline::rings).map(Ring::perimeter).sum() };
    kinds.iter().map(|kind| length(kind) * f64::from(kind.needed)).sum()
}

/// Web in rows across its width, each piece with its box; the rows of all kinds one after the other.
fn web(kinds: &[&PieceKind], working: &mut Vec<String>) -> Mm {
    let width = usual("web-width");
    let mut length = 0.0;
    for kind in kinds {
        let box_ = kind.patch.bounds();
        let in_a_row = (width / box_.width()).floor().max(1.0);
        let rows = (f64::from(kind.quantity()) / in_a_row).ceil();
        length += rows * box_.height();
        working.push(format!(
            "web for {}: {} pieces, {in_a_row} side by side on {width} mm: {rows} {} x {:.1} mm",
            kind.name,
            kind.quantity(),
            if rows > 1.0 { "rows" } else { "row" },
            box_.height()
        ));
    }
    mm(length)
}

/// The grain arrow: along the motif's upright axis, through the middle of the piece, up to two thirds of its height.
#[must_use]
pub(super) fn grain_arrow(bounds: Rect) -> (Point, Point) {
    let (middle, reach) = (bounds.center(), bounds.height() / 3.0);
    (Point::new(middle.x, middle.y + reach), Point::new(middle.x, middle.y - reach))
}
