//! What to buy: the cheapest mix of sheets and rolls against every mix there is, counted out in the test.

use hemwright::nest::{Effort, Item, Layout, Stock, Task, Turning};
use proptest::prelude::*;

use super::tasks::{item, lay, rectangle, roll, sheet, sheets, task};

/// How many upright squares fit along a length.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count, not below nothing")]
fn along(length: f64, side: f64, gap: f64) -> u32 {
    ((length + gap + 1e-9) / (side + gap)).floor().max(0.0) as u32
}

/// Upright squares that a sheet holds: no layout of squares that may not be turned beats rows and columns.
fn holds(stock: &Stock, task: &Task, side: f64) -> u32 {
    let (margin, gap) = (2.0 * task.margin.get(), task.gap.get());
    let height = stock.height.expect("a sheet").get();
    along(stock.width.get() - margin, side, gap) * along(height - margin, side, gap)
}

/// Cost and bought area of every mix of sheets, with the squares it leaves over.
fn mixes(task: &Task, side: f64, count: u32) -> Vec<(f64, f64, u32)> {
    let mut all = vec![(0.0, 0.0, count)];
    for stock in task.stock.iter().filter(|stock| stock.height.is_some()) {
        let (one, price) = (holds(stock, task, side), stock.price.unwrap());
        let area = stock.width.get() * stock.height.unwrap().get();
        let before = all.clone();
        for (cost, bought, left) in before {
            let needed = if one == 0 { 0 } else { left.div_ceil(one) };
            all.extend((1..=needed).map(|k| {
                let k_ = f64::from(k);
                (cost + k_ * price, bought + k_ * area, left.saturating_sub(k * one))
            }));
        }
    }
    all
}

/// The least cost, and the least area at that cost, with a length of one roll after the sheets where there are rolls.
fn cheapest(task: &Task, side: f64, count: u32) -> (f64, f64) {
    let mut least = (f64::INFINITY, f64::INFINITY);
    for (cost, bought, left) in mixes(task, side, count) {
        let mut ends = Vec::new();
        if left == 0 {
            ends.push((cost, bought));
        }
        for stock in task.stock.iter().filter(|stock| stock.height.is_none()) {
            let (margin, gap) = (2.0 * task.margin.get(), task.gap.get());
            let in_a_row = along(stock.width.get() - margin, side, gap);
            if left > 0 && in_a_row > 0 {
                let rows = f64::from(left.div_ceil(in_a_row));
                let length = rows * (side + gap) - gap + margin;
                ends.push((cost + stock.price.unwrap() * length / 1000.0, bought + stock.width.get() * length));
            }
        }
        for end in ends {
            if end.0 < least.0 - 1e-9 || ((end.0 - least.0).abs() < 1e-9 && end.1 < least.1) {
                least = end;
            }
        }
    }
    least
}

fn bought(task: &Task, layout: &Layout) -> f64 {
    let area = |sheet: &hemwright::nest::LaidSheet| {
        let stock = &task.stock[sheet.stock];
        f64::from(sheet.copies) * stock.width.get() * stock.height.unwrap_or(sheet.used).get()
    };
    layout.sheets.iter().map(area).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Squares of one size that may not be turned, from two or three sizes of sheet and sometimes a roll.
    #[test]
    fn the_cheapest_mix_is_bought(
        sizes in prop::collection::vec((60.0..220.0_f64, 60.0..220.0_f64, 10..400_u32), 2..4),
        rolls in prop::collection::vec((60.0..200.0_f64, 100..3000_u32), 0..2),
        side in 20.0..45.0_f64, count in 1..25_u32, gap in 0.0..5.0_f64,
    ) {
        let cents = |price: u32| Some(f64::from(price) / 100.0);
        let stock = sizes.iter().map(|(w, h, price)| sheet(*w, *h, cents(*price)));
        let stock: Vec<Stock> = stock.chain(rolls.iter().map(|(w, price)| roll(*w, cents(*price)))).collect();
        let mut task = task(vec![item("square", rectangle(side, side), count)], stock, 4.0, gap);
        task.turning = Turning::None;
        let layout = lay(&task);
        let (cost, area) = cheapest(&task, side, count);
        // A search that parts pieces keeps a few micrometres more than the gap, on a roll in every row.
        let found = layout.cost.unwrap();
        prop_assert!(found <= cost + 0.002, "{found} paid, {cost} is enough");
        prop_assert!(found > cost + 0.0005 || bought(&task, &layout) <= area + 20.0, "more area than needed");
    }
}

