//! The steps of reading, in order.

use super::error::ArtError;
use super::labels::{Label, Labels};
use super::limits::{Limits, LimitsByColour};
use super::note::{self, Note};
use super::shapes::{self, Shape};
use super::size::{self, StatedSize};
use super::svg::{self, Brush, Drawn, MM_PER_PIXEL, Painted};
use super::{Layer, Motif, MotifWish, doubled, hostile, layers, misread, silent, stroke};
use crate::geometry::{Affine, Outline, Rect, Ring, bounds};
use crate::quantity::Mm;

/// Largest side of a motif, in millimetres: wider than any hem band.
const LARGEST: f64 = 5_000.0;

/// How near the wished width the flattening must be done, as a share, for its tolerance to hold.
const NEAR_ENOUGH: f64 = 0.02;

/// A drawing read, with notes in the motif's frame.
pub(super) struct Reading {
    pub(super) motif: Motif,
    pub(super) shapes: Vec<Shape>,
    pub(super) notes: Vec<Note>,
}

/// Reads the drawing; to be called on a deep stack.
pub(super) fn read(svg: &str, wish: &MotifWish, limits: &LimitsByColour) -> Result<Reading, ArtError> {
    let file = wish.file.as_str();
    if let Some(width) = wish.width.filter(|width| width.get() <= 0.0) {
        return Err(ArtError::BadWidth { file: file.to_owned(), width });
    }
    hostile::check_text(svg, file)?;
    let document = hostile::parse(svg, file)?;
    hostile::check_tree(&document, file)?;
    let root = document.root_element();
    let stated = size::stated(root);
    if wish.width.is_none() && stated == StatedSize::None {
        return Err(ArtError::NoSize { file: file.to_owned() });
    }
    let labels = Labels::new(&document);
    let styles = misread::Styles::new(&document);
    let mut notes = silent::dropped(&labels, root, &styles);
    notes.extend(misread::notes(&document, &labels, &styles, wish.width.is_some()));
    let drawn = svg::read(&labels.write(), file)?;
    for note in &mut notes {
        note.at = drawn.places.get(&note.label).copied();
    }
    notes.extend(drawn.notes.iter().cloned());
    let vanished = silent::vanished(&labels, root, &drawn.seen, &notes);
    notes.extend(vanished);
    let sized = at_size(&drawn, wish, limits)?;
    notes = notes.into_iter().map(|note| note.carried(Affine::scale(sized.scale))).collect();
    notes.extend(sized.notes);
    if sized.layers.list.is_empty() {
        let left_out = note::in_order(notes).into_iter().map(|note| note.into_finding(file)).collect();
        return Err(ArtError::NothingToCut { file: file.to_owned(), left_out });
    }
    if wish.width.is_none() {
        let units = size::units_across(root).map(|units| units / drawn.page_width);
        notes.extend(guessed_unit(stated, sized.layers.bounds, units, labels.label(root), &limits.usual));
    }
    Ok(finish(sized.layers, sized.shapes, notes, wish))
}

/// Layers with their bounding box, which is empty when there are none.
struct Layers {
    list: Vec<Layer>,
    bounds: Rect,
}

struct Sized {
    layers: Layers,
    shapes: Vec<Shape>,
    notes: Vec<Note>,
    /// Finished millimetres in one of the page.
    scale: f64,
}

/// Shapes and layers at the finished size; flattened anew until the size is near enough for the tolerance to hold.
fn at_size(drawn: &Drawn, wish: &MotifWish, limits: &LimitsByColour) -> Result<Sized, ArtError> {
    let file = wish.file.as_str();
    let mut scale = wish.width.map_or(Some(1.0), |width| first_scale(drawn, width)).unwrap_or(1.0);
    let mut tries = 0;
    loop {
        check_side(drawn, scale, file)?;
        let (shapes, mut notes) = shapes::shapes(drawn, scale, file, limits)?;
        let (shapes, doubles) = doubled::without_doubles(shapes, limits);
        notes.extend(doubles);
        let (list, more) = layers::layers(&shapes, file)?;
        notes.extend(more);
        let list: Vec<Layer> = list.into_iter().filter(|layer| !layer.outlines.is_empty()).collect();
        let bounds = list.iter().filter_map(|layer| bounds(&layer.outlines)).reduce(|a, b| a.union(b));
        let sized = Sized { layers: Layers { list, bounds: bounds.unwrap_or(Rect::ZERO) }, shapes, notes, scale };
        let (Some(bounds), Some(width)) = (bounds, wish.width) else { return Ok(sized) };
        let factor = width.get() / bounds.width();
        tries += 1;
        if (factor - 1.0).abs() <= NEAR_ENOUGH || tries == 4 {
            return Ok(sized);
        }
        scale *= factor;
    }
}

