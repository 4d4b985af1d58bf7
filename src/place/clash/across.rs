//! Rows and bands against each other: whether a motif comes too near one of another row.

use super::clear::{Measure, Standing};
use crate::finding::{Finding, Severity};
use crate::hem::MotifLine;
use crate::place::BandSetting;
use crate::place::choice::chosen::Laid;
use crate::place::ground::{Ground, Tier};
use crate::place::say::short;
use crate::quantity::Mm;

/// Nearest that motifs of different rows come without a word; common practice, no source.
///
/// The gap asked for holds along a row. Across rows she chose the heights herself, so only what a slip in laying would
/// bring together is told.
pub(in crate::place) const BETWEEN_ROWS: Mm = Mm::new(10.0);

/// Motifs of the rows set out so far.
#[derive(Debug, Default)]
pub(in crate::place) struct Stood {
    rows: Vec<StoodRow>,
}

#[derive(Debug)]
struct StoodRow {
    name: String,
    ids: Vec<String>,
    /// Distance along the hem to each foot, in order.
    feet: Vec<f64>,
    standing: Vec<Standing>,
    /// Height of the line, and half the height and width a motif may have.
    height: f64,
    reach: f64,
}

/// The nearest of two rows.
struct Nearest {
    distance: f64,
    own: usize,
    other: usize,
}

impl Stood {
    /// Adds a row; tells what comes nearer to an earlier row than the gap asked for.
    pub(in crate::place) fn add(
        &mut self,
        measure: &mut Measure<'_>,
        ground: &Ground<'_>,
        tier: &Tier,
        laid: &Laid,
        band: &BandSetting,
    ) -> Vec<Finding> {
        let widest = laid.row.seats.iter().map(|seat| seat.half).fold(0.0, f64::max);
        let wave = ground.wish.rhythm.wave.unwrap_or(Mm::ZERO).get().abs();
        let own = StoodRow {
            name: band.name.clone(),
            ids: band.placements.iter().map(|placed| placed.id.clone()).collect(),
            feet: laid.row.seats.iter().map(|seat| tier.line.to_hem(Mm::new(seat.s)).get()).collect(),
            standing: laid.row.seats.iter().map(|seat| ground.standing(tier, *seat)).collect(),
            height: band.height.get(),
            reach: widest.hypot(ground.tallest.get() / 2.0) + wave,
        };
        let wanted = ground.wish.spacing.gap().map_or(0.0, |gap| gap.min(BETWEEN_ROWS).get());
        // Distances are those of the draft: two rows are spread anew alike, so that little changes between motifs above each other.
        let hung = ground.hem.as_hung().is_some();
        let found = self
            .rows
            .iter()
            .filter_map(|other| nearest(measure, &own, other, &tier.line, wanted).map(|found| (found, other)))
            .filter(|(found, _)| found.distance < wanted.max(f64::MIN_POSITIVE))
            .map(|(found, other)| finding(&found, &own, other, (wanted, hung)))
            .collect();
        self.rows.push(own);
        found
    }
}

/// The nearest two motifs of two rows that could come within `wanted` of each other.
fn nearest(
    measure: &mut Measure<'_>,
    own: &StoodRow,
    other: &StoodRow,
    line: &MotifLine,
    wanted: f64,
) -> Option<Nearest> {
    let across = own.reach + other.reach + wanted;
    if (own.height - other.height).abs() > across {
        return None;
    }
    let mut best: Option<Nearest> = None;
    let round = if line.is_closed() { line.to_hem(line.length()).get().abs() } else { 0.0 };
    // A foot on the hem lies farther apart than the motifs above it by the flare at most; twice the reach covers any hem
    // whose line is not less than half the hem.
    let hem_across = across * flare(line);
    for (k, standing) in own.standing.iter().enumerate() {
        for turn in [-1.0, 0.0, 1.0] {
            if turn != 0.0 && round <= 0.0 {
                continue;
            }
            let place = own.feet[k] + turn * round;
            let first = other.feet.partition_point(|foot| *foot < place - hem_across);
            let last = other.feet.partition_point(|foot| *foot <= place + hem_across);
            for index in first..last.max(first) {
                let there = carried(other.standing[index], turn, line);
                let Some(found) = measure.between(*standing, there) else { continue };
                if best.as_ref().is_none_or(|best| found.distance < best.distance) {
                    best = Some(Nearest { distance: found.distance, own: k, other: index });
                }
            }
        }
    }
    best
}

/// How much longer the hem is than the line, with some to spare.
fn flare(line: &MotifLine) -> f64 {
    let (least, greatest) = line.span();
    let hem = line.to_hem(greatest) - line.to_hem(least);
    (hem / line.length()).max(1.0) * 1.5
}

/// A motif seen from one that lies `turn` rounds further.
fn carried(standing: Standing, turn: f64, line: &MotifLine) -> Standing {
    let once = |place| line.once_round(place);
    let place = if turn > 0.0 {
        // The place asked about lies once round further: seen from there, the other is once round back.
        once(crate::geometry::Affine::IDENTITY).inverse() * standing.place
    } else if turn < 0.0 {
        once(standing.place)
    } else {
        standing.place
    };
    Standing { place, ..standing }
}

fn finding(found: &Nearest, own: &StoodRow, other: &StoodRow, (wanted, hung): (f64, bool)) -> Finding {
    let (a, b) = (&own.ids[found.own], &other.ids[found.other]);
    let distance = Mm::new(found.distance);
    let drafted = if hung { "as drafted, before it hung, " } else { "" };
    let how = if found.distance <= 0.0 {
        "touch or overlap".to_owned()
    } else {
        format!(
            "come within {distance} of each other, less than the {} that a slip in laying needs",
            short(Mm::new(wanted))
        )
    };
    Finding {
        severity: Severity::LookAtThis,
        kind: "rows-too-near",
        place: None,
        measure: Some(distance),
        say: format!("{} and {}: {drafted}{a} and {b} {how}.", own.name, other.name),
        advice: "Set the rows further apart, or each motif above a gap of the row below.".to_owned(),
    }
}
