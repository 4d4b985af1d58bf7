//! Pieces that fit none of the stock: by how much, either way round, and what would take them.

use crate::geometry::Rect;
use crate::nest::buying::draft::room;
use crate::nest::shape::kind::{EXACT, Kind};
use crate::nest::{Task, Turning};
use crate::quantity::Mm;

/// A piece that fits none of the stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Unplaced {
    /// Index into the task's items.
    pub item: usize,
    /// How many.
    pub quantity: u32,
    /// Width and height of the smallest sheet that would take it, margins included.
    pub smallest: (Mm, Mm),
    /// Width of the narrowest roll that would take it, margins included.
    pub narrowest: Mm,
    /// By how much it is too large for the stock that comes nearest: as drawn, turned a quarter round where the film allows
    /// it, and at the best turn of all where that is another.
    pub over: Vec<Over>,
    /// A stock that would take it turned a quarter round, if the film allowed that.
    pub if_turned: Option<usize>,
}

/// By how much a piece is too large at one turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Over {
    /// Index into the task's stock.
    pub stock: usize,
    /// Turn in degrees, clockwise on screen.
    pub turn_deg: f64,
    /// Wider than the stock less its margins; negative where there is room.
    pub width: Mm,
    /// Longer than the stock less its margins; `None` on a roll, which is never too short.
    pub height: Option<Mm>,
}

impl Over {
    fn worst(&self) -> f64 {
        self.height.map_or(self.width, |height| height.max(self.width)).get()
    }

    /// `as drawn it is 20.0 mm too wide`.
    fn words(&self) -> String {
        let turned = match self.turn_deg.rem_euclid(180.0) {
            turn if turn < 1e-9 => "as drawn".to_owned(),
            turn if (turn - 90.0).abs() < 1e-9 => "turned a quarter round".to_owned(),
            turn => format!("turned by {turn:.1} degrees"),
        };
        let too = |over: Mm, what: &str| (over.get() > EXACT).then(|| format!("{} too {what}", up(over)));
        let both: Vec<String> = [too(self.width, "wide"), self.height.and_then(|height| too(height, "long"))]
            .into_iter()
            .flatten()
            .collect();
        format!("{turned} it is {}", both.join(" and "))
    }
}

impl Unplaced {
    /// Pieces that find no place although they fit: there is not stock enough.
    pub(super) fn for_want_of_stock(item: usize, quantity: u32) -> Self {
        let (smallest, narrowest) = ((Mm::ZERO, Mm::ZERO), Mm::ZERO);
        Self { item, quantity, smallest, narrowest, over: Vec::new(), if_turned: None }
    }

    /// Why it is left out and what would take it, in plain sentences; how many and which is for the caller to say.
    #[must_use]
    pub fn reason(&self, task: &Task) -> String {
        let margin = if task.margin > Mm::ZERO {
            format!(" (less a margin of {} on every edge)", task.margin)
        } else {
            String::new()
        };
        let name = |stock: usize| task.stock[stock].name.as_str();
        let mut said = String::new();
        if let Some(first) = self.over.first() {
            let ways: Vec<String> = self.over.iter().map(Over::words).collect();
            said = format!("For the {}{margin}, {}. ", name(first.stock), ways.join("; "));
        }
        if let Some(stock) = self.if_turned {
            said += &format!(
                "Turned a quarter round the {} would take it, but this film may not be turned so. ",
                name(stock)
            );
        }
        let (width, height) = self.smallest;
        said + &format!(
            "The smallest sheet that takes it is {} x {}, the narrowest roll {} wide.",
            up(width),
            up(height),
            up(self.narrowest)
        )
    }
}

/// Rounded up to the tenth that is printed, so that a sheet of the size named is large enough.
fn up(length: Mm) -> Mm {
    Mm::new(((length.get() - EXACT) * 10.0).ceil() / 10.0)
}

/// Pieces of a task that fit no stock at any turn.
pub(super) fn of_task(task: &Task) -> Vec<Unplaced> {
    let kinds: Vec<Kind> = task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
    unplaced(&kinds, task)
}

/// Pieces that fit no stock at any turn.
pub(super) fn unplaced(kinds: &[Kind], task: &Task) -> Vec<Unplaced> {
    let wanted = kinds.iter().zip(&task.items).enumerate().filter(|(_, (_, wish))| wish.quantity > 0);
    wanted
        .filter_map(|(item, (kind, wish))| {
            of_kind(kind, task).map(|found| Unplaced { item, quantity: wish.quantity, ..found })
        })
        .collect()
}

fn of_kind(kind: &Kind, task: &Task) -> Option<Unplaced> {
    if task.stock.iter().enumerate().any(|(stock, _)| kind.fitting(&room(stock, task)).is_some()) {
        return None;
    }
    let border = Mm::new(2.0 * task.margin.get());
    let boxes: Vec<Rect> = kind.boxes.iter().map(|boxed| boxed.bounds).collect();
    let first = kind.bounds_at(0.0);
    let smallest = boxes.iter().copied().min_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or(first);
    let narrowest = kind.bounds_at(kind.best_turn(|bounds| bounds.width())).width();
    let smallest = (Mm::new(smallest.width()) + border, Mm::new(smallest.height()) + border);
    let narrowest = Mm::new(narrowest) + border;
    let if_turned = (0..task.stock.len()).find(|stock| {
        let (room, turned) = (room(*stock, task), kind.bounds_at(90.0));
        turned.width() <= room.width + EXACT && turned.height() <= room.length + EXACT
    });
    Some(Unplaced { item: 0, quantity: 0, smallest, narrowest, over: over(kind, task), if_turned })
}

/// The stock that comes nearest at any turn, and by how much each way round misses it.
fn over(kind: &Kind, task: &Task) -> Vec<Over> {
    let at = |stock: usize, turn_deg: f64| {
        let (room, bounds) = (room(stock, task), kind.bounds_at(turn_deg));
        let width = Mm::new(bounds.width() - room.width);
        let height = task.stock[stock].height.map(|_| Mm::new(bounds.height() - room.length));
        Over { stock, turn_deg, width, height }
    };
    let best = |stock: usize| {
        let room = room(stock, task);
        at(stock, kind.best_turn(|b| (b.width() - room.width).max(b.height() - room.length)))
    };
    let quarter =
        matches!(task.turning, Turning::Free) || matches!(task.turning, Turning::Steps(step) if 90 % step == 0);
    let least = |stock: usize| {
        let quarter = if quarter { at(stock, 90.0).worst() } else { f64::INFINITY };
        best(stock).worst().min(at(stock, 0.0).worst()).min(quarter)
    };
    let Some(nearest) = (0..task.stock.len()).min_by(|a, b| least(*a).total_cmp(&least(*b))) else { return Vec::new() };
    let mut ways = vec![at(nearest, 0.0)];
    if quarter {
        ways.push(at(nearest, 90.0));
    }
    let slanted = best(nearest);
    // A tenth of a millimetre less is no news.
    if ways.iter().all(|way| slanted.worst() < way.worst() - 0.1) {
        ways.push(slanted);
    }
    ways
}