/// One large sheet at 5.00 holds what two small ones at 3.00 hold; five squares want one large and one small, not two large.
#[test]
fn a_mix_of_large_and_small_is_bought_where_it_is_cheapest() {
    let mut task = task(
        vec![item("square", rectangle(50.0, 50.0), 6)],
        vec![sheet(110.0, 110.0, Some(5.0)), sheet(110.0, 60.0, Some(3.0))],
        3.0,
        4.0,
    );
    task.turning = Turning::None;
    let layout = lay(&task);
    assert_eq!(layout.cost, Some(8.0));
    assert_eq!(sheets(&layout), 2);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]

    /// Squares of two units and of one, without gap or margin, on sheets of whole units: a set of sheets holds them when the
    /// large ones fit in whole rows and columns and the area is enough, since what is left is cells for the small ones.
    #[test]
    fn the_cheapest_mix_is_bought_for_two_kinds(
        sizes in prop::collection::vec((2..7_u32, 2..7_u32, 10..400_u32), 2..4),
        large in 1..7_u32, small in 1..13_u32,
    ) {
        const UNIT: f64 = 20.0;
        let stock = sizes.iter().map(|(w, h, cents)| {
            sheet(UNIT * f64::from(*w), UNIT * f64::from(*h), Some(f64::from(*cents) / 100.0))
        });
        let items = vec![
            item("large", rectangle(2.0 * UNIT, 2.0 * UNIT), large),
            item("small", rectangle(UNIT, UNIT), small),
        ];
        let mut task = task(items, stock.collect(), 0.0, 0.0);
        task.turning = Turning::None;
        // Cost, room for large ones and cells of every set of up to so many sheets of each size.
        let mut sets = vec![(0, 0, 0)];
        for (w, h, cents) in &sizes {
            let more = |(cost, rooms, cells): (u32, u32, u32)| {
                (0..=large + small).map(move |k| (cost + k * cents, rooms + k * (w / 2) * (h / 2), cells + k * w * h))
            };
            sets = sets.into_iter().flat_map(more).collect();
            // Beyond what is needed more is no use; of sets alike in that the cheapest does.
            for set in &mut sets {
                *set = (set.0, set.1.min(large), set.2.min(4 * large + small));
            }
            sets.sort_unstable();
            let mut kept: Vec<(u32, u32, u32)> = Vec::new();
            for set in sets {
                if !kept.iter().any(|other| other.1 >= set.1 && other.2 >= set.2) {
                    kept.push(set);
                }
            }
            sets = kept;
        }
        let enough = sets.iter().filter(|set| set.1 >= large && set.2 >= 4 * large + small);
        let least = f64::from(enough.map(|set| set.0).min().unwrap()) / 100.0;
        let paid = lay(&task).cost.unwrap();
        prop_assert!((paid - least).abs() < 1e-6, "{paid} paid, {least} is enough");
    }
}

