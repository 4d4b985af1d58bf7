//! `[motif.NAME.limits]`: what a drawing may have, where the maker knows her cloth, film and hands better than the tables.
//!
//! Keys are those of the table of limits with dashes as underscores; zero switches a finding off. What is not given stays the
//! table's for the way of working and the class of film.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::given::{Degrees, Given, Section};
use crate::quantity::Mm;

/// `[motif.NAME.limits]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [motif.NAME.limits]")]
pub(crate) struct LimitKeys {
    /// Narrowest part of a piece.
    neck: Option<Given<Mm>>,
    /// Narrowest gap between shapes.
    sliver: Option<Given<Mm>>,
    /// Least size of a piece, each way.
    island: Option<Given<Mm>>,
    /// Sharpest point: "25 deg".
    needle: Option<Given<Degrees>>,
    /// Radius to which sharper points are best rounded.
    needle_radius: Option<Given<Mm>>,
    /// Tightest inside curve of turned edges.
    inside_radius: Option<Given<Mm>>,
    /// Least by which one colour should lie over the next.
    overlap: Option<Given<Mm>>,
    /// Colours nearer to each other than this were probably meant to be one (CIE 1976 difference).
    colour: Option<Given<f64>>,
    /// Widest opening of an outline that is closed without asking.
    opening: Option<Given<Mm>>,
    /// Outlines nearer than this all round are one drawn twice.
    doubled: Option<Given<Mm>>,
    /// Farthest an outline may move when it is simplified.
    simplified: Option<Given<Mm>>,
    /// Points above which an outline may have too many.
    points: Option<Given<u32>>,
    /// Left and right halves that differ by less are the same.
    uneven_from: Option<Given<Mm>>,
    /// Halves that differ by more were meant to differ.
    uneven_to: Option<Given<Mm>>,
    /// A narrower motif was probably drawn in another unit.
    smallest_width: Option<Given<Mm>>,
    /// A wider motif was probably drawn in another unit.
    largest_width: Option<Given<Mm>>,
}

/// What the job changes: keys of the table of limits, values in its units.
pub(crate) fn check(check: &mut Check, section: Option<&Section<LimitKeys>>) -> Vec<(&'static str, f64)> {
    let Some(section) = section else { return Vec::new() };
    let keys = &section.keys;
    let mut changed = Vec::new();
    for (key, given) in [
        ("neck", &keys.neck),
        ("sliver", &keys.sliver),
        ("island", &keys.island),
        ("needle-radius", &keys.needle_radius),
        ("inside-radius", &keys.inside_radius),
        ("overlap", &keys.overlap),
        ("opening", &keys.opening),
        ("doubled", &keys.doubled),
        ("simplified", &keys.simplified),
        ("uneven-from", &keys.uneven_from),
        ("uneven-to", &keys.uneven_to),
        ("smallest-width", &keys.smallest_width),
        ("largest-width", &keys.largest_width),
    ] {
        changed.extend(check.not_below_zero(key, given.as_ref()).map(|length| (key, length.get())));
    }
    changed.extend(check.take(keys.needle.as_ref()).map(|Degrees(degrees)| ("needle", degrees)));
    changed.extend(check.take(keys.colour.as_ref()).map(|difference| ("colour", difference)));
    changed.extend(check.take(keys.points.as_ref()).map(|count| ("points", f64::from(count))));
    changed
}

#[cfg(test)]
mod tests {
    use crate::art::{Limits, Working};
    use crate::job::read;

    #[test]
    fn every_key_changes_a_limit_of_the_table() {
        let lengths = [
            "neck",
            "sliver",
            "island",
            "needle_radius",
            "inside_radius",
            "overlap",
            "opening",
            "doubled",
            "simplified",
            "uneven_from",
            "uneven_to",
            "smallest_width",
            "largest_width",
        ];
        let mut text = "[hem.straight]\nlength = \"1 m\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n[motif.a.limits]\n\
                        needle = \"30 deg\"\ncolour = 2.5\npoints = 77\n"
            .to_owned();
        for key in lengths {
            text.push_str(&format!("{key} = \"0.123 mm\"\n"));
        }
        let changed = read(&text).unwrap().cuts[0].limits.clone();
        assert_eq!(changed.len(), lengths.len() + 3);
        for (key, value) in changed {
            let usual = Limits::usual(Working::Film);
            let own = usual.clone().with(key, value).unwrap_or_else(|| panic!("{key} is no limit"));
            assert_ne!(own, usual, "{key}");
        }
    }

    #[test]
    fn a_limit_below_zero_or_of_no_kind_is_refused() {
        let text = "[hem.straight]\nlength = \"1 m\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n[motif.a.limits]\n\
                    neck = \"-1 mm\"\nneedle = \"sharp\"\n";
        let said: Vec<String> = read(text).unwrap_err().faults().iter().map(|fault| fault.kind.to_string()).collect();
        assert_eq!(said.len(), 2, "{said:?}");
        assert!(said[0].starts_with("neck is -1.0 mm") && said[1].contains("is not an angle"), "{said:?}");
    }
}
