//! One band in several sizes of the garment, side by side.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::hem::{Hem, Mark};
use crate::place::band::set_out;
use crate::place::{BandSetting, BandWish, Lands, PlaceError};
use crate::quantity::Mm;

/// What sizes have in common.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SizePolicy {
    /// The same count: the largest that every size takes with the gap asked for. Gaps differ; all sizes look alike.
    #[default]
    SameCount,
    /// The same smallest gap: each size takes what it can. Counts differ.
    SameGap,
}

/// The sizes side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct SizesCard {
    /// In the order given.
    pub rows: Vec<SizeRow>,
}

/// One size.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeRow {
    /// `M`, `780`.
    pub name: String,
    /// Its first row set out.
    pub band: BandSetting,
    /// Where it departs from the first size, in plain sentences.
    pub warnings: Vec<String>,
}

/// A size in which a band cannot be had.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeFault {
    /// Which size.
    pub size: String,
    /// Why.
    pub fault: PlaceError,
}

/// Sets one band out in every size by the wish there; [`crate::place::settle()`] has given it the count that all share, where they do.
///
/// # Errors
/// [`SizeFault`] of the first size in which the band cannot be had.
pub fn sizes(sizes: &[(&str, &Hem, &BandWish)], motifs: &BTreeMap<String, Motif>) -> Result<SizesCard, SizeFault> {
    let one = |(size, hem, wish): &(&str, &Hem, &BandWish)| {
        first_band(hem, motifs, wish).map_err(|fault| SizeFault { size: (*size).to_owned(), fault })
    };
    let bands = sizes.iter().map(one).collect::<Result<Vec<_>, _>>()?;
    let lands: Vec<Option<Vec<(&str, Lands)>>> =
        sizes.iter().zip(&bands).map(|((_, hem, _), band)| landings(hem, band)).collect();
    let rows = sizes.iter().zip(bands).enumerate().map(|(k, ((name, ..), band))| SizeRow {
        name: (*name).to_owned(),
        warnings: warnings(lands[0].as_deref(), lands[k].as_deref(), band.count),
        band,
    });
    Ok(SizesCard { rows: rows.collect() })
}

fn first_band(hem: &Hem, motifs: &BTreeMap<String, Motif>, wish: &BandWish) -> Result<BandSetting, PlaceError> {
    let setting = set_out(hem, motifs, std::slice::from_ref(wish))?;
    setting.bands.into_iter().next().ok_or_else(|| PlaceError::NoMotifs { band: wish.name.clone() })
}

/// What lies on the named places of a size.
fn landings<'n>(hem: &Hem, band: &BandSetting) -> Option<Vec<(&'n str, Lands)>> {
    let line = hem.line_at(band.height).ok()?;
    let places = [("CF", Mark::CentreFront), ("CB", Mark::CentreBack), ("the side seams", Mark::SideLeft)];
    let there = places.into_iter().filter_map(|(name, mark)| {
        let place = line.from_hem(hem.place_of(mark)?);
        Some((name, on(band, place, hem.is_closed())))
    });
    Some(there.collect())
}

/// What lies on a place of a row whose motifs are spread evenly there.
fn on(band: &BandSetting, place: Mm, closed: bool) -> Lands {
    let apart = |s: Mm| {
        let apart = (s - place).get();
        if closed { apart - band.line.get() * (apart / band.line.get()).round() } else { apart }
    };
    let mut distances: Vec<f64> = band.placements.iter().map(|placed| apart(placed.s_line)).collect();
    distances.sort_by(|a, b| a.abs().total_cmp(&b.abs()));
    match distances.as_slice() {
        [nearest, ..] if nearest.abs() < crate::place::along::row::ON_PLACE => Lands::Motif,
        [nearest, second, ..] if (nearest + second).abs() < 2.0 * crate::place::along::row::ON_PLACE => Lands::Gap,
        _ => Lands::Between,
    }
}

fn warnings(first: Option<&[(&str, Lands)]>, this: Option<&[(&str, Lands)]>, count: u32) -> Vec<String> {
    let (Some(first), Some(this)) = (first, this) else { return Vec::new() };
    let changed = first.iter().zip(this).filter(|((_, before), (_, now))| before != now);
    changed
        .map(|((name, before), (_, now))| match (before, now) {
            (Lands::Gap, _) => format!("{count} moves {name} out of the gaps"),
            (Lands::Motif, _) => format!("{count} leaves {name} without a motif"),
            (Lands::Between, Lands::Motif) => format!("{count} puts a motif on {name}"),
            (Lands::Between, _) => format!("{count} puts a gap on {name}"),
        })
        .collect()
}
