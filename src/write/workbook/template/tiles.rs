//! Pages at true size that overlap, and the marks by which they are joined.
//!
//! What is drawn is given in the flat development; each page has a move of its own that carries its part onto it.

use std::ops::Range;

use super::draw::bounds;
use crate::geometry::{Affine, Point, Rect, Vec2};
use crate::write::drawing::pdf::Part;
use crate::write::drawing::{Anchor, Drawing, Group, Mark, Pen, Words};
use crate::write::style;
use crate::write::workbook::leaf::{Leaf, Scale, Way};

/// Strip shared by two neighbouring pages, on which they are glued, mm.
pub(crate) const OVERLAP: f64 = 10.0;
/// Kept at the top of a page for its name.
const HEAD: f64 = 6.0;
/// Kept at the foot for the check line and the page number.
const FOOT: f64 = 8.5;
/// How much of the drawing stands beyond an edge to cut, so that a cut beside it leaves no gap, mm.
const PAST_CUT: f64 = 1.5;
/// Farther than any page reaches, mm.
const FAR: f64 = 2000.0;
/// Half the height of a match mark.
const DIAMOND: f64 = 3.0;

/// How a drawing is put on pages.
#[derive(Clone, Debug)]
pub(crate) struct Tiling {
    pub(crate) way: Way,
    /// From the flat development to the frame of each page.
    pub(crate) places: Vec<Affine>,
    /// Edges shared by two pages.
    pub(crate) joints: Vec<Joint>,
}

/// An edge where two pages are joined, in the flat development.
#[derive(Clone, Debug)]
pub(crate) struct Joint {
    pub(crate) letter: String,
    /// The pages that keep their strip.
    pub(crate) under: Range<usize>,
    /// The pages that are cut there and laid on the strip.
    pub(crate) over: Range<usize>,
    pub(crate) from: Point,
    pub(crate) to: Point,
    /// Where match marks stand, as parts of the way from one end to the other.
    pub(crate) marks: Vec<f64>,
    /// Unit direction from the page below to the page above.
    pub(crate) out: Vec2,
}

/// Where a page shows the drawing, in its frame.
pub(crate) const fn window(way: Way) -> Rect {
    let (width, height) = way.frame();
    Rect::new(0.0, HEAD, width, height - FOOT)
}

/// A, B .. Z without I and O, which read as figures, then AA.
pub(crate) fn letter(k: usize) -> String {
    const ALPHABET: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    let one = char::from(ALPHABET[k % ALPHABET.len()]);
    if k < ALPHABET.len() { one.to_string() } else { letter(k / ALPHABET.len() - 1) + &one.to_string() }
}

pub(crate) fn overlaps(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

impl Joint {
    /// How far beyond the edge page `k` still shows the drawing, if it has the edge: to the end of its strip, or a
    /// little past the cut.
    fn end_on(&self, k: usize) -> Option<f64> {
        if self.under.contains(&k) {
            return Some(OVERLAP);
        }
        self.over.contains(&k).then_some(-PAST_CUT)
    }
}

impl Tiling {
    pub(crate) fn len(&self) -> usize {
        self.places.len()
    }

    /// Page `k`; `name` says whose it is, `says` what is drawn.
    pub(crate) fn leaf(&self, marks: &[Mark], k: usize, name: &str, says: &str) -> Leaf {
        let (place, window) = (self.places[k], window(self.way));
        let here = marks.iter().filter(|mark| bounds(mark, place).is_some_and(|b| overlaps(b, window)));
        let mut shown = Group { place, clip: None, marks: here.cloned().collect() };
        for joint in &self.joints {
            if let Some(end) = joint.end_on(k) {
                shown = ended(shown, joint, end, place);
            }
        }
        let clipped = Group { place: Affine::IDENTITY, clip: Some(window), marks: vec![Mark::Group(shown)] };
        let mut seams = Drawing::new(0.0, 0.0, "");
        for joint in &self.joints {
            if let Some(end) = joint.end_on(k) {
                seam(&mut seams, joint, place, end > 0.0, window);
            }
        }
        let seams = Group { place: Affine::IDENTITY, clip: Some(window), marks: seams.marks };
        let mut leaf = Leaf::new(self.way);
        leaf.scale = Scale::True;
        let (title, says) = if self.len() > 1 {
            let of = format!("sheet {} of {}", k + 1, self.len());
            (format!("{name}: {of}"), format!("{says} At true size, {of}."))
        } else {
            (name.to_owned(), format!("{says} At true size."))
        };
        leaf.parts.push(Part::Text(vec![Words::new(title, (0.0, 3.4)).bold()]));
        if !self.joints.is_empty() {
            let hint = "cut on the dashed edge, lay it on the neighbour's fine line, match the letters";
            let hint = Words::new(hint, (window.x1, 3.4)).size(style::SMALL).ink(style::SOFT);
            leaf.furniture.push(Mark::Words(hint.anchor(Anchor::End)));
        }
        leaf.parts.push(Part::Figure { says, marks: vec![Mark::Group(clipped), Mark::Group(seams)] });
        leaf.shows = Some((place, window));
        leaf
    }

    /// The pages' edges and numbers over the drawing made small; `place` carries the development onto the paper.
    pub(crate) fn overview(&self, paper: &mut Drawing, place: Affine) {
        for (k, own) in self.places.iter().enumerate() {
            let to_paper = place * own.inverse();
            let mut edge = kurbo::BezPath::new();
            for (k, corner) in corners(window(self.way)).into_iter().enumerate() {
                let at = to_paper * corner;
                if k == 0 { edge.move_to(at) } else { edge.line_to(at) }
            }
            edge.close_path();
            paper.stroke(edge, Pen::new(style::SOFT, style::THIN));
            let at = to_paper * window(self.way).center();
            let disc = kurbo::Shape::to_path(&kurbo::Circle::new(at, 3.4), 0.01);
            paper.shape(disc, Some(style::PAPER), Some(Pen::new(style::ACCENT, style::FIRM)));
            paper.words(Words::new((k + 1).to_string(), at).size(style::HEAD).bold().ink(style::ACCENT).centred());
        }
        for joint in &self.joints {
            let at = place * joint.from.lerp(joint.to, joint.marks.first().copied().unwrap_or(0.5));
            paper.dot(at, 1.9, style::PAPER);
            paper.words(Words::new(joint.letter.clone(), at).size(style::SMALL).bold().centred());
        }
    }

    /// Box round all pages when they lie joined; `place` as above.
    pub(crate) fn extent(&self, place: Affine) -> Rect {
        let page = |own: &Affine| (place * own.inverse()).transform_rect_bbox(window(self.way));
        self.places.iter().map(page).reduce(|a, b| a.union(b)).unwrap_or_default()
    }
}

fn corners(rect: Rect) -> [Point; 4] {
    [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)].map(Point::from)
}

