//! A layout checked by brute force on bare coordinates: every edge against every edge, in `f64`, with nothing taken from the
//! search, from `nest::verify` or from the geometry of the library. Overlaps of pieces that may touch are measured by `geo`.

use geo::{Area as _, BooleanOps as _, Coord, LineString, Polygon};
use hemwright::geometry::Ring;
use hemwright::nest::{Laid, LaidSheet, Layout, Task, Turning};

/// How far a gap or margin may fall short, in millimetres: what positions written to a micrometre lose, twice.
const SHORT: f64 = 0.002;

type Corner = [f64; 2];

/// Outer ring first, holes after it.
struct Area(Vec<Vec<Corner>>);

/// Everything wrong with a layout, in words.
pub(crate) fn faults(task: &Task, layout: &Layout) -> Vec<String> {
    let mut faults = Vec::new();
    for (number, sheet) in layout.sheets.iter().enumerate() {
        let areas: Vec<Area> = sheet.laid.iter().map(|laid| area(task, laid)).collect();
        for (index, (area, laid)) in areas.iter().zip(&sheet.laid).enumerate() {
            let over = over_edge(area, task, sheet);
            if over > SHORT {
                faults.push(format!("sheet {number}: piece {index} is {over} over the edge"));
            }
            if !may_turn(laid.turn_deg, task.turning) {
                faults.push(format!("sheet {number}: piece {index} is turned by {}", laid.turn_deg));
            }
            for (before, other) in areas[..index].iter().enumerate() {
                if let Some(why) = too_close(area, other, task.gap.get()) {
                    faults.push(format!("sheet {number}: pieces {before} and {index}: {why}"));
                }
            }
        }
    }
    faults.extend(counts(task, layout));
    faults.extend(tests_first(task, layout));
    faults
}

fn area(task: &Task, laid: &Laid) -> Area {
    let item = &task.items[laid.item];
    let (sin, cos) = laid.turn_deg.to_radians().sin_cos();
    let ring = |ring: &Ring| -> Vec<Corner> {
        let moved = |p: &hemwright::geometry::Point| {
            [p.x * cos - p.y * sin + laid.x.get(), p.x * sin + p.y * cos + laid.y.get()]
        };
        ring.points().iter().map(moved).collect()
    };
    Area(std::iter::once(&item.patch).chain(&item.holes).map(ring).collect())
}

fn over_edge(area: &Area, task: &Task, sheet: &LaidSheet) -> f64 {
    let (stock, margin) = (&task.stock[sheet.stock], task.margin.get());
    let right = stock.width.get() - margin;
    let low = stock.height.unwrap_or(sheet.used).get().min(sheet.used.get()) - margin;
    let over = |[x, y]: &Corner| (margin - x).max(margin - y).max(x - right).max(y - low);
    area.0[0].iter().map(over).fold(f64::NEG_INFINITY, f64::max)
}

fn may_turn(degrees: f64, turning: Turning) -> bool {
    let near = |step: f64| {
        let off = degrees.rem_euclid(step);
        off.min(step - off) < 1e-6
    };
    match turning {
        Turning::None => near(360.0),
        Turning::Half => near(180.0),
        Turning::Steps(step) => near(f64::from(step)),
        Turning::Free => degrees.is_finite(),
    }
}

fn too_close(a: &Area, b: &Area, gap: f64) -> Option<String> {
    if gap <= SHORT {
        let shared = polygon(a).intersection(&polygon(b)).unsigned_area();
        let longest = edges(a).chain(edges(b)).map(|(p, q)| far(p, q)).fold(0.0, f64::max);
        // A strip two micrometres deep along the longest edge, and then some.
        return (shared > 2.0 * SHORT * longest).then(|| format!("they share {shared} square mm"));
    }
    let least = edges(a).flat_map(|one| edges(b).map(move |other| between(one, other))).fold(f64::INFINITY, f64::min);
    let within = inside(a.0[0][0], b) || inside(b.0[0][0], a);
    match (within, least < gap - SHORT) {
        (true, _) => Some("one lies inside the other".to_owned()),
        (_, true) => Some(format!("they are {least} apart")),
        _ => None,
    }
}

