//! How many more spares what is opened anyway takes, in a plain sentence.
//!
//! Boxes of further pieces are laid in what is empty of every sheet, and a sheet of like pieces is also laid anew with more of
//! them. More may fit where boxes do not tell, so a number is said to be the least where nothing proves it the most.

use std::collections::BTreeMap;

use super::bound;
use super::draft::{Draft, DraftSheet, bought, room};
use crate::geometry::Rect;
use crate::nest::Task;
use crate::nest::by_box::boxes::{self, RULES, Rule};
use crate::nest::by_box::empty::{Empty, Fit};
use crate::nest::by_box::fills::Fills;
use crate::nest::by_box::load::Load;
use crate::nest::by_box::simple;
use crate::nest::shape::kind::{Boxed, Kind, Room};

/// More spares than anyone cuts are not counted.
const MOST: u32 = 20;

/// Rules by which a sheet of like pieces is laid anew; others take long where pieces are many.
const ANEW: [Rule; 3] = [Rule::Rows(0), Rule::Rows(1), Rule::Blocks];

/// Where there is room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Place {
    LastSheet,
    OtherSheet,
    Drawer,
}

/// A sheet that is opened anyway or lies in the drawer.
struct Sheet<'a> {
    place: Place,
    is_first: bool,
    copies: u32,
    laid: &'a DraftSheet,
}

/// What the sheets take for certain, motif by motif. A roll has no room to spare: it is bought to length.
pub(in crate::nest) fn sentence(draft: &Draft, kinds: &[Kind], task: &Task) -> Option<String> {
    let unopened = unopened(draft, task);
    let sheets = sheets(draft, &unopened, task);
    if sheets.is_empty() {
        return None;
    }
    let mut motifs: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, item) in task.items.iter().enumerate().filter(|(_, item)| item.quantity > 0) {
        motifs.entry(item.motif.as_str()).or_default().push(at);
    }
    let (mut takes, mut none, mut places) = (Vec::new(), Vec::new(), Vec::new());
    for (motif, items) in motifs {
        let (mut count, mut most) = (0u32, 0u32);
        for sheet in &sheets {
            let spares = Spares { sheet: sheet.laid, items: &items, kinds, task };
            let found = spares.found(sheet.is_first);
            count = count.saturating_add(found.saturating_mul(sheet.copies));
            most = most.saturating_add(spares.bound().saturating_mul(sheet.copies));
            if found > 0 {
                places.push(sheet.place);
            }
        }
        let least = if count < most || count > MOST { "at least " } else { "" };
        match count.min(MOST) {
            0 => none.push(motif),
            1 => takes.push(format!("{least}1 more spare of {motif}")),
            count => takes.push(format!("{least}{count} more spares of {motif}")),
        }
    }
    let takes = takes.join(", or ");
    let all = |place: Place| places.iter().all(|other| *other == place);
    let (who, no_who) = match places.iter().max() {
        None if none.is_empty() => return None,
        None if draft.sheets.len() == 1 && unopened.is_empty() => ("", "the sheet has no"),
        None => ("", "no sheet has"),
        Some(Place::LastSheet) => ("the last sheet has", ""),
        Some(Place::OtherSheet) => ("the sheets have", ""),
        Some(Place::Drawer) if all(Place::Drawer) => ("what lies in the drawer has", ""),
        Some(Place::Drawer) => ("the sheets and what lies in the drawer have", ""),
    };
    Some(if places.is_empty() {
        format!("as laid, {no_who} room for one more spare of {}", none.join(" or "))
    } else {
        format!("{who} room for {takes} at no cost")
    })
}

/// Sheets in the drawer that nothing lies on.
fn unopened(draft: &Draft, task: &Task) -> Vec<(DraftSheet, u32)> {
    let free = (0..task.stock.len()).filter(|stock| bought(*stock, 1.0, task) <= 0.0);
    let left = free.map(|stock| {
        let opened = draft.sheets.iter().filter(|sheet| sheet.stock == stock).count();
        let there = task.stock[stock].available.unwrap_or(0);
        let left = there.saturating_sub(u32::try_from(opened).unwrap_or(u32::MAX));
        (DraftSheet { stock, poses: Vec::new() }, left)
    });
    left.filter(|(_, left)| *left > 0).collect()
}

