//! What a wish says by itself: motifs that are there, figures that can be meant, places that lie on the hem.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::hem::Hem;
use crate::place::along::course::MOST;
use crate::place::{BandWish, Hands, KeepOut, PlaceError, Spacing};
use crate::quantity::Mm;

/// Most rows of one band; a skirt has no room for more.
const MOST_ROWS: u32 = 100;

/// A motif that a wish names.
#[derive(Clone, Copy, Debug)]
pub(super) struct Named<'m> {
    pub(super) motif: &'m Motif,
    /// Its index among all motifs.
    pub(super) index: usize,
    /// Whether it has a hand: not where it is its own mirror image. Looked at only where some are mirrored.
    pub(super) handed: bool,
}

/// The motifs a wish names, in its order and that of the corners last; each has a width that can be set out.
pub(super) fn named<'m>(motifs: &'m BTreeMap<String, Motif>, wish: &BandWish) -> Result<Vec<Named<'m>>, PlaceError> {
    let band = || wish.name.clone();
    if wish.motifs.is_empty() {
        return Err(PlaceError::NoMotifs { band: band() });
    }
    wish.motifs
        .iter()
        .chain(wish.rhythm.corner.iter().map(|corner| &corner.motif))
        .map(|name| match motifs.iter().enumerate().find(|(_, (key, _))| *key == name) {
            None => Err(PlaceError::UnknownMotif { band: band(), motif: name.clone() }),
            Some((_, (_, motif))) if motif.width <= Mm::ZERO => {
                Err(PlaceError::NotPositive { band: band(), what: format!("width of {name}") })
            }
            Some((index, (_, motif))) => {
                let handed = wish.hands == Hands::AsDrawn || !motif.is_own_mirror_image();
                Ok(Named { motif, index, handed })
            }
        })
        .collect()
}

/// A place may end past the end of the hem by this much, in millimetres: a distance written to the nearest millimetre.
const END_SLACK: Mm = Mm::new(0.5);

/// A place to keep out of lies on the hem; round a ring it may be given either way round, also across CB.
pub(in crate::place) fn on_hem(hem: &Hem, place: &KeepOut) -> Result<(), PlaceError> {
    let (from, to) = place.along;
    let (round, ring) = (hem.length(), hem.is_closed());
    let span = match (ring, to - from < round) {
        (false, _) => hem.span(),
        (true, true) => (-round, round),
        (true, false) => (from, from + round),
    };
    let leaves_some = !ring || to - from < round;
    if leaves_some && from >= span.0 - END_SLACK && to <= span.1 + END_SLACK {
        return Ok(());
    }
    let (name, line) = (place.name.clone(), place.line);
    Err(PlaceError::KeepOutOffHem { name, line, along: place.along, hem: span, ring })
}

/// What a wish says by itself.
pub(super) fn checked(wish: &BandWish) -> Result<(), PlaceError> {
    let refuse = |what: &str| Err(PlaceError::NotPositive { band: wish.name.clone(), what: what.to_owned() });
    match wish.spacing {
        Spacing::AtLeast(gap) | Spacing::Fit { gap, .. } | Spacing::Settled { gap, .. } if gap < Mm::ZERO => {
            return refuse("gap");
        }
        Spacing::Count(0) | Spacing::Even(0) | Spacing::Fit { count: 0, .. } | Spacing::Settled { count: 0, .. } => {
            return refuse("count");
        }
        Spacing::Count(count) | Spacing::Even(count) | Spacing::Fit { count, .. } | Spacing::Settled { count, .. }
            if count > MOST =>
        {
            return Err(PlaceError::TooMany { band: wish.name.clone(), most: MOST });
        }
        _ => {}
    }
    if wish.rhythm.sizes.iter().any(|size| !(*size > 0.0 && size.is_finite())) {
        return refuse("sizes");
    }
    match wish.rhythm.rows.count {
        0 => refuse("rows"),
        rows if rows > MOST_ROWS => Err(PlaceError::TooManyRows { band: wish.name.clone(), rows, most: MOST_ROWS }),
        _ => Ok(()),
    }
}
