//! All faults of a wish for a hem, where shaping it stops at the first: each is mended in a copy of the wish, as far as that can be
//! done without a guess at what was meant, and the copy shaped again.

use std::collections::BTreeMap;

use kurbo::BezPath;

use super::{Ends, Godet, Hem, HemError, HemWish, Mark, Measurements, shape_drawn};
use crate::quantity::Mm;

/// Most that are told at once; a list with more slips than this was measured on another hem.
const MOST: usize = 20;

/// The faults of a hem, in the order in which they are met, and the hem as it is without them, on which bands and trims can be tried
/// nevertheless; none where it cannot be told what it would be.
#[must_use]
pub fn faults(wish: &HemWish, lines: &BTreeMap<String, BezPath>) -> (Option<Hem>, Vec<HemError>) {
    let (mut wish, mut found) = (wish.clone(), Vec::new());
    // Numbers of the godets that are left.
    let mut left: Vec<usize> = (0..godets(&mut wish).map_or(0, |godets| godets.len())).collect();
    let all = left.len();
    while found.len() < MOST {
        match shape_drawn(&wish, lines) {
            // Without a godet that is at fault it is another hem.
            Ok(hem) => return ((left.len() == all).then_some(hem), found),
            Err(mut fault) => {
                let mended = match of_godet(&mut fault) {
                    Some(number) if *number < left.len() => {
                        godets(&mut wish).map(|godets| godets.remove(*number));
                        *number = left.remove(*number);
                        Some(())
                    }
                    Some(_) => None,
                    None => mend(&mut wish, &fault),
                };
                found.push(fault);
                if mended.is_none() {
                    break;
                }
            }
        }
    }
    (None, found)
}

fn godets(wish: &mut HemWish) -> Option<&mut Vec<Godet>> {
    if let Measurements::Godets { godets, .. } = &mut wish.measurements { Some(godets) } else { None }
}

/// The number of the godet that is at fault, where it is one.
fn of_godet(fault: &mut HemError) -> Option<&mut usize> {
    match fault {
        HemError::MarkOffHem { godet, .. } => godet.as_mut(),
        HemError::GodetWide { godet, .. } | HemError::GodetsMeet { godet, .. } | HemError::NoPanelSeams { godet } => {
            Some(godet)
        }
        _ => None,
    }
}

/// Takes what is at fault out of the wish, without a change to the hem itself; `None` where that cannot be done.
fn mend(wish: &mut HemWish, fault: &HemError) -> Option<()> {
    match fault {
        // Stays in the list, so that further ones keep their numbers.
        HemError::MarkOffHem { seam: Some(seam), .. } => wish.seams.get_mut(*seam)?.at = Mark::At(Mm::ZERO),
        HemError::MarkOffHem { name, .. } if name == super::OPENING => wish.ends = Ends::Closed,
        HemError::Underlap { .. } => match &mut wish.ends {
            Ends::Opening { underlap, .. } => *underlap = Mm::ZERO,
            Ends::Closed | Ends::Open { .. } => return None,
        },
        HemError::HungParts { .. } => wish.hung.clear(),
        HemError::HungFar { part, drafted, .. } => *wish.hung.get_mut(part.checked_sub(1)?)? = *drafted,
        _ => return None,
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hem::{GodetPlace, Seam};
    use crate::quantity::mm;

    /// A straight band of 1 m closed to a ring, its quarters 250 mm: two seams off it, an underlap longer than it, and two quarters
    /// that differ by more than 15 %. All five are told, and the hem is what it was.
    #[test]
    fn one_fault_does_not_hide_another() {
        let seam = |at: f64| Seam { name: format!("seam {at}"), at: Mark::At(mm(at)), keep_clear: mm(1.0) };
        let wish = HemWish {
            ends: Ends::Opening { at: Mark::CentreBack, underlap: mm(1500.0), keep_clear: Mm::ZERO },
            seams: [600.0, 100.0, -700.0].map(seam).to_vec(),
            hung: [250.0, 300.0, 251.0, 200.0].map(mm).to_vec(),
            ..HemWish::ring(Measurements::Straight { length: mm(1000.0) })
        };
        let (hem, found) = faults(&wish, &BTreeMap::new());
        assert_eq!(hem.unwrap().length(), mm(1000.0));
        let seams: Vec<usize> = found
            .iter()
            .filter_map(|fault| match fault {
                HemError::MarkOffHem { seam, .. } => *seam,
                _ => None,
            })
            .collect();
        let parts: Vec<usize> = found
            .iter()
            .filter_map(|fault| match fault {
                HemError::HungFar { part, .. } => Some(*part),
                _ => None,
            })
            .collect();
        assert_eq!((seams, parts, found.len()), (vec![0, 2], vec![2, 4], 5), "{found:?}");
    }

    /// Of four godets in a ring of 4 m the second lies 9 m off, and the fourth at the place of the third: both are told by their
    /// numbers, and no hem is made without them.
    #[test]
    fn every_godet_at_fault_is_told() {
        let godet = |at: f64| Godet {
            at: GodetPlace::Mark(Mark::At(mm(at))),
            width: mm(200.0),
            height: mm(300.0),
            keep_clear: Mm::ZERO,
        };
        let wish = HemWish::ring(Measurements::Godets {
            hem: Box::new(Measurements::Straight { length: mm(4000.0) }),
            godets: [0.0, 9000.0, 500.0, 500.0].map(godet).to_vec(),
        });
        let (hem, found) = faults(&wish, &BTreeMap::new());
        assert!(hem.is_none());
        let told =
            matches!(found[..], [HemError::MarkOffHem { godet: Some(1), .. }, HemError::GodetsMeet { godet: 3, .. }]);
        assert!(told, "{found:?}");
    }

    #[test]
    fn what_cannot_be_mended_ends_the_search() {
        let (hem, found) = faults(&HemWish::ring(Measurements::Polygon { sides: 2, side: mm(1.0) }), &BTreeMap::new());
        assert!(hem.is_none() && matches!(found[..], [HemError::Sides { sides: 2, .. }]), "{found:?}");
    }
}
