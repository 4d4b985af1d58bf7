//! Bands whose count follows that of another.

use super::keys::BandKeys;
use crate::job::check::Check;
use crate::job::fault::FaultKind;
use crate::job::given::Section;
use crate::place::{BandWish, Spacing};
use crate::quantity::Mm;

/// Each tied band must lead to another that is not tied itself, whatever else is wrong with either.
pub(super) fn check(check: &mut Check, bands: &[Section<BandKeys>], names: &[Option<String>]) {
    for (index, band) in bands.iter().enumerate() {
        let Some(given) = &band.keys.tied_to else { continue };
        let Ok(to) = given.value.clone() else { continue };
        let own = names[index].as_ref();
        let leads = names
            .iter()
            .zip(bands)
            .enumerate()
            .find(|(other, (name, _))| *other != index && **name == Some(to.clone()));
        match leads {
            _ if own == Some(&to) => check.fault(&given.at, FaultKind::TiedToItself),
            Some((_, (_, other))) if other.keys.tied_to.is_some() => {
                check.fault(&given.at, FaultKind::TiedInTurn { to });
            }
            Some(_) => {}
            // The band that is meant may be one whose name cannot be read, which is told there.
            None if names.contains(&None) => {}
            None => {
                let known = names.iter().flatten().filter(|name| Some(*name) != own).cloned().collect();
                check.fault(&given.at, FaultKind::NoSuch { what: "band", name: to, known });
            }
        }
    }
}

/// A tied band without a gap of its own takes that of the band it follows.
pub(super) fn take_gaps(
    check: &mut Check,
    bands: &[Section<BandKeys>],
    names: &[Option<String>],
    wishes: &mut [BandWish],
) {
    let gaps: Vec<(String, Option<Mm>)> = wishes.iter().map(|wish| (wish.name.clone(), wish.spacing.gap())).collect();
    for wish in wishes {
        let Some(to) = wish.rhythm.tie.as_ref().map(|tie| tie.to.clone()) else { continue };
        let own = names.iter().zip(bands).find(|(name, _)| name.as_ref() == Some(&wish.name));
        if own.is_none_or(|(_, band)| band.keys.gap.is_some()) {
            continue;
        }
        let Some((_, gap)) = gaps.iter().find(|(name, _)| *name == to) else { continue };
        let gap = gap.unwrap_or(Mm::ZERO);
        let taken = if gap > Mm::ZERO { format!("{gap}, as of {to}") } else { "none that is asked for".to_owned() };
        check.assume("least gap of a tied band", taken, format!("{}: gap", wish.name));
        wish.spacing = Spacing::AtLeast(gap);
    }
}
