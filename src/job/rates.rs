//! `[rates]`: how fast the maker works, in minutes, where she knows it better than the tables.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Deserialize;

use super::check::Check;
use super::fault::FaultKind;
use super::given::{Given, Section};
use crate::budget::Rates;

/// `[rates]` as written: minutes for one, or for a metre; weights in grams a square metre.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [rates]")]
pub(crate) struct RateKeys {
    /// Minutes for each sheet: loading, opening its file, a test cut.
    sheet_set_up: Option<Given<f64>>,
    /// Minutes a metre of film cut by machine.
    cut_film: Option<Given<f64>>,
    /// Minutes a metre of cloth cut with scissors.
    cut_fabric: Option<Given<f64>>,
    /// Minutes for the waste of one closed cut.
    weed: Option<Given<f64>>,
    /// Minutes for parting one patch of carrier.
    part_patch: Option<Given<f64>>,
    /// Minutes for chalking the place of one motif.
    mark: Option<Given<f64>>,
    /// Minutes a metre of close zigzag along a cloth piece.
    stitch_edge: Option<Given<f64>>,
    /// Minutes a metre of turned edge sewn down by hand.
    turn_edge: Option<Given<f64>>,
    /// Minutes a metre of hem for one row of pleats.
    lay_pleats: Option<Given<f64>>,
    /// Minutes a metre of hem for a ruffle.
    gather: Option<Given<f64>>,
    /// Minutes for one join of a strip.
    join_strip: Option<Given<f64>>,
    /// Minutes a metre of strip hemmed by machine.
    finish_edge: Option<Given<f64>>,
    /// Minutes a metre of trim sewn on by machine.
    sew_on: Option<Given<f64>>,
    /// Minutes a metre caught down by hand.
    hand_hem: Option<Given<f64>>,
    /// Grams a square metre of film without its carrier.
    film_weight: Option<Given<f64>>,
}

/// Her own rates; the rest stays with the tables.
pub(crate) fn check(check: &mut Check, section: Option<&Section<RateKeys>>) -> Rates {
    let Some(Section { keys, .. }) = section else { return Rates::default() };
    let given: [(&'static str, &Option<Given<f64>>); 15] = [
        ("sheet_set_up", &keys.sheet_set_up),
        ("cut_film", &keys.cut_film),
        ("cut_fabric", &keys.cut_fabric),
        ("weed", &keys.weed),
        ("part_patch", &keys.part_patch),
        ("mark", &keys.mark),
        ("stitch_edge", &keys.stitch_edge),
        ("turn_edge", &keys.turn_edge),
        ("lay_pleats", &keys.lay_pleats),
        ("gather", &keys.gather),
        ("join_strip", &keys.join_strip),
        ("finish_edge", &keys.finish_edge),
        ("sew_on", &keys.sew_on),
        ("hand_hem", &keys.hand_hem),
        ("film_weight", &keys.film_weight),
    ];
    let mut own = BTreeMap::new();
    for (key, given) in given {
        let Some(value) = check.take(given.as_ref()) else { continue };
        match given {
            Some(given) if value < 0.0 => {
                check.fault(&given.at, FaultKind::BelowZero { key, found: value.to_string() });
            }
            _ => {
                own.insert(key.replace('_', "-"), value);
            }
        }
    }
    Rates::with_own(own)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::figure;
    use crate::job::read;

    const JOB: &str = "[hem.straight]\nlength = \"1 m\"\n[[band]]\ngap = \"1 mm\"\n[motif.a]\nart = \"a.svg\"\n";

    #[test]
    fn her_rates_reach_the_budget_and_faults_are_told() {
        let job = read(&format!("{JOB}[rates]\nweed = 0.5\nlay_pleats = 12\n")).unwrap();
        let own = BTreeMap::from([("weed".to_owned(), 0.5), ("lay-pleats".to_owned(), 12.0)]);
        assert_eq!(job.rates, Rates::with_own(own));
        let error = read(&format!("{JOB}[rates]\nweed = -1\nmark = \"1\"\n")).unwrap_err();
        assert_eq!(error.faults().len(), 2);
    }

    #[test]
    fn every_rate_of_the_job_is_a_figure_of_the_tables() {
        let schema = schemars::schema_for!(RateKeys).to_value();
        let keys = schema["properties"].as_object().unwrap();
        assert_eq!(keys.len(), 15);
        for key in keys.keys() {
            assert!(figure(&key.replace('_', "-")).is_some(), "{key} is no figure");
        }
    }
}
