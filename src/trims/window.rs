//! The heights that trims leave free.

use std::collections::BTreeMap;

use super::wish::{Side, TrimWish};
use crate::art::Motif;
use crate::finding::{Finding, Severity};
use crate::place::Setting;
use crate::quantity::Mm;

/// A stretch of height on the right side without a trim.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// From this height above the hem.
    pub from: Mm,
    /// To this height; `None` where nothing lies above.
    pub to: Option<Mm>,
    /// The trim below it; `None` when it begins at the hem.
    pub above: Option<String>,
    /// The trim over it.
    pub below: Option<String>,
}

impl Window {
    /// How high it is; `None` when nothing bounds it above.
    #[must_use]
    pub fn height(&self) -> Option<Mm> {
        self.to.map(|to| to - self.from)
    }

    /// Whether something from one height to another lies inside it.
    #[must_use]
    pub fn holds(&self, from: Mm, to: Mm) -> bool {
        from >= self.from && self.to.is_none_or(|end| to <= end)
    }
}

/// The windows between the trims of the right side, from the hem up. Trims behind the cloth take no window.
#[must_use]
pub fn windows(trims: &[TrimWish]) -> Vec<Window> {
    let mut taken: Vec<(Mm, Mm, &str)> = trims
        .iter()
        .filter(|trim| trim.side == Side::Right)
        .map(|trim| (trim.heights().0, trim.heights().1, trim.name.as_str()))
        .collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut found = Vec::new();
    let (mut free_from, mut last) = (Mm::ZERO, None);
    for (from, to, name) in taken {
        if from > free_from {
            let (above, below) = (last.map(str::to_string), Some(name.to_string()));
            found.push(Window { from: free_from, to: Some(from), above, below });
        }
        if to > free_from {
            free_from = to;
            last = Some(name);
        }
    }
    found.push(Window { from: free_from, to: None, above: last.map(str::to_string), below: None });
    found
}

/// Motifs that reach over or under a trim of the right side: one finding for each band, motif and trim.
///
/// A motif counts as reaching half its height up and down from its middle, as it does when it stands square to the hem.
#[must_use]
pub fn hidden_motifs(trims: &[TrimWish], setting: &Setting, motifs: &BTreeMap<String, Motif>) -> Vec<Finding> {
    let mut found = Vec::new();
    for band in &setting.bands {
        // The lowest and highest reach of each motif of the band.
        let mut reach: BTreeMap<&str, (Mm, Mm)> = BTreeMap::new();
        for placement in &band.placements {
            let Some(motif) = motifs.get(&placement.motif) else { continue };
            let half = motif.height * (placement.scale / 2.0);
            let (low, high) = (placement.height - half, placement.height + half);
            let entry = reach.entry(placement.motif.as_str()).or_insert((low, high));
            *entry = (entry.0.min(low), entry.1.max(high));
        }
        for (motif, (low, high)) in reach {
            for trim in trims.iter().filter(|trim| trim.side == Side::Right) {
                let (from, to) = trim.heights();
                let shared = high.min(to) - low.max(from);
                if shared > Mm::ZERO {
                    found.push(hidden(&band.name, motif, (low, high), trim, shared));
                }
            }
        }
    }
    found
}

fn hidden(band: &str, motif: &str, (low, high): (Mm, Mm), trim: &TrimWish, shared: Mm) -> Finding {
    let (from, to) = trim.heights();
    Finding {
        severity: Severity::LookAtThis,
        kind: "motif-under-trim",
        place: None,
        measure: Some(shared),
        say: format!(
            "{band}: \"{motif}\" reaches from {low} to {high} above the hem, into the {} from {from} to {to}: they share {shared}.",
            trim.name
        ),
        advice: "Set the band higher or lower, make the trim narrower, or leave it so on purpose.".to_string(),
    }
}
