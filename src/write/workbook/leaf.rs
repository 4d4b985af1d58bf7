//! One page of the workbook with everything already set in its place.
//!
//! All content lies in a frame that fits inside A4 and inside Letter alike, so that a page prints right on either; the
//! frame's upper left corner is the origin, millimetres, y down.

use crate::geometry::{Affine, Rect, Vec2};
use crate::job::Paper;
use crate::write::drawing::pdf::{Page, Part};
use crate::write::drawing::{Mark, Words};

/// Shorter side of the area common to A4 (210 x 297 mm, ISO 216) and Letter (215.9 x 279.4 mm).
const COMMON_SHORT: f64 = 210.0;
/// Longer side of that area.
const COMMON_LONG: f64 = 279.4;
/// Border left white on every edge of it: printers leave up to about 6 mm unprinted (common practice, no source).
const MARGIN: f64 = 10.0;

/// Which way a page lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// Short side at the top.
    Upright,
    /// Long side at the top.
    Lying,
}

impl Way {
    /// Width and height of the frame in mm.
    pub(crate) const fn frame(self) -> (f64, f64) {
        let (short, long) = (COMMON_SHORT - 2.0 * MARGIN, COMMON_LONG - 2.0 * MARGIN);
        match self {
            Self::Upright => (short, long),
            Self::Lying => (long, short),
        }
    }

    /// Width and height of the paper in mm.
    pub(crate) const fn paper(self, paper: Paper) -> (f64, f64) {
        let (short, long) = match paper {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        };
        match self {
            Self::Upright => (short, long),
            Self::Lying => (long, short),
        }
    }

    /// Corner of the frame on the paper: the frame lies in the middle, since programs that print on another size of
    /// paper put the middle on the middle.
    pub(crate) const fn corner(self, paper: Paper) -> (f64, f64) {
        let ((width, height), (frame_width, frame_height)) = (self.paper(paper), self.frame());
        ((width - frame_width) / 2.0, (height - frame_height) / 2.0)
    }
}

/// One page.
#[derive(Clone, Debug)]
pub(crate) struct Leaf {
    pub(crate) way: Way,
    /// Whether something on it must come out of the printer at its true size.
    pub(crate) scale: Scale,
    /// In reading order.
    pub(crate) parts: Vec<Part>,
    /// Rules, tints, running heads: painted first and not read.
    pub(crate) furniture: Vec<Mark>,
    /// Where a part of the flat development is drawn at true size: the move onto the frame, and the window it is seen
    /// through.
    pub(crate) shows: Option<(Affine, Rect)>,
}

impl Leaf {
    pub(crate) const fn new(way: Way) -> Self {
        Self { way, scale: Scale::Any, parts: Vec::new(), furniture: Vec::new(), shows: None }
    }

    /// The page on its paper.
    pub(crate) fn page(self, paper: Paper, bookmark: Option<String>) -> Page {
        let corner = Vec2::from(self.way.corner(paper));
        let mut parts = self.parts;
        let mut furniture = self.furniture;
        parts.iter_mut().for_each(|part| move_part(part, corner));
        furniture.iter_mut().for_each(|mark| mark.shift(corner));
        Page { paper: self.way.paper(paper), parts, furniture, bookmark }
    }
}

fn move_part(part: &mut Part, by: Vec2) {
    let words = |lines: &mut Vec<Words>| lines.iter_mut().for_each(|line| line.at += by);
    match part {
        Part::Heading { lines, .. } | Part::Text(lines) => words(lines),
        Part::Link { words: line, .. } => words(line),
        Part::Item { label, lines } => {
            label.iter_mut().for_each(|mark| mark.shift(by));
            words(lines);
        }
        Part::Table { rows, .. } => {
            rows.iter_mut().flat_map(|row| &mut row.cells).flatten().for_each(|mark| mark.shift(by));
        }
        Part::Figure { marks, .. } => marks.iter_mut().for_each(|mark| mark.shift(by)),
    }
}

/// Whether a page must be printed at exactly its own size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Scale {
    /// Anything goes.
    Any,
    /// 1:1, with a line of 100 mm to check.
    True,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_frame_keeps_its_border_on_either_paper_however_the_page_is_centred() {
        for way in [Way::Upright, Way::Lying] {
            for paper in [Paper::A4, Paper::Letter] {
                let ((x, y), (width, height)) = (way.corner(paper), way.frame());
                let (paper_width, paper_height) = way.paper(paper);
                assert!(x >= MARGIN - 1e-9 && y >= MARGIN - 1e-9, "{way:?} {paper:?}");
                assert!(x + width <= paper_width - MARGIN + 1e-9 && y + height <= paper_height - MARGIN + 1e-9);
            }
        }
    }
}
