//! All faults of the bands of a job, where setting out stops at the first: every band is tried on its own, without what was found
//! wrong with it before.

use std::collections::BTreeMap;

use super::clash::clear::Measure;
use super::ground::{Ground, on_hem};
use super::{BandWish, KeepOut, PlaceError};
use crate::art::Motif;
use crate::hem::Hem;
use crate::quantity::Mm;

/// Times one band is tried; more than can be wrong with it.
const MOST_TRIES: usize = 6;

/// The faults of places to keep out of, each once, then those of the bands in their order. Those that lie between bands, such as
/// counts that do not go together, are not among them. With them the bands that can be set out, without what is at fault in them.
#[must_use]
pub fn faults(hem: &Hem, motifs: &BTreeMap<String, Motif>, bands: &[BandWish]) -> (Vec<BandWish>, Vec<PlaceError>) {
    let mut sound: Vec<BandWish> = Vec::new();
    let mut found: Vec<PlaceError> = Vec::new();
    let mut places: Vec<&KeepOut> = bands.iter().flat_map(|wish| &wish.keep_out).collect();
    places.sort_by_key(|place| place.line);
    for fault in places.into_iter().filter_map(|place| on_hem(hem, place).err()) {
        if !found.contains(&fault) {
            found.push(fault);
        }
    }
    let mut measure = Measure::new(motifs.values().collect());
    for wish in bands {
        let mut wish = wish.clone();
        wish.keep_out.retain(|place| on_hem(hem, place).is_ok());
        for _ in 0..MOST_TRIES {
            let ground = Ground::new(hem, motifs, &wish, 1.0);
            let Err(fault) = ground.and_then(|ground| ground.choose(&mut measure)) else {
                sound.push(wish);
                break;
            };
            let mended = mend(&mut wish, &fault);
            found.push(fault);
            if mended.is_none() {
                break;
            }
        }
    }
    let there: Vec<String> = sound.iter().map(|wish| wish.name.clone()).collect();
    sound.retain(|wish| wish.rhythm.tie.as_ref().is_none_or(|tie| there.contains(&tie.to)));
    (sound, found)
}

/// Takes what is at fault out of the wish; `None` where nothing would be left to set out.
fn mend(wish: &mut BandWish, fault: &PlaceError) -> Option<()> {
    match fault {
        PlaceError::ShiftTooFar { .. } | PlaceError::ShiftOfOpen { .. } => wish.rhythm.shift = Mm::ZERO,
        PlaceError::NoCorners { .. } => wish.rhythm.corner = None,
        PlaceError::TooManyRows { .. } => wish.rhythm.rows.count = 1,
        _ => return None,
    }
    Some(())
}
