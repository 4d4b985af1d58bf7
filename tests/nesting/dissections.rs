//! Puzzles whose pieces fill their frame without a gap: nothing can be denser than 1.

use hemwright::geometry::{Point, Ring};
use hemwright::nest::{Effort, Layout, Task, Turning};

use super::tasks::{item, lay, rectangle, roll, sheet, sheets, task};

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

/// Different squares that fill a rectangle, ten millimetres to the unit, on a roll of its width.
fn squared_rectangle(width: f64, length: f64, sides: &[f64]) -> Task {
    let areas: f64 = sides.iter().map(|side| side * side).sum();
    assert!((areas - width * length).abs() < 1e-9, "{areas}");
    let squares = sides.iter().map(|side| item(&format!("{side}"), rectangle(10.0 * side, 10.0 * side), 1)).collect();
    let mut task = task(squares, vec![roll(10.0 * width, None)], 0.0, 0.0);
    task.turning = Turning::None;
    task
}

/// The least squared rectangle, of nine squares (Z. Moroń, 1925), and two of ten (R. L. Brooks, C. A. B. Smith, A. H. Stone,
/// W. T. Tutte, "The dissection of rectangles into squares", 1940); from memory, and their areas add up.
fn squared_rectangles() -> [Task; 3] {
    [
        squared_rectangle(33.0, 32.0, &[18.0, 15.0, 14.0, 10.0, 9.0, 8.0, 7.0, 4.0, 1.0]),
        squared_rectangle(105.0, 104.0, &[60.0, 45.0, 44.0, 33.0, 28.0, 26.0, 19.0, 16.0, 12.0, 7.0]),
        squared_rectangle(65.0, 47.0, &[25.0, 24.0, 23.0, 22.0, 19.0, 17.0, 11.0, 6.0, 5.0, 3.0]),
    ]
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

/// Lying and standing, at the least effort; and on a sheet of just that size.
#[test]
fn squared_rectangles_are_filled() {
    for mut task in squared_rectangles() {
        assert!(laid(&task) >= 1.0 - 1e-6, "{}", laid(&task));
        let area: f64 = task.items.iter().map(|item| item.patch.area()).sum();
        let (across, along) = (task.stock[0].width.get(), area / task.stock[0].width.get());
        task.stock = vec![roll(along, None)];
        assert!(laid(&task) >= 1.0 - 1e-6, "standing: {}", laid(&task));
        task.stock = vec![sheet(across, along, None)];
        assert_eq!(sheets(&lay(&task)), 1);
    }
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
            let seven = laid(&Task { effort, seed, ..seven_pieces() });
            println!("{effort:?}, seed {seed}: seven pieces {seven:.4}");
        }
    }
}
