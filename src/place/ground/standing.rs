//! Where motifs stand in the flat development, and how near they come to each other and to the edge.

use crate::geometry::Affine;
use crate::hem::Frame;
use crate::place::Stance;
use crate::place::along::row::{Row, Seat};
use crate::place::clash::across::BETWEEN_ROWS;
use crate::place::clash::clear::{Kind, Measure, Standing};
use crate::place::clash::upright;
use crate::place::ground::{Ground, Tier};
use crate::quantity::Mm;

/// What neighbours that overlap are taken to be apart while they are moved apart, in millimetres.
const OVERLAPPING: f64 = -10.0;

impl Ground<'_> {
    /// Height of the highest point of the motifs of a row above the hem.
    pub(in crate::place) fn highest(&self, tier: &Tier) -> Mm {
        let tallest = if tier.nooks.is_empty() { self.tallest } else { self.tallest.max(self.in_corners) };
        tier.line.height() + tallest / 2.0 + self.wish.rhythm.wave.unwrap_or(Mm::ZERO).max(Mm::ZERO)
    }

    /// Height of the lowest point of the motifs of the first row above the hem; of upright ones by their true outlines.
    pub(in crate::place) fn lowest(&self, tier: &Tier, row: &Row) -> Mm {
        let square = tier.line.height() - self.tallest / 2.0 + self.wish.rhythm.wave.unwrap_or(Mm::ZERO).min(Mm::ZERO);
        let Some(edge) = self.hem.line_at(Mm::ZERO).ok().filter(|_| self.wish.stance == Stance::Upright) else {
            return square;
        };
        let least = |seat: &Seat| {
            let stood = self.stood.get(seat.item).filter(|_| !seat.corner)?;
            Some(stood.least(&edge, &tier.line, (Mm::new(seat.s), self.raise(*seat)), seat.scale))
        };
        row.seats.iter().filter_map(least).min_by(f64::total_cmp).map_or(square, Mm::new)
    }

    /// Least distance from the true outlines of motifs in corners to the edge; negative where they reach over it.
    pub(in crate::place) fn least_in_corners(&self, tier: &Tier, row: &Row) -> Option<Mm> {
        let (edge, stood) = (self.hem.line_at(Mm::ZERO).ok()?, self.cornered.as_ref()?);
        let turned = self.wish.stance != Stance::Upright;
        let least =
            |seat: &Seat| upright::least_in_corner(stood, &edge, &tier.line, (Mm::new(seat.s), seat.scale, turned));
        row.seats.iter().filter(|seat| seat.corner).map(least).min_by(f64::total_cmp).map(Mm::new)
    }

    /// Where a seat's motif stands.
    pub(in crate::place) fn standing(&self, tier: &Tier, seat: Seat) -> Standing {
        self.standing_in(tier.line.frame_at(Mm::new(seat.s)), seat)
    }

    fn standing_in(&self, frame: Frame, seat: Seat) -> Standing {
        let at = frame.at + frame.up() * self.raise(seat).get();
        let turn = match self.wish.stance {
            Stance::SquareToHem | Stance::Bent => frame.turn().get(),
            Stance::Upright => 0.0,
        };
        Standing {
            kind: Kind { motif: self.all[seat.item], hand: seat.hand, scale: seat.scale },
            place: Affine::translate(at.to_vec2()) * Affine::rotate(turn),
        }
    }

    /// How far a seat's motif stands above its line.
    pub(in crate::place) fn raise(&self, seat: Seat) -> Mm {
        self.wish.rhythm.wave.filter(|_| seat.second).unwrap_or(Mm::ZERO)
    }

    /// Where the motifs of a row stand; on a ring the first once more, once round further.
    pub(in crate::place) fn standings(&self, tier: &Tier, row: &Row) -> Vec<Standing> {
        let mut all: Vec<Standing> = row.seats.iter().map(|seat| self.standing(tier, *seat)).collect();
        if let (Some(_), Some(first)) = (row.round, all.first().copied()) {
            all.push(Standing { place: tier.line.once_round(first.place), ..first });
        }
        all
    }

    /// The clear gaps between neighbours of a run that may go on past the join of the development.
    pub(in crate::place) fn run_clears(&self, measure: &mut Measure<'_>, tier: &Tier, run: &Row) -> Option<Vec<f64>> {
        let standing = |seat: &Seat| self.standing_in(tier.line.frame_unrolled(Mm::new(seat.s)), *seat);
        let standings: Vec<Standing> = run.seats.iter().map(standing).collect();
        standings.windows(2).map(|pair| Some(measure.between(pair[0], pair[1])?.distance)).collect()
    }

    /// Whether a motif may stand right above one of the row below without coming too near it.
    pub(in crate::place) fn stacked(&self, gap: Mm) -> bool {
        let (rows, wave) = (self.wish.rhythm.rows, self.wish.rhythm.wave.unwrap_or(Mm::ZERO).abs());
        rows.rise - self.tallest - wave >= gap.min(BETWEEN_ROWS)
    }

    /// The same, those of neighbours that overlap less than nothing, so that they are moved apart.
    pub(in crate::place) fn clears_apart(&self, measure: &mut Measure<'_>, tier: &Tier, row: &Row) -> Option<Vec<f64>> {
        let clears = self.clears(measure, tier, row)?;
        Some(clears.into_iter().map(|clear| if clear > 0.0 { clear } else { OVERLAPPING }).collect())
    }

    /// The clear gaps between neighbours of a row, the closing one of a ring last; `None` where a motif has no outline.
    pub(in crate::place) fn clears(&self, measure: &mut Measure<'_>, tier: &Tier, row: &Row) -> Option<Vec<f64>> {
        let standings = self.standings(tier, row);
        standings.windows(2).map(|pair| Some(measure.between(pair[0], pair[1])?.distance)).collect()
    }
}
