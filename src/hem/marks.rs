//! Named places on a hem.

use super::edge::Edge;
use super::reach::Joint;
use super::{Ends, HemError, HemMark, HemWish, Mark, Middle, PanelPart};
use crate::quantity::Mm;

/// A place may lie past the end of the hem by this much, in millimetres, and is then taken for the end: a distance
/// written to the nearest millimetre.
const END_SLACK: f64 = 0.5;

/// Equal panels round the hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Panels {
    pub(super) count: u32,
    pub(super) on_middle: PanelPart,
    pub(super) keep_clear: Option<Mm>,
}

/// Where the side quarters lie on the hem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Quarters {
    /// On the side of growing s.
    pub(super) left: f64,
    /// On the other side.
    pub(super) right: f64,
}

/// The corners of an edge, numbered from CF toward growing s.
pub(super) fn corners(edge: &Edge, joints: &[Joint]) -> Vec<HemMark> {
    let starts = edge.pieces().iter().map(|piece| piece.ends().0.s);
    let mut places: Vec<f64> = starts.zip(joints).filter(|(_, joint)| joint.is_corner()).map(|(s, _)| s).collect();
    let after_cf = places.partition_point(|s| *s < 0.0);
    places.rotate_left(after_cf);
    let corner = |(number, s)| HemMark { name: format!("corner {number}"), s_hem: Mm::new(s), keep_clear: None };
    (1_u32..).zip(places).map(corner).collect()
}

/// Where a mark lies; `None` where the hem does not have it.
pub(super) fn place_of(mark: Mark, ends: &Ends, quarters: Quarters, length: f64) -> Option<f64> {
    let cape = matches!(ends, Ends::Open { middle: Middle::CentreBack, .. });
    let closed = !matches!(ends, Ends::Open { .. });
    match mark {
        Mark::CentreFront => (!cape).then_some(0.0),
        Mark::CentreBack if closed => Some(length / 2.0),
        Mark::CentreBack => cape.then_some(0.0),
        // Seen from behind, the wearer's left lies to the left.
        Mark::SideLeft => Some(if cape { quarters.right } else { quarters.left }),
        Mark::SideRight => Some(if cape { quarters.left } else { quarters.right }),
        Mark::At(s) => {
            let half = length / 2.0;
            (s.get().abs() <= half + END_SLACK).then(|| s.get().clamp(-half, half))
        }
    }
}

/// All marks of a hem in order of s.
pub(super) fn marks(
    wish: &HemWish,
    quarters: Quarters,
    panels: Option<&Panels>,
    length: f64,
) -> Result<Vec<HemMark>, HemError> {
    let farthest = Mm::new(length / 2.0);
    let place = |name: &str, seam, mark| {
        place_of(mark, &wish.ends, quarters, length).map(Mm::new).ok_or_else(|| HemError::MarkOffHem {
            name: name.to_owned(),
            seam,
            godet: None,
            farthest,
        })
    };
    let mut marks = centres(&wish.ends, length);
    for (number, seam) in wish.seams.iter().enumerate() {
        let keep_clear = Some(not_negative(seam.keep_clear)?);
        marks.push(HemMark { name: seam.name.clone(), s_hem: place(&seam.name, Some(number), seam.at)?, keep_clear });
    }
    if let Some(panels) = panels {
        marks.extend(panel_seams(panels, &wish.ends, length));
    }
    match wish.ends {
        Ends::Closed => {}
        Ends::Opening { at, underlap, keep_clear } => {
            if not_negative(underlap)?.get() >= length {
                return Err(HemError::Underlap { underlap, hem: Mm::new(length) });
            }
            let keep_clear = Some(not_negative(keep_clear)?);
            marks.push(HemMark { name: OPENING.to_owned(), s_hem: place(OPENING, None, at)?, keep_clear });
        }
        Ends::Open { keep_clear, .. } => {
            let keep_clear = Some(not_negative(keep_clear)?);
            for (name, s_hem) in [("right end", -farthest), ("left end", farthest)] {
                marks.push(HemMark { name: name.to_owned(), s_hem, keep_clear });
            }
        }
    }
    marks.sort_by(|a, b| a.s_hem.total_cmp(&b.s_hem));
    Ok(marks)
}

/// Name of the place where a ring opens.
pub(crate) const OPENING: &str = "opening";

fn centres(ends: &Ends, length: f64) -> Vec<HemMark> {
    let named = |name: &str, s| HemMark { name: name.to_owned(), s_hem: Mm::new(s), keep_clear: None };
    match ends {
        Ends::Closed | Ends::Opening { .. } => vec![named("CF", 0.0), named("CB", length / 2.0)],
        Ends::Open { middle: Middle::CentreFront, .. } => vec![named("CF", 0.0)],
        Ends::Open { middle: Middle::CentreBack, .. } => vec![named("CB", 0.0)],
    }
}

/// Seams between panels, numbered along the hem: round a ring from the middle toward growing s, on an open band from end
/// to end, where whole panels lie side by side whatever falls on the middle.
pub(super) fn panel_seams(panels: &Panels, ends: &Ends, length: f64) -> Vec<HemMark> {
    let width = length / f64::from(panels.count);
    let half = length / 2.0;
    let seam = |(number, s): (u32, f64)| HemMark {
        name: format!("panel seam {number}"),
        s_hem: Mm::new(s),
        keep_clear: panels.keep_clear,
    };
    if matches!(ends, Ends::Open { .. }) {
        return (1..panels.count).map(|k| (k, width * f64::from(k) - half)).map(seam).collect();
    }
    let first = match panels.on_middle {
        PanelPart::Middle => width / 2.0,
        PanelPart::Seam => 0.0,
    };
    (0..panels.count)
        .map(|k| (k + 1, first + width * f64::from(k)))
        .map(|(k, s)| (k, if s > half + END_SLACK { s - length } else { s }))
        .map(seam)
        .collect()
}

fn not_negative(value: Mm) -> Result<Mm, HemError> {
    if value >= Mm::ZERO { Ok(value) } else { Err(HemError::Negative { what: "distance to keep clear", value }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seams(count: u32, on_middle: PanelPart, ends: &Ends) -> Vec<f64> {
        let panels = Panels { count, on_middle, keep_clear: None };
        panel_seams(&panels, ends, 700.0 * f64::from(count)).iter().map(|mark| mark.s_hem.get()).collect()
    }

    #[test]
    fn panels_have_their_seams_round_a_ring_and_between_the_ends_of_a_band() {
        let round = seams(6, PanelPart::Middle, &Ends::Closed);
        assert_eq!(round, [350.0, 1050.0, 1750.0, -1750.0, -1050.0, -350.0]);
        assert!(seams(5, PanelPart::Middle, &Ends::Closed).contains(&1750.0), "a seam on CB");
        assert_eq!(seams(4, PanelPart::Seam, &Ends::Closed), [0.0, 700.0, 1400.0, -700.0]);
        let open = Ends::Open { keep_clear: Mm::ZERO, middle: Middle::CentreFront };
        assert_eq!(seams(2, PanelPart::Middle, &open), [0.0]);
        assert_eq!(seams(3, PanelPart::Seam, &open), [-350.0, 350.0]);
    }
}
