//! The most boxes of one size in a rectangle, some upright and some on their side, block by block.
//!
//! Every way is tried in which straight cuts from edge to edge part a rectangle again and again into blocks of like rows (P. C.
//! Gilmore, R. E. Gomory, "Multistage Cutting Stock Problems of Two and More Dimensions", 1965), and, round a block in the
//! middle, every way in which four more such rectangles lie like the sails of a windmill (the five blocks of E. E. Bischoff,
//! W. B. Dowsland, "An Application of the Micro to Product Design and Distribution", 1982). Edges of blocks need only lie where
//! sides of boxes add up.

use super::block::{Block, ROUNDING, Size, times};
use crate::nest::shape::kind::EXACT;

/// Places looked at for cuts from edge to edge, and windmills, in one rectangle.
const MOST_CUTS: usize = 200_000;
const MOST_WINDMILLS: usize = 60_000;

/// How the best found of a rectangle is made up.
#[derive(Clone, Copy, Debug)]
enum Parted {
    /// Rows of one way round.
    Rows(usize),
    /// Two rectangles beside each other, parted at this place.
    Beside(usize),
    /// Two rectangles, one below the other.
    Below(usize),
}

/// The most boxes found in every rectangle whose sides are sums of sides of boxes.
pub(super) struct Table {
    sizes: [Size; 2],
    /// Sums of widths, and of heights.
    xs: Sums,
    ys: Sums,
    /// For each rectangle how many, and how.
    most: Vec<(u32, Parted)>,
}

/// A windmill: where its four inner edges lie, as places among the sums.
#[derive(Clone, Copy, Debug)]
struct Windmill {
    x: [usize; 2],
    y: [usize; 2],
}

impl Table {
    /// `None` where there are too many sums.
    pub(super) fn new(sizes: [Size; 2], width: f64, length: f64) -> Option<Self> {
        let mut xs = Sums::new(sizes[0].width, sizes[1].width, width + EXACT)?;
        let mut ys = Sums::new(sizes[0].height, sizes[1].height, length + EXACT)?;
        if xs.len() * ys.len() * (xs.len() + ys.len()) / 2 > MOST_CUTS {
            return None;
        }
        xs.find_differences();
        ys.find_differences();
        let mut table = Self { sizes, xs, ys, most: Vec::new() };
        for x in 0..table.xs.len() {
            for y in 0..table.ys.len() {
                let best = table.parted(x, y);
                table.most.push(best);
            }
        }
        Some(table)
    }

    /// The best of a rectangle, all smaller ones being known.
    fn parted(&self, x: usize, y: usize) -> (u32, Parted) {
        let (width, height) = (self.xs.at(x), self.ys.at(y));
        let rows = |way: usize| times(width, self.sizes[way].width) * times(height, self.sizes[way].height);
        let mut best = (rows(0), Parted::Rows(0));
        let mut offer = |count: u32, how: Parted| {
            if count > best.0 {
                best = (count, how);
            }
        };
        offer(rows(1), Parted::Rows(1));
        for at in (1..x).take_while(|at| self.xs.at(*at) <= width / 2.0 + ROUNDING) {
            offer(self.at(at, y) + self.at(self.xs.less(x, at), y), Parted::Beside(at));
        }
        for at in (1..y).take_while(|at| self.ys.at(*at) <= height / 2.0 + ROUNDING) {
            offer(self.at(x, at) + self.at(x, self.ys.less(y, at)), Parted::Below(at));
        }
        best
    }

    fn at(&self, x: usize, y: usize) -> u32 {
        self.most[x * self.ys.len() + y].0
    }

    /// So many, or as many as fit, over the whole width on the least length.
    pub(super) fn most(&self, wanted: u32) -> Vec<Block> {
        let last = (self.xs.len() - 1, self.ys.len() - 1);
        let each = self.sizes[0].width * self.sizes[0].height;
        let by_area = |y: usize| times((self.xs.at(last.0) + EXACT) * (self.ys.at(y) + EXACT), each);
        let room = by_area(last.1);
        let mut count = self.at(last.0, last.1).min(wanted);
        let mut looked = 0;
        let mut found = None;
        while count < wanted.min(room) {
            let Some(windmill) = self.windmill(last.1, count + 1, &mut looked) else { break };
            (count, found) = (self.held(windmill, last.1), Some(windmill));
        }
        let count = count.min(wanted);
        let by_cuts = (0..=last.1).find(|y| self.at(last.0, *y) >= count);
        for y in (0..by_cuts.unwrap_or(last.1)).filter(|y| by_area(*y) >= count) {
            if let Some(windmill) = self.windmill(y, count, &mut looked) {
                return self.blocks_of(windmill, y);
            }
        }
        match (by_cuts, found) {
            (Some(y), _) => {
                let mut blocks = Vec::new();
                self.collect((last.0, y), (0.0, 0.0), &mut blocks);
                blocks
            }
            (None, Some(windmill)) => self.blocks_of(windmill, last.1),
            (None, None) => Vec::new(),
        }
    }

