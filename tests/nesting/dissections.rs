//! Puzzles whose pieces fill their frame without a gap: nothing can be denser than 1.

use hemwright::geometry::{Point, Ring};
use hemwright::nest::{Effort, Layout, Task, Turning};

use super::tasks::{item, lay, rectangle, roll, task};

/// Share of a strip that its pieces cover.
fn cover(task: &Task, layout: &Layout) -> f64 {
    let area: f64 = task.items.iter().map(|item| item.patch.area() * f64::from(item.quantity)).sum();
    area / (task.stock[0].width.get() * layout.sheets[0].used.get())
}

fn laid(task: &Task) -> f64 {
    let layout = lay(task);
    assert_eq!(layout.sheets.len(), 1);
    cover(task, &layout)
}

/// Nine different squares that fill 33 x 32 (Z. Moroń, 1925), the least perfect squared rectangle; from memory, and their areas
/// add up to 1056. Ten millimetres to the unit.
fn squared_rectangle() -> Task {
    let sides = [18.0, 15.0, 14.0, 10.0, 9.0, 8.0, 7.0, 4.0, 1.0_f64];
    assert!((sides.iter().map(|side| side * side).sum::<f64>() - 33.0 * 32.0).abs() < 1e-9);
    let squares = sides.iter().map(|side| item(&format!("{side}"), rectangle(10.0 * side, 10.0 * side), 1)).collect();
    let mut task = task(squares, vec![roll(330.0, None)], 0.0, 0.0);
    task.turning = Turning::None;
    task
}

/// The seven pieces cut from a square of side 4 (tangram: two large, one middling and two small triangles, a square, a
/// parallelogram), whose areas add up to 16. Fifty millimetres to the unit, turned by eighths.
fn seven_pieces() -> Task {
    let root = 2f64.sqrt();
    let triangle = |leg: f64| vec![(0.0, 0.0), (leg, 0.0), (0.0, leg)];
    let shapes = [
        ("large triangle", triangle(2.0 * root), 2),
        ("middling triangle", triangle(2.0), 1),
        ("small triangle", triangle(root), 2),
        ("square", vec![(0.0, 0.0), (root, 0.0), (root, root), (0.0, root)], 1),
        ("parallelogram", vec![(0.0, 0.0), (2.0, 0.0), (3.0, 1.0), (1.0, 1.0)], 1),
    ];
    let items = shapes.map(|(name, corners, count)| {
        let ring = Ring::new(corners.into_iter().map(|(x, y)| Point::new(50.0 * x, 50.0 * y))).unwrap();
        item(name, ring, count)
    });
    let area: f64 = items.iter().map(|item| item.patch.area() * f64::from(item.quantity)).sum();
    assert!((area - 16.0 * 2500.0).abs() < 1e-6);
    let mut task = task(items.to_vec(), vec![roll(200.0, None)], 0.0, 0.0);
    task.turning = Turning::Steps(45);
    task
}

/// Measured, three seeds: 0.909 to 0.924 at quick, 0.933 to 0.970 at usual. All of it would take a search over the few places
/// where a box may meet two edges at once, with every dead end undone; parting by sampled places stops short of that.
#[test]
fn the_squared_rectangle_is_filled_as_far_as_measured() {
    assert!(laid(&squared_rectangle()) >= 0.88);
}

/// Measured, three seeds: 0.842 to 0.861 at quick, 0.885 to 0.916 at usual, and at thorough seed 1 puts the square together
/// but for a hair (0.9999).
#[test]
fn the_seven_pieces_fill_their_square_as_far_as_measured() {
    assert!(laid(&seven_pieces()) >= 0.80);
}

/// What is reached at every effort.
#[test]
#[ignore = "a measurement: cargo test --release --test nesting -- --ignored --nocapture dissections_reached"]
#[allow(clippy::print_stdout, reason = "a measurement")]
fn dissections_reached() {
    for effort in [Effort::Quick, Effort::Usual, Effort::Thorough] {
        for seed in 1..4 {
            let [squares, seven] =
                [squared_rectangle(), seven_pieces()].map(|task| laid(&Task { effort, seed, ..task }));
            println!("{effort:?}, seed {seed}: squared rectangle {squares:.4}, seven pieces {seven:.4}");
        }
    }
}
