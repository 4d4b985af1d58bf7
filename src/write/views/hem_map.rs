//! The band straightened out in rows: every motif with its number and its distances from CF, seams, zones.

mod row;

use super::{BORDER, WIDTH, heading, hem_flat, scale_bar, titled};
use crate::geometry::Point;
use crate::hem::{Middle, MotifLine};
use crate::place::Placement;
use crate::plan::Plan;
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Words};
use crate::write::figures::counted;
use crate::write::style;
use row::Row;

/// Least distance between two numbered motifs on paper, mm: the width of a distance to a tenth of a millimetre.
const LEAST_PITCH: f64 = 14.0;
/// Rows tried, fewest first; on a ring quarters begin and end at CF, CB and the sides.
const ROWS: [u32; 5] = [1, 2, 4, 8, 12];

/// What is shown beside motifs, seams and zones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shows {
    /// Number and distances under each motif.
    Distances,
    /// Where the plate comes down, with the numbers of the closures.
    Plates,
}

/// The picture.
pub(crate) fn draw(plan: &Plan, shows: Shows) -> Drawing {
    pages(plan, shows, f64::MAX).swap_remove(0)
}

/// The picture in parts no higher than `tallest`, one row at least in each.
pub(crate) fn pages(plan: &Plan, shows: Shows, tallest: f64) -> Vec<Drawing> {
    let (start, end) = chalk::hem_span(plan);
    let length = end - start;
    let room = WIDTH - 2.0 * BORDER;
    let motifs = plan.setting.bands.first().map_or(1, |band| band.placements.len().max(1));
    let pitch = |rows: u32| room * f64::from(rows) / motifs as f64;
    let count = ROWS.into_iter().find(|rows| pitch(*rows) >= LEAST_PITCH).unwrap_or(ROWS[ROWS.len() - 1]);
    let each = length / f64::from(count);
    let scale = room / each.get();
    let top = hem_flat::band_top(plan);
    let below: f64 = if shows == Shows::Distances { 17.0 } else { 12.0 };
    let mut pages = Vec::new();
    let (mut drawing, mut y) = begin(plan, shows, count);
    let mut empty = true;
    for k in 0..count {
        let from = start + each * f64::from(k);
        let row = |y: f64| Row { plan, shows, from, to: from + each, scale, origin: Point::new(BORDER, y), top };
        // Labels that make way for each other reach lower than one line.
        let below = below.max(row(0.0).draw(&mut Drawing::new(WIDTH, 10.0, "")) + style::SMALL * 1.5);
        let row_height = 6.0 + top.get() * scale + below;
        if y + row_height + BORDER > tallest && !empty {
            end_page(&mut drawing, plan, y, scale);
            pages.push(std::mem::replace(&mut drawing, Drawing::new(WIDTH, 10.0, says(plan, count))));
            y = BORDER;
        }
        empty = false;
        y += 6.0 + top.get() * scale;
        row(y).draw(&mut drawing);
        y += below;
    }
    end_page(&mut drawing, plan, y, scale);
    pages.push(drawing);
    pages
}

/// An empty picture with its title; and the y below that.
fn begin(plan: &Plan, shows: Shows, rows: u32) -> (Drawing, f64) {
    let mut drawing = Drawing::new(WIDTH, 10.0, says(plan, rows));
    let middle = chalk::middle_name(plan);
    let (title, sub) = match shows {
        Shows::Distances => (
            format!("The band straightened, with distances from {middle}"),
            format!(
                "Straightened along the hem, so gaps look wider than they are. Figures of the lowest band: first along the hem, \
             then along the motif line, both in mm; third along the motif line in inches.{}",
                over_itself(plan)
            ),
        ),
        Shows::Plates => (
            "Where the plate comes down".to_owned(),
            "Straightened along the hem. Framed: the whole plate, rim included; numbers: the closures made there."
                .to_owned(),
        ),
    };
    let y = heading(&mut drawing, &titled(plan, &title), &sub);
    (drawing, y)
}

/// Why the band is shown straightened only.
fn over_itself(plan: &Plan) -> String {
    if !hem_flat::lies_over_itself(plan) {
        return String::new();
    }
    format!(
        " The hem turns through {:.0}°, more than a full circle: laid flat it would lie over itself, so that there is no such picture.",
        plan.hem.sweep().degrees()
    )
}

fn end_page(drawing: &mut Drawing, plan: &Plan, y: f64, scale: f64) {
    scale_bar(drawing, Point::new(BORDER, y), scale);
    let note = match plan.hem.middle() {
        Middle::CentreFront => "← wearer's right   |   wearer's left →",
        Middle::CentreBack => "← wearer's left   |   wearer's right →",
    };
    let note = Words::new(note, (WIDTH - BORDER, y + style::SMALL * 0.36));
    drawing.words(note.size(style::SMALL).ink(style::SOFT).anchor(Anchor::End));
    drawing.height = y + BORDER;
}

fn says(plan: &Plan, rows: u32) -> String {
    let motifs: usize = plan.setting.bands.iter().map(|band| band.placements.len()).sum();
    format!(
        "The hem band straightened in {rows} rows with {} numbered and measured; the chalk list has the same figures.",
        counted(motifs, "motif", "motifs")
    )
}

/// How far a motif leans from square to the hem, radians clockwise.
pub(crate) fn lean(plan: &Plan, line: &MotifLine, placement: &Placement) -> f64 {
    let s_line = line.from_hem(chalk::drafted(plan, placement.s_hem));
    placement.turn.get() - line.frame_at(s_line).turn().get()
}
