//! A drawing inspected: the motif, and everything that would spoil its cut, numbered.

use super::check::{self, Overlap, Subject};
use super::error::ArtError;
use super::limits::LimitsByColour;
use super::note::{self, Measure};
use super::read;
use super::{Motif, MotifWish, Shape, hostile};
use crate::finding::{Finding, Severity};
use crate::geometry::Point;

/// A drawing inspected.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspection {
    /// File name of the drawing, for messages.
    pub file: String,
    /// The motif at its finished size.
    pub motif: Motif,
    /// The shapes its layers were joined from, in paint order.
    pub shapes: Vec<Shape>,
    /// Everything found, gravest first.
    pub found: Vec<Found>,
    /// How far the colours lie over each other, where a lower one ends under an upper one.
    pub overlaps: Vec<Overlap>,
}

/// A numbered finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// From 1; the same number stands on the picture.
    pub number: usize,
    /// What and where.
    pub finding: Finding,
    /// How big: a length, an angle, a count or a difference of colour.
    pub measure: Option<Measure>,
    /// Further places of the same, in motif millimetres.
    pub also_at: Vec<Point>,
}

impl Inspection {
    /// The gravest severity found; `None` for a clean drawing.
    #[must_use]
    pub fn worst(&self) -> Option<Severity> {
        self.found.iter().map(|found| found.finding.severity).max()
    }
}

/// Reads a drawing and looks for everything that would spoil the cut.
///
/// # Errors
/// [`ArtError`] when the drawing cannot be read at all.
pub fn inspect(svg: &str, wish: &MotifWish, limits: &LimitsByColour) -> Result<Inspection, ArtError> {
    hostile::on_deep_stack(&wish.file, || {
        let reading = read::read(svg, wish, limits)?;
        let subject = Subject::new(&reading.shapes, &reading.motif.layers, limits);
        let (more, overlaps) = check::check(&subject);
        let mut notes = reading.notes;
        notes.extend(more);
        let found = note::in_order(notes).into_iter().zip(1..).map(|(note, number)| Found {
            number,
            measure: note.measure,
            also_at: note.also_at.clone(),
            finding: note.into_finding(&wish.file),
        });
        Ok(Inspection {
            file: wish.file.clone(),
            found: found.collect(),
            motif: reading.motif,
            shapes: reading.shapes,
            overlaps,
        })
    })
}
