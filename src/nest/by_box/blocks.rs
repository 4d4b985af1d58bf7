//! Boxes of one size in blocks, some upright and some on their side.
//!
//! Rows of one kind leave a strip at the edge in which boxes turned a quarter round often find room. Columns of both ways are
//! laid beside each other, rows of both below each other, and where the sheet is not too large for it every way of parting it
//! into blocks is tried.

use super::block::{Block, Size, times};
use super::load::{self, Load, SAFETY, WORTHWHILE};
use super::parted::Table;
use crate::nest::buying::draft::Pose;
use crate::nest::shape::kind::{Boxed, EXACT};

/// The corner of a box that lies one way round.
#[derive(Clone, Copy, Debug)]
struct Corner {
    way: usize,
    x: f64,
    y: f64,
}

/// Lays as many as fit on the least length found; nothing where the boxes are of several sizes or cannot be turned a quarter
/// round, for then rows are as good.
pub(in crate::nest) fn fill(load: &Load<'_>) -> Vec<Pose> {
    let items: Vec<usize> = (0..load.kinds.len()).filter(|item| load.wanted[*item] > 0).collect();
    let Some(ways) = items.iter().map(|item| both_ways(load, *item)).collect::<Option<Vec<_>>>() else {
        return Vec::new();
    };
    let alike = |a: &Boxed, b: &Boxed| {
        (a.bounds.width() - b.bounds.width()).abs() < EXACT && (a.bounds.height() - b.bounds.height()).abs() < EXACT
    };
    let Some(first) = ways.first().filter(|first| ways.iter().all(|way| (0..2).all(|k| alike(&way[k], &first[k]))))
    else {
        return Vec::new();
    };
    let wanted: u32 = items.iter().fold(0, |sum, item| sum.saturating_add(load.wanted[*item]));
    // Test pieces come first, then kind after kind.
    let tests = items.iter().enumerate().map(|(at, item)| (at, load.first[*item].min(load.wanted[*item])));
    let others = items.iter().enumerate().map(|(at, item)| (at, load.wanted[*item].saturating_sub(load.first[*item])));
    let order: Vec<usize> =
        tests.chain(others).flat_map(|(at, count)| std::iter::repeat_n(at, count as usize)).collect();
    let shortest = first[0].bounds.width().min(first[0].bounds.height()) + load.gap;
    let most_rows = f64::from(wanted).min(load.room.length / shortest);
    load::hair_apart(load, WORTHWHILE + SAFETY * most_rows, |load| {
        let sizes = [0, 1].map(|way: usize| Size {
            width: first[way].bounds.width() + load.gap,
            height: first[way].bounds.height() + load.gap,
        });
        let (length, corners) = laid(sizes, load.room.width + load.gap, load.room.length + load.gap, wanted);
        let pose = |(at, corner): (&usize, &Corner)| {
            load::pose(items[*at], &ways[*at][corner.way], corner.x, corner.y, load.room)
        };
        (!corners.is_empty()).then(|| (length, order.iter().zip(&corners).map(pose).collect()))
    })
}

/// An item's smallest box and the same turned a quarter round, where both lie in the room and are not alike.
fn both_ways(load: &Load<'_>, item: usize) -> Option<[Boxed; 2]> {
    let fitting = load.kinds[item].boxes_in(load.room);
    let area = |boxed: &Boxed| boxed.bounds.area();
    let smallest = fitting.iter().copied().reduce(|a, b| if area(&b) < area(&a) - EXACT { b } else { a })?;
    let (w, h) = (smallest.bounds.width(), smallest.bounds.height());
    let turned = |b: &&Boxed| (b.bounds.width() - h).abs() < EXACT && (b.bounds.height() - w).abs() < EXACT;
    ((w - h).abs() > EXACT).then(|| fitting.iter().find(turned)).flatten().map(|turned| [smallest, *turned])
}

