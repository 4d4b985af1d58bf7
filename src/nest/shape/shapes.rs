//! The pieces as the search sees them: grown outlines at a set of turns, and for every pair the no-fit region.

use std::sync::OnceLock;

use super::boundary::boundary;
use super::convolve;
use super::grow::grown;
use super::kind::{Kind, turn};
use super::nofit::NoFit;
use crate::geometry::{Outline, Point, Rect, Vec2};

/// Shapes by item index, and the turns they may take.
#[derive(Debug)]
pub(in crate::nest) struct Shapes {
    /// Turns in degrees, evenly spaced from 0.
    pub(in crate::nest) turns: Vec<f64>,
    /// Cosine and sine of each turn.
    directions: Vec<Vec2>,
    shapes: Vec<Shape>,
    /// No-fit regions by first shape, second shape and the turn between them, made when first asked for.
    table: Vec<OnceLock<NoFit>>,
}

/// One shape.
#[derive(Clone, Debug)]
pub(in crate::nest) struct Shape {
    grown: Outline,
    /// Degrees the shape is turned by at the first turn, so that its densest rows run along the sheet's edges.
    base: f64,
    /// Box of the true outline at each turn.
    bounds: Vec<Rect>,
    /// Shorter side of the smallest of those boxes: the scale on which the shape is moved.
    pub(in crate::nest) size: f64,
    /// Square millimetres of the true outline.
    pub(in crate::nest) area: f64,
    /// Square millimetres of a sheet that one of many takes up at best, its share of the gaps included.
    pub(in crate::nest) need: f64,
    /// Greatest distance of the grown outline from the origin.
    pub(in crate::nest) radius: f64,
}

/// Where a piece lies, in the room's millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::nest) struct Spot {
    /// Index into [`Shapes::turns`].
    pub(in crate::nest) turn: usize,
    pub(in crate::nest) at: Point,
}

/// How a pair of pieces lies to each other.
struct Relative<'a> {
    region: &'a NoFit,
    /// From one to the other, in the region's frame.
    offset: Point,
    /// Direction of that frame's x axis.
    frame: Vec2,
    /// Whether the region is that of the second piece, with the first beside it.
    swapped: bool,
}

impl Shapes {
    pub(in crate::nest) fn new(kinds: &[Kind], gap: f64, turns: Vec<f64>, tolerance: impl Fn(&Kind) -> f64) -> Self {
        let directions =
            turns.iter().map(|degrees| turn(*degrees) * Vec2::new(1.0, 0.0).to_point()).map(Point::to_vec2);
        let grown = |kind: &Kind| grown(&kind.area, gap, tolerance(kind));
        let shapes: Vec<Shape> = kinds.iter().map(|kind| Shape::new(kind, &grown(kind), 0.0, &turns)).collect();
        let count = shapes.len() * shapes.len() * turns.len();
        Self { directions: directions.collect(), turns, shapes, table: (0..count).map(|_| OnceLock::new()).collect() }
    }

    /// Turns shapes so that each begins at so many degrees, and notes what its densest lattice needs.
    pub(in crate::nest) fn based(mut self, kinds: &[Kind], bases: &[f64], needs: &[Option<f64>]) -> Self {
        for (((shape, kind), base), need) in self.shapes.iter_mut().zip(kinds).zip(bases).zip(needs) {
            *shape = Shape::new(kind, &shape.grown.transformed(turn(*base)), *base, &self.turns);
            shape.need = need.unwrap_or(shape.area);
        }
        self.table.iter_mut().for_each(|region| *region = OnceLock::new());
        self
    }

    /// Turn in degrees of an item at the n-th turn.
    pub(in crate::nest) fn degrees(&self, item: usize, turn: usize) -> f64 {
        (self.shapes[item].base + self.turns[turn]) % 360.0
    }

    /// The turn of an item nearest to one in degrees.
    pub(in crate::nest) fn nearest_turn(&self, item: usize, degrees: f64) -> usize {
        let off = |turn: usize| {
            let off = (self.degrees(item, turn) - degrees).rem_euclid(360.0);
            off.min(360.0 - off)
        };
        (0..self.turns.len()).min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap_or(0)
    }

    /// Index of the half turn, if it is among the turns.
    pub(in crate::nest) fn half_turn(&self) -> Option<usize> {
        self.turns.iter().position(|degrees| (degrees - 180.0).abs() < 1e-9)
    }

    /// Where two pieces of one item overlap when the second is turned so many turns more.
    pub(in crate::nest) fn region(&self, item: usize, between: usize) -> Vec<Outline> {
        let grown = &self.shapes[item].grown;
        convolve::no_fit(grown, &grown.transformed(turn(self.turns[between])))
    }

    pub(in crate::nest) fn shape(&self, item: usize) -> &Shape {
        &self.shapes[item]
    }

    /// Box of an item's true outline at a turn, about its origin.
    pub(in crate::nest) fn bounds(&self, item: usize, turn: usize) -> Rect {
        self.shapes[item].bounds[turn]
    }

    /// The no-fit region of two shapes when the second is turned so much more than the first.
    fn no_fit(&self, first: usize, second: usize, between: usize) -> &NoFit {
        let place = (first * self.shapes.len() + second) * self.turns.len() + between;
        self.table[place].get_or_init(|| {
            let moving = self.shapes[second].grown.transformed(turn(self.turns[between]));
            NoFit::new(&boundary(&self.shapes[first].grown, &moving))
        })
    }

    /// How deep two pieces overlap.
    #[inline]
    pub(in crate::nest) fn depth(&self, first: usize, a: Spot, second: usize, b: Spot) -> f64 {
        let Relative { region, offset, .. } = self.relative(first, a, second, b);
        region.depth(offset)
    }

    /// The shortest move of the first piece that parts it from the second.
    pub(in crate::nest) fn escape(&self, first: usize, a: Spot, second: usize, b: Spot) -> Vec2 {
        let Relative { region, offset, frame, swapped } = self.relative(first, a, second, b);
        let step = region.escape(offset);
        let step = Vec2::new(step.x * frame.x - step.y * frame.y, step.x * frame.y + step.y * frame.x);
        if swapped { step } else { -step }
    }

    /// Only half of all pairs are kept; the others are asked the other way.
    #[inline]
    fn relative(&self, first: usize, a: Spot, second: usize, b: Spot) -> Relative<'_> {
        let turns = self.turns.len();
        let between = if b.turn >= a.turn { b.turn - a.turn } else { b.turn + turns - a.turn };
        let swap = first > second || (first == second && 2 * between > turns);
        let (first, second, between, from, offset) = if swap {
            (second, first, if between == 0 { 0 } else { turns - between }, b.turn, a.at - b.at)
        } else {
            (first, second, between, a.turn, b.at - a.at)
        };
        let frame = self.directions[from];
        let turned = Point::new(offset.x * frame.x + offset.y * frame.y, offset.y * frame.x - offset.x * frame.y);
        Relative { region: self.no_fit(first, second, between), offset: turned, frame, swapped: swap }
    }
}

impl Shape {
    fn new(kind: &Kind, grown: &Outline, base: f64, turns: &[f64]) -> Self {
        let bounds: Vec<Rect> = turns.iter().map(|degrees| kind.bounds_at((base + degrees) % 360.0)).collect();
        let size = bounds.iter().map(|b| b.width().min(b.height())).fold(f64::INFINITY, f64::min);
        let radius = grown.outer().points().iter().map(|p| p.to_vec2().hypot()).fold(0.0, f64::max);
        let area = kind.square_mm;
        Self { area, need: area, grown: grown.clone(), base, bounds, size, radius }
    }
}
