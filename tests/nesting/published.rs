//! Figures that are published or can be followed on paper.

use super::tasks::{INCH, item, lay, rectangle, roll, sheet, sheets, task};
use hemwright::geometry::{Point, Ring};
use hemwright::nest::{Item, Task, Turning};

/// Published table of squares cut from a fat quarter of 18 x 22 in (side -> count); it equals floor(18/s) x floor(22/s).
#[test]
fn squares_from_18_by_22_inches_come_out_as_published() {
    let table =
        [(2.0, 99), (2.5, 56), (3.0, 42), (3.5, 30), (4.0, 20), (4.5, 16), (5.0, 12), (5.5, 12), (6.0, 9), (6.5, 6)];
    for (side, count) in table {
        let square = item("square", rectangle(side * INCH, side * INCH), count);
        let stock = sheet(18.0 * INCH, 22.0 * INCH, None);
        assert_eq!(sheets(&lay(&task(vec![square], vec![stock], 0.0, 0.0))), 1, "{count} of {side} in");
    }
}

/// Published: 28 strips 2 x 12 in from cloth 44 in wide take 10 cuts of 2 in, 20 in of cloth; the other way round 24 in.
#[test]
fn strips_from_44_inches_take_20_inches_of_cloth() {
    let strips = item("strip", rectangle(12.0 * INCH, 2.0 * INCH), 28);
    let layout = lay(&task(vec![strips], vec![roll(44.0 * INCH, None)], 0.0, 0.0));
    assert!(layout.sheets[0].used.get() <= 20.0 * INCH + 0.05, "{}", layout.sheets[0].used);
}

/// Published: 100 squares of 3 1/2 in from 44 in, 12 to a strip, take 9 strips.
#[test]
fn hundred_squares_take_nine_strips() {
    let squares = item("square", rectangle(3.5 * INCH, 3.5 * INCH), 100);
    let layout = lay(&task(vec![squares], vec![roll(44.0 * INCH, None)], 0.0, 0.0));
    assert!(layout.sheets[0].used.get() <= 9.0 * 3.5 * INCH + 0.05);
}

/// Three-colour flower, 34 repeats and 2 spare sets, on 300 x 500 sheets with 5 margin and 4 between; worked by hand.
fn three_colours() -> [Task; 3] {
    let spare = |mut item: Item, motif: &str| {
        item.motif = motif.to_owned();
        item.spares = 2;
        item
    };
    let petals = vec![spare(item("petals", rectangle(90.0, 90.0), 36), "flower")];
    let centres = vec![spare(item("centre", rectangle(30.0, 30.0), 36), "flower")];
    let leaves = ["leaf-left", "leaf-right"];
    let leaves = leaves.map(|name| spare(item(name, rectangle(25.0, 60.0), 36), "flower")).to_vec();
    [petals, centres, leaves].map(|items| {
        let mut task = task(items, vec![sheet(300.0, 500.0, Some(6.5))], 5.0, 4.0);
        task.turning = Turning::Half;
        task
    })
}

#[test]
fn the_flower_takes_six_sheets_as_worked_by_hand() {
    let layouts = three_colours().map(|task| lay(&task));
    assert_eq!(layouts.each_ref().map(sheets), [3, 1, 2]);
    let cost: f64 = layouts.iter().map(|layout| layout.cost.unwrap()).sum();
    assert!((cost - 39.0).abs() < 1e-9);
    // Five rows of 30 with 4 between are 166 long; the margins are counted in.
    assert!(layouts[1].sheets[0].used.get() <= 166.0 + 10.0 + 0.05, "{}", layouts[1].sheets[0].used);
}

#[test]
fn one_fewer_spare_saves_a_sheet_of_leaves() {
    let [petals, _, leaves] = three_colours().map(|task| lay(&task).alternatives);
    assert_eq!(leaves[0], "one fewer spare of flower saves a sheet (6.50 less to pay)");
    assert!(petals.iter().all(|say| !say.contains("fewer")), "{petals:?}");
}

/// Thirty right triangles with legs of 85, on 290 x 490 usable with 4 between, worked by hand: in pairs, one turned half round,
/// each pair and its gaps take 85 + 4 sqrt 2 + 4 = 94.7 each way, so 3 x 5 pairs lie on one sheet. All one way they cover two
/// thirds of a plane at the most (I. Fáry, 1950), and 30 x 3612.5 is 76 % of the sheet.
#[test]
fn one_way_film_costs_a_sheet_more_than_turned() {
    let triangle = Ring::new([(0.0, 0.0), (85.0, 0.0), (0.0, 85.0)].map(Point::from)).unwrap();
    let mut task = task(vec![item("triangle", triangle, 30)], vec![sheet(300.0, 500.0, Some(6.5))], 5.0, 4.0);
    let cost = [Turning::Half, Turning::None].map(|turning| {
        task.turning = turning;
        lay(&task).cost
    });
    assert_eq!(cost, [Some(6.5), Some(13.0)]);
}