/// All sheets with an end, like ones together.
fn sheets<'a>(draft: &'a Draft, unopened: &'a [(DraftSheet, u32)], task: &Task) -> Vec<Sheet<'a>> {
    let mut sheets: Vec<Sheet<'a>> = Vec::new();
    let last = draft.sheets.len().saturating_sub(1);
    for (at, laid) in draft.sheets.iter().enumerate() {
        if task.stock[laid.stock].height.is_none() {
            continue;
        }
        let place = if at == last { Place::LastSheet } else { Place::OtherSheet };
        match sheets.iter_mut().find(|sheet| sheet.place == place && sheet.laid == laid) {
            Some(same) => same.copies += 1,
            None => sheets.push(Sheet { place, is_first: at == 0, copies: 1, laid }),
        }
    }
    let drawer =
        |(laid, left): &'a (DraftSheet, u32)| Sheet { place: Place::Drawer, is_first: false, copies: *left, laid };
    sheets.extend(unopened.iter().map(drawer));
    sheets
}

/// What no box of a sheet's pieces lies in, as far as boxes of some items go into it; `None` where one of those fits at no turn.
pub(super) fn empty_beside(sheet: &DraftSheet, items: &[usize], kinds: &[Kind], task: &Task) -> Option<Empty> {
    let room = room(sheet.stock, task);
    let boxes: Vec<Boxed> = items.iter().flat_map(|item| kinds[*item].boxes_in(&room)).collect();
    if items.iter().any(|item| kinds[*item].fitting(&room).is_none()) {
        return None;
    }
    let least = |side: fn(Rect) -> f64| boxes.iter().map(|boxed| side(boxed.bounds)).fold(f64::INFINITY, f64::min);
    let least = (least(|bounds| bounds.width()), least(|bounds| bounds.height()));
    let mut empty = Empty::whole(&room, task.gap.get(), least);
    for pose in &sheet.poses {
        let lies = kinds[pose.item].bounds_at(pose.turn_deg);
        empty.take_round(lies + crate::geometry::Vec2::new(pose.x - room.margin, pose.y - room.margin));
    }
    Some(empty)
}

/// Spares of one motif, a piece of each of its items, on one sheet.
struct Spares<'a> {
    sheet: &'a DraftSheet,
    items: &'a [usize],
    kinds: &'a [Kind],
    task: &'a Task,
}

