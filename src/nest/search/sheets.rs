//! The search at work on a whole draft: sheets become spaces, and what it finds becomes a draft again.

use super::field::{End, Field, Keep, Piece, Space};
use super::jostle::{self, Shaking};
use super::part::{Parting, Patience};
use super::random::Random;
use super::shorten::{Plan, shorten};
use super::watch::Watch;
use crate::geometry::Point;
use crate::nest::buying::draft::{Draft, DraftSheet, Pose, room};
use crate::nest::pattern::columns;
use crate::nest::pattern::ring::Ring;
use crate::nest::shape::kind::Kind;
use crate::nest::shape::shapes::{Shapes, Spot};
use crate::nest::{Effort, Task, Turning};

/// Everything a search of one task needs.
pub(in crate::nest) struct Search<'a> {
    pub(in crate::nest) task: &'a Task,
    pub(in crate::nest) kinds: &'a [Kind],
    pub(in crate::nest) shapes: &'a Shapes,
    pub(in crate::nest) watch: &'a Watch<'a>,
}

/// Turns in degrees that the search tries under free turning: every so many. Each costs one region for every pair of kinds.
const fn free_step(effort: Effort) -> u16 {
    match effort {
        Effort::Quick => 30,
        Effort::Usual => 20,
        Effort::Thorough => 10,
    }
}

/// Most no-fit regions kept, at about 30 kB each; with more kinds fewer turns are tried.
const MOST_REGIONS: usize = 3_000;

/// Most kinds searched; beyond, one region for each pair would take too long to make.
const MOST_KINDS: usize = 55;

/// Most pieces searched at once; weights of all pairs take four bytes each.
const MOST_SEARCHED: usize = 1_200;

/// Longest stretch of a roll in one search, in millimetres.
const LONGEST: f64 = 1e6;

/// The shapes of a task at the turns worth searching; `None` when there are too many kinds for a search.
pub(in crate::nest) fn shapes(task: &Task, kinds: &[Kind]) -> Option<Shapes> {
    if kinds.len() > MOST_KINDS {
        return None;
    }
    let most = (2 * MOST_REGIONS / (kinds.len() * kinds.len()).max(1)).max(1);
    let steps: Vec<u16> = match task.turning {
        Turning::None => vec![360],
        Turning::Half => vec![180, 360],
        Turning::Steps(step) => (1..=360 / step).map(|k| k * step).filter(|step| 360 % step == 0).collect(),
        Turning::Free => vec![free_step(task.effort), 30, 45, 90, 180, 360],
    };
    let step = steps.into_iter().find(|step| usize::from(360 / step) <= most)?;
    let turns: Vec<f64> = (0..360 / step).map(|k| f64::from(k * step)).collect();
    Some(Shapes::new(kinds, task.gap.get(), turns, |kind| coarseness(kind, task)))
}

/// How far outward, in millimetres, the search may simplify an outline, by the piece's size.
///
/// The time to find where two curved outlines overlap grows with the product of their corners, and a scroll of 140 mm kept
/// to 0.05 mm has three hundred. So the share of its size is what counts: at a four-hundredth a strip grows by about a
/// quarter of one in a hundred. Pieces that may touch are kept close.
fn coarseness(kind: &Kind, task: &Task) -> f64 {
    if task.gap.get() < 1.0 {
        return 0.05;
    }
    let bounds = kind.bounds_at(0.0);
    let size = bounds.width().hypot(bounds.height());
    match task.effort {
        Effort::Quick => (size / 250.0).clamp(0.1, 1.0),
        Effort::Usual => (size / 400.0).clamp(0.1, 0.5),
        Effort::Thorough => (size / 1000.0).clamp(0.05, 0.25),
    }
}

