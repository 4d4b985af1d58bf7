//! Test pieces are cut before all others: on the first sheet, or on the first few where one cannot take them all.

use hemwright::nest::{Effort, Fault, Item, Stock, Task, Turning, verify};

use super::tasks::{item, lay, rectangle, sheet, sheets, task};

fn tested(tests: u32, item: Item) -> Item {
    Item { on_first_sheet: tests, ..item }
}

fn offcut(width: f64, height: f64) -> Stock {
    Stock { available: Some(1), ..sheet(width, height, None) }
}

/// On how many of the first sheets the tests of item 0 lie.
fn last_sheet_with_tests(task: &Task) -> usize {
    let layout = lay(task);
    let mut due = task.items[0].on_first_sheet as usize;
    for (number, sheet) in layout.sheets.iter().enumerate() {
        due = due.saturating_sub(sheet.laid.iter().filter(|laid| laid.item == 0).count() * sheet.copies as usize);
        if due == 0 {
            return number;
        }
    }
    usize::MAX
}

/// Three kinds that fill several sheets: the tests of the smallest still lie on the first, at every effort and turning.
#[test]
fn tests_of_every_kind_lie_on_the_first_sheet() {
    for turning in [Turning::None, Turning::Half, Turning::Free] {
        let items = vec![
            tested(1, item("centre", rectangle(30.0, 30.0), 8)),
            tested(1, item("petal", rectangle(90.0, 90.0), 8)),
            tested(2, item("leaf", rectangle(25.0, 60.0), 8)),
        ];
        let mut task = task(items, vec![sheet(230.0, 230.0, None)], 5.0, 4.0);
        (task.turning, task.effort) = (turning, Effort::Quick);
        assert!(sheets(&lay(&task)) > 1);
        assert_eq!(last_sheet_with_tests(&task), 0, "{turning:?}");
    }
}

/// The drawer is used first, but not for the first sheet where its off-cut cannot take the test piece.
#[test]
fn an_off_cut_too_small_for_the_test_comes_after_the_sheet_with_it() {
    let items = vec![tested(1, item("large", rectangle(90.0, 90.0), 3)), item("small", rectangle(30.0, 30.0), 40)];
    let mut task = task(items, vec![offcut(80.0, 80.0), sheet(210.0, 210.0, Some(4.0))], 5.0, 4.0);
    task.turning = Turning::Half;
    assert_eq!(last_sheet_with_tests(&task), 0);
}

/// Ten tests where a sheet takes four: three sheets of tests alone, and the rest after them.
#[test]
fn tests_too_many_for_one_sheet_are_laid_alone_before_all_others() {
    let items = vec![tested(10, item("large", rectangle(90.0, 90.0), 12)), item("small", rectangle(30.0, 30.0), 40)];
    let mut task = task(items, vec![sheet(200.0, 200.0, None)], 5.0, 4.0);
    task.turning = Turning::None;
    assert_eq!(last_sheet_with_tests(&task), 2);
}

#[test]
fn the_check_sees_a_test_piece_that_comes_late() {
    let items = vec![tested(1, item("petal", rectangle(90.0, 90.0), 1)), item("other", rectangle(90.0, 90.0), 7)];
    let mut task = task(items, vec![sheet(200.0, 200.0, None)], 5.0, 4.0);
    task.turning = Turning::Half;
    let mut layout = lay(&task);
    assert_eq!(layout.sheets.len(), 2);
    layout.sheets.swap(0, 1);
    assert_eq!(verify(&task, &layout), [Fault::TestLate { item: 0, sheet: 0 }]);
    assert_eq!(super::brute::faults(&task, &layout).len(), 1);
}
