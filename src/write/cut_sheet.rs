//! One sheet as the knife needs it: every carrier patch with its outlines in sheet millimetres, rounded once.
//!
//! All cut files of a sheet, whatever their format, are written from this one value, so that their geometry is the same
//! to the last digit. Sheet corner at the origin, y down.

use std::collections::BTreeMap;

use crate::art::Colour;
use crate::film::{self, GuideLine, PieceKind};
use crate::geometry::{Affine, Ring};
use crate::plan::{FilmSheets, Plan};

/// A sheet ready to be written.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutSheet {
    /// File name without folder and ending.
    pub(crate) name: String,
    /// Across, in mm.
    pub(crate) width: f64,
    /// Down, in mm: the sheet, or the used length of a roll.
    pub(crate) height: f64,
    /// Finished widths of the motifs it holds pieces of, in words; a comment that no cutter reads.
    pub(crate) widths: String,
    /// In cutting order: left to right in rows, as the nest stage gives them, but what lies in a hole before what is round it.
    pub(crate) patches: Vec<CutPatch>,
}

/// One carrier patch.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutPatch {
    /// Name that is its own on this sheet: `poppy-red-3`.
    pub(crate) id: String,
    /// Drawing colour.
    pub(crate) colour: Colour,
    /// Closed rings in micrometres, last point not repeated; inside by the even-odd rule; from the inside outward, as the
    /// knife cuts them.
    pub(crate) rings: Vec<Vec<[i64; 2]>>,
    /// Closed cuts that only part waste: match marks, weeding box and its relief cuts. Empty unless asked for.
    pub(crate) waste: Vec<Vec<[i64; 2]>>,
    /// Lines drawn on cloth and never cut, in the frame of the sheet: only on what is printed, never in a file for a knife.
    pub(crate) guides: Vec<GuideLine>,
}

impl CutSheet {
    /// Least and greatest x and y of everything cut, in mm: what a stranger reads back as the size of the drawing.
    pub(crate) fn extent(&self) -> Option<[f64; 4]> {
        let points = || self.patches.iter().flat_map(|patch| patch.rings.iter().chain(&patch.waste)).flatten();
        let mm = |um: i64| um as f64 / 1000.0;
        Some([
            mm(points().map(|p| p[0]).min()?),
            mm(points().map(|p| p[1]).min()?),
            mm(points().map(|p| p[0]).max()?),
            mm(points().map(|p| p[1]).max()?),
        ])
    }
}

/// Makes the cutting geometry of sheet `number` (from 0) of a film.
pub(crate) fn cut_sheet(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> CutSheet {
    let sheet = &film_sheets.layout.sheets[number];
    let mut seen = vec![0_u32; plan.pieces.kinds.len()];
    // The same for every piece of a kind, and worth working out once where a drawing has thousands of parts.
    let mut in_order: BTreeMap<usize, Vec<Ring>> = BTreeMap::new();
    let patches = cutting_order(plan, film_sheets, number)
        .into_iter()
        .map(|index| {
            let laid = &sheet.laid[index];
            let kind_index = film_sheets.items[laid.item];
            let kind = &plan.pieces.kinds[kind_index];
            seen[kind_index] += 1;
            let knife = in_order.entry(kind_index).or_insert_with(|| film::in_cut_order(kind.cut.outlines()));
            let placed = |rings: &[Ring]| -> Vec<Vec<[i64; 2]>> {
                rings.iter().map(|ring| rounded(&ring.transformed(laid.transform()))).filter(|r| r.len() > 2).collect()
            };
            CutPatch {
                id: patch_id(kind, seen[kind_index]),
                colour: kind.colour,
                rings: placed(knife),
                waste: placed(&kind.waste_rings()),
                guides: guides(kind, laid.transform()),
            }
        })
        .collect();
    CutSheet {
        name: super::names::sheet(plan, film_sheets, number),
        width: plan.films[film_sheets.film].stock[sheet.stock].width.rounded(),
        height: super::sheet_facts::sheet_height(plan, film_sheets, sheet).rounded(),
        widths: super::finished::widths_on_sheet(plan, film_sheets, number),
        patches,
    }
}

/// Places in the sheet's list in the order of cutting: a piece in the hole of another is cut while the film round it is whole.
fn cutting_order(plan: &Plan, film_sheets: &FilmSheets, number: usize) -> Vec<usize> {
    let inside = super::sheet_facts::in_holes(plan, film_sheets, &film_sheets.layout.sheets[number]);
    let mut order = Vec::new();
    for index in 0..film_sheets.layout.sheets[number].laid.len() {
        let is_inside = inside.iter().any(|(inner, _)| *inner == index);
        if !is_inside {
            cut_with(index, &inside, &mut order);
        }
    }
    order
}

fn cut_with(index: usize, inside: &[(usize, usize)], order: &mut Vec<usize>) {
    inside.iter().filter(|(_, host)| *host == index).for_each(|(inner, _)| cut_with(*inner, inside, order));
    order.push(index);
}

/// The lines drawn on a piece where it lies.
pub(crate) fn guides(kind: &PieceKind, place: Affine) -> Vec<GuideLine> {
    let moved =
        |line: GuideLine| GuideLine { points: line.points.iter().map(|point| place * *point).collect(), ..line };
    kind.guide_lines().into_iter().map(moved).collect()
}

/// Ids begin with a letter, as XML wants them.
fn patch_id(kind: &PieceKind, number: u32) -> String {
    let start = if kind.name.starts_with(|c: char| c.is_ascii_alphabetic()) { "" } else { "piece-" };
    format!("{start}{}-{number}", kind.name)
}

/// Points in whole micrometres with repeated neighbours dropped.
fn rounded(ring: &Ring) -> Vec<[i64; 2]> {
    #[expect(clippy::cast_possible_truncation, reason = "coordinates lie within 10 km, 1e10 micrometres")]
    let micrometres = |mm: f64| (mm * 1000.0).round() as i64;
    let mut points: Vec<[i64; 2]> = ring.points().iter().map(|p| [micrometres(p.x), micrometres(p.y)]).collect();
    points.dedup();
    while points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}
