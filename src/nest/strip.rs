//! A first search: shortens the last sheet.

use super::draft::{Draft, DraftSheet, Pose, room};
use super::field::{Field, Piece};
use super::kind::Kind;
use super::part::Patience;
use super::random::Random;
use super::shapes::{Shapes, Spot};
use super::shorten::{Plan, shorten};
use super::{Effort, Progress, Task, Turning};
use crate::geometry::Point;

/// The draft with its last sheet shortened as far as a search gets.
pub(super) fn improved(draft: Draft, kinds: &[Kind], task: &Task, progress: &dyn Progress) -> Draft {
    let step = match task.turning {
        Turning::None => 360,
        Turning::Half => 180,
        Turning::Steps(step) => step,
        Turning::Free => 10,
    };
    let turns: Vec<f64> = (0..360 / step).map(|k| f64::from(k * step)).collect();
    let shapes = Shapes::new(kinds, task.gap.get(), turns, 0.05);
    let Some(first) = draft.sheets.first() else { return draft };
    let space = room(first.stock, task);
    if draft.sheets.iter().any(|sheet| sheet.stock != first.stock) {
        return draft;
    }
    let mut lengths: Vec<f64> = draft.sheets.iter().map(|_| space.length.min(1e9)).collect();
    let last = lengths.len() - 1;
    lengths[last] = draft.sheets[last].used(kinds, task) - task.margin.get() * 2.0;
    let near = |deg: f64| {
        let diff = |t: f64| ((t - deg).rem_euclid(360.0)).min((deg - t).rem_euclid(360.0));
        (0..shapes.turns.len()).min_by(|a, b| diff(shapes.turns[*a]).total_cmp(&diff(shapes.turns[*b]))).unwrap_or(0)
    };
    let pieces: Vec<Piece> = draft
        .sheets
        .iter()
        .enumerate()
        .flat_map(|(sheet, s)| s.poses.iter().map(move |p| (sheet, p)))
        .map(|(sheet, p)| Piece {
            item: p.item,
            sheet,
            spot: Spot { turn: near(p.turn_deg), at: Point::new(p.x - space.margin, p.y - space.margin) },
        })
        .collect();
    let mut field = Field::new(&shapes, space.width, lengths, pieces);
    let mut random = Random::new(task.seed, 1);
    let plan = Plan {
        first_cut: 0.05,
        least_cut: 0.001,
        patience: Patience { anywhere: 50, nearby: 25, sweeps: 200, strikes: 3, moves: 0 },
        moves: match task.effort {
            Effort::Quick => 300,
            Effort::Usual => 1_000,
            Effort::Thorough => 20_000,
        },
    };
    let mut sweeps = 0;
    let found = shorten(&mut field, &plan, &mut random, &mut |best| {
        sweeps += 1;
        progress.step(sweeps, 0, &format!("{best:.2} mm"))
    });
    let mut sheets: Vec<DraftSheet> =
        draft.sheets.iter().map(|s| DraftSheet { stock: s.stock, poses: Vec::new() }).collect();
    for piece in found.pieces {
        sheets[piece.sheet].poses.push(Pose {
            item: piece.item,
            turn_deg: shapes.turns[piece.spot.turn],
            x: piece.spot.at.x + space.margin,
            y: piece.spot.at.y + space.margin,
        });
    }
    sheets.retain(|sheet| !sheet.poses.is_empty());
    Draft { sheets, method: "search" }
}
