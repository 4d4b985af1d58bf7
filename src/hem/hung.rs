//! A hem measured again after hanging, part by part.

use super::marks::Quarters;
use super::{Ends, HemError};
use crate::quantity::Mm;

/// A part of the hem between two places that can be found again, and its length as measured after hanging.
#[derive(Clone, Debug, PartialEq)]
pub struct HungPart {
    /// Names of its ends: `CF`, `left side`.
    pub names: (String, String),
    /// Distance along the drafted hem at its start; on a ring the first starts at CF and s goes on growing round to CF again.
    pub from: Mm,
    /// The same at its end.
    pub to: Mm,
    /// Length as measured.
    pub measured: Mm,
}

/// A line round the hem of which each part is as long as it was measured after hanging, counted from the same middle.
///
/// The line above a part changes by as much as the hem below it, since the part's turn does not.
#[derive(Clone, Debug, PartialEq)]
pub struct AsHung {
    /// Start, drafted length, and length it has grown by, of each part.
    parts: Vec<(f64, f64, f64)>,
    /// Drafted length once round, where parts are counted from the middle round to it again.
    round: Option<f64>,
}

impl AsHung {
    pub(super) fn new(parts: &[HungPart], ring: bool, on_line: impl Fn(Mm) -> Mm) -> Option<Self> {
        let each = |part: &HungPart| {
            let (from, to) = (on_line(part.from).get(), on_line(part.to).get());
            (from, to - from, (part.measured - (part.to - part.from)).get())
        };
        let parts: Vec<(f64, f64, f64)> = parts.iter().map(each).collect();
        let round = ring.then(|| parts.iter().map(|(_, length, _)| length).sum());
        (!parts.is_empty()).then_some(Self { parts, round })
    }

    /// Where a place of the drafted line lies now, from the same middle.
    #[must_use]
    pub fn at(&self, s: Mm) -> Mm {
        Mm::new(self.past_start(s.get()) - self.past_start(0.0))
    }

    /// Where a place of the line as it is now lies on the drafted line.
    #[must_use]
    pub fn drafted(&self, s: Mm) -> Mm {
        let first = self.parts[0].0;
        let place = s.get() + self.past_start(0.0);
        let before = self.round.filter(|_| place < first - SAME);
        let mut left = place - first + before.map_or(0.0, |_| self.length().get());
        let mut drafted = first + left.min(0.0);
        for (_, length, grown) in &self.parts {
            drafted += (left / (length + grown)).clamp(0.0, 1.0) * length;
            left -= length + grown;
        }
        Mm::new(drafted + left.max(0.0) - before.unwrap_or_default())
    }

    /// Length of the line now.
    #[must_use]
    pub fn length(&self) -> Mm {
        Mm::new(self.parts.iter().map(|(_, length, grown)| length + grown).sum())
    }

    /// By how much each part has become longer.
    pub fn grown(&self) -> impl Iterator<Item = Mm> + '_ {
        self.parts.iter().map(|(_, _, grown)| Mm::new(*grown))
    }

    /// On a ring, places before the first part are those that end the last.
    fn past_start(&self, s: f64) -> f64 {
        let first = self.parts[0].0;
        let before = self.round.filter(|_| s < first - SAME);
        let s = s + before.unwrap_or_default();
        // Past its ends it goes on as drafted: a plate may stand over the end of a band.
        let end = self.parts.last().map_or(first, |(from, length, _)| from + length);
        let mut place = first + (s - first).min(0.0) + (s - end).max(0.0);
        for (from, length, grown) in &self.parts {
            place += ((s - from) / length).clamp(0.0, 1.0) * (length + grown);
        }
        if before.is_some() { place - self.length().get() } else { place }
    }
}

/// Places nearer than this are one, mm.
const SAME: f64 = 1e-6;

/// Most parts taken: one for each motif of a large hem.
const MOST_PARTS: usize = 360;

/// How far a part may have changed before it must be a slip of the tape; common practice, no source.
const MOST_CHANGE: f64 = 0.15;

