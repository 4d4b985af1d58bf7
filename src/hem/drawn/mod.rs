//! A hem from drawn pattern pieces: panels walked seam to seam and developed into one edge, or a closed edge drawn whole.
//!
//! In: lines of a drawing by id. Out: a [`Chain`] with the places of its seams, and what does not fit. Panels are laid side by
//! side so that their seams fall on each other where they leave the hem, as a pattern maker walks one piece along another.
//! Where the angles at a seam do not add up to a straight line the hem has a kink there, which is told; lines over it are cut
//! on the bisector, which is the seam itself where both panels flare alike.

mod crossing;
mod error;
mod outline;
mod panel;
mod stretch;
mod walk;
mod wish;

use std::collections::BTreeMap;

use kurbo::BezPath;

use super::chain::Chain;
use crate::finding::Finding;
use crate::quantity::Mm;
use stretch::Stretch;

pub use error::DrawnError;
pub use wish::{Allowances, CheckLine, Drawn, DrawnPanel, DrawnPanels, DrawnWay, PanelHand, PanelKind, PanelSide};

/// The line that checks the drawing's size may be off by this share: half a millimetre on a test square of 100 mm.
const SIZE_ERROR: f64 = 0.005;

/// A panel on the hem.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelOnHem {
    /// What it is called: `front`.
    pub name: String,
    /// Where on the hem it begins; past the end of a ring's span for a panel that lies on its join.
    pub from: Mm,
    /// Where it ends.
    pub to: Mm,
}

/// A drawn hem, not yet laid out.
#[derive(Debug)]
pub(super) struct Developed {
    /// From CB round to CB for a ring, from end to end otherwise.
    pub(super) chain: Chain,
    /// Distance of CF, or of the middle, from the chain's start.
    pub(super) zero: f64,
    /// Names and s of the seams between panels.
    pub(super) seams: Vec<(String, f64)>,
    pub(super) keep_clear: Option<Mm>,
    /// s of the left and the right side seam, where they were named.
    pub(super) sides: Option<(f64, f64)>,
    pub(super) panels: Vec<PanelOnHem>,
    /// Length of the shortest seam, as far as seams are drawn.
    pub(super) shortest_seam: Option<f64>,
    pub(super) findings: Vec<Finding>,
}

/// Develops a drawn hem from its lines by id.
pub(super) fn develop(drawn: &Drawn, closed: bool, lines: &BTreeMap<String, BezPath>) -> Result<Developed, DrawnError> {
    let line = |id: &str| lines.get(id).ok_or_else(|| DrawnError::NoLine { id: id.to_owned() });
    if let Some(check) = &drawn.check {
        let found = Stretch::new(&check.id, line(&check.id)?)?.length();
        if (found / check.length.get() - 1.0).abs() > SIZE_ERROR {
            let (id, found) = (check.id.clone(), Mm::new(found));
            return Err(DrawnError::WrongSize { id, found, wanted: check.length });
        }
    }
    match &drawn.way {
        DrawnWay::Outline(id) => outline::develop(id, line(id)?, drawn.allowances),
        DrawnWay::Panels(panels) => walk::develop(panels, drawn.allowances, closed, &line),
    }
}
