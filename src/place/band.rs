//! One band from wish to setting.

use std::collections::BTreeMap;

use super::choose::{self, Choice, Chosen};
use super::clear::Measure;
use super::number;
use super::row::{Course, MOST, Start};
use super::say;
use super::seams::{self, Keep};
use super::{BandSetting, BandWish, Clash, Hand, Hands, Lands, Level, PlaceError, Placement, Setting, Spacing, Stance};
use crate::art::Motif;
use crate::hem::{Ends, Hem, Mark, MotifLine};
use crate::quantity::{Mm, Radians};

/// Sets every band out.
///
/// # Errors
/// [`PlaceError`] when not one motif fits, with the largest that would.
pub fn set_out(hem: &Hem, motifs: &BTreeMap<String, Motif>, bands: &[BandWish]) -> Result<Setting, PlaceError> {
    let mut setting = Setting { bands: Vec::new(), findings: Vec::new() };
    for (index, wish) in bands.iter().enumerate() {
        let ground = Ground::new(hem, motifs, wish)?;
        let chosen = ground.choose()?;
        let prefix = if index == 0 { String::new() } else { format!("{}-", wish.name) };
        let band = ground.setting(&chosen, &prefix);
        setting.findings.extend(say::findings(&band, wish, ground.lowest(), ground.course.closed));
        setting.bands.push(band);
    }
    Ok(setting)
}

/// What one band is set out on.
pub(super) struct Ground<'a> {
    pub(super) hem: &'a Hem,
    pub(super) wish: &'a BandWish,
    motifs: Vec<&'a Motif>,
    pub(super) line: MotifLine,
    pub(super) course: Course,
    pub(super) keeps: Vec<Keep>,
}

impl<'a> Ground<'a> {
    pub(super) fn new(
        hem: &'a Hem,
        motifs: &'a BTreeMap<String, Motif>,
        wish: &'a BandWish,
    ) -> Result<Self, PlaceError> {
        let motifs = named(motifs, wish)?;
        let tallest = motifs.iter().map(|motif| motif.height).fold(Mm::ZERO, Mm::max);
        let height = match wish.level {
            Level::Middle => wish.height,
            Level::LowerEdge => wish.height + tallest / 2.0,
        };
        let line = hem.line_at(height).map_err(|error| PlaceError::Line { band: wish.name.clone(), error })?;
        let (least, greatest) = line.span();
        let ends = match hem.ends() {
            Ends::Open { keep_clear, .. } => keep_clear.get(),
            Ends::Closed | Ends::Opening { .. } => 0.0,
        };
        let course = Course {
            span: (least.get(), greatest.get()),
            closed: line.is_closed(),
            ends,
            widths: motifs.iter().map(|motif| motif.width.get()).collect(),
        };
        let keeps = seams::keeps(hem.marks(), &line);
        Ok(Self { hem, wish, motifs, line, course, keeps })
    }

    pub(super) fn choose(&self) -> Result<Chosen, PlaceError> {
        match self.wish.spacing {
            Spacing::AtLeast(gap) => {
                let most = self.most(gap)?;
                Ok(choose::best_of_counts(&self.course, &self.keeps, self.wish.on_cf, most))
            }
            Spacing::Count(count) => {
                self.check_count(count)?;
                let choice = self.of_count(count);
                Ok(Chosen { choice, most: count, passed_over: Vec::new() })
            }
        }
    }

    /// The best row of exactly so many; on an open band, the only one.
    pub(super) fn of_count(&self, count: u32) -> Choice {
        choose::best_of_starts(&self.course, &self.keeps, self.wish.on_cf, count)
            .unwrap_or_else(|| choose::arranged(&self.course, &self.keeps, count, Start::Motif))
    }

    fn most(&self, gap: Mm) -> Result<u32, PlaceError> {
        let band = self.wish.name.clone();
        if gap < Mm::ZERO {
            return Err(PlaceError::NotPositive { band, what: "gap".to_owned() });
        }
        match self.course.most(gap.get()) {
            0 => Err(self.does_not_fit(gap)),
            most if most > MOST => Err(PlaceError::TooMany { band, most: MOST }),
            most => Ok(most),
        }
    }

    fn does_not_fit(&self, gap: Mm) -> PlaceError {
        let (once, gaps) = if self.course.closed {
            (self.course.widths.as_slice(), self.course.widths.len() as f64)
        } else {
            (&self.course.widths[..1], 0.0)
        };
        PlaceError::DoesNotFit {
            band: self.wish.name.clone(),
            room: Mm::new(self.course.room()),
            motifs: self.wish.motifs[..once.len()].join(", "),
            width: Mm::new(once.iter().sum()),
            gaps: gap * gaps,
        }
    }

