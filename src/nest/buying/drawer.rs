//! Off-cuts from the drawer that need not be opened.
//!
//! What lies in the drawer costs nothing and is filled first. But an off-cut is one more thing to lay out and one more file to
//! cut, so where the other sheets take its pieces as well, without becoming longer by what a file is worth, it stays where it is.

use super::draft::{Draft, DraftSheet, bought, room};
use super::spare_room::empty_beside;
use crate::nest::Task;
use crate::nest::by_box::empty::{Empty, Fit, Place};
use crate::nest::by_box::load;
use crate::nest::shape::kind::Kind;

/// The draft with one off-cut fewer, for each off-cut whose pieces find room in what is empty of the other sheets.
pub(in crate::nest) fn one_fewer(draft: &Draft, kinds: &[Kind], task: &Task) -> Vec<Draft> {
    let free = |at: &usize| bought(draft.sheets[*at].stock, 1.0, task) <= 0.0;
    let closed = (0..draft.sheets.len()).filter(free).filter_map(|at| without(draft, at, kinds, task));
    closed.filter(|draft| !draft.sheets.is_empty()).collect()
}

fn without(draft: &Draft, at: usize, kinds: &[Kind], task: &Task) -> Option<Draft> {
    let mut others = draft.clone();
    let mut left: Vec<usize> = others.sheets.remove(at).poses.iter().map(|pose| pose.item).collect();
    left.sort_by(|a, b| kinds[*b].square_mm.total_cmp(&kinds[*a].square_mm).then(a.cmp(b)));
    let mut empty: Vec<Option<Empty>> =
        others.sheets.iter().map(|sheet| empty_beside(sheet, &left, kinds, task)).collect();
    for item in left {
        let (sheet, place) = others.sheets.iter().zip(&empty).enumerate().find_map(|(sheet, (laid, empty))| {
            let boxes = kinds[item].boxes_in(&room(laid.stock, task));
            Some((sheet, empty.as_ref()?.best_place(Fit::Nearest, &boxes)?))
        })?;
        let DraftSheet { stock, poses } = &mut others.sheets[sheet];
        let Place { boxed, x, y } = place;
        poses.push(load::pose(item, &boxed, x, y, &room(*stock, task)));
        if let Some(empty) = &mut empty[sheet] {
            empty.take(&place);
        }
    }
    Some(others)
}
