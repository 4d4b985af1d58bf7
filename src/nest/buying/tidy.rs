//! Like shapes of different kinds change places so that each kind lies together: it costs nothing, and spares her sorting.
//!
//! Two kinds are alike when their patches are the same ring, wherever it starts and whichever way it runs, as with the two
//! hands of a leaf that is its own mirror image. Which places are taken stays as it is, and test pieces stay on their sheet.

use super::draft::{Draft, Pose};
use crate::geometry::{Point, Ring};
use crate::nest::Task;

/// Corners nearer than this, in millimetres, are the same: nothing that a reordering can move farther would be noticed by the
/// check of gaps.
const SAME: f64 = 1e-6;

/// The draft with like pieces sorted: over all sheets where that makes no more files to cut, otherwise on each sheet.
pub(in crate::nest) fn sorted(draft: Draft, task: &Task) -> Draft {
    let groups = groups(task);
    if groups.is_empty() {
        return draft;
    }
    let over_all = rearranged(&draft, &groups, task, |wanted, _| wanted.to_vec());
    if over_all.different_sheets() <= draft.different_sheets() {
        return over_all;
    }
    // As many of each kind on each sheet as there are now.
    rearranged(&draft, &groups, task, |_, now| now.to_vec())
}

/// Items of one shape, for each shape that several items share.
fn groups(task: &Task) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (item, wish) in task.items.iter().enumerate().filter(|(_, wish)| wish.quantity > 0) {
        let like = |group: &Vec<usize>| {
            let other = &task.items[group[0]];
            wish.holes.is_empty() && other.holes.is_empty() && same(&wish.patch, &other.patch)
        };
        match groups.iter_mut().find(|group| like(group)) {
            Some(group) => group.push(item),
            None => groups.push(vec![item]),
        }
    }
    groups.retain(|group| group.len() > 1);
    groups
}

fn same(a: &Ring, b: &Ring) -> bool {
    let (a, b) = (a.points(), b.points());
    let near = |p: Point, q: Point| (p - q).hypot() < SAME;
    let count = a.len();
    let starts = || (0..count).filter(|start| near(a[0], b[*start]));
    a.len() == b.len()
        && starts().any(|start| {
            (0..count).all(|k| near(a[k], b[(start + k) % count]))
                || (0..count).all(|k| near(a[k], b[(start + count - k) % count]))
        })
}

/// The draft with the places of each group dealt out kind after kind, sheet after sheet. `share` says how many of each kind
/// of the group a sheet may take, from how many are left and how many lie there now.
fn rearranged(
    draft: &Draft,
    groups: &[Vec<usize>],
    task: &Task,
    share: impl Fn(&[usize], &[usize]) -> Vec<usize>,
) -> Draft {
    let mut draft = draft.clone();
    for group in groups {
        let count = |poses: &[Pose]| -> Vec<usize> {
            group.iter().map(|item| poses.iter().filter(|pose| pose.item == *item).count()).collect()
        };
        let mut left = vec![0; group.len()];
        for sheet in &draft.sheets {
            left.iter_mut().zip(count(&sheet.poses)).for_each(|(left, here)| *left += here);
        }
        let mut tests: Vec<usize> = group.iter().map(|item| task.items[*item].on_first_sheet as usize).collect();
        for sheet in &mut draft.sheets {
            let now = count(&sheet.poses);
            let places: usize = now.iter().sum();
            let most = share(&left, &now);
            let dealt = dealt(places, &most, &tests);
            for (kind, taken) in dealt.iter().enumerate() {
                left[kind] -= taken;
                tests[kind] = tests[kind].saturating_sub(*taken);
            }
            let mut order: Vec<usize> =
                (0..sheet.poses.len()).filter(|at| group.contains(&sheet.poses[*at].item)).collect();
            order.sort_by(|a, b| {
                let (a, b) = (&sheet.poses[*a], &sheet.poses[*b]);
                a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x))
            });
            let kinds = dealt.iter().enumerate().flat_map(|(kind, taken)| std::iter::repeat_n(group[kind], *taken));
            for (at, item) in order.into_iter().zip(kinds) {
                sheet.poses[at].item = item;
            }
        }
    }
    draft
}

/// How many of each kind a sheet's places take: tests that are still to come first, then kind after kind.
fn dealt(places: usize, most: &[usize], tests: &[usize]) -> Vec<usize> {
    let mut dealt: Vec<usize> = vec![0; most.len()];
    let mut free = places;
    for wishes in [tests, most] {
        for (kind, taken) in dealt.iter_mut().enumerate() {
            let more = wishes[kind].min(most[kind]).saturating_sub(*taken).min(free);
            *taken += more;
            free -= more;
        }
    }
    dealt
}
