//! Time: cutting, weeding, marking, pressing, edges of cloth pieces, trims.

use super::{Minutes, Task, Work};
use crate::film::{Method, PieceKind, Travels};
use crate::geometry::{Outline, Ring};
use crate::trims::TrimNeed;

pub(super) fn tasks(work: &Work<'_>) -> Vec<Task> {
    let (film, cloth): (Vec<_>, Vec<_>) =
        work.pieces.kinds.iter().partition(|kind| kind.method.travels() == Travels::OnCarrier);
    let mut tasks = Vec::new();
    tasks.extend(mark(work));
    if !film.is_empty() {
        tasks.push(cut_film(work, &film));
        tasks.push(weed(work, &film));
    }
    if !cloth.is_empty() {
        tasks.push(by_metre(work, "cut-fabric", "cutting cloth pieces", metres(&cloth, PieceKind::quantity)));
    }
    tasks.extend(press(work));
    for (what, rate, methods) in [
        ("stitching the edges of cloth pieces", "stitch-edge", [Method::FusedTraced, Method::FusedBacked]),
        (
            "turning and sewing down cloth pieces",
            "turn-edge",
            [Method::TurnedTemplateOnRight, Method::TurnedTemplateOnWrong],
        ),
    ] {
        let kinds: Vec<_> = cloth.iter().copied().filter(|kind| methods.contains(&kind.method)).collect();
        if !kinds.is_empty() {
            tasks.push(by_metre(work, rate, what, metres(&kinds, |kind| kind.needed)));
        }
    }
    tasks.extend(work.trims.iter().map(|trim| sewn(work, trim)));
    tasks
}

fn mark(work: &Work<'_>) -> Option<Task> {
    (work.placements > 0).then(|| {
        let minutes = work.rates.minutes("mark");
        Task {
            what: "marking the hem".into(),
            minutes: minutes * f64::from(work.placements),
            working: format!("{} motifs x {} min", work.placements, minutes.usual),
        }
    })
}

fn cut_film(work: &Work<'_>, kinds: &[&PieceKind]) -> Task {
    let (sheet, metre) = (work.rates.minutes("sheet-set-up"), work.rates.minutes("cut-film"));
    let length = metres(kinds, PieceKind::quantity);
    Task {
        what: "cutting film".into(),
        minutes: sheet * f64::from(work.sheets) + metre * length,
        working: format!("{} sheets x {} min + {length:.1} m of cut x {} min", work.sheets, sheet.usual, metre.usual),
    }
}

fn weed(work: &Work<'_>, kinds: &[&PieceKind]) -> Task {
    let (weed, part) = (work.rates.minutes("weed"), work.rates.minutes("part-patch"));
    let (mut cuts, mut patches) = (0.0, 0.0);
    for kind in kinds {
        let quantity = f64::from(kind.quantity());
        patches += quantity;
        cuts += quantity * kind.cut.outlines().iter().flat_map(Outline::rings).count() as f64;
    }
    Task {
        what: "weeding and parting patches".into(),
        minutes: weed * cuts + part * patches,
        working: format!("{cuts} closed cuts x {} min + {patches} patches x {} min", weed.usual, part.usual),
    }
}

fn press(work: &Work<'_>) -> Option<Task> {
    let minutes = work.press.get() / 60.0;
    (minutes > 0.0).then(|| Task {
        what: "pressing".into(),
        minutes: Minutes { least: minutes, usual: minutes, most: minutes },
        working: "from the press plan".into(),
    })
}

fn sewn(work: &Work<'_>, trim: &TrimNeed) -> Task {
    let mut minutes = Minutes::default();
    let mut sums = Vec::new();
    for labour in &trim.labour {
        let rate = work.rates.minutes(labour.rate);
        minutes = minutes + rate * labour.amount;
        sums.push(format!("{} {:.1} x {} min", labour.rate.replace('-', " "), labour.amount, rate.usual));
    }
    Task { what: format!("{} ({})", trim.name, trim.kind), minutes, working: sums.join(" + ") }
}

fn by_metre(work: &Work<'_>, rate: &'static str, what: &str, metres: f64) -> Task {
    let minutes = work.rates.minutes(rate);
    Task { what: what.into(), minutes: minutes * metres, working: format!("{metres:.1} m x {} min", minutes.usual) }
}

/// Metres of cut of so many of each kind.
fn metres(kinds: &[&PieceKind], count: impl Fn(&PieceKind) -> u32) -> f64 {
    let length =
        |kind: &PieceKind| -> f64 { kind.cut.outlines().iter().flat_map(Outline::rings).map(Ring::perimeter).sum() };
    kinds.iter().map(|kind| length(kind) * f64::from(count(kind))).sum::<f64>() / 1000.0
}