/// What is shown, ended along an edge: a clip in a frame of its own, in which the way out of the page is x.
fn ended(shown: Group, joint: &Joint, end: f64, place: Affine) -> Group {
    let from = place * joint.from;
    let out = place * (joint.from + joint.out) - from;
    let frame = Affine::translate(from.to_vec2()) * Affine::rotate(out.atan2());
    let clip = if end > 0.0 { Rect::new(-FAR, -FAR, end, FAR) } else { Rect::new(end, -FAR, FAR, FAR) };
    let inner = Group { place: frame.inverse() * shown.place, ..shown };
    Group { place: frame, clip: Some(clip), marks: vec![Mark::Group(inner)] }
}

/// The edge on one of its two pages: a fine line with a hatched strip, or a dashed line to cut on; and its match marks.
fn seam(paper: &mut Drawing, joint: &Joint, place: Affine, under: bool, window: Rect) {
    let (from, to) = (place * joint.from, place * joint.to);
    let turned = place * (joint.from + joint.out) - from;
    let out = turned / turned.hypot().max(1e-9);
    if under {
        strip(paper, from, to, out);
        paper.line(from, to, Pen::new(style::SOFT, style::HAIRLINE));
    } else {
        paper.line(from, to, Pen::new(style::TEXT, style::THIN).dashed(style::SEAM_DASH));
    }
    let inward = if under { -out } else { out };
    for at in joint.marks.iter().map(|part| from.lerp(to, *part)) {
        // Half a mark says nothing; the neighbour in the same column has it whole.
        if window.inflate(OVERLAP, -DIAMOND).contains(at) || joint.marks.len() == 2 {
            half_diamond(paper, &joint.letter, at, inward);
        }
    }
}

/// Fine slanted lines: a strip that the next page covers.
fn strip(paper: &mut Drawing, from: Point, to: Point, out: Vec2) {
    let length = from.distance(to);
    let along = (to - from) / length.max(1e-9);
    let pen = Pen::new(style::RULE, style::HAIRLINE);
    let mut at = OVERLAP;
    while at <= length {
        paper.line(from + along * at, from + along * (at - OVERLAP) + out * OVERLAP, pen);
        at += 4.0;
    }
}

/// A triangle on either page that becomes a diamond when the edges meet, and the joint's letter beside it.
fn half_diamond(paper: &mut Drawing, letter: &str, at: Point, inward: Vec2) {
    let along = Vec2::new(-inward.y, inward.x);
    let mut path = kurbo::BezPath::new();
    path.move_to(at - along * DIAMOND);
    path.line_to(at + inward * DIAMOND);
    path.line_to(at + along * DIAMOND);
    path.close_path();
    paper.shape(path, Some(style::PAPER), Some(Pen::new(style::TEXT, style::THIN)));
    let words = Words::new(letter, at + inward * (DIAMOND + 2.6)).size(style::HEAD).bold();
    paper.words(words.centred());
}