/// The parts of a hem of a given length. Four on a ring are its quarters, from CF to the wearer's left side, CB, her right side
/// and CF; any other number are equal parts. On an open band parts are counted from the end where s is least.
pub(super) fn parts(measured: &[Mm], ends: &Ends, quarters: Quarters, length: f64) -> Result<Vec<HungPart>, HemError> {
    if measured.is_empty() {
        return Ok(Vec::new());
    }
    if measured.len() > MOST_PARTS {
        return Err(HemError::HungParts { parts: measured.len(), most: MOST_PARTS });
    }
    let closed = !matches!(ends, Ends::Open { .. });
    let start = if closed { 0.0 } else { -length / 2.0 };
    let count = measured.len();
    let even = |k: usize| start + length * k as f64 / count as f64;
    let (places, names): (Vec<f64>, Vec<String>) = if closed && count == 4 {
        let names = ["CF", "the left side", "CB", "the right side", "CF"];
        (vec![0.0, quarters.left, length / 2.0, length + quarters.right, length], names.map(str::to_owned).to_vec())
    } else {
        let name = |k: usize| match (closed, k) {
            (true, k) if k == 0 || k == count => "CF".to_owned(),
            (false, 0) => "the right end".to_owned(),
            (false, k) if k == count => "the left end".to_owned(),
            (_, k) => format!("part {k}'s end"),
        };
        ((0..=count).map(even).collect(), (0..=count).map(name).collect())
    };
    measured.iter().enumerate().map(|(k, measured)| part(&places, &names, k, *measured)).collect()
}

fn part(places: &[f64], names: &[String], k: usize, measured: Mm) -> Result<HungPart, HemError> {
    let (from, to) = (Mm::new(places[k]), Mm::new(places[k + 1]));
    let drafted = to - from;
    if (measured / drafted - 1.0).abs() > MOST_CHANGE {
        return Err(HemError::HungFar { part: k + 1, measured, drafted });
    }
    Ok(HungPart { names: (names[k].clone(), names[k + 1].clone()), from, to, measured })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    fn as_hung(measured: &[f64], ends: &Ends) -> AsHung {
        let quarters = Quarters { left: 250.0, right: -250.0 };
        let measured: Vec<Mm> = measured.iter().copied().map(mm).collect();
        let parts = parts(&measured, ends, quarters, 1000.0).unwrap();
        AsHung::new(&parts, !matches!(ends, Ends::Open { .. }), |s| s).unwrap()
    }

    fn near(a: Mm, b: f64) -> bool {
        (a.get() - b).abs() < 1e-9
    }

    /// Worked by hand: the first quarter of 1000 hung 10 down, so that its seam lies at 260, CB at 510 one way and 500 the
    /// other, and the way round is 1010.
    #[test]
    fn a_ring_is_counted_both_ways_in_what_was_measured() {
        let hung = as_hung(&[260.0, 250.0, 250.0, 250.0], &Ends::Closed);
        assert!(near(hung.at(mm(0.0)), 0.0) && near(hung.at(mm(250.0)), 260.0) && near(hung.at(mm(125.0)), 130.0));
        assert!(near(hung.at(mm(500.0)), 510.0) && near(hung.at(mm(-500.0)), -500.0));
        assert!(near(hung.at(mm(-250.0)), -250.0) && near(hung.length(), 1010.0));
    }

    #[test]
    fn what_is_measured_leads_back_to_the_draft() {
        let ends = Ends::Open { keep_clear: Mm::ZERO, middle: super::super::Middle::CentreFront };
        for hung in [
            as_hung(&[260.0, 250.0, 240.0, 255.0], &Ends::Closed),
            as_hung(&[510.0, 490.0], &ends),
            as_hung(&[330.0, 340.0, 320.0], &ends),
        ] {
            for k in -10..=10 {
                let s = mm(f64::from(k) * 50.0 - 0.3);
                assert!(near(hung.drafted(hung.at(s)), s.get()), "{s}: {} {}", hung.at(s), hung.drafted(hung.at(s)));
            }
        }
        // 10 past the left end of a band that hung down by 10 on its right.
        let band = as_hung(&[510.0, 490.0], &ends);
        assert!(near(band.at(mm(510.0)), 500.0) && near(band.drafted(mm(500.0)), 510.0));
    }

    /// Worked by hand: of two halves of 500 one hung to 510, the other drew up to 490; the middle stays the middle.
    #[test]
    fn a_band_is_counted_from_its_own_middle() {
        let ends = Ends::Open { keep_clear: Mm::ZERO, middle: super::super::Middle::CentreFront };
        let hung = as_hung(&[510.0, 490.0], &ends);
        assert!(near(hung.at(mm(0.0)), 0.0) && near(hung.at(mm(-500.0)), -510.0) && near(hung.at(mm(500.0)), 490.0));
        assert!(near(hung.length(), 1000.0));
    }
}
