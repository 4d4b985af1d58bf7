//! Damaged drawings and job files are read or refused, never with a panic, and what is read is sound.
//!
//! A few hundred cases of each run here; `cargo bench --bench damaged_files -- 100000` runs as many as it is told, with the
//! longest case and the growth of memory.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, missing_docs, reason = "tests read the samples from disk")]

mod damage;

use hemwright::art::{self, ArtError, MotifWish, Working};
use hemwright::job::{self, Look};

#[test]
fn damaged_drawings_are_inspected_or_refused() {
    let samples = damage::drawings();
    let mut read = 0;
    for number in 0..250 {
        let svg = damage::damaged(&samples, number);
        let wish = MotifWish { name: "odd".into(), file: "odd.svg".into(), width: None };
        match art::inspect(&svg, &wish, &Working::Film.into()) {
            Err(ArtError::ReaderFailed { .. }) => panic!("case {number} makes the reader fail: {svg}"),
            Err(error) => assert!(!error.to_string().is_empty() && !error.hint().is_empty()),
            Ok(inspection) => {
                read += 1;
                let mut outlines = inspection.motif.layers.iter().flat_map(|layer| &layer.outlines);
                assert!(outlines.all(|outline| outline.area() > 0.0 && outline.bounds().is_finite()), "case {number}");
            }
        }
    }
    assert!(read > 20, "only {read} were still drawings: the damage is too coarse to test anything");
}

#[test]
fn damaged_job_files_are_read_or_told_what_is_wrong() {
    let samples = damage::jobs();
    let mut read = 0;
    for number in 0..300 {
        let text = damage::damaged(&samples, number);
        match job::read(&text) {
            Ok(_) => read += 1,
            Err(error) => {
                let told = error.render("job.toml", &text, Look::Plain);
                assert!(
                    !told.is_empty() && told.lines().count() < 400,
                    "case {number}: {} lines",
                    told.lines().count()
                );
            }
        }
    }
    assert!(read > 3, "only {read} were still jobs");
}
