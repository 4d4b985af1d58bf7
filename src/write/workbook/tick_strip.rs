//! The tick strip: a long paper tape with a mark for every motif and garment line along the hem, cut and glued from pieces.

use super::compose::{Composer, Section};
use super::leaf::Way;
use crate::geometry::{Rect, Vec2};
use crate::place::Placement;
use crate::plan::Plan;
use crate::quantity::{Mm, mm};
use crate::write::chalk;
use crate::write::drawing::{Anchor, Drawing, Pen, Words};
use crate::write::figures::both;
use crate::write::style;

/// Length of hem on one piece, mm; a round number, so that pieces can be checked with a ruler.
const PIECE: f64 = 240.0;
/// Tongue under the next piece, mm.
const TONGUE: f64 = 12.0;
/// Height of a piece.
const HEIGHT: f64 = 13.0;
/// Room above a piece for names of garment lines.
const NAMES: f64 = 4.0;
/// Room at the beginning of a piece for its own number.
const NUMBER: f64 = 0.5;
/// How far above the others a number stands that finds no room beside its mark.
const RAISED: f64 = 3.4;
/// Most pieces; a longer hem gets a strip for its first stretch, and is told so. 12 m of hem.
const MOST_PIECES: usize = 50;

pub(crate) fn section(plan: &Plan) -> Section {
    let (start, end) = chalk::hem_span(plan);
    let needed = super::compose::count(((end - start).get() / PIECE - 1e-9).ceil().max(1.0));
    let shown = needed.min(MOST_PIECES);
    let mut intro = format!(
        "A paper tape to lay along the finished hem: cut the pieces out, glue each on the tongue of the one before so that \
         the numbers run on, and chalk at the long marks. Figures are millimetres from {}.",
        chalk::middle_name(plan)
    );
    if shown < needed {
        intro += &format!(
            " The hem is too long for a whole strip: it ends after {}; measure the rest by the chalk list.",
            both(mm(PIECE) * shown as f64)
        );
    }
    let mut composer = Composer::lying(&crate::write::views::titled(plan, "Tick strip"), &intro, Way::Lying);
    composer.at_true_scale();
    for k in 0..shown {
        if composer.room() < HEIGHT + NAMES {
            composer.turn();
            composer.at_true_scale();
        }
        let from = start + mm(PIECE) * k as f64;
        let piece = Piece { plan, from, to: (from + mm(PIECE)).min(end), number: k + 1, last: k + 1 == needed };
        composer.true_figure(piece.draw());
    }
    composer.finish()
}

/// One piece of the strip.
struct Piece<'a> {
    plan: &'a Plan,
    from: Mm,
    to: Mm,
    number: usize,
    last: bool,
}

