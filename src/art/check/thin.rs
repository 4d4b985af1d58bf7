//! Necks, pieces thin all over, islands, and slivers of waste.

use super::super::note::Note;
use super::super::thickness::{Discs, Side, Thinnest};
use super::{Subject, rings};
use crate::geometry::{Outline, Point, Ring, overlay};

/// Longest way along an outline between two discs, in millimetres.
const STEP: f64 = 0.2;

/// What is wrong with a whole piece, so that its necks need not be told as well.
enum Whole {
    Island,
    ThinAllOver,
    Fit,
}

/// Notes on whole pieces, and the pieces that are fit to be looked at more closely.
pub(super) fn pieces(subject: &Subject<'_>, index: usize) -> (Vec<Note>, Vec<Outline>) {
    let layer = &subject.layers[index];
    let limits = subject.limits.of(layer.colour);
    let mut notes = Vec::new();
    let mut fit = Vec::new();
    let mut islands: Vec<(&Outline, f64)> = Vec::new();
    for outline in &layer.outlines {
        match whole(outline, limits.neck.get(), limits.island.get()) {
            Whole::Island => islands.push((outline, longer_side(outline))),
            Whole::ThinAllOver => notes.push(thin_all_over(subject, index, outline)),
            Whole::Fit => fit.push(outline.clone()),
        }
    }
    notes.extend(island_note(subject, index, &islands));
    (notes, fit)
}

/// Notes on thin places of pieces, `fit` being those that are not thin all over.
pub(super) fn necks(subject: &Subject<'_>, index: usize, fit: &[Outline]) -> Vec<Note> {
    let neck = subject.limits.of(subject.layers[index].colour).neck.get();
    if neck <= 0.0 {
        return Vec::new();
    }
    let thin = Discs::new(&rings(fit), Side::Inside, neck, STEP).thinnest();
    thin.into_iter().map(|found| neck_note(subject, index, found)).collect()
}

fn whole(outline: &Outline, neck: f64, island: f64) -> Whole {
    if longer_side(outline) < island {
        Whole::Island
    } else if thin_inside(outline, neck) {
        Whole::ThinAllOver
    } else {
        Whole::Fit
    }
}

fn longer_side(outline: &Outline) -> f64 {
    outline.bounds().width().max(outline.bounds().height())
}

/// Whether no disc of this diameter fits anywhere inside.
fn thin_inside(outline: &Outline, thickness: f64) -> bool {
    // A shape that holds no disc of radius r has at most r times its perimeter as area (T. Bonnesen, 1929).
    let perimeter: f64 = outline.rings().map(Ring::perimeter).sum();
    thickness > 0.0
        && outline.area() <= perimeter * thickness / 2.0
        && overlay::grown(std::slice::from_ref(outline), -thickness / 2.0).is_empty()
}

/// Diameter of the largest disc inside, by halving; exact to a thousandth of the bound.
fn widest(outline: &Outline, bound: f64) -> f64 {
    let (mut fits, mut too_large) = (0.0, bound);
    for _ in 0..10 {
        let middle = f64::midpoint(fits, too_large);
        if thin_inside(outline, middle) {
            too_large = middle;
        } else {
            fits = middle;
        }
    }
    f64::midpoint(fits, too_large)
}

fn thin_all_over(subject: &Subject<'_>, index: usize, outline: &Outline) -> Note {
    let layer = &subject.layers[index];
    let limit = subject.limits.of(layer.colour).neck;
    let at = outline.bounds().center();
    let label = subject.label(layer.colour, outline.outer().points()[0]);
    let thickness = widest(outline, limit.get());
    Note::look(
        "thin-neck",
        label.clone(),
        format!("{} is nowhere wider than {thickness:.1} mm, less than {limit}.", label.element),
        format!("It will tear, fray or curl. Make it at least {:.1} mm wide.", 1.2 * limit.get()),
    )
    .at(nearest_point(outline, at))
    .measuring(thickness)
}

fn nearest_point(outline: &Outline, at: Point) -> Point {
    if outline.contains(at) {
        return at;
    }
    let points = outline.outer().points().iter();
    points.min_by(|a, b| a.distance(at).total_cmp(&b.distance(at))).copied().unwrap_or(at)
}

fn island_note(subject: &Subject<'_>, index: usize, islands: &[(&Outline, f64)]) -> Option<Note> {
    let colour = subject.layers[index].colour;
    let limit = subject.limits.of(colour).island;
    let (smallest, side) = islands.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let at = smallest.bounds().center();
    let say = match islands.len() {
        1 => format!("One {colour} island of {side:.1} mm, under {limit} each way."),
        many => format!("{many} {colour} islands under {limit} each way, the smallest {side:.1} mm."),
    };
    let others = islands.iter().map(|(outline, _)| outline.bounds().center()).filter(|other| *other != at);
    Some(
        Note::look(
            "tiny-island",
            subject.label(colour, at),
            say,
            "Small pieces are hard to weed and easily lost. Enlarge them, join them to a larger shape, or leave them out.",
        )
        .at(at)
        .also_at(others)
        .measuring(*side),
    )
}

fn neck_note(subject: &Subject<'_>, index: usize, found: Thinnest) -> Note {
    let layer = &subject.layers[index];
    let limit = subject.limits.of(layer.colour).neck;
    let label = subject.label(layer.colour, found.at);
    Note::look(
        "thin-neck",
        label.clone(),
        format!("{} is {} at a thin place, less than {limit}.", label.element, told(found.thickness)),
        format!("It will tear or fray there. Make it at least {:.1} mm wide.", 1.2 * limit.get()),
    )
    .at(found.at)
    .measuring(found.thickness)
}

/// Notes on strips of waste too thin to be lifted whole.
pub(super) fn slivers(subject: &Subject<'_>, index: usize) -> Vec<Note> {
    let layer = &subject.layers[index];
    let limit = subject.limits.of(layer.colour).sliver.get();
    if limit <= 0.0 {
        return Vec::new();
    }
    let mut notes = Vec::new();
    let mut open: Vec<Ring> = Vec::new();
    for outline in &layer.outlines {
        open.push(outline.outer().clone());
        for hole in outline.holes() {
            let filled = Outline::new(hole.clone(), Vec::new());
            if thin_inside(&filled, limit) {
                let at = nearest_point(&filled, filled.bounds().center());
                notes.push(sliver_note(subject, index, at, hole.points()[0], widest(&filled, limit)));
            } else {
                open.push(hole.clone());
            }
        }
    }
    for found in Discs::new(&open, Side::Outside, limit, STEP).thinnest() {
        notes.push(sliver_note(subject, index, found.at, found.ends.0, found.thickness));
    }
    notes
}

/// `0.6 mm`; where that would round to nothing, `under 0.1 mm`: there is something, and it is in the way.
fn told(thickness: f64) -> String {
    if thickness < 0.05 { "under 0.1 mm".to_owned() } else { format!("{thickness:.1} mm") }
}

fn sliver_note(subject: &Subject<'_>, index: usize, at: Point, beside: Point, width: f64) -> Note {
    let label = subject.label(subject.layers[index].colour, beside);
    Note::look(
        "sliver",
        label.clone(),
        format!("A gap of {} beside {}.", told(width), label.element),
        "So thin a strip of waste breaks when it is lifted and stays behind. Fill the gap, or widen it.",
    )
    .at(at)
    .measuring(width)
}