    fn check_count(&self, count: u32) -> Result<(), PlaceError> {
        let band = self.wish.name.clone();
        if count == 0 {
            return Err(PlaceError::NotPositive { band, what: "count".to_owned() });
        }
        if count > MOST {
            return Err(PlaceError::TooMany { band, most: MOST });
        }
        let (width, room) = (Mm::new(self.course.width_of(count)), Mm::new(self.course.room()));
        let most = self.course.most(0.0).min(MOST);
        if count > most && width > room {
            return Err(PlaceError::CountTooGreat { band, count, width, room, most });
        }
        Ok(())
    }

    /// Height of the motifs' lowest point above the hem.
    fn lowest(&self) -> Mm {
        let tallest = self.motifs.iter().map(|motif| motif.height).fold(Mm::ZERO, Mm::max);
        self.line.height() - tallest / 2.0
    }

    /// The setting of a choice.
    fn setting(&self, chosen: &Chosen, prefix: &str) -> BandSetting {
        let choice = &chosen.choice;
        let placements = self.placements(choice, prefix);
        let clashes = self.clashes(choice, &placements);
        BandSetting {
            name: self.wish.name.clone(),
            height: self.line.height(),
            line: self.line.length(),
            count: choice.count,
            repeat: Mm::new(choice.row.repeat()),
            gap_along: Mm::new(choice.row.gap),
            clear_gap: self.clear_gap(choice, &placements),
            on_cf: self.lands(choice, Mark::CentreFront),
            on_cb: self.lands(choice, Mark::CentreBack),
            placements,
            clashes,
            reasons: say::reasons(chosen, &self.keeps, self.wish, self.hem, self.line.length()),
        }
    }

    pub(super) fn clear_gap(&self, choice: &Choice, placements: &[Placement]) -> Option<super::ClearGap> {
        let placed: Vec<(usize, &Placement)> = choice.row.seats.iter().map(|seat| seat.item).zip(placements).collect();
        Measure::new(&self.motifs).tightest(&self.line, &placed)
    }

    pub(super) fn placements(&self, choice: &Choice, prefix: &str) -> Vec<Placement> {
        let ids = number::ids(&choice.row, self.hem, prefix);
        let seats = choice.row.seats.iter().zip(ids).enumerate();
        seats
            .map(|(index, (seat, id))| {
                let s_line = Mm::new(seat.s);
                let frame = self.line.frame_at(s_line);
                Placement {
                    id,
                    motif: self.wish.motifs[seat.item].clone(),
                    hand: self.hand(index, seat.s),
                    scale: 1.0,
                    s_line,
                    s_hem: self.line.to_hem(s_line),
                    height: self.line.height(),
                    at: frame.at,
                    turn: match self.wish.stance {
                        Stance::SquareToHem => frame.turn(),
                        Stance::Upright => Radians::ZERO,
                    },
                }
            })
            .collect()
    }

    fn hand(&self, index: usize, s: f64) -> Hand {
        let mirrored = match self.wish.hands {
            Hands::AsDrawn => false,
            Hands::MirroredRight => match self.hem.middle() {
                crate::hem::Middle::CentreFront => s < -super::row::ON_PLACE,
                crate::hem::Middle::CentreBack => s > super::row::ON_PLACE,
            },
            Hands::Alternating => index % 2 == 1,
        };
        if mirrored { Hand::Mirrored } else { Hand::AsDrawn }
    }

    pub(super) fn clashes(&self, choice: &Choice, placements: &[Placement]) -> Vec<Clash> {
        let clash = |near: &seams::Near| Clash {
            placement: placements[near.seat].id.clone(),
            with: self.keeps[near.keep].name.clone(),
            clear: Mm::new(near.clear),
            wanted: Mm::new(self.keeps[near.keep].clear),
        };
        choice.near.iter().map(clash).collect()
    }

    pub(super) fn lands(&self, choice: &Choice, mark: Mark) -> Lands {
        let place = self.hem.place_of(mark).map(|s| self.line.from_hem(s).get());
        place.map_or(Lands::Between, |place| choice.row.lands(place))
    }
}

/// The motifs a wish names, in its order, with sizes that can be set out.
fn named<'a>(motifs: &'a BTreeMap<String, Motif>, wish: &BandWish) -> Result<Vec<&'a Motif>, PlaceError> {
    let band = || wish.name.clone();
    if wish.motifs.is_empty() {
        return Err(PlaceError::NoMotifs { band: band() });
    }
    wish.motifs
        .iter()
        .map(|name| match motifs.get(name) {
            None => Err(PlaceError::UnknownMotif { band: band(), motif: name.clone() }),
            Some(motif) if motif.width <= Mm::ZERO => {
                Err(PlaceError::NotPositive { band: band(), what: format!("width of {name}") })
            }
            Some(motif) => Ok(motif),
        })
        .collect()
}
