//! Why a band cannot be set out.

use std::fmt;

use crate::hem::HemError;
use crate::quantity::Mm;

use super::say::short;

/// Why a band cannot be set out.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PlaceError {
    /// The band's line cannot be drawn over the hem.
    Line {
        /// The band.
        band: String,
        /// Why.
        error: HemError,
    },
    /// No motif is named.
    NoMotifs {
        /// The band.
        band: String,
    },
    /// A motif that is not among those read.
    UnknownMotif {
        /// The band.
        band: String,
        /// The name as given.
        motif: String,
    },
    /// A motif of no width, or a gap or count that cannot be meant.
    NotPositive {
        /// The band.
        band: String,
        /// Which: `count`, `gap`, `width of poppy`.
        what: String,
    },
    /// Not one motif (or one round of a mixed sequence) fits with its gap.
    DoesNotFit {
        /// The band.
        band: String,
        /// Length there is, ends kept clear taken off.
        room: Mm,
        /// What must fit once: `poppy`, or `poppy, leaf`.
        motifs: String,
        /// Width of it.
        width: Mm,
        /// Gaps that go with it: one for each motif on a ring, none on a band with ends.
        gaps: Mm,
    },
    /// What is kept clear at the two ends leaves nothing of the line.
    EndsTakeAll {
        /// The band.
        band: String,
        /// Length of the line.
        line: Mm,
        /// Kept clear at each end.
        clear: Mm,
    },
    /// So many motifs are wider than the line.
    CountTooGreat {
        /// The band.
        band: String,
        /// How many were asked for.
        count: u32,
        /// Their widths in all.
        width: Mm,
        /// Length there is.
        room: Mm,
        /// Most that fit edge to edge.
        most: u32,
    },
    /// A motif that is bent for one band is used in another as well.
    BentAndShared {
        /// The band it is bent for.
        band: String,
        /// The motif.
        motif: String,
    },
    /// A motif reaches as far up as the middle of the curve it should be bent to.
    BentTooTight {
        /// The band.
        band: String,
        /// The motif.
        motif: String,
        /// Radius of the line.
        radius: Mm,
    },
    /// A row with two ends fills them and cannot be shifted.
    ShiftOfOpen {
        /// The band.
        band: String,
    },
    /// More rows than are taken.
    TooManyRows {
        /// The band.
        band: String,
        /// How many were asked for.
        rows: u32,
        /// Greatest number taken.
        most: u32,
    },
    /// More motifs than are taken.
    TooMany {
        /// The band.
        band: String,
        /// Greatest number taken.
        most: u32,
    },
}

impl PlaceError {
    /// What the maker can do.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Line { error, .. } => error.hint().to_owned(),
            Self::NoMotifs { .. } => "name at least one motif".to_owned(),
            Self::UnknownMotif { .. } => "check the spelling, or add the motif to the job".to_owned(),
            Self::NotPositive { .. } => "write a number above zero".to_owned(),
            Self::DoesNotFit { room, width, gaps, .. } => {
                let left = room.get() - gaps.get();
                if left <= 0.0 {
                    return "nothing fits beside so wide a gap: choose a smaller one".to_owned();
                }
                // Rounded down, so that what is said to fit does.
                let percent = (left / width.get() * 100.0 + 1e-9).floor();
                format!("largest that fits: {} ({percent:.0} %)", short(Mm::new((left * 10.0 + 1e-6).floor() / 10.0)))
            }
            Self::EndsTakeAll { line, .. } => {
                format!("keep less than {} clear at each end (ends_clear)", short(*line / 2.0))
            }
            Self::CountTooGreat { most, .. } => {
                format!("ask for at most {most}, or for a smallest gap instead of a count")
            }
            Self::BentAndShared { .. } => {
                "name the drawing twice, as two motifs: each band then bends its own".to_owned()
            }
            Self::BentTooTight { .. } => "make the motif smaller, or let it stand square to the hem".to_owned(),
            Self::ShiftOfOpen { .. } => "keep more or less clear at the ends instead (ends_clear)".to_owned(),
            Self::TooManyRows { .. } => "ask for fewer rows, or for further bands".to_owned(),
            Self::TooMany { .. } => "check the motif's width and the unit of the hem".to_owned(),
        }
    }
}

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Line { band, error } => write!(f, "{band}: {error}"),
            Self::NoMotifs { band } => write!(f, "{band}: no motif is named"),
            Self::UnknownMotif { band, motif } => write!(f, "{band}: there is no motif \"{motif}\""),
            Self::NotPositive { band, what } => write!(f, "{band}: the {what} must be more than nothing"),
            Self::DoesNotFit { band, room, motifs, width, gaps } => {
                write!(f, "{band}: {} cannot take one {} {motifs}", short(*room), short(*width))?;
                if *gaps > Mm::ZERO { write!(f, " plus {}", short(*gaps)) } else { Ok(()) }
            }
            Self::EndsTakeAll { band, line, clear } => {
                write!(f, "{band}: {} kept clear at each end leave nothing of the {} line", short(*clear), short(*line))
            }
            Self::CountTooGreat { band, count, width, room, .. } => write!(
                f,
                "{band}: {count} {} {} wide side by side, {} more than the line's {}",
                if *count == 1 { "motif is" } else { "motifs are" },
                short(*width),
                short(*width - *room),
                short(*room)
            ),
            Self::BentAndShared { band, motif } => {
                write!(f, "{band}: {motif} is bent to follow this line, and used in another band too")
            }
            Self::BentTooTight { band, motif, radius } => {
                write!(f, "{band}: {motif} cannot be bent to a line whose radius is {}", short(*radius))
            }
            Self::ShiftOfOpen { band } => write!(f, "{band}: a row between two ends fills them and cannot be shifted"),
            Self::TooManyRows { band, rows, most } => write!(f, "{band}: {rows} rows are more than the {most} taken"),
            Self::TooMany { band, most } => write!(f, "{band}: more than {most} motifs would fit"),
        }
    }
}

impl std::error::Error for PlaceError {}