    /// A windmill over the whole width and some length that holds at least so many.
    fn windmill(&self, y: usize, least: u32, looked: &mut usize) -> Option<Windmill> {
        let (across, down) = (self.xs.len().saturating_sub(2), y.saturating_sub(1));
        for left in 1..=across {
            for right in left..=across {
                for upper in 1..=down {
                    for lower in upper..=down {
                        *looked += 1;
                        if *looked > MOST_WINDMILLS {
                            return None;
                        }
                        let windmill = Windmill { x: [left, right], y: [upper, lower] };
                        if self.held(windmill, y) >= least {
                            return Some(windmill);
                        }
                    }
                }
            }
        }
        None
    }

    /// The five rectangles of a windmill: where each begins, and its sides as places among the sums.
    fn sails(&self, windmill: Windmill, y: usize) -> [((f64, f64), (usize, usize)); 5] {
        let Windmill { x: [left, right], y: [upper, lower] } = windmill;
        let (xs, ys, last) = (&self.xs, &self.ys, self.xs.len() - 1);
        [
            ((0.0, 0.0), (right, upper)),
            ((xs.at(right), 0.0), (xs.less(last, right), lower)),
            ((xs.at(left), ys.at(lower)), (xs.less(last, left), ys.less(y, lower))),
            ((0.0, ys.at(upper)), (left, ys.less(y, upper))),
            ((xs.at(left), ys.at(upper)), (xs.less(right, left), ys.less(lower, upper))),
        ]
    }

    fn held(&self, windmill: Windmill, y: usize) -> u32 {
        self.sails(windmill, y).iter().map(|(_, (x, y))| self.at(*x, *y)).sum()
    }

    fn blocks_of(&self, windmill: Windmill, y: usize) -> Vec<Block> {
        let mut blocks = Vec::new();
        for (corner, sides) in self.sails(windmill, y) {
            self.collect(sides, corner, &mut blocks);
        }
        blocks
    }

    /// The blocks that a rectangle is made up of, from its corner on.
    fn collect(&self, (x, y): (usize, usize), corner: (f64, f64), blocks: &mut Vec<Block>) {
        let (width, height) = (self.xs.at(x), self.ys.at(y));
        match self.most[x * self.ys.len() + y] {
            (0, _) => {}
            (_, Parted::Rows(way)) => {
                let (columns, rows) = (times(width, self.sizes[way].width), times(height, self.sizes[way].height));
                blocks.push(Block { way, x: corner.0, y: corner.1, columns, rows });
            }
            (_, Parted::Beside(at)) => {
                self.collect((at, y), corner, blocks);
                self.collect((self.xs.less(x, at), y), (corner.0 + self.xs.at(at), corner.1), blocks);
            }
            (_, Parted::Below(at)) => {
                self.collect((x, at), corner, blocks);
                self.collect((x, self.ys.less(y, at)), (corner.0, corner.1 + self.ys.at(at)), blocks);
            }
        }
    }
}

/// Every sum of so many of two lengths up to a third, nothing first.
struct Sums {
    sums: Vec<f64>,
    /// For each sum less each, the place of the greatest sum that is no more.
    less: Vec<usize>,
}

impl Sums {
    /// `None` where there are too many.
    fn new(a: f64, b: f64, most: f64) -> Option<Self> {
        if (most / a + 1.0) * (most / b + 1.0) > 4_000.0 {
            return None;
        }
        let of_a = (0..=times(most, a)).map(|k| f64::from(k) * a);
        let mut sums: Vec<f64> =
            of_a.flat_map(|sum| (0..=times(most - sum, b)).map(move |k| sum + f64::from(k) * b)).collect();
        sums.sort_by(f64::total_cmp);
        sums.dedup_by(|later, earlier| *later - *earlier < ROUNDING / 10.0);
        if sums.len().pow(2) > MOST_CUTS {
            return None;
        }
        Some(Self { sums, less: Vec::new() })
    }

    /// Notes where the difference of each two lies; differences from one sum fall, so their places are passed in order.
    fn find_differences(&mut self) {
        let sums = &self.sums;
        let mut less = Vec::with_capacity(sums.len() * sums.len());
        for from in sums {
            let mut place = sums.len() - 1;
            for by in sums {
                while place > 0 && sums[place] > from - by + ROUNDING {
                    place -= 1;
                }
                less.push(place);
            }
        }
        self.less = less;
    }

    fn len(&self) -> usize {
        self.sums.len()
    }

    fn at(&self, place: usize) -> f64 {
        self.sums[place]
    }

    fn less(&self, from: usize, by: usize) -> usize {
        self.less[from * self.sums.len() + by]
    }
}
