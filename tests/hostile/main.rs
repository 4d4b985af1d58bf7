//! Hostile jobs: every one is set out or refused with a clear message, in bounded time and memory, and never with a panic.
#![allow(
    missing_docs,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests, which read the samples from disk"
)]

#[path = "../damage/mod.rs"]
mod damage;
mod jobs;
mod later;
mod pieces;
mod together;

use std::collections::BTreeMap;

use hemwright::job::{self, Look};
use hemwright::plan;

/// A square of 40 mm.
const SQUARE: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">
<path fill="#c62828" d="M0 0H40V40H0Z"/></svg>"##;

/// How a job came out.
#[derive(Debug)]
enum Outcome {
    SetOut(Box<plan::SetOut>),
    Refused(String),
}

impl Outcome {
    #[track_caller]
    fn refusal(self) -> String {
        match self {
            Self::Refused(said) => said,
            Self::SetOut(set) => panic!("set out: {:?}", set.setting.bands.first().map(|band| band.count)),
        }
    }
}

/// Sets a job out; its drawings are the same for every name but those given.
#[track_caller]
fn outcome(text: &str, art: &[(&str, &str)]) -> Outcome {
    let job = match job::read(text) {
        Ok(job) => job,
        Err(fault) => {
            let told = fault.render("job.toml", text, Look::Plain);
            assert!(!fault.faults().is_empty() && told.starts_with("error: "), "{told}");
            assert!(told.lines().count() < 400, "{} lines", told.lines().count());
            return Outcome::Refused(told);
        }
    };
    let mut drawings: BTreeMap<String, String> =
        job::drawings(text).into_iter().map(|(name, _)| (name, SQUARE.to_owned())).collect();
    drawings.extend(art.iter().map(|(name, svg)| ((*name).to_owned(), (*svg).to_owned())));
    match plan::set_out(&job, &drawings) {
        Ok(set) => {
            for band in &set.setting.bands {
                for placed in &band.placements {
                    let figures =
                        [placed.s_line.get(), placed.s_hem.get(), placed.at.x, placed.at.y, placed.turn.get()];
                    assert!(figures.iter().all(|figure| figure.is_finite()), "{placed:?} in\n{text}");
                }
            }
            Outcome::SetOut(Box::new(set))
        }
        Err(fault) => {
            let said = fault.to_string();
            assert!(!said.is_empty() && !fault.hint().is_empty(), "{fault:?} in\n{text}");
            for each in fault.each() {
                assert!(!each.to_string().contains('\n'), "more than one line: {each}");
            }
            // What the file itself says is quoted.
            let own: String = said.split('"').step_by(2).collect();
            for word in ["NaN", "inf ", "-inf", "unwrap", "Some(", "None"] {
                assert!(!own.contains(word), "\"{word}\" in: {said}\nof\n{text}");
            }
            Outcome::Refused(said)
        }
    }
}
