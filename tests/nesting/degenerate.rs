//! Pieces at the edge of what can be laid: exact fits, one gap too many, needles, near-duplicates, far-off origins.

use hemwright::geometry::{Affine, Point, Ring};
use hemwright::nest::{self, Silent, Turning};

use super::tasks::{item, lay, rectangle, regular, roll, sheet, sheets, task};

fn needle(length: f64, thick: f64) -> Ring {
    Ring::new([(0.0, 0.0), (length, thick / 2.0), (0.0, thick)].map(Point::from)).unwrap()
}

#[test]
fn a_piece_exactly_as_large_as_the_sheet_is_laid_one_on_each() {
    for turning in [Turning::None, Turning::Half, Turning::Steps(90), Turning::Free] {
        for (width, height) in [(290.0, 490.0), (290.1, 489.7)] {
            let whole = item("whole", rectangle(width, height), 3);
            let mut task = task(vec![whole], vec![sheet(width + 10.0, height + 10.0, None)], 5.0, 4.0);
            task.turning = turning;
            let layout = lay(&task);
            assert_eq!((sheets(&layout), layout.sheets.len()), (3, 1), "one file, cut three times: {turning:?}");
        }
    }
}

/// Usable 104 x 50: two of 50 with 4 between fill it to the hair; a hundredth less and the second needs a sheet of its own.
#[test]
fn two_pieces_and_their_gap_fit_exactly_or_not_at_all() {
    for (width, expected) in [(104.0, 1), (103.99, 2), (100.0, 2)] {
        let squares = item("square", rectangle(50.0, 50.0), 2);
        let task = task(vec![squares], vec![sheet(width + 10.0, 60.0, None)], 5.0, 4.0);
        assert_eq!(sheets(&lay(&task)), expected, "usable width {width}");
    }
}

/// One gap wider than the sheet: not laid, and the smallest sheet that takes it is the piece with its margins, no gap added.
#[test]
fn a_piece_one_gap_too_large_is_left_out_with_the_sheet_it_needs() {
    let mut task = task(
        vec![item("large", rectangle(294.0, 200.0), 2), item("small", rectangle(50.0, 50.0), 4)],
        vec![sheet(300.0, 290.0, None)],
        5.0,
        4.0,
    );
    for turning in [Turning::None, Turning::Steps(90)] {
        task.turning = turning;
        let layout = lay(&task);
        assert_eq!((layout.unplaced.len(), sheets(&layout)), (1, 1));
        let left = &layout.unplaced[0];
        assert_eq!((left.item, left.quantity), (0, 2));
        assert!((left.smallest.0.get() - 304.0).abs() < 1e-6 && (left.smallest.1.get() - 210.0).abs() < 1e-6);
    }
    // On the slant it fits neither: the box grows with every turn until the quarter.
    task.turning = Turning::Free;
    assert_eq!(lay(&task).unplaced.len(), 1);
}

/// Wider than a roll by more than it may be: told by its width alone, since a roll is never too short.
#[test]
fn a_piece_wider_than_the_roll_is_left_out_with_the_roll_it_needs() {
    let mut task = task(vec![item("wide", rectangle(320.0, 250.0), 2)], vec![roll(300.0, None)], 5.0, 4.0);
    task.turning = Turning::Half;
    let layout = lay(&task);
    let left = &layout.unplaced[0];
    assert!((left.narrowest.get() - 330.0).abs() < 1e-6);
    assert_eq!((left.over.len(), left.over[0].height, left.if_turned), (1, None, Some(0)));
    assert!((left.over[0].width.get() - 30.0).abs() < 1e-6);
    assert!(left.reason(&task).contains("as drawn it is 30.0 mm too wide."), "{}", left.reason(&task));
    task.turning = Turning::Steps(90);
    assert_eq!(lay(&task).unplaced, vec![]);
}