impl Spares<'_> {
    fn room(&self) -> Room {
        room(self.sheet.stock, self.task)
    }

    /// As many as area alone lets lie on the sheet.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count, not below nothing")]
    fn bound(&self) -> u32 {
        let area = |item: usize| self.kinds[item].takes_up(self.task.gap.get());
        let taken: f64 = self.sheet.poses.iter().map(|pose| area(pose.item)).sum();
        let each: f64 = self.items.iter().map(|item| area(*item)).sum();
        ((bound::usable(self.sheet.stock, 0.0, self.task) - taken) / each + 1e-9).max(0.0) as u32
    }

    /// The most found.
    fn found(&self, is_first: bool) -> u32 {
        let most = self.bound().min(MOST + 1);
        let Some(empty) = self.empty().filter(|_| most > 0) else { return 0 };
        let one_by_one = [Fit::Nearest, Fit::ShortSide, Fit::SmallestArea]
            .into_iter()
            .map(|fit| self.one_by_one(fit, empty.clone(), most))
            .max();
        let mut found = one_by_one.unwrap_or(0);
        if let [item] = self.items {
            found = found.max(self.in_blocks(*item, empty, most));
        }
        while found < most && self.lies_anew(is_first, found + 1) {
            found += 1;
        }
        found.min(most)
    }

    /// What no piece's box lies in.
    fn empty(&self) -> Option<Empty> {
        empty_beside(self.sheet, self.items, self.kinds, self.task)
    }

    /// Spares laid one after the other in what is empty.
    fn one_by_one(&self, fit: Fit, mut empty: Empty, most: u32) -> u32 {
        let room = self.room();
        let boxes: Vec<Vec<Boxed>> = self.items.iter().map(|item| self.kinds[*item].boxes_in(&room)).collect();
        for count in 0..most {
            for boxes in &boxes {
                let Some(place) = empty.best_place(fit, boxes) else { return count };
                empty.take(&place);
            }
        }
        most
    }

    /// Spares of a single piece, one empty rectangle after the other filled as well as it can be.
    fn in_blocks(&self, item: usize, mut empty: Empty, most: u32) -> u32 {
        let (gap, mut count) = (self.task.gap.get(), 0);
        let first = vec![0; self.kinds.len()];
        while count < most {
            let mut wanted = first.clone();
            wanted[item] = most - count;
            let filled = |rect: &Rect| {
                let room = Room { margin: 0.0, width: rect.width() - gap, length: rect.height() - gap };
                let load = Load { room: &room, gap, kinds: self.kinds, wanted: &wanted, first: &first };
                let ways = RULES.iter().map(|rule| boxes::fill(*rule, &load));
                let poses = ways.reduce(|a, b| if b.len() > a.len() { b } else { a }).unwrap_or_default();
                (*rect, poses)
            };
            let best = empty.rects.iter().map(filled).reduce(|a, b| if b.1.len() > a.1.len() { b } else { a });
            let Some((rect, poses)) = best.filter(|(_, poses)| !poses.is_empty()) else { break };
            for pose in &poses {
                let lies = self.kinds[item].bounds_at(pose.turn_deg);
                empty.take_round(lies + crate::geometry::Vec2::new(rect.x0 + pose.x, rect.y0 + pose.y));
            }
            count += u32::try_from(poses.len()).unwrap_or(u32::MAX);
        }
        count
    }

    /// Whether the sheet's own pieces and so many spares lie on it when it is laid anew.
    fn lies_anew(&self, is_first: bool, spares: u32) -> bool {
        let mut wanted = vec![0u32; self.kinds.len()];
        self.sheet.poses.iter().for_each(|pose| wanted[pose.item] += 1);
        self.items.iter().for_each(|item| wanted[*item] += spares);
        let fills = Fills::new(self.kinds);
        let laid = simple::fill_sheet(&ANEW, self.sheet.stock, is_first, &wanted, &fills, self.task);
        laid.len() == wanted.iter().map(|count| *count as usize).sum::<usize>()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Ring;
    use crate::nest::{Effort, Item, Silent, Stock, Turning, lay};
    use crate::quantity::mm;

    fn rectangles(width: f64, height: f64, quantity: u32, stock: Vec<Stock>) -> Task {
        let item = Item {
            name: "piece".to_owned(),
            motif: "piece".to_owned(),
            patch: Ring::rectangle(Rect::new(0.0, 0.0, width, height)).unwrap(),
            holes: Vec::new(),
            quantity,
            spares: 0,
            on_first_sheet: 0,
        };
        let (margin, gap) = (mm(5.0), mm(4.0));
        Task { items: vec![item], stock, margin, gap, turning: Turning::Free, effort: Effort::Quick, seed: 1 }
    }

    fn sheet(width: f64, height: f64, available: Option<u32>) -> Stock {
        Stock { name: "sheet".to_owned(), width: mm(width), height: Some(mm(height)), price: None, available }
    }

    fn said(task: &Task) -> Vec<String> {
        lay(task, &Silent).unwrap().alternatives
    }

    /// Worked by hand: 90 mm squares on a sheet 300 x 300 with 5 mm margin and 4 mm gap lie three across (3 x 90 + 2 x 4 =
    /// 278 of 290) and three down. Of nine places seven are free after two, six of them below the first row. Area would let
    /// nine squares and part of a tenth lie there, so seven is the most as well.
    #[test]
    fn places_beside_and_below_what_is_laid_are_counted() {
        let mut task = rectangles(90.0, 90.0, 2, vec![sheet(300.0, 300.0, None)]);
        task.turning = Turning::Half;
        assert_eq!(said(&task), ["the last sheet has room for 7 more spares of piece at no cost"]);
    }

    /// Worked by hand: 49 of 60 x 40 lie on 300 x 500 (one column of ten beside five of seven upright ones, and a row of four
    /// below), so 18 after 31. Area would let 51 lie there. After 49 nothing is left in which boxes lie.
    #[test]
    fn a_sheet_of_like_pieces_is_counted_to_the_last() {
        let said_of = |count| said(&rectangles(60.0, 40.0, count, vec![sheet(300.0, 500.0, None)]));
        assert_eq!(said_of(27), ["the last sheet has room for at least 20 more spares of piece at no cost"]);
        assert_eq!(said_of(31), ["the last sheet has room for at least 18 more spares of piece at no cost"]);
        assert_eq!(said_of(49), ["as laid, the sheet has no room for one more spare of piece"]);
    }

    /// Two off-cuts, each as large as one piece with its margins: the second one takes a spare.
    #[test]
    fn an_off_cut_that_is_not_opened_has_room() {
        let task = rectangles(60.0, 40.0, 1, vec![sheet(70.0, 50.0, Some(2))]);
        let drawer = "what lies in the drawer has room for 1 more spare of piece at no cost";
        assert_eq!(said(&task), [drawer]);
    }
}