/// So many boxes, or as many as fit, from the sheet's start on: the length used and their corners, nearest first.
fn laid(sizes: [Size; 2], width: f64, length: f64, wanted: u32) -> (f64, Vec<Corner>) {
    let better = |a: (f64, Vec<Corner>), b: (f64, Vec<Corner>)| {
        let (more, as_many) = (b.1.len() > a.1.len(), b.1.len() == a.1.len());
        if more || (as_many && b.0 < a.0 - EXACT) { b } else { a }
    };
    let beside = nearest(sizes, &beside(sizes, width, length, wanted), wanted);
    let best = better(beside, nearest(sizes, &below(sizes, width, length, wanted), wanted));
    // On a roll everything lies by now, and nothing longer is looked for.
    let length = if length.is_finite() { length } else { best.0 };
    match Table::new(sizes, width, length) {
        Some(table) => better(best, nearest(sizes, &table.most(wanted), wanted)),
        None => best,
    }
}

/// The boxes of some blocks that end nearest to the start, in reading order, and where the last of them ends.
fn nearest(sizes: [Size; 2], blocks: &[Block], wanted: u32) -> (f64, Vec<Corner>) {
    let all = blocks.iter().flat_map(|block| {
        let size = sizes[block.way];
        (0..block.rows).flat_map(move |row| {
            (0..block.columns).map(move |column| Corner {
                way: block.way,
                x: block.x + f64::from(column) * size.width,
                y: block.y + f64::from(row) * size.height,
            })
        })
    });
    let end = |corner: &Corner| corner.y + sizes[corner.way].height;
    let mut corners: Vec<Corner> = all.collect();
    corners.sort_by(|a, b| end(a).total_cmp(&end(b)).then(a.x.total_cmp(&b.x)));
    corners.truncate(wanted as usize);
    let length = corners.iter().map(end).fold(0.0, f64::max);
    corners.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
    (length, corners)
}

/// Columns of boxes one way round beside columns of the other, as many of each as take everything on the least length.
fn beside(sizes: [Size; 2], width: f64, length: f64, wanted: u32) -> Vec<Block> {
    let width = width + EXACT;
    let mut best: Option<(u32, f64, Vec<Block>)> = None;
    for first in 0..=times(width, sizes[0].width).min(wanted) {
        let taken = f64::from(first) * sizes[0].width;
        let columns = [first, times(width - taken, sizes[1].width).min(wanted)];
        let mut rows = [0, 0];
        let (mut count, mut end) = (0, 0.0);
        while count < wanted {
            let next = |way: usize| f64::from(rows[way] + 1) * sizes[way].height;
            let can = |way: &usize| columns[*way] > 0 && next(*way) <= length + EXACT;
            let Some(way) = (0..2).filter(can).min_by(|a, b| next(*a).total_cmp(&next(*b))) else { break };
            end = next(way);
            rows[way] += 1;
            count += columns[way];
        }
        let count = count.min(wanted);
        if best.as_ref().is_none_or(|(most, least, _)| count > *most || (count == *most && end < *least - EXACT)) {
            let x = [0.0, taken];
            let block = |way: usize| Block { way, x: x[way], y: 0.0, columns: columns[way], rows: rows[way] };
            best = Some((count, end, vec![block(0), block(1)]));
        }
    }
    best.map(|(_, _, blocks)| blocks).unwrap_or_default()
}

