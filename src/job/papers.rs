//! `[papers]` and `[laying]`: what is printed on, and how hard the program searches for a good layout.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Paper;
use super::check::Check;
use super::given::{Given, Section};
use crate::nest::Effort;

/// `[papers]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [papers]")]
pub(crate) struct PapersKeys {
    /// "A4" or "Letter".
    paper: Option<Given<String>>,
}

/// `[laying]` as written.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, expecting = "a table [laying]")]
pub(crate) struct LayingKeys {
    /// How hard to search: "quick", "usual" or "thorough".
    effort: Option<Given<String>>,
    /// Start of the search; same number, same layout.
    seed: Option<Given<u32>>,
}

/// The paper, A4 unless told otherwise.
pub(crate) fn check_papers(check: &mut Check, section: Option<&Section<PapersKeys>>) -> Paper {
    let given = section.and_then(|section| section.keys.paper.as_ref());
    if given.is_none() {
        check.assume("paper", "A4", "papers.paper");
    }
    check.one_of(given, &[("A4", Paper::A4), ("Letter", Paper::Letter)]).unwrap_or_default()
}

/// Effort and seed of the search.
pub(crate) fn check_laying(check: &mut Check, section: Option<&Section<LayingKeys>>) -> (Effort, u64) {
    let keys = section.map(|section| &section.keys);
    let choices = [("quick", Effort::Quick), ("usual", Effort::Usual), ("thorough", Effort::Thorough)];
    let effort = check.one_of(keys.and_then(|keys| keys.effort.as_ref()), &choices).unwrap_or_default();
    let seed = check.take(keys.and_then(|keys| keys.seed.as_ref())).unwrap_or(1);
    (effort, u64::from(seed))
}
