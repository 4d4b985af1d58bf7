//! Times planning and writing the demo job inside one process, and its peak memory. Run: `cargo bench --bench whole_plan`.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a measuring program reads files, the clock and prints"
)]

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Instant;

use hemwright::{job, nest, plan, write};

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-art");
    let text = std::fs::read_to_string(folder.join("harvest-dance.toml")).unwrap();
    let job = job::read(&text).unwrap();
    let drawings: BTreeMap<String, String> = job
        .motifs
        .iter()
        .map(|motif| (motif.file.clone(), std::fs::read_to_string(folder.join(&motif.file)).unwrap()))
        .collect();
    for run in 1..=5 {
        let start = Instant::now();
        let set_out = plan::set_out(&job, &drawings).unwrap();
        let first_three = start.elapsed();
        let plan = plan::make(&job, &drawings, &nest::Silent).unwrap();
        let planned = start.elapsed() - first_three;
        let files = write::folder(&plan);
        let written = start.elapsed() - first_three - planned;
        let bytes: usize = files.iter().map(|file| file.bytes.len()).sum();
        println!(
            "run {run}: set out {:.1} ms ({} placements), whole plan {:.1} ms, {} files of {} kB in {:.1} ms",
            first_three.as_secs_f64() * 1e3,
            set_out.setting.bands.iter().map(|band| band.placements.len()).sum::<usize>(),
            planned.as_secs_f64() * 1e3,
            files.len(),
            bytes / 1000,
            written.as_secs_f64() * 1e3
        );
    }
    println!("peak memory {}", peak_memory().unwrap_or_else(|| "not known on this system".to_owned()));
}

/// The kernel's own figure of the largest resident size, where there is one.
fn peak_memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    status.lines().find_map(|line| line.strip_prefix("VmHWM:")).map(|size| size.trim().to_owned())
}