/// A scale near the right one, from boxes alone.
fn first_scale(drawn: &Drawn, width: Mm) -> Option<f64> {
    let page = drawn.painted.iter().map(page_box).reduce(|a, b| a.union(b))?;
    (page.width() > 0.0 && page.width().is_finite()).then(|| width.get() / page.width())
}

fn page_box(painted: &Painted) -> Rect {
    use kurbo::Shape as _;
    let path = (painted.to_page * painted.path.clone()).bounding_box();
    match &painted.brush {
        Brush::Fill(_) => path,
        Brush::Stroke(style) => path.inflate(
            style.width * stroke::growth(painted.to_page) / 2.0,
            style.width * stroke::growth(painted.to_page) / 2.0,
        ),
    }
}

fn check_side(drawn: &Drawn, scale: f64, file: &str) -> Result<(), ArtError> {
    let boxes = drawn.painted.iter().map(|painted| (painted, page_box(painted)));
    for (painted, page) in boxes {
        let side = page.width().max(page.height()) * scale;
        let Some(side) = Mm::checked(side) else {
            return Err(ArtError::OutOfRange {
                file: file.to_owned(),
                element: painted.label.element.clone(),
                line: painted.label.line,
            });
        };
        if side.get() > LARGEST {
            return Err(ArtError::TooLarge { file: file.to_owned(), side, limit: Mm::new(LARGEST) });
        }
    }
    Ok(())
}

/// A note when the size rests on a guess of how many units the drawing tool counted to the inch, or is unlikely for a
/// motif. `units` are those of the drawing in a millimetre of its page.
fn guessed_unit(stated: StatedSize, bounds: Rect, units: Option<f64>, root: Label, limits: &Limits) -> Option<Note> {
    let width = bounds.width();
    let likely = |width: f64| (limits.smallest_width.get()..=limits.largest_width.get()).contains(&width);
    if stated == StatedSize::Physical && likely(width) {
        return None;
    }
    let across = width * units.unwrap_or(1.0 / MM_PER_PIXEL);
    let at = |per_inch: f64| across * 25.4 / per_inch;
    let say = if stated == StatedSize::Pixels {
        format!("The drawing gives its size in bare numbers; taken as 96 to the inch, it is {width:.1} mm wide.")
    } else {
        format!("The motif is {width:.1} mm wide, which is unlikely.")
    };
    // Only readings that make a likely motif are worth offering.
    let readings = [
        ("in millimetres", across),
        ("in centimetres", across * 10.0),
        ("in inches", across * 25.4),
        ("at 72 units to the inch", at(72.0)),
        ("at 90 units to the inch", at(90.0)),
        ("at 96 units to the inch", at(96.0)),
    ];
    let offered = readings.into_iter().filter(|(_, width)| likely(*width));
    let offered: Vec<String> = offered.map(|(unit, width)| format!("{unit} ({width:.1} mm wide)")).collect();
    let advice = match offered.split_last() {
        None => "No usual unit makes it likely: say how wide the finished motif is.".to_owned(),
        Some((only, [])) => format!("It may have been drawn {only}. Say which width is right."),
        Some((last, others)) => {
            format!("It may have been drawn {} or {last}. Say which width is right.", others.join(", "))
        }
    };
    Some(Note::look("unit-guessed", root, say, advice).at(bounds.center()).measuring(width))
}

/// Moves the origin to the middle and brings the width to exactly what was asked.
fn finish(layers: Layers, shapes: Vec<Shape>, notes: Vec<Note>, wish: &MotifWish) -> Reading {
    let factor = wish.width.map_or(1.0, |width| width.get() / layers.bounds.width());
    let to_motif = Affine::translate(-layers.bounds.center().to_vec2()).then_scale(factor);
    let moved = |outlines: Vec<Outline>| outlines.iter().map(|outline| outline.transformed(to_motif)).collect();
    let list =
        layers.list.into_iter().map(|layer| Layer { colour: layer.colour, outlines: moved(layer.outlines) }).collect();
    let shapes = shapes
        .into_iter()
        .map(|mut shape| {
            for drawn in &mut shape.rings {
                drawn.ring = Ring::transformed(&drawn.ring, to_motif);
            }
            shape.areas = moved(shape.areas);
            shape
        })
        .collect();
    let motif = Motif {
        name: wish.name.clone(),
        layers: list,
        width: wish.width.unwrap_or_else(|| Mm::new(layers.bounds.width())),
        height: Mm::new(layers.bounds.height() * factor),
    };
    let notes = notes.into_iter().map(|note| note.carried(to_motif)).collect();
    Reading { motif, shapes, notes }
}
