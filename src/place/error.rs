//! Why a band cannot be set out.

mod hint;

use std::fmt;

use crate::hem::HemError;
use crate::quantity::Mm;

use crate::place::say::short;

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
        /// The number of the row that has least room, 1 where the first has.
        row: u8,
    },
    /// Not one motif fits along the longest side of a cloth with corners.
    SidesTooShort {
        /// The band.
        band: String,
        /// Length of that side along the motif line.
        side: Mm,
        /// The motif that takes up most.
        motif: String,
        /// Its width.
        width: Mm,
        /// What the two corners take up, gaps among it.
        corners: Mm,
        /// Width up to which it would fit, nothing where none would.
        largest: Mm,
        /// The number of the row that has least room, 1 where the first has.
        row: u8,
    },
    /// Rows so near each other that many motifs lie over each other everywhere.
    RowsTooNear {
        /// The band.
        band: String,
        /// From each row to the next.
        rise: Mm,
        /// Height of the tallest motif.
        height: Mm,
        /// The least rise with which motifs stand clear above each other.
        clear: Mm,
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
        /// The number of the row that has no room for so many, 1 where the first has none.
        row: u8,
    },
    /// So many motifs with that gap between them leave nothing for the motifs themselves, however small.
    GapsTakeAll {
        /// The band.
        band: String,
        /// How many were asked for.
        count: u32,
        /// With so much between them.
        gap: Mm,
        /// Length there is.
        room: Mm,
        /// Whether places to keep out of, or an opening, take some of it.
        beside: bool,
        /// Most that leave that gap as they are drawn, where one does.
        most: Option<u32>,
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
    /// A motif for the corners of a hem that has none.
    NoCorners {
        /// The band.
        band: String,
        /// The motif.
        motif: String,
    },
    /// A row with two ends fills them and cannot be shifted.
    ShiftOfOpen {
        /// The band.
        band: String,
    },
    /// A shift by more than half the line, beyond which a motif is nearer the other way round.
    ShiftTooFar {
        /// The band.
        band: String,
        /// As asked for.
        shift: Mm,
        /// Half the motif line.
        most: Mm,
    },
    /// A band tied to one that is not there, or is tied itself.
    TiedToNone {
        /// The band.
        band: String,
        /// What it is tied to.
        to: String,
    },
    /// Two bands tied to each other have no counts that suit both.
    TieDoesNotFit {
        /// The band that is tied.
        band: String,
        /// The one it is tied to.
        to: String,
        /// The other's count.
        lead: u32,
        /// Its own for that; `None` where it would be no whole number.
        count: Option<u32>,
        /// Motifs in one round of its sequence, of which it must have whole ones; 1 for a single motif.
        round: u32,
        /// What it would have on its own.
        most: u32,
        /// The other's count must be a multiple of this.
        of: u32,
        /// The other's nearest counts that would do, from below and from above.
        near: Vec<u32>,
    },
    /// A place to keep out of that does not lie on the hem.
    KeepOutOffHem {
        /// What it is called.
        name: String,
        /// Line of the job file.
        line: Option<usize>,
        /// From where to where it runs along the hem.
        along: (Mm, Mm),
        /// From where to where places may run: the ends of the hem, or once round either way.
        hem: (Mm, Mm),
        /// Whether the hem is a ring.
        ring: bool,
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

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Line { band, error } => write!(f, "{band}: {error}"),
            Self::NoMotifs { band } => write!(f, "{band}: no motif is named"),
            Self::UnknownMotif { band, motif } => write!(f, "{band}: there is no motif \"{motif}\""),
            Self::NotPositive { band, what } => write!(f, "{band}: the {what} must be more than nothing"),
            Self::DoesNotFit { band, room, motifs, width, gaps, row } => {
                let band = of_row(band, *row);
                write!(f, "{band}: {} cannot take one {} {motifs}", short(*room), short(*width))?;
                if *gaps > Mm::ZERO { write!(f, " plus {}", short(*gaps)) } else { Ok(()) }
            }
            Self::SidesTooShort { band, side, motif, width, corners, row, .. } => write!(
                f,
                "{}: the longest side of {} along the motif line cannot take one {} {motif} beside its corners, which need {}",
                of_row(band, *row),
                short(*side),
                short(*width),
                short(*corners)
            ),
            Self::RowsTooNear { band, rise, height, .. } => write!(
                f,
                "{band}: rows {} apart lay {:.0} motifs {} high over each other",
                short(*rise),
                (*height / *rise).min(1e6).ceil(),
                short(*height)
            ),
            Self::EndsTakeAll { band, line, clear } => {
                write!(f, "{band}: {} kept clear at each end leave nothing of the {} line", short(*clear), short(*line))
            }
            Self::CountTooGreat { band, count, width, room, row, .. } => write!(
                f,
                "{}: {count} {} {} wide side by side, {} more than the line's {}",
                of_row(band, *row),
                if *count == 1 { "motif is" } else { "motifs are" },
                short(*width),
                short(*width - *room),
                short(*room)
            ),
            Self::GapsTakeAll { band, count, gap, room, beside, .. } => {
                let of = if *beside { ", of which some must stay clear," } else { "" };
                let (gap, room) = (short(*gap), short(*room));
                write!(
                    f,
                    "{band}: {count} motifs with {gap} between them leave nothing of the line's {room}{of} for the motifs"
                )
            }
            Self::BentAndShared { band, motif } => {
                write!(f, "{band}: {motif} is bent to follow this line, and used in another band too")
            }
            Self::BentTooTight { band, motif, radius } => {
                write!(f, "{band}: {motif} cannot be bent to a line whose radius is {}", short(*radius))
            }
            Self::NoCorners { band, motif } => {
                write!(f, "{band}: {motif} is asked for in the corners, and this hem has no corners")
            }
            Self::ShiftTooFar { band, shift, most } => write!(
                f,
                "{band}: a shift of {} is more than half the motif line, which is {}",
                short(*shift),
                short(*most)
            ),
            Self::ShiftOfOpen { band } => write!(f, "{band}: a row between two ends fills them and cannot be shifted"),
            Self::TiedToNone { band, to } => write!(f, "{band}: there is no band \"{to}\" that it could be tied to"),
            Self::TieDoesNotFit { band, to, lead, count: None, .. } => {
                write!(f, "{band}: for the {lead} of {to} it would need a part of a motif")
            }
            Self::TieDoesNotFit { band, to, lead, count: Some(count), round, .. } if !count.is_multiple_of(*round) => {
                write!(
                    f,
                    "{band}: the {lead} of {to} ask for {count} here, and {count} are no whole rounds of the {round} motifs in its \
                     sequence, which would break where the ring closes"
                )
            }
            Self::TieDoesNotFit { band, to, lead, count: Some(count), most, .. } if count > most => {
                write!(f, "{band}: the {lead} of {to} ask for {count} here, and no more than {most} fit")
            }
            Self::TieDoesNotFit { band, to, lead, count: Some(count), .. } => {
                write!(f, "{band}: the {lead} of {to} ask for {count} here, which do not fit with the gap asked for")
            }
            Self::KeepOutOffHem { name, line, along, hem, ring: true } if along.1 - along.0 >= hem.1 - hem.0 => {
                let line = line.map(|line| format!(" (line {line} of the job file)")).unwrap_or_default();
                let (long, round) = (along.1 - along.0, hem.1 - hem.0);
                write!(f, "{name}{line} is {} long and leaves nothing of the hem's {}", short(long), short(round))
            }
            Self::KeepOutOffHem { name, line, along, hem, .. } => {
                let line = line.map(|line| format!(" (line {line} of the job file)")).unwrap_or_default();
                let by = (hem.0 - along.0).max(along.1 - hem.1);
                write!(
                    f,
                    "{name}{line} runs from {} to {} along the hem, which runs from {} to {}: {} outside it",
                    short(along.0),
                    short(along.1),
                    short(hem.0),
                    short(hem.1),
                    short(by)
                )
            }
            Self::TooManyRows { band, rows, most } => write!(f, "{band}: {rows} rows are more than the {most} taken"),
            Self::TooMany { band, most } => write!(f, "{band}: more than {most} motifs would fit"),
        }
    }
}

/// The band, or a further row of it: `flowers row 2`.
fn of_row(band: &str, row: u8) -> String {
    if row > 1 { format!("{band} row {row}") } else { band.to_owned() }
}

impl std::error::Error for PlaceError {}
