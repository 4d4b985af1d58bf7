//! The same layout on any number of threads.

use hemwright::nest::{self, Effort, Progress, Stock, Turning};

use super::tasks::{item, rectangle, regular, roll, sheet, task};

struct On(usize);

impl Progress for On {
    fn step(&self, _done: u64, _total: u64, _best: &str) -> bool {
        true
    }

    fn threads(&self) -> usize {
        self.0
    }
}

#[test]
fn two_or_three_threads_lay_the_same_as_one() {
    let off_cut = Stock { available: Some(1), ..sheet(120.0, 90.0, None) };
    for (stock, effort, several) in [
        (vec![sheet(300.0, 200.0, Some(4.0)), off_cut], Effort::Quick, 3),
        (vec![roll(300.0, None)], Effort::Quick, 2),
        (vec![sheet(300.0, 300.0, None)], Effort::Usual, 2),
    ] {
        let items = vec![item("disc", regular(16, 21.0), 20), item("leaf", rectangle(18.0, 47.0), 14)];
        let mut task = task(items, stock, 5.0, 4.0);
        (task.turning, task.effort) = (Turning::Half, effort);
        let layouts = [1, several].map(|threads| nest::lay(&task, &On(threads)).unwrap());
        assert_eq!(layouts[0], layouts[1], "on {several}");
    }
}

/// Many of one kind, from which full sheets are repeated and searched on, with two sizes to choose from.
#[test]
fn so_do_they_where_each_size_is_tried_alone() {
    let stock = vec![sheet(200.0, 260.0, Some(3.0)), roll(200.0, Some(9.0))];
    let mut task = task(vec![item("drop", regular(5, 17.0), 50)], stock, 5.0, 2.0);
    task.turning = Turning::None;
    let layouts = [1, 2].map(|threads| nest::lay(&task, &On(threads)).unwrap());
    assert_eq!(layouts[0], layouts[1]);
}
