//! What the maker can do where a band cannot be set out.

use crate::place::PlaceError;
use crate::place::ground::MOST_DEEP;
use crate::place::say::short;
use crate::quantity::Mm;

impl PlaceError {
    /// What the maker can do.
    #[must_use]
    pub fn hint(&self) -> String {
        let hint = self.hint_for_the_row();
        match self {
            Self::DoesNotFit { row: row @ 2.., .. }
            | Self::SidesTooShort { row: row @ 2.., .. }
            | Self::CountTooGreat { row: row @ 2.., .. } => {
                format!("a smaller rise leaves row {row} more room; otherwise {hint}")
            }
            _ => hint,
        }
    }

    fn hint_for_the_row(&self) -> String {
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
            Self::SidesTooShort { largest, width, .. } if *largest > Mm::ZERO => {
                let percent = (*largest / *width * 100.0 + 1e-9).floor();
                format!("largest that fits: {} ({percent:.0} %)", short(Mm::new((largest.get() * 10.0 + 1e-6).floor() / 10.0)))
            }
            Self::SidesTooShort { .. } => {
                "choose a smaller gap, or bring the motif line nearer to the edge".to_owned()
            }
            Self::RowsTooNear { clear, height, .. } => format!(
                "with a rise of {} or more they stand clear above each other; less than {} is not taken",
                short(*clear),
                short(*height / MOST_DEEP)
            ),
            Self::EndsTakeAll { line, .. } => {
                format!("keep less than {} clear at each end (ends_clear)", short(*line / 2.0))
            }
            Self::CountTooGreat { most, .. } => {
                format!("ask for at most {most}, or for a smallest gap instead of a count")
            }
            Self::GapsTakeAll { count, most, .. } => {
                let drawn = most.map(|most| format!("ask for at most {most}, which fit as they are drawn, or for"));
                let drawn = drawn.unwrap_or_else(|| "ask for fewer, or for".to_owned());
                format!("{drawn} a smaller gap between {count}")
            }
            Self::BentAndShared { .. } => {
                "name the drawing twice, as two motifs: each band then bends its own".to_owned()
            }
            Self::BentTooTight { .. } => "make the motif smaller, or let it stand square to the hem".to_owned(),
            Self::NoCorners { .. } => {
                "leave corner and corner_takes out, or name the motif among motifs; corners have [hem.rectangle], [hem.polygon] and \
                 drawn edges that turn sharply"
                    .to_owned()
            }
            Self::ShiftTooFar { most, .. } => format!(
                "write a length up to {}, positive to the wearer's left and negative to her right; half a repeat is the most that \
                 changes a row of one motif",
                short(Mm::new((most.get() * 10.0 + 1e-6).floor() / 10.0))
            ),
            Self::ShiftOfOpen { .. } => "keep more or less clear at the ends instead (ends_clear)".to_owned(),
            Self::TiedToNone { .. } => "name a band that is not tied itself (tied_to)".to_owned(),
            Self::TieDoesNotFit { to, count, round, of, near, .. } => tie_hint(to, (*count, *round, *of), near),
            Self::KeepOutOffHem { ring: true, .. } => {
                "along_from and along_to count from centre front, positive to the wearer's left and negative to her right, at \
                 most once round: measure them again"
                    .to_owned()
            }
            Self::KeepOutOffHem { hem, .. } => format!(
                "along_from and along_to count from the middle of the hem, positive to the wearer's left and negative to her \
                 right: write places from {} to {}, or leave the part beyond out",
                short(hem.0),
                short(hem.1)
            ),
            Self::TooManyRows { .. } => "ask for fewer rows, or for further bands".to_owned(),
            Self::TooMany { .. } => "check the motif's width and the unit of the hem".to_owned(),
        }
    }
}

/// What to ask for where two bands cannot be tied as asked.
fn tie_hint(to: &str, (count, round, of): (Option<u32>, u32, u32), near: &[u32]) -> String {
    let counts: Vec<String> = near.iter().map(u32::to_string).collect();
    let ask = (!counts.is_empty()).then(|| format!("ask for {} of {to}", counts.join(" or ")));
    match count {
        None => ask.unwrap_or_else(|| format!("ask for a multiple of {of} there")),
        Some(count) if !count.is_multiple_of(round) => {
            let mirror = "order = \"mirrored\" in the tied band, which closes with any count";
            ask.map_or_else(|| format!("write {mirror}"), |ask| format!("{ask}, or write {mirror}"))
        }
        Some(_) => {
            let ask = ask.unwrap_or_else(|| format!("ask for fewer of {to}"));
            format!("{ask}, or for a smaller gap or narrower motifs in the tied band")
        }
    }
}
