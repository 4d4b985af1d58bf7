//! `[motif.NAME.prepare]`: what is done to a motif's layers between the drawing and the knife.
//!
//! Nothing here is taken unasked but the choice of layering, which follows what the films bear and is always shown.

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::data::usual;
use crate::film::{Islands, Layering, MatchMarks, Preparing, Weeding};
use crate::quantity::{Mm, mm};

/// `[motif.NAME.prepare]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [motif.NAME.prepare]")]
pub(crate) struct PrepareKeys {
    /// "auto", "stack" or "knock out": whether layers stay whole under others.
    layering: Option<Given<String>>,
    /// How far a layer that is cut away reaches under the one above.
    underlap: Option<Given<Mm>>,
    /// Marks outside the motif that show where layers meet.
    match_marks: Option<Given<bool>>,
    /// A box round each patch with relief cuts, for lifting the waste.
    weeding_box: Option<Given<bool>>,
    /// Allowance of turned edges.
    turn_under: Option<Given<Mm>>,
    /// Radius to which needle points are rounded.
    round_points: Option<Given<Mm>>,
    /// Width to which thinner necks are thickened.
    thicken_necks: Option<Given<Mm>>,
    /// "keep", "drop" or "enlarge": what becomes of small islands.
    islands: Option<Given<String>>,
    /// Islands smaller than this both ways are small.
    island_size: Option<Given<Mm>>,
}

/// What is asked, with the usual for the rest.
pub(crate) fn check(check: &mut Check, motif: &str, section: Option<&Section<PrepareKeys>>) -> Preparing {
    let none = PrepareKeys::default();
    let keys = section.map_or(&none, |section| &section.keys);
    let usual = Preparing::default();
    let layerings = [("auto", Layering::Auto), ("stack", Layering::Stack), ("knock out", Layering::KnockOut)];
    let layering = check.one_of(keys.layering.as_ref(), &layerings).unwrap_or(usual.layering);
    if keys.underlap.is_none() && layering == Layering::KnockOut {
        check.assume("underlap of layers cut away", usual.underlap.to_string(), key(motif, "underlap"));
    }
    let yes = |check: &mut Check, given: Option<&Given<bool>>| check.take(given) == Some(true);
    Preparing {
        layering,
        underlap: check.not_below_zero("underlap", keys.underlap.as_ref()).unwrap_or(usual.underlap),
        match_marks: if yes(check, keys.match_marks.as_ref()) { MatchMarks::Outside } else { MatchMarks::None },
        weeding: if yes(check, keys.weeding_box.as_ref()) { Weeding::Box } else { Weeding::None },
        turn_under: check.above_zero("turn_under", keys.turn_under.as_ref()).unwrap_or(usual.turn_under),
        round_points: check.above_zero("round_points", keys.round_points.as_ref()),
        thicken_necks: check.above_zero("thicken_necks", keys.thicken_necks.as_ref()),
        islands: islands(check, motif, keys),
    }
}

/// What a choice of word does with small islands.
#[derive(Clone, Copy)]
enum Word {
    Keep,
    Drop,
    Enlarge,
}

fn islands(check: &mut Check, motif: &str, keys: &PrepareKeys) -> Islands {
    let words = [("keep", Word::Keep), ("drop", Word::Drop), ("enlarge", Word::Enlarge)];
    let word = match (&keys.islands, check.one_of(keys.islands.as_ref(), &words)) {
        (Some(_), None) => {
            // Whether a size goes with what is meant cannot be known.
            check.above_zero("island_size", keys.island_size.as_ref());
            return Islands::Keep;
        }
        (_, word) => word.unwrap_or(Word::Keep),
    };
    if matches!(word, Word::Keep) {
        if let Some(given) = &keys.island_size {
            check.fault(
                &given.at,
                FaultKind::OnlyWith { key: "island_size", with: "islands = \"drop\" or \"enlarge\"" },
            );
        }
        return Islands::Keep;
    }
    let taken = mm(usual("island"));
    if keys.island_size.is_none() {
        check.assume("size of small islands", format!("less than {taken} both ways"), key(motif, "island_size"));
    }
    let size = check.above_zero("island_size", keys.island_size.as_ref()).unwrap_or(taken);
    if matches!(word, Word::Drop) { Islands::Drop(size) } else { Islands::Enlarge(size) }
}

fn key(motif: &str, key: &str) -> String {
    format!("motif.{motif}.prepare.{key}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::read;

    fn job(prepare: &str) -> String {
        format!(
            "[hem.straight]\nlength = \"1 m\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n[motif.a.prepare]\n{prepare}"
        )
    }

    #[test]
    fn every_key_reaches_the_pieces() {
        let text = job(
            "layering = \"knock-out\"\nunderlap = \"1.5 mm\"\nmatch_marks = true\nweeding_box = true\nturn_under = \"5 mm\"\n\
             round_points = \"0.8 mm\"\nthicken_necks = \"1.2 mm\"\nislands = \"drop\"\nisland_size = \"2 mm\"\n",
        );
        let wanted = Preparing {
            layering: Layering::KnockOut,
            underlap: mm(1.5),
            match_marks: MatchMarks::Outside,
            weeding: Weeding::Box,
            turn_under: mm(5.0),
            round_points: Some(mm(0.8)),
            thicken_necks: Some(mm(1.2)),
            islands: Islands::Drop(mm(2.0)),
        };
        assert_eq!(read(&text).unwrap().cuts[0].preparing, wanted);
    }

    #[test]
    fn nothing_is_changed_unasked() {
        assert_eq!(read(&job("")).unwrap().cuts[0].preparing, Preparing::default());
        let asked = read(&job("islands = \"enlarge\"\n")).unwrap();
        assert_eq!(asked.cuts[0].preparing.islands, Islands::Enlarge(mm(3.0)));
        assert!(asked.assumptions.iter().any(|one| one.key == "motif.a.prepare.island_size"));
    }

    #[test]
    fn a_size_without_its_choice_is_refused() {
        let error = read(&job("island_size = \"2 mm\"\nlayering = \"sideways\"\n")).unwrap_err();
        let said: Vec<_> = error.faults().iter().map(|fault| fault.kind.to_string()).collect();
        assert_eq!(
            said,
            ["island_size goes only with islands = \"drop\" or \"enlarge\"", "\"sideways\" is not known here"]
        );
    }
}
