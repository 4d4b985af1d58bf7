//! Pieces that fit none of the stock: by how much, either way round, and what would take them.

use crate::geometry::Rect;
use crate::nest::buying::draft::room;
use crate::nest::shape::kind::{EXACT, Kind};
use crate::nest::{Stock, Task, Turning};
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

    /// `as drawn it is 20.0 mm too wide`, with so many decimals.
    fn words(&self, places: usize) -> String {
        let turned = match self.turn_deg.rem_euclid(180.0) {
            turn if turn < 1e-9 => "as drawn".to_owned(),
            turn if (turn - 90.0).abs() < 1e-9 => "turned a quarter round".to_owned(),
            turn => format!("turned by {turn:.1} degrees"),
        };
        let too = |over: Mm, what: &str| (over.get() > EXACT).then(|| format!("{} too {what}", up(over, places)));
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
        let name = |stock: usize| task.stock[stock].name.as_str();
        let (mut said, mut places) = (String::new(), 1);
        if let Some(first) = self.over.first() {
            let stock = &task.stock[first.stock];
            let lack = self.over.iter().map(Over::worst).fold(f64::INFINITY, f64::min);
            places = if lack < HARDLY { decimals(stock) } else { 1 };
            let ways: Vec<String> = self.over.iter().map(|over| over.words(places)).collect();
            said = format!("For the {}{}, {}. ", stock.name, measures(stock, task.margin, places), ways.join("; "));
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
            up(width, places),
            up(height, places),
            up(self.narrowest, places)
        )
    }
}

/// Where less than this is lacking, in millimetres, tenths alone could contradict each other: a sheet of 109.97 is called 110.
const HARDLY: f64 = 0.2;

/// As few decimals as show both sides of a stock, one at the least and three at the most.
fn decimals(stock: &Stock) -> usize {
    let shown = |side: Mm, places: u8| {
        let scaled = side.get() * 10f64.powi(i32::from(places));
        (scaled - scaled.round()).abs() < 1e-6
    };
    let sides = || [Some(stock.width), stock.height].into_iter().flatten();
    (1..3).find(|places| sides().all(|side| shown(side, *places))).map_or(3, usize::from)
}

/// What the name of a stock does not say of it: ` (less a margin of 5.0 mm on every edge)`, and its sides where tenths do not
/// show them.
fn measures(stock: &Stock, margin: Mm, places: usize) -> String {
    let mut said = Vec::new();
    if places > 1 {
        said.push(format!("{:.places$} wide", stock.width));
        said.extend(stock.height.map(|height| format!("{height:.places$} long")));
    }
    if margin > Mm::ZERO {
        said.push(format!("less a margin of {margin} on every edge"));
    }
    if said.is_empty() { String::new() } else { format!(" ({})", said.join(", ")) }
}

/// Rounded up to the decimal that is printed, so that a sheet of the size named is large enough.
fn up(length: Mm, places: usize) -> String {
    let scale = 10f64.powi(i32::try_from(places).unwrap_or(1));
    format!("{:.places$}", Mm::new(((length.get() - EXACT) * scale).ceil() / scale))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Ring;
    use crate::nest::{Effort, Item};
    use crate::quantity::mm;

    fn said(piece: f64, sheet: f64) -> String {
        let item = Item {
            name: "piece".to_owned(),
            motif: "piece".to_owned(),
            patch: Ring::rectangle(Rect::new(0.0, 0.0, piece, 20.0)).unwrap(),
            holes: Vec::new(),
            quantity: 1,
            spares: 0,
            on_first_sheet: 0,
        };
        let name = format!("{sheet:.0} x 60 mm sheet");
        let stock = vec![Stock { name, width: mm(sheet), height: Some(mm(60.0)), price: None, available: None }];
        let (margin, gap) = (mm(5.0), mm(4.0));
        let task =
            Task { items: vec![item], stock, margin, gap, turning: Turning::None, effort: Effort::Quick, seed: 1 };
        let kinds: Vec<Kind> = task.items.iter().map(|item| Kind::new(item, task.turning)).collect();
        unplaced(&kinds, &task)[0].reason(&task)
    }

    /// Worked by hand: what is told to be lacking and the sheet's side make up the side that takes the piece.
    #[test]
    fn a_hair_too_small_does_not_contradict_itself() {
        let tail = |side: &str| format!("The smallest sheet that takes it is {side} x ");
        for (piece, sheet, sides, lack, takes) in [
            (100.0, 109.97, "109.97 mm wide, 60.00 mm long, ", "0.03 mm", "110.00 mm"),
            (100.04, 110.0, "", "0.1 mm", "110.1 mm"),
            (100.0, 109.999, "109.999 mm wide, 60.000 mm long, ", "0.001 mm", "110.000 mm"),
            (100.0, 109.35, "", "0.7 mm", "110.0 mm"),
        ] {
            let words = said(piece, sheet);
            assert!(words.contains(&format!(" ({sides}less a margin of 5.0 mm on every edge), ")), "{words}");
            assert!(words.contains(&format!("as drawn it is {lack} too wide.")), "{words}");
            assert!(words.contains(&tail(takes)), "{words}");
        }
    }
}