/// What rows of one kind's boxes, all the same way round, cost on one stock: the simplest layout there is.
fn in_plain_rows(stock: &Stock, task: &Task, (width, height): (f64, f64), count: u32) -> Option<f64> {
    let (margin, gap) = (2.0 * task.margin.get(), task.gap.get());
    let across = along(stock.width.get() - margin, width, gap);
    let rows = stock.height.map_or(u32::MAX, |length| along(length.get() - margin, height, gap));
    if across == 0 || rows == 0 {
        return None;
    }
    let price = stock.price.unwrap();
    let needed = count.div_ceil(across);
    Some(match stock.height {
        Some(_) => f64::from(needed.div_ceil(rows)) * price,
        None => price * (f64::from(needed) * (height + gap) - gap + margin) / 1000.0,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    /// Adding a stock to choose from never makes the purchase dearer: what is bought costs no more than each size alone, and
    /// no more than plain rows on it, either way round.
    #[test]
    fn a_choice_of_stock_is_never_dearer_than_one_of_it_alone(
        sizes in prop::collection::vec((120.0..260.0_f64, 120.0..320.0_f64, 50..900_u32), 1..3),
        rolls in prop::collection::vec((120.0..260.0_f64, 400..4000_u32), 1..2),
        (width, height) in (25.0..60.0_f64, 15.0..60.0_f64), corners in 3..7_u32, counts in (2..26_u32, 0..8_u32),
        gap in 1.0..5.0_f64,
    ) {
        let cents = |price: u32| Some(f64::from(price) / 100.0);
        let stock = sizes.iter().map(|(w, h, price)| sheet(*w, *h, cents(*price)));
        let stock: Vec<Stock> = stock.chain(rolls.iter().map(|(w, price)| roll(*w, cents(*price)))).collect();
        let items = vec![
            item("patch", rectangle(width, height), counts.0),
            item("star", super::tasks::regular(corners, 20.0), counts.1),
        ];
        let task = task(items, stock.clone(), 4.0, gap);
        let paid = lay(&task).cost.unwrap();
        for only in &stock {
            let alone = lay(&Task { stock: vec![only.clone()], ..task.clone() });
            let whole = alone.unplaced.is_empty().then_some(alone.cost).flatten();
            prop_assert!(whole.is_none_or(|alone| paid <= alone + 1e-6), "{paid} paid, {} alone costs {:?}", only.name, alone.cost);
            for size in [(width, height), (height, width)] {
                let simple = in_plain_rows(only, &task, size, counts.0).filter(|_| counts.1 == 0);
                prop_assert!(simple.is_none_or(|simple| paid <= simple + 1e-6), "{paid} paid, {simple:?} on {}", only.name);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2, failure_persistence: None, ..ProptestConfig::default() })]

    /// However many sizes there are to choose from, none of them alone is cheaper; their prices lie near what their area is
    /// worth, so that area rules few of them out.
    #[test]
    fn many_sizes_are_never_dearer_than_one_of_them(
        sizes in prop::collection::vec((70.0..150.0_f64, 70.0..150.0_f64, 80..120_u32), 6..7), count in 4..7_u32,
    ) {
        let stock: Vec<Stock> = sizes
            .iter()
            .map(|(w, h, share)| sheet(*w, *h, Some((w * h * f64::from(*share) / 1e4).round() / 100.0)))
            .collect();
        let mut task = task(vec![item("drop", super::tasks::regular(5, 24.0), count)], stock.clone(), 4.0, 3.0);
        task.turning = Turning::Half;
        let paid = lay(&task).cost.unwrap();
        for only in &stock {
            let alone = lay(&Task { stock: vec![only.clone()], ..task.clone() });
            let dearer = alone.unplaced.is_empty() && alone.cost.is_some_and(|alone| paid > alone + 0.001);
            prop_assert!(!dearer, "{paid} paid, {} alone costs {:?}", only.name, alone.cost);
        }
    }
}

/// Worked by hand: a sheet of 300 x 500 holds 49 of 60 x 40, so 45 lie on one for 6.50 whatever is to be had beside it that
/// costs more. On a roll 300 wide, one column of ten and five columns of seven upright ones take 7 x 64 - 4 + 10 = 454 mm.
#[test]
fn a_dearer_size_beside_a_sheet_that_does_changes_nothing() {
    let forty_five = || vec![item("patch", rectangle(60.0, 40.0), 45)];
    let small = || sheet(300.0, 500.0, Some(6.50));
    for (other, least) in [
        (sheet(310.0, 510.0, Some(6.60)), 6.50),
        (roll(300.0, Some(15.0)), 6.50),
        (roll(300.0, Some(13.0)), 0.454 * 13.0),
        (sheet(200.0, 200.0, Some(3.0)), 6.50),
    ] {
        let layout = lay(&task(forty_five(), vec![small(), other.clone()], 5.0, 4.0));
        let paid = layout.cost.unwrap();
        // A hair more than the gap lies between rows.
        assert!(paid > least - 1e-6 && paid < least + 0.001, "{paid} beside {}", other.name);
    }
}

/// Worked by hand: three squares of 90 lie side by side on 300 x 300, and an off-cut takes one more. Eight on the sheet make
/// three rows and seven make three as well, so for eight the off-cut stays in the drawer; of seven it takes the one that
/// would begin a third row.
#[test]
fn an_off_cut_is_opened_only_where_it_shortens_the_last_sheet() {
    let squares = |count| {
        let off_cut = Stock { available: Some(1), ..sheet(102.0, 102.0, None) };
        let mut task = task(
            vec![item("square", rectangle(90.0, 90.0), count)],
            vec![off_cut, sheet(300.0, 300.0, Some(4.0))],
            5.0,
            4.0,
        );
        task.turning = Turning::None;
        lay(&task)
    };
    let (seven, eight) = (squares(7), squares(8));
    assert_eq!((sheets(&seven), seven.cost), (2, Some(4.0)));
    assert_eq!((sheets(&eight), eight.cost), (1, Some(4.0)));
    assert_eq!(eight.sheets[0].stock, 1);
}

/// A sheet holds no less for lying in the drawer already: whatever goes onto one that is bought goes onto it too.
#[test]
fn a_sheet_from_the_drawer_holds_what_a_bought_one_does() {
    for count in [30, 31] {
        let laid = |stock: Stock| {
            let mut task = task(vec![item("disc", super::tasks::regular(16, 15.0), count)], vec![stock], 5.0, 4.0);
            (task.turning, task.effort) = (Turning::None, Effort::Usual);
            lay(&task)
        };
        let bought = laid(sheet(200.0, 200.0, Some(1.0)));
        let from_drawer = laid(Stock { available: Some(sheets(&bought)), ..sheet(200.0, 200.0, None) });
        let pieces: u32 =
            from_drawer.sheets.iter().map(|sheet| sheet.copies * u32::try_from(sheet.laid.len()).unwrap()).sum();
        assert_eq!((pieces, from_drawer.unplaced.len()), (count, 0), "of {count} discs");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, failure_persistence: None, ..ProptestConfig::default() })]

    /// What one fewer spare is said to save is saved when she leaves it out.
    #[test]
    fn one_fewer_spare_saves_what_is_said(
        counts in (3..24_u32, 0..24_u32), spares in (1..3_u32, 0..2_u32), size in 110.0..170.0_f64, have in 0..3_u32,
    ) {
        let with = |name: &str, ring, count, spares| Item { spares, ..item(name, ring, count + spares) };
        let items = vec![
            with("diamond", super::tasks::regular(4, 20.0), counts.0, spares.0),
            with("flower", super::tasks::regular(5, 24.0), counts.1, spares.1),
        ];
        let off_cut = Stock { available: Some(have), ..sheet(120.0, 120.0, None) };
        let task = task(items, vec![off_cut, sheet(size, 120.0, Some(0.7))], 5.0, 4.0);
        let layout = lay(&task);
        for name in ["diamond", "flower"] {
            let said = format!("one fewer spare of {name} saves a sheet (");
            let Some(said) = layout.alternatives.iter().find_map(|line| line.strip_prefix(&said)) else { continue };
            let saved: f64 = said.split_whitespace().next().unwrap().parse().unwrap();
            let mut fewer = task.clone();
            let item = fewer.items.iter_mut().find(|item| item.name == name).unwrap();
            (item.quantity, item.spares) = (item.quantity - 1, item.spares - 1);
            let other = lay(&fewer);
            let found = layout.cost.unwrap() - other.cost.unwrap();
            prop_assert!((found - saved).abs() < 0.006, "{saved} is said, {found} saved");
            prop_assert!(sheets(&other) < sheets(&layout) || have > 0, "no sheet saved");
        }
    }
}