fn polygon(area: &Area) -> Polygon {
    let line = |ring: &Vec<Corner>| -> LineString { ring.iter().map(|[x, y]| Coord { x: *x, y: *y }).collect() };
    Polygon::new(line(&area.0[0]), area.0[1..].iter().map(line).collect())
}

fn edges(area: &Area) -> impl Iterator<Item = (Corner, Corner)> + '_ {
    area.0.iter().flat_map(|ring| (0..ring.len()).map(|k| (ring[k], ring[(k + 1) % ring.len()])))
}

fn far(p: Corner, q: Corner) -> f64 {
    (p[0] - q[0]).hypot(p[1] - q[1])
}

/// Twice the area of a triangle, with its sign.
fn turn(a: Corner, b: Corner, c: Corner) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

fn between(a: (Corner, Corner), b: (Corner, Corner)) -> f64 {
    let cross = turn(a.0, a.1, b.0) * turn(a.0, a.1, b.1) < 0.0 && turn(b.0, b.1, a.0) * turn(b.0, b.1, a.1) < 0.0;
    if cross {
        return 0.0;
    }
    let ends = [to_edge(a.0, b), to_edge(a.1, b), to_edge(b.0, a), to_edge(b.1, a)];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

fn to_edge(p: Corner, (a, b): (Corner, Corner)) -> f64 {
    let (x, y) = (b[0] - a[0], b[1] - a[1]);
    let share = (((p[0] - a[0]) * x + (p[1] - a[1]) * y) / (x * x + y * y)).clamp(0.0, 1.0);
    far(p, [a[0] + x * share, a[1] + y * share])
}

/// Even-odd over all rings, so that a hole is outside.
fn inside(p: Corner, area: &Area) -> bool {
    edges(area)
        .filter(|(a, b)| (a[1] > p[1]) != (b[1] > p[1]) && p[0] < (b[0] - a[0]) * (p[1] - a[1]) / (b[1] - a[1]) + a[0])
        .count()
        % 2
        == 1
}

fn counts(task: &Task, layout: &Layout) -> Vec<String> {
    let mut faults = Vec::new();
    for (index, item) in task.items.iter().enumerate() {
        let on =
            |sheet: &LaidSheet| sheet.laid.iter().map(|laid| u32::from(laid.item == index)).sum::<u32>() * sheet.copies;
        let laid: u32 = layout.sheets.iter().map(on).sum();
        let left: u32 = layout.unplaced.iter().filter(|left| left.item == index).map(|left| left.quantity).sum();
        if laid + left != item.quantity {
            faults.push(format!("{}: {laid} laid and {left} left of {}", item.name, item.quantity));
        }
    }
    for (index, stock) in task.stock.iter().enumerate() {
        let used: u32 = layout.sheets.iter().filter(|sheet| sheet.stock == index).map(|sheet| sheet.copies).sum();
        if stock.available.is_some_and(|there| used > there) {
            faults.push(format!("{used} of {}", stock.name));
        }
    }
    faults
}

/// Test pieces lie on the first sheet; where they are too many for it, nothing else comes before the last of them.
fn tests_first(task: &Task, layout: &Layout) -> Vec<String> {
    let mut due: Vec<usize> = task.items.iter().map(|item| item.on_first_sheet as usize).collect();
    for left in &layout.unplaced {
        due[left.item] = due[left.item].min((task.items[left.item].quantity - left.quantity) as usize);
    }
    for (number, sheet) in layout.sheets.iter().enumerate() {
        if due.iter().all(|due| *due == 0) {
            break;
        }
        let mut others = 0;
        for laid in &sheet.laid {
            match due[laid.item] {
                0 => others += 1,
                _ => due[laid.item] -= 1,
            }
        }
        if others > 0 && due.iter().any(|due| *due > 0) {
            return vec![format!("sheet {number} holds {others} others while tests are due")];
        }
    }
    Vec::new()
}
