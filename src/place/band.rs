//! Every band from wish to setting.

use std::collections::BTreeMap;

use crate::art::Motif;
use crate::finding::Finding;
use crate::hem::{Hem, Mark};
use crate::place::along::row::Seat;
use crate::place::chalk::as_hung::Hung;
use crate::place::chalk::hung;
use crate::place::chalk::number;
use crate::place::choice::chosen::{Choice, Chosen, Laid};
use crate::place::choice::remedy;
use crate::place::choice::settle::settle;
use crate::place::clash::across;
use crate::place::clash::beside;
use crate::place::clash::clear::{Between, Measure, Standing};
use crate::place::clash::seams::Near;
use crate::place::ground::{self, Ground, Tier};
use crate::place::{
    BandSetting, BandWish, Clash, ClearGap, Evenness, Lands, PlaceError, Placement, Setting, Stance, say,
};
use crate::quantity::{Mm, Radians};

/// Sets every band out.
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
pub fn set_out(hem: &Hem, motifs: &BTreeMap<String, Motif>, bands: &[BandWish]) -> Result<Setting, PlaceError> {
    let own = [(String::new(), hem)];
    let bands = settle(&own, motifs, bands).map_err(|fault| fault.fault)?;
    let mut measure = Measure::new(motifs.values().collect());
    let mut setting = Setting { bands: Vec::new(), findings: Vec::new() };
    let mut stood = across::Stood::default();
    let grounds = bands.iter().map(|wish| Ground::new(hem, motifs, wish, 1.0));
    let mut grounds = grounds.collect::<Result<Vec<_>, _>>()?;
    ground::tell(&mut grounds);
    for ground in &grounds {
        let wish = ground.wish;
        let chosen = ground.choose(&mut measure)?;
        let hung = ground.as_hung(&chosen.choice);
        setting.findings.extend(say::own_mirror_images(ground));
        setting.findings.extend(say::made_smaller(&chosen.choice, ground));
        for (index, (tier, laid)) in ground.tiers.iter().zip(&chosen.choice.rows).enumerate() {
            let name = row_name(wish, index);
            let prefix = if setting.bands.is_empty() { String::new() } else { format!("{name}-") };
            let mut band = ground.setting(&mut measure, (&chosen, hung.as_ref()), index, &prefix, name);
            let mut found: Vec<Finding> = beside::finding(hem, motifs, &band).into_iter().collect();
            found.extend(stood.add(&mut measure, ground, tier, laid, &band));
            if hung.is_some() {
                let clear = ground.clear_gaps(&mut measure, tier, laid);
                let places: Vec<Mm> = laid.row.seats.iter().map(|seat| Mm::new(seat.s)).collect();
                let row = hung::Drafted { line: tier.line.length(), places: &places, clear: &clear };
                found.extend(hung::redistribute(hem, &row, &mut band, wish));
            }
            setting.findings.extend(say::findings(&band, ground, laid));
            setting.findings.extend(found);
            setting.bands.push(band);
        }
        let last = setting.bands.len() - chosen.choice.rows.len();
        setting.bands[last].remedies = remedy::remedies(ground, motifs, &chosen, &mut measure);
    }
    Ok(setting)
}

/// The band's name; further rows are numbered.
fn row_name(wish: &BandWish, index: usize) -> String {
    if index == 0 { wish.name.clone() } else { format!("{} row {}", wish.name, index + 1) }
}

