//! What can be wrong with a job file, each fault with its place and what to write instead.

mod hint;
mod kind;
mod render;

use std::fmt;
use std::ops::Range;

pub(crate) use kind::DRAWN_PANEL;
pub use kind::FaultKind;
pub use render::Look;

/// Why a job file cannot be used: every fault found, in order of place.
#[derive(Clone, Debug, PartialEq)]
pub struct JobError {
    faults: Vec<Fault>,
}

/// One fault of a job file.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Bytes of the file it is about; `None` when it is about the file as a whole.
    pub at: Option<Range<usize>>,
    /// What is wrong.
    pub kind: FaultKind,
}

impl JobError {
    /// All faults, sorted by place; those of the whole file come first, how many more there are comes last.
    #[must_use]
    pub fn new(mut faults: Vec<Fault>) -> Self {
        let place = |fault: &Fault| fault.at.as_ref().map(|at| (at.start, at.end));
        faults.sort_by_key(|fault| (matches!(fault.kind, FaultKind::Others { .. }), place(fault)));
        // What two tables take from one line is wrong once.
        faults.dedup();
        Self { faults }
    }

    /// The same with further faults.
    #[must_use]
    pub fn with(mut self, further: Vec<Fault>) -> Self {
        self.faults.extend(further);
        Self::new(self.faults)
    }

    /// The faults, in order of place.
    #[must_use]
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// All faults as text, each with the line of the file it is about.
    #[must_use]
    pub fn render(&self, file: &str, text: &str, look: Look) -> String {
        let renderer = look.renderer();
        let rendered: Vec<String> =
            self.faults.iter().map(|fault| render::render_fault(&renderer, file, text, fault)).collect();
        rendered.join("\n\n")
    }
}

/// Every fault on a line of its own, without the lines of the file.
impl fmt::Display for JobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let lines: Vec<String> = self.faults.iter().map(|fault| fault.kind.to_string()).collect();
        f.write_str(&lines.join("\n"))
    }
}

impl std::error::Error for JobError {}
