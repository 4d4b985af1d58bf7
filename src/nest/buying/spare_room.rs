//! How many more spares the off-cut of the last sheet takes, in a plain sentence.

use std::collections::BTreeSet;

use super::draft::Draft;
use crate::nest::by_box::boxes::RULES;
use crate::nest::by_box::simple;
use crate::nest::shape::kind::Kind;
use crate::nest::{Stock, Task};
use crate::quantity::{Mm, mm};

/// More spares than anyone cuts are not counted.
const MOST: u32 = 20;

/// What lies free below the last piece of the last sheet, laid with boxes: what it takes for certain, motif by motif. A roll
/// has no off-cut: it is bought to length.
pub(in crate::nest) fn sentence(draft: &Draft, kinds: &[Kind], task: &Task) -> Option<String> {
    let last = draft.sheets.last()?;
    let stock = &task.stock[last.stock];
    // The margin at the head of the off-cut is already kept as the gap to the last piece.
    let free = stock.height? - mm(last.used(kinds, task)) + task.margin - task.gap + task.margin;
    let motifs: BTreeSet<&str> =
        task.items.iter().filter(|item| item.quantity > 0).map(|item| item.motif.as_str()).collect();
    let more: Vec<(&str, u32)> =
        motifs.into_iter().map(|motif| (motif, spares_in(free, stock, motif, kinds, task))).collect();
    let counted = |(motif, count): &(&str, u32)| {
        let spares = if *count == 1 { "spare" } else { "spares" };
        let least = if *count == MOST { "at least " } else { "" };
        format!("{least}{count} more {spares} of {motif}")
    };
    let takes: Vec<String> = more.iter().filter(|(_, count)| *count > 0).map(counted).collect();
    let none: Vec<&str> = more.iter().filter(|(_, count)| *count == 0).map(|(motif, _)| *motif).collect();
    Some(match (takes.is_empty(), none.is_empty()) {
        (false, _) => format!("the last sheet has room for {} at no cost", takes.join(", or ")),
        (true, false) => format!("as laid, the last sheet has no room for one more spare of {}", none.join(" or ")),
        (true, true) => return None,
    })
}

/// Most sets of a motif's pieces that boxes lay in the off-cut.
fn spares_in(free: Mm, stock: &Stock, motif: &str, kinds: &[Kind], task: &Task) -> u32 {
    let fits = |count: u32| {
        let mut more = task.clone();
        more.stock = vec![Stock { height: Some(free), available: Some(1), price: None, ..stock.clone() }];
        for item in &mut more.items {
            item.quantity = if item.motif == motif { count } else { 0 };
            item.on_first_sheet = 0;
        }
        let wanted: Vec<u32> = more.items.iter().map(|item| item.quantity).collect();
        let laid = simple::by_boxes(&RULES, 0, &wanted, kinds, &more);
        laid.sheets.iter().map(|sheet| sheet.poses.len()).sum::<usize>() == wanted.iter().sum::<u32>() as usize
    };
    if free <= task.margin * 2.0 {
        return 0;
    }
    (1..=MOST).take_while(|count| fits(*count)).last().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Rect, Ring};
    use crate::nest::{Effort, Item, Silent, Turning, lay};

    /// Worked by hand: 90 mm squares on a sheet 300 x 300 with 5 mm margin and 5 mm gap lie three across (3 x 90 + 2 x 5 =
    /// 280 of 290) and three down; of nine places seven are free after two, six of them below the first row.
    #[test]
    fn the_off_cut_takes_what_a_hand_count_gives() {
        let item = Item {
            name: "square".to_owned(),
            motif: "square".to_owned(),
            patch: Ring::rectangle(Rect::new(0.0, 0.0, 90.0, 90.0)).unwrap(),
            holes: Vec::new(),
            quantity: 2,
            spares: 0,
            on_first_sheet: 0,
        };
        let stock =
            Stock { name: "sheet".to_owned(), width: mm(300.0), height: Some(mm(300.0)), price: None, available: None };
        let task = Task {
            items: vec![item],
            stock: vec![stock],
            margin: mm(5.0),
            gap: mm(5.0),
            turning: Turning::Half,
            effort: Effort::Quick,
            seed: 1,
        };
        let layout = lay(&task, &Silent).unwrap();
        assert_eq!(layout.alternatives, ["the last sheet has room for 6 more spares of square at no cost"]);
    }
}