impl Search<'_> {
    fn space(&self, stock: usize) -> Space {
        let room = room(stock, self.task);
        Space { width: room.width, length: room.length.min(LONGEST), end: End::Closed }
    }

    /// A draft's pieces, sheet by sheet; as many of the first sheet as are to be tested stay there.
    fn pieces(&self, draft: &Draft) -> Vec<Piece> {
        let margin = self.task.margin.get();
        let mut tests: Vec<u32> = self.task.items.iter().map(|item| item.on_first_sheet).collect();
        let mut pieces = Vec::new();
        for (sheet, laid) in draft.sheets.iter().enumerate() {
            for pose in &laid.poses {
                let at = Point::new(pose.x - margin, pose.y - margin);
                let spot = Spot { turn: self.shapes.nearest_turn(pose.item, pose.turn_deg), at };
                let stays = sheet == 0 && tests[pose.item] > 0;
                tests[pose.item] = tests[pose.item].saturating_sub(u32::from(stays));
                let keep = if stays { Keep::OnItsSheet } else { Keep::Anywhere };
                pieces.push(Piece { item: pose.item, sheet, spot, keep });
            }
        }
        pieces
    }

    fn draft(&self, stocks: &[usize], pieces: &[Piece], method: &'static str) -> Draft {
        let margin = self.task.margin.get();
        let mut sheets: Vec<DraftSheet> =
            stocks.iter().map(|stock| DraftSheet { stock: *stock, poses: Vec::new() }).collect();
        for piece in pieces {
            let turn_deg = self.shapes.degrees(piece.item, piece.spot.turn);
            let (x, y) = (piece.spot.at.x + margin, piece.spot.at.y + margin);
            sheets[piece.sheet].poses.push(Pose { item: piece.item, turn_deg, x, y });
        }
        sheets.retain(|sheet| !sheet.poses.is_empty());
        sheets.iter_mut().for_each(|sheet| self.to_the_corner(sheet));
        Draft { sheets, method }
    }

    /// Moves a whole sheet's pieces up to its corner, so that what is left over is one strip and not two.
    fn to_the_corner(&self, sheet: &mut DraftSheet) {
        let margin = self.task.margin.get();
        let bounds = |pose: &Pose| self.kinds[pose.item].bounds_at(pose.turn_deg);
        let left = sheet.poses.iter().map(|pose| bounds(pose).x0 + pose.x).fold(f64::INFINITY, f64::min) - margin;
        let top = sheet.poses.iter().map(|pose| bounds(pose).y0 + pose.y).fold(f64::INFINITY, f64::min) - margin;
        for pose in &mut sheet.poses {
            (pose.x, pose.y) = (pose.x - left, pose.y - top);
        }
    }

    /// The draft with its last sheet emptied or its roll shortened as far as the plan gets.
    pub(in crate::nest) fn emptied(&self, draft: &Draft, plan: &Plan, random: &mut Random) -> Option<Draft> {
        let mut draft = draft.clone();
        self.least_used_last(&mut draft);
        let pieces = self.pieces(&draft);
        let from = first_searched(&draft);
        let searched: Vec<Piece> = pieces
            .iter()
            .filter(|piece| piece.sheet >= from)
            .map(|piece| Piece { sheet: piece.sheet - from, ..*piece })
            .collect();
        if searched.is_empty() || searched.len() > 2 * MOST_SEARCHED {
            return None;
        }
        let stocks: Vec<usize> = draft.sheets.iter().map(|sheet| sheet.stock).collect();
        let mut spaces: Vec<Space> = stocks[from..].iter().map(|stock| self.space(*stock)).collect();
        let last = spaces.len() - 1;
        let used = draft.sheets[from + last].used(self.kinds, self.task) - 2.0 * self.task.margin.get();
        let whole = spaces[last].length;
        spaces[last].length = used.min(whole);
        let mut field = Field::new(self.shapes, spaces.clone(), searched.clone());
        let rough = Patience { sweeps: 40, strikes: 2, moves: plan.moves / 8, ..plan.patience };
        if !Parting::new(&mut field, random, self.watch).part(rough) {
            // A little more room, for turns that are not quite the draft's.
            spaces[last].length = (used * 1.15).min(whole);
            field = Field::new(self.shapes, spaces, searched);
            if !Parting::new(&mut field, random, self.watch).part(rough) {
                return None;
            }
        }
        let found = shorten(field, plan, random, self.watch);
        let kept = pieces.iter().filter(|piece| piece.sheet < from).copied();
        let moved = found.pieces.iter().map(|piece| Piece { sheet: piece.sheet + from, ..*piece });
        let all: Vec<Piece> = kept.chain(moved).collect();
        Some(self.draft(&stocks, &all, "search"))
    }

    /// Puts the roll, or else the sheet with least on it, at the end; the first sheet stays when it holds test pieces.
    fn least_used_last(&self, draft: &mut Draft) {
        let tests = self.task.items.iter().any(|item| item.on_first_sheet > 0);
        let first = usize::from(tests && draft.sheets.len() > 1);
        let rank = |sheet: &DraftSheet| {
            let roll = self.task.stock[sheet.stock].height.is_none();
            let dear = crate::nest::buying::draft::bought(sheet.stock, 1.0, self.task) > 0.0;
            (!roll, !dear, sheet.poses.iter().map(|pose| self.kinds[pose.item].square_mm).sum::<f64>())
        };
        let least = (first..draft.sheets.len()).min_by(|a, b| {
            let (a, b) = (rank(&draft.sheets[*a]), rank(&draft.sheets[*b]));
            a.0.cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.total_cmp(&b.2))
        });
        if let Some(least) = least {
            let sheet = draft.sheets.remove(least);
            draft.sheets.push(sheet);
        }
    }

    /// The draft's pieces on other sheets, one for each stock named; `None` when they cannot be parted there.
    pub(in crate::nest) fn onto(
        &self,
        draft: &Draft,
        stocks: &[usize],
        patience: Patience,
        random: &mut Random,
    ) -> Option<Draft> {
        let pieces = self.pieces(draft);
        if pieces.len() > MOST_SEARCHED {
            return None;
        }
        // Sheets of a size that stays keep their pieces.
        let mut taken = vec![false; stocks.len()];
        let mut places: Vec<Option<usize>> = Vec::new();
        for sheet in &draft.sheets {
            let place = (0..stocks.len()).find(|place| !taken[*place] && stocks[*place] == sheet.stock);
            if let Some(place) = place {
                taken[place] = true;
            }
            places.push(place);
        }
        let first = places.first().copied().flatten().unwrap_or(0);
        let spaces: Vec<Space> = stocks.iter().map(|stock| self.space(*stock)).collect();
        let parked = Spot { turn: 0, at: Point::ZERO };
        let start: Vec<Piece> = pieces.iter().map(|piece| Piece { sheet: 0, spot: parked, ..*piece }).collect();
        let mut field = Field::new(self.shapes, spaces, start);
        for (index, piece) in pieces.iter().enumerate() {
            let kept = places[piece.sheet].map(|sheet| (sheet, piece.spot));
            let (sheet, spot) = match (kept, piece.keep) {
                (Some(kept), _) => kept,
                (None, keep) => (0..50).find_map(|_| {
                    let sheet = if keep == Keep::OnItsSheet { first } else { random.below(stocks.len()) };
                    let turn = random.below(self.shapes.turns.len());
                    field.anywhere(piece.item, turn, sheet, random).map(|spot| (sheet, spot))
                })?,
            };
            field.put(index, sheet, spot);
        }
        if !Parting::new(&mut field, random, self.watch).part(patience) {
            return None;
        }
        // The sheet with the test pieces comes first.
        let mut order: Vec<usize> = (0..stocks.len()).collect();
        order.swap(0, first);
        let stocks: Vec<usize> = order.iter().map(|place| stocks[*place]).collect();
        let pieces: Vec<Piece> = field
            .pieces
            .iter()
            .map(|piece| Piece { sheet: order.iter().position(|place| *place == piece.sheet).unwrap_or(0), ..*piece })
            .collect();
        Some(self.draft(&stocks, &pieces, "search"))
    }

    /// Pieces of one item in columns over a stock, shaken down; `None` when they do not stand so or do not fit.
    pub(in crate::nest) fn shaken(
        &self,
        item: usize,
        (stock, columns): (usize, u32),
        shaking: Shaking,
        random: &mut Random,
    ) -> Option<Draft> {
        let space = self.space(stock);
        let quantity = self.task.items[item].quantity as usize;
        let pieces = columns::in_columns(self.shapes, item, space.width, columns, quantity)?;
        let field = jostle::field(self.shapes, space.width, pieces);
        let found = jostle::jostled(field, shaking, random, self.watch);
        (found.length <= space.length).then(|| self.draft(&[stock], &found.pieces, "search"))
    }

    /// A sheet filled with a ring as far as pieces are left.
    pub(in crate::nest) fn of_ring(&self, ring: &Ring, stock: usize, left: &mut [u32]) -> DraftSheet {
        let margin = self.task.margin.get();
        let space = self.space(stock);
        let area: f64 = left.iter().enumerate().map(|(item, n)| f64::from(*n) * self.kinds[item].square_mm).sum();
        // A roll is filled as far as its pieces reach.
        let length = space.length.min(1.5 * area / (ring.cover(self.shapes) * space.width) + 2.0 * ring.length);
        let mut poses = Vec::new();
        for piece in ring.unrolled(self.shapes, length) {
            if left[piece.item] > 0 {
                left[piece.item] -= 1;
                let turn_deg = self.shapes.degrees(piece.item, piece.spot.turn);
                let (x, y) = (piece.spot.at.x + margin, piece.spot.at.y + margin);
                poses.push(Pose { item: piece.item, turn_deg, x, y });
            }
        }
        DraftSheet { stock, poses }
    }
}

/// The first sheet that takes part in emptying the last one, so that a large job searches only its end.
fn first_searched(draft: &Draft) -> usize {
    let mut pieces = 0;
    let mut from = draft.sheets.len();
    while from > 0 && (from == draft.sheets.len() || pieces + draft.sheets[from - 1].poses.len() <= MOST_SEARCHED) {
        from -= 1;
        pieces += draft.sheets[from].poses.len();
    }
    from
}
