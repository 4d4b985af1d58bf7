//! Small pieces in the holes of large ones, where the task says that its pieces have holes; worked by hand.

use hemwright::geometry::{Point, Rect, Ring};
use hemwright::nest::{Fault, Item, Task, Turning, verify};
use hemwright::quantity::mm;

use super::brute;
use super::tasks::{item, lay, rectangle, regular, sheet, sheets, task};

/// A square frame: 200 wide with a hole in its middle.
fn frame(hole: f64, count: u32) -> Item {
    Item { holes: vec![rectangle(hole, hole)], ..item("frame", rectangle(200.0, 200.0), count) }
}

/// Frames and squares of 50 on sheets that a frame fills: gap 4, so a hole of 58 takes one square and one of 112 takes four.
fn frames(hole: f64, count: u32, squares: u32) -> Task {
    let square = item("square", rectangle(50.0, 50.0), squares);
    let mut task = task(vec![frame(hole, count), square], vec![sheet(210.0, 210.0, Some(3.0))], 5.0, 4.0);
    task.turning = Turning::None;
    task
}

#[test]
fn a_square_in_the_hole_of_a_frame_saves_a_sheet() {
    for turning in [Turning::None, Turning::Half, Turning::Steps(30), Turning::Free] {
        let mut task = frames(120.0, 1, 4);
        task.turning = turning;
        assert_eq!(sheets(&lay(&task)), 1, "{turning:?}");
        task.items[0].holes.clear();
        assert_eq!(sheets(&lay(&task)), 2, "holes are not to be used: {turning:?}");
    }
}

#[test]
fn the_full_gap_is_kept_inside() {
    // The search keeps a few micrometres more than the gap.
    assert_eq!(sheets(&lay(&frames(58.02, 1, 1))), 1);
    assert_eq!(sheets(&lay(&frames(57.99, 1, 1))), 2);
    assert_eq!(sheets(&lay(&frames(112.03, 1, 4))), 1);
    assert_eq!(sheets(&lay(&frames(111.9, 1, 4))), 2);
    assert_eq!(sheets(&lay(&frames(120.0, 1, 5))), 2, "the fifth finds no room");
}

/// Three frames hold twelve of thirteen squares; equal sheets are one file, cut as often.
#[test]
fn frames_are_filled_one_after_the_other() {
    let layout = lay(&frames(120.0, 3, 12));
    assert_eq!((sheets(&layout), layout.sheets.len()), (3, 1));
    assert_eq!(layout.cost, Some(9.0));
    assert_eq!(sheets(&lay(&frames(120.0, 3, 13))), 4);
}

#[test]
fn both_checks_see_a_piece_that_is_too_near_the_edge_of_its_hole() {
    let task = frames(120.0, 1, 1);
    let layout = lay(&task);
    let square = layout.sheets[0].laid.iter().position(|laid| laid.item == 1).unwrap();
    let mut nearer = layout.clone();
    // From wherever it lies in the hole of 120 to 3.9 from its left edge.
    let frame = layout.sheets[0].laid.iter().find(|laid| laid.item == 0).unwrap();
    nearer.sheets[0].laid[square].x = frame.x - mm(60.0 - 25.0 - 3.9);
    nearer.sheets[0].laid[square].y = frame.y;
    let found = verify(&task, &nearer);
    assert!(
        matches!(found[..], [Fault::TooClose { distance, .. }] if (distance.get() - 3.9).abs() < 1e-6),
        "{found:?}"
    );
    assert_eq!(brute::faults(&task, &nearer).len(), 1);
    // The same place without leave to use holes is an overlap.
    let mut whole = task.clone();
    whole.items[0].holes.clear();
    assert!(!verify(&whole, &layout).is_empty() && !brute::faults(&whole, &layout).is_empty());
}

/// Test pieces come first though others lie in holes; `lay` checks it.
#[test]
fn test_pieces_lie_on_the_first_sheet_beside_filled_holes() {
    let mut task = frames(120.0, 2, 7);
    task.items[1].on_first_sheet = 2;
    let layout = lay(&task);
    assert!(sheets(&layout) <= 3);
}

/// A disc in a ring in a ring in a frame.
#[test]
fn rings_lie_in_rings() {
    let ring = |name: &str, outer: f64, inner: f64| Item {
        holes: vec![regular(48, inner)],
        ..item(name, regular(48, outer), 1)
    };
    let items = vec![
        frame(180.0, 1),
        ring("middling", 80.0, 55.0),
        ring("small", 48.0, 30.0),
        item("disc", regular(48, 25.0), 1),
    ];
    let task = task(items, vec![sheet(210.0, 210.0, None)], 5.0, 4.0);
    assert_eq!(sheets(&lay(&task)), 1);
}

/// A hole that bends: an L of hole takes two squares, one in each arm, on film that may not be turned.
#[test]
fn a_bent_hole_is_filled_along_its_arms() {
    let corners = [(-80.0, -80.0), (80.0, -80.0), (80.0, -20.0), (-20.0, -20.0), (-20.0, 80.0), (-80.0, 80.0)];
    let bent = Ring::new(corners.map(Point::from)).unwrap();
    let host = Item { holes: vec![bent], ..item("host", rectangle(200.0, 200.0), 1) };
    let mut task =
        task(vec![host, item("square", rectangle(50.0, 50.0), 4)], vec![sheet(210.0, 210.0, None)], 5.0, 4.0);
    task.turning = Turning::None;
    // Arms 60 wide and 160 long: one square at the bend, one at the end of each arm; a fourth finds no room.
    task.items[1].quantity = 3;
    assert_eq!(sheets(&lay(&task)), 1);
    task.items[1].quantity = 6;
    assert_eq!(sheets(&lay(&task)), 2);
}

/// Two holes side by side, and a piece too large for either that is not squeezed in.
#[test]
fn only_what_fits_goes_in() {
    let holes = [-50.0, 50.0].map(|x| Ring::rectangle(Rect::new(x - 35.0, -35.0, x + 35.0, 35.0)).unwrap());
    let host = Item { holes: holes.to_vec(), ..item("host", rectangle(200.0, 200.0), 1) };
    let items = vec![host, item("small", rectangle(60.0, 60.0), 2), item("large", rectangle(63.0, 63.0), 1)];
    let mut task = task(items, vec![sheet(210.0, 210.0, None)], 5.0, 4.0);
    task.turning = Turning::Steps(90);
    assert_eq!(sheets(&lay(&task)), 2);
    task.items[2].quantity = 0;
    assert_eq!(sheets(&lay(&task)), 1);
}
