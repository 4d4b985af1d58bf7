//! Where a value comes from and how sure it is.

use serde::Deserialize;

use super::TableFault;

/// How sure a value is; docs/sources.md says what each word means. Order: the surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Confidence {
    /// Stated by a standard or a regulation.
    Standard,
    /// From a reference work, museum or university record, or a laboratory's data.
    Handbook,
    /// From a paper, a maker's sheet or a teaching page; often one source only.
    Published,
    /// What makers do; no published source known.
    CommonPractice,
    /// Recalled, not looked up again.
    FromMemory,
}

impl Confidence {
    /// The word used on papers and in docs/sources.md.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Handbook => "handbook",
            Self::Published => "published",
            Self::CommonPractice => "common practice",
            Self::FromMemory => "from memory",
        }
    }
}

/// Why a limit is what it is.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Basis {
    /// In a few words.
    pub why: String,
    /// Numbers in docs/sources.md.
    pub source: Vec<u16>,
    /// How sure.
    pub confidence: Confidence,
}

/// `[56, 57] standard`
#[must_use]
pub fn sources_text(source: &[u16], confidence: Confidence) -> String {
    let numbers: Vec<String> = source.iter().map(u16::to_string).collect();
    format!("[{}] {}", numbers.join(", "), confidence.words())
}

/// Every value names at least one source.
pub(super) fn has_source(row: &str, value: &str, source: &[u16]) -> Result<(), TableFault> {
    if source.is_empty() || source.contains(&0) {
        return Err(TableFault::NoSource { row: row.into(), value: value.into() });
    }
    Ok(())
}

/// A range runs from low to high, within what a press or a fibre can have.
pub(super) fn is_range(row: &str, value: &str, range: [f64; 2]) -> Result<(), TableFault> {
    let [low, high] = range;
    if low.is_finite() && high.is_finite() && 0.0 <= low && low <= high && high <= 1000.0 {
        return Ok(());
    }
    Err(TableFault::UpsideDown { row: row.into(), value: value.into(), low, high })
}