/// Rows of boxes one way round above rows of the other.
fn below(sizes: [Size; 2], width: f64, length: f64, wanted: u32) -> Vec<Block> {
    let columns = sizes.map(|size| times(width + EXACT, size.width));
    let mut best: Option<(u32, f64, [u32; 2])> = None;
    for first in 0..=wanted.div_ceil(columns[0].max(1)) {
        let taken = f64::from(first) * sizes[0].height;
        if taken > length + EXACT || (first > 0 && columns[0] == 0) {
            break;
        }
        let left = wanted.saturating_sub(first.saturating_mul(columns[0]));
        let second = times(length + EXACT - taken, sizes[1].height).min(left.div_ceil(columns[1].max(1)));
        let second = if columns[1] == 0 { 0 } else { second };
        let count = first.saturating_mul(columns[0]).saturating_add(second.saturating_mul(columns[1])).min(wanted);
        let end = taken + f64::from(second) * sizes[1].height;
        if best.is_none_or(|(most, least, _)| count > most || (count == most && end < least - EXACT)) {
            best = Some((count, end, [first, second]));
        }
    }
    let Some((_, _, rows)) = best else { return Vec::new() };
    let y = [0.0, f64::from(rows[0]) * sizes[0].height];
    (0..2).map(|way| Block { way, x: 0.0, y: y[way], columns: columns[way], rows: rows[way] }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(width: f64, height: f64, room: (f64, f64)) -> usize {
        let sizes = [Size { width, height }, Size { width: height, height: width }];
        laid(sizes, room.0, room.1, 10_000).1.len()
    }

    /// Worked by hand: 60 x 40 with 4 between them on 290 x 490 inside the margins. Grown they are 64 x 44 on 294 x 494. Four
    /// columns of eleven hold 44. One column of ten (440) and five columns of seven upright ones (448) hold 45 and leave room
    /// for a row of four below: 49 on 492.
    #[test]
    fn turned_columns_fill_the_strip_that_upright_ones_leave() {
        assert_eq!(count(64.0, 44.0, (294.0, 494.0)), 49);
    }

    /// Worked by hand: four boxes of 3 x 2 round an empty square of 1 fill 5 x 5; cut from edge to edge, 5 x 2 holds one and
    /// 5 x 3 two. On 5 x 4 there is area for three, and they lie so: two in a column of 3, one in the other. On 7 x 5, with
    /// area for five, a row of two and a row of three upright ones hold five.
    #[test]
    fn boxes_lie_round_a_hole_like_the_sails_of_a_windmill() {
        assert_eq!(count(3.0, 2.0, (5.0, 5.0)), 4);
        assert_eq!(count(3.0, 2.0, (5.0, 4.0)), 3);
        assert_eq!(count(3.0, 2.0, (7.0, 5.0)), 5);
    }

    /// Worked by hand: 45 of 64 x 44 over a width of 294. Ten rows (440) are 30 in three columns and six upright rows (384)
    /// 12 in two: 42. One column of ten and five of seven upright rows (448) hold 45, and on 440 one and five hold no more
    /// than 10 + 30.
    #[test]
    fn a_roll_is_cut_where_the_last_block_ends() {
        let sizes = [Size { width: 64.0, height: 44.0 }, Size { width: 44.0, height: 64.0 }];
        let (length, corners) = laid(sizes, 294.0, f64::INFINITY, 45);
        assert_eq!((corners.len(), length), (45, 448.0));
    }

    /// No two boxes overlap and none leaves the sheet, whatever the sizes.
    #[test]
    fn boxes_keep_clear_of_each_other() {
        for (at, (width, height)) in
            [(3.0, 2.0), (7.0, 5.0), (11.0, 4.0), (6.5, 3.3), (13.0, 12.0)].into_iter().enumerate()
        {
            let sizes = [Size { width, height }, Size { width: height, height: width }];
            let room = (41.0 + 3.0 * at as f64, 57.0 - at as f64);
            let (length, corners) = laid(sizes, room.0, room.1, 10_000);
            let rect = |corner: &Corner| {
                let size = sizes[corner.way];
                crate::geometry::Rect::new(corner.x, corner.y, corner.x + size.width, corner.y + size.height)
            };
            let inside = |corner: &Corner| rect(corner).x1 <= room.0 + EXACT && rect(corner).y1 <= length + EXACT;
            assert!(length <= room.1 + EXACT && corners.iter().all(inside));
            for (k, a) in corners.iter().enumerate() {
                for b in &corners[k + 1..] {
                    let both = rect(a).intersect(rect(b));
                    assert!(both.width() < EXACT || both.height() < EXACT, "{a:?} {b:?}");
                }
            }
        }
    }
}
