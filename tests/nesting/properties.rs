//! Whatever the task, the layout is sound by brute force, nothing is lost, and no simple grid would have done better.

use hemwright::geometry::{Outline, Point, Ring};
use hemwright::nest::{Effort, Item, Stock, Task, Turning};
use hemwright::quantity::mm;
use proptest::prelude::*;

use super::shapes;
use super::tasks::{lay, rectangle, sheets, task};

/// Shapes as motifs have them, about their own origin or somewhere off it.
fn patch() -> impl Strategy<Value = Ring> {
    let triangle = prop::array::uniform3((-40.0..40.0_f64, -40.0..40.0_f64)).prop_filter_map("no area", |corners| {
        Ring::new(corners.map(Point::from)).ok().filter(|ring| ring.area() > 20.0)
    });
    let angle = (10.0..60.0_f64, 10.0..60.0_f64, 0.2..0.8_f64).prop_map(|(w, h, part)| {
        let corners = [(0.0, 0.0), (w, 0.0), (w, h * part), (w * part, h * part), (w * part, h), (0.0, h)];
        Ring::new(corners.map(Point::from)).unwrap()
    });
    let box_ = (3.0..80.0_f64, 3.0..80.0_f64).prop_map(|(w, h)| rectangle(w, h));
    prop_oneof![3 => shapes::shape().prop_map(|shape: Outline| shape.outer().clone()), 1 => triangle, 1 => angle, 1 => box_]
}

fn piece() -> impl Strategy<Value = Item> {
    (patch(), 1..7_u32, 0..3_u32, 0..2_u32).prop_map(|(patch, quantity, spares, tests)| Item {
        name: "piece".to_owned(),
        motif: "motif".to_owned(),
        patch,
        holes: vec![],
        quantity,
        spares: spares.min(quantity - tests.min(quantity)),
        on_first_sheet: tests.min(quantity),
    })
}

fn stock() -> impl Strategy<Value = Stock> {
    let length = prop_oneof![3 => (40.0..400.0_f64).prop_map(Some), 1 => Just(None)];
    let price = prop::option::of(0.5..20.0_f64);
    // The drawer alone may hold too little, so something can always be bought.
    (40.0..400.0_f64, length, price).prop_map(|(width, height, price)| Stock {
        name: format!("{width:.0} wide"),
        width: mm(width),
        height: height.map(mm),
        price,
        available: None,
    })
}

fn turning() -> impl Strategy<Value = Turning> {
    prop_oneof![
        Just(Turning::None),
        Just(Turning::Half),
        prop::sample::select(vec![15_u16, 30, 45, 60, 90, 120]).prop_map(Turning::Steps),
        Just(Turning::Free),
    ]
}

fn any_task() -> impl Strategy<Value = Task> {
    let gap = prop_oneof![1 => Just(0.0), 1 => 0.05..1.0_f64, 4 => 1.0..8.0_f64];
    let offcut = prop::option::of((30.0..200.0_f64, 30.0..200.0_f64));
    let pieces = prop::collection::vec(piece(), 1..4);
    let stocks = prop::collection::vec(stock(), 1..3);
    (pieces, stocks, offcut, 0.0..12.0_f64, gap, turning(), any::<u64>()).prop_map(
        |(items, stock, offcut, margin, gap, turning, seed)| {
            let offcut = offcut.map(|(width, height)| Stock {
                name: "off-cut".to_owned(),
                width: mm(width),
                height: Some(mm(height)),
                price: None,
                available: Some(1),
            });
            let stock = offcut.into_iter().chain(stock).collect();
            Task { items, stock, margin: mm(margin), gap: mm(gap), turning, effort: Effort::Quick, seed }
        },
    )
}

/// Few at each build; set `PROPTEST_CASES` for more.
#[allow(clippy::disallowed_methods, reason = "how many cases a test tries changes no output")]
fn cases(few: u32) -> ProptestConfig {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok());
    ProptestConfig { cases: asked.unwrap_or(few), failure_persistence: None, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(cases(12))]

    /// `lay` holds every layout against the library's check and against brute force.
    #[test]
    fn every_layout_is_sound(task in any_task()) {
        let layout = lay(&task);
        let area = |sheet: &hemwright::nest::LaidSheet| -> f64 {
            sheet.laid.iter().map(|laid| task.items[laid.item].patch.area()).sum()
        };
        for sheet in &layout.sheets {
            let stock = &task.stock[sheet.stock];
            let whole = stock.width.get() * stock.height.unwrap_or(sheet.used).get();
            prop_assert!(area(sheet) <= whole + 1.0, "{} of {whole}", area(sheet));
            prop_assert!(!sheet.laid.is_empty() && sheet.copies > 0);
        }
    }

    /// A piece left out is really too large, however it is turned; looked for in steps of a quarter of a degree.
    #[test]
    fn what_is_left_out_fits_nowhere(task in any_task()) {
        let layout = lay(&task);
        for left in &layout.unplaced {
            let ring = &task.items[left.item].patch;
            let turns: Vec<f64> = match task.turning {
                Turning::None | Turning::Half => vec![0.0],
                Turning::Steps(step) => (0..360 / step).map(|k| f64::from(k * step)).collect(),
                Turning::Free => (0..720).map(|k| f64::from(k) / 4.0).collect(),
            };
            for turn in turns {
                let bounds = ring.transformed(hemwright::geometry::Affine::rotate(turn.to_radians())).bounds();
                let border = 2.0 * task.margin.get();
                let fits = task.stock.iter().any(|stock| {
                    bounds.width() + border <= stock.width.get()
                        && stock.height.is_none_or(|height| bounds.height() + border <= height.get())
                });
                prop_assert!(!fits, "at {turn} degrees it fits");
            }
        }
    }

    /// Like rectangles never take more sheets than whole rows of them do, upright or, where they may be turned, across.
    #[test]
    fn a_grid_is_never_better(
        (w, h) in (10.0..80.0_f64, 10.0..80.0_f64), (width, height) in (90.0..300.0_f64, 90.0..300.0_f64),
        count in 1..40_u32, gap in 0.0..6.0_f64, turning in turning(),
    ) {
        let piece = super::tasks::item("box", rectangle(w, h), count);
        let mut task = task(vec![piece], vec![super::tasks::sheet(width, height, None)], 5.0, gap);
        task.turning = turning;
        let grid = |w: f64, h: f64| ((width - 10.0 + gap) / (w + gap)).floor() * ((height - 10.0 + gap) / (h + gap)).floor();
        let across = matches!(turning, Turning::Free) || matches!(turning, Turning::Steps(step) if 90 % step == 0);
        let on_one = if across { grid(w, h).max(grid(h, w)) } else { grid(w, h) };
        prop_assume!(on_one >= 1.0);
        let most = (f64::from(count) / on_one).ceil();
        prop_assert!(f64::from(sheets(&lay(&task))) <= most, "more than {most}");
    }
}