/// A strip longer than either side of the sheet lies along its diagonal, where turning is free: 550 x 10 in 490 x 290.
#[test]
fn a_strip_longer_than_the_sheet_lies_on_the_slant() {
    let strip = item("strip", rectangle(550.0, 10.0), 1);
    let mut task = task(vec![strip], vec![sheet(300.0, 500.0, None)], 5.0, 4.0);
    assert_eq!(lay(&task).unplaced, vec![]);
    task.turning = Turning::Steps(90);
    assert_eq!(lay(&task).unplaced.len(), 1);
}

/// Side by side, all one way, needles take their thickness and a gap each; nothing may take more.
#[test]
fn needles_are_laid_with_their_gap() {
    let needles = [
        (200.0, 0.2, 0.5, Turning::None),
        (200.0, 0.2, 3.0, Turning::Half),
        (120.0, 0.01, 0.0, Turning::Free),
        (120.0, 0.01, 3.0, Turning::Steps(90)),
        (80.0, 2.0, 0.0, Turning::Half),
        (80.0, 2.0, 3.0, Turning::Free),
    ];
    for (length, thick, gap, turning) in needles {
        let mut task = task(vec![item("needle", needle(length, thick), 16)], vec![roll(210.0, None)], 2.0, gap);
        task.turning = turning;
        let layout = lay(&task);
        assert!(layout.unplaced.is_empty());
        let rows = 16.0 * thick + 15.0 * gap + 4.0;
        let used = layout.sheets[0].used.get();
        assert!(used <= rows + 0.1, "{length} x {thick}, gap {gap}, {turning:?}: {used} of {rows}");
    }
}

/// Twelve shapes that differ by less than the arithmetic can tell apart, and two that are the same.
#[test]
fn near_duplicates_are_told_apart_and_laid() {
    let items = (0..13)
        .map(|k| {
            let off = 1e-9 * f64::from(k / 2);
            item(&format!("star {k}"), regular(7, 15.0 + off), 3)
        })
        .collect();
    let layout = lay(&task(items, vec![sheet(300.0, 300.0, None)], 5.0, 3.0));
    assert_eq!(sheets(&layout), 1);
}

/// A corner that is none, two points a hair apart, an edge walked there and back, an origin ten metres off.
#[test]
fn odd_rings_are_laid_like_their_clean_twins() {
    let clean = rectangle(60.0, 40.0);
    let on_edge = [(-30.0, -20.0), (0.0, -20.0), (30.0, -20.0), (30.0, 20.0), (-30.0, 20.0)];
    let hair = [(-30.0, -20.0), (30.0, -20.0), (30.0, -20.0 + 1e-9), (30.0, 20.0), (-30.0, 20.0)];
    let spur = [(-30.0, -20.0), (30.0, -20.0), (30.0, 20.0), (0.0, 20.0), (0.0, 19.0), (0.0, 20.0), (-30.0, 20.0)];
    let far = clean.transformed(Affine::translate((10_000.0, -10_000.0)));
    let twins = [on_edge.to_vec(), hair.to_vec(), spur.to_vec()]
        .map(|corners| Ring::new(corners.into_iter().map(Point::from)).unwrap());
    for twin in twins.into_iter().chain([clean.reversed(), far, clean]) {
        for gap in [0.0, 4.0] {
            let mut task = task(vec![item("twin", twin.clone(), 12)], vec![sheet(300.0, 300.0, None)], 5.0, gap);
            task.turning = Turning::Half;
            assert_eq!(sheets(&lay(&task)), 1, "{twin:?}");
        }
    }
}

#[test]
fn nothing_to_lay_and_one_to_lay_are_answered() {
    let none = lay(&task(vec![item("none", rectangle(10.0, 10.0), 0)], vec![sheet(100.0, 100.0, None)], 5.0, 4.0));
    assert_eq!((none.sheets.len(), none.unplaced.len(), none.cost), (0, 0, Some(0.0)));
    let one = lay(&task(vec![item("one", regular(5, 20.0), 1)], vec![roll(100.0, Some(10.0))], 5.0, 4.0));
    assert_eq!((sheets(&one), one.sheets[0].laid.len()), (1, 1));
    let empty = task(vec![item("one", regular(5, 20.0), 1)], vec![], 5.0, 4.0);
    assert!(nest::lay(&empty, &Silent).is_err());
}