impl Ground<'_> {
    /// The setting of one row of a choice, with its lengths as it hung where it did.
    fn setting(
        &self,
        measure: &mut Measure<'_>,
        (chosen, hung): (&Chosen, Option<&Hung<'_>>),
        index: usize,
        prefix: &str,
        name: String,
    ) -> BandSetting {
        let (tier, laid) = (&self.tiers[index], &chosen.choice.rows[index]);
        let (ground, choice) = hung.map_or((self, &chosen.choice), |hung| (&hung.ground, &hung.choice));
        let (tier_now, now) = (&ground.tiers[index], &choice.rows[index]);
        let placements = self.placements(tier, (laid, now), prefix);
        let clashes = now.near.iter().map(|near| clash(tier_now, &placements, *near)).collect();
        let count_of = |corner: bool| {
            let seats = laid.row.seats.iter().filter(|seat| !corner || seat.corner);
            u32::try_from(seats.count()).unwrap_or(u32::MAX)
        };
        BandSetting {
            name,
            height: tier.line.height(),
            line: Mm::new(tier_now.course.length()),
            count: count_of(false),
            in_corners: count_of(true),
            repeat: Mm::new(match chosen.choice.manner {
                Evenness::BetweenSeams => now.row.usual_step(),
                Evenness::Gap | Evenness::ClearGap => now.row.repeat(),
            }),
            gap_along: Mm::new(now.row.gap()),
            clear_gap: self.clear_gap(measure, tier, laid, &placements),
            on_cf: self.lands(tier, laid, Mark::CentreFront),
            on_cb: self.lands(tier, laid, Mark::CentreBack),
            placements,
            clashes,
            reasons: match index {
                0 => say::reasons(chosen, self, hung),
                _ => say::row_reasons(index, chosen, self, hung),
            },
            remedies: Vec::new(),
        }
    }

    /// The motifs of a row where they stand in the draft, with their distances as they are now.
    fn placements(&self, tier: &Tier, (laid, now): (&Laid, &Laid), prefix: &str) -> Vec<Placement> {
        let ids = number::ids(&laid.row, self.hem, prefix);
        let on_hem = self.hem.as_hung();
        let on_hem = |s: Mm| on_hem.as_ref().map_or(s, |hung| hung.at(s));
        let placement = |((seat, now), id): ((&Seat, &Seat), String)| {
            let s_line = Mm::new(seat.s);
            let frame = tier.line.frame_at(s_line);
            let raise = self.raise(*seat);
            Placement {
                id,
                motif: self.names[seat.item].clone(),
                hand: seat.hand,
                scale: seat.scale,
                s_line: Mm::new(now.s),
                s_hem: on_hem(tier.line.to_hem(s_line)),
                height: tier.line.height() + raise,
                at: frame.at + frame.up() * raise.get(),
                turn: match self.wish.stance {
                    Stance::SquareToHem | Stance::Bent => frame.turn(),
                    Stance::Upright => Radians::ZERO,
                },
            }
        };
        laid.row.seats.iter().zip(&now.row.seats).zip(ids).map(placement).collect()
    }

    /// The tightest gap between neighbours along the line.
    fn clear_gap(
        &self,
        measure: &mut Measure<'_>,
        tier: &Tier,
        laid: &Laid,
        placements: &[Placement],
    ) -> Option<ClearGap> {
        let found = self.clear_gaps(measure, tier, laid);
        let least = found.into_iter().min_by(|a, b| a.clear.distance.total_cmp(&b.clear.distance))?;
        Some(ClearGap {
            least: Mm::new(least.clear.distance),
            between: (placements[least.pair.0].id.clone(), placements[least.pair.1].id.clone()),
            at: (least.clear.from, least.clear.to),
        })
    }

    /// The gaps between all neighbours along the line.
    fn clear_gaps(&self, measure: &mut Measure<'_>, tier: &Tier, laid: &Laid) -> Vec<Between> {
        // A motif alone on a ring is its own neighbour, and keeps no gap from itself.
        let count = laid.row.seats.len();
        if count < 2 {
            return Vec::new();
        }
        let standings = self.standings(tier, &laid.row);
        let between = |(a, pair): (usize, &[Standing])| {
            let clear = measure.between(pair[0], pair[1])?;
            Some(Between { clear, pair: (a, (a + 1) % count) })
        };
        standings.windows(2).enumerate().filter_map(between).collect()
    }

    fn lands(&self, tier: &Tier, laid: &Laid, mark: Mark) -> Lands {
        let place = self.hem.place_of(mark).map(|s| tier.line.from_hem(s).get());
        place.map_or(Lands::Between, |place| laid.row.lands(place))
    }

    /// The rows of a choice, for a card that shows many.
    pub(super) fn rows_of(&self, measure: &mut Measure<'_>, choice: &Choice) -> Vec<BandSetting> {
        (0..choice.rows.len()).map(|index| self.row_of(measure, choice, index)).collect()
    }

    fn row_of(&self, measure: &mut Measure<'_>, choice: &Choice, index: usize) -> BandSetting {
        let chosen = Chosen::only(choice.clone(), choice.count);
        let hung = self.as_hung(choice);
        let mut band = self.setting(measure, (&chosen, hung.as_ref()), index, "", self.wish.name.clone());
        if hung.is_some() {
            let (tier, laid) = (&self.tiers[index], &choice.rows[index]);
            let clear = self.clear_gaps(measure, tier, laid);
            let places: Vec<Mm> = laid.row.seats.iter().map(|seat| Mm::new(seat.s)).collect();
            let drafted = hung::Drafted { line: tier.line.length(), places: &places, clear: &clear };
            band.clear_gap = hung::clear_gap(&drafted, &band);
        }
        band
    }
}

fn clash(tier: &Tier, placements: &[Placement], near: Near) -> Clash {
    let keep = &tier.keeps[near.keep];
    Clash {
        placement: placements[near.seat].id.clone(),
        with: keep.name.clone(),
        clear: Mm::new(near.clear),
        wanted: Mm::new(keep.clear),
    }
}