impl Piece<'_> {
    fn x(&self, s: Mm) -> f64 {
        0.5 + (s - self.from).get()
    }

    fn holds(&self, s: Mm) -> bool {
        s >= self.from - mm(1e-6) && (s < self.to || self.last && s <= self.to + mm(1e-6))
    }

    fn draw(&self) -> Drawing {
        let says = format!("Tick strip, piece {}: hem from {} to {}.", self.number, self.from, self.to);
        let mut paper = Drawing::new(PIECE + TONGUE + 1.0, HEIGHT + NAMES, says);
        let (left, right) = (self.x(self.from), self.x(self.to));
        let (top, bottom) = (NAMES, NAMES + HEIGHT - 0.6);
        paper.rect(Rect::new(left, top, right, bottom), None, Some(Pen::new(style::TEXT, style::THIN)));
        if !self.last {
            let tongue = Rect::new(right, top, right + TONGUE, bottom);
            paper.rect(tongue, Some(style::TINT), Some(Pen::new(style::RULE, style::THIN)));
            let words = Words::new(format!("{}", self.number + 1), tongue.center()).size(style::HEAD).bold();
            paper.words(words.ink(style::ACCENT).centred());
        }
        let number =
            Words::new(format!("{}", self.number), (left + 1.2, bottom - 1.4)).size(style::SMALL).ink(style::SOFT);
        paper.words(number);
        let here = self.motifs_here();
        let marks: Vec<f64> = here.iter().map(|placement| self.x(placement.s_hem)).collect();
        self.centimetres(&mut paper, top, &marks);
        self.garment_lines(&mut paper, top, bottom);
        self.motifs(&mut paper, &here, &marks, (top, bottom));
        paper
    }

    /// The motifs whose marks lie on this piece, in order along the hem.
    fn motifs_here(&self) -> Vec<&Placement> {
        let placements = self.plan.setting.bands.iter().flat_map(|band| &band.placements);
        let mut here: Vec<_> = placements.filter(|placement| self.holds(placement.s_hem)).collect();
        here.sort_by(|a, b| a.s_hem.total_cmp(&b.s_hem));
        here
    }

    /// A tick for every centimetre, a longer one with its figure for every ten: behind it, or before it where a motif's mark
    /// would run through the figure, or none.
    fn centimetres(&self, paper: &mut Drawing, top: f64, marks: &[f64]) {
        let mut k = (self.from.get() / 10.0).ceil();
        while k * 10.0 <= self.to.get() {
            let x = self.x(mm(k * 10.0));
            let tens = (k / 10.0).fract() == 0.0;
            let tick = if tens {
                3.0
            } else if (k / 5.0).fract() == 0.0 {
                2.2
            } else {
                1.4
            };
            paper.line((x, top), (x, top + tick), Pen::new(style::SOFT, style::HAIRLINE));
            if tens {
                let after = Words::new(format!("{:.0}", (k * 10.0).abs()), (x + 0.7, top + 3.6)).size(style::SMALL);
                let before = Words { at: (x - 0.7, top + 3.6).into(), ..after.clone() }.anchor(Anchor::End);
                let free = |words: &Words| {
                    let bounds = words.bounds();
                    self.x(self.from) < bounds.x0
                        && bounds.x1 < self.x(self.to)
                        && !marks.iter().any(|mark| bounds.x0 - 0.4 < *mark && *mark < bounds.x1 + 0.4)
                };
                if let Some(words) = [after, before].into_iter().find(free) {
                    paper.words(words);
                }
            }
            k += 1.0;
        }
    }

    fn garment_lines(&self, paper: &mut Drawing, top: f64, bottom: f64) {
        for mark in chalk::marks_by_place(self.plan).into_iter().filter(|mark| self.holds(mark.s_hem)) {
            let x = self.x(mark.s_hem);
            let pen = Pen::new(style::ACCENT, style::THIN).dashed(style::HELP_DASH);
            paper.line((x, top), (x, bottom), pen);
            let words = Words::new(mark.names, (x, top - 1.2)).size(style::SMALL).bold().ink(style::ACCENT);
            let words = kept_inside(words.anchor(Anchor::Middle), paper.width);
            paper.words(words);
        }
    }

    /// A long mark for each motif, with its number.
    fn motifs(&self, paper: &mut Drawing, here: &[&Placement], marks: &[f64], (top, bottom): (f64, f64)) {
        for x in marks {
            paper.line((*x, top), (*x, bottom), Pen::new(style::TEXT, style::FIRM));
        }
        let mut taken: Vec<Rect> = Vec::new();
        for (placement, x) in here.iter().zip(marks) {
            let words = Words::new(placement.id.clone(), (x + 1.0, bottom - 1.6)).size(style::BODY).bold();
            let before = Words { at: (x - 1.0, bottom - 1.6).into(), ..words.clone() }.anchor(Anchor::End);
            let raised = |words: &Words| Words { at: words.at - Vec2::new(0.0, RAISED), ..words.clone() };
            // A number is read with its own mark: behind it, else before it, else above those.
            let places = [words.clone(), before.clone(), raised(&words), raised(&before)];
            let free = |words: &&Words| {
                let bounds = words.bounds();
                bounds.x0 > self.x(self.from) + NUMBER
                    && bounds.x1 < self.x(self.to)
                    && !marks.iter().any(|mark| bounds.x0 < *mark && *mark < bounds.x1)
                    && !taken.iter().any(|other| other.overlaps(bounds.inflate(0.6, -0.2)))
            };
            let words = places.iter().find(free).unwrap_or(&places[2]).clone();
            taken.push(words.bounds());
            paper.words(words);
        }
    }
}

/// Words at the ends of a piece stay on it.
fn kept_inside(mut words: Words, width: f64) -> Words {
    let bounds = words.bounds();
    words.at.x += (0.2 - bounds.x0).max(0.0) - (bounds.x1 - (width - 0.2)).max(0.0);
    words
}
